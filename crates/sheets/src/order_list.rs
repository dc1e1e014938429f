//! The order list on paper: what is bought, taken away and hired, supplier by supplier, and what must be there on which day. For the office
//! and for suppliers: no price that the owner pays stands on it.

use underbrick_calc::order::{Decimal, Item, Order, SaleUnit, Stage};
use underbrick_calc::site::{Language, Site};

use crate::order::words::count_words;
use crate::order::{LineRow, WaySheet, order_sheet};
use crate::paper::{Align, Block, Column, Document, Level, Mark, Style, Table, TableRow};
use crate::wording::on_one_line;
use underbrick_calc::catalogue::Catalogue;

/// What the sheet is called.
const TITLE: &str = "Order list";
/// Whoever sells nothing that is listed.
const NOBODY: &str = "Nobody of the price list sells this";

/// The order list of the way that is chosen.
#[must_use]
pub fn order_list(
    site: &Site,
    catalogue: &Catalogue,
    order: Option<&Order>,
    date: &str,
    from: &str,
) -> Document {
    let mut blocks = vec![Block::Heading(Level::Title, TITLE.to_owned())];
    let sheet = order.map(|order| order_sheet(site, order, &catalogue.prices));
    let way = sheet.as_ref().and_then(|sheet| {
        let chosen = sheet.ways.iter().find(|way| way.way == sheet.chosen)?;
        Some((chosen, sheet.currency, &sheet.price_list))
    });
    match way {
        Some((way, currency, list)) => {
            blocks.push(Block::Facts(vec![
                ("Address".to_owned(), on_one_line(&site.address)),
                ("Walk".to_owned(), on_one_line(&site.walk)),
                ("Way of rebuilding".to_owned(), way.name.to_owned()),
                ("Price list".to_owned(), on_one_line(list)),
                ("Currency".to_owned(), currency.to_owned()),
                ("Days on site".to_owned(), way.days.len().to_string()),
                ("Trips with one's own truck".to_owned(), way.trips.n.to_string()),
                (
                    "Barrow trips".to_owned(),
                    way.barrow_trips
                        .map_or_else(|| "not known".to_owned(), |trips| trips.to_string()),
                ),
            ]));
            blocks.extend(suppliers(way));
            blocks.extend(days(way));
            blocks.extend(sums(way));
        }
        None => blocks.push(Block::Text(
            Style::Plain,
            "Nothing can be ordered yet: the readings do not give quantities. The findings say what is missing.".to_owned(),
        )),
    }
    let (address, walk) = (on_one_line(&site.address), on_one_line(&site.walk));
    Document {
        title: TITLE.to_owned(),
        address: if walk.is_empty() {
            address
        } else {
            format!("{address}, {walk}")
        },
        from: from.to_owned(),
        date: date.to_owned(),
        language: Language::English,
        blocks,
    }
}

/// One table for each supplier, in the order in which the lines name them.
fn suppliers(way: &WaySheet) -> Vec<Block> {
    let mut names: Vec<Option<&str>> = Vec::new();
    for line in &way.lines {
        let name = line.supplier.as_deref();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    // What nobody sells stands last.
    names.sort_by_key(Option::is_none);
    let mut blocks = vec![Block::Heading(
        Level::Part,
        "To order, by supplier".to_owned(),
    )];
    for name in names {
        let lines: Vec<&LineRow> = way
            .lines
            .iter()
            .filter(|line| line.supplier.as_deref() == name)
            .collect();
        blocks.push(Block::Heading(
            Level::Point,
            on_one_line(name.unwrap_or(NOBODY)),
        ));
        blocks.push(table(&lines));
        let loads: Vec<String> = lines
            .iter()
            .filter(|line| line.n_loads > 0)
            .map(|line| {
                let loads = if line.n_loads == 1 {
                    "1 load".to_owned()
                } else {
                    format!("{} loads", line.n_loads)
                };
                format!(
                    "{}: {loads} at {}, {} in all.",
                    line.name, line.per_load, line.delivery
                )
            })
            .collect();
        if !loads.is_empty() {
            blocks.push(Block::List(Mark::Dot, loads));
        }
    }
    if way.lines.iter().any(|line| line.is_least) {
        blocks.push(Block::Text(
            Style::Note,
            "At least: a reading that decides this is missing; it may be more.".to_owned(),
        ));
    }
    blocks
}

fn table(lines: &[&LineRow]) -> Block {
    let column = |head: &str, align: Align| Column {
        head: head.to_owned(),
        align,
        least_mm: 0.0,
    };
    let text = |value: Option<&str>| value.unwrap_or("not known").to_owned();
    let rows = lines
        .iter()
        .map(|line| {
            let need = if line.is_least && line.need != "not known" {
                format!("at least {}", line.need)
            } else {
                line.need.clone()
            };
            let order = match (&line.count, line.unit) {
                (Some(count), Some(unit)) => counted(count, unit),
                (Some(count), None) => count.clone(),
                (None, _) => "not known".to_owned(),
            };
            let order = if line.locked {
                format!("{order}, ordered")
            } else {
                order
            };
            TableRow {
                cells: vec![
                    line.name.clone(),
                    line.group.to_owned(),
                    need,
                    order,
                    text(line.rate.as_deref()),
                    text(line.amount.as_deref()),
                ],
                is_strong: false,
            }
        })
        .collect();
    Block::Table(Table {
        caption: String::new(),
        columns: vec![
            column("What", Align::Left),
            column("How", Align::Left),
            column("Needed", Align::Right),
            column("To order", Align::Right),
            column("Rate", Align::Right),
            column("Amount", Align::Right),
        ],
        rows,
    })
}

/// A count in its unit of sale, as a person writes it.
fn counted(count: &str, unit: &str) -> String {
    match (count.parse::<Decimal>(), SaleUnit::of(unit)) {
        (Ok(number), Some(unit)) => count_words(number, unit),
        _ => format!("{count} {unit}"),
    }
}

/// Hours, finer than which nobody plans a day.
fn to_a_tenth(hours: &str) -> String {
    hours.parse::<Decimal>().map_or_else(
        |_| hours.to_owned(),
        |hours| format!("{:.1}", hours.round_dp(1)),
    )
}

/// What must be there in the morning.
fn days(way: &WaySheet) -> Vec<Block> {
    if way.days.is_empty() {
        return Vec::new();
    }
    let column = |head: &str, align: Align| Column {
        head: head.to_owned(),
        align,
        least_mm: 0.0,
    };
    let rows = way
        .days
        .iter()
        .map(|day| {
            let work: Vec<String> = day
                .stages
                .iter()
                .map(|(stage, hours)| {
                    let name = Stage::of(stage).map_or(*stage, Stage::name);
                    format!("{name}, {} h", to_a_tenth(hours))
                })
                .collect();
            let on_site: Vec<&str> = day
                .on_site
                .iter()
                .map(|key| Item::of(key).map_or(*key, Item::name))
                .collect();
            TableRow {
                cells: vec![
                    day.number.to_string(),
                    on_site.join(", "),
                    work.join("; "),
                    day.said.join(" "),
                ],
                is_strong: false,
            }
        })
        .collect();
    vec![
        Block::Heading(Level::Part, "What must be there, day by day".to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                column("Day", Align::Right),
                column("On site in the morning", Align::Left),
                column("What is done", Align::Left),
                column("To know", Align::Left),
            ],
            rows,
        }),
    ]
}

/// What it comes to for the office; nothing of gain or price.
fn sums(way: &WaySheet) -> Vec<Block> {
    let price = &way.price;
    let sums = [
        ("Material", &price.material),
        ("Delivery", &price.delivery),
        ("Taken away", &price.taken_away),
        ("Hire", &price.hire),
    ];
    let whole: Option<Decimal> = sums
        .iter()
        .map(|(_, amount)| amount.parse::<Decimal>().ok())
        .sum();
    let mut rows: Vec<TableRow> = sums
        .into_iter()
        .map(|(name, amount)| TableRow {
            cells: vec![name.to_owned(), amount.clone()],
            is_strong: false,
        })
        .collect();
    rows.extend(whole.map(|whole| TableRow {
        cells: vec!["All of it".to_owned(), format!("{whole:.2}")],
        is_strong: true,
    }));
    let caption = if price.is_least {
        "What it costs, at least"
    } else {
        "What it costs"
    };
    vec![Block::Together(vec![
        Block::Heading(Level::Part, caption.to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                Column {
                    head: "Sum of".to_owned(),
                    ..Column::default()
                },
                Column {
                    head: "Amount".to_owned(),
                    align: Align::Right,
                    least_mm: 30.0,
                },
            ],
            rows,
        }),
    ])]
}
