//! Screed board and gauge rod at stop Build: at a stated scale until the screen was measured with a card, then full size where it fits; the
//! measure is kept for the device.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};

use egui::{Event, Modifiers, PointerButton, Pos2, Rect, Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::Shell;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::build::Build;
use underbrick_calc::quantity::in_metres;
use underbrick_records::{Settings, Shelf};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

struct App {
    harness: Harness<'static, Shell>,
    site: PathBuf,
    shelf: TempDir,
}

fn harness(shelf: &TempDir, site: &Path, size: Vec2, density: f32) -> Harness<'static, Shell> {
    let shell = Shell::new(
        Shelf::at(shelf.path()),
        underbrick_records::catalogue().unwrap(),
    );
    let mut harness = Harness::builder()
        .with_size(size)
        .with_pixels_per_point(density)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = harness.ctx.clone();
    harness.state_mut().put_on_settings(&context);
    harness.state_mut().open(site, &context).unwrap();
    harness.state_mut().go_to(Stop::Build);
    let _settled = harness.run_ok();
    harness
}

fn curved(size: Vec2, density: f32) -> App {
    let shelf = tempfile::tempdir().unwrap();
    let copies = Shelf::at(shelf.path()).copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
        .unwrap()
        .clone();
    App {
        harness: harness(&shelf, &site, size, density),
        site,
        shelf,
    }
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    #[track_caller]
    fn press(&mut self, start: &str) {
        let names = self
            .harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label());
        let name = names.into_iter().find(|name| name.starts_with(start));
        let name = name.unwrap_or_else(|| panic!("no button begins with {start}"));
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .scroll_to_me();
        self.run();
        let key = self.harness.get_by_role_and_label(Role::Button, &name);
        let size = key.rect().size();
        assert!(size.x >= 64.0 && size.y >= 64.0, "{name} is {size} small");
        key.click();
        self.run();
    }

    fn open(&mut self) {
        self.press("show screed and gauge rod");
        self.press("screed board and gauge rod full size");
    }

    #[track_caller]
    fn rect(&self, words: &str) -> Rect {
        self.harness.get_by_label_contains(words).rect()
    }

    fn says(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }

    fn build(&self) -> &Build {
        let visit = self.harness.state().visit().unwrap();
        visit.results().build.as_ref().unwrap()
    }

    fn drag(&mut self, from: Pos2, by: Vec2) {
        let button = |pos, pressed| Event::PointerButton {
            pos,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::default(),
        };
        self.harness.event(Event::PointerMoved(from));
        self.run();
        self.harness.event(button(from, true));
        self.run();
        for share in [0.25, 0.5, 0.75, 1.0] {
            self.harness.event(Event::PointerMoved(from + by * share));
            self.run();
        }
        self.harness.event(button(from + by, false));
        self.run();
    }

    /// Drags the bar so that the card is so many points wide, and keeps that.
    fn measure(&mut self, card_points: f32) {
        self.press("measure the screen");
        let bar = self.rect("bar of the card").center();
        let left = self.rect("bar of the card").center().x - self.bar_points();
        self.drag(bar, vec2(left + card_points - bar.x, 0.0));
        self.press("it fits");
    }

    /// How wide the card is, from what the bar says.
    fn bar_points(&self) -> f32 {
        let bar = self.harness.get_by_label_contains("bar of the card");
        let name = bar.accesskit_node().label().unwrap();
        let pixels: f32 = name
            .split_whitespace()
            .find_map(|word| word.parse().ok())
            .unwrap();
        pixels / 100.0 * 85.6 / self.harness.ctx.pixels_per_point()
    }
}

#[test]
fn until_the_screen_is_measured_nothing_is_called_full_size() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size, 1.0);
        app.open();
        assert!(app.says("not full size"));
        assert!(app.says("the screen was not measured"));
        app.press("gauge rod");
        assert!(app.says("gauge rod, not full size, drawn about 1 : "));
        app.press("close");
        assert!(!app.says("full size: a tape"));
        assert!(
            app.harness
                .query_by_label_contains("rod from the string")
                .is_none()
        );
    }
}

/// A tape laid on the screen reads what is written: checked against the width of the card by ISO/IEC 7810.
#[test]
fn once_measured_the_notch_is_as_deep_on_the_screen_as_on_the_board() {
    for (size, density) in [(LANDSCAPE, 1.0), (PORTRAIT, 1.0), (LANDSCAPE, 1.5)] {
        let mut app = curved(size, density);
        app.open();
        // The card is 300 points wide on this screen.
        app.measure(300.0);
        assert!(app.says("screed board, one end, full size"));
        let notch_mm = in_metres(app.build().screed.notch) * 1000.0;
        let expected = notch_mm / 85.6 * 300.0;
        let drawn = f64::from(app.rect("long: notch").height());
        // The bar and the pixels are whole: half a percent.
        assert!(
            (drawn - expected).abs() < 0.005 * expected,
            "{drawn} points for {expected}"
        );
        app.press("gauge rod");
        let deepest = app.build().gauge.last().unwrap().below_string;
        let deepest = in_metres(deepest) * 1000.0 / 85.6 * 300.0;
        let drawn = f64::from(app.rect("rod from the string").height());
        // Too long for the screen: drawn at a scale, which is said.
        assert!(deepest > 700.0 && drawn < 600.0);
        assert!(app.says("gauge rod, not full size, drawn 1 : "));
        let to = deepest / drawn;
        assert!(app.says("drawn 1 : 2") == (to < 2.2), "{to}");
    }
}

#[test]
fn the_measure_is_kept_for_the_device_and_can_be_left_alone() {
    let mut app = curved(LANDSCAPE, 1.0);
    app.open();
    app.press("measure the screen");
    app.press("wider");
    app.press("leave it");
    assert!(app.says("the screen was not measured"));
    app.measure(300.0);
    assert!(app.harness.state_mut().leave());
    let kept = Settings::of_file(&app.shelf.path().join("settings.ron"));
    let pixels = kept.unwrap().unwrap().pixels_per_100_mm;
    // 300 points of one pixel for 85.6 mm.
    assert!(pixels.abs_diff(350) <= 1, "{pixels}");
    let App {
        harness: old,
        site,
        shelf,
    } = app;
    drop(old);
    let mut app = App {
        harness: harness(&shelf, &site, LANDSCAPE, 1.0),
        site,
        shelf,
    };
    app.open();
    assert!(app.says("screed board, one end, full size"));
    // A step of the key is a tenth of a millimetre on the card.
    app.press("measure the screen");
    let before = app.bar_points();
    app.press("wider");
    app.press("wider");
    app.press("wider");
    let moved = app.bar_points() - before;
    assert!((0.2..2.0).contains(&moved), "{moved}");
    assert!(app.site.is_dir());
}
