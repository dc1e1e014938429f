//! Laid fields held against plane geometry of another hand.

mod courses_across;
pub(crate) mod courses_along;
pub(crate) mod geometry;
pub(crate) mod runs;
