//! Stages with hold points: a box for each check, its tolerance, room to write.

use underbrick_calc::build::{Asks, Caution, Required, SpotKind, StageFound, Surface};

use super::Designed;
use crate::agreement::capital;
use crate::paper::{Align, BOX, Block, Column, Level, Mark, Style, Table, TableRow};

pub(super) fn hold_points(designed: &Designed<'_>) -> Vec<Block> {
    let said = designed.said;
    let mut blocks = vec![
        Block::Heading(Level::Part, said.say("hold-points")),
        Block::Text(Style::Plain, said.say("hold-note")),
        Block::Caution(said.say(Caution::Local.key())),
    ];
    let mut last: Option<(&[Caution], String)> = None;
    for (nth, stage) in designed.build.stages.iter().enumerate() {
        let heading = Block::Heading(
            Level::Point,
            format!("{}. {}", nth + 1, said.stage(stage.stage)),
        );
        // What holds for all stages is said once; so is what holds for one after the other, such as lifts.
        let cautions = match &last {
            Some((cautions, before)) if *cautions == stage.cautions.as_slice() => {
                vec![said.with("cautions-as", &[("stage", before)])]
            }
            _ => {
                last = Some((&stage.cautions, said.stage(stage.stage)));
                let own = stage
                    .cautions
                    .iter()
                    .filter(|caution| **caution != Caution::Local);
                own.map(|caution| said.say(caution.key())).collect()
            }
        };
        let cautions = Block::List(Mark::Dot, cautions);
        let together = vec![heading, cautions, checks(designed, stage)];
        blocks.push(Block::Together(together));
    }
    blocks
}

fn checks(designed: &Designed<'_>, stage: &StageFound) -> Block {
    let said = designed.said;
    let column = |head: String, align: Align, least_mm: f64| Column {
        head,
        align,
        least_mm,
    };
    let columns = vec![
        column(String::new(), Align::Left, 8.0),
        column(said.stage(stage.stage), Align::Left, 60.0),
        column(said.say("tolerance"), Align::Left, 34.0),
        column(said.say("read"), Align::Left, 32.0),
        column(said.say("initials"), Align::Left, 24.0),
    ];
    let asked = stage
        .required
        .iter()
        .filter(|required| !matches!(required.asks, Asks::StageBefore(_)));
    let mut rows: Vec<TableRow> = asked
        .map(|required| TableRow {
            cells: vec![
                BOX.to_owned(),
                capital(&said.required(required)),
                tolerance(designed, required),
                String::new(),
                String::new(),
            ],
            is_strong: false,
        })
        .collect();
    if rows.is_empty() {
        rows.push(TableRow {
            cells: vec![
                BOX.to_owned(),
                said.say("by-hand"),
                String::new(),
                String::new(),
                String::new(),
            ],
            is_strong: false,
        });
    }
    for key in ["closed-by", "reason"] {
        rows.push(TableRow {
            cells: vec![
                String::new(),
                said.say(key),
                String::new(),
                String::new(),
                String::new(),
            ],
            is_strong: false,
        });
    }
    Block::Table(Table {
        caption: String::new(),
        columns,
        rows,
    })
}

fn tolerance(designed: &Designed<'_>, required: &Required) -> String {
    let said = designed.said;
    let shown = said.shown_in;
    match required.asks {
        Asks::Level { surface, .. } => {
            let n_lifts = designed.bed.lifts.each.len();
            let tolerance = surface.tolerance(surface == Surface::LiftTop(n_lifts));
            let (high, low) = (
                shown.thickness(tolerance.high),
                shown.thickness(tolerance.low),
            );
            if high == low {
                format!("± {high}")
            } else {
                said.with("within", &[("high", &high), ("low", &low)])
            }
        }
        Asks::Spot(kind) => spot(designed, kind),
        Asks::LiftLoose(number) => {
            let found = designed
                .build
                .lifts
                .iter()
                .find(|lift| lift.number == number);
            found.map_or_else(String::new, |lift| {
                said.with("at-most", &[("most", &shown.length(lift.loose_limit))])
            })
        }
        Asks::LiftPasses(number) => {
            let found = designed
                .build
                .lifts
                .iter()
                .find(|lift| lift.number == number);
            let passes = found.and_then(|lift| lift.n_passes_asked);
            passes.map_or_else(String::new, |passes| {
                said.with("passes-least", &[("passes", &passes.to_string())])
            })
        }
        Asks::StageBefore(_) => String::new(),
    }
}

/// Limits of a check at a spot.
fn spot(designed: &Designed<'_>, kind: SpotKind) -> String {
    let (least, most) = kind.limits(designed.sheet.site);
    let shown = designed.said.shown_in;
    let (low, high) = (shown.thickness(least), shown.thickness(most));
    if least > underbrick_calc::quantity::Length::default() {
        designed
            .said
            .with("from-to", &[("least", &low), ("most", &high)])
    } else {
        designed.said.with("at-most", &[("most", &high)])
    }
}
