//! A reading in a few words, with its value: what a key or a sheet says of the evidence.

use crate::catalogue::Catalogue;
use crate::field::full_name;
use crate::place::Place;
use crate::quantity::Length;
use crate::site::{FarEnd, Firmness, Layer, LegShape, Moisture, RestraintInput, Site};

/// The reading at a place with its value: "Pit 1, Fill sand 8\", soft, moist".
#[must_use]
pub fn evidence_words(site: &Site, catalogue: &Catalogue, place: Place) -> String {
    let written = |length: Option<Length>| {
        length.map_or_else(String::new, |length| {
            format!(" {}", site.shown_in.thickness(length))
        })
    };
    let valued = |length: Option<Length>| format!("{}{}", full_name(place), written(length));
    match place {
        Place::Sign(sign_idx) | Place::SignStation(sign_idx) | Place::SignOffset(sign_idx) => {
            sign(site, sign_idx, None)
        }
        Place::SignWidth(sign_idx) => {
            let width = site.signs.get(sign_idx).and_then(|sign| sign.width);
            sign(site, sign_idx, width)
        }
        Place::LayerMaterial(pit_idx, layer_idx) | Place::LayerThickness(pit_idx, layer_idx) => {
            let pit = site.pits.get(pit_idx);
            let found = pit.and_then(|pit| pit.layers.get(layer_idx));
            let is_last = pit.is_some_and(|pit| layer_idx + 1 == pit.layers.len());
            found.map_or_else(
                || full_name(place),
                |found| {
                    format!(
                        "Pit {}, {}",
                        pit_idx + 1,
                        layer(site, catalogue, found, is_last)
                    )
                },
            )
        }
        Place::PitSeep(pit_idx) => {
            let seep = site.pits.get(pit_idx).and_then(|pit| pit.seep);
            format!("Pit {}, seep{} down", pit_idx + 1, written(seep))
        }
        Place::ShotReading(shot_idx) => match site.line.shots.get(shot_idx) {
            Some(shot) => {
                let at = shot.station.map_or_else(String::new, |station| {
                    format!(" at {}", site.shown_in.along(station))
                });
                format!("Level{at}, reads{}", written(shot.reading))
            }
            None => full_name(place),
        },
        Place::OldBelowSill => valued(site.line.old_below_sill),
        Place::FarEndBelowSill => valued(match site.line.far_end {
            FarEnd::Fixed { below_sill } => below_sill,
            FarEnd::Free => None,
        }),
        Place::LegRadius(leg_idx) => match site.line.legs.get(leg_idx).map(|leg| leg.shape) {
            Some(LegShape::Curve {
                radius: Some(radius),
                ..
            }) => format!("{} {}", full_name(place), site.shown_in.along(radius)),
            _ => full_name(place),
        },
        Place::BrickLength => valued(site.brick.length),
        Place::BrickWidth => valued(site.brick.width),
        Place::Joint => valued(site.brick.joint),
        Place::LeastBase => valued(site.bed.least_base),
        Place::Restraint if site.edge.restraint == RestraintInput::Nothing => {
            "Nothing holds the new edge".to_owned()
        }
        Place::Fabric if !site.bed.fabric => "No fabric under the new base".to_owned(),
        _ => full_name(place),
    }
}

fn sign(site: &Site, sign_idx: usize, width: Option<Length>) -> String {
    let Some(sign) = site.signs.get(sign_idx) else {
        return full_name(Place::Sign(sign_idx));
    };
    let name = sign.what.map_or("Sign", |kind| kind.name());
    let width = width.map_or_else(String::new, |width| {
        format!(" {}", site.shown_in.thickness(width))
    });
    let place = sign.station.map_or_else(
        || "all along".to_owned(),
        |station| format!("at {}", site.shown_in.along(station)),
    );
    format!("{name}{width}, {}, {place}", sign.severity.word())
}

fn layer(site: &Site, catalogue: &Catalogue, layer: &Layer, is_last: bool) -> String {
    let name = catalogue
        .find(&layer.material)
        .map_or(layer.material.0.as_str(), |material| material.name.as_str());
    let thickness = layer.thickness.map_or_else(
        || {
            if is_last {
                " on down"
            } else {
                ", thickness not measured"
            }
            .to_owned()
        },
        |thickness| format!(" {}", site.shown_in.thickness(thickness)),
    );
    let felt = [layer.firmness.map(firmness), layer.moisture.map(moisture)];
    let felt: String = felt
        .into_iter()
        .flatten()
        .map(|word| format!(", {word}"))
        .collect();
    format!("{name}{thickness}{felt}")
}

const fn firmness(firmness: Firmness) -> &'static str {
    match firmness {
        Firmness::VerySoft => "very soft",
        Firmness::Soft => "soft",
        Firmness::Firm => "firm",
        Firmness::Hard => "hard",
        Firmness::VeryHard => "very hard",
    }
}

const fn moisture(moisture: Moisture) -> &'static str {
    match moisture {
        Moisture::Dry => "dry",
        Moisture::Moist => "moist",
        Moisture::Wet => "wet",
    }
}
