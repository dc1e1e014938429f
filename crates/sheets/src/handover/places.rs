//! Where things are that whoever digs next must know of: what the brick leaves free, water from the roof, what was marked underground.

use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::{GradeShape, ShownIn, SignKind, Site};

use crate::paper::{Block, Level, Style};

/// The places that were written down, and room for what was marked on the ground.
pub(super) fn places(site: &Site) -> Vec<Block> {
    let shown = site.shown_in;
    let mut facts = Vec::new();
    for (nth, opening) in site.lay.openings.iter().enumerate() {
        let size = match (opening.along, opening.across) {
            (Some(along), Some(across)) => format!(
                ", {} along by {} across",
                shown.length(along),
                shown.length(across)
            ),
            _ => String::new(),
        };
        facts.push((
            format!("Left free in the brick, {}", nth + 1),
            format!(
                "{}{size}",
                at(
                    opening.station,
                    opening.offset,
                    "place not written down",
                    shown
                )
            ),
        ));
    }
    for sign in &site.signs {
        let name = match sign.what {
            Some(SignKind::Downpipe) => "Downpipe",
            Some(SignKind::Ponding) => "Water stood before the work",
            _ => continue,
        };
        facts.push((
            name.to_owned(),
            at(sign.station, sign.offset, "all along the walk", shown),
        ));
    }
    if let GradeShape::Break { at: station, .. } = site.line.shape {
        facts.push((
            "Two falls meet".to_owned(),
            at(station, None, "place not written down", shown),
        ));
    }
    let mut blocks = vec![Block::Heading(
        Level::Part,
        "Where drains, pipes and lines are".to_owned(),
    )];
    if facts.is_empty() {
        blocks.push(Block::Text(
            Style::Plain,
            "No drain, post or downpipe was written down.".to_owned(),
        ));
    } else {
        blocks.push(Block::Facts(facts));
    }
    blocks.push(Block::WriteIn(
        "Buried services as they were marked before the dig: which, how far from the door, how far left or right, how deep".to_owned(),
        2,
    ));
    vec![Block::Together(blocks)]
}

/// A place in words, `unknown` without a station: `12'-6" from the door, 6" left of the centreline`.
fn at(station: Option<Length>, offset: Option<Length>, unknown: &str, shown: ShownIn) -> String {
    let Some(station) = station else {
        return unknown.to_owned();
    };
    let along = format!("{} from the door", shown.along(station));
    let beside = offset.map(|offset| {
        let size = shown.length(offset.abs());
        match in_metres(offset) {
            _ if size == shown.length(Length::default()) => ", on the centreline".to_owned(),
            off_m if off_m < 0.0 => format!(", {size} left of the centreline"),
            _ => format!(", {size} right of the centreline"),
        }
    });
    format!("{along}{}", beside.unwrap_or_default())
}
