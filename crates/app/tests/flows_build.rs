//! Stop Build by finger: stages closed on readings, a reading that is off and what to do, a reason with initials, rod and set-up, the
//! stake table one station a screen, the day log; kept on disk with who and when, and undone.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::build::{Asks, Build, HoldStage, Required, StageState, Surface, Verdict};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, inches, metres};
use underbrick_records::v1::ReadBy;
use underbrick_records::{KeepStatus, OpenSite, Shelf, SiteFile};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

fn noon() -> String {
    "2026-05-04T12:00:00Z".to_owned()
}

/// The curved sample at stop Build, on a device whose clock stands at noon.
fn curved(size: Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
        .unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(site, &context).unwrap();
    harness.state_mut().tell_time_by(noon);
    harness.state_mut().go_to(Stop::Build);
    let _settled = harness.run_ok();
    App {
        harness,
        _folder: folder,
    }
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    /// The name of the first button that begins so.
    #[track_caller]
    fn named(&self, start: &str) -> String {
        self.harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label())
            .find(|name| name.starts_with(start))
            .unwrap_or_else(|| panic!("no button begins with {start}"))
    }

    fn shows(&self, start: &str) -> bool {
        self.harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label())
            .any(|name| name.starts_with(start))
    }

    /// Scrolls to the button whose name begins so and taps it.
    #[track_caller]
    fn press(&mut self, start: &str) {
        let name = self.named(start);
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .scroll_to_me();
        self.run();
        let name = self.named(start);
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .click();
        self.run();
    }

    /// Types on the pad in whole sixteenths of an inch, by its keys.
    #[track_caller]
    fn type_inches(&mut self, length: Length) {
        let sixteenths = (in_metres(length) / 0.0254 * 16.0).round();
        let written = if sixteenths == 0.0 {
            "0".to_owned()
        } else {
            format!("{sixteenths}/16")
        };
        self.type_words(&written);
    }

    /// Types as the keyboard of a desk does.
    fn type_words(&mut self, words: &str) {
        // The pad takes the first letter for a new number.
        for letter in words.chars() {
            self.harness.event(egui::Event::Text(letter.to_string()));
        }
        self.run();
    }

    /// Types over what stands on the pad.
    fn type_again(&mut self, length: Length) {
        let place = self.setting().expect("the pad sets something");
        self.harness.state_mut().set(place);
        self.run();
        self.type_inches(length);
    }

    fn next(&mut self) {
        self.harness
            .get_by_role_and_label(Role::Button, "next")
            .click();
        self.run();
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

    fn setting(&self) -> Option<Place> {
        self.harness.state().setting()
    }

    fn build(&self) -> &Build {
        self.visit().results().build.as_ref().unwrap()
    }

    fn state(&self, stage: HoldStage) -> StageState {
        let mut stages = self.build().stages.iter();
        stages.find(|found| found.stage == stage).unwrap().state
    }

    fn required(&self, stage: HoldStage) -> Vec<Required> {
        let mut stages = self.build().stages.iter();
        let found = stages.find(|found| found.stage == stage).unwrap();
        found.required.clone()
    }

    /// What the tape must read at the reading that the pad sets: the string lies on the grade line.
    fn tape(&self) -> Length {
        let Some(Place::BuildValue(idx)) = self.setting() else {
            panic!("the pad sets {:?}", self.setting());
        };
        let mut readings = self.build().readings.iter();
        let found = readings.find(|found| found.reading_idx == idx).unwrap();
        let grade = &self.visit().results().line.as_ref().unwrap().grade;
        grade.level(found.station, metres(0.0)) - found.design.unwrap()
    }

    /// What the check that the pad sets should read, and what is surely off.
    fn right_and_off(&self) -> (Length, Length) {
        let build = self.build();
        match self.setting().expect("the pad sets a check") {
            Place::BuildValue(_) => (self.tape(), self.tape() - inches(2.0)),
            Place::SpotSize(idx) => {
                let mut spots = build.spots.iter();
                let found = spots.find(|found| found.spot_idx == idx).unwrap();
                (found.most, found.most + inches(1.0))
            }
            Place::LiftLoose(number) => {
                let mut lifts = build.lifts.iter();
                let lift = lifts.find(|lift| lift.number == number).unwrap();
                let sixteenths = (in_metres(lift.loose_limit) / 0.0254 * 16.0).floor();
                (inches(sixteenths / 16.0), lift.loose_limit + inches(1.0))
            }
            other => panic!("{other:?} is no length"),
        }
    }

    /// Reads whatever the pad sets right, and goes on until nothing of the stage is left.
    fn read_on(&mut self) {
        while let Some(place) = self.setting() {
            if let Place::LiftPasses(_) = place {
                self.type_words("9");
            } else {
                let (right, _) = self.right_and_off();
                self.type_inches(right);
            }
            self.next();
        }
    }

    fn first_open(&self) -> Option<HoldStage> {
        let mut stages = self.build().stages.iter();
        let is_open = |state| !matches!(state, StageState::Closed | StageState::ClosedWithReason);
        stages
            .find(|found| is_open(found.state))
            .map(|found| found.stage)
    }

    /// Reads every level of a stage so far off its design, from the first check on with the key that goes to the next.
    #[track_caller]
    fn read_levels(&mut self, first: &str, off: Length) {
        self.press(first);
        while let Some(Place::BuildValue(_)) = self.setting() {
            let tape = self.tape() - off;
            self.type_inches(tape);
            self.next();
        }
    }

    fn on_disk(&self) -> SiteFile {
        for _ in 0..500 {
            if self.visit().keep_status() == KeepStatus::OnDisk {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        let open = OpenSite::open(self.visit().folder()).unwrap();
        open.site().clone()
    }

    fn undo(&mut self) {
        self.press("undo");
    }
}

#[test]
fn the_first_stages_close_on_readings() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        assert_eq!(app.state(HoldStage::LiftBrick), StageState::Ready);
        app.press("close: Lift the brick");
        assert_eq!(app.state(HoldStage::LiftBrick), StageState::Closed);
        assert!(app.says("Dig, trim, compact the bottom, open: 0 of"));
        assert!(app.says("No digging before buried services are located"));
        app.read_levels("bottom of dig at the door", metres(0.0));
        assert_eq!(app.state(HoldStage::Dig), StageState::Ready);
        assert_eq!(app.setting(), None);
        app.press("close: Dig");
        assert_eq!(app.state(HoldStage::Dig), StageState::Closed);
        let disk = app.on_disk();
        let n_levels = app.required(HoldStage::Dig).len();
        assert_eq!(disk.build.readings.len(), n_levels);
        assert!(n_levels >= 4);
        for reading in &disk.build.readings {
            assert_eq!(reading.surface, "dig-bottom");
            assert_eq!(reading.stamp.at, noon());
            assert_eq!(reading.stamp.device, "this device");
            assert!(!reading.reading.is_empty());
        }
        app.undo();
        assert_eq!(app.state(HoldStage::Dig), StageState::Ready);
    }
}

#[test]
fn a_lift_closes_on_thickness_passes_and_levels() {
    let mut app = curved(LANDSCAPE);
    app.press("close: Lift the brick");
    app.read_levels("bottom of dig at the door", metres(0.0));
    app.press("close: Dig");
    let next = app.build().stages.iter().find(|found| {
        !matches!(
            found.state,
            StageState::Closed | StageState::ClosedWithReason
        )
    });
    if next.unwrap().stage == HoldStage::Fabric {
        app.press("close: Fabric");
    }
    let lift = app.build().lifts.first().unwrap().clone();
    app.press("lift 1 as tipped");
    assert_eq!(app.setting(), Some(Place::LiftLoose(1)));
    app.type_inches(lift.loose_limit + inches(1.0));
    assert!(app.says("too thick"));
    assert_eq!(app.state(HoldStage::Lift(1)), StageState::Failed);
    app.undo();
    app.type_inches(lift.loose_limit);
    app.next();
    assert_eq!(app.setting(), Some(Place::LiftPasses(1)));
    let n_passes = lift.n_passes_asked.unwrap_or(4);
    app.type_words(&n_passes.to_string());
    app.next();
    while let Some(Place::BuildValue(_)) = app.setting() {
        let tape = app.tape();
        app.type_inches(tape);
        app.next();
    }
    assert_eq!(app.state(HoldStage::Lift(1)), StageState::Ready);
    app.press("close: Lift 1");
    assert_eq!(app.state(HoldStage::Lift(1)), StageState::Closed);
}

#[test]
fn a_reading_that_is_off_is_said_high_with_what_to_do_and_fails_the_stage() {
    let mut app = curved(LANDSCAPE);
    app.press("close: Lift the brick");
    app.press("bottom of dig at the door");
    assert_eq!(app.setting(), Some(Place::BuildValue(0)));
    let tape = app.tape();
    app.type_inches(tape - inches(1.0)); // 1 in high, 1/2 in may be
    assert!(app.says("1\" high") || app.says("15/16\" high") || app.says("1 1/16\" high"));
    assert!(app.says("Dig off"));
    assert_eq!(app.state(HoldStage::Dig), StageState::Failed);
    assert!(!app.shows("close: Dig"));
    // Mended and read again: the later reading counts, both are kept.
    app.press("mended: read again");
    assert_eq!(app.setting(), Some(Place::BuildValue(1)));
    app.type_inches(tape);
    assert!(app.says("in tolerance"));
    assert_ne!(app.state(HoldStage::Dig), StageState::Failed);
    assert_eq!(app.on_disk().build.readings.len(), 2);
    assert!(app.build().readings.first().unwrap().is_read_again);
}

#[test]
fn a_foot_off_is_asked_about_once_and_kept_as_typed() {
    let mut app = curved(LANDSCAPE);
    app.press("close: Lift the brick");
    app.press("bottom of dig at the door");
    let tape = app.tape();
    app.type_inches(tape + inches(12.0));
    assert!(app.says("a slip of a foot"));
    let typed = app.on_disk().build.readings.first().unwrap().clone();
    assert!(!typed.confirmed && !typed.reading.is_empty());
    // The pad stays on it.
    app.next();
    assert_eq!(app.setting(), Some(Place::BuildValue(0)));
    app.press("it is right");
    assert!(!app.says("a slip of a foot"));
    let kept = app.on_disk().build.readings.first().unwrap().clone();
    assert!(kept.confirmed);
    assert_eq!(kept.reading, typed.reading);
    assert_eq!(app.state(HoldStage::Dig), StageState::Failed);
    // Another value is asked about anew.
    app.type_inches(tape + inches(13.0));
    assert!(!app.on_disk().build.readings.first().unwrap().confirmed);
}

#[test]
fn a_stage_closes_on_a_reason_with_initials_and_opens_again() {
    let mut app = curved(LANDSCAPE);
    app.press("close: Lift the brick");
    assert!(!app.shows("close: Dig") && !app.shows("close with this reason"));
    app.press("Reason");
    assert_eq!(app.setting(), Some(Place::StageReason(HoldStage::Dig)));
    app.press("type");
    app.type_words("rock at 9 ft");
    app.next();
    assert_eq!(app.setting(), Some(Place::StageInitials(HoldStage::Dig)));
    assert!(!app.shows("close with this reason"));
    app.press("type");
    app.type_words("JM");
    app.next();
    app.press("close with this reason");
    assert_eq!(app.state(HoldStage::Dig), StageState::ClosedWithReason);
    assert!(app.says("JM, 2026-05-04 12:00 UTC: rock at 9 ft"));
    let note = app.on_disk().build.stages.last().unwrap().clone();
    assert!(note.closed);
    assert_eq!(
        (note.reason.as_str(), note.stamp.by.as_str(), note.stamp.at),
        ("rock at 9 ft", "JM", noon())
    );
    app.press("Dig, trim");
    app.press("open again: Dig");
    assert_eq!(app.state(HoldStage::Dig), StageState::Open);
    app.undo();
    assert_eq!(app.state(HoldStage::Dig), StageState::ClosedWithReason);
}

#[test]
fn a_rod_reading_stands_on_its_set_up() {
    let mut app = curved(LANDSCAPE);
    app.press("close: Lift the brick");
    app.press("set up the instrument");
    assert_eq!(app.setting(), Some(Place::SetUpRod(0)));
    app.type_words("3");
    app.next();
    assert_eq!(
        app.on_disk().build.set_ups.first().unwrap().rod_at_sill,
        "3 ft"
    );
    app.press("Dig, trim");
    if app.shows("Dig, trim") && !app.shows("bottom of dig at the door") {
        app.press("Dig, trim");
    }
    app.press("bottom of dig at the door");
    let reading = app.on_disk().build.readings.first().unwrap().clone();
    assert_eq!(reading.by, ReadBy::Rod(1));
    // Level = rod on the sill less rod on the surface: 36 in − rod.
    let design = app.build().readings.first().unwrap().design.unwrap();
    app.type_inches(inches(36.0) - design);
    let found = app.build().readings.first().unwrap().clone();
    assert_eq!(found.verdict, Verdict::Right);
    assert!(app.says("on the rod"));
    app.press("by string");
    assert_eq!(
        app.on_disk().build.readings.first().unwrap().by,
        ReadBy::String
    );
    app.press("take it away");
    assert!(app.on_disk().build.readings.is_empty());
}

#[test]
fn stakes_are_read_one_station_a_screen() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        let n_stakes = app.build().stakes.len();
        assert!(n_stakes > 3);
        app.press("stakes, one station a screen");
        assert!(app.says("station 0"));
        for _ in 1..n_stakes {
            app.press("next stake");
        }
        assert!(app.says("far end"));
        app.press("next stake");
        assert!(app.says("far end"));
        app.press("back");
        app.press("all stakes");
        assert!(!app.shows("next stake"));
        app.press("show the stake table");
        assert!(app.shows("stake at"));
        app.press("Stake spacing");
        app.type_words("5");
        app.next();
        assert!(app.build().stakes.len() > n_stakes);
    }
}

/// Row P10: 1/8 to 3/8 in above a drain inlet; joints and bond lines are checked where someone wants to.
#[test]
fn what_no_stage_asks_for_is_checked_and_fails_it_when_it_is_off() {
    let mut app = curved(PORTRAIT);
    app.press("Field");
    app.press("check: Brick above a drain inlet");
    assert_eq!(app.setting(), Some(Place::SpotSize(0)));
    app.type_inches(inches(0.0625));
    assert!(app.says("too low for water to run in"));
    assert_eq!(app.state(HoldStage::Field), StageState::Failed);
    app.type_again(inches(0.25));
    assert_ne!(app.state(HoldStage::Field), StageState::Failed);
    app.press("check: Joint width");
    app.type_inches(inches(0.5));
    assert!(app.says("too wide"));
    assert_eq!(app.state(HoldStage::Field), StageState::Failed);
    app.undo();
    app.undo();
    assert_ne!(app.state(HoldStage::Field), StageState::Failed);
    let disk = app.on_disk();
    assert_eq!(disk.build.spots.first().unwrap().kind, "above-inlet");
}

#[test]
fn a_day_of_the_log_is_kept_with_what_came() {
    let mut app = curved(LANDSCAPE);
    app.press("show the day log");
    app.press("add today");
    assert_eq!(app.setting(), Some(Place::DayCrew(0)));
    app.press("type");
    app.type_words("JM, TK");
    app.next();
    assert_eq!(app.setting(), Some(Place::DayWeather(0)));
    app.press("something came, day 1");
    assert_eq!(app.setting(), Some(Place::DeliveryItem(0, 0)));
    app.harness.state_mut().set(Place::DeliveryCount(0, 0));
    app.run();
    app.type_words("4");
    let day = app.on_disk().build.days.first().unwrap().clone();
    assert_eq!(
        (day.date.as_str(), day.crew.as_str()),
        ("2026-05-04", "JM, TK")
    );
    assert_eq!(day.stamp.at, noon());
    assert_eq!(day.deliveries.first().unwrap().count, "4");
}

#[test]
fn what_was_read_is_marked_over_the_design_and_a_tap_opens_it() {
    let mut app = curved(LANDSCAPE);
    app.press("close: Lift the brick");
    app.press("bottom of dig at the door");
    let tape = app.tape();
    app.type_inches(tape - inches(1.0));
    app.press("Dig, trim");
    assert_eq!(app.setting(), None);
    // Both sections say it, and draw it.
    let words = "As built: bottom of dig at 0";
    let n_said = app.harness.query_all_by_label_contains(words).count();
    assert_eq!(n_said, 2);
    let visit = app.visit();
    let sheet = underbrick_drawing::item::Sheet {
        width: 768.0,
        height: 340.0,
        text_scale: 1.0,
    };
    let section = underbrick_drawing::long_section(
        visit.site(),
        visit.catalogue(),
        visit.results(),
        metres(3.0),
        sheet,
    );
    let is_mark = |item: &&underbrick_drawing::Item| {
        matches!(
            item,
            underbrick_drawing::Item::Area {
                place: Some(Place::BuildValue(0)),
                ..
            }
        )
    };
    assert_eq!(section.drawing.items.iter().filter(is_mark).count(), 1);
}

#[test]
fn every_key_is_big_enough_for_a_thumb() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        app.press("close: Lift the brick");
        app.press("bottom of dig at the door");
        for node in app.harness.query_all_by_role(Role::Button) {
            let rect = node.rect();
            let name = node.accesskit_node().label();
            assert!(rect.height() > 63.9, "{name:?} {rect:?}");
        }
    }
}

#[test]
fn what_was_ordered_will_do_before_anything_is_placed() {
    let app = curved(LANDSCAPE);
    assert_eq!(app.build().placed.as_ref().unwrap().will_do, Some(true));
    assert!(app.says("The rest of the order will do."));
}

/// From the brick that is lifted to hand-over on an upright tablet: one check off is caught at each stage, all right it closes.
#[test]
fn the_curved_walk_is_built_to_hand_over() {
    let mut app = curved(PORTRAIT);
    let n_stages = app.build().stages.len();
    for _ in 0..n_stages {
        let stage = app.first_open().expect("a stage is open");
        if let Some(first) = app.required(stage).first() {
            app.press(&first.what);
            let (right, off) = app.right_and_off();
            app.type_inches(off);
            assert_eq!(app.state(stage), StageState::Failed, "{stage:?}");
            let said = app.required(stage).first().unwrap().clone();
            assert_ne!(said.verdict, Verdict::Right);
            let advice = match said.place {
                Place::BuildValue(idx) => {
                    let mut readings = app.build().readings.iter();
                    let found = readings.find(|found| found.reading_idx == idx);
                    found.unwrap().advice.clone()
                }
                Place::SpotSize(idx) => {
                    let mut spots = app.build().spots.iter();
                    let found = spots.find(|found| found.spot_idx == idx);
                    found.unwrap().advice.clone()
                }
                Place::LiftLoose(number) => {
                    let mut lifts = app.build().lifts.iter();
                    let lift = lifts.find(|lift| lift.number == number);
                    lift.unwrap().advice.clone()
                }
                other => panic!("{other:?} is not read"),
            };
            assert!(!advice.is_empty(), "{stage:?}");
            app.type_again(right);
            app.next();
            app.read_on();
        }
        assert_eq!(app.state(stage), StageState::Ready, "{stage:?}");
        app.press(&format!("close: {}", stage.name()));
    }
    assert_eq!(app.first_open(), None);
    let disk = app.on_disk();
    assert_eq!(disk.build.stages.len(), n_stages);
    assert!(disk.build.stages.iter().all(|note| note.closed));
}

/// Every level that the dig asks for is of its bottom, at the door first and at the far end.
#[test]
fn the_dig_asks_for_its_bottom_from_the_door_to_the_far_end() {
    let app = curved(LANDSCAPE);
    let stations: Vec<f64> = app
        .required(HoldStage::Dig)
        .iter()
        .filter_map(|check| match check.asks {
            Asks::Level {
                surface: Surface::DigBottom,
                station,
                ..
            } => Some(in_metres(station)),
            _ => None,
        })
        .collect();
    let end_m = in_metres(app.visit().results().line.as_ref().unwrap().run.length());
    assert_eq!(stations.first(), Some(&0.0));
    assert!((stations.last().unwrap() - end_m).abs() < 1e-9);
}
