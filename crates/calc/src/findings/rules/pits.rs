//! What is seen in the pits. A pit speaks even where its levels are not known.

use super::LayerLike;
use super::look::{Facts, Reading, some, wider};
use crate::catalogue::UnderAWalk;
use crate::place::Place;
use crate::quantity::Length;
use crate::site::{Layer, Pit};

/// One layer of one pit.
#[derive(Clone, Copy)]
struct At<'a> {
    pit_idx: usize,
    layer_idx: usize,
    layer: &'a Layer,
    pit: &'a Pit,
}

impl At<'_> {
    fn reading(&self) -> Reading {
        Reading::measured(
            Place::LayerMaterial(self.pit_idx, self.layer_idx),
            self.pit.station,
        )
    }
}

pub(super) fn layer(facts: &Facts<'_>, like: &LayerLike) -> Option<Vec<Reading>> {
    let fitting = every_layer(facts).filter(|at| fits(facts, at.layer, like));
    some(fitting.map(|at| at.reading()).collect())
}

pub(super) fn layer_above(
    facts: &Facts<'_>,
    upper: &LayerLike,
    lower: &LayerLike,
) -> Option<Vec<Reading>> {
    let pairs = every_layer(facts).zip(every_layer(facts).skip(1));
    some(
        pairs
            .filter(|(above, below)| {
                above.pit_idx == below.pit_idx
                    && fits(facts, above.layer, upper)
                    && fits(facts, below.layer, lower)
            })
            .flat_map(|(above, below)| [above.reading(), below.reading()])
            .collect(),
    )
}

pub(super) fn setting_bed(facts: &Facts<'_>, like: &LayerLike) -> Option<Vec<Reading>> {
    let beds = setting_beds(facts).filter(|at| fits(facts, at.layer, like));
    some(beds.map(|at| at.reading()).collect())
}

pub(super) fn setting_bed_thicker(facts: &Facts<'_>, limit: Length) -> Option<Vec<Reading>> {
    let is_thick = |at: &At<'_>| {
        at.layer
            .thickness
            .is_some_and(|thickness| wider(thickness, limit))
    };
    let thickness = |at: At<'_>| {
        let place = Place::LayerThickness(at.pit_idx, at.layer_idx);
        Reading::measured(place, at.pit.station)
    };
    some(
        setting_beds(facts)
            .filter(is_thick)
            .map(thickness)
            .collect(),
    )
}

/// Where the base should be: the layer under the setting bed, or the setting bed itself where nothing else was dug.
pub(super) fn no_base(facts: &Facts<'_>) -> Option<Vec<Reading>> {
    let bare = setting_beds(facts).filter(|bed| {
        !layers_of(facts, bed.pit_idx)
            .any(|at| under_a_walk(facts, at.layer) == Some(UnderAWalk::Base))
    });
    some(
        bare.map(|bed| {
            layers_of(facts, bed.pit_idx)
                .find(|at| at.layer_idx == bed.layer_idx + 1)
                .unwrap_or(bed)
                .reading()
        })
        .collect(),
    )
}

/// Layers of base material whose thickness together is known and less.
pub(super) fn base_thinner(facts: &Facts<'_>, limit: Length) -> Option<Vec<Reading>> {
    let mut readings = Vec::new();
    for pit_idx in 0..facts.site.pits.len() {
        let base: Vec<At<'_>> = layers_of(facts, pit_idx)
            .filter(|at| under_a_walk(facts, at.layer) == Some(UnderAWalk::Base))
            .collect();
        let together: Option<Vec<Length>> = base.iter().map(|at| at.layer.thickness).collect();
        let is_thin = together.is_some_and(|each| {
            !each.is_empty()
                && wider(
                    limit,
                    each.into_iter()
                        .fold(Length::default(), |sum, one| sum + one),
                )
        });
        if is_thin {
            readings.extend(base.iter().map(|at| {
                Reading::measured(
                    Place::LayerThickness(at.pit_idx, at.layer_idx),
                    at.pit.station,
                )
            }));
        }
    }
    some(readings)
}

/// The last layer of each pit that ended in what must come out.
pub(super) fn bottom_not_found(facts: &Facts<'_>) -> Option<Vec<Reading>> {
    let pits = facts.ground?.pits.iter();
    some(
        pits.filter(|pit| !pit.unsuitable_bottom.found)
            .filter_map(|pit| layers_of(facts, pit.pit_idx).last())
            .map(|at| at.reading())
            .collect(),
    )
}

pub(super) fn seep(facts: &Facts<'_>, shallower_than: Option<Length>) -> Option<Vec<Reading>> {
    let pits = facts.site.pits.iter().enumerate();
    some(
        pits.filter(|(_, pit)| {
            pit.seep
                .is_some_and(|seep| shallower_than.is_none_or(|limit| seep < limit))
        })
        .map(|(pit_idx, pit)| Reading::measured(Place::PitSeep(pit_idx), pit.station))
        .collect(),
    )
}

fn every_layer<'a>(facts: &Facts<'a>) -> impl Iterator<Item = At<'a>> {
    let pits = facts.site.pits.iter().enumerate();
    pits.flat_map(|(pit_idx, pit)| {
        pit.layers
            .iter()
            .enumerate()
            .map(move |(layer_idx, layer)| At {
                pit_idx,
                layer_idx,
                layer,
                pit,
            })
    })
}

fn layers_of<'a>(facts: &Facts<'a>, pit_idx: usize) -> impl Iterator<Item = At<'a>> {
    let pit = facts.site.pits.get(pit_idx);
    pit.into_iter().flat_map(move |pit| {
        pit.layers
            .iter()
            .enumerate()
            .map(move |(layer_idx, layer)| At {
                pit_idx,
                layer_idx,
                layer,
                pit,
            })
    })
}

/// The layer right under the lowest layer of old pavement, pit by pit.
fn setting_beds<'a>(facts: &Facts<'a>) -> impl Iterator<Item = At<'a>> {
    let facts = *facts;
    (0..facts.site.pits.len()).filter_map(move |pit_idx| {
        let pavement = layers_of(&facts, pit_idx)
            .filter(|at| under_a_walk(&facts, at.layer) == Some(UnderAWalk::OldPavement))
            .last()?;
        layers_of(&facts, pit_idx).find(|at| at.layer_idx == pavement.layer_idx + 1)
    })
}

fn under_a_walk(facts: &Facts<'_>, layer: &Layer) -> Option<UnderAWalk> {
    let material = facts.catalogue.find(&layer.material)?;
    Some(material.under_a_walk)
}

fn fits(facts: &Facts<'_>, layer: &Layer, like: &LayerLike) -> bool {
    let material = facts.catalogue.find(&layer.material);
    is_among(&like.materials, Some(&layer.material))
        && is_among(
            &like.under_a_walk,
            material.map(|material| &material.under_a_walk),
        )
        && is_among(&like.drainage, material.map(|material| &material.drainage))
        && is_among(&like.firmness, layer.firmness.as_ref())
        && is_among(&like.moisture, layer.moisture.as_ref())
        && like.at_least.is_none_or(|least| {
            layer
                .thickness
                .is_none_or(|thickness| !wider(least, thickness))
        })
}

/// An empty list takes anything; any other only what is known and stands in it.
fn is_among<T: PartialEq>(list: &[T], value: Option<&T>) -> bool {
    list.is_empty() || value.is_some_and(|value| list.contains(value))
}
