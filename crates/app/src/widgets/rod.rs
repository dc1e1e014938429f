//! The gauge rod: carries the stops of the visit, a notch filled as its stop becomes known.

use egui::{Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::canvas::lettering;
use crate::stops::Stop;
use crate::theme::{self, Ink, size};

/// One notch of the rod.
#[derive(Clone, Copy, Debug)]
pub struct Notch {
    /// Its stop.
    pub stop: Stop,
    /// How much of it is known, from 0 to 1.
    pub known: f32,
}

/// Shows the rod in `rect`, upright where it is higher than wide. Gives the stop that was tapped.
pub fn rod_ui(ui: &mut Ui, rect: Rect, notches: &[Notch], at: Stop) -> Option<Stop> {
    let upright = rect.height() > rect.width();
    let count = notches.len().max(1) as f32;
    let mut tapped = None;
    for (idx, notch) in notches.iter().enumerate() {
        let share = idx as f32 / count;
        let cell = if upright {
            Rect::from_min_size(
                pos2(rect.min.x, rect.min.y + share * rect.height()),
                vec2(rect.width(), rect.height() / count),
            )
        } else {
            Rect::from_min_size(
                pos2(rect.min.x + share * rect.width(), rect.min.y),
                vec2(rect.width() / count, rect.height()),
            )
        };
        let response = ui.interact(
            cell,
            ui.scope_id().with(("stop", notch.stop.word())),
            Sense::click(),
        );
        response.widget_info(|| {
            WidgetInfo::selected(Role::Tab, true, notch.stop == at, notch.stop.word())
        });
        if response.clicked() {
            tapped = Some(notch.stop);
        }
        paint_notch(ui, cell, *notch, notch.stop == at, upright);
    }
    tapped
}

fn paint_notch(ui: &Ui, cell: Rect, notch: Notch, is_here: bool, upright: bool) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let staff = if upright {
        Rect::from_min_max(
            pos2(cell.min.x + 10.0, cell.min.y),
            pos2(cell.min.x + 30.0, cell.max.y),
        )
    } else {
        Rect::from_min_max(
            pos2(cell.min.x, cell.min.y + 8.0),
            pos2(cell.max.x, cell.min.y + 26.0),
        )
    };
    let outline = Stroke::new(1.5, theme::color(Ink::Ink, theme));
    painter.rect(
        staff,
        1,
        theme::color(Ink::Key, theme),
        outline,
        StrokeKind::Middle,
    );
    let known = notch.known.clamp(0.0, 1.0);
    let filled = if upright {
        Rect::from_min_max(
            pos2(staff.min.x, staff.max.y - known * staff.height()),
            staff.max,
        )
    } else {
        Rect::from_min_max(
            staff.min,
            pos2(staff.min.x + known * staff.width(), staff.max.y),
        )
    };
    painter.rect_filled(
        filled.shrink(1.5),
        0,
        theme::color(Ink::Line, theme).gamma_multiply(0.28),
    );
    let tick = Stroke::new(1.0, theme::color(Ink::Ink, theme));
    for step in 1..6 {
        let share = step as f32 / 6.0;
        let long = if step == 3 { 11.0 } else { 6.0 };
        if upright {
            let y = staff.min.y + share * staff.height();
            painter.line_segment([pos2(staff.min.x, y), pos2(staff.min.x + long, y)], tick);
        } else {
            let x = staff.min.x + share * staff.width();
            painter.line_segment([pos2(x, staff.min.y), pos2(x, staff.min.y + long)], tick);
        }
    }
    let (center, plate) = if upright {
        let center = pos2((staff.max.x + cell.max.x) / 2.0 + 2.0, cell.center().y);
        (
            center,
            Rect::from_center_size(center, vec2(cell.max.x - staff.max.x - 6.0, 44.0)),
        )
    } else {
        let center = pos2(cell.center().x, (staff.max.y + cell.max.y) / 2.0 + 2.0);
        (
            center,
            Rect::from_center_size(
                center,
                vec2(
                    (cell.width() - 16.0).min(150.0),
                    cell.max.y - staff.max.y - 10.0,
                ),
            ),
        )
    };
    let ink = if is_here {
        painter.rect_filled(plate, size::CORNER, theme::color(Ink::Line, theme));
        Ink::Paper
    } else {
        Ink::Ink
    };
    let text = if is_here {
        Text::bold(notch.stop.word())
    } else {
        Text::regular(notch.stop.word())
    };
    let mut points = theme::sized(ui, size::LABEL);
    while lettering::width(&text, points) > plate.width() - 4.0 && points > size::TICK {
        points -= 1.0;
    }
    lettering::paint(
        painter,
        center,
        Anchor::Middle,
        &text,
        points,
        theme::color(ink, theme),
    );
}
