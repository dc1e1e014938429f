//! Where a ring dips into a convex outline, and what the two share.
//!
//! Both turn counter-clockwise, so that inside lies to the left of each. Their common part is bounded by the dips of the ring and, from
//! where a dip leaves the convex outline, by the border of that outline to where the next dip comes in.

use super::super::pieces::PlanPoint;
use super::convex::{Inside, between};
use super::parts::{Parts, Work};
use super::{Bounds, NEAR_M};

/// A stretch of the ring inside the convex outline.
#[derive(Clone, Copy, Debug)]
pub(super) struct Dip {
    /// Along the convex border, where it comes in.
    pub came_at_m: f64,
    /// Along the convex border, where it leaves.
    pub went_at_m: f64,
    /// Its spots, the first and the last on the border.
    pub first_spot: usize,
    pub end_spot: usize,
    /// Edges of the ring with which it comes and leaves.
    pub came_with: usize,
    pub went_with: usize,
    /// Already part of an outline.
    pub is_used: bool,
}

/// Finds the dips among the edges of the ring that lie beside the convex outline.
pub(super) fn dips(ring: &[PlanPoint], bounds: Bounds, work: &mut Work) {
    work.dips.clear();
    work.dip_spots.clear();
    work.ring_is_inside = false;
    let edge = |edge_idx: u32| -> Option<(usize, PlanPoint, PlanPoint)> {
        let edge_idx = usize::try_from(edge_idx).ok()?;
        let start = *ring.get(edge_idx)?;
        let end = *ring.get(edge_idx + 1).or(ring.first())?;
        Some((edge_idx, start, end))
    };
    // Begin with an edge that starts outside, so that no dip is open.
    let begin = work.edges.iter().position(|&edge_idx| {
        edge(edge_idx).is_some_and(|(_, start, _)| work.convex.depth_m(start) < 0.0)
    });
    let Some(begin) = begin else {
        work.ring_is_inside = work.edges.len() == ring.len();
        return;
    };
    let mut open: Option<Dip> = None;
    for nth in 0..work.edges.len() {
        let at = begin + nth;
        let at = if at < work.edges.len() {
            at
        } else {
            at - work.edges.len()
        };
        let Some((edge_idx, start, end)) = work.edges.get(at).and_then(|&idx| edge(idx)) else {
            continue;
        };
        if open.is_none() && is_beside(start, end, bounds) {
            continue;
        }
        let Some(Inside {
            from,
            to,
            came_by,
            went_by,
            ends_inside,
        }) = work.convex.part_inside(start, end)
        else {
            continue;
        };
        if open.is_none() {
            if !ends_inside && from >= to {
                continue;
            }
            let spot = between(start, end, from);
            let came_by = if from > 0.0 {
                came_by
            } else {
                work.convex.nearest_side(spot)
            };
            open = Some(Dip {
                came_at_m: work.convex.along_m(came_by, spot),
                went_at_m: 0.0,
                first_spot: work.dip_spots.len(),
                end_spot: 0,
                came_with: edge_idx,
                went_with: edge_idx,
                is_used: false,
            });
            work.dip_spots.push(spot);
        }
        if ends_inside {
            work.dip_spots.push(end);
        } else if let Some(mut dip) = open.take() {
            let spot = between(start, end, to);
            work.dip_spots.push(spot);
            dip.went_at_m = work.convex.along_m(went_by, spot);
            dip.went_with = edge_idx;
            dip.end_spot = work.dip_spots.len();
            if is_deep(work, &dip) {
                work.dips.push(dip);
            } else {
                work.dip_spots.truncate(dip.first_spot);
            }
        }
    }
}

/// Adds what ring and convex outline share.
pub(super) fn inside(parts: &mut Parts) {
    let around_m = parts.work.convex.around_m;
    while let Some(first_idx) = parts.work.dips.iter().position(|dip| !dip.is_used) {
        let mut dip_idx = first_idx;
        // Each dip is used once, so that this ends.
        while let Some(dip) = use_dip(parts, dip_idx) {
            for nth in dip.first_spot..dip.end_spot {
                if let Some(&spot) = parts.work.dip_spots.get(nth) {
                    parts.push(spot);
                }
            }
            let Some((next_idx, way_m)) = next_along(&parts.work.dips, around_m, |next| {
                next.came_at_m - dip.went_at_m
            }) else {
                break;
            };
            parts.push_corners(dip.went_at_m, way_m);
            dip_idx = next_idx;
        }
        parts.close();
    }
}

/// Marks a dip as used; `None` where it is already.
pub(super) fn use_dip(parts: &mut Parts, dip_idx: usize) -> Option<Dip> {
    let dip = parts.work.dips.get_mut(dip_idx)?;
    if dip.is_used {
        return None;
    }
    dip.is_used = true;
    Some(*dip)
}

/// The dip that is reached first along the border, and how far it is. As good as at the same place counts as not yet passed.
pub(super) fn next_along(
    dips: &[Dip],
    around_m: f64,
    way_m: impl Fn(&Dip) -> f64,
) -> Option<(usize, f64)> {
    dips.iter()
        .enumerate()
        .map(|(dip_idx, dip)| {
            let mut way_m = way_m(dip);
            if way_m < -NEAR_M {
                way_m += around_m;
            } else if way_m > around_m - NEAR_M {
                way_m -= around_m;
            }
            (dip_idx, way_m)
        })
        .min_by(|one, other| one.1.total_cmp(&other.1))
}

fn is_beside(start: PlanPoint, end: PlanPoint, bounds: Bounds) -> bool {
    (start.right_m < bounds.left_m && end.right_m < bounds.left_m)
        || (start.right_m > bounds.right_m && end.right_m > bounds.right_m)
        || (start.away_m < bounds.near_m && end.away_m < bounds.near_m)
        || (start.away_m > bounds.far_m && end.away_m > bounds.far_m)
}

/// Whether a dip gets inside by more than rounding: depth is concave along an edge, so that the middle tells.
fn is_deep(work: &Work, dip: &Dip) -> bool {
    let spots = work
        .dip_spots
        .get(dip.first_spot..dip.end_spot)
        .unwrap_or_default();
    spots.windows(2).any(|pair| {
        let &[start, end] = pair else { return false };
        work.convex.depth_m(between(start, end, 0.5)) > NEAR_M
    })
}
