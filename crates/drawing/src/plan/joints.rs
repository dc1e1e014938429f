//! Joints and laps measured where they are drawn: sides of two pieces that face each other across a gap.

use super::bricks::Seen;
use super::room::{Dots, Room, direction, grown, label_box, off};
use super::sizes::tick;
use super::{Detail, Plan};
use crate::draft::{Draft, HAIRLINE, Lettering, rectangle, solid, width_of};
use crate::inside::closed_sides;
use crate::item::{Anchor, Point};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::lay::Part;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::metres;

/// A wider gap is no joint, in metres.
const WIDEST_M: f64 = 0.045;
/// Sides that overlap less than this do not face each other, in metres.
const LEAST_M: f64 = 0.012;
/// Cosine of the most by which facing sides may be turned against each other: 15 degrees.
const LEAST_COSINE: f64 = 0.966;
/// Joints that open by less than this have one width, in metres.
const SAME_M: f64 = 4e-4;
/// More pieces than this are not measured.
const MOST_PIECES: usize = 160;

/// Sides of two pieces that face each other.
#[derive(Clone, Copy, Debug)]
pub(super) struct Facing {
    /// Where they begin and end to face each other, on the first piece.
    pub on_first: [Point; 2],
    /// The same, on the second.
    pub on_second: [Point; 2],
    /// Width of the gap at both, in metres.
    pub gaps_m: [f64; 2],
}

/// Writes widths into the gaps, and laps along them.
pub(super) fn draw(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room, seen: &[Seen<'_>]) {
    if plan.detail < Detail::Joints || seen.len() > MOST_PIECES {
        return;
    }
    let mut laps = Vec::new();
    for (nth, first) in seen.iter().enumerate() {
        for second in seen.iter().skip(nth + 1) {
            for facing in facing(&first.outline, &second.outline) {
                widths(draft, plan, room, &facing);
                let both_field =
                    first.piece.part == Part::Field && second.piece.part == Part::Field;
                let is_lap = first.piece.course.abs_diff(second.piece.course) == 1;
                if both_field && is_lap && plan.wishes.bond.follows() {
                    laps.push(facing);
                }
            }
        }
    }
    for facing in laps {
        lap(draft, plan, room, &facing);
    }
}

/// Every pair of sides of two outlines that face each other.
pub(super) fn facing(first: &[Point], second: &[Point]) -> Vec<Facing> {
    let mut found = Vec::new();
    if !is_near(first, second) {
        return found;
    }
    let out = turning(first);
    for (from, to) in closed_sides(first) {
        let length = libm::hypot(to.x - from.x, to.y - from.y);
        if length < LEAST_M {
            continue;
        }
        let way = ((to.x - from.x) / length, (to.y - from.y) / length);
        let normal = (out * way.1, -out * way.0);
        for (other_from, other_to) in closed_sides(second) {
            let other_length = libm::hypot(other_to.x - other_from.x, other_to.y - other_from.y);
            let cosine = ((other_to.x - other_from.x) * way.0
                + (other_to.y - other_from.y) * way.1)
                / other_length.max(1e-12);
            if other_length < LEAST_M || cosine.abs() < LEAST_COSINE {
                continue;
            }
            let along = |point: Point| (point.x - from.x) * way.0 + (point.y - from.y) * way.1;
            let away = |point: Point| (point.x - from.x) * normal.0 + (point.y - from.y) * normal.1;
            let (start, end) = (along(other_from), along(other_to));
            let (low, high) = (start.min(end).max(0.0), start.max(end).min(length));
            if high - low < LEAST_M {
                continue;
            }
            let on_other = |along: f64| {
                let share = (along - start) / (end - start);
                Point {
                    x: other_from.x + share * (other_to.x - other_from.x),
                    y: other_from.y + share * (other_to.y - other_from.y),
                }
            };
            let on_own = |along: f64| Point {
                x: from.x + along * way.0,
                y: from.y + along * way.1,
            };
            let gaps_m = [low, high].map(|along| away(on_other(along)));
            if gaps_m.iter().all(|gap_m| (1e-4..WIDEST_M).contains(gap_m)) {
                found.push(Facing {
                    on_first: [on_own(low), on_own(high)],
                    on_second: [on_other(low), on_other(high)],
                    gaps_m,
                });
            }
        }
    }
    found
}

/// Whether two outlines come within a joint of each other.
fn is_near(first: &[Point], second: &[Point]) -> bool {
    let range = |outline: &[Point], of: fn(&Point) -> f64| {
        outline
            .iter()
            .map(of)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
    };
    let axes: [fn(&Point) -> f64; 2] = [|point| point.x, |point| point.y];
    axes.into_iter().all(|of| {
        let ((low, high), (other_low, other_high)) = (range(first, of), range(second, of));
        low <= other_high + WIDEST_M && other_low <= high + WIDEST_M
    })
}

/// 1 for an outline that turns counter-clockwise, -1 for one that turns clockwise.
fn turning(outline: &[Point]) -> f64 {
    let twice: f64 = closed_sides(outline)
        .map(|(from, to)| from.x * to.y - to.x * from.y)
        .sum();
    if twice < 0.0 { -1.0 } else { 1.0 }
}

fn between(from: Point, to: Point, share: f64) -> Point {
    Point {
        x: from.x + share * (to.x - from.x),
        y: from.y + share * (to.y - from.y),
    }
}

/// Its width in the middle of what is seen of a joint, or at both ends of that where the joint opens.
fn widths(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room, facing: &Facing) {
    let [first, last] = facing.gaps_m;
    let Some((low, high)) = seen_part(draft, plan, facing) else {
        return;
    };
    let shares = if (first - last).abs() > SAME_M {
        vec![low + 0.15 * (high - low), high - 0.15 * (high - low)]
    } else {
        vec![f64::midpoint(low, high)]
    };
    for share in shares {
        let (from, to) = (
            draft.dots(between(facing.on_first[0], facing.on_first[1], share)),
            draft.dots(between(facing.on_second[0], facing.on_second[1], share)),
        );
        let gap_m = first + share * (last - first);
        let written = plan.input.site.shown_in.thickness(metres(gap_m));
        let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
        let across = direction(from, to);
        let along = (-across.1, across.0);
        let ends = [off(from, across, -8.0), off(to, across, 8.0)];
        let text = Text::bold(written);
        let size = plan.sizes.tick;
        let reach = (along.0.abs() * width_of(&text, size) + along.1.abs() * size) / 2.0 + 14.0;
        if !room.may_pass(&ends) {
            continue;
        }
        for aside in [reach, -reach] {
            let at = off(middle, along, aside);
            if set(draft, plan, room, at, text.clone(), Some(Place::Joint)) {
                measure(draft, room, &ends);
                tick(draft, room, from, along);
                tick(draft, room, to, along);
                break;
            }
        }
    }
}

/// The part of a joint that lies on the sheet, as shares of its length.
fn seen_part(draft: &Draft, plan: &Plan<'_>, facing: &Facing) -> Option<(f64, f64)> {
    let [from, to] = facing.on_first.map(|point| draft.dots(point));
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for (start, end, most) in [
        (from.0, to.0, plan.sheet.width),
        (from.1, to.1, plan.sheet.height),
    ] {
        let run = end - start;
        if run.abs() < 1e-9 {
            if !(0.0..=most).contains(&start) {
                return None;
            }
            continue;
        }
        let (enters, leaves) = (-start / run, (most - start) / run);
        low = low.max(enters.min(leaves));
        high = high.min(enters.max(leaves));
    }
    (high > low).then_some((low, high))
}

/// A lap as a dimension along the joint, on the first piece.
fn lap(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room, facing: &Facing) {
    let [from, to] = facing.on_first.map(|point| draft.dots(point));
    let inwards = {
        let [across, _] = facing.on_second.map(|point| draft.dots(point));
        direction(across, from)
    };
    let [start, end] = [from, to].map(|at| off(at, inwards, 20.0));
    let length = libm::hypot(end.0 - start.0, end.1 - start.1);
    let [first, last] = facing.on_first;
    let lap_m = libm::hypot(last.x - first.x, last.y - first.y);
    let text = Text::bold(format!(
        "lap {}",
        plan.input.site.shown_in.thickness(metres(lap_m))
    ));
    let is_seen = room.is_on_sheet(start) && room.is_on_sheet(end);
    if !is_seen || length < width_of(&text, plan.sizes.tick) + 30.0 {
        return;
    }
    let middle = (f64::midpoint(start.0, end.0), f64::midpoint(start.1, end.1));
    let half = (
        width_of(&text, plan.sizes.tick) / 2.0,
        plan.sizes.tick / 2.0,
    );
    let reach = inwards.0.abs() * half.0 + inwards.1.abs() * half.1 + 7.0;
    let words = off(middle, inwards, reach);
    if !room.may_pass(&[start, end]) || !set(draft, plan, room, words, text, Some(Place::Joint)) {
        return;
    }
    measure(draft, room, &[start, end]);
    for (at, on_side) in [(start, from), (end, to)] {
        measure(draft, room, &[on_side, off(at, inwards, 5.0)]);
        tick(draft, room, at, inwards);
    }
}

/// The line of a measure, on paper of its own that lifts it off the hatch.
fn measure(draft: &mut Draft, room: &mut Room, through: &[Dots]) {
    if room.may_pass(through) {
        draft.stroke(through, solid(Ink::Paper, 3.4), None);
        room.line(draft, through, solid(Ink::Ink, HAIRLINE), None);
    }
}

/// Words on a plate of paper. Whether there was room.
fn set(
    draft: &mut Draft,
    plan: &Plan<'_>,
    room: &mut Room,
    at: Dots,
    text: Text,
    place: Option<Place>,
) -> bool {
    let size = plan.sizes.tick;
    let plate = grown(&label_box(at, &text, size, Anchor::Middle), 2.0);
    if !room.is_free(&plate) {
        return false;
    }
    room.take(plate);
    let outline = rectangle(plate.left, plate.top, plate.right, plate.bottom);
    draft.shape(&outline, Ink::Paper, None, place);
    draft.label(
        at,
        Lettering {
            text,
            size,
            ink: Ink::Ink,
            anchor: Anchor::Middle,
            place,
        },
    );
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    fn brick(left: f64, low: f64, right: f64, high: f64) -> Vec<Point> {
        [(left, low), (right, low), (right, high), (left, high)]
            .map(|(x, y)| Point { x, y })
            .to_vec()
    }

    #[test]
    fn a_joint_is_as_wide_as_the_gap_and_a_lap_as_long_as_both_bricks_run() {
        // Two bricks of 200 mm end to end with 5 mm between, and one above them, 5 mm off, that covers 97.5 mm of the first.
        let (first, second) = (brick(0.0, 0.0, 0.2, 0.095), brick(0.205, 0.0, 0.405, 0.095));
        let above = brick(0.1025, 0.1, 0.3025, 0.195);
        let [head] = facing(&first, &second)[..] else {
            panic!("one joint")
        };
        assert!(
            head.gaps_m
                .iter()
                .all(|gap_m| (gap_m - 0.005).abs() < 1e-12)
        );
        let [bed] = facing(&first, &above)[..] else {
            panic!("one joint")
        };
        let lap = (bed.on_first[1].x - bed.on_first[0].x).abs();
        assert!((lap - 0.0975).abs() < 1e-12, "{lap}");
        assert!(bed.gaps_m.iter().all(|gap_m| (gap_m - 0.005).abs() < 1e-12));
        assert!(facing(&first, &brick(0.5, 0.0, 0.7, 0.095)).is_empty());
    }

    #[test]
    fn a_joint_that_opens_has_two_widths() {
        let first = brick(0.0, 0.0, 0.2, 0.1);
        // The next brick leans away: 4 mm at the bottom, 8 mm at the top.
        let second: Vec<Point> = [(0.204, 0.0), (0.404, -0.008), (0.408, 0.092), (0.208, 0.1)]
            .map(|(x, y)| Point { x, y })
            .to_vec();
        let [head] = facing(&first, &second)[..] else {
            panic!("one joint")
        };
        let (least, most) = (
            head.gaps_m[0].min(head.gaps_m[1]),
            head.gaps_m[0].max(head.gaps_m[1]),
        );
        assert!((least - 0.004).abs() < 1e-12 && (most - 0.008).abs() < 1e-12);
    }
}
