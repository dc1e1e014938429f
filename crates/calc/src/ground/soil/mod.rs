//! What the ground is, how it takes frost, and how deep frost goes.

mod error;
pub mod feel;
mod found;
pub mod frost_group;
mod frost_wishes;
mod reports;
mod shares;
#[cfg(test)]
mod tests;
pub mod texture;
pub mod uscs;

pub use error::SoilError;
pub use found::{FrostFound, FrostMethod, SoilFound, TextureFound, frost_depth_said, soil};
pub use reports::report;
