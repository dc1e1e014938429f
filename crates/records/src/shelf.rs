//! The folder of sites: one folder a site.

mod samples;

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::failure::RecordError;
use crate::open::read_in_folder;
use crate::own_tables::OwnTables;
use crate::read::write_site;
use crate::v1::SiteFile;
use crate::whole::{Disk, MachineDisk, replace, settle};

/// The folder in which the sites are kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shelf {
    path: PathBuf,
}

/// One folder on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The site folder.
    pub folder: PathBuf,
    /// Whether its site can be read.
    pub state: EntryState,
    /// When the site was last written.
    pub changed: SystemTime,
}

/// Whether a site on the shelf can be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EntryState {
    /// It can.
    Ready {
        /// Its address.
        address: String,
        /// Which walk.
        walk: String,
    },
    /// It cannot, and is left as it is.
    Broken(RecordError),
}

impl Shelf {
    /// The shelf in the platform's folder for a person's data.
    ///
    /// # Errors
    /// [`RecordError::NoDataFolder`] where the platform names none.
    pub fn platform() -> Result<Self, RecordError> {
        let folders = directories::ProjectDirs::from("", "", "underbrick")
            .ok_or(RecordError::NoDataFolder)?;
        Ok(Self::at(folders.data_dir().join("sites")))
    }

    /// The shelf in any folder; it need not be there yet.
    #[must_use]
    pub fn at(path: impl Into<PathBuf>) -> Self {
        Self { path: path.into() }
    }

    /// Its folder.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Where a person's own tables stand: beside the site folders. They need not be there.
    #[must_use]
    pub fn own_tables(&self) -> OwnTables {
        OwnTables::beside(&self.path)
    }

    /// Where a person's settings stand: `settings.ron` beside the site folders. It need not be there.
    #[must_use]
    pub fn settings(&self) -> PathBuf {
        self.path.join("settings.ron")
    }

    /// All sites, the one written last first. One that cannot be read stands among the others with the reason. A shelf that is not
    /// there yet is empty.
    ///
    /// # Errors
    /// Where the folder cannot be listed.
    pub fn list(&self) -> Result<Vec<Entry>, RecordError> {
        let failed = |error: io::Error| RecordError::from_system("list", &self.path, &error);
        let folders = match fs::read_dir(&self.path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            folders => folders.map_err(failed)?,
        };
        let mut entries = Vec::new();
        for folder in folders {
            let folder = folder.map_err(failed)?;
            let is_hidden = folder.file_name().to_string_lossy().starts_with('.');
            if !is_hidden && folder.path().is_dir() {
                entries.extend(entry(folder.path()));
            }
        }
        entries.sort_by(|one, other| {
            other
                .changed
                .cmp(&one.changed)
                .then_with(|| one.folder.cmp(&other.folder))
        });
        Ok(entries)
    }

    /// Makes a folder for a new site, named after its address, and gives it.
    ///
    /// # Errors
    /// What stands in the way, the path last; then no folder is left behind.
    pub fn create(&self, site: &SiteFile) -> Result<PathBuf, RecordError> {
        self.create_with(
            &MachineDisk,
            &folder_name(&site.address, &site.walk),
            &write_site(site),
        )
    }

    /// Puts copies of the built-in sample sites on the shelf and gives their folders.
    ///
    /// # Errors
    /// As [`Shelf::create`]; samples that were copied before stay.
    pub fn copy_samples(&self) -> Result<Vec<PathBuf>, RecordError> {
        samples::SAMPLES
            .iter()
            .map(|(name, text)| self.create_with(&MachineDisk, name, text))
            .collect()
    }

    pub(crate) fn create_with(
        &self,
        disk: &dyn Disk,
        name: &str,
        text: &str,
    ) -> Result<PathBuf, RecordError> {
        let folder = self.make_folder(name)?;
        let written = replace(disk, &folder.join("site.ron"), text)
            .and_then(|()| settle(disk, &folder))
            .and_then(|()| settle(disk, &self.path));
        if let Err(error) = written {
            // Only what was made here: the folder was not there before. The error that counts is the first one.
            let _ = disk.remove(&folder.join("site.ron"));
            let _ = fs::remove_dir(&folder);
            return Err(error);
        }
        Ok(folder)
    }

    /// Makes a folder on the shelf, and the shelf where it is not there yet.
    pub(crate) fn make_folder(&self, name: &str) -> Result<PathBuf, RecordError> {
        fs::create_dir_all(&self.path).map_err(|error| {
            match RecordError::from_system("make a folder", &self.path, &error) {
                RecordError::System { .. } if self.path.exists() => RecordError::NotAFolder {
                    path: self.path.clone(),
                },
                other => other,
            }
        })?;
        self.make_free_folder(name)
    }

    /// Makes a folder of that name, or of that name and the first number that is free.
    fn make_free_folder(&self, name: &str) -> Result<PathBuf, RecordError> {
        let mut number = 1_u32;
        loop {
            let folder = self.path.join(if number == 1 {
                name.to_owned()
            } else {
                format!("{name}-{number}")
            });
            match fs::create_dir(&folder) {
                Ok(()) => return Ok(folder),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < u32::MAX => {
                    number += 1;
                }
                Err(error) => {
                    return Err(RecordError::from_system("make a folder", &folder, &error));
                }
            }
        }
    }
}

/// What stands in one folder; `None` for a folder that never was a site.
fn entry(folder: PathBuf) -> Option<Entry> {
    let state = match read_in_folder(&folder) {
        Ok((site, _)) => EntryState::Ready {
            address: site.address,
            walk: site.walk,
        },
        Err(RecordError::NoSite { .. }) if !folder.join("history").is_dir() => return None,
        Err(error) => EntryState::Broken(error),
    };
    let about = fs::symlink_metadata(folder.join("site.ron")).or_else(|_| fs::metadata(&folder));
    let changed = about
        .and_then(|about| about.modified())
        .unwrap_or(SystemTime::UNIX_EPOCH);
    Some(Entry {
        folder,
        state,
        changed,
    })
}

/// A folder name that every file system takes: lower-case letters, digits and single dashes, at most 48 of them, and no name that a
/// system keeps for its devices.
pub(crate) fn folder_name(address: &str, walk: &str) -> String {
    let mut name = String::new();
    for character in address
        .chars()
        .chain(" ".chars())
        .chain(walk.chars())
        .take(200)
    {
        if name.len() >= 48 {
            break;
        }
        let plain = character.to_ascii_lowercase();
        if plain.is_ascii_alphanumeric() {
            name.push(plain);
        } else if !name.is_empty() && !name.ends_with('-') && plain != '\'' {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    let is_device = matches!(name, "con" | "prn" | "aux" | "nul")
        || name
            .strip_prefix("com")
            .or_else(|| name.strip_prefix("lpt"))
            .is_some_and(|rest| rest.len() == 1);
    match name {
        "" => "site".to_owned(),
        name if is_device => format!("site-{name}"),
        name => name.to_owned(),
    }
}
