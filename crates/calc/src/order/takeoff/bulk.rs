//! What is tipped: from in place to loose and to its weight.

use super::super::need::{Figure, NeedAmount, Step};
use super::super::price_list::Offer;
use super::super::sale::{Holds, SaleMeasure};
use crate::catalogue::{DeliveredMoisture, Material};
use crate::quantity::{MassDensity, Volume, kilograms_per_cubic_metre};

/// Figures of a material that is compacted in place, as the catalogue has them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Compacted<'a> {
    /// Loose ÷ compacted volume.
    pub loose_to_compacted: f64,
    /// Where that comes from.
    pub ratio_source: &'a str,
    /// Dry.
    pub density: MassDensity,
    /// Where that comes from.
    pub density_source: String,
    /// As delivered; `None` where it comes dry.
    pub moisture: Option<&'a DeliveredMoisture>,
}

/// The words for a compacted density that is loose density × ratio.
pub(super) fn from_loose(material: &Material) -> String {
    format!(
        "loose density × loose to compacted; loose density: {}",
        material.source_of("loose density")
    )
}

/// A ratio and where it comes from: the supplier's goes before the catalogue's.
pub(super) fn loose_to_compacted(figures: &Compacted<'_>, offer: Option<&Offer>) -> (f64, String) {
    let said = offer.and_then(|offer| {
        let ratio = offer.loose_to_compacted?;
        // Nothing grows by compacting.
        (ratio.is_finite() && ratio >= 1.0).then(|| (ratio, supplier(offer)))
    });
    said.unwrap_or_else(|| (figures.loose_to_compacted, figures.ratio_source.to_owned()))
}

/// So much in place, as tipped and as it weighs dry, with the steps that lead there.
///
/// The weight is what the compacted volume weighs by the catalogue, whatever a supplier says of how loose it comes; it is the loose
/// volume's where the supplier says what that weighs.
pub(super) fn tipped(
    in_place: Volume,
    figures: &Compacted<'_>,
    offer: Option<&Offer>,
) -> (NeedAmount, Vec<Step>) {
    let (ratio, ratio_source) = loose_to_compacted(figures, offer);
    let loose = in_place * ratio;
    let (dry_mass, density) = match loose_density(offer) {
        Some((density, source)) => (
            loose * density,
            Step::new("loose dry density", Figure::Density(density)).from(source),
        ),
        None => (
            in_place * figures.density,
            Step::new("compacted dry density", Figure::Density(figures.density))
                .from(figures.density_source.clone()),
        ),
    };
    let amount = NeedAmount::Bulk {
        in_place,
        loose,
        dry_mass,
    };
    let mut steps = vec![
        Step::new("in place", Figure::Volume(in_place)),
        Step::new("× loose to compacted", Figure::Ratio(ratio)).from(ratio_source),
        Step::new("loose", Figure::Volume(loose)),
        density,
        Step::new("dry mass", Figure::Mass(dry_mass)),
    ];
    steps.extend(
        moisture(figures, offer)
            .into_iter()
            .flat_map(|(percent, source)| {
                [
                    Step::new("moisture as delivered", Figure::Percent(percent)).from(source),
                    Step::new(
                        "mass as delivered",
                        Figure::Mass(dry_mass * (1.0 + percent / 100.0)),
                    ),
                ]
            }),
    );
    (amount, steps)
}

/// What the supplier says the loose volume weighs, and the words for it.
pub(super) fn loose_density(offer: Option<&Offer>) -> Option<(MassDensity, String)> {
    let offer = offer?;
    let density = offer.loose_density?;
    (density > kilograms_per_cubic_metre(0.0)).then(|| (density, supplier(offer)))
}

/// Water by dry weight, in percent, and where that comes from, where it is sold by weight and does not come dry.
fn moisture(figures: &Compacted<'_>, offer: Option<&Offer>) -> Option<(f64, String)> {
    let offer = offer?;
    let is_by_weight =
        offer.unit.measure() == SaleMeasure::Mass || matches!(offer.holds, Some(Holds::Mass(_)));
    let (percent, source) = match (offer.moisture, figures.moisture) {
        (Some(percent), _) => (percent, supplier(offer)),
        (None, Some(moisture)) => (moisture.percent, moisture.source.clone()),
        (None, None) => return None,
    };
    (is_by_weight && percent > 0.0).then_some((percent, source))
}

fn supplier(offer: &Offer) -> String {
    format!("supplier's figure: {}", offer.supplier)
}
