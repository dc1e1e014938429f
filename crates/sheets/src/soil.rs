//! What the soil is and how deep it freezes, with the reasons.

use crate::figure::Measure;
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::ground::soil::frost_group::{FrostGroupFound, TABLE};
use underbrick_calc::ground::soil::{FrostFound, SoilFound};

/// What is known of the soil. What was not tested is `None` or empty.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SoilRow {
    /// Symbol by ASTM D2487: `CL`, `SW-SC`.
    pub symbol: Option<String>,
    /// The same in words.
    pub symbol_name: Option<&'static str>,
    /// What leads to it.
    pub symbol_reasons: Vec<String>,
    /// Texture class.
    pub texture: Option<&'static str>,
    /// How it was found.
    pub texture_reason: Option<String>,
    /// Every frost group that fits, the worst first.
    pub frost_groups: Vec<FrostGroupRow>,
    /// The table of the frost groups.
    pub frost_group_table: &'static str,
    /// How deep it freezes; `None` where that is not known.
    pub frost: Option<FrostRow>,
}

/// One frost group.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FrostGroupRow {
    /// `F3`.
    pub group: &'static str,
    /// Its line in the table: `F3c`.
    pub line: &'static str,
    /// Frost-area soil support index; `None` for what does not heave.
    pub support_index: Option<f64>,
    /// Why it fits.
    pub reason: String,
}

/// Frost depths below the surface.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FrostRow {
    /// The one that is taken.
    pub depth: Measure,
    /// How that one was found: `local`, `modified Berggren` or `Stefan`.
    pub method: &'static str,
    /// Why that one.
    pub reason: String,
    /// As the local office says.
    pub local: Measure,
    /// By the modified Berggren formula.
    pub modified_berggren: Measure,
    /// By Stefan's formula.
    pub stefan: Measure,
    /// What the computed ones rest on.
    pub rests_on: Vec<String>,
}

/// The soil as rows of a sheet.
pub(crate) fn soil(found: &SoilFound, say: Wording) -> SoilRow {
    let uscs = found.uscs.as_ref();
    let texture = found.texture.as_ref();
    SoilRow {
        symbol: uscs.map(|uscs| uscs.symbol.clone()),
        symbol_name: uscs.map(|uscs| uscs.name),
        symbol_reasons: uscs.map_or_else(Vec::new, |uscs| uscs.reasons.clone()),
        texture: texture.map(|texture| texture.class.name()),
        texture_reason: texture.map(|texture| texture.why.clone()),
        frost_groups: found.frost_groups.iter().map(group).collect(),
        frost_group_table: TABLE,
        frost: found.frost.as_ref().map(|frost| depths(frost, say)),
    }
}

fn group(found: &FrostGroupFound) -> FrostGroupRow {
    FrostGroupRow {
        group: found.group.name(),
        line: found.line,
        support_index: found.group.support_index(),
        reason: found.why.clone(),
    }
}

fn depths(frost: &FrostFound, say: Wording) -> FrostRow {
    FrostRow {
        depth: say.length(Some(frost.depth)),
        method: frost.method.words(),
        reason: frost.why.clone(),
        local: say.length(frost.local),
        modified_berggren: say.length(frost.berggren.map(|found| found.depth)),
        stefan: say.length(frost.stefan),
        rests_on: frost.rests_on.clone(),
    }
}
