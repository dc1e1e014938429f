//! Why the old walk failed: the causes that the readings point to, each with its readings to go to. What a person reads first.

use underbrick_calc::findings::rules::{CauseFound, Evidence, Strength};

use underbrick_sheets::agreement::capital;

use super::heading;
use super::opened::{Opened, Part};
use crate::visit::Visit;
use crate::widgets::cause_row::CauseRow;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

/// So many causes stand there unasked, and so many readings under each: what is read in one go.
const FIRST_CAUSES: usize = 3;
const FIRST_READINGS: usize = 4;

pub(super) fn rows(visit: &Visit, opened: &Opened, rows: &mut Vec<Row>) {
    let causes = &visit.results().causes;
    if causes.is_empty() {
        return;
    }
    rows.push(heading("Why it failed", "strongest evidence first"));
    let n_others = causes.len().saturating_sub(FIRST_CAUSES);
    let all = opened.shows(&Part::OtherCauses);
    let n_shown = if all { causes.len() } else { FIRST_CAUSES };
    rows.extend(
        causes
            .iter()
            .take(n_shown)
            .map(|cause| Row::Cause(row(cause, opened))),
    );
    if n_others > 0 {
        rows.push(Row::More {
            words: if all {
                "show the first three only".to_owned()
            } else if n_others == 1 {
                "show the other one".to_owned()
            } else {
                format!("show the other {n_others}")
            },
            part: Part::OtherCauses,
        });
    }
}

fn row(cause: &CauseFound, opened: &Opened) -> CauseRow {
    let part = Part::ReadingsOf(cause.rule_id.clone());
    let mut readings: Vec<&Evidence> = cause.evidence.iter().collect();
    readings.sort_by_key(|evidence| std::cmp::Reverse(evidence.weight));
    let n_others = readings.len().saturating_sub(FIRST_READINGS);
    let more = match (n_others, opened.shows(&part)) {
        (0, _) => None,
        (_, true) => Some(("fewer".to_owned(), part)),
        (_, false) => {
            readings.truncate(FIRST_READINGS);
            Some((format!("+ {n_others} more"), part))
        }
    };
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
        evidence: readings
            .into_iter()
            .map(|evidence| (evidence.words.clone(), evidence.place))
            .collect(),
        more,
    }
}
