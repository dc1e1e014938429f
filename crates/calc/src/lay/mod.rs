//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod band;
mod checks;
mod clip;
mod compare;
mod course_table;
mod cut_to_fit;
mod cuts;
mod edges;
mod following;
mod grid;
mod laid;
mod layout;
mod openings;
mod pieces;
mod radius;
mod stations;
mod track;
mod trim;
#[cfg(test)]
mod walks;
mod wishes;

pub use band::{SAGITTA_M, Within, field_outline};
pub use clip::{Bounds, Clipper, Parts, Placed, without};
pub use compare::{Compared, OtherWay, compared};
pub use course_table::{Course, Laying, course_table};
pub use cuts::{Bricks, CutFrom, CutLine, CutList, Pattern, Stock, Wanted, saw};
pub use edges::edges;
pub use following::{across, along, needs_clipping};
pub use grid::grid;
pub use laid::{Laid, LayNote, Measured};
pub use layout::{Lay, LayAreas, lay};
pub use openings::{OpeningFault, PlacedOpening, openings};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use radius::LeastRadii;
pub use wishes::LayWishes;
