//! What can be wrong with a picture, in words that name the file, what is wrong with it and the limit.

use std::io;

use super::LARGEST_PICTURE_BYTES;
use super::decode::{LARGEST_DOTS, MOST_MEMORY};

/// Why a picture could not be taken in or shown. The file stands first.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// The name leads out of the folder, or is none.
    #[error("{file:?} is no name of a picture: one without a folder before it is needed")]
    NoName {
        /// As written.
        file: String,
    },
    /// Nothing is there.
    #[error("{file} is not there")]
    Missing {
        /// The file.
        file: String,
    },
    /// A folder, a link, a pipe or a device.
    #[error("{file} is a folder or a link, and no file of its own")]
    NotAFile {
        /// The file.
        file: String,
    },
    /// More bytes than are taken.
    #[error("{file} has {} MB; {} MB is the most", tenths(*bytes), LARGEST_PICTURE_BYTES / 1_000_000)]
    TooLarge {
        /// The file.
        file: String,
        /// How many it has.
        bytes: u64,
    },
    /// Some other kind of file.
    #[error("{file} is neither a JPEG nor a PNG by its first bytes")]
    NeitherJpegNorPng {
        /// The file.
        file: String,
    },
    /// More dots than are shown.
    #[error("{file} has {megadots} million dots; {} million is the most that is shown", LARGEST_DOTS / 1_000_000)]
    TooManyDots {
        /// The file.
        file: String,
        /// How many it has, in millions, rounded up.
        megadots: u64,
    },
    /// A way of storing it that needs the whole of it at once.
    #[error("{file} would take {} MB of memory to show, as it is stored; {} MB is the most", bytes / 1_000_000, MOST_MEMORY / 1_000_000)]
    TooMuchMemory {
        /// The file.
        file: String,
        /// How many bytes.
        bytes: u64,
    },
    /// The picture in the file is damaged.
    #[error("{file} is broken: {why}")]
    Broken {
        /// The file.
        file: String,
        /// What the decoder says.
        why: String,
    },
    /// The system does not let it be read.
    #[error("{file} cannot be read: {why}")]
    Unreadable {
        /// The file.
        file: String,
        /// What the system says.
        why: String,
    },
    /// The folder of pictures cannot be written.
    #[error("{file} cannot be kept: {why}")]
    NotKept {
        /// The file.
        file: String,
        /// What the system says, with the path.
        why: String,
    },
}

impl PictureError {
    pub(super) fn reading(file: &str, error: &io::Error) -> Self {
        let file = file.to_owned();
        match error.kind() {
            io::ErrorKind::NotFound => Self::Missing { file },
            io::ErrorKind::IsADirectory | io::ErrorKind::NotADirectory => Self::NotAFile { file },
            io::ErrorKind::PermissionDenied => Self::Unreadable {
                file,
                why: "there is no permission to read it".to_owned(),
            },
            _ => Self::Unreadable {
                file,
                why: error.to_string(),
            },
        }
    }

    pub(super) fn broken(file: &str, why: &(impl ToString + ?Sized)) -> Self {
        Self::Broken {
            file: file.to_owned(),
            why: why.to_string().trim().to_owned(),
        }
    }
}

/// Megabytes with one figure behind the point, rounded up: what is over a limit never reads as the limit itself.
fn tenths(bytes: u64) -> String {
    let tenths = bytes.div_ceil(100_000);
    format!("{}.{}", tenths / 10, tenths % 10)
}
