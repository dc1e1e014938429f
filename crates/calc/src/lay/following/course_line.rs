//! One course's line, and pieces set on it: rigid with square ends, or with ends that point to the centre of a curve too tight for
//! rigid pieces.

mod shape;
mod steps;

use super::super::pieces::{Kind, PlanPoint, apart_m};
use super::super::radius::bow_m;
use super::super::track::{Along, Body, Face, Seat, Spot, Track, gap_m, gaps_m, kept_apart_m};
use super::arc::Arc;
use super::stock::{EXACT_M, SAME_M, Stock};

/// A place is found to this.
const FOUND_M: f64 = 1e-12;
/// Steps after which it is taken as it is.
const MOST_STEPS: usize = 60;

/// What a leg is laid of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::lay) enum LaidOf {
    Whole,
    /// Halves in the outermost course. As each piece is cut anyway, those of the others take the same angle at the centre, so that the
    /// lap does not drift.
    Halves {
        turn_rad: f64,
    },
    /// The same with ends that point to the centre.
    Tapered {
        turn_rad: f64,
    },
}

impl LaidOf {
    pub(in crate::lay) const fn is_tapered(self) -> bool {
        matches!(self, Self::Tapered { .. })
    }

    const fn has_own_step(self) -> bool {
        !matches!(self, Self::Whole)
    }
}

/// The line of one course.
pub(in crate::lay) struct CourseLine {
    pub track: Track,
    pub legs: Vec<LineLeg>,
    pub width_m: f64,
    body: Body,
    pub stock: Stock,
    /// Whether some leg is laid of less than whole brick.
    has_short_units: bool,
}

/// One leg of it.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct LineLeg {
    pub laid_of: LaidOf,
    /// The piece of which this leg is laid.
    pub unit_m: f64,
    /// Joint at the tight side.
    pub joint_m: f64,
    /// Along the line, from the end of one unit to the start of the next.
    pub gap_m: f64,
    /// Along the line, from the start of a unit to its end.
    chord_m: f64,
    /// How far a face may bow into the joint beside it; what bows further is cut off.
    pub most_bow_m: f64,
    /// Of the line; zero when straight.
    pub curvature_per_m: f64,
}

/// A piece set on a line.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct Set {
    pub seat: Seat,
    /// Whether its ends point to the centre where it lies on a curve.
    pub is_radial: bool,
    pub kind: Kind,
}

impl CourseLine {
    pub(in crate::lay) fn leg(&self, along: Along) -> Option<&LineLeg> {
        self.legs.get(along.leg_idx)
    }

    /// How much of the least lap is asked for there: among halves a half, and among tapered pieces by their step. Within a brick of such
    /// a leg the same holds.
    pub(in crate::lay) fn lap_share(&self, along: Along) -> f64 {
        if !self.has_short_units {
            return 1.0;
        }
        let whole_m = self.stock.length_m + self.stock.joint_m;
        let share_at = |by_m: f64| {
            let along = self.track.on_its_leg(along.moved(by_m));
            self.leg(along)
                .map_or(1.0, |leg| (leg.chord_m + leg.gap_m) / whole_m)
        };
        share_at(0.0)
            .min(share_at(whole_m))
            .min(share_at(-whole_m))
            .min(1.0)
    }

    /// Joint at the tight side after a piece that ends there.
    pub(in crate::lay) fn joint_m(&self, to: Along) -> f64 {
        self.leg(to).map_or(self.stock.joint_m, |leg| leg.joint_m)
    }

    /// A piece from there on; `length_m` along its middle line, or along its longer side where its ends point to the centre.
    pub(in crate::lay) fn from(&self, from: Along, length_m: f64) -> Set {
        let seat = self.track.chord(from, length_m);
        let touched = self.legs.get(seat.from.leg_idx..=seat.to.leg_idx);
        let is_tapered = |leg: &LineLeg| leg.laid_of.is_tapered();
        if touched.is_some_and(|legs| legs.iter().any(is_tapered)) {
            return self.radial(from, length_m);
        }
        Set {
            seat,
            is_radial: false,
            kind: self.kind(length_m),
        }
    }

    fn radial(&self, from: Along, length_m: f64) -> Set {
        let set = |to: Along| Set {
            seat: Seat { from, to, length_m },
            is_radial: true,
            kind: Kind::Tapered,
        };
        let mut to = self.track.on_its_leg(from.moved(length_m));
        if let (Some(leg), Some(on_track)) = (self.leg(from), self.track.legs().get(from.leg_idx))
            && leg.curvature_per_m != 0.0
        {
            let radius_m = 1.0 / leg.curvature_per_m.abs();
            let to_m = from.m
                + Arc {
                    radius_m,
                    width_m: self.width_m,
                    joint_m: leg.joint_m,
                }
                .tapered_chord_m(length_m);
            if to_m <= on_track.end_m() || from.leg_idx + 1 == self.legs.len() {
                return set(from.moved(to_m - from.m));
            }
        }
        for _ in 0..MOST_STEPS {
            let (start, end) = self.faces(&set(to));
            let short_m =
                length_m - apart_m(start.left, end.left).max(apart_m(start.right, end.right));
            to = self.track.on_its_leg(to.moved(0.7 * short_m));
            if short_m.abs() < FOUND_M {
                break;
            }
        }
        set(to)
    }

    /// The next piece after another.
    pub(in crate::lay) fn after(&self, before: &Set, length_m: f64) -> Set {
        let to = before.seat.to;
        if let (Some(leg), Some(on_track)) = (self.leg(to), self.track.legs().get(to.leg_idx))
            && before.seat.from.leg_idx == to.leg_idx
        {
            let is_tapered = leg.laid_of.is_tapered();
            let is_unit = length_m == leg.unit_m;
            let from = to.moved(leg.gap_m);
            if is_unit
                && (is_tapered || before.seat.length_m == leg.unit_m)
                && before.is_radial == is_tapered
            {
                let end = from.moved(leg.chord_m);
                if end.m <= on_track.end_m() || to.leg_idx + 1 == self.legs.len() {
                    return Set {
                        seat: Seat {
                            from,
                            to: end,
                            length_m,
                        },
                        is_radial: is_tapered,
                        kind: if is_tapered {
                            Kind::Tapered
                        } else {
                            self.kind(length_m)
                        },
                    };
                }
            }
            if is_tapered && before.is_radial && from.m < on_track.end_m() {
                return self.from(from, length_m);
            }
            if !is_tapered && !before.is_radial {
                let seat = self
                    .track
                    .after(&before.seat, length_m, self.body, leg.joint_m);
                let set = self.from(seat.from, length_m);
                if !set.is_radial {
                    return set;
                }
            }
        }
        let end = self.faces(before).1;
        let heading = self.track.spot(to);
        let with_joint = |joint_m: f64| {
            self.placed(to.moved(joint_m), length_m, |start| {
                (joint_m - gap_m(&end, start, heading)).max(-kept_apart_m(&end, start))
            })
        };
        // Over a border the joint may open more than within a leg: it is taken as much tighter, down to the least.
        let joint_m = self.joint_m(to);
        let set = with_joint(joint_m);
        let (left_m, right_m) = gaps_m(&end, &self.faces(&set).0, heading);
        let over_m = left_m.max(right_m) - self.stock.widest_joint_m;
        let least_m = self.stock.least_joint_m;
        if over_m > 0.0 && joint_m > least_m {
            with_joint((joint_m - over_m).max(least_m))
        } else {
            set
        }
    }

    /// The first piece after a line across.
    pub(in crate::lay) fn first(
        &self,
        across: Spot,
        at: Along,
        joint_m: f64,
        length_m: f64,
    ) -> Set {
        self.placed(at.moved(joint_m), length_m, |start| {
            joint_m + clearance_m(start, across, f64::max)
        })
    }

    /// The piece from `from` on, moved along until nothing is missing.
    fn placed(&self, from: Along, length_m: f64, missing_m: impl Fn(&Face) -> f64) -> Set {
        let mut set = self.from(self.track.on_its_leg(from), length_m);
        // Over a kink the steps may swing to and fro: then the nearest place where nothing is missing is kept.
        let mut kept: Option<Set> = None;
        for _ in 0..MOST_STEPS {
            let short_m = missing_m(&self.faces(&set).0);
            if short_m <= FOUND_M && kept.is_none_or(|kept| set.seat.from.m < kept.seat.from.m) {
                kept = Some(set);
            }
            let from = self.track.on_its_leg(set.seat.from.moved(short_m));
            set = self.from(from, length_m);
            if short_m.abs() < FOUND_M {
                return set;
            }
        }
        kept.unwrap_or(set)
    }

    /// The piece after another, or the first, as long as reaches to `joint_m` before a line across. Its length may be nought or below.
    pub(in crate::lay) fn up_to(
        &self,
        across: Spot,
        joint_m: f64,
        guess_m: f64,
        of_length: impl Fn(f64) -> Set,
    ) -> (Set, f64) {
        let mut length_m = guess_m;
        let mut set = of_length(length_m);
        for _ in 0..MOST_STEPS {
            let over_m = clearance_m(&self.faces(&set).1, across, f64::min) - joint_m;
            length_m += over_m;
            if length_m < SAME_M {
                break;
            }
            set = of_length(length_m);
            if over_m.abs() < FOUND_M {
                break;
            }
        }
        (set, length_m)
    }

    /// How far the faces of a unit bow there.
    pub(in crate::lay) fn bow_m(&self, leg: &LineLeg) -> f64 {
        if leg.curvature_per_m == 0.0 {
            0.0
        } else {
            bow_m(1.0 / leg.curvature_per_m.abs(), leg.unit_m)
        }
    }

    fn kind(&self, length_m: f64) -> Kind {
        let stock = &self.stock;
        if self.width_m < stock.width_m - EXACT_M {
            Kind::Ripped
        } else if Stock::is_same(length_m, stock.length_m) {
            Kind::Whole
        } else if Stock::is_same(length_m, stock.half_m) {
            Kind::Half
        } else if Stock::is_same(length_m, stock.three_quarters_m) {
            Kind::ThreeQuarter
        } else {
            Kind::Cut
        }
    }
}

/// From the corners of an end to a line across, positive where the line is ahead; the corner is chosen by `of`.
pub(in crate::lay) fn clearance_m(face: &Face, across: Spot, of: impl Fn(f64, f64) -> f64) -> f64 {
    let to_line_m = |corner: PlanPoint| {
        (across.at.right_m - corner.right_m) * across.sin
            + (across.at.away_m - corner.away_m) * across.cos
    };
    of(to_line_m(face.left), to_line_m(face.right))
}
