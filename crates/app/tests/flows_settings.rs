//! Text size and light: set by a tap, there again after a restart, and never written over a file that cannot be read.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::fs;

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use underbrick_app::Shell;
use underbrick_app::theme::{self, Theme};
use underbrick_records::{Light, Settings, Shelf};

/// The program as the window starts it.
fn start(shelf: &Shelf) -> Harness<'static, Shell> {
    let catalogue = underbrick_records::catalogue().unwrap();
    let shell = Shell::new(shelf.clone(), catalogue);
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_max_steps(16)
        .with_theme(egui::Theme::Light)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state().put_on_settings(&context);
    let _settled = harness.run_ok();
    harness
}

#[track_caller]
fn press(harness: &mut Harness<'static, Shell>, label: &str) {
    harness.get_by_role_and_label(Role::Button, label).click();
    let _settled = harness.run_ok();
}

fn worn(harness: &Harness<'static, Shell>) -> (u16, Theme) {
    (theme::text_size(&harness.ctx), theme::current(&harness.ctx))
}

#[test]
fn what_was_tapped_is_there_after_a_restart() {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path().join("sites"));
    let mut harness = start(&shelf);
    assert_eq!(worn(&harness), (100, Theme::Sun));
    assert!(!shelf.settings().exists(), "nothing was set");
    press(&mut harness, "100 % text size");
    press(&mut harness, "115 % text size");
    press(&mut harness, "dim");
    assert_eq!(worn(&harness), (130, Theme::Dim));
    // The end of the program waits for the disk.
    drop(harness);
    assert_eq!(
        Settings::of_file(&shelf.settings()),
        Ok(Some(Settings::new(130, Light::Dim)))
    );

    let mut harness = start(&shelf);
    assert_eq!(worn(&harness), (130, Theme::Dim));
    // The key in an open site sets the same.
    press(&mut harness, "new site");
    press(&mut harness, "sun");
    drop(harness);
    assert_eq!(worn(&start(&shelf)), (130, Theme::Sun));
}

#[test]
fn a_file_that_cannot_be_read_is_told_once_and_stays() {
    for (text, words) in [
        ("(version: 7, voice: Loud)", "newer Underbrick"),
        ("(version: 1, text_size_percent:", "line 1, column"),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let shelf = Shelf::at(folder.path());
        shelf.copy_samples().unwrap();
        fs::write(shelf.settings(), text).unwrap();
        let mut harness = start(&shelf);
        assert_eq!(worn(&harness), (100, Theme::Sun));
        let told = |harness: &Harness<'static, Shell>| {
            harness
                .query_all_by_label_contains("Your settings are left as they are")
                .count()
        };
        assert_eq!(told(&harness), 1);
        assert!(harness.query_by_label_contains(words).is_some());
        // It can be set for as long as the program runs.
        press(&mut harness, "dim");
        assert_eq!(worn(&harness), (100, Theme::Dim));
        press(&mut harness, "28 Quarry Lane");
        press(&mut harness, "Sites");
        assert_eq!(told(&harness), 0, "told once");
        drop(harness);
        assert_eq!(fs::read_to_string(shelf.settings()).unwrap(), text);
    }
}

#[test]
fn settings_that_cannot_be_written_are_told_on_the_list() {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    shelf.copy_samples().unwrap();
    let mut harness = start(&shelf);
    // A folder that stands where the new file is written.
    let beside = folder.path().join("settings.ron.new");
    fs::create_dir(&beside).unwrap();
    press(&mut harness, "dim");
    let is_told = (0..200).any(|_| {
        std::thread::sleep(std::time::Duration::from_millis(20));
        press(&mut harness, "28 Quarry Lane");
        press(&mut harness, "Sites");
        harness
            .query_by_label_contains("Text size and light are not kept.")
            .is_some()
    });
    assert!(is_told);
}
