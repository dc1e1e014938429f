//! Straights and arcs in plan, exactly.

/// A spot of the centreline in plan and the way it heads there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pose {
    /// To the right of the middle of the door.
    right_m: f64,
    /// Away from the door.
    away_m: f64,
    /// Turned from straight ahead, positive to the right.
    heading_rad: f64,
}

impl Pose {
    /// The middle of the door, looking away from it.
    pub const AT_THE_DOOR: Self = Self {
        right_m: 0.0,
        away_m: 0.0,
        heading_rad: 0.0,
    };

    /// Further along by `along_m` on a path of constant curvature. The chord of an arc lies along its middle heading, so that
    /// one formula serves for curves and, as the limit, for straights.
    pub fn moved(self, along_m: f64, curvature_per_m: f64) -> Self {
        let half_turn_rad = 0.5 * curvature_per_m * along_m;
        let chord_m = if half_turn_rad == 0.0 {
            along_m
        } else {
            along_m * libm::sin(half_turn_rad) / half_turn_rad
        };
        let (sin, cos) = libm::sincos(self.heading_rad + half_turn_rad);
        Self {
            right_m: self.right_m + chord_m * sin,
            away_m: self.away_m + chord_m * cos,
            heading_rad: self.heading_rad + 2.0 * half_turn_rad,
        }
    }

    /// The heading, turned from straight ahead, positive to the right.
    pub const fn heading_rad(self) -> f64 {
        self.heading_rad
    }

    /// The spot square to the path by `offset_m`, right positive: (right, away).
    pub fn beside(self, offset_m: f64) -> (f64, f64) {
        let (sin, cos) = libm::sincos(self.heading_rad);
        (self.right_m + offset_m * cos, self.away_m - offset_m * sin)
    }
}

/// Length of a line whose offset from a path of constant curvature changes evenly from `from_m` to `to_m` (right positive) while
/// the path goes on by `along_m`.
///
/// With d the offset and u = 1 − k d, the length is ∫ √(u² + d′²) ds. As u is linear in s this is a difference of
/// F(u) = ½ (u √(u² + d′²) + d′² asinh(u ÷ d′)), divided by k d′. Where u hardly changes that difference would lose figures, and five
/// Gauss points are exact to rounding instead.
pub(crate) fn offset_line_length_m(
    along_m: f64,
    curvature_per_m: f64,
    from_m: f64,
    to_m: f64,
) -> f64 {
    let widening = (to_m - from_m) / along_m;
    let (u_from, u_to) = (1.0 - curvature_per_m * from_m, 1.0 - curvature_per_m * to_m);
    if widening == 0.0 {
        return along_m * u_from.abs();
    }
    if (u_to - u_from).abs() <= 1e-2 * u_from.abs().max(u_to.abs()) {
        return along_m * mean_speed_by_gauss(u_from, u_to, widening);
    }
    let antiderivative = |u: f64| {
        0.5 * (u * libm::hypot(u, widening) + widening * widening * libm::asinh(u / widening.abs()))
    };
    along_m * (antiderivative(u_to) - antiderivative(u_from)) / (u_to - u_from)
}

/// Mean of √(u² + d′²) while u goes evenly from one value to the other, by the five-point rule of Gauss and Legendre.
fn mean_speed_by_gauss(u_from: f64, u_to: f64, widening: f64) -> f64 {
    let root = 2.0 * (10.0_f64 / 7.0).sqrt();
    let (inner, outer) = ((5.0 - root).sqrt() / 3.0, (5.0 + root).sqrt() / 3.0);
    let (inner_weight, outer_weight) = (
        (322.0 + 13.0 * 70.0_f64.sqrt()) / 900.0,
        (322.0 - 13.0 * 70.0_f64.sqrt()) / 900.0,
    );
    let (middle, half) = (0.5 * (u_from + u_to), 0.5 * (u_to - u_from));
    let speed = |spot: f64| libm::hypot(middle + half * spot, widening);
    0.5 * (128.0 / 225.0 * speed(0.0)
        + inner_weight * (speed(inner) + speed(-inner))
        + outer_weight * (speed(outer) + speed(-outer)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use gauss_quad::GaussLegendre;
    use std::f64::consts::{FRAC_PI_2, PI};

    #[track_caller]
    fn check(pose: Pose, right_m: f64, away_m: f64, heading_rad: f64) {
        assert!(
            (pose.right_m - right_m).abs() < 1e-12,
            "right {} m",
            pose.right_m
        );
        assert!(
            (pose.away_m - away_m).abs() < 1e-12,
            "away {} m",
            pose.away_m
        );
        assert!(
            (pose.heading_rad - heading_rad).abs() < 1e-12,
            "heading {} rad",
            pose.heading_rad
        );
    }

    #[test]
    fn arcs_end_where_the_circle_says() {
        // A quarter circle of radius 3 m to the right ends 3 m to the right, 3 m away, heading right.
        check(
            Pose::AT_THE_DOOR.moved(3.0 * FRAC_PI_2, 1.0 / 3.0),
            3.0,
            3.0,
            FRAC_PI_2,
        );
        // To the left the same, mirrored.
        check(
            Pose::AT_THE_DOOR.moved(3.0 * FRAC_PI_2, -1.0 / 3.0),
            -3.0,
            3.0,
            -FRAC_PI_2,
        );
        // A half circle comes back to the wall, two radii to the right.
        check(Pose::AT_THE_DOOR.moved(3.0 * PI, 1.0 / 3.0), 6.0, 0.0, PI);
        // A straight after a quarter turn runs along the wall: 3 + 2 = 5 m to the right.
        check(
            Pose::AT_THE_DOOR
                .moved(3.0 * FRAC_PI_2, 1.0 / 3.0)
                .moved(2.0, 0.0),
            5.0,
            3.0,
            FRAC_PI_2,
        );
    }

    #[test]
    fn offset_line_agrees_with_a_registry_integral() {
        // Numeric integral by the registry library, 40 points; relative tolerance 1e-11.
        let rule = GaussLegendre::new(40.try_into().unwrap());
        for (along_m, curvature_per_m, from_m, to_m) in [
            (10.0, 0.25, -0.6, -0.9),
            (10.0, 0.25, 0.6, 0.9),
            (4.0, -0.5, 0.6, 0.61),
            (4.0, -0.5, -1.5, -0.5),
            (7.0, 1e-6, 0.5, 2.5),
            (7.0, 0.1, 0.5, 0.500_000_1),
        ] {
            let widening: f64 = (to_m - from_m) / along_m;
            let speed =
                |s: f64| libm::hypot(1.0 - curvature_per_m * (from_m + widening * s), widening);
            let expected_m = rule.integrate(0.0, along_m, speed);
            let length_m = offset_line_length_m(along_m, curvature_per_m, from_m, to_m);
            assert!(
                (length_m / expected_m - 1.0).abs() < 1e-11,
                "{length_m} m, expected {expected_m} m"
            );
        }
    }

    #[test]
    fn offset_line_of_a_straight_is_a_hypotenuse() {
        // 4 m along, 3 m across -> 5 m.
        assert!((offset_line_length_m(4.0, 0.0, -1.0, 2.0) - 5.0).abs() < 1e-14);
        // Constant offset on a quarter circle of 3 m: outside by 1 m -> 4 π/2.
        assert!(
            (offset_line_length_m(3.0 * FRAC_PI_2, 1.0 / 3.0, -1.0, -1.0) - 4.0 * FRAC_PI_2).abs()
                < 1e-14
        );
    }
}
