//! Two neighbours made one across the joint between them.

use super::super::pieces::PlanPoint;

/// Sides that face each other across a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Facing {
    /// The side of the one, by its first corner, and that of the other.
    one_side: usize,
    other_side: usize,
    /// Direction of the one's side.
    pub along: (f64, f64),
    /// Where they face each other, from the first corner of the one's side.
    from_m: f64,
    to_m: f64,
    /// Length of the one's side.
    pub side_m: f64,
    /// First corner of the one's side.
    pub start: PlanPoint,
    /// How far they are apart.
    pub gap_m: f64,
}

/// Sides that turn from each other by more than this do not face each other: sine of 2 degrees.
const PARALLEL: f64 = 0.035;
/// Sides that share less than this do not face each other.
const LEAST_SHARED_M: f64 = 1e-3;

impl Facing {
    /// The sides of two outlines, both counter-clockwise, that face each other along the longest way across no more than `most_gap_m`.
    pub fn between(one: &[PlanPoint], other: &[PlanPoint], most_gap_m: f64) -> Option<Self> {
        let mut best: Option<Self> = None;
        for (one_side, start, end) in sides(one) {
            let (right_m, away_m) = (end.right_m - start.right_m, end.away_m - start.away_m);
            let side_m = libm::hypot(right_m, away_m);
            if side_m < LEAST_SHARED_M {
                continue;
            }
            let along = (right_m / side_m, away_m / side_m);
            for (other_side, other_start, other_end) in sides(other) {
                let (start_along_m, start_off_m) = seen_from(start, along, other_start);
                let (end_along_m, end_off_m) = seen_from(start, along, other_end);
                let shared_m = start_along_m.min(side_m) - end_along_m.max(0.0);
                let gap_m = start_off_m.max(end_off_m);
                let is_facing = shared_m > LEAST_SHARED_M
                    && start_off_m.min(end_off_m) > -1e-6
                    && gap_m <= most_gap_m
                    && (start_off_m - end_off_m).abs() <= PARALLEL * (start_along_m - end_along_m);
                if is_facing && best.is_none_or(|best| shared_m > best.shared_m()) {
                    best = Some(Self {
                        one_side,
                        other_side,
                        along,
                        from_m: end_along_m.max(0.0),
                        to_m: start_along_m.min(side_m),
                        side_m,
                        start,
                        gap_m,
                    });
                }
            }
        }
        best
    }

    /// Along how much of the side they face each other.
    pub fn shared_m(&self) -> f64 {
        self.to_m - self.from_m
    }

    /// Both and the joint between them as one outline: around the one to its side, across, around the other and back.
    pub fn joined(&self, one: &[PlanPoint], other: &[PlanPoint]) -> Vec<PlanPoint> {
        let mut outline = Vec::with_capacity(one.len() + other.len() + 4);
        outline.extend(turned_to(one, self.one_side + 1));
        outline.push(self.on_one(self.from_m));
        outline.extend(self.on_other(other, self.from_m));
        outline.extend(turned_to(other, self.other_side + 1));
        outline.extend(self.on_other(other, self.to_m));
        outline.push(self.on_one(self.to_m));
        outline
    }

    /// The joint between them, as far as they face each other, counter-clockwise.
    pub fn bridge(&self, other: &[PlanPoint]) -> Option<[PlanPoint; 4]> {
        Some([
            self.on_one(self.from_m),
            self.on_other(other, self.from_m)?,
            self.on_other(other, self.to_m)?,
            self.on_one(self.to_m),
        ])
    }

    fn on_one(&self, along_m: f64) -> PlanPoint {
        PlanPoint {
            right_m: self.start.right_m + self.along.0 * along_m,
            away_m: self.start.away_m + self.along.1 * along_m,
        }
    }

    /// The spot of the other's side that lies across from a place along the one's.
    fn on_other(&self, other: &[PlanPoint], along_m: f64) -> Option<PlanPoint> {
        let (_, start, end) = sides(other).nth(self.other_side)?;
        let (start_along_m, _) = seen_from(self.start, self.along, start);
        let (end_along_m, _) = seen_from(self.start, self.along, end);
        let part = ((along_m - start_along_m) / (end_along_m - start_along_m)).clamp(0.0, 1.0);
        Some(PlanPoint {
            right_m: start.right_m + (end.right_m - start.right_m) * part,
            away_m: start.away_m + (end.away_m - start.away_m) * part,
        })
    }
}

fn sides(outline: &[PlanPoint]) -> impl Iterator<Item = (usize, PlanPoint, PlanPoint)> {
    let ends = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(ends)
        .enumerate()
        .map(|(side, (&start, &end))| (side, start, end))
}

/// A spot along a side from its first corner, and off it, outwards.
fn seen_from(start: PlanPoint, along: (f64, f64), spot: PlanPoint) -> (f64, f64) {
    let (right_m, away_m) = (spot.right_m - start.right_m, spot.away_m - start.away_m);
    (
        right_m * along.0 + away_m * along.1,
        right_m * along.1 - away_m * along.0,
    )
}

/// All corners, beginning with that one.
fn turned_to(outline: &[PlanPoint], first: usize) -> impl Iterator<Item = PlanPoint> {
    let first = if first < outline.len() { first } else { 0 };
    let (before, after) = outline.split_at(first);
    after.iter().chain(before).copied()
}
