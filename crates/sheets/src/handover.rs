//! The hand-over record: what is under the brick as designed and as read, who closed which stage, how to care for it.

mod places;

use underbrick_calc::Results;
use underbrick_calc::bed::{Bed, Lift};
use underbrick_calc::build::{Build, ReadingFound, StageState, Verdict};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::line::Line;
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::{Language, PictureOf, ShownIn, Site, Stamp};

use crate::crew::Said;
use crate::paper::{
    Align, Block, Column, Document, Figure, Level, Mark, Paper, Picture, Scaled, Style, Table,
    TableRow, cross_section_scaled,
};
use crate::wording::on_one_line;
use std::sync::Arc;
use underbrick_drawing::item::Sheet;

/// What the record is made from.
#[derive(Clone, Copy)]
pub struct HandOver<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its materials.
    pub catalogue: &'a Catalogue,
    /// What follows.
    pub results: &'a Results,
    /// Paper that it is laid out for.
    pub paper: Paper,
    /// Date of the sheet, as written.
    pub date: &'a str,
    /// Who hands it over, on one line; empty where nothing is known.
    pub from: &'a str,
    /// Pictures with what they belong to.
    pub pictures: &'a [(PictureOf, Picture)],
}

/// What the record is called.
const TITLE: &str = "Hand-over record";

/// The hand-over record. What was not read is said not to have been.
#[must_use]
pub fn hand_over(record: HandOver<'_>) -> Document {
    let site = record.site;
    let (address, walk) = (on_one_line(&site.address), on_one_line(&site.walk));
    let mut blocks = vec![
        Block::Heading(Level::Title, TITLE.to_owned()),
        Block::Facts(vec![
            ("Address".to_owned(), address.clone()),
            ("Walk".to_owned(), walk.clone()),
            ("Built by".to_owned(), if record.from.is_empty() { "not written down".to_owned() } else { record.from.to_owned() }),
        ]),
        Block::Text(
            Style::Lead,
            "Keep this sheet with the papers of the house: it says what is under the brick, so that whoever looks at the walk next starts from facts.".to_owned(),
        ),
    ];
    match (&record.results.line, &record.results.bed, &record.results.build) {
        (Some(line), Some(bed), Some(build)) => {
            blocks.extend(under_the_brick(record, line, bed));
            blocks.extend(readings(record, build));
            blocks.extend(stages(build, site));
        }
        _ => blocks.push(Block::Text(
            Style::Plain,
            "The design is not complete: what lies under the brick cannot be told from this record.".to_owned(),
        )),
    }
    blocks.extend(days(site));
    blocks.extend(places::places(site));
    blocks.extend(care(record));
    blocks.extend(pictures(record));
    Document {
        title: TITLE.to_owned(),
        address: if walk.is_empty() {
            address
        } else {
            format!("{address}, {walk}")
        },
        from: record.from.to_owned(),
        date: record.date.to_owned(),
        language: Language::English,
        blocks,
    }
}

fn column(head: &str, align: Align) -> Column {
    Column {
        head: head.to_owned(),
        align,
        least_mm: 0.0,
    }
}

fn row(cells: Vec<String>) -> TableRow {
    TableRow {
        cells,
        is_strong: false,
    }
}

/// From the brick down, as designed, with what was written down while it was built.
fn under_the_brick(record: HandOver<'_>, line: &Line, bed: &Bed) -> Vec<Block> {
    let site = record.site;
    let shown = site.shown_in;
    let said = Said::of(Language::English, shown);
    let material = record
        .catalogue
        .find(&site.bed.base_material)
        .map_or("stone", |material| material.name.as_str());
    let mut rows = vec![
        row(vec![
            "Brick".to_owned(),
            shown.thickness(bed.unit_thickness),
            said.bond(site.lay.bond, site.lay.courses),
        ]),
        row(vec![
            "Setting bed".to_owned(),
            shown.thickness(bed.setting_bed),
            "as designed, compacted".to_owned(),
        ]),
    ];
    rows.extend(lifts(site, bed, material));
    let fabric = if bed.fabric {
        "separation fabric on the ground"
    } else {
        "no fabric"
    };
    rows.push(row(vec![
        "Under the base".to_owned(),
        String::new(),
        format!("undisturbed ground, {fabric}"),
    ]));
    let width = record.paper.text_dots().0;
    let station = line.run.length() * 0.5;
    let Scaled { drawing, scale } = cross_section_scaled(
        site,
        record.catalogue,
        record.results,
        station,
        Sheet {
            width,
            height: 450.0,
            text_scale: 1.0,
        },
    );
    vec![
        Block::Heading(Level::Part, "What is under the brick".to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                column("Layer, from the top", Align::Left),
                column("Thickness", Align::Right),
                column("What is known of it", Align::Left),
            ],
            rows,
        }),
        Block::Facts(vec![
            (
                "Base, compacted".to_owned(),
                format!(
                    "{} to {}",
                    shown.length(bed.thinnest_base),
                    shown.length(bed.thickest_base)
                ),
            ),
            ("Edge brick".to_owned(), said.edge(site.edge.stands)),
            (
                "Edge held by".to_owned(),
                said.restraint(&site.edge.restraint),
            ),
            ("Fall from the door".to_owned(), shown.fall(line.grade.fall)),
            (
                "Length of the walk".to_owned(),
                shown.along(line.run.length()),
            ),
            (
                "Pits looked into before".to_owned(),
                site.pits.len().to_string(),
            ),
        ]),
        Block::Figure(Figure {
            caption: format!(
                "Section in the middle of the walk, at {}{}; readings as built are marked on it.",
                shown.along(station),
                scale.map_or_else(String::new, |scale| format!(", to scale {}", scale.written))
            ),
            drawing: Arc::new(drawing),
        }),
    ]
}

/// The lifts from the top down. Those that follow each other and were not written down stand in one row.
fn lifts(site: &Site, bed: &Bed, material: &str) -> Vec<TableRow> {
    let shown = site.shown_in;
    let placed = |lift: &Lift| {
        let all = site.build.lifts.iter().rev();
        all.into_iter().find(|placed| placed.number == lift.number)
    };
    let from_top: Vec<&Lift> = bed.lifts.each.iter().rev().collect();
    let alike = from_top.chunk_by(|one, next| placed(one).is_none() && placed(next).is_none());
    let rows = alike.filter_map(|lifts| {
        let (first, last) = (lifts.first()?, lifts.last()?);
        let name = if lifts.len() == 1 {
            format!("Lift {}", first.number)
        } else {
            format!("Lifts {} to {}", first.number, last.number)
        };
        let as_built = placed(first).map_or_else(
            || {
                let was = if lifts.len() == 1 {
                    "it was"
                } else {
                    "they were"
                };
                format!("not written down when {was} placed")
            },
            |placed| {
                let size = |length: Option<Length>| {
                    length.map_or_else(|| "not read".to_owned(), |length| shown.length(length))
                };
                let passes = match placed.n_passes {
                    None => "passes not counted".to_owned(),
                    Some(1) => "1 pass".to_owned(),
                    Some(n) => format!("{n} passes"),
                };
                format!(
                    "tipped {}, compacted {}, {passes}",
                    size(placed.loose),
                    size(placed.compacted)
                )
            },
        );
        let thickest = lifts
            .iter()
            .map(|lift| lift.compacted)
            .fold(Length::default(), |one, other| one.max(other));
        let each = if lifts.len() == 1 { "" } else { " each" };
        Some(row(vec![
            format!("{name}: {material}"),
            format!("up to {}{each}", shown.length(thickest)),
            as_built,
        ]))
    });
    rows.collect()
}

/// Every level that was read, against its design.
fn readings(record: HandOver<'_>, build: &Build) -> Vec<Block> {
    let shown = record.site.shown_in;
    let said = Said::of(Language::English, shown);
    let mut blocks = vec![Block::Heading(Level::Part, "As built".to_owned())];
    let counted: Vec<_> = build
        .readings
        .iter()
        .filter(|reading| !reading.is_read_again)
        .collect();
    if counted.is_empty() {
        blocks.push(Block::Text(
            Style::Plain,
            "No level was read while it was built.".to_owned(),
        ));
        return blocks;
    }
    let rows = counted
        .iter()
        .map(|reading| {
            let off = reading.off.map_or_else(
                || "not known".to_owned(),
                |off| {
                    let size = shown.thickness(off.abs());
                    match in_metres(off) {
                        _ if size == shown.thickness(Length::default()) => "as designed".to_owned(),
                        off_m if off_m > 0.0 => format!("{size} high"),
                        _ => format!("{size} low"),
                    }
                },
            );
            let stamp = record
                .site
                .build
                .readings
                .get(reading.reading_idx)
                .map(|read| &read.stamp);
            row(vec![
                said.surface(reading.surface),
                shown.along(reading.station),
                beside(reading.offset, shown),
                below_sill(reading.design, shown),
                below_sill(reading.level, shown),
                off,
                verdict(reading.verdict).to_owned(),
                stamp.map_or_else(String::new, stamp_words),
            ])
        })
        .collect();
    blocks.push(Block::Text(Style::Strong, in_tolerance(&counted)));
    blocks.push(Block::Table(Table {
        caption: "Levels, as drops below the underside of the door sill".to_owned(),
        columns: vec![
            column("Surface", Align::Left),
            column("Station", Align::Right),
            column("Beside", Align::Right),
            column("Designed", Align::Right),
            column("Read", Align::Right),
            column("Off its design", Align::Right),
            column("Within tolerance", Align::Left),
            column("When, by whom", Align::Left),
        ],
        rows,
    }));
    blocks
}

/// How many of the readings that count are right, and how many are not.
fn in_tolerance(counted: &[&ReadingFound]) -> String {
    let n_of = |is_it: fn(Verdict) -> bool| {
        counted
            .iter()
            .filter(|reading| is_it(reading.verdict))
            .count()
    };
    let n_off = n_of(|verdict| matches!(verdict, Verdict::High | Verdict::Low));
    let n_unknown = n_of(|verdict| verdict == Verdict::NotKnown);
    let n_all = counted.len();
    let mut said = match (n_all, n_off) {
        (1, 0) => "1 level was read; it is within tolerance.".to_owned(),
        (1, _) => "1 level was read; it is out of tolerance.".to_owned(),
        (_, 0) if n_unknown == 0 => {
            format!("{n_all} levels were read; all are within tolerance.")
        }
        (_, 0) => format!("{n_all} levels were read; none is known to be out of tolerance."),
        (_, 1) => format!("{n_all} levels were read; 1 is out of tolerance."),
        (_, n_off) => format!("{n_all} levels were read; {n_off} are out of tolerance."),
    };
    if n_unknown > 0 {
        said.push_str(&format!(" Of {n_unknown} it is not known."));
    }
    said
}

/// How far from the centreline, and on which side.
fn beside(offset: Length, shown: ShownIn) -> String {
    let size = shown.length(offset.abs());
    match in_metres(offset) {
        _ if size == shown.length(Length::default()) => "centreline".to_owned(),
        off_m if off_m < 0.0 => format!("{size} left"),
        _ => format!("{size} right"),
    }
}

/// A level as a drop; what is above the sill is said to be.
fn below_sill(level: Option<Length>, shown: ShownIn) -> String {
    let Some(level) = level else {
        return "not known".to_owned();
    };
    let size = shown.length(level.abs());
    if in_metres(level) > 0.0 && size != shown.length(Length::default()) {
        format!("{size} above")
    } else {
        size
    }
}

const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Right => "yes",
        Verdict::High => "no, high",
        Verdict::Low => "no, low",
        Verdict::NotKnown => "not known",
    }
}

/// Date and initials.
fn stamp_words(stamp: &Stamp) -> String {
    let date = stamp
        .local_s()
        .map_or_else(String::new, crate::dates::day_of);
    [date, on_one_line(&stamp.initials)]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(", ")
}

/// Which stage was closed on what.
fn stages(build: &Build, site: &Site) -> Vec<Block> {
    let said = Said::of(Language::English, site.shown_in);
    let is_closed = |state: StageState| match state {
        StageState::Open | StageState::Ready | StageState::Failed => false,
        StageState::Closed | StageState::ClosedWithReason | StageState::Doubtful => true,
    };
    let open: Vec<String> = build
        .stages
        .iter()
        .filter(|found| !is_closed(found.state))
        .map(|found| said.stage(found.stage))
        .collect();
    let rows: Vec<TableRow> = build
        .stages
        .iter()
        .filter(|found| is_closed(found.state))
        .map(|found| {
            let closing = site
                .build
                .closed
                .iter()
                .rev()
                .find(|closed| closed.stage == found.stage);
            let state = match found.state {
                StageState::Open | StageState::Ready | StageState::Failed => "not closed",
                StageState::Closed => "closed on readings that are right",
                StageState::ClosedWithReason => "closed with a reason",
                StageState::Doubtful => "closed, and a reading since then says otherwise",
            };
            let reason = closing.map_or("", |closing| closing.reason.as_str());
            row(vec![
                said.stage(found.stage),
                if reason.is_empty() {
                    state.to_owned()
                } else {
                    format!("{state}: {}", on_one_line(reason))
                },
                closing.map_or_else(String::new, |closing| stamp_words(&closing.stamp)),
            ])
        })
        .collect();
    let mut blocks = vec![Block::Heading(Level::Part, "Stages of the work".to_owned())];
    if rows.is_empty() {
        blocks.push(Block::Text(
            Style::Plain,
            format!(
                "None is closed in this record. Asked for: {}.",
                open.join("; ")
            ),
        ));
        return blocks;
    }
    blocks.push(Block::Table(Table {
        caption: String::new(),
        columns: vec![
            column("Stage", Align::Left),
            column("How it was closed", Align::Left),
            Column {
                least_mm: 40.0,
                ..column("When, by whom", Align::Left)
            },
        ],
        rows,
    }));
    if !open.is_empty() {
        blocks.push(Block::Text(
            Style::Strong,
            format!("Not closed: {}.", open.join("; ")),
        ));
    }
    blocks
}

/// The day log.
fn days(site: &Site) -> Vec<Block> {
    if site.build.days.is_empty() {
        return Vec::new();
    }
    let rows = site
        .build
        .days
        .iter()
        .map(|day| {
            let date = day.date.map_or_else(
                || "no date".to_owned(),
                |(year, month, day)| crate::dates::in_words(year, month, day),
            );
            row(vec![
                date,
                on_one_line(&day.crew),
                on_one_line(&day.weather),
                on_one_line(&day.notes),
            ])
        })
        .collect();
    vec![
        Block::Heading(Level::Part, "Days on site".to_owned()),
        Block::Table(Table {
            caption: String::new(),
            columns: vec![
                column("Date", Align::Left),
                column("Crew", Align::Left),
                column("Weather", Align::Left),
                column("Notes", Align::Left),
            ],
            rows,
        }),
    ]
}

/// How to live with it. Common practice, no source.
fn care(record: HandOver<'_>) -> Vec<Block> {
    let haunch = matches!(
        record.site.edge.restraint,
        underbrick_calc::site::RestraintInput::Haunch { .. }
    );
    let mut first = vec![
        "Sand in the joints settles in the first weeks: sweep dry jointing sand in again when the joints stand more than half an inch (12 mm) low.".to_owned(),
        "Sweep it; wash it with a hose, not with a pressure washer held close: that takes the sand out of the joints.".to_owned(),
        "Melt ice with sand or grit. Salt harms some brick; try a corner first.".to_owned(),
        "Keep soil and mulch below the top of the edge brick, and water off the roof led away from the walk.".to_owned(),
        "Nothing heavier than people, a wheelbarrow or a mower: the walk is not made for a car.".to_owned(),
    ];
    if haunch {
        first.push(
            "Along the edges lies concrete, a hand below the lawn: mind it with spade and edger."
                .to_owned(),
        );
    }
    let winter = vec![
        "One brick that rocks or stands up by more than a coin: it can be lifted and set again by hand, on fresh sand.".to_owned(),
        "A place where water stands for an hour after rain.".to_owned(),
        "A joint that has opened by more than a pencil's width, or an edge that has moved outwards.".to_owned(),
        "A stretch that has sunk or lifted as a whole: call before it is touched, and have this sheet at hand.".to_owned(),
    ];
    let moved = vec![
        "Write down which brick or which stretch, how far from the door, and by how much: lay a straight board across it and measure the gap.".to_owned(),
        "One brick that sank: pry it out with two flat blades, add sand under it, set it back a coin's thickness high, tap it level, sweep sand into its joints.".to_owned(),
        "A joint that opened: do not fill it with mortar. If the edge beside it stands where it stood, sweep sand in. If the edge has moved, the edge is mended first.".to_owned(),
        "A stretch that sank or rose: the levels in this record say where it was. Whoever mends it reads the same spots again and compares.".to_owned(),
    ];
    vec![
        Block::Heading(Level::Part, "Care".to_owned()),
        Block::List(Mark::Dot, first),
        Block::Heading(Level::Part, "After the first winter, look for".to_owned()),
        Block::List(Mark::Box, winter),
        Block::Heading(Level::Part, "If something moves".to_owned()),
        Block::List(Mark::Number, moved),
        Block::Caution("Before anyone digs beside or under the walk, have buried services located. Frost, drainage and access are for the local building office and licensed professionals to judge.".to_owned()),
        Block::WriteIn("What was seen, and when".to_owned(), 4),
    ]
}

fn pictures(record: HandOver<'_>) -> Vec<Block> {
    let kept: Vec<&Picture> = record
        .pictures
        .iter()
        .filter(|(of, _)| {
            matches!(
                of,
                PictureOf::HandedOver | PictureOf::Day(_) | PictureOf::Pit(_)
            )
        })
        .map(|(_, picture)| picture)
        .collect();
    if kept.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(Level::Part, "Pictures".to_owned())];
    blocks.extend(kept.into_iter().cloned().map(Block::Picture));
    blocks
}
