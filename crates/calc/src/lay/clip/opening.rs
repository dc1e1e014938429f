//! A rectangle out of a brick.

use super::super::pieces::{PlanPoint, area_m2};
use super::convex::between;
use super::parts::Parts;
use super::trace::{next_along, use_dip};
use super::{Bounds, NEAR_M, Placed, trace};

/// An opening that takes less from a piece only touches it: a hundredth of a square millimetre.
const TOUCHED_M2: f64 = 1e-8;

/// What a piece keeps beside a convex opening, both counter-clockwise as seen from above: one outline, with a corner taken out or a bay,
/// or two and more where it falls apart. The opening is taken 2 nm larger, so that sides in line leave nothing between them. An opening that lies all within the piece parts it, a joint apart, across its longer way through the opening's middle, because no saw
/// cuts a hole.
pub fn without(
    piece: &[PlanPoint],
    opening: &[PlanPoint],
    joint_m: f64,
    parts: &mut Parts,
) -> Placed {
    parts.clear();
    let (Some(bounds), Some(opening_bounds)) = (Bounds::of(piece), Bounds::of(opening)) else {
        return Placed::Inside;
    };
    if !bounds.meets(&opening_bounds) {
        return Placed::Inside;
    }
    let work = &mut parts.work;
    work.convex.take(opening);
    work.convex.grow(2.0 * NEAR_M);
    work.edges.clear();
    work.edges.extend((0_u32..).zip(piece).map(|(idx, _)| idx));
    trace::dips(piece, opening_bounds.grown(4.0 * NEAR_M), work);
    if work.ring_is_inside {
        return Placed::Outside;
    }
    if !work.dips.is_empty() {
        outside(piece, parts);
        let left_m2: f64 = parts.iter().map(area_m2).sum();
        return if area_m2(piece) - left_m2 < TOUCHED_M2 {
            Placed::Inside
        } else {
            Placed::Cut
        };
    }
    let middle = work.convex.middle();
    if !is_inside(piece, middle) {
        return Placed::Inside;
    }
    parted(piece, opening, middle, bounds, joint_m, parts);
    Placed::Cut
}

/// Adds what lies outside the convex opening: the ring from where a dip leaves to where the next comes in, then back along the opening's
/// border, clockwise, to where a dip leaves.
fn outside(piece: &[PlanPoint], parts: &mut Parts) {
    let around_m = parts.work.convex.around_m;
    while let Some(first_idx) = parts.work.dips.iter().position(|dip| !dip.is_used) {
        let mut dip_idx = first_idx;
        while let Some(dip) = use_dip(parts, dip_idx) {
            // Dips stand in the order of the ring.
            let next_on_ring = (dip_idx + 1) % parts.work.dips.len().max(1);
            let Some(&next) = parts.work.dips.get(next_on_ring) else {
                break;
            };
            let last_spot = dip.end_spot.saturating_sub(1);
            if let Some(&spot) = parts.work.dip_spots.get(last_spot) {
                parts.push(spot);
            }
            push_ring(piece, dip.went_with, next.came_with, parts);
            if let Some(&spot) = parts.work.dip_spots.get(next.first_spot) {
                parts.push(spot);
            }
            let Some((next_idx, way_m)) = next_along(&parts.work.dips, around_m, |other| {
                next.came_at_m - other.went_at_m
            }) else {
                break;
            };
            parts.push_corners_back(next.came_at_m, way_m);
            dip_idx = next_idx;
        }
        parts.close();
    }
}

/// The ring's corners from the end of one edge to the start of another.
fn push_ring(piece: &[PlanPoint], from_edge: usize, to_edge: usize, parts: &mut Parts) {
    let n = piece.len();
    let n_corners = if to_edge > from_edge {
        to_edge - from_edge
    } else {
        to_edge + n - from_edge
    };
    for nth in 1..=n_corners {
        if let Some(&corner) = piece.get((from_edge + nth) % n) {
            parts.push(corner);
        }
    }
}

/// A piece with the opening all within it: parted in two through the opening's middle, the opening taken out of each.
fn parted(
    piece: &[PlanPoint],
    opening: &[PlanPoint],
    middle: PlanPoint,
    bounds: Bounds,
    joint_m: f64,
    parts: &mut Parts,
) {
    let is_upright = bounds.far_m - bounds.near_m > bounds.right_m - bounds.left_m;
    let ahead_m = |spot: PlanPoint| {
        if is_upright {
            spot.away_m - middle.away_m
        } else {
            spot.right_m - middle.right_m
        }
    };
    let mut of_half = Parts::default();
    for sign in [1.0, -1.0] {
        let half = half(piece, |spot| sign * ahead_m(spot) - 0.5 * joint_m);
        if without(&half, opening, joint_m, &mut of_half) == Placed::Cut {
            for outline in of_half.iter() {
                parts.add(outline);
            }
        }
    }
}

/// The half of a piece on one side of a line. The piece is convex, or crossed by the line only twice.
fn half(piece: &[PlanPoint], ahead_m: impl Fn(PlanPoint) -> f64) -> Vec<PlanPoint> {
    let ends = piece.iter().skip(1).chain(piece.first());
    let mut half = Vec::with_capacity(piece.len() + 2);
    for (&start, &end) in piece.iter().zip(ends) {
        let (start_m, end_m) = (ahead_m(start), ahead_m(end));
        if start_m >= 0.0 {
            half.push(start);
        }
        if (start_m >= 0.0) != (end_m >= 0.0) {
            half.push(between(start, end, start_m / (start_m - end_m)));
        }
    }
    half
}

/// Whether a spot lies in an outline.
fn is_inside(outline: &[PlanPoint], spot: PlanPoint) -> bool {
    let ends = outline.iter().skip(1).chain(outline.first());
    let n_right = outline
        .iter()
        .zip(ends)
        .filter(|(start, end)| {
            (start.away_m > spot.away_m) != (end.away_m > spot.away_m) && {
                let part = (spot.away_m - start.away_m) / (end.away_m - start.away_m);
                start.right_m + (end.right_m - start.right_m) * part > spot.right_m
            }
        })
        .count();
    n_right % 2 == 1
}
