//! Where in a list, and in which words, a value is refused.

use super::{list, read, refused};

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
