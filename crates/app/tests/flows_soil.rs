//! Soil and frost by finger: felt, typed, seen, taken back.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::time::Duration;

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use tempfile::TempDir;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::ground::soil::FrostMethod;
use underbrick_calc::place::Place;
use underbrick_records::{KeepStatus, OpenSite, Shelf};

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

/// With copies of the samples, the site at that address open.
fn open(size: egui::Vec2, address: &str) -> App {
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
    let mut app = App {
        harness,
        _folder: folder,
    };
    app.press("open copies of the sample sites they are yours to change");
    app.press(address);
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

    fn run(&mut self) {
        // What is being written asks for another frame: settled is not still.
        let _settled = self.harness.run_ok();
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn text(&self, place: Place) -> String {
        self.visit().record().text(place).unwrap().to_owned()
    }

    #[track_caller]
    fn reads(&self, label: &str) {
        assert!(
            self.harness
                .query_all_by_label_contains(label)
                .next()
                .is_some(),
            "{label} does not stand on screen"
        );
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
}

const LANDSCAPE: egui::Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: egui::Vec2 = vec2(800.0, 1280.0);

#[test]
fn a_soil_felt_by_hand_is_named_kept_and_taken_back() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = open(size, "28 Quarry Lane");
        assert_eq!(app.visit().results().soil, None);
        app.press("Soil and frost");
        app.press("1 to 2 in");
        app.press("very smooth");
        app.reads("Texture silty clay loam");
        // A clay without a plasticity index may be of either group.
        app.reads("Frost group F4 or F3");
        let disk = app.on_disk();
        assert_eq!(
            disk.site().soil.grit,
            Some(underbrick_records::v1::Grit::Smooth)
        );
        app.press("undo");
        app.press("undo");
        assert_eq!(app.visit().results().soil, None);
        // Folded, its rows are away.
        app.press("Soil and frost");
        assert!(
            app.harness
                .query_by_role_and_label(Role::Button, "Liquid limit")
                .is_none()
        );
    }
}

#[test]
fn limits_typed_on_the_pad_name_the_soil() {
    let mut app = open(LANDSCAPE, "28 Quarry Lane");
    app.press("Soil and frost");
    app.press("Liquid limit");
    for key in ["4", "1", "next", "2", "0", "next", "8", "8"] {
        app.press(key);
    }
    assert_eq!(app.text(Place::LiquidLimit), "41 %");
    assert_eq!(app.text(Place::PlasticLimit), "20 %");
    assert_eq!(app.text(Place::Fines), "88 %");
    app.reads("Symbol CL");
    app.reads("Frost group F3");
    assert_eq!(app.on_disk().site().soil.fines, "88 %");
    // A liquid limit below the plastic limit names nothing, and is kept as typed.
    app.press("Liquid limit");
    for key in ["1", "5"] {
        app.press(key);
    }
    assert_eq!(app.text(Place::LiquidLimit), "15 %");
    assert_eq!(app.visit().results().soil, None);
    let said = app.visit().findings_at(Place::LiquidLimit).next().unwrap();
    assert!(
        said.text.contains("15 % is below the plastic limit, 20 %"),
        "{}",
        said.text
    );
}

#[test]
fn without_the_local_depth_the_formula_is_taken() {
    let mut app = open(PORTRAIT, "16 Hollis Bend");
    let method = |app: &App| {
        let soil = app.visit().results().soil.as_ref().unwrap();
        soil.frost.as_ref().unwrap().method
    };
    assert_eq!(method(&app), FrostMethod::Local);
    app.press("Soil and frost");
    app.press("Local frost depth");
    for _ in 0..5 {
        app.press("erase one");
    }
    assert_eq!(app.text(Place::FrostDepth), "");
    assert_eq!(method(&app), FrostMethod::Berggren);
    app.press("undo");
    assert_eq!(method(&app), FrostMethod::Local);
}
