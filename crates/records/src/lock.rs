//! One writer a site: a file in its folder that is locked as long as the site is open to write.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io;
use std::path::Path;

use crate::failure::RecordError;

/// Held as long as it lives. The system gives the lock back when the program ends in whatever way; the file stays and means nothing.
#[derive(Debug)]
pub struct SiteLock {
    _file: File,
}

impl SiteLock {
    /// Takes the lock of a site folder.
    ///
    /// # Errors
    /// [`RecordError::OpenElsewhere`] when another window has it; else what the system says of the lock file.
    pub fn take(folder: &Path) -> Result<Self, RecordError> {
        match fs::metadata(folder) {
            Ok(about) if !about.is_dir() => {
                return Err(RecordError::NotAFolder {
                    path: folder.to_path_buf(),
                });
            }
            Ok(_) => {}
            Err(error) => return Err(RecordError::from_system("open", folder, &error)),
        }
        let path = folder.join(".lock");
        let failed = |error: &io::Error| RecordError::from_system("write", &path, error);
        let file = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)
            .map_err(|error| failed(&error))?;
        match file.try_lock() {
            Ok(()) => Ok(Self { _file: file }),
            Err(TryLockError::WouldBlock) => Err(RecordError::OpenElsewhere {
                path: folder.to_path_buf(),
            }),
            // A file system without locks (some network folders): better written without one than not at all.
            Err(TryLockError::Error(error)) if error.kind() == io::ErrorKind::Unsupported => {
                Ok(Self { _file: file })
            }
            Err(TryLockError::Error(error)) => Err(failed(&error)),
        }
    }
}
