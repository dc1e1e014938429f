//! Hatches by drafting convention.
//!
//! Marks stand on a grid that is fixed to the ground, so that they stay where they are when the outline moves over them. A mark is
//! drawn only where it lies wholly inside the outline. Work grows with the number of marks: each is held against the few sides of
//! the outline that share its column.

use crate::inside::{Inside, closed_sides, index};
use crate::item::Point;
use crate::marks::Strokes;
use underbrick_calc::catalogue::Hatch;

/// More grid cells than this are not wanted in one outline: the grid is made wider instead.
const MOST_CELLS: f64 = 900.0;
/// How far a mark may stand aside of the middle of its cell, as a share of the cell.
const ASIDE: f64 = 0.3;
/// The same up and down.
const UP: f64 = 0.22;
/// No mark has more corners.
const MOST_CORNERS: usize = 7;

/// Where a hatch is fixed and how large its marks are.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Grid {
    /// The point of the ground that the grid hangs on.
    pub origin: Point,
    /// Drawing metres in a dot.
    pub metres_per_dot: f64,
}

/// The strokes of one hatch inside an outline, each an open line wholly inside it.
pub(crate) fn strokes(outline: &[Point], kind: Hatch, grid: Grid) -> Strokes {
    let dot = grid.metres_per_dot;
    let (cell_x, cell_y, reach) = match kind {
        Hatch::Brick => (11.0, 11.0, 2.6),
        Hatch::Sand => (6.5, 5.0, 0.6),
        Hatch::Stone => (13.0, 10.0, 3.4),
        Hatch::Concrete => (15.0, 12.0, 3.6),
        Hatch::Earth => (34.0, 17.0, 8.5),
        Hatch::Clay => (16.0, 8.0, 4.0),
        Hatch::Loose => (17.0, 13.0, 4.0),
    };
    let area_dots = area(outline) / (dot * dot);
    if !(area_dots.is_finite() && area_dots > 0.0) {
        return Strokes::default();
    }
    let wider = thinning(area_dots / (cell_x * cell_y));
    let (cell_x, cell_y) = (cell_x * wider * dot, cell_y * wider * dot);
    let Some(inside) = Inside::new(outline, cell_x.max(2.0 * reach * dot)) else {
        return Strokes::default();
    };
    let mut strokes = Strokes::default();
    let first_column = ((inside.left - grid.origin.x) / cell_x).floor() - 1.0;
    let last_column = ((inside.right - grid.origin.x) / cell_x).ceil() + 1.0;
    let mut column = first_column;
    while column <= last_column {
        let shifted = if column.rem_euclid(2.0) < 0.5 {
            0.0
        } else {
            0.5
        };
        let x = grid.origin.x + column * cell_x;
        let aside = 1.01 * ASIDE * cell_x;
        if let Some((low, high)) = inside.span_between(x - aside, x + aside) {
            // The rows whose marks can have their middle between the two.
            let up = 1.01 * UP;
            let mut row = ((low - grid.origin.y) / cell_y - shifted - up).ceil();
            let last_row = ((high - grid.origin.y) / cell_y - shifted + up).floor();
            while row <= last_row {
                let mut chance = Chance::at(column, row);
                let middle = Point {
                    x: x + ASIDE * cell_x * chance.signed(),
                    y: grid.origin.y + (row + shifted) * cell_y + UP * cell_y * chance.signed(),
                };
                row += 1.0;
                // Most cells about a slanting band lie outside it.
                if !inside.contains(middle) {
                    continue;
                }
                marks(kind, &mut chance, |mark| {
                    let place = |(across, up): &(f64, f64)| Point {
                        x: middle.x + across * dot,
                        y: middle.y + up * dot,
                    };
                    let mut spots = [Point::default(); MOST_CORNERS];
                    for (spot, corner) in spots.iter_mut().zip(mark) {
                        *spot = place(corner);
                    }
                    let stroke = spots.get(..mark.len()).unwrap_or_default();
                    if stroke.first().is_some_and(|first| inside.contains(*first))
                        && inside.has_no_side_across(stroke)
                    {
                        strokes.push(stroke);
                    }
                });
            }
        }
        column += 1.0;
    }
    strokes
}

/// How many times wider the grid is made for so many cells. It goes by steps, so that an outline that grows a little keeps its hatch.
fn thinning(cells: f64) -> f64 {
    let mut wider: f64 = 1.0;
    while cells / (wider * wider) > MOST_CELLS && wider < 1e6 {
        wider *= 1.25;
    }
    wider
}

/// Hands over the marks of one grid cell, in dots from its middle.
fn marks(kind: Hatch, chance: &mut Chance, mut each: impl FnMut(&[(f64, f64)])) {
    match kind {
        Hatch::Brick => each(&[(-2.6, -2.6), (2.6, 2.6)]),
        Hatch::Sand => each(&[(-0.55, 0.0), (0.55, 0.0)]),
        Hatch::Stone => {
            let size = 2.3 + 0.75 * chance.signed();
            let turn = chance.signed();
            const CORNERS: [(f64, f64); 6] = [
                (1.0, 0.15),
                (0.45, 0.78),
                (-0.5, 0.72),
                (-1.05, 0.05),
                (-0.5, -0.7),
                (0.55, -0.68),
            ];
            let stone = CORNERS.map(|(x, y)| {
                (
                    size * (x * (1.0 + 0.14 * chance.signed()) - 0.35 * turn * y),
                    size * (y + 0.3 * turn * x),
                )
            });
            let [a, b, c, d, e, f] = stone;
            each(&[a, b, c, d, e, f, a]);
        }
        Hatch::Concrete => {
            let size = 2.6 + 0.6 * chance.signed();
            let lean = 0.5 * chance.signed();
            let dot_up = if chance.signed() > 0.0 { 4.6 } else { -4.4 };
            each(&[
                (-size, -0.6 * size),
                (size, (-0.6 + 0.3 * lean) * size),
                (lean * size, 0.9 * size),
                (-size, -0.6 * size),
            ]);
            each(&[(5.4, dot_up), (6.5, dot_up)]);
            each(&[(-5.8, -dot_up), (-4.7, -dot_up)]);
        }
        Hatch::Earth => {
            for aside in [-4.2, 0.0, 4.2] {
                each(&[(aside - 4.0, -4.0), (aside + 4.0, 4.0)]);
            }
        }
        Hatch::Clay => each(&[(-4.0, 0.0), (4.0, 0.0)]),
        Hatch::Loose => {
            each(&[(0.0, -2.6), (0.0, 2.9)]);
            each(&[(-0.9, -2.6), (-3.4, 1.4)]);
            each(&[(0.9, -2.6), (3.4, 1.4)]);
        }
    }
}

/// Strokes right across an outline, all leaning the same way: the hatch of cut brick. `apart_dots` is measured along the level.
pub(crate) fn slanted_through(outline: &[Point], apart_dots: f64, grid: Grid) -> Strokes {
    let apart = apart_dots * grid.metres_per_dot;
    let inset = 0.9 * grid.metres_per_dot;
    // Along a stroke `x - y` does not change.
    let sides: Vec<(Point, Point)> = closed_sides(outline).collect();
    let key = |point: &Point| (point.x - grid.origin.x) - (point.y - grid.origin.y);
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for point in outline {
        low = low.min(key(point));
        high = high.max(key(point));
    }
    let count = (high - low) / apart;
    if !(count.is_finite() && count < 4.0 * MOST_CELLS) {
        return Strokes::default();
    }
    let mut crossings: Vec<Vec<f64>> = Vec::new();
    let first = (low / apart).ceil();
    let mut nth = first;
    while nth * apart <= high {
        crossings.push(Vec::new());
        nth += 1.0;
    }
    for (from, to) in &sides {
        let (key_from, key_to) = (key(from), key(to));
        let (lower, upper) = (key_from.min(key_to), key_from.max(key_to));
        let mut nth = (lower / apart).ceil().max(first);
        // Half open, so that a stroke through a corner meets one of its two sides.
        while nth * apart < upper {
            let share = (nth * apart - key_from) / (key_to - key_from);
            if let Some(crossings) = index(nth - first).and_then(|index| crossings.get_mut(index)) {
                crossings.push(from.x + share * (to.x - from.x));
            }
            nth += 1.0;
        }
    }
    let mut strokes = Strokes::default();
    let mut nth = first;
    for mut crossings in crossings {
        crossings.sort_by(f64::total_cmp);
        let below = nth * apart;
        for pair in crossings.chunks_exact(2) {
            let &[left, right] = pair else { continue };
            let (left, right) = (left + inset, right - inset);
            if right - left > 2.0 * grid.metres_per_dot {
                let at = |x: f64| Point {
                    x,
                    y: x - grid.origin.x - below + grid.origin.y,
                };
                strokes.push(&[at(left), at(right)]);
            }
        }
        nth += 1.0;
    }
    strokes
}

/// Numbers that look thrown but belong to a grid cell: the same cell always has the same ones.
struct Chance(u64);

impl Chance {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a cell number is small; only its bits are wanted"
    )]
    fn at(column: f64, row: f64) -> Self {
        let (column, row) = (column as i64, row as i64);
        let mixed = column.wrapping_mul(0x9E37_79B9_7F4A_7C15_u64.cast_signed())
            ^ row.wrapping_mul(0xC2B2_AE3D_27D4_EB4F_u64.cast_signed());
        Self(mixed.cast_unsigned() ^ 0x5851_F42D_4C95_7F2D)
    }

    /// From -1 to 1.
    fn signed(&mut self) -> f64 {
        self.0 ^= self.0 >> 30;
        self.0 = self.0.wrapping_mul(0xBF58_476D_1CE4_E5B9);
        self.0 ^= self.0 >> 27;
        self.0 = self.0.wrapping_mul(0x94D0_49BB_1331_11EB);
        self.0 ^= self.0 >> 31;
        let thousandths = u32::try_from(self.0 % 2001).unwrap_or_default();
        f64::from(thousandths) / 1000.0 - 1.0
    }
}

/// Area of an outline in square drawing metres.
fn area(outline: &[Point]) -> f64 {
    closed_sides(outline)
        .map(|(from, to)| from.x * to.y - to.x * from.y)
        .sum::<f64>()
        .abs()
        / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::inside::contains;

    const ALL: [Hatch; 7] = [
        Hatch::Brick,
        Hatch::Sand,
        Hatch::Stone,
        Hatch::Concrete,
        Hatch::Earth,
        Hatch::Clay,
        Hatch::Loose,
    ];

    fn outline(corners: &[(f64, f64)]) -> Vec<Point> {
        corners
            .iter()
            .map(|(x, y)| Point { x: *x, y: *y })
            .collect()
    }

    fn trough() -> Vec<Point> {
        outline(&[
            (-0.9, 0.02),
            (-0.62, 0.0),
            (-0.6, -0.35),
            (0.0, -0.28),
            (0.6, -0.35),
            (0.62, 0.0),
            (0.9, -0.02),
            (0.9, -0.5),
            (-0.9, -0.5),
        ])
    }

    const GRID: Grid = Grid {
        origin: Point {
            x: 0.013,
            y: -0.021,
        },
        metres_per_dot: 1.0 / 400.0,
    };

    /// Every spot of every stroke, by its own slow test.
    #[track_caller]
    fn check_inside(outline: &[Point], strokes: &Strokes) {
        for stroke in strokes.iter() {
            for pair in stroke.windows(2) {
                for step in 0..=20 {
                    let share = f64::from(step) / 20.0;
                    let spot = Point {
                        x: pair[0].x + share * (pair[1].x - pair[0].x),
                        y: pair[0].y + share * (pair[1].y - pair[0].y),
                    };
                    assert!(contains(outline, spot), "{spot:?}");
                }
            }
        }
    }

    #[test]
    fn every_mark_lies_inside_and_some_are_drawn() {
        for kind in ALL {
            let marks = strokes(&trough(), kind, GRID);
            assert!(marks.len() > 20, "{kind:?}: {}", marks.len());
            check_inside(&trough(), &marks);
        }
        let slanted = slanted_through(&trough(), 9.0, GRID);
        assert!(slanted.len() > 20);
        check_inside(&trough(), &slanted);
    }

    #[test]
    fn marks_lie_inside_many_shapes() {
        // Stars of changing depth and phase: not convex, with sharp corners.
        for nth in 0..60 {
            let (depth, turn) = (0.15 + 0.012 * f64::from(nth), 0.1 * f64::from(nth));
            let star: Vec<Point> = (0..14)
                .map(|corner| {
                    let radius = if corner % 2 == 0 { 0.4 } else { 0.4 * depth };
                    let angle = turn + f64::from(corner) * std::f64::consts::TAU / 14.0;
                    Point {
                        x: radius * libm::cos(angle),
                        y: radius * libm::sin(angle),
                    }
                })
                .collect();
            for kind in ALL {
                check_inside(&star, &strokes(&star, kind, GRID));
            }
            check_inside(&star, &slanted_through(&star, 7.0, GRID));
        }
    }

    #[test]
    fn marks_stay_when_the_outline_moves() {
        let narrow = outline(&[(0.0, 0.0), (0.5, 0.0), (0.5, -0.2), (0.0, -0.2)]);
        let wide = outline(&[(-0.1, 0.05), (0.6, 0.05), (0.6, -0.2), (-0.1, -0.2)]);
        for kind in ALL {
            let larger = strokes(&wide, kind, GRID);
            for stroke in strokes(&narrow, kind, GRID).iter() {
                assert!(larger.iter().any(|other| other == stroke), "{kind:?}");
            }
        }
    }

    #[test]
    fn nonsense_gives_no_marks() {
        for kind in ALL {
            assert!(strokes(&[], kind, GRID).is_empty());
            assert!(strokes(&outline(&[(0.0, 0.0), (1.0, 0.0)]), kind, GRID).is_empty());
            assert!(
                strokes(
                    &outline(&[(0.0, 0.0), (f64::NAN, 0.0), (1.0, 1.0)]),
                    kind,
                    GRID
                )
                .is_empty()
            );
        }
    }

    #[test]
    fn large_areas_are_thinned() {
        let field = outline(&[(0.0, 0.0), (40.0, 0.0), (40.0, -20.0), (0.0, -20.0)]);
        for kind in ALL {
            let marks = strokes(&field, kind, GRID);
            assert!(marks.len() < 4000, "{kind:?}: {}", marks.len());
        }
    }
}
