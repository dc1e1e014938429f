//! Hours of the crew, stage by stage.

use super::super::need::{Work, WorkAmount};
use super::super::price_list::PriceList;
use super::super::priced::{Labour, Remark};
use super::super::sale::{Holds, SaleUnit};
use super::super::stage::WorkUnit;
use super::bought::decimal;
use crate::field::{check_count, check_decimal};
use crate::findings::Weight;
use crate::order::Money;
use crate::place::Place;
use crate::quantity::{in_cubic_metres, in_metres};
use crate::site::{ShownIn, Site};
use rust_decimal::{Decimal, RoundingStrategy};

/// The crew of this job.
#[derive(Clone, Copy, Debug)]
pub(super) struct CrewFound {
    /// How many: one at the least.
    pub n: u32,
    /// Hours of work in a day, above zero and at most 24.
    pub hours_a_day: Decimal,
    /// One hour of one person; `None` where neither job nor list says.
    pub rate: Option<Money>,
}

/// The crew: what was set for the job goes before the list.
pub(super) fn crew(site: &Site, list: &PriceList, remarks: &mut Vec<Remark>) -> CrewFound {
    const HOURS_A_DAY: Decimal = Decimal::from_parts(8, 0, 0, false, 0);
    const MOST_HOURS_A_DAY: Decimal = Decimal::from_parts(24, 0, 0, false, 0);
    let mut refused = |place: Place, words: String, remedy: &str| {
        remarks.push(Remark {
            place,
            weight: Weight::Warning,
            text: format!("{words}."),
            remedy: remedy.to_owned(),
        });
    };
    let n = site.order.n_crew.and_then(|n| {
        check_count(Place::CrewSize, n)
            .map_err(|error| {
                let words = error.words(ShownIn::default());
                refused(
                    Place::CrewSize,
                    words,
                    "The crew of the price list is taken.",
                );
            })
            .ok()
    });
    let rate = site.order.crew_rate.and_then(|rate| {
        check_decimal(Place::CrewRate, rate.0)
            .map_err(|error| {
                let words = error.words(ShownIn::default());
                refused(
                    Place::CrewRate,
                    words,
                    "The rate of the price list is taken.",
                );
            })
            .ok()
    });
    let day = list.crew.hours_a_day;
    CrewFound {
        n: n.unwrap_or(list.crew.n).max(1),
        hours_a_day: if day > Decimal::ZERO && day <= MOST_HOURS_A_DAY {
            day
        } else {
            HOURS_A_DAY
        },
        rate: rate
            .map(Money)
            .or(Some(list.crew.rate))
            .filter(|rate| rate.0 > Decimal::ZERO),
    }
}

/// The hours of one stage: work × hours for one unit, to the hundredth of an hour, and that is paid.
pub(super) fn labour(
    site: &Site,
    list: &PriceList,
    work: &Work,
    rate: Option<Money>,
    remarks: &mut Vec<Remark>,
) -> Labour {
    let place = Place::StageHours(work.stage);
    let mut texts = Vec::new();
    let own = site.order.hours_of(work.stage).and_then(|hours| {
        check_decimal(place, hours)
            .map_err(|error| texts.push(format!("{}.", error.words(ShownIn::default()))))
            .ok()
    });
    let listed = list.hours_of(work.stage);
    let per = match listed {
        Some(listed) => listed.per,
        None => usual_unit(work.stage.unit(), site.shown_in),
    };
    let hours_each = own.or(listed
        .map(|listed| listed.hours)
        .filter(|hours| *hours >= Decimal::ZERO));
    // A list without any hours is no list of hours: there is nothing to look up in it.
    if hours_each.is_none() && !list.hours.is_empty() {
        texts.push(format!(
            "{}: the price list has no hours for it.",
            work.stage.name()
        ));
    }
    let amount = work.amount.and_then(|amount| {
        let amount = amount_in(amount, per);
        if amount.is_none() {
            texts.push(format!(
                "{}: its hours are listed by {}, by which this work is not measured.",
                work.stage.name(),
                per.map_or("the job", SaleUnit::key)
            ));
        }
        amount
    });
    let hours = amount
        .zip(hours_each)
        .and_then(|(amount, each)| amount.checked_mul(each))
        .map(to_the_hundredth);
    remarks.extend(texts.iter().map(|text| Remark {
        place,
        weight: Weight::Warning,
        text: text.clone(),
        remedy: "Set the hours for this job, or in the price list.".to_owned(),
    }));
    Labour {
        work: work.clone(),
        amount,
        per,
        hours_each,
        is_own: own.is_some(),
        hours,
        amount_paid: hours
            .zip(rate)
            .and_then(|(hours, rate)| paid(list, hours, rate)),
        said: texts,
    }
}

/// Hours × rate; `None` past 28 digits.
pub(super) fn paid(list: &PriceList, hours: Decimal, rate: Money) -> Option<Money> {
    Some(list.currency.rounded(rate.times(hours)?))
}

/// Hours to the hundredth, halves up.
pub(super) fn to_the_hundredth(hours: Decimal) -> Decimal {
    hours
        .round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero)
        .normalize()
}

/// The unit by which own hours are counted where the list has none.
fn usual_unit(unit: WorkUnit, shown_in: ShownIn) -> Option<SaleUnit> {
    let (imperial, metric) = match unit {
        WorkUnit::Area | WorkUnit::LiftArea => (SaleUnit::SquareFoot, SaleUnit::SquareMetre),
        WorkUnit::Volume => (SaleUnit::CubicYard, SaleUnit::CubicMetre),
        WorkUnit::Length => (SaleUnit::Foot, SaleUnit::Metre),
        WorkUnit::Pieces => (SaleUnit::Piece, SaleUnit::Piece),
        WorkUnit::Job => return None,
    };
    Some(match shown_in {
        ShownIn::FeetInches => imperial,
        ShownIn::Metric => metric,
    })
}

/// Work in a unit; `None` where the unit measures something else.
fn amount_in(amount: WorkAmount, per: Option<SaleUnit>) -> Option<Decimal> {
    let one = per.and_then(|unit| unit.holds(1.0));
    let units = match (amount, one) {
        (WorkAmount::Area(area), Some(Holds::Area(each))) => (area / each).value,
        (WorkAmount::Volume(volume), Some(Holds::Volume(each))) => {
            in_cubic_metres(volume) / in_cubic_metres(each)
        }
        (WorkAmount::Length(length), Some(Holds::Length(each))) => {
            in_metres(length) / in_metres(each)
        }
        (WorkAmount::Pieces(n), Some(Holds::Pieces(each))) => f64::from(n) / f64::from(each),
        (WorkAmount::Job, None) if per.is_none() => 1.0,
        _ => return None,
    };
    decimal(units)
}
