//! How the brick is laid: figures, plan, cut list, laying order.

use underbrick_calc::lay::{Course, Lay, Measured, Part, fine};
use underbrick_calc::site::Hand;
use underbrick_words::Value;

use super::parts::{columns, row};
use super::{Designed, Said, plan};
use crate::paper::{Align, Block, Level, Table};

/// Courses that are told one by one; the plan shows the rest.
const MOST_COURSES: usize = 60;

pub(super) fn laying(designed: &Designed<'_>) -> Vec<Block> {
    let Some(lay) = &designed.sheet.results.lay else {
        return Vec::new();
    };
    if lay.pieces.all().is_empty() {
        return Vec::new();
    }
    let mut blocks = plan::plans(designed, lay);
    blocks.push(figures(designed, lay));
    blocks.extend(cut_list(designed, lay));
    blocks.extend(order(designed, lay));
    blocks
}

fn figures(designed: &Designed<'_>, lay: &Lay) -> Block {
    let said = designed.said;
    let shown = said.shown_in;
    let spot = |measured: Option<Measured>| {
        measured.map_or_else(
            || said.say("none-needed"),
            |measured| {
                let (size, station) = (fine(measured.length, shown), shown.along(measured.station));
                said.with("at-station", &[("size", &size), ("station", &station)])
            },
        )
    };
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
        (said.say("fact-joint"), fine(lay.wishes.joint, shown)),
        (said.say("fact-narrowest"), spot(lay.narrowest_joint)),
        (said.say("fact-widest"), spot(lay.widest_joint)),
    ];
    if lay.least_lap.is_some() {
        facts.push((said.say("fact-least-lap"), spot(lay.least_lap)));
    }
    Block::Facts(facts)
}

fn cut_list(designed: &Designed<'_>, lay: &Lay) -> Vec<Block> {
    let said = designed.said;
    if lay.cuts.lines.is_empty() {
        return Vec::new();
    }
    let shown = said.shown_in;
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
            row(vec![
                line.letter.clone(),
                line.n_pieces.to_string(),
                said.say(if line.of_edge { "of-edge" } else { "of-field" }),
                said.kind(line.kind),
                shown.thickness(line.length),
                shown.thickness(line.width),
                sides.join(", "),
            ])
        })
        .collect();
    vec![
        Block::Heading(Level::Point, said.say("cut-list")),
        Block::Table(Table {
            caption: String::new(),
            columns: columns(
                said,
                &[
                    ("letter", Align::Left),
                    ("pieces", Align::Right),
                    ("part", Align::Left),
                    ("how-cut", Align::Left),
                    ("length", Align::Right),
                    ("width", Align::Right),
                    ("sides", Align::Left),
                ],
            ),
            rows,
        }),
    ]
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
    let mut blocks = vec![
        Block::Heading(Level::Point, said.say("laying-order")),
        Block::Table(Table {
            caption: String::new(),
            columns: columns(
                said,
                &[
                    ("course", Align::Left),
                    ("pieces", Align::Right),
                    ("what-is-laid", Align::Left),
                ],
            ),
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
            let kind = said.kind(laying.kind);
            if laying.line_idx.is_some() {
                let station = said.shown_in.along(laying.station);
                format!(
                    "{} {kind}{letter} ({} {station})",
                    laying.n_pieces,
                    said.say("first-at")
                )
            } else {
                format!("{} {kind}{letter}", laying.n_pieces)
            }
        })
        .collect();
    parts.join(", ")
}
