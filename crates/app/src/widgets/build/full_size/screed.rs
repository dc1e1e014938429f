//! The end of the screed board as it rides on the form, and beside it the brick on the bed that it leaves.

use egui::{Rect, Role, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use super::{Scale, ScreedEnd, height_between};
use crate::theme::{self, Ink, size};
use crate::widgets::words::{Face, Words};

/// What of the board is shown above the form: it is as high as it needs to be stiff.
const WOOD_MM: f32 = 35.0;

/// What is shown of the ear that rides, of the board behind the notch, and of the brick.
const EAR_MM: f32 = 30.0;
const DIPS_MM: f32 = 34.0;
const BRICK_MM: f32 = 30.0;

/// Room for the words beside each part.
const WORDS: f32 = 130.0;

/// Room for the words above.
const ABOVE: f32 = 34.0;

/// What has to fit without its words.
pub(super) const fn need_mm(end: &ScreedEnd) -> (f32, f32) {
    (
        EAR_MM + DIPS_MM + BRICK_MM,
        WOOD_MM + end.notch_mm + FORM_MM,
    )
}

/// What is shown of the form below the bed.
const FORM_MM: f32 = 8.0;

/// What of a room is left to draw in: the words have the rest.
pub(super) fn room(ui: &Ui, room: Rect) -> (f32, f32) {
    let words = 2.0 * theme::text_scale(ui).max(1.0) * WORDS;
    (
        (room.width() - words).max(80.0),
        room.height() - 2.0 * theme::tall(ui, ABOVE),
    )
}

pub(super) fn screed_ui(ui: &mut Ui, room: Rect, end: &ScreedEnd, scale: Scale) {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let on_screen = |millimetres: f32| millimetres * scale.points_per_mm;
    let words_room = theme::text_scale(ui).max(1.0) * WORDS - 16.0;
    let top = room.min.y + theme::tall(ui, ABOVE);
    let form = top + on_screen(WOOD_MM);
    let bed = form + on_screen(end.notch_mm);
    let bottom = bed + on_screen(FORM_MM);
    let left = room.min.x + 4.0;
    let notch = left + on_screen(EAR_MM);
    let right = notch + on_screen(DIPS_MM);
    let board = Rect::from_min_max(pos2(left, form), pos2(right, bed));
    let response = ui.interact(board, ui.scope_id().with("screed end"), Sense::hover());
    let said = format!("{}: {}, {}", end.board, end.notch, end.proud);
    response.widget_info(move || WidgetInfo::labeled(Role::Image, true, said.clone()));
    let painter = ui.painter();
    let outline = Stroke::new(1.5, ink(Ink::Ink));
    // The form, or the edge brick, on which the ear rides.
    let rest = Rect::from_min_max(pos2(left, form), pos2(notch - on_screen(2.0), bottom));
    painter.rect(rest, 0, ink(Ink::Concrete), outline, StrokeKind::Inside);
    painter.rect_filled(
        Rect::from_min_max(pos2(notch, bed), pos2(right, bottom)),
        0,
        ink(Ink::SettingBed),
    );
    for part in [
        Rect::from_min_max(pos2(left, top), pos2(right, form)),
        Rect::from_min_max(pos2(notch, form), pos2(right, bed)),
    ] {
        painter.rect_filled(part, 0, ink(Ink::Timber));
    }
    let corners = vec![
        pos2(right, top),
        pos2(left, top),
        pos2(left, form),
        pos2(notch, form),
        pos2(notch, bed),
        pos2(right, bed),
    ];
    painter.add(Shape::line(corners, Stroke::new(2.5, ink(Ink::Ink))));
    // It goes on.
    let end_line = [pos2(right, top), pos2(right, bed)];
    painter.extend(Shape::dashed_line(&end_line, outline, 8.0, 5.0));
    let face = Face::regular(size::NOTE);
    let above = Words::broken(
        ui,
        &end.board,
        face,
        right - left + words_room,
        Anchor::Left,
    );
    above.paint(
        painter,
        pos2(left, top - theme::tall(ui, 16.0)),
        ink(Ink::SecondInk),
    );
    let below = bottom + theme::tall(ui, 16.0);
    let rides = Words::broken(ui, "rides on the form", face, right - left, Anchor::Left);
    rides.paint(painter, pos2(left, below), ink(Ink::SecondInk));
    height_between(ui, right + 14.0, (form, bed), &end.notch, words_room);
    let painter = ui.painter();
    // The brick as laid, before the plate.
    let brick_left = right + 14.0 + words_room + 12.0;
    let brick = Rect::from_min_max(
        pos2(brick_left, form - on_screen(end.proud_mm)),
        pos2(brick_left + on_screen(BRICK_MM), bed),
    );
    painter.rect(brick, 0, ink(Ink::Clay), outline, StrokeKind::Inside);
    painter.rect_filled(
        Rect::from_min_size(pos2(brick.min.x, bed), vec2(brick.width(), bottom - bed)),
        0,
        ink(Ink::SettingBed),
    );
    let line = Stroke::new(2.0, ink(Ink::Line));
    painter.hline(brick.min.x - 8.0..=brick.max.x + 18.0, form, line);
    let brick_words = Words::broken(
        ui,
        "brick before the plate",
        face,
        brick.width() + words_room,
        Anchor::Left,
    );
    brick_words.paint(painter, pos2(brick.min.x, below), ink(Ink::SecondInk));
    height_between(
        ui,
        brick.max.x + 12.0,
        (brick.min.y, form),
        &end.proud,
        words_room - 12.0,
    );
}
