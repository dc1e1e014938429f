//! A penetrometer by finger: rows on the pad, strengths in the pit, a thicker base and why.

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
use underbrick_calc::place::Place;
use underbrick_calc::quantity::inches;
use underbrick_records::{KeepStatus, OpenSite, Shelf, SiteFile};

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

/// The sample that has sunk on sand, whose least base nobody asked for.
fn sunk(size: egui::Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    shelf.copy_samples().unwrap();
    let site = shelf
        .list()
        .unwrap()
        .into_iter()
        .map(|entry| entry.folder)
        .find(|site| site.to_string_lossy().contains("short-straight"))
        .unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(&site, &context).unwrap();
    let _settled = harness.run_ok();
    App {
        harness,
        _folder: folder,
    }
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
    fn keys(&mut self, keys: &[&str]) {
        for key in keys {
            self.press(key);
        }
    }

    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn setting(&self) -> Option<Place> {
        self.harness.state().setting()
    }

    /// What is said on screen that holds these words.
    fn said(&self, words: &str) -> Vec<String> {
        self.harness
            .get_all_by_role(Role::Label)
            .filter_map(|node| {
                let node = node.accesskit_node();
                node.label().or_else(|| node.value())
            })
            .filter(|label| label.contains(words))
            .collect()
    }

    fn on_disk(&self) -> SiteFile {
        for _ in 0..500 {
            if self.visit().keep_status() == KeepStatus::OnDisk {
                break;
            }
            std::thread::sleep(Duration::from_millis(10));
        }
        OpenSite::open(self.visit().folder())
            .unwrap()
            .site()
            .clone()
    }

    /// Two rows into pit 1: 5 blows from 30 to 130 mm, 2 blows to 250 mm.
    fn drive(&mut self) {
        self.press("Pit 1");
        self.press("drive a penetrometer");
        assert_eq!(self.setting(), Some(Place::PenetrometerStart(0)));
        self.keys(&["3", "0", "mm", "next"]);
        assert_eq!(self.setting(), Some(Place::PenetrometerBlows(0, 0)));
        self.keys(&["5", "next", "1", "3", "0", "mm", "next"]);
        assert_eq!(self.setting(), Some(Place::PenetrometerBlows(0, 1)));
        self.keys(&["2", "next", "2", "5", "0", "mm", "next"]);
        assert_eq!(self.setting(), Some(Place::PenetrometerBlows(0, 2)));
        // The row after the last is left empty, and goes away.
        self.press("next");
        assert_eq!(self.setting(), None);
    }
}

const LANDSCAPE: egui::Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: egui::Vec2 = vec2(800.0, 1280.0);

#[test]
fn a_log_by_finger_is_on_disk_and_says_how_strong_the_ground_is() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = sunk(size);
        app.drive();
        let log = app.on_disk().pits.first().unwrap().penetrometer.clone();
        let rows: Vec<(&str, &str)> = log
            .rows
            .iter()
            .map(|row| (row.blows.as_str(), row.reading.as_str()))
            .collect();
        assert_eq!(log.start, "30 mm");
        assert_eq!(rows, [("5", "130 mm"), ("2", "250 mm")]);
        // 20 mm a blow is CBR 10.19, 60 mm a blow 2.98 by the general relation, check values D8 and D15.
        assert_eq!(app.said("CBR about 10").len(), 1);
        assert_eq!(app.said("CBR about 3.0").len(), 1);
    }
}

#[test]
fn weak_ground_thickens_the_base_says_why_and_asks_for_a_fabric() {
    let mut app = sunk(LANDSCAPE);
    let least = |app: &App| app.visit().results().bed.as_ref().unwrap().least_base;
    assert_eq!(least(&app), inches(4.0));
    app.drive();
    assert_eq!(least(&app), inches(8.0)); // CBR 2.98 is class D: 4 in more, second-hand
    app.harness
        .state_mut()
        .go_to(underbrick_app::stops::Stop::Bed);
    app.run();
    assert_eq!(app.said("Weak ground, class D + 4\"").len(), 1);
    assert_eq!(app.said("Worked out together 8\"").len(), 1);
    assert_eq!(app.said("stone would be pressed into this ground").len(), 1);
    app.press("laid");
    assert!(
        app.said("stone would be pressed into this ground")
            .is_empty()
    );
    // One's own is kept and said.
    app.press("Least base");
    app.keys(&["5", "next"]);
    assert_eq!(least(&app), inches(5.0));
    assert_eq!(app.said("is your own and is kept").len(), 1);
}

#[test]
fn a_log_that_goes_back_up_is_kept_and_questioned_and_the_rest_is_there() {
    let mut app = sunk(LANDSCAPE);
    app.drive();
    app.harness
        .state_mut()
        .set(Place::PenetrometerReading(0, 1));
    app.run();
    app.keys(&["9", "0", "mm"]);
    let log = app.on_disk().pits.first().unwrap().penetrometer.clone();
    assert_eq!(log.rows.last().unwrap().reading, "90 mm");
    let found = app.visit().results().penetrometers.first().unwrap().clone();
    assert_eq!(found.layers.len(), 1);
    assert!(
        app.visit()
            .findings_at(Place::PenetrometerReading(0, 1))
            .any(|finding| finding.text.contains("a cone only goes down"))
    );
    app.press("2: 2 blows, what it is");
    app.keys(&["0"]);
    let questions: Vec<String> = app
        .visit()
        .findings_at(Place::PenetrometerBlows(0, 1))
        .map(|finding| finding.text.clone())
        .collect();
    assert!(
        questions
            .iter()
            .any(|text| text.contains("0 is below the least that can be true, 1")),
        "{questions:?}"
    );
    assert!(app.visit().results().bed.is_some());
}

#[test]
fn every_step_of_a_log_is_undone() {
    let mut app = sunk(LANDSCAPE);
    let before = app.visit().record().clone();
    app.drive();
    app.press("4.6 kg, 10.1 lb");
    app.press("lean clay");
    app.harness.state_mut().set(Place::PenetrometerBlows(0, 1));
    app.run();
    app.press("take row 2 away");
    assert_eq!(
        app.visit()
            .record()
            .pits
            .first()
            .unwrap()
            .penetrometer
            .rows
            .len(),
        1
    );
    for _ in 0..40 {
        if *app.visit().record() == before {
            break;
        }
        app.press("undo");
    }
    assert_eq!(*app.visit().record(), before);
    assert_eq!(app.on_disk(), before);
}

#[test]
fn blows_are_counted_on_figures_alone() {
    let mut app = sunk(LANDSCAPE);
    app.drive();
    app.harness.state_mut().set(Place::PenetrometerBlows(0, 0));
    app.run();
    for key in ["1/2", ".", "ft", "in", "mm"] {
        assert!(
            app.harness
                .query_by_role_and_label(Role::Button, key)
                .is_none(),
            "{key} is offered for blows"
        );
    }
}
