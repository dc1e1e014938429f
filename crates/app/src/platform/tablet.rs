//! Where things are kept on a tablet.

use std::path::{Path, PathBuf};

use super::Exchange;

/// The folders of a tablet that the app uses.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TabletFolders {
    /// The sites: private to the app.
    pub sites: PathBuf,
    /// What the window itself keeps: private to the app.
    pub window: PathBuf,
    /// Where files go out and come in, if the tablet has such a folder.
    pub exchange: Option<Exchange>,
}

impl TabletFolders {
    /// From the two folders that Android gives an app without asking for a permission: one that nobody else can look into, and one that can
    /// be reached from outside. Android may name none of the second kind, for as long as its storage is away.
    #[must_use]
    pub fn new(private: &Path, reached_from_outside: Option<PathBuf>) -> Self {
        Self {
            sites: private.join("sites"),
            window: private.join("window.ron"),
            exchange: reached_from_outside.map(|outside| {
                let folder = outside.join("exchange");
                Exchange {
                    in_words: over_usb(&folder),
                    folder,
                }
            }),
        }
    }
}

/// How a person gets to a folder of the tablet's storage from a computer.
fn over_usb(folder: &Path) -> String {
    let parts: Vec<_> = folder
        .components()
        .map(|part| part.as_os_str().to_string_lossy().into_owned())
        .collect();
    // The storage is mounted somewhere else on each device; its own folders begin with `Android`.
    let from = parts.iter().position(|part| part == "Android").unwrap_or(0);
    let inside = parts.get(from..).unwrap_or_default().join(" / ");
    format!(
        "connect the tablet to a computer by cable, allow it to transfer files, and open there: internal storage / {inside}"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_that_can_be_reached_is_told_as_a_computer_shows_it() {
        let private = Path::new("/data/user/0/local.underbrick.tablet/files");
        let outside = "/storage/emulated/0/Android/data/local.underbrick.tablet/files";
        let folders = TabletFolders::new(private, Some(outside.into()));
        assert_eq!(folders.sites, private.join("sites"));
        let exchange = folders.exchange.unwrap();
        assert_eq!(exchange.folder, Path::new(outside).join("exchange"));
        let way = "internal storage / Android / data / local.underbrick.tablet / files / exchange";
        assert!(exchange.in_words.ends_with(way), "{}", exchange.in_words);
    }

    #[test]
    fn without_one_there_is_none() {
        let folders = TabletFolders::new(Path::new("/data/files"), None);
        assert_eq!(folders.exchange, None);
    }
}
