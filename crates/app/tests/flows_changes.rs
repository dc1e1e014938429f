//! The list of changes at stop Build: who changed which reading when, on which device, from what to what; across a restart, with steps
//! taken back, a damaged line, a clock set back, and a file changed by hand.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use egui::{Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_records::{History, OpenSite, Shelf, write_site};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);
const LONG: Duration = Duration::from_secs(20);

struct App {
    harness: Harness<'static, Shell>,
    site: PathBuf,
    shelf: TempDir,
}

/// Twenty to nine in the evening of the 4th, five hours behind UTC, where it is the 5th by then.
fn evening() -> String {
    "2026-05-04T20:40:00-05:00".to_owned()
}

fn an_hour_before() -> String {
    "2026-05-04T19:40:00-05:00".to_owned()
}

fn harness(shelf: &TempDir, site: &Path, size: Vec2) -> Harness<'static, Shell> {
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
    harness.state_mut().put_on_settings(&context);
    harness.state_mut().open(site, &context).unwrap();
    harness.state_mut().tell_time_by(evening);
    harness.state_mut().go_to(Stop::Build);
    let _settled = harness.run_ok();
    harness
}

/// The curved sample at stop Build, in the evening.
fn curved(size: Vec2) -> App {
    let shelf = tempfile::tempdir().unwrap();
    let copies = Shelf::at(shelf.path()).copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
        .unwrap()
        .clone();
    App {
        harness: harness(&shelf, &site, size),
        site,
        shelf,
    }
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    /// Closes the site, and opens it in a new window.
    fn again(self, meanwhile: impl FnOnce(&Path)) -> Self {
        let Self {
            harness: old,
            site,
            shelf,
        } = self;
        drop(old);
        meanwhile(&site);
        Self {
            harness: harness(&shelf, &site, LANDSCAPE),
            site,
            shelf,
        }
    }

    #[track_caller]
    fn press(&mut self, start: &str) {
        let find = |harness: &Harness<'static, Shell>| {
            harness
                .query_all_by_role(Role::Button)
                .filter_map(|node| node.accesskit_node().label())
                .find(|name| name.starts_with(start))
                .unwrap_or_else(|| panic!("no button begins with {start}"))
        };
        let name = find(&self.harness);
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .scroll_to_me();
        self.run();
        let name = find(&self.harness);
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .click();
        self.run();
    }

    fn type_at(&mut self, place: Place, words: &str) {
        self.harness.state_mut().set(place);
        self.run();
        if matches!(place, Place::Initials | Place::DayCrew(_)) {
            self.press("type");
        }
        for letter in words.chars() {
            self.harness.event(egui::Event::Text(letter.to_string()));
            self.run();
        }
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    /// Changes as they are listed on screen, newest first.
    fn listed(&mut self) -> Vec<String> {
        assert!(self.visit().flush(LONG));
        self.run();
        let rows = self.harness.query_all_by_label_contains(" → ");
        let rows = rows.filter(|node| node.accesskit_node().role() == Role::Label);
        let rows: Vec<String> = rows
            .filter_map(|node| node.accesskit_node().value())
            .collect();
        rows
    }

    fn says(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }
}

/// The width as the sample has it.
fn first_width(mut history: History) -> String {
    while history.undo().is_some() {}
    history.now().text(Place::Width).unwrap().to_owned()
}

#[test]
fn readings_stages_days_and_the_design_are_listed_newest_first() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        assert!(app.visit().changes().changes.is_empty());
        app.type_at(Place::Initials, "JM");
        app.press("close: Lift the brick");
        app.press("bottom of dig at the door");
        app.type_at(Place::BuildValue(0), "14 1/2");
        app.type_at(Place::Width, "4 ft");
        app.harness.state_mut().go_to(Stop::Build);
        app.run();
        app.press("show the day log");
        app.press("add today");
        app.type_at(Place::DayCrew(0), "JM, TK");
        app.press("show who changed what");
        let at = "JM, this device, 2026-05-04 20:40";
        let width = OpenSite::open(&app.site).unwrap().history().clone();
        let width = first_width(width);
        assert_eq!(
            app.listed(),
            [
                format!("Day 2026-05-04: crew, nothing → JM, TK, {at}"),
                format!("Day 2026-05-04, nothing → added, {at}"),
                format!("Width between edge bricks, {width} → 4 ft, {at}"),
                format!("Bottom of dig at 0\", nothing → 14 1/2 in, {at}"),
                format!("Lift the brick, open → closed, {at}"),
                format!("Initials, nothing → JM, {at}"),
            ]
        );
        // A crew's day is the day where it works.
        let days = &app.visit().record().build.days;
        assert_eq!(days.first().unwrap().date, "2026-05-04");
        assert!(!app.says("UTC"));
        // Taken back, and said.
        app.press("undo");
        app.press("undo");
        assert_eq!(
            app.listed().first().unwrap(),
            &format!("Day 2026-05-04, there → taken away, {at}, taken back")
        );
        let n_kept = app.listed().len();
        assert_eq!(n_kept, 8);
        // All of it is there when the site is opened again.
        let mut app = app.again(|_| {});
        app.press("show who changed what");
        assert_eq!(app.listed().len(), n_kept);
    }
}

#[test]
fn a_device_of_a_crew_has_a_letter_that_its_readings_carry() {
    let mut app = curved(LANDSCAPE);
    app.press("show who changed what");
    app.press("give this device a letter");
    app.press("written on device A");
    app.type_at(Place::StringAboveGrade, "2");
    let first = app.listed().first().unwrap().clone();
    assert!(first.contains("device B"), "{first}");
    assert!(app.harness.state_mut().leave());
    // It is the device's, for every site and start.
    let mut app = app.again(|_| {});
    app.press("show who changed what");
    assert!(app.says("written on device B"));
}

#[test]
fn a_clock_that_was_set_back_is_said() {
    let mut app = curved(LANDSCAPE);
    app.type_at(Place::StringAboveGrade, "2");
    app.harness.state_mut().tell_time_by(an_hour_before);
    app.type_at(Place::Initials, "JM");
    app.press("show who changed what");
    let listed = app.listed();
    assert_eq!(listed.len(), 2);
    let newest = listed.first().unwrap();
    assert!(newest.ends_with("the clock was set back."), "{newest}");
    assert!(!listed.last().unwrap().contains("clock"));
}

#[test]
fn a_damaged_line_is_told_and_the_others_are_listed() {
    let mut app = curved(LANDSCAPE);
    app.type_at(Place::StringAboveGrade, "2");
    app.type_at(Place::Initials, "JM");
    let app = app.again(|site| {
        let path = site.join("changes.txt");
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, text.replacen("(at:", "(at", 1)).unwrap();
    });
    let mut app = app;
    app.press("show who changed what");
    assert_eq!(app.listed().len(), 1);
    assert!(app.says("Line 2 of changes.txt cannot be read"));
    // What is changed now is added; nothing that stood there is touched.
    app.type_at(Place::StringAboveGrade, "3");
    assert_eq!(app.listed().len(), 2);
    let text = fs::read_to_string(app.site.join("changes.txt")).unwrap();
    assert_eq!(text.lines().count(), 4, "{text}");
    assert!(text.contains("(at\"") || text.contains("(at"), "{text}");
}

#[test]
fn what_another_program_changed_is_listed_as_found() {
    let mut app = curved(LANDSCAPE);
    app.type_at(Place::Initials, "JM");
    let mut app = app.again(|site| {
        let open = OpenSite::open(site).unwrap();
        let mut record = open.site().clone();
        assert!(record.set_text(Place::StringAboveGrade, "3 in"));
        fs::write(site.join("site.ron"), write_site(&record)).unwrap();
    });
    app.press("show who changed what");
    let newest = app.listed().first().unwrap().clone();
    assert!(
        newest.contains("nothing → 3 in, found so when the site was opened"),
        "{newest}"
    );
}

#[test]
fn a_long_list_shows_its_newest_and_more_with_each_tap() {
    let app = curved(LANDSCAPE);
    let mut app = app.again(|site| {
        let line = |nth: usize| {
            format!("(at: \"2026-05-04T08:00:00-05:00\", what: \"Width\", from: \"{nth} mm\", to: \"{} mm\")\n", nth + 1)
        };
        let lines: String = (0..75).map(line).collect();
        fs::write(site.join("changes.txt"), lines).unwrap();
    });
    app.press("show who changed what");
    let listed = app.listed();
    assert_eq!(listed.len(), 30);
    assert!(listed.first().unwrap().starts_with("Width, 74 mm → 75 mm"));
    app.press("show older: 45 more");
    app.press("show older: 15 more");
    assert_eq!(app.listed().len(), 75);
    assert!(!app.says("show older"));
}
