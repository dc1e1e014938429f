//! Needs as they are bought, at the prices of a list.

use super::item::Way;
use super::need::Needs;
use super::price_list::PriceList;
use super::priced::{Order, Price, Priced, Programme, Trips};
use crate::findings::Findings;
use crate::findings::rules::CauseFound;
use crate::site::Site;

/// One way of rebuilding, priced.
#[must_use]
pub fn priced(
    _site: &Site,
    _list: &PriceList,
    way: Way,
    needs: Needs,
    _worst: Option<&Needs>,
    _causes: &[CauseFound],
) -> Priced {
    Priced {
        way,
        needs,
        lines: Vec::new(),
        labour: Vec::new(),
        own_trips: Trips::default(),
        n_barrow_trips: None,
        programme: Programme::default(),
        price: Price::default(),
        worst: None,
        cures: Vec::new(),
    }
}

/// Notes what is to be said of the order.
pub(super) fn note(_site: &Site, _order: &Order, _findings: &mut Findings) {}
