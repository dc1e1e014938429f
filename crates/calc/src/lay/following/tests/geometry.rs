//! Checks by plane geometry alone: separating axes, projection onto the run, and areas by the registry's boolean operations.

use crate::lay::{Part, Piece, Pieces, PlanPoint};
use crate::line::Run;
use crate::quantity::{in_metres, metres};
use geo::{Area, BooleanOps, Coord, LineString, MultiPolygon, Polygon, unary_union};

/// How far two convex outlines reach into each other; not above zero where they keep clear.
pub(crate) fn depth_m(one: &[PlanPoint], other: &[PlanPoint]) -> f64 {
    let mut least_m = f64::INFINITY;
    for outline in [one, other] {
        for (nth, from) in outline.iter().enumerate() {
            let to = outline[(nth + 1) % outline.len()];
            let (x, y) = (to.away_m - from.away_m, from.right_m - to.right_m);
            let long = libm::hypot(x, y);
            let range = |points: &[PlanPoint]| {
                points
                    .iter()
                    .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), point| {
                        let at = (point.right_m * x + point.away_m * y) / long;
                        (low.min(at), high.max(at))
                    })
            };
            let ((low_a, high_a), (low_b, high_b)) = (range(one), range(other));
            least_m = least_m.min(high_a.min(high_b) - low_a.max(low_b));
        }
    }
    least_m
}

/// The deepest overlap of any two pieces, with their labels.
pub(crate) fn deepest_overlap(pieces: &Pieces) -> Option<(f64, Piece, Piece)> {
    let mut boxes: Vec<(f64, f64, f64, f64, Piece)> = pieces
        .all()
        .iter()
        .map(|piece| {
            let outline = pieces.outline(piece);
            let fold = |of: fn(&PlanPoint) -> f64| {
                outline
                    .iter()
                    .map(of)
                    .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
                        (low.min(at), high.max(at))
                    })
            };
            let ((x0, x1), (y0, y1)) = (fold(|point| point.right_m), fold(|point| point.away_m));
            (x0, x1, y0, y1, *piece)
        })
        .collect();
    boxes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut worst: Option<(f64, Piece, Piece)> = None;
    for (nth, a) in boxes.iter().enumerate() {
        for b in &boxes[nth + 1..] {
            if b.0 > a.1 {
                break;
            }
            if b.2 > a.3 || b.3 < a.2 {
                continue;
            }
            let deep_m = depth_m(pieces.outline(&a.4), pieces.outline(&b.4));
            if worst.as_ref().is_none_or(|worst| deep_m > worst.0) {
                worst = Some((deep_m, a.4, b.4));
            }
        }
    }
    worst
}

/// Station and offset of a spot, by projecting it onto every leg; the leg to which it is nearest.
pub(crate) fn beside_run(run: &Run, spot: PlanPoint) -> (f64, f64) {
    let mut nearest = (f64::NAN, f64::INFINITY);
    for (leg_idx, leg) in run.legs().iter().enumerate() {
        let place = |offset: f64| {
            let (right, away) = run.in_plan(leg.start, metres(offset));
            (in_metres(right), in_metres(away))
        };
        let ((x, y), (x1, y1)) = (place(0.0), place(1.0));
        // Ahead and to the right of the leg's start.
        let (right_x, right_y) = (x1 - x, y1 - y);
        let (dx, dy) = (spot.right_m - x, spot.away_m - y);
        let (right_m, ahead_m) = (dx * right_x + dy * right_y, -dx * right_y + dy * right_x);
        let (mut along_m, offset_m) = if leg.curvature_per_m == 0.0 {
            (ahead_m, right_m)
        } else {
            let radius_m = 1.0 / leg.curvature_per_m;
            let turned =
                libm::atan2(ahead_m, (radius_m - right_m) * radius_m.signum()) * radius_m.abs();
            let from_centre_m = libm::hypot(radius_m - right_m, ahead_m);
            (turned, (radius_m.abs() - from_centre_m) * radius_m.signum())
        };
        let length_m = in_metres(leg.length);
        let low = if leg_idx == 0 { -1.0 } else { -1e-9 };
        let high = if leg_idx + 1 == run.legs().len() {
            length_m + 1.0
        } else {
            length_m + 1e-9
        };
        if along_m < low || along_m > high {
            continue;
        }
        along_m += in_metres(leg.start);
        if offset_m.abs() < nearest.1.abs() {
            nearest = (along_m, offset_m);
        }
    }
    nearest
}

/// How far any side of any piece reaches beyond `half_m` from the centreline, looked at in 9 spots a side.
pub(crate) fn beyond_m(run: &Run, pieces: &Pieces, of: Part, half_m: f64) -> f64 {
    let mut most_m = f64::NEG_INFINITY;
    for piece in pieces.all().iter().filter(|piece| piece.part == of) {
        let outline = pieces.outline(piece);
        for (nth, from) in outline.iter().enumerate() {
            let to = outline[(nth + 1) % outline.len()];
            for part in 0..8 {
                let part = f64::from(part) / 8.0;
                let spot = PlanPoint {
                    right_m: from.right_m * (1.0 - part) + to.right_m * part,
                    away_m: from.away_m * (1.0 - part) + to.away_m * part,
                };
                most_m = most_m.max(beside_run(run, spot).1.abs() - half_m);
            }
        }
    }
    most_m
}

/// How far any corner lies before the door or beyond the line square to the far end.
pub(crate) fn beyond_ends_m(run: &Run, pieces: &Pieces) -> f64 {
    let place = |station, offset: f64| {
        let (right, away) = run.in_plan(station, metres(offset));
        (in_metres(right), in_metres(away))
    };
    let ((x, y), (x1, y1)) = (place(run.length(), 0.0), place(run.length(), 1.0));
    let mut most_m = f64::NEG_INFINITY;
    for piece in pieces.all() {
        for corner in pieces.outline(piece) {
            let (station_m, _) = beside_run(run, *corner);
            if station_m < 1.0 {
                most_m = most_m.max(-corner.away_m);
            }
            if station_m > in_metres(run.length()) - 1.0 {
                most_m =
                    most_m.max(-(corner.right_m - x) * (y1 - y) + (corner.away_m - y) * (x1 - x));
            }
        }
    }
    most_m
}

fn polygon(outline: &[PlanPoint]) -> Polygon<f64> {
    let ring = outline
        .iter()
        .map(|point| Coord {
            x: point.right_m,
            y: point.away_m,
        })
        .collect::<LineString<f64>>();
    Polygon::new(ring, vec![])
}

/// The band between both lines `half_m` from the centreline, curves in chords of a tenth of a degree.
pub(crate) fn band(run: &Run, half_m: f64) -> Polygon<f64> {
    let mut sides = [Vec::new(), Vec::new()];
    for leg in run.legs() {
        let turn_deg = (leg.curvature_per_m * in_metres(leg.length))
            .abs()
            .to_degrees();
        let n = libm::ceil(turn_deg * 10.0).max(1.0);
        let mut nth = 0.0;
        while nth <= n {
            let station = leg.start + leg.length * (nth / n);
            for (side, sign) in sides.iter_mut().zip([-1.0, 1.0]) {
                let (right, away) = run.in_plan(station, metres(sign * half_m));
                side.push(PlanPoint {
                    right_m: in_metres(right),
                    away_m: in_metres(away),
                });
            }
            nth += 1.0;
        }
    }
    let [mut left, right] = sides;
    left.extend(right.into_iter().rev());
    polygon(&left)
}

/// Area of the band that no piece covers, by the registry's boolean operations; and the same from the areas alone.
pub(crate) fn uncovered_m2(band: &Polygon<f64>, pieces: &Pieces) -> (f64, f64) {
    let polygons: Vec<Polygon<f64>> = pieces
        .all()
        .iter()
        .map(|piece| polygon(pieces.outline(piece)))
        .collect();
    let union: MultiPolygon<f64> = unary_union(polygons.iter());
    let left = band.difference(&union).unsigned_area();
    let sum: f64 = pieces
        .all()
        .iter()
        .map(|piece| {
            pieces
                .area(piece)
                .get::<crate::quantity::unit::square_meter>()
        })
        .sum();
    (left, band.unsigned_area() - sum)
}
