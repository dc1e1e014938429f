//! How a number comes about: one step under the other along a rod.

use egui::{Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::theme::{self, Ink, size};
use crate::widgets::words::{Face, Words};

/// Left edge of the words, behind the rod.
const INDENT: f32 = 32.0;

/// Shows steps.
pub(super) fn steps_ui(ui: &mut Ui, steps: &[String]) {
    ui.spacing_mut().item_spacing.y = 0.0;
    for step in steps {
        step_ui(ui, step);
    }
    ui.spacing_mut().item_spacing.y = size::GAP;
    ui.add_space(size::GAP);
}

fn step_ui(ui: &mut Ui, step: &str) {
    let room = ui.available_width() - INDENT - 10.0;
    let words = Words::broken(
        ui,
        step,
        Face::regular(size::NOTE + 1.0),
        room,
        Anchor::Left,
    );
    let line = theme::tall(ui, 27.0);
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), line + words.more()),
        Sense::hover(),
    );
    let name = step.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let theme = theme::current(ui);
    let painter = ui.painter();
    let rod = Stroke::new(2.0, theme::color(Ink::Line, theme));
    let (x, middle) = (rect.min.x + 17.0, rect.min.y + line / 2.0);
    painter.vline(x, rect.y_range(), rod);
    painter.hline(x..=x + 9.0, middle, rod);
    words.paint(
        painter,
        pos2(rect.min.x + INDENT, middle),
        theme::color(Ink::Ink, theme),
    );
}
