//! The order of writes. Whatever is cut short, `site.ron` is whole, and every state is in it or in the history.
//!
//! 1. the new states, each a new file in `history`;
//! 2. what can no longer be redone is removed there;
//! 3. `site.ron`;
//! 4. `history/at`, a hint for where several states are equal;
//! 5. states beyond the last two hundred are removed.

use std::collections::{BTreeSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::failure::RecordError;
use crate::history::{History, MOST_STATES, Step};
use crate::lock::SiteLock;
use crate::read::{read_site, write_site};
use crate::steps;
use crate::v1::SiteFile;
use crate::whole::{Disk, replace, settle, text_in};

/// What is still to be written of one site.
pub struct Writer {
    disk: Box<dyn Disk>,
    folder: PathBuf,
    lock: Option<SiteLock>,
    /// Numbers of the states in the history folder, once it could be listed.
    numbers: Option<BTreeSet<u64>>,
    /// States that belong into the history before anything else is written.
    waiting: VecDeque<(Step, Arc<SiteFile>)>,
    /// Whether the disk has the names of all states that were written.
    is_history_settled: bool,
    /// Numbers in the history that can no longer be redone.
    dropped: BTreeSet<u64>,
    /// State for `site.ron`.
    now: Option<Arc<SiteFile>>,
    /// Number for `history/at`.
    at: Option<u64>,
    /// What stands in `site.ron` as far as is known here.
    known_text: Option<Arc<str>>,
}

impl Writer {
    pub fn new(
        disk: Box<dyn Disk>,
        folder: PathBuf,
        lock: Option<SiteLock>,
        history: &History,
    ) -> Self {
        Self {
            disk,
            folder,
            lock,
            numbers: None,
            waiting: history.not_on_disk().into(),
            is_history_settled: true,
            dropped: BTreeSet::new(),
            now: None,
            at: None,
            known_text: history.opened_text().cloned(),
        }
    }

    /// Takes in a state that is to be kept. Nothing is written yet.
    pub fn take(&mut self, state: Arc<SiteFile>, step: Step) {
        self.waiting.push_back((step, Arc::clone(&state)));
        self.now = Some(state);
        self.at = Some(step.number);
    }

    /// Whether something that was taken in is not on disk. States that a history brought along wait for the first of those.
    pub const fn is_behind(&self) -> bool {
        self.at.is_some()
    }

    /// Writes all that is still to be written. After an error the rest is still to be written.
    pub fn write(&mut self) -> Result<(), RecordError> {
        if self.lock.is_none() {
            self.lock = Some(SiteLock::take(&self.folder)?);
        }
        // A history that cannot be written is reported, but does not hold up the site itself.
        let history = self.write_history();
        self.write_site()?;
        history?;
        self.write_at()?;
        self.remove_oldest()?;
        self.at = None;
        Ok(())
    }

    /// The disk that is written to.
    pub fn disk(&self) -> &dyn Disk {
        &*self.disk
    }

    fn write_history(&mut self) -> Result<(), RecordError> {
        let history_folder = steps::folder(&self.folder);
        if self.numbers.is_none() {
            let made = self.disk.make_folder(&history_folder);
            made.map_err(|error| RecordError::from_system("write", &history_folder, &error))?;
            settle(&*self.disk, &self.folder)?;
        }
        let numbers = match &mut self.numbers {
            Some(numbers) => numbers,
            None => self.numbers.insert(steps::numbers(&self.folder)?),
        };
        while let Some((step, state)) = self.waiting.front() {
            if !numbers.contains(&step.number) {
                let path = steps::state_path(&self.folder, step.number);
                replace(&*self.disk, &path, &text_to_keep(state, &path)?)?;
                self.is_history_settled = false;
                let first_dropped = step
                    .after
                    .map_or(step.number, |after| after.saturating_add(1));
                self.dropped
                    .extend(numbers.range(first_dropped..step.number));
                numbers.insert(step.number);
            }
            self.waiting.pop_front();
        }
        if !self.is_history_settled {
            settle(&*self.disk, &history_folder)?;
            self.is_history_settled = true;
        }
        while let Some(number) = self.dropped.last().copied() {
            let path = steps::state_path(&self.folder, number);
            self.disk
                .remove(&path)
                .map_err(|error| RecordError::from_system("remove", &path, &error))?;
            numbers.remove(&number);
            self.dropped.remove(&number);
        }
        Ok(())
    }

    fn write_site(&mut self) -> Result<(), RecordError> {
        let Some(state) = &self.now else {
            return Ok(());
        };
        let path = self.folder.join("site.ron");
        let text = text_to_keep(state, &path)?;
        self.copy_what_others_wrote(&path)?;
        replace(&*self.disk, &path, &text)?;
        self.known_text = Some(Arc::from(text));
        settle(&*self.disk, &self.folder)?;
        self.now = None;
        Ok(())
    }

    /// Something else wrote `site.ron` since it was last read or written here: a copy of that is kept under another name.
    fn copy_what_others_wrote(&self, path: &Path) -> Result<(), RecordError> {
        let Some(known) = &self.known_text else {
            return Ok(());
        };
        let theirs = match text_in(path) {
            Ok(theirs) if *theirs == **known => return Ok(()),
            Err(RecordError::Missing { .. }) => return Ok(()),
            theirs => theirs?,
        };
        let copies = (1..=999).map(|n| self.folder.join(format!("site-changed-elsewhere-{n}.ron")));
        for copy in copies {
            match text_in(&copy) {
                Ok(text) if text == theirs => return Ok(()),
                Err(RecordError::Missing { .. }) => return replace(&*self.disk, &copy, &theirs),
                _ => {}
            }
        }
        Err(RecordError::ChangedElsewhere {
            path: path.to_path_buf(),
        })
    }

    fn write_at(&self) -> Result<(), RecordError> {
        let Some(number) = self.at else { return Ok(()) };
        replace(
            &*self.disk,
            &steps::at_path(&self.folder),
            &format!("{number}\n"),
        )
    }

    fn remove_oldest(&mut self) -> Result<(), RecordError> {
        let Some(numbers) = &mut self.numbers else {
            return Ok(());
        };
        while numbers.len() > MOST_STATES {
            let Some(oldest) = numbers.first().copied() else {
                break;
            };
            let path = steps::state_path(&self.folder, oldest);
            self.disk
                .remove(&path)
                .map_err(|error| RecordError::from_system("remove", &path, &error))?;
            numbers.remove(&oldest);
        }
        Ok(())
    }
}

/// The text of a state, once it has been read back and found the same: nothing that could not be opened again is ever written.
fn text_to_keep(state: &SiteFile, path: &Path) -> Result<String, RecordError> {
    let text = write_site(state);
    if read_site(&text).is_ok_and(|read| read == *state) {
        return Ok(text);
    }
    Err(RecordError::System {
        doing: "write",
        reason: "its text would not be read back the same".to_owned(),
        path: path.to_path_buf(),
    })
}
