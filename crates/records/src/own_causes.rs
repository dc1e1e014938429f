//! The catalogue with a person's own table of causes over the built-in one.

use std::path::{Path, PathBuf};

use underbrick_calc::catalogue::Catalogue;

use crate::causes::read_own_causes;
use crate::failure::RecordError;
use crate::whole::text_in;

/// Which file a person's own causes stand in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OwnCauses {
    /// Beside the site folders: most people have none.
    Beside(PathBuf),
    /// Named by the person: it must be there.
    Named(PathBuf),
}

impl OwnCauses {
    /// The built-in catalogue with the causes of that file over it; as it is where there is no file that must be there.
    ///
    /// # Errors
    /// What stands in the way, with line and column where it stands in the text, the path last; the built-in catalogue is then the
    /// one to go on with.
    pub fn over(&self, built_in: &Catalogue) -> Result<Catalogue, RecordError> {
        let text = match (text_in(self.path()), self) {
            (Err(RecordError::Missing { .. }), Self::Beside(_)) => return Ok(built_in.clone()),
            (text, _) => text?,
        };
        let causes =
            read_own_causes(&text, &built_in.materials, &built_in.causes).map_err(|error| {
                RecordError::Unreadable {
                    error,
                    path: self.path().to_path_buf(),
                }
            })?;
        Ok(Catalogue {
            causes,
            ..built_in.clone()
        })
    }

    /// The file.
    #[must_use]
    pub fn path(&self) -> &Path {
        match self {
            Self::Beside(path) | Self::Named(path) => path,
        }
    }
}
