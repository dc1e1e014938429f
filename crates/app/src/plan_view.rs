//! The plan on screen: panned and zoomed by fingers, a tap says what a piece is, handles drag a radius or the width.
//!
//! Twice a frame: [`plan_touched`] takes what fingers do and gives the edit that follows from it; once that is carried out,
//! [`plan_ui`] shows the plan, so that it answers in the same frame.

mod strip;

use std::sync::Arc;

use egui::epaint::PathStroke;
use egui::{Pos2, Rect, Response, Role, Sense, Shape, Ui, Vec2, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, inches, millimetres};
use underbrick_calc::site::ShownIn;
use underbrick_drawing::item::{Drawing, Sheet};
use underbrick_drawing::{Handle, PlanInput, PlanView, handles, picked, plan};

use crate::canvas;
use crate::canvas::lettering::narrowed;
use crate::edit::Edit;
use crate::light::{Light, Lit};
use crate::theme::{self, Ink, Theme};
use crate::visit::Visit;

/// How near a finger must come to a mark, in points.
const REACH: f32 = 12.0;
/// How near it must come to a handle: half of 12 mm at 160 dots an inch.
const HANDLE_REACH: f32 = 38.0;
/// Side of a key: 12 mm at 160 dots an inch.
const KEY: f32 = 76.0;
/// The plan is made no smaller than this share of the whole walk's scale.
const LEAST_SHARE: f64 = 0.5;
/// And no larger than so many times what shows one joint.
const MOST_OF_NEAREST: f64 = 1.5;
/// Points of the wheel for a factor of e.
const WHEEL: f32 = 220.0;

/// What is seen of the plan, and what a finger holds.
#[derive(Default)]
pub struct PlanViewState {
    /// As panned and zoomed; `None` shows the whole walk.
    view: Option<PlanView>,
    selected: Option<u32>,
    held: Option<Held>,
    whole: Option<(Made, PlanView)>,
    kept: Option<Kept>,
    n_made: u64,
    /// What is lit for as long as its line of the order is open.
    light: Option<Light>,
}

/// A handle in a finger's hold.
struct Held {
    handle: Handle,
    /// What the handle's spot would give at the start: the finger need not hit its middle.
    from: Length,
}

/// What a finger asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlanSaid {
    /// What was tapped: a piece, or the value behind a dimension.
    pub tapped: Option<Place>,
    /// The value that is dragged.
    pub edit: Option<Edit>,
    /// A drag began or ended: what comes now is an undo step of its own.
    pub own_step: bool,
}

/// What shapes were made from.
#[derive(Clone, Copy, PartialEq)]
struct Made {
    revision: u64,
    rect: Rect,
    theme: Theme,
    text_size: u16,
    pixels_per_point: f32,
    view: Option<PlanView>,
}

struct Kept {
    key: Made,
    view: PlanView,
    drawing: Drawing,
    shapes: Vec<Shape>,
    words: Arc<str>,
    /// What lies over the drawing, and the light that it was made for.
    over: Option<(Light, Lit)>,
}

impl PlanViewState {
    /// Shows the whole walk again, with nothing selected.
    pub fn show_whole(&mut self) {
        self.view = None;
        self.selected = None;
        self.held = None;
    }

    /// Selects a piece, or none.
    pub const fn select(&mut self, piece_idx: Option<u32>) {
        self.selected = piece_idx;
    }

    /// Lights what a line of the order is measured from; `None` lights nothing.
    pub(crate) fn light(&mut self, light: Option<Light>) {
        self.light = light;
    }

    /// The piece whose words stand under the plan.
    #[must_use]
    pub const fn selected(&self) -> Option<u32> {
        self.selected
    }

    /// What is seen, once it has been shown.
    #[must_use]
    pub fn view(&self) -> Option<PlanView> {
        self.kept.as_ref().map(|kept| kept.view)
    }

    /// The drawing that is shown, once it has been shown.
    #[must_use]
    pub fn drawing(&self) -> Option<&Drawing> {
        self.kept.as_ref().map(|kept| &kept.drawing)
    }

    /// How often the drawing has been made: it stays while nothing changes.
    #[must_use]
    pub const fn n_made(&self) -> u64 {
        self.n_made
    }
}

/// Gives what the plan of a visit is drawn from; `None` where the run is not known.
pub fn with_plan<T>(visit: &Visit, show: impl FnOnce(&PlanInput<'_>) -> T) -> Option<T> {
    let results = visit.results();
    let (line, lay) = (results.line.as_ref()?, results.lay.as_ref()?);
    let letter = |piece_idx: usize| lay.cuts.line(piece_idx).map(|line| line.letter.clone());
    Some(show(&PlanInput::of(visit.site(), line, lay, &letter)))
}

/// Where the plan itself stands in its part of the screen, and the strip under it.
fn parts(ui: &Ui, rect: Rect) -> (Rect, Rect) {
    let strip = (theme::tall(ui, KEY) + 8.0).min(rect.height() * 0.4);
    let split = rect.max.y - strip;
    (
        Rect::from_min_max(rect.min, pos2(rect.max.x, split)),
        Rect::from_min_max(pos2(rect.min.x, split), rect.max),
    )
}

/// What is shown, and where.
#[derive(Clone, Copy)]
struct Asked<'a, 'b> {
    area: Rect,
    text_size: u16,
    input: &'a PlanInput<'b>,
    revision: u64,
}

/// Takes what fingers do to the plan in `rect`. `revision` rises with every change of the record.
pub fn plan_touched(
    ui: &Ui,
    rect: Rect,
    state: &mut PlanViewState,
    input: &PlanInput<'_>,
    revision: u64,
) -> PlanSaid {
    let asked = Asked {
        area: parts(ui, rect).0,
        text_size: theme::text_size(ui),
        input,
        revision,
    };
    let response = asked.touching(ui);
    let view = asked.current(ui, state);
    let mut said = PlanSaid::default();
    if response.drag_started() {
        state.held = press(ui, asked.area).and_then(|at| asked.hold(view, at));
        if state.held.is_some() {
            // The scale must not follow what is dragged.
            state.view = Some(view);
            said.own_step = true;
        }
    }
    if response.dragged() {
        match &state.held {
            Some(held) => {
                said.edit = response
                    .interact_pointer_pos()
                    .map(|at| asked.drag(view, held, at));
            }
            None => asked.pan(ui, state, view, &response),
        }
    }
    if response.drag_stopped() && state.held.take().is_some() {
        said.own_step = true;
    }
    if response.contains_pointer() {
        asked.zoom(ui, state);
    }
    if response.double_clicked() {
        if let Some(at) = response.interact_pointer_pos() {
            asked.go_near(ui, state, at);
        }
    } else if response.clicked() {
        said.tapped = asked.tapped(state, &response);
        if let Some(Place::Piece(piece_idx)) = said.tapped {
            state.selected = (state.selected != Some(piece_idx)).then_some(piece_idx);
        }
    }
    if said != PlanSaid::default() {
        ui.request_repaint();
    }
    said
}

fn press(ui: &Ui, area: Rect) -> Option<Pos2> {
    ui.input(|input| input.pointer.press_origin())
        .filter(|at| area.contains(*at))
}

impl Asked<'_, '_> {
    fn sheet(&self) -> Sheet {
        Sheet {
            width: f64::from(self.area.width()),
            height: f64::from(self.area.height()),
            text_scale: f64::from(self.text_size) / 100.0,
        }
    }

    fn on_sheet(&self, at: Pos2) -> (f64, f64) {
        let at = at - self.area.min;
        (f64::from(at.x), f64::from(at.y))
    }

    fn on_screen(&self, (x, y): (f64, f64)) -> Pos2 {
        self.area.min + vec2(narrowed(x), narrowed(y))
    }

    /// The drawing as something to touch: the same widget for both halves of the frame.
    fn touching(&self, ui: &Ui) -> Response {
        let id = ui.scope_id().with("plan");
        ui.interact(self.area, id, Sense::click_and_drag())
    }

    /// What is seen now: as panned and zoomed, else the whole walk.
    fn current(&self, ui: &Ui, state: &mut PlanViewState) -> PlanView {
        let whole = self.whole(ui, state);
        state.view.unwrap_or(whole)
    }

    fn whole(&self, ui: &Ui, state: &mut PlanViewState) -> PlanView {
        let key = self.made(ui, None);
        match state.whole {
            Some((of, view)) if of == key => view,
            _ => {
                let view = PlanView {
                    handles: true,
                    ..PlanView::whole(self.input.site, self.input.run, self.sheet())
                };
                state.whole = Some((key, view));
                view
            }
        }
    }

    fn made(&self, ui: &Ui, view: Option<PlanView>) -> Made {
        Made {
            revision: self.revision,
            rect: self.area,
            theme: theme::current(ui),
            text_size: self.text_size,
            pixels_per_point: ui.pixels_per_point(),
            view,
        }
    }

    fn hold(&self, view: PlanView, at: Pos2) -> Option<Held> {
        let far = |handle: &Handle| self.on_screen(handle.at).distance(at);
        let nearest = handles(self.input, view, self.sheet())
            .into_iter()
            .min_by(|one, other| far(one).total_cmp(&far(other)))?;
        (far(&nearest) <= HANDLE_REACH).then(|| Held {
            from: nearest.value_at(view.in_plan(self.sheet(), self.on_sheet(at))),
            handle: nearest,
        })
    }

    /// The value under the finger as it would be written down.
    fn drag(&self, view: PlanView, held: &Held, at: Pos2) -> Edit {
        let under = view.in_plan(self.sheet(), self.on_sheet(at));
        let value = held.handle.value + held.handle.value_at(under) - held.from;
        Edit::Text {
            place: held.handle.place,
            typed: written(value, held.handle.place, self.input.site.shown_in),
        }
    }

    fn pan(&self, ui: &Ui, state: &mut PlanViewState, view: PlanView, response: &Response) {
        // Two fingers pan and pinch at once: `zoom` sees to both.
        let by = match ui.input(|input| input.multi_touch()) {
            Some(_) => return,
            // What the finger went before it was known to drag counts too.
            None if response.drag_started() => response.total_drag_delta().unwrap_or_default(),
            None => response.drag_delta(),
        };
        if by != Vec2::ZERO {
            let moved = view.moved(f64::from(by.x), f64::from(by.y));
            self.go_to(ui, state, moved);
        }
    }

    /// Pinch, or the wheel: the spot under it stays.
    fn zoom(&self, ui: &Ui, state: &mut PlanViewState) {
        let (factor, about, by) = ui.input(|input| match input.multi_touch() {
            Some(touch) => (
                touch.zoom_delta,
                Some(touch.center_pos),
                touch.translation_delta,
            ),
            None => (
                input.zoom_delta() * (input.smooth_scroll_delta().y / WHEEL).exp(),
                input.pointer.latest_pos(),
                Vec2::ZERO,
            ),
        });
        if ((factor - 1.0).abs() < 1e-5 && by == Vec2::ZERO) || state.held.is_some() {
            return;
        }
        if let Some(about) = about.filter(|at| self.area.contains(*at)) {
            let view = self.current(ui, state);
            let moved = view.moved(f64::from(by.x), f64::from(by.y));
            self.scale(ui, state, moved, f64::from(factor), about);
        }
    }

    /// Makes the plan larger by a factor about a spot of the screen, within what can be used.
    fn scale(&self, ui: &Ui, state: &mut PlanViewState, view: PlanView, by: f64, about: Pos2) {
        let whole = self.whole(ui, state);
        let least = LEAST_SHARE * whole.dots_per_metre / view.dots_per_metre;
        let nearest = whole.one_joint(self.input.site, whole.centre);
        let most = MOST_OF_NEAREST * nearest.dots_per_metre / view.dots_per_metre;
        let by = by.clamp(least, most.max(least));
        let scaled = view.zoomed(by, self.sheet(), self.on_sheet(about));
        self.go_to(ui, state, scaled);
    }

    /// One joint under the finger; from there back to the whole walk.
    fn go_near(&self, ui: &Ui, state: &mut PlanViewState, at: Pos2) {
        let view = self.current(ui, state);
        let under = view.in_plan(self.sheet(), self.on_sheet(at));
        let near = view.one_joint(self.input.site, under);
        if view.dots_per_metre > 0.8 * near.dots_per_metre {
            state.view = None;
            ui.request_repaint();
        } else {
            self.go_to(ui, state, near);
        }
    }

    fn go_to(&self, ui: &Ui, state: &mut PlanViewState, view: PlanView) {
        state.view = Some(view.over(self.input.site, self.input.run, self.sheet()));
        ui.request_repaint();
    }

    fn tapped(&self, state: &PlanViewState, response: &Response) -> Option<Place> {
        let (kept, at) = (state.kept.as_ref()?, response.interact_pointer_pos()?);
        let (x, y) = self.on_sheet(at);
        picked(&kept.drawing, x, y, f64::from(REACH))
    }
}

/// Rounded to a quarter of an inch or to 5 mm, at least one such step.
fn written(value: Length, place: Place, shown_in: ShownIn) -> String {
    let step = match shown_in {
        ShownIn::FeetInches => inches(0.25),
        ShownIn::Metric => millimetres(5.0),
    };
    let n_steps = (in_metres(value) / in_metres(step)).round().max(1.0);
    let rounded = step * n_steps;
    if place == Place::Width {
        shown_in.thickness(rounded)
    } else {
        shown_in.along(rounded)
    }
}

/// Shows the plan in `rect`, with the words of the selected piece and the keys under it. Shapes are made only when what they show
/// has changed.
pub fn plan_ui(
    ui: &mut Ui,
    rect: Rect,
    state: &mut PlanViewState,
    input: &PlanInput<'_>,
    revision: u64,
) {
    let (area, strip) = parts(ui, rect);
    let asked = Asked {
        area,
        text_size: theme::text_size(ui),
        input,
        revision,
    };
    let view = asked.current(ui, state);
    let key = asked.made(ui, Some(view));
    if state.kept.as_ref().is_none_or(|kept| kept.key != key) {
        let drawing = plan(input, view, asked.sheet());
        let shapes = canvas::shapes(ui.painter(), &drawing, area.min, key.theme);
        state.n_made += 1;
        state.kept = Some(Kept {
            key,
            view,
            words: Arc::from(drawing.words.as_str()),
            drawing,
            shapes,
            over: None,
        });
    }
    if let Some(kept) = &mut state.kept {
        kept.light(ui, state.light.as_ref(), input);
        let painter = ui.painter().with_clip_rect(area);
        painter.rect_filled(area, 0, theme::color(Ink::Paper, kept.key.theme));
        painter.extend(kept.shapes.iter().cloned());
        if let Some((_, lit)) = &kept.over {
            painter.extend(lit.shapes.iter().cloned());
        }
        let words = Arc::clone(&kept.words);
        asked
            .touching(ui)
            .widget_info(move || WidgetInfo::labeled(Role::Image, true, &*words));
    }
    selected_outline(ui, &asked, state, view);
    strip::strip_ui(ui, &asked, strip, state);
}

impl Kept {
    /// Makes what lies over the drawing, where the light is another than before.
    fn light(&mut self, ui: &Ui, light: Option<&Light>, input: &PlanInput<'_>) {
        if self.over.as_ref().map(|(light, _)| light) == light {
            return;
        }
        self.over = light.map(|light| {
            let (rect, theme) = (self.key.rect, self.key.theme);
            let lit = light.over_plan(ui.painter(), &self.drawing, input.pieces, rect, theme);
            (light.clone(), lit)
        });
        let said = self
            .over
            .as_ref()
            .map_or_else(String::new, |(light, lit)| light.words(lit));
        self.words = Arc::from(format!("{}{said}", self.drawing.words));
    }
}

/// The selected piece, outlined heavily over the drawing, inside its own sides: what stands in the joints stays readable.
fn selected_outline(ui: &Ui, asked: &Asked<'_, '_>, state: &PlanViewState, view: PlanView) {
    let pieces = asked.input.pieces;
    let Some(piece) = selected_idx(state).and_then(|idx| pieces.all().get(idx)) else {
        return;
    };
    let outline = pieces.outline(piece).iter();
    let mut corners: Vec<Pos2> = outline
        .map(|spot| asked.on_screen(view.on_sheet(asked.sheet(), *spot)))
        .collect();
    // The inside of a path is told by its turning: on screen it must go with the clock.
    let twice_area: f32 = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(from, to)| from.x * to.y - to.x * from.y)
        .sum();
    if twice_area < 0.0 {
        corners.reverse();
    }
    let theme = theme::current(ui);
    let painter = ui.painter().with_clip_rect(asked.area);
    for (width, ink) in [(6.0, Ink::Paper), (3.5, Ink::Line)] {
        let stroke = PathStroke::new(width, theme::color(ink, theme)).inside();
        painter.add(Shape::closed_line(corners.clone(), stroke));
    }
}

fn selected_idx(state: &PlanViewState) -> Option<usize> {
    state.selected.and_then(|idx| usize::try_from(idx).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dragged_value_is_written_as_it_would_be_read_off_a_tape() {
        let feet = |written_in: f64, place| written(inches(written_in), place, ShownIn::FeetInches);
        assert_eq!(feet(147.13, Place::LegRadius(1)), "12'-3 1/4\"");
        assert_eq!(feet(36.1, Place::Width), "36\"");
        assert_eq!(feet(-3.0, Place::Width), "1/4\"");
        let metric = |mm: f64, place| written(millimetres(mm), place, ShownIn::Metric);
        assert_eq!(metric(3_672.0, Place::LegRadius(0)), "3.67 m");
        assert_eq!(metric(813.0, Place::Width), "815 mm");
    }
}
