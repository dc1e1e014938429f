//! What dug ground weighs, and how much it grows when it is tipped.

use crate::catalogue::{Catalogue, Material, UnderAWalk};
use crate::ground::{Ground, Verdict};
use crate::quantity::{Length, Mass, MassDensity, Volume, in_metres, kilograms_per_cubic_metre};

/// Swell and density of one kind of spoil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spoil {
    /// Loose volume ÷ bank volume − 1.
    pub swell: f64,
    /// In the ground.
    pub bank_density: MassDensity,
    /// Whether the pits show such ground; else both figures are the greatest that the catalogue has for it.
    pub is_met: bool,
}

impl Spoil {
    /// So much in the ground, as tipped.
    #[must_use]
    pub fn loose(&self, bank: Volume) -> Volume {
        bank * (1.0 + self.swell)
    }

    /// What so much in the ground weighs.
    #[must_use]
    pub fn mass(&self, bank: Volume) -> Mass {
        bank * self.bank_density
    }

    /// Mean over all layers of that verdict in all pits, weighed by their thickness; a layer that goes on down counts as far as it
    /// was dug. Where they were met but dug into nowhere, each counts alike. Where the pits show none, the greatest swell and the
    /// greatest density that the catalogue has for such ground, so that neither truck nor tip comes short.
    pub(super) fn met(ground: &Ground, catalogue: &Catalogue, verdict: Verdict) -> Self {
        let mut met: Vec<(f64, &Material)> = Vec::new();
        for pit in &ground.pits {
            for layer in pit.layers.iter().filter(|layer| layer.verdict == verdict) {
                let Some(material) = catalogue.find(&layer.material) else {
                    continue;
                };
                let bottom: Length = layer.bottom.unwrap_or(pit.dug_to);
                met.push((in_metres(layer.top - bottom).max(0.0), material));
            }
        }
        if met.iter().all(|(layer_m, _)| *layer_m <= 0.0) {
            met.iter_mut().for_each(|(layer_m, _)| *layer_m = 1.0);
        }
        let thickness_m: f64 = met.iter().map(|(layer_m, _)| layer_m).sum();
        if thickness_m > 0.0 {
            let mean = |value: fn(&Material) -> f64| {
                let parts = met.iter();
                parts
                    .map(|(layer_m, material)| layer_m * value(material))
                    .sum::<f64>()
                    / thickness_m
            };
            return Self {
                swell: mean(|material| material.swell),
                bank_density: kilograms_per_cubic_metre(mean(in_kilograms_per_cubic_metre)),
                is_met: true,
            };
        }
        let such = |material: &&Material| match verdict {
            Verdict::ComesOut => material.under_a_walk == UnderAWalk::MustComeOut,
            Verdict::Lifted | Verdict::Stays | Verdict::NotKnown => {
                material.under_a_walk == UnderAWalk::Subgrade
            }
        };
        let worst = |value: fn(&Material) -> f64| {
            catalogue
                .materials
                .iter()
                .filter(such)
                .map(value)
                .fold(0.0, f64::max)
        };
        Self {
            swell: worst(|material| material.swell),
            bank_density: kilograms_per_cubic_metre(worst(in_kilograms_per_cubic_metre)),
            is_met: false,
        }
    }
}

fn in_kilograms_per_cubic_metre(material: &Material) -> f64 {
    material
        .bank_density
        .get::<crate::quantity::unit::kilogram_per_cubic_meter>()
}
