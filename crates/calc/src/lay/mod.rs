//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod asked;
mod band;
mod brick;
mod checks;
mod clip;
mod closes;
mod compare;
mod course_table;
mod coverage;
mod cut_to_fit;
mod cuts;
mod edges;
mod fine;
mod fit;
mod following;
mod found;
mod grade;
mod grid;
mod laid;
mod layout;
mod openings;
mod pieces;
mod radius;
mod runs_out;
mod sample;
mod stations;
mod tolerance;
mod track;
mod trim;
#[cfg(test)]
mod walks;
mod wishes;

pub use band::{SAGITTA_M, Within, field_outline};
pub use brick::BrickSize;
pub use clip::{Bounds, Clipper, Parts, Placed, without};
pub use closes::{BondCloses, Modular};
pub use compare::{Compared, OtherWay, compared};
pub use course_table::{Course, Laying, course_table};
pub use coverage::{Salvage, coverage_per_m2, joint_share, salvage};
pub use cuts::{Bricks, CutFrom, CutLine, CutList, Pattern, Stock, Wanted, saw};
pub use edges::edges;
pub use fine::fine;
pub use fit::{EndFit, Fit, FitOffer, RipCut, fit};
pub use following::{across, along, needs_clipping};
pub use found::BrickFound;
pub(crate) use found::brick_found;
pub use grade::{Class, ClassFound, Nearest};
pub use grid::grid;
pub use laid::{Laid, LayNote, Measured};
pub use layout::{Lay, LayAreas, lay};
pub use openings::{OpeningFault, PlacedOpening, openings};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use radius::LeastRadii;
pub use runs_out::RunsOut;
pub use sample::{
    Aspect, BrickSample, ENOUGH_READINGS, SampleFound, Side, Slip, SlipKind, Spread, sample,
};
pub use tolerance::{
    Standard, en_paving_mean, en_paving_range, en_wall_t2_t1, facing_fbx_fbs, paving_px_ps,
};
pub use wishes::{JointLimits, LayWishes};
