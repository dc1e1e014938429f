//! The one who writes: a thread that puts every state on disk at once, and never makes the caller wait.

mod writer;

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use self::writer::Writer;
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
struct Mail {
    state: Arc<SiteFile>,
    step: Step,
}

#[derive(Debug, Default)]
struct Shared {
    n_asked: AtomicU64,
    progress: Mutex<Progress>,
    changed: Condvar,
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

        let writer = Writer::new(disk, folder, lock, history);
        let shared = Arc::new(Shared::default());
        let (mail, received) = mpsc::channel();
        let shared_with_writer = Arc::clone(&shared);
        thread::Builder::new()
            .name("site keeper".to_owned())
            .spawn(move || write_what_comes(writer, &received, &shared_with_writer, &*wake))
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
        self.shared.n_asked.fetch_add(1, Ordering::SeqCst);
        let is_sent = self.mail.as_ref().is_some_and(|mail| {
            mail.send(Mail {
                state: state.into(),
                step,
            })
            .is_ok()
        });
        if !is_sent {
            self.shared.progress().failure =
                Some("the writer has stopped; start the program again".to_owned());
        }
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
    mut writer: Writer,
    mail: &Receiver<Mail>,
    shared: &Shared,
    wake: &(dyn Fn() + Send),
) {
    let end = EndNotice(shared);
    let mut n_received = 0;
    let mut is_last = false;
    while !is_last {
        let next = if writer.is_behind() {
            mail.recv_timeout(RETRY_AFTER)
        } else {
            mail.recv().map_err(|_| RecvTimeoutError::Disconnected)
        };
        is_last = matches!(next, Err(RecvTimeoutError::Disconnected));
        for Mail { state, step } in next.into_iter().chain(mail.try_iter()) {
            writer.take(state, step);
            n_received += 1;
        }
        if !writer.is_behind() {
            continue;
        }
        let failure = writer.write().err().map(|error| error.to_string());
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
    // The lock goes before the notice: who waits for the end may open the site again.
    drop(writer);
    drop(end);
}

#[cfg(test)]
mod tests;
