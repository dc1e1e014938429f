//! The owner sheet: what a homeowner takes to the kitchen table. What was found, the walk as it is and as it will be, what can be chosen,
//! and the agreement. No trade word stands in it without being explained.

mod message;
mod told;

pub use message::owner_message;
pub use told::{WayTold, WhyTold, signed_on, ways_told, why_told};

use std::sync::Arc;

use crate::agreement::{
    Change, ChangeKind, Design, Standing, Terms, cause_in_plain_words, days_in_words, heading,
    lead, standing, terms, way_in_plain_words,
};
use crate::order::words::way_price_words;
use crate::paper::{
    Align, Block, Column, DOT_MM, Document, Figure, Level, Mark, Paper, Picture, SignatureLine,
    Style, Table, TableRow,
};
use crate::wording::on_one_line;
use underbrick_calc::findings::rules::Cause;
use underbrick_calc::order::{Cured, Order, Priced};
use underbrick_calc::quantity::Length;
use underbrick_calc::site::{Agreement, Clause, Language, PictureOf, Signature};
use underbrick_drawing::item::Sheet;
use underbrick_drawing::{plain, plain_lengthwise};

/// Height of one of the two cross-sections on paper, in millimetres.
const SECTION_MM: f64 = 60.0;
/// Height of the walk lengthwise on paper, in millimetres.
const LENGTHWISE_MM: f64 = 44.0;
/// Most pictures on the sheet: those that say why come first.
const MOST_PICTURES: usize = 8;

/// What stands beside the design on an owner sheet.
#[derive(Clone, Copy, Debug)]
pub struct OwnerSheet<'a> {
    /// Paper that it is laid out for.
    pub paper: Paper,
    /// Date of the sheet, as written.
    pub date: &'a str,
    /// Pictures with what they belong to, in the order of the site.
    pub pictures: &'a [(PictureOf, Picture)],
}

/// The owner sheet of a design.
#[must_use]
pub fn owner_sheet(design: Design<'_>, sheet: OwnerSheet<'_>) -> Document {
    let now = terms(design);
    let stands = standing(design.site, &now);
    let mut blocks = head(design, sheet, &stands);
    blocks.extend(why(design, sheet));
    blocks.extend(ways(design));
    blocks.push(Block::NewPage);
    blocks.extend(drawings(design, sheet.paper));
    blocks.extend(agreement(design, &now, &stands));
    blocks.extend(pictures(sheet));
    Document {
        title: "Your walk".to_owned(),
        address: match place_in_words(design) {
            place if place.is_empty() => "no address yet".to_owned(),
            place => place,
        },
        from: from_in_words(design),
        date: sheet.date.to_owned(),
        language: Language::English,
        blocks,
    }
}

/// Address and walk, on one line; empty where neither is written down.
pub(crate) fn place_in_words(design: Design<'_>) -> String {
    let parts = [&design.site.address, &design.site.walk];
    let parts: Vec<String> = parts
        .into_iter()
        .map(|part| on_one_line(part))
        .filter(|part| !part.is_empty())
        .collect();
    parts.join(", ")
}

fn from_in_words(design: Design<'_>) -> String {
    design.letterhead.map_or_else(String::new, |letterhead| {
        let parts = [&letterhead.name, &letterhead.phone];
        let parts: Vec<String> = parts
            .into_iter()
            .map(|part| on_one_line(part))
            .filter(|part| !part.is_empty())
            .collect();
        parts.join(", ")
    })
}

/// Title, and what the sheet is.
fn head(design: Design<'_>, sheet: OwnerSheet<'_>, stands: &Standing) -> Vec<Block> {
    let place = match place_in_words(design) {
        place if place.is_empty() => "not written down".to_owned(),
        place => place,
    };
    let mut facts = vec![
        ("Address".to_owned(), place),
        ("Date of this sheet".to_owned(), or_missing(sheet.date)),
    ];
    let from = from_in_words(design);
    if !from.is_empty() {
        facts.push(("From".to_owned(), from));
    }
    let state = match stands {
        Standing::NotAgreed => "A proposal: nothing is agreed until it is signed.".to_owned(),
        Standing::AsAgreed { .. } => "This is what was agreed and signed.".to_owned(),
        Standing::Differs { .. } => {
            "Something has changed since it was agreed: see the end of this sheet.".to_owned()
        }
    };
    facts.push(("State".to_owned(), state));
    vec![
        Block::Heading(Level::Title, "Your walk".to_owned()),
        Block::Facts(facts),
    ]
}

fn or_missing(text: &str) -> String {
    let text = on_one_line(text);
    if text.is_empty() {
        "not written down".to_owned()
    } else {
        text
    }
}

/// The finding in one sentence, with the picture or the hole that shows it.
fn why(design: Design<'_>, sheet: OwnerSheet<'_>) -> Vec<Block> {
    let mut together = vec![
        Block::Heading(Level::Part, "What is wrong with it".to_owned()),
        Block::Text(Style::Lead, lead(design)),
    ];
    let others = crate::agreement::rest_of_the_causes(design);
    if !others.is_empty() {
        together.push(Block::List(Mark::Dot, others));
    }
    let mut blocks = vec![Block::Together(together)];
    let first = sheet
        .pictures
        .iter()
        .find(|(of, _)| matches!(of, PictureOf::AsFound | PictureOf::Sign(_)));
    match first {
        Some((_, picture)) => blocks.push(Block::Picture(picture.clone())),
        None => blocks.push(Block::Together(vec![
            Block::Heading(Level::Point, "What lies under it".to_owned()),
            Block::List(Mark::Dot, crate::agreement::layers_shown(design)),
        ])),
    }
    blocks
}

/// Where both sections are cut: at the first hole, which shows what lies there; else in the middle of the walk.
#[must_use]
pub fn station_shown(design: Design<'_>) -> Length {
    let results = design.results;
    let pit = results.ground.as_ref().and_then(|ground| {
        let pits = ground.pits.iter();
        pits.min_by_key(|pit| pit.pit_idx)
    });
    let run = results.line.as_ref().map(|line| line.run.length());
    match (pit, run) {
        (Some(pit), _) => pit.station,
        (None, Some(run)) => run * 0.5,
        (None, None) => Length::default(),
    }
}

fn drawings(design: Design<'_>, paper: Paper) -> Vec<Block> {
    let (width_mm, _) = paper.text_mm();
    let on = |height_mm: f64| Sheet {
        width: width_mm / DOT_MM,
        height: height_mm / DOT_MM,
        text_scale: 1.0,
    };
    let Design {
        site,
        catalogue,
        results,
        ..
    } = design;
    if results.bed.is_none() {
        return vec![
            Block::Heading(Level::Part, "How it will be".to_owned()),
            Block::Text(
                Style::Plain,
                "There is nothing to draw yet: the walk is not measured far enough.".to_owned(),
            ),
        ];
    }
    let station = station_shown(design);
    let figure = |caption: String, drawing| {
        Block::Figure(Figure {
            caption,
            drawing: Arc::new(drawing),
        })
    };
    let cut = Sheet {
        text_scale: 0.9,
        ..on(SECTION_MM)
    };
    let found = plain::as_found_section(site, catalogue, results, station, cut);
    let proposed = plain::proposed_section(site, catalogue, results, station, cut);
    let where_cut = format!(
        "These two drawings show the walk as if it were sawn through {} from the door, and you stood at the door looking at the cut. Both have the same scale, so that they can be compared.",
        site.shown_in.along(station)
    );
    let mut blocks = vec![Block::Together(vec![
        Block::Heading(Level::Part, "How it is now, and how it will be".to_owned()),
        Block::Text(Style::Plain, where_cut),
        figure("As it is now".to_owned(), found),
        figure("As it will be".to_owned(), proposed),
    ])];
    let lengthwise = plain_lengthwise(site, catalogue, results, on(LENGTHWISE_MM));
    let now = terms(design);
    let slope = now.text("scope-fall");
    let mut together = vec![Block::Heading(Level::Part, "How it slopes".to_owned())];
    together.extend(
        slope
            .lines()
            .take(1)
            .map(|line| Block::Text(Style::Plain, line.to_owned())),
    );
    together.push(figure(
        "The walk from the side, your house at the left".to_owned(),
        lengthwise,
    ));
    blocks.push(Block::Together(together));
    blocks
}

/// What can be chosen, each with its price and what it mends.
fn ways(design: Design<'_>) -> Vec<Block> {
    let Some(order) = &design.results.order else {
        return Vec::new();
    };
    let columns = [
        ("What can be done", Align::Left, 44.0),
        ("Price", Align::Left, 34.0),
        ("Days", Align::Left, 18.0),
        ("What it mends, and what it does not", Align::Left, 60.0),
    ];
    let columns = columns.map(|(head, align, least_mm)| Column {
        head: head.to_owned(),
        align,
        least_mm,
    });
    let rows = order.ways.iter().map(|priced| TableRow {
        cells: vec![
            way_cell(order, priced),
            way_price_words(order.currency, priced),
            days_in_words(design, priced),
            mends(design, priced),
        ],
        is_strong: priced.way == order.chosen,
    });
    let table = Table {
        caption: String::new(),
        columns: columns.to_vec(),
        rows: rows.collect(),
    };
    let note = "Where two figures stand, the lower is for ground as good as the holes showed it, the higher for ground as bad everywhere as in the worst of them. \"At least\" means that something is not known or not priced yet.";
    vec![Block::Together(vec![
        Block::Heading(Level::Part, "What can be chosen".to_owned()),
        Block::Table(table),
        Block::Text(Style::Note, note.to_owned()),
    ])]
}

fn way_cell(order: &Order, priced: &Priced) -> String {
    let words = way_in_plain_words(priced.way);
    if priced.way == order.chosen {
        format!("{words} (chosen)")
    } else {
        words.to_owned()
    }
}

/// What a way mends and what it leaves, each cause once: where several rules found one, by the least of what becomes of it.
fn mend_parts(design: Design<'_>, priced: &Priced) -> Vec<(&'static str, String)> {
    let mut named: Vec<(&str, Cured)> = Vec::new();
    for cure in &priced.cures {
        let causes = &design.results.causes;
        let cause = causes.iter().find(|cause| cause.rule_id == cure.rule_id);
        let Some(cause) = cause.filter(|cause| cause.cause != Cause::NotDugEnough) else {
            continue;
        };
        let name = cause_in_plain_words(cause.cause);
        match named.iter_mut().find(|(of, _)| *of == name) {
            Some((_, cured)) if *cured == Cured::Yes => *cured = cure.cured,
            Some(_) => {}
            None => named.push((name, cure.cured)),
        }
    }
    let parts = [
        ("Mends", Cured::Yes),
        ("Leaves", Cured::No),
        ("Needs other work too", Cured::OtherWork),
        ("Not known", Cured::NotSaid),
    ];
    let parts = parts.into_iter().filter_map(|(what, wanted)| {
        let causes = named.iter().filter(|(_, cured)| *cured == wanted);
        let causes: Vec<&str> = causes.map(|(name, _)| *name).collect();
        (!causes.is_empty()).then(|| (what, causes.join("; ")))
    });
    parts.collect()
}

/// As [`mend_parts`], in one text.
fn mends(design: Design<'_>, priced: &Priced) -> String {
    let parts: Vec<String> = mend_parts(design, priced)
        .into_iter()
        .map(|(what, causes)| format!("{what}: {causes}."))
        .collect();
    if parts.is_empty() {
        "No cause was found that it could mend.".to_owned()
    } else {
        parts.join(" ")
    }
}

/// The agreement: as signed where it is signed, else as it would be signed now; with what has changed since.
fn agreement(design: Design<'_>, now: &Terms, stands: &Standing) -> Vec<Block> {
    let agreed = design.site.show.agreements.last();
    let number = design.site.show.agreements.len();
    let title = match agreed {
        Some(_) if number > 1 => format!("What was agreed (agreement {number})"),
        Some(_) => "What was agreed".to_owned(),
        None => "What we agree on".to_owned(),
    };
    let mut blocks = vec![Block::NewPage, Block::Heading(Level::Part, title)];
    let written = agreed.map_or(&now.clauses, |agreed| &agreed.clauses);
    blocks.extend(written.iter().map(clause));
    blocks.extend(signatures(design, agreed));
    match agreed {
        Some(agreed) if agreed.is_as_signed => {
            let sealed = format!(
                "These words are sealed: whoever changes one of them changes this number too. SHA-256 {}",
                agreed.digest
            );
            blocks.push(Block::Text(Style::Note, sealed));
        }
        Some(_) => blocks.push(Block::Caution(
            "These are not the words that were signed: they were changed in the file afterwards. Do not rely on them; agree anew."
                .to_owned(),
        )),
        None => {}
    }
    if let Standing::Differs { changes, .. } = stands {
        blocks.push(Block::Heading(
            Level::Part,
            "What has changed since".to_owned(),
        ));
        blocks.push(Block::Caution(
            "These changes do not count until both sides have signed them.".to_owned(),
        ));
        blocks.extend(changes.iter().map(change));
        blocks.push(Block::Together(blank_lines(design, 2)));
    }
    blocks
}

fn clause(clause: &Clause) -> Block {
    let lines: Vec<String> = clause.text.lines().map(str::to_owned).collect();
    let body = match lines.as_slice() {
        [one] => Block::Text(Style::Plain, one.clone()),
        _ => Block::List(Mark::Dot, lines),
    };
    Block::Together(vec![
        Block::Heading(Level::Point, heading(&clause.key).to_owned()),
        body,
    ])
}

fn change(change: &Change) -> Block {
    let mut parts = vec![Block::Heading(
        Level::Point,
        heading(&change.key).to_owned(),
    )];
    let (agreed, now) = match &change.kind {
        ChangeKind::Added { now } => (None, Some(now)),
        ChangeKind::Gone { agreed } => (Some(agreed), None),
        ChangeKind::Changed { agreed, now, .. } => (Some(agreed), Some(now)),
    };
    // Of a list, the lines that both have are left out.
    let only_in = |text: Option<&String>, other: Option<&String>, nothing: &str| {
        let has = |line: &&str| !other.is_some_and(|other| other.lines().any(|of| of == *line));
        let lines: Vec<&str> = text.map_or("", |text| text).lines().filter(has).collect();
        if lines.is_empty() {
            nothing.to_owned()
        } else {
            lines.join(" ")
        }
    };
    let (agreed, now) = (
        only_in(agreed, now, "nothing was said of it."),
        only_in(now, agreed, "nothing is said of it any more."),
    );
    parts.push(Block::Text(Style::Plain, format!("Agreed: {agreed}")));
    parts.push(Block::Text(Style::Plain, format!("Now: {now}")));
    Block::Together(parts)
}

/// Who signed, and room for who has not: an owner and the contractor at the least.
fn signatures(design: Design<'_>, agreed: Option<&Agreement>) -> Vec<Block> {
    let signed = agreed.map_or(&[][..], |agreed| &agreed.signatures);
    let mut lines: Vec<Block> = signed.iter().map(signed_line).collect();
    lines.extend(blank_lines(design, 2_usize.saturating_sub(signed.len())));
    vec![Block::Together(lines)]
}

fn signed_line(signature: &Signature) -> Block {
    Block::Signature(SignatureLine {
        role: "Signed".to_owned(),
        signed: Some(signature.clone()),
        date: signed_on(signature).unwrap_or_default(),
    })
}

fn blank_lines(design: Design<'_>, count: usize) -> Vec<Block> {
    let contractor = design.letterhead.map_or_else(
        || "Contractor".to_owned(),
        |letterhead| format!("For {}", on_one_line(&letterhead.name)),
    );
    // With one signature there, it is the other side's that is missing: which side, the sheet cannot know.
    let roles = match count {
        0 => Vec::new(),
        1 => vec!["Signed also by".to_owned()],
        _ => vec!["Owner".to_owned(), contractor],
    };
    roles
        .into_iter()
        .map(|role| {
            Block::Signature(SignatureLine {
                role,
                signed: None,
                date: String::new(),
            })
        })
        .collect()
}

/// The other pictures of the walk as it was found.
fn pictures(sheet: OwnerSheet<'_>) -> Vec<Block> {
    let of_before = |of: &PictureOf| {
        matches!(
            of,
            PictureOf::AsFound | PictureOf::Sign(_) | PictureOf::Pit(_)
        )
    };
    let first = sheet
        .pictures
        .iter()
        .position(|(of, _)| matches!(of, PictureOf::AsFound | PictureOf::Sign(_)));
    let others: Vec<&Picture> = sheet
        .pictures
        .iter()
        .enumerate()
        .filter(|(idx, (of, _))| of_before(of) && Some(*idx) != first)
        .map(|(_, (_, picture))| picture)
        .collect();
    if others.is_empty() {
        return Vec::new();
    }
    let left_out = others.len().saturating_sub(MOST_PICTURES);
    let mut blocks = vec![Block::Heading(Level::Part, "Pictures".to_owned())];
    blocks.extend(
        others
            .into_iter()
            .take(MOST_PICTURES)
            .map(|picture| Block::Picture(picture.clone())),
    );
    if left_out > 0 {
        let words = format!("{left_out} more pictures are kept with the site.");
        blocks.push(Block::Text(Style::Note, words));
    }
    blocks
}

#[cfg(test)]
mod tests {
    use crate::dates::civil;

    #[track_caller]
    fn check(days: i64, expected: Option<(i16, i8, i8)>) {
        assert_eq!(civil(days), expected);
    }

    #[test]
    fn days_are_those_of_the_calendar() {
        // Python 3: (date(1970, 1, 1) + timedelta(days)).isoformat().
        check(0, Some((1970, 1, 1)));
        check(59, Some((1970, 3, 1)));
        check(-1, Some((1969, 12, 31)));
        check(11_016, Some((2000, 2, 29)));
        check(20_577, Some((2026, 5, 4)));
        check(47_540, Some((2100, 2, 28)));
        check(47_541, Some((2100, 3, 1)));
        check(-719_162, Some((1, 1, 1)));
        check(2_932_896, Some((9999, 12, 31)));
        check(2_932_897, None);
        check(i64::MAX, None);
        check(i64::MIN, None);
    }
}
