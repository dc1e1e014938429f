//! Laid fields held against plane geometry of another hand.

mod bad_wishes;
mod courses_across;
pub(crate) mod courses_along;
mod edge_bricks;
mod fewest_cuts;
pub(crate) mod geometry;
pub(crate) mod runs;
mod tapering;
