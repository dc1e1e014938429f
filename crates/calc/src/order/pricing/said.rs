//! What is said of a line of the order.

use super::super::need::{Need, NeedAmount};
use super::super::price_list::Offer;
use super::super::priced::Remark;
use super::bought::{self, Misfit};
use crate::findings::Weight;
use crate::order::Item;
use crate::place::Place;

/// What is said of one line.
pub(super) struct Said {
    pub item: Item,
    name: String,
    /// Whether something was left out of its amount.
    pub is_least: bool,
    pub remarks: Vec<Remark>,
}

impl Said {
    pub(super) fn of(need: &Need) -> Self {
        Self {
            item: need.item,
            name: need.name.clone(),
            is_least: false,
            remarks: Vec::new(),
        }
    }

    /// Something to look at before the work goes on.
    pub(super) fn warn(&mut self, place: Place, text: &str, remedy: &str) {
        let text = format!("{}: {text}.", self.name);
        self.push(place, Weight::Warning, text, remedy);
    }

    /// A value that was not taken.
    pub(super) fn refuse(&mut self, place: Place, text: &str, remedy: &str) {
        self.push(place, Weight::Warning, format!("{text}."), remedy);
    }

    /// Something worth knowing.
    pub(super) fn note(&mut self, place: Place, text: &str, remedy: &str) {
        let text = format!("{}: {text}.", self.name);
        self.push(place, Weight::Note, text, remedy);
    }

    fn push(&mut self, place: Place, weight: Weight, text: String, remedy: &str) {
        self.remarks.push(Remark {
            place,
            weight,
            text,
            remedy: remedy.to_owned(),
        });
    }
}

/// Why a unit does not fit, and which would.
pub(super) fn misfit_words(misfit: Misfit, amount: Option<&NeedAmount>, offer: &Offer) -> String {
    let fit = amount.map(bought::units_that_fit).unwrap_or_default();
    let unit = offer.unit.key();
    match misfit {
        Misfit::HoldsNothing => format!(
            "the price list does not say what one {unit} of {} holds; units that fit are {fit}",
            offer.supplier
        ),
        Misfit::OtherMeasure if offer.holds.is_some() => format!(
            "what one {unit} of {} holds does not fit; units that fit are {fit}",
            offer.supplier
        ),
        Misfit::OtherMeasure => format!(
            "{} sells it by the {unit}, which does not fit; units that fit are {fit}",
            offer.supplier
        ),
        Misfit::TooMuch => format!(
            "so many of the unit “{unit}” of {} are more than can be reckoned",
            offer.supplier
        ),
    }
}
