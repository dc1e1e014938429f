//! Sections across and along, with the drops from the string beside them.

use std::sync::Arc;

use underbrick_calc::build::Stake;
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_drawing::in_language;
use underbrick_drawing::item::Sheet;

use super::{Designed, Said};
use crate::paper::{
    Block, Figure, Level, RoundScale, Scaled, cross_section_scaled, long_section_scaled,
};

/// Most height of a section across, in dots: 92 mm, two on a page.
const ACROSS: f64 = 460.0;
/// Height of the section along: 84 mm.
const ALONG: f64 = 420.0;

pub(super) fn sections(designed: &Designed<'_>) -> Vec<Block> {
    let said = designed.said;
    let (width, _) = designed.sheet.paper.text_dots();
    let sheet = |height: f64| Sheet {
        width,
        height,
        text_scale: 1.0,
    };
    let mut blocks = Vec::new();
    let mut heading = vec![Block::Heading(Level::Part, said.say("sections"))];
    for stake in shown(designed) {
        let drops: Vec<String> = stake
            .rows
            .iter()
            .map(|row| {
                let drop = said.shown_in.length(row.drop);
                said.with(
                    "drop-of",
                    &[("surface", &said.surface(row.surface)), ("drop", &drop)],
                )
            })
            .collect();
        let station = said.shown_in.along(stake.station);
        let inputs = designed.sheet;
        let Scaled { drawing, scale } = in_language(inputs.language, || {
            cross_section_scaled(
                inputs.site,
                inputs.catalogue,
                inputs.results,
                stake.station,
                sheet(ACROSS),
            )
        });
        let caption = said.with(
            "section-caption",
            &[
                ("station", &station),
                ("scale", &to_scale(said, scale)),
                ("drops", &drops.join(", ")),
            ],
        );
        heading.push(Block::Figure(Figure {
            caption,
            drawing: Arc::new(drawing),
        }));
        blocks.push(Block::Together(std::mem::take(&mut heading)));
    }
    let inputs = designed.sheet;
    let middle = designed.line.run.length() * 0.5;
    let marker = shown(designed)
        .first()
        .map_or(middle, |stake| stake.station);
    let along = in_language(inputs.language, || {
        long_section_scaled(
            inputs.site,
            inputs.catalogue,
            inputs.results,
            marker,
            sheet(ALONG),
        )
    });
    let scale = to_scale(said, along.scale);
    let times = format!("{:.0}", along.drawing.heights_times);
    blocks.push(Block::Together(vec![
        Block::Heading(Level::Point, said.say("long-section")),
        Block::Figure(Figure {
            caption: said.with("long-caption", &[("scale", &scale), ("times", &times)]),
            drawing: Arc::new(along.drawing),
        }),
    ]));
    blocks
}

/// The scale, said after what is drawn at it; nothing where it is not round: the bar in the drawing is true all the same.
pub(super) fn to_scale(said: Said, scale: Option<RoundScale>) -> String {
    scale.map_or_else(String::new, |scale| {
        said.with("to-scale", &[("scale", scale.written)])
    })
}

/// The stakes whose section is drawn: where the dig is deepest, and where it is the least deep if that differs.
fn shown<'a>(designed: &'a Designed<'_>) -> Vec<&'a Stake> {
    let deep = |stake: &&Stake| {
        let bottom = stake
            .rows
            .last()
            .map_or_else(Length::default, |row| row.drop);
        in_metres(bottom)
    };
    let stakes = &designed.build.stakes;
    let deepest = stakes
        .iter()
        .max_by(|one, other| deep(one).total_cmp(&deep(other)));
    let shallowest = stakes
        .iter()
        .min_by(|one, other| deep(one).total_cmp(&deep(other)));
    let mut shown: Vec<&Stake> = Vec::new();
    shown.extend(deepest);
    if let (Some(deepest), Some(shallowest)) = (deepest, shallowest)
        && deep(&deepest) - deep(&shallowest) > 0.01
    {
        shown.push(shallowest);
    }
    shown.sort_by(|one, other| in_metres(one.station).total_cmp(&in_metres(other.station)));
    shown
}
