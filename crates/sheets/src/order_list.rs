//! The order list on paper: what is bought, taken away and hired, supplier by supplier, and what must be there on which day. For the office
//! and for suppliers: no price that the owner pays stands on it.

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::order::{
    Comes, Currency, Decimal, Item, ItemGroup, Money, Order, OrderLine, Priced, Sold,
};
use underbrick_calc::site::{Language, Site};

use crate::order::words::{count_words, day_needed, rate_words};
use crate::order::{LineRow, WaySheet, order_sheet};
use crate::paper::{Align, Block, Column, Document, Level, Mark, Style, Table, TableRow};
use crate::wording::on_one_line;

/// What the sheet is called.
const TITLE: &str = "Order list";
/// Whoever sells nothing that is listed.
const NOBODY: &str = "Nobody of the price list sells this";

/// Columns of the table of lines.
const N_COLUMNS: usize = 7;

/// A line of the order, as it is written and as it was reckoned.
#[derive(Clone, Copy)]
struct Line<'a> {
    row: &'a LineRow,
    line: &'a OrderLine,
}

/// The way that is ordered.
struct Chosen<'a> {
    way: &'a WaySheet,
    priced: &'a Priced,
    currency: Currency,
    start: Option<(i16, i8, i8)>,
}

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
    let chosen = order.zip(sheet.as_ref()).and_then(|(order, sheet)| {
        Some(Chosen {
            way: sheet.ways.iter().find(|way| way.way == sheet.chosen)?,
            priced: order.chosen()?,
            currency: order.currency,
            start: site.show.start,
        })
    });
    match chosen {
        Some(chosen) => {
            let list = sheet.as_ref().map_or("", |sheet| &sheet.price_list);
            blocks.push(facts(site, &chosen, list));
            blocks.extend(suppliers(&chosen));
            blocks.extend(to_find_out(&chosen));
            blocks.extend(days(&chosen));
            blocks.extend(sums(&chosen));
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

fn facts(site: &Site, chosen: &Chosen<'_>, list: &str) -> Block {
    let way = chosen.way;
    let start = chosen.start.map_or_else(
        || "not set yet".to_owned(),
        |(year, month, day)| crate::dates::in_words(year, month, day),
    );
    let facts = [
        ("Address", on_one_line(&site.address)),
        ("Walk", on_one_line(&site.walk)),
        ("Way of rebuilding", way.name.to_owned()),
        ("Agreed with the owner", agreed(site)),
        ("Work starts", start),
        ("Working days", way.days.len().to_string()),
        (
            "Price list, currency",
            format!("{}, {}", on_one_line(list), chosen.currency.code),
        ),
        ("Trips with our own truck", way.trips.n.to_string()),
        (
            "Barrow trips",
            way.barrow_trips
                .map_or_else(|| "not known".to_owned(), |trips| trips.to_string()),
        ),
    ];
    let facts = facts.map(|(name, value)| (name.to_owned(), value));
    Block::Facts(facts.to_vec())
}

/// Whether the work was agreed; the owner sheet says on what, and what differs since.
fn agreed(site: &Site) -> String {
    let Some(last) = site.show.agreements.last() else {
        return "not yet".to_owned();
    };
    let signed = last.signatures.iter().find_map(|signed| signed.stamp.at_s);
    let day = signed.map_or_else(String::new, crate::dates::day_of);
    let number = site.show.agreements.len();
    if day.is_empty() {
        format!("yes, agreement {number}")
    } else {
        format!("yes, agreement {number} of {day}")
    }
}

fn column(head: &str, align: Align) -> Column {
    Column {
        head: head.to_owned(),
        align,
        least_mm: 0.0,
    }
}

fn lines<'a>(chosen: &Chosen<'a>) -> Vec<Line<'a>> {
    let rows = chosen.way.lines.iter().zip(&chosen.priced.lines);
    rows.map(|(row, line)| Line { row, line }).collect()
}

/// One table, its lines gathered by supplier in the order in which the lines name them.
fn suppliers(chosen: &Chosen<'_>) -> Vec<Block> {
    let lines = lines(chosen);
    let mut names: Vec<Option<&str>> = Vec::new();
    for line in &lines {
        let name = line.row.supplier.as_deref();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    // What nobody sells stands last.
    names.sort_by_key(Option::is_none);
    let mut rows = Vec::new();
    for name in names {
        rows.push(group(on_one_line(name.unwrap_or(NOBODY))));
        let of_name = lines
            .iter()
            .filter(|line| line.row.supplier.as_deref() == name);
        for line in of_name {
            rows.push(line_cells(chosen, *line));
            rows.extend(loads(chosen.currency, *line));
        }
    }
    rows.extend(own_trips(chosen));
    let mut blocks = vec![
        Block::Heading(Level::Part, "To order, by supplier".to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                column("What", Align::Left),
                column("How", Align::Left),
                Column {
                    // A day stands on one line, and so does what is not known.
                    least_mm: 15.0,
                    ..column("On", Align::Left)
                },
                column("Needed", Align::Right),
                Column {
                    least_mm: 20.0,
                    ..column("To order", Align::Right)
                },
                column("Rate", Align::Right),
                column("Amount", Align::Right),
            ],
            rows,
        }),
    ];
    if lines.iter().any(|line| line.row.is_least) {
        blocks.push(Block::Text(
            Style::Note,
            "At least: a reading that decides this is missing; it may be more.".to_owned(),
        ));
    }
    blocks
}

/// The head of lines that belong together.
fn group(name: String) -> TableRow {
    let mut cells = vec![name];
    cells.resize(N_COLUMNS, String::new());
    TableRow {
        cells,
        is_strong: true,
    }
}

/// What our own trips cost; the hours of the crew are in its work.
fn own_trips(chosen: &Chosen<'_>) -> Vec<TableRow> {
    let trips = &chosen.priced.own_trips;
    let n_trips = match trips.n {
        0 => return Vec::new(),
        1 => "1 trip".to_owned(),
        n => format!("{n} trips"),
    };
    let mut cells = vec!["What we fetch and take".to_owned()];
    cells.resize(N_COLUMNS - 3, String::new());
    cells.extend([n_trips, String::new(), chosen.currency.written(trips.cost)]);
    vec![
        group("Our own truck".to_owned()),
        TableRow {
            cells,
            is_strong: false,
        },
    ]
}

/// What loads cost beside the amount of a line.
fn loads(currency: Currency, Line { row, line }: Line<'_>) -> Option<TableRow> {
    let sold = line.sold.as_ref()?;
    let Comes::Delivered { per_load, .. } = sold.comes else {
        return None;
    };
    let loads = match row.n_loads {
        0 => return None,
        1 => "1 load".to_owned(),
        n => format!("{n} loads"),
    };
    let carried = match line.item.group() {
        ItemGroup::TakenAway => "taking it away",
        ItemGroup::Material | ItemGroup::Hire => "its delivery",
    };
    Some(TableRow {
        cells: vec![
            format!("{}, {carried}", row.name),
            String::new(),
            String::new(),
            String::new(),
            loads,
            format!("{} per load", currency.written(per_load)),
            currency.written(sold.delivery),
        ],
        is_strong: false,
    })
}

fn line_cells(chosen: &Chosen<'_>, Line { row, line }: Line<'_>) -> TableRow {
    let unknown = || "not known".to_owned();
    let sold = line.sold.as_ref();
    let order = sold
        .and_then(|sold| Some(count_words(sold.count?, sold.unit)))
        .unwrap_or_else(unknown);
    let order = if row.locked {
        format!("{order}, ordered")
    } else {
        order
    };
    let amount = sold.and_then(|sold| sold.amount);
    TableRow {
        cells: vec![
            row.name.clone(),
            comes(line).to_owned(),
            needed_on(chosen, line.item),
            row.need.clone(),
            order,
            sold.map_or_else(unknown, |sold| rate_words(sold, chosen.currency)),
            amount.map_or_else(unknown, |amount| chosen.currency.written(amount)),
        ],
        is_strong: false,
    }
}

/// Who brings it.
fn comes(line: &OrderLine) -> &'static str {
    let is_brought = |sold: &Sold| matches!(sold.comes, Comes::Delivered { .. });
    let is_brought = line.sold.as_ref().map(is_brought);
    match (line.item.group(), is_brought) {
        (ItemGroup::Material, Some(true)) => "delivered",
        (ItemGroup::Material, Some(false)) => "we fetch",
        (ItemGroup::TakenAway, Some(true)) => "they take",
        (ItemGroup::TakenAway, Some(false)) => "we take",
        (ItemGroup::Hire, _) => "hired",
        (_, None) => "not known",
    }
}

/// The day on which an item must be there or is loaded, by its number.
fn needed_on(chosen: &Chosen<'_>, item: Item) -> String {
    let nth = day_needed(chosen.priced, item);
    nth.map_or_else(|| "not known".to_owned(), |nth| format!("day {}", nth + 1))
}

/// A day by its number, and by its date where the start is set.
fn day_words(chosen: &Chosen<'_>, nth: usize) -> String {
    let date = chosen
        .start
        .and_then(|start| crate::dates::working_day(start, nth));
    date.map_or_else(
        || (nth + 1).to_string(),
        |(year, month, day)| format!("{}: {}", nth + 1, crate::dates::in_words(year, month, day)),
    )
}

/// What no order can be given for yet, and why.
fn to_find_out(chosen: &Chosen<'_>) -> Vec<Block> {
    let open: Vec<String> = lines(chosen)
        .into_iter()
        .filter_map(|Line { row, line }| {
            let why = match &line.sold {
                None => "nobody of the price list sells it: ask for a price",
                Some(sold) if sold.count.is_none() => "how much of it is not known yet",
                Some(sold) if sold.rate == Money::default() => "no price: ask for one",
                Some(_) if row.is_least => "at the least: it may be more",
                Some(_) => return None,
            };
            Some(format!("{}: {why}.", row.name))
        })
        .collect();
    if open.is_empty() {
        return Vec::new();
    }
    vec![Block::Together(vec![
        Block::Heading(Level::Part, "Still open".to_owned()),
        Block::List(Mark::Box, open),
    ])]
}

/// Hours, finer than which nobody plans a day.
fn to_a_tenth(hours: &Decimal) -> String {
    format!("{:.1}", hours.round_dp(1))
}

/// What must be there in the morning.
fn days(chosen: &Chosen<'_>) -> Vec<Block> {
    let days = &chosen.priced.programme.days;
    if days.is_empty() {
        return Vec::new();
    }
    // What is ordered under a name is there under that name.
    let lines = lines(chosen);
    let name = |item: &Item| {
        let line = lines.iter().find(|line| line.line.item == *item);
        line.map_or_else(|| item.name().to_owned(), |line| line.row.name.clone())
    };
    let rows = days
        .iter()
        .enumerate()
        .map(|(nth, day)| {
            let work: Vec<String> = day
                .stages
                .iter()
                .map(|(stage, hours)| format!("{}, {} h", stage.name(), to_a_tenth(hours)))
                .collect();
            let on_site: Vec<String> = day.on_site.iter().map(name).collect();
            TableRow {
                cells: vec![
                    day_words(chosen, nth),
                    on_site.join("; "),
                    work.join("; "),
                    day.said.join(" "),
                ],
                is_strong: false,
            }
        })
        .collect();
    let mut blocks = vec![
        Block::Heading(Level::Part, "What must be there, day by day".to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                Column {
                    // A date stands on one line.
                    least_mm: if chosen.start.is_some() { 32.0 } else { 0.0 },
                    ..column("Day", Align::Left)
                },
                column("On site in the morning", Align::Left),
                column("What is done, hours of the crew", Align::Left),
                column("To know", Align::Left),
            ],
            rows,
        }),
    ];
    if chosen.start.is_some() {
        blocks.push(Block::Text(
            Style::Note,
            "Dates run from the first day, Saturdays and Sundays left out; holidays and rain are not known here.".to_owned(),
        ));
    }
    blocks
}

/// What it comes to for the office; nothing of gain or price.
fn sums(chosen: &Chosen<'_>) -> Vec<Block> {
    let price = &chosen.priced.price;
    let sums = [
        ("Material", price.material),
        ("Delivery and trips", price.delivery),
        ("Taken away", price.taken_away),
        ("Hire", price.hire),
    ];
    let whole = sums
        .iter()
        .try_fold(Money::default(), |sum, (_, amount)| sum.plus(*amount));
    let row = |name: &str, amount: Money, is_strong: bool| TableRow {
        cells: vec![name.to_owned(), chosen.currency.written(amount)],
        is_strong,
    };
    let mut rows: Vec<TableRow> = sums
        .iter()
        .map(|(name, amount)| row(name, *amount, false))
        .collect();
    rows.extend(whole.map(|whole| row("All of it", whole, true)));
    let caption = if price.is_least {
        "What it costs us, at least"
    } else {
        "What it costs us"
    };
    vec![Block::Together(vec![
        Block::Heading(Level::Part, caption.to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                column("Sum of", Align::Left),
                Column {
                    least_mm: 30.0,
                    ..column("Amount", Align::Right)
                },
            ],
            rows,
        }),
    ])]
}
