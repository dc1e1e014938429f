//! What the device under the app is to it, handed over by the host: where files go out, which edges of the screen to keep clear of, how large
//! its type is, what its back key means. Desktop, tablet and tests each have their own.
//!
//! The folder of the sites is handed over as a [`Shelf`](underbrick_records::Shelf). Loss of the focus and the back key come with egui's input;
//! the scale of the screen is egui's `pixels_per_point`.

pub(crate) mod device;
mod edges;
pub(crate) mod screen;
mod tablet;

use std::path::{Path, PathBuf};

pub(crate) use edges::EdgesWatch;
pub use edges::{Edges, KeepClear, keep_clear, set_keep_clear};
pub use tablet::TabletFolders;

/// The device under the app.
pub trait Platform {
    /// Where files are handed over to other programs, and come in from them; `None` where there is no such place.
    fn exchange(&self) -> Option<Exchange> {
        None
    }

    /// How far system bars, cut-outs and the system's keyboard reach over the window from its edges.
    fn edges(&self) -> Edges {
        Edges::default()
    }

    /// Whether [`Platform::edges`] can be relied on. Where it cannot, a person can keep the edges clear himself.
    fn are_edges_sure(&self) -> bool {
        true
    }

    /// How many times larger than usual the person has all type on this device; 1 where that is not known.
    fn font_scale(&self) -> f32 {
        1.0
    }

    /// Whether the device's back key leaves the app where it has nowhere else to go back to.
    fn back_leaves(&self) -> bool {
        false
    }

    /// Whether [`Platform::open_folder`] can show folders.
    fn opens_folders(&self) -> bool {
        false
    }

    /// Shows a folder in the device's own program for files. Returns at once.
    ///
    /// # Errors
    /// Why it cannot be shown, in words.
    fn open_folder(&self, folder: &Path) -> Result<(), String> {
        Err(format!(
            "this device has no program to show a folder: {}",
            folder.display()
        ))
    }
}

/// A folder through which files go out and come in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exchange {
    /// The folder; it need not be there yet.
    pub folder: PathBuf,
    /// How a person gets there from outside the app, such as "connect the tablet to a computer, and open there: …".
    pub in_words: String,
}

/// A device of which nothing is known: no folder to hand over, no edges, no back key.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct NoPlatform;

impl Platform for NoPlatform {}
