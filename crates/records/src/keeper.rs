//! The one who writes: a thread that puts every state on disk at once, and never makes the caller wait.

mod writer;

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use self::writer::Writer;
use crate::changes::{ChangeList, Logbook, Noted, SharedChanges};
use crate::failure::RecordError;
use crate::history::{History, Step};
use crate::lock::SiteLock;
use crate::v1::SiteFile;
use crate::whole::{Disk, MachineDisk, text_in};

/// How long after a failure it is tried again.
const RETRY_AFTER: Duration = Duration::from_secs(1);

/// How long the end of a site waits for the disk.
const LAST_WAIT: Duration = Duration::from_secs(5);

/// Whether what was handed to [`Keeper::keep`] is on disk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeepStatus {
    /// All of it.
    OnDisk,
    /// On its way.
    Writing,
    /// Not yet: it is kept in memory and tried again every second.
    Failed {
        /// Why, in words, with the path last.
        reason: String,
    },
}

/// Keeps one open site on disk. Dropping it waits a few seconds for what is not on disk yet, then gives the site free.
#[derive(Debug)]
pub struct Keeper {
    mail: Option<Sender<Mail>>,
    shared: Arc<Shared>,
}

#[derive(Debug)]
enum Mail {
    /// A state to be kept, with what is noted of the change that led to it.
    State(Arc<SiteFile>, Step, Option<Noted>),
    /// All changes go to the disk, though the last may go on.
    Settle,
}

#[derive(Debug, Default)]
struct Shared {
    n_asked: AtomicU64,
    progress: Mutex<Progress>,
    changed: Condvar,
    changes: Arc<SharedChanges>,
}

#[derive(Debug, Default)]
struct Progress {
    n_on_disk: u64,
    failure: Option<String>,
    has_ended: bool,
}

impl Keeper {
    /// Takes a site folder to write. `wake` is called from the writer's thread whenever [`Keeper::status`] has changed there: when
    /// all is on disk, when writing fails, when it fails for another reason.
    ///
    /// A folder that cannot be written just now is no error: its reason stands in the status from the first state that is kept.
    ///
    /// # Errors
    /// [`RecordError::OpenElsewhere`] when another window writes this site, [`RecordError::ChangedElsewhere`] when `site.ron` is no
    /// longer what `history` was read with, [`RecordError::Missing`] and [`RecordError::NotAFolder`] when there is no such folder.
    pub fn start(
        folder: PathBuf,
        history: &History,
        wake: Box<dyn Fn() + Send>,
    ) -> Result<Self, RecordError> {
        Self::start_on(Box::new(MachineDisk), folder, history, wake)
    }

    pub(crate) fn start_on(
        disk: Box<dyn Disk>,
        folder: PathBuf,
        history: &History,
        wake: Box<dyn Fn() + Send>,
    ) -> Result<Self, RecordError> {
        let lock = match SiteLock::take(&folder) {
            Ok(lock) => Some(lock),
            Err(
                error @ (RecordError::OpenElsewhere { .. }
                | RecordError::Missing { .. }
                | RecordError::NotAFolder { .. }),
            ) => return Err(error),
            Err(_) => None,
        };
        refuse_what_was_not_opened(&folder.join("site.ron"), history)?;

        let history = history.clone();
        let writer = Writer::new(disk, folder.clone(), lock, &history);
        let shared = Arc::new(Shared::default());
        let (mail, received) = mpsc::channel();
        let shared_with_writer = Arc::clone(&shared);
        thread::Builder::new()
            .name("site keeper".to_owned())
            .spawn(move || {
                // The notice stands before anything is read: whoever waits for the end is told it, whatever happens.
                let end = EndNotice(&shared_with_writer);
                let changes = Arc::clone(&shared_with_writer.changes);
                let logbook = Logbook::open(&folder, &history, changes);
                drop(history);
                if shared_with_writer.changes.list().revision > 0 {
                    wake();
                }
                write_what_comes((writer, logbook), &received, &shared_with_writer, &*wake);
                drop(end);
            })
            .map_err(|error| {
                RecordError::from_system("start a thread to write", Path::new("site.ron"), &error)
            })?;
        Ok(Self {
            mail: Some(mail),
            shared,
        })
    }

    /// Hands over a state to be kept, with its step from [`History::push`] or [`History::step`]. Returns at once.
    pub fn keep(&self, state: impl Into<Arc<SiteFile>>, step: Step) {
        self.send(Mail::State(state.into(), step, None));
    }

    /// As [`Keeper::keep`], with who changed it, when and by what: it is added to the list of changes.
    pub fn keep_noted(&self, state: impl Into<Arc<SiteFile>>, step: Step, noted: Noted) {
        self.send(Mail::State(state.into(), step, Some(noted)));
    }

    fn send(&self, mail: Mail) {
        self.shared.n_asked.fetch_add(1, Ordering::SeqCst);
        let is_sent = self.mail.as_ref().is_some_and(|to| to.send(mail).is_ok());
        if !is_sent {
            self.shared.progress().failure =
                Some("the writer has stopped; start the program again".to_owned());
        }
    }

    /// Every change of the site, as far as it was read and noted.
    #[must_use]
    pub fn changes(&self) -> Arc<ChangeList> {
        self.shared.changes.list()
    }

    /// Whether what was handed over is on disk.
    #[must_use]
    pub fn status(&self) -> KeepStatus {
        let progress = self.shared.progress();
        if progress.n_on_disk >= self.shared.n_asked.load(Ordering::SeqCst) {
            return KeepStatus::OnDisk;
        }
        match &progress.failure {
            Some(reason) => KeepStatus::Failed {
                reason: reason.clone(),
            },
            None => KeepStatus::Writing,
        }
    }

    /// Waits until all that was handed over so far is on disk, at most so long. Gives whether it is.
    #[must_use]
    pub fn flush(&self, at_most: Duration) -> bool {
        self.send(Mail::Settle);
        let n_asked = self.shared.n_asked.load(Ordering::SeqCst);
        self.shared.wait_until(at_most, |progress| {
            progress.n_on_disk >= n_asked || progress.has_ended
        });
        self.shared.progress().n_on_disk >= n_asked
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        drop(self.mail.take());
        // A disk that does not answer must not hold up the window for ever.
        self.shared
            .wait_until(LAST_WAIT, |progress| progress.has_ended);
    }
}

impl Shared {
    fn progress(&self) -> MutexGuard<'_, Progress> {
        self.progress.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn wait_until(&self, at_most: Duration, is_so: impl Fn(&Progress) -> bool) {
        let started = Instant::now();
        let mut progress = self.progress();
        while !is_so(&progress) {
            let left = at_most.saturating_sub(started.elapsed());
            if left.is_zero() {
                return;
            }
            progress = self
                .changed
                .wait_timeout(progress, left)
                .unwrap_or_else(PoisonError::into_inner)
                .0;
        }
    }
}

/// Only a file that was read for this history may be written over, or none at all.
fn refuse_what_was_not_opened(path: &Path, history: &History) -> Result<(), RecordError> {
    let may_be_written = match (text_in(path), history.opened_text()) {
        (Ok(text), Some(opened)) => text == **opened,
        (Err(RecordError::Missing { .. }), None) => true,
        (Ok(_), None) | (Err(_), _) => false,
    };
    if may_be_written {
        Ok(())
    } else {
        Err(RecordError::ChangedElsewhere {
            path: path.to_path_buf(),
        })
    }
}

/// Tells those who wait that the writer is gone, whichever way it went.
struct EndNotice<'a>(&'a Shared);

impl Drop for EndNotice<'_> {
    fn drop(&mut self) {
        self.0.progress().has_ended = true;
        self.0.changed.notify_all();
    }
}

fn write_what_comes(
    (mut writer, mut logbook): (Writer, Logbook),
    mail: &Receiver<Mail>,
    shared: &Shared,
    wake: &(dyn Fn() + Send),
) {
    let mut n_received = 0;
    let mut is_last = false;
    while !is_last {
        let is_behind = writer.is_behind() || logbook.is_behind();
        let patience = is_behind.then_some(RETRY_AFTER).or(logbook.rest());
        let next = match patience {
            Some(patience) => mail.recv_timeout(patience),
            None => mail.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        is_last = matches!(next, Err(RecvTimeoutError::Disconnected));
        let n_before = n_received;
        for mail in next.into_iter().chain(mail.try_iter()) {
            match mail {
                Mail::State(state, step, noted) => {
                    logbook.take(&state, step, noted);
                    writer.take(state, step);
                }
                Mail::Settle => logbook.settle(),
            }
            n_received += 1;
        }
        if is_last {
            logbook.settle();
        }
        logbook.settle_rested();
        if n_received == n_before && !writer.is_behind() && !logbook.is_behind() {
            continue;
        }
        let failure = write(&mut writer, &mut logbook)
            .err()
            .map(|error| error.to_string());
        let mut progress = shared.progress();
        let is_news = failure.is_none() || failure != progress.failure;
        if failure.is_none() {
            progress.n_on_disk = n_received;
        }
        progress.failure = failure;
        drop(progress);
        shared.changed.notify_all();
        if is_news {
            wake();
        }
    }
    // The lock goes before the notice of the end: who waits for that may open the site again.
    drop(writer);
}

/// Writes the site, then the list of changes: a list that cannot be written is reported, but holds up nothing.
fn write(writer: &mut Writer, logbook: &mut Logbook) -> Result<(), RecordError> {
    if writer.is_behind() {
        writer.write()?;
    }
    logbook.write(writer.disk())
}

#[cfg(test)]
mod tests;
