//! Work beside the window: what takes too long for the path of a tap runs on a thread of its own, and wakes the window when it is done.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver, TryRecvError};
use std::thread;

use crate::failure::RecordError;
use crate::whole::write_whole;

/// One piece of work on a thread of its own. Dropping it does not wait: the work comes to its end unseen.
#[derive(Debug)]
pub struct Aside<T> {
    done: Receiver<T>,
}

/// How far a piece of work is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AsideNews<T> {
    /// Not done yet.
    AtWork,
    /// Done.
    Done(T),
    /// It broke off, or its result was taken before.
    Gone,
}

impl<T: Send + 'static> Aside<T> {
    /// Starts the work. `wake` is called when its result is there.
    ///
    /// # Errors
    /// [`RecordError::System`] where the system gives no thread.
    pub fn start(
        work: impl FnOnce() -> T + Send + 'static,
        wake: impl FnOnce() + Send + 'static,
    ) -> Result<Self, RecordError> {
        let (result, done) = mpsc::channel();
        thread::Builder::new()
            .name("beside the window".to_owned())
            .spawn(move || {
                // Nobody waits any more where the other end is gone.
                let _ = result.send(work());
                // Who is woken finds the result, and once it is taken, nothing more.
                drop(result);
                wake();
            })
            .map_err(|error| {
                RecordError::from_system("start a thread to write", Path::new("sheets"), &error)
            })?;
        Ok(Self { done })
    }

    /// What there is to be told. A result is given once.
    #[must_use]
    pub fn news(&self) -> AsideNews<T> {
        match self.done.try_recv() {
            Ok(result) => AsideNews::Done(result),
            Err(TryRecvError::Empty) => AsideNews::AtWork,
            Err(TryRecvError::Disconnected) => AsideNews::Gone,
        }
    }
}

/// Writes a file into a folder, whole or not at all; the folder is made where it is missing. Gives the path.
///
/// # Errors
/// [`RecordError`] with the folder or the file, and what the system says.
pub fn write_into(folder: &Path, name: &str, bytes: &[u8]) -> Result<PathBuf, RecordError> {
    std::fs::create_dir_all(folder)
        .map_err(|error| RecordError::from_system("write", folder, &error))?;
    let path = folder.join(name);
    write_whole(&path, bytes)?;
    Ok(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_result_comes_once_and_wakes() {
        let (news, heard) = mpsc::channel();
        let aside = Aside::start(|| 6 * 7, move || news.send(()).unwrap()).unwrap();
        heard.recv().unwrap();
        assert_eq!(aside.news(), AsideNews::Done(42));
        assert_eq!(aside.news(), AsideNews::Gone);
    }

    #[test]
    fn what_is_not_done_is_at_work() {
        let (go, wait) = mpsc::channel::<()>();
        let aside = Aside::start(move || wait.recv().is_ok(), || {}).unwrap();
        assert_eq!(aside.news(), AsideNews::AtWork);
        go.send(()).unwrap();
    }

    #[test]
    fn a_folder_is_made_and_a_file_in_its_place_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let sheets = folder.path().join("the \"walk\"").join("sheets");
        let path = write_into(&sheets, "owner.txt", b"words").unwrap();
        assert_eq!(std::fs::read(path).unwrap(), b"words");
        let blocked = folder.path().join("blocked");
        std::fs::write(&blocked, "").unwrap();
        let error = write_into(&blocked, "owner.txt", b"words").unwrap_err();
        assert!(error.to_string().contains("blocked"), "{error}");
    }
}
