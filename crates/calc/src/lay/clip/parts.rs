//! What is left of a brick, and the room to work it out: kept from brick to brick, so that a cut costs no allocation.

use super::super::pieces::{PlanPoint, area_m2};
use super::convex::Convex;
use super::trace::Dip;
use super::{NEAR_M, NOTHING_M2};

/// The outlines that are left of one brick, counter-clockwise as seen from above.
#[derive(Clone, Debug, Default)]
pub struct Parts {
    spots: Vec<PlanPoint>,
    ends: Vec<usize>,
    pub(super) work: Work,
}

/// Room to work.
#[derive(Clone, Debug, Default)]
pub(super) struct Work {
    /// The convex outline at work.
    pub convex: Convex,
    /// Edges of the ring beside it, in order.
    pub edges: Vec<u32>,
    /// Where the ring dips into the convex outline.
    pub dips: Vec<Dip>,
    /// Spots of all dips.
    pub dip_spots: Vec<PlanPoint>,
    /// The whole ring lies inside the convex outline.
    pub ring_is_inside: bool,
}

impl Parts {
    /// Each outline.
    pub fn iter(&self) -> impl Iterator<Item = &[PlanPoint]> {
        let starts = std::iter::once(0).chain(self.ends.iter().copied());
        starts
            .zip(&self.ends)
            .map(|(start, &end)| self.spots.get(start..end).unwrap_or_default())
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// Whether nothing is left.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// Takes one outline in place of all, tidied.
    pub(in crate::lay) fn take(&mut self, outline: &[PlanPoint]) {
        self.clear();
        self.add(outline);
    }

    pub(super) fn clear(&mut self) {
        self.spots.clear();
        self.ends.clear();
    }

    pub(super) fn add(&mut self, outline: &[PlanPoint]) {
        self.spots.extend_from_slice(outline);
        self.close();
    }

    pub(super) fn push(&mut self, spot: PlanPoint) {
        self.spots.push(spot);
    }

    /// Corners of the convex outline at work that are passed along its border from a place on and for so far.
    pub(super) fn push_corners(&mut self, from_m: f64, for_m: f64) {
        self.spots
            .extend(self.work.convex.corners_passed(from_m, for_m));
    }

    /// The same against the turn of the border.
    pub(super) fn push_corners_back(&mut self, from_m: f64, for_m: f64) {
        let around_m = self.work.convex.around_m;
        let mut start_m = from_m - for_m;
        if start_m < 0.0 {
            start_m += around_m;
        }
        self.spots
            .extend(self.work.convex.corners_passed(start_m, for_m).rev());
    }

    /// Ends an outline: doubled corners and needles of no width go, and so does an outline of next to no area.
    pub(super) fn close(&mut self) {
        let start = self.ends.last().copied().unwrap_or(0);
        self.tidy_from(start);
        let is_something = self
            .spots
            .get(start..)
            .is_some_and(|outline| outline.len() >= 3 && area_m2(outline) > NOTHING_M2);
        if is_something {
            self.ends.push(self.spots.len());
        } else {
            self.spots.truncate(start);
        }
    }

    /// Writes the outline that starts there anew, without doubled corners and needles.
    fn tidy_from(&mut self, start: usize) {
        let mut kept = start;
        for read in start..self.spots.len() {
            let Some(&spot) = self.spots.get(read) else {
                break;
            };
            while kept > start && self.is_superfluous(start, kept, spot) {
                kept -= 1;
            }
            if let Some(place) = self.spots.get_mut(kept) {
                *place = spot;
                kept += 1;
            }
        }
        // The same where the end meets the start.
        let mut first = start;
        while kept > first + 2 {
            let (Some(&head), Some(&after), Some(&last), Some(&before)) = (
                self.spots.get(first),
                self.spots.get(first + 1),
                self.spots.get(kept - 1),
                self.spots.get(kept - 2),
            ) else {
                break;
            };
            if is_double_or_needle(before, last, head) {
                kept -= 1;
            } else if is_double_or_needle(last, head, after) {
                first += 1;
            } else {
                break;
            }
        }
        self.spots.truncate(kept);
        self.spots.drain(start..first);
    }

    /// Whether the last kept corner goes when this one follows.
    fn is_superfluous(&self, start: usize, kept: usize, next: PlanPoint) -> bool {
        let Some(&last) = self.spots.get(kept - 1) else {
            return false;
        };
        let before = if kept >= start + 2 {
            self.spots.get(kept - 2).copied()
        } else {
            None
        };
        match before {
            Some(before) => is_double_or_needle(before, last, next),
            None => is_same(last, next),
        }
    }
}

fn is_same(one: PlanPoint, other: PlanPoint) -> bool {
    (one.right_m - other.right_m).abs() < NEAR_M && (one.away_m - other.away_m).abs() < NEAR_M
}

/// Whether a corner is the next one again, or the tip of a needle: out and back on one line.
fn is_double_or_needle(before: PlanPoint, corner: PlanPoint, next: PlanPoint) -> bool {
    if is_same(corner, next) {
        return true;
    }
    let (out_right, out_away) = (
        corner.right_m - before.right_m,
        corner.away_m - before.away_m,
    );
    let (back_right, back_away) = (next.right_m - corner.right_m, next.away_m - corner.away_m);
    let turned_back = out_right * back_right + out_away * back_away < 0.0;
    // The shorter way of the two stands off the line of the other by this.
    let cross = (out_right * back_away - out_away * back_right).abs();
    let longer_square = (out_right * out_right + out_away * out_away)
        .max(back_right * back_right + back_away * back_away);
    turned_back && cross * cross <= NEAR_M * NEAR_M * longer_square
}
