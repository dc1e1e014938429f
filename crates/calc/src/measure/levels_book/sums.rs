//! The sums at the foot of a page and the three-way check.

use crate::quantity::{Length, in_metres, metres};

/// The sums at the foot of a page, over the set-ups that have a backsight and a foresight.
///
/// # Source
/// Backsights less foresights, rises less falls, and last level less first are one and the same number on a page that was booked
/// and reduced without a slip (any text on levelling; check-values L6).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sums {
    /// Sum of the backsights.
    pub back: Length,
    /// Sum of the foresights.
    pub fore: Length,
    /// Sum of the rises.
    pub rise: Length,
    /// Sum of the falls, positive.
    pub fall: Length,
    /// Last level less first, up positive. Where a page starts anew from a known point, that of each stretch, added up.
    pub last_less_first: Length,
}

impl Sums {
    /// Backsights less foresights.
    #[must_use]
    pub fn back_less_fore(&self) -> Length {
        self.back - self.fore
    }

    /// Rises less falls.
    #[must_use]
    pub fn rise_less_fall(&self) -> Length {
        self.rise - self.fall
    }

    /// Whether all three differences are the same number, to a hundredth of a millimetre. False where one is not a number.
    #[must_use]
    pub fn agree(&self) -> bool {
        const SAME_M: f64 = 1e-5;
        let same = |one: Length, other: Length| in_metres(one - other).abs() <= SAME_M;
        same(self.back_less_fore(), self.rise_less_fall())
            && same(self.rise_less_fall(), self.last_less_first)
    }

    /// The sums of a page as someone booked it: backsights, foresights, steps from sight to sight (up positive), first and last level.
    #[must_use]
    pub fn as_booked(
        back: &[Length],
        fore: &[Length],
        steps: &[Length],
        first_level: Length,
        last_level: Length,
    ) -> Self {
        let mut sums = Self {
            back: back.iter().copied().sum(),
            fore: fore.iter().copied().sum(),
            last_less_first: last_level - first_level,
            ..Self::default()
        };
        for step in steps {
            sums.add_step(*step);
        }
        sums
    }

    /// Takes in one step, up positive, as a rise or a fall.
    pub(super) fn add_step(&mut self, step: Length) {
        if step >= metres(0.0) {
            self.rise += step;
        } else {
            self.fall -= step;
        }
    }
}
