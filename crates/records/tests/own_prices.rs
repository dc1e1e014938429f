//! A person's own price list in the place of the built-in one, and own tables together: what is taken, what is left out and why.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::fs;

use proptest::prelude::*;
use underbrick_calc::compute;
use underbrick_calc::order::{NeedAmount, Way};
use underbrick_records::{
    BUILT_IN_PRICES, OwnTables, ReadError, RecordError, Shelf, catalogue, read_prices, read_site,
};

const OURS: &str = r#"(
    name: "Ours",
    currency: "GBP",
    crew: (people: 3, hours_a_day: "7.5", rate: "31.25"),
    gain: Margin("20"),
    items: [
        (item: "base", offers: [(supplier: "Pit", price: "28.50 per tonne")]),
    ],
    hours: [],
)
"#;

const OWN_CAUSES: &str = "(silenced: [\"too-flat\"], rules: [])";

#[test]
fn a_copy_of_the_starter_changes_nothing() {
    let built_in = catalogue().unwrap();
    assert_eq!(
        read_prices(BUILT_IN_PRICES, &built_in.materials).unwrap(),
        built_in.prices
    );
    let with_mark = format!("\u{feff}{}", BUILT_IN_PRICES.replace('\n', "\r\n"));
    assert_eq!(
        read_prices(&with_mark, &built_in.materials).unwrap(),
        built_in.prices
    );
}

#[test]
fn an_own_list_takes_the_place_of_the_starter_as_a_whole() {
    let folder = tempfile::tempdir().unwrap();
    let built_in = catalogue().unwrap();
    let tables = OwnTables::beside(folder.path());
    let none = tables.over(&built_in);
    assert_eq!(none.catalogue, built_in);
    assert!(none.causes_fault.is_none() && none.prices_fault.is_none());

    let file = folder.path().join("prices.ron");
    fs::write(&file, OURS).unwrap();
    let read = tables.over(&built_in);
    assert!(read.prices_fault.is_none());
    assert_eq!(read.catalogue.prices.name, "Ours");
    assert_eq!(read.catalogue.prices.currency.code, "GBP");
    assert_eq!(read.catalogue.prices.items.len(), 1);
    assert_eq!(
        (read.catalogue.materials, read.catalogue.causes),
        (built_in.materials, built_in.causes)
    );
    assert_eq!(fs::read_to_string(&file).unwrap(), OURS, "never written");
}

/// Which table is left out, and how that is said.
#[track_caller]
fn left_out(causes: &str, prices: &str, causes_words: Option<&str>, prices_words: Option<&str>) {
    let folder = tempfile::tempdir().unwrap();
    let built_in = catalogue().unwrap();
    fs::write(folder.path().join("causes.ron"), causes).unwrap();
    fs::write(folder.path().join("prices.ron"), prices).unwrap();
    let read = OwnTables::beside(folder.path()).over(&built_in);
    let faults = [
        (read.causes_fault, causes_words, "causes.ron"),
        (read.prices_fault, prices_words, "prices.ron"),
    ];
    for (fault, words, file) in faults {
        match (fault, words) {
            (None, None) => {}
            (Some(fault), Some(words)) => {
                let said = fault.to_string();
                assert!(said.contains(words) && said.ends_with(file), "{said}");
            }
            (fault, words) => panic!("{file}: {fault:?} for {words:?}"),
        }
    }
    assert_eq!(
        read.catalogue.causes == built_in.causes,
        causes_words.is_some()
    );
    assert_eq!(
        read.catalogue.prices == built_in.prices,
        prices_words.is_some()
    );
}

#[test]
fn one_table_that_cannot_be_used_leaves_the_other_in_force() {
    left_out(OWN_CAUSES, OURS, None, None);
    left_out(
        OWN_CAUSES,
        &OURS.replace("28.50 per tonne", "28.50"),
        None,
        Some("line 7, column "),
    );
    left_out("(rules: [}", OURS, Some("line 1, column "), None);
    left_out(
        "",
        &OURS.replace("(\n    name", "(\n    version: 4,\n    name"),
        Some("the file is empty"),
        Some("newer Underbrick: format 4"),
    );
    left_out(OWN_CAUSES, "\n", None, Some("the file is empty"));
}

#[test]
fn a_named_list_must_be_there_and_a_folder_is_none() {
    let folder = tempfile::tempdir().unwrap();
    let built_in = catalogue().unwrap();
    let named = folder.path().join("mine.ron");
    let read = OwnTables::beside(folder.path())
        .or_named(None, Some(named.clone()))
        .over(&built_in);
    assert!(matches!(
        read.prices_fault,
        Some(RecordError::Missing { .. })
    ));
    assert_eq!(read.catalogue, built_in);
    fs::create_dir(&named).unwrap();
    let read = OwnTables::beside(folder.path())
        .or_named(None, Some(named.clone()))
        .over(&built_in);
    assert!(read.prices_fault.is_some());
    fs::remove_dir(&named).unwrap();
    fs::write(&named, [b'(', 0xff]).unwrap();
    let read = OwnTables::beside(folder.path())
        .or_named(None, Some(named))
        .over(&built_in);
    match read.prices_fault {
        Some(RecordError::Unreadable {
            error: ReadError::Text { line, column, .. },
            ..
        }) => assert_eq!((line, column), (1, 2)),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_starter_prices_every_line_of_every_sample_whoever_sells_it() {
    let folder = tempfile::tempdir().unwrap();
    let catalogue = catalogue().unwrap();
    let mut n_lines = 0;
    for site in Shelf::at(folder.path()).copy_samples().unwrap() {
        let text = fs::read_to_string(site.join("site.ron")).unwrap();
        let (site, _) = read_site(&text).unwrap().checked(&catalogue);
        let Some(order) = compute(&site, &catalogue).order else {
            continue;
        };
        for way in Way::ALL {
            let priced = order.ways.iter().find(|priced| priced.way == way).unwrap();
            for line in &priced.lines {
                let price = catalogue
                    .prices
                    .price(line.item, line.need.material.as_ref())
                    .unwrap();
                let said = &line.said;
                let n_sold = usize::from(line.sold.is_some()) + line.others.len();
                assert_eq!(n_sold, price.offers.len(), "{:?}: {said:?}", line.item);
                assert!(
                    !said.iter().any(|said| said.contains("does not fit")),
                    "{:?}: {said:?}",
                    line.item
                );
                let is_known = line.need.amount.is_some();
                for sold in line.sold.iter().chain(&line.others) {
                    assert_eq!(
                        sold.amount.is_some(),
                        is_known,
                        "{:?} of {}",
                        line.item,
                        sold.supplier
                    );
                }
                n_lines += 1;
            }
        }
    }
    assert!(n_lines > 200, "{n_lines}");
}

#[test]
fn stone_by_weight_is_moister_than_it_is_needed_dry_and_the_steps_say_whose_figure_that_is() {
    let folder = tempfile::tempdir().unwrap();
    let copies = Shelf::at(folder.path()).copy_samples().unwrap();
    let curved = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains("curved"))
        .unwrap();
    let text = fs::read_to_string(curved.join("site.ron")).unwrap();
    let built_in = catalogue().unwrap();
    // One tonne holds 1000 kg: no waste stands in this list, and a step of a gram takes nothing away.
    let check = |moisture: &str, percent: f64, source: &str| {
        let list = OURS.replace(
            "per tonne\"",
            &format!("per tonne\", step: \"0.000001\"{moisture}"),
        );
        let mut catalogue = built_in.clone();
        catalogue.prices = read_prices(&list, &catalogue.materials).unwrap();
        let (site, _) = read_site(&text).unwrap().checked(&catalogue);
        let order = compute(&site, &catalogue).order.unwrap();
        let priced = order
            .ways
            .iter()
            .find(|priced| priced.way == Way::NewBase)
            .unwrap();
        let line = priced
            .lines
            .iter()
            .find(|line| line.item.key() == "base")
            .unwrap();
        let Some(NeedAmount::Bulk { dry_mass, .. }) = line.need.amount else {
            panic!("{:?}", line.need);
        };
        let asked: f64 = line
            .sold
            .as_ref()
            .and_then(|sold| sold.exact)
            .unwrap()
            .to_string()
            .parse()
            .unwrap();
        let expected = dry_mass.value / 1000.0 * (1.0 + percent / 100.0);
        assert!((asked - expected).abs() < 1e-6, "{asked} for {expected}");
        let step = line
            .need
            .steps
            .iter()
            .find(|step| step.what == "moisture as delivered");
        let said = step.and_then(|step| step.source.clone());
        assert_eq!(said.is_some(), percent > 0.0);
        let said = said.unwrap_or_default();
        assert!(said.contains(source), "{said}");
    };
    check("", 5.0, "pavement engineering");
    check(", moisture: \"3.5\"", 3.5, "supplier's figure: Pit");
    check(", moisture: \"0\"", 0.0, "");
}

proptest! {
    /// Whatever is mistyped in a list, it is read or refused at a place that the text has.
    #[test]
    fn a_mistyped_list_is_read_or_refused_where_it_is_wrong(
        at in 0.0..1.0_f64,
        n_gone in 0_usize..40,
        typed in prop_oneof![Just(String::new()), "[ -~]{0,6}", "[0-9.,\\-]{1,30}", "\\PC{1,3}"],
    ) {
        let letters: Vec<char> = BUILT_IN_PRICES.chars().collect();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a length")]
        let from = (at * f64::from(u32::try_from(letters.len()).unwrap())) as usize;
        let before: String = letters.iter().take(from).collect();
        let behind: String = letters.iter().skip(from + n_gone).collect();
        let text = format!("{before}{typed}{behind}");
        let built_in = catalogue().unwrap();
        match read_prices(&text, &built_in.materials) {
            Ok(list) => {
                for offer in list.items.iter().flat_map(|price| &price.offers) {
                    prop_assert!(!offer.rate.0.is_zero() && !offer.step.is_zero());
                }
            }
            Err(ReadError::Text { line, column, reason }) => {
                prop_assert!(!reason.is_empty());
                prop_assert!(line >= 1 && line <= text.lines().count() + 1, "line {}", line);
                let wide = text.lines().nth(line - 1).map_or(0, |line| line.chars().count());
                prop_assert!(column >= 1 && column <= wide + 1, "line {}, column {}", line, column);
            }
            Err(ReadError::Newer { .. } | ReadError::Empty) => {}
            Err(other) => prop_assert!(false, "{}", other),
        }
    }
}
