//! The least lap and the widest joint, pointed out where they are.

use super::room::{Dots, Room, Words, off};
use super::{Detail, Plan};
use crate::draft::{Draft, HAIRLINE, solid};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::lay::{LayNote, Measured, Part, fine};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// How far from the edge the words may stand, in dots: the nearest that has room.
const FAR: [f64; 5] = [22.0, 44.0, 64.0, 90.0, 120.0];

/// Draws those that are seen; none where joints themselves carry their widths.
pub(super) fn draw(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    if plan.detail == Detail::Band || plan.detail == Detail::Joints {
        return;
    }
    let notes = plan.input.notes;
    let is_off = |wanted: fn(&LayNote) -> bool| notes.iter().any(wanted);
    let too_short = is_off(|note| matches!(note, LayNote::LapNotKept(_)));
    let too_wide = is_off(|note| matches!(note, LayNote::JointNotKept(_)));
    if let Some(lap) = plan.input.least_lap {
        let (what, past) = ("least lap", too_short.then_some("too short"));
        point_out(draft, plan, room, (what, past), lap);
    }
    if let Some(joint) = plan.input.widest_joint {
        let is_wide = joint.length > plan.wishes.widest_joint;
        let (what, past) = ("widest joint", (too_wide && is_wide).then_some("too wide"));
        point_out(draft, plan, room, (what, past), joint);
    }
}

fn point_out(
    draft: &mut Draft,
    plan: &Plan<'_>,
    room: &mut Room,
    (what, past): (&str, Option<&str>),
    measured: Measured,
) {
    let Some((piece_idx, offset_m)) = nearest(plan, measured) else {
        return;
    };
    let station_m = in_metres(measured.station);
    let spot = plan.dots(plan.band.spot(station_m, offset_m));
    let is_drawn = station_m >= plan.stations_m.0 && station_m <= plan.stations_m.1;
    if !is_drawn || !room.is_on_sheet(spot) {
        return;
    }
    let shown_in = plan.input.site.shown_in;
    let place = u32::try_from(piece_idx).ok().map(Place::Piece);
    let ink = if past.is_some() { Ink::Wrong } else { Ink::Ink };
    // What is off a limit is told finer than the tape, so that it is not the limit itself by its figure.
    let figure = match past {
        Some(past) => format!("{}, {past}", fine(measured.length, shown_in)),
        None => shown_in.thickness(measured.length),
    };
    let words = Words::one(
        Text::bold(format!("{what} {figure}")),
        plan.sizes.note,
        ink,
        place,
    )
    .and(
        Text::regular(format!(
            "course {} at {}",
            measured.course,
            shown_in.along(measured.station)
        )),
        plan.sizes.tick,
        Ink::SecondInk,
    );
    let near_side = if offset_m < 0.0 { -1.0 } else { 1.0 };
    for far in FAR {
        for side in [near_side, -near_side] {
            let way = plan.way_off(station_m, side);
            let end: Dots = plan.beside(station_m, side * plan.band.over_m(station_m), far);
            if room.may_pass(&[spot, end]) && room.beside(draft, end, way, &words) {
                room.line(
                    draft,
                    &[spot, off(end, way, 2.0)],
                    solid(ink, HAIRLINE),
                    place,
                );
                draft.disc(spot, 4.6, Ink::Paper, place);
                draft.disc(spot, 3.2, ink, place);
                return;
            }
        }
    }
}

/// The piece of a course that is nearest to a station, and its offset.
fn nearest(plan: &Plan<'_>, measured: Measured) -> Option<(usize, f64)> {
    let pieces = plan.input.pieces;
    let station_m = in_metres(measured.station);
    let of_course = pieces
        .all()
        .iter()
        .enumerate()
        .filter(|(_, piece)| piece.part == Part::Field && piece.course == measured.course);
    let (piece_idx, piece) = of_course.min_by(|(_, one), (_, other)| {
        let off =
            |piece: &underbrick_calc::lay::Piece| (in_metres(piece.station) - station_m).abs();
        off(one).total_cmp(&off(other))
    })?;
    let outline = pieces.outline(piece);
    let (first, opposite) = (outline.first()?, outline.get(outline.len() / 2)?);
    let middle = (
        f64::midpoint(first.right_m, opposite.right_m),
        f64::midpoint(first.away_m, opposite.away_m),
    );
    let at_m = in_metres(piece.station);
    let (centre, right) = (plan.band.spot(at_m, 0.0), plan.band.spot(at_m, 1.0));
    let offset_m = (middle.0 - centre.right_m) * (right.right_m - centre.right_m)
        + (middle.1 - centre.away_m) * (right.away_m - centre.away_m);
    Some((piece_idx, offset_m))
}
