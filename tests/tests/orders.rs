//! The order of every sample site, from its file to text, JSON and CSV.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::order::{Cured, Decimal, Item, Order, Way};
use underbrick_calc::site::{LegShape, Site};
use underbrick_records::OpenSite;
use underbrick_sheets::order::{messages, order_csv, order_json, order_sheet, order_text};

fn catalogue() -> Catalogue {
    underbrick_records::catalogue().unwrap()
}

fn sites() -> Vec<(String, Site)> {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let samples = root.parent().expect("the tests package stands in the root");
    let mut folders: Vec<PathBuf> = std::fs::read_dir(samples.join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    let catalogue = catalogue();
    folders
        .iter()
        .map(|folder| {
            let (site, _) = OpenSite::open(folder).unwrap().site().checked(&catalogue);
            let name = folder.file_name().unwrap().to_string_lossy().into_owned();
            (name, site)
        })
        .collect()
}

fn site(wanted: &str) -> Site {
    let mut sites = sites();
    let at = sites.iter().position(|(name, _)| name == wanted).unwrap();
    sites.swap_remove(at).1
}

fn order(site: &Site) -> Order {
    compute(site, &catalogue()).order.unwrap()
}

#[test]
fn every_line_can_be_defended_and_is_never_below_its_need() {
    for (name, site) in sites() {
        let order = order(&site);
        assert_eq!(order.ways.len(), 3, "{name}");
        for line in order.ways.iter().flat_map(|priced| &priced.lines) {
            let what = format!("{name}: {:?}", line.item);
            assert!(!line.need.steps.is_empty(), "{what}");
            assert!(!line.need.name.is_empty(), "{what}");
            let sold = line.sold.as_ref().expect(&what);
            if let (Some(exact), Some(count)) = (sold.exact, sold.count) {
                assert!(count >= exact, "{what}: {count} for {exact}");
                assert_eq!(
                    sold.amount.unwrap().0,
                    (count * sold.rate.0).round_dp_with_strategy(2, midpoint()),
                    "{what}"
                );
            } else {
                assert!(line.need.is_least, "{what}: not known, and not said");
            }
        }
    }
}

fn midpoint() -> rust_decimal::RoundingStrategy {
    rust_decimal::RoundingStrategy::MidpointAwayFromZero
}

#[test]
fn more_work_costs_more_and_cures_no_less() {
    for (name, site) in sites() {
        let order = order(&site);
        let of = |way: Way| order.way(way).unwrap();
        let totals = Way::ALL.map(|way| of(way).price.total);
        assert!(totals[0] < totals[1], "{name}: {totals:?}");
        assert!(totals[1] < totals[2], "{name}: {totals:?}");
        let n_cured = Way::ALL.map(|way| {
            let cures = of(way).cures.iter();
            cures.filter(|cure| cure.cured == Cured::Yes).count()
        });
        assert!(n_cured.is_sorted(), "{name}: {n_cured:?}");
        for priced in &order.ways {
            if let Some(worst) = &priced.worst {
                assert!(worst.total > priced.price.total, "{name}: {:?}", priced.way);
            }
            assert!(
                !priced.programme.days.is_empty(),
                "{name}: {:?}",
                priced.way
            );
        }
    }
}

#[test]
fn a_half_measured_walk_says_at_least() {
    let site = site("half-measured");
    let order = order(&site);
    assert!(order.chosen().unwrap().price.is_least);
    let sheet = order_sheet(&site, &order, &catalogue().prices);
    let text = order_text(&site, &order, &sheet, true);
    assert!(text.contains("at least"), "{text}");
    assert!(text.contains("not known"), "{text}");
}

#[test]
fn bricks_that_were_counted_make_the_price_whole() {
    let mut site = site("curved-to-a-drive");
    assert!(order(&site).chosen().unwrap().price.is_least);
    site.lay.n_on_site = Some(640);
    let order = order(&site);
    let chosen = order.chosen().unwrap();
    assert!(!chosen.price.is_least);
    let brick = chosen.line(Item::Brick).unwrap().sold.as_ref().unwrap();
    // 687 are needed, 640 are there: 47 with 5 % are 49.35, and no fewer than 50 are sold.
    assert_eq!(brick.exact, Some(Decimal::new(4935, 2)));
    assert_eq!(brick.count, Some(Decimal::from(50)));
}

#[test]
fn a_walk_twice_as_long_asks_at_most_for_twice_as_much_and_one_unit() {
    let short = site("short-straight-sunk-on-sand");
    let mut long = short.clone();
    for leg in &mut long.line.legs {
        if let LegShape::Straight { length } = &mut leg.shape {
            *length = length.map(|length| length * 2.0);
        }
    }
    // The pits stand as far down the walk as before, in share of it; the fall is halved, so that both ends keep their levels.
    for pit in &mut long.pits {
        pit.station = pit.station.map(|station| station * 2.0);
    }
    for shot in &mut long.line.shots {
        shot.station = shot.station.map(|station| station * 2.0);
    }
    long.line.fall = long
        .line
        .fall
        .and_then(|fall| underbrick_calc::measure::slope::Fall::from_ratio(fall.ratio() / 2.0));
    let (short, long) = (order(&short), order(&long));
    for way in Way::ALL {
        for line in &long.way(way).unwrap().lines {
            let before = short.way(way).unwrap().line(line.item).unwrap();
            let (Some(after), Some(before)) = (&line.sold, &before.sold) else {
                continue;
            };
            if let (Some(after), Some(before)) = (after.count, before.count) {
                // Hire goes by the days, which share what is left of a day.
                let most = before * Decimal::TWO + Decimal::ONE;
                assert!(
                    after <= most,
                    "{way:?} {:?}: {after} for {before}",
                    line.item
                );
            }
        }
    }
}

#[test]
fn the_sheets_of_an_order_are_read_by_other_hands() {
    for (name, site) in sites() {
        let order = order(&site);
        let sheet = order_sheet(&site, &order, &catalogue().prices);
        let json: serde_json::Value = serde_json::from_str(&order_json(&sheet)).unwrap();
        assert_eq!(json["ways"].as_array().unwrap().len(), 3, "{name}");
        let csv = order_csv(&sheet);
        let mut reader = csv::Reader::from_reader(csv.as_bytes());
        let total_at = reader
            .headers()
            .unwrap()
            .iter()
            .position(|head| head == "amount");
        let records: Vec<csv::StringRecord> =
            reader.records().map(|record| record.unwrap()).collect();
        let total = records
            .iter()
            .find(|record| record.get(0) == Some("total"))
            .unwrap();
        let chosen = order.chosen().unwrap();
        let expected = chosen.price.total.0;
        let written: Decimal = total.get(total_at.unwrap()).unwrap().parse().unwrap();
        assert_eq!(written, expected, "{name}");
        let n_lines = chosen.lines.len() + chosen.labour.len();
        assert!(records.len() > n_lines, "{name}");
        let messages = messages(&site, &order);
        assert!(
            messages.iter().all(|message| !message.text.contains('$')),
            "{name}: no prices"
        );
        assert!(
            messages.iter().any(|message| message.supplier == "Quarry"),
            "{name}"
        );
    }
}
