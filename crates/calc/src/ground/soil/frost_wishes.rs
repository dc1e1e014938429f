//! Frost depths from what was written down of winter and ground.

use super::{FrostFound, FrostMethod};
use crate::field::{check_amount, full_name, note_out_of_reason, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::ground::frost_depth::{Season, Winter, kersten_conductivity, modified_berggren, stefan};
use crate::measure::amount::{Amount, AmountUnit, plain};
use crate::place::Place;
use crate::site::Site;

/// Every frost depth that is known, and the one that is taken: local before Berggren before Stefan. What is missing for one that was
/// begun is noted.
pub(super) fn frost(site: &Site, is_coarse: bool, findings: &mut Findings) -> Option<FrostFound> {
    let local = take_length(
        site,
        Place::FrostDepth,
        site.frost.local_depth,
        Weight::Warning,
        findings,
    );
    let given = Given::of(site, findings);
    let mut rests_on = Vec::new();
    let winter = given.winter(is_coarse, &mut rests_on, findings);
    let by_stefan = winter.and_then(|winter| match stefan(&winter) {
        Ok(depth) => Some(depth),
        Err(error) => {
            not_computed(Place::FreezingIndex, &error.to_string(), findings);
            None
        }
    });
    let season = given.season();
    let berggren =
        winter.zip(season).and_then(
            |(winter, season)| match modified_berggren(&winter, &season) {
                Ok(found) => Some(found),
                Err(error) => {
                    not_computed(Place::MeanTemperature, &error.to_string(), findings);
                    None
                }
            },
        );
    let (depth, method, why) = match (local, berggren, by_stefan) {
        (Some(depth), _, _) => (
            depth,
            FrostMethod::Local,
            "what the local office says goes before any formula",
        ),
        (None, Some(found), _) => (
            found.depth,
            FrostMethod::Berggren,
            "it counts the heat that the ground gives off, as Stefan does not; ask the local office",
        ),
        (None, None, Some(depth)) => (
            depth,
            FrostMethod::Stefan,
            "season and mean temperature are not known for Berggren; it is on the deep side; ask the local office",
        ),
        (None, None, None) => return None,
    };
    if let Some(found) = berggren {
        rests_on.push(format!(
            "Berggren: λ {:.3} at fusion parameter {:.3} and thermal ratio {:.3}.",
            found.lambda, found.mu, found.alpha
        ));
    }
    Some(FrostFound {
        local,
        stefan: by_stefan,
        berggren,
        depth,
        method,
        why: why.to_owned(),
        rests_on: if by_stefan.is_some() {
            rests_on
        } else {
            Vec::new()
        },
    })
}

/// The values for the formulas that can be true, as plain numbers.
struct Given {
    index: Option<f64>,
    days: Option<f64>,
    factor_percent: Option<f64>,
    mean_f: Option<f64>,
    density_pcf: Option<f64>,
    water_percent: Option<f64>,
    conductivity: Option<f64>,
}

impl Given {
    fn of(site: &Site, findings: &mut Findings) -> Self {
        let frost = &site.frost;
        let mut take = |place: Place, amount: Option<Amount>| match check_amount(place, amount?) {
            Ok(amount) => Some(amount.number()),
            Err(error) => {
                note_out_of_reason(site, error, Weight::Warning, findings);
                None
            }
        };
        Self {
            index: take(Place::FreezingIndex, frost.freezing_index),
            days: take(Place::FreezingDays, frost.freezing_days),
            factor_percent: take(Place::SurfaceFactor, frost.surface_factor),
            mean_f: take(Place::MeanTemperature, frost.mean_temperature),
            density_pcf: take(Place::DryDensity, frost.dry_density),
            water_percent: take(Place::WaterContent, frost.water_content),
            conductivity: take(Place::Conductivity, frost.conductivity),
        }
    }

    fn season(&self) -> Option<Season> {
        Some(Season {
            days: self.days?,
            mean_f: self.mean_f?,
        })
    }

    /// What Stefan needs; where only a part of it is there, a note says what is missing.
    fn winter(
        &self,
        is_coarse: bool,
        rests_on: &mut Vec<String>,
        findings: &mut Findings,
    ) -> Option<Winter> {
        let needed = [
            (Place::FreezingIndex, self.index),
            (Place::DryDensity, self.density_pcf),
            (Place::WaterContent, self.water_percent),
        ];
        let (Some(index), Some(density), Some(water)) =
            (self.index, self.density_pcf, self.water_percent)
        else {
            let missing: Vec<String> = needed
                .iter()
                .filter(|(_, value)| value.is_none())
                .map(|(place, _)| full_name(*place).to_lowercase())
                .collect();
            let first_missing = needed.iter().find(|(_, value)| value.is_none());
            if missing.len() < needed.len()
                && let Some((place, _)) = first_missing
            {
                let text = format!(
                    "No frost depth is computed: {} not known.",
                    missing.join(" and ")
                );
                let remedy = "Write it down, or the local frost depth, which goes before it.";
                findings.note(*place, Weight::Note, Source::Readings, text, remedy);
            }
            return None;
        };
        let conductivity = match self.conductivity {
            Some(conductivity) => conductivity,
            None => match kersten_conductivity(density, water, is_coarse) {
                Ok(conductivity) => {
                    let kind = if is_coarse { "coarse" } else { "fine" };
                    let said = Amount::new(conductivity, AmountUnit::BtuPerHourFootFahrenheit)
                        .map_or_else(String::new, |amount| plain(amount.number()));
                    rests_on.push(format!(
                        "Conductivity {said} Btu/h ft °F from density and water of {kind} ground (Kersten 1949, from memory)."
                    ));
                    conductivity
                }
                Err(error) => {
                    not_computed(Place::WaterContent, &error.to_string(), findings);
                    return None;
                }
            },
        };
        let factor = self.factor_percent.unwrap_or(100.0) / 100.0;
        rests_on.push(format!(
            "Surface index {} °F days, {} % of that of the air.",
            plain(index * factor),
            plain(factor * 100.0)
        ));
        Some(Winter {
            dry_density_pcf: density,
            water_percent: water,
            conductivity,
            surface_index: index * factor,
        })
    }
}

fn not_computed(place: Place, why: &str, findings: &mut Findings) {
    let text = format!("No frost depth is computed: {why}.");
    let remedy = "Look at the value again, or write the local frost depth.";
    findings.note(place, Weight::Warning, Source::Readings, text, remedy);
}
