//! Sites going out and coming in through the folder that the device hands over, tapped by label. Asserted are the files.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::cell::RefCell;
use std::fs;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::{Duration, Instant};

use egui::{Key, Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use tempfile::TempDir;
use underbrick_app::Shell;
use underbrick_app::platform::{Exchange, Platform};
use underbrick_app::stops::show::ShowPage;
use underbrick_app::theme::{self, Theme};
use underbrick_records::{OpenSite, Shelf};

/// A device with such a folder, which writes down what it is asked to show.
struct Device {
    folder: PathBuf,
    opens: bool,
    shown: RefCell<Vec<PathBuf>>,
}

impl Platform for Device {
    fn exchange(&self) -> Option<Exchange> {
        Some(Exchange {
            folder: self.folder.clone(),
            in_words: "the drawer under the bench".to_owned(),
        })
    }

    fn opens_folders(&self) -> bool {
        self.opens
    }

    fn open_folder(&self, folder: &Path) -> Result<(), String> {
        self.shown.borrow_mut().push(folder.to_path_buf());
        Ok(())
    }

    fn back_leaves(&self) -> bool {
        true
    }
}

struct App {
    harness: Harness<'static, Shell>,
    device: Rc<Device>,
    shelf: Shelf,
    _folder: TempDir,
}

fn app(size: egui::Vec2) -> App {
    app_on(size, true)
}

fn app_on(size: egui::Vec2, opens: bool) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path().join("sites"));
    shelf.copy_samples().unwrap();
    let device = Rc::new(Device {
        folder: folder.path().join("out"),
        opens,
        shown: RefCell::default(),
    });
    let catalogue = underbrick_records::catalogue().unwrap();
    let shell = Shell::new(shelf.clone(), catalogue).on(device.clone());
    let mut harness = Harness::builder()
        .with_size(size)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let _settled = harness.run_ok();
    App {
        harness,
        device,
        shelf,
        _folder: folder,
    }
}

impl App {
    #[track_caller]
    fn press(&mut self, label: &str) {
        let button = |app: &Self| {
            app.harness
                .get_by_role_and_label(Role::Button, label)
                .scroll_to_me();
        };
        button(self);
        let _settled = self.harness.run_ok();
        self.harness
            .get_by_role_and_label(Role::Button, label)
            .click();
        let _settled = self.harness.run_ok();
    }

    #[track_caller]
    fn says(&self, words: &str) {
        assert!(
            self.harness.query_by_label_contains(words).is_some(),
            "{words}"
        );
    }

    fn n_sites(&self) -> usize {
        self.shelf.list().unwrap().len()
    }

    fn out(&self) -> Vec<String> {
        let files = fs::read_dir(&self.device.folder).unwrap();
        let mut names: Vec<String> = files
            .map(|file| file.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

const LANDSCAPE: egui::Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: egui::Vec2 = vec2(800.0, 1280.0);

#[test]
fn a_site_goes_out_as_one_file_and_its_place_is_told() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = app(size);
        app.press("export 28 Quarry Lane");
        assert_eq!(app.out(), ["28-quarry-lane-front-walk.zip"]);
        app.says("Exported as 28-quarry-lane-front-walk.zip");
        app.says("the drawer under the bench");
        app.press("open the folder");
        assert_eq!(*app.device.shown.borrow(), [app.device.folder.clone()]);
        // Once more: nothing is written over.
        app.press("export 28 Quarry Lane");
        assert_eq!(app.out().len(), 2);
        // The list is still the list.
        app.press("28 Quarry Lane");
        assert!(app.harness.state().visit().is_some());
    }
}

#[test]
fn a_file_comes_in_beside_what_is_there() {
    let mut app = app(LANDSCAPE);
    let before = app.n_sites();
    app.press("export 28 Quarry Lane");
    app.press("import a site from a file");
    app.says("the drawer under the bench");
    app.press("28-quarry-lane-front-walk.zip");
    app.says("What was there before is as it was");
    assert_eq!(app.n_sites(), before + 1);
    let sites: Vec<_> = app.shelf.list().unwrap();
    let texts: Vec<String> = sites
        .iter()
        .map(|entry| fs::read_to_string(entry.folder.join("site.ron")).unwrap())
        .filter(|text| text.contains("28 Quarry Lane"))
        .collect();
    assert_eq!(texts.len(), 2);
    let original = OpenSite::open(app.shelf.path().join("curved-to-a-drive")).unwrap();
    assert!(
        texts
            .iter()
            .all(|text| text.contains(&original.site().address))
    );
}

#[test]
fn what_cannot_be_imported_is_told_and_nothing_comes_of_it() {
    let mut app = app(PORTRAIT);
    let before = app.n_sites();
    fs::create_dir_all(&app.device.folder).unwrap();
    fs::write(app.device.folder.join("holiday.zip"), "no archive").unwrap();
    fs::write(app.device.folder.join("letter.txt"), "no archive").unwrap();
    app.press("import a site from a file");
    assert!(app.harness.query_by_label("letter.txt").is_none());
    app.press("holiday.zip");
    app.says("Not imported: this is no packed site");
    assert_eq!(app.n_sites(), before);
}

#[test]
fn an_empty_folder_says_where_to_put_a_file_and_a_new_file_is_found() {
    let mut app = app(LANDSCAPE);
    app.press("import a site from a file");
    app.says("There is no packed site to import");
    app.says("the drawer under the bench");
    // The folder is there for whoever looks for it.
    assert!(app.device.folder.is_dir());
    fs::write(app.device.folder.join("late.zip"), "").unwrap();
    app.press("look again");
    assert!(app.harness.query_by_label("late.zip").is_some());
    app.press("back to the sites");
    assert!(app.harness.query_by_label("28 Quarry Lane").is_some());
}

#[test]
fn back_leaves_the_choice_before_the_app() {
    let mut app = app(LANDSCAPE);
    app.press("import a site from a file");
    app.harness.key_press(Key::BrowserBack);
    let _settled = app.harness.run_ok();
    assert!(app.harness.query_by_label("28 Quarry Lane").is_some());
}

#[test]
fn without_a_folder_nothing_is_offered() {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    shelf.copy_samples().unwrap();
    let shell = Shell::new(shelf, underbrick_records::catalogue().unwrap());
    let mut harness = Harness::builder()
        .with_size(LANDSCAPE)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let _settled = harness.run_ok();
    assert!(harness.query_by_label_contains("export").is_none());
    assert!(harness.query_by_label_contains("import").is_none());
}

/// Runs until the papers are made; that happens beside the window.
#[track_caller]
fn make_papers(app: &mut App) {
    app.press("28 Quarry Lane");
    app.harness.state_mut().show_page(ShowPage::Papers);
    let _settled = app.harness.run_ok();
    app.press("make the papers");
    let started = Instant::now();
    let are_made = |app: &App| {
        let said = app.harness.query_by_label_contains("papers are made.");
        said.is_some()
    };
    while !are_made(app) {
        assert!(started.elapsed() < Duration::from_secs(60), "never made");
        std::thread::sleep(Duration::from_millis(5));
        let _settled = app.harness.run_ok();
    }
}

#[test]
fn a_desk_shows_the_folder_of_the_papers() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = app(size);
        make_papers(&mut app);
        app.press("open the folder");
        let shown = app.device.shown.borrow().clone();
        let [folder] = shown.as_slice() else {
            panic!("shown: {shown:?}");
        };
        assert!(folder.starts_with(app.shelf.path()));
        assert!(folder.join("owner.pdf").is_file());
    }
}

#[test]
fn where_no_folder_can_be_shown_papers_lie_where_they_can_be_reached() {
    let mut app = app_on(PORTRAIT, false);
    make_papers(&mut app);
    let site = app.harness.state().visit().unwrap().folder().to_path_buf();
    let name = site.file_name().unwrap().to_str().unwrap();
    app.says(&format!(
        "the drawer under the bench, and there papers, {name}"
    ));
    let keys = app.harness.query_by_label("open the folder");
    assert!(keys.is_none());
    let own = app.device.folder.join("papers").join(name);
    assert!(own.join("owner.pdf").is_file() && own.join("crew.pdf").is_file());
}
