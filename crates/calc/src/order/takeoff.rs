//! What the section and the plan need, item by item: nothing is typed twice.

use super::Found;
use super::item::Way;
use super::need::Needs;
use crate::catalogue::Catalogue;
use crate::site::Site;

/// What one way of rebuilding needs.
#[must_use]
pub fn needs(_site: &Site, _catalogue: &Catalogue, _found: Found<'_>, _way: Way) -> Needs {
    Needs::default()
}
