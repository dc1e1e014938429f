//! What a finger does and what comes of it, by label, without a renderer. Asserted is the record, not pixels.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::{Key, Modifiers, Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::measure::written::read_length_with_unit;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, inches};
use underbrick_records::{KeepStatus, OpenSite, Shelf};

struct App {
    harness: Harness<'static, Shell>,
    folder: TempDir,
}

fn app(size: egui::Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shell = Shell::new(
        Shelf::at(folder.path()),
        underbrick_records::catalogue().unwrap(),
    );
    let harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    App { harness, folder }
}

/// With copies of the samples, and the curved one open.
fn curved(size: egui::Vec2) -> App {
    let mut app = app(size);
    app.press("open copies of the sample sites they are yours to change");
    app.press("28 Quarry Lane");
    app
}

impl App {
    #[track_caller]
    fn press(&mut self, label: &str) {
        self.harness
            .get_by_role_and_label(Role::Button, label)
            .scroll_to_me();
        self.run();
        self.harness
            .get_by_role_and_label(Role::Button, label)
            .click();
        self.run();
    }

    #[track_caller]
    fn stop(&mut self, label: &str) {
        self.harness.get_by_role_and_label(Role::Tab, label).click();
        self.run();
    }

    fn run(&mut self) {
        // What is lit for a moment and what is being written ask for another frame: settled is not still.
        let _settled = self.harness.run_ok();
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn text(&self, place: Place) -> String {
        self.visit()
            .record()
            .text(place)
            .expect("there is such a value")
            .to_owned()
    }

    /// What stands on disk, once the writer is done.
    fn on_disk(&self) -> OpenSite {
        for _ in 0..500 {
            if self.visit().keep_status() == KeepStatus::OnDisk {
                break;
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        OpenSite::open(self.visit().folder()).unwrap()
    }

    fn site_folder(&self, part: &str) -> PathBuf {
        let entries = Shelf::at(self.folder.path()).list().unwrap();
        entries
            .into_iter()
            .map(|entry| entry.folder)
            .find(|folder| folder.to_string_lossy().contains(part))
            .unwrap()
    }
}

const LANDSCAPE: egui::Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: egui::Vec2 = vec2(800.0, 1280.0);

#[test]
fn first_start_offers_copies_of_the_samples() {
    let mut app = app(LANDSCAPE);
    assert!(
        app.harness
            .query_by_role_and_label(Role::Button, "28 Quarry Lane")
            .is_none()
    );
    app.press("open copies of the sample sites they are yours to change");
    assert_eq!(Shelf::at(app.folder.path()).list().unwrap().len(), 7);
    assert!(
        app.harness
            .query_by_role_and_label(Role::Button, "28 Quarry Lane")
            .is_some()
    );
}

#[test]
fn a_tapped_sill_height_changes_results_and_disk() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        let before = app.visit().results().clone();
        app.stop("Line");
        app.press("Sill above old brick");
        for key in ["2", "1/4", "1/8"] {
            app.press(key);
        }
        assert_eq!(app.text(Place::OldBelowSill), "2 3/8 in");
        let old = app
            .visit()
            .results()
            .line
            .as_ref()
            .unwrap()
            .old_surface
            .at(inches(0.0), inches(0.0))
            .unwrap();
        assert!(
            (in_metres(old.level) + 2.375 * 0.0254).abs() < 1e-12,
            "the old surface stands 2 3/8 in below the sill: {:?}",
            old.level
        );
        assert_ne!(*app.visit().results(), before);
        assert_eq!(
            app.on_disk().site().text(Place::OldBelowSill),
            Some("2 3/8 in")
        );
    }
}

#[test]
fn a_deeper_pit_digs_deeper() {
    let mut app = curved(LANDSCAPE);
    let before = app.visit().results().bed.as_ref().unwrap().thickest_base;
    app.harness.state_mut().set(Place::LayerThickness(0, 2));
    app.run();
    for key in ["3", "0", "next"] {
        app.press(key);
    }
    assert_eq!(app.text(Place::LayerThickness(0, 2)), "30 in");
    assert!(app.visit().results().bed.as_ref().unwrap().thickest_base > before);
}

#[test]
fn typing_a_value_is_one_step_to_undo_also_after_a_restart() {
    let mut app = curved(LANDSCAPE);
    let before = app.text(Place::OldBelowSill);
    app.stop("Line");
    app.press("Sill above old brick");
    for key in ["1", "2", "1/2"] {
        app.press(key);
    }
    assert_eq!(app.text(Place::OldBelowSill), "12 1/2 in");
    app.on_disk();
    let site = app.visit().folder().to_path_buf();

    app.press("Sites");
    let mut again = App {
        harness: reopened(app.folder.path(), &site),
        folder: app.folder,
    };
    assert_eq!(again.text(Place::OldBelowSill), "12 1/2 in");
    again
        .harness
        .key_press_modifiers(Modifiers::COMMAND, Key::Z);
    again.run();
    assert_eq!(again.text(Place::OldBelowSill), before);
    again.press("redo");
    assert_eq!(again.text(Place::OldBelowSill), "12 1/2 in");
    again.press("undo");
    assert_eq!(
        again.on_disk().site().text(Place::OldBelowSill),
        Some(before.as_str())
    );
}

fn reopened(folder: &Path, site: &Path) -> Harness<'static, Shell> {
    let shell = Shell::new(Shelf::at(folder), underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(LANDSCAPE)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(site, &context).unwrap();
    let _settled = harness.run_ok();
    harness
}

#[test]
fn nonsense_from_a_keyboard_is_kept_as_typed_and_said() {
    let mut app = curved(LANDSCAPE);
    app.stop("Line");
    for (typed, said) in [("5'' 3", "5'' 3"), ("1/0", "1/0"), ("900 ft", "900")] {
        app.press("Sill above old brick");
        app.harness.event(egui::Event::Text(typed.to_owned()));
        app.run();
        app.harness.run_steps(6);
        app.press("next");
        assert_eq!(app.text(Place::OldBelowSill), typed);
        assert_eq!(
            app.visit().site().line.old_below_sill,
            None,
            "{typed} is not guessed at"
        );
        let finding = app
            .visit()
            .findings_at(Place::OldBelowSill)
            .map(|finding| finding.text.clone())
            .collect::<Vec<_>>()
            .join(" ");
        assert!(finding.contains(said), "{typed}: {finding}");
        assert_eq!(app.on_disk().site().text(Place::OldBelowSill), Some(typed));
    }
}

#[test]
fn a_depth_below_zero_is_questioned() {
    let mut app = curved(LANDSCAPE);
    app.harness.state_mut().set(Place::LayerThickness(0, 1));
    app.run();
    app.harness.event(egui::Event::Text("-3".to_owned()));
    app.run();
    app.press("next");
    assert_eq!(app.text(Place::LayerThickness(0, 1)), "-3 in");
    assert_eq!(app.visit().site().pits[0].layers[1].thickness, None);
    assert!(
        app.visit()
            .findings_at(Place::LayerThickness(0, 1))
            .any(|finding| finding.text.contains("-3"))
    );
}

#[test]
fn a_pit_with_four_layers_takes_few_taps() {
    let mut app = curved(LANDSCAPE);
    let pit_idx = app.visit().record().pits.len();
    let mut taps = 0;
    let mut tap = |app: &mut App, label: &str| {
        app.press(label);
        taps += 1;
    };
    tap(&mut app, "add a pit");
    for key in ["9", "next", "next", "2", "1/4"] {
        tap(&mut app, key);
    }
    for (material, thickness) in [("Bedding sand", "2"), ("Loam", "6"), ("Clay, firm", "4")] {
        tap(&mut app, "add a layer below");
        tap(&mut app, material);
        tap(&mut app, thickness);
    }
    let pit = &app.visit().record().pits[pit_idx];
    assert_eq!(pit.station, "9 ft");
    let thicknesses: Vec<&str> = pit
        .layers
        .iter()
        .map(|layer| layer.thickness.as_str())
        .collect();
    assert_eq!(thicknesses, ["2 1/4 in", "2 in", "6 in", "4 in"]);
    assert!(taps < 20, "{taps} taps");
}

#[test]
fn a_new_site_starts_with_its_address() {
    let mut app = app(LANDSCAPE);
    app.press("new site");
    let field = app
        .harness
        .get_by_role_and_label(Role::TextInput, "Address, typed");
    field.focus();
    app.run();
    app.harness
        .get_by_role_and_label(Role::TextInput, "Address, typed")
        .type_text("9 Cooper Row");
    app.run();
    assert_eq!(app.text(Place::Address), "9 Cooper Row");
    assert_eq!(app.on_disk().site().address, "9 Cooper Row");
}

#[test]
fn a_broken_site_is_told_about_and_the_others_open() {
    let mut app = app(LANDSCAPE);
    app.press("open copies of the sample sites they are yours to change");
    let broken = app.site_folder("metric").join("site.ron");
    std::fs::write(&broken, "(version: 1, address: 57").unwrap();
    let shell = Shell::new(
        Shelf::at(app.folder.path()),
        underbrick_records::catalogue().unwrap(),
    );
    *app.harness.state_mut() = shell;
    app.run();
    app.press("28 Quarry Lane");
    assert_eq!(app.visit().site().address, "28 Quarry Lane");
    assert_eq!(
        std::fs::read_to_string(&broken).unwrap(),
        "(version: 1, address: 57"
    );
}

#[test]
fn every_key_and_row_is_big_enough_for_a_gloved_finger() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        for stop in Stop::ALL {
            app.stop(stop.word());
            app.harness.state_mut().set(match stop {
                Stop::Look => Place::LayerThickness(0, 0),
                Stop::Line => Place::OldBelowSill,
                Stop::Bed => Place::SettingBed,
                Stop::Lay => Place::LapShare,
                Stop::Order => Place::CrewSize,
                Stop::Build => Place::BuildSpacing,
                // Its keys are looked at in flows of its own: there is no pad and no rod.
                Stop::Show => continue,
            });
            app.run();
            for role in [Role::Button, Role::Tab] {
                for node in app.harness.query_all_by_role(role) {
                    let name = node.accesskit_node().label().unwrap_or_default();
                    let rect = node.rect();
                    assert!(
                        rect.height() >= 63.9 && rect.width() >= 63.9,
                        "{name} is {} by {} points",
                        rect.width(),
                        rect.height()
                    );
                }
            }
        }
    }
}

#[test]
fn the_app_is_still_when_nothing_changes() {
    let mut app = curved(LANDSCAPE);
    app.on_disk();
    app.harness.run_steps(8);
    app.harness.step();
    let delay = app
        .harness
        .output()
        .viewport_output
        .values()
        .map(|viewport| viewport.repaint_delay)
        .min()
        .unwrap();
    assert_eq!(delay, Duration::MAX, "no frame is asked for");
}

/// A place in the cross-section or the long section, as shares of its picture.
fn tap_drawing(app: &mut App, nth: usize, across: f32, down: f32) {
    let rects: Vec<egui::Rect> = app
        .harness
        .get_all_by_role(Role::Image)
        .map(|node| node.rect())
        .collect();
    assert_eq!(rects.len(), 2, "two drawings are on screen");
    let at = rects[nth].min + rects[nth].size() * vec2(across, down);
    app.harness.hover_at(at);
    app.harness.drag_at(at);
    app.harness.drop_at(at);
    app.run();
}

#[test]
fn a_tap_on_the_drawing_opens_the_entry_behind_it() {
    let mut app = curved(LANDSCAPE);
    // The middle of the cross-section is base, below the brick.
    tap_drawing(&mut app, 0, 0.42, 0.5);
    assert_eq!(app.harness.state().setting(), Some(Place::LooseLift));
    // The brick of the field stands above it.
    tap_drawing(&mut app, 0, 0.42, 0.335);
    assert_eq!(app.harness.state().setting(), Some(Place::BrickThickness));
}

#[test]
fn a_drag_along_the_long_section_moves_the_cross_section() {
    let mut app = curved(LANDSCAPE);
    let words = |app: &App| {
        app.harness
            .get_all_by_role(Role::Image)
            .map(|node| node.accesskit_node().label().unwrap_or_default())
            .collect::<Vec<_>>()
    };
    let before = words(&app);
    let long = app
        .harness
        .get_all_by_role(Role::Image)
        .nth(1)
        .unwrap()
        .rect();
    let from = long.min + long.size() * vec2(0.33, 0.6);
    app.harness.hover_at(from);
    app.harness.drag_at(from);
    app.harness.step();
    for step in 1_u8..=8 {
        app.harness
            .hover_at(from + vec2(f32::from(step) * 30.0, 0.0));
        app.harness.step();
    }
    app.harness.drop_at(from + vec2(240.0, 0.0));
    app.run();
    let after = words(&app);
    assert_ne!(
        before[0], after[0],
        "the cross-section tells another station"
    );
    assert_ne!(before[1], after[1], "so does the long section");
}

#[test]
fn a_curve_tighter_than_the_walk_is_refused_by_name_and_nothing_is_lost() {
    let mut app = curved(LANDSCAPE);
    app.harness.state_mut().set(Place::LegRadius(1));
    app.run();
    for key in ["1", "next"] {
        app.press(key);
    }
    assert_eq!(app.text(Place::LegRadius(1)), "1 ft");
    assert!(
        app.visit().results().line.is_none(),
        "an impossible run is not drawn"
    );
    let finding = app
        .visit()
        .findings_at(Place::LegRadius(1))
        .next()
        .expect("a finding at the radius")
        .text
        .clone();
    assert!(finding.contains("1'-0\""), "{finding}");
    assert_eq!(app.on_disk().site().text(Place::LegRadius(1)), Some("1 ft"));
    app.press("undo");
    assert!(app.visit().results().bed.is_some());
}

#[test]
fn an_offer_is_drawn_by_one_tap_and_taken_back_by_another() {
    let mut app = curved(LANDSCAPE);
    app.harness.state_mut().set(Place::FarEndBelowSill);
    app.run();
    for key in ["4", "4", "next"] {
        app.press(key);
    }
    let line = |app: &App| app.visit().results().line.clone().unwrap();
    assert!(line(&app).grade.risers().is_empty());
    let offer = line(&app)
        .offers
        .into_iter()
        .find(|offer| offer.risers.is_some())
        .expect("44 in over 38 ft asks for steps");
    app.press(&format!("draw it: {}", offer.title));
    let (n_risers, height) = offer.risers.unwrap();
    let risers = line(&app).grade.risers();
    assert_eq!(risers.len(), n_risers as usize);
    assert!(
        (in_metres(risers[0].height - height)).abs() < 1e-9,
        "{risers:?} as offered, {height:?}"
    );
    app.press("one riser more");
    assert_eq!(line(&app).grade.risers().len(), n_risers as usize + 1);
    app.press("undo");
    app.press("undo");
    assert!(line(&app).grade.risers().is_empty());
    assert_eq!(
        app.on_disk().site().line.shape,
        underbrick_records::v1::GradeShape::Uniform
    );
}

#[test]
fn the_usual_cautions_stand_where_the_digging_is_planned() {
    let mut app = curved(LANDSCAPE);
    app.stop("Bed");
    for words in [
        "buried services",
        "trench",
        "silica dust",
        "Wet concrete",
        "local code",
    ] {
        assert!(
            app.harness
                .query_all_by_role(Role::Label)
                .any(|node| node.value().is_some_and(|value| value.contains(words))),
            "{words}"
        );
    }
}

#[test]
fn lengths_on_disk_carry_their_unit() {
    let mut app = curved(LANDSCAPE);
    app.harness.state_mut().set(Place::PitStation(0));
    app.run();
    app.press("7");
    let text = app.text(Place::PitStation(0));
    assert_eq!(text, "7 ft");
    assert!(read_length_with_unit(&text).is_ok());
}
