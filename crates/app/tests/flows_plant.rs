//! What compacts the base, at stop Bed: how thick a lift is taken to be, how often it is passed over, and what is said of a lift that is
//! too thick for it; kept on disk, and undone.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;
use std::time::Duration;

use egui::{Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_records::v1::Plant;
use underbrick_records::{OpenSite, Shelf};

struct App {
    harness: Harness<'static, Shell>,
    site: PathBuf,
    _shelf: TempDir,
}

fn curved(size: Vec2) -> App {
    let shelf = tempfile::tempdir().unwrap();
    let copies = Shelf::at(shelf.path()).copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
        .unwrap()
        .clone();
    let shell = Shell::new(
        Shelf::at(shelf.path()),
        underbrick_records::catalogue().unwrap(),
    );
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(&site, &context).unwrap();
    harness.state_mut().go_to(Stop::Bed);
    let _settled = harness.run_ok();
    App {
        harness,
        site,
        _shelf: shelf,
    }
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    #[track_caller]
    fn press(&mut self, name: &str) {
        let names = self
            .harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label());
        let name = names.into_iter().find(|label| label.starts_with(name));
        let name = name.unwrap_or_else(|| panic!("no such button"));
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .scroll_to_me();
        self.run();
        let key = self.harness.get_by_role_and_label(Role::Button, &name);
        assert!(key.rect().height() >= 63.9, "{name} is small");
        key.click();
        self.run();
    }

    fn set_lift(&mut self, words: &str) {
        self.harness.state_mut().set(Place::LooseLift);
        self.run();
        for letter in words.chars() {
            self.harness.event(egui::Event::Text(letter.to_string()));
        }
        self.run();
    }

    fn says(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().unwrap()
    }

    fn most_compacted_mm(&self) -> f64 {
        let bed = self.visit().results().bed.as_ref().unwrap();
        in_metres(bed.lifts.compacted_limit) * 1000.0
    }

    fn passes_asked(&self) -> Option<u32> {
        let build = self.visit().results().build.as_ref().unwrap();
        build.lifts.first().unwrap().n_passes_asked
    }
}

/// Rows K1 to K5, table A8.1 of the Scottish reinstatement specification: 100 mm for a plate of 1,400 to 1,800 kg/m² in 5 passes, 200 mm
/// for a heavier one, 150 mm for a tamper from 50 kg.
#[test]
fn the_plate_decides_how_thick_a_lift_is_and_how_often_it_is_passed() {
    for size in [vec2(1280.0, 800.0), vec2(800.0, 1280.0)] {
        let mut app = curved(size);
        let (usual_mm, usual_passes) = (app.most_compacted_mm(), app.passes_asked());
        assert_eq!(usual_passes, Some(3));
        app.set_lift("");
        for _ in 0..8 {
            app.harness.key_press(egui::Key::Backspace);
        }
        app.run();
        let own = app.visit().record().text(Place::LooseLift);
        assert_eq!(own, Some(""));
        app.press("plate");
        assert!((app.most_compacted_mm() - 100.0).abs() < 1e-6);
        assert_eq!(app.passes_asked(), Some(5));
        app.press("heavier plate");
        assert!((app.most_compacted_mm() - 200.0).abs() < 1e-6);
        app.press("tamper");
        assert!((app.most_compacted_mm() - 150.0).abs() < 1e-6);
        assert!(app.visit().flush(Duration::from_secs(20)));
        let disk = OpenSite::open(&app.site).unwrap();
        assert_eq!(disk.site().bed.plant, Plant::Tamper);
        for _ in 0..4 {
            app.press("undo");
        }
        assert!((app.most_compacted_mm() - usual_mm).abs() < 1e-6);
        assert_eq!(app.passes_asked(), usual_passes);
    }
}

#[test]
fn a_lift_of_ones_own_is_held_against_the_plate() {
    let mut app = curved(vec2(1280.0, 800.0));
    app.press("plate");
    app.set_lift("6");
    // 6 in loose are more than 100 mm compacted.
    assert!(app.says("is the most that is published for a plate of 1,400 to 1,800 kg/m²"));
    app.press("heavier plate");
    assert!(!app.says("is the most that is published"));
    app.press("not known");
    assert!(app.says("are your own"));
}
