//! Why the old walk failed: the causes that the readings point to, each with its readings to go to.

use underbrick_calc::findings::rules::{CauseFound, Strength};

use super::heading;
use crate::visit::Visit;
use crate::widgets::cause_row::CauseRow;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, rows: &mut Vec<Row>) {
    let causes = &visit.results().causes;
    if causes.is_empty() {
        return;
    }
    rows.push(heading("Why it failed", "strongest evidence first"));
    rows.extend(causes.iter().map(|cause| Row::Cause(row(cause))));
}

fn row(cause: &CauseFound) -> CauseRow {
    let evidence = cause.evidence.iter();
    CauseRow {
        mark: match cause.strength {
            Strength::Possible => Mark::Note,
            Strength::Likely | Strength::Sure => Mark::Wrong,
        },
        title: format!(
            "{}: {}",
            capital(cause.cause.words()),
            cause.strength.word()
        ),
        trade: cause.trade.clone(),
        homeowner: format!("“{}”", cause.homeowner),
        under: format!("{} · {}", cause.remedy, cause.source),
        evidence: evidence
            .map(|evidence| (evidence.words.clone(), evidence.place))
            .collect(),
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
