//! The ground, always on screen: cross-section above, the walk lengthwise below, one marker tying them. Drawings are made when what
//! they show changes, and kept until then.

use egui::{Pos2, Rect, Response, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::ShownIn;
use underbrick_drawing::item::{Drawing, Item, Sheet};
use underbrick_drawing::{LongSection, cross_section, long_section, picked};

use crate::canvas;
use crate::canvas::lettering::narrowed;
use crate::light::{Light, Lit};
use crate::theme::{self, Ink, Theme};
use crate::visit::Visit;

/// How near a finger must come to a mark, in points.
const REACH: f32 = 14.0;

/// How long what an edit moved is lit, in seconds.
const LIT_S: f64 = 0.6;

/// State of the two drawings.
#[derive(Default)]
pub struct GroundView {
    /// Where the cross-section is cut.
    station: Length,
    cross: Option<Kept<Drawing>>,
    long: Option<Kept<LongSection>>,
    /// What is lit for as long as its line of the order is open.
    light: Option<Light>,
}

/// A drawing and its shapes, with what they were made from.
struct Kept<T> {
    key: Made,
    drawing: T,
    shapes: Vec<Shape>,
    lit: Vec<Vec<Pos2>>,
    lit_until: f64,
    /// What lies over the drawing, and the light that it was made for.
    over: Option<(Light, Lit)>,
}

#[derive(Clone, Copy, PartialEq)]
struct Made {
    revision: u64,
    station_m: f64,
    rect: Rect,
    theme: Theme,
    pixels_per_point: f32,
    text_size: u16,
}

impl GroundView {
    /// Cuts the cross-section elsewhere.
    pub fn cut_at(&mut self, station: Length) {
        self.station = station;
    }

    /// Lights what a line of the order is measured from; `None` lights nothing.
    pub fn light(&mut self, light: Option<Light>) {
        self.light = light;
    }
}

impl<T> Kept<T> {
    /// Makes what lies over the drawing, where the light is another than before.
    fn light(&mut self, ui: &Ui, light: Option<&Light>, drawing: impl FnOnce(&T) -> &Drawing) {
        if self.over.as_ref().map(|(light, _)| light) != light {
            self.over = light.map(|light| {
                let drawing = drawing(&self.drawing);
                let (rect, theme) = (self.key.rect, self.key.theme);
                let lit = light.over_section(ui.painter(), drawing, rect, theme);
                (light.clone(), lit)
            });
        }
    }
}

/// Shows the cross-section in `rect`. Gives what was tapped.
pub fn cross_ui(ui: &mut Ui, rect: Rect, view: &mut GroundView, visit: &Visit) -> Option<Place> {
    let key = made(ui, rect, view, visit);
    if view.cross.as_ref().is_none_or(|kept| kept.key != key) {
        let drawing = cross_section(
            visit.site(),
            visit.catalogue(),
            visit.results(),
            view.station,
            sheet(ui, rect),
        );
        let before = view.cross.take().map(|kept| (kept.key, kept.drawing));
        let lit = lit_by(
            before.as_ref().map(|(key, drawing)| (*key, drawing)),
            key,
            &drawing,
        );
        view.cross = Some(keep(ui, key, drawing.clone(), &drawing, lit));
    }
    let response = ui.interact(rect, ui.scope_id().with("cross-section"), Sense::click());
    let kept = view.cross.as_mut()?;
    kept.light(ui, view.light.as_ref(), |drawing| drawing);
    paint(ui, rect, kept);
    tell(&response, &kept.drawing, kept.over.as_ref());
    tapped(&response, rect, &kept.drawing)
}

/// Shows the long section in `rect`; a drag moves the cut. Gives what was tapped.
pub fn long_ui(ui: &mut Ui, rect: Rect, view: &mut GroundView, visit: &Visit) -> Option<Place> {
    let response = ui.interact(
        rect,
        ui.scope_id().with("long section"),
        Sense::click_and_drag(),
    );
    if response.dragged()
        && let (Some(at), Some(kept)) = (response.interact_pointer_pos(), &view.long)
        && let Some(station) = kept.drawing.station_at(f64::from(at.x - rect.min.x))
    {
        view.station = on_the_tape(station, visit);
    }
    let key = made(ui, rect, view, visit);
    if view.long.as_ref().is_none_or(|kept| kept.key != key) {
        let section = long_section(
            visit.site(),
            visit.catalogue(),
            visit.results(),
            view.station,
            sheet(ui, rect),
        );
        let before = view.long.take().map(|kept| (kept.key, kept.drawing));
        let lit = lit_by(
            before
                .as_ref()
                .map(|(key, section)| (*key, &section.drawing)),
            key,
            &section.drawing,
        );
        let drawing = section.drawing.clone();
        view.long = Some(keep(ui, key, section, &drawing, lit));
    }
    let kept = view.long.as_mut()?;
    kept.light(ui, view.light.as_ref(), |section| &section.drawing);
    paint(ui, rect, kept);
    if let Some(light) = &view.light {
        let painter = ui.painter().with_clip_rect(rect);
        painter.extend(light.plate(&painter, rect, kept.key.theme));
    }
    tell(&response, &kept.drawing.drawing, kept.over.as_ref());
    let place = tapped(&response, rect, &kept.drawing.drawing);
    if response.clicked()
        && place.is_none()
        && let Some(at) = response.interact_pointer_pos()
        && let Some(station) = kept.drawing.station_at(f64::from(at.x - rect.min.x))
    {
        view.station = on_the_tape(station, visit);
        ui.request_repaint();
    }
    place
}

fn made(ui: &Ui, rect: Rect, view: &GroundView, visit: &Visit) -> Made {
    Made {
        revision: visit.revision(),
        station_m: in_metres(view.station),
        rect,
        theme: theme::current(ui),
        pixels_per_point: ui.pixels_per_point(),
        text_size: theme::text_size(ui),
    }
}

fn sheet(ui: &Ui, rect: Rect) -> Sheet {
    Sheet {
        width: f64::from(rect.width()),
        height: f64::from(rect.height()),
        text_scale: f64::from(theme::text_scale(ui)),
    }
}

fn keep<T>(ui: &Ui, key: Made, drawn: T, drawing: &Drawing, lit: Vec<Vec<Pos2>>) -> Kept<T> {
    let shapes = canvas::shapes(ui.painter(), drawing, key.rect.min, key.theme);
    let lit_until = if lit.is_empty() {
        0.0
    } else {
        ui.input(|input| input.time) + LIT_S
    };
    Kept {
        key,
        drawing: drawn,
        shapes,
        lit,
        lit_until,
        over: None,
    }
}

fn paint<T>(ui: &Ui, rect: Rect, kept: &Kept<T>) {
    let painter = ui.painter().with_clip_rect(rect);
    painter.rect_filled(rect, 0, theme::color(Ink::Paper, kept.key.theme));
    painter.extend(kept.shapes.iter().cloned());
    if let Some((_, lit)) = &kept.over {
        painter.extend(lit.shapes.iter().cloned());
    }
    let now = ui.input(|input| input.time);
    if now < kept.lit_until {
        let stroke = Stroke::new(3.0, theme::color(Ink::Line, kept.key.theme));
        for outline in &kept.lit {
            painter.add(Shape::closed_line(outline.clone(), stroke));
        }
        ui.request_repaint_after(std::time::Duration::from_secs_f64(kept.lit_until - now));
    }
}

/// What an edit moved: outlines of areas that name a place and are new or elsewhere. A drawing of another size or another cut lights nothing.
fn lit_by(before: Option<(Made, &Drawing)>, key: Made, drawing: &Drawing) -> Vec<Vec<Pos2>> {
    let Some((old_key, old)) = before else {
        return Vec::new();
    };
    if old_key.revision == key.revision
        || old_key.rect != key.rect
        || (old_key.station_m - key.station_m).abs() > 1e-9
    {
        return Vec::new();
    }
    let outline_of = |item: &Item| match item {
        Item::Area {
            outline,
            place: Some(place),
            ..
        } => Some((*place, outline.clone())),
        Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } | Item::Label { .. } => None,
    };
    let had: Vec<_> = old.items.iter().filter_map(outline_of).collect();
    drawing
        .items
        .iter()
        .filter_map(outline_of)
        .filter(|area| !had.contains(area))
        .map(|(_, outline)| {
            outline
                .iter()
                .map(|point| {
                    let (x, y) = drawing.sheet_from_drawing(*point);
                    pos2(key.rect.min.x, key.rect.min.y) + vec2(narrowed(x), narrowed(y))
                })
                .collect()
        })
        .collect()
}

fn tell(response: &Response, drawing: &Drawing, over: Option<&(Light, Lit)>) {
    let mut words = drawing.words.clone();
    if let Some((light, lit)) = over {
        words += &light.words(lit);
    }
    response.widget_info(move || WidgetInfo::labeled(Role::Image, true, words.clone()));
}

fn tapped(response: &Response, rect: Rect, drawing: &Drawing) -> Option<Place> {
    if !response.clicked() {
        return None;
    }
    let at = response.interact_pointer_pos()? - rect.min;
    picked(drawing, f64::from(at.x), f64::from(at.y), f64::from(REACH))
}

/// A third of the run: where a cross-section says much at first.
#[must_use]
pub fn first_cut(visit: &Visit) -> Length {
    visit.results().line.as_ref().map_or_else(
        || metres(0.0),
        |line| on_the_tape(line.run.length() / 3.0, visit),
    )
}

/// The whole inch or centimetre next to a station: what a finger means, and what can be found on the tape again.
fn on_the_tape(station: Length, visit: &Visit) -> Length {
    let step_m = match visit.site().shown_in {
        ShownIn::FeetInches => 0.0254,
        ShownIn::Metric => 0.01,
    };
    let end_m = visit
        .results()
        .line
        .as_ref()
        .map_or(0.0, |line| in_metres(line.run.length()));
    metres(((in_metres(station) / step_m).round() * step_m).clamp(0.0, end_m))
}
