//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod course_table;
mod cuts;
mod laid;
mod pieces;
mod wishes;

pub use course_table::{Course, Laying, course_table};
pub use cuts::{Bricks, CutFrom, CutLine, CutList, Pattern, Stock, Wanted, saw};
pub use laid::{Laid, LayNote, Measured};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use wishes::LayWishes;
