//! One course, piece by piece: whole brick as long as the laps allow, then the piece that lets whole brick go on longest.

use super::super::pieces::Kind;
use super::super::track::{Along, Spot};
use super::course_line::{CourseLine, Set, clearance_m};
use super::neighbour::Neighbour;
use super::stock::{EXACT_M, SAME_M};

/// Whole bricks after which one piece set in counts as good as another.
const FAR_ENOUGH: usize = 200;
/// Whole bricks that may be taken up again so that a piece can be set in before them.
const MOST_TAKEN_UP: usize = 3;

/// Where a course, or a stretch of it, starts and ends.
pub(in crate::lay) struct Bounds {
    /// The line across at its start and the joint to it; no joint where it only enters the walk there.
    pub start: Spot,
    pub start_at: Along,
    pub start_joint_m: f64,
    /// The line across at its end; none where it runs out of the walk.
    pub end: Option<Spot>,
    pub end_at: Along,
    /// The joint to that line, and how much wider it may be.
    pub end_joint_m: f64,
    pub end_play_m: f64,
}

/// A stretch of a course as laid.
pub(in crate::lay) struct Stretch {
    pub sets: Vec<Set>,
    /// Two pieces that share what was left, by the first of them.
    pub shared_idx: Option<usize>,
}

/// Lays a stretch. `first_m` is the length of its first piece where the bond asks for one.
pub(in crate::lay) fn stretch(
    line: &CourseLine,
    neighbour: Option<&Neighbour>,
    bounds: &Bounds,
    first_m: Option<f64>,
) -> Stretch {
    let mut walk = Walk {
        line,
        neighbour,
        bounds,
        first_m,
        cursor: 0,
        laid: Stretch {
            sets: Vec::new(),
            shared_idx: None,
        },
    };
    while walk.goes_on() {}
    walk.laid
}

struct Walk<'a> {
    line: &'a CourseLine,
    neighbour: Option<&'a Neighbour>,
    bounds: &'a Bounds,
    first_m: Option<f64>,
    /// In the neighbour's joints.
    cursor: usize,
    laid: Stretch,
}

/// What comes of a piece that is set in; more is better.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
struct Outlook {
    reaches_end: bool,
    closes_well: u8,
    n_units: usize,
}

/// What the next unit does.
enum Next {
    /// It lies well.
    Lies(Set),
    /// It closes the course.
    Closes(Set),
    /// It does not fit before the end.
    TooLong,
    /// It fits, but then too little is left.
    LeavesTooLittle,
    /// Its far joint comes too near to one of the neighbour.
    LapTooShort(Set),
}

impl Walk<'_> {
    /// Lays what comes next; false at the end.
    fn goes_on(&mut self) -> bool {
        let before = self.laid.sets.last().copied();
        if before.is_none()
            && let Some(first_m) = self.first_m
        {
            let first = self.piece(None, first_m);
            if self.room_m(&first) >= self.least_rest_m(&first) && self.slack_m(&first) >= -EXACT_M
            {
                self.laid.sets.push(first);
                return true;
            }
        }
        let mut cursor = self.cursor;
        let next = self.next_unit(before.as_ref(), &mut cursor);
        self.cursor = cursor;
        match next {
            Next::Lies(set) => {
                self.laid.sets.push(set);
                true
            }
            Next::Closes(set) => {
                self.laid.sets.push(set);
                false
            }
            Next::TooLong => {
                self.close();
                false
            }
            Next::LeavesTooLittle => {
                self.share();
                false
            }
            Next::LapTooShort(set) => {
                if !self.set_in() {
                    let least_evil = self.longest_lap(before.as_ref(), set);
                    self.laid.sets.push(least_evil);
                }
                true
            }
        }
    }

    fn next_unit(&self, before: Option<&Set>, cursor: &mut usize) -> Next {
        let from = before.map_or(self.bounds.start_at, |before| before.seat.to);
        let unit = self.piece(before, self.line.unit_m(from));
        let room_m = self.room_m(&unit);
        if self.bounds.end.is_none() && room_m <= 0.0 {
            return Next::Closes(unit);
        }
        if room_m < -EXACT_M {
            return Next::TooLong;
        }
        if room_m <= self.bounds.end_play_m + EXACT_M {
            return Next::Closes(unit);
        }
        if room_m < self.least_rest_m(&unit) - EXACT_M {
            return Next::LeavesTooLittle;
        }
        if self.slack_at_m(&unit, cursor) < -EXACT_M {
            return Next::LapTooShort(unit);
        }
        Next::Lies(unit)
    }

    fn piece(&self, before: Option<&Set>, length_m: f64) -> Set {
        match before {
            Some(before) => self.line.after(before, length_m),
            None => self.line.first(
                self.bounds.start,
                self.bounds.start_at,
                self.bounds.start_joint_m,
                length_m,
            ),
        }
    }

    /// From the end of a piece to where the last one must end. Far from the end it is only about that.
    fn room_m(&self, set: &Set) -> f64 {
        let ahead_m = self.bounds.end_at.m - set.seat.to.m;
        match self.bounds.end {
            Some(end) if ahead_m < 3.0 * self.line.stock.length_m => {
                clearance_m(&self.line.faces(set).1, end, f64::min) - self.bounds.end_joint_m
            }
            _ => ahead_m,
        }
    }

    /// What must be left after a piece: a joint and the least piece.
    fn least_rest_m(&self, set: &Set) -> f64 {
        if self.bounds.end.is_none() {
            return f64::NEG_INFINITY;
        }
        let gap_m = self.line.leg(set.seat.to).map_or(0.0, |leg| leg.gap_m);
        gap_m + self.line.stock.least_piece_m
    }

    fn slack_m(&mut self, set: &Set) -> f64 {
        let mut cursor = self.cursor;
        let slack_m = self.slack_at_m(set, &mut cursor);
        self.cursor = cursor;
        slack_m
    }

    /// By how much the lap at the far joint of a piece is above the least.
    fn slack_at_m(&self, set: &Set, cursor: &mut usize) -> f64 {
        let Some(neighbour) = self.neighbour else {
            return f64::INFINITY;
        };
        let to = set.seat.to;
        let half_gap_m = 0.5 * self.line.leg(to).map_or(0.0, |leg| leg.gap_m);
        let middle = self.line.track.on_its_leg(to.moved(half_gap_m));
        let at_m = neighbour.at_m(self.line, middle);
        neighbour.lap_m(at_m, cursor) - self.least_lap_m(middle)
    }

    /// Least lap at a place; among shorter pieces as much less. On a curve the joint's middle is known before the next piece only to
    /// the margin that is added here.
    fn least_lap_m(&self, along: Along) -> f64 {
        let stock = &self.line.stock;
        let Some(least_lap_m) = stock.least_lap_m else {
            return 0.0;
        };
        let margin_m = self.line.leg(along).map_or(0.0, |leg| {
            if leg.laid_of.is_tapered() {
                0.0
            } else {
                let shorter_m = (leg.unit_m - stock.least_piece_m).max(0.0);
                self.line.width_m * shorter_m * leg.curvature_per_m.abs() / 8.0
            }
        });
        self.line.lap_share(along) * least_lap_m + margin_m
    }

    /// Sets a piece in so that whole brick can go on; false where none does.
    fn set_in(&mut self) -> bool {
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
            for set in self.candidates(before.as_ref()) {
                let mut outlook = self.outlook(set);
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
    fn longest_lap(&mut self, before: Option<&Set>, unit: Set) -> Set {
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

    /// Pieces shorter than a unit whose far joint keeps the least lap and leaves room for what follows.
    fn candidates(&self, before: Option<&Set>) -> Vec<Set> {
        let stock = &self.line.stock;
        let from = before.map_or(self.bounds.start_at, |before| before.seat.to);
        let unit_m = self.line.unit_m(from);
        let mut lengths_m = vec![stock.half_m, stock.three_quarters_m];
        lengths_m.extend(self.lengths_to_the_limits(before, unit_m));
        let mut sets = Vec::with_capacity(lengths_m.len());
        for length_m in lengths_m {
            if length_m < stock.least_piece_m - EXACT_M || length_m > unit_m - SAME_M {
                continue;
            }
            let set = self.piece(before, length_m);
            let mut cursor = self.cursor;
            if self.slack_at_m(&set, &mut cursor) >= -EXACT_M
                && self.room_m(&set) >= self.least_rest_m(&set) - EXACT_M
            {
                sets.push(set);
            }
        }
        sets
    }

    /// Lengths that bring the far joint as near to a joint of the neighbour as the least lap allows, on either side of it.
    fn lengths_to_the_limits(&self, before: Option<&Set>, unit_m: f64) -> Vec<f64> {
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
    fn outlook(&self, mut set: Set) -> Outlook {
        let mut outlook = Outlook {
            reaches_end: false,
            closes_well: 0,
            n_units: 0,
        };
        let mut cursor = self.cursor;
        while outlook.n_units < FAR_ENOUGH {
            match self.next_unit(Some(&set), &mut cursor) {
                Next::Lies(unit) => set = unit,
                Next::LapTooShort(_) => return outlook,
                Next::Closes(_) => {
                    outlook.closes_well = 2;
                    outlook.reaches_end = true;
                    break;
                }
                Next::TooLong => {
                    outlook.closes_well = 1;
                    outlook.reaches_end = true;
                    break;
                }
                Next::LeavesTooLittle => {
                    outlook.reaches_end = true;
                    break;
                }
            }
            outlook.n_units += 1;
        }
        if outlook.reaches_end {
            outlook.n_units = 0;
        }
        outlook
    }

    /// The last piece, as long as is needed.
    fn close(&mut self) {
        let before = self.laid.sets.last().copied();
        let Some((set, length_m)) = self.closing(before.as_ref()) else {
            return;
        };
        if length_m >= self.line.stock.least_piece_m - EXACT_M || before.is_none() {
            if length_m > SAME_M {
                self.laid.sets.push(set);
            }
            return;
        }
        self.laid.sets.pop();
        self.share();
    }

    fn closing(&self, before: Option<&Set>) -> Option<(Set, f64)> {
        let end = self.bounds.end?;
        let from_m = before.map_or(self.bounds.start_at.m, |before| before.seat.to.m);
        let (stock, joint_m) = (&self.line.stock, self.bounds.end_joint_m);
        let guess_m = (self.bounds.end_at.m - from_m - stock.joint_m - joint_m).max(stock.joint_m);
        Some(self.line.up_to(end, joint_m, guess_m, |length_m| {
            self.piece(before, length_m)
        }))
    }

    /// Two pieces in place of a whole and one that would be too short.
    fn share(&mut self) {
        let before = self.laid.sets.last().copied();
        let Some((single, total_m)) = self.closing(before.as_ref()) else {
            return;
        };
        let stock = self.line.stock;
        let from = before.map_or(self.bounds.start_at, |before| before.seat.to);
        let unit_m = self.line.unit_m(from);
        let both_m = total_m - self.line.leg(from).map_or(stock.joint_m, |leg| leg.gap_m);
        if both_m < 2.0 * stock.least_piece_m - EXACT_M && total_m <= stock.length_m + EXACT_M {
            self.laid.sets.push(single);
            return;
        }
        let mut firsts_m = vec![0.5 * both_m, stock.three_quarters_m, stock.half_m];
        firsts_m.extend(self.lengths_to_the_limits(before.as_ref(), unit_m));
        let mut best: Option<(f64, Set, Set)> = None;
        for first_m in firsts_m {
            let fits = |length_m: f64| {
                length_m >= stock.least_piece_m - EXACT_M && length_m <= unit_m + EXACT_M
            };
            if !(fits(first_m) && fits(both_m - first_m)) {
                continue;
            }
            let first = self.piece(before.as_ref(), first_m);
            let Some((second, second_m)) = self.closing(Some(&first)) else {
                continue;
            };
            if second_m < stock.least_piece_m - EXACT_M {
                continue;
            }
            let slack_m = self.slack_m(&first).min(0.0);
            if best
                .as_ref()
                .is_none_or(|(best_m, ..)| slack_m > *best_m + EXACT_M)
            {
                best = Some((slack_m, first, second));
            }
        }
        if best.is_none() {
            let first = self.piece(before.as_ref(), 0.5 * both_m);
            best = self
                .closing(Some(&first))
                .map(|(second, _)| (0.0, first, second));
        }
        if let Some((_, first, second)) = best {
            self.laid.shared_idx = Some(self.laid.sets.len());
            self.laid.sets.push(first);
            self.laid.sets.push(second);
        }
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
