//! Three shares that make up a whole.

use super::SoilError;
use crate::place::Place;

/// How far from 100 % three shares may be and still be taken, scaled: each is told to a whole percent.
///
/// # Source
/// Common practice, no source.
const SLACK_PERCENT: f64 = 1.0;

/// Three shares of one whole, in percent, that add up to 100.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Whole {
    pub shares: [f64; 3],
    /// What they added up to before, where that was not 100.
    pub scaled_from: Option<f64>,
}

/// A share that is a number from 0 to 100.
pub(super) fn share(place: Place, value: f64) -> Result<f64, SoilError> {
    // NaN lies in no range.
    if (0.0..=100.0).contains(&value) {
        Ok(value)
    } else {
        Err(SoilError::NotAShare { place, value })
    }
}

/// Three shares as written, scaled to 100 where they are within 1 of it.
pub(super) fn whole(what: &'static str, given: [(Place, f64); 3]) -> Result<Whole, SoilError> {
    let mut shares = [0.0; 3];
    for (kept, (place, value)) in shares.iter_mut().zip(given) {
        *kept = share(place, value)?;
    }
    let sum: f64 = shares.iter().sum();
    let off = (sum - 100.0).abs();
    if off > SLACK_PERCENT + 1e-9 {
        let [(place, _), ..] = given;
        return Err(SoilError::Sum { what, place, sum });
    }
    if off < 1e-9 {
        return Ok(Whole {
            shares,
            scaled_from: None,
        });
    }
    Ok(Whole {
        shares: shares.map(|share| share * 100.0 / sum),
        scaled_from: Some(sum),
    })
}
