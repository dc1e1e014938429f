//! The real window, tapped by a real pointer: a new sill height and a pit depth change both drawings at once, and are still there after
//! the program was killed without warning.
//!
//! Where to tap is asked of the same screens without a window, by label, so that the test follows the layout.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use egui::{Pos2, Rect, Role, pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use underbrick_app::Shell;
use underbrick_app::theme::{self, Theme};
use underbrick_calc::place::Place;
use underbrick_records::{OpenSite, Shelf};

struct Window {
    child: Child,
    id: String,
}

impl Window {
    fn open(sites: &Path) -> Self {
        assert!(
            std::env::var_os("DISPLAY").is_some(),
            "a display is needed: run this test under xvfb-run"
        );
        let child = Command::new(env!("CARGO_BIN_EXE_underbrick-desktop"))
            .arg("--sites")
            .arg(sites)
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let found = run(
            "timeout",
            &[
                "30",
                "xdotool",
                "search",
                "--sync",
                "--onlyvisible",
                "--name",
                "^Underbrick$",
            ],
        );
        let id = found
            .lines()
            .next()
            .expect("a window named Underbrick")
            .to_owned();
        // There is no window manager under a display without a screen: the focus is given by hand.
        run("xdotool", &["windowfocus", "--sync", &id]);
        sleep(Duration::from_millis(700));
        Self { child, id }
    }

    fn tap(&self, at: Pos2) {
        let (x, y) = (format!("{:.0}", at.x), format!("{:.0}", at.y));
        run("xdotool", &["mousemove", "--window", &self.id, &x, &y]);
        sleep(Duration::from_millis(60));
        run("xdotool", &["click", "1"]);
        sleep(Duration::from_millis(180));
    }

    fn drag(&self, from: Pos2, to: Pos2) {
        let at = |share: f32| from + (to - from) * share;
        run(
            "xdotool",
            &[
                "mousemove",
                "--window",
                &self.id,
                &format!("{:.0}", from.x),
                &format!("{:.0}", from.y),
            ],
        );
        sleep(Duration::from_millis(100));
        run("xdotool", &["mousedown", "1"]);
        for step in 1_u8..=10 {
            sleep(Duration::from_millis(50));
            let spot = at(f32::from(step) / 10.0);
            run(
                "xdotool",
                &[
                    "mousemove",
                    "--window",
                    &self.id,
                    &format!("{:.0}", spot.x),
                    &format!("{:.0}", spot.y),
                ],
            );
        }
        sleep(Duration::from_millis(50));
        run("xdotool", &["mouseup", "1"]);
        sleep(Duration::from_millis(250));
    }

    /// A picture of the screen, once what an edit lit has gone out. Kept for a person to look at.
    fn picture(&self, name: &str) -> Picture {
        sleep(Duration::from_millis(900));
        let path = pictures().join(name);
        run(
            "import",
            &["-silent", "-window", "root", path.to_str().unwrap()],
        );
        Picture::read(&path)
    }

    /// No warning, no farewell.
    fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

fn run(program: &str, arguments: &[&str]) -> String {
    let output = Command::new(program)
        .args(arguments)
        .output()
        .unwrap_or_else(|error| panic!("{program}: {error}"));
    assert!(
        output.status.success(),
        "{program} {arguments:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn pictures() -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("real-window");
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

struct Picture {
    width: usize,
    bytes_per_pixel: usize,
    bytes: Vec<u8>,
}

impl Picture {
    fn read(path: &Path) -> Self {
        let mut decoder =
            png::Decoder::new(std::io::BufReader::new(std::fs::File::open(path).unwrap()));
        decoder.set_transformations(png::Transformations::normalize_to_color8());
        let mut reader = decoder.read_info().unwrap();
        let mut bytes = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut bytes).unwrap();
        Self {
            width: info.width as usize,
            bytes_per_pixel: info.color_type.samples(),
            bytes,
        }
    }

    fn pixel(&self, x: usize, y: usize) -> &[u8] {
        let start = (y * self.width + x) * self.bytes_per_pixel;
        &self.bytes[start..start + 3.min(self.bytes_per_pixel)]
    }

    /// How many pixels in `part` differ from another picture.
    fn differs(&self, other: &Self, part: Rect) -> usize {
        spots(part)
            .filter(|(x, y)| self.pixel(*x, *y) != other.pixel(*x, *y))
            .count()
    }

    fn colours(&self, part: Rect) -> usize {
        spots(part)
            .map(|(x, y)| self.pixel(x, y).to_vec())
            .collect::<std::collections::BTreeSet<_>>()
            .len()
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "parts of a screen"
)]
fn spots(part: Rect) -> impl Iterator<Item = (usize, usize)> {
    let (left, right, top, bottom) = (
        part.min.x as usize,
        part.max.x as usize,
        part.min.y as usize,
        part.max.y as usize,
    );
    (top..bottom).flat_map(move |y| (left..right).map(move |x| (x, y)))
}

/// The same screens without a window, to ask where things stand.
struct Map {
    harness: Harness<'static, Shell>,
}

impl Map {
    fn of(sites: &Path) -> Self {
        let shell = Shell::new(Shelf::at(sites), underbrick_records::catalogue().unwrap());
        let harness = Harness::builder()
            .with_size(vec2(1280.0, 800.0))
            .with_max_steps(16)
            .with_context_setup(|context| theme::install(context, Theme::Sun))
            .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
        let mut map = Self { harness };
        map.settle();
        map
    }

    fn settle(&mut self) {
        let _settled = self.harness.run_ok();
    }

    fn rect(&self, role: Role, label: &str) -> Rect {
        self.harness.get_by_role_and_label(role, label).rect()
    }

    /// Cross-section and long section, in the order in which they are shown.
    fn drawings(&self) -> (Rect, Rect) {
        let rects: Vec<Rect> = self
            .harness
            .get_all_by_role(Role::Image)
            .map(|node| node.rect())
            .collect();
        let [cross, long] = rects.as_slice() else {
            panic!("two drawings are on screen, not {}", rects.len())
        };
        (*cross, *long)
    }

    /// The same tap in both; the window's is at the place that the map tells.
    fn tap(&mut self, window: &Window, role: Role, label: &str) {
        let at = self.rect(role, label).center();
        window.tap(at);
        self.harness.get_by_role_and_label(role, label).click();
        self.settle();
    }
}

fn on_disk(site: &Path, place: Place, expected: &str) {
    let started = Instant::now();
    loop {
        let text = OpenSite::open(site)
            .ok()
            .and_then(|open| open.site().text(place).map(str::to_owned));
        if text.as_deref() == Some(expected) {
            return;
        }
        assert!(
            started.elapsed() < Duration::from_secs(1),
            "{place:?} on disk within a second: {text:?} instead of {expected}"
        );
        sleep(Duration::from_millis(20));
    }
}

#[test]
fn tap_see_the_ground_change_kill_and_find_it_again() {
    let sites = tempfile::tempdir().unwrap();
    let map_sites = tempfile::tempdir().unwrap();
    let window = Window::open(sites.path());
    let mut map = Map::of(map_sites.path());
    window.picture("1-first-start.png");

    map.tap(
        &window,
        Role::Button,
        "open copies of the sample sites they are yours to change",
    );
    map.tap(&window, Role::Button, "28 Quarry Lane");
    let site = Shelf::at(sites.path())
        .list()
        .unwrap()
        .into_iter()
        .map(|entry| entry.folder)
        .find(|folder| folder.to_string_lossy().contains("curved"))
        .unwrap();
    map.tap(&window, Role::Tab, "Line");
    map.tap(&window, Role::Button, "Sill above old brick");
    let before = window.picture("2-curved-sample.png");
    let (cross, long) = map.drawings();
    assert!(
        before.colours(cross) > 30 && before.colours(long) > 30,
        "both drawings are drawn"
    );

    for key in ["4", "1/4"] {
        map.tap(&window, Role::Button, key);
    }
    on_disk(&site, Place::OldBelowSill, "4 1/4 in");
    let sill = window.picture("3-new-sill-height.png");
    assert!(
        sill.differs(&before, long) > 200,
        "the long section answers the sill height"
    );

    map.tap(&window, Role::Tab, "Look");
    // From the address on to the ground of pit 1 that must come out, value by value.
    let place = Place::LayerThickness(0, 2);
    map.tap(&window, Role::Button, "Address");
    for _ in 0..40 {
        if map.harness.state().setting() == Some(place) {
            break;
        }
        map.tap(&window, Role::Button, "next");
    }
    assert_eq!(map.harness.state().setting(), Some(place));
    for key in ["2", "6"] {
        map.tap(&window, Role::Button, key);
    }
    on_disk(&site, place, "26 in");
    let pit = window.picture("4-deeper-pit.png");
    assert!(
        pit.differs(&sill, cross) > 200,
        "the cross-section answers the pit"
    );
    assert!(
        pit.differs(&sill, long) > 200,
        "the long section answers the pit"
    );

    let handle = pos2(long.min.x + long.width() * 0.4, long.center().y);
    window.drag(handle, handle + vec2(160.0, 0.0));
    let dragged = window.picture("5-marker-dragged.png");
    assert!(
        dragged.differs(&pit, cross) > 200,
        "the cross-section follows the marker"
    );
    window.kill();

    let window = Window::open(sites.path());
    let mut map = Map::of(sites.path());
    map.tap(&window, Role::Button, "28 Quarry Lane");
    let again = window.picture("6-after-the-kill.png");
    assert!(again.colours(cross) > 30, "the site is open again");
    on_disk(&site, Place::OldBelowSill, "4 1/4 in");
    on_disk(&site, place, "26 in");
    assert_eq!(
        again.differs(
            &dragged,
            Rect::from_min_max(pos2(112.0, 4.0), pos2(560.0, 50.0))
        ),
        0,
        "the same address stands above"
    );
    window.kill();
}
