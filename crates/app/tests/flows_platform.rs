//! What a tablet does to the app, played on the host through the same trait: suspended, killed, turned, resized, rescaled, back key pressed.
//! Nothing of it ran on a device.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::cell::Cell;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use egui::{Key, Pos2, Rect, Role, Vec2, ViewportCommand, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::Shell;
use underbrick_app::platform::{Edges, Platform};
use underbrick_app::stops::Stop;
use underbrick_app::stops::show::ShowPage;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::place::Place;
use underbrick_records::{OpenSite, Shelf};

/// A device whose bars and type can be changed under the app.
#[derive(Default)]
struct Tablet {
    edges: Cell<Edges>,
    font_scale: Cell<f32>,
}

impl Platform for Tablet {
    fn edges(&self) -> Edges {
        self.edges.get()
    }

    fn font_scale(&self) -> f32 {
        self.font_scale.get()
    }

    fn back_leaves(&self) -> bool {
        true
    }

    fn are_edges_sure(&self) -> bool {
        false
    }
}

/// The app on such a device.
struct Played {
    harness: Harness<'static, Shell>,
    tablet: Rc<Tablet>,
    folder: TempDir,
}

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

fn start(folder: TempDir, size: Vec2) -> Played {
    let tablet = Rc::new(Tablet::default());
    tablet.font_scale.set(1.0);
    let shelf = Shelf::at(folder.path().join("sites"));
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap()).on(tablet.clone());
    let harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let mut played = Played {
        harness,
        tablet,
        folder,
    };
    let context = played.harness.ctx.clone();
    played.harness.state().put_on_settings(&context);
    played.run();
    played
}

/// With the curved sample open, at a value.
fn set(size: Vec2, place: Place) -> Played {
    let folder = tempfile::tempdir().unwrap();
    Shelf::at(folder.path().join("sites"))
        .copy_samples()
        .unwrap();
    let mut played = start(folder, size);
    played.open();
    played.harness.state_mut().set(place);
    played.run();
    played
}

impl Played {
    fn site(&self) -> PathBuf {
        self.folder.path().join("sites/curved-to-a-drive")
    }

    fn open(&mut self) {
        let (site, context) = (self.site(), self.harness.ctx.clone());
        self.harness.state_mut().open(&site, &context).unwrap();
        self.run();
    }

    /// Frames until nothing moves, each with what the host hands over before it.
    fn run(&mut self) {
        let context = self.harness.ctx.clone();
        let mut raw = self.harness.input().clone();
        self.harness.state_mut().before_frame(&context, &mut raw);
        self.harness.input_mut().safe_area_insets = raw.safe_area_insets;
        let _settled = self.harness.run_ok();
    }

    fn type_in(&mut self, text: &str) {
        self.harness.event(egui::Event::Text(text.to_owned()));
        // One frame: the finger is still on the key when the system takes the screen away.
        self.harness.step();
    }

    fn focus(&mut self, focused: bool) {
        self.harness.input_mut().focused = focused;
        self.harness.step();
    }

    fn back(&mut self) {
        self.harness.key_press(Key::BrowserBack);
        self.run();
    }

    fn asks_to_close(&self) -> bool {
        let outputs = self.harness.output().viewport_output.values();
        outputs
            .flat_map(|output| &output.commands)
            .any(|command| matches!(command, ViewportCommand::Close))
    }

    fn on_screen(&self, place: Place) -> String {
        let visit = self.harness.state().visit().expect("a site is open");
        visit.record().text(place).expect("a value").to_owned()
    }

    /// All that can be tapped, with its rectangle.
    fn targets(&self) -> Vec<(String, Rect)> {
        let roles = [Role::Button, Role::Tab, Role::TextInput];
        roles
            .iter()
            .flat_map(|role| self.harness.query_all_by_role(*role))
            .map(|node| {
                let name = node.accesskit_node().label().unwrap_or_default();
                (name, node.rect())
            })
            .collect()
    }
}

fn on_disk(site: &Path, place: Place) -> String {
    let open = OpenSite::open(site).unwrap();
    open.site().text(place).expect("a value").to_owned()
}

/// A length that nobody can read yet: inches are still to come.
const IN_MID_ENTRY: &str = "7 ft 3 1/";

#[test]
fn a_reading_in_mid_entry_is_on_disk_when_the_focus_is_gone() {
    let place = Place::OldBelowSill;
    let mut played = set(LANDSCAPE, place);
    let before = on_disk(&played.site(), place);
    for _ in 0..20 {
        played.harness.key_press(Key::Backspace);
    }
    played.harness.step();
    played.type_in(IN_MID_ENTRY);
    assert!(before != IN_MID_ENTRY && on_disk(&played.site(), place) != IN_MID_ENTRY);
    played.focus(false);
    // No waiting here: the frame that loses the focus has waited for the disk.
    assert_eq!(on_disk(&played.site(), place), IN_MID_ENTRY);

    // Suspended and come back: the same value is being set, and what comes is written behind it.
    played.focus(true);
    assert_eq!(played.harness.state().setting(), Some(place));
    played.type_in("4 in");
    played.run();
    assert_eq!(played.on_screen(place), "7 ft 3 1/4 in");
}

#[test]
fn killed_after_the_focus_was_lost_it_starts_again_with_what_was_typed() {
    let place = Place::OldBelowSill;
    let mut played = set(PORTRAIT, place);
    for _ in 0..20 {
        played.harness.key_press(Key::Backspace);
    }
    played.harness.step();
    played.type_in(IN_MID_ENTRY);
    played.focus(false);
    // Killed: the folder as it is at this moment is all that the next start finds. Nothing of the first start is asked to write any more.
    let kept = copy_of(&played.folder.path().join("sites"));
    let mut again = start(kept, PORTRAIT);
    again.open();
    assert_eq!(again.on_screen(place), IN_MID_ENTRY);
    // And it is a step that can be taken back.
    again
        .harness
        .get_by_role_and_label(Role::Button, "undo")
        .click();
    again.run();
    assert_ne!(again.on_screen(place), IN_MID_ENTRY);
    drop(played);
}

/// The files of a folder of sites, as after a power cut.
fn copy_of(sites: &Path) -> TempDir {
    fn copy(from: &Path, to: &Path) {
        std::fs::create_dir_all(to).unwrap();
        for entry in std::fs::read_dir(from).unwrap() {
            let path = entry.unwrap().path();
            let target = to.join(path.file_name().expect("a name"));
            if path.is_dir() {
                copy(&path, &target);
            } else {
                std::fs::copy(&path, &target).unwrap();
            }
        }
    }
    let folder = tempfile::tempdir().unwrap();
    copy(sites, &folder.path().join("sites"));
    folder
}

#[test]
fn put_away_by_the_host_without_a_frame_it_is_on_disk_too() {
    let place = Place::SettingBed;
    let mut played = set(LANDSCAPE, place);
    for _ in 0..20 {
        played.harness.key_press(Key::Backspace);
    }
    played.harness.step();
    played.type_in("1 1/");
    // What the system calls when it takes the window away.
    assert!(played.harness.state_mut().leave());
    assert_eq!(on_disk(&played.site(), place), "1 1/");
}

#[test]
fn turned_resized_and_rescaled_the_reading_in_mid_entry_stays() {
    let place = Place::OldBelowSill;
    let mut played = set(LANDSCAPE, place);
    for _ in 0..20 {
        played.harness.key_press(Key::Backspace);
    }
    played.harness.step();
    played.type_in("7 ft 3");
    for size in [
        PORTRAIT,
        LANDSCAPE,
        vec2(960.0, 600.0),
        vec2(1706.0, 1066.0),
    ] {
        played.harness.set_size(size);
        played.run();
        assert_eq!(played.harness.state().setting(), Some(place), "{size}");
    }
    for pixels_per_point in [1.5, 2.0, 1.33, 1.0] {
        let viewport = played.harness.input().viewport_id;
        let input = played.harness.input_mut();
        let info = input.viewports.get_mut(&viewport).expect("the window");
        info.native_pixels_per_point = Some(pixels_per_point);
        played.run();
        assert_eq!(played.harness.ctx.pixels_per_point(), pixels_per_point);
        assert_eq!(played.harness.state().setting(), Some(place));
    }
    played.tablet.font_scale.set(1.3);
    played.run();
    assert_eq!(theme::text_size(&played.harness.ctx), 130);
    assert_eq!(played.harness.state().setting(), Some(place));
    played.type_in(" in");
    played.run();
    assert_eq!(played.on_screen(place), "7 ft 3 in");
}

#[test]
fn the_devices_type_is_followed_until_a_size_is_set_by_hand() {
    let folder = tempfile::tempdir().unwrap();
    let mut played = start(folder, LANDSCAPE);
    let size = |played: &Played| theme::text_size(&played.harness.ctx);
    assert_eq!(size(&played), 100);
    for (scale, percent) in [(0.85, 85), (1.15, 115), (1.5, 160), (2.0, 160), (1.0, 100)] {
        played.tablet.font_scale.set(scale);
        played.run();
        assert_eq!(size(&played), percent, "{scale}");
    }
    let key = "100 % text size";
    played
        .harness
        .get_by_role_and_label(Role::Button, key)
        .click();
    played.run();
    assert_eq!(size(&played), 115);
    played.tablet.font_scale.set(1.3);
    played.run();
    assert_eq!(size(&played), 115, "set by hand");

    // Also at the next start.
    let Played {
        harness, folder, ..
    } = played;
    drop(harness);
    let mut played = start(folder, LANDSCAPE);
    played.tablet.font_scale.set(1.3);
    played.run();
    assert_eq!(size(&played), 115);
}

#[test]
fn back_goes_one_step_up_each_time_and_leaves_at_the_list() {
    let mut played = set(LANDSCAPE, Place::OldBelowSill);
    played.back();
    assert_eq!(played.harness.state().setting(), None, "the pad is closed");
    assert!(played.harness.state().visit().is_some());
    played.back();
    assert!(played.harness.state().visit().is_none(), "the list");
    assert!(!played.asks_to_close());
    played.harness.key_down(Key::BrowserBack);
    played.harness.step();
    assert!(played.asks_to_close());
}

#[test]
fn back_does_not_lose_what_stands_on_the_pad() {
    let place = Place::OldBelowSill;
    let mut played = set(LANDSCAPE, place);
    for _ in 0..20 {
        played.harness.key_press(Key::Backspace);
    }
    played.harness.step();
    played.type_in(IN_MID_ENTRY);
    played.back();
    assert_eq!(played.on_screen(place), IN_MID_ENTRY);
}

#[test]
fn back_does_not_hand_a_homeowner_the_rest_of_the_app() {
    let mut played = set(LANDSCAPE, Place::Address);
    played.harness.state_mut().go_to(Stop::Show);
    played.run();
    for _ in 0..3 {
        played.back();
    }
    assert!(played.harness.state().visit().is_some());
    assert!(played.harness.query_by_label("Sites").is_none());
    assert!(!played.asks_to_close());
}

/// A status bar and a bar with keys, a cut-out, and both ways up.
const BARS: [(Vec2, Edges); 4] = [
    (LANDSCAPE, edges(0, 48, 0, 96)),
    (LANDSCAPE, edges(80, 24, 96, 0)),
    (PORTRAIT, edges(0, 48, 0, 96)),
    (PORTRAIT, edges(0, 90, 0, 30)),
];

const fn edges(left: u32, top: u32, right: u32, bottom: u32) -> Edges {
    Edges {
        left,
        top,
        right,
        bottom,
    }
}

#[test]
fn nothing_to_tap_stands_under_a_bar() {
    for (size, bars) in BARS {
        let mut played = set(size, Place::Address);
        played.tablet.edges.set(bars);
        played.run();
        let free = Rect::from_min_max(
            Pos2::new(f32_of(bars.left), f32_of(bars.top)),
            Pos2::new(size.x - f32_of(bars.right), size.y - f32_of(bars.bottom)),
        );
        let places = [
            (Stop::Look, Some(Place::Address)),
            (Stop::Line, Some(Place::OldBelowSill)),
            (Stop::Bed, Some(Place::SettingBed)),
            (Stop::Lay, None),
            (Stop::Order, None),
            (Stop::Build, None),
        ];
        for (stop, place) in places {
            played.harness.state_mut().go_to(stop);
            if let Some(place) = place {
                played.harness.state_mut().set(place);
            }
            played.run();
            check_targets(&played, free, &format!("{stop:?}, {size}, {bars:?}"));
        }
        played.back();
        played.back();
        played.run();
        assert!(played.harness.state().visit().is_none());
        check_targets(&played, free, &format!("list, {size}, {bars:?}"));
    }
}

#[test]
fn nothing_that_a_homeowner_taps_stands_under_a_bar() {
    for (size, bars) in BARS {
        let mut played = set(size, Place::Address);
        played.tablet.edges.set(bars);
        let free = Rect::from_min_max(
            Pos2::new(f32_of(bars.left), f32_of(bars.top)),
            Pos2::new(size.x - f32_of(bars.right), size.y - f32_of(bars.bottom)),
        );
        for page in ShowPage::ALL {
            played.harness.state_mut().show_page(page);
            played.run();
            check_targets(&played, free, &format!("{page:?}, {size}, {bars:?}"));
        }
    }
}

/// Everything that can be tapped and is not scrolled away is whole within `free`.
#[track_caller]
fn check_targets(played: &Played, free: Rect, what: &str) {
    let targets = played.targets();
    assert!(targets.len() > 5, "{what}: {}", targets.len());
    for (name, rect) in targets {
        // What a list has scrolled away stands outside it, and is cut off by it on screen.
        let across = rect.left() >= free.left() - 0.5 && rect.right() <= free.right() + 0.5;
        assert!(across, "{what}: {name} at {rect} beside {free}");
        let shown = rect.intersect(free);
        assert!(
            shown.height() > 0.0 || rect.min.y >= free.max.y || rect.max.y <= free.min.y,
            "{what}: {name} at {rect}"
        );
    }
    let painted = played.harness.output().shapes.iter();
    let clipped_out = painted.filter(|shape| {
        let seen = shape
            .clip_rect
            .intersect(shape.shape.visual_bounding_rect());
        let is_ground = matches!(shape.shape, egui::Shape::Rect(_));
        seen.is_positive() && !is_ground && !free.expand(1.0).contains_rect(seen)
    });
    assert_eq!(clipped_out.count(), 0, "{what}: painted under a bar");
}

fn f32_of(pixels: u32) -> f32 {
    f32::from(u16::try_from(pixels).unwrap())
}

#[test]
fn the_systems_keyboard_leaves_what_is_typed_in_sight() {
    for (size, keyboard) in [(LANDSCAPE, 340), (PORTRAIT, 480)] {
        let mut played = set(size, Place::Address);
        played.tablet.edges.set(edges(0, 24, 0, keyboard));
        played.run();
        let field = played
            .harness
            .get_by_role_and_label(Role::TextInput, "Address, typed");
        let free = size.y - f32_of(keyboard);
        assert!(field.rect().max.y <= free, "{size}: {}", field.rect());
        assert!(field.rect().height() >= 60.0, "{size}: {}", field.rect());
    }
}

#[test]
fn edges_that_the_device_does_not_tell_are_kept_clear_by_hand() {
    let folder = tempfile::tempdir().unwrap();
    let mut played = start(folder, LANDSCAPE);
    let key = |points: u16| format!("{points} edge clear");
    let top = |played: &Played| {
        let rects = played.targets().into_iter().map(|(_, rect)| rect.min.y);
        rects.fold(f32::INFINITY, f32::min)
    };
    let before = top(&played);
    for (now, next) in [(0_u16, 24_u16), (24, 48)] {
        played
            .harness
            .get_by_role_and_label(Role::Button, &key(now))
            .click();
        played.run();
        played.run();
        assert!((top(&played) - before - f32::from(next)).abs() < 0.1);
    }
    // Kept for the next start.
    let Played {
        harness, folder, ..
    } = played;
    drop(harness);
    let mut again = start(folder, LANDSCAPE);
    again.run();
    assert!((top(&again) - before - 48.0).abs() < 0.1);
}

#[test]
fn edges_are_looked_at_again_after_a_change_and_then_no_more() {
    let folder = tempfile::tempdir().unwrap();
    let mut played = start(folder, LANDSCAPE);
    let delay = |played: &Played| {
        let outputs = &played.harness.output().viewport_output;
        outputs.values().map(|output| output.repaint_delay).min()
    };
    played.harness.step();
    assert!(delay(&played).unwrap().as_secs() < 1, "soon again");
    // Each step of the test is a quarter of a second.
    for _ in 0..10 {
        played.harness.step();
    }
    assert!(delay(&played).unwrap().as_secs() > 60, "still");
    played.tablet.edges.set(edges(0, 0, 0, 300));
    played.run();
    assert!(delay(&played).unwrap().as_secs() < 1, "soon again");
}
