//! Why it failed, as a person reads it: first on the screen, short, each sentence leading to its reading, and gone when that is mended.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::Path;

use egui::{Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::metres;
use underbrick_drawing::item::Sheet;
use underbrick_drawing::{long_section, picked};
use underbrick_records::Shelf;

struct App {
    harness: Harness<'static, Shell>,
    folder: TempDir,
}

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);

const SAMPLES: [&str; 7] = [
    "short-straight-sunk-on-sand",
    "curved-to-a-drive",
    "clay-seep-falls-to-house",
    "metric",
    "half-measured",
    "clay-with-frost",
    "steep-with-steps",
];

/// A copy of a sample, open.
fn opened(sample: &str, size: Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains(sample))
        .unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(site, &context).unwrap();
    let _settled = harness.run_ok();
    App { harness, folder }
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    #[track_caller]
    fn press(&mut self, label: &str) {
        self.press_nth(label, 0);
    }

    /// Presses one of several keys of the same name.
    #[track_caller]
    fn press_nth(&mut self, label: &str, nth: usize) {
        let key = |app: &Self| {
            app.harness
                .query_all_by_role_and_label(Role::Button, label)
                .nth(nth)
                .unwrap_or_else(|| panic!("a key {label:?}"))
                .scroll_to_me();
        };
        key(self);
        self.run();
        self.harness
            .query_all_by_role_and_label(Role::Button, label)
            .nth(nth)
            .expect("it stays there")
            .click();
        self.run();
    }

    fn look(&mut self) {
        self.harness
            .get_by_role_and_label(Role::Tab, "Look")
            .click();
        self.run();
    }

    fn has_said(&self, words: &str) -> bool {
        self.harness.query_all_by_label(words).next().is_some()
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn fires(&self, rule: &str) -> bool {
        let causes = &self.visit().results().causes;
        causes.iter().any(|cause| cause.rule_id == rule)
    }

    fn titles(&self) -> Vec<String> {
        let strengths = [": sure", ": likely", ": possible"];
        self.harness
            .query_all_by_role(Role::Label)
            .filter_map(|node| {
                let node = node.accesskit_node();
                node.label().or_else(|| node.value())
            })
            .filter(|label| strengths.iter().any(|strength| label.ends_with(strength)))
            .collect()
    }

    /// What is said on screen of a file.
    fn said_of(&self, file: &Path) -> Vec<String> {
        let path = file.to_string_lossy();
        self.harness
            .query_all_by_role(Role::Label)
            .filter_map(|node| {
                let node = node.accesskit_node();
                node.label().or_else(|| node.value())
            })
            .filter(|said| said.contains(&*path))
            .collect()
    }

    /// Taps the long section where a thing is picked, as a person sees it there.
    fn tap_in_long_section(&mut self, thing: Place) {
        let rect = self
            .harness
            .get_all_by_role(Role::Image)
            .nth(1)
            .expect("the long section")
            .rect();
        let sheet = Sheet {
            width: f64::from(rect.width()),
            height: f64::from(rect.height()),
            text_scale: 1.0,
        };
        let visit = self.visit();
        let (site, results) = (visit.site(), visit.results());
        let drawing = long_section(site, visit.catalogue(), results, metres(0.0), sheet).drawing;
        let spots = (0_u16..200).flat_map(|down| (0_u16..200).map(move |across| (across, down)));
        let at = spots
            .map(|(across, down)| vec2(f32::from(across), f32::from(down)) / 200.0 * rect.size())
            .find(|at| picked(&drawing, f64::from(at.x), f64::from(at.y), 4.0) == Some(thing))
            .expect("it is in the drawing");
        self.harness.hover_at(rect.min + at);
        self.harness.drag_at(rect.min + at);
        self.harness.drop_at(rect.min + at);
        self.run();
    }

    fn n_keys(&self, label: &str) -> usize {
        self.harness
            .query_all_by_role_and_label(Role::Button, label)
            .count()
    }

    /// Opens all causes, and all readings of each.
    fn unfold(&mut self) {
        let n_causes = self.visit().results().causes.len();
        match n_causes {
            0..=3 => {}
            4 if self.n_keys("show the other one") == 0 => {}
            4 => self.press("show the other one"),
            _ => {
                let key = format!("show the other {}", n_causes - 3);
                if self.n_keys(&key) > 0 {
                    self.press(&key);
                }
            }
        }
        let longest = self.visit().results().causes.iter();
        let longest = longest.map(|cause| cause.evidence.len()).max();
        for n_more in 1..longest.unwrap_or(0).saturating_sub(3) {
            while self.n_keys(&format!("+ {n_more} more")) > 0 {
                self.press(&format!("+ {n_more} more"));
            }
        }
    }
}

#[test]
fn why_it_failed_is_read_first_and_in_short() {
    for (size, in_sight) in [(LANDSCAPE, 480.0), (vec2(800.0, 1280.0), 1024.0)] {
        let mut app = opened("clay-seep", size);
        assert_eq!(app.visit().results().causes.len(), 8);
        assert_eq!(app.titles().len(), 3, "{:?}", app.titles());
        let top =
            |app: &App, role, label| app.harness.get_by_role_and_label(role, label).rect().min.y;
        let why = top(&app, Role::Heading, "Why it failed");
        assert!(top(&app, Role::Button, "Walk") < why);
        assert!(why < top(&app, Role::Heading, "What is seen"));
        assert!(
            why < in_sight,
            "it stands on screen without a scroll: {why}"
        );
        // Eight readings: four, and the rest by a tap.
        let seep = "go to Pit 1, seep 7\" down";
        let clay = "go to Pit 3, Clay, firm on down, hard, moist";
        assert_eq!((app.n_keys(seep), app.n_keys(clay)), (1, 0));
        app.press("+ 4 more");
        assert_eq!(app.n_keys(clay), 1);
        app.press("fewer");
        assert_eq!(app.n_keys(clay), 0);
        app.press("show the other 5");
        assert_eq!(app.titles().len(), 8);
        app.press("show the first three only");
        assert_eq!(app.titles().len(), 3);
        // Both wordings stand there.
        let cause = app.visit().results().causes.first().unwrap().clone();
        assert!(app.has_said(&cause.trade));
        assert!(app.has_said(&format!("“{}”", cause.homeowner)));
    }
}

#[test]
fn a_folded_pit_opens_by_its_line_by_next_and_by_the_drawing() {
    let mut app = opened("curved", LANDSCAPE);
    let layer_keys = |app: &App| app.n_keys("add a layer below");
    assert_eq!(layer_keys(&app), 0, "every pit is folded at first");
    app.press("Pit 2");
    assert_eq!(layer_keys(&app), 1);
    app.press("Pit 2");
    assert_eq!(layer_keys(&app), 0);

    let last_sign = app.visit().site().signs.len() - 1;
    app.harness.state_mut().set(Place::SignOffset(last_sign));
    app.run();
    app.press("next");
    assert_eq!(app.harness.state().setting(), Some(Place::PitStation(0)));
    assert_eq!(layer_keys(&app), 1);

    app.tap_in_long_section(Place::Pit(2));
    assert_eq!(app.harness.state().setting(), Some(Place::PitStation(2)));
    assert_eq!(app.n_keys("take pit 3 away"), 1);
}

#[test]
fn every_reading_behind_a_cause_of_a_sample_is_one_tap_away() {
    for sample in SAMPLES {
        let mut app = opened(sample, LANDSCAPE);
        let causes = app.visit().results().causes.clone();
        assert!(!causes.is_empty(), "{sample} says why it failed");
        app.unfold();
        let all: Vec<_> = causes.iter().flat_map(|cause| &cause.evidence).collect();
        let mut done = Vec::new();
        for evidence in &all {
            if done.contains(&evidence.place) {
                continue;
            }
            done.push(evidence.place);
            let key = format!("go to {}", evidence.words);
            let n_keys = all
                .iter()
                .filter(|other| other.place == evidence.place)
                .count();
            for nth in 0..n_keys {
                assert_eq!(app.n_keys(&key), n_keys, "{sample}: {key}");
                app.press_nth(&key, nth);
                assert_eq!(
                    app.harness.state().setting(),
                    Some(evidence.place),
                    "{sample}: {key}"
                );
                app.look();
            }
        }
    }
}

/// Taps the reading behind a cause of a sample, writes another on the pad, and sees the cause go; undo brings it back.
#[track_caller]
fn mended(sample: &str, rule: &str, place: Place, keys: &[&str]) {
    let mut app = opened(sample, LANDSCAPE);
    app.unfold();
    let causes = &app.visit().results().causes;
    let cause = causes
        .iter()
        .find(|cause| cause.rule_id == rule)
        .expect(rule)
        .clone();
    let evidence = cause
        .evidence
        .iter()
        .find(|evidence| evidence.place == place)
        .expect("it is evidence");
    let before = app.visit().record().text(place).unwrap().to_owned();
    assert!(app.has_said(&cause.trade));
    app.press(&format!("go to {}", evidence.words));
    assert_eq!(app.harness.state().setting(), Some(place));
    for key in keys {
        app.press(key);
    }
    assert_ne!(app.visit().record().text(place).unwrap(), before);
    assert!(!app.fires(rule), "{sample}: {rule} goes with {place:?}");
    app.look();
    assert!(
        !app.has_said(&cause.trade),
        "{sample}: {rule} is off the screen"
    );
    app.press("undo");
    assert_eq!(app.visit().record().text(place).unwrap(), before);
    assert!(app.fires(rule), "{sample}: {rule} comes back");
    app.unfold();
    assert!(app.has_said(&cause.trade));
}

#[test]
fn a_cause_goes_with_its_reading_and_comes_back_with_undo() {
    let stone = "Crushed stone, dense graded";
    mended(
        "sunk-on-sand",
        "joints-too-wide",
        Place::SignWidth(1),
        &["1/8"],
    );
    mended(
        "curved",
        "curve-too-tight",
        Place::LegRadius(1),
        &["4", "0"],
    );
    mended(
        "curved",
        "roots-in-ground",
        Place::LayerMaterial(2, 2),
        &[stone],
    );
    mended("clay-seep", "falls-to-house", Place::OldBelowSill, &["1"]);
    mended("metric", "joints-too-wide", Place::SignWidth(2), &["3"]);
    mended(
        "half-measured",
        "sand-never-packs",
        Place::LayerMaterial(0, 2),
        &[stone],
    );
    mended(
        "clay-with-frost",
        "seep-no-way-out",
        Place::PitSeep(1),
        &["erase one", "erase one", "erase one"],
    );
    mended(
        "steep-with-steps",
        "loam-under-walk",
        Place::LayerMaterial(1, 2),
        &[stone],
    );
}

const OURS: &str = r#"(
    silenced: ["too-flat"],
    rules: [
        (
            id: "sand-never-packs",
            seen: Sign(Sunk),
            cause: BaseNeverPacks,
            strength: Sure,
            mark: "ours",
            trade: "Trade words of our own.",
            homeowner: "Words of our own.",
            remedy: "Our remedy.",
            source: "our own thirty walks",
        ),
    ],
)
"#;

#[test]
fn own_rules_are_read_with_the_list_and_used_in_the_next_site() {
    let mut app = opened("sunk-on-sand", LANDSCAPE);
    let file = app.folder.path().join("causes.ron");
    assert!(app.fires("too-flat"));
    std::fs::write(&file, OURS).unwrap();
    app.press("add a pit");
    assert!(
        app.fires("too-flat"),
        "nothing is read on the path of a tap"
    );
    app.press("Sites");
    assert_eq!(
        app.said_of(&file).len(),
        1,
        "the list says whose rules they are"
    );
    app.press("12 Alder Court");
    assert!(!app.fires("too-flat"));
    assert!(app.has_said("Trade words of our own."));
    assert!(app.has_said("“Words of our own.”"));

    app.press("Sites");
    std::fs::write(&file, OURS.replace("Sunk", "Sunken")).unwrap();
    app.press("12 Alder Court");
    assert!(
        app.has_said("Trade words of our own."),
        "as read with the list"
    );
    app.press("Sites");
    let said = app.said_of(&file);
    assert!(
        said.iter()
            .any(|said| said.contains("line 6, column 24") && said.contains("Sunken")),
        "{said:?}"
    );
    app.press("12 Alder Court");
    assert!(app.fires("too-flat"), "the built-in ones are used");
    assert!(!app.has_said("Trade words of our own."));

    app.press("Sites");
    std::fs::remove_file(&file).unwrap();
    app.press("12 Alder Court");
    app.press("Sites");
    assert_eq!(app.said_of(&file), Vec::<String>::new());
}

#[test]
fn a_table_named_at_the_start_must_be_there() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("ours.ron");
    let shelf = Shelf::at(folder.path().join("sites"));
    let catalogue = underbrick_records::catalogue().unwrap();
    let shell = Shell::with_tables(
        shelf.clone(),
        catalogue,
        shelf.own_tables().or_named(Some(file.clone()), None),
    );
    let harness = Harness::builder()
        .with_size(LANDSCAPE)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let app = App { harness, folder };
    let said = app.said_of(&file);
    assert!(
        said.iter()
            .any(|said| said.contains("no such folder or file")),
        "{said:?}"
    );
}
