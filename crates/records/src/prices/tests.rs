//! Lists that are read, and lists that are not: each with its line and its reason.

use underbrick_calc::order::{Comes, Decimal, Gain, Holds, Item, PriceList, SaleUnit, Stage};

use super::{BUILT_IN_PRICES, read_prices};
use crate::read::ReadError;

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

/// A list as a person writes it, each value in a line of its own.
const LONG: &str = "(
    currency: \"USD\",
    crew: (
        people: 2,
        hours_a_day: \"8\",
        rate: \"40\",
    ),
    carry: (
        payload: \"2000 lb\",
        holds: \"2 yd3\",
        barrow: \"5 ft3\",
    ),
    gain: Margin(\"15\"),
    items: [
        // supplier: \"no one\", price: \"a comment\"
        (
            item: \"base\",
            material: \"crushed-stone\",
            offers: [
                (
                    supplier: \"Pit\",
                    price: \"28.50 per ton\",
                    comes: Delivered(
                        per_load: \"65\",
                        most: \"14 ton\",
                    ),
                ),
                (
                    supplier: \"Yard, price: less\",
                    price: \"40 per yd3\",
                ),
            ],
        ),
        (
            item: \"jointing\",
            offers: [
                (
                    supplier: \"Merchant\",
                    price: \"6 per bag\",
                    holds: \"0.5 ft3\",
                ),
            ],
        ),
    ],
    hours: [
        (
            stage: \"dig\",
            hours: \"1.25 per yd3\",
        ),
        (
            stage: \"cut\",
            hours: \"0.05 per piece\",
        ),
    ],
)
";

/// The long list with one thing changed is refused where the change stands, in these words.
#[track_caller]
fn refused_at(from: &str, to: &str, line: usize, column: usize, words: &str) {
    assert_eq!(LONG.matches(from).count(), 1, "{from}");
    assert_eq!(
        read(&LONG.replace(from, to)).unwrap_err().to_string(),
        format!("line {line}, column {column}: {words}")
    );
}

#[test]
fn what_does_not_fit_is_told_where_it_stands() {
    let list = read(LONG).unwrap();
    assert_eq!(list.name, "Own list");
    let units = "yd3, ft3, m3, ton, tonne, lb, kg";
    refused_at(
        "28.50 per ton",
        "28.50 per m2",
        22,
        21,
        &format!(
            "\"base\" is not sold by the m²; what fits is {units}, or a pack that holds so much"
        ),
    );
    refused_at(
        "40 per yd3",
        "40 per roll",
        30,
        21,
        "one roll must say what it holds, such as holds: \"0.5 ft3\"",
    );
    refused_at(
        "0.5 ft3",
        "50 pieces",
        39,
        21,
        &format!("\"jointing\": what one bag holds does not fit; what fits is {units}"),
    );
    refused_at(
        "14 ton",
        "14 m2",
        25,
        25,
        &format!("the most that one load of \"base\" carries is told in {units}"),
    );
    refused_at(
        "\"Yard, price: less\"",
        "\" Pit \"",
        29,
        21,
        "\"base\" has two offers of \"Pit\": give each a name of its own",
    );
    refused_at(
        "1.25 per yd3",
        "1.25",
        47,
        13,
        "the hours of \"dig\" are told per yd3, ft3, m3",
    );
    refused_at(
        "\"cut\"",
        "\"hand-over\"",
        51,
        13,
        "the hours of \"hand-over\" are for the job as a whole: leave the unit out",
    );
    refused_at(
        "\"cut\",\n            hours: \"0.05 per piece\"",
        "\"dig\",\n            hours: \"2 per yd3\"",
        51,
        13,
        "the stage \"dig\" stands twice",
    );
}

#[test]
fn a_material_must_be_one_of_which_the_item_is_sold() {
    let bases = "crushed-stone, open-graded-stone, recycled-concrete";
    refused_at(
        "\"crushed-stone\"",
        "\"moondust\"",
        18,
        13,
        &format!("the catalogue does not know the material \"moondust\": {bases}"),
    );
    refused_at(
        "\"crushed-stone\"",
        "\"topsoil\"",
        18,
        13,
        &format!("\"topsoil\" is no material for \"base\": {bases}"),
    );
    refused_at(
        "item: \"jointing\",",
        "item: \"jointing\", material: \"fill-sand\",",
        35,
        31,
        "\"jointing\" is of no material of the catalogue: leave material out",
    );
    refused_at(
        "item: \"jointing\"",
        "item: \"base\", material: \"crushed-stone\"",
        35,
        13,
        "\"base\" of \"crushed-stone\" stands twice: put both offers under one",
    );
}

/// The long list with one value changed is refused at the end of that value, in these words.
#[track_caller]
fn value_refused(from: &str, to: &str, line: usize, words: &str) {
    assert_eq!(LONG.matches(from).count(), 1, "{from}");
    refused(&LONG.replace(from, to), line, &[words]);
}

#[test]
fn crew_truck_and_gain_keep_their_limits() {
    value_refused(
        "people: 2",
        "people: 21",
        4,
        "people: 21 is not from 1 to 20",
    );
    value_refused("\"2000 lb\"", "\"2000 ft3\"", 9, "a weight is wanted");
    value_refused("\"2000 lb\"", "\"2000\"", 9, "the unit is missing");
    value_refused("\"2 yd3\"", "\"2 yd2\"", 10, "a volume is wanted");
    value_refused("\"5 ft3\"", "\"0 ft3\"", 11, "above zero");
    value_refused(
        "Margin(\"15\")",
        "MarkUp(\"1800\")",
        13,
        "no more than 1000 %",
    );
    value_refused("Margin(\"15\")", "Margin(\"-1\")", 13, "“-” at character 1");
    value_refused("Margin(\"15\")", "Gift", 13, "Gift");
    value_refused("\"40\"", "\"0\"", 6, "not above zero");
    value_refused("\"28.50 per ton\"", "\"28,50 per ton\"", 22, "comma");
    value_refused("\"28.50 per ton\"", "\"$28.50 per ton\"", 22, "“$”");
    value_refused(
        "\"Merchant\"",
        "\"Merchant\", discount: \"5\"",
        38,
        "discount",
    );
}

#[test]
fn bricks_come_by_the_piece_or_by_weight_and_hire_in_one_load() {
    let bags = "supplier: \"M\", price: \"6 per bag\", holds: \"0.6 ft3\", comes: Delivered(per_load: \"9\", most: \"2 yd3\")";
    refused(
        &list(
            &format!("(item: \"haunch-concrete\", offers: [({bags})])"),
            "",
        ),
        4,
        &["one load of \"haunch-concrete\" carries is told in ton, tonne, lb, kg"],
    );
    let plate = "supplier: \"H\", price: \"85 per day\", comes: Delivered(per_load: \"40\", most: \"1 ton\")";
    refused(
        &list(&format!("(item: \"plate\", offers: [({plate})])"), ""),
        4,
        &["\"plate\" comes in one load: leave most out"],
    );
    refused(
        &list(
            "(item: \"saw\", offers: [(supplier: \"H\", price: \"70 per piece\")])",
            "",
        ),
        4,
        &["\"saw\" is not sold by the piece; what fits is day"],
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
