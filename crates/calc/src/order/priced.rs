//! What the order comes to.

use super::item::{Item, Way};
use super::money::{Currency, Money};
use super::need::{Need, Needs, Work};
use super::price_list::Comes;
use super::sale::SaleUnit;
use super::stage::Stage;
use crate::findings::Weight;
use crate::place::Place;
use crate::quantity::{Mass, Volume};
use rust_decimal::Decimal;

/// The order: the same readings, three ways of rebuilding.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// What the price list is called.
    pub list: String,
    /// Currency of every amount.
    pub currency: Currency,
    /// The way that is ordered.
    pub chosen: Way,
    /// Each way, in the order of [`Way::ALL`].
    pub ways: Vec<Priced>,
}

/// One way of rebuilding, priced.
#[derive(Clone, Debug, PartialEq)]
pub struct Priced {
    /// Which.
    pub way: Way,
    /// What the design needs.
    pub needs: Needs,
    /// Bought, taken away, hired: in the order of [`Item::ALL`].
    pub lines: Vec<OrderLine>,
    /// Work by stage, in the order in which it is done.
    pub labour: Vec<Labour>,
    /// What one hour of one person costs; `None` where neither the job nor the list has it.
    pub crew_rate: Option<Money>,
    /// Trips with one's own truck or trailer.
    pub own_trips: Trips,
    /// Barrow trips; `None` where the volumes are not known.
    pub n_barrow_trips: Option<u32>,
    /// Days and what must be on site when.
    pub programme: Programme,
    /// What it comes to as the readings say.
    pub price: Price,
    /// What it comes to if the worst pit holds everywhere; `None` where that is no more, or there is no other ground.
    pub worst: Option<Price>,
    /// What each cause that was found becomes.
    pub cures: Vec<Cure>,
    /// What is to be looked at before this way is ordered.
    pub remarks: Vec<Remark>,
}

/// Something to look at in an order.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// Where.
    pub place: Place,
    /// How much it matters.
    pub weight: Weight,
    /// What it is, in words.
    pub text: String,
    /// What can be done about it; empty where the text says it.
    pub remedy: String,
}

/// One line of the order.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderLine {
    /// Of what.
    pub item: Item,
    /// What is needed; days of hire too.
    pub need: Need,
    /// Put on the need, in percent.
    pub waste: Decimal,
    /// Who sells it, in which unit, at which rate; `None` where the list does not price it or the unit does not fit.
    pub sold: Option<Sold>,
    /// What other suppliers of the list would ask, in the order of the list.
    pub others: Vec<Sold>,
    /// Why there is no price, in words; and whatever else is to be said about the line.
    pub said: Vec<String>,
}

/// A line as one supplier sells it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sold {
    /// Who.
    pub supplier: String,
    /// In which unit.
    pub unit: SaleUnit,
    /// What the readings need of it with waste, before rounding up; `None` where the need is not known.
    pub exact: Option<Decimal>,
    /// As bought: rounded up once, to step and minimum; or as it was locked.
    pub count: Option<Decimal>,
    /// Whether the count was locked by the person.
    pub is_locked: bool,
    /// What readings ask now, where a lock holds another count.
    pub asked_now: Option<Decimal>,
    /// For one unit.
    pub rate: Money,
    /// Whether the rate was set for this job and not taken from the list.
    pub is_own_rate: bool,
    /// Count × rate.
    pub amount: Option<Money>,
    /// How it comes.
    pub comes: Comes,
    /// Loads of the supplier; zero where it is fetched.
    pub n_loads: u32,
    /// Loads × rate for a load.
    pub delivery: Money,
    /// Weight of what is bought, as delivered, where it is known.
    pub weighs: Option<Mass>,
    /// Volume of what is bought, as tipped, where it is known.
    pub volume: Option<Volume>,
    /// Whether it is taxed.
    pub is_taxed: bool,
}

/// Work of one stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Labour {
    /// What the design asks for.
    pub work: Work,
    /// Amount of work in the unit of the list.
    pub amount: Option<Decimal>,
    /// The unit; `None` for the job as a whole.
    pub per: Option<SaleUnit>,
    /// Hours of one person for one unit; `None` where the list has none.
    pub hours_each: Option<Decimal>,
    /// Whether that was set for this job and not taken from the list.
    pub is_own: bool,
    /// Hours of one person, to the hundredth.
    pub hours: Option<Decimal>,
    /// Hours × rate of the crew.
    pub amount_paid: Option<Money>,
    /// Why the hours are not known.
    pub said: Vec<String>,
}

/// Trips with one's own truck or trailer, there and back.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Trips {
    /// How many.
    pub n: u32,
    /// Cost without the crew's hours.
    pub cost: Money,
    /// Hours of one person.
    pub hours: Decimal,
}

/// What it comes to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Price {
    /// Material as bought.
    pub material: Money,
    /// Delivery and own trips.
    pub delivery: Money,
    /// What is taken away.
    pub taken_away: Money,
    /// Hire.
    pub hire: Money,
    /// Hours of the crew.
    pub labour: Money,
    /// Hours of one person, all of them.
    pub hours: Decimal,
    /// The sum of these.
    pub cost: Money,
    /// Put on the cost for what cannot be foreseen.
    pub contingency: Money,
    /// Mark-up or margin.
    pub gain: Money,
    /// Tax.
    pub tax: Money,
    /// Put on so that the price is a friendly figure.
    pub rounding: Money,
    /// What the homeowner pays.
    pub total: Money,
    /// Whether it is the least: a line without a price, or a need that is not known or is the least.
    pub is_least: bool,
}

/// Days on site.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Programme {
    /// People.
    pub n_crew: u32,
    /// Each day in turn.
    pub days: Vec<Day>,
}

/// One day on site.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Day {
    /// Stages and hours of the whole crew spent on each.
    pub stages: Vec<(Stage, Decimal)>,
    /// What must be there in the morning.
    pub on_site: Vec<Item>,
    /// What else is to be known: dry weather, concrete that must set.
    pub said: Vec<String>,
}

/// What becomes of a cause that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// The rule that found it.
    pub rule_id: String,
    /// What it is, in a few words.
    pub cause: &'static str,
    /// Whether this way cures it.
    pub cured: Cured,
    /// What the rule says is to be done.
    pub remedy: String,
}

/// Whether a way of rebuilding cures a cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cured {
    /// It does.
    Yes,
    /// It does not.
    No,
    /// Other work must be done as well.
    OtherWork,
    /// The rule does not say.
    NotSaid,
}

impl Order {
    /// The way that is ordered.
    #[must_use]
    pub fn chosen(&self) -> Option<&Priced> {
        self.way(self.chosen)
    }

    /// One way.
    #[must_use]
    pub fn way(&self, way: Way) -> Option<&Priced> {
        self.ways.iter().find(|priced| priced.way == way)
    }
}

impl Priced {
    /// The line of an item.
    #[must_use]
    pub fn line(&self, item: Item) -> Option<&OrderLine> {
        self.lines.iter().find(|line| line.item == item)
    }
}
