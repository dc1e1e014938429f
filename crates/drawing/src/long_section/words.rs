//! A long section in words.

use super::Lengthwise;
use super::frame::Frame;
use crate::material;
use crate::tongue;
use crate::wording;
use underbrick_calc::quantity::{Length, in_metres, metres};

/// Everything that is drawn, one sentence a line.
pub(super) fn of(walk: &Lengthwise<'_>, frame: &Frame) -> String {
    let shown_in = walk.site.shown_in;
    let station = |station_m: f64| shown_in.along(metres(station_m));
    let mut lines = vec![format!(
        "Long section over {} on the centreline, heights × {}.",
        station(walk.run_m),
        frame.times
    )];
    if let (Some(first), Some(last)) = (walk.along.spots.first(), walk.along.spots.last()) {
        let met = if walk.end_is_fixed { "fixed" } else { "free" };
        lines.push(format!(
            "The grade line starts {} the sill, {}, and ends {} the sill; the far end is {met}.",
            wording::below(-first.grade, shown_in),
            wording::fall(walk.fall, shown_in),
            wording::below(-last.grade, shown_in),
        ));
    }
    let known = walk
        .along
        .spots
        .iter()
        .filter(|spot| spot.old_surface.is_some_and(|old| old.known));
    let stations: Vec<f64> = known.map(|spot| in_metres(spot.station)).collect();
    match (stations.first(), stations.last()) {
        (Some(first), Some(last)) => {
            lines.push(format!(
                "The old surface is measured from {} to {}.",
                station(*first),
                station(*last)
            ));
        }
        _ => lines.push("The old surface is not measured.".to_owned()),
    }
    lines.push(depths(walk));
    for lift in &walk.along.lifts {
        lines.push(format!(
            "Lift {} from the bottom is drawn in {}.",
            lift.number,
            wording::counted(lift.outlines.len(), "part")
        ));
    }
    for bend in &walk.bends {
        let side = if bend.to_the_right { "right" } else { "left" };
        lines.push(format!(
            "The walk curves {side} from {} to {}.",
            station(bend.from),
            station(bend.to)
        ));
    }
    for pit in walk.pits {
        let layers = pit.layers.iter().map(|layer| {
            let name = material::name_of(walk.catalogue, &layer.material);
            match layer.bottom {
                Some(bottom) => format!("{name} {}", shown_in.length(layer.top - bottom)),
                None => format!("{name} on down"),
            }
        });
        let seep = pit
            .seep
            .map(|seep| format!("seep {} down", shown_in.length(pit.top - seep)));
        let strength = walk
            .strength_words(pit.pit_idx)
            .map(|strength| format!("{strength} at its bottom"));
        let log = [tongue::said_each(layers, ", ")]
            .into_iter()
            .chain(seep)
            .chain(strength);
        lines.push(format!(
            "Pit {} at {}: {}.",
            pit.pit_idx + 1,
            shown_in.along(pit.station),
            tongue::said_each(log, "; ")
        ));
    }
    if walk.pits.is_empty() {
        lines.push("No pit: depth not known; the least base is drawn.".to_owned());
    }
    lines.extend(super::spots::words(walk));
    lines.push(format!(
        "The cross-section is cut at {}.",
        shown_in.along(walk.marker)
    ));
    lines.join("\n")
}

/// How deep the dig is below the grade line, at the least and at the most.
fn depths(walk: &Lengthwise<'_>) -> String {
    let depths = walk
        .along
        .spots
        .iter()
        .map(|spot| in_metres(spot.grade - spot.dig_bottom));
    let (least, most) = depths.fold((f64::INFINITY, 0.0_f64), |(least, most), depth| {
        (least.min(depth), most.max(depth))
    });
    let written = |depth_m: f64| -> String {
        let depth: Length = metres(if depth_m.is_finite() { depth_m } else { 0.0 });
        walk.site.shown_in.length(depth)
    };
    format!(
        "The dig is {} to {} deep below the grade line.",
        written(least),
        written(most)
    )
}
