//! Straight lines across the run, and how they lie to each other.

use super::super::pieces::PlanPoint;
use super::super::track::{Along, Track, between};

/// A place is found to this.
const FOUND_M: f64 = 1e-12;
/// Steps after which it is taken as it is.
const MOST_STEPS: usize = 60;
/// A line across: a spot, and the way that it looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    pub at: PlanPoint,
    pub heading_rad: f64,
    pub sin: f64,
    pub cos: f64,
}

impl Line {
    pub(super) fn of(at: PlanPoint, heading_rad: f64) -> Self {
        let (sin, cos) = libm::sincos(heading_rad);
        Self {
            at,
            heading_rad,
            sin,
            cos,
        }
    }

    /// The spot `right_m` to the right of its own, and `ahead_m` before it.
    pub(super) fn spot(&self, right_m: f64, ahead_m: f64) -> PlanPoint {
        PlanPoint {
            right_m: self.at.right_m + self.cos * right_m + self.sin * ahead_m,
            away_m: self.at.away_m - self.sin * right_m + self.cos * ahead_m,
        }
    }

    /// How far a spot lies to the right of its own, and before it.
    pub(super) fn beside(&self, spot: PlanPoint) -> (f64, f64) {
        let (right_m, away_m) = between(self.at, spot);
        (
            right_m * self.cos - away_m * self.sin,
            right_m * self.sin + away_m * self.cos,
        )
    }

    /// How far ahead another line is, `right_m` to the right.
    pub(super) fn ahead_m(&self, other: &Self, right_m: f64) -> f64 {
        // Where the other line meets the one square to this at that place.
        let (other_right_m, other_ahead_m) = self.beside(other.at);
        let turned_rad = other.heading_rad - self.heading_rad;
        other_ahead_m - (right_m - other_right_m) * libm::tan(turned_rad)
    }
}

/// From one heading to another, the shorter way about.
pub(super) fn turned_rad(from_rad: f64, to_rad: f64) -> f64 {
    libm::remainder(to_rad - from_rad, 2.0 * std::f64::consts::PI)
}

/// The line with that heading that is `by_m` ahead where it is nearer, within `half_m` to both sides.
pub(super) fn stands_off(line: &Line, heading_rad: f64, by_m: f64, half_m: f64) -> Line {
    let turned = libm::tan(heading_rad - line.heading_rad);
    Line::of(line.spot(0.0, by_m + half_m * turned.abs()), heading_rad)
}

/// The line with that heading that is `by_m` ahead where it is further away.
pub(super) fn stands_off_wide(line: &Line, heading_rad: f64, by_m: f64, half_m: f64) -> Line {
    let turned = libm::tan(heading_rad - line.heading_rad);
    Line::of(line.spot(0.0, by_m - half_m * turned.abs()), heading_rad)
}

/// The line that is so far ahead on the left and on the right.
pub(super) fn through(line: &Line, left_m: f64, right_m: f64, half_m: f64) -> Line {
    let turned_rad = libm::atan((left_m - right_m) / (2.0 * half_m));
    Line::of(
        line.spot(0.0, 0.5 * (left_m + right_m)),
        line.heading_rad + turned_rad,
    )
}

/// Where a track meets a line across.
pub(super) fn meets(track: &Track, line: &Line, guess: Along) -> Along {
    let mut along = track.on_its_leg(guess);
    for _ in 0..MOST_STEPS {
        let (_, ahead_m) = line.beside(track.spot(along).at);
        along = track.on_its_leg(along.moved(-ahead_m));
        if ahead_m.abs() < FOUND_M {
            break;
        }
    }
    along
}
