//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod band;
mod clip;
mod grid;
mod laid;
mod openings;
mod pieces;
mod stations;
mod trim;
#[cfg(test)]
mod walks;
mod wishes;

pub use band::{SAGITTA_M, Within, field_outline};
pub use clip::{Bounds, Clipper, Parts, Placed, without};
pub use grid::grid;
pub use laid::{Laid, LayNote, Measured};
pub use openings::{OpeningFault, PlacedOpening, openings};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use wishes::LayWishes;
