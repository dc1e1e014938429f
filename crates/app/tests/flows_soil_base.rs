//! A soil that was tested makes the base thicker, and the stop Bed says why.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use underbrick_app::Shell;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::bed::WorkedOut;
use underbrick_calc::quantity::unit::inch;
use underbrick_records::Shelf;

fn press(harness: &mut Harness<'_, Shell>, label: &str) {
    for click in [false, true] {
        let button = harness.get_by_role_and_label(Role::Button, label);
        if click {
            button.click();
        } else {
            button.scroll_to_me();
        }
        let _settled = harness.run_ok();
    }
}

fn worked_out(harness: &Harness<'_, Shell>) -> WorkedOut {
    let visit = harness.state().visit().expect("a site is open");
    visit.results().bed.as_ref().unwrap().worked_out.clone()
}

fn stands_on_screen(harness: &Harness<'_, Shell>, words: &str) -> bool {
    harness
        .query_all_by_role(Role::Label)
        .any(|node| node.value().is_some_and(|value| value.contains(words)))
}

#[test]
fn limits_typed_in_look_thicken_the_base_and_undo_takes_it_back() {
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
    press(
        &mut harness,
        "open copies of the sample sites they are yours to change",
    );
    press(&mut harness, "28 Quarry Lane");
    let before = worked_out(&harness);
    // Liquid limit 64, plastic limit 29, 57 % fines: a fat clay, class D.
    press(&mut harness, "Soil and frost");
    press(&mut harness, "Liquid limit");
    let keys = ["6", "4", "next", "2", "9", "next", "5", "7"];
    for key in keys {
        press(&mut harness, key);
    }
    let after = worked_out(&harness);
    assert!(
        (after.thickness.get::<inch>() - 8.0).abs() < 1e-9,
        "{after:?}"
    );
    let by_symbol = after.factors.get(1).unwrap();
    assert_eq!(by_symbol.because, "CH by index tests, CBR 3 to 5");
    assert!(by_symbol.source.words().contains("table 5-28"));
    harness.get_by_role_and_label(Role::Tab, "Bed").click();
    let _settled = harness.run_ok();
    assert!(stands_on_screen(
        &harness,
        "Weak ground by its symbol, class D"
    ));
    while harness
        .state()
        .visit()
        .is_some_and(|visit| visit.results().soil.is_some())
    {
        press(&mut harness, "undo");
    }
    assert_eq!(worked_out(&harness), before);
}
