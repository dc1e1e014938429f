//! What was decided for the order of a job, as a person may write it by hand.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

use underbrick_calc::order::{Decimal, Item, Stage, Way};
use underbrick_calc::place::Place;
use underbrick_records::v1::{OrderLine, StageHours};
use underbrick_records::{SiteFile, catalogue, read_site, write_site};

fn site() -> SiteFile {
    SiteFile::new("3 Sample Lane", "front walk")
}

fn line(item: &str, rate: &str, locked: &str) -> OrderLine {
    OrderLine {
        item: item.to_owned(),
        rate: rate.to_owned(),
        locked: locked.to_owned(),
        ..OrderLine::default()
    }
}

fn hours(stage: &str, hours: &str) -> StageHours {
    StageHours {
        stage: stage.to_owned(),
        hours: hours.to_owned(),
    }
}

/// The findings about the order, each with its place.
fn said(site: &SiteFile) -> Vec<(Place, String)> {
    let (_, findings) = site.checked(&catalogue().unwrap());
    let is_of_order = |place: Place| {
        matches!(
            place,
            Place::OrderWay
                | Place::OrderLine(_)
                | Place::OrderRate(_)
                | Place::OrderCount(_)
                | Place::CrewSize
                | Place::CrewRate
                | Place::StageHours(_)
        )
    };
    findings
        .iter()
        .filter(|finding| is_of_order(finding.place))
        .map(|finding| (finding.place, finding.text.clone()))
        .collect()
}

#[test]
fn what_nobody_decided_is_not_in_the_file() {
    let text = write_site(&site());
    assert!(!text.contains("order:"), "{text}");
    let mut decided = site();
    decided.set_way(Way::Relay);
    assert!(write_site(&decided).contains("order: (way: Relay)"));
    decided.set_way(Way::default());
    assert_eq!(write_site(&decided), text);
}

#[test]
fn what_was_decided_comes_to_the_calculation() {
    let mut site = site();
    site.set_way(Way::NewBrick);
    assert!(site.set_text(Place::CrewSize, "3"));
    assert!(site.set_text(Place::CrewRate, "38.50"));
    assert!(site.set_text(Place::OrderRate(Item::Base), " 27.5 "));
    assert!(site.set_text(Place::StageHours(Stage::Dig), "0"));
    site.set_supplier(Item::Brick, Some("Brick yard"));
    site.lock(Item::Fabric, Some(Decimal::new(120, 1)));
    let read = read_site(&write_site(&site)).unwrap();
    assert_eq!(read, site);
    assert_eq!(said(&read), []);
    let (checked, _) = read.checked(&catalogue().unwrap());
    let order = checked.order;
    assert_eq!((order.way, order.n_crew), (Way::NewBrick, Some(3)));
    assert_eq!(order.crew_rate.unwrap().0, Decimal::new(3850, 2));
    assert_eq!(
        order.line(Item::Base).unwrap().rate.unwrap().0,
        Decimal::new(275, 1)
    );
    let brick = order.line(Item::Brick).unwrap();
    assert_eq!(brick.supplier.as_deref(), Some("Brick yard"));
    assert_eq!(
        order.line(Item::Fabric).unwrap().locked,
        Some(Decimal::from(12))
    );
    assert_eq!(order.hours_of(Stage::Dig), Some(Decimal::ZERO));
}

/// What is typed at a place is kept as typed, is missing from the calculation, and is told in words that hold these.
#[track_caller]
fn refused(place: Place, typed: &str, words: &[&str]) {
    let mut site = site();
    assert!(site.set_text(place, typed));
    let read = read_site(&write_site(&site)).unwrap();
    assert_eq!(read.text(place), Some(typed));
    let said = said(&read);
    assert_eq!(said.len(), 1, "{said:?}");
    assert_eq!(said[0].0, place);
    for word in words {
        assert!(said[0].1.contains(word), "{word:?} in {:?}", said[0].1);
    }
    let (checked, _) = read.checked(&catalogue().unwrap());
    let order = checked.order;
    assert!(order.n_crew.is_none() && order.crew_rate.is_none());
    assert!(
        order
            .lines
            .iter()
            .all(|line| line.rate.is_none() && line.locked.is_none())
    );
    assert!(order.stages.iter().all(|stage| stage.hours.is_none()));
}

#[test]
fn what_cannot_be_is_kept_and_told() {
    let rate = Place::OrderRate(Item::Base);
    refused(rate, "0", &["0"]);
    refused(rate, "-4", &["“-”"]);
    refused(rate, "27,50", &["comma"]);
    refused(rate, "27.50 per ton", &["“ ”"]);
    refused(rate, "100001", &["100001", "100000"]);
    refused(rate, "4.5.1", &["second"]);
    let count = Place::OrderCount(Item::Brick);
    refused(count, "many", &["“m”"]);
    refused(count, "1000001", &["1000001"]);
    refused(Place::CrewSize, "0", &["0"]);
    refused(Place::CrewSize, "21", &["21", "20"]);
    refused(Place::CrewSize, "two", &["two"]);
    refused(Place::CrewRate, "0", &["0"]);
    refused(Place::StageHours(Stage::Cut), "1001", &["1001", "1000"]);
    refused(Place::StageHours(Stage::Cut), "0.0000001", &["6 decimals"]);
}

#[test]
fn a_word_that_nobody_knows_is_kept_told_and_not_used() {
    let mut site = site();
    site.order.lines = vec![
        line("gravel-dust", "4", ""),
        line(" base ", "27.50", ""),
        line("base", "99", "3"),
    ];
    site.order.stages = vec![hours("dance", "2"), hours("dig", "1.5"), hours("dig", "9")];
    let read = read_site(&write_site(&site)).unwrap();
    assert_eq!(read, site);
    let words: Vec<String> = said(&read).into_iter().map(|(_, text)| text).collect();
    assert_eq!(
        words,
        [
            "Order: \"gravel-dust\" is no line of an order.",
            "Order: \"base\" stands twice; the first one is used.",
            "Order: \"dance\" is no stage of the work.",
            "Order: \"dig\" stands twice; the first one is used.",
        ]
    );
    let (checked, _) = read.checked(&catalogue().unwrap());
    let base = checked.order.line(Item::Base).unwrap();
    assert_eq!(base.rate.unwrap().0, Decimal::new(2750, 2));
    assert_eq!(base.locked, None);
    assert_eq!(
        checked.order.hours_of(Stage::Dig),
        Some(Decimal::new(15, 1))
    );
    // What is shown, and typed over, is the first one.
    let mut typed = read;
    assert_eq!(typed.text(Place::OrderRate(Item::Base)), Some("27.50"));
    assert!(typed.set_text(Place::OrderRate(Item::Base), "28"));
    assert_eq!(typed.order.lines[1].rate, "28");
    assert_eq!(typed.order.lines.len(), 3);
}
