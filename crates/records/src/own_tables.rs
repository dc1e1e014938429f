//! All that a person may put over, or in the place of, what is built in: causes and prices. The one place where both are laid.

use std::path::{Path, PathBuf};

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::site::Letterhead;

use crate::failure::RecordError;
use crate::own_file::OwnFile;

/// A person's own tables.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnTables {
    /// Rules for causes.
    pub causes: OwnFile,
    /// The price list.
    pub prices: OwnFile,
    /// Who hands sheets over.
    pub letterhead: OwnFile,
}

/// The catalogue with a person's own tables, and what stood in the way.
#[derive(Debug)]
pub struct OwnRead {
    /// What is to be worked with; the built-in table stands for one that cannot be used.
    pub catalogue: Catalogue,
    /// Why the person's own causes are left out.
    pub causes_fault: Option<RecordError>,
    /// Why the person's own prices are left out.
    pub prices_fault: Option<RecordError>,
    /// Who hands sheets over; `None` where nobody wrote it down.
    pub letterhead: Option<Letterhead>,
    /// Why the person's own letterhead is left out.
    pub letterhead_fault: Option<RecordError>,
}

impl OwnTables {
    /// The tables beside a folder of sites.
    #[must_use]
    pub fn beside(folder: &Path) -> Self {
        Self {
            causes: OwnFile::Beside(folder.join("causes.ron")),
            prices: OwnFile::Beside(folder.join("prices.ron")),
            letterhead: OwnFile::Beside(folder.join("letterhead.ron")),
        }
    }

    /// The same, but for files that a person named.
    #[must_use]
    pub fn or_named(self, causes: Option<PathBuf>, prices: Option<PathBuf>) -> Self {
        Self {
            causes: causes.map_or(self.causes, OwnFile::Named),
            prices: prices.map_or(self.prices, OwnFile::Named),
            ..self
        }
    }

    /// The same, but for a letterhead that a person named.
    #[must_use]
    pub fn or_named_letterhead(self, letterhead: Option<PathBuf>) -> Self {
        Self {
            letterhead: letterhead.map_or(self.letterhead, OwnFile::Named),
            ..self
        }
    }

    /// The built-in catalogue with both tables over it, each as far as it can be used.
    #[must_use]
    pub fn over(&self, built_in: &Catalogue) -> OwnRead {
        let (catalogue, causes_fault) = match self.causes.causes_over(built_in) {
            Ok(catalogue) => (catalogue, None),
            Err(error) => (built_in.clone(), Some(error)),
        };
        let (catalogue, prices_fault) = match self.prices.prices_over(&catalogue) {
            Ok(catalogue) => (catalogue, None),
            Err(error) => (catalogue, Some(error)),
        };
        let (letterhead, letterhead_fault) = match self.letterhead.letterhead() {
            Ok(letterhead) => (letterhead, None),
            Err(error) => (None, Some(error)),
        };
        OwnRead {
            catalogue,
            causes_fault,
            prices_fault,
            letterhead,
            letterhead_fault,
        }
    }
}
