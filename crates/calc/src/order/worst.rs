//! The ground if its worst pit held everywhere.

use crate::catalogue::Catalogue;
use crate::site::Site;

/// The site with the layers of its worst pit in every pit; `None` where that changes nothing.
pub(crate) fn worst_site(_site: &Site, _catalogue: &Catalogue) -> Option<Site> {
    None
}
