//! Pieces of one length, one after another on an arc: how long they are, and the angle that they take at the centre.

/// A course on an arc.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct Arc {
    /// To the middle line of the course.
    pub radius_m: f64,
    /// Of the course.
    pub width_m: f64,
    /// On the inside; of tapered pieces everywhere.
    pub joint_m: f64,
}

impl Arc {
    /// Angle at the centre from rigid piece to rigid piece, both ends of the middle line on the arc.
    ///
    /// With x half of it and f from the centre to the inner face, the joint is 2 f sin x − L cos x.
    pub(in crate::lay) fn rigid_turn_rad(&self, length_m: f64) -> f64 {
        let half_m = (0.5 * length_m).min(self.radius_m);
        let face_m = (self.radius_m * self.radius_m - half_m * half_m).sqrt() - 0.5 * self.width_m;
        let long_m = libm::hypot(2.0 * face_m, length_m);
        2.0 * (libm::atan2(length_m, 2.0 * face_m) + libm::asin((self.joint_m / long_m).min(1.0)))
    }

    /// The other way about: with L = 2 r sin b the same is 2 r sin (x − b) = j + W sin x.
    pub(in crate::lay) fn rigid_m(&self, turn_rad: f64) -> f64 {
        let half_turn_rad = 0.5 * turn_rad;
        let beside_m = self.joint_m + self.width_m * libm::sin(half_turn_rad);
        let half_piece_rad = half_turn_rad - libm::asin((0.5 * beside_m / self.radius_m).min(1.0));
        2.0 * self.radius_m * libm::sin(half_piece_rad)
    }

    /// Angle at the centre, from joint to joint, of a piece with that outer side, whose ends are parallel to the lines from the centre to
    /// the middle of the joints.
    ///
    /// With 2 t that angle, the outer side is 2 (A sin t − j/2 cos t), A from the centre to its corner.
    pub(in crate::lay) fn tapered_turn_rad(&self, side_m: f64) -> f64 {
        let (corner_m, half_joint_m) = (self.outer_corner_m(), 0.5 * self.joint_m);
        let long_m = libm::hypot(corner_m, half_joint_m);
        2.0 * (libm::asin((0.5 * side_m / long_m).min(1.0)) + libm::atan2(half_joint_m, corner_m))
    }

    /// The other way about.
    pub(in crate::lay) fn tapered_m(&self, turn_rad: f64) -> f64 {
        let (sin, cos) = libm::sincos(0.5 * turn_rad);
        2.0 * (self.outer_corner_m() * sin - 0.5 * self.joint_m * cos)
    }

    /// Along the middle line, from end to end of a tapered piece with that outer side.
    pub(in crate::lay) fn tapered_chord_m(&self, side_m: f64) -> f64 {
        let half_turn_rad = 0.5 * self.tapered_turn_rad(side_m);
        2.0 * self.radius_m * (half_turn_rad - self.half_joint_rad())
    }

    /// Half of a constant joint, as an angle at the centre, where the middle line crosses it.
    pub(in crate::lay) fn half_joint_rad(&self) -> f64 {
        libm::asin((0.5 * self.joint_m / self.radius_m).min(1.0))
    }

    /// From the line through the centre to the middle of a joint, measured along it, to the outer corner beside that joint.
    fn outer_corner_m(&self) -> f64 {
        let half_joint_m = 0.5 * self.joint_m;
        (self.radius_m * self.radius_m - half_joint_m * half_joint_m)
            .max(0.0)
            .sqrt()
            + 0.5 * self.width_m
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_and_angles_are_each_other_turned_about() {
        for radius_m in [0.3, 1.0, 3.0, 100.0] {
            let arc = Arc {
                radius_m,
                width_m: 0.1,
                joint_m: 0.003,
            };
            for length_m in [0.05, 0.1, 0.2] {
                let rigid_m = arc.rigid_m(arc.rigid_turn_rad(length_m));
                let tapered_m = arc.tapered_m(arc.tapered_turn_rad(length_m));
                assert!((rigid_m - length_m).abs() < 1e-13, "{rigid_m} m");
                assert!((tapered_m - length_m).abs() < 1e-13, "{tapered_m} m");
            }
        }
    }
}
