//! A file on disk, written whole or not at all.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use crate::failure::RecordError;
use crate::read::{LARGEST_FILE_BYTES, ReadError, text_of};

/// The few things that are done to a disk, so that tests can fill it or cut the power at any of them.
pub trait Disk: Send {
    /// Makes a folder; one that is there already is fine.
    ///
    /// # Errors
    /// What the system says.
    fn make_folder(&self, path: &Path) -> io::Result<()>;
    /// Writes a new file and waits until the disk has it. A file left there by a write that was cut short is replaced.
    ///
    /// # Errors
    /// What the system says; what was written so far may remain.
    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Adds to the end of a file, on a line of its own, and waits until the disk has it. A file that is not there is made.
    ///
    /// # Errors
    /// What the system says; part of it may have been added.
    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// Renames a file over another.
    ///
    /// # Errors
    /// What the system says.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Removes a file; one that is not there is fine.
    ///
    /// # Errors
    /// What the system says.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Waits until the disk has the names in a folder.
    ///
    /// # Errors
    /// What the system says.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;
}

/// The disk of this machine.
pub struct MachineDisk;

impl Disk for MachineDisk {
    fn make_folder(&self, path: &Path) -> io::Result<()> {
        match fs::create_dir(path) {
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && path.is_dir() => Ok(()),
            result => result,
        }
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        self.remove(path)?;
        let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(bytes)?;
        file.sync_all()
    }

    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        let mut file = OpenOptions::new()
            .read(true)
            .append(true)
            .create(true)
            .open(path)?;
        // The power may have gone in the middle of the last line.
        if file.metadata()?.len() > 0 {
            file.seek(SeekFrom::End(-1))?;
            let mut last = [0];
            file.read_exact(&mut last)?;
            if last != *b"\n" {
                file.write_all(b"\n")?;
            }
        }
        file.write_all(bytes)?;
        file.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        match fs::remove_file(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
            result => result,
        }
    }

    #[cfg(unix)]
    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        match File::open(path)?.sync_all() {
            // Some network folders cannot do this; there is nothing more to be done for them.
            Err(error)
                if matches!(
                    error.kind(),
                    io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported
                ) =>
            {
                Ok(())
            }
            result => result,
        }
    }

    /// Elsewhere a folder cannot be opened as a file, and the rename itself is kept in order by the file system.
    #[cfg(not(unix))]
    fn sync_folder(&self, _path: &Path) -> io::Result<()> {
        Ok(())
    }
}

/// Writes `text` to `path`, whole or not at all: a new file beside it, waited for, renamed over it. The folder is not waited for.
pub fn replace(disk: &dyn Disk, path: &Path, text: &str) -> Result<(), RecordError> {
    replace_bytes(disk, path, text.as_bytes())
}

/// Writes a file whole or not at all: what stood there stays until the new one is on the disk.
///
/// # Errors
/// [`RecordError`] with the file and what the system says; nothing half written is left.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), RecordError> {
    replace_bytes(&MachineDisk, path, bytes)
}

fn replace_bytes(disk: &dyn Disk, path: &Path, bytes: &[u8]) -> Result<(), RecordError> {
    let beside = beside(path);
    let written = disk
        .write_new(&beside, bytes)
        .and_then(|()| disk.rename(&beside, path));
    written.map_err(|error| {
        // What is left of the new file takes room that a full disk needs; whether it goes makes no difference to the error.
        let _ = disk.remove(&beside);
        RecordError::from_system("write", path, &error)
    })
}

/// Waits until the names in a folder are on disk.
pub fn settle(disk: &dyn Disk, folder: &Path) -> Result<(), RecordError> {
    disk.sync_folder(folder)
        .map_err(|error| RecordError::from_system("write", folder, &error))
}

/// The new file beside the one that it will replace: `site.ron.new`.
pub fn beside(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".new");
    PathBuf::from(name)
}

/// The text of a file of no more than [`LARGEST_FILE_BYTES`].
pub fn text_in(path: &Path) -> Result<String, RecordError> {
    let read_failed = |error: io::Error| RecordError::from_system("read", path, &error);
    let unreadable = |error| RecordError::Unreadable {
        error,
        path: path.to_path_buf(),
    };
    let too_large = |bytes| {
        unreadable(ReadError::TooLarge {
            bytes,
            limit: LARGEST_FILE_BYTES,
        })
    };

    // Asked before it is opened: opening a pipe would wait for its other end.
    let about = fs::metadata(path).map_err(read_failed)?;
    if !about.is_file() {
        return Err(RecordError::NotAFile {
            path: path.to_path_buf(),
        });
    }
    if about.len() > LARGEST_FILE_BYTES {
        return Err(too_large(about.len()));
    }
    let file = File::open(path).map_err(read_failed)?;
    let mut bytes = Vec::new();
    let n_bytes = file
        .take(LARGEST_FILE_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(read_failed)?;
    if u64::try_from(n_bytes).unwrap_or(u64::MAX) > LARGEST_FILE_BYTES {
        return Err(too_large(LARGEST_FILE_BYTES + 1));
    }
    text_of(bytes).map_err(unreadable)
}
