//! What the writer's thread keeps of the list of changes: the line that may still be written over in memory, and those that wait for
//! the disk.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use super::compared::compared;
use super::{CHANGES, Change, ChangeFault, ChangeList, How, Noted, SharedChanges};
use crate::failure::RecordError;
use crate::history::{History, Step};
use crate::v1::{SiteFile, Stamp};
use crate::whole::{Disk, text_in};

/// How long a value rests until its line goes to the disk: while it is typed there is one line, not one for every key.
const CALM: Duration = Duration::from_secs(1);

/// What stands at the head of a new file.
const HEAD: &str =
    "// Who changed what, oldest first: a line a change. Lines are added, never changed.\n";

/// The list of changes as it is written.
pub struct Logbook {
    path: PathBuf,
    shared: Arc<SharedChanges>,
    /// The state that was seen last.
    seen: Arc<SiteFile>,
    run: Option<Run>,
    /// Lines for the disk.
    waiting: Vec<String>,
    /// What was found at the start waits for the first change.
    has_changed: bool,
}

/// The changes that were noted last, and may go on.
struct Run {
    /// The state before them.
    before: Arc<SiteFile>,
    /// As they are listed; empty once they are waiting for the disk.
    held: Vec<Change>,
    since: Instant,
    /// How many there are, and whether they are on their way to the disk.
    n_lines: usize,
    is_handed_on: bool,
}

impl Logbook {
    /// Reads the list of a site that was just opened, and compares the site with what the list says last.
    pub fn open(folder: &Path, history: &History, shared: Arc<SharedChanges>) -> Self {
        let path = folder.join(CHANGES);
        let mut list = match text_in(&path) {
            Ok(text) => ChangeList::read(&text),
            Err(RecordError::Missing { .. }) => ChangeList::default(),
            // A folder that is away is told where the site itself is written.
            Err(_) if !folder.is_dir() => ChangeList::default(),
            Err(error) => ChangeList {
                faults: vec![ChangeFault {
                    line: None,
                    reason: error.to_string(),
                }],
                ..ChangeList::default()
            },
        };
        let found = found_changed(&list, folder, history);
        let waiting = found.iter().map(Change::line).collect();
        list.changes.extend(found);
        if !list.changes.is_empty() || !list.faults.is_empty() {
            shared.change(|shared| *shared = list);
        }
        Self {
            path,
            shared,
            seen: history.shared_now(),
            run: None,
            waiting,
            has_changed: false,
        }
    }

    /// Takes in the next state. What is other in it is listed at once, and goes to the disk when it has rested.
    pub fn take(&mut self, state: &Arc<SiteFile>, step: Step, noted: Option<Noted>) {
        let before = std::mem::replace(&mut self.seen, Arc::clone(state));
        let Some(noted) = noted else {
            self.settle();
            return;
        };
        let lines = |before: &SiteFile, goes_on: bool| -> Vec<Change> {
            let differences = compared(before, state).into_iter();
            differences
                .map(|found| Change {
                    at: noted.stamp.at.clone(),
                    by: noted.stamp.by.clone(),
                    device: noted.stamp.device.clone(),
                    what: found.what,
                    from: found.from,
                    to: found.to,
                    how: noted.how,
                    goes_on,
                    step: step.number,
                })
                .collect()
        };
        if noted.goes_on
            && let Some(run) = &mut self.run
        {
            let again = lines(&run.before, run.is_handed_on);
            // On the disk a line can only stand for one other.
            if !run.is_handed_on || (run.n_lines == 1 && again.len() == 1) {
                let n_before = run.n_lines;
                run.n_lines = again.len();
                run.held.clone_from(&again);
                run.since = Instant::now();
                self.shared.change(|list| {
                    let kept = list.changes.len().saturating_sub(n_before);
                    list.changes.truncate(kept);
                    list.changes.extend(again);
                });
                return;
            }
        }
        self.settle();
        let held = lines(&before, false);
        if !held.is_empty() {
            let new = held.clone();
            self.shared.change(|list| list.changes.extend(new));
        }
        self.run = Some(Run {
            before,
            n_lines: held.len(),
            held,
            since: Instant::now(),
            is_handed_on: false,
        });
    }

    /// Hands on what is held, though it has not rested: what comes next stands by itself, or for it.
    pub fn settle(&mut self) {
        if let Some(run) = &mut self.run
            && !run.held.is_empty()
        {
            self.waiting
                .extend(run.held.drain(..).map(|change| change.line()));
            run.is_handed_on = true;
            self.has_changed = true;
        }
    }

    /// How long until what is held has rested; `None` where nothing is.
    pub fn rest(&self) -> Option<Duration> {
        let run = self.run.as_ref().filter(|run| !run.held.is_empty())?;
        Some(CALM.saturating_sub(run.since.elapsed()))
    }

    /// Hands on what has rested.
    pub fn settle_rested(&mut self) {
        if self.rest().is_some_and(|left| left.is_zero()) {
            self.settle();
        }
    }

    /// Whether lines wait for the disk.
    pub fn is_behind(&self) -> bool {
        self.has_changed && !self.waiting.is_empty()
    }

    /// Adds the lines that wait to the file. After an error they still wait.
    ///
    /// # Errors
    /// What stands in the way, the path last.
    pub fn write(&mut self, disk: &dyn Disk) -> Result<(), RecordError> {
        if !self.is_behind() {
            return Ok(());
        }
        let failed = |error| RecordError::from_system("write", &self.path, &error);
        let mut text = match fs::metadata(&self.path) {
            Ok(about) if about.len() > 0 => String::new(),
            _ => HEAD.to_owned(),
        };
        text.extend(self.waiting.iter().map(String::as_str));
        disk.append(&self.path, text.as_bytes()).map_err(failed)?;
        self.waiting.clear();
        Ok(())
    }
}

/// What is other in the site than at the step that the list names last.
fn found_changed(list: &ChangeList, folder: &Path, history: &History) -> Vec<Change> {
    let Some(last) = list.changes.last() else {
        return Vec::new();
    };
    let Some(before) = history.state_to_compare(last.step) else {
        return Vec::new();
    };
    let at = fs::metadata(folder.join("site.ron"))
        .and_then(|about| about.modified())
        .ok()
        .and_then(|time| jiff::Timestamp::try_from(time).ok())
        .map(|time| Stamp::at(time, "", "").at);
    let at = at.unwrap_or_default();
    let step = history.step().number;
    compared(&before, history.now())
        .into_iter()
        .map(|found| Change {
            at: at.clone(),
            what: found.what,
            from: found.from,
            to: found.to,
            how: How::Found,
            step,
            ..Change::default()
        })
        .collect()
}
