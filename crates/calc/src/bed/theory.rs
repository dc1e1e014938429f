//! The theory of wheels on weak ground, beside the published thickness for information only.

use crate::ground::Cbr;
use crate::quantity::{Length, inches};

/// What the theory asks for under one wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Theory {
    /// Cover over the ground.
    pub thickness: Length,
    /// The strength that it was worked out for.
    pub cbr: Cbr,
    /// The wheel, in words.
    pub wheel: &'static str,
    /// Why it stands outside its range; never empty for a walk.
    pub outside: Vec<&'static str>,
}

/// A laden wheelbarrow.
const WHEEL: Wheel = Wheel {
    load_lb: 500.0,
    pressure_psi: 50.0,
};

/// A wheel that passes.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Wheel {
    load_lb: f64,
    pressure_psi: f64,
}

/// Coverages that the wheel makes: then the multiplier is about 1.
const COVERAGES: f64 = 5000.0;

/// Above this the relation was never drawn up.
const MOST_CBR: f64 = 12.0;

/// Cover over ground of that strength under a laden wheelbarrow, with what makes it no more than information.
///
/// # Source
/// US Army Corps of Engineers, CBR equation; form and multiplier from memory.
pub(super) fn theory(cbr: Cbr) -> Theory {
    let mut outside = vec!["drawn up for aircraft wheels, far heavier than any on a walk"];
    if cbr.percent() > MOST_CBR {
        outside.push("drawn up for CBR up to about 12");
    }
    let cover_in = cover_in(WHEEL, cbr.percent());
    if cover_in.is_none() {
        outside.push("the ground carries the wheel by itself: no root, taken as nothing");
    }
    Theory {
        thickness: inches(cover_in.unwrap_or(0.0) * multiplier(COVERAGES)),
        cbr,
        wheel: "one wheel of 500 lb at 50 psi",
        outside,
    }
}

/// √(P ÷ 8.1 CBR − A ÷ π) in inches, A = P ÷ p the contact area; `None` where the root has nothing under it.
fn cover_in(wheel: Wheel, cbr_percent: f64) -> Option<f64> {
    let area_in2 = wheel.load_lb / wheel.pressure_psi;
    let under = wheel.load_lb / (8.1 * cbr_percent) - area_in2 / std::f64::consts::PI;
    (under >= 0.0).then(|| libm::sqrt(under))
}

/// 0.23 log C + 0.15 for C coverages.
fn multiplier(coverages: f64) -> f64 {
    0.23 * libm::log10(coverages) + 0.15
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::{Relation, strength};
    use crate::quantity::{in_metres, millimetres};
    use crate::site::DrivenInto;
    use proptest::prelude::*;

    const fn wheel(load_lb: f64, pressure_psi: f64) -> Wheel {
        Wheel {
            load_lb,
            pressure_psi,
        }
    }

    #[track_caller]
    fn check(wheel: Wheel, cbr: f64, expected_in: f64) {
        let cover = cover_in(wheel, cbr).unwrap();
        assert!((cover - expected_in).abs() < 0.01, "{cover}");
    }

    /// Check values T1 to T9: arithmetic from the equation, no worked example was published.
    #[test]
    fn cover_is_what_the_equation_gives() {
        check(wheel(10_000.0, 100.0), 3.0, 19.486);
        check(wheel(10_000.0, 100.0), 5.0, 14.666);
        check(wheel(10_000.0, 100.0), 10.0, 9.572);
        check(wheel(9000.0, 80.0), 4.0, 15.555);
        check(wheel(5000.0, 50.0), 5.0, 9.572);
        check(wheel(1000.0, 50.0), 3.0, 5.898);
        check(wheel(1000.0, 50.0), 5.0, 4.281);
        check(wheel(2000.0, 60.0), 3.0, 8.467);
        check(wheel(500.0, 50.0), 3.0, 4.170);
    }

    /// Check values U5 and U6, by a units library: pounds of force over pounds per square inch are square inches, row T9's 500 ÷ 50.
    #[test]
    fn the_contact_area_is_in_square_inches() {
        use uom::si::f64::{Force, Pressure};
        use uom::si::{area::square_inch, force, pressure};

        let load = Force::new::<force::pound_force>(500.0);
        let tyre = Pressure::new::<pressure::psi>(50.0);
        assert!((load.get::<force::newton>() / 500.0 - 4.448_221_615_260_5).abs() < 1e-6);
        assert!((tyre.get::<pressure::kilopascal>() / 50.0 - 6.894_757_293_168).abs() < 1e-6);
        let area_in2 = (load / tyre).get::<square_inch>();
        assert!((area_in2 - 10.0).abs() < 1e-5, "{area_in2}");
        let bare = (500.0 / (8.1 * 3.0) - area_in2 / std::f64::consts::PI).sqrt();
        let found = cover_in(wheel(500.0, 50.0), 3.0).unwrap();
        assert!((found - bare).abs() < 1e-5, "{found} not {bare}");
    }

    /// Check value T10, from memory.
    #[test]
    fn coverages_multiply() {
        for (coverages, expected) in [
            (10.0, 0.38),
            (100.0, 0.61),
            (1000.0, 0.84),
            (5000.0, 1.0008),
            (10_000.0, 1.07),
        ] {
            assert!((multiplier(coverages) - expected).abs() < 0.001);
        }
    }

    /// Check value T11: at CBR π p ÷ 8.1 nothing is left, and above it there is no root.
    #[test]
    fn strong_ground_needs_no_cover_and_says_so() {
        for (pressure_psi, limit) in [(50.0, 19.393), (80.0, 31.028), (100.0, 38.785)] {
            let wheel = wheel(1000.0, pressure_psi);
            assert!(cover_in(wheel, limit - 0.001).unwrap() < 0.05);
            assert_eq!(cover_in(wheel, limit + 0.001), None);
        }
        let strong = strength(millimetres(5.0), DrivenInto::AnySoil).unwrap().cbr;
        let theory = theory(strong);
        assert!(in_metres(theory.thickness).abs() < 1e-12);
        assert_eq!(theory.outside.len(), 3, "{theory:?}");
    }

    #[test]
    fn theory_is_never_without_its_warning() {
        let weak = Relation::General.cbr(millimetres(59.60)).unwrap(); // CBR 3, check value D15
        let theory = theory(weak);
        assert!((in_metres(theory.thickness) / 0.0254 - 4.170 * 1.0008).abs() < 0.01);
        assert_eq!(theory.outside.len(), 1);
    }

    proptest! {
        /// Check value T12: load and area times k², cover times k.
        #[test]
        fn twice_as_wide_is_four_times_as_heavy(k in 0.2..5.0_f64, cbr in 1.0..15.0_f64) {
            let small = cover_in(wheel(1000.0, 50.0), cbr).unwrap();
            let large = cover_in(wheel(1000.0 * k * k, 50.0), cbr).unwrap();
            prop_assert!((large - small * k).abs() <= 1e-12 * large);
        }
    }
}
