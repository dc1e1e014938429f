//! The list of changes: what is other between two states in words, lines that go on, lines that are damaged, and the list on a disk.

use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use underbrick_calc::build::{HoldStage, SpotKind, Surface};
use underbrick_calc::field::{Kind, field, full_name};
use underbrick_calc::order::Item;
use underbrick_calc::place::Place;

use super::compared::compared;
use super::*;
use crate::open::OpenSite;
use crate::read::{read_site, write_site};
use crate::v1::{Bond, Firmness, SiteFile};
use crate::{History, Keeper};

const LONG: Duration = Duration::from_secs(20);

fn stamp() -> Stamp {
    Stamp {
        at: "2026-05-04T12:00:00Z".to_owned(),
        by: "JM".to_owned(),
        device: "tablet A".to_owned(),
    }
}

fn noted(how: How, goes_on: bool) -> Noted {
    Noted {
        stamp: stamp(),
        how,
        goes_on,
    }
}

fn samples() -> Vec<SiteFile> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-sites");
    let sites = fs::read_dir(folder).unwrap();
    sites
        .map(|site| fs::read_to_string(site.unwrap().path().join("site.ron")).unwrap())
        .map(|text| read_site(&text).unwrap())
        .collect()
}

#[track_caller]
fn check(before: &SiteFile, after: &SiteFile, expected: &[(&str, &str, &str)]) {
    let found = compared(before, after);
    let found: Vec<_> = found
        .iter()
        .map(|found| (found.what.as_str(), found.from.as_str(), found.to.as_str()))
        .collect();
    assert_eq!(found, expected);
}

/// Every value of the samples is told under the field's own name, with what stood there and what stands there.
#[test]
fn every_value_is_told_under_its_name() {
    let mut n_told = 0;
    for site in samples() {
        for place in site.text_places() {
            let mut other = site.clone();
            assert!(other.set_text(place, "7 other"));
            let found = compared(&site, &other);
            assert_eq!(found.len(), 1, "{place:?}: {found:?}");
            let found = found.first().unwrap();
            let is_of_a_list = matches!(field(place).kind, Kind::Choice);
            if !is_of_a_list {
                assert_eq!(found.from, site.text(place).unwrap(), "{place:?}");
            }
            assert_eq!(found.to, "7 other", "{place:?}");
            let has_own_words = matches!(
                place,
                Place::BuildStation(_)
                    | Place::BuildOffset(_)
                    | Place::BuildValue(_)
                    | Place::SpotStation(_)
                    | Place::SpotSize(_)
                    | Place::DayDate(_)
                    | Place::DayCrew(_)
                    | Place::DayWeather(_)
                    | Place::DayNotes(_)
                    | Place::DeliveryItem(..)
                    | Place::DeliveryCount(..)
            );
            if !has_own_words {
                assert_eq!(found.what, full_name(place));
            }
            n_told += 1;
        }
    }
    assert!(n_told > 700, "{n_told}");
}

#[test]
fn readings_and_checks_are_named_by_surface_and_station() {
    let empty = SiteFile::new("3 Sample Lane", "");
    let mut asked = empty.clone();
    asked.add_build_reading("12 ft", "", Surface::DigBottom, false, stamp());
    // Asked for, and not read yet.
    check(&empty, &asked, &[]);
    let mut read = asked.clone();
    read.set_text(Place::BuildValue(0), "14 1/2 in");
    check(
        &asked,
        &read,
        &[("Bottom of dig at 12 ft", "", "14 1/2 in")],
    );
    let mut twice = read.clone();
    twice.add_build_reading("3 ft", "6 in", Surface::LiftTop(2), false, stamp());
    twice.set_text(Place::BuildValue(1), "9 in");
    check(
        &read,
        &twice,
        &[("Lift 2 at 3 ft, 6 in off the middle", "", "9 in")],
    );
    // What is behind the one that is taken away is the same as before.
    let mut without = twice.clone();
    without.remove_build_reading(0);
    check(
        &twice,
        &without,
        &[("Bottom of dig at 12 ft", "14 1/2 in", "taken away")],
    );
    let mut moved = read.clone();
    moved.set_text(Place::BuildStation(0), "15 ft");
    check(
        &read,
        &moved,
        &[("Bottom of dig at 15 ft: station", "12 ft", "15 ft")],
    );
    let mut sure = read.clone();
    sure.confirm_build_reading(0, true);
    check(
        &read,
        &sure,
        &[(
            "Bottom of dig at 12 ft: asked about, and right",
            "no",
            "yes",
        )],
    );
    let mut spot = read.clone();
    spot.add_spot(SpotKind::Lippage, "", stamp());
    spot.set_text(Place::SpotSize(0), "1/16 in");
    check(&read, &spot, &[("Step from brick to brick", "", "1/16 in")]);
}

#[test]
fn stages_lifts_and_days_are_told() {
    let empty = SiteFile::new("3 Sample Lane", "");
    let mut lift = empty.clone();
    lift.set_text(Place::LiftPasses(2), "4");
    let name = full_name(Place::LiftPasses(2));
    check(&empty, &lift, &[(name.as_str(), "", "4")]);
    let mut closed = empty.clone();
    closed.close_stage(HoldStage::Dig, stamp());
    check(
        &empty,
        &closed,
        &[("Dig, trim, compact the bottom", "open", "closed")],
    );
    let mut day = empty.clone();
    day.add_day("2026-05-04", stamp());
    check(&empty, &day, &[("Day 2026-05-04", "", "added")]);
    let mut crew = day.clone();
    crew.set_text(Place::DayCrew(0), "Rain");
    check(&day, &crew, &[("Day 2026-05-04: crew", "", "Rain")]);
    let mut came = crew.clone();
    came.add_delivery(0);
    came.set_text(Place::DeliveryItem(0, 0), Item::Base.key());
    check(&crew, &came, &[]);
    let mut counted = came.clone();
    counted.set_text(Place::DeliveryCount(0, 0), "2.5");
    let name = format!("Day 2026-05-04: {} that came", Item::Base.name());
    check(&came, &counted, &[(name.as_str(), "", "2.5")]);
}

#[test]
fn what_is_chosen_is_told_in_words() {
    let site = SiteFile::new("3 Sample Lane", "");
    let mut bond = site.clone();
    bond.lay.bond = Bond::Herringbone90;
    check(&site, &bond, &[("Bond", "as usual", "herringbone 90")]);
    let mut fabric = site.clone();
    fabric.bed.fabric = true;
    let name = full_name(Place::Fabric);
    check(&site, &fabric, &[(name.as_str(), "no", "yes")]);
    let mut spiked = site.clone();
    spiked.edge.restraint = crate::v1::Restraint::spiked();
    let name = full_name(Place::Restraint);
    check(&site, &spiked, &[(name.as_str(), "haunch", "spiked")]);
    let mut leg = site.clone();
    leg.add_curved_leg(underbrick_calc::site::Hand::Left);
    check(&site, &leg, &[("Leg 2", "", "added")]);
    let mut pit = site.clone();
    pit.add_pit();
    pit.add_layer(0, "silty-clay");
    let mut firm = pit.clone();
    firm.pits[0].layers[0].firmness = Some(Firmness::VeryHard);
    check(&pit, &firm, &[("Pit 1 layer 1 firmness", "", "very hard")]);
    let mut second = site.clone();
    second.set_second_brick(true);
    check(&site, &second, &[("Second brick", "", "there")]);
}

#[test]
fn lines_are_read_as_they_were_written_and_may_stand_for_the_one_before() {
    let one = Change {
        at: stamp().at,
        by: "J \"M\"\n".to_owned(),
        device: "tablet A".to_owned(),
        what: "Width".to_owned(),
        from: String::new(),
        to: "4 ft".to_owned(),
        how: How::TakenBack,
        goes_on: false,
        step: 7,
    };
    let line = one.line();
    assert_eq!(line.matches('\n').count(), 1, "{line}");
    assert_eq!(ChangeList::read(&line).changes, std::slice::from_ref(&one));
    let longer = Change {
        to: "4 ft 6 in".to_owned(),
        goes_on: true,
        ..one.clone()
    };
    let text = format!("// head\n{line}{}", longer.line());
    assert_eq!(
        ChangeList::read(&text).changes,
        std::slice::from_ref(&longer)
    );
    // The line that it stands for is damaged: no other is given up for it.
    let text = format!("{line}(at: \"20\n{}", longer.line());
    let list = ChangeList::read(&text);
    assert_eq!(list.changes, [one, longer]);
    assert_eq!(list.faults.len(), 1);
    assert_eq!(list.faults.first().unwrap().line, Some(2));
}

#[test]
fn a_line_of_a_newer_program_is_read_as_far_as_it_is_known() {
    let list = ChangeList::read("(at: \"2026-05-04T12:00:00Z\", what: \"Width\", voice: Loud)");
    assert_eq!(list.changes.first().unwrap().what, "Width");
    assert!(list.faults.is_empty());
}

#[test]
fn a_time_before_the_one_before_is_seen() {
    let at = |at: &str| Change {
        at: at.to_owned(),
        ..Change::default()
    };
    assert!(at("2026-05-04T11:59:59Z").is_earlier_than(&at("2026-05-04T12:00:00Z")));
    // 7 o'clock five hours behind is noon.
    assert!(!at("2026-05-04T07:00:00-05:00").is_earlier_than(&at("2026-05-04T12:00:00Z")));
    assert!(!at("some time").is_earlier_than(&at("2026-05-04T12:00:00Z")));
}

struct Site {
    folder: tempfile::TempDir,
    history: History,
    keeper: Keeper,
}

impl Site {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let site = SiteFile::new("12 Alder Court", "front walk");
        fs::write(folder.path().join("site.ron"), write_site(&site)).unwrap();
        Self::open(folder)
    }

    fn open(folder: tempfile::TempDir) -> Self {
        let history = OpenSite::open(folder.path()).unwrap().history().clone();
        let keeper = Keeper::start(folder.path().to_path_buf(), &history, Box::new(|| {})).unwrap();
        Self {
            folder,
            history,
            keeper,
        }
    }

    fn again(self) -> Self {
        let Self { folder, keeper, .. } = self;
        drop(keeper);
        Self::open(folder)
    }

    fn width(&mut self, width: &str, goes_on: bool) {
        if goes_on {
            self.history.undo();
        }
        let mut site = self.history.now().clone();
        site.set_text(Place::Width, width);
        let step = self.history.push(site);
        let now = self.history.now().clone();
        self.keeper
            .keep_noted(now, step, noted(How::Written, goes_on));
    }

    fn undo(&mut self) {
        let site = self.history.undo().unwrap();
        self.keeper
            .keep_noted(site, self.history.step(), noted(How::TakenBack, false));
    }

    fn text(&self) -> String {
        fs::read_to_string(self.folder.path().join(CHANGES)).unwrap_or_default()
    }

    /// From what to what, oldest first, once the thread has read the file.
    fn listed(&self) -> Vec<(String, String)> {
        assert!(self.keeper.flush(LONG));
        let list: Arc<ChangeList> = self.keeper.changes();
        let changes = list.changes.iter();
        changes
            .map(|change| (change.from.clone(), change.to.clone()))
            .collect()
    }
}

fn pairs(expected: &[(&str, &str)]) -> Vec<(String, String)> {
    let expected = expected.iter();
    expected
        .map(|(from, to)| ((*from).to_owned(), (*to).to_owned()))
        .collect()
}

#[test]
fn a_value_that_is_typed_is_one_line_and_an_undo_another() {
    let mut site = Site::new();
    for (nth, typed) in ["4", "4 f", "4 ft"].iter().enumerate() {
        site.width(typed, nth > 0);
    }
    assert_eq!(site.listed(), pairs(&[("", "4 ft")]));
    site.width("5 ft", false);
    site.undo();
    let expected = pairs(&[("", "4 ft"), ("4 ft", "5 ft"), ("5 ft", "4 ft")]);
    assert_eq!(site.listed(), expected);
    // A head, and a line each.
    assert_eq!(site.text().lines().count(), 4, "{}", site.text());
    let site = site.again();
    assert_eq!(site.listed(), expected);
    let list = site.keeper.changes();
    assert_eq!(list.changes.last().unwrap().how, How::TakenBack);
    assert_eq!(list.changes.last().unwrap().by, "JM");
}

#[test]
fn typing_goes_on_after_its_line_is_on_the_disk() {
    let mut site = Site::new();
    site.width("4", false);
    assert_eq!(site.listed(), pairs(&[("", "4")]));
    assert_eq!(site.text().lines().count(), 2);
    site.width("4 ft", true);
    assert_eq!(site.listed(), pairs(&[("", "4 ft")]));
    assert_eq!(site.text().lines().count(), 3);
    let site = site.again();
    assert_eq!(site.listed(), pairs(&[("", "4 ft")]));
}

#[test]
fn typing_back_to_what_was_is_listed_where_the_disk_has_a_line() {
    let mut site = Site::new();
    site.width("4 ft", false);
    assert_eq!(site.listed(), pairs(&[("", "4 ft")]));
    site.width("", true);
    let both = pairs(&[("", "4 ft"), ("4 ft", "")]);
    assert_eq!(site.listed(), both);
    assert_eq!(site.again().listed(), both);
}

#[test]
fn what_was_changed_by_hand_is_found() {
    let mut site = Site::new();
    site.width("4 ft", false);
    assert!(site.keeper.flush(LONG));
    let Site {
        folder,
        keeper,
        history,
    } = site;
    drop(keeper);
    let mut by_hand = history.now().clone();
    by_hand.set_text(Place::Fall, "2 %");
    fs::write(folder.path().join("site.ron"), write_site(&by_hand)).unwrap();
    let mut site = Site::open(folder);
    assert_eq!(site.listed(), pairs(&[("", "4 ft"), ("", "2 %")]));
    let found = site.keeper.changes().changes.last().unwrap().clone();
    assert_eq!((found.how, found.by.as_str()), (How::Found, ""));
    // Looking writes nothing; the next change brings it along.
    assert_eq!(site.text().lines().count(), 2);
    site.width("5 ft", false);
    let all = pairs(&[("", "4 ft"), ("", "2 %"), ("4 ft", "5 ft")]);
    assert_eq!(site.listed(), all);
    let site = site.again();
    assert_eq!(site.listed(), all);
}

#[test]
fn a_damaged_line_and_a_torn_end_are_told_and_stay() {
    let mut site = Site::new();
    site.width("4 ft", false);
    assert!(site.keeper.flush(LONG));
    let Site { folder, keeper, .. } = site;
    drop(keeper);
    let path = folder.path().join(CHANGES);
    let torn = fs::read_to_string(&path).unwrap() + "(at: \"2026-05-04T12:00:00Z\", by: \"J";
    fs::write(&path, &torn).unwrap();
    let mut site = Site::open(folder);
    site.width("5 ft", false);
    assert_eq!(site.listed(), pairs(&[("", "4 ft"), ("4 ft", "5 ft")]));
    assert_eq!(site.keeper.changes().faults.len(), 1);
    let text = site.text();
    assert!(text.starts_with(&format!("{torn}\n")), "{text}");
    let site = site.again();
    assert_eq!(site.listed(), pairs(&[("", "4 ft"), ("4 ft", "5 ft")]));
    assert_eq!(site.keeper.changes().faults.first().unwrap().line, Some(3));
}

#[test]
fn a_list_that_cannot_be_written_holds_up_nothing() {
    let mut site = Site::new();
    fs::create_dir(site.folder.path().join(CHANGES)).unwrap();
    site.width("4 ft", false);
    assert!(!site.keeper.flush(Duration::from_millis(1500)));
    let status = format!("{:?}", site.keeper.status());
    assert!(status.contains(CHANGES), "{status}");
    let text = fs::read_to_string(site.folder.path().join("site.ron")).unwrap();
    assert!(text.contains("4 ft"), "{text}");
    fs::remove_dir(site.folder.path().join(CHANGES)).unwrap();
    assert_eq!(site.listed(), pairs(&[("", "4 ft")]));
    assert_eq!(site.text().lines().count(), 2);
}
