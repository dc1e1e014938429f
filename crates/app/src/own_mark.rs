//! Our own mark: a brick over three lifts, seen in section, with the chalk line above.

use egui::{Pos2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use crate::theme::{self, Ink};

/// A bar of the mark, in tenths of its side: as far to the left of the middle as to the right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Of its upper edge, down from the top.
    pub top: f32,
    /// From its upper edge to its lower one.
    pub height: f32,
    /// From the middle to either end.
    pub half: f32,
    /// What fills it.
    pub ink: Ink,
}

/// Brick and lifts.
pub const BARS: [Bar; 4] = [
    bar(2.4, 2.2, 3.6, Ink::Clay),
    bar(4.6, 1.7, 5.0, Ink::BaseEven),
    bar(6.3, 1.7, 5.0, Ink::BaseOdd),
    bar(8.0, 1.7, 5.0, Ink::BaseEven),
];

/// How far down the chalk line is, in tenths of the side.
pub const LINE_TOP: f32 = 1.2;

/// How far the chalk line reaches to either side of the middle, in tenths of the side.
pub const LINE_HALF: f32 = 5.4;

const fn bar(top: f32, height: f32, half: f32, ink: Ink) -> Bar {
    Bar {
        top,
        height,
        half,
        ink,
    }
}

/// Paints it around `center`.
pub(crate) fn own_mark(ui: &Ui, center: Pos2, side: f32) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let unit = side / 10.0;
    let top = center.y - side / 2.0;
    for bar in BARS {
        let middle = pos2(center.x, top + (bar.top + bar.height / 2.0) * unit);
        let rect = Rect::from_center_size(middle, vec2(bar.half * 2.0, bar.height) * unit);
        painter.rect(
            rect,
            1,
            theme::color(bar.ink, theme),
            Stroke::new(1.2, theme::color(Ink::Ink, theme)),
            StrokeKind::Middle,
        );
    }
    let y = top + LINE_TOP * unit;
    painter.line_segment(
        [
            pos2(center.x - LINE_HALF * unit, y),
            pos2(center.x + LINE_HALF * unit, y),
        ],
        Stroke::new(2.5, theme::color(Ink::Line, theme)),
    );
}
