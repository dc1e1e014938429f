//! The text size: tapped on the list of sites, kept from screen to screen, and nothing cut by it.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, Shape, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::Shell;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::place::Place;
use underbrick_records::Shelf;

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

fn samples(size: Vec2) -> (Harness<'static, Shell>, Shelf, TempDir) {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    shelf.copy_samples().unwrap();
    let catalogue = underbrick_records::catalogue().unwrap();
    let shell = Shell::new(shelf.clone(), catalogue);
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let _settled = harness.run_ok();
    (harness, shelf, folder)
}

#[track_caller]
fn press(harness: &mut Harness<'static, Shell>, label: &str) {
    harness
        .get_by_role_and_label(Role::Button, label)
        .scroll_to_me();
    let _settled = harness.run_ok();
    harness.get_by_role_and_label(Role::Button, label).click();
    let _settled = harness.run_ok();
}

/// Words on screen that were cut.
fn cut(harness: &Harness<'static, Shell>) -> Vec<String> {
    fn look(shape: &Shape, found: &mut Vec<String>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| look(shape, found)),
            Shape::Text(text) if text.galley.elided || text.galley.text().contains('…') => {
                found.push(text.galley.text().to_owned());
            }
            _ => {}
        }
    }
    let mut found = Vec::new();
    for clipped in &harness.output().shapes {
        look(&clipped.shape, &mut found);
    }
    found
}

/// The pad has three lines for what is wrong with a value; the row that is being set says it in full.
fn cut_but_findings_on_the_pad(
    harness: &Harness<'static, Shell>,
    at: Option<Place>,
) -> Vec<String> {
    let visit = harness.state().visit().expect("a site is open");
    let findings = at.into_iter().flat_map(|place| visit.findings_at(place));
    let said: Vec<String> = findings
        .map(|finding| finding.text.chars().take(40).collect())
        .collect();
    let mut cut = cut(harness);
    if let Some(on_pad) = cut
        .iter()
        .position(|words| said.iter().any(|said| words.starts_with(said.as_str())))
    {
        cut.remove(on_pad);
    }
    cut
}

#[test]
fn a_tap_on_the_list_takes_the_next_size_and_the_sites_keep_it() {
    let (mut harness, _shelf, _folder) = samples(LANDSCAPE);
    let row = |harness: &Harness<'static, Shell>| {
        let row = harness.get_by_role_and_label(Role::Button, "28 Quarry Lane");
        row.rect().height()
    };
    let at_100 = row(&harness);
    for (now, next) in [(100, 115), (115, 130), (130, 160)] {
        press(&mut harness, &format!("{now} % text size"));
        assert_eq!(theme::text_size(&harness.ctx), next);
    }
    assert!(row(&harness) > at_100 * 1.5);
    press(&mut harness, "28 Quarry Lane");
    press(&mut harness, "sun");
    assert_eq!(theme::text_size(&harness.ctx), 160, "the theme leaves it");
    press(&mut harness, "Sites");
    press(&mut harness, "160 % text size");
    press(&mut harness, "85 % text size");
    assert_eq!(theme::text_size(&harness.ctx), 100);
    assert!((row(&harness) - at_100).abs() < 0.1);
}

#[test]
fn nothing_is_cut_at_130_percent() {
    for size in [LANDSCAPE, PORTRAIT] {
        let (mut harness, shelf, _folder) = samples(size);
        let context = harness.ctx.clone();
        theme::set_text_size(&context, 130);
        let _settled = harness.run_ok();
        assert_eq!(cut(&harness), Vec::<String>::new(), "the list");
        for entry in shelf.list().unwrap() {
            let folder = entry.folder;
            harness.state_mut().open(&folder, &context).unwrap();
            let firsts = [
                (Stop::Look, Place::Address),
                (Stop::Line, Place::OldBelowSill),
                (Stop::Bed, Place::SettingBed),
            ];
            for (stop, first) in firsts {
                harness.state_mut().set(first);
                let _settled = harness.run_ok();
                // From value to value, so that every row comes on screen.
                for _ in 0..80 {
                    let at = harness.state().setting();
                    let cut = cut_but_findings_on_the_pad(&harness, at);
                    assert_eq!(cut, Vec::<String>::new(), "{folder:?} {stop:?} {at:?}");
                    if at.is_none() {
                        break;
                    }
                    let next = harness.query_by_role_and_label(Role::Button, "next");
                    let Some(next) = next else { break };
                    next.click();
                    let _settled = harness.run_ok();
                }
            }
        }
    }
}

#[test]
fn keys_stay_big_enough_for_a_finger_at_every_size() {
    for size in [LANDSCAPE, PORTRAIT] {
        let (mut harness, shelf, _folder) = samples(size);
        let context = harness.ctx.clone();
        let entry = shelf.list().unwrap().into_iter().next().expect("a sample");
        harness.state_mut().open(&entry.folder, &context).unwrap();
        for percent in theme::TEXT_SIZES {
            theme::set_text_size(&context, percent);
            for first in [
                Place::Address,
                Place::LayerThickness(0, 0),
                Place::SettingBed,
            ] {
                harness.state_mut().set(first);
                let _settled = harness.run_ok();
                for role in [Role::Button, Role::Tab] {
                    for node in harness.query_all_by_role(role) {
                        let name = node.accesskit_node().label().unwrap_or_default();
                        let rect = node.rect();
                        assert!(
                            rect.height() >= 63.9 && rect.width() >= 63.9,
                            "{name} at {percent} % is {} by {} points",
                            rect.width(),
                            rect.height()
                        );
                    }
                }
            }
        }
    }
}
