//! What is seen: tapped from the list, kept on disk, undone; and why it failed: read, followed to its reading, mended.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use tempfile::TempDir;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_calc::site::{Severity, SignKind};
use underbrick_records::{KeepStatus, OpenSite, Shelf};

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

/// A copy of a sample, open.
fn opened(sample: &str) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains(sample))
        .unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(site, &context).unwrap();
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
        let _settled = self.harness.run_ok();
        self.harness
            .get_by_role_and_label(Role::Button, label)
            .click();
        let _settled = self.harness.run_ok();
    }

    fn has_said(&self, words: &str) -> bool {
        self.harness.query_all_by_label(words).next().is_some()
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn text(&self, place: Place) -> Option<String> {
        self.visit().record().text(place).map(str::to_owned)
    }

    fn fires(&self, rule: &str) -> bool {
        let causes = &self.visit().results().causes;
        causes.iter().any(|cause| cause.rule_id == rule)
    }

    fn on_disk(&self) -> OpenSite {
        for _ in 0..500 {
            if self.visit().keep_status() == KeepStatus::OnDisk {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        OpenSite::open(self.visit().folder()).unwrap()
    }
}

#[test]
fn a_sign_is_tapped_from_the_list_and_kept() {
    let mut app = opened("metric");
    let n_signs = app.visit().site().signs.len();
    // Six taps: add, what, 7, next, then how bad.
    app.press("add what is seen");
    assert_eq!(app.text(Place::Sign(n_signs)).as_deref(), Some(""));
    app.press("Downpipe");
    app.press("7");
    assert_eq!(
        app.text(Place::SignStation(n_signs)).as_deref(),
        Some("7 m")
    );
    app.press("bad");
    let sign = *app.visit().site().signs.last().unwrap();
    assert_eq!(
        (sign.what, sign.severity),
        (Some(SignKind::Downpipe), Severity::Bad)
    );
    assert!(app.fires("downpipe-washes"), "edge and joints 1 m from it");
    assert_eq!(
        app.on_disk().site().text(Place::Sign(n_signs)),
        Some("downpipe")
    );
    app.press("undo");
    assert_eq!(
        app.visit().site().signs.last().unwrap().severity,
        Severity::Plain
    );
    for _ in 0..3 {
        app.press("undo");
    }
    assert_eq!(app.visit().site().signs.len(), n_signs);
    assert!(!app.fires("downpipe-washes"));
    app.press("redo");
    assert_eq!(app.visit().site().signs.len(), n_signs + 1);
}

#[test]
fn a_cause_leads_to_its_reading_and_goes_when_that_is_mended() {
    let mut app = opened("sunk-on-sand");
    assert!(app.fires("sand-never-packs"));
    assert!(app.has_said("A base that never packs: sure"));
    // Both pits show it: the first of two keys would be as good, so the seep-free second pit goes first by itself.
    app.harness
        .get_all_by_role_and_label(Role::Button, "go to Pit 1, Fill sand 8\", soft, moist")
        .next()
        .unwrap()
        .scroll_to_me();
    let _settled = app.harness.run_ok();
    app.harness
        .get_all_by_role_and_label(Role::Button, "go to Pit 1, Fill sand 8\", soft, moist")
        .next()
        .unwrap()
        .click();
    let _settled = app.harness.run_ok();
    assert_eq!(
        app.harness.state().setting(),
        Some(Place::LayerMaterial(0, 2))
    );
    app.press("Crushed stone, dense graded");
    assert!(
        app.fires("sand-never-packs"),
        "the second pit still shows it"
    );
    app.harness.state_mut().set(Place::LayerMaterial(1, 2));
    let _settled = app.harness.run_ok();
    app.press("Crushed stone, dense graded");
    assert!(!app.fires("sand-never-packs"));
    assert!(!app.has_said("A base that never packs: sure"));
}

#[test]
fn a_sign_is_taken_away_with_its_cause() {
    let mut app = opened("sunk-on-sand");
    assert!(app.fires("joints-too-wide"));
    app.press("Open joints");
    assert_eq!(app.harness.state().setting(), Some(Place::SignStation(1)));
    app.press("Sign joint width");
    assert_eq!(app.harness.state().setting(), Some(Place::SignWidth(1)));
    app.press("take sign 2 away");
    assert!(!app.fires("joints-too-wide"));
    assert_eq!(app.harness.state().setting(), None);
    app.press("undo");
    assert!(app.fires("joints-too-wide"));
}

#[test]
fn the_key_that_turns_a_sign_says_what_it_turns() {
    let mut app = opened("sunk-on-sand");
    let mut check = |place: Place, key: &str, expected: &str| {
        app.harness.state_mut().set(place);
        let _settled = app.harness.run_ok();
        app.press("3");
        app.press(key);
        assert_eq!(app.text(place).as_deref(), Some(expected), "{place:?}");
    };
    check(Place::SignOffset(0), "+ / − side", "-3 in");
    check(Place::PitOffset(0), "+ / − side", "-3 in");
    check(Place::StringAboveSill, "above or below", "-3 in");
    check(Place::BookBenchmark, "above or below", "-3 in");
}
