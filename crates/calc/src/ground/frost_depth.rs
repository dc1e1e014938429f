//! How deep frost goes into ground of one kind: by Stefan, and by the modified Berggren formula with the exact root of Neumann.

use crate::quantity::{Length, feet};

/// Ground of one kind and one winter, as plain numbers in the units of the published formulas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Winter {
    /// Dry density, in lb/ft³.
    pub dry_density_pcf: f64,
    /// Water by dry weight, in percent.
    pub water_percent: f64,
    /// Mean of frozen and unfrozen conductivity, in Btu/(h ft °F).
    pub conductivity: f64,
    /// Freezing index of the surface, in °F days.
    pub surface_index: f64,
}

/// What the Berggren formula needs beyond Stefan's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Season {
    /// Length of the freezing season, in days.
    pub days: f64,
    /// Mean annual temperature, in °F.
    pub mean_f: f64,
}

/// A depth by the modified Berggren formula with what it went through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Berggren {
    /// Frost depth below the surface.
    pub depth: Length,
    /// What it takes off Stefan's depth: over 0, at most 1.
    pub lambda: f64,
    /// Fusion parameter.
    pub mu: f64,
    /// Thermal ratio.
    pub alpha: f64,
}

/// Why no frost depth can be computed.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum FrostError {
    /// Not a number above zero.
    #[error("{what}: {value} is not a number above zero")]
    NotPositive {
        /// Which value.
        what: &'static str,
        /// As given.
        value: f64,
    },
    /// The ground is frozen all year.
    #[error(
        "mean temperature: {mean_f} °F is below 32 °F; the formula is for ground that thaws and stays thawed below"
    )]
    AlwaysFrozen {
        /// As given.
        mean_f: f64,
    },
    /// The ground holds so little water that the formula has no root.
    #[error(
        "fusion parameter: {mu} is above {MOST_MU}, the most that can be computed; the ground is too dry for the formula"
    )]
    TooDry {
        /// Fusion parameter.
        mu: f64,
    },
}

/// Freezing point of water, in °F.
const FREEZING_F: f64 = 32.0;

/// Most that the fusion parameter may be: erfc stays far from the smallest number up to there.
const MOST_MU: f64 = 200.0;

/// Latent heat of the water in the ground, in Btu/ft³: 144 × density × water.
///
/// # Errors
/// [`FrostError::NotPositive`]: dry ground gives off no heat as it freezes, and the formulas would divide by zero.
///
/// # Source
/// UFC 3-130-06.
pub fn latent_heat(dry_density_pcf: f64, water_percent: f64) -> Result<f64, FrostError> {
    let density = positive("dry density", dry_density_pcf)?;
    let water = positive("water content", water_percent)?;
    positive("latent heat", 144.0 * density * water / 100.0)
}

/// Volumetric heat capacity, mean of frozen and unfrozen, in Btu/(ft³ °F): density × (0.17 + 0.75 × water).
///
/// # Source
/// UFC 3-130-06.
#[must_use]
pub fn heat_capacity(dry_density_pcf: f64, water_percent: f64) -> f64 {
    dry_density_pcf * (0.17 + 0.75 * water_percent / 100.0)
}

/// Frost depth without the heat that the ground itself gives off: the deeper of the two, √(48 k nF ÷ L) ft.
///
/// # Errors
/// [`FrostError`] for a value that is not a number above zero.
///
/// # Source
/// Stefan's formula in the units of UFC 3-130-06: k in Btu/(h ft °F), nF in °F days, L in Btu/ft³; 48 is 2 × 24 h.
pub fn stefan(winter: &Winter) -> Result<Length, FrostError> {
    let latent = latent_heat(winter.dry_density_pcf, winter.water_percent)?;
    let conductivity = positive("conductivity", winter.conductivity)?;
    let index = positive("freezing index", winter.surface_index)?;
    Ok(feet((48.0 * conductivity * index / latent).sqrt()))
}

/// Frost depth with the heat that the ground gives off while it cools: λ times Stefan's.
///
/// # Errors
/// [`FrostError`] for a value that is not a number above zero, ground that is frozen all year, ground that is all but dry.
///
/// # Source
/// Modified Berggren formula, UFC 3-130-06; λ from Neumann's equation for equal diffusivities and not from the chart.
pub fn modified_berggren(winter: &Winter, season: &Season) -> Result<Berggren, FrostError> {
    let stefan = stefan(winter)?;
    let latent = latent_heat(winter.dry_density_pcf, winter.water_percent)?;
    let days = positive("freezing season", season.days)?;
    let above_freezing_f = season.mean_f - FREEZING_F;
    // NaN is not above zero either.
    if !(above_freezing_f >= 0.0 && above_freezing_f.is_finite()) {
        return Err(FrostError::AlwaysFrozen {
            mean_f: season.mean_f,
        });
    }
    let below_freezing_f = winter.surface_index / days;
    let alpha = above_freezing_f / below_freezing_f;
    let capacity = heat_capacity(winter.dry_density_pcf, winter.water_percent);
    let mu = below_freezing_f * capacity / latent;
    let lambda = neumann_lambda(mu, alpha)?;
    Ok(Berggren {
        depth: stefan * lambda,
        lambda,
        mu,
        alpha,
    })
}

/// λ of the modified Berggren formula: h √(2 ÷ μ), where h is the root of
/// e^(−h²) ÷ erf h − α e^(−h²) ÷ erfc h = √π h ÷ μ.
///
/// The left side falls and the right side grows with h, so that there is one root; it lies at or below √(μ ÷ 2), as λ never
/// passes 1.
///
/// # Errors
/// [`FrostError`] for a fusion parameter that is not above zero or too large, and for a thermal ratio below zero.
///
/// # Source
/// Neumann's solution for frozen and unfrozen ground of equal diffusivity (Carslaw and Jaeger, Conduction of Heat in Solids; from
/// memory), which the chart of Aldrich and Paynter draws.
pub fn neumann_lambda(mu: f64, alpha: f64) -> Result<f64, FrostError> {
    let mu = positive("fusion parameter", mu)?;
    if mu > MOST_MU {
        return Err(FrostError::TooDry { mu });
    }
    if !(alpha >= 0.0 && alpha.is_finite()) {
        return Err(FrostError::NotPositive {
            what: "thermal ratio",
            value: alpha,
        });
    }
    let excess = |h: f64| {
        let bell = libm::exp(-h * h);
        bell / libm::erf(h) - alpha * bell / libm::erfc(h) - std::f64::consts::PI.sqrt() * h / mu
    };
    let most = (mu / 2.0).sqrt();
    let root = falling_root(excess, most);
    Ok((root * (2.0 / mu).sqrt()).min(1.0))
}

/// The root of a function that falls from above zero just past 0 to zero or below at `most`, halved down to the last bit.
fn falling_root(excess: impl Fn(f64) -> f64, most: f64) -> f64 {
    let (mut low, mut high) = (0.0, most);
    loop {
        let middle = low + (high - low) / 2.0;
        if middle <= low || middle >= high {
            return middle;
        }
        if excess(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
}

/// Conductivity of ground, mean of frozen and unfrozen, in Btu/(h ft °F), from density and water.
///
/// # Errors
/// [`FrostError::NotPositive`] for a density or a water content that is none, and for ground so dry that the rule gives none.
///
/// # Source
/// Kersten (1949), as UFC 3-130-06 draws it; the equations are from memory. They give 0.80 and 0.72 for a silt of 100 lb/ft³ with
/// 15 % water, as the charts do; for dense coarse ground they are up to a tenth below them.
pub fn kersten_conductivity(
    dry_density_pcf: f64,
    water_percent: f64,
    is_coarse: bool,
) -> Result<f64, FrostError> {
    let density = positive("dry density", dry_density_pcf)?;
    let water = positive("water content", water_percent)?;
    let ten_to = |exponent: f64| libm::pow(10.0, exponent * density);
    let (frozen, unfrozen) = if is_coarse {
        (
            0.076 * ten_to(0.013) + 0.032 * ten_to(0.0146) * water,
            (0.7 * libm::log10(water) + 0.4) * ten_to(0.01),
        )
    } else {
        (
            0.01 * ten_to(0.022) + 0.085 * ten_to(0.008) * water,
            (0.9 * libm::log10(water) - 0.2) * ten_to(0.01),
        )
    };
    // Kersten's are per inch of thickness.
    positive("unfrozen conductivity", unfrozen)?;
    positive("conductivity", (frozen + unfrozen) / 2.0 / 12.0)
}

fn positive(what: &'static str, value: f64) -> Result<f64, FrostError> {
    if value > 0.0 && value.is_finite() {
        Ok(value)
    } else {
        Err(FrostError::NotPositive { what, value })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::in_metres;
    use gauss_quad::GaussLegendre;
    use proptest::prelude::*;

    #[track_caller]
    fn near(value: f64, expected: f64, tolerance: f64) {
        assert!(
            (value - expected).abs() <= tolerance,
            "{value} instead of {expected}"
        );
    }

    /// The homogeneous example of TM 5-852-6 and UFC 3-130-06, row Z10; its numbers are from memory.
    const EXAMPLE: Winter = Winter {
        dry_density_pcf: 100.0,
        water_percent: 15.0,
        conductivity: 0.76,
        surface_index: 2500.0,
    };
    const EXAMPLE_SEASON: Season = Season {
        days: 160.0,
        mean_f: 37.2,
    };

    /// Row Z9: arithmetic of the stated formulas, 144 × 100 × 0.15 and 100 (0.17 + 0.75 × 0.15).
    #[test]
    fn heat_of_moist_ground() {
        near(latent_heat(100.0, 15.0).unwrap(), 2160.0, 0.01);
        near(heat_capacity(100.0, 15.0), 28.25, 0.01);
    }

    /// Row Z11: √(48 × 0.76 × 2500 ÷ 2160) = 6.498 ft.
    #[test]
    fn stefan_depth_of_the_manual_example() {
        let depth = stefan(&EXAMPLE).unwrap();
        near(in_metres(depth) / 0.3048, 6.498, 0.001);
        near(in_metres(depth), 1.9805, 0.001);
    }

    /// Rows Z10, Z12, Z13: the manual's parameters and its 5.8 ft; the exact root as computed with mpmath; the short closed form
    /// 1 ÷ √(1 + μ (α + ½)), which is 3 % deep and not what is computed.
    #[test]
    fn berggren_depth_of_the_manual_example() {
        let found = modified_berggren(&EXAMPLE, &EXAMPLE_SEASON).unwrap();
        near(EXAMPLE.surface_index / EXAMPLE_SEASON.days, 15.6, 0.05); // vs = 2500 ÷ 160
        near(found.alpha, 0.333, 0.0005);
        near(found.mu, 0.204, 0.0005);
        near(found.lambda, 0.89, 0.01); // read from the chart
        near(in_metres(found.depth) / 0.3048, 5.8, 0.1);
        near(found.lambda, 0.8956, 0.0001);
        near(in_metres(found.depth) / 0.3048, 5.82, 0.01);
        let closed_form = 1.0 / (1.0 + found.mu * (found.alpha + 0.5)).sqrt();
        near(closed_form, 0.9244, 0.001);
        assert!(closed_form - found.lambda > 0.02);
    }

    /// Row Z14: roots computed with mpmath at fifty figures, told to three.
    #[test]
    fn lambda_is_the_root_that_another_program_finds() {
        for (mu, alpha, lambda) in [
            (0.05, 0.0, 0.992),
            (0.05, 1.0, 0.895),
            (0.1, 0.5, 0.911),
            (0.1, 1.0, 0.846),
            (0.2, 0.0, 0.969),
            (0.2, 0.5, 0.864),
            (0.2, 1.0, 0.776),
            (0.2, 2.0, 0.639),
            (0.4, 0.5, 0.795),
            (0.4, 1.0, 0.684),
            (1.0, 0.0, 0.877),
            (1.0, 1.0, 0.534),
        ] {
            near(neumann_lambda(mu, alpha).unwrap(), lambda, 0.000_6);
        }
    }

    /// erf by an integral of its own, ∫ 2 ÷ √π e^(−t²) dt from 0 to h, and the equation met by what the bisection found; and a
    /// second search for the root, by secants on the equation cleared of its fractions.
    #[test]
    fn lambda_meets_the_equation_by_another_error_function() {
        let rule = GaussLegendre::new(60.try_into().unwrap());
        let erf = |h: f64| {
            rule.integrate(0.0, h, |t: f64| {
                2.0 / std::f64::consts::PI.sqrt() * libm::exp(-t * t)
            })
        };
        for mu in [0.02, 0.1, 0.204, 0.5, 1.0, 3.0] {
            for alpha in [0.0, 0.1, 0.333, 1.0, 3.0, 8.0] {
                let cleared = |h: f64| {
                    let (erf, bell) = (erf(h), libm::exp(-h * h));
                    bell * (1.0 - erf)
                        - alpha * bell * erf
                        - std::f64::consts::PI.sqrt() * h / mu * erf * (1.0 - erf)
                };
                let (mut before, mut now) = (1e-3, (mu / 2.0_f64).sqrt() * 0.5);
                for _ in 0..80 {
                    let (at_before, at_now) = (cleared(before), cleared(now));
                    if (at_now - at_before).abs() < 1e-300 || (now - before).abs() < 1e-15 {
                        break;
                    }
                    let next = now - at_now * (now - before) / (at_now - at_before);
                    (before, now) = (now, next.clamp(1e-9, (mu / 2.0_f64).sqrt()));
                }
                let lambda = neumann_lambda(mu, alpha).unwrap();
                near(lambda, now * (2.0 / mu).sqrt(), 1e-9);
            }
        }
    }

    /// Without heat from below (α = 0) it is the one-phase problem, √π h e^(h²) erf h = Stefan number: h = 0.6201 at 1 (a
    /// textbook's figure, from memory).
    #[test]
    fn one_phase_root_is_the_textbook_one() {
        let lambda = neumann_lambda(1.0, 0.0).unwrap();
        near(lambda / 2.0_f64.sqrt(), 0.6201, 0.000_05);
    }

    proptest! {
        /// Row Z15: λ in (0, 1], Stefan's depth grows with the root of the index.
        #[test]
        fn frost_behaves(mu in 1e-6..MOST_MU, alpha in 0.0..50.0_f64, more in 1.0..20.0_f64) {
            let lambda = neumann_lambda(mu, alpha).unwrap();
            prop_assert!(lambda > 0.0 && lambda <= 1.0, "{lambda}");
            let colder = Winter { surface_index: EXAMPLE.surface_index * more, ..EXAMPLE };
            let ratio = in_metres(stefan(&colder).unwrap()) / in_metres(stefan(&EXAMPLE).unwrap());
            prop_assert!((ratio - more.sqrt()).abs() < 1e-9);
        }
    }

    /// Row Z15: no water, no latent heat, no answer.
    #[test]
    fn what_cannot_be_is_refused() {
        for water in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let dry = Winter {
                water_percent: water,
                ..EXAMPLE
            };
            assert!(stefan(&dry).is_err(), "{water}");
            assert!(modified_berggren(&dry, &EXAMPLE_SEASON).is_err());
            assert!(kersten_conductivity(100.0, water, false).is_err());
        }
        for (mu, alpha) in [
            (0.0, 1.0),
            (-1.0, 1.0),
            (f64::NAN, 1.0),
            (1.0, f64::NAN),
            (1.0, -0.1),
            (1e9, 0.0),
        ] {
            assert!(neumann_lambda(mu, alpha).is_err(), "{mu} {alpha}");
        }
        let frozen = Season {
            mean_f: 20.0,
            ..EXAMPLE_SEASON
        };
        assert_eq!(
            modified_berggren(&EXAMPLE, &frozen)
                .unwrap_err()
                .to_string(),
            "mean temperature: 20 °F is below 32 °F; the formula is for ground that thaws and stays thawed below"
        );
    }

    /// Chart readings on Pavement Interactive's page on frost depth: silt at 100 lb/ft³ and 15 %, 0.8 frozen; base at 135 lb/ft³
    /// and 5 %, 1.8 frozen and 1.65 unfrozen. The manual's example (Z10) has 0.76 for the first, frozen and unfrozen together.
    #[test]
    fn conductivity_is_near_what_charts_say() {
        near(
            kersten_conductivity(100.0, 15.0, false).unwrap(),
            0.76,
            0.005,
        );
        let base = kersten_conductivity(135.0, 5.0, true).unwrap();
        near(base / 1.725, 1.0, 0.06);
    }
}
