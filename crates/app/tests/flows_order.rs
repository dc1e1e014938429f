//! Stop Order: a way taken, a line opened and defended, a rate and a supplier of one's own, a line locked, the order sent; kept on disk
//! and undone.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use egui::{OutputCommand, Role, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use tempfile::TempDir;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::order::{Item, Money, OrderLine, Priced, Sold, Stage, Way};
use underbrick_calc::place::Place;
use underbrick_records::{KeepStatus, OpenSite, Shelf};

const LANDSCAPE: Vec2 = vec2(1280.0, 800.0);
const PORTRAIT: Vec2 = vec2(800.0, 1280.0);

struct App {
    harness: Harness<'static, Shell>,
    _folder: TempDir,
}

/// A copy of a sample, open at the stop.
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
    harness.state_mut().go_to(Stop::Order);
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

    /// The whole name of the one button that begins so.
    #[track_caller]
    fn named(&self, start: &str) -> String {
        let names: Vec<String> = self
            .harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label())
            .filter(|name| name.starts_with(start))
            .collect();
        let [name] = names.as_slice() else {
            panic!("{} buttons begin with {start}: {names:?}", names.len());
        };
        name.clone()
    }

    /// The name of the first button that begins so.
    #[track_caller]
    fn first_named(&self, start: &str) -> String {
        self.harness
            .query_all_by_role(Role::Button)
            .filter_map(|node| node.accesskit_node().label())
            .find(|name| name.starts_with(start))
            .expect("a button begins so")
    }

    /// Taps the one button whose name begins so.
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

    fn type_at(&mut self, place: Place, typed: &str) {
        self.harness.state_mut().set(place);
        self.run();
        for key in typed.chars() {
            self.harness
                .get_by_role_and_label(Role::Button, &key.to_string())
                .click();
            self.run();
        }
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

    fn priced(&self) -> &Priced {
        let order = self.visit().results().order.as_ref().unwrap();
        order.chosen().unwrap()
    }

    fn line(&self, item: Item) -> &OrderLine {
        self.priced().line(item).expect("the line is there")
    }

    fn sold(&self, item: Item) -> &Sold {
        self.line(item).sold.as_ref().expect("the line has a price")
    }

    fn written(&self, amount: Money) -> String {
        let order = self.visit().results().order.as_ref().unwrap();
        order.currency.written(amount)
    }

    /// The line is open, with what stands behind it.
    #[track_caller]
    fn open_line(&mut self, item: Item) {
        self.harness.state_mut().look_at(Place::OrderLine(item));
        self.run();
    }

    fn on_disk(&self) -> OpenSite {
        for _ in 0..500 {
            if self.visit().keep_status() == KeepStatus::OnDisk {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(10));
        }
        OpenSite::open(self.visit().folder()).unwrap()
    }

    /// Taps a key and gives what it put on the clipboard.
    #[track_caller]
    fn copied(&mut self, start: &str) -> String {
        let name = self.named(start);
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .scroll_to_me();
        self.run();
        self.harness
            .get_by_role_and_label(Role::Button, &name)
            .click();
        self.harness.step();
        let commands = &self.harness.output().platform_output.commands;
        let text = commands.iter().find_map(|command| match command {
            OutputCommand::CopyText(text) => Some(text.clone()),
            _ => None,
        });
        let text = text.expect("something was copied");
        self.run();
        text
    }
}

#[test]
fn another_way_is_one_tap_and_one_step_back() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = opened("curved", size);
        assert_eq!(app.visit().site().order.way, Way::NewBase);
        let dear = app.priced().price.total;
        for way in Way::ALL {
            app.named(way.name());
        }
        app.press(Way::Relay.name());
        assert_eq!(app.visit().site().order.way, Way::Relay);
        assert_eq!(app.priced().way, Way::Relay);
        assert!(app.priced().price.total < dear);
        // On the old base there is no base to be bought.
        assert!(app.priced().line(Item::Base).is_none());
        assert_eq!(Way::from(app.on_disk().site().order.way), Way::Relay);
        app.press("undo");
        assert_eq!(app.visit().site().order.way, Way::NewBase);
        assert_eq!(app.priced().price.total, dear);
    }
}

/// Which drawings light something, by the first words of each.
fn lit_in(app: &App) -> Vec<String> {
    app.harness
        .query_all_by_label_contains("Lit for")
        .map(|node| {
            let words = node.accesskit_node().label().unwrap();
            let end = words.find([' ', ',']);
            words.get(..end.unwrap_or(0)).unwrap_or_default().to_owned()
        })
        .collect()
}

#[test]
fn an_open_line_lights_where_its_number_comes_from() {
    let mut app = opened("curved", LANDSCAPE);
    assert!(!app.says("Lit for"));
    let name = app.line(Item::Base).need.name.clone();
    app.press(&name);
    // Section and long section both light the lifts, at least one mark for each.
    assert_eq!(lit_in(&app), ["Cross-section", "Long"]);
    let n_lifts = app.visit().results().bed.as_ref().unwrap().lifts.each.len();
    for node in app.harness.query_all_by_label_contains("Lit for") {
        let words = node.accesskit_node().label().unwrap();
        let (_, lit) = words.split_once(&format!("Lit for {name}: ")).unwrap();
        let (n_marks, _) = lit.split_once(' ').unwrap();
        assert!(n_marks.parse::<usize>().unwrap() >= n_lifts, "{lit}");
    }
    // Joints are measured in the plan, and their depth in the section.
    app.open_line(Item::Jointing);
    assert_eq!(lit_in(&app), ["Plan", "Cross-section"]);
    // A second tap folds it, and the light goes out.
    let name = app.line(Item::Jointing).need.name.clone();
    app.press(&name);
    assert!(!app.says("Lit for"));
    // At another stop nothing is lit.
    app.open_line(Item::Base);
    app.harness.state_mut().go_to(Stop::Bed);
    app.run();
    assert!(!app.says("Lit for"));
}

#[test]
fn a_rate_of_ones_own_changes_line_and_price() {
    let mut app = opened("curved", LANDSCAPE);
    let before = app.priced().price.clone();
    let was = app.sold(Item::Base).clone();
    app.open_line(Item::Base);
    app.press("Rate");
    assert_eq!(
        app.harness.state().setting(),
        Some(Place::OrderRate(Item::Base))
    );
    app.type_at(Place::OrderRate(Item::Base), "95");
    let now = app.sold(Item::Base).clone();
    assert!(now.is_own_rate);
    assert_eq!(now.rate.0.to_string(), "95");
    assert_ne!(now.amount, was.amount);
    assert_ne!(app.priced().price.material, before.material);
    assert!(app.says(&app.written(now.amount.unwrap())));
    assert_eq!(
        app.on_disk()
            .site()
            .text(Place::OrderRate(Item::Base))
            .unwrap(),
        "95"
    );
    app.press("undo");
    assert_eq!(app.sold(Item::Base), &was);
    assert_eq!(app.priced().price, before);
}

#[test]
fn another_supplier_is_one_tap() {
    let mut app = opened("curved", LANDSCAPE);
    let item = Item::ALL
        .into_iter()
        .find(|item| {
            app.priced()
                .line(*item)
                .is_some_and(|line| !line.others.is_empty())
        })
        .expect("a line with two suppliers");
    let was = app.sold(item).clone();
    let other = app.line(item).others.first().unwrap().clone();
    app.open_line(item);
    app.press(&other.supplier);
    let now = app.sold(item).clone();
    assert_eq!(
        (now.supplier, now.rate, now.count),
        (other.supplier.clone(), other.rate, other.count)
    );
    assert_eq!(
        app.line(item).others.first().unwrap().supplier,
        was.supplier
    );
    app.press("undo");
    assert_eq!(app.sold(item), &was);
}

#[test]
fn a_locked_line_stays_and_says_what_the_readings_ask_now() {
    let mut app = opened("curved", LANDSCAPE);
    let count = app.sold(Item::Base).count.unwrap();
    app.open_line(Item::Base);
    app.press("lock at");
    assert!(app.sold(Item::Base).is_locked);
    assert_eq!(app.sold(Item::Base).count, Some(count));
    // Half a foot more of what must come out, in every pit.
    let n_pits = app.visit().site().pits.len();
    for pit_idx in 0..n_pits {
        app.type_at(Place::LayerThickness(pit_idx, 1), "20");
    }
    app.harness.state_mut().go_to(Stop::Order);
    app.run();
    let now = app.sold(Item::Base).clone();
    assert_eq!(now.count, Some(count));
    let asked = now.asked_now.expect("the readings ask for more");
    assert!(asked > count);
    assert!(app.says("the readings now ask"));
    app.open_line(Item::Base);
    app.press("unlock");
    assert_eq!(app.sold(Item::Base).count, Some(asked));
    assert!(!app.says("the readings now ask"));
}

#[test]
fn crew_and_hours_are_set_here() {
    let mut app = opened("curved", PORTRAIT);
    let before = app.priced().price.clone();
    app.press("Hour of one person");
    app.type_at(Place::CrewRate, "61");
    assert_ne!(app.priced().price.labour, before.labour);
    app.press("People on this job");
    app.type_at(Place::CrewSize, "4");
    assert_eq!(app.priced().programme.n_crew, 4);
    app.harness
        .state_mut()
        .set(Place::StageHours(Stage::Screed));
    app.run();
    app.press("Hours a unit");
    app.type_at(Place::StageHours(Stage::Screed), "1");
    let screed = app
        .priced()
        .labour
        .iter()
        .find(|labour| labour.work.stage == Stage::Screed)
        .unwrap();
    assert!(screed.is_own);
    // An hour for each unit of work: as many hours as units, to the hundredth.
    let units = screed.amount.map(|amount| amount.round_dp(2));
    assert_eq!(screed.hours, units);
    let file = app.on_disk();
    assert_eq!(file.site().text(Place::CrewRate), Some("61"));
    assert_eq!(file.site().text(Place::CrewSize), Some("4"));
}

#[test]
fn a_half_measured_site_says_at_least_and_leads_to_what_is_missing() {
    let mut app = opened("half-measured", LANDSCAPE);
    assert!(app.priced().price.is_least);
    assert!(app.says("at least"));
    assert!(app.says("not known"));
    let unknown = app
        .priced()
        .lines
        .iter()
        .find(|line| line.need.amount.is_none())
        .map(|line| (line.item, line.need.clone()))
        .expect("a line is not known");
    app.open_line(unknown.0);
    let last = unknown.1.steps.last().expect("it says what is missing");
    assert!(app.says(last.what));
    // The key beside it leads to where it is measured.
    let asked = app.first_named("missing: ");
    let fold = app.line(unknown.0).need.name.clone();
    app.press(&format!("{fold}, "));
    app.press(&asked);
    assert_eq!(app.harness.state().setting(), Some(Place::BricksOnSite));
    app.type_at(Place::BricksOnSite, "300");
    app.harness.state_mut().go_to(Stop::Order);
    app.run();
    assert!(app.line(unknown.0).need.amount.is_some());
}

#[test]
fn the_order_is_copied_for_suppliers_and_for_a_spreadsheet() {
    let mut app = opened("curved", LANDSCAPE);
    let supplier = app.sold(Item::Base).supplier.clone();
    let text = app.copied(&format!("copy the message to {supplier}"));
    assert!(text.starts_with(&format!("To {supplier}")));
    assert!(text.contains(&app.line(Item::Base).need.name));
    assert!(app.says(&format!("✓ copied: the message to {supplier}")));
    let csv = app.copied("copy the order for a spreadsheet");
    assert!(csv.starts_with("item,group,name,"));
    assert!(csv.lines().count() > app.priced().lines.len());
    assert!(app.says("✓ copied: the order for a spreadsheet"));
    // What was copied is the order as it was: after a change it says so no more.
    app.type_at(Place::CrewSize, "3");
    assert!(!app.says("✓ copied"));
}

#[test]
fn every_line_and_every_stage_can_be_opened_and_defended() {
    for size in [LANDSCAPE, PORTRAIT] {
        let mut app = opened("curved", size);
        let items: Vec<Item> = app.priced().lines.iter().map(|line| line.item).collect();
        assert!(items.len() > 8, "{items:?}");
        for item in items {
            app.open_line(item);
            let line = app.line(item).clone();
            let step = line.need.steps.first().expect("a step at least");
            assert!(app.says(step.what), "{}", line.need.name);
            assert!(app.says("Rate"), "{}", line.need.name);
        }
        let stages: Vec<Stage> = app
            .priced()
            .labour
            .iter()
            .map(|labour| labour.work.stage)
            .collect();
        assert!(stages.len() > 6, "{stages:?}");
        for stage in stages {
            app.harness.state_mut().set(Place::StageHours(stage));
            app.run();
            assert!(app.says("Hours a unit"), "{}", stage.name());
            assert!(app.says("work: "), "{}", stage.name());
        }
    }
}
