//! Whether a walk runs into itself.

use super::Run;
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};

/// Largest turn of one chord, for this test only: on a radius of 10 ft it leaves the arc by 1/10 in.
const CHORD_TURN_RAD: f64 = std::f64::consts::PI / 36.0;
/// Edges that come as near as this meet: 1 mm.
const MEETS_M: f64 = 0.001;

/// Whether the paved band keeps clear of itself; a finding where it does not.
///
/// A band whose curves are all wide enough is flat against the ground everywhere, so that it overlaps itself only if its
/// outline (left edge out, right edge back, closed at both ends) meets itself.
pub(super) fn refuse_crossing(run: &Run, edge_across: Length, findings: &mut Findings) -> bool {
    let Some((one_idx, other_idx)) = meeting_legs(&outline(run, edge_across)) else {
        return true;
    };
    let (first_idx, later_idx) = (one_idx.min(other_idx), one_idx.max(other_idx));
    let text = if first_idx == later_idx {
        format!(
            "Leg {}: the walk crosses itself within this leg.",
            first_idx + 1
        )
    } else {
        format!(
            "Leg {}: the walk crosses itself, it meets leg {} again.",
            later_idx + 1,
            first_idx + 1
        )
    };
    let remedy = "Check lengths, radii, turns and the side of each curve.";
    findings.note(
        Place::Leg(later_idx),
        Weight::Stop,
        Source::Readings,
        text,
        remedy,
    );
    false
}

/// A piece of the outline.
#[derive(Clone, Copy, Debug)]
struct Piece {
    from: (f64, f64),
    to: (f64, f64),
    /// Along the outline from its first corner to `from` and to `to`.
    from_along_m: f64,
    to_along_m: f64,
    leg_idx: usize,
}

/// The outline of the paved band in plan, closed, as straight pieces.
fn outline(run: &Run, edge_across: Length) -> Vec<Piece> {
    let mut left = Vec::new();
    let mut right = Vec::new();
    for (leg_idx, leg) in run.legs().iter().enumerate() {
        let length_m = in_metres(leg.length);
        let n_chords = libm::ceil(length_m * leg.curvature_per_m.abs() / CHORD_TURN_RAD).max(1.0);
        // The first spot of a leg is the last of the one before.
        let mut nth = if leg_idx == 0 { 0.0 } else { 1.0 };
        while nth <= n_chords {
            let part = nth / n_chords;
            let half =
                (leg.width_at_start * (1.0 - part) + leg.width_at_end * part) * 0.5 + edge_across;
            let station = leg.start + metres(length_m * part);
            let spot = |offset| {
                let (right, away) = run.in_plan(station, offset);
                ((in_metres(right), in_metres(away)), leg_idx)
            };
            left.push(spot(-half));
            right.push(spot(half));
            nth += 1.0;
        }
    }
    right.reverse();
    left.append(&mut right);
    let Some(first) = left.first().copied() else {
        return Vec::new();
    };
    let ends = left.iter().skip(1).chain(std::iter::once(&first));
    let mut along_m = 0.0;
    left.iter()
        .zip(ends)
        .map(|(&(from, from_leg_idx), &(to, to_leg_idx))| {
            let from_along_m = along_m;
            along_m += libm::hypot(to.0 - from.0, to.1 - from.1);
            Piece {
                from,
                to,
                from_along_m,
                to_along_m: along_m,
                leg_idx: from_leg_idx.max(to_leg_idx),
            }
        })
        .collect()
}

/// Legs of two pieces that meet though they do not follow each other. Sweeps along the longer side of the plan, so that the
/// work grows little faster than the number of pieces.
fn meeting_legs(outline: &[Piece]) -> Option<(usize, usize)> {
    let whole_m = outline.last().map_or(0.0, |piece| piece.to_along_m);
    let sweep_right = extent(outline, |spot| spot.0) > extent(outline, |spot| spot.1);
    let reach = |piece: &Piece| {
        let (from_m, to_m) = if sweep_right {
            (piece.from.0, piece.to.0)
        } else {
            (piece.from.1, piece.to.1)
        };
        (from_m.min(to_m), from_m.max(to_m))
    };
    let mut swept: Vec<(f64, f64, &Piece)> = outline
        .iter()
        .map(|piece| (reach(piece).0, reach(piece).1, piece))
        .collect();
    swept.sort_by(|one, other| one.0.total_cmp(&other.0));
    for (nth, (_, one_end_m, one)) in swept.iter().enumerate() {
        let near = swept
            .iter()
            .skip(nth + 1)
            .take_while(|(other_start_m, _, _)| *other_start_m <= one_end_m + MEETS_M);
        for (_, _, other) in near {
            if !follow_each_other(one, other, whole_m) && distance_m(one, other) < MEETS_M {
                return Some((one.leg_idx, other.leg_idx));
            }
        }
    }
    None
}

fn extent(outline: &[Piece], along: impl Fn((f64, f64)) -> f64) -> f64 {
    let least = outline
        .iter()
        .map(|piece| along(piece.from))
        .fold(f64::INFINITY, f64::min);
    let most = outline
        .iter()
        .map(|piece| along(piece.from))
        .fold(f64::NEG_INFINITY, f64::max);
    most - least
}

/// Whether two pieces are neighbours on the outline, or so near along it that they are bound to be near in plan.
fn follow_each_other(one: &Piece, other: &Piece, whole_m: f64) -> bool {
    let apart_m = |first: &Piece, later: &Piece| {
        let gap_m = later.from_along_m - first.to_along_m;
        gap_m.min(whole_m - later.to_along_m + first.from_along_m)
    };
    let gap_m = if one.from_along_m < other.from_along_m {
        apart_m(one, other)
    } else {
        apart_m(other, one)
    };
    gap_m < 4.0 * MEETS_M
}

/// Least distance between two pieces; zero where they cross.
fn distance_m(one: &Piece, other: &Piece) -> f64 {
    if cross(one, other) {
        return 0.0;
    }
    let ends = [
        spot_to_piece_m(one.from, other),
        spot_to_piece_m(one.to, other),
        spot_to_piece_m(other.from, one),
        spot_to_piece_m(other.to, one),
    ];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

fn cross(one: &Piece, other: &Piece) -> bool {
    let side = |piece: &Piece, spot: (f64, f64)| {
        (piece.to.0 - piece.from.0) * (spot.1 - piece.from.1)
            - (piece.to.1 - piece.from.1) * (spot.0 - piece.from.0)
    };
    side(one, other.from) * side(one, other.to) < 0.0
        && side(other, one.from) * side(other, one.to) < 0.0
}

fn spot_to_piece_m(spot: (f64, f64), piece: &Piece) -> f64 {
    let (along_x, along_y) = (piece.to.0 - piece.from.0, piece.to.1 - piece.from.1);
    let (to_x, to_y) = (spot.0 - piece.from.0, spot.1 - piece.from.1);
    let square = along_x * along_x + along_y * along_y;
    let part = if square > 0.0 {
        ((to_x * along_x + to_y * along_y) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    libm::hypot(to_x - part * along_x, to_y - part * along_y)
}
