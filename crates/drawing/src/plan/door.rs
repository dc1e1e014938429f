//! The door end: the wall with its sill, the courses by number, the line that laying starts from.

use super::bricks::Seen;
use super::room::{Dots, Room, Words, direction, off};
use super::{Detail, Plan};
use crate::draft::{Draft, HAIRLINE, Lettering, OUTLINE, dashed, solid, width_of};
use crate::item::Anchor;
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::lay::{Part, Piece};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::site::{CourseWay, Hand};

/// Thickness of the wall as drawn, in dots: no size is meant.
const WALL: f64 = 12.0;
/// How far the wall is drawn past the walk, in dots.
const PAST: f64 = 34.0;
/// Every so many courses are numbered, the least that has room.
const EVERY: [u32; 6] = [1, 5, 10, 20, 50, 100];

/// A side as a sign, right positive.
pub(super) const fn sign(hand: Hand) -> f64 {
    match hand {
        Hand::Left => -1.0,
        Hand::Right => 1.0,
    }
}

/// The way out of the house, on the sheet.
fn way_out(plan: &Plan<'_>) -> Dots {
    let (door, out) = (plan.band.spot(0.0, 0.0), plan.band.spot(-1.0, 0.0));
    direction(plan.dots(out), plan.dots(door))
}

fn is_seen(plan: &Plan<'_>) -> bool {
    let seen = plan
        .band
        .stretches
        .first()
        .and_then(|stretch| stretch.stations.first());
    seen.is_some_and(|station_m| *station_m <= 0.0)
}

/// The wall that the walk starts from, with the sill in it.
pub(super) fn wall(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    if !is_seen(plan) {
        return;
    }
    let (out_x, out_y) = way_out(plan);
    let inwards = (-out_x, -out_y);
    let over_m = plan.band.over_m(0.0);
    let half_door_m = 0.46_f64.min(0.7 * over_m);
    let place = Some(Place::FirstBrickBelowSill);
    let box_between = |from: Dots, to: Dots, gap: f64, thick: f64| {
        let (near_from, near_to) = (off(from, inwards, gap), off(to, inwards, gap));
        [
            near_from,
            near_to,
            off(near_to, inwards, thick),
            off(near_from, inwards, thick),
        ]
    };
    for side in [-1.0, 1.0] {
        let jamb = plan.beside(0.0, side * half_door_m, 0.0);
        let end = plan.beside(0.0, side * over_m, PAST);
        let outline = box_between(jamb, end, 0.0, WALL);
        draft.shape(
            &outline,
            Ink::Concrete,
            Some(solid(Ink::Ink, OUTLINE)),
            None,
        );
        room.line(draft, &[jamb, end], solid(Ink::Ink, 2.2), None);
    }
    let sill = [-1.0, 1.0].map(|side| plan.beside(0.0, side * half_door_m, 0.0));
    let [left, right] = sill;
    draft.shape(
        &box_between(left, right, 0.0, 6.0),
        Ink::Timber,
        Some(solid(Ink::Ink, HAIRLINE)),
        place,
    );
    room.line(draft, &[left, right], solid(Ink::Ink, HAIRLINE), place);
}

/// The chalk line along which the first course is laid.
pub(super) fn chalk_line(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    let is_laid_along = plan.wishes.bond.follows() && plan.wishes.courses == CourseWay::Along;
    let is_laid = !plan.input.pieces.all().is_empty();
    if !(is_laid && is_laid_along) || plan.detail == Detail::Band {
        return;
    }
    let side = sign(plan.wishes.start);
    for stretch in &plan.band.stretches {
        let along = stretch.stations.iter();
        let line: Vec<Dots> = along
            .map(|station_m| plan.beside(*station_m, side * plan.band.half_m(*station_m), 0.0))
            .collect();
        room.line(draft, &line, dashed(Ink::Line, 2.0), None);
    }
}

/// An arrow to where laying starts.
pub(super) fn start(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    let is_laid = !plan.input.pieces.all().is_empty();
    if !is_laid || plan.detail == Detail::Band || !is_seen(plan) {
        return;
    }
    let side = sign(plan.wishes.start);
    let on_m = (6.0 + 0.7 * plan.sizes.label) / plan.view.dots_per_metre;
    let over_m = plan.band.over_m(on_m);
    let tip = plan.beside(on_m, side * over_m, 4.0);
    let way = plan.way_off(on_m, side);
    let foot = off(tip, way, 12.0);
    let aside = (-way.1, way.0);
    let start = Words::one(Text::bold("start here"), plan.sizes.label, Ink::Line, None);
    // Out from the arrow's tail, or on along the walk where the sheet ends.
    let out = way_out(plan);
    for length in [30.0, 21.0, 44.0, 60.0] {
        let tail = off(tip, way, length);
        let is_seen = room.is_on_sheet(tip) && room.is_on_sheet(tail);
        if is_seen
            && (room.beside(draft, tail, way, &start)
                || room.beside(draft, off(tail, out, 2.0), out, &start))
        {
            room.line(draft, &[foot, tail], solid(Ink::Line, 2.4), None);
            let head = [tip, off(foot, aside, 6.0), off(foot, aside, -6.0)];
            draft.shape(&head, Ink::Line, None, None);
            return;
        }
    }
}

/// Numbers of the courses where the crew starts: behind the wall where courses run along, beside the walk where they run across.
pub(super) fn course_numbers(
    draft: &mut Draft,
    plan: &Plan<'_>,
    room: &mut Room,
    seen: &[Seen<'_>],
) {
    if !plan.wishes.bond.follows() || !is_seen(plan) {
        return;
    }
    let first = firsts(plan, seen);
    let Some(pitch) = pitch_dots(plan, &first) else {
        return;
    };
    let numbers_fit = |every: &u32| pitch * f64::from(*every) >= 1.25 * plan.sizes.tick;
    let Some(every) = EVERY.into_iter().find(numbers_fit) else {
        return;
    };
    let n_courses = first.len();
    for (nth, (course, at, way)) in first.iter().enumerate() {
        let is_end = nth == 0 || nth + 1 == n_courses;
        if !(is_end || course.is_multiple_of(every)) {
            continue;
        }
        let text = Text::regular(course.to_string());
        let reach =
            (way.0.abs() * width_of(&text, plan.sizes.tick) + way.1.abs() * plan.sizes.tick) / 2.0;
        let lettering = Lettering {
            text,
            size: plan.sizes.tick,
            ink: Ink::SecondInk,
            anchor: Anchor::Middle,
            place: None,
        };
        room.label(draft, off(*at, *way, reach), lettering, true);
    }
}

/// Each course by its number, where its figure stands, and the way off the walk there.
fn firsts(plan: &Plan<'_>, seen: &[Seen<'_>]) -> Vec<(u32, Dots, Dots)> {
    let mut firsts: Vec<(&Seen<'_>, f64)> = Vec::new();
    for each in seen.iter().filter(|each| each.piece.part == Part::Field) {
        let rank = in_metres(each.piece.station) + f64::from(each.piece.nth) * 1e-6;
        match firsts
            .iter_mut()
            .find(|(first, _)| first.piece.course == each.piece.course)
        {
            Some((first, least)) if rank < *least => (*first, *least) = (each, rank),
            Some(_) => {}
            None => firsts.push((each, rank)),
        }
    }
    firsts.sort_by_key(|(first, _)| first.piece.course);
    let placed = firsts.into_iter().filter_map(|(first, _)| {
        let middle = middle_of(plan, first.piece)?;
        let (at, way) = match plan.wishes.courses {
            CourseWay::Along => {
                let (out_x, out_y) = way_out(plan);
                let inwards = (-out_x, -out_y);
                // The door's wall stands square to the run: only the way along it counts.
                let (door_x, door_y) = plan.dots(plan.band.spot(0.0, 0.0));
                let behind = (middle.0 - door_x) * inwards.0 + (middle.1 - door_y) * inwards.1;
                (off(middle, inwards, WALL + 6.0 - behind), inwards)
            }
            CourseWay::Across => {
                let side = sign(plan.wishes.start);
                let station_m = in_metres(first.piece.station);
                let at = plan.beside(station_m, side * plan.band.over_m(station_m), 6.0);
                (at, plan.way_off(station_m, side))
            }
        };
        Some((first.piece.course, at, way))
    });
    placed.collect()
}

fn middle_of(plan: &Plan<'_>, piece: &Piece) -> Option<Dots> {
    let outline = plan.input.pieces.outline(piece);
    let (first, opposite) = (outline.first()?, outline.get(outline.len() / 2)?);
    let (from, to) = (plan.dots(*first), plan.dots(*opposite));
    Some((f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1)))
}

fn pitch_dots(plan: &Plan<'_>, firsts: &[(u32, Dots, Dots)]) -> Option<f64> {
    let (from, to) = (firsts.first()?, firsts.last()?);
    let n_steps = to.0.checked_sub(from.0).filter(|steps| *steps > 0);
    let Some(n_steps) = n_steps else {
        return Some(in_metres(plan.wishes.brick_width) * plan.view.dots_per_metre);
    };
    let (across, down) = ((to.1.0 - from.1.0).abs(), (to.1.1 - from.1.1).abs());
    // Figures beside each other need more room than figures above each other.
    let pitch = down.max(across / 1.9);
    Some(pitch / f64::from(n_steps))
}
