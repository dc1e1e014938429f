//! A price list of one's own beside the sites: read with the list of sites, said there, used in the next site, and gone when it is.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};

use egui::{Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::Shell;
use underbrick_app::theme::{self, Theme};
use underbrick_records::{BUILT_IN_PRICES, OwnTables, Shelf};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const STARTER: &str = "Starter list, invented figures";

struct App {
    harness: Harness<'static, Shell>,
    folder: TempDir,
}

/// The list of sites over copies of the samples, with these tables.
fn started(own: impl Fn(OwnTables) -> OwnTables) -> App {
    let folder = tempfile::tempdir().unwrap();
    let shelf = Shelf::at(folder.path());
    shelf.copy_samples().unwrap();
    let own = own(shelf.own_tables());
    let shell = Shell::with_tables(shelf, underbrick_records::catalogue().unwrap(), own);
    let harness = Harness::builder()
        .with_size(LANDSCAPE)
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    App { harness, folder }
}

impl App {
    #[track_caller]
    fn press(&mut self, label: &str) {
        self.harness
            .query_all_by_role_and_label(Role::Button, label)
            .next()
            .unwrap_or_else(|| panic!("a key {label:?}"))
            .click();
        let _settled = self.harness.run_ok();
    }

    /// The price list and the currency of the order of the open site.
    #[track_caller]
    fn list(&self) -> (&str, &str) {
        let visit = self.harness.state().visit().expect("a site is open");
        let order = visit.results().order.as_ref().expect("an order");
        (&order.list, order.currency.code)
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

    fn file(&self) -> PathBuf {
        self.folder.path().join("prices.ron")
    }
}

fn ours() -> String {
    BUILT_IN_PRICES
        .replace(STARTER, "Ours")
        .replace("\"USD\"", "\"CAD\"")
}

#[test]
fn an_own_list_is_read_with_the_list_of_sites_and_used_in_the_next_site() {
    let mut app = started(|own| own);
    let file = app.file();
    assert_eq!(app.said_of(&file), Vec::<String>::new());
    app.press("12 Alder Court");
    assert_eq!(app.list(), (STARTER, "USD"));
    std::fs::write(&file, ours()).unwrap();
    app.press("add a pit");
    assert_eq!(
        app.list(),
        (STARTER, "USD"),
        "nothing is read on the path of a tap"
    );
    app.press("Sites");
    let said = app.said_of(&file);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].starts_with("Prices: Ours, your own: "), "{said:?}");
    app.press("12 Alder Court");
    assert_eq!(app.list(), ("Ours", "CAD"));

    app.press("Sites");
    std::fs::remove_file(&file).unwrap();
    app.press("12 Alder Court");
    assert_eq!(app.list(), ("Ours", "CAD"), "as read with the list");
    app.press("Sites");
    assert_eq!(app.said_of(&file), Vec::<String>::new());
    app.press("12 Alder Court");
    assert_eq!(app.list(), (STARTER, "USD"));
}

/// What the list of sites says of a list that cannot be used; the built-in one is then in force, and the file is as it was.
#[track_caller]
fn left_out(text: &str, words: &[&str]) {
    let mut app = started(|own| own);
    let file = app.file();
    app.press("12 Alder Court");
    std::fs::write(&file, text).unwrap();
    app.press("Sites");
    let said = app.said_of(&file);
    let [said] = said.as_slice() else {
        panic!("{said:?}");
    };
    for word in ["Your own prices are left out"].iter().chain(words) {
        assert!(said.contains(word), "{word:?} in {said:?}");
    }
    app.press("12 Alder Court");
    assert_eq!(app.list(), (STARTER, "USD"));
    app.press("Sites");
    assert_eq!(std::fs::read_to_string(&file).unwrap(), text);
}

#[test]
fn a_list_that_cannot_be_used_is_told_and_the_built_in_one_used() {
    left_out(
        &ours().replace("24.50 per ton", "24.50"),
        &["line ", "column ", "24.50", "unit of sale is missing"],
    );
    left_out(&ours().replace("version: 1", "version: 3"), &["format 3"]);
    left_out("", &["empty"]);
}

#[test]
fn a_list_named_at_the_start_must_be_there() {
    let elsewhere = tempfile::tempdir().unwrap();
    let named = elsewhere.path().join("ours.ron");
    let app = started(|own| own.or_named(None, Some(named.clone())));
    let said = app.said_of(&named);
    assert!(
        said.iter()
            .any(|said| said.contains("no such folder or file")),
        "{said:?}"
    );
    std::fs::write(&named, ours()).unwrap();
    let mut app = started(|own| own.or_named(None, Some(named.clone())));
    app.press("12 Alder Court");
    assert_eq!(app.list(), ("Ours", "CAD"));
}
