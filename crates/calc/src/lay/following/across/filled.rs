//! The bricks of each row.

use super::super::super::laid::{Laid, LayNote, Measured};
use super::super::super::pieces::{Kind, Label, Part, PlanPoint};
use super::super::super::track::Along;
use super::super::line_across::{Line, meets, turned_rad};
use super::super::row::Row;
use super::super::stock::{EXACT_M, Stock};
use super::{Band, Rows};
use crate::quantity::metres;
use crate::site::Hand;

/// On a curve rows are cut to steps of this, so that the list of cuts stays short: 1/2 mm.
const CUT_STEP_M: f64 = 0.0005;
/// Places between the two faces of a row in which its ends look for the edge.
const LOOKS: f64 = 8.0;
impl Rows<'_> {
    /// Lays the bricks of every row.
    pub(super) fn fill(&self, bands: &[Band], laid: &mut Laid) {
        let mut before: Option<Row> = None;
        let mut sides = (Along { leg_idx: 0, m: 0.0 }, Along { leg_idx: 0, m: 0.0 });
        let mut worst_joint: Option<(f64, Measured)> = None;
        let mut worst_lap: Option<Measured> = None;
        let shared = std::cell::Cell::new(false);
        for (course, band) in (1_u32..).zip(bands) {
            let station = metres(self.middle.station_m(band.along));
            let measured = |length_m: f64| Measured {
                length: metres(length_m),
                course,
                station,
            };
            let mut take_joint = |laid: &mut Laid, joint_m: f64| {
                laid.note_joint(measured(joint_m));
                let off_m =
                    (self.stock.least_joint_m - joint_m).max(joint_m - self.stock.widest_joint_m);
                if off_m > EXACT_M && worst_joint.is_none_or(|(worst_m, _)| off_m > worst_m) {
                    worst_joint = Some((off_m, measured(joint_m)));
                }
            };
            take_joint(laid, band.gaps_m.0);
            take_joint(laid, band.gaps_m.1);
            let middle = middle_line(band);
            let (left_m, right_m, play_m) = self.ends_m(band, &middle, &mut sides);
            let is_offset = self.stock.least_lap_m.is_some() && course.is_multiple_of(2);
            let row = if self.tapers {
                self.to_be_cut(is_offset)
            } else {
                Row::of(right_m - left_m, &self.stock, is_offset, before.as_ref())
            };
            if !self.tapers {
                take_joint(laid, row.joint_m);
                take_joint(laid, row.joint_m + play_m);
            }
            if let (Some(before), Some(least_m)) = (&before, self.least_lap_m) {
                let lap_m = before.least_lap_m(&row);
                if lap_m.is_finite() {
                    laid.note_lap(measured(lap_m));
                    if lap_m < least_m - EXACT_M
                        && worst_lap.is_none_or(|worst| metres(lap_m) < worst.length)
                    {
                        worst_lap = Some(measured(lap_m));
                    }
                }
            }
            if row.is_shared && !shared.replace(true) {
                laid.notes.push(LayNote::PieceMerged { course, station });
            }
            self.lay_row(band, &middle, course, &row, (left_m, right_m), laid);
            before = Some(row);
        }
        laid.notes.extend(worst_lap.map(LayNote::LapNotKept));
        laid.notes
            .extend(worst_joint.map(|(_, joint)| LayNote::JointNotKept(joint)));
    }

    /// A row that covers the widest place, of whole brick.
    fn to_be_cut(&self, is_offset: bool) -> Row {
        let joint_m = self.stock.joint_m;
        let mut row = Row {
            lengths_m: Vec::new(),
            joint_m,
            is_shared: false,
        };
        if is_offset {
            row.lengths_m.push(self.stock.second_start_m);
        }
        while row.length_m() < self.clear_m {
            row.lengths_m.push(self.stock.length_m);
        }
        row
    }

    /// Where a row may start on the left and end on the right, measured along its middle line, and how much wider than the joint the
    /// gap to the edge may become because the row is not square to it.
    fn ends_m(&self, band: &Band, middle: &Line, sides: &mut (Along, Along)) -> (f64, f64, f64) {
        if self.tapers {
            let half_m = 0.5 * self.clear_m;
            return (-half_m, half_m, 0.0);
        }
        let (mut left_m, mut right_m) = (f64::NEG_INFINITY, f64::INFINITY);
        let (mut outer_left_m, mut outer_right_m) = (f64::INFINITY, f64::NEG_INFINITY);
        let is_straight = self.is_straight(band, middle);
        let looks = if is_straight { 1.0 } else { LOOKS };
        let half_m = self.reach_m(band.along);
        let mut nth = 0.0;
        while nth <= looks {
            let part = nth / looks;
            // The row is deeper on the side away from the centre.
            let line = |right_m: f64| {
                let (near_m, far_m) = (
                    middle.ahead_m(&band.near, right_m),
                    middle.ahead_m(&band.far, right_m),
                );
                Line {
                    at: middle.spot(0.0, near_m * (1.0 - part) + far_m * part),
                    ..*middle
                }
            };
            sides.0 = meets(&self.left, &line(-half_m), sides.0);
            sides.1 = meets(&self.right, &line(half_m), sides.1);
            let (at_left_m, _) = middle.beside(self.left.spot(sides.0).at);
            let (at_right_m, _) = middle.beside(self.right.spot(sides.1).at);
            left_m = left_m.max(at_left_m);
            right_m = right_m.min(at_right_m);
            outer_left_m = outer_left_m.min(at_left_m);
            outer_right_m = outer_right_m.max(at_right_m);
            nth += 1.0;
        }
        if is_straight {
            return (left_m, right_m, 0.0);
        }
        // Rows keep clear of each other no further out.
        (left_m, right_m) = (left_m.max(-half_m), right_m.min(half_m));
        let cut_m = (right_m - left_m) - CUT_STEP_M * libm::floor((right_m - left_m) / CUT_STEP_M);
        left_m += 0.5 * cut_m;
        right_m -= 0.5 * cut_m;
        let play_m = (left_m - outer_left_m).max(outer_right_m - right_m);
        (left_m, right_m, play_m)
    }

    /// Whether a row is square to a straight on which it lies.
    fn is_straight(&self, band: &Band, middle: &Line) -> bool {
        let leg_at = |along: Along| self.middle.legs().get(along.leg_idx);
        let behind = self
            .middle
            .on_its_leg(band.along.moved(-2.0 * self.stock.width_m));
        behind.leg_idx == band.along.leg_idx
            && leg_at(band.along).is_some_and(|leg| leg.curvature_per_m == 0.0)
            && turned_rad(self.middle.heading_rad(band.along), middle.heading_rad).abs() < EXACT_M
    }

    fn lay_row(
        &self,
        band: &Band,
        middle: &Line,
        course: u32,
        row: &Row,
        (left_m, right_m): (f64, f64),
        laid: &mut Laid,
    ) {
        let station = metres(
            0.5 * (self.middle.station_m(band.along)
                + self
                    .middle
                    .station_m(meets(&self.middle, &band.near, band.along))),
        );
        let mut from_edge_m = 0.0;
        let reach_m = self.reach_m(band.along);
        for (nth, &length_m) in (1_u32..).zip(&row.lengths_m) {
            from_edge_m += row.joint_m;
            let (from_m, to_m) = match self.start {
                Hand::Left => (left_m + from_edge_m, left_m + from_edge_m + length_m),
                Hand::Right => (right_m - from_edge_m - length_m, right_m - from_edge_m),
            };
            from_edge_m += length_m;
            if self.tapers && (from_m > reach_m || to_m < -reach_m) {
                continue;
            }
            let corner =
                |line: &Line, right_m: f64| middle.spot(right_m, middle.ahead_m(line, right_m));
            let depth_m = |right_m: f64| {
                middle.ahead_m(&band.far, right_m) - middle.ahead_m(&band.near, right_m)
            };
            // Where a row is cut to a wedge its faces may meet inside a tight curve: brick ends before they do.
            let Some((from_m, to_m)) = before_the_faces_meet(from_m, to_m, depth_m) else {
                continue;
            };
            let outline = [
                corner(&band.near, from_m),
                corner(&band.near, to_m),
                corner(&band.far, to_m),
                corner(&band.far, from_m),
            ];
            let label = Label {
                part: Part::Field,
                course,
                nth,
                kind: self.kind(band.kind, length_m, row.joint_m),
                length: metres(length_m),
                width: metres(depth_m(from_m).max(depth_m(to_m)).min(self.stock.width_m)),
                station,
            };
            laid.pieces.add(label, &outline);
        }
    }

    fn kind(&self, of_row: Kind, length_m: f64, joint_m: f64) -> Kind {
        if of_row != Kind::Whole {
            of_row
        } else if Stock::is_same(length_m, self.stock.length_m) {
            Kind::Whole
        } else if Stock::is_same(2.0 * length_m + joint_m, self.stock.length_m) {
            Kind::Half
        } else if Stock::is_same(length_m, self.stock.three_quarters_m) {
            Kind::ThreeQuarter
        } else {
            Kind::Cut
        }
    }
}

/// The part of a piece where the faces of its row are apart, by a millimetre at the least; `None` where they are not. Depth changes evenly
/// along the row.
fn before_the_faces_meet(
    from_m: f64,
    to_m: f64,
    depth_m: impl Fn(f64) -> f64,
) -> Option<(f64, f64)> {
    const LEAST_M: f64 = 0.001;
    let (at_from_m, at_to_m) = (depth_m(from_m), depth_m(to_m));
    if at_from_m >= LEAST_M && at_to_m >= LEAST_M {
        return Some((from_m, to_m));
    }
    if at_from_m < LEAST_M && at_to_m < LEAST_M {
        return None;
    }
    let part = (LEAST_M - at_from_m) / (at_to_m - at_from_m);
    let meets_m = from_m + (to_m - from_m) * part;
    Some(if at_from_m < at_to_m {
        (meets_m, to_m)
    } else {
        (from_m, meets_m)
    })
}

/// Midway between both faces.
fn middle_line(band: &Band) -> Line {
    let at = PlanPoint {
        right_m: 0.5 * (band.near.at.right_m + band.far.at.right_m),
        away_m: 0.5 * (band.near.at.away_m + band.far.at.away_m),
    };
    Line::of(at, 0.5 * (band.near.heading_rad + band.far.heading_rad))
}
