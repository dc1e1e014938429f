//! A convex outline as its sides: how deep a spot lies inside, and how far along its border.

use super::super::pieces::PlanPoint;

/// A convex outline, counter-clockwise.
#[derive(Clone, Debug, Default)]
pub(super) struct Convex {
    sides: Vec<Side>,
    /// All the way round.
    pub around_m: f64,
}

/// One side, from its first corner.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    from: PlanPoint,
    /// Direction, of length 1.
    towards: (f64, f64),
    /// Along the border from the first corner of all.
    along_m: f64,
}

/// The part of an edge that lies inside, from 0 to 1 along it, and the sides through which it comes and goes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Inside {
    pub from: f64,
    pub to: f64,
    pub came_by: usize,
    pub went_by: usize,
    /// Its end is not outside any side. Not the same as `to` being 1, to which a spot just outside is rounded.
    pub ends_inside: bool,
}

impl Convex {
    /// Takes another outline in place of the one before.
    pub fn take(&mut self, corners: &[PlanPoint]) {
        self.sides.clear();
        self.around_m = 0.0;
        let ends = corners.iter().skip(1).chain(corners.first());
        for (&from, to) in corners.iter().zip(ends) {
            let (right_m, away_m) = (to.right_m - from.right_m, to.away_m - from.away_m);
            let length_m = (right_m * right_m + away_m * away_m).sqrt();
            if length_m > 0.0 {
                self.sides.push(Side {
                    from,
                    towards: (right_m / length_m, away_m / length_m),
                    along_m: self.around_m,
                });
                self.around_m += length_m;
            }
        }
    }

    /// Moves each side outwards by at least so much, about the middle.
    pub fn grow(&mut self, by_m: f64) {
        let middle = self.middle();
        let scale = 1.0 + by_m / self.depth_m(middle).max(by_m);
        for side in &mut self.sides {
            side.from = between(middle, side.from, scale);
            side.along_m *= scale;
        }
        self.around_m *= scale;
    }

    /// How deep a spot lies inside; negative outside.
    pub fn depth_m(&self, spot: PlanPoint) -> f64 {
        self.sides
            .iter()
            .map(|side| side.depth_m(spot))
            .fold(f64::INFINITY, f64::min)
    }

    /// The side next to a spot on the border.
    pub fn nearest_side(&self, spot: PlanPoint) -> usize {
        let depths = self.sides.iter().map(|side| side.depth_m(spot).abs());
        depths
            .enumerate()
            .min_by(|one, other| one.1.total_cmp(&other.1))
            .map_or(0, |(side_idx, _)| side_idx)
    }

    /// The part of an edge that lies inside. An end of the edge that is not outside any side is taken as it is.
    pub fn part_inside(&self, start: PlanPoint, end: PlanPoint) -> Option<Inside> {
        let mut inside = Inside {
            from: 0.0,
            to: 1.0,
            came_by: 0,
            went_by: 0,
            ends_inside: true,
        };
        for (side_idx, side) in self.sides.iter().enumerate() {
            let (start_m, end_m) = (side.depth_m(start), side.depth_m(end));
            if start_m < 0.0 {
                if end_m < 0.0 {
                    return None;
                }
                let part = start_m / (start_m - end_m);
                if part >= inside.from {
                    inside.from = part;
                    inside.came_by = side_idx;
                }
            } else if end_m < 0.0 {
                inside.ends_inside = false;
                let part = start_m / (start_m - end_m);
                if part <= inside.to {
                    inside.to = part;
                    inside.went_by = side_idx;
                }
            }
        }
        Some(inside)
    }

    /// How far along the border a spot on that side lies.
    pub fn along_m(&self, side_idx: usize, spot: PlanPoint) -> f64 {
        self.sides.get(side_idx).map_or(0.0, |side| {
            side.along_m
                + (spot.right_m - side.from.right_m) * side.towards.0
                + (spot.away_m - side.from.away_m) * side.towards.1
        })
    }

    /// Corners that are passed on the way along the border, counter-clockwise, from one place on and for so far.
    pub fn corners_passed(
        &self,
        from_m: f64,
        for_m: f64,
    ) -> impl DoubleEndedIterator<Item = PlanPoint> {
        let corners = |shift_m: f64| {
            self.sides.iter().filter_map(move |side| {
                let along_m = side.along_m + shift_m;
                (along_m > from_m && along_m < from_m + for_m).then_some(side.from)
            })
        };
        corners(0.0).chain(corners(self.around_m))
    }

    /// A spot well inside.
    pub fn middle(&self) -> PlanPoint {
        let mut sum = PlanPoint::default();
        let mut n = 0.0;
        for side in &self.sides {
            sum.right_m += side.from.right_m;
            sum.away_m += side.from.away_m;
            n += 1.0;
        }
        PlanPoint {
            right_m: sum.right_m / n,
            away_m: sum.away_m / n,
        }
    }
}

impl Side {
    fn depth_m(&self, spot: PlanPoint) -> f64 {
        self.towards.0 * (spot.away_m - self.from.away_m)
            - self.towards.1 * (spot.right_m - self.from.right_m)
    }
}

/// The spot at a part of the way between two.
pub(super) fn between(start: PlanPoint, end: PlanPoint, part: f64) -> PlanPoint {
    PlanPoint {
        right_m: start.right_m + (end.right_m - start.right_m) * part,
        away_m: start.away_m + (end.away_m - start.away_m) * part,
    }
}
