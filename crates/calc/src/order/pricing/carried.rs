//! What is bought on its way: weight, volume, loads of a supplier, trips of one's own.

use super::super::item::ItemGroup;
use super::super::need::{NeedAmount, Needs};
use super::super::price_list::{Carry, Comes, Offer, PriceList};
use super::super::priced::{OrderLine, Trips};
use super::super::sale::{Holds, SaleMeasure};
use super::bought::{Bulk, One, decimal, one, wet_to_dry};
use crate::order::{Item, Money};
use crate::quantity::{
    CUBIC_FOOT_M3, Mass, POUND_KG, Volume, cubic_metres, in_cubic_metres, in_metres, unit,
};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// Weight and volume of what is bought, where they are known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Carried {
    pub mass: Option<Mass>,
    pub volume: Option<Volume>,
}

/// How many loads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Loads {
    /// So many.
    Known(u32),
    /// One at the least: what a load carries is given in a measure in which the need is not known.
    AtLeastOne,
    /// More than can be counted.
    TooMany,
}

/// What so many units weigh, and the room they take.
///
/// # Source
/// Dry mix 133.33 lb for each cubic foot that it yields: from the printed yields of bags, check value C3. Mixed concrete 150 lb/ft³:
/// check value E36.
pub(super) fn carried(amount: Option<&NeedAmount>, offer: &Offer, count: Decimal) -> Carried {
    const DRY_MIX_KG_M3: f64 = 80.0 / 0.6 * POUND_KG / CUBIC_FOOT_M3;
    const CONCRETE_KG_M3: f64 = 150.0 * POUND_KG / CUBIC_FOOT_M3;
    let (Some(One::Holds(holds)), Ok(count)) = (one(offer), f64::try_from(count)) else {
        return Carried::default();
    };
    let said_kg_m3 = offer
        .loose_density
        .map(|density| density.get::<unit::kilogram_per_cubic_meter>() * wet_to_dry(offer));
    let tipped_kg_m3 = amount
        .and_then(|amount| Bulk::of(amount, offer))
        .map_or(said_kg_m3, Bulk::kilograms_a_cubic_metre);
    match (holds, amount) {
        (Holds::Volume(each), Some(NeedAmount::Mixed(_))) => {
            let mixed_m3 = count * in_cubic_metres(each);
            if offer.unit.measure() == SaleMeasure::Volume {
                Carried {
                    mass: Some(kilograms(mixed_m3 * CONCRETE_KG_M3)),
                    volume: Some(cubic_metres(mixed_m3)),
                }
            } else {
                Carried {
                    mass: Some(kilograms(mixed_m3 * DRY_MIX_KG_M3)),
                    volume: None,
                }
            }
        }
        (Holds::Volume(each), _) => {
            let loose_m3 = count * in_cubic_metres(each);
            Carried {
                mass: tipped_kg_m3.map(|density| kilograms(loose_m3 * density)),
                volume: Some(cubic_metres(loose_m3)),
            }
        }
        (Holds::Mass(each), _) => {
            let mass_kg = count * each.get::<unit::kilogram>();
            Carried {
                mass: Some(kilograms(mass_kg)),
                volume: tipped_kg_m3.map(|density| cubic_metres(mass_kg / density)),
            }
        }
        (_, Some(NeedAmount::Pieces { each_weighs, .. })) => {
            let mass = pieces(amount, holds, count)
                .zip(*each_weighs)
                .map(|(n, each)| each * n);
            Carried { mass, volume: None }
        }
        _ => Carried::default(),
    }
}

/// Loads of a supplier for so many units: rounded up.
pub(super) fn loads(
    amount: Option<&NeedAmount>,
    offer: &Offer,
    count: Decimal,
    most: Option<Holds>,
    carried: Carried,
) -> Loads {
    if count <= Decimal::ZERO {
        return Loads::Known(0);
    }
    let Some(most) = most else {
        return Loads::Known(1);
    };
    let holds = match one(offer) {
        Some(One::Holds(holds)) => Some(holds),
        _ => None,
    };
    let count = f64::try_from(count).ok();
    let loads = match (most, holds, count) {
        (Holds::Mass(most), ..) => carried.mass.map(|mass| (mass / most).value),
        (Holds::Volume(most), ..) => carried
            .volume
            .map(|volume| in_cubic_metres(volume) / in_cubic_metres(most)),
        (Holds::Pieces(most), Some(holds), Some(count)) => {
            pieces(amount, holds, count).map(|n| n / f64::from(most))
        }
        (Holds::Length(most), Some(Holds::Length(each)), Some(count)) => {
            Some(count * in_metres(each) / in_metres(most))
        }
        (Holds::Area(most), Some(Holds::Area(each)), Some(count)) => {
            Some(count * (each / most).value)
        }
        _ => None,
    };
    match loads {
        Some(loads) => whole_up(loads).map_or(Loads::TooMany, Loads::Known),
        None => Loads::AtLeastOne,
    }
}

/// Trips with one's own truck for all that is fetched, or taken away by oneself, never both in one load: for each supplier the most of
/// weight by payload and volume by box, and one where neither is known; what is hired is fetched and brought back, two trips (common
/// practice, no source). `None` where they cannot be counted.
pub(super) fn own_trips<'a>(
    list: &PriceList,
    lines: impl Iterator<Item = &'a OrderLine>,
) -> Option<Trips> {
    let mut by_supplier: BTreeMap<(ItemGroup, &str), Carried> = BTreeMap::new();
    for line in lines {
        let Some(sold) = &line.sold else { continue };
        let is_bought = sold.count.is_some_and(|count| count > Decimal::ZERO);
        if sold.comes != Comes::PickedUp || !is_bought {
            continue;
        }
        let sum = by_supplier
            .entry((line.item.group(), sold.supplier.as_str()))
            .or_default();
        sum.mass = added(sum.mass, sold.weighs);
        sum.volume = added(sum.volume, sold.volume);
    }
    let mut n = 0_u32;
    for ((group, _), sum) in by_supplier {
        let trips = if group == ItemGroup::Hire {
            2
        } else {
            trips(&list.carry, sum)?
        };
        n = n.checked_add(trips)?;
    }
    let times = Decimal::from(n);
    let hours = list.carry.hours_a_trip.max(Decimal::ZERO);
    Some(Trips {
        n,
        cost: list.currency.rounded(list.carry.per_trip.times(times)?),
        hours: super::hours::to_the_hundredth(hours.checked_mul(times)?),
    })
}

/// Barrow trips for all that is tipped; `None` where a part of it is not known.
pub(super) fn barrow_trips(needs: &Needs, carry: &Carry) -> Option<u32> {
    const TIPPED: [Item; 5] = [
        Item::Base,
        Item::SettingBed,
        Item::UnsuitableSpoil,
        Item::TrimSpoil,
        Item::OldBedSpoil,
    ];
    let is_known = needs
        .items
        .iter()
        .all(|need| need.amount.is_some() || !TIPPED.contains(&need.item));
    if !is_known {
        return None;
    }
    whole_up(in_cubic_metres(needs.barrowed) / in_cubic_metres(carry.barrow))
}

/// Loads at a rate for each; `None` past 28 digits.
pub(super) fn delivery(list: &PriceList, n_loads: u32, per_load: Money) -> Option<Money> {
    Some(
        list.currency
            .rounded(per_load.times(Decimal::from(n_loads))?),
    )
}

fn trips(carry: &Carry, sum: Carried) -> Option<u32> {
    let by_mass = match sum.mass {
        Some(mass) if carry.payload.value > 0.0 => whole_up((mass / carry.payload).value)?,
        _ => 1,
    };
    let by_volume = match sum.volume {
        Some(volume) if carry.holds.value > 0.0 => whole_up((volume / carry.holds).value)?,
        _ => 1,
    };
    Some(by_mass.max(by_volume).max(1))
}

/// Pieces in so many units.
fn pieces(amount: Option<&NeedAmount>, holds: Holds, count: f64) -> Option<f64> {
    let (covers, weighs) = match amount {
        Some(NeedAmount::Pieces {
            each_covers,
            each_weighs,
            ..
        }) => (*each_covers, *each_weighs),
        _ => (None, None),
    };
    match holds {
        Holds::Pieces(each) => Some(count * f64::from(each)),
        Holds::Area(area) => covers.map(|each| count * (area / each).value),
        Holds::Mass(mass) => weighs.map(|each| count * (mass / each).value),
        Holds::Volume(_) | Holds::Length(_) => None,
    }
}

/// Rounded up, to 1e-9 first; `None` where that is no count.
pub(super) fn whole_up(value: f64) -> Option<u32> {
    u32::try_from(decimal(value)?.ceil()).ok()
}

fn added<T: std::ops::Add<Output = T>>(sum: Option<T>, more: Option<T>) -> Option<T> {
    match (sum, more) {
        (Some(sum), Some(more)) => Some(sum + more),
        (sum, more) => sum.or(more),
    }
}

fn kilograms(value_kg: f64) -> Mass {
    Mass::new::<unit::kilogram>(value_kg)
}
