//! What a desk is to the app: a folder for what goes out and comes in, and a program that shows folders.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use underbrick_app::platform::{Exchange, Platform};
use underbrick_records::Shelf;

/// This machine.
pub struct Desk {
    exchange: Exchange,
}

impl Desk {
    /// Hands files over in the person's folder for documents; where the system names none, beside the sites.
    pub fn new(shelf: &Shelf) -> Self {
        let documents = directories::UserDirs::new()
            .and_then(|folders| folders.document_dir().map(Path::to_path_buf));
        let folder = match documents {
            Some(documents) => documents.join("Underbrick"),
            None => beside(shelf.path()),
        };
        Self {
            exchange: Exchange {
                in_words: folder.display().to_string(),
                folder,
            },
        }
    }
}

/// A folder beside the one with the sites, so that what was handed over is not listed as a site.
fn beside(sites: &Path) -> PathBuf {
    let mut name = sites
        .file_name()
        .map_or_else(|| "sites".into(), std::ffi::OsStr::to_os_string);
    name.push("-handed-over");
    sites.with_file_name(name)
}

impl Platform for Desk {
    fn exchange(&self) -> Option<Exchange> {
        Some(self.exchange.clone())
    }

    fn opens_folders(&self) -> bool {
        true
    }

    fn open_folder(&self, folder: &Path) -> Result<(), String> {
        let program = match std::env::consts::OS {
            "windows" => "explorer",
            "macos" => "open",
            _ => "xdg-open",
        };
        let started = Command::new(program)
            .arg(folder)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn();
        match started {
            Ok(mut child) => {
                // Waited for apart from the window, so that no ended process is left behind.
                drop(std::thread::Builder::new().spawn(move || child.wait()));
                Ok(())
            }
            Err(error) => Err(format!(
                "the folder cannot be shown, for {program} cannot be started ({error}): {}",
                folder.display()
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_handed_over_stands_apart_from_the_sites() {
        assert_eq!(
            beside(Path::new("/home/a/sites")),
            Path::new("/home/a/sites-handed-over")
        );
    }
}
