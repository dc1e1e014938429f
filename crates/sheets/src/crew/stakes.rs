//! The stake table on paper: drops on the centreline, rod readings, both edges.

use underbrick_calc::build::{EdgeStake, Stake, StakeRow, StakeWhy, Surface};
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::Hand;

use super::Designed;
use super::parts::row;
use crate::paper::{Align, Block, Column, Level, Style, Table};

/// Surfaces that stand beside each other in one table.
const ABREAST: usize = 7;
/// What stands where a stake has no such surface.
const NOTHING: &str = "–";

pub(super) fn setting_out(designed: &Designed<'_>) -> Vec<Block> {
    let Designed { build, said, .. } = designed;
    let Some(first) = build.stakes.first() else {
        return Vec::new();
    };
    let above = said.shown_in.length(first.string - first.grade);
    let how = if above == said.shown_in.length(Length::default()) {
        said.say("string-on-how")
    } else {
        said.with("string-how", &[("above", &above)])
    };
    let mut blocks = vec![
        Block::Heading(Level::Part, said.say("setting-out")),
        Block::Text(Style::Plain, how),
    ];
    let drops = |row: &StakeRow| Some(row.drop);
    blocks.extend(surfaces(designed, "stakes", true, &drops));
    blocks.push(Block::Text(Style::Note, dig_note(designed)));
    let has_rod = build
        .stakes
        .iter()
        .flat_map(|stake| &stake.rows)
        .any(|row| row.rod.is_some());
    if has_rod {
        blocks.extend(surfaces(
            designed,
            "stakes-rod",
            false,
            &|row: &StakeRow| row.rod,
        ));
    }
    blocks.extend(edges(designed));
    blocks
}

/// What the column of the dig means; its minus and its star only where they stand in it.
fn dig_note(designed: &Designed<'_>) -> String {
    let stakes = &designed.build.stakes;
    let is_filled = |stake: &Stake| stake.dig.is_some_and(|dig| in_metres(dig) < 0.0);
    let mut said = vec![designed.said.say("dig-note")];
    if stakes.iter().any(is_filled) {
        said.push(designed.said.say("dig-note-minus"));
    }
    if stakes.iter().any(is_starred) {
        said.push(designed.said.say("dig-note-star"));
    }
    said.join(" ")
}

/// Whether the present surface was not measured where a dig is said.
fn is_starred(stake: &Stake) -> bool {
    stake.dig.is_some() && !stake.old_surface.is_some_and(|surface| surface.known)
}

/// All surfaces of all stakes from the top down.
fn all_surfaces(stakes: &[Stake]) -> Vec<Surface> {
    let mut rows: Vec<(Surface, f64)> = Vec::new();
    for row in stakes.iter().flat_map(|stake| &stake.rows) {
        if !rows.iter().any(|(surface, _)| *surface == row.surface) {
            rows.push((row.surface, in_metres(row.drop)));
        }
    }
    // The bottom of the dig lies at other depths at other stakes, but never above a lift.
    rows.sort_by(|one, other| {
        let is_dig = |surface: Surface| surface == Surface::DigBottom;
        is_dig(one.0)
            .cmp(&is_dig(other.0))
            .then(one.1.total_cmp(&other.1))
    });
    rows.into_iter().map(|(surface, _)| surface).collect()
}

fn surfaces(
    designed: &Designed<'_>,
    caption: &str,
    with_dig: bool,
    of: &dyn Fn(&StakeRow) -> Option<Length>,
) -> Vec<Block> {
    let Designed { build, said, .. } = designed;
    let shown = said.shown_in;
    let all = all_surfaces(&build.stakes);
    all.chunks(ABREAST)
        .enumerate()
        .map(|(nth, abreast)| {
            let with_dig = with_dig && nth == 0;
            let mut columns = vec![
                column(said.say("station"), Align::Right),
                column(said.say("why"), Align::Left),
            ];
            if with_dig {
                columns.push(column(said.say("dig"), Align::Right));
            }
            columns.extend(
                abreast
                    .iter()
                    .map(|surface| column(said.surface(*surface), Align::Right)),
            );
            let rows = build
                .stakes
                .iter()
                .map(|stake| {
                    let mut cells = vec![shown.along(stake.station), why(designed, &stake.why)];
                    if with_dig {
                        cells.push(dig(designed, stake));
                    }
                    cells.extend(abreast.iter().map(|surface| {
                        let row = stake.rows.iter().find(|row| row.surface == *surface);
                        row.and_then(of)
                            .map_or_else(|| NOTHING.to_owned(), |drop| shown.length(drop))
                    }));
                    row(cells)
                })
                .collect();
            let caption = said.say(caption);
            Block::Table(Table {
                caption: if nth == 0 {
                    caption
                } else {
                    said.with("continued", &[("what", &caption)])
                },
                columns,
                rows,
            })
        })
        .collect()
}

fn dig(designed: &Designed<'_>, stake: &Stake) -> String {
    match stake.dig {
        None => NOTHING.to_owned(),
        Some(dig) => {
            let size = designed.said.shown_in.length(dig.abs());
            let sign = if in_metres(dig) < 0.0 { "−" } else { "" };
            let star = if is_starred(stake) { " *" } else { "" };
            format!("{sign}{size}{star}")
        }
    }
}

fn why(designed: &Designed<'_>, why: &[StakeWhy]) -> String {
    let words: Vec<String> = why.iter().map(|why| designed.said.why(*why)).collect();
    words.join(", ")
}

fn column(head: String, align: Align) -> Column {
    Column {
        head,
        align,
        least_mm: 0.0,
    }
}

/// A table for each edge; one for both where they are alike.
fn edges(designed: &Designed<'_>) -> Vec<Block> {
    let Designed { build, said, .. } = designed;
    let shown = said.shown_in;
    let all_edges = || build.stakes.iter().flat_map(|stake| &stake.edges);
    let has_trench = all_edges().any(|edge| edge.trench_bottom.is_some());
    let of_side = |caption: String, side_idx: usize| {
        let mut columns = vec![column(said.say("station"), Align::Right)];
        let mut keys = vec!["form-out", "form-down", "dig-out", "dig-down"];
        if has_trench {
            keys.push("trench-down");
        }
        columns.extend(
            keys.into_iter()
                .map(|key| column(said.say(key), Align::Right)),
        );
        let rows = build
            .stakes
            .iter()
            .map(|stake| {
                let mut cells = vec![shown.along(stake.station)];
                if let Some(edge) = stake.edges.get(side_idx) {
                    cells.extend(edge_cells(designed, stake, edge, has_trench));
                }
                row(cells)
            })
            .collect();
        Block::Table(Table {
            caption,
            columns,
            rows,
        })
    };
    let of_hand = |hand: Hand| said.with("stakes-edge", &[("side", &said.side(hand))]);
    let are_alike = build.stakes.iter().all(|stake| {
        let [left, right] = &stake.edges;
        edge_cells(designed, stake, left, has_trench)
            == edge_cells(designed, stake, right, has_trench)
    });
    if are_alike {
        vec![of_side(said.say("stakes-both-edges"), 0)]
    } else {
        vec![
            of_side(of_hand(Hand::Left), 0),
            of_side(of_hand(Hand::Right), 1),
        ]
    }
}

fn edge_cells(
    designed: &Designed<'_>,
    stake: &Stake,
    edge: &EdgeStake,
    has_trench: bool,
) -> Vec<String> {
    let shown = designed.said.shown_in;
    let mut cells = vec![
        shown.length(edge.form_offset.abs()),
        shown.length(stake.string - edge.form_top),
        shown.length(edge.dig_offset.abs()),
        shown.length(stake.string - edge.dig_bottom),
    ];
    if has_trench {
        let trench = edge
            .trench_bottom
            .map(|bottom| shown.length(stake.string - bottom));
        cells.push(trench.unwrap_or_else(|| NOTHING.to_owned()));
    }
    cells
}
