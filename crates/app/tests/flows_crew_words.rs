//! The crew's language: chosen for a site, seen in its cautions, kept in its record, undone.

#![expect(
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use underbrick_app::Shell;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::site::Language;
use underbrick_records::Shelf;

const ENGLISH: &str = "Have buried services located before anyone digs.";
const SPANISH: &str = "Haga localizar las instalaciones enterradas antes de que alguien excave.";

#[track_caller]
fn press(harness: &mut Harness<'static, Shell>, label: &str) {
    harness
        .get_by_role_and_label(Role::Button, label)
        .scroll_to_me();
    let _settled = harness.run_ok();
    harness.get_by_role_and_label(Role::Button, label).click();
    let _settled = harness.run_ok();
}

fn reads(harness: &Harness<'static, Shell>) -> Language {
    harness
        .state()
        .visit()
        .expect("a site is open")
        .site()
        .show
        .crew_reads
}

#[test]
fn cautions_are_said_in_the_language_of_the_crew() {
    let folder = tempfile::tempdir().unwrap();
    let shell = Shell::new(
        Shelf::at(folder.path()),
        underbrick_records::catalogue().unwrap(),
    );
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    press(&mut harness, "new site");
    harness.state_mut().go_to(Stop::Bed);
    let _settled = harness.run_ok();
    assert!(harness.query_by_label_contains(ENGLISH).is_some());
    harness.state_mut().go_to(Stop::Look);
    let _settled = harness.run_ok();
    press(&mut harness, "Español");
    assert_eq!(reads(&harness), Language::Spanish);
    harness.state_mut().go_to(Stop::Bed);
    let _settled = harness.run_ok();
    assert!(harness.query_by_label_contains(SPANISH).is_some());
    assert!(harness.query_by_label_contains(ENGLISH).is_none());
    press(&mut harness, "undo");
    assert_eq!(reads(&harness), Language::English);
    assert!(harness.query_by_label_contains(ENGLISH).is_some());
}
