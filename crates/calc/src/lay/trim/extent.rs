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

    /// Whether it is smaller than the least piece, its longer side against the least length and its shorter against the least width: what
    /// counts is the piece in the hand, not the brick that it was.
    pub fn is_small(&self, sizes: &Sizes) -> bool {
        let longer_m = self.length_m.max(self.width_m);
        let shorter_m = self.length_m.min(self.width_m);
        longer_m < sizes.least_length_m - SAME_M || shorter_m < sizes.least_width_m - SAME_M
    }
}

/// The rectangle around a piece, placed: how far it reaches along and across a brick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reach {
    along: (f64, f64),
    along_m: (f64, f64),
    across_m: (f64, f64),
}

impl Reach {
    pub fn of(outline: &[PlanPoint], along: (f64, f64)) -> Self {
        Self {
            along,
            along_m: span_m(outline, along),
            across_m: span_m(outline, (-along.1, along.0)),
        }
    }

    /// Longer by so much: at its end, or at its start where negative.
    pub fn longer(self, by_m: f64) -> Self {
        Self {
            along_m: (
                self.along_m.0 + by_m.min(0.0),
                self.along_m.1 + by_m.max(0.0),
            ),
            ..self
        }
    }

    /// Wider by so much: on its left, or on its right where negative.
    pub fn wider(self, by_m: f64) -> Self {
        Self {
            across_m: (
                self.across_m.0 + by_m.min(0.0),
                self.across_m.1 + by_m.max(0.0),
            ),
            ..self
        }
    }

    /// Its corners, counter-clockwise, all sides moved outwards by so much.
    pub fn outline(&self, by_m: f64) -> [PlanPoint; 4] {
        let (start_m, end_m) = (self.along_m.0 - by_m, self.along_m.1 + by_m);
        let (right_m, left_m) = (self.across_m.0 - by_m, self.across_m.1 + by_m);
        [
            (start_m, right_m),
            (end_m, right_m),
            (end_m, left_m),
            (start_m, left_m),
        ]
        .map(|(along_m, across_m)| PlanPoint {
            right_m: self.along.0 * along_m - self.along.1 * across_m,
            away_m: self.along.1 * along_m + self.along.0 * across_m,
        })
    }
}

/// From the first to the last of an outline in a direction of length 1.
pub(in crate::lay) fn reach_m(outline: &[PlanPoint], towards: (f64, f64)) -> f64 {
    let (least_m, most_m) = span_m(outline, towards);
    (most_m - least_m).max(0.0)
}

/// Its first and its last place in that direction.
fn span_m(outline: &[PlanPoint], towards: (f64, f64)) -> (f64, f64) {
    let along = |spot: &PlanPoint| spot.right_m * towards.0 + spot.away_m * towards.1;
    let least_m = outline.iter().map(along).fold(f64::INFINITY, f64::min);
    let most_m = outline.iter().map(along).fold(f64::NEG_INFINITY, f64::max);
    (least_m, most_m)
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
