//! All that a person may put over, or in the place of, what is built in: causes and prices. The one place where both are read.

use std::path::{Path, PathBuf};

use underbrick_calc::catalogue::Catalogue;

use crate::failure::RecordError;
use crate::own_causes::OwnCauses;
use crate::prices::read_prices;
use crate::whole::text_in;

/// Which file a person's own price list stands in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OwnPrices {
    /// Beside the site folders, where there is one.
    Beside(PathBuf),
    /// Named by the person: it must be there.
    Named(PathBuf),
}

/// A person's own tables.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnTables {
    /// Rules for causes.
    pub causes: OwnCauses,
    /// The price list.
    pub prices: OwnPrices,
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
}

impl OwnPrices {
    /// The catalogue with the price list of that file; as it is where there is no file that must be there.
    ///
    /// # Errors
    /// What stands in the way, with line and column where it stands in the text, the path last.
    pub fn over(&self, catalogue: &Catalogue) -> Result<Catalogue, RecordError> {
        let text = match (text_in(self.path()), self) {
            (Err(RecordError::Missing { .. }), Self::Beside(_)) => return Ok(catalogue.clone()),
            (text, _) => text?,
        };
        let prices =
            read_prices(&text, &catalogue.materials).map_err(|error| RecordError::Unreadable {
                error,
                path: self.path().to_path_buf(),
            })?;
        Ok(Catalogue {
            prices,
            ..catalogue.clone()
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

impl OwnTables {
    /// The tables beside a folder of sites.
    #[must_use]
    pub fn beside(folder: &Path) -> Self {
        Self {
            causes: OwnCauses::Beside(folder.join("causes.ron")),
            prices: OwnPrices::Beside(folder.join("prices.ron")),
        }
    }

    /// The same, but for files that a person named.
    #[must_use]
    pub fn or_named(self, causes: Option<PathBuf>, prices: Option<PathBuf>) -> Self {
        Self {
            causes: causes.map_or(self.causes, OwnCauses::Named),
            prices: prices.map_or(self.prices, OwnPrices::Named),
        }
    }

    /// The built-in catalogue with both tables over it, each as far as it can be used.
    #[must_use]
    pub fn over(&self, built_in: &Catalogue) -> OwnRead {
        let (catalogue, causes_fault) = match self.causes.over(built_in) {
            Ok(catalogue) => (catalogue, None),
            Err(error) => (built_in.clone(), Some(error)),
        };
        let (catalogue, prices_fault) = match self.prices.over(&catalogue) {
            Ok(catalogue) => (catalogue, None),
            Err(error) => (catalogue, Some(error)),
        };
        OwnRead {
            catalogue,
            causes_fault,
            prices_fault,
        }
    }
}
