//! A need as it is bought: in a unit of sale, with waste, rounded up once.

use super::super::need::NeedAmount;
use super::super::price_list::Offer;
use super::super::sale::{Holds, SaleMeasure, SaleUnit};
use crate::quantity::{in_cubic_metres, in_metres, unit};
use rust_decimal::{Decimal, RoundingStrategy};

/// Why a need cannot be bought in a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Misfit {
    /// The unit is a pack, and nobody said what it holds.
    HoldsNothing,
    /// The unit measures something else than the need.
    OtherMeasure,
    /// More than 28 digits hold.
    TooMuch,
}

/// What one unit of sale is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum One {
    /// So much of something.
    Holds(Holds),
    /// A day.
    Day,
}

/// One unit of an offer; `None` for a pack of which nobody said what it holds.
pub(super) fn one(offer: &Offer) -> Option<One> {
    match offer.unit.measure() {
        SaleMeasure::Pack => offer.holds.map(One::Holds),
        SaleMeasure::Pieces => Some(One::Holds(offer.holds.unwrap_or(Holds::Pieces(1)))),
        SaleMeasure::Days => Some(One::Day),
        SaleMeasure::Volume | SaleMeasure::Mass | SaleMeasure::Length | SaleMeasure::Area => {
            offer.unit.holds(1.0).map(One::Holds)
        }
    }
}

/// How many units of the offer a need is, before waste; to 1e-12 of a unit.
///
/// Volume is bought as tipped, concrete as mixed; weight as delivered, moisture with it. What the supplier says of loose volume and
/// weight goes before the catalogue. What is long is laid end to end: offcuts are for the waste.
///
/// # Errors
/// [`Misfit`].
///
/// # Source
/// Moist weight from dry weight and water content: pavement engineering text, check value E35.
pub(super) fn units(amount: &NeedAmount, offer: &Offer) -> Result<Decimal, Misfit> {
    let one = one(offer).ok_or(Misfit::HoldsNothing)?;
    let units = match (amount, one) {
        (NeedAmount::Bulk { .. }, One::Holds(holds)) => {
            let bulk = Bulk::of(amount, offer).ok_or(Misfit::OtherMeasure)?;
            match holds {
                Holds::Volume(volume) => bulk.loose_m3 / in_cubic_metres(volume),
                Holds::Mass(mass) => bulk.delivered_kg / mass.get::<unit::kilogram>(),
                _ => return Err(Misfit::OtherMeasure),
            }
        }
        (NeedAmount::Mixed(mixed), One::Holds(Holds::Volume(volume))) => {
            in_cubic_metres(*mixed) / in_cubic_metres(volume)
        }
        (NeedAmount::Pieces { n, .. }, One::Holds(Holds::Pieces(each))) => {
            f64::from(*n) / f64::from(each)
        }
        (
            NeedAmount::Pieces {
                n,
                each_covers: Some(each),
                ..
            },
            One::Holds(Holds::Area(area)),
        ) => f64::from(*n) * (*each / area).value,
        (
            NeedAmount::Pieces {
                n,
                each_weighs: Some(each),
                ..
            },
            One::Holds(Holds::Mass(mass)),
        ) => f64::from(*n) * (*each / mass).value,
        (NeedAmount::Length(length), One::Holds(Holds::Length(each))) => {
            in_metres(*length) / in_metres(each)
        }
        (NeedAmount::Area(area), One::Holds(Holds::Area(each))) => (*area / each).value,
        (NeedAmount::Days(days), One::Day) => f64::from(*days),
        _ => return Err(Misfit::OtherMeasure),
    };
    to_digits(units, 12).ok_or(Misfit::TooMuch)
}

/// With so many percent on it, to 1e-9 of a unit: so what is a whole number of units stays one, whatever binary fractions and thirds
/// made of it. `None` past 28 digits.
pub(super) fn with_waste(units: Decimal, waste: Decimal) -> Option<Decimal> {
    let parts = waste.max(Decimal::ZERO).checked_add(Decimal::ONE_HUNDRED)?;
    let units = units
        .checked_mul(parts)?
        .checked_div(Decimal::ONE_HUNDRED)?;
    let nearest = RoundingStrategy::MidpointAwayFromZero;
    Some(units.round_dp_with_strategy(9, nearest).normalize())
}

/// Rounded up to a whole number of steps that is no less than the minimum; nothing of nothing. `None` past 28 digits.
pub(super) fn rounded_up(units: Decimal, offer: &Offer) -> Option<Decimal> {
    if units <= Decimal::ZERO {
        return Some(Decimal::ZERO);
    }
    let least = units.max(offer.minimum);
    if offer.step <= Decimal::ZERO {
        return Some(least);
    }
    let past = least.checked_rem(offer.step)?;
    let whole = if past.is_zero() {
        least
    } else {
        least.checked_sub(past)?.checked_add(offer.step)?
    };
    Some(whole.normalize())
}

/// A number to 1e-9; `None` where it is no number from zero up, or past 28 digits.
pub(super) fn decimal(value: f64) -> Option<Decimal> {
    to_digits(value, 9)
}

fn to_digits(value: f64, n_decimals: u32) -> Option<Decimal> {
    const MOST: f64 = 1e27;
    let parts = libm::round(value * libm::exp10(f64::from(n_decimals)));
    if !(0.0..=MOST).contains(&parts) {
        return None;
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a whole number of at most 28 digits"
    )]
    let parts = parts as i128;
    let number = Decimal::try_from_i128_with_scale(parts, n_decimals).ok()?;
    Some(number.normalize())
}

/// The words of units that fit a need.
pub(super) fn units_that_fit(amount: &NeedAmount) -> String {
    let measures: &[SaleMeasure] = match amount {
        NeedAmount::Bulk { .. } => &[SaleMeasure::Volume, SaleMeasure::Mass],
        NeedAmount::Mixed(_) => &[SaleMeasure::Volume],
        NeedAmount::Pieces {
            each_covers,
            each_weighs,
            ..
        } => match (each_covers, each_weighs) {
            (Some(_), Some(_)) => &[SaleMeasure::Pieces, SaleMeasure::Area, SaleMeasure::Mass],
            (Some(_), None) => &[SaleMeasure::Pieces, SaleMeasure::Area],
            (None, Some(_)) => &[SaleMeasure::Pieces, SaleMeasure::Mass],
            (None, None) => &[SaleMeasure::Pieces],
        },
        NeedAmount::Length(_) => &[SaleMeasure::Length],
        NeedAmount::Area(_) => &[SaleMeasure::Area],
        NeedAmount::Days(_) => &[SaleMeasure::Days],
    };
    let keys: Vec<&str> = SaleUnit::ALL
        .into_iter()
        .filter(|unit| measures.contains(&unit.measure()))
        .map(SaleUnit::key)
        .collect();
    let keys = keys.join(", ");
    if matches!(amount, NeedAmount::Days(_)) {
        keys
    } else {
        format!("{keys}, or a pack that holds some of these")
    }
}

/// What is tipped, as one supplier delivers it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bulk {
    /// Loose volume that is needed.
    pub loose_m3: f64,
    /// Weight that is needed, moisture with it.
    pub delivered_kg: f64,
}

impl Bulk {
    /// `None` for what is not tipped.
    pub(super) fn of(amount: &NeedAmount, offer: &Offer) -> Option<Self> {
        let NeedAmount::Bulk {
            in_place,
            loose,
            dry_mass,
        } = amount
        else {
            return None;
        };
        let ratio = offer
            .loose_to_compacted
            .filter(|ratio| ratio.is_finite() && *ratio >= 1.0);
        let density = offer.loose_density.filter(|density| density.value > 0.0);
        let loose = ratio.map_or(*loose, |ratio| *in_place * ratio);
        let dry_mass = density.map_or(*dry_mass, |density| loose * density);
        Some(Self {
            loose_m3: in_cubic_metres(loose),
            delivered_kg: dry_mass.get::<unit::kilogram>() * wet_to_dry(offer),
        })
    }

    /// Weight of a cubic metre as tipped and delivered; `None` where there is none.
    pub(super) fn kilograms_a_cubic_metre(self) -> Option<f64> {
        let density = self.delivered_kg / self.loose_m3;
        (density.is_finite() && density > 0.0).then_some(density)
    }
}

/// Weight as delivered by dry weight.
pub(super) fn wet_to_dry(offer: &Offer) -> f64 {
    1.0 + offer.moisture.unwrap_or(0.0) / 100.0
}
