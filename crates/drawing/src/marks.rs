//! Many open lines in one list: a hatch has thousands, and a list of lists would cost more than working them out.

use crate::item::Point;

/// Open lines, kept one after another.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Strokes {
    points: Vec<Point>,
    /// For each stroke, the number of points up to its end.
    ends: Vec<usize>,
}

impl Strokes {
    /// Adds a stroke through these points.
    pub fn push(&mut self, stroke: &[Point]) {
        self.points.extend_from_slice(stroke);
        self.ends.push(self.points.len());
    }

    /// The same strokes with every point turned into another.
    #[must_use]
    pub fn moved(mut self, to: impl Fn(Point) -> Point) -> Self {
        for point in &mut self.points {
            *point = to(*point);
        }
        self
    }

    /// Number of strokes.
    #[must_use]
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// Each stroke, in the order in which it was added.
    pub fn iter(&self) -> impl Iterator<Item = &[Point]> {
        let starts = std::iter::once(0).chain(self.ends.iter().copied());
        starts
            .zip(&self.ends)
            .filter_map(|(start, end)| self.points.get(start..*end))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strokes_come_back_as_they_were_added() {
        let at = |x: f64| Point { x, y: -x };
        let mut strokes = Strokes::default();
        assert!(strokes.is_empty() && strokes.iter().next().is_none());
        let added = [
            vec![at(1.0), at(2.0)],
            vec![],
            vec![at(3.0), at(4.0), at(5.0)],
        ];
        for stroke in &added {
            strokes.push(stroke);
        }
        assert_eq!(strokes.len(), 3);
        assert!(strokes.iter().eq(added.iter().map(Vec::as_slice)));
    }
}
