//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod cuts;
mod laid;
mod pieces;
mod wishes;

pub use cuts::{CutFrom, CutLine, CutList, Pattern, Stock, Wanted, saw};
pub use laid::{Laid, LayNote, Measured};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use wishes::LayWishes;
