//! One table of a person's own: the file that it stands in.

use std::path::{Path, PathBuf};

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::site::Letterhead;

use crate::causes::read_own_causes;
use crate::failure::RecordError;
use crate::letterhead::read_letterhead;
use crate::prices::read_prices;
use crate::read::ReadError;
use crate::whole::text_in;

/// Which file a person's own table stands in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OwnFile {
    /// Beside the site folders: most people have none.
    Beside(PathBuf),
    /// Named by the person: it must be there.
    Named(PathBuf),
}

impl OwnFile {
    /// The built-in catalogue with the causes of that file over it; as it is where there is no file that must be there.
    ///
    /// # Errors
    /// What stands in the way, with line and column where it stands in the text, the path last; the built-in catalogue is then the
    /// one to go on with.
    pub fn causes_over(&self, built_in: &Catalogue) -> Result<Catalogue, RecordError> {
        self.over(built_in, |text, catalogue| {
            catalogue.causes = read_own_causes(text, &built_in.materials, &built_in.causes)?;
            Ok(())
        })
    }

    /// The catalogue with the price list of that file in the place of its own; as it is where there is no file that must be there.
    ///
    /// # Errors
    /// As [`OwnFile::causes_over`].
    pub fn prices_over(&self, catalogue: &Catalogue) -> Result<Catalogue, RecordError> {
        self.over(catalogue, |text, catalogue| {
            catalogue.prices = read_prices(text, &catalogue.materials)?;
            Ok(())
        })
    }

    /// The letterhead in that file; `None` where there is no file that must be there.
    ///
    /// # Errors
    /// As [`OwnFile::causes_over`].
    pub fn letterhead(&self) -> Result<Option<Letterhead>, RecordError> {
        self.read(read_letterhead)
    }

    /// The file.
    #[must_use]
    pub fn path(&self) -> &Path {
        match self {
            Self::Beside(path) | Self::Named(path) => path,
        }
    }

    fn over(
        &self,
        below: &Catalogue,
        lay: impl FnOnce(&str, &mut Catalogue) -> Result<(), ReadError>,
    ) -> Result<Catalogue, RecordError> {
        let mut catalogue = below.clone();
        self.read(|text| lay(text, &mut catalogue))?;
        Ok(catalogue)
    }

    /// What is read from the text of the file; `None` where there is no file that must be there.
    fn read<T>(
        &self,
        read: impl FnOnce(&str) -> Result<T, ReadError>,
    ) -> Result<Option<T>, RecordError> {
        let text = match (text_in(self.path()), self) {
            (Err(RecordError::Missing { .. }), Self::Beside(_)) => return Ok(None),
            (text, _) => text?,
        };
        let read = read(&text).map_err(|error| RecordError::Unreadable {
            error,
            path: self.path().to_path_buf(),
        })?;
        Ok(Some(read))
    }
}
