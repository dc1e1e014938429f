//! Lists that are read, and lists that are not: each with its line and its reason.

use underbrick_calc::order::{Comes, Decimal, Gain, Holds, Item, PriceList, SaleUnit, Stage};

use super::{BUILT_IN_PRICES, read_prices};
use crate::read::ReadError;

mod places;

fn read(text: &str) -> Result<PriceList, ReadError> {
    let materials = crate::catalogue().unwrap().materials;
    read_prices(text, &materials)
}

/// A list with one item and one stage, each as given; the item stands on line 4, the stage on line 5.
fn list(item: &str, hours: &str) -> String {
    format!(
        "(version: 1, currency: \"USD\",\n crew: (people: 2, hours_a_day: \"8\", rate: \"40\"), gain: MarkUp(\"10\"),\n items: [\n  {item},\n ], hours: [{hours}])"
    )
}

fn base(offer: &str) -> String {
    list(&format!("(item: \"base\", offers: [({offer})])"), "")
}

/// The reason must hold every one of the words, and stand on that line.
#[track_caller]
fn refused(text: &str, line: usize, words: &[&str]) {
    match read(text).unwrap_err() {
        ReadError::Text {
            line: found,
            reason,
            ..
        } => {
            assert_eq!(found, line, "{reason}");
            for word in words {
                assert!(reason.contains(word), "{word:?} in {reason:?}");
            }
        }
        other => panic!("{other}"),
    }
}

#[test]
fn the_starter_list_prices_every_item_and_stage() {
    let list = read(BUILT_IN_PRICES).unwrap();
    for item in Item::ALL {
        assert!(list.price(item, None).is_some(), "{item:?}");
    }
    for stage in Stage::ALL {
        assert!(list.hours_of(stage).is_some(), "{stage:?}");
    }
    let materials = crate::catalogue().unwrap().materials;
    for base in materials
        .iter()
        .filter(|material| material.as_base.is_some())
    {
        assert!(list.price(Item::Base, Some(&base.key)).is_some());
    }
    assert!(list.name.contains("invented"));
}

#[test]
fn a_list_is_taken_as_written() {
    let list = read(&list(
        "(item: \"base\", material: \"crushed-stone\", waste: \"5\", taxed: true, offers: [(supplier: \"Pit\", price: \"28.50 per ton\", step: \
         \"0.5\", minimum: \"2\", moisture: \"5\", comes: Delivered(per_load: \"65\", most: \"14 ton\"))])",
        "(stage: \"dig\", hours: \"1.25 per yd3\")",
    ))
    .unwrap();
    let price = &list.items[0];
    let offer = &price.offers[0];
    assert_eq!((price.waste, price.is_taxed), (Decimal::from(5), true));
    assert_eq!(
        (offer.rate.0, offer.unit),
        (Decimal::new(2850, 2), SaleUnit::Ton)
    );
    assert_eq!(
        (offer.step, offer.minimum),
        (Decimal::new(5, 1), Decimal::from(2))
    );
    assert_eq!(offer.moisture, Some(5.0));
    let Comes::Delivered { per_load, most } = &offer.comes else {
        panic!("{:?}", offer.comes);
    };
    assert_eq!(per_load.0, Decimal::from(65));
    // 14 short tons of 907.18474 kg.
    assert!(matches!(most, Some(Holds::Mass(mass)) if (mass.value - 12_700.586_36).abs() < 1e-6));
    assert_eq!(list.gain, Gain::MarkUp(Decimal::from(10)));
    assert_eq!(list.hours[0].hours, Decimal::new(125, 2));
    assert_eq!(list.hours[0].per, Some(SaleUnit::CubicYard));
}

#[test]
fn a_price_is_above_zero_and_has_its_unit() {
    refused(
        &base("supplier: \"P\", price: \"0 per ton\""),
        4,
        &["0 per ton", "above zero"],
    );
    refused(
        &base("supplier: \"P\", price: \"-3 per ton\""),
        4,
        &["-3 per ton", "“-”"],
    );
    refused(
        &base("supplier: \"P\", price: \"28.50\""),
        4,
        &["28.50", "unit of sale is missing"],
    );
    refused(
        &base("supplier: \"P\", price: \"28.50 per barrel\""),
        4,
        &["\"barrel\" is not known", "yd3"],
    );
    refused(
        &base("supplier: \"P\", price: 28.50"),
        4,
        &["price with its unit"],
    );
    refused(
        &base("supplier: \"\", price: \"2 per ton\""),
        4,
        &["supplier"],
    );
}

#[test]
fn a_unit_must_fit_what_is_sold() {
    refused(
        &base("supplier: \"P\", price: \"2 per ft\""),
        4,
        &["\"base\" is not sold by the ft", "yd3"],
    );
    refused(
        &list(
            "(item: \"brick\", offers: [(supplier: \"P\", price: \"2 per yd3\")])",
            "",
        ),
        4,
        &["\"brick\" is not sold by the yd³", "piece"],
    );
    refused(
        &base("supplier: \"P\", price: \"2 per bag\""),
        4,
        &["bag must say what it holds"],
    );
    refused(
        &base("supplier: \"P\", price: \"2 per ton\", holds: \"3 ft3\""),
        4,
        &["ton holds nothing"],
    );
    refused(
        &base("supplier: \"P\", price: \"2 per bag\", holds: \"0 ft3\""),
        4,
        &["above zero"],
    );
    refused(
        &list("", "(stage: \"dig\", hours: \"1 per ft\")").replace("  ,\n", ""),
        4,
        &["\"dig\" are told per yd3, ft3, m3"],
    );
}

#[test]
fn shares_steps_and_ratios_keep_their_limits() {
    refused(
        &base("supplier: \"P\", price: \"2 per ton\", step: \"0\""),
        4,
        &["not above zero"],
    );
    refused(
        &base("supplier: \"P\", price: \"2 per ton\", moisture: \"120\""),
        4,
        &["100 %"],
    );
    refused(
        &base("supplier: \"P\", price: \"2 per ton\", loose_to_compacted: \"3\""),
        4,
        &["\"3\"", "from 1 to 2"],
    );
    refused(
        &base("supplier: \"P\", price: \"2 per ton\", loose_density: \"9000 lb/ft3\""),
        4,
        &["312 lb/ft3"],
    );
    let margin =
        base("supplier: \"P\", price: \"2 per ton\"").replace("MarkUp(\"10\")", "Margin(\"100\")");
    refused(&margin, 2, &["below 100 %"]);
    let crew = base("supplier: \"P\", price: \"2 per ton\"").replace("people: 2", "people: 0");
    refused(&crew, 2, &["people: 0 is not from 1 to 20"]);
    let day = base("supplier: \"P\", price: \"2 per ton\"").replace("\"8\"", "\"25\"");
    refused(&day, 2, &["24 hours"]);
}

#[test]
fn names_must_be_known_and_stand_once() {
    let currency = base("supplier: \"P\", price: \"2 per ton\"").replace("USD", "XYZ");
    refused(&currency, 1, &["currency is not known", "USD"]);
    refused(
        &list("(item: \"gravel\", offers: [])", ""),
        4,
        &["no item is called so", "base"],
    );
    refused(
        &list(
            "(item: \"base\", material: \"moondust\", offers: [(supplier: \"P\", price: \"2 per ton\")])",
            "",
        ),
        4,
        &["moondust"],
    );
    let twice = "(item: \"base\", offers: [(supplier: \"P\", price: \"2 per ton\")])";
    refused(
        &list(&format!("{twice}, {twice}"), ""),
        4,
        &["\"base\" stands twice"],
    );
    refused(&list("(item: \"base\", offers: [])", ""), 4, &["no offers"]);
    refused(
        &base("supplier: \"P\", price: \"2 per ton\"), (supplier: \"P\", price: \"3 per ton\""),
        4,
        &["two offers", "\"P\""],
    );
}

#[test]
fn a_newer_list_and_an_empty_one_are_told_apart() {
    let newer = base("supplier: \"P\", price: \"2 per ton\"")
        .replace("version: 1", "version: 7, barter: true");
    assert_eq!(read(&newer), Err(ReadError::Newer { found: 7, known: 1 }));
    assert_eq!(read(" \n"), Err(ReadError::Empty));
    let none = base("supplier: \"P\", price: \"2 per ton\"").replace("version: 1", "version: 0");
    refused(&none, 1, &["no format 0"]);
}
