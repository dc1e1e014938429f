//! One stake of the table on two lines: station and why, what the tape must read, dig or fill.

use egui::{Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::theme::{self, Ink, size};
use crate::widgets::words::{Face, Words};

/// One stake of the table.
#[derive(Clone, Debug)]
pub struct StakeLine {
    /// Its index in the table.
    pub nth: usize,
    /// Station.
    pub station: String,
    /// Why it is there.
    pub why: String,
    /// Dig or fill from the present surface; empty where that is not known.
    pub dig: String,
    /// From the string down to each surface, in words.
    pub drops: String,
}

/// Shows a stake. Gives whether it was tapped.
pub(super) fn stake_line_ui(ui: &mut Ui, line: &StakeLine) -> bool {
    let scale = theme::tall(ui, 1.0);
    let tall = |points: f32| points * scale;
    let room = ui.available_width() - 28.0;
    let station = Words::broken(
        ui,
        &line.station,
        Face::bold(size::TITLE),
        room,
        Anchor::Left,
    );
    let dig = Words::broken(
        ui,
        &line.dig,
        Face::bold(size::LABEL),
        room * 0.5,
        Anchor::Right,
    );
    let why_room = room - station.width() - dig.width() - 24.0;
    let why = Words::broken(
        ui,
        &line.why,
        Face::regular(size::NOTE),
        why_room,
        Anchor::Left,
    );
    let drops = Words::broken(
        ui,
        &line.drops,
        Face::regular(size::NOTE),
        room,
        Anchor::Left,
    );
    let first = station.more().max(dig.more()).max(why.more());
    let height = (tall(66.0) + first + drops.more()).max(size::KEY);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let id = ui.scope_id().with(("stake", line.nth));
    let response = ui.interact(rect, id, Sense::click());
    let said = format!(
        "stake at {}, {}, {}, {}",
        line.station, line.why, line.dig, line.drops
    );
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, said.clone()));
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let ground = if response.is_pointer_button_down_on() {
        Ink::LineGround
    } else {
        Ink::Key
    };
    let painter = ui.painter();
    painter.rect(
        rect,
        size::CORNER,
        ink(ground),
        Stroke::new(1.0, ink(Ink::Hairline)),
        StrokeKind::Inside,
    );
    let (left, right) = (rect.min.x + 14.0, rect.max.x - 14.0);
    let middle = rect.min.y + tall(22.0);
    station.paint(painter, pos2(left, middle), ink(Ink::Line));
    let beside = pos2(left + station.width() + 12.0, middle + 2.0);
    why.paint(painter, beside, ink(Ink::SecondInk));
    dig.paint(painter, pos2(right, middle), ink(Ink::Ink));
    let under = pos2(left, middle + first + tall(26.0));
    drops.paint(painter, under, ink(Ink::Ink));
    response.clicked()
}
