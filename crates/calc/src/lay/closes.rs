//! Whether a brick is modular, which bonds close with it, and the gap that each leaves.

use super::wishes::JointLimits;
use crate::quantity::{Length, metres};
use crate::site::Bond;

/// Whether two widths and a joint make the length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Modular {
    /// The joint at which they do: L − 2 W. Negative where two widths alone are longer.
    pub joint: Length,
    /// Whether that joint is within the limits.
    pub is_modular: bool,
    /// L − (2 W + j) at the joint that is aimed at: positive where two widths and the joint are too short.
    pub off: Length,
}

/// Whether a bond closes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BondCloses {
    /// Which.
    pub bond: Bond,
    /// Whether it does within the joint limits.
    pub closes: bool,
    /// How far a joint of each unit of the pattern is off the one that is aimed at: positive opens. Zero where the pattern asks nothing.
    pub gap: Length,
}

impl Modular {
    /// Of a brick of that face, at that joint, with joints within those limits.
    ///
    /// # Source
    /// L + j = 2 (W + j): Beall, Masonry and Concrete (2004), p. 301, by geometry.
    #[must_use]
    pub fn of(length: Length, width: Length, joint: Length, limits: JointLimits) -> Self {
        let closing = length - width * 2.0;
        Self {
            joint: closing,
            is_modular: limits.allow(closing),
            off: closing - joint,
        }
    }
}

/// All bonds with a brick of that face. Running and stack bond ask nothing of it; basket weave and herringbone ask for L = 2 W + j.
pub(super) fn bonds(
    length: Length,
    width: Length,
    joint: Length,
    limits: JointLimits,
) -> Vec<BondCloses> {
    let modular = Modular::of(length, width, joint, limits);
    Bond::ALL
        .into_iter()
        .map(|bond| match bond {
            Bond::Running | Bond::Stack => BondCloses {
                bond,
                closes: true,
                gap: metres(0.0),
            },
            Bond::BasketTwoOnTwo
            | Bond::BasketTwoOnOne
            | Bond::Herringbone90
            | Bond::Herringbone45 => BondCloses {
                bond,
                closes: modular.is_modular,
                gap: modular.off,
            },
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{in_metres, inches};

    #[track_caller]
    fn check(length_in: f64, width_in: f64, joint_in: f64, off_in: f64, is_modular: bool) {
        let limits = JointLimits {
            least: inches(1.0 / 16.0),
            widest: inches(3.0 / 16.0),
        };
        let modular = Modular::of(
            inches(length_in),
            inches(width_in),
            inches(joint_in),
            limits,
        );
        assert!(
            (in_metres(modular.off) - off_in * 0.0254).abs() < 1e-12,
            "{modular:?}"
        );
        assert_eq!(modular.is_modular, is_modular, "{modular:?}");
    }

    #[test]
    fn two_widths_and_a_joint_make_the_length() {
        // Row B22 (Beall, Masonry and Concrete, 2004, p. 301): 3 3/4 x 7 5/8 with 1/8 works; 4 x 8 with 1/8 is off by 1/8 per unit.
        check(7.625, 3.75, 0.125, 0.0, true);
        check(8.0, 4.0, 0.125, -0.125, false);
        // Row B26: a tight-laid unit must be true 4 x 8; one for 3/8 in joints, 7 5/8 x 3 5/8, gapes 3/8 in when tight.
        check(8.0, 4.0, 0.0, 0.0, false);
        check(7.625, 3.625, 0.0, 0.375, false);
    }

    #[test]
    fn running_and_stack_bond_ask_nothing() {
        let limits = JointLimits {
            least: inches(0.0),
            widest: inches(0.25),
        };
        let found = bonds(inches(8.0), inches(3.625), inches(0.125), limits);
        let closing: Vec<Bond> = found
            .iter()
            .filter(|bond| bond.closes)
            .map(|bond| bond.bond)
            .collect();
        assert_eq!(closing, [Bond::Running, Bond::Stack]);
        // 8 − (2 × 3 5/8 + 1/8) = 5/8 in.
        assert!((in_metres(found[2].gap) - 0.625 * 0.0254).abs() < 1e-12);
    }
}
