//! Every edge brick: both sides from the door to the far end, and the rows across between them.

use super::following::across_line;
use super::following::bond::{Bounds, stretch};
use super::following::course_line::{CourseLine, Set};
use super::following::courses::of_number;
use super::following::stock::{EXACT_M, SAME_M, Stock};
use super::laid::{Laid, LayNote, Measured};
use super::pieces::{Kind, Label, Part, PlanPoint};
use super::radius::bow_m;
use super::track::{Along, Body, Spot, Track, gaps_m, in_plan};
use super::wishes::LayWishes;
use crate::line::{Run, RunLeg};
use crate::quantity::{Length, in_metres, metres};
use crate::site::Hand;

/// Places along an edge in which the row across looks for it.
const LOOKS: f64 = 8.0;

/// The edge brick on both sides, and across at the door and the far end where that is wished for.
///
/// Each side starts flush at the door and ends flush at the far end, brick after brick with the joint where it is tighter; the last one
/// is cut, and where that piece would be below the least, the last two share. A row across lies between both sides; where it does not
/// come out, a cut piece lies at each of its ends.
#[must_use]
pub fn edges(run: &Run, wishes: &LayWishes) -> Laid {
    let mut laid = Laid::default();
    let brick = EdgeStock::of(wishes);
    for hand in [Hand::Left, Hand::Right] {
        side(run, hand, &brick, &mut laid);
    }
    // A run shorter than its rows are deep, on the inside of its curves, has none.
    let n_rows = f64::from(u8::from(wishes.return_at_door) + u8::from(wishes.return_at_end));
    let half_m = run
        .legs()
        .iter()
        .map(|leg| 0.5 * in_metres(leg.width_at_start).max(in_metres(leg.width_at_end)))
        .fold(0.0, f64::max);
    let shortest_m = [-half_m, half_m]
        .map(|offset_m| in_metres(run.edge_length(metres(offset_m))))
        .into_iter()
        .fold(f64::INFINITY, f64::min);
    if shortest_m < n_rows * (brick.across_m + brick.stock.joint_m) {
        return laid;
    }
    if wishes.return_at_door {
        row_across(run, &brick, Part::AtDoor, wishes.start, &mut laid);
    }
    if wishes.return_at_end {
        row_across(run, &brick, Part::AtFarEnd, wishes.start, &mut laid);
    }
    laid
}

/// The edge brick in plain metres.
struct EdgeStock {
    /// As a brick that is laid one after another: its length is what it takes along the edge.
    stock: Stock,
    across_m: f64,
    /// Longest and middle side of the brick itself.
    brick_m: (f64, f64),
}

impl EdgeStock {
    fn of(wishes: &LayWishes) -> Self {
        let brick = wishes.edge_brick;
        let (along_m, across_m) = (in_metres(brick.along), in_metres(brick.across));
        let mut sides_m = [along_m, across_m, in_metres(brick.depth)];
        sides_m.sort_by(|one, other| other.total_cmp(one));
        let [longest_m, middle_m, _] = sides_m;
        let field = Stock::of(wishes);
        let stock = Stock {
            length_m: along_m,
            width_m: across_m,
            half_m: 0.5 * (along_m - field.joint_m),
            three_quarters_m: along_m - 0.25 * (along_m + field.joint_m),
            least_piece_m: along_m * field.least_piece_m / field.length_m,
            least_width_m: across_m,
            least_lap_m: None,
            second_start_m: along_m,
            ..field
        };
        Self {
            stock,
            across_m,
            brick_m: (longest_m, middle_m),
        }
    }

    /// Kind of a piece that long, and what it needs of a brick along and across the brick's length.
    fn needs(&self, along_m: f64) -> (Kind, Length, Length) {
        let (longest_m, middle_m) = self.brick_m;
        let (kind, length_m, width_m) = if Stock::is_same(along_m, self.stock.length_m) {
            (Kind::Whole, longest_m, middle_m)
        } else if Stock::is_same(self.stock.length_m, longest_m) {
            let kind = if Stock::is_same(along_m, self.stock.half_m) {
                Kind::Half
            } else {
                Kind::Cut
            };
            (kind, along_m, middle_m)
        } else {
            (Kind::Ripped, longest_m, along_m)
        };
        (kind, metres(length_m), metres(width_m))
    }
}

/// One side. Its bricks stand with their inner face on the border of the clear width.
fn side(run: &Run, hand: Hand, brick: &EdgeStock, laid: &mut Laid) {
    let (sign, body) = match hand {
        Hand::Left => (
            -1.0,
            Body {
                left_m: brick.across_m,
                right_m: 0.0,
            },
        ),
        Hand::Right => (
            1.0,
            Body {
                left_m: 0.0,
                right_m: brick.across_m,
            },
        ),
    };
    let offset_m = |width: Length| sign * 0.5 * in_metres(width);
    let offsets_m = |leg_idx: usize| {
        let of = |leg: &RunLeg| (offset_m(leg.width_at_start), offset_m(leg.width_at_end));
        run.legs().get(leg_idx).map_or((0.0, 0.0), of)
    };
    let Some(track) = Track::beside(run, offsets_m) else {
        return;
    };
    let line = CourseLine::of_edge(track, body, brick.stock);
    note_parts(&line, hand, run, laid);
    let mut before: Option<Set> = None;
    let mut worst: Option<Measured> = None;
    let mut nth = 0_u32;
    for bounds in parts(run, hand, &line, offset_m) {
        let stretch = stretch(&line, None, &bounds, None);
        for (idx, set) in stretch.sets.iter().enumerate() {
            nth = nth.saturating_add(1);
            let station_m = line.track.station_m(set.seat.from);
            let (start, _) = line.faces(set);
            if let Some(before) = before {
                let (left_m, right_m) = gaps_m(
                    &line.faces(&before).1,
                    &start,
                    line.track.spot(before.seat.to),
                );
                for joint_m in [left_m, right_m] {
                    let joint = measured(joint_m, station_m);
                    laid.note_joint(joint);
                    if joint_m > brick.stock.widest_joint_m + EXACT_M
                        && worst.is_none_or(|worst| joint.length > worst.length)
                    {
                        worst = Some(joint);
                    }
                }
            }
            let middle = line
                .track
                .on_its_leg(set.seat.from.moved(0.5 * (set.seat.to.m - set.seat.from.m)));
            let station = metres(line.track.station_m(middle));
            if stretch.shared_idx == Some(idx) {
                laid.notes.push(LayNote::PieceMerged { course: 1, station });
            }
            if let Some(outline) = line.outline(set) {
                let (kind, length, width) = brick.needs(set.seat.length_m);
                let label = Label {
                    part: Part::Edge(hand),
                    course: 1,
                    nth,
                    kind,
                    length,
                    width,
                    station,
                };
                laid.pieces.add(label, &outline);
            }
            before = Some(*set);
        }
    }
    laid.notes.extend(worst.map(LayNote::EdgeJointNotKept));
}

/// The stretches of an edge from corner to corner.
///
/// Where the border turns towards the field, as at the end of a taper, a brick across the corner would stand in the field with its inner
/// face. Where it would by more than a joint may be narrower than usual, one brick ends at the corner and the next begins there, both
/// cut or not, half a joint from it.
fn parts(
    run: &Run,
    hand: Hand,
    line: &CourseLine,
    offset_m: impl Fn(Length) -> f64,
) -> Vec<Bounds> {
    let (track, stock) = (&line.track, &line.stock);
    let length_m = in_metres(run.length());
    let across = |station_m: f64| {
        let offset_m = offset_m(run.clear_width_at(metres(station_m)));
        across_line(run, station_m, offset_m, 0.0)
    };
    let mut parts = Vec::new();
    let mut start = (across(0.0), track.beside_station(0.0), 0.0);
    for (leg_idx, pair) in track.legs().windows(2).enumerate() {
        let [one, next] = pair else { continue };
        let ends = Along {
            leg_idx,
            m: one.end_m(),
        };
        let begins = Along {
            leg_idx: leg_idx + 1,
            m: next.from_m,
        };
        let turned_rad = track.heading_rad(begins) - track.heading_rad(ends);
        let round_rad = std::f64::consts::TAU * libm::round(turned_rad / std::f64::consts::TAU);
        let towards_field_rad = match hand {
            Hand::Left => turned_rad - round_rad,
            Hand::Right => round_rad - turned_rad,
        };
        let stands_in_m = 0.5 * stock.length_m * libm::tan(0.5 * towards_field_rad);
        if stands_in_m <= stock.least_joint_m {
            continue;
        }
        let joint_m = 0.5 * stock.joint_m / libm::cos(0.5 * towards_field_rad);
        parts.push(Bounds {
            start: start.0,
            start_at: start.1,
            start_joint_m: start.2,
            end: Some(track.spot(ends)),
            end_at: ends,
            end_joint_m: joint_m,
            end_play_m: 0.0,
        });
        start = (track.spot(begins), begins, joint_m);
    }
    parts.push(Bounds {
        start: start.0,
        start_at: start.1,
        start_joint_m: start.2,
        end: Some(across(length_m)),
        end_at: track.beside_station(length_m),
        end_joint_m: 0.0,
        end_play_m: 0.0,
    });
    parts
}

/// Says where whole edge brick would bow too far, and the least radius of the centreline for it.
fn note_parts(line: &CourseLine, hand: Hand, run: &Run, laid: &mut Laid) {
    let stock = &line.stock;
    for (leg_idx, leg) in run.legs().iter().enumerate() {
        let is_laid_of_parts = line
            .track
            .legs()
            .iter()
            .zip(&line.legs)
            .any(|(on_track, of)| {
                on_track.run_leg_idx == leg_idx && of.unit_m < stock.length_m - EXACT_M
            });
        if is_laid_of_parts {
            let width_m = in_metres(leg.width_at_start).max(in_metres(leg.width_at_end));
            let edge_m = stock.length_m * stock.length_m / (8.0 * stock.least_joint_m)
                + 0.5 * stock.least_joint_m;
            let beyond_m = match (hand, leg.curvature_per_m > 0.0) {
                (Hand::Left, true) | (Hand::Right, false) => 0.5 * width_m,
                (Hand::Left, false) | (Hand::Right, true) => -0.5 * width_m,
            };
            laid.notes.push(LayNote::HalvesOnCurve {
                leg_idx,
                least_radius: metres(edge_m - beyond_m),
            });
        }
    }
}

fn measured(length_m: f64, station_m: f64) -> Measured {
    Measured {
        length: metres(length_m),
        course: 1,
        station: metres(station_m),
    }
}

/// The row across at one end, square to the run there.
fn row_across(run: &Run, brick: &EdgeStock, part: Part, start: Hand, laid: &mut Laid) {
    let length_m = in_metres(run.length());
    // The station where it starts, and which way it lies from there.
    let (station_m, inwards) = if part == Part::AtDoor {
        (0.0, 1.0)
    } else {
        (length_m, -1.0)
    };
    let line = across_line(run, station_m, 0.0, 0.0);
    let (from_m, to_m) = clear_row_m(run, line, station_m, inwards, brick);
    let (widths_m, joint_m) = row(to_m - from_m, &brick.stock);
    let mut at_m = from_m;
    let mut pieces_m = Vec::with_capacity(widths_m.len());
    for width_m in widths_m {
        at_m += joint_m;
        pieces_m.push((at_m, width_m));
        at_m += width_m;
    }
    if start == Hand::Right {
        pieces_m.reverse();
    }
    let spot = |right_m: f64, in_m: f64| PlanPoint {
        right_m: line.at.right_m + line.cos * right_m + line.sin * inwards * in_m,
        away_m: line.at.away_m - line.sin * right_m + line.cos * inwards * in_m,
    };
    let middle_m = station_m + inwards * 0.5 * brick.across_m;
    for (nth, (from_m, width_m)) in (1_u32..).zip(pieces_m) {
        let to_m = from_m + width_m;
        let (kind, length, width) = brick.needs(width_m);
        let label = Label {
            part,
            course: 1,
            nth,
            kind,
            length,
            width,
            station: metres(middle_m),
        };
        let depth_m = brick.across_m;
        let outline = [
            spot(from_m, 0.0),
            spot(to_m, 0.0),
            spot(to_m, depth_m),
            spot(from_m, depth_m),
        ];
        laid.pieces.add(label, &outline);
        laid.note_joint(measured(joint_m, middle_m));
    }
}

/// From where to where the row has room between both sides, to the right of the centreline's end.
fn clear_row_m(
    run: &Run,
    line: Spot,
    station_m: f64,
    inwards: f64,
    brick: &EdgeStock,
) -> (f64, f64) {
    let (mut from_m, mut to_m) = (f64::NEG_INFINITY, f64::INFINITY);
    let mut nth = 0.0;
    while nth <= LOOKS {
        // As an edge on a curve is shorter or longer than the centreline, a little further than the row is deep.
        let at_m = station_m + inwards * 1.25 * brick.across_m * nth / LOOKS;
        let half_m = 0.5 * in_metres(run.clear_width_at(metres(at_m)));
        let curvature_per_m = run.curvature_per_m_at(metres(at_m));
        let right_m = |offset_m: f64| {
            let spot = in_plan(run, at_m, offset_m);
            let to_right_m = (spot.right_m - line.at.right_m) * line.cos
                - (spot.away_m - line.at.away_m) * line.sin;
            let speed = 1.0 - curvature_per_m * offset_m;
            let reach_m = if curvature_per_m == 0.0 {
                0.0
            } else {
                bow_m(speed / curvature_per_m.abs(), brick.stock.length_m)
            };
            (to_right_m, reach_m)
        };
        let ((left_m, left_bow_m), (right_m, right_bow_m)) = (right_m(-half_m), right_m(half_m));
        from_m = from_m.max(left_m + left_bow_m);
        to_m = to_m.min(right_m - right_bow_m);
        nth += 1.0;
    }
    (from_m, to_m)
}

/// Widths of the pieces of a row between two edges, and its joint: it flexes where that saves the cuts.
fn row(clear_m: f64, stock: &Stock) -> (Vec<f64>, f64) {
    let (brick_m, joint_m) = (stock.length_m, stock.joint_m);
    let mut n = libm::floor((clear_m - joint_m) / (brick_m + joint_m)).max(0.0);
    for n in [n, n + 1.0] {
        let joint_m = (clear_m - n * brick_m) / (n + 1.0);
        if n > 0.0
            && joint_m >= stock.least_joint_m - EXACT_M
            && joint_m <= stock.widest_joint_m + EXACT_M
        {
            return (of_number(n, brick_m), joint_m);
        }
    }
    let cut_of = |n: f64| 0.5 * (clear_m - n * brick_m - (n + 3.0) * joint_m);
    if cut_of(n) < stock.least_piece_m && n > 0.0 {
        n -= 1.0;
    }
    let cut_m = cut_of(n);
    if cut_m < SAME_M {
        // Not even two cut pieces: one.
        let single_m = clear_m - 2.0 * joint_m;
        let widths_m = if single_m > SAME_M {
            vec![single_m.min(brick_m)]
        } else {
            Vec::new()
        };
        return (widths_m, joint_m);
    }
    let mut widths_m = of_number(n, brick_m);
    widths_m.insert(0, cut_m);
    widths_m.push(cut_m);
    (widths_m, joint_m)
}
