//! The field that is signed with a finger.

use egui::{Painter, Pos2, Rect, Role, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, pos2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;
use underbrick_records::LARGEST_SIGNATURE;

use crate::canvas::lettering;
use crate::theme::{self, Ink, size};

/// Parts of the field's width: strokes are kept in these.
const PARTS: f32 = 1000.0;

/// A finger's strokes, each through these points, in thousandths of the field's width to the right and down.
pub type Strokes = Vec<Vec<(i32, i32)>>;

/// Shows the field in `rect`, which is wider than high, and takes up what a finger draws.
pub fn field_ui(ui: &Ui, rect: Rect, strokes: &mut Strokes) {
    let id = ui.scope_id().with("signature");
    let response = ui.interact(rect, id, Sense::drag());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, "sign here with a finger"));
    if response.drag_started() {
        strokes.push(Vec::new());
        let origin = ui.input(|input| input.pointer.press_origin());
        add(strokes, rect, origin);
    }
    if response.dragged() || response.drag_stopped() {
        add(strokes, rect, response.interact_pointer_pos());
    }
    let theme = theme::current(ui);
    let painter = ui.painter().with_clip_rect(rect);
    painter.rect(
        rect,
        size::CORNER,
        theme::color(Ink::Paper, theme),
        Stroke::new(2.0, theme::color(Ink::SecondInk, theme)),
        StrokeKind::Inside,
    );
    let line = rect.max.y - 0.24 * rect.height();
    painter.hline(
        (rect.min.x + 20.0)..=(rect.max.x - 20.0),
        line,
        Stroke::new(1.5, theme::color(Ink::Hairline, theme)),
    );
    if strokes.is_empty() {
        lettering::paint(
            &painter,
            pos2(rect.center().x, line + 0.12 * rect.height()),
            Anchor::Middle,
            &Text::regular("sign here with a finger"),
            theme::sized(ui, size::LABEL),
            theme::color(Ink::SecondInk, theme),
        );
    }
    paint_strokes(&painter, rect, strokes, theme::color(Ink::Line, theme));
}

/// Paints strokes into a room as wide as the field was, or smaller in proportion.
pub fn paint_strokes(painter: &Painter, rect: Rect, strokes: &Strokes, color: egui::Color32) {
    let pen = Stroke::new((rect.width() / 160.0).clamp(1.5, 4.0), color);
    for stroke in strokes {
        let points: Vec<Pos2> = stroke
            .iter()
            .map(|(x, y)| rect.min + rect.width() / PARTS * egui::vec2(*x as f32, *y as f32))
            .collect();
        match points.as_slice() {
            [] => {}
            [at] => {
                painter.circle_filled(*at, pen.width, color);
            }
            _ => {
                painter.add(Shape::line(points, pen));
            }
        }
    }
}

/// How far down strokes reach, in thousandths of the field's width.
#[must_use]
pub fn lowest(strokes: &Strokes) -> f32 {
    strokes
        .iter()
        .flatten()
        .map(|(_, y)| *y)
        .max()
        .map_or(0.0, |y| y as f32)
}

fn add(strokes: &mut Strokes, rect: Rect, at: Option<Pos2>) {
    let n_points: usize = strokes.iter().map(Vec::len).sum();
    let (Some(at), Some(stroke)) = (at, strokes.last_mut()) else {
        return;
    };
    if n_points >= LARGEST_SIGNATURE || rect.width() < 1.0 {
        return;
    }
    let within = rect.clamp(at);
    let point = (
        part((within.x - rect.min.x) / rect.width()),
        part((within.y - rect.min.y) / rect.width()),
    );
    if stroke.last() != Some(&point) {
        stroke.push(point);
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "rounded and held between 0 and 1000"
)]
fn part(share: f32) -> i32 {
    (share * PARTS).round().clamp(0.0, PARTS) as i32
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::vec2;

    #[test]
    fn points_are_thousandths_of_the_width_and_stay_in_the_field() {
        let rect = Rect::from_min_size(pos2(100.0, 50.0), vec2(500.0, 200.0));
        let mut strokes: Strokes = vec![Vec::new()];
        // 250 of 500 to the right, 100 of 500 down; then outside on both sides.
        for at in [pos2(350.0, 150.0), pos2(350.0, 150.0), pos2(0.0, 900.0)] {
            add(&mut strokes, rect, Some(at));
        }
        assert_eq!(strokes, [vec![(500, 200), (0, 400)]]);
        assert!((lowest(&strokes) - 400.0).abs() < 1e-6);
    }

    #[test]
    fn a_finger_that_never_stops_is_not_taken_up_for_ever() {
        let rect = Rect::from_min_size(Pos2::ZERO, vec2(1000.0, 400.0));
        let mut strokes: Strokes = vec![Vec::new()];
        for step in 0..2 * LARGEST_SIGNATURE {
            let x = if step % 2 == 0 { 1.0 } else { 2.0 };
            add(&mut strokes, rect, Some(pos2(x, 1.0)));
        }
        assert_eq!(strokes[0].len(), LARGEST_SIGNATURE);
    }
}
