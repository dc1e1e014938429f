//! A list as a whole: what one value must be to another.

use rust_decimal::prelude::ToPrimitive as _;
use underbrick_calc::catalogue::Material;
use underbrick_calc::order::{
    Carry, Comes, Crew, Decimal, Item, ItemPrice, Money, Offer, PriceList, SaleMeasure, StageHours,
};
use underbrick_calc::site::MaterialKey;

use super::file::{CarryFile, ComesFile, HoursFile, ItemFile, OfferFile, PricesFile};
use super::texts::{FromZero, PriceText, Texted};
use super::units::{loaded_by, measure, measure_of, sold_by, timed_by, units_of};

/// What cannot be, and at which field of the text.
pub(super) struct Misplaced {
    /// The name of the field.
    pub field: &'static str,
    /// The how-manieth of that name, from 0.
    pub nth: usize,
    /// Why, in words.
    pub reason: String,
}

/// The list of a file whose values can each be true.
///
/// # Errors
/// The first field that does not fit the others.
pub(super) fn list(file: PricesFile, materials: &[Material]) -> Result<PriceList, Misplaced> {
    let mut count = Count::default();
    let mut items: Vec<ItemPrice> = Vec::new();
    for (nth, file) in file.items.into_iter().enumerate() {
        let price = item(file, nth, materials, &mut count)?;
        let is_the_same =
            |before: &ItemPrice| before.item == price.item && before.material == price.material;
        if items.iter().any(is_the_same) {
            let of = match &price.material {
                Some(key) => format!(" of {:?}", key.0),
                None => String::new(),
            };
            return Err(Misplaced {
                field: "item",
                nth,
                reason: format!(
                    "{:?}{of} stands twice: put both offers under one",
                    price.item.key()
                ),
            });
        }
        items.push(price);
    }
    let mut hours: Vec<StageHours> = Vec::new();
    for (nth, file) in file.hours.into_iter().enumerate() {
        let stage = stage(&file, &hours).map_err(|reason| Misplaced {
            field: "stage",
            nth,
            reason,
        })?;
        hours.push(stage);
    }
    let name = file.name.trim();
    Ok(PriceList {
        name: if name.is_empty() { "Own list" } else { name }.to_owned(),
        currency: file.currency.0,
        items,
        hours,
        crew: Crew {
            n: file.crew.people,
            hours_a_day: file.crew.hours_a_day.0.0,
            rate: Money(file.crew.rate.0.0),
        },
        carry: file.carry.map_or_else(Carry::default, carry),
        contingency: file
            .contingency
            .map_or(Decimal::ZERO, |percent| percent.0.0),
        gain: file.gain.into(),
        tax: file.tax.map_or(Decimal::ZERO, |percent| percent.0.0),
        labour_taxed: file.labour_taxed,
        round_to: number(file.round_to),
    })
}

/// How many fields of a name were passed.
#[derive(Default)]
struct Count {
    offers: usize,
    materials: usize,
    mosts: usize,
}

fn item(
    file: ItemFile,
    nth: usize,
    materials: &[Material],
    count: &mut Count,
) -> Result<ItemPrice, Misplaced> {
    let item = file.item.0;
    if file.offers.is_empty() {
        return Err(Misplaced {
            field: "item",
            nth,
            reason: format!("{:?} has no offers: one at least is wanted", item.key()),
        });
    }
    let material = file.material.map(MaterialKey);
    if let Some(key) = &material {
        is_sold_as(item, key, materials).map_err(|reason| Misplaced {
            field: "material",
            nth: count.materials,
            reason,
        })?;
        count.materials += 1;
    }
    let mut offers: Vec<Offer> = Vec::new();
    for file in file.offers {
        let supplier = &file.supplier.0.0;
        if offers.iter().any(|before| before.supplier == *supplier) {
            return Err(Misplaced {
                field: "supplier",
                nth: count.offers,
                reason: format!(
                    "{:?} has two offers of {supplier:?}: give each a name of its own",
                    item.key()
                ),
            });
        }
        unit_fits(item, &file).map_err(|reason| Misplaced {
            field: "price",
            nth: count.offers,
            reason,
        })?;
        load_fits(item, &file).map_err(|reason| Misplaced {
            field: "most",
            nth: count.mosts,
            reason,
        })?;
        count.offers += 1;
        let offer = offer(file);
        if let Comes::Delivered { most: Some(_), .. } = offer.comes {
            count.mosts += 1;
        }
        offers.push(offer);
    }
    Ok(ItemPrice {
        item,
        material,
        waste: file.waste.map_or(Decimal::ZERO, |waste| waste.0.0),
        is_taxed: file.taxed,
        offers,
    })
}

/// Whether the catalogue knows the material, and the item may be of it.
fn is_sold_as(item: Item, key: &MaterialKey, materials: &[Material]) -> Result<(), String> {
    let may_be: &dyn Fn(&&Material) -> bool = match item {
        Item::Base => &|material| material.as_base.is_some(),
        Item::SettingBed
        | Item::UnsuitableSpoil
        | Item::TrimSpoil
        | Item::OldBedSpoil
        | Item::OldBrick => &|_| true,
        _ => {
            return Err(format!(
                "{:?} is of no material of the catalogue: leave material out",
                item.key()
            ));
        }
    };
    let names = |found: Vec<&Material>| {
        let keys: Vec<&str> = found
            .iter()
            .map(|material| material.key.0.as_str())
            .collect();
        keys.join(", ")
    };
    let known: Vec<&Material> = materials.iter().filter(may_be).collect();
    if known.iter().any(|material| material.key == *key) {
        return Ok(());
    }
    let why = if materials.iter().any(|material| material.key == *key) {
        format!("{:?} is no material for {:?}", key.0, item.key())
    } else {
        format!("the catalogue does not know the material {:?}", key.0)
    };
    Err(format!("{why}: {}", names(known)))
}

fn unit_fits(item: Item, file: &OfferFile) -> Result<(), String> {
    let PriceText { unit, .. } = file.price.0;
    let holds = file.holds.as_ref().map(|holds| holds.0);
    let one = unit.symbol(true);
    match (unit.measure(), holds) {
        (SaleMeasure::Pack, None) => {
            return Err(format!(
                "one {one} must say what it holds, such as holds: {:?}",
                such_as(item)
            ));
        }
        (SaleMeasure::Pack | SaleMeasure::Pieces, _) | (_, None) => {}
        (_, Some(_)) => return Err(format!("one {one} holds nothing: leave holds out")),
    }
    let fitting = sold_by(item);
    if fitting.contains(&measure(unit, holds)) {
        return Ok(());
    }
    let item = item.key();
    let units = units_of(fitting);
    Err(if fitting.contains(&SaleMeasure::Days) {
        format!("{item:?} is not sold by the {one}; what fits is {units}")
    } else if holds.is_some() {
        format!("{item:?}: what one {one} holds does not fit; what fits is {units}")
    } else {
        format!(
            "{item:?} is not sold by the {one}; what fits is {units}, or a pack that holds so much"
        )
    })
}

/// What a pack of it may hold.
const fn such_as(item: Item) -> &'static str {
    match sold_by(item) {
        [SaleMeasure::Pieces, ..] => "50 pieces",
        [SaleMeasure::Length, ..] => "8 ft",
        [SaleMeasure::Area, ..] => "1800 ft2",
        _ => "0.5 ft3",
    }
}

fn load_fits(item: Item, file: &OfferFile) -> Result<(), String> {
    let ComesFile::Delivered {
        most: Some(most), ..
    } = &file.comes
    else {
        return Ok(());
    };
    let fitting = loaded_by(item, file.price.0.unit);
    if fitting.is_empty() {
        return Err(format!(
            "{:?} comes in one load: leave most out",
            item.key()
        ));
    }
    if fitting.contains(&measure_of(most.0)) {
        return Ok(());
    }
    Err(format!(
        "the most that one load of {:?} carries is told in {}",
        item.key(),
        units_of(fitting)
    ))
}

fn offer(file: OfferFile) -> Offer {
    let PriceText { rate, unit } = file.price.0;
    Offer {
        supplier: file.supplier.0.0,
        rate: Money(rate),
        unit,
        holds: file.holds.map(|holds| holds.0),
        step: file.step.map_or(Decimal::ONE, |step| step.0.0),
        minimum: number(file.minimum),
        loose_density: file.loose_density.map(|density| density.0),
        loose_to_compacted: file.loose_to_compacted.map(|ratio| ratio.0.0),
        moisture: file.moisture.and_then(|moisture| moisture.0.0.to_f64()),
        comes: file.comes.into(),
    }
}

fn stage(file: &HoursFile, before: &[StageHours]) -> Result<StageHours, String> {
    let stage = file.stage.0;
    let key = stage.key();
    let asked = timed_by(stage.unit());
    let per = file.hours.0.per;
    match (asked, per) {
        (None, Some(_)) => {
            return Err(format!(
                "the hours of {key:?} are for the job as a whole: leave the unit out"
            ));
        }
        (Some(asked), per) if per.map(|per| per.measure()) != Some(asked) => {
            return Err(format!(
                "the hours of {key:?} are told per {}",
                units_of(&[asked])
            ));
        }
        _ => {}
    }
    if before.iter().any(|before| before.stage == stage) {
        return Err(format!("the stage {key:?} stands twice"));
    }
    Ok(StageHours {
        stage,
        hours: file.hours.0.hours,
        per,
    })
}

fn carry(file: CarryFile) -> Carry {
    Carry {
        payload: file.payload.0.0,
        holds: file.holds.0.0,
        per_trip: Money(number(file.per_trip)),
        hours_a_trip: number(file.hours_a_trip),
        barrow: file
            .barrow
            .map_or(Carry::default().barrow, |barrow| barrow.0.0),
    }
}

fn number(text: Option<Texted<FromZero>>) -> Decimal {
    text.map_or(Decimal::ZERO, |text| text.0.0)
}
