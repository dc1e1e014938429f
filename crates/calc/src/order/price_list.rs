//! A price list: what a person's suppliers ask, and how long his own work takes.

use super::item::Item;
use super::money::{Currency, Money};
use super::sale::{Holds, SaleUnit};
use super::stage::Stage;
use crate::quantity::{Mass, MassDensity, Volume};
use crate::site::MaterialKey;
use rust_decimal::Decimal;

/// Prices, hours and habits of one person.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PriceList {
    /// What the person calls it.
    pub name: String,
    /// Currency of every amount.
    pub currency: Currency,
    /// What is bought, hired and taken away. An item may stand several times, once for each material.
    pub items: Vec<ItemPrice>,
    /// Hours of each stage.
    pub hours: Vec<StageHours>,
    /// The crew.
    pub crew: Crew,
    /// What carries it.
    pub carry: Carry,
    /// Put on the cost for what cannot be foreseen, in percent.
    pub contingency: Decimal,
    /// What is added to cost and contingency.
    pub gain: Gain,
    /// Tax in percent, on lines that are taxed.
    pub tax: Decimal,
    /// Whether labour is taxed.
    pub labour_taxed: bool,
    /// The price is rounded up to a multiple of this; zero for none.
    pub round_to: Decimal,
}

/// What is asked for an item.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemPrice {
    /// Of what.
    pub item: Item,
    /// Only for this material; `None` for any.
    pub material: Option<MaterialKey>,
    /// Put on the need for what is spilt, broken, cut badly, in percent.
    pub waste: Decimal,
    /// Whether it is taxed.
    pub is_taxed: bool,
    /// Suppliers, the person's first choice first; never empty.
    pub offers: Vec<Offer>,
}

/// What one supplier asks.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Who.
    pub supplier: String,
    /// For one unit, above zero.
    pub rate: Money,
    /// The unit.
    pub unit: SaleUnit,
    /// What one pack, or one piece of something long, holds.
    pub holds: Option<Holds>,
    /// Sold in steps of so many units, above zero.
    pub step: Decimal,
    /// No less than so many units.
    pub minimum: Decimal,
    /// What the supplier says it weighs, as tipped and dry; goes before the catalogue.
    pub loose_density: Option<MassDensity>,
    /// What the supplier says its loose volume is to its compacted; goes before the catalogue.
    pub loose_to_compacted: Option<f64>,
    /// Water by dry weight, in percent, where it is sold by weight.
    pub moisture: Option<f64>,
    /// How it comes.
    pub comes: Comes,
}

/// How something comes to the site, or leaves it.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Comes {
    /// Fetched with one's own truck or trailer, [`Carry`].
    #[default]
    PickedUp,
    /// Brought by the supplier.
    Delivered {
        /// For each load.
        per_load: Money,
        /// The most that one load carries; `None` where one load does whatever is ordered.
        most: Option<Holds>,
    },
}

/// How long a stage takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StageHours {
    /// Which stage.
    pub stage: Stage,
    /// Hours of one person for one [`StageHours::per`].
    pub hours: Decimal,
    /// The unit; [`SaleUnit::Piece`] also for cuts, `None` for the job as a whole.
    pub per: Option<SaleUnit>,
}

/// The crew.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crew {
    /// How many.
    pub n: u32,
    /// Hours of work in a day.
    pub hours_a_day: Decimal,
    /// One hour of one person.
    pub rate: Money,
}

/// What carries things.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carry {
    /// What the truck or the trailer may carry.
    pub payload: Mass,
    /// What its box holds.
    pub holds: Volume,
    /// What one trip costs, there and back, without the crew's hours.
    pub per_trip: Money,
    /// Hours of one person for one trip.
    pub hours_a_trip: Decimal,
    /// What a barrow holds.
    pub barrow: Volume,
}

/// What is added to cost and contingency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gain {
    /// So many percent of the cost.
    MarkUp(Decimal),
    /// So many percent of the price: below 100.
    Margin(Decimal),
}

impl Default for Crew {
    fn default() -> Self {
        Self {
            n: 2,
            hours_a_day: Decimal::from(8),
            rate: Money::default(),
        }
    }
}

impl Default for Gain {
    fn default() -> Self {
        Self::MarkUp(Decimal::ZERO)
    }
}

impl Default for Carry {
    /// A trailer of 2,000 lb and 2 yd³, a barrow of 5 ft³: common practice, no source.
    fn default() -> Self {
        use crate::quantity::{CUBIC_FOOT_M3, CUBIC_YARD_M3, POUND_KG, cubic_metres, unit};
        Self {
            payload: Mass::new::<unit::kilogram>(2000.0 * POUND_KG),
            holds: cubic_metres(2.0 * CUBIC_YARD_M3),
            per_trip: Money::default(),
            hours_a_trip: Decimal::ZERO,
            barrow: cubic_metres(5.0 * CUBIC_FOOT_M3),
        }
    }
}

impl PriceList {
    /// What is asked for an item of that material: the entry for the material goes before the one for any.
    #[must_use]
    pub fn price(&self, item: Item, material: Option<&MaterialKey>) -> Option<&ItemPrice> {
        let of_item = || self.items.iter().filter(move |price| price.item == item);
        of_item()
            .find(|price| price.material.is_some() && price.material.as_ref() == material)
            .or_else(|| of_item().find(|price| price.material.is_none()))
    }

    /// How long a stage takes.
    #[must_use]
    pub fn hours_of(&self, stage: Stage) -> Option<&StageHours> {
        self.hours.iter().find(|hours| hours.stage == stage)
    }
}
