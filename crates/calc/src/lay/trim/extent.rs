//! How much of a brick a piece needs.

use super::super::pieces::PlanPoint;
use super::Sizes;

/// The rectangle around a piece, along and across a brick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    pub length_m: f64,
    pub width_m: f64,
}

/// What a piece may be larger than its brick or smaller than the least: a tenth of a millimetre.
const SAME_M: f64 = 1e-4;

impl Extent {
    /// Around an outline whose brick's length lies that way.
    pub fn of(outline: &[PlanPoint], along: (f64, f64)) -> Self {
        Self {
            length_m: reach_m(outline, along),
            width_m: reach_m(outline, (-along.1, along.0)),
        }
    }

    /// Whether it can be cut from one brick laid that way.
    pub fn fits(&self, sizes: &Sizes) -> bool {
        self.length_m <= sizes.length_m + SAME_M && self.width_m <= sizes.width_m + SAME_M
    }

    /// Whether it is smaller than the least piece, along or across.
    pub fn is_small(&self, sizes: &Sizes) -> bool {
        self.length_m < sizes.least_length_m - SAME_M || self.width_m < sizes.least_width_m - SAME_M
    }
}

/// From the first to the last of an outline in a direction of length 1.
pub(super) fn reach_m(outline: &[PlanPoint], towards: (f64, f64)) -> f64 {
    let along = |spot: &PlanPoint| spot.right_m * towards.0 + spot.away_m * towards.1;
    let least_m = outline.iter().map(along).fold(f64::INFINITY, f64::min);
    let most_m = outline.iter().map(along).fold(f64::NEG_INFINITY, f64::max);
    (most_m - least_m).max(0.0)
}

/// The narrowest way through between two parallel lines, one of them along a side.
pub(super) fn thickness_m(outline: &[PlanPoint]) -> f64 {
    let ends = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(ends)
        .filter_map(|(from, to)| {
            let (right_m, away_m) = (to.right_m - from.right_m, to.away_m - from.away_m);
            let length_m = libm::hypot(right_m, away_m);
            (length_m > 0.0).then(|| reach_m(outline, (-away_m / length_m, right_m / length_m)))
        })
        .fold(f64::INFINITY, f64::min)
}
