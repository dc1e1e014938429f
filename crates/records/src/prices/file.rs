//! A price list as it stands in its file. What each value may be is in `texts`; what values must be to one another, in `fit`.

use serde::de::Error;
use serde::{Deserialize, Deserializer};
use underbrick_calc::order::{Comes, Currency, Gain, Holds, Item, Money, Stage};
use underbrick_calc::quantity::MassDensity;

use super::PRICES_VERSION;
use super::texts::{
    AboveZero, BoxVolume, FromZero, HoursADay, HoursText, MarginPercent, MarkUpPercent, Payload,
    Percent, PriceText, Ratio, Supplier, Texted,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "price list")]
pub(super) struct PricesFile {
    #[serde(default = "first_version")]
    pub version: u32,
    #[serde(default)]
    pub name: String,
    pub currency: Texted<Currency>,
    pub crew: CrewFile,
    #[serde(default)]
    pub carry: Option<CarryFile>,
    #[serde(default)]
    pub contingency: Option<Texted<Percent>>,
    pub gain: GainFile,
    #[serde(default)]
    pub tax: Option<Texted<Percent>>,
    #[serde(default)]
    pub labour_taxed: bool,
    #[serde(default)]
    pub round_to: Option<Texted<FromZero>>,
    pub items: Vec<ItemFile>,
    pub hours: Vec<HoursFile>,
}

const fn first_version() -> u32 {
    PRICES_VERSION
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "crew")]
pub(super) struct CrewFile {
    #[serde(deserialize_with = "one_to_twenty")]
    pub people: u32,
    pub hours_a_day: Texted<HoursADay>,
    pub rate: Texted<AboveZero>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "carry")]
pub(super) struct CarryFile {
    pub payload: Texted<Payload>,
    pub holds: Texted<BoxVolume>,
    #[serde(default)]
    pub per_trip: Option<Texted<FromZero>>,
    #[serde(default)]
    pub hours_a_trip: Option<Texted<FromZero>>,
    #[serde(default)]
    pub barrow: Option<Texted<BoxVolume>>,
}

#[derive(Deserialize)]
#[serde(rename = "gain")]
pub(super) enum GainFile {
    MarkUp(Texted<MarkUpPercent>),
    Margin(Texted<MarginPercent>),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "item")]
pub(super) struct ItemFile {
    pub item: Texted<Item>,
    #[serde(default)]
    pub material: Option<String>,
    #[serde(default)]
    pub waste: Option<Texted<Percent>>,
    #[serde(default)]
    pub taxed: bool,
    pub offers: Vec<OfferFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "offer")]
pub(super) struct OfferFile {
    pub supplier: Texted<Supplier>,
    pub price: Texted<PriceText>,
    #[serde(default)]
    pub holds: Option<Texted<Holds>>,
    #[serde(default)]
    pub step: Option<Texted<AboveZero>>,
    #[serde(default)]
    pub minimum: Option<Texted<FromZero>>,
    #[serde(default)]
    pub loose_density: Option<Texted<MassDensity>>,
    #[serde(default)]
    pub loose_to_compacted: Option<Texted<Ratio>>,
    #[serde(default)]
    pub moisture: Option<Texted<Percent>>,
    #[serde(default)]
    pub comes: ComesFile,
}

#[derive(Default, Deserialize)]
#[serde(rename = "comes")]
pub(super) enum ComesFile {
    #[default]
    PickedUp,
    Delivered {
        per_load: Texted<FromZero>,
        #[serde(default)]
        most: Option<Texted<Holds>>,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "hours")]
pub(super) struct HoursFile {
    pub stage: Texted<Stage>,
    pub hours: Texted<HoursText>,
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

impl From<GainFile> for Gain {
    fn from(file: GainFile) -> Self {
        match file {
            GainFile::MarkUp(percent) => Self::MarkUp(percent.0.0),
            GainFile::Margin(percent) => Self::Margin(percent.0.0),
        }
    }
}

fn one_to_twenty<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    let people = u32::deserialize(deserializer)?;
    if (1..=20).contains(&people) {
        Ok(people)
    } else {
        Err(D::Error::custom(format!(
            "people: {people} is not from 1 to 20"
        )))
    }
}
