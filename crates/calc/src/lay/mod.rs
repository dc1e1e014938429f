//! Every brick: which brick there is, the width that it fits, the bond laid out piece by piece, the cuts.

mod asked;
mod brick;
mod closes;
mod coverage;
mod fine;
mod fit;
mod found;
mod grade;
mod laid;
mod pieces;
mod runs_out;
mod sample;
mod tolerance;
mod wishes;

pub use brick::BrickSize;
pub use closes::{BondCloses, Modular};
pub use coverage::{Salvage, coverage_per_m2, joint_share, salvage};
pub use fine::fine;
pub use fit::{EndFit, Fit, FitOffer, RipCut, fit};
pub use found::BrickFound;
pub(crate) use found::brick_found;
pub use grade::{Class, ClassFound, Nearest};
pub use laid::{Laid, LayNote, Measured};
pub use pieces::{Kind, Label, Part, Piece, Pieces, PlanPoint, area_m2};
pub use runs_out::RunsOut;
pub use sample::{
    Aspect, BrickSample, ENOUGH_READINGS, SampleFound, Side, Slip, SlipKind, Spread, sample,
};
pub use tolerance::{
    Standard, en_paving_mean, en_paving_range, en_wall_t2_t1, facing_fbx_fbs, paving_px_ps,
};
pub use wishes::{JointLimits, LayWishes};
