//! From readings to levels: by string and tape, and by rod from one set-up of a level.
//!
//! A drop is measured down from the datum, positive below it; a level is measured up, positive above it.

use crate::quantity::Length;

/// Drop of a point below the datum, from the tape reading down to it and the height of the string above the datum (negative
/// for a string below the datum).
///
/// A string 2 in above the sill and 5 1/2 in on the tape: the point is 3 1/2 in below the sill.
#[must_use]
pub fn drop_by_string(tape: Length, string_above_datum: Length) -> Length {
    tape - string_above_datum
}

/// Drop of a point below the datum, from rod readings on both in one set-up. A rod held upside down reads negative.
#[must_use]
pub fn drop_by_rod(rod_at_point: Length, rod_at_datum: Length) -> Length {
    rod_at_point - rod_at_datum
}

/// The level of the line of sight of one set-up.
///
/// # Source
/// Height of collimation: level of a known point plus the rod reading on it (any text on levelling).
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct HeightOfCollimation(Length);

impl HeightOfCollimation {
    /// From a point whose level is known and the rod reading on it, the backsight.
    #[must_use]
    pub fn from_backsight(known_level: Length, backsight: Length) -> Self {
        Self(known_level + backsight)
    }

    /// Level of the line of sight.
    #[must_use]
    pub const fn level(self) -> Length {
        self.0
    }

    /// Level of the point that the rod stands on.
    #[must_use]
    pub fn level_by_rod(self, rod: Length) -> Length {
        self.0 - rod
    }

    /// What the rod must read where it stands on a given level: for setting out.
    #[must_use]
    pub fn rod_for(self, level: Length) -> Length {
        self.0 - level
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{in_metres, inches, metres, unit::foot};

    #[track_caller]
    fn near(got: Length, expected: Length, tolerance: Length) {
        assert!(
            (got - expected).abs() <= tolerance,
            "{} m for {} m",
            in_metres(got),
            in_metres(expected)
        );
    }

    #[test]
    fn a_string_above_the_datum_is_taken_off_the_tape() {
        near(
            drop_by_string(inches(5.5), inches(2.0)),
            inches(3.5),
            inches(1e-12),
        );
        near(
            drop_by_string(inches(5.5), inches(-2.0)),
            inches(7.5),
            inches(1e-12),
        ); // string under the datum
        near(
            drop_by_string(inches(1.0), inches(2.0)),
            inches(-1.0),
            inches(1e-12),
        ); // point above the datum
    }

    /// check-values L3: one set-up in feet; BM 820.00, BS 8.42, FS 1.20 gives HI 828.42 and elevation 827.22.
    #[test]
    fn one_set_up() {
        let ft = Length::new::<foot>;
        let sight = HeightOfCollimation::from_backsight(ft(820.0), ft(8.42));
        near(sight.level(), ft(828.42), ft(0.005));
        near(sight.level_by_rod(ft(1.20)), ft(827.22), ft(0.005));
        near(sight.rod_for(ft(827.22)), ft(1.20), ft(0.005));
        // The point is 7.22 ft above the bench mark.
        near(drop_by_rod(ft(1.20), ft(8.42)), ft(-7.22), ft(0.005));
    }

    /// check-values L1 (NPTEL, module 4, example 13-1): eight set-ups one after the other, from a bench mark at 150.485 m.
    #[test]
    fn set_ups_one_after_the_other() {
        let mut level = metres(150.485);
        for (backsight, foresight, reduced) in [
            (1.205, 1.860, 149.830),
            (0.125, 1.915, 148.040),
            (0.395, 2.615, 145.820),
            (0.880, 1.760, 144.940),
            (1.960, 0.920, 145.980),
            (2.595, 0.915, 147.660),
            (2.255, 0.515, 149.400),
            (2.305, 1.170, 150.535),
        ] {
            let sight = HeightOfCollimation::from_backsight(level, metres(backsight));
            let next = sight.level_by_rod(metres(foresight));
            near(
                level - next,
                drop_by_rod(metres(foresight), metres(backsight)),
                metres(1e-9),
            );
            near(next, metres(reduced), metres(0.0005));
            level = next;
        }
    }

    /// check-values L4: a staff held upside down under a soffit reads negative. HI 185.205 + 1.355, through the first change
    /// point at 185.195, then -1.385 on the staff.
    #[test]
    fn an_inverted_staff_reads_negative() {
        let first = HeightOfCollimation::from_backsight(metres(185.205), metres(1.355));
        near(
            first.level_by_rod(metres(0.685)),
            metres(185.875),
            metres(0.0005),
        );
        let change_point = first.level_by_rod(metres(1.365));
        near(change_point, metres(185.195), metres(0.0005));
        let second = HeightOfCollimation::from_backsight(change_point, metres(2.015));
        near(
            second.level_by_rod(metres(1.355)),
            metres(185.855),
            metres(0.0005),
        );
        near(
            second.level_by_rod(metres(-1.385)),
            metres(188.595),
            metres(0.0005),
        );
    }
}
