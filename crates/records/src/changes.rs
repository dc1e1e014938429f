//! Who changed what, and when: `changes.txt` beside `site.ron`, a line a change, oldest first. Lines are only ever added; one that
//! cannot be read is told and passed over, and stays where it is.

mod compared;
mod logbook;
mod named;
mod places;

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use serde::{Deserialize, Serialize};

use crate::read::{options, without_byte_order_mark};
use crate::v1::Stamp;
use crate::written::is_usual;

pub(crate) use logbook::Logbook;

/// The name of the file in a site's folder.
pub(crate) const CHANGES: &str = "changes.txt";

/// One value that was changed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Change {
    /// Date and time by the device's clock, as in a [`Stamp`].
    pub at: String,
    /// Initials; empty where there were none.
    pub by: String,
    /// What the device is called.
    pub device: String,
    /// What was changed, in words of the trade.
    pub what: String,
    /// What stood there before; empty where nothing did.
    pub from: String,
    /// What stands there since.
    pub to: String,
    /// By what it was changed.
    #[serde(skip_serializing_if = "is_usual")]
    pub how: How,
    /// Whether it stands for the line before it, too: a value that was still being written.
    #[serde(skip_serializing_if = "is_usual")]
    pub(crate) goes_on: bool,
    /// Number of the state in the history that came about.
    #[serde(skip_serializing_if = "is_usual")]
    pub(crate) step: u64,
}

/// By what a value was changed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum How {
    /// It was written down.
    #[default]
    Written,
    /// A step was taken back.
    TakenBack,
    /// A step that was taken back was taken forward again.
    BroughtBack,
    /// It was other when the site was opened: the file was changed by hand or by another program, or the device went off.
    Found,
}

/// What is noted of a change beside its values.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Noted {
    /// Who, when, on which device.
    pub stamp: Stamp,
    /// By what.
    pub how: How,
    /// Whether the value that was changed last is still being written.
    pub goes_on: bool,
}

/// A line that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangeFault {
    /// Its number in the file, from 1; none where it is the whole file.
    pub line: Option<usize>,
    /// What was not understood.
    pub reason: String,
}

/// All changes of a site.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ChangeList {
    /// Oldest first, in the order in which they were written down.
    pub changes: Vec<Change>,
    /// Lines that were passed over.
    pub faults: Vec<ChangeFault>,
    /// Rises whenever something is added.
    pub revision: u64,
}

impl Change {
    /// Whether its time is earlier than that of the one written down before it: a clock that was set back, or two that differ. False
    /// where either time cannot be read.
    #[must_use]
    pub fn is_earlier_than(&self, before: &Self) -> bool {
        let second = |change: &Self| change.at.parse().map(jiff::Timestamp::as_second);
        matches!((second(self), second(before)), (Ok(now), Ok(then)) if now < then)
    }

    /// As a line of the file, with its end.
    fn line(&self) -> String {
        match options().to_string(self) {
            Ok(line) => format!("{line}\n"),
            Err(error) => {
                // Texts, a choice and a number always have a form in this notation.
                debug_assert!(false, "a change that cannot be written: {error}");
                String::new()
            }
        }
    }
}

impl ChangeList {
    /// The changes in a text; what cannot be read of it is among the faults.
    #[must_use]
    pub fn read(text: &str) -> Self {
        let mut list = Self::default();
        // Whether the line before is one that another can stand for.
        let mut has_last = false;
        for (idx, line) in without_byte_order_mark(text).lines().enumerate() {
            let line = line.trim();
            if line.is_empty() || line.starts_with("//") {
                continue;
            }
            match options().from_str::<Change>(line) {
                Ok(change) => {
                    if change.goes_on && has_last {
                        list.changes.pop();
                    }
                    list.changes.push(change);
                    has_last = true;
                }
                Err(error) => {
                    list.faults.push(ChangeFault {
                        line: Some(idx + 1),
                        reason: error.code.to_string(),
                    });
                    has_last = false;
                }
            }
        }
        list
    }
}

/// The list as the writer's thread and the window share it.
#[derive(Debug, Default)]
pub(crate) struct SharedChanges(Mutex<Arc<ChangeList>>);

impl SharedChanges {
    pub fn list(&self) -> Arc<ChangeList> {
        Arc::clone(&self.locked())
    }

    fn change(&self, change: impl FnOnce(&mut ChangeList)) {
        let mut shared = self.locked();
        let list = Arc::make_mut(&mut shared);
        change(list);
        list.revision += 1;
    }

    fn locked(&self) -> MutexGuard<'_, Arc<ChangeList>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests;
