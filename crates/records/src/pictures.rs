//! Pictures of a site: files in its folder `pictures`, taken in byte for byte, brought to size for the screen and for paper.
//!
//! Nothing outside that folder is ever read for a name that stands in a record, and nothing in it is ever taken away here: a picture
//! that the record no longer names comes back with undo.

mod failure;

mod name;

mod bring;

mod orientation;
mod shrink;

mod decode;

mod hand;

mod paper;

mod found;

pub use bring::unnamed;
pub use decode::{LARGEST_DOTS, MOST_MEMORY, Pixels};
pub use failure::PictureError;
pub use found::{note_picture, picture_findings};
pub use hand::{PictureHand, PictureNews, PictureSize};
pub(crate) use name::path_of;
pub use paper::{PaperPicture, for_paper, pixels_of};

use std::path::{Path, PathBuf};

/// Largest file that is taken in as a picture: 40 MB.
pub const LARGEST_PICTURE_BYTES: u64 = 40_000_000;

/// Longest side on paper, in dots: 4 1/2 in at 350 dots an inch.
pub const PAPER_DOTS: u32 = 1600;

/// Longest side of the small picture on a row, in dots.
pub const SMALL_DOTS: u32 = 256;

/// Where the pictures of a site lie.
#[must_use]
pub fn pictures_folder(site_folder: &Path) -> PathBuf {
    site_folder.join("pictures")
}
