//! Dimensions: each leg along its outer edge, the widths across the far end.

use super::band::outer_sides;
use super::room::{Dots, Room, Words, direction, off};
use super::{Plan, radii};
use crate::draft::{Draft, HAIRLINE, solid};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::line::RunLeg;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};

/// From the edge to a chain, in dots.
const TO_CHAIN: f64 = 26.0;
/// Half the size of a tick, in dots.
const TICK: f64 = 6.5;
/// Where along a chain its words may stand, the best first.
const SHARES: [f64; 7] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
/// A chain that is drawn shorter than this is left out, in dots.
const LEAST_CHAIN: f64 = 16.0;
/// An edge brick that is drawn narrower than this has no part of the chain, in dots.
const LEAST_EDGE: f64 = 9.0;
/// On a curve that is drawn shorter than this only the figure is written, in dots.
const LEAST_SAID: f64 = 125.0;
/// Widths that differ by less than this are one width, in metres.
const SAME_M: f64 = 5e-4;

/// A line between two ticks, along a chain.
struct Chain {
    through: Vec<Dots>,
    ways: Vec<Dots>,
    words: Words,
}

/// Draws the lines of all chains.
pub(super) fn lines(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    for (leg_idx, leg, side) in legs(plan) {
        for stations in plan.band.seen_on(leg) {
            leg_lines(draft, plan, room, (leg_idx, leg, side), &stations);
        }
    }
    for end in Ends::of(plan) {
        end.lines(draft, plan, room);
    }
    for radius in radii::radii(plan, room) {
        radius.lines(draft, room);
    }
}

/// Writes what each chain comes to.
pub(super) fn labels(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    for end in Ends::of(plan) {
        end.label(draft, plan, room);
    }
    for (leg_idx, leg, side) in legs(plan) {
        for stations in plan.band.seen_on(leg) {
            let Some(chain) = leg_chain(plan, room, (leg_idx, leg, side), &stations) else {
                continue;
            };
            let may_stand = |words: &Words, room: &mut Room, draft: &mut Draft| {
                SHARES.into_iter().any(|share| {
                    let (at, way) = chain.at(share);
                    room.is_on_sheet(at) && room.beside(draft, at, way, words)
                })
            };
            let _written = may_stand(&chain.words, room, draft)
                || may_stand(&chain.words.first_line(), room, draft);
        }
    }
    for radius in radii::radii(plan, room) {
        radius.label(draft, room);
    }
}

/// The legs, each with the side on which it is measured.
pub(super) fn legs<'a>(plan: &'a Plan<'_>) -> impl Iterator<Item = (usize, &'a RunLeg, f64)> {
    let legs = plan.input.run.legs().iter().enumerate();
    legs.zip(outer_sides(plan.input.run))
        .map(|((leg_idx, leg), side)| (leg_idx, leg, side))
}

/// The chain of what is seen of a leg; `None` where it is too short or would run over the walk.
fn leg_chain(
    plan: &Plan<'_>,
    room: &Room,
    (leg_idx, leg, side): (usize, &RunLeg, f64),
    stations: &[f64],
) -> Option<Chain> {
    let through: Vec<Dots> = stations
        .iter()
        .map(|station_m| plan.beside(*station_m, side * plan.band.over_m(*station_m), TO_CHAIN))
        .collect();
    let ways = stations
        .iter()
        .map(|station_m| plan.way_off(*station_m, side))
        .collect();
    let length: f64 = through.windows(2).map(span).sum();
    let meets_walk = through.iter().any(|at| room.is_on_band(*at));
    let chain = Chain {
        through,
        ways,
        words: leg_words(plan, (leg_idx, leg, side)),
    };
    (length >= LEAST_CHAIN && !meets_walk).then_some(chain)
}

fn leg_words(plan: &Plan<'_>, (leg_idx, leg, side): (usize, &RunLeg, f64)) -> Words {
    let shown_in = plan.input.site.shown_in;
    let over =
        |width: underbrick_calc::quantity::Length| (width / 2.0 + metres(plan.band.edge_m)) * side;
    let outer = plan.input.run.offset_line_length(
        leg_idx,
        over(leg.width_at_start),
        over(leg.width_at_end),
    );
    let bold = |written: String, place| {
        Words::one(Text::bold(written), plan.sizes.label, Ink::Ink, Some(place))
    };
    if leg.curvature_per_m == 0.0 {
        return bold(shown_in.along(leg.length), Place::LegLength(leg_idx));
    }
    let words = bold(shown_in.along(outer), Place::LegRadius(leg_idx));
    if in_metres(outer) * plan.view.dots_per_metre < LEAST_SAID {
        return words;
    }
    words.and(
        Text::regular("along the outer edge"),
        plan.sizes.note,
        Ink::SecondInk,
    )
}

fn leg_lines(
    draft: &mut Draft,
    plan: &Plan<'_>,
    room: &mut Room,
    leg: (usize, &RunLeg, f64),
    stations: &[f64],
) {
    let Some(chain) = leg_chain(plan, room, leg, stations) else {
        return;
    };
    let (_, run_leg, side) = leg;
    let place = chain.words.place;
    room.line(draft, &chain.through, solid(Ink::Ink, HAIRLINE), place);
    let ends = [in_metres(run_leg.start), in_metres(run_leg.end())];
    for station_m in ends {
        let is_seen = stations
            .iter()
            .any(|seen_m| (seen_m - station_m).abs() < 1e-9);
        if is_seen {
            let over_m = side * plan.band.over_m(station_m);
            let way = plan.way_off(station_m, side);
            let at = plan.beside(station_m, over_m, TO_CHAIN);
            let from = plan.beside(station_m, over_m, 5.0);
            room.line(
                draft,
                &[from, off(at, way, 5.0)],
                solid(Ink::SecondInk, HAIRLINE * 0.75),
                None,
            );
            tick(draft, room, at, way);
        }
    }
}

/// A slanted tick on a chain whose extension line goes off into a way.
pub(super) fn tick(draft: &mut Draft, room: &mut Room, at: Dots, (way_x, way_y): Dots) {
    // Half a right angle to the chain, always leaning the same way on the sheet.
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let lean = ((way_x - way_y) * half, (way_x + way_y) * half);
    let ends = [off(at, lean, TICK), off(at, lean, -TICK)];
    room.line(draft, &ends, solid(Ink::Ink, 1.6), None);
}

fn span(pair: &[Dots]) -> f64 {
    match pair {
        [from, to] => libm::hypot(to.0 - from.0, to.1 - from.1),
        _ => 0.0,
    }
}

impl Chain {
    /// The spot at a share of its length, and the way off the walk there.
    fn at(&self, share: f64) -> (Dots, Dots) {
        let length: f64 = self.through.windows(2).map(span).sum();
        let mut left = share * length;
        for (pair, way) in self.through.windows(2).zip(&self.ways) {
            let part = span(pair);
            if let [from, to] = pair
                && left <= part
                && part > 0.0
            {
                return (off(*from, direction(*from, *to), left), *way);
            }
            left -= part;
        }
        let last = (self.through.last(), self.ways.last());
        match last {
            (Some(at), Some(way)) => (*at, *way),
            _ => ((0.0, 0.0), (1.0, 0.0)),
        }
    }
}

/// The chain of widths across an end of the walk.
struct Ends {
    station_m: f64,
    /// The way out past the end.
    way: Dots,
    /// Over the edges, clear on both sides, over the edges: from left to right.
    stops: [Dots; 4],
    faces: [Dots; 4],
    place: Place,
}

impl Ends {
    /// Across the far end; at the door too, where the walk has another width there.
    fn of(plan: &Plan<'_>) -> Vec<Self> {
        let length_m = plan.band.length_m;
        let first = plan
            .band
            .stretches
            .first()
            .and_then(|stretch| stretch.stations.first());
        let last = plan
            .band
            .stretches
            .last()
            .and_then(|stretch| stretch.stations.last());
        let mut ends = Vec::new();
        if last.is_some_and(|seen_m| *seen_m >= length_m) {
            ends.push(Self::at(plan, length_m, 1.0));
        }
        let differs = (plan.band.half_m(0.0) - plan.band.half_m(length_m)).abs() > SAME_M;
        if differs && first.is_some_and(|seen_m| *seen_m <= 0.0) {
            ends.push(Self::at(plan, 0.0, -1.0));
        }
        ends
    }

    fn at(plan: &Plan<'_>, station_m: f64, out: f64) -> Self {
        let (half_m, over_m) = (plan.band.half_m(station_m), plan.band.over_m(station_m));
        let centre = plan.band.spot(station_m, 0.0);
        let way = direction(
            plan.dots(centre),
            plan.dots(plan.band.spot(station_m + out, 0.0)),
        );
        let faces = [-over_m, -half_m, half_m, over_m]
            .map(|offset_m| plan.dots(plan.band.spot(station_m, offset_m)));
        // At the door the wall and the numbers of the courses stand first.
        let gap = if out > 0.0 { TO_CHAIN - 4.0 } else { 44.0 };
        let n_legs = plan.input.run.legs().len();
        let own_width = plan
            .input
            .site
            .line
            .legs
            .iter()
            .enumerate()
            .rev()
            .find(|(leg_idx, leg)| *leg_idx < n_legs && leg.width_at_end.is_some());
        let place = match own_width {
            Some((leg_idx, _)) if out > 0.0 => Place::LegWidthAtEnd(leg_idx),
            _ => Place::Width,
        };
        Self {
            station_m,
            way,
            stops: faces.map(|face| off(face, way, gap)),
            faces,
            place,
        }
    }

    fn lines(&self, draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
        let is_edge_seen = plan.band.edge_m * plan.view.dots_per_metre >= LEAST_EDGE;
        let [over_left, left, right, over_right] = self.stops;
        let (left, right) = if is_edge_seen {
            (over_left, over_right)
        } else {
            (left, right)
        };
        if self.stops.iter().any(|at| room.is_on_band(*at)) {
            return;
        }
        let along = direction(left, right);
        let ends = [off(left, along, -7.0), off(right, along, 7.0)];
        room.line(draft, &ends, solid(Ink::Ink, HAIRLINE), Some(self.place));
        for (nth, (face, stop)) in self.faces.iter().zip(self.stops).enumerate() {
            if is_edge_seen || nth == 1 || nth == 2 {
                let from = off(*face, self.way, 5.0);
                room.line(
                    draft,
                    &[from, off(stop, self.way, 5.0)],
                    solid(Ink::SecondInk, HAIRLINE * 0.75),
                    None,
                );
                tick(draft, room, stop, self.way);
            }
        }
    }

    fn label(&self, draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
        let [left, .., right] = self.stops;
        let middle = (
            f64::midpoint(left.0, right.0),
            f64::midpoint(left.1, right.1),
        );
        if !room.is_on_sheet(middle) || room.is_on_band(middle) {
            return;
        }
        let shown_in = plan.input.site.shown_in;
        let clear = shown_in.thickness(metres(2.0 * plan.band.half_m(self.station_m)));
        let over = shown_in.thickness(metres(2.0 * plan.band.over_m(self.station_m)));
        let bold = |written: String| {
            Words::one(
                Text::bold(written),
                plan.sizes.label,
                Ink::Ink,
                Some(self.place),
            )
        };
        let short = bold(format!("{clear} clear"));
        let full = short.clone().and(
            Text::regular(format!("{over} over edges")),
            plan.sizes.note,
            Ink::SecondInk,
        );
        for words in [full, short] {
            for share in [0.5, 0.2, 0.8, -0.4, 1.4] {
                let at = (
                    left.0 + share * (right.0 - left.0),
                    left.1 + share * (right.1 - left.1),
                );
                if room.beside(draft, off(at, self.way, 6.0), self.way, &words) {
                    return;
                }
            }
        }
    }
}
