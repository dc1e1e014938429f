//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod checks;
mod compare;
mod course_table;
mod cuts;
mod edges;
mod following;
mod laid;
mod layout;
mod pieces;
mod radius;
mod track;
mod wishes;

pub use compare::{Compared, OtherWay, compared};
pub use course_table::{Course, Laying, course_table};
pub use cuts::{Bricks, CutFrom, CutLine, CutList, Pattern, Stock, Wanted, saw};
pub use edges::edges;
pub use following::{across, along, needs_clipping};
pub use laid::{Laid, LayNote, Measured};
pub use layout::{Lay, LayAreas, lay};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use radius::LeastRadii;
pub use wishes::LayWishes;
