//! Radius and turn of each curve.

use super::Plan;
use super::room::{Dots, Room, Words, off};
use crate::draft::{Draft, HAIRLINE, solid};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::line::RunLeg;
use underbrick_calc::measure::angle::write_angle;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::LegShape;

/// The radius of a curve, from its inner edge towards its centre.
pub(super) struct Radius {
    leg_idx: usize,
    tip: Dots,
    tail: Dots,
    way: Dots,
    /// The centre, where it is seen and near.
    centre: Option<Dots>,
    words: Words,
}

/// The radii that are seen and have room.
pub(super) fn radii(plan: &Plan<'_>, room: &Room) -> Vec<Radius> {
    let legs = super::sizes::legs(plan).filter(|(_, leg, _)| leg.curvature_per_m != 0.0);
    let radii = legs.filter_map(|(leg_idx, leg, side)| {
        // In the middle of what is drawn of it.
        let from_m = in_metres(leg.start).max(plan.stations_m.0);
        let to_m = in_metres(leg.end()).min(plan.stations_m.1);
        let station_m = f64::midpoint(from_m, to_m);
        let inner = -side;
        let tip = plan.beside(station_m, inner * plan.band.over_m(station_m), 3.0);
        let way = plan.way_off(station_m, inner);
        let centre = plan.dots(plan.band.spot(station_m, 1.0 / leg.curvature_per_m));
        let to_centre = libm::hypot(centre.0 - tip.0, centre.1 - tip.1);
        let centre_is_near = to_centre <= 150.0 && room.is_on_sheet(centre);
        let tail = if centre_is_near {
            centre
        } else {
            off(tip, way, to_centre.min(44.0))
        };
        let is_long = (to_m - from_m) * plan.view.dots_per_metre >= 50.0;
        let clear_of_walk = !room.is_on_band(tail);
        let shown = is_long && clear_of_walk && room.is_on_sheet(tip) && room.is_on_sheet(tail);
        shown.then(|| Radius {
            leg_idx,
            tip,
            tail,
            way,
            centre: centre_is_near.then_some(centre),
            words: radius_words(plan, leg_idx, leg),
        })
    });
    radii.collect()
}

fn radius_words(plan: &Plan<'_>, leg_idx: usize, leg: &RunLeg) -> Words {
    let shown_in = plan.input.site.shown_in;
    let radius = shown_in.along(metres(1.0 / leg.curvature_per_m.abs()));
    let side = if leg.curvature_per_m > 0.0 {
        "right"
    } else {
        "left"
    };
    let turn = plan
        .input
        .site
        .line
        .legs
        .get(leg_idx)
        .and_then(|leg| match leg.shape {
            LegShape::Curve { turn, .. } => turn,
            LegShape::Straight { .. } => None,
        });
    let turn = turn
        .map(|turn| format!("{} ", write_angle(turn)))
        .unwrap_or_default();
    Words::one(
        Text::bold(format!("R {radius}")),
        plan.sizes.label,
        Ink::Ink,
        Some(Place::LegRadius(leg_idx)),
    )
    .and(
        Text::regular(format!("{turn}{side}")),
        plan.sizes.note,
        Ink::SecondInk,
    )
}

impl Radius {
    pub fn lines(&self, draft: &mut Draft, room: &mut Room) {
        let place = Some(Place::LegRadius(self.leg_idx));
        if !room.may_pass(&[self.tip, self.tail]) {
            return;
        }
        room.line(
            draft,
            &[self.tip, self.tail],
            solid(Ink::Ink, HAIRLINE),
            place,
        );
        let aside = (-self.way.1, self.way.0);
        let foot = off(self.tip, self.way, 10.0);
        draft.shape(
            &[self.tip, off(foot, aside, 3.2), off(foot, aside, -3.2)],
            Ink::Ink,
            None,
            place,
        );
        if let Some(centre) = self.centre {
            for way in [(1.0, 0.0), (0.0, 1.0)] {
                room.line(
                    draft,
                    &[off(centre, way, -6.0), off(centre, way, 6.0)],
                    solid(Ink::Ink, 1.2),
                    place,
                );
            }
        }
    }

    pub fn label(&self, draft: &mut Draft, room: &mut Room) {
        if !room.may_pass(&[self.tip, self.tail]) {
            return;
        }
        let aside = (-self.way.1, self.way.0);
        let against = (self.way.1, -self.way.0);
        let beyond = if self.centre.is_some() {
            off(self.tail, self.way, 5.0)
        } else {
            self.tail
        };
        let middle = (
            f64::midpoint(self.tip.0, self.tail.0),
            f64::midpoint(self.tip.1, self.tail.1),
        );
        for (at, way) in [
            (beyond, self.way),
            (middle, aside),
            (middle, against),
            (self.tail, aside),
            (self.tail, against),
        ] {
            if room.beside(draft, at, way, &self.words) {
                return;
            }
        }
    }
}
