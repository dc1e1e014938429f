//! The order for a spreadsheet: comma-separated values by RFC 4180.

use super::{OrderSheet, WaySheet};

/// Columns, in the order in which they stand.
const HEAD: [&str; 14] = [
    "item", "group", "name", "need", "supplier", "count", "unit", "rate", "amount", "loads",
    "delivery", "currency", "taxed", "note",
];

/// The way that is ordered: one record for each line, then labour by stage, trips, and the sums; a head first. Numbers are plain, with a
/// point. A text that a spreadsheet would take for a formula is led by an apostrophe.
#[must_use]
pub fn order_csv(sheet: &OrderSheet) -> String {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing into memory does not fail.
    let mut write = |record: &[String]| {
        let _ = writer.write_record(record);
    };
    write(&HEAD.map(str::to_owned));
    let way = sheet.ways.iter().find(|way| way.way == sheet.chosen);
    for record in way.into_iter().flat_map(|way| records(way, sheet.currency)) {
        write(&record);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

fn records(way: &WaySheet, currency: &str) -> Vec<[String; 14]> {
    let lines = way.lines.iter().map(|line| {
        let unknown = || String::new();
        [
            line.item.to_owned(),
            line.group.to_owned(),
            text(&line.name),
            text(&line.need),
            line.supplier.as_deref().map_or_else(unknown, text),
            line.count.clone().unwrap_or_default(),
            line.unit.unwrap_or_default().to_owned(),
            line.rate.clone().unwrap_or_default(),
            line.amount.clone().unwrap_or_default(),
            line.n_loads.to_string(),
            line.delivery.clone(),
            currency.to_owned(),
            yes(line.taxed),
            note(line.is_least, line.locked),
        ]
    });
    let labour = way.labour.iter().map(|labour| {
        let mut record = plain(
            labour.stage,
            "Labour",
            labour.name,
            labour.amount.as_deref(),
            currency,
        );
        record[3] = text(&labour.work);
        record[5] = labour.hours.clone().unwrap_or_default();
        record[6] = "hour".to_owned();
        record[7].clone_from(&labour.rate);
        record
    });
    let price = &way.price;
    let sums = [
        ("trips", "Own trips", &way.trips.cost),
        ("cost", "Cost", &price.cost),
        ("contingency", "Contingency", &price.contingency),
        ("gain", "Mark-up or margin", &price.gain),
        ("tax", "Tax", &price.tax),
        ("rounding", "Rounding", &price.rounding),
        ("total", "Price", &price.total),
    ];
    let sums = sums.map(|(key, name, amount)| {
        let mut record = plain(key, "Sum", name, Some(amount), currency);
        record[13] = note(price.is_least && key == "total", false);
        record
    });
    lines.chain(labour).chain(sums).collect()
}

fn plain(key: &str, group: &str, name: &str, amount: Option<&str>, currency: &str) -> [String; 14] {
    let mut record: [String; 14] = Default::default();
    record[0] = key.to_owned();
    record[1] = group.to_owned();
    record[2] = name.to_owned();
    record[8] = amount.unwrap_or_default().to_owned();
    record[11] = currency.to_owned();
    record
}

fn yes(is: bool) -> String {
    if is { "yes" } else { "no" }.to_owned()
}

fn note(is_least: bool, is_locked: bool) -> String {
    match (is_least, is_locked) {
        (true, true) => "at least; locked",
        (true, false) => "at least",
        (false, true) => "locked",
        (false, false) => "",
    }
    .to_owned()
}

/// A text that someone wrote, so that no spreadsheet runs it.
fn text(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
