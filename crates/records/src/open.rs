//! One site, opened.

use std::fs;
use std::path::{Path, PathBuf};

use crate::failure::RecordError;
use crate::history::History;
use crate::own_tables::OwnTables;
use crate::read::read_site;
use crate::v1::SiteFile;
use crate::whole::text_in;

/// A site that was read, with its history. Reading takes no lock and writes nothing.
#[derive(Clone, Debug)]
pub struct OpenSite {
    file: PathBuf,
    folder: Option<PathBuf>,
    site: SiteFile,
    history: History,
}

impl OpenSite {
    /// Opens a site folder, or a file given by itself.
    ///
    /// # Errors
    /// [`RecordError`] with what stands in the way, the path last; the file is left as it is.
    pub fn open(path: impl AsRef<Path>) -> Result<Self, RecordError> {
        let path = path.as_ref();
        let about =
            fs::metadata(path).map_err(|error| RecordError::from_system("open", path, &error))?;
        if about.is_dir() {
            Self::open_folder(path)
        } else {
            Self::open_file(path)
        }
    }

    fn open_folder(folder: &Path) -> Result<Self, RecordError> {
        let file = folder.join("site.ron");
        let (site, text) = read_in_folder(folder)?;
        let history = History::open(folder, &site, &text);
        Ok(Self {
            file,
            folder: Some(folder.to_path_buf()),
            site,
            history,
        })
    }

    /// `site.ron` in its folder is the same as its folder; a file of another name stands alone.
    fn open_file(file: &Path) -> Result<Self, RecordError> {
        if file.file_name().is_some_and(|name| name == "site.ron") {
            let folder = file
                .parent()
                .filter(|parent| !parent.as_os_str().is_empty());
            return Self::open_folder(folder.unwrap_or(Path::new(".")));
        }
        let site = read_site(&text_in(file)?).map_err(|error| RecordError::Unreadable {
            error,
            path: file.to_path_buf(),
        })?;
        Ok(Self {
            file: file.to_path_buf(),
            folder: None,
            history: History::new(site.clone()),
            site,
        })
    }

    /// The site as it stands on disk.
    #[must_use]
    pub const fn site(&self) -> &SiteFile {
        &self.site
    }

    /// Its undo and redo states.
    #[must_use]
    pub const fn history(&self) -> &History {
        &self.history
    }

    /// Site and history to work on.
    #[must_use]
    pub fn into_parts(self) -> (SiteFile, History) {
        (self.site, self.history)
    }

    /// The file that was read.
    #[must_use]
    pub fn file(&self) -> &Path {
        &self.file
    }

    /// Where a person's own tables stand: beside the site folder, or beside a file that stands alone. They need not be there.
    #[must_use]
    pub fn own_tables(&self) -> OwnTables {
        let site = self.folder.as_deref().unwrap_or(&self.file);
        match (site.file_name(), site.parent()) {
            (Some(_), Some(folder)) => OwnTables::beside(folder),
            // `.`, `..` and the like have no name to put another beside.
            _ => OwnTables::beside(&site.join("..")),
        }
    }

    /// The site folder, to start a [`crate::Keeper`] on; `None` for a file that stands alone.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }
}

/// `site.ron` of a folder, with its text.
pub(crate) fn read_in_folder(folder: &Path) -> Result<(SiteFile, String), RecordError> {
    let path = folder.join("site.ron");
    match fs::symlink_metadata(&path) {
        Ok(about) if about.is_symlink() => return Err(RecordError::Link { path }),
        Ok(_) => {}
        Err(error) => {
            return Err(match RecordError::from_system("read", &path, &error) {
                RecordError::Missing { .. } => RecordError::NoSite {
                    path: folder.to_path_buf(),
                },
                other => other,
            });
        }
    }
    let text = text_in(&path)?;
    let site = read_site(&text).map_err(|error| RecordError::Unreadable { error, path })?;
    Ok((site, text))
}
