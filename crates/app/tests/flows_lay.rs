//! Stop Lay: bricks measured, a width taken, a bond chosen, an opening put in; kept on disk and undone.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::lay::{Class, OtherWay, Standard, compared};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::site::{Bond, CourseWay, EdgeStands, StartSide};
use underbrick_records::{KeepStatus, OpenSite, Shelf};

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

/// A copy of the curved sample, open at the stop.
fn opened() -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
        .unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(site, &context).unwrap();
    harness.state_mut().go_to(Stop::Lay);
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

    fn type_at(&mut self, place: Place, typed: &str) {
        self.harness.state_mut().set(place);
        let _settled = self.harness.run_ok();
        for key in typed.chars() {
            self.press(&key.to_string());
        }
    }

    fn says(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn text(&self, place: Place) -> Option<String> {
        self.visit().record().text(place).map(str::to_owned)
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
fn three_bricks_measured_with_a_tape_make_the_brick() {
    let mut app = opened();
    // The size as ordered is known from the sample site: what is measured is held against it.
    let written = app.visit().site().brick;
    for (length, thickness) in [("8", "2"), ("8", "2"), ("7", "2")] {
        app.press("measure a brick");
        let brick_idx = app.visit().site().lay.sample.len() - 1;
        assert_eq!(
            app.harness.state().setting(),
            Some(Place::SampleLength(brick_idx))
        );
        app.type_at(Place::SampleLength(brick_idx), length);
        app.type_at(Place::SampleWidth(brick_idx), "4");
        app.type_at(Place::SampleThickness(brick_idx), thickness);
    }
    assert_eq!(app.text(Place::SampleLength(2)).as_deref(), Some("7 in"));
    let brick = app.visit().results().brick.clone().unwrap();
    let sample = brick.sample.first.unwrap();
    // (8 + 8 + 7) ÷ 3 = 7 2/3 in.
    let mean_in = in_metres(sample.length.unwrap().mean) / 0.0254;
    assert!((mean_in - 23.0 / 3.0).abs() < 1e-9);
    assert!(app.says("Mean length of 3 7.667\""));
    // 1 in off 8 in is outside every class with a limit.
    let class = sample
        .classes
        .iter()
        .find(|class| class.standard == Standard::AstmPaving)
        .unwrap();
    assert_eq!(class.class, Class::Is("PA"));
    assert_eq!(app.visit().site().brick, written);
    let file = app.on_disk();
    assert_eq!(file.site().lay.sample.len(), 3);
    // The stop is still this one: the brick's own length is set here too.
    app.harness.state_mut().set(Place::BrickLength);
    let _settled = app.harness.run_ok();
    assert!(app.says("Brick as measured"));
    app.harness.state_mut().set(Place::SampleLength(2));
    let _settled = app.harness.run_ok();
    app.press("take brick 3 away");
    assert_eq!(app.visit().site().lay.sample.len(), 2);
    app.press("undo");
    assert_eq!(app.visit().site().lay.sample.len(), 3);
}

#[test]
fn a_slip_of_typing_is_questioned_and_kept() {
    let mut app = opened();
    for length in ["8", "80", "8"] {
        app.press("measure a brick");
        let brick_idx = app.visit().site().lay.sample.len() - 1;
        app.type_at(Place::SampleLength(brick_idx), length);
    }
    let said = app
        .visit()
        .findings_at(Place::SampleLength(1))
        .next()
        .unwrap();
    assert!(said.text.contains("about ten times"), "{}", said.text);
    assert_eq!(app.text(Place::SampleLength(1)).as_deref(), Some("80 in"));
    assert!(app.says("Mean length of 2 8\""));
}

#[test]
fn a_width_is_taken_with_one_tap_and_one_undo() {
    let mut app = opened();
    app.type_at(Place::TargetWidth, "48");
    let before = app.visit().record().clone();
    let offers = app.visit().results().brick.clone().unwrap().fit.unwrap();
    let offer = offers
        .offers
        .first()
        .copied()
        .or(offers.narrower)
        .or(offers.wider)
        .unwrap();
    let label = app
        .harness
        .query_all_by_role(Role::Button)
        .filter_map(|node| node.accesskit_node().label())
        .find(|label| label.contains(" courses, joint "))
        .unwrap();
    app.press(&label);
    let site = app.visit().site();
    assert_eq!(site.edge.stands, offer.stands);
    // Written to a thousandth of an inch.
    let width_off = in_metres(site.line.width.unwrap() - offer.clear);
    assert!(width_off.abs() < 2e-5, "{width_off}");
    assert!(in_metres(site.brick.joint.unwrap() - offer.joint).abs() < 2e-5);
    let run = &app.visit().results().line.as_ref().unwrap().run;
    assert!(in_metres(run.clear_width_at(offer.clear * 0.0) - offer.clear).abs() < 2e-5);
    app.press("undo");
    assert_eq!(app.visit().record(), &before);
}

#[test]
fn choices_reach_the_disk_and_come_back() {
    let mut app = opened();
    app.press("herringbone 90°");
    assert_eq!(app.visit().site().lay.bond, Bond::Herringbone90);
    // 8 x 4 in with 1/8 in joints does not close: said where the bond is chosen.
    assert!(app.visit().findings_at(Place::Bond).next().is_some());
    app.press("right edge");
    app.press("add an opening");
    assert_eq!(
        app.harness.state().setting(),
        Some(Place::OpeningStation(0))
    );
    app.type_at(Place::OpeningStation(0), "400");
    app.type_at(Place::OpeningAlong(0), "9");
    app.type_at(Place::OpeningAcross(0), "9");
    let outside = app
        .visit()
        .findings_at(Place::OpeningStation(0))
        .next()
        .unwrap();
    assert!(
        outside.text.contains("outside the walk"),
        "{}",
        outside.text
    );
    let file = app.on_disk();
    let lay = &file.site().lay;
    assert_eq!(lay.openings.len(), 1);
    assert_eq!(
        underbrick_calc::site::Bond::from(lay.bond),
        Bond::Herringbone90
    );
    app.press("take opening 1 away");
    assert!(app.visit().site().lay.openings.is_empty());
    for _ in 0..30 {
        if !app.harness.state().visit().unwrap().can_undo() {
            break;
        }
        app.press("undo");
    }
    let site = app.visit().site();
    assert_eq!(
        (site.lay.bond, site.lay.start_side),
        (Bond::Running, StartSide::Left)
    );
    assert!(app.visit().record().lay.is_empty());
}

#[test]
fn the_edge_may_be_of_the_second_size() {
    let mut app = opened();
    app.press("two sizes");
    assert_eq!(app.harness.state().setting(), Some(Place::SecondLength));
    app.type_at(Place::SecondLength, "9");
    app.type_at(Place::SecondWidth, "5");
    app.type_at(Place::SecondThickness, "3");
    app.press("the second size");
    let edge = app.visit().results().bed.as_ref().unwrap().edge.brick;
    let stands = app.visit().site().edge.stands;
    // Sailor 3 in, soldier and stretcher 5 in, header and rowlock 9 in across.
    let across_in = match stands {
        EdgeStands::Sailor => 3.0,
        EdgeStands::Soldier | EdgeStands::Stretcher => 5.0,
        EdgeStands::Header | EdgeStands::Rowlock => 9.0,
    };
    assert!((in_metres(edge.across) / 0.0254 - across_in).abs() < 1e-9);
    app.press("one size");
    assert!(app.visit().site().lay.second_brick.is_none());
    assert!(!app.visit().site().lay.edge_of_second);
}

#[test]
fn another_bond_is_seen_beside_this_one_taken_and_taken_back() {
    let mut app = opened();
    let before = app.visit().results().lay.clone().unwrap();
    app.press("show it course by course");
    assert!(app.says("Course 8"));
    app.press("lay the other ways, too");
    assert!(app.says("Basket weave, two on two"));
    // The whole name of the card, as it was laid out.
    let said = compared(
        app.visit().site(),
        OtherWay::Bond(Bond::Herringbone45, CourseWay::Along),
    )
    .unwrap();
    let (narrowest, widest) = said.joints.unwrap();
    let shown = app.visit().site().shown_in;
    let card = format!(
        "Herringbone, 45 degrees, {} pieces, {} cut in {} sizes, joints {} to {}, no laps",
        said.n_pieces,
        said.n_cut,
        said.n_cut_sizes,
        shown.thickness(narrowest),
        shown.thickness(widest),
    );
    app.press(&card);
    assert_eq!(app.visit().site().lay.bond, Bond::Herringbone45);
    let after = app.visit().results().lay.clone().unwrap();
    assert_ne!(after.pieces.all().len(), before.pieces.all().len());
    app.press("undo");
    assert_eq!(app.visit().results().lay.as_ref(), Some(&before));
}
