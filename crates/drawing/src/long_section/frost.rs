//! Where frost ends, as far as it lies within the drawing.

use super::Lengthwise;
use super::frame::Frame;
use crate::callouts::Callout;
use crate::draft::{Draft, HAIRLINE, dashed};
use crate::item::Point;
use crate::palette::Ink;
use underbrick_calc::ground::soil::{FrostFound, FrostMethod, frost_depth_said};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// Stretches of the frost line within the drawing, each as stations and levels in metres.
fn stretches(walk: &Lengthwise<'_>, frame: &Frame) -> Vec<Vec<(f64, f64)>> {
    let Some(frost) = walk.frost else {
        return Vec::new();
    };
    let depth_m = in_metres(frost.depth);
    let floor_m = (frame.sill - frame.bottom) / (frame.times * frame.dots_per_metre);
    let mut stretches = Vec::new();
    let mut stretch: Vec<(f64, f64)> = Vec::new();
    for pair in walk.along.spots.windows(2) {
        let [from, to] = pair else { continue };
        let ends =
            [from, to].map(|spot| (in_metres(spot.station), in_metres(spot.grade) - depth_m));
        let [(start, start_level), (end, end_level)] = ends;
        // Where it passes the floor it begins or ends.
        let crossing = || {
            let part = (floor_m - start_level) / (end_level - start_level);
            (start + part * (end - start), floor_m)
        };
        match (start_level > floor_m, end_level > floor_m) {
            (true, true) => {
                if stretch.is_empty() {
                    stretch.push((start, start_level));
                }
                stretch.push((end, end_level));
            }
            (true, false) => {
                if stretch.is_empty() {
                    stretch.push((start, start_level));
                }
                stretch.push(crossing());
                stretches.push(std::mem::take(&mut stretch));
            }
            (false, true) => stretch.extend([crossing(), (end, end_level)]),
            (false, false) => {}
        }
    }
    stretches.push(stretch);
    stretches.retain(|stretch| {
        stretch.len() >= 2
            && stretch
                .iter()
                .all(|(station, level)| station.is_finite() && level.is_finite())
    });
    stretches
}

pub(super) fn line(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let Some(frost) = walk.frost else { return };
    for stretch in stretches(walk, frame) {
        let points: Vec<Point> = stretch
            .into_iter()
            .map(|(station, level)| frame.point(station, level))
            .collect();
        draft.line(
            points,
            dashed(Ink::SecondInk, HAIRLINE + 0.4),
            Some(place(frost)),
        );
    }
}

/// The callout of the line, where it is drawn. It is among the first to give way.
pub(super) fn name(walk: &Lengthwise<'_>, frame: &Frame) -> Option<Callout> {
    let frost = walk.frost?;
    let stretch = stretches(walk, frame)
        .into_iter()
        .max_by(|one, other| run(one).total_cmp(&run(other)))?;
    let (from, to) = (stretch.first()?.0, stretch.last()?.0);
    let along = (0..=8)
        .filter_map(|nth| {
            let station = from + (to - from) * (0.55 + 0.4 * f64::from(nth) / 8.0);
            let grade = walk.level_at(station, |spot| Some(spot.grade))?;
            Some(frame.dots(station, grade - in_metres(frost.depth)))
        })
        .collect();
    Some(Callout {
        title: "frost depth".to_owned(),
        note: frost_depth_said(frost.depth, frost.method, walk.site.shown_in),
        ink: Ink::SecondInk,
        place: Some(place(frost)),
        along,
        rank: 5,
        again: false,
    })
}

fn run(stretch: &[(f64, f64)]) -> f64 {
    match (stretch.first(), stretch.last()) {
        (Some((from, _)), Some((to, _))) => to - from,
        _ => 0.0,
    }
}

const fn place(frost: &FrostFound) -> Place {
    match frost.method {
        FrostMethod::Local => Place::FrostDepth,
        FrostMethod::Berggren | FrostMethod::Stefan => Place::FreezingIndex,
    }
}
