//! Laid fields held against plane geometry of another hand.

mod courses_along;
pub(crate) mod geometry;
pub(crate) mod runs;
