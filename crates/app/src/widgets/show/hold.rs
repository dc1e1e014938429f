//! A key that is held: a stray tap does nothing, a ring fills while a finger rests on it.

use std::f32::consts::TAU;

use egui::{Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::canvas::lettering;
use crate::canvas::lettering::narrowed;
use crate::theme::{self, Ink, size};

/// How long it is held, in seconds.
pub const HOLD_S: f64 = 1.0;

/// Since when a finger has been on the key.
#[derive(Clone, Copy, Debug, Default)]
pub struct Hold {
    since_s: Option<f64>,
}

/// Shows the key in `rect`, its word at its left. Gives true once it was held long enough.
pub fn hold_ui(ui: &Ui, rect: Rect, hold: &mut Hold, word: &str) -> bool {
    let id = ui.scope_id().with(("hold", word));
    let response = ui.interact(rect, id, Sense::click_and_drag());
    let name = word.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    let now_s = ui.input(|input| input.time);
    let is_on_it = response.is_pointer_button_down_on()
        && ui
            .input(|input| input.pointer.interact_pos())
            .is_some_and(|at| rect.contains(at));
    let share = if is_on_it {
        let since_s = *hold.since_s.get_or_insert(now_s);
        ui.request_repaint();
        narrowed((now_s - since_s) / HOLD_S).clamp(0.0, 1.0)
    } else {
        hold.since_s = None;
        0.0
    };
    paint(ui, rect, share, word);
    let is_held = share >= 1.0;
    if is_held {
        hold.since_s = None;
    }
    is_held
}

fn paint(ui: &Ui, rect: Rect, share: f32, word: &str) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let radius = 0.36 * rect.width().min(rect.height());
    let center = pos2(rect.max.x - rect.height() / 2.0, rect.center().y);
    painter.circle_stroke(
        center,
        radius,
        Stroke::new(3.0, theme::color(Ink::Hairline, theme)),
    );
    if share > 0.0 {
        let steps: u8 = 40;
        let points = (0..=steps).map(|step| {
            let angle = TAU * (share * f32::from(step) / f32::from(steps) - 0.25);
            center + radius * vec2(angle.cos(), angle.sin())
        });
        painter.add(Shape::line(
            points.collect(),
            Stroke::new(5.0, theme::color(Ink::Line, theme)),
        ));
    }
    let ink = theme::color(Ink::SecondInk, theme);
    let arm = 0.34 * radius;
    for (dx, dy) in [(1.0, 1.0), (1.0, -1.0)] {
        let along = vec2(dx * arm, dy * arm);
        painter.line_segment([center - along, center + along], Stroke::new(2.5, ink));
    }
    let points = theme::sized(ui, size::NOTE);
    lettering::paint(
        painter,
        pos2(center.x - radius - 12.0, center.y),
        Anchor::Right,
        &Text::regular(word),
        points,
        ink,
    );
}
