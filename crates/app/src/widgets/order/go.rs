//! A key that leads to where something is measured.

use egui::{Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;

use crate::theme::{self, Ink, size};
use crate::widgets::mark::Mark;
use crate::widgets::words::{Face, Words};

/// Shows the key. Gives whether it was tapped.
pub(super) fn go_ui(ui: &mut Ui, nth: usize, words: &str, place: Place) -> bool {
    let room = ui.available_width() - 34.0 - 40.0;
    let set = Words::broken(ui, words, Face::regular(size::LABEL), room, Anchor::Left);
    let height = (theme::tall(ui, 38.0) + set.more()).max(size::KEY);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let id = ui.scope_id().with(("go", nth, place));
    let response = ui.interact(rect, id, Sense::click());
    let name = words.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    let theme = theme::current(ui);
    let painter = ui.painter();
    let fill = if response.is_pointer_button_down_on() {
        Ink::LineGround
    } else {
        Ink::Key
    };
    painter.rect(
        rect,
        size::CORNER,
        theme::color(fill, theme),
        Stroke::new(1.0, theme::color(Ink::NotKnown, theme)),
        StrokeKind::Inside,
    );
    let middle = rect.center().y;
    Mark::NotKnown.paint(painter, pos2(rect.min.x + 18.0, middle), 15.0, theme);
    set.paint(
        painter,
        pos2(rect.min.x + 34.0, middle - set.more() / 2.0),
        theme::color(Ink::Ink, theme),
    );
    let ink = Stroke::new(2.0, theme::color(Ink::Line, theme));
    let tip = pos2(rect.max.x - 16.0, middle);
    painter.line_segment([tip - vec2(7.0, 7.0), tip], ink);
    painter.line_segment([tip - vec2(7.0, -7.0), tip], ink);
    response.clicked()
}
