//! How the brick is laid: figures, plan, cut list, laying order.

use underbrick_calc::lay::{Course, Lay, LayNote, Measured, Part, Pattern, Stock, fine};
use underbrick_calc::site::Hand;
use underbrick_words::Value;

use super::parts::{columns, row};
use super::{Designed, Said, plan};
use crate::paper::{Align, Block, Level, Table};

/// Courses that are told one by one; the plan shows the rest.
const MOST_COURSES: usize = 60;
/// Width of the names of courses, in millimetres.
const COURSE_MM: f64 = 33.0;
/// Bricks and what they are sawn into, pairs of columns abreast.
const SAWN_ABREAST: usize = 4;

/// How the brick is laid; and the plan in parts, where it needs some: each of them fills a page, so they stand at the end of the sheet.
pub(super) fn laying(designed: &Designed<'_>) -> (Vec<Block>, Vec<Block>) {
    let Some(lay) = &designed.sheet.results.lay else {
        return (Vec::new(), Vec::new());
    };
    if lay.pieces.all().is_empty() {
        return (Vec::new(), Vec::new());
    }
    let (whole, mut parts) = plan::plans(designed, lay);
    let mut blocks = vec![Block::Heading(Level::Part, designed.said.say("laying"))];
    // A plan that needs no parts stands first.
    blocks.extend(whole.or_else(|| parts.pop()));
    blocks.push(figures(designed, lay));
    blocks.extend(cut_list(designed, lay));
    blocks.extend(sawing(designed, lay));
    blocks.extend(order(designed, lay));
    (blocks, parts)
}

fn figures(designed: &Designed<'_>, lay: &Lay) -> Block {
    let said = designed.said;
    let shown = said.shown_in;
    // What is off a limit is told finer than the tape, so that it is not the limit itself by its figure.
    let spot = |measured: Option<Measured>, is_off: bool| {
        measured.map_or_else(
            || said.say("none-needed"),
            |measured| {
                let station = shown.along(measured.station);
                let size = if is_off {
                    fine(measured.length, shown)
                } else {
                    shown.thickness(measured.length)
                };
                said.with("at-station", &[("size", &size), ("station", &station)])
            },
        )
    };
    let has_note = |is_it: fn(&LayNote) -> bool| lay.notes.iter().any(is_it);
    let joint_off: fn(&LayNote) -> bool = |note| matches!(note, LayNote::JointNotKept(_));
    let lap_off: fn(&LayNote) -> bool = |note| matches!(note, LayNote::LapNotKept(_));
    let mut facts = vec![
        (
            said.say("fact-bond"),
            said.bond(lay.wishes.bond, lay.wishes.courses),
        ),
        (said.say("fact-start"), said.side(lay.wishes.start)),
        (
            said.say("fact-pieces"),
            (lay.n_field() + lay.n_edge()).to_string(),
        ),
        (said.say("fact-bricks"), lay.cuts.n_bricks().to_string()),
        (said.say("fact-joint"), shown.thickness(lay.wishes.joint)),
        (
            said.say("fact-narrowest"),
            spot(lay.narrowest_joint, has_note(joint_off)),
        ),
        (
            said.say("fact-widest"),
            spot(lay.widest_joint, has_note(joint_off)),
        ),
    ];
    if lay.least_lap.is_some() {
        facts.push((
            said.say("fact-least-lap"),
            spot(lay.least_lap, has_note(lap_off)),
        ));
    }
    Block::Facts(facts)
}

fn cut_list(designed: &Designed<'_>, lay: &Lay) -> Vec<Block> {
    let said = designed.said;
    if lay.cuts.lines.is_empty() {
        return Vec::new();
    }
    let shown = said.shown_in;
    let has_sides = lay.cuts.lines.iter().any(|line| !line.sides.is_empty());
    let rows = lay
        .cuts
        .lines
        .iter()
        .map(|line| {
            let sides: Vec<String> = line
                .sides
                .iter()
                .map(|side| shown.thickness(*side))
                .collect();
            let mut cells = vec![
                line.letter.clone(),
                line.n_pieces.to_string(),
                said.say(if line.of_edge { "of-edge" } else { "of-field" }),
                said.kind(line.kind),
                shown.thickness(line.length),
                shown.thickness(line.width),
            ];
            if has_sides {
                cells.push(sides.join(", "));
            }
            row(cells)
        })
        .collect();
    let mut keys = vec![
        ("letter", Align::Left),
        ("pieces", Align::Right),
        ("part", Align::Left),
        ("how-cut", Align::Left),
        ("length", Align::Right),
        ("width", Align::Right),
    ];
    if has_sides {
        keys.push(("sides", Align::Left));
    }
    vec![
        Block::Heading(Level::Point, said.say("cut-list")),
        Block::Table(Table {
            caption: String::new(),
            columns: columns(said, &keys),
            rows,
        }),
    ]
}

/// What each brick is sawn into, so that offcuts are used again.
fn sawing(designed: &Designed<'_>, lay: &Lay) -> Vec<Block> {
    let said = designed.said;
    let (first, second) = (&lay.cuts.first, &lay.cuts.second);
    let has_second = second.n_bricks() > 0;
    let of_first = if has_second { "of-field" } else { "" };
    let tables = [
        ("sawn-across", of_first, &first.to_length),
        ("sawn-along", of_first, &first.to_width),
        ("sawn-across", "of-edge", &second.to_length),
        ("sawn-along", "of-edge", &second.to_width),
    ];
    let tables: Vec<Block> = tables
        .into_iter()
        .filter(|(_, _, stock)| !stock.patterns.is_empty())
        .map(|(way, of, stock)| {
            let n_bricks = usize::try_from(stock.n_bricks).unwrap_or(usize::MAX);
            let mut caption = said
                .words
                .say_with(way, &[("bricks", Value::from(n_bricks))]);
            if !of.is_empty() {
                caption = format!("{}: {caption}", said.say(of));
            }
            Block::Table(saw_table(said, lay, stock, caption))
        })
        .collect();
    if tables.is_empty() {
        return tables;
    }
    let mut blocks = vec![Block::Heading(Level::Point, said.say("sawing"))];
    blocks.extend(tables);
    blocks
}

fn saw_table(said: Said, lay: &Lay, stock: &Stock, caption: String) -> Table {
    let letters = |pattern: &Pattern| -> String {
        let letters = pattern
            .sizes
            .iter()
            .filter_map(|line_idx| lay.cuts.lines.get(*line_idx));
        let letters: Vec<&str> = letters.map(|line| line.letter.as_str()).collect();
        letters.join(" + ")
    };
    let abreast = SAWN_ABREAST.min(stock.patterns.len()).max(1);
    let n_rows = stock.patterns.len().div_ceil(abreast);
    let keys: Vec<(&str, Align)> = (0..abreast)
        .flat_map(|_| [("bricks", Align::Right), ("sawn-into", Align::Left)])
        .collect();
    // Down the first pair of columns, then down the next.
    let rows = (0..n_rows)
        .map(|nth| {
            let cells = (0..abreast)
                .flat_map(|column| match stock.patterns.get(column * n_rows + nth) {
                    Some(pattern) => [pattern.n_bricks.to_string(), letters(pattern)],
                    None => [String::new(), String::new()],
                })
                .collect();
            row(cells)
        })
        .collect();
    Table {
        caption,
        columns: columns(said, &keys),
        rows,
    }
}

fn order(designed: &Designed<'_>, lay: &Lay) -> Vec<Block> {
    let said = designed.said;
    if lay.courses.is_empty() {
        return Vec::new();
    }
    let rows = lay
        .courses
        .iter()
        .take(MOST_COURSES)
        .map(|course| {
            row(vec![
                format!("{} {}", part(said, course.part), course.number),
                course.n_pieces.to_string(),
                layings(said, lay, course),
            ])
        })
        .collect();
    let mut course_columns = columns(
        said,
        &[
            ("course", Align::Left),
            ("pieces", Align::Right),
            ("what-is-laid", Align::Left),
        ],
    );
    // What is laid is long and takes all it is given: the name of a course stands on one line all the same.
    if let Some(first) = course_columns.first_mut() {
        first.least_mm = COURSE_MM;
    }
    let mut blocks = vec![
        Block::Heading(Level::Point, said.say("laying-order")),
        Block::Table(Table {
            caption: String::new(),
            columns: course_columns,
            rows,
        }),
    ];
    let n_more = lay.courses.len().saturating_sub(MOST_COURSES);
    if n_more > 0 {
        let more = said
            .words
            .say_with("and-more-courses", &[("courses", Value::from(n_more))]);
        blocks.push(Block::Text(crate::paper::Style::Note, more));
    }
    blocks
}

fn part(said: Said, part: Part) -> String {
    match part {
        Part::Field => said.say("of-field"),
        Part::Edge(Hand::Left) => said.say("edge-left"),
        Part::Edge(Hand::Right) => said.say("edge-right"),
        Part::AtDoor => said.say("edge-at-door"),
        Part::AtFarEnd => said.say("edge-at-far-end"),
    }
}

fn layings(said: Said, lay: &Lay, course: &Course) -> String {
    let parts: Vec<String> = course
        .layings
        .iter()
        .map(|laying| {
            let letter = laying
                .line(&lay.cuts)
                .map_or_else(String::new, |line| format!(" {}", line.letter));
            let n_pieces = usize::try_from(laying.n_pieces).unwrap_or(usize::MAX);
            let counted = said.pieces(laying.kind, n_pieces);
            if laying.line_idx.is_some() {
                let station = said.shown_in.along(laying.station);
                format!("{counted}{letter} ({} {station})", said.say("first-at"))
            } else {
                format!("{counted}{letter}")
            }
        })
        .collect();
    parts.join(", ")
}
