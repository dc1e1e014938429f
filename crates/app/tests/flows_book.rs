//! A field book of two set-ups, entered with a finger and closed on the sill.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::time::Duration;

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::findings::Weight;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{feet, in_metres, inches};
use underbrick_records::{KeepStatus, OpenSite, Shelf};

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

/// A copy of the straight sample, at stop Line.
fn app(size: egui::Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    shelf.copy_samples().unwrap();
    let site = shelf
        .list()
        .unwrap()
        .into_iter()
        .map(|entry| entry.folder)
        .find(|folder| folder.to_string_lossy().contains("half-measured"))
        .unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(&site, &context).unwrap();
    let mut app = App {
        harness,
        _folder: folder,
    };
    app.run();
    app.harness.get_by_role_and_label(Role::Tab, "Line").click();
    app.run();
    app
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

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
    fn press_all(&mut self, labels: &[&str]) {
        for label in labels {
            self.press(label);
        }
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn text(&self, place: Place) -> String {
        self.visit().record().text(place).unwrap().to_owned()
    }

    #[track_caller]
    fn check_level(&self, row_idx: usize, level_in: f64) {
        let reduced = self.visit().results().book.as_ref().unwrap();
        let got_in = in_metres(reduced.rows.get(row_idx).unwrap().level_used.unwrap()) / 0.0254;
        assert!((got_in - level_in).abs() < 1e-9, "{got_in} for {level_in}");
    }

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

/// Sill 40 in; 4 ft out 46 in; turning point 42 in and 44 in; 8 ft out 50 in; sill again 41 7/8 in.
fn entered(size: egui::Vec2) -> App {
    let mut app = app(size);
    app.press_all(&["start a field book", "4", "0"]);
    app.press_all(&["add a sight", "4", "next", "4", "6"]);
    app.press_all(&["turn here", "4", "2", "next", "4", "4"]);
    app.press_all(&["add a sight", "8", "next", "5", "0"]);
    app.press_all(&["close on the sill", "4", "1", "1/2", "1/4", "1/8"]);
    app
}

#[test]
fn a_page_of_two_set_ups_is_entered_and_closed() {
    for size in [vec2(1280.0, 800.0), vec2(800.0, 1280.0)] {
        let mut app = entered(size);
        // Line of sight 40 in: -6 in at 4 ft, -2 in on the turning point. Then 42 in: -8 in at 8 ft, and 42 - 41 7/8 = 1/8 in on the sill.
        app.check_level(1, -6.0);
        app.check_level(2, -2.0);
        app.check_level(4, -8.0);
        app.check_level(5, 0.125);
        let reduced = app.visit().results().book.clone().unwrap();
        assert!(reduced.sums.unwrap().agree() && reduced.faults.is_empty());
        let closing = app.visit().findings_at(Place::BookReading(5)).next();
        assert_eq!(closing.map(|finding| finding.weight), Some(Weight::Right));

        let file = app.on_disk().site().clone();
        for (place, text) in [
            (Place::BookReading(0), "40 in"),
            (Place::BookStation(1), "4 ft"),
            (Place::BookReading(1), "46 in"),
            (Place::BookReading(2), "42 in"),
            (Place::BookReading(3), "44 in"),
            (Place::BookStation(4), "8 ft"),
            (Place::BookReading(5), "41 7/8 in"),
        ] {
            assert_eq!(file.text(place), Some(text), "{place:?}");
        }
        let ron = std::fs::read_to_string(app.visit().folder().join("site.ron")).unwrap();
        assert!(
            ron.contains(r#"(sight: Fore, stands: TurningPoint, reading: "42 in")"#),
            "{ron}"
        );

        // Spread, each of the two set-ups takes a sixteenth, and the old surface follows.
        app.press("spread the misclosure");
        app.check_level(1, -6.0625);
        app.check_level(4, -8.125);
        app.check_level(5, 0.0);
        let line = app.visit().results().line.clone().unwrap();
        let at = line.old_surface.at(feet(8.0), inches(0.0)).unwrap();
        assert!((in_metres(at.level) / 0.0254 + 8.125).abs() < 1e-9);
        app.press("undo");
        app.check_level(4, -8.0);
    }
}

#[test]
fn a_missing_backsight_is_said_and_mended() {
    let mut app = entered(vec2(1280.0, 800.0));
    app.press("Sight 4, backsight");
    for _ in 0..6 {
        app.press("erase one");
    }
    assert_eq!(app.text(Place::BookReading(3)), "");
    let said: Vec<String> = app
        .visit()
        .findings()
        .map(|finding| finding.text.clone())
        .collect();
    assert!(
        said.iter()
            .any(|text| text == "Sight 4 reading (backsight) is missing."),
        "{said:?}"
    );
    assert!(said.iter().any(|text| text.contains("sight 5, 6")));
    app.press_all(&["4", "4"]);
    app.check_level(4, -8.0);
}

#[test]
fn lines_are_taken_out_and_come_back_by_undo() {
    let mut app = entered(vec2(1280.0, 800.0));
    let before = app.visit().record().clone();
    app.press("Sight 3, foresight");
    app.press("the old walk");
    assert_eq!(app.text(Place::BookStation(2)), "");
    app.press("undo");
    assert_eq!(*app.visit().record(), before);
    app.press("remove last row");
    assert_eq!(app.visit().record().line.book.rows.len(), 5);
    app.press("Sight 4, backsight");
    app.press("take sight 3 out");
    assert_eq!(app.visit().record().line.book.rows.len(), 3);
    app.press_all(&["undo", "undo"]);
    assert_eq!(*app.visit().record(), before);
}

#[test]
fn the_cells_of_the_page_are_big_enough_for_a_gloved_finger() {
    for size in [vec2(1280.0, 800.0), vec2(800.0, 1280.0)] {
        let app = entered(size);
        let mut n_cells = 0;
        for node in app.harness.query_all_by_role(Role::Button) {
            let name = node.accesskit_node().label().unwrap_or_default();
            if name.starts_with("Sight ") {
                n_cells += 1;
                let rect = node.rect();
                assert!(
                    rect.height() >= 63.9 && rect.width() >= 63.9,
                    "{name}: {rect:?}"
                );
            }
        }
        assert!(n_cells >= 6, "{n_cells} cells");
    }
}
