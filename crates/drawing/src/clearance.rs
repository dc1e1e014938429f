//! Whether a drawing can be read: no two labels touch, no line runs through a label, no label stands on a hatch or off the sheet.

use crate::draft::width_of;
use crate::inside::contains;
use crate::item::{Anchor, Drawing, Item, Point};
use crate::text::Text;

/// The room that a label takes, in dots from the upper left corner of the sheet, down positive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelBox {
    /// Left side.
    pub left: f64,
    /// Top.
    pub top: f64,
    /// Right side.
    pub right: f64,
    /// Bottom.
    pub bottom: f64,
}

impl LabelBox {
    /// How far a spot lies outside, in dots; 0 inside.
    #[must_use]
    pub fn distance(&self, x_dots: f64, y_dots: f64) -> f64 {
        let across = (self.left - x_dots).max(x_dots - self.right).max(0.0);
        let down = (self.top - y_dots).max(y_dots - self.bottom).max(0.0);
        libm::hypot(across, down)
    }

    /// Whether two of them share room.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether a straight line passes through.
    #[must_use]
    pub fn is_crossed_by(&self, from: (f64, f64), to: (f64, f64)) -> bool {
        // The part of the line inside each pair of sides, as shares of its length.
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for (start, end, low, high) in [
            (from.0, to.0, self.left, self.right),
            (from.1, to.1, self.top, self.bottom),
        ] {
            let run = end - start;
            if run.abs() < 1e-12 {
                if start <= low || start >= high {
                    return false;
                }
                continue;
            }
            let (first, second) = ((low - start) / run, (high - start) / run);
            enters = enters.max(first.min(second));
            leaves = leaves.min(first.max(second));
        }
        enters < leaves
    }

    pub(crate) fn corners(&self) -> [(f64, f64); 4] {
        [
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        ]
    }
}

/// The room that a label takes on its sheet.
#[must_use]
pub fn label_box(drawing: &Drawing, at: Point, text: &Text, size: f64, anchor: Anchor) -> LabelBox {
    let (x, y) = drawing.sheet_from_drawing(at);
    let width = width_of(text, size);
    let left = x - width * anchor.share();
    // From the tops of the tall letters to the feet of the deep ones, about the middle of the figures.
    LabelBox {
        left,
        top: y - 0.42 * size,
        right: left + width,
        bottom: y + 0.56 * size,
    }
}

/// What makes a drawing hard to read, in words; empty for a good one. A line or a hatch that a later area hides does no harm.
#[must_use]
pub fn faults(drawing: &Drawing) -> Vec<String> {
    let mut faults = Vec::new();
    let labels: Vec<(usize, LabelBox, &str)> = drawing
        .items
        .iter()
        .enumerate()
        .filter_map(|(index, item)| match item {
            Item::Label {
                at,
                text,
                size,
                anchor,
                ..
            } => Some((
                index,
                label_box(drawing, *at, text, *size, *anchor),
                text.written.as_str(),
            )),
            Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
        })
        .collect();
    for (nth, (index, label, written)) in labels.iter().enumerate() {
        if label.left < 0.0
            || label.top < 0.0
            || label.right > drawing.sheet.width
            || label.bottom > drawing.sheet.height
        {
            faults.push(format!("“{written}” leaves the sheet"));
        }
        for (_, other, other_written) in labels.iter().skip(nth + 1) {
            if label.meets(other) {
                faults.push(format!("“{written}” touches “{other_written}”"));
            }
        }
        let hidden_before = last_cover(drawing, *index, label);
        for item in drawing.items.iter().skip(hidden_before) {
            let crosses = |line: &[Point]| {
                line.windows(2).any(|pair| {
                    let &[from, to] = pair else { return false };
                    label.is_crossed_by(
                        drawing.sheet_from_drawing(from),
                        drawing.sheet_from_drawing(to),
                    )
                })
            };
            let (is_crossed, what) = match item {
                Item::Line { points, .. } => (crosses(points), "a line"),
                Item::Hatch { strokes, .. } => (strokes.iter().any(crosses), "a hatch"),
                Item::Area { .. } | Item::Label { .. } => continue,
            };
            if is_crossed {
                faults.push(format!("{what} runs through “{written}”"));
            }
        }
    }
    faults
}

/// Index after the last area that lies behind the whole label; 0 where there is none.
fn last_cover(drawing: &Drawing, label_index: usize, label: &LabelBox) -> usize {
    let corners = label
        .corners()
        .map(|(x, y)| drawing.drawing_from_sheet(x, y));
    let before = drawing.items.iter().take(label_index).enumerate().rev();
    let covers = |item: &Item| match item {
        Item::Area { outline, .. } => corners.iter().all(|corner| contains(outline, *corner)),
        Item::Line { .. } | Item::Hatch { .. } | Item::Label { .. } => false,
    };
    before
        .into_iter()
        .find(|(_, item)| covers(item))
        .map_or(0, |(index, _)| index + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_through_a_box_is_seen() {
        let label = LabelBox {
            left: 10.0,
            top: 10.0,
            right: 50.0,
            bottom: 20.0,
        };
        let check = |from, to, expected| {
            assert_eq!(label.is_crossed_by(from, to), expected, "{from:?} {to:?}");
        };
        check((0.0, 15.0), (100.0, 15.0), true);
        check((30.0, 0.0), (30.0, 100.0), true);
        check((30.0, 0.0), (30.0, 9.0), false);
        check((0.0, 0.0), (12.0, 30.0), false);
        check((12.0, 12.0), (13.0, 13.0), true);
        check((0.0, 20.0), (100.0, 20.0), false);
        check((0.0, 100.0), (100.0, 100.0), false);
    }

    #[test]
    fn distance_is_that_to_the_nearest_side() {
        let label = LabelBox {
            left: 10.0,
            top: 10.0,
            right: 50.0,
            bottom: 20.0,
        };
        assert!((label.distance(30.0, 15.0)).abs() < 1e-12);
        // 3-4-5 from the lower right corner.
        assert!((label.distance(53.0, 24.0) - 5.0).abs() < 1e-12);
    }
}
