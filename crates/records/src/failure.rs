//! What can go wrong between a site and the disk.

use std::io;
use std::path::{Path, PathBuf};

use crate::read::ReadError;

/// Why a site could not be opened or kept. The path stands last.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RecordError {
    /// The file is no site that can be read; it is left as it is.
    #[error("{error}: {}", .path.display())]
    Unreadable {
        /// Line, column and reason.
        error: ReadError,
        /// The file.
        path: PathBuf,
    },
    /// Nothing is there.
    #[error("there is no such folder or file: {}", .path.display())]
    Missing {
        /// What was asked for.
        path: PathBuf,
    },
    /// The folder is there, but no site in it.
    #[error("the folder has no site.ron, so it is no site: {}", .path.display())]
    NoSite {
        /// The folder.
        path: PathBuf,
    },
    /// A file stands where a folder is needed.
    #[error("a file stands where a folder is needed: {}", .path.display())]
    NotAFolder {
        /// The file.
        path: PathBuf,
    },
    /// A folder, a pipe or a device stands where a file is needed.
    #[error("something that is no file stands where a file is needed: {}", .path.display())]
    NotAFile {
        /// What stands there.
        path: PathBuf,
    },
    /// `site.ron` is a symbolic link, which writing it anew would cut.
    #[error("site.ron is a link to another file, which keeping the site would cut; put the file itself there: {}", .path.display())]
    Link {
        /// The link.
        path: PathBuf,
    },
    /// No permission.
    #[error("no permission to {doing}: {}", .path.display())]
    NotAllowed {
        /// What was tried, such as "write".
        doing: &'static str,
        /// Where.
        path: PathBuf,
    },
    /// The disk is full.
    #[error("the disk is full, so nothing more can be written: {}", .path.display())]
    Full {
        /// Where.
        path: PathBuf,
    },
    /// Anything else the system said.
    #[error("cannot {doing} ({reason}): {}", .path.display())]
    System {
        /// What was tried, such as "write".
        doing: &'static str,
        /// The system's words.
        reason: String,
        /// Where.
        path: PathBuf,
    },
    /// A file stands where a new one is to be made.
    #[error("there is one already, and it is not written over: {}", .path.display())]
    AlreadyThere {
        /// The file.
        path: PathBuf,
    },
    /// Another Underbrick has the site open.
    #[error("the site is open in another window: {}", .path.display())]
    OpenElsewhere {
        /// The folder.
        path: PathBuf,
    },
    /// `site.ron` is no longer what was opened.
    #[error("site.ron was changed by something else after it was opened here; open it again: {}", .path.display())]
    ChangedElsewhere {
        /// The file.
        path: PathBuf,
    },
    /// The platform names no folder for a program's data.
    #[error("this system names no folder where a program may keep its data; give a folder")]
    NoDataFolder,
}

impl RecordError {
    /// Sorts an error of the system by what the person can do about it.
    pub(crate) fn from_system(doing: &'static str, path: &Path, error: &io::Error) -> Self {
        let path = path.to_path_buf();
        match error.kind() {
            io::ErrorKind::NotFound => Self::Missing { path },
            io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => {
                Self::NotAllowed { doing, path }
            }
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::Full { path },
            io::ErrorKind::NotADirectory => Self::NotAFolder { path },
            io::ErrorKind::IsADirectory => Self::NotAFile { path },
            _ => Self::System {
                doing,
                reason: error.to_string(),
                path,
            },
        }
    }
}
