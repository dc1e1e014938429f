//! What an owner is told, part by part: for a screen that shows one thing at a time. The words are those of the owner sheet.

use super::mend_parts;
use crate::agreement::{
    Design, date_in_words, days_in_words, layers_shown, lead, rest_of_the_causes,
    seen_in_plain_words, way_in_plain_words,
};
use crate::dates::civil;
use crate::order::words::way_price_words;
use underbrick_calc::order::Way;
use underbrick_calc::site::Signature;

/// Why the walk failed, as far as it is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WhyTold {
    /// The one sentence that matters.
    pub lead: String,
    /// The other causes, the weightiest first.
    pub others: Vec<String>,
    /// What is seen on the walk.
    pub seen: Vec<String>,
    /// What the holes under the brick showed, or that none was dug.
    pub under: Vec<String>,
}

/// One way that can be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayTold {
    /// Which.
    pub way: Way,
    /// In plain words.
    pub name: String,
    /// Whether it is the one that is designed and ordered.
    pub is_chosen: bool,
    /// Its price, or from where to where; `not known` where nothing is priced.
    pub price: String,
    /// How many days it takes.
    pub days: String,
    /// What it does about each cause: what becomes of it, and the causes.
    pub mends: Vec<(&'static str, String)>,
}

/// Why the walk failed.
#[must_use]
pub fn why_told(design: Design<'_>) -> WhyTold {
    let site = design.site;
    WhyTold {
        lead: lead(design),
        others: rest_of_the_causes(design),
        seen: site
            .signs
            .iter()
            .filter_map(|sign| seen_in_plain_words(sign, site.shown_in))
            .collect(),
        under: layers_shown(design),
    }
}

/// What can be chosen, in the order of the ways; empty where nothing can be priced.
#[must_use]
pub fn ways_told(design: Design<'_>) -> Vec<WayTold> {
    let Some(order) = &design.results.order else {
        return Vec::new();
    };
    let told = order.ways.iter().map(|priced| WayTold {
        way: priced.way,
        name: way_in_plain_words(priced.way).to_owned(),
        is_chosen: priced.way == order.chosen,
        price: way_price_words(order.currency, priced),
        days: days_in_words(design, priced),
        mends: mend_parts(design, priced),
    });
    told.collect()
}

/// The day on which something was signed, in words; `None` where the device's clock could not be read.
#[must_use]
pub fn signed_on(signature: &Signature) -> Option<String> {
    // Days since the start of 1970, where it was signed.
    date_in_words(civil(signature.stamp.local_s()?.div_euclid(86_400))?)
}
