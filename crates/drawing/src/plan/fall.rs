//! Which way water runs: an arrow beside the walk that points down the fall, one for each stretch of another fall, and one square to
//! the run where the walk falls across. Each stands with its figure on free paper, or not at all.

use super::Plan;
use super::room::{Dots, Room, Words, direction, grown, off};
use crate::clearance::LabelBox;
use crate::draft::{Draft, solid};
use crate::palette::Ink;
use crate::text::Text;
use crate::wording;
use underbrick_calc::line::GradePiece;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// Length of an arrow along the run, in dots.
const ALONG: f64 = 64.0;
/// On a curve it may come out this much shorter or longer, as a share.
const BENDS: (f64, f64) = (0.6, 1.6);
/// Length of an arrow across, in dots.
const ACROSS: f64 = 42.0;
/// From the edge to an arrow along, in dots: the nearest that has room is taken.
const OUT: [f64; 6] = [16.0, 30.0, 44.0, 60.0, 80.0, 104.0];
/// From the edge to an arrow across.
const OUT_ACROSS: [f64; 3] = [12.0, 34.0, 56.0];
/// Where in a stretch an arrow may stand, the best first.
const SHARES: [f64; 9] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];
/// Parts of an arrow, so that it bends with the walk.
const N_PARTS: u32 = 6;
/// Length and half the width of a head, in dots.
const HEAD: (f64, f64) = (13.0, 4.2);
/// What an arrow keeps clear on each side, in dots.
const CLEAR: f64 = 4.0;
/// From its words to other words on the same line, in dots.
const APART: f64 = 12.0;
/// A walk that falls less is level.
const LEVEL: f64 = 1e-6;

/// Draws the arrows.
pub(super) fn arrows(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    let Some(fall) = plan.input.fall else { return };
    let whole = (0.0, plan.band.length_m, fall);
    let stretches = match plan.input.grade_pieces {
        [] => vec![whole],
        pieces => falls(pieces),
    };
    for (from_m, to_m, fall) in stretches {
        if fall.ratio().abs() > LEVEL {
            along(draft, plan, room, (from_m, to_m), fall);
        }
    }
    if let Some(fall) = plan.input.cross_fall
        && fall.ratio().abs() > LEVEL
    {
        across(draft, plan, room, fall);
    }
}

/// Stations of each stretch with its fall; treads, and what goes on as before, left out.
fn falls(pieces: &[GradePiece]) -> Vec<(f64, f64, Fall)> {
    let mut falls: Vec<(f64, f64, Fall)> = Vec::new();
    for piece in pieces.iter().filter(|piece| !piece.is_tread) {
        let is_another = falls
            .last()
            .is_none_or(|(_, _, before)| (before.ratio() - piece.fall.ratio()).abs() > LEVEL);
        if is_another {
            falls.push((in_metres(piece.from), in_metres(piece.to), piece.fall));
        }
    }
    falls
}

fn words(plan: &Plan<'_>, written: String, place: Place) -> Words {
    Words::one(
        Text::regular(written),
        plan.sizes.note,
        Ink::Ink,
        Some(place),
    )
}

/// Stations that may be tried between two, the best first, in what is seen.
fn stations(plan: &Plan<'_>, (from_m, to_m): (f64, f64), half_m: f64) -> Vec<f64> {
    let seen = plan.band.stretches.iter().filter_map(|stretch| {
        let (first, last) = (stretch.stations.first()?, stretch.stations.last()?);
        let (from_m, to_m) = (first.max(from_m) + half_m, last.min(to_m) - half_m);
        (from_m <= to_m).then_some((from_m, to_m))
    });
    let seen: Vec<(f64, f64)> = seen.collect();
    SHARES
        .into_iter()
        .flat_map(|share| {
            seen.iter()
                .map(move |(from_m, to_m)| from_m + share * (to_m - from_m))
        })
        .collect()
}

/// The sides at a station: first the one without dimensions.
fn sides(plan: &Plan<'_>, station_m: f64) -> [f64; 2] {
    let outer = super::sizes::legs(plan)
        .find(|(_, leg, _)| in_metres(leg.end()) >= station_m)
        .map_or(1.0, |(_, _, side)| side);
    [-outer, outer]
}

fn along(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room, stretch_m: (f64, f64), fall: Fall) {
    let half_m = ALONG / 2.0 / plan.view.dots_per_metre;
    let said = words(
        plan,
        wording::fall(fall, plan.input.site.shown_in),
        Place::Fall,
    );
    let stations = stations(plan, stretch_m, half_m);
    for out in OUT {
        for station_m in &stations {
            for side in sides(plan, *station_m) {
                let mut through: Vec<Dots> = (0..=N_PARTS)
                    .map(|part| {
                        let share = f64::from(part) / f64::from(N_PARTS);
                        let at_m = station_m + half_m * (2.0 * share - 1.0);
                        plan.beside(at_m, side * plan.band.over_m(at_m), out)
                    })
                    .collect();
                if fall.ratio() < 0.0 {
                    through.reverse();
                }
                let middle = plan.beside(*station_m, side * plan.band.over_m(*station_m), out);
                let way = plan.way_off(*station_m, side);
                let label = (middle, way);
                if arrow(draft, room, &through, &said, &[label]) {
                    return;
                }
            }
        }
    }
}

fn across(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room, fall: Fall) {
    let size = Fall::from_ratio(fall.ratio().abs()).unwrap_or_default();
    let said = words(
        plan,
        format!("{} across", wording::fall(size, plan.input.site.shown_in)),
        Place::CrossFall,
    );
    let beside_m = 12.0 / plan.view.dots_per_metre;
    for out in OUT_ACROSS {
        for station_m in stations(plan, (0.0, plan.band.length_m), beside_m) {
            for side in sides(plan, station_m) {
                let over_m = side * plan.band.over_m(station_m);
                let way = plan.way_off(station_m, side);
                let near = plan.beside(station_m, over_m, out);
                let mut through = vec![near, off(near, way, ACROSS)];
                // Down to the right is off the walk on its right side, and towards it on its left.
                if fall.ratio() * side < 0.0 {
                    through.reverse();
                }
                let middle = off(near, way, ACROSS / 2.0);
                let (on, back) = ((-way.1, way.0), (way.1, -way.0));
                let labels = [
                    (off(middle, on, 1.0), on),
                    (off(middle, back, 1.0), back),
                    (off(near, way, ACROSS), way),
                ];
                if arrow(draft, room, &through, &said, &labels) {
                    return;
                }
            }
        }
    }
}

/// Draws an arrow from its first spot to its last with its words beside one of the spots, where both have room. Whether it was drawn.
fn arrow(
    draft: &mut Draft,
    room: &mut Room,
    through: &[Dots],
    said: &Words,
    labels: &[(Dots, Dots)],
) -> bool {
    let (Some(tail), Some(tip)) = (through.first(), through.last()) else {
        return false;
    };
    let boxes: Vec<LabelBox> = through.windows(2).filter_map(box_about).collect();
    let long: f64 = through
        .windows(2)
        .map(|pair| match pair {
            [from, to] => libm::hypot(to.0 - from.0, to.1 - from.1),
            _ => 0.0,
        })
        .sum();
    let is_long = long >= BENDS.0 * ACROSS && long <= BENDS.1 * ALONG;
    if !is_long || !boxes.iter().all(|part| room.is_free_paper(part)) {
        return false;
    }
    let is_off = |label: &LabelBox| !boxes.iter().any(|part| part.meets(label));
    let set = labels.iter().find_map(|(spot, way)| {
        // Off the arrow by what it keeps clear.
        let spot = off(*spot, *way, CLEAR);
        room.free_beside(spot, *way, said)
            .filter(|label| is_off(&grown(label, 1.0)) && room.is_free_paper(&apart(label)))
            .map(|_| (spot, *way))
    });
    let Some((spot, way)) = set else { return false };
    let before_tip = through.iter().rev().nth(1).unwrap_or(tail);
    let forward = direction(*before_tip, *tip);
    let aside = (-forward.1, forward.0);
    let foot = off(*tip, forward, -HEAD.0);
    let mut shaft: Vec<Dots> = through.to_vec();
    if let Some(last) = shaft.last_mut() {
        *last = off(*tip, forward, -HEAD.0 / 2.0);
    }
    draft.stroke(&shaft, solid(Ink::Ink, 1.3), said.place);
    draft.shape(
        &[*tip, off(foot, aside, HEAD.1), off(foot, aside, -HEAD.1)],
        Ink::Ink,
        None,
        said.place,
    );
    room.beside(draft, spot, way, said);
    for part in boxes {
        room.take(part);
    }
    true
}

/// The rectangle of a label with room before and after it, so that it is not read on from the label beside it.
fn apart(label: &LabelBox) -> LabelBox {
    LabelBox {
        left: label.left - APART,
        right: label.right + APART,
        ..*label
    }
}

/// The rectangle that a part of an arrow keeps clear.
fn box_about(pair: &[Dots]) -> Option<LabelBox> {
    let &[from, to] = pair else { return None };
    Some(grown(
        &LabelBox {
            left: from.0.min(to.0),
            top: from.1.min(to.1),
            right: from.0.max(to.0),
            bottom: from.1.max(to.1),
        },
        CLEAR,
    ))
}
