//! From readings to section, lifts and quantities. Pure: knows nothing of files, clocks, screens or paper.
//!
//! [`compute()`] is the one entry. Its folders follow the visit, so that a mason can find a formula.

pub mod bed;
pub mod build;
pub mod catalogue;
mod compute;
pub mod defaults;
pub mod field;
pub mod findings;
pub mod ground;
pub mod lay;
pub mod line;
pub mod measure;
pub mod order;
pub mod place;
pub mod quantity;
pub mod site;

pub use compute::{Results, compute, compute_after};
