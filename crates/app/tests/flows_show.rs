//! Show: entered from the rod, left by a held key, layers step by step, signed by a drag, changed since, and undone. Nothing that a stray
//! finger does there reaches the record.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use egui::{Event, Modifiers, OutputCommand, PointerButton, Pos2, Rect, Role, Vec2, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::stops::show::ShowPage;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_calc::site::Agreement;
use underbrick_records::{OpenSite, Shelf, SiteFile, digest};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

/// Noon on 4 May 2026.
fn noon() -> String {
    "2026-05-04T12:00:00Z".to_owned()
}

struct App {
    harness: Harness<'static, Shell>,
    site: PathBuf,
    _folder: TempDir,
}

fn opened(sample: &str, size: Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains(sample))
        .unwrap()
        .clone();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().open(&site, &context).unwrap();
    harness.state_mut().tell_time_by(noon);
    let mut app = App {
        harness,
        site,
        _folder: folder,
    };
    app.run();
    app
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    #[track_caller]
    fn press(&mut self, label: &str) {
        self.harness
            .get_by_role_and_label(Role::Button, label)
            .click();
        self.run();
    }

    /// Taps the stop on the rod.
    fn enter(&mut self) {
        self.harness
            .get_by_role_and_label(Role::Tab, "Show")
            .click();
        self.run();
    }

    fn is_shown(&self) -> bool {
        self.harness
            .query_by_role_and_label(Role::Button, "hold to leave")
            .is_some()
    }

    fn has(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().unwrap()
    }

    fn record(&self) -> SiteFile {
        self.visit().record().clone()
    }

    fn agreements(&self) -> &[Agreement] {
        &self.visit().site().show.agreements
    }

    fn pointer(&mut self, at: Pos2, pressed: bool) {
        self.harness.event(Event::PointerMoved(at));
        self.harness.event(Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        self.harness.step();
    }

    /// A finger that comes down at a place and goes up again at once.
    fn tap(&mut self, at: Pos2) {
        self.pointer(at, true);
        self.pointer(at, false);
        self.run();
    }

    fn rect_of(&self, role: Role, label: &str) -> Rect {
        self.harness.get_by_role_and_label(role, label).rect()
    }

    /// Rests on the key for so many frames of a quarter of a second.
    fn hold(&mut self, n_frames: usize) {
        let at = self.rect_of(Role::Button, "hold to leave").center();
        self.pointer(at, true);
        self.harness.run_steps(n_frames);
        self.pointer(at, false);
        self.run();
    }

    fn sign_with_a_finger(&mut self, name: &str) {
        self.harness
            .get_by_role_and_label(Role::TextInput, "name of who signs")
            .focus();
        self.run();
        self.harness
            .get_by_role_and_label(Role::TextInput, "name of who signs")
            .type_text(name);
        self.run();
        let field = self.rect_of(Role::Image, "sign here with a finger");
        let at = |x: f32, y: f32| field.min + field.size() * vec2(x, y);
        self.pointer(at(0.2, 0.6), true);
        for (x, y) in [(0.3, 0.2), (0.4, 0.7), (0.6, 0.3)] {
            self.harness.event(Event::PointerMoved(at(x, y)));
            self.harness.step();
        }
        self.pointer(at(0.8, 0.5), false);
        self.run();
    }

    /// Runs until something is seen; what is made beside the window takes its time.
    #[track_caller]
    fn wait_for(&mut self, words: &str) {
        for _ in 0..600 {
            self.run();
            if self.has(words) {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(50));
        }
        panic!("never seen: {words}");
    }

    fn copied(&self) -> Option<String> {
        let commands = &self.harness.output().platform_output.commands;
        commands.iter().find_map(|command| match command {
            OutputCommand::CopyText(text) => Some(text.clone()),
            _ => None,
        })
    }
}

#[test]
fn it_is_entered_by_the_rod_and_left_only_by_holding() {
    let mut app = opened("curved", LANDSCAPE);
    app.harness.state_mut().go_to(Stop::Bed);
    app.run();
    app.enter();
    assert!(app.is_shown());
    assert!(app.harness.query_by_role(Role::Tab).is_none(), "no rod");
    // A tap, and a press that is too short.
    app.press("hold to leave");
    assert!(app.is_shown());
    app.hold(2);
    assert!(app.is_shown());
    app.hold(6);
    assert!(!app.is_shown());
    let setting_bed = app.harness.query_all_by_label_contains("Setting bed");
    assert!(setting_bed.count() > 0, "back at stop Bed");
    // And by the key of a keyboard.
    app.enter();
    app.harness.key_press(egui::Key::Escape);
    app.run();
    assert!(!app.is_shown());
}

#[test]
fn no_stray_tap_reaches_the_record() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = opened("curved", size);
        let before = app.record();
        for page in ShowPage::ALL {
            app.harness.state_mut().show_page(page);
            app.run();
            for row in 0_u8..8 {
                for column in 0_u8..8 {
                    let share = vec2(f32::from(column) + 0.5, f32::from(row) + 0.5) / 8.0;
                    app.tap(pos2(size.x * share.x, size.y * share.y));
                    assert!(app.is_shown(), "{page:?} at {share:?}");
                    if row == 7 {
                        app.harness.state_mut().show_page(page);
                    }
                }
            }
            assert!(app.record() == before, "{page:?} changed the record");
        }
    }
}

#[test]
fn a_tapped_layer_is_told_in_plain_words() {
    let mut app = opened("curved", LANDSCAPE);
    app.enter();
    assert!(app.has("Tap a layer"));
    // The middle of the brick row of the walk as it will be, from the drawing itself.
    let right: Vec<Rect> = app
        .harness
        .query_all_by_role(Role::Image)
        .map(|node| node.rect())
        .filter(|rect| rect.min.x > 600.0)
        .collect();
    let [right] = right.as_slice() else {
        panic!("{right:?}");
    };
    let mut told = Vec::new();
    for step in 0_u8..40 {
        app.tap(pos2(
            right.min.x + 0.3 * right.width(),
            right.min.y + right.height() * f32::from(step) / 40.0,
        ));
        if !app.has("Tap a layer") {
            told.push(step);
        }
    }
    assert!(told.len() > 3, "{told:?}");
}

#[test]
fn layers_come_in_one_by_one() {
    let mut app = opened("curved", LANDSCAPE);
    app.enter();
    app.press("How it is built");
    assert!(app.has("Step 1 of "));
    app.press("back");
    assert!(app.has("Step 1 of "));
    app.press("next");
    assert!(app.has("Step 2 of "));
    for _ in 0..20 {
        app.press("next");
    }
    assert!(!app.has("Step 2 of "));
    assert!(!app.has("Step 1 of "));
    let words = |app: &App| {
        let image = app.harness.get_by_role(Role::Image);
        image.accesskit_node().label().unwrap_or_default()
    };
    let whole = words(&app);
    app.press("back");
    assert_ne!(words(&app), whole);
}

#[test]
fn reasons_and_ways_are_told() {
    let mut app = opened("curved", PORTRAIT);
    app.enter();
    app.press("Why it failed");
    assert!(app.has("What lies under it"));
    app.press("What can be chosen");
    assert!(app.has("This is the one that is planned."));
    assert!(app.has("Time: "));
}

#[test]
fn what_is_agreed_is_signed_changed_and_agreed_again() {
    let mut app = opened("curved", LANDSCAPE);
    app.enter();
    app.press("What we agree");
    // Neither without a name nor without a signature.
    app.press("sign");
    assert!(app.has("The name of who signs is missing"));
    app.sign_with_a_finger("Ines Quillfeather");
    app.press("clear");
    app.press("sign");
    assert!(app.has("Nothing is drawn"));
    assert_eq!(app.agreements().len(), 0);
    app.sign_with_a_finger("");
    app.press("sign");
    assert_eq!(app.agreements().len(), 1);
    assert!(app.has("Agreed on May 4, 2026") || app.has("Agreed on 4 May 2026"));
    let agreement = &app.agreements()[0];
    assert_eq!(agreement.digest, digest(&agreement.clauses));
    let [signature] = agreement.signatures.as_slice() else {
        panic!("{agreement:?}");
    };
    assert_eq!(signature.name, "Ines Quillfeather");
    // From a fifth to four fifths of the field's width.
    let [stroke] = signature.strokes.as_slice() else {
        panic!("{signature:?}");
    };
    assert_eq!(stroke.first().map(|(x, _)| *x), Some(200));
    assert_eq!(stroke.last().map(|(x, _)| *x), Some(800));

    // A second one signs the same words.
    app.press("sign as well");
    app.sign_with_a_finger("Tomas Reedmace");
    app.press("sign");
    assert_eq!(app.agreements().len(), 1);
    assert_eq!(app.agreements()[0].signatures.len(), 2);

    // The design changes: it is shown as a change, and agreed in turn.
    app.hold(6);
    app.harness.state_mut().set(Place::Width);
    app.run();
    let before = app.record();
    app.press("5");
    app.press("ft");
    assert!(app.record() != before);
    app.harness.state_mut().show_page(ShowPage::Agree);
    app.run();
    assert!(app.has("Something has changed since it was agreed."));
    assert!(app.has("no longer: "));
    app.sign_with_a_finger("Ines Quillfeather");
    app.press("sign");
    assert_eq!(app.agreements().len(), 2);
    assert!(app.has("This is what was agreed"));
    let kept = app.record();

    // On disk, and undone by a step.
    app.hold(6);
    app.press("undo");
    assert_eq!(app.agreements().len(), 1);
    app.press("redo");
    assert_eq!(app.agreements().len(), 2);
    let App {
        harness,
        site,
        _folder,
    } = app;
    drop(harness);
    assert!(OpenSite::open(&site).unwrap().site() == &kept);
}

#[test]
fn papers_are_made_and_looked_at() {
    let mut app = opened("curved", PORTRAIT);
    app.enter();
    app.press("Papers");
    app.wait_for("owner sheet");
    app.wait_for("page 1 of ");
    app.press("page after");
    assert!(app.has("page 2 of "));
    app.press("crew sheet");
    assert!(app.has("page 1 of "));
    app.press("A4");
    app.wait_for("page 1 of ");
    app.press("make the papers");
    app.wait_for("14 papers are made.");
    let sheets = app.site.join("sheets");
    assert!(
        std::fs::read(sheets.join("owner.pdf"))
            .unwrap()
            .starts_with(b"%PDF")
    );
    app.harness
        .get_by_role_and_label(Role::Button, "copy the folder")
        .click();
    app.harness.step();
    app.harness.step();
    let copied = app.copied();
    app.run();
    assert!(app.has("The folder is copied."));
    if let Some(copied) = copied {
        assert_eq!(copied, sheets.display().to_string());
    }
}

#[test]
fn a_folder_that_cannot_be_made_is_told() {
    let mut app = opened("curved", LANDSCAPE);
    std::fs::write(app.site.join("sheets"), "in the way").unwrap();
    app.enter();
    app.press("Papers");
    app.press("make the papers");
    app.wait_for("The papers could not be made:");
    assert!(app.has("sheets"));
}
