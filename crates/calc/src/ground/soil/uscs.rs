//! The symbol of a soil from sieve and index tests.

use super::SoilError;
use super::shares::{share, whole};
use crate::measure::amount::plain;
use crate::place::Place;

/// Sieve and index tests of one soil, as plain numbers; what was not tested is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct IndexTests {
    /// Liquid limit, in percent.
    pub liquid_limit: Option<f64>,
    /// Plastic limit, in percent.
    pub plastic_limit: Option<f64>,
    /// Passing the No. 200 sieve, in percent.
    pub fines: Option<f64>,
    /// From the No. 200 to the No. 4 sieve, in percent.
    pub sand: Option<f64>,
    /// On the No. 4 sieve, in percent; `None` is what is left to 100.
    pub gravel: Option<f64>,
    /// A tenth is finer, in millimetres.
    pub d10_mm: Option<f64>,
    /// Three tenths are finer, in millimetres.
    pub d30_mm: Option<f64>,
    /// Six tenths are finer, in millimetres.
    pub d60_mm: Option<f64>,
}

/// The symbol of a soil, with what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Uscs {
    /// `CL`, `SW-SC`.
    pub symbol: String,
    /// In words: `lean clay`.
    pub name: &'static str,
    /// What leads to it, step by step.
    pub reasons: Vec<String>,
    /// Coarse or fine, and what the fines are.
    pub family: Family,
}

/// What a soil behaves like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// More gravel than sand.
    Gravel,
    /// At least as much sand as gravel, fines of clay or hardly any.
    Sand,
    /// The same with fines of silt.
    SiltySand,
    /// More fines than grains, of silt.
    Silt,
    /// The same, of clay.
    Clay,
    /// The same, between silt and clay.
    SiltyClay,
}

/// Fines by their limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fines {
    Silt,
    SiltyClay,
    Clay,
}

/// Plasticity index on the A-line at a liquid limit: 0.73 (LL − 20).
#[must_use]
pub fn a_line(liquid_limit: f64) -> f64 {
    0.73 * (liquid_limit - 20.0)
}

/// Plasticity index on the U-line, above which hardly any soil lies: 0.9 (LL − 8).
#[must_use]
pub fn u_line(liquid_limit: f64) -> f64 {
    0.9 * (liquid_limit - 8.0)
}

/// D60 ÷ D10 and D30² ÷ (D10 D60).
#[must_use]
pub fn cu_and_cc(d10_mm: f64, d30_mm: f64, d60_mm: f64) -> (f64, f64) {
    (d60_mm / d10_mm, d30_mm * d30_mm / (d10_mm * d60_mm))
}

/// Names a soil by its tests; organic soils are not told apart.
///
/// # Errors
/// [`SoilError`] with field, value and limit: shares that are none or do not add up to 100 % within 1 %, a liquid limit below the
/// plastic limit, grain sizes out of order, and what is missing for this soil: a clay needs no grain sizes, a clean sand no limits.
///
/// # Source
/// ASTM D2487, Unified Soil Classification System, as in UFC 3-220-10.
pub fn classify(tests: &IndexTests) -> Result<Uscs, SoilError> {
    let fines = share(Place::Fines, need(tests.fines, Place::Fines)?)?;
    let limits = limits(tests)?;
    if fines >= 50.0 {
        // What was written of the grains must be true all the same.
        if tests.sand.is_some() {
            grains(tests, fines)?;
        }
        return fine(fines, need_limits(limits)?);
    }
    coarse(tests, fines, limits)
}

/// Liquid limit and plasticity index.
#[derive(Clone, Copy)]
struct Limits {
    liquid: f64,
    index: f64,
}

fn need(value: Option<f64>, place: Place) -> Result<f64, SoilError> {
    value.ok_or(SoilError::Missing { place })
}

fn need_limits(limits: Result<Limits, Place>) -> Result<Limits, SoilError> {
    limits.map_err(|place| SoilError::Missing { place })
}

/// The limits, or the place of the one that is missing.
fn limits(tests: &IndexTests) -> Result<Result<Limits, Place>, SoilError> {
    for (place, value) in [
        (Place::LiquidLimit, tests.liquid_limit),
        (Place::PlasticLimit, tests.plastic_limit),
    ] {
        if let Some(value) = value
            && !(value >= 0.0 && value.is_finite())
        {
            return Err(SoilError::NotPositive { place, value });
        }
    }
    let (liquid, plastic) = match (tests.liquid_limit, tests.plastic_limit) {
        (None, _) => return Ok(Err(Place::LiquidLimit)),
        (_, None) => return Ok(Err(Place::PlasticLimit)),
        (Some(liquid), Some(plastic)) => (liquid, plastic),
    };
    if liquid < plastic {
        return Err(SoilError::LiquidBelowPlastic { liquid, plastic });
    }
    Ok(Ok(Limits {
        liquid,
        // Limits are told to a tenth: what subtraction adds beyond is no difference.
        index: ((liquid - plastic) * 1e6).round() / 1e6,
    }))
}

/// Which fines these are, and why.
fn fines_of(limits: Limits, reasons: &mut Vec<String>) -> Fines {
    let Limits { liquid, index } = limits;
    let line = a_line(liquid);
    let on_or_above = index >= line - 1e-9;
    let fines = if on_or_above && index > 7.0 {
        Fines::Clay
    } else if on_or_above && index >= 4.0 {
        Fines::SiltyClay
    } else {
        Fines::Silt
    };
    let side = if on_or_above { "on or above" } else { "below" };
    reasons.push(format!(
        "Plasticity index {} is {side} the A-line, {} at liquid limit {}.",
        plain(index),
        plain((line * 1000.0).round() / 1000.0),
        plain(liquid)
    ));
    if on_or_above && fines != Fines::Clay {
        reasons.push(
            "A plasticity index of 4 to 7 lies between silt and clay, below 4 it is silt."
                .to_owned(),
        );
    }
    if index > u_line(liquid) {
        reasons.push(
            "It lies above the U-line, where hardly any soil does: have the limits tested again."
                .to_owned(),
        );
    }
    fines
}

fn fine(fines: f64, limits: Limits) -> Result<Uscs, SoilError> {
    let mut reasons = vec![format!(
        "{} % fines are half or more: a fine-grained soil.",
        plain(fines)
    )];
    let kind = fines_of(limits, &mut reasons);
    let is_high = limits.liquid >= 50.0;
    let (symbol, name, family) = match (kind, is_high) {
        (Fines::Clay, true) => ("CH", "fat clay", Family::Clay),
        (Fines::Clay, false) => ("CL", "lean clay", Family::Clay),
        (Fines::SiltyClay, _) => ("CL-ML", "silty clay", Family::SiltyClay),
        (Fines::Silt, true) => ("MH", "elastic silt", Family::Silt),
        (Fines::Silt, false) => ("ML", "silt", Family::Silt),
    };
    if is_high {
        reasons.push("A liquid limit of 50 or more is high.".to_owned());
    }
    reasons.push("Taken as not organic: that was not tested.".to_owned());
    Ok(Uscs {
        symbol: symbol.to_owned(),
        name,
        reasons,
        family,
    })
}

/// Shares of sand and gravel that go with the fines.
fn grains(tests: &IndexTests, fines: f64) -> Result<(f64, f64, Option<f64>), SoilError> {
    let sand = share(Place::SieveSand, need(tests.sand, Place::SieveSand)?)?;
    let gravel = match tests.gravel {
        Some(gravel) => gravel,
        None if fines + sand <= 100.0 => 100.0 - fines - sand,
        None => 0.0,
    };
    let whole = whole(
        "Fines, sieved sand and sieved gravel",
        [
            (Place::Fines, fines),
            (Place::SieveSand, sand),
            (Place::SieveGravel, gravel),
        ],
    )?;
    let [_, sand, gravel] = whole.shares;
    Ok((sand, gravel, whole.scaled_from))
}

fn coarse(
    tests: &IndexTests,
    fines: f64,
    limits: Result<Limits, Place>,
) -> Result<Uscs, SoilError> {
    let (sand, gravel, scaled_from) = grains(tests, fines)?;
    let is_gravel = gravel > sand;
    let mut reasons = vec![format!(
        "{} % fines are less than half: a coarse-grained soil.",
        plain(fines)
    )];
    reasons.extend(scaled_from.map(|sum| {
        format!(
            "The shares add up to {} % and were scaled to 100 %.",
            plain(sum)
        )
    }));
    reasons.push(format!(
        "{} % gravel {} {} % sand.",
        plain(gravel),
        if is_gravel {
            "are more than"
        } else {
            "are not more than"
        },
        plain(sand)
    ));
    let grading = if fines <= 12.0 {
        Some(well_graded(tests, is_gravel, &mut reasons)?)
    } else {
        None
    };
    let kind = if fines < 5.0 {
        None
    } else {
        let limits = need_limits(limits)?;
        reasons.push(if fines <= 12.0 {
            "5 to 12 % fines take a double symbol.".to_owned()
        } else {
            "More than 12 % fines name the soil.".to_owned()
        });
        Some(fines_of(limits, &mut reasons))
    };
    let first = if is_gravel { 'G' } else { 'S' };
    let grade = grading.map(|well| if well { 'W' } else { 'P' });
    let symbol = match (grade, kind) {
        (Some(grade), None) => format!("{first}{grade}"),
        (Some(grade), Some(Fines::Silt)) => format!("{first}{grade}-{first}M"),
        (Some(grade), Some(Fines::Clay | Fines::SiltyClay)) => format!("{first}{grade}-{first}C"),
        (None, Some(Fines::Clay)) => format!("{first}C"),
        (None, Some(Fines::SiltyClay)) => format!("{first}C-{first}M"),
        (None, _) => format!("{first}M"),
    };
    let family = match (is_gravel, kind) {
        (true, _) => Family::Gravel,
        (false, Some(Fines::Silt | Fines::SiltyClay)) => Family::SiltySand,
        (false, _) => Family::Sand,
    };
    Ok(Uscs {
        symbol,
        name: coarse_name(is_gravel, grading, kind),
        reasons,
        family,
    })
}

/// Whether the sizes are spread evenly, and why.
fn well_graded(
    tests: &IndexTests,
    is_gravel: bool,
    reasons: &mut Vec<String>,
) -> Result<bool, SoilError> {
    let sizes = [
        (Place::GrainD10, tests.d10_mm),
        (Place::GrainD30, tests.d30_mm),
        (Place::GrainD60, tests.d60_mm),
    ];
    let mut before: Option<(Place, f64)> = None;
    let mut known = [0.0; 3];
    for (kept, (place, size)) in known.iter_mut().zip(sizes) {
        let value = need(size, place)?;
        if !(value > 0.0 && value.is_finite()) {
            return Err(SoilError::NotPositive { place, value });
        }
        if let Some((below, limit)) = before
            && value < limit
        {
            return Err(SoilError::SizesOutOfOrder {
                place,
                value,
                below,
                limit,
            });
        }
        before = Some((place, value));
        *kept = value;
    }
    let [d10, d30, d60] = known;
    let (cu, cc) = cu_and_cc(d10, d30, d60);
    let least = if is_gravel { 4.0 } else { 6.0 };
    let well = cu >= least - 1e-9 && (1.0 - 1e-9..=3.0 + 1e-9).contains(&cc);
    reasons.push(format!(
        "Cu {cu:.2} and Cc {cc:.2}: {} graded (well from Cu {least:.0} with Cc 1 to 3).",
        if well { "well" } else { "poorly" }
    ));
    Ok(well)
}

fn coarse_name(is_gravel: bool, well: Option<bool>, kind: Option<Fines>) -> &'static str {
    match (is_gravel, well, kind) {
        (true, Some(true), None) => "well-graded gravel",
        (true, Some(true), Some(Fines::Silt)) => "well-graded gravel with silt",
        (true, Some(true), Some(_)) => "well-graded gravel with clay",
        (true, Some(false), None) => "poorly graded gravel",
        (true, Some(false), Some(Fines::Silt)) => "poorly graded gravel with silt",
        (true, Some(false), Some(_)) => "poorly graded gravel with clay",
        (true, None, Some(Fines::Clay)) => "clayey gravel",
        (true, None, Some(Fines::SiltyClay)) => "silty, clayey gravel",
        (true, None, _) => "silty gravel",
        (false, Some(true), None) => "well-graded sand",
        (false, Some(true), Some(Fines::Silt)) => "well-graded sand with silt",
        (false, Some(true), Some(_)) => "well-graded sand with clay",
        (false, Some(false), None) => "poorly graded sand",
        (false, Some(false), Some(Fines::Silt)) => "poorly graded sand with silt",
        (false, Some(false), Some(_)) => "poorly graded sand with clay",
        (false, None, Some(Fines::Clay)) => "clayey sand",
        (false, None, Some(Fines::SiltyClay)) => "silty, clayey sand",
        (false, None, _) => "silty sand",
    }
}
