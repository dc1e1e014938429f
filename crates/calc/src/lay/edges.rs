//! Every edge brick.

use super::laid::Laid;
use super::wishes::LayWishes;
use crate::line::Run;

/// Edges.
#[must_use]
pub fn edges(_run: &Run, _wishes: &LayWishes) -> Laid {
    Laid::default()
}
