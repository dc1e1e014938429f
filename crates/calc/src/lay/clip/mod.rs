//! Cuts bricks along the outline of a field, many against one, and openings out of bricks.
//!
//! The outline of the field is kept in rows of cells, so that a brick is compared with the edges beside it only; most bricks meet none
//! and cost one look. What is cut comes out as simple outlines: a brick that the field's edge cuts in two gives two, with no bridge
//! between them.

mod convex;
mod opening;
mod parts;
mod rows;
mod trace;

pub use opening::without;
pub use parts::Parts;

use super::pieces::PlanPoint;
use rows::Rows;

/// Two spots nearer than this are one, and an edge that dips into a brick by less only touches it: 1 nm. Rounding stays below a
/// thousandth of that on the longest walk.
pub(super) const NEAR_M: f64 = 1e-9;
/// Less area than this is nothing: a ten-thousandth of a square millimetre.
const NOTHING_M2: f64 = 1e-10;

/// A field's outline, ready to cut bricks along it.
#[derive(Clone, Debug)]
pub struct Clipper {
    outline: Vec<PlanPoint>,
    rows: Rows,
}

/// How a brick lies to the field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Placed {
    /// All of it is in the field.
    Inside,
    /// None of it is.
    Outside,
    /// What is left of it stands in [`Parts`]: one outline or more, or none where it is next to nothing.
    Cut,
}

impl Clipper {
    /// For an outline that does not meet itself, counter-clockwise as seen from above.
    #[must_use]
    pub fn new(outline: &[PlanPoint]) -> Self {
        Self {
            outline: outline.to_vec(),
            rows: Rows::new(outline),
        }
    }

    /// How a convex brick lies to the field, counter-clockwise as seen from above; its parts where it is cut, counter-clockwise too.
    pub fn place(&self, brick: &[PlanPoint], parts: &mut Parts) -> Placed {
        parts.clear();
        let Some(bounds) = Bounds::of(brick) else {
            return Placed::Outside;
        };
        if let Some(is_inside) = self.rows.edges_beside(bounds, &mut parts.work.edges) {
            return Placed::whole(is_inside);
        }
        let work = &mut parts.work;
        work.convex.take(brick);
        trace::dips(&self.outline, bounds, work);
        if work.ring_is_inside {
            parts.add(&self.outline);
            return Placed::Cut;
        }
        if work.dips.is_empty() {
            return Placed::whole(self.rows.is_inside(work.convex.middle()));
        }
        trace::inside(parts);
        Placed::Cut
    }

    /// Whether a spot is in the field.
    #[must_use]
    pub fn is_inside(&self, spot: PlanPoint) -> bool {
        self.rows.is_inside(spot)
    }

    /// Least and most to the right of the field at any distance away between the two, as ranges that follow each other; they may
    /// reach a few inches beyond the field.
    pub fn ranges(&self, near_m: f64, far_m: f64) -> Vec<(f64, f64)> {
        self.rows.ranges(near_m, far_m)
    }

    /// Bounds of the outline; `None` where it has no corner.
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        Bounds::of(&self.outline)
    }
}

impl Placed {
    const fn whole(is_inside: bool) -> Self {
        if is_inside {
            Self::Inside
        } else {
            Self::Outside
        }
    }
}

/// The upright rectangle around an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Its left.
    pub left_m: f64,
    /// Its right.
    pub right_m: f64,
    /// Its side towards the door.
    pub near_m: f64,
    /// Its side away from the door.
    pub far_m: f64,
}

impl Bounds {
    /// Around these spots; `None` where there are none.
    #[must_use]
    pub fn of(spots: &[PlanPoint]) -> Option<Self> {
        let (first, others) = spots.split_first()?;
        let mut bounds = Self {
            left_m: first.right_m,
            right_m: first.right_m,
            near_m: first.away_m,
            far_m: first.away_m,
        };
        for spot in others {
            bounds.left_m = bounds.left_m.min(spot.right_m);
            bounds.right_m = bounds.right_m.max(spot.right_m);
            bounds.near_m = bounds.near_m.min(spot.away_m);
            bounds.far_m = bounds.far_m.max(spot.away_m);
        }
        Some(bounds)
    }

    /// Larger by so much on every side.
    #[must_use]
    pub fn grown(self, by_m: f64) -> Self {
        Self {
            left_m: self.left_m - by_m,
            right_m: self.right_m + by_m,
            near_m: self.near_m - by_m,
            far_m: self.far_m + by_m,
        }
    }

    /// Whether two rectangles meet.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.left_m <= other.right_m
            && other.left_m <= self.right_m
            && self.near_m <= other.far_m
            && other.near_m <= self.far_m
    }
}

#[cfg(test)]
mod tests;
