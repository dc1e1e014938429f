//! Pictures by finger: dropped on the window, taken in from the folder, looked at large, said what they show and belong to, taken away
//! and brought back; what cannot be taken in or shown says why.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use egui::{Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::stops::show::ShowPage;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Look, Shell, Visit};
use underbrick_calc::place::Place;
use underbrick_records::v1::PictureOf;
use underbrick_records::{OpenSite, Shelf};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

struct App {
    harness: Harness<'static, Shell>,
    site: PathBuf,
    folder: TempDir,
}

fn noon() -> String {
    "2026-05-04T12:00:00Z".to_owned()
}

/// A file that was dropped on the window.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// A PNG of one grey.
fn png(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().unwrap();
    let mut stream = writer.stream_writer().unwrap();
    let row = vec![120; width as usize];
    for _ in 0..height {
        std::io::Write::write_all(&mut stream, &row).unwrap();
    }
    stream.finish().unwrap();
    writer.finish().unwrap();
    bytes
}

/// A JPEG of one red dot block: 8 by 8 dots, made by hand from the standard's own tables (ISO/IEC 10918-1, annex K.3.1 has the code
/// lengths of the DC table; one AC code, for the end of a block).
fn jpeg() -> Vec<u8> {
    let mut bytes = vec![0xff, 0xd8];
    // One quantisation table of ones.
    bytes.extend([0xff, 0xdb, 0, 67, 0]);
    bytes.extend([1; 64]);
    // Baseline, 8 bits, 8 by 8, one component.
    bytes.extend([0xff, 0xc0, 0, 11, 8, 0, 8, 0, 8, 1, 1, 0x11, 0]);
    // DC table 0: one code of one bit, for category 0. AC table 0: one code of one bit, for the end of the block.
    for class in [0x00, 0x10] {
        bytes.extend([0xff, 0xc4, 0, 20, class, 1]);
        bytes.extend([0; 15]);
        bytes.push(0);
    }
    bytes.extend([0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0]);
    // `0` for no difference, `0` for the end of the block, then ones.
    bytes.extend([0b0011_1111, 0xff, 0xd9]);
    bytes
}

fn curved(size: Vec2) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    let copies = shelf.copy_samples().unwrap();
    let site = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
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
    let _settled = harness.run_ok();
    App {
        harness,
        site,
        folder,
    }
}

impl App {
    fn run(&mut self) {
        let _settled = self.harness.run_ok();
    }

    fn visit(&self) -> &Visit {
        self.harness.state().visit().expect("a site is open")
    }

    fn pictures(&self) -> Vec<(String, PictureOf)> {
        let pictures = self.visit().record().show.pictures.iter();
        pictures
            .map(|picture| (picture.file.clone(), picture.of))
            .collect()
    }

    fn kept(&self, file: &str) -> PathBuf {
        self.site.join("pictures").join(file)
    }

    /// A file outside the site.
    fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.path().join(name);
        fs::write(&path, bytes).unwrap();
        path
    }

    fn drop_on_window(&mut self, files: &[&Path]) {
        for file in files {
            let dropped = Arc::new(Dropped(file.to_path_buf()));
            self.harness.input_mut().dropped_files.push(dropped);
        }
        self.run();
    }

    /// Runs until it is so: what is fetched comes from another thread.
    #[track_caller]
    fn wait_until(&mut self, what: &str, is_so: impl Fn(&Self) -> bool) {
        let started = Instant::now();
        while !is_so(self) {
            assert!(started.elapsed() < Duration::from_secs(60), "never {what}");
            std::thread::sleep(Duration::from_millis(5));
            self.run();
        }
        self.run();
    }

    #[track_caller]
    fn wait_for(&mut self, n_pictures: usize) {
        self.wait_until("taken in", |app| {
            let pictures = &app.visit().record().show.pictures;
            let is_fetched = |file: &str| !matches!(app.visit().album().small(file), Look::Awaited);
            pictures.len() == n_pictures && pictures.iter().all(|picture| is_fetched(&picture.file))
        });
    }

    fn names(&self) -> Vec<String> {
        self.harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label())
            .collect()
    }

    fn shows(&self, start: &str) -> bool {
        self.names().iter().any(|name| name.starts_with(start))
    }

    fn says(&self, words: &str) -> bool {
        self.harness
            .query_all_by_label_contains(words)
            .next()
            .is_some()
    }

    /// Scrolls to the button whose name begins so and taps it.
    #[track_caller]
    fn press(&mut self, start: &str) {
        let name = self
            .names()
            .into_iter()
            .find(|name| name.starts_with(start))
            .unwrap_or_else(|| panic!("no button begins with {start}: {:?}", self.names()));
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .scroll_to_me();
        self.run();
        let node = self.harness.get_by_role_and_label(Role::Button, &name);
        let size = node.rect().size();
        assert!(size.x >= 64.0 && size.y >= 64.0, "{name} is {size} small");
        node.click();
        self.run();
    }

    fn type_words(&mut self, words: &str) {
        self.press("type");
        self.harness.event(egui::Event::Text(words.to_owned()));
        self.run();
    }
}

#[test]
fn a_dropped_picture_is_kept_byte_for_byte_shown_named_moved_and_taken_away() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        let from = app.file("front \"door\" 4's.JPEG", &jpeg());
        app.drop_on_window(&[&from]);
        app.wait_for(1);
        assert_eq!(
            app.pictures(),
            [("2026-05-04-01.jpg".to_owned(), PictureOf::AsFound)]
        );
        assert_eq!(fs::read(app.kept("2026-05-04-01.jpg")).unwrap(), jpeg());
        let stamp = &app.visit().record().show.pictures[0].stamp;
        assert_eq!(
            (stamp.at.as_str(), stamp.device.as_str()),
            ("2026-05-04T12:00:00Z", "this device")
        );

        // It stands large in the place of the ground, with its card beside it.
        assert!(app.says("Picture 1 of 1, large"));
        app.press("Caption");
        app.type_words("Brick sunk at the sill");
        assert_eq!(
            app.visit().site().show.pictures[0].caption,
            "Brick sunk at the sill"
        );
        app.press("pit 1");
        assert_eq!(app.pictures()[0].1, PictureOf::Pit(1));
        app.press("close");
        assert!(!app.says("Picture 1 of 1, large"));
        assert!(app.shows("picture 1, pit 1: Brick sunk at the sill"));

        // Among the pit's own rows too.
        app.press("Pit 1");
        assert_eq!(
            app.names()
                .iter()
                .filter(|name| name.starts_with("picture 1, pit 1"))
                .count(),
            2
        );
        app.press("Pit 1");

        app.press("picture 1, pit 1");
        app.press("take picture 1 away");
        assert!(app.pictures().is_empty());
        assert!(app.kept("2026-05-04-01.jpg").exists());
        assert!(!app.says("large"));
        app.press("undo");
        assert_eq!(app.pictures()[0].1, PictureOf::Pit(1));
        app.press("redo");
        assert!(app.pictures().is_empty());

        // Not offered as new, and brought back on its own.
        app.wait_until("compared", |app| app.visit().album().unnamed().is_empty());
        app.press("show 1 picture taken away");
        app.press("bring 2026-05-04-01.jpg back");
        assert_eq!(
            app.pictures(),
            [("2026-05-04-01.jpg".to_owned(), PictureOf::AsFound)]
        );
    }
}

#[test]
fn what_lies_in_the_folder_is_offered_and_taken_in() {
    let mut app = curved(PORTRAIT);
    fs::create_dir(app.site.join("pictures")).unwrap();
    for file in ["IMG_1.jpg", "the \"low\" end.jpg", "x.png"] {
        let bytes = if file == "x.png" { png(8, 8) } else { jpeg() };
        fs::write(app.kept(file), bytes).unwrap();
    }
    fs::write(app.kept("notes.txt"), "the gate sticks").unwrap();
    app.harness.event(egui::Event::WindowFocused(true));
    app.wait_until("offered", |app| app.visit().album().unnamed().len() == 3);
    app.press("only the \"low\" end.jpg");
    app.wait_until("compared", |app| app.visit().album().unnamed().len() == 2);
    app.press("2 new pictures in the folder: take in");
    app.wait_for(3);
    assert!(!app.shows("take in the new"));
    let files: Vec<String> = app.pictures().into_iter().map(|(file, _)| file).collect();
    assert_eq!(files, ["the \"low\" end.jpg", "IMG_1.jpg", "x.png"]);
    // One step back takes both back.
    app.press("undo");
    assert_eq!(app.pictures().len(), 1);
}

#[test]
fn a_picture_follows_its_pit_and_comes_back_with_it() {
    let mut app = curved(LANDSCAPE);
    assert!(app.visit().record().pits.len() >= 2);
    app.harness.state_mut().set(Place::PitSeep(1));
    app.run();
    let from = app.file("a.png", &png(40, 30));
    app.drop_on_window(&[&from]);
    app.wait_for(1);
    assert_eq!(app.pictures()[0].1, PictureOf::Pit(2));
    app.press("back to the list");
    app.press("Pit 1");
    app.press("take pit 1 away");
    assert_eq!(app.pictures()[0].1, PictureOf::Pit(1));
    app.press("undo");
    assert_eq!(app.pictures()[0].1, PictureOf::Pit(2));
}

#[test]
fn a_picture_of_a_day_stands_in_its_log() {
    let mut app = curved(PORTRAIT);
    app.harness.state_mut().go_to(Stop::Build);
    app.run();
    app.press("show the day log");
    app.press("add today");
    let from = app.file("base.jpg", &jpeg());
    app.drop_on_window(&[&from]);
    app.wait_for(1);
    assert_eq!(app.pictures()[0].1, PictureOf::Day(1));
    app.press("close");
    assert!(app.shows("picture 1, day 2026-05-04"));
    app.press("take day 1 away");
    assert!(app.pictures().is_empty());
    app.press("undo");
    assert_eq!(app.pictures().len(), 1);
}

#[test]
fn what_lies_in_the_folder_is_taken_in_for_the_day_and_goes_onto_the_hand_over_sheet() {
    let mut app = curved(LANDSCAPE);
    fs::create_dir(app.site.join("pictures")).unwrap();
    fs::write(app.kept("lift 1.jpg"), jpeg()).unwrap();
    app.harness.state_mut().go_to(Stop::Build);
    app.run();
    app.press("show the day log");
    app.press("add today");
    app.wait_until("offered", |app| app.visit().album().unnamed().len() == 1);
    // By UTC, and it says so: that clock names no other time.
    assert!(app.says("This device names no time zone"));
    app.press("take in the new picture lift 1.jpg");
    app.wait_for(1);
    assert_eq!(app.pictures()[0].1, PictureOf::Day(1));
    assert!(app.shows("picture 1, day 2026-05-04"));
    // The sheet that the device itself makes carries it: a picture is a stream of its own, stored as JPEG.
    app.harness.state_mut().show_page(ShowPage::Papers);
    app.run();
    app.press("make the papers");
    let sheet = app.site.join("sheets/hand-over.pdf");
    app.wait_until("made", |_| sheet.is_file());
    let bytes = fs::read(&sheet).unwrap();
    let of_jpeg = b"DCTDecode";
    let n_pictures = bytes.windows(of_jpeg.len()).filter(|at| at == of_jpeg);
    assert_eq!(n_pictures.count(), 1);
}

#[test]
fn what_cannot_be_taken_in_says_why_and_changes_nothing() {
    let mut app = curved(LANDSCAPE);
    let revision = app.visit().revision();
    let words = app.file("notes.jpg", b"no picture");
    let large = app.folder.path().join("film.jpg");
    fs::File::create(&large)
        .unwrap()
        .set_len(40_000_001)
        .unwrap();
    let gone = app.folder.path().join("gone.jpg");
    app.drop_on_window(&[&words, &large, &gone]);
    app.wait_until("all are told", |app| {
        app.visit().album().troubles().len() == 3
    });
    assert!(app.says("notes.jpg is neither a JPEG nor a PNG by its first bytes"));
    assert!(app.says("film.jpg has 40.1 MB; 40 MB is the most"));
    assert!(app.says("gone.jpg is not there"));
    app.press("close");
    assert!(!app.says("gone.jpg"));
    assert_eq!(app.visit().revision(), revision);
    assert!(!app.site.join("pictures").exists());
}

#[test]
fn a_broken_picture_is_kept_and_says_what_is_wrong() {
    let mut app = curved(LANDSCAPE);
    let mut bytes = jpeg();
    bytes.truncate(bytes.len() - 3);
    let from = app.file("half.jpg", &bytes);
    app.drop_on_window(&[&from]);
    app.wait_for(1);
    assert_eq!(fs::read(app.kept("2026-05-04-01.jpg")).unwrap(), bytes);
    assert!(app.says("large: 2026-05-04-01.jpg is broken: it ends too soon"));
    assert_eq!(app.visit().findings_at(Place::Picture(0)).count(), 1);
    // Gone with the picture.
    app.press("take picture 1 away");
    assert_eq!(app.visit().findings_at(Place::Picture(0)).count(), 0);
}

#[test]
fn a_missing_picture_and_one_outside_are_told_and_nothing_is_read_there() {
    let mut app = curved(LANDSCAPE);
    app.file("secret.png", &png(8, 8));
    let site = app.site.clone();
    drop(app.harness);
    let path = site.join("site.ron");
    let text = fs::read_to_string(&path).unwrap();
    let end = text.rfind(')').unwrap();
    let named = "    show: (\n        pictures: [\n            (file: \"gone.jpg\"),\n            (file: \"../../secret.png\", of: Pit(9)),\n        ],\n    ),\n)\n";
    fs::write(&path, format!("{}{named}", &text[..end])).unwrap();
    let shell = Shell::new(
        Shelf::at(app.folder.path()),
        underbrick_records::catalogue().unwrap(),
    );
    app.harness = Harness::builder()
        .with_size(LANDSCAPE)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let context = app.harness.ctx.clone();
    app.harness.state_mut().open(&site, &context).unwrap();
    app.wait_for(2);
    let said: Vec<String> = app
        .visit()
        .findings()
        .map(|finding| finding.text.clone())
        .collect();
    for words in [
        "Picture 1: gone.jpg is not there.",
        "Picture 2: \"../../secret.png\" is no name of a picture: one without a folder before it is needed.",
        "Picture 2 belongs to pit 9, which is not there.",
    ] {
        assert!(said.iter().any(|text| text == words), "{words}: {said:?}");
    }
    assert!(matches!(
        app.visit().album().small("../../secret.png"),
        Look::Broken(_)
    ));
}

#[test]
fn sixty_million_dots_neither_hold_up_the_window_nor_fill_the_memory() {
    let mut app = curved(LANDSCAPE);
    let bytes = png(10_000, 6_000);
    assert!(bytes.len() < 200_000);
    let from = app.file("large.png", &bytes);
    let dropped = Arc::new(Dropped(from));
    app.harness.input_mut().dropped_files.push(dropped);
    let started = Instant::now();
    app.harness.step();
    // Dropping it waits for nothing: the decoding alone takes longer than a frame may.
    assert!(
        started.elapsed() < Duration::from_secs(2),
        "{:?}",
        started.elapsed()
    );
    app.wait_for(1);
    app.wait_until("large", |app| {
        matches!(
            app.visit().album().large("2026-05-04-01.png"),
            Look::Here(_, pixels) if (pixels.width(), pixels.height()) == (1600, 960)
        )
    });
}

#[test]
fn the_homeowner_sees_the_walk_as_found_beside_the_reason_and_papers_carry_it() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = curved(size);
        let from = app.file("steps.png", &png(64, 48));
        app.drop_on_window(&[&from, &from]);
        app.wait_for(2);
        app.harness.state_mut().show_page(ShowPage::Papers);
        app.run();
        app.wait_until("laid out", |app| app.says("page 1 of "));
        app.press("make the papers");
        app.wait_until("made", |app| app.says("papers are made."));
        let sheet = fs::read(app.site.join("sheets").join("owner.pdf")).unwrap();
        let has_picture = sheet
            .windows(b"/Subtype/Image".len())
            .any(|part| part == b"/Subtype/Image");
        assert!(has_picture, "the owner sheet has a picture in it");

        app.harness.state_mut().show_page(ShowPage::Why);
        app.run();
        app.wait_until("fetched", |app| !app.says("is fetched"));
        assert!(app.shows("picture 1 of 2: As found, tap for the next"));
        app.press("picture 1 of 2");
        assert!(app.shows("picture 2 of 2"));
        app.press("picture 2 of 2");
        assert!(app.shows("picture 1 of 2"));
    }
}

#[test]
fn pictures_are_on_disk_with_the_site_and_there_after_a_restart() {
    let mut app = curved(PORTRAIT);
    let from = app.file("a.jpg", &jpeg());
    app.drop_on_window(&[&from]);
    app.wait_for(1);
    let is_kept = |app: &App| app.visit().keep_status() == underbrick_records::KeepStatus::OnDisk;
    app.wait_until("on disk", is_kept);
    let site = app.site.clone();
    drop(app.harness);
    let again = OpenSite::open(&site).unwrap();
    assert_eq!(again.site().show.pictures[0].file, "2026-05-04-01.jpg");
}
