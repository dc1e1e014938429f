//! What penetrometers found under the pits.

use crate::columns::{columns, paragraph};
use crate::figure::{Measure, Unit};
use crate::results::ResultsSheet;
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::Results;
use underbrick_calc::ground::{Cbr, DrivenLayer, Penetrometer};
use underbrick_calc::quantity::unit::millimeter;
use underbrick_calc::site::{DrivenInto, Hammer};

/// One penetrometer. Depths are below the bottom of its pit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PenetrometerSheet {
    /// Number of the pit, counted from 1 in the order in which the pits were written down.
    pub pit: usize,
    /// The weight that drove it.
    pub hammer: &'static str,
    /// Into what it was driven.
    pub driven_into: &'static str,
    /// From the top down.
    pub layers: Vec<DrivenRow>,
    /// How far the layers miss the readings, root mean square.
    pub misfit: Measure,
}

/// One layer of even slope.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DrivenRow {
    /// Depth of its upper face.
    pub from_depth: Measure,
    /// Depth of its lower face, or where the log ends.
    pub to_depth: Measure,
    /// Blows through it.
    pub blows: u32,
    /// Travel per blow with the hammer that was used.
    pub per_blow: Measure,
    /// By the relation of the soil.
    pub cbr: Measure,
    /// Least of the published relations.
    pub cbr_least: Measure,
    /// Most of the published relations.
    pub cbr_most: Measure,
    /// CBR and spread in words.
    pub strength: String,
    /// Which relation it is.
    pub relation: &'static str,
}

/// All of them, in the order of their pits.
pub(crate) fn penetrometers(results: &Results, say: Wording) -> Vec<PenetrometerSheet> {
    results
        .penetrometers
        .iter()
        .map(|found| sheet(found, say))
        .collect()
}

fn sheet(found: &Penetrometer, say: Wording) -> PenetrometerSheet {
    PenetrometerSheet {
        pit: found.pit_idx.saturating_add(1),
        hammer: match found.hammer {
            Hammer::Heavy => "8 kg",
            Hammer::Light => "4.6 kg, counted twice",
        },
        driven_into: match found.driven_into {
            DrivenInto::AnySoil => "any soil",
            DrivenInto::LeanClay => "lean clay",
            DrivenInto::FatClay => "fat clay",
        },
        layers: found.layers.iter().map(|layer| row(layer, say)).collect(),
        misfit: say.length(Some(found.misfit)),
    }
}

fn row(layer: &DrivenLayer, say: Wording) -> DrivenRow {
    let strength = layer.strength;
    DrivenRow {
        from_depth: say.length(Some(layer.from)),
        to_depth: say.length(Some(layer.to)),
        blows: layer.n_blows,
        per_blow: Measure::new(
            Some(layer.per_blow.get::<millimeter>()),
            Unit::Millimetre,
            || layer.per_blow_words(say.0),
        ),
        cbr: cbr(strength.cbr),
        cbr_least: cbr(strength.least),
        cbr_most: cbr(strength.most),
        strength: strength.words(),
        relation: strength.relation.words(),
    }
}

/// A CBR with the two figures that it is good for.
pub(crate) fn cbr(cbr: Cbr) -> Measure {
    Measure::new(Some(cbr.percent()), Unit::Percent, || cbr.to_string())
}

/// All of them for people; nothing where none was driven.
pub(crate) fn to_text(sheet: &ResultsSheet) -> String {
    if sheet.penetrometers.is_empty() {
        return String::new();
    }
    let one = |found: &PenetrometerSheet| {
        let head = format!(
            "Pit {}, hammer of {}, driven into {}; depths below the bottom of the pit",
            found.pit, found.hammer, found.driven_into
        );
        let rows: Vec<Vec<String>> = found.layers.iter().map(words).collect();
        let relation = found.layers.first().map_or("", |layer| layer.relation);
        let foot = format!(
            "By the {relation}; in brackets what other published relations give. The layers miss the readings by {}.",
            found.misfit.shown
        );
        paragraph("  ", &head) + &columns(&rows) + &paragraph("    ", &foot)
    };
    let body: String = sheet.penetrometers.iter().map(one).collect();
    format!("\nWHAT THE PENETROMETER FOUND\n{body}")
}

fn words(layer: &DrivenRow) -> Vec<String> {
    vec![
        format!("  {} to {}", layer.from_depth.shown, layer.to_depth.shown),
        format!("{} per blow", layer.per_blow.shown),
        format!("CBR {}", layer.strength),
    ]
}
