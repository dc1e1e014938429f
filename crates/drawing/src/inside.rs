//! What lies inside an outline.

use crate::item::Point;

/// An outline that answers quickly whether a mark lies inside it: its sides are kept by column.
pub(crate) struct Inside {
    /// Least and greatest across.
    pub left: f64,
    pub right: f64,
    width: f64,
    columns: Vec<Vec<Side>>,
}

/// A side of an outline with the room that it takes.
#[derive(Clone, Copy)]
struct Side {
    from: Point,
    to: Point,
    left: f64,
    right: f64,
    bottom: f64,
    top: f64,
}

impl Inside {
    /// `None` for an outline without area or with corners that are not finite.
    pub fn new(outline: &[Point], width: f64) -> Option<Self> {
        let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
        for point in outline {
            if !(point.x.is_finite() && point.y.is_finite()) {
                return None;
            }
            left = left.min(point.x);
            right = right.max(point.x);
        }
        let count = index(((right - left) / width).ceil()).filter(|count| *count < 100_000)?;
        let mut columns = vec![Vec::new(); count + 1];
        for (from, to) in closed_sides(outline) {
            let side = Side {
                from,
                to,
                left: from.x.min(to.x),
                right: from.x.max(to.x),
                bottom: from.y.min(to.y),
                top: from.y.max(to.y),
            };
            let first = index((side.left - left) / width).unwrap_or_default();
            let last = index((side.right - left) / width).unwrap_or_default();
            for column in columns.iter_mut().take(last + 1).skip(first) {
                column.push(side);
            }
        }
        Some(Self {
            left,
            right,
            width,
            columns,
        })
    }

    fn column(&self, x: f64) -> &[Side] {
        self.column_idx(x)
            .and_then(|column_idx| self.columns.get(column_idx))
            .map_or(&[], Vec::as_slice)
    }

    fn column_idx(&self, x: f64) -> Option<usize> {
        index((x - self.left) / self.width)
    }

    /// Lowest and highest that the outline reaches between two places across; `None` where it does not come there.
    pub fn span_between(&self, left: f64, right: f64) -> Option<(f64, f64)> {
        let (left, right) = (left.max(self.left), right.min(self.right));
        let (first, last) = (self.column_idx(left)?, self.column_idx(right)?);
        let mut span: Option<(f64, f64)> = None;
        for side in self.columns.get(first..=last)?.iter().flatten() {
            if side.left > right || side.right < left {
                continue;
            }
            let run = side.to.x - side.from.x;
            let (mut low, mut high) = (side.bottom, side.top);
            if run != 0.0 {
                let at = |x: f64| {
                    let share = ((x - side.from.x) / run).clamp(0.0, 1.0);
                    side.from.y + share * (side.to.y - side.from.y)
                };
                let (one, other) = (at(left), at(right));
                (low, high) = (one.min(other), one.max(other));
            }
            span = Some(span.map_or((low, high), |(lowest, highest)| {
                (low.min(lowest), high.max(highest))
            }));
        }
        span
    }

    /// Whether no side of the outline meets a stroke. Strokes are narrower than a column.
    pub fn has_no_side_across(&self, stroke: &[Point]) -> bool {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let (mut bottom, mut top) = (f64::INFINITY, f64::NEG_INFINITY);
        for point in stroke {
            (low, high) = (low.min(point.x), high.max(point.x));
            (bottom, top) = (bottom.min(point.y), top.max(point.y));
        }
        if low < self.left || high > self.right {
            return false;
        }
        let near = |side: &&Side| {
            side.left <= high && side.right >= low && side.bottom <= top && side.top >= bottom
        };
        let is_clear = |sides: &[Side]| {
            sides.iter().filter(near).all(|side| {
                stroke.windows(2).all(|pair| {
                    if let &[from, to] = pair {
                        !cross((from, to), (side.from, side.to))
                    } else {
                        true
                    }
                })
            })
        };
        is_clear(self.column(low))
            && (self.column_idx(low) == self.column_idx(high) || is_clear(self.column(high)))
    }

    /// Whether a point lies inside, by the sides above it.
    pub fn contains(&self, point: Point) -> bool {
        if point.x < self.left || point.x > self.right {
            return false;
        }
        let mut is_inside = false;
        for Side { from, to, .. } in self.column(point.x) {
            if (from.x > point.x) != (to.x > point.x) {
                let y = from.y + (point.x - from.x) / (to.x - from.x) * (to.y - from.y);
                if y > point.y {
                    is_inside = !is_inside;
                }
            }
        }
        is_inside
    }
}

/// Whether a point lies inside an outline.
pub(crate) fn contains(outline: &[Point], point: Point) -> bool {
    let mut is_inside = false;
    for (from, to) in closed_sides(outline) {
        if (from.x > point.x) != (to.x > point.x)
            && from.y + (point.x - from.x) / (to.x - from.x) * (to.y - from.y) > point.y
        {
            is_inside = !is_inside;
        }
    }
    is_inside
}

/// Whether two straight lines have a point in common.
pub(crate) fn cross(first: (Point, Point), second: (Point, Point)) -> bool {
    let side = |from: Point, to: Point, point: Point| {
        (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x)
    };
    let overlap = |a: f64, b: f64, c: f64, d: f64| a.min(b) <= c.max(d) && c.min(d) <= a.max(b);
    overlap(first.0.x, first.1.x, second.0.x, second.1.x)
        && overlap(first.0.y, first.1.y, second.0.y, second.1.y)
        && side(first.0, first.1, second.0) * side(first.0, first.1, second.1) <= 0.0
        && side(second.0, second.1, first.0) * side(second.0, second.1, first.1) <= 0.0
}

/// The sides of an outline, the one that closes it among them.
pub(crate) fn closed_sides(outline: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let following = outline.iter().skip(1).chain(outline.first());
    outline.iter().copied().zip(following.copied())
}

/// A whole number from a float that is none, as an index. `None` below zero or where it is not finite.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "checked to lie in the range"
)]
pub(crate) fn index(value: f64) -> Option<usize> {
    (0.0..1e9).contains(&value).then_some(value as usize)
}
