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

/// A half: two and a joint make a brick. Not below a quarter, however wide the joint.
pub(super) fn half_m(wishes: &LayWishes) -> f64 {
    let length_m = in_metres(wishes.brick_length);
    (0.5 * (length_m - in_metres(wishes.joint))).max(0.25 * length_m)
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
    if face_m <= 0.0 || joint_m <= least_m {
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

#[cfg(test)]
mod tests {
    use super::super::following::tests::runs::wishes;
    use super::*;
    use crate::quantity::inches;
    use proptest::prelude::*;

    /// Corners of a piece whose middle line is a chord of a circle about the origin, turned by an angle: inside and outside of its end,
    /// then of its start.
    fn corners(radius_m: f64, piece_m: f64, width_m: f64, turned_rad: f64) -> [(f64, f64); 4] {
        let off_m = (radius_m * radius_m - 0.25 * piece_m * piece_m).sqrt();
        let (sin, cos) = libm::sincos(turned_rad);
        [(0.5, -0.5), (0.5, 0.5), (-0.5, -0.5), (-0.5, 0.5)].map(|(along, across)| {
            let (x, y) = (along * piece_m, off_m + across * width_m);
            (x * cos + y * sin, y * cos - x * sin)
        })
    }

    fn apart(one: (f64, f64), other: (f64, f64)) -> f64 {
        libm::hypot(one.0 - other.0, one.1 - other.1)
    }

    /// Joint on the outside when the one on the inside is given, by turning one rectangle away from the other until it is.
    fn outside_by_turning_m(radius_m: f64, piece_m: f64, width_m: f64, inside_m: f64) -> f64 {
        let one = corners(radius_m, piece_m, width_m, 0.0);
        let next = |turned_rad| corners(radius_m, piece_m, width_m, turned_rad);
        // The joint grows with the turn from where the corners touch.
        let off_m = (radius_m * radius_m - 0.25 * piece_m * piece_m).sqrt() - 0.5 * width_m;
        let (mut low, mut high) = (2.0 * libm::atan2(0.5 * piece_m, off_m), 3.0);
        for _ in 0..200 {
            let middle = 0.5 * (low + high);
            if apart(one[0], next(middle)[2]) < inside_m {
                low = middle;
            } else {
                high = middle;
            }
        }
        apart(one[1], next(low)[3])
    }

    #[test]
    fn slight_curves_follow_the_rules_of_thumb() {
        // W (L + j) ÷ r: 4 x 8 1/8 in ÷ (3/16 - 1/16) in = 260 in. L² ÷ (8 b): 64 ÷ (8 x 1/16) = 128 in. On so slight a curve within 1 %.
        let least_in = least_course_radius_m(&wishes(), 8.0 * 0.0254, 0.125 * 0.0254) / 0.0254;
        assert!((least_in / 260.0 - 1.0).abs() < 0.01, "{least_in} in");
        let by_bow_in = by_bow_m(8.0, 1.0 / 16.0);
        assert!((by_bow_in / 128.0 - 1.0).abs() < 0.001, "{by_bow_in} in");
        // 12 courses of 4 in and joints of 1/8 in: the innermost lies 22.6875 in from the centreline.
        let radii = LeastRadii::of(&wishes(), inches(49.625), inches(0.125));
        let whole_in = in_metres(radii.whole) / 0.0254;
        assert!(
            (whole_in - least_in - 22.6875).abs() < 1e-9,
            "{whole_in} in"
        );
        assert!(radii.halves < radii.whole);
    }

    #[test]
    fn no_play_no_curve() {
        let wishes = LayWishes {
            least_joint: wishes().joint,
            ..wishes()
        };
        let radii = LeastRadii::of(&wishes, inches(49.625), inches(0.125));
        assert!(in_metres(radii.whole).is_infinite());
    }

    proptest! {
        /// At the least radius the outside is at its limit when the inside is; a little tighter is too tight.
        #[test]
        fn least_radius_is_where_the_joint_is_used_up(piece_m in 0.06..0.3_f64, width_m in 0.04..0.15_f64, least_m in 0.001..0.004_f64, play_m in 0.001..0.02_f64) {
            let radius_m = by_opening_m(piece_m, width_m, least_m, least_m + play_m);
            let outside_m = outside_by_turning_m(radius_m, piece_m, width_m, least_m);
            prop_assert!((outside_m - least_m - play_m).abs() < 1e-9, "{outside_m} m");
            prop_assert!(outside_by_turning_m(radius_m * 0.99, piece_m, width_m, least_m) > least_m + play_m);
        }

        #[test]
        fn bow_is_the_play_at_the_least_radius(piece_m in 0.06..0.3_f64, play_m in 0.0005..0.01_f64) {
            let radius_m = by_bow_m(piece_m, play_m);
            let by_corner_m = radius_m - (radius_m * radius_m - 0.25 * piece_m * piece_m).sqrt();
            prop_assert!((by_corner_m - play_m).abs() < 1e-12);
            prop_assert!((bow_m(radius_m, piece_m) - play_m).abs() < 1e-12);
        }

        /// Down to the least radius the joint on the inside keeps the outside within the limit, and is the one asked for where it can be.
        #[test]
        fn tight_joint_uses_the_limits(part in 1.0..4.0_f64) {
            let wishes = wishes();
            let (piece_m, width_m) = (in_metres(wishes.brick_length), in_metres(wishes.brick_width));
            let radius_m = part * by_opening_m(piece_m, width_m, in_metres(wishes.least_joint), in_metres(wishes.widest_joint));
            let inside_m = tight_joint_m(&wishes, radius_m, piece_m, width_m);
            let outside_m = outside_by_turning_m(radius_m, piece_m, width_m, inside_m);
            prop_assert!(inside_m >= in_metres(wishes.least_joint) - 1e-12);
            prop_assert!(outside_m <= in_metres(wishes.widest_joint) + 1e-9, "{outside_m} m");
            let is_asked_for = (inside_m - in_metres(wishes.joint)).abs() < 1e-12;
            prop_assert!(is_asked_for || (outside_m - in_metres(wishes.widest_joint)).abs() < 1e-9);
        }
    }
}
