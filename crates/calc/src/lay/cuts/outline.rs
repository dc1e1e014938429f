//! The sides of a piece, so that pieces of one shape are found again however they lie.

use crate::lay::pieces::{PlanPoint, apart_m};

/// A corner that lies this near to the line between its neighbours is none for a saw: 1/32 in.
const STRAIGHT_M: f64 = 0.000_793_75;

/// Sides of an outline in order and to the nearest step, starting so that the list comes out the same wherever the outline starts and
/// however the piece is turned. A mirrored piece is another.
pub(super) fn sides(outline: &[PlanPoint], step_m: f64) -> Vec<i64> {
    let corners = corners(outline);
    let sides: Vec<i64> = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(from, to)| super::steps(apart_m(*from, *to), step_m))
        .collect();
    let from = |first: usize| sides.iter().cycle().skip(first).take(sides.len());
    let mut best = 0;
    for first in 1..sides.len() {
        if from(first).gt(from(best)) {
            best = first;
        }
    }
    from(best).copied().collect()
}

/// The corners that a saw would know: those that stand out from the line between the corners kept beside them.
fn corners(outline: &[PlanPoint]) -> Vec<PlanPoint> {
    let mut kept: Vec<PlanPoint> = outline.to_vec();
    // The flattest goes first, so that a row of chords along an arc keeps its ends.
    while kept.len() > 3 {
        let n = kept.len();
        let flattest = (0..n)
            .filter_map(|idx| {
                let (before, at, after) = (
                    kept.get((idx + n - 1) % n)?,
                    kept.get(idx)?,
                    kept.get((idx + 1) % n)?,
                );
                Some((idx, stands_out_m(*before, *at, *after)))
            })
            .min_by(|a, b| a.1.total_cmp(&b.1));
        match flattest {
            Some((idx, out_m)) if out_m < STRAIGHT_M => {
                kept.remove(idx);
            }
            _ => break,
        }
    }
    kept
}

fn stands_out_m(before: PlanPoint, at: PlanPoint, after: PlanPoint) -> f64 {
    let base_m = apart_m(before, after);
    let twice_area = (after.right_m - before.right_m) * (at.away_m - before.away_m)
        - (after.away_m - before.away_m) * (at.right_m - before.right_m);
    if base_m > 0.0 {
        twice_area.abs() / base_m
    } else {
        apart_m(before, at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_shape_turned_and_started_elsewhere() {
        let shape = [(0.0, 0.0), (0.2, 0.0), (0.2, 0.05), (0.1, 0.1), (0.0, 0.1)];
        let turned = |start: usize, mirror: f64| -> Vec<i64> {
            let mut outline: Vec<PlanPoint> = shape
                .iter()
                .map(|(x, y)| PlanPoint {
                    right_m: mirror * (0.6 * x - 0.8 * y) + 7.0,
                    away_m: 0.8 * x + 0.6 * y - 3.0,
                })
                .collect();
            outline.rotate_left(start);
            sides(&outline, 0.001)
        };
        let plain = turned(0, 1.0);
        // Sides by hand: 200, 50, √(100² + 50²) = 111.8, 100, 100 mm.
        assert_eq!(plain, [200, 50, 112, 100, 100]);
        assert_eq!(turned(2, 1.0), plain);
    }

    #[test]
    fn chords_of_an_arc_are_one_side() {
        // Five chords along 0.1 m of an arc of 3.6 m radius: each corner stands out by less than 0.1 mm.
        let arc = (0..=5).map(|n| {
            let angle = f64::from(n) * 0.1 / 5.0 / 3.6;
            PlanPoint {
                right_m: 3.6 * libm::sin(angle),
                away_m: 3.6 * (1.0 - libm::cos(angle)),
            }
        });
        let mut outline: Vec<PlanPoint> = arc.collect();
        outline.push(PlanPoint {
            right_m: 0.1,
            away_m: 0.06,
        });
        outline.push(PlanPoint {
            right_m: 0.0,
            away_m: 0.06,
        });
        assert_eq!(sides(&outline, 0.001).len(), 4);
    }
}
