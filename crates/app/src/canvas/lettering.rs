//! Lettering on screen: places the parts that `drawing` laid out, fractions over their slanted bar among them.

use egui::epaint::TextShape;
use egui::{Color32, Painter, Pos2, Shape, Stroke, pos2, vec2};
use underbrick_drawing::font::Weight;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::{LaidOut, Placed, Text, lay_out};

use crate::theme;

/// Height of a figure above the baseline, in ems: figures are centred on the anchor's height by it.
const FIGURE_EMS: f32 = 0.72;

/// Width of a text in points.
#[must_use]
pub fn width(text: &Text, size: f32) -> f32 {
    narrowed(lay_out(text).advance) * size
}

/// Shapes of one line of text whose figures are centred on `at`.
#[must_use]
pub fn shapes(
    painter: &Painter,
    at: Pos2,
    anchor: Anchor,
    text: &Text,
    size: f32,
    color: Color32,
) -> Vec<Shape> {
    let laid_out = lay_out(text);
    let advance = narrowed(laid_out.advance) * size;
    let left = match anchor {
        Anchor::Left => at.x,
        Anchor::Middle => at.x - advance / 2.0,
        Anchor::Right => at.x - advance,
    };
    let baseline = pos2(left, at.y + FIGURE_EMS * size / 2.0);
    parts(painter, baseline, &laid_out, text.weight, size, color)
}

/// Paints one line of text at once.
pub fn paint(painter: &Painter, at: Pos2, anchor: Anchor, text: &Text, size: f32, color: Color32) {
    painter.extend(shapes(painter, at, anchor, text, size, color));
}

fn parts(
    painter: &Painter,
    baseline: Pos2,
    laid_out: &LaidOut,
    weight: Weight,
    size: f32,
    color: Color32,
) -> Vec<Shape> {
    let on_screen = |x: f64, y: f64| baseline + vec2(narrowed(x) * size, -narrowed(y) * size);
    laid_out
        .parts
        .iter()
        .map(|part| match part {
            Placed::Run {
                x,
                y,
                size: share,
                letters,
            } => {
                let points = narrowed(*share) * size;
                let font = match weight {
                    Weight::Regular => theme::regular(points),
                    Weight::Bold => theme::bold(points),
                };
                let galley = painter.layout_no_wrap(letters.clone(), font, color);
                let rise = galley
                    .rows
                    .first()
                    .and_then(|row| row.row.glyphs.first().map(|glyph| row.pos.y + glyph.pos.y))
                    .unwrap_or(points);
                Shape::Text(TextShape::new(
                    on_screen(*x, *y) - vec2(0.0, rise),
                    galley,
                    color,
                ))
            }
            Placed::Bar { from, to, width } => Shape::line_segment(
                [on_screen(from.0, from.1), on_screen(to.0, to.1)],
                Stroke::new((narrowed(*width) * size).max(1.0), color),
            ),
        })
        .collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "screen positions: single precision is what the painter takes"
)]
pub(crate) fn narrowed(value: f64) -> f32 {
    value as f32
}
