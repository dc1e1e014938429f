//! A price list as it stands in its file.

use rust_decimal::prelude::ToPrimitive as _;
use serde::Deserialize;
use underbrick_calc::order::{
    Carry, Comes, Crew, Currency, Decimal, Gain, Holds, Item, ItemPrice, Money, Offer, PriceList,
    SaleMeasure, SaleUnit, Stage, StageHours, WorkUnit,
};
use underbrick_calc::quantity::MassDensity;
use underbrick_calc::site::MaterialKey;

use super::PRICES_VERSION;
use super::texts::{
    AboveZero, FromZero, HoursADay, HoursText, MarginPercent, Percent, PriceText, Texted,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "price list")]
pub(super) struct PricesFile {
    #[serde(default = "first_version")]
    version: u32,
    #[serde(default)]
    name: String,
    currency: Texted<Currency>,
    crew: CrewFile,
    #[serde(default)]
    carry: CarryFile,
    #[serde(default)]
    contingency: Option<Texted<Percent>>,
    gain: GainFile,
    #[serde(default)]
    tax: Option<Texted<Percent>>,
    #[serde(default)]
    labour_taxed: bool,
    #[serde(default)]
    round_to: Option<Texted<FromZero>>,
    items: Vec<ItemFile>,
    hours: Vec<HoursFile>,
}

const fn first_version() -> u32 {
    PRICES_VERSION
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "crew", try_from = "CrewText")]
struct CrewFile(Crew);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "crew")]
struct CrewText {
    people: u32,
    hours_a_day: Texted<HoursADay>,
    rate: Texted<AboveZero>,
}

impl TryFrom<CrewText> for CrewFile {
    type Error = String;

    fn try_from(text: CrewText) -> Result<Self, String> {
        if !(1..=20).contains(&text.people) {
            return Err(format!("people: {} is not from 1 to 20", text.people));
        }
        Ok(Self(Crew {
            n: text.people,
            hours_a_day: text.hours_a_day.0.0,
            rate: Money(text.rate.0.0),
        }))
    }
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, rename = "carry", try_from = "CarryText")]
struct CarryFile(Carry);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "carry")]
struct CarryText {
    payload: Texted<Holds>,
    holds: Texted<Holds>,
    #[serde(default)]
    per_trip: Option<Texted<FromZero>>,
    #[serde(default)]
    hours_a_trip: Option<Texted<FromZero>>,
    #[serde(default)]
    barrow: Option<Texted<Holds>>,
}

impl TryFrom<CarryText> for CarryFile {
    type Error = String;

    fn try_from(text: CarryText) -> Result<Self, String> {
        let usual = Carry::default();
        let Holds::Mass(payload) = text.payload.0 else {
            return Err("payload: a weight, such as \"3000 lb\"".to_owned());
        };
        let Holds::Volume(holds) = text.holds.0 else {
            return Err("holds: a volume, such as \"3 yd3\"".to_owned());
        };
        let barrow = match text.barrow.map(|barrow| barrow.0) {
            None => usual.barrow,
            Some(Holds::Volume(barrow)) => barrow,
            Some(_) => return Err("barrow: a volume, such as \"5 ft3\"".to_owned()),
        };
        let number = |text: Option<Texted<FromZero>>| text.map_or(Decimal::ZERO, |text| text.0.0);
        Ok(Self(Carry {
            payload,
            holds,
            per_trip: Money(number(text.per_trip)),
            hours_a_trip: number(text.hours_a_trip),
            barrow,
        }))
    }
}

#[derive(Deserialize)]
#[serde(rename = "gain")]
enum GainFile {
    MarkUp(Texted<FromZero>),
    Margin(Texted<MarginPercent>),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "item", try_from = "ItemText")]
struct ItemFile(ItemPrice);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "item")]
struct ItemText {
    item: Texted<Item>,
    #[serde(default)]
    material: Option<String>,
    #[serde(default)]
    waste: Option<Texted<Percent>>,
    #[serde(default)]
    taxed: bool,
    offers: Vec<OfferFile>,
}

impl TryFrom<ItemText> for ItemFile {
    type Error = String;

    fn try_from(text: ItemText) -> Result<Self, String> {
        let item = text.item.0;
        if text.offers.is_empty() {
            return Err(format!(
                "{:?} has no offers: one at least is wanted",
                item.key()
            ));
        }
        let offers: Vec<Offer> = text.offers.into_iter().map(|offer| offer.0).collect();
        for (idx, offer) in offers.iter().enumerate() {
            if !fits(item, offer) {
                return Err(format!(
                    "{:?} is not sold by the {}; what fits is {}",
                    item.key(),
                    offer.unit.symbol(true),
                    fitting(item)
                ));
            }
            if offers
                .iter()
                .take(idx)
                .any(|before| before.supplier == offer.supplier)
            {
                return Err(format!(
                    "{:?} has two offers of the supplier {:?}",
                    item.key(),
                    offer.supplier
                ));
            }
        }
        Ok(Self(ItemPrice {
            item,
            material: text.material.map(MaterialKey),
            waste: text.waste.map_or(Decimal::ZERO, |waste| waste.0.0),
            is_taxed: text.taxed,
            offers,
        }))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "offer", try_from = "OfferText")]
struct OfferFile(Offer);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "offer")]
struct OfferText {
    supplier: String,
    price: Texted<PriceText>,
    #[serde(default)]
    holds: Option<Texted<Holds>>,
    #[serde(default)]
    step: Option<Texted<AboveZero>>,
    #[serde(default)]
    minimum: Option<Texted<FromZero>>,
    #[serde(default)]
    loose_density: Option<Texted<MassDensity>>,
    #[serde(default)]
    loose_to_compacted: Option<Texted<AboveZero>>,
    #[serde(default)]
    moisture: Option<Texted<Percent>>,
    #[serde(default)]
    comes: ComesFile,
}

impl TryFrom<OfferText> for OfferFile {
    type Error = String;

    fn try_from(text: OfferText) -> Result<Self, String> {
        if text.supplier.trim().is_empty() {
            return Err("supplier: a name is wanted".to_owned());
        }
        let PriceText { rate, unit } = text.price.0;
        let holds = text.holds.map(|holds| holds.0);
        if unit.measure() == SaleMeasure::Pack && holds.is_none() {
            return Err(format!(
                "one {} must say what it holds, such as holds: \"0.5 ft3\"",
                unit.symbol(true)
            ));
        }
        if holds.is_some() && !matches!(unit.measure(), SaleMeasure::Pack | SaleMeasure::Pieces) {
            return Err(format!(
                "one {} holds nothing: leave holds out",
                unit.symbol(true)
            ));
        }
        let ratio = text.loose_to_compacted.and_then(|ratio| ratio.0.0.to_f64());
        if let Some(ratio) = ratio
            && !(1.0..=2.0).contains(&ratio)
        {
            return Err(format!("loose_to_compacted: {ratio} is not from 1 to 2"));
        }
        Ok(Self(Offer {
            supplier: text.supplier.trim().to_owned(),
            rate: Money(rate),
            unit,
            holds,
            step: text.step.map_or(Decimal::ONE, |step| step.0.0),
            minimum: text.minimum.map_or(Decimal::ZERO, |minimum| minimum.0.0),
            loose_density: text.loose_density.map(|density| density.0),
            loose_to_compacted: ratio,
            moisture: text.moisture.and_then(|moisture| moisture.0.0.to_f64()),
            comes: text.comes.into(),
        }))
    }
}

#[derive(Default, Deserialize)]
#[serde(rename = "comes")]
enum ComesFile {
    #[default]
    PickedUp,
    Delivered {
        per_load: Texted<FromZero>,
        #[serde(default)]
        most: Option<Texted<Holds>>,
    },
}

impl From<ComesFile> for Comes {
    fn from(file: ComesFile) -> Self {
        match file {
            ComesFile::PickedUp => Self::PickedUp,
            ComesFile::Delivered { per_load, most } => Self::Delivered {
                per_load: Money(per_load.0.0),
                most: most.map(|most| most.0),
            },
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "hours", try_from = "StageText")]
struct HoursFile(StageHours);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "hours")]
struct StageText {
    stage: Texted<Stage>,
    hours: Texted<HoursText>,
}

impl TryFrom<StageText> for HoursFile {
    type Error = String;

    fn try_from(text: StageText) -> Result<Self, String> {
        let stage = text.stage.0;
        let HoursText { hours, per } = text.hours.0;
        let asked = match stage.unit() {
            WorkUnit::Area | WorkUnit::LiftArea => Some((SaleMeasure::Area, "ft2, yd2 or m2")),
            WorkUnit::Volume => Some((SaleMeasure::Volume, "yd3, ft3 or m3")),
            WorkUnit::Length => Some((SaleMeasure::Length, "ft or m")),
            WorkUnit::Pieces => Some((SaleMeasure::Pieces, "piece")),
            WorkUnit::Job => None,
        };
        match (asked, per.map(SaleUnit::measure)) {
            (None, None) => {}
            (Some((asked, _)), Some(found)) if asked == found => {}
            (None, Some(_)) => {
                return Err(format!(
                    "the hours of {:?} are for the job as a whole: leave the unit out",
                    stage.key()
                ));
            }
            (Some((_, units)), _) => {
                return Err(format!("the hours of {:?} are per {units}", stage.key()));
            }
        }
        Ok(Self(StageHours { stage, hours, per }))
    }
}

impl PricesFile {
    pub(super) const fn version(&self) -> u32 {
        self.version
    }

    pub(super) fn list(self) -> PriceList {
        PriceList {
            name: self.name,
            currency: self.currency.0,
            items: self.items.into_iter().map(|item| item.0).collect(),
            hours: self.hours.into_iter().map(|hours| hours.0).collect(),
            crew: self.crew.0,
            carry: self.carry.0,
            contingency: self
                .contingency
                .map_or(Decimal::ZERO, |percent| percent.0.0),
            gain: match self.gain {
                GainFile::MarkUp(percent) => Gain::MarkUp(percent.0.0),
                GainFile::Margin(percent) => Gain::Margin(percent.0.0),
            },
            tax: self.tax.map_or(Decimal::ZERO, |percent| percent.0.0),
            labour_taxed: self.labour_taxed,
            round_to: self.round_to.map_or(Decimal::ZERO, |round_to| round_to.0.0),
        }
    }
}

/// What the need of an item is measured by.
fn measures(item: Item) -> &'static [SaleMeasure] {
    match item {
        Item::Brick | Item::SecondBrick => {
            &[SaleMeasure::Pieces, SaleMeasure::Area, SaleMeasure::Mass]
        }
        Item::Base
        | Item::SettingBed
        | Item::Jointing
        | Item::UnsuitableSpoil
        | Item::TrimSpoil
        | Item::OldBedSpoil
        | Item::OldBrick => &[SaleMeasure::Volume, SaleMeasure::Mass],
        Item::Fabric => &[SaleMeasure::Area],
        Item::HaunchConcrete => &[SaleMeasure::Volume],
        Item::EdgingStrip | Item::FormBoard | Item::String => &[SaleMeasure::Length],
        Item::EdgingSpike | Item::FormStake | Item::FormScrew | Item::Spacer => {
            &[SaleMeasure::Pieces]
        }
        Item::Plate | Item::Saw => &[SaleMeasure::Days],
    }
}

fn fits(item: Item, offer: &Offer) -> bool {
    let measure = match offer.holds {
        Some(Holds::Volume(_)) => SaleMeasure::Volume,
        Some(Holds::Mass(_)) => SaleMeasure::Mass,
        Some(Holds::Length(_)) => SaleMeasure::Length,
        Some(Holds::Area(_)) => SaleMeasure::Area,
        Some(Holds::Pieces(_)) => SaleMeasure::Pieces,
        None => offer.unit.measure(),
    };
    measures(item).contains(&measure)
}

/// Units that fit an item, in words.
fn fitting(item: Item) -> String {
    let fits = |unit: &&SaleUnit| measures(item).contains(&unit.measure());
    let units: Vec<&str> = SaleUnit::ALL
        .iter()
        .filter(fits)
        .map(|unit| unit.key())
        .collect();
    if matches!(item, Item::Plate | Item::Saw) {
        units.join(", ")
    } else {
        format!("{}, or a pack that holds so much", units.join(", "))
    }
}
