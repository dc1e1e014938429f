//! Handles by which a radius and the width are dragged.

use super::band::{Band, outer_sides};
use super::room::{Dots, Room, direction, off};
use super::{Plan, PlanInput, PlanView};
use crate::clearance::LabelBox;
use crate::draft::{Draft, solid};
use crate::item::Sheet;
use crate::palette::Ink;
use underbrick_calc::field::{Kind, field};
use underbrick_calc::lay::PlanPoint;
use underbrick_calc::line::RunLeg;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};

/// Radius of a handle in dots.
const HANDLE: f64 = 15.0;
/// A leg that is drawn shorter than this has no handle, in dots.
const LEAST_LEG: f64 = 70.0;
/// From this scale on joints are looked at and handles would stand in the way, in dots per metre.
const TOO_NEAR: f64 = 1_200.0;

/// How much more than the tightest a radius is left when it is dragged, in metres: more than it is rounded by.
const SPARE_M: f64 = 0.01;

/// What a finger can drag in the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handle {
    /// The value that it changes: the radius of a leg or the width.
    pub place: Place,
    /// Where it stands, in dots from the upper left corner of the sheet.
    pub at: (f64, f64),
    /// The way in which it moves, of length one, in dots of the sheet.
    pub way: (f64, f64),
    /// The value as it is now.
    pub value: Length,
    from: PlanPoint,
    per_metre: (f64, f64),
    less_m: f64,
    share: f64,
    /// Least and most that can be laid, in metres.
    limits_m: (f64, f64),
}

impl Handle {
    /// The value that brings the handle as near to a spot of the plan as it gets: no radius too tight for the width, no width too
    /// wide for a radius, and nothing that cannot be true.
    #[must_use]
    pub fn value_at(&self, spot: PlanPoint) -> Length {
        let (right, away) = self.per_metre;
        let length_2 = right * right + away * away;
        let along_m =
            (spot.right_m - self.from.right_m) * right + (spot.away_m - self.from.away_m) * away;
        let value_m = (along_m / length_2 - self.less_m) / self.share;
        let (least_m, most_m) = self.limits_m;
        metres(if value_m.is_finite() && least_m <= most_m {
            value_m.clamp(least_m, most_m)
        } else {
            in_metres(self.value)
        })
    }
}

/// The handles that a view shows: one on the middle of each curve, one on the edge for the width.
#[must_use]
pub fn handles(input: &PlanInput<'_>, view: PlanView, sheet: Sheet) -> Vec<Handle> {
    let (view, sheet) = (view.usable(), sheet.usable());
    let band = Band::unseen(input.site, input.run);
    let mut handles = Vec::new();
    if view.dots_per_metre > TOO_NEAR {
        return handles;
    }
    for (leg_idx, leg) in input.run.legs().iter().enumerate() {
        let (start_m, length_m) = (in_metres(leg.start), in_metres(leg.length));
        let is_long = length_m * view.dots_per_metre >= LEAST_LEG;
        if leg.curvature_per_m == 0.0 || !is_long {
            continue;
        }
        // The curve starts where the leg before it ends, whatever its radius is, and turns as far: its middle moves straight away
        // from there, in proportion to the radius.
        let radius_m = 1.0 / leg.curvature_per_m.abs();
        let (from, middle) = (
            band.spot(start_m, 0.0),
            band.spot(start_m + length_m / 2.0, 0.0),
        );
        let per_metre = (
            (middle.right_m - from.right_m) / radius_m,
            (middle.away_m - from.away_m) / radius_m,
        );
        let at = view.on_sheet(sheet, middle);
        handles.push(Handle {
            place: Place::LegRadius(leg_idx),
            at,
            way: direction(view.on_sheet(sheet, from), at),
            value: metres(radius_m),
            from,
            per_metre,
            less_m: 0.0,
            share: 1.0,
            limits_m: limits_m(
                Place::LegRadius(leg_idx),
                tightest_m(leg, band.edge_m),
                f64::INFINITY,
            ),
        });
    }
    let apart = |one: &Handle, other: &Handle| {
        libm::hypot(one.at.0 - other.at.0, one.at.1 - other.at.1) > 2.2 * HANDLE
    };
    let width = width_handle(input, &band, view, sheet);
    handles.extend(width.filter(|width| handles.iter().all(|radius| apart(width, radius))));
    handles.retain(|handle| {
        let (x, y) = handle.at;
        x >= 0.0 && y >= 0.0 && x <= sheet.width && y <= sheet.height
    });
    handles
}

/// On the outer face of the edge brick, along the first leg.
fn width_handle(
    input: &PlanInput<'_>,
    band: &Band<'_>,
    view: PlanView,
    sheet: Sheet,
) -> Option<Handle> {
    let (leg, site_leg) = (input.run.legs().first()?, input.site.line.legs.first()?);
    let side = -outer_sides(input.run).first().copied()?;
    // On a curve the middle has its own handle.
    let along = if leg.curvature_per_m == 0.0 {
        0.5
    } else {
        0.25
    };
    let station_m = in_metres(leg.start) + along * in_metres(leg.length);
    let middle = band.spot(station_m, 0.0);
    let edge = band.spot(station_m, side * band.over_m(station_m));
    let beside = band.spot(station_m, side);
    // Where the leg tapers to a width of its own, a part of what is drawn here comes from that width.
    let (end_m, share) = match site_leg.width_at_end {
        Some(_) => (in_metres(leg.width_at_end), 1.0 - along),
        None => (0.0, 1.0),
    };
    let at = view.on_sheet(sheet, edge);
    let per_metre = (
        (beside.right_m - middle.right_m) / 2.0,
        (beside.away_m - middle.away_m) / 2.0,
    );
    (in_metres(leg.length) * view.dots_per_metre >= LEAST_LEG).then(|| Handle {
        place: Place::Width,
        at,
        way: direction(view.on_sheet(sheet, middle), at),
        value: leg.width_at_start,
        from: middle,
        per_metre,
        less_m: 2.0 * band.edge_m + end_m * (1.0 - share),
        share,
        limits_m: limits_m(Place::Width, 0.0, widest_m(input, band.edge_m)),
    })
}

/// What can be true at a place and can be laid too.
fn limits_m(place: Place, least_m: f64, most_m: f64) -> (f64, f64) {
    match field(place).kind {
        Kind::Length { least, most, .. } => {
            (least_m.max(in_metres(least)), most_m.min(in_metres(most)))
        }
        _ => (least_m, most_m),
    }
}

/// The least radius of a leg: what the edge brick inside the curve still bends around.
fn tightest_m(leg: &RunLeg, edge_m: f64) -> f64 {
    let widest_m = in_metres(leg.width_at_start).max(in_metres(leg.width_at_end));
    widest_m / 2.0 + edge_m + SPARE_M
}

/// The widest that the curves allow.
fn widest_m(input: &PlanInput<'_>, edge_m: f64) -> f64 {
    let curves = input
        .run
        .legs()
        .iter()
        .filter(|leg| leg.curvature_per_m != 0.0);
    curves
        .map(|leg| 2.0 * (1.0 / leg.curvature_per_m.abs() - edge_m - SPARE_M))
        .fold(f64::INFINITY, f64::min)
}

/// Keeps labels off the handles.
pub(super) fn keep_clear(plan: &Plan<'_>, room: &mut Room) {
    for handle in shown(plan) {
        let (x, y) = handle.at;
        room.keep_clear(LabelBox {
            left: x - HANDLE,
            top: y - HANDLE,
            right: x + HANDLE,
            bottom: y + HANDLE,
        });
    }
}

/// A disc with two arrow heads, as the marker of the long section has it.
pub(super) fn draw(draft: &mut Draft, plan: &Plan<'_>) {
    for handle in shown(plan) {
        let place = Some(handle.place);
        draft.disc(handle.at, HANDLE + 2.0, Ink::Paper, place);
        draft.disc(handle.at, HANDLE, Ink::Line, place);
        let (way_x, way_y) = handle.way;
        let aside = (-way_y, way_x);
        for sign in [-1.0, 1.0] {
            let way = (sign * way_x, sign * way_y);
            let foot: Dots = off(handle.at, way, 3.5);
            draft.shape(
                &[
                    off(handle.at, way, 11.5),
                    off(foot, aside, 6.0),
                    off(foot, aside, -6.0),
                ],
                Ink::Paper,
                Some(solid(Ink::Paper, 0.5)),
                place,
            );
        }
    }
}

fn shown(plan: &Plan<'_>) -> Vec<Handle> {
    if plan.view.handles {
        handles(plan.input, plan.view, plan.sheet)
    } else {
        Vec::new()
    }
}
