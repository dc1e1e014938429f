//! Screed board and gauge rod at their true size, where the screen was measured and is large enough; else at a scale that is said. And how
//! the screen is measured: a card laid on it.

mod measure;
mod rod;
mod screed;

use egui::{Rect, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::platform::screen;
use crate::stops::opened::{FullSize, Part};
use crate::theme::{self, Ink, size};
use crate::widgets::key::{Key, cells};
use crate::widgets::words::{Face, Words};

/// What is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum FullSizeView {
    /// The end of the screed board.
    Screed(ScreedEnd),
    /// The gauge rod, its marks from the upper end down.
    Rod(Vec<RodMark>),
    /// The screen is measured.
    Measure,
}

/// The notched end of the screed board, and the brick that it leaves room for.
#[derive(Clone, Debug, PartialEq)]
pub struct ScreedEnd {
    /// Depth of the notch.
    pub notch_mm: f32,
    /// How far the brick stands above the form before the plate.
    pub proud_mm: f32,
    /// The notch in words.
    pub notch: String,
    /// The allowance in words.
    pub proud: String,
    /// The whole board in words.
    pub board: String,
}

/// A mark of the gauge rod.
#[derive(Clone, Debug, PartialEq)]
pub struct RodMark {
    /// From the upper end of the rod down.
    pub below_string_mm: f32,
    /// Its surface and depth in words.
    pub words: String,
}

/// Scales that are used where it does not fit: one to so many.
const SCALES: [u8; 7] = [1, 2, 3, 4, 5, 10, 20];

/// Points for a millimetre on a screen that was not measured: 160 points an inch, as Android has it.
const NOT_MEASURED: f32 = 160.0 / 25.4;

/// At which scale something is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Scale {
    /// Points on screen for each millimetre of the thing.
    points_per_mm: f32,
    /// One to so many.
    to: u8,
    is_measured: bool,
}

impl Scale {
    /// The largest at which so many millimetres have room in so many points.
    fn of(measured: Option<f32>, need_mm: (f32, f32), room: (f32, f32)) -> Self {
        let full = measured.unwrap_or(NOT_MEASURED);
        let fits = |to: &u8| {
            let scale = full / f32::from(*to);
            need_mm.0 * scale <= room.0 && need_mm.1 * scale <= room.1
        };
        let to = SCALES.into_iter().find(fits).unwrap_or(20);
        Self {
            points_per_mm: full / f32::from(to),
            to,
            is_measured: measured.is_some(),
        }
    }

    fn words(self) -> String {
        match (self.is_measured, self.to) {
            (true, 1) => "full size: a tape laid on it reads the same".to_owned(),
            (true, to) => format!("not full size, drawn 1 : {to}: the screen is too small for it"),
            (false, 1) => "not full size: the screen was not measured".to_owned(),
            (false, to) => {
                format!("not full size, drawn about 1 : {to}: the screen was not measured")
            }
        }
    }
}

/// Shows it in `rect`. Gives what is to be shown next.
pub(crate) fn full_size_ui(ui: &mut Ui, rect: Rect, view: &FullSizeView) -> Option<Part> {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    ui.painter().rect_filled(rect, 0, ink(Ink::Paper));
    let inner = rect.shrink2(vec2(20.0, 12.0));
    let keys = Rect::from_min_max(pos2(inner.min.x, inner.max.y - 76.0), inner.max);
    let body = Rect::from_min_max(inner.min, pos2(inner.max.x, keys.min.y - 8.0));
    let measured = screen::points_per_mm(ui);
    match view {
        FullSizeView::Measure => return measure::measure_ui(ui, body, keys),
        FullSizeView::Screed(end) => {
            let need = screed::need_mm(end);
            let (head, room) = headed(body);
            let scale = Scale::of(measured, need, screed::room(ui, room));
            title(ui, head, "screed board, one end", scale);
            screed::screed_ui(ui, room, end, scale);
        }
        FullSizeView::Rod(marks) => {
            let longest = marks.last().map_or(0.0, |mark| mark.below_string_mm);
            let (head, room) = headed(body);
            let need = (rod::WIDTH_MM, longest + rod::BELOW_MM);
            let scale = Scale::of(measured, need, (room.width(), room.height()));
            title(ui, head, "gauge rod", scale);
            rod::rod_ui(ui, room, marks, scale);
        }
    }
    let is_screed = matches!(view, FullSizeView::Screed(_));
    let other = if is_screed {
        ("gauge rod", FullSize::Rod)
    } else {
        ("screed board", FullSize::Screed)
    };
    let steps = [
        ("close", None, Ink::Key, Ink::Ink),
        (
            "measure the screen",
            Some(FullSize::Measure),
            Ink::Key,
            Ink::Line,
        ),
        (other.0, Some(other.1), Ink::Line, Ink::Paper),
    ];
    let mut asked = None;
    for ((words, to, ground, letters), cell) in steps.into_iter().zip(cells(keys, 3)) {
        if Key::new(words).on(ground, letters).show(ui, cell).clicked() {
            asked = Some(Part::FullSize(to));
        }
    }
    asked
}

/// Room for the title, and for the rest.
fn headed(body: Rect) -> (Rect, Rect) {
    let at = body.min.y + 66.0;
    (
        Rect::from_min_max(body.min, pos2(body.max.x, at)),
        Rect::from_min_max(pos2(body.min.x, at), body.max),
    )
}

fn title(ui: &mut Ui, rect: Rect, name: &str, scale: Scale) {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let said = format!("{name}, {}", scale.words());
    let response = ui.interact(rect, ui.scope_id().with("full size"), Sense::hover());
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, said.clone()));
    let width = rect.width();
    let face = Face::bold(size::TITLE);
    let name = Words::broken(ui, name, face, width, Anchor::Left);
    name.paint(
        ui.painter(),
        pos2(rect.min.x, rect.min.y + 16.0),
        ink(Ink::Ink),
    );
    let is_true = scale.is_measured && scale.to == 1;
    let note = if is_true { Ink::Right } else { Ink::NotKnown };
    let face = Face::regular(size::NOTE);
    let words = Words::broken(ui, &scale.words(), face, width, Anchor::Left);
    words.paint(ui.painter(), pos2(rect.min.x, rect.min.y + 42.0), ink(note));
}

/// A dimension between two heights, its words at the right of it.
fn height_between(ui: &Ui, x: f32, (top, bottom): (f32, f32), words: &str, room: f32) {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let painter = ui.painter();
    let line = Stroke::new(1.5, ink(Ink::Ink));
    painter.vline(x, egui::Rangef::new(top, bottom), line);
    for y in [top, bottom] {
        painter.line_segment([pos2(x - 5.0, y + 5.0), pos2(x + 5.0, y - 5.0)], line);
    }
    let words = Words::broken(ui, words, Face::bold(size::LABEL), room, Anchor::Left);
    let middle = f32::midpoint(top, bottom) - words.more() / 2.0;
    words.paint(painter, pos2(x + 12.0, middle), ink(Ink::Ink));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(measured: Option<f32>, need_mm: (f32, f32), to: u8, words: &str) {
        let scale = Scale::of(measured, need_mm, (700.0, 600.0));
        assert_eq!(scale.to, to);
        assert!(scale.words().starts_with(words), "{}", scale.words());
    }

    #[test]
    fn what_fits_is_full_size_and_what_does_not_says_its_scale() {
        // 100 mm at 5 points are 500 of 600.
        check(Some(5.0), (60.0, 100.0), 1, "full size");
        // 350 mm at 5 points are 1750: a third is 583.
        check(Some(5.0), (60.0, 350.0), 3, "not full size, drawn 1 : 3");
        // 150 mm across are 750 of 700.
        check(Some(5.0), (150.0, 100.0), 2, "not full size, drawn 1 : 2");
        check(None, (60.0, 90.0), 1, "not full size: the screen was not");
        check(None, (60.0, 350.0), 4, "not full size, drawn about 1 : 4");
        check(
            Some(50.0),
            (9000.0, 9000.0),
            20,
            "not full size, drawn 1 : 20",
        );
    }
}
