//! How many bricks a square metre takes, and whether there are enough.

use crate::quantity::{Length, in_metres};

/// Bricks of that face and joint in a square metre, laid without an end: 1 ÷ ((L + j) (W + j)). Zero for a face without area.
#[must_use]
pub fn coverage_per_m2(length: Length, width: Length, joint: Length) -> f64 {
    let pitch_m2 = in_metres(length + joint) * in_metres(width + joint);
    if pitch_m2 > 0.0 { 1.0 / pitch_m2 } else { 0.0 }
}

/// Share of the area that is joint, from 0 to 1: 1 − L W ÷ ((L + j) (W + j)).
#[must_use]
pub fn joint_share(length: Length, width: Length, joint: Length) -> f64 {
    1.0 - coverage_per_m2(length, width, joint) * in_metres(length) * in_metres(width)
}

/// Whole brick that is there, against what is needed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Salvage {
    /// Whole bricks that are there.
    pub n_whole: u32,
    /// Whether they were counted; else they follow from the loss.
    pub is_counted: bool,
    /// What is left over; negative is what must be bought.
    pub over: i64,
}

/// Whole brick over or short. What was counted goes before what the loss leaves of the lifted brick, rounded down. `None` where
/// neither is known. `loss_percent` outside 0 to 100 is taken as the nearer of them.
#[must_use]
pub fn salvage(
    needed: u32,
    lifted: Option<u32>,
    counted: Option<u32>,
    loss_percent: Option<f64>,
) -> Option<Salvage> {
    let (n_whole, is_counted) = match (counted, lifted, loss_percent) {
        (Some(counted), _, _) => (counted, true),
        (None, Some(lifted), Some(loss_percent)) => (left_of(lifted, loss_percent), false),
        (None, _, _) => return None,
    };
    Some(Salvage {
        n_whole,
        is_counted,
        over: i64::from(n_whole) - i64::from(needed),
    })
}

fn left_of(lifted: u32, loss_percent: f64) -> u32 {
    // A millionth of a brick is rounding: 10 % of 1,000 leaves 900.
    let left = f64::from(lifted) * (100.0 - loss_percent.clamp(0.0, 100.0)) / 100.0 + 1e-6;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between zero and a count of u32; NaN gives zero"
    )]
    let whole = left.floor() as u32;
    whole.min(lifted)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{inches, millimetres};

    /// Square feet in a square metre: 0.3048², exact.
    const SQUARE_FOOT_M2: f64 = 0.3048 * 0.3048;

    #[track_caller]
    fn per_square_foot(length_in: f64, width_in: f64, joint_in: f64, expected: f64) {
        let got =
            coverage_per_m2(inches(length_in), inches(width_in), inches(joint_in)) * SQUARE_FOOT_M2;
        assert!((got - expected).abs() < 1e-3, "{got}, expected {expected}");
    }

    #[test]
    fn bricks_in_a_square_foot() {
        // Rows B11 to B18 (tables of the kind of BIA Technical Notes 10 and 14, from memory), and B24's sizes by hand: 144 in² ÷ face.
        per_square_foot(8.0, 4.0, 0.0, 4.5);
        per_square_foot(8.0, 4.0, 1.0 / 16.0, 4.3964);
        per_square_foot(8.0, 4.0, 1.0 / 8.0, 4.2965);
        per_square_foot(8.0, 4.0, 3.0 / 16.0, 4.2001);
        per_square_foot(7.625, 3.625, 0.375, 4.5);
        per_square_foot(7.625, 3.625, 0.0, 5.2097);
        per_square_foot(7.5, 3.75, 0.0, 5.12);
        per_square_foot(8.0, 8.0 / 3.0, 0.0, 6.75);
        per_square_foot(7.5, 3.5, 0.0, 144.0 / 26.25);
        per_square_foot(7.625, 7.625, 0.0, 144.0 / 58.140_625);
        per_square_foot(8.0, 8.0, 0.0, 2.25);
    }

    #[test]
    fn a_rule_of_thumb_is_not_exceeded() {
        // Row B25 (Beall, Masonry and Concrete, 2004, p. 140): 4 1/2 with mortar, 5 1/2 tight, wall 7; the book rounds up.
        for (length_in, width_in, joint_in, most) in [
            (7.625, 3.625, 0.375, 4.5),
            (7.625, 3.625, 0.0, 5.5),
            (8.0, 8.0 / 3.0, 0.0, 7.0),
        ] {
            let got = coverage_per_m2(inches(length_in), inches(width_in), inches(joint_in))
                * SQUARE_FOOT_M2;
            assert!(got <= most + 1e-9, "{got} above {most}");
        }
    }

    #[test]
    fn bricks_in_a_square_metre() {
        // Row B19: 200 x 100 mm with 0, 2 and 3 mm.
        for (joint, expected) in [(0.0, 50.0), (2.0, 48.534), (3.0, 47.826)] {
            let got = coverage_per_m2(millimetres(200.0), millimetres(100.0), millimetres(joint));
            assert!((got - expected).abs() < 1e-3, "{got}");
        }
    }

    #[test]
    fn share_of_the_joint() {
        // Row B20: 4 x 8 in with 1/16 and 1/8 in: 2.302 % and 4.522 %.
        for (joint_in, percent) in [(1.0 / 16.0, 2.302), (1.0 / 8.0, 4.522), (0.0, 0.0)] {
            let got = joint_share(inches(8.0), inches(4.0), inches(joint_in)) * 100.0;
            assert!((got - percent).abs() < 1e-3, "{got}");
        }
    }

    #[test]
    fn areas_of_two_articles() {
        // Row B21 (doityourself.com): 10 x 20 ft of 4 x 8 in take 900, with 5 % 945. Row B27 (hunker.com/13401159): 10 x 12 ft, 540.
        let per_ft2 = coverage_per_m2(inches(8.0), inches(4.0), inches(0.0)) * SQUARE_FOOT_M2;
        assert!((200.0 * per_ft2 - 900.0).abs() < 1e-9);
        assert!((200.0 * per_ft2 * 1.05 - 945.0).abs() < 1e-9);
        assert!((120.0 * per_ft2 - 540.0).abs() < 1e-9);
    }

    #[test]
    fn counted_goes_before_loss() {
        let found = |n_whole, is_counted, over| {
            Some(Salvage {
                n_whole,
                is_counted,
                over,
            })
        };
        // 1,000 lifted less 10 % leave 900: 45 short of 945.
        assert_eq!(
            salvage(945, Some(1000), None, Some(10.0)),
            found(900, false, -45)
        );
        // 333 less a third of a percent: 331.89, and no part of a brick counts.
        assert_eq!(
            salvage(300, Some(333), None, Some(1.0 / 3.0)),
            found(331, false, 31)
        );
        assert_eq!(
            salvage(540, Some(1000), Some(600), Some(10.0)),
            found(600, true, 60)
        );
        assert_eq!(salvage(540, None, Some(0), None), found(0, true, -540));
        assert_eq!(salvage(540, Some(1000), None, None), None);
        assert_eq!(salvage(540, None, None, Some(10.0)), None);
        assert_eq!(
            salvage(0, Some(u32::MAX), None, Some(0.0)),
            found(u32::MAX, false, i64::from(u32::MAX))
        );
        assert_eq!(
            salvage(1, Some(5), None, Some(f64::NAN)),
            found(0, false, -1)
        );
    }
}
