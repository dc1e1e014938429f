//! Pits as columns of their layers.

use super::Lengthwise;
use super::frame::Frame;
use crate::draft::{Draft, HAIRLINE, OUTLINE, dashed, rectangle, solid};
use crate::material;
use crate::palette::Ink;
use underbrick_calc::catalogue::Hatch;
use underbrick_calc::ground::PitFound;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// Half the width of a column, in dots.
const HALF: f64 = 8.0;

pub(super) fn columns(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    for pit in walk.pits {
        if is_on_the_run(walk, pit) {
            column(draft, walk, frame, pit);
        }
    }
}

/// Whether a pit's station lies on the run.
pub(super) fn is_on_the_run(walk: &Lengthwise<'_>, pit: &PitFound) -> bool {
    (-1e-6..=walk.run_m + 1e-6).contains(&in_metres(pit.station))
}

fn column(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame, pit: &PitFound) {
    let place = Some(Place::Pit(pit.pit_idx));
    let height = |level: f64| frame.dots(0.0, level).1.min(frame.bottom);
    let (x, top) = frame.dots(in_metres(pit.station), in_metres(pit.top));
    let bottom = height(in_metres(pit.dug_to));
    for layer in &pit.layers {
        let (from, to) = (
            height(in_metres(layer.top)),
            height(in_metres(layer.bottom.unwrap_or(pit.dug_to))),
        );
        if to - from < 0.3 {
            continue;
        }
        let corners = rectangle(x - HALF, from, x + HALF, to).map(|at| draft.point(at));
        let hatch = material::hatch_of(walk.catalogue, &layer.material, Hatch::Earth);
        draft.material(&corners, material::layer(layer.verdict, hatch), None, place);
        draft.stroke(
            &[(x - HALF, from), (x + HALF, from)],
            solid(Ink::Ink, HAIRLINE),
            place,
        );
    }
    draft.stroke(
        &[
            (x - HALF, bottom),
            (x - HALF, top),
            (x + HALF, top),
            (x + HALF, bottom),
        ],
        solid(Ink::Ink, OUTLINE - 0.3),
        place,
    );
    let goes_on = pit
        .layers
        .last()
        .is_some_and(|layer| layer.bottom.is_none());
    let pen = if goes_on || !pit.unsuitable_bottom.found {
        dashed(Ink::NotKnown, OUTLINE)
    } else {
        solid(Ink::Ink, OUTLINE)
    };
    draft.stroke(&[(x - HALF, bottom), (x + HALF, bottom)], pen, place);
    if let Some(seep) = pit.seep {
        let y = height(in_metres(seep));
        let drop = [
            (x + HALF + 1.0, y),
            (x + HALF + 12.0, y - 9.0),
            (x + HALF + 12.0, y + 2.0),
        ];
        draft.shape(
            &drop,
            Ink::Line,
            Some(solid(Ink::Paper, HAIRLINE)),
            Some(Place::PitSeep(pit.pit_idx)),
        );
    }
}
