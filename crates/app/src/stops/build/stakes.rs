//! The stake table, one station alone, set-ups of the instrument, and how curves are set out.

use underbrick_calc::build::{Build, CurveSetOut, EdgeStake, Stake, string_line};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, metres};
use underbrick_calc::site::ShownIn;

use super::{heading, list, named, value};
use crate::edit::Edit;
use crate::stops::figure;
use crate::stops::opened::{BuildList, Opened};
use crate::visit::Visit;
use crate::widgets::build::{BuildBit, StakeLine, StationView};
use crate::widgets::mark::Mark;
use crate::widgets::order::OrderBit;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, build: &Build, opened: &Opened, rows: &mut Vec<Row>) {
    rows.push(heading("Stakes", format!("{} stakes", build.stakes.len())));
    rows.push(value(visit, Place::BuildSpacing, ""));
    rows.push(value(visit, Place::StringAboveGrade, ""));
    let set_ups = visit.record().build.set_ups.len();
    for idx in 0..set_ups {
        let is_last = idx + 1 == set_ups;
        let note = if is_last {
            "today's; rods follow from it"
        } else {
            ""
        };
        rows.push(named(
            visit,
            Place::SetUpRod(idx),
            None,
            &format!("Set-up {}, rod on the sill", idx + 1),
            note,
        ));
    }
    rows.push(Row::Acts(vec![(
        "set up the instrument".to_owned(),
        Edit::AddSetUp,
    )]));
    if list(opened, BuildList::Stakes, "the stake table", rows) {
        let shown = visit.site().shown_in;
        for (nth, stake) in build.stakes.iter().enumerate() {
            rows.push(Row::Build(BuildBit::Stake(stake_line(shown, nth, stake))));
        }
        if let Some(line) = &visit.results().line {
            rows.push(Row::Said {
                mark: Mark::Note,
                text: string_line(visit.site(), line).words,
                under: "common practice, no source".to_owned(),
            });
        }
    }
    if !build.curves.is_empty() && list(opened, BuildList::Curves, "how curves are set out", rows) {
        for curve in &build.curves {
            curve_rows(visit.site().shown_in, curve, rows);
        }
    }
}

fn stake_line(shown: ShownIn, nth: usize, stake: &Stake) -> StakeLine {
    let drops: Vec<String> = stake
        .rows
        .iter()
        .map(|row| format!("{} {}", row.surface.name(), shown.length(row.drop)))
        .collect();
    StakeLine {
        nth,
        station: shown.along(stake.station),
        why: why(stake),
        dig: stake
            .dig
            .map_or_else(String::new, |dig| dig_words(shown, dig)),
        drops: drops.join(" · "),
    }
}

fn why(stake: &Stake) -> String {
    let words: Vec<String> = stake.why.iter().map(|why| why.words()).collect();
    words.join(", ")
}

fn dig_words(shown: ShownIn, dig: Length) -> String {
    let verb = if dig < metres(0.0) { "fill" } else { "dig" };
    format!("{verb} {}", shown.length(dig.abs()))
}

/// One stake alone; the last where there are fewer now.
pub(crate) fn one(visit: &Visit, nth: usize) -> Option<(Length, StationView)> {
    let build = visit.results().build.as_ref()?;
    let last = build.stakes.len().checked_sub(1)?;
    let nth = nth.min(last);
    let stake = build.stakes.get(nth)?;
    let shown = visit.site().shown_in;
    let view = StationView {
        station: shown.along(stake.station),
        why: why(stake),
        dig: stake
            .dig
            .map_or_else(String::new, |dig| dig_words(shown, dig)),
        rows: stake
            .rows
            .iter()
            .map(|row| {
                (
                    row.surface.name(),
                    shown.length(row.drop),
                    row.rod.map(|rod| shown.length(rod)),
                )
            })
            .collect(),
        edges: stake
            .edges
            .iter()
            .map(|edge| edge_words(shown, stake, edge))
            .collect(),
        neighbours: [nth.checked_sub(1), (nth < last).then_some(nth + 1)],
    };
    Some((stake.station, view))
}

/// Where the form stands, how far its top and the bottom of the dig lie below the string.
fn edge_words(shown: ShownIn, stake: &Stake, edge: &EdgeStake) -> String {
    let side = if edge.form_offset < metres(0.0) {
        "left"
    } else {
        "right"
    };
    format!(
        "{side}: form {} out, top {} down; dig {} out, {} down",
        shown.length(edge.form_offset.abs()),
        shown.length(stake.string - edge.form_top),
        shown.length(edge.dig_offset.abs()),
        shown.length(stake.string - edge.dig_bottom),
    )
}

fn curve_rows(shown: ShownIn, curve: &CurveSetOut, rows: &mut Vec<Row>) {
    let side = if curve.is_right { "right" } else { "left" };
    let [from, to] = curve.stations.map(|station| shown.along(station));
    rows.push(figure(
        format!("Leg {}, {side} edge", curve.leg_idx + 1),
        format!("chord {}", shown.length(curve.chord)),
        format!("{from} to {to}, arc {}", shown.length(curve.arc)),
    ));
    let mut steps: Vec<String> = curve
        .offsets
        .iter()
        .map(|(along, out)| {
            format!(
                "{} along the chord, {} out",
                shown.length(*along),
                shown.length(*out)
            )
        })
        .collect();
    steps.push(match &curve.swing {
        Some(swing) => format!(
            "or swing {} of tape from the centre: {} square from the centreline at {from}",
            shown.length(swing.radius),
            shown.length(swing.from_start)
        ),
        None => "the walk tapers here: its edge is no arc, set it out by the offsets".to_owned(),
    });
    rows.push(Row::Order(OrderBit::Steps(steps)));
}
