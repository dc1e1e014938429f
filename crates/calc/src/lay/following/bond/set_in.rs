//! Which piece is set in where whole brick would come too near to a joint of the neighbour.

use super::super::super::pieces::Kind;
use super::super::course_line::Set;
use super::super::stock::{EXACT_M, SAME_M};
use super::{Next, Walk};

/// Whole bricks after which one piece set in counts as good as another.
const FAR_ENOUGH: usize = 60;
/// Pieces that are tried at one place.
const MOST_CANDIDATES: usize = 32;
/// Lengths nearer to each other than this are tried once.
const TRIED_M: f64 = 1e-4;
/// Parts of the way from the least piece to a whole one, to be tried where nothing better is known.
const EVEN_STEPS: [f64; 11] = [
    0.08, 0.17, 0.25, 0.33, 0.42, 0.5, 0.58, 0.67, 0.75, 0.83, 0.92,
];
/// Whole bricks that may be taken up again so that a piece can be set in before them.
const MOST_TAKEN_UP: usize = 3;

/// What comes of a piece that is set in; more is better.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Outlook {
    reaches_end: bool,
    closes_well: u8,
    n_units: usize,
}

/// An outlook, and by how much longer a piece would let the course end better.
struct Ending {
    outlook: Outlook,
    better_m: [Option<f64>; 5],
    /// From where whole brick stops to the end.
    left_m: f64,
}

impl Walk<'_> {
    /// Sets a piece in so that whole brick can go on; false where none does.
    pub(super) fn set_in(&mut self) -> bool {
        let mut best: Option<(Outlook, usize, Set)> = None;
        for n_taken_up in 0..=MOST_TAKEN_UP {
            let Some(n_kept) = self.laid.sets.len().checked_sub(n_taken_up) else {
                break;
            };
            let taken_up = self.laid.sets.get(n_kept);
            if taken_up.is_some_and(|set| !self.is_unit(set)) {
                break;
            }
            let before = n_kept
                .checked_sub(1)
                .and_then(|idx| self.laid.sets.get(idx))
                .copied();
            for (set, mut outlook) in self.candidates(before.as_ref()) {
                if !outlook.reaches_end {
                    if outlook.n_units < n_taken_up {
                        continue;
                    }
                    outlook.n_units -= n_taken_up;
                }
                let is_better = best.is_none_or(|(best, _, best_set)| {
                    outlook > best
                        || (outlook == best && n_taken_up == 0 && rank(&set) < rank(&best_set))
                });
                if is_better {
                    best = Some((outlook, n_kept, set));
                }
            }
            if best
                .is_some_and(|(outlook, ..)| outlook.reaches_end || outlook.n_units > MOST_TAKEN_UP)
            {
                break;
            }
        }
        let Some((_, n_kept, set)) = best else {
            return false;
        };
        self.laid.sets.truncate(n_kept);
        self.laid.sets.push(set);
        true
    }

    /// Where no piece keeps the least lap: the one that keeps most.
    pub(super) fn longest_lap(&mut self, before: Option<&Set>, unit: Set) -> Set {
        let stock = self.line.stock;
        let mut best = (self.slack_m(&unit), unit);
        for length_m in [stock.half_m, stock.three_quarters_m, stock.least_piece_m] {
            if length_m < stock.least_piece_m - EXACT_M || length_m > unit.seat.length_m {
                continue;
            }
            let set = self.piece(before, length_m);
            let slack_m = self.slack_m(&set);
            if slack_m > best.0 + EXACT_M && self.room_m(&set) >= self.least_rest_m(&set) {
                best = (slack_m, set);
            }
        }
        best.1
    }

    fn is_unit(&self, set: &Set) -> bool {
        self.line
            .leg(set.seat.from)
            .is_some_and(|leg| set.seat.length_m >= leg.unit_m - SAME_M)
    }

    /// Pieces shorter than a unit whose far joint keeps the least lap and leaves room for what follows, and what comes of each. Where whole
    /// brick goes on from one to the end, also those that let the course end well.
    fn candidates(&self, before: Option<&Set>) -> Vec<(Set, Outlook)> {
        let stock = &self.line.stock;
        let from = before.map_or(self.bounds.start_at, |before| before.seat.to);
        let unit_m = self.line.unit_m(from);
        let mut lengths_m = vec![stock.half_m, stock.three_quarters_m, stock.least_piece_m];
        lengths_m.extend(self.lengths_to_the_limits(before, unit_m));
        let mut all: Vec<(Set, Outlook)> = Vec::with_capacity(MOST_CANDIDATES);
        let mut best: Option<Ending> = None;
        let mut nth = 0;
        let mut is_scanned = false;
        loop {
            let Some(&length_m) = lengths_m.get(nth) else {
                // Where the course would end badly within a few bricks, lengths in even steps may still do better.
                let ends_badly = best.as_ref().is_some_and(|best| {
                    best.outlook.closes_well == 0 && best.left_m < 3.0 * stock.length_m
                });
                if is_scanned || !ends_badly {
                    break;
                }
                is_scanned = true;
                lengths_m.extend(
                    EVEN_STEPS
                        .map(|part| stock.least_piece_m + part * (unit_m - stock.least_piece_m)),
                );
                continue;
            };
            nth += 1;
            let is_tried = lengths_m
                .iter()
                .take(nth - 1)
                .any(|tried_m| (tried_m - length_m).abs() < TRIED_M);
            if is_tried {
                continue;
            }
            let Some((set, end)) = self.candidate(before, length_m, unit_m) else {
                continue;
            };
            all.push((set, end.outlook));
            let is_best = best.as_ref().is_none_or(|best| end.outlook >= best.outlook);
            if all.len() >= MOST_CANDIDATES
                || end.outlook.closes_well == 2
                || end.outlook.n_units >= FAR_ENOUGH
            {
                break;
            }
            if is_best {
                let better_m = end.better_m.into_iter().flatten();
                lengths_m.extend(better_m.map(|by_m| length_m + by_m));
                best = Some(end);
            }
        }
        all
    }

    fn candidate(&self, before: Option<&Set>, length_m: f64, unit_m: f64) -> Option<(Set, Ending)> {
        if length_m < self.line.stock.least_piece_m - EXACT_M || length_m > unit_m - SAME_M {
            return None;
        }
        let set = self.piece(before, length_m);
        // A shorter piece stands less askew on a curve than a unit, so that the joints on both its sides move a little.
        let next = self.piece(Some(&set), self.line.unit_m(set.seat.to));
        let is_allowed = self.slack_between_m(&set, &next) >= -EXACT_M
            && before.is_none_or(|before| self.slack_between_m(before, &set) >= -EXACT_M)
            && self.room_m(&set) >= self.least_rest_m(&set) - EXACT_M;
        is_allowed.then(|| (set, self.outlook(set)))
    }

    /// Lengths that bring the far joint as near to a joint of the neighbour as the least lap allows, on either side of it.
    pub(super) fn lengths_to_the_limits(&self, before: Option<&Set>, unit_m: f64) -> Vec<f64> {
        let Some(neighbour) = self.neighbour else {
            return Vec::new();
        };
        let longest = self.piece(before, unit_m);
        let (from, to) = (longest.seat.from, longest.seat.to);
        let mut lengths_m = Vec::with_capacity(6);
        let mut cursor = self.cursor;
        let mut near_m = neighbour.at_m(self.line, to) + self.line.stock.joint_m;
        let lap_m = self.least_lap_m(to) + SAME_M;
        for _ in 0..3 {
            let (joint_before, joint_after) = neighbour.beside(near_m, &mut cursor);
            for (joint_m, sign) in [
                (joint_after, -1.0),
                (joint_before, 1.0),
                (joint_before, -1.0),
            ] {
                let Some(joint_m) = joint_m else { continue };
                let middle = neighbour.along(self.line, from, joint_m + sign * lap_m);
                let half_gap_m = 0.5 * self.line.leg(middle).map_or(0.0, |leg| leg.gap_m);
                // Along the line and along the piece differ by the bow alone; the limit is met well enough by one step more.
                let reach_m = middle.m - half_gap_m - from.m;
                let mut length_m = unit_m + (middle.m - half_gap_m - to.m);
                if length_m > 0.0 && reach_m > 0.0 {
                    let set = self.piece(before, length_m);
                    length_m += middle.m - half_gap_m - set.seat.to.m;
                }
                lengths_m.push(length_m);
            }
            let Some(joint_m) = joint_before else { break };
            near_m = joint_m;
        }
        lengths_m
    }

    /// How far whole brick goes on after a piece.
    fn outlook(&self, mut set: Set) -> Ending {
        let mut ending = Ending {
            outlook: Outlook {
                reaches_end: true,
                closes_well: 0,
                n_units: 0,
            },
            better_m: [None; 5],
            left_m: 0.0,
        };
        let mut cursor = self.cursor;
        let mut n_units = 0;
        while n_units < FAR_ENOUGH {
            match self.next_unit(Some(&set), &mut cursor) {
                Next::Lies(unit) => set = unit,
                Next::LapTooShort(unit) => {
                    ending.better_m = self.shifts_to_the_limits_m(&unit, &mut cursor);
                    break;
                }
                Next::Closes(_) => {
                    ending.outlook.closes_well = 2;
                    return ending;
                }
                Next::TooLong(unit, room_m) => {
                    // So much shorter that the last piece is a whole one, or so much longer that it is not needed.
                    let over_m = room_m - 0.5 * self.bounds.end_play_m;
                    let step_m = unit.seat.to.m - set.seat.to.m;
                    ending.outlook.closes_well = 1;
                    ending.better_m = [Some(over_m), Some(over_m + step_m), None, None, None];
                    return ending;
                }
                Next::LeavesTooLittle(unit, room_m) => {
                    // So much longer that the last whole one closes, or that it closes when cut; or so much shorter that a least piece
                    // closes.
                    let stock = &self.line.stock;
                    let cut_to = |share: f64| Some(room_m + (1.0 - share) * stock.length_m);
                    ending.better_m = [
                        Some(room_m - 0.5 * self.bounds.end_play_m),
                        cut_to(stock.three_quarters_m / stock.length_m),
                        cut_to(stock.half_m / stock.length_m),
                        cut_to(0.95),
                        Some(room_m - self.least_rest_m(&unit) - SAME_M),
                    ];
                    return ending;
                }
            }
            n_units += 1;
        }
        ending.outlook.reaches_end = false;
        ending.outlook.n_units = n_units;
        ending.left_m = self.bounds.end_at.m - set.seat.to.m;
        ending
    }

    /// By how much the far joint of a piece would have to move to keep the least lap: clear of the neighbour's joint before it on either
    /// side, and of the one after it.
    fn shifts_to_the_limits_m(&self, set: &Set, cursor: &mut usize) -> [Option<f64>; 5] {
        let mut shifts_m = [None; 5];
        if let Some(neighbour) = self.neighbour {
            let half_gap_m = 0.5 * self.line.leg(set.seat.to).map_or(0.0, |leg| leg.gap_m);
            let middle = self.line.track.on_its_leg(set.seat.to.moved(half_gap_m));
            let at_m = neighbour.at_m(self.line, middle);
            let lap_m = self.least_lap_m(middle) + SAME_M;
            let (joint_before, joint_after) = neighbour.beside(at_m, cursor);
            let to_m = |joint: Option<f64>, by_m: f64| joint.map(|joint_m| joint_m + by_m - at_m);
            shifts_m = [
                to_m(joint_before, lap_m),
                to_m(joint_after, -lap_m),
                to_m(joint_before, -lap_m),
                to_m(joint_after, lap_m),
                None,
            ];
        }
        shifts_m
    }
}

/// Which of two pieces that do as well is laid: a half before three quarters before one of its own length.
fn rank(set: &Set) -> u8 {
    match set.kind {
        Kind::Half => 0,
        Kind::ThreeQuarter => 1,
        _ => 2,
    }
}
