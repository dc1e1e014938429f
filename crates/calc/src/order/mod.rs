//! From the section and the plan to what is ordered: quantities as they are bought, trips and loads, hours, price.

mod item;
mod moist;
mod money;
mod need;
mod price_list;
mod priced;
mod pricing;
mod sale;
mod stage;
mod takeoff;
mod worst;

pub use item::{Item, ItemGroup, Way};
pub use money::{CURRENCIES, Currency, Money};
pub use need::{Figure, Need, NeedAmount, Needs, Step, Work, WorkAmount};
pub use price_list::{Carry, Comes, Crew, Gain, ItemPrice, Offer, PriceList, StageHours};
pub use priced::{
    Cure, Cured, Day, Labour, Order, OrderLine, Price, Priced, Programme, Remark, Sold, Trips,
};
pub use pricing::priced;
pub use rust_decimal::Decimal;
pub use sale::{Holds, SaleMeasure, SaleUnit};
pub use stage::{Stage, WorkUnit};
pub use takeoff::needs;
pub(crate) use worst::worst_site;

use crate::bed::Bed;
use crate::catalogue::Catalogue;
use crate::findings::Findings;
use crate::findings::rules::CauseFound;
use crate::ground::Ground;
use crate::lay::Lay;
use crate::line::Line;
use crate::site::Site;

/// What the stages before found. What could not be computed is `None`.
#[derive(Clone, Copy, Debug)]
pub struct Found<'a> {
    /// Run, old surface, grade line.
    pub line: Option<&'a Line>,
    /// Pits in levels.
    pub ground: Option<&'a Ground>,
    /// Section, lifts, edges, earthwork.
    pub bed: Option<&'a Bed>,
    /// Every brick.
    pub lay: Option<&'a Lay>,
    /// Why the old walk failed.
    pub causes: &'a [CauseFound],
}

/// The order of a site, each way of rebuilding priced. `worst` is what the stages find if the worst pit holds everywhere; `None` where
/// that is no other ground. A line that cannot be known, or has no price, is there and says so.
#[must_use]
pub fn order(
    site: &Site,
    catalogue: &Catalogue,
    found: Found<'_>,
    worst: Option<Found<'_>>,
    findings: &mut Findings,
) -> Order {
    let list = &moist::with_moisture(catalogue, &site.bed.base_material);
    let ways = Way::ALL
        .into_iter()
        .map(|way| {
            let likely = needs(site, catalogue, found, way);
            let worst = worst.map(|worst| needs(site, catalogue, worst, way));
            priced(site, list, way, likely, worst.as_ref(), found.causes)
        })
        .collect();
    let order = Order {
        list: list.name.clone(),
        currency: list.currency,
        chosen: site.order.way,
        ways,
    };
    pricing::note(&order, findings);
    order
}
