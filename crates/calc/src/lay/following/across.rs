//! Courses from side to side.

use super::super::laid::Laid;
use super::super::wishes::LayWishes;
use crate::line::Run;

/// Courses across the run.
#[must_use]
pub fn across(_run: &Run, _wishes: &LayWishes) -> Laid {
    Laid::default()
}
