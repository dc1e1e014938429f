//! The order as it is handed over: text for people, JSON for machines, CSV for a spreadsheet, a message for a supplier.

mod csv;
mod message;
mod text;
pub mod words;

pub use csv::order_csv;
pub use message::{Message, messages};
pub use text::order_text;

use serde::Serialize;
use underbrick_calc::order::{
    Comes, Cured, Currency, Decimal, Gain, Money, Order, OrderLine, Price, PriceList, Priced, Sold,
};
use underbrick_calc::site::{ShownIn, Site};

use crate::cautions::cautions;
use crate::wording::on_one_line;
use words::{how_it_comes, need_words, work_words};

/// The name of the format, as it stands in the JSON.
pub const ORDER_FORMAT: &str = "underbrick-order";

/// The number of the format, as it stands in the JSON.
pub const ORDER_VERSION: u32 = 1;

/// The order of a site, each way of rebuilding. Every decimal number is a text, so that no program takes it for a binary fraction.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OrderSheet {
    /// Always [`ORDER_FORMAT`].
    pub format: &'static str,
    /// Always [`ORDER_VERSION`].
    pub version: u32,
    /// Street address.
    pub address: String,
    /// Which walk there.
    pub walk: String,
    /// What the price list is called.
    pub price_list: String,
    /// Code of the currency.
    pub currency: &'static str,
    /// Decimals of its minor unit.
    pub decimals: u32,
    /// The way that is ordered: `relay`, `new-base` or `new-brick`.
    pub chosen: &'static str,
    /// Each way.
    pub ways: Vec<WaySheet>,
    /// What a sheet never leaves out.
    pub cautions: Vec<&'static str>,
}

/// One way of rebuilding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WaySheet {
    /// `relay`, `new-base` or `new-brick`.
    pub way: &'static str,
    /// In a few words.
    pub name: &'static str,
    /// Bought, taken away, hired.
    pub lines: Vec<LineRow>,
    /// Work by stage.
    pub labour: Vec<LabourRow>,
    /// Trips with one's own truck or trailer.
    pub trips: TripsRow,
    /// Barrow trips; `None` where the volumes are not known.
    pub barrow_trips: Option<u32>,
    /// Days on site.
    pub days: Vec<DayRow>,
    /// Put on the cost for what cannot be foreseen.
    pub contingency_percent: String,
    /// What is added to cost and contingency.
    pub gain: GainRow,
    /// Tax on lines that are taxed.
    pub tax_percent: String,
    /// Whether labour is taxed.
    pub labour_taxed: bool,
    /// The price is rounded up to a multiple of this; zero for none.
    pub round_to: String,
    /// What it comes to as the readings say.
    pub price: PriceRow,
    /// What it comes to if the worst pit holds everywhere; `None` where that is the same.
    pub worst: Option<PriceRow>,
    /// What becomes of each cause that was found.
    pub cures: Vec<CureRow>,
}

/// One line of the order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LineRow {
    /// Its word.
    pub item: &'static str,
    /// `Bought`, `Taken away` or `Hired`.
    pub group: &'static str,
    /// What it is called.
    pub name: String,
    /// What is needed, as the trade writes it.
    pub need: String,
    /// Whether that is the least.
    pub is_least: bool,
    /// Put on the need.
    pub waste_percent: String,
    /// Who sells it; `None` where nobody of the list does.
    pub supplier: Option<String>,
    /// Unit of sale.
    pub unit: Option<&'static str>,
    /// What is needed with waste, before rounding up.
    pub exact: Option<String>,
    /// As bought.
    pub count: Option<String>,
    /// Whether the count was locked.
    pub locked: bool,
    /// For one unit.
    pub rate: Option<String>,
    /// Whether the rate was set for this job.
    pub own_rate: bool,
    /// Count × rate.
    pub amount: Option<String>,
    /// Whether it is taxed.
    pub taxed: bool,
    /// Loads of the supplier.
    pub n_loads: u32,
    /// For one load.
    pub per_load: String,
    /// All loads.
    pub delivery: String,
    /// How the number comes about.
    pub how: Vec<String>,
    /// What others of the list would ask.
    pub others: Vec<OtherRow>,
}

/// What another supplier would ask.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OtherRow {
    /// Who.
    pub supplier: String,
    /// Unit of sale.
    pub unit: &'static str,
    /// As bought.
    pub count: Option<String>,
    /// For one unit.
    pub rate: String,
    /// Count × rate.
    pub amount: Option<String>,
    /// All loads.
    pub delivery: String,
}

/// Work of one stage.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LabourRow {
    /// Its word.
    pub stage: &'static str,
    /// As a heading.
    pub name: &'static str,
    /// How much work, as the trade writes it.
    pub work: String,
    /// In the unit of the list.
    pub work_amount: Option<String>,
    /// That unit; `None` for the job.
    pub per: Option<&'static str>,
    /// Hours for one unit.
    pub hours_each: Option<String>,
    /// Hours of one person.
    pub hours: Option<String>,
    /// For one hour.
    pub rate: String,
    /// Hours × rate.
    pub amount: Option<String>,
}

/// Trips with one's own truck or trailer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TripsRow {
    /// How many.
    pub n: u32,
    /// Without the crew's hours.
    pub cost: String,
    /// Hours of one person.
    pub hours: String,
}

/// One day on site.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DayRow {
    /// Counted from 1.
    pub number: usize,
    /// What is done, with the hours of the whole crew.
    pub stages: Vec<(&'static str, String)>,
    /// What must be there in the morning.
    pub on_site: Vec<&'static str>,
    /// What else is to be known.
    pub said: Vec<String>,
}

/// Mark-up or margin.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GainRow {
    /// `mark-up` or `margin`.
    pub kind: &'static str,
    /// How much.
    pub percent: String,
}

/// What it comes to; each an amount of money but for the hours.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[expect(missing_docs, reason = "named as in underbrick_calc::order::Price")]
pub struct PriceRow {
    pub material: String,
    pub delivery: String,
    pub taken_away: String,
    pub hire: String,
    pub labour: String,
    pub hours: String,
    pub cost: String,
    pub contingency: String,
    pub gain: String,
    pub tax: String,
    pub rounding: String,
    pub total: String,
    pub is_least: bool,
}

/// What becomes of a cause.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CureRow {
    /// The rule that found it.
    pub rule: String,
    /// What it is.
    pub cause: &'static str,
    /// `cured`, `not cured`, `other work needed` or `not said`.
    pub cured: &'static str,
    /// What is to be done.
    pub remedy: String,
}

/// The order of `site` on one sheet, at the prices of `list`.
#[must_use]
pub fn order_sheet(site: &Site, order: &Order, list: &PriceList) -> OrderSheet {
    OrderSheet {
        format: ORDER_FORMAT,
        version: ORDER_VERSION,
        address: on_one_line(&site.address),
        walk: on_one_line(&site.walk),
        price_list: on_one_line(&order.list),
        currency: order.currency.code,
        decimals: order.currency.decimals,
        chosen: order.chosen.key(),
        ways: order
            .ways
            .iter()
            .map(|priced| way_sheet(site, priced, order.currency, list))
            .collect(),
        cautions: cautions(site),
    }
}

/// Whether a way cures a cause, in words.
#[must_use]
pub const fn cured_words(cured: Cured) -> &'static str {
    match cured {
        Cured::Yes => "cured",
        Cured::No => "not cured",
        Cured::OtherWork => "other work needed",
        Cured::NotSaid => "not said",
    }
}

fn way_sheet(site: &Site, priced: &Priced, currency: Currency, list: &PriceList) -> WaySheet {
    let crew_rate = priced.crew_rate.unwrap_or_default();
    let (kind, percent) = match list.gain {
        Gain::MarkUp(percent) => ("mark-up", percent),
        Gain::Margin(percent) => ("margin", percent),
    };
    WaySheet {
        way: priced.way.key(),
        name: priced.way.name(),
        lines: priced
            .lines
            .iter()
            .map(|line| line_row(line, currency, site.shown_in))
            .collect(),
        labour: priced
            .labour
            .iter()
            .map(|labour| LabourRow {
                stage: labour.work.stage.key(),
                name: labour.work.stage.name(),
                work: work_words(labour, site.shown_in),
                work_amount: labour.amount.map(number),
                per: labour.per.map(|unit| unit.key()),
                hours_each: labour.hours_each.map(number),
                hours: labour.hours.map(number),
                rate: money(crew_rate),
                amount: labour.amount_paid.map(money),
            })
            .collect(),
        trips: TripsRow {
            n: priced.own_trips.n,
            cost: money(priced.own_trips.cost),
            hours: number(priced.own_trips.hours),
        },
        barrow_trips: priced.n_barrow_trips,
        days: priced
            .programme
            .days
            .iter()
            .zip(1..)
            .map(|(day, number_of_day)| DayRow {
                number: number_of_day,
                stages: day
                    .stages
                    .iter()
                    .map(|(stage, hours)| (stage.key(), number(*hours)))
                    .collect(),
                on_site: day.on_site.iter().map(|item| item.key()).collect(),
                said: day.said.clone(),
            })
            .collect(),
        contingency_percent: number(list.contingency),
        gain: GainRow {
            kind,
            percent: number(percent),
        },
        tax_percent: number(list.tax),
        labour_taxed: list.labour_taxed,
        round_to: number(list.round_to),
        price: price_row(&priced.price),
        worst: priced.worst.as_ref().map(price_row),
        cures: priced
            .cures
            .iter()
            .map(|cure| CureRow {
                rule: cure.rule_id.clone(),
                cause: cure.cause,
                cured: cured_words(cure.cured),
                remedy: cure.remedy.clone(),
            })
            .collect(),
    }
}

fn line_row(line: &OrderLine, currency: Currency, shown: ShownIn) -> LineRow {
    let sold = line.sold.as_ref();
    let per_load = sold.map_or(Money::default(), |sold| match &sold.comes {
        Comes::Delivered { per_load, .. } => *per_load,
        Comes::PickedUp => Money::default(),
    });
    LineRow {
        item: line.item.key(),
        group: line.item.group().name(),
        name: on_one_line(&line.need.name),
        need: need_words(&line.need, shown),
        is_least: line.need.is_least,
        waste_percent: number(line.waste),
        supplier: sold.map(|sold| on_one_line(&sold.supplier)),
        unit: sold.map(|sold| sold.unit.key()),
        exact: sold.and_then(|sold| sold.exact).map(number),
        count: sold.and_then(|sold| sold.count).map(number),
        locked: sold.is_some_and(|sold| sold.is_locked),
        rate: sold.map(|sold| money(sold.rate)),
        own_rate: sold.is_some_and(|sold| sold.is_own_rate),
        amount: sold.and_then(|sold| sold.amount).map(money),
        taxed: sold.is_some_and(|sold| sold.is_taxed),
        n_loads: sold.map_or(0, |sold| sold.n_loads),
        per_load: money(per_load),
        delivery: money(sold.map_or(Money::default(), |sold| sold.delivery)),
        how: how_it_comes(line, currency, shown)
            .iter()
            .map(|step| on_one_line(step))
            .collect(),
        others: line.others.iter().map(other_row).collect(),
    }
}

fn other_row(sold: &Sold) -> OtherRow {
    OtherRow {
        supplier: on_one_line(&sold.supplier),
        unit: sold.unit.key(),
        count: sold.count.map(number),
        rate: money(sold.rate),
        amount: sold.amount.map(money),
        delivery: money(sold.delivery),
    }
}

fn price_row(price: &Price) -> PriceRow {
    PriceRow {
        material: money(price.material),
        delivery: money(price.delivery),
        taken_away: money(price.taken_away),
        hire: money(price.hire),
        labour: money(price.labour),
        hours: number(price.hours),
        cost: money(price.cost),
        contingency: money(price.contingency),
        gain: money(price.gain),
        tax: money(price.tax),
        rounding: money(price.rounding),
        total: money(price.total),
        is_least: price.is_least,
    }
}

/// Decimals with which money is written at the least: every currency of [`underbrick_calc::order::CURRENCIES`] has two.
const CENTS: u32 = 2;

fn number(number: Decimal) -> String {
    number.normalize().to_string()
}

/// Money with the cents of its currency, and with more where a rate has more.
fn money(money: Money) -> String {
    let normal = money.0.normalize();
    let decimals = normal.scale().max(CENTS);
    format!("{:.*}", decimals as usize, normal)
}

/// The sheet as JSON: the same bytes for the same site, keys in a fixed order, lines ended by `\n`.
#[must_use]
pub fn order_json(sheet: &OrderSheet) -> String {
    crate::json::written(sheet)
}
