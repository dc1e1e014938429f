//! Hatches of cut brick in plan: each kind of piece has strokes of its own, turned with the piece, so that no colour is needed.

use crate::inside::closed_sides;
use crate::item::Point;
use crate::marks::Strokes;
use underbrick_calc::lay::Kind;

/// Most strokes of one piece.
const MOST_STROKES: f64 = 400.0;

/// How one kind of piece is hatched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hatching {
    /// Angles to the piece's longest side, in degrees.
    pub angles: &'static [f64],
    /// From stroke to stroke, in dots, on a brick that is drawn 40 dots wide.
    pub apart_dots: f64,
}

/// The hatch of a kind; none for whole brick.
pub(crate) const fn hatching(kind: Kind) -> Option<Hatching> {
    let (angles, apart_dots): (&[f64], f64) = match kind {
        Kind::Whole => return None,
        Kind::ThreeQuarter => (&[45.0], 14.0),
        Kind::Half => (&[-45.0], 7.0),
        Kind::Cut => (&[45.0, -45.0], 10.0),
        Kind::Ripped => (&[0.0], 6.0),
        Kind::Tapered => (&[68.0], 12.0),
        Kind::Shaped => (&[45.0], 5.5),
    };
    Some(Hatching { angles, apart_dots })
}

/// Where strokes are drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scale {
    /// Drawing metres in a dot.
    pub metres_per_dot: f64,
    /// How wide a brick is drawn, in dots: hatches grow with it, so that a piece looks the same at every scale.
    pub width_dots: f64,
}

impl Scale {
    /// How much wider strokes stand apart.
    fn wider(self) -> f64 {
        (self.width_dots / 40.0).clamp(0.62, 5.0)
    }
}

/// The strokes of a kind inside an outline.
pub(crate) fn strokes(outline: &[Point], kind: Kind, scale: Scale) -> Strokes {
    let Some(hatching) = hatching(kind) else {
        return Strokes::default();
    };
    let along = longest_side(outline);
    let mut strokes = Strokes::default();
    for degrees in hatching.angles {
        let turn = degrees.to_radians();
        let (sin, cos) = (libm::sin(turn), libm::cos(turn));
        let way = (along.0 * cos - along.1 * sin, along.0 * sin + along.1 * cos);
        across(
            outline,
            way,
            hatching.apart_dots * scale.wider(),
            scale.metres_per_dot,
            &mut strokes,
        );
    }
    strokes
}

fn longest_side(outline: &[Point]) -> (f64, f64) {
    let mut longest = (1.0, 0.0, 0.0);
    for (from, to) in closed_sides(outline) {
        let (x, y) = (to.x - from.x, to.y - from.y);
        let length = libm::hypot(x, y);
        if length > longest.2 {
            longest = (x / length, y / length, length);
        }
    }
    (longest.0, longest.1)
}

/// Strokes right through an outline into one direction, about its middle.
fn across(
    outline: &[Point],
    (way_x, way_y): (f64, f64),
    apart_dots: f64,
    metres_per_dot: f64,
    strokes: &mut Strokes,
) {
    let apart_m = apart_dots * metres_per_dot;
    let inset_m = 0.6 * metres_per_dot;
    let key = |point: &Point| way_x * point.y - way_y * point.x;
    let place = |point: &Point| way_x * point.x + way_y * point.y;
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in outline {
        low = low.min(key(point));
        high = high.max(key(point));
    }
    let n_strokes = ((high - low) / apart_m).floor();
    if !(n_strokes.is_finite() && n_strokes < MOST_STROKES) {
        return;
    }
    // The strokes stand evenly about the middle, so that no piece is without one.
    let mut level = f64::midpoint(low, high) - apart_m * (n_strokes / 2.0).floor();
    while level <= low {
        level += apart_m;
    }
    while level < high {
        let mut crossings: Vec<f64> = closed_sides(outline)
            .filter(|(from, to)| (key(from) > level) != (key(to) > level))
            .map(|(from, to)| {
                let share = (level - key(&from)) / (key(&to) - key(&from));
                place(&from) + share * (place(&to) - place(&from))
            })
            .collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let &[from, to] = pair else { continue };
            let (from, to) = (from + inset_m, to - inset_m);
            if to > from {
                let at = |along: f64| Point {
                    x: way_x * along - way_y * level,
                    y: way_y * along + way_x * level,
                };
                strokes.push(&[at(from), at(to)]);
            }
        }
        level += apart_m;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inside::contains;

    #[test]
    fn strokes_lie_inside_and_every_cut_has_some() {
        // A brick of 200 x 100 mm turned by the angle whose sine is 3/5, and one with a corner off.
        let at = |along: f64, across: f64| Point {
            x: 30.0 + 0.8 * along - 0.6 * across,
            y: -7.0 + 0.6 * along + 0.8 * across,
        };
        let outlines = [
            vec![at(0.0, 0.0), at(0.2, 0.0), at(0.2, 0.1), at(0.0, 0.1)],
            vec![
                at(0.0, 0.0),
                at(0.2, 0.0),
                at(0.2, 0.04),
                at(0.12, 0.1),
                at(0.0, 0.1),
            ],
        ];
        for outline in &outlines {
            for kind in [
                Kind::ThreeQuarter,
                Kind::Half,
                Kind::Cut,
                Kind::Ripped,
                Kind::Tapered,
                Kind::Shaped,
            ] {
                for dots_per_metre in [40.0, 100.0, 900.0] {
                    let scale = Scale {
                        metres_per_dot: 1.0 / dots_per_metre,
                        width_dots: 0.1 * dots_per_metre,
                    };
                    let strokes = strokes(outline, kind, scale);
                    assert!(!strokes.is_empty(), "{kind:?}");
                    for stroke in strokes.iter() {
                        for step in 0..=10 {
                            let share = f64::from(step) / 10.0;
                            let spot = Point {
                                x: stroke[0].x + share * (stroke[1].x - stroke[0].x),
                                y: stroke[0].y + share * (stroke[1].y - stroke[0].y),
                            };
                            assert!(contains(outline, spot), "{kind:?} {spot:?}");
                        }
                    }
                }
            }
            let scale = Scale {
                metres_per_dot: 0.01,
                width_dots: 10.0,
            };
            assert!(strokes(outline, Kind::Whole, scale).is_empty());
        }
    }

    #[test]
    fn no_two_kinds_are_hatched_alike() {
        let kinds = [
            Kind::ThreeQuarter,
            Kind::Half,
            Kind::Cut,
            Kind::Ripped,
            Kind::Tapered,
            Kind::Shaped,
        ];
        for (nth, kind) in kinds.iter().enumerate() {
            for other in kinds.iter().skip(nth + 1) {
                assert_ne!(hatching(*kind), hatching(*other));
            }
        }
    }
}
