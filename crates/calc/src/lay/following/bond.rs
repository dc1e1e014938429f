//! One course, piece by piece: whole brick as long as the laps allow, then the piece that lets whole brick go on longest.

mod set_in;

use super::super::track::{Along, Spot};
use super::course_line::{CourseLine, Set, clearance_m};
use super::neighbour::Neighbour;
use super::stock::{EXACT_M, SAME_M};

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

/// What the next unit does.
enum Next {
    /// It lies well.
    Lies(Set),
    /// It closes the course.
    Closes(Set),
    /// It does not fit before the end; with what is left, which is below zero.
    TooLong(Set, f64),
    /// It fits, but then too little is left, which is given.
    LeavesTooLittle(Set, f64),
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
            Next::TooLong(..) => {
                self.close();
                false
            }
            Next::LeavesTooLittle(..) => {
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
            return Next::TooLong(unit, room_m);
        }
        if room_m <= self.bounds.end_play_m + EXACT_M {
            return Next::Closes(unit);
        }
        if room_m < self.least_rest_m(&unit) - EXACT_M {
            return Next::LeavesTooLittle(unit, room_m);
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

    /// By how much the lap at the far joint of a piece is above the least, a unit taken to follow a unit.
    fn slack_at_m(&self, set: &Set, cursor: &mut usize) -> f64 {
        let to = set.seat.to;
        let gap_m = self.line.leg(to).map_or(0.0, |leg| leg.gap_m);
        self.slack_of_joint_m(to, gap_m, cursor)
    }

    /// The same for the joint between two pieces that are known.
    fn slack_between_m(&self, one: &Set, next: &Set) -> f64 {
        let gap_m = next.seat.from.m - one.seat.to.m;
        self.slack_of_joint_m(one.seat.to, gap_m, &mut self.cursor.clone())
    }

    fn slack_of_joint_m(&self, to: Along, gap_m: f64, cursor: &mut usize) -> f64 {
        let Some(neighbour) = self.neighbour else {
            return f64::INFINITY;
        };
        let middle = self.line.track.on_its_leg(to.moved(0.5 * gap_m));
        let at_m = neighbour.at_m(self.line, middle);
        neighbour.lap_m(at_m, cursor) - self.least_lap_m(middle)
    }

    /// Least lap at a place; among shorter pieces as much less.
    fn least_lap_m(&self, along: Along) -> f64 {
        self.line
            .stock
            .least_lap_m
            .map_or(0.0, |least_lap_m| self.line.lap_share(along) * least_lap_m)
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
