//! Curves set out by chord and offset, and by a tape from the centre.

use underbrick_calc::build::CurveSetOut;
use underbrick_calc::site::Hand;

use super::Designed;
use super::parts::row;
use crate::paper::{Align, Block, Column, Level, Style, Table};

/// Pairs of figures abreast in one row.
const ABREAST: usize = 4;

pub(super) fn curves(designed: &Designed<'_>) -> Vec<Block> {
    let curves = &designed.build.curves;
    if curves.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading(Level::Part, designed.said.say("curves"))];
    blocks.extend(curves.iter().map(|curve| one(designed, curve)));
    blocks
}

fn one(designed: &Designed<'_>, curve: &CurveSetOut) -> Block {
    let said = designed.said;
    let shown = said.shown_in;
    let side = said.side(if curve.is_right {
        Hand::Right
    } else {
        Hand::Left
    });
    let [from, to] = curve.stations.map(|station| shown.along(station));
    let leg = (curve.leg_idx + 1).to_string();
    let title = said.with(
        "curve",
        &[("leg", &leg), ("side", &side), ("from", &from), ("to", &to)],
    );
    let chord = said.with(
        "curve-chord",
        &[
            ("chord", &shown.along(curve.chord)),
            ("arc", &shown.along(curve.arc)),
        ],
    );
    let swing = curve.swing.map_or_else(
        || said.say("curve-no-swing"),
        |swing| {
            let (radius, out) = (
                shown.along(swing.radius),
                shown.along(swing.from_start.abs()),
            );
            said.with("curve-swing", &[("radius", &radius), ("out", &out)])
        },
    );
    let n_rows = curve.offsets.len().div_ceil(ABREAST);
    let columns = (0..ABREAST)
        .flat_map(|_| [said.say("along-chord"), said.say("offset")])
        .map(|head| Column {
            head,
            align: Align::Right,
            least_mm: 0.0,
        })
        .collect();
    // Down the first pair of columns, then down the next.
    let rows = (0..n_rows)
        .map(|nth| {
            let cells = (0..ABREAST)
                .flat_map(|column| match curve.offsets.get(column * n_rows + nth) {
                    Some((along, offset)) => [shown.along(*along), shown.length(*offset)],
                    None => [String::new(), String::new()],
                })
                .collect();
            row(cells)
        })
        .collect();
    Block::Together(vec![
        Block::Heading(Level::Point, title),
        Block::Text(Style::Plain, format!("{chord} {swing}")),
        Block::Table(Table {
            caption: String::new(),
            columns,
            rows,
        }),
    ])
}
