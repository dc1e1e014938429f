//! Marks of a drawing cut off at the edge of its sheet: a drawing may reach beyond it, a page may not.

use underbrick_drawing::item::{Item, Point};
use underbrick_drawing::marks::Strokes;

/// A rectangle in dots to the right and up: left, right, lower and upper end.
#[derive(Clone, Copy, Debug)]
pub(super) struct Within {
    pub left: f64,
    pub right: f64,
    pub low: f64,
    pub high: f64,
}

/// What is left of an item; several, where a line leaves and comes back.
pub(super) fn clipped(item: Item, within: Within) -> Vec<Item> {
    match item {
        Item::Area {
            outline,
            fill,
            pen,
            place,
        } => {
            if outline.iter().all(|point| within.holds(*point)) {
                return vec![Item::Area {
                    outline,
                    fill,
                    pen,
                    place,
                }];
            }
            let outline = within.area(&outline);
            if outline.len() < 3 {
                return Vec::new();
            }
            vec![Item::Area {
                outline,
                fill,
                pen,
                place,
            }]
        }
        Item::Line { points, pen, place } => within
            .lines(&points)
            .into_iter()
            .map(|points| Item::Line { points, pen, place })
            .collect(),
        Item::Hatch { strokes, pen } => {
            let mut kept = Strokes::default();
            for stroke in strokes.iter() {
                for line in within.lines(stroke) {
                    kept.push(&line);
                }
            }
            vec![Item::Hatch { strokes: kept, pen }]
        }
        Item::Label { at, .. } => {
            if within.holds(at) {
                vec![item]
            } else {
                Vec::new()
            }
        }
    }
}

impl Within {
    fn holds(self, point: Point) -> bool {
        (self.left..=self.right).contains(&point.x) && (self.low..=self.high).contains(&point.y)
    }

    /// An outline cut at the four sides, one after another.
    ///
    /// # Source
    /// I. E. Sutherland and G. W. Hodgman, Reentrant Polygon Clipping, Communications of the ACM 17 (1974). Where an outline leaves and comes
    /// back, its parts hang together by edges along the side of the sheet.
    fn area(self, outline: &[Point]) -> Vec<Point> {
        let sides = [
            (true, self.left, 1.0),
            (true, self.right, -1.0),
            (false, self.low, 1.0),
            (false, self.high, -1.0),
        ];
        let mut points = outline.to_vec();
        for (is_across, limit, sign) in sides {
            let along = |point: Point| if is_across { point.x } else { point.y };
            let inside = |point: Point| sign * (along(point) - limit) >= 0.0;
            let mut kept = Vec::with_capacity(points.len() + 2);
            for (from, to) in points.iter().zip(points.iter().cycle().skip(1)) {
                if inside(*from) {
                    kept.push(*from);
                }
                if inside(*from) != inside(*to) {
                    kept.push(between(
                        *from,
                        *to,
                        (limit - along(*from)) / (along(*to) - along(*from)),
                    ));
                }
            }
            points = kept;
        }
        points
    }

    /// The parts of a line that lie inside.
    ///
    /// # Source
    /// Y.-D. Liang and B. A. Barsky, A New Concept and Method for Line Clipping, ACM Transactions on Graphics 3 (1984).
    fn lines(self, points: &[Point]) -> Vec<Vec<Point>> {
        if points.iter().all(|point| self.holds(*point)) {
            return if points.is_empty() {
                Vec::new()
            } else {
                vec![points.to_vec()]
            };
        }
        let mut lines: Vec<Vec<Point>> = Vec::new();
        let mut line: Vec<Point> = Vec::new();
        for pair in points.windows(2) {
            let &[from, to] = pair else { continue };
            let Some((enters, leaves)) = self.shares(from, to) else {
                lines.push(std::mem::take(&mut line));
                continue;
            };
            if enters > 0.0 {
                lines.push(std::mem::take(&mut line));
            }
            if line.is_empty() {
                line.push(between(from, to, enters));
            }
            line.push(between(from, to, leaves));
            if leaves < 1.0 {
                lines.push(std::mem::take(&mut line));
            }
        }
        lines.push(line);
        lines.retain(|line| line.len() > 1);
        lines
    }

    /// From which to which share of a stretch it lies inside.
    fn shares(self, from: Point, to: Point) -> Option<(f64, f64)> {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (towards, room) in [
            (-dx, from.x - self.left),
            (dx, self.right - from.x),
            (-dy, from.y - self.low),
            (dy, self.high - from.y),
        ] {
            if towards == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else if towards < 0.0 {
                enters = enters.max(room / towards);
            } else {
                leaves = leaves.min(room / towards);
            }
        }
        (enters <= leaves).then_some((enters, leaves))
    }
}

fn between(from: Point, to: Point, share: f64) -> Point {
    Point {
        x: from.x + (to.x - from.x) * share,
        y: from.y + (to.y - from.y) * share,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WITHIN: Within = Within {
        left: 0.0,
        right: 10.0,
        low: 0.0,
        high: 10.0,
    };

    fn at(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    #[test]
    fn a_line_that_leaves_and_comes_back_is_two() {
        let lines = WITHIN.lines(&[at(2.0, 5.0), at(12.0, 5.0), at(12.0, 8.0), at(5.0, 8.0)]);
        assert_eq!(
            lines,
            [
                vec![at(2.0, 5.0), at(10.0, 5.0)],
                vec![at(10.0, 8.0), at(5.0, 8.0)]
            ]
        );
        assert!(WITHIN.lines(&[at(-1.0, -1.0), at(-5.0, 20.0)]).is_empty());
    }

    #[test]
    fn an_outline_keeps_what_lies_inside() {
        // A square of 10 moved by 5 to the right and up leaves 5 x 5.
        let outline = WITHIN.area(&[at(5.0, 5.0), at(15.0, 5.0), at(15.0, 15.0), at(5.0, 15.0)]);
        let twice: f64 = outline
            .iter()
            .zip(outline.iter().cycle().skip(1))
            .map(|(one, next)| one.x * next.y - next.x * one.y)
            .sum();
        assert!((twice.abs() - 50.0).abs() < 1e-9, "{outline:?}");
    }
}
