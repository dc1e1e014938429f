//! Needs as they are bought, at the prices of a list.

mod bought;
mod carried;
mod cures;
mod hours;
mod line;
mod programme;
mod said;
mod shared_loads;
mod total;

use super::item::{Item, Way};
use super::money::Money;
use super::need::Needs;
use super::price_list::PriceList;
use super::priced::{Labour, Order, Price, Priced, Programme, Remark, Trips};
use crate::findings::rules::CauseFound;
use crate::findings::{Findings, Source};
use crate::site::Site;
use line::Lined;

/// One way of rebuilding, priced. What was set for the job goes before the list; what cannot be true there is left out, and a remark
/// says so.
#[must_use]
pub fn priced(
    site: &Site,
    list: &PriceList,
    way: Way,
    needs: Needs,
    worst: Option<&Needs>,
    causes: &[CauseFound],
) -> Priced {
    let likely = Reckoned::of(site, list, &needs);
    let worst = worst
        .map(|worst| Reckoned::of(site, list, worst).price)
        .filter(|worst| worst.total > likely.price.total);
    Priced {
        way,
        n_barrow_trips: carried::barrow_trips(&needs, &list.carry),
        needs,
        lines: likely.lines.into_iter().map(|lined| lined.line).collect(),
        labour: likely.labour,
        crew_rate: likely.crew_rate,
        own_trips: likely.trips,
        programme: likely.programme,
        price: likely.price,
        worst,
        cures: cures::cures(way, causes),
        remarks: likely.remarks,
    }
}

/// Notes what is to be said of the way that is ordered.
pub(super) fn note(order: &Order, findings: &mut Findings) {
    for remark in order.chosen().iter().flat_map(|priced| &priced.remarks) {
        findings.note(
            remark.place,
            remark.weight,
            Source::Readings,
            remark.text.clone(),
            remark.remedy.clone(),
        );
    }
}

/// What needs come to.
struct Reckoned {
    lines: Vec<Lined>,
    labour: Vec<Labour>,
    crew_rate: Option<Money>,
    trips: Trips,
    programme: Programme,
    price: Price,
    remarks: Vec<Remark>,
}

impl Reckoned {
    fn of(site: &Site, list: &PriceList, needs: &Needs) -> Self {
        let mut remarks = Vec::new();
        let crew = hours::crew(site, list, &mut remarks);
        let labour: Vec<Labour> = needs
            .work
            .iter()
            .map(|work| hours::labour(site, list, work, crew.rate, &mut remarks))
            .collect();
        let mut planned = programme::plan(needs, &labour, crew);
        let mut lines: Vec<Lined> = Item::ALL
            .into_iter()
            .filter_map(|item| {
                let hired = planned.hire.iter().find(|need| need.item == item);
                match needs.of(item).or(hired) {
                    Some(need) => Some(line::line(site, list, need)),
                    None => {
                        site.order.line(item)?.locked?;
                        Some(line::not_needed(site, list, item))
                    }
                }
            })
            .collect();
        shared_loads::share(list, &mut lines);
        remarks.extend(lines.iter().flat_map(|line| line.remarks.iter().cloned()));
        let trips = carried::own_trips(list, lines.iter().map(|lined| &lined.line));
        let price = total::price(list, &lines, &labour, trips, crew.rate);
        if let Some(trips) = trips {
            programme::tell_trips(&mut planned.programme, trips);
        }
        Self {
            lines,
            labour,
            crew_rate: crew.rate,
            trips: trips.unwrap_or_default(),
            programme: planned.programme,
            price,
            remarks,
        }
    }
}
