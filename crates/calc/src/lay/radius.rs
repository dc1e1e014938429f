//! How tight a curve may be for rigid brick: the joint opens on the outside, and the course bows into the joint beside it.

use super::wishes::LayWishes;
use crate::quantity::{Length, in_metres, metres};

/// Least radii of the centreline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastRadii {
    /// For whole brick. Infinite where the joint limits leave no play.
    pub whole: Length,
    /// For halves. Infinite where the joint limits leave no play.
    pub halves: Length,
}

impl LeastRadii {
    /// Of a walk of that clear width whose courses run along it with `transverse_joint` between them. The innermost course decides.
    ///
    /// # Source
    /// Rigid geometry. For a slight curve the joint opens by W (L + j) ÷ r and the course bows by L² ÷ (8 r).
    #[must_use]
    pub fn of(wishes: &LayWishes, clear_width: Length, transverse_joint: Length) -> Self {
        let to_innermost_m = (0.5 * in_metres(clear_width - wishes.brick_width)
            - in_metres(transverse_joint))
        .max(0.0);
        let least = |piece| {
            metres(
                least_course_radius_m(wishes, piece, in_metres(transverse_joint)) + to_innermost_m,
            )
        };
        Self {
            whole: least(in_metres(wishes.brick_length)),
            halves: least(half_m(wishes)),
        }
    }
}

/// A half: two and a joint make a brick.
pub(super) fn half_m(wishes: &LayWishes) -> f64 {
    0.5 * in_metres(wishes.brick_length - wishes.joint)
}

/// Three quarters: a brick less a quarter of a brick and joint.
pub(super) fn three_quarters_m(wishes: &LayWishes) -> f64 {
    in_metres(wishes.brick_length) - 0.25 * in_metres(wishes.brick_length + wishes.joint)
}

/// Least radius to the middle line of a course for pieces of that length: both ends of the middle line lie on the arc.
pub(super) fn least_course_radius_m(
    wishes: &LayWishes,
    piece_m: f64,
    transverse_joint_m: f64,
) -> f64 {
    let (least_m, widest_m) = (
        in_metres(wishes.least_joint),
        in_metres(wishes.widest_joint),
    );
    let width_m = in_metres(wishes.brick_width);
    let play_m = (transverse_joint_m - least_m).min(widest_m - transverse_joint_m);
    by_opening_m(piece_m, width_m, least_m, widest_m).max(by_bow_m(piece_m, play_m))
}

/// Radius at which the joint is `least_m` on the inside and `widest_m` on the outside.
///
/// With x half the turn from piece to piece, the outer joint is wider by 2 W sin x, and the inner one is 2 f sin x − L cos x with f
/// from the centre to the inner face.
fn by_opening_m(piece_m: f64, width_m: f64, least_m: f64, widest_m: f64) -> f64 {
    let sin = ((widest_m - least_m) / (2.0 * width_m)).clamp(0.0, 1.0);
    if sin == 0.0 {
        return f64::INFINITY;
    }
    let face_m = (least_m + piece_m * (1.0 - sin * sin).sqrt()) / (2.0 * sin);
    libm::hypot(face_m + 0.5 * width_m, 0.5 * piece_m)
}

/// Radius at which a chord of that length bows by `play_m`: r − √(r² − L²/4) = b.
fn by_bow_m(piece_m: f64, play_m: f64) -> f64 {
    if play_m > 0.0 {
        piece_m * piece_m / (8.0 * play_m) + 0.5 * play_m
    } else {
        f64::INFINITY
    }
}

/// How far the face of a chord bows: r − √(r² − L²/4), without the difference of two near numbers.
pub(super) fn bow_m(radius_m: f64, piece_m: f64) -> f64 {
    let half_m = (0.5 * piece_m).min(radius_m);
    half_m * half_m / (radius_m + (radius_m * radius_m - half_m * half_m).sqrt())
}

/// Joint on the inside of a curve: the one that is aimed at, or as much less as keeps the outside within the widest, but not below
/// the least.
pub(super) fn tight_joint_m(wishes: &LayWishes, radius_m: f64, piece_m: f64, width_m: f64) -> f64 {
    let (joint_m, least_m, widest_m) = (
        in_metres(wishes.joint),
        in_metres(wishes.least_joint),
        in_metres(wishes.widest_joint),
    );
    let half_m = 0.5 * piece_m;
    let face_m = (radius_m * radius_m - half_m * half_m).max(0.0).sqrt() - 0.5 * width_m;
    if face_m <= 0.0 || !(joint_m > least_m) {
        return joint_m;
    }
    // 2 f sin x − L cos x = j, then 2 (f + W) sin x − L cos x is the joint on the outside.
    let half_turn_rad = |face_m: f64, joint_m: f64| {
        libm::atan2(piece_m, 2.0 * face_m)
            + libm::asin((joint_m / libm::hypot(2.0 * face_m, piece_m)).min(1.0))
    };
    let outside_m = joint_m + 2.0 * width_m * libm::sin(half_turn_rad(face_m, joint_m));
    if outside_m <= widest_m {
        return joint_m;
    }
    let x = half_turn_rad(face_m + width_m, widest_m);
    (2.0 * face_m * libm::sin(x) - piece_m * libm::cos(x)).clamp(least_m, joint_m)
}
