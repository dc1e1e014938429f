//! Who changed what and when, newest first.

use underbrick_records::{Change, ChangeFault, How};

use super::stages::when;
use super::{heading, list};
use crate::stops::opened::{BuildList, Opened, Part};
use crate::visit::Visit;
use crate::widgets::build::{BuildBit, ChangeRow};
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

/// How many are shown, and how many more with each tap.
const AT_ONCE: usize = 30;

pub(super) fn rows(visit: &Visit, opened: &Opened, rows: &mut Vec<Row>) {
    let all = visit.changes();
    rows.push(heading(
        "Changes",
        match all.changes.len() {
            0 => "none yet".to_owned(),
            1 => "1 kept".to_owned(),
            n_changes => format!("{n_changes} kept"),
        },
    ));
    rows.extend(
        all.faults
            .first()
            .map(|first| fault(first, all.faults.len())),
    );
    if !list(opened, BuildList::Changes, "who changed what", rows) {
        return;
    }
    rows.push(Row::More {
        words: match visit.device_letter() {
            None => "give this device a letter".to_owned(),
            Some(_) => format!("written on {}: next letter", visit.device()),
        },
        part: Part::NextDevice,
    });
    let most = AT_ONCE.saturating_mul(opened.n_older_changes.saturating_add(1));
    for (idx, change) in all.changes.iter().enumerate().rev().take(most) {
        let before = idx.checked_sub(1).and_then(|idx| all.changes.get(idx));
        rows.push(Row::Build(BuildBit::Change(one(change, before))));
    }
    let n_older = all.changes.len().saturating_sub(most);
    if n_older > 0 {
        rows.push(Row::More {
            words: format!("show older: {n_older} more"),
            part: Part::OlderChanges,
        });
    }
}

fn fault(first: &ChangeFault, n_faults: usize) -> Row {
    let text = match (first.line, n_faults) {
        (None, _) => "The list of changes cannot be read.".to_owned(),
        (Some(line), 1) => format!("Line {line} of changes.txt cannot be read: it is passed over."),
        (Some(line), n_faults) => format!(
            "{n_faults} lines of changes.txt cannot be read, the first is line {line}: they are passed over."
        ),
    };
    Row::Said {
        mark: Mark::NotKnown,
        text,
        under: format!(
            "{}. It stays in the file as it is; what is changed now is added.",
            first.reason
        ),
    }
}

fn one(change: &Change, before: Option<&Change>) -> ChangeRow {
    let or_nothing = |text: &str| {
        if text.trim().is_empty() {
            "nothing".to_owned()
        } else {
            text.to_owned()
        }
    };
    let who = match (change.by.trim(), change.how) {
        (_, How::Found) => "found so when the site was opened".to_owned(),
        ("", _) => "without initials".to_owned(),
        (by, _) => by.to_owned(),
    };
    let how = match change.how {
        How::Written | How::Found => None,
        How::TakenBack => Some("taken back".to_owned()),
        How::BroughtBack => Some("brought back".to_owned()),
    };
    let device = Some(change.device.trim().to_owned()).filter(|device| !device.is_empty());
    let note: Vec<String> = [Some(who), device, Some(when(&change.at)), how]
        .into_iter()
        .flatten()
        .collect();
    let clock = before.filter(|before| change.is_earlier_than(before));
    ChangeRow {
        what: change.what.clone(),
        from: or_nothing(&change.from),
        to: or_nothing(&change.to),
        note: note.join(", "),
        doubt: clock.map_or_else(String::new, |before| {
            if before.device == change.device {
                "Its time is earlier than that of the change before it: the clock was set back."
                    .to_owned()
            } else {
                format!(
                    "Its time is earlier than that of the change before it: the clock of {} differs.",
                    before.device
                )
            }
        }),
    }
}
