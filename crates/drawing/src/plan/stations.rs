//! Stations from the door, as ticks along the edge that carries no dimensions.

use super::Plan;
use super::band::outer_sides;
use super::room::{Dots, Room, Words, off};
use crate::draft::{Draft, HAIRLINE, solid, width_of};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::ShownIn;

/// Length of a tick, in dots.
const TICK: f64 = 7.0;
/// From the edge to its tick, in dots.
const GAP: f64 = 3.0;

/// One tick.
struct Tick {
    figures: String,
    from: Dots,
    way: Dots,
}

/// Draws the ticks.
pub(super) fn ticks(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    for tick in all(plan) {
        let ends = [tick.from, off(tick.from, tick.way, TICK)];
        if room.is_on_sheet(tick.from) && !room.is_on_band(ends[1]) && room.may_pass(&ends) {
            room.line(draft, &ends, solid(Ink::SecondInk, HAIRLINE), None);
        }
    }
}

/// Writes their figures where there is room.
pub(super) fn figures(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    for tick in all(plan) {
        let text = Text::regular(tick.figures);
        let words = Words::one(text, plan.sizes.tick, Ink::SecondInk, None);
        let end = off(tick.from, tick.way, TICK - 2.0);
        if room.is_on_sheet(end) {
            room.beside(draft, end, tick.way, &words);
        }
    }
}

fn all(plan: &Plan<'_>) -> Vec<Tick> {
    let (unit_m, steps, mark): (f64, &[f64], &str) = match plan.input.site.shown_in {
        ShownIn::FeetInches => (
            0.3048,
            &[1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0],
            "'",
        ),
        ShownIn::Metric => (
            1.0,
            &[0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0],
            " m",
        ),
    };
    let widest = width_of(&Text::regular(format!("000{mark}")), plan.sizes.tick) + 12.0;
    let dots = unit_m * plan.view.dots_per_metre;
    let Some(step) = steps.iter().copied().find(|step| step * dots >= widest) else {
        return Vec::new();
    };
    let mut ticks = Vec::new();
    let sides = outer_sides(plan.input.run);
    for (leg, outer) in plan.input.run.legs().iter().zip(sides) {
        for stations in plan.band.seen_on(leg) {
            let (Some(from_m), Some(to_m)) = (stations.first(), stations.last()) else {
                continue;
            };
            let mut nth = (from_m / (step * unit_m) - 1e-9).ceil().max(0.0);
            while nth * step * unit_m <= to_m + 1e-9 {
                let station_m = nth * step * unit_m;
                ticks.push(tick(
                    plan,
                    station_m,
                    -outer,
                    format!("{}{mark}", nth * step),
                ));
                nth += 1.0;
            }
        }
        // The far end has its own length for a figure.
        let end_m = in_metres(leg.end());
        if (end_m - plan.band.length_m).abs() < 1e-9 {
            let figures = plan.input.site.shown_in.along(metres(end_m));
            ticks.insert(0, tick(plan, end_m, -outer, figures));
        }
    }
    ticks
}

fn tick(plan: &Plan<'_>, station_m: f64, side: f64, figures: String) -> Tick {
    Tick {
        figures,
        from: plan.beside(station_m, side * plan.band.over_m(station_m), GAP),
        way: plan.way_off(station_m, side),
    }
}
