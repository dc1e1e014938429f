//! Brick, joints and limits as plain metres.

use super::super::radius::{half_m, three_quarters_m};
use super::super::wishes::LayWishes;
use crate::quantity::in_metres;
use crate::site::Bond;

/// Lengths nearer to each other than this are cut alike: 1 µm.
pub(in crate::lay) const SAME_M: f64 = 1e-6;
/// What the arithmetic may be off.
pub(in crate::lay) const EXACT_M: f64 = 1e-9;

/// What the courses are laid of.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct Stock {
    pub length_m: f64,
    pub width_m: f64,
    /// Joint on straights and on the inside of slight curves.
    pub joint_m: f64,
    pub least_joint_m: f64,
    pub widest_joint_m: f64,
    pub half_m: f64,
    pub three_quarters_m: f64,
    pub least_piece_m: f64,
    /// The least piece as a share of the brick, also taken across it.
    pub least_width_m: f64,
    /// Least lap; none in a stack.
    pub least_lap_m: Option<f64>,
    /// First piece of every second course.
    pub second_start_m: f64,
}

impl Stock {
    pub(in crate::lay) fn of(wishes: &LayWishes) -> Self {
        let (length_m, width_m) = (
            in_metres(wishes.brick_length),
            in_metres(wishes.brick_width),
        );
        let joint_m = in_metres(wishes.joint);
        let least_piece_m = in_metres(wishes.least_piece).clamp(0.0, length_m);
        let mut stock = Self {
            length_m,
            width_m,
            joint_m,
            least_joint_m: in_metres(wishes.least_joint).min(joint_m),
            widest_joint_m: in_metres(wishes.widest_joint).max(joint_m),
            half_m: half_m(wishes),
            three_quarters_m: three_quarters_m(wishes),
            least_piece_m,
            least_width_m: width_m * least_piece_m / length_m,
            least_lap_m: None,
            second_start_m: length_m,
        };
        stock.lap(wishes);
        stock
    }

    /// The same with another joint along straights, so that a run comes out in whole brick.
    pub(in crate::lay) fn with_joint(wishes: &LayWishes, joint_m: f64) -> Self {
        let mut stock = Self::of(wishes);
        stock.joint_m = joint_m;
        stock.half_m = 0.5 * (stock.length_m - joint_m);
        stock.three_quarters_m = stock.length_m - 0.25 * (stock.length_m + joint_m);
        stock.lap(wishes);
        stock
    }

    /// First piece of the second course, and the least lap: not more than the lap that is wished for.
    fn lap(&mut self, wishes: &LayWishes) {
        let pitch_m = self.length_m + self.joint_m;
        let share = wishes.lap_share;
        let is_stack = wishes.bond == Bond::Stack || !(share > 0.0 && share < 1.0);
        let lap_m = pitch_m * share.min(1.0 - share);
        if is_stack || lap_m < SAME_M {
            return;
        }
        // A piece of the lap's own length, or where that is too short what is left of a brick beside it: the lap is the same.
        let (short_m, long_m) = (
            share * pitch_m - self.joint_m,
            (1.0 - share) * pitch_m - self.joint_m,
        );
        self.second_start_m = if short_m >= self.least_piece_m - EXACT_M {
            short_m
        } else {
            long_m.max(short_m)
        };
        self.least_lap_m = Some(in_metres(wishes.least_lap).min(lap_m));
    }

    pub(in crate::lay) fn is_same(one_m: f64, other_m: f64) -> bool {
        (one_m - other_m).abs() < SAME_M
    }
}
