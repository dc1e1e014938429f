//! One station of the stake table in type that is read standing up, with next and back under the thumb.

use egui::{Rect, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::stops::opened::Part;
use crate::theme::{self, Ink, size};
use crate::widgets::key::ways_ui;
use crate::widgets::words::{Face, Words};

/// One station.
#[derive(Clone, Debug, PartialEq)]
pub struct StationView {
    /// Station.
    pub station: String,
    /// Why it is there.
    pub why: String,
    /// Dig or fill, from what.
    pub dig: String,
    /// Surfaces from the top down: name, tape from the string, rod.
    pub rows: Vec<(String, String, Option<String>)>,
    /// The edges, in words.
    pub edges: Vec<String>,
    /// The stake before it, and the one behind.
    pub neighbours: [Option<usize>; 2],
}

/// Shows one station in `rect`. Gives what is to be shown next.
pub(crate) fn station_ui(ui: &mut Ui, rect: Rect, view: &StationView) -> Option<Part> {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let whole = ui.interact(rect, ui.scope_id().with("one station"), Sense::hover());
    let said = std::iter::once(format!(
        "station {}, {}, {}",
        view.station, view.why, view.dig
    ))
    .chain(view.rows.iter().map(|(name, tape, rod)| {
        rod.as_ref().map_or_else(
            || format!("{name} {tape}"),
            |rod| format!("{name} {tape}, rod {rod}"),
        )
    }))
    .chain(view.edges.iter().cloned())
    .collect::<Vec<_>>()
    .join("; ");
    whole.widget_info(move || WidgetInfo::labeled(Role::Label, true, said.clone()));
    ui.painter().rect_filled(rect, 0, ink(Ink::Paper));
    let inner = rect.shrink2(vec2(20.0, 12.0));
    let keys = Rect::from_min_max(pos2(inner.min.x, inner.max.y - 76.0), inner.max);
    let body = Rect::from_min_max(inner.min, pos2(inner.max.x, keys.min.y - 8.0));
    paint_body(ui, body, view);
    ways_ui(ui, keys, ["all stakes", "next stake"], view.neighbours).map(Part::Station)
}

fn paint_body(ui: &Ui, body: Rect, view: &StationView) {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    // Everything is big here as it is: larger type would leave no room for the rows.
    let grown = theme::text_scale(ui).max(1.0);
    let limited = grown.min(1.2);
    let tall = |points: f32| points * limited;
    let big = |points: f32| points * limited / grown;
    let painter = ui.painter().with_clip_rect(body);
    let width = body.width();
    let station = Words::broken(
        ui,
        &view.station,
        Face::bold(big(52.0)),
        width,
        Anchor::Left,
    );
    let mut middle = body.min.y + tall(30.0);
    station.paint(&painter, pos2(body.min.x, middle), ink(Ink::Line));
    let side = width - station.width() - 24.0;
    let dig = Words::broken(
        ui,
        &view.dig,
        Face::bold(big(size::READING)),
        side,
        Anchor::Right,
    );
    dig.paint(&painter, pos2(body.max.x, middle - 8.0), ink(Ink::Ink));
    middle += tall(38.0);
    let why = Words::broken(
        ui,
        &view.why,
        Face::regular(big(size::LABEL)),
        width,
        Anchor::Left,
    );
    why.paint(&painter, pos2(body.min.x, middle), ink(Ink::SecondInk));
    middle += why.more() + tall(20.0);
    let has_rod = view.rows.iter().any(|(_, _, rod)| rod.is_some());
    let tape_right = if has_rod {
        body.max.x - width * 0.28
    } else {
        body.max.x
    };
    let head = Face::regular(big(size::NOTE));
    let tape_head = Words::broken(ui, "from the string", head, width, Anchor::Right);
    tape_head.paint(&painter, pos2(tape_right, middle), ink(Ink::SecondInk));
    if has_rod {
        let rod_head = Words::broken(ui, "on the rod", head, width, Anchor::Right);
        rod_head.paint(&painter, pos2(body.max.x, middle), ink(Ink::SecondInk));
    }
    middle += tall(12.0);
    let edge_height: f32 = view.edges.len() as f32 * tall(28.0) + 8.0;
    let n_rows = view.rows.len().max(1) as f32;
    // As big as the rows have room for, up to what is read from six feet away.
    let step = ((body.max.y - edge_height - middle) / n_rows).clamp(30.0, tall(60.0));
    let points = (step * 0.66).clamp(size::LABEL, size::READING) / theme::text_scale(ui);
    for (name, tape, rod) in &view.rows {
        let at = middle + step / 2.0;
        painter.hline(body.x_range(), middle, Stroke::new(1.0, ink(Ink::Hairline)));
        let name = Words::broken(ui, name, Face::regular(points * 0.8), width, Anchor::Left);
        name.paint(&painter, pos2(body.min.x, at), ink(Ink::Ink));
        let tape = Words::broken(ui, tape, Face::bold(points), width, Anchor::Right);
        tape.paint(&painter, pos2(tape_right, at), ink(Ink::Ink));
        if let Some(rod) = rod {
            let rod = Words::broken(ui, rod, Face::bold(points), width, Anchor::Right);
            rod.paint(&painter, pos2(body.max.x, at), ink(Ink::Line));
        }
        middle += step;
    }
    painter.hline(body.x_range(), middle, Stroke::new(1.0, ink(Ink::Hairline)));
    middle += tall(20.0);
    for edge in &view.edges {
        let edge = Words::broken(
            ui,
            edge,
            Face::regular(big(size::LABEL)),
            width,
            Anchor::Left,
        );
        edge.paint(&painter, pos2(body.min.x, middle), ink(Ink::Ink));
        middle += edge.more() + tall(28.0);
    }
}
