//! The plan under fingers: panned, zoomed, tapped, and a radius and the width dragged, which is one step to undo.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::sync::Arc;

use egui::{Event, MouseWheelUnit, PointerButton, Pos2, Role, TouchPhase, Ui, Vec2, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use tempfile::TempDir;
use underbrick_app::Visit;
use underbrick_app::plan_view::{PlanSaid, PlanViewState, plan_touched, plan_ui, with_plan};
use underbrick_app::theme::{self, Theme};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_drawing::handles;
use underbrick_records::Shelf;

const SIZE: Vec2 = vec2(776.0, 470.0);

/// A visit with its plan on screen, as an open site has it.
struct Screen {
    visit: Visit,
    plan: PlanViewState,
    said: Vec<PlanSaid>,
    n_frames: u32,
    /// Upper left corner of the plan on screen.
    corner: Pos2,
}

impl Screen {
    fn ui(&mut self, ui: &mut Ui) {
        self.n_frames += 1;
        let rect = ui.max_rect();
        self.corner = rect.min;
        let revision = self.visit.revision();
        let said = with_plan(&self.visit, |input| {
            plan_touched(ui, rect, &mut self.plan, input, revision)
        })
        .unwrap();
        if said.own_step {
            self.visit.end_typing();
        }
        if let Some(edit) = &said.edit {
            self.visit.apply(edit);
        }
        if said != PlanSaid::default() {
            self.said.push(said);
        }
        let revision = self.visit.revision();
        with_plan(&self.visit, |input| {
            plan_ui(ui, rect, &mut self.plan, input, revision);
        })
        .unwrap();
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "screen positions: single precision is what the screen takes"
)]
fn on_screen(corner: Pos2, (x, y): (f64, f64)) -> Pos2 {
    corner + vec2(x as f32, y as f32)
}

struct App {
    harness: Harness<'static, Screen>,
    _folder: TempDir,
}

fn opened(sample: &str) -> App {
    let folder = tempfile::tempdir().unwrap();
    let copies = Shelf::at(folder.path()).copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains(sample))
        .unwrap();
    let catalogue = Arc::new(underbrick_records::catalogue().unwrap());
    let screen = Screen {
        visit: Visit::open(site, catalogue, Box::new(|| {})).unwrap(),
        plan: PlanViewState::default(),
        said: Vec::new(),
        n_frames: 0,
        corner: Pos2::ZERO,
    };
    let mut harness = Harness::builder()
        .with_size(SIZE)
        .with_max_steps(16)
        .with_step_dt(0.05)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, screen: &mut Screen| screen.ui(ui), screen);
    let _settled = harness.run_ok();
    App {
        harness,
        _folder: folder,
    }
}

impl App {
    fn screen(&self) -> &Screen {
        self.harness.state()
    }

    fn scale(&self) -> f64 {
        self.screen().plan.view().unwrap().dots_per_metre
    }

    fn press(&mut self, label: &str) {
        self.harness
            .get_by_role_and_label(Role::Button, label)
            .click();
        let _settled = self.harness.run_ok();
    }

    fn button(&mut self, at: Pos2, pressed: bool) {
        self.harness.event(Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: egui::Modifiers::default(),
        });
        self.harness.step();
    }

    fn finger_to(&mut self, at: Pos2) {
        self.harness.event(Event::PointerMoved(at));
        self.harness.step();
    }

    fn drag(&mut self, from: Pos2, by: Vec2) {
        self.finger_to(from);
        self.button(from, true);
        for nth in 1..=8 {
            self.finger_to(from + by * (nth as f32 / 8.0));
        }
        self.button(from + by, false);
        let _settled = self.harness.run_ok();
    }

    fn tap(&mut self, at: Pos2) {
        self.finger_to(at);
        self.button(at, true);
        self.button(at, false);
    }

    fn handle(&self, place: Place) -> Pos2 {
        let screen = self.screen();
        let drawing = screen.plan.drawing().unwrap();
        let all = with_plan(&screen.visit, |input| {
            handles(input, screen.plan.view().unwrap(), drawing.sheet)
        })
        .unwrap();
        let handle = all.iter().find(|handle| handle.place == place).unwrap();
        on_screen(screen.corner, handle.at)
    }

    /// Where a spot of the walk stands on screen.
    fn spot(&self, station_share: f64, offset_m: f64) -> Pos2 {
        let screen = self.screen();
        let run = &screen.visit.results().line.as_ref().unwrap().run;
        let (right, away) = run.in_plan(run.length() * station_share, metres(offset_m));
        let spot = underbrick_calc::lay::PlanPoint {
            right_m: in_metres(right),
            away_m: in_metres(away),
        };
        let sheet = screen.plan.drawing().unwrap().sheet;
        on_screen(
            screen.corner,
            screen.plan.view().unwrap().on_sheet(sheet, spot),
        )
    }

    fn text(&self, place: Place) -> String {
        let record = self.screen().visit.record();
        record.text(place).unwrap().to_owned()
    }
}

#[test]
fn keys_make_it_larger_and_smaller_and_show_all_again() {
    let mut app = opened("curved");
    let whole = app.scale();
    app.press("+ larger");
    assert!((app.scale() / whole - 1.6).abs() < 1e-9);
    app.press("− smaller");
    assert!((app.scale() / whole - 1.0).abs() < 1e-9);
    for _ in 0..40 {
        app.press("+ larger");
    }
    let nearest = app.scale();
    app.press("+ larger");
    assert!(
        (app.scale() - nearest).abs() < 1e-9,
        "there is an end to it"
    );
    app.press("whole walk");
    assert!((app.scale() - whole).abs() < 1e-9);
    for _ in 0..10 {
        app.press("− smaller");
    }
    assert!(app.scale() > 0.4 * whole);
}

#[test]
fn a_drag_pans_and_the_wheel_zooms_about_the_finger() {
    let mut app = opened("curved");
    let before = app.spot(0.5, 0.0);
    app.drag(pos2(600.0, 300.0), vec2(40.0, -25.0));
    let after = app.spot(0.5, 0.0);
    assert!(
        (after - before - vec2(40.0, -25.0)).length() < 0.1,
        "{before} {after}"
    );
    assert!(app.screen().said.is_empty(), "nothing of the walk changed");
    let scale = app.scale();
    let held = app.spot(0.3, 0.0);
    app.finger_to(held);
    app.harness.event(Event::MouseWheel {
        unit: MouseWheelUnit::Point,
        source: egui::MouseWheelSource::Wheel,
        delta: vec2(0.0, 120.0),
        phase: TouchPhase::Move,
        modifiers: egui::Modifiers::default(),
    });
    for _ in 0..20 {
        app.harness.step();
    }
    assert!(app.scale() > 1.3 * scale);
    let now = app.spot(0.3, 0.0);
    assert!((now - held).length() < 0.1, "{held} {now}");
}

#[test]
fn two_fingers_pinch() {
    let mut app = opened("curved");
    let (middle, scale) = (app.spot(0.4, 0.0), app.scale());
    app.finger_to(middle);
    let touch = |app: &mut App, id: u64, at: Pos2, phase| {
        app.harness.event(Event::Touch {
            device_id: egui::TouchDeviceId(1),
            id: egui::TouchId::from(id),
            phase,
            pos: at,
            force: None,
        });
    };
    touch(&mut app, 1, middle - vec2(40.0, 0.0), TouchPhase::Start);
    touch(&mut app, 2, middle + vec2(40.0, 0.0), TouchPhase::Start);
    app.harness.step();
    for nth in 1..=10 {
        let apart = 40.0 + 4.0 * nth as f32;
        touch(&mut app, 1, middle - vec2(apart, 0.0), TouchPhase::Move);
        touch(&mut app, 2, middle + vec2(apart, 0.0), TouchPhase::Move);
        app.harness.step();
    }
    // From 80 points apart to 160.
    let factor = app.scale() / scale;
    assert!((1.7..2.1).contains(&factor), "{factor}");
}

#[test]
fn a_tapped_brick_says_what_it_is_and_two_taps_show_one_joint() {
    let mut app = opened("curved");
    app.press("+ larger");
    let at = app.spot(0.45, 0.05);
    app.tap(at);
    let _settled = app.harness.run_ok();
    let selected = app.screen().plan.selected().unwrap();
    assert_eq!(
        app.screen().said.last().unwrap().tapped,
        Some(Place::Piece(selected))
    );
    let said = app
        .harness
        .query_all_by_role(Role::Label)
        .find_map(|label| label.value());
    assert!(said.is_some_and(|said| said.starts_with("course ") && said.contains("whole")));
    for _ in 0..30 {
        app.harness.step();
    }
    let scale = app.scale();
    app.tap(at);
    app.tap(at);
    let _settled = app.harness.run_ok();
    assert!(app.scale() > 5.0 * scale, "one joint");
    let drawing = app.screen().plan.drawing().unwrap();
    assert!(
        drawing.items.len() < 120,
        "only what is seen: {}",
        drawing.items.len()
    );
    for _ in 0..30 {
        app.harness.step();
    }
    app.tap(pos2(388.0, 190.0));
    app.tap(pos2(388.0, 190.0));
    let _settled = app.harness.run_ok();
    assert!(app.scale() < scale, "the whole walk again");
}

#[test]
fn a_dragged_radius_answers_in_the_same_frame_and_is_one_step() {
    let mut app = opened("curved");
    let place = Place::LegRadius(1);
    let (before, at) = (app.text(place), app.handle(place));
    let scale = app.scale();
    app.finger_to(at);
    app.button(at, true);
    app.finger_to(at + vec2(10.0, 6.0));
    app.finger_to(at + vec2(20.0, 12.0));
    let dragged = app.text(place);
    assert_ne!(dragged, before);
    // What is drawn in this frame is what was dragged in it.
    let words = app.screen().plan.drawing().unwrap().words.clone();
    assert!(
        words.contains(&format!("radius {dragged}")),
        "{dragged}: {words}"
    );
    app.finger_to(at + vec2(30.0, 18.0));
    app.button(at + vec2(30.0, 18.0), false);
    let _settled = app.harness.run_ok();
    assert_ne!(app.text(place), dragged);
    assert!(
        (app.scale() - scale).abs() < 1e-9,
        "the scale stays under the finger"
    );
    // The handle has come with the finger, along its ray.
    let screen = app.harness.state_mut();
    assert!(screen.visit.undo());
    assert_eq!(app.text(place), before);
    assert!(!app.screen().visit.can_undo());
}

#[test]
fn a_dragged_width_grows_on_both_sides() {
    let mut app = opened("curved");
    let at = app.handle(Place::Width);
    let clear = |app: &App| in_metres(app.screen().visit.site().line.width.unwrap());
    let (before_m, scale) = (clear(&app), app.scale());
    let middle = app.spot(14.0 / 38.05, 0.0);
    let out = (at - middle).normalized();
    app.drag(at, out * 12.0);
    // Twelve points out on this side are twenty-four in all; a quarter of an inch is as fine as it goes.
    let grown_m = clear(&app) - before_m;
    assert!(
        (grown_m - 24.0 / scale).abs() <= 0.0254 / 8.0 + 1e-3,
        "{grown_m}"
    );
    assert!(app.screen().said.iter().all(|said| said.tapped.is_none()));
    assert!(app.harness.state_mut().visit.undo());
    assert!((clear(&app) - before_m).abs() < 1e-12);
}

#[test]
fn a_radius_is_not_dragged_tighter_than_it_can_be_laid() {
    let mut app = opened("curved");
    let (at, start) = (app.handle(Place::LegRadius(1)), app.spot(28.0 / 38.05, 0.0));
    app.drag(at, (start - at) * 1.5);
    assert!(app.screen().visit.results().line.is_some());
    assert!(app.harness.state_mut().visit.undo());
    assert!(!app.screen().visit.can_undo());
}

#[test]
fn nothing_is_drawn_anew_while_nothing_changes() {
    let mut app = opened("metric");
    let (n_made, n_frames) = (app.screen().plan.n_made(), app.screen().n_frames);
    for _ in 0..10 {
        app.harness.step();
    }
    assert_eq!(app.screen().plan.n_made(), n_made);
    // Ten steps are ten frames: none was asked for beside them.
    assert_eq!(app.screen().n_frames, n_frames + 10);
    let _settled = app.harness.run_ok();
    assert!(app.screen().n_frames <= n_frames + 12);
}

#[test]
fn it_fits_into_small_rooms() {
    for (width, height) in [(800.0, 420.0), (320.0, 260.0), (90.0, 60.0)] {
        let mut app = opened("metric");
        app.harness.set_size(vec2(width, height));
        let _settled = app.harness.run_ok();
        let sheet = app.screen().plan.drawing().unwrap().sheet;
        assert!(sheet.width <= f64::from(width) && sheet.height < f64::from(height));
    }
}
