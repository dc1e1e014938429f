//! The catalogue of materials that is built in: `assets/catalogue/materials.ron`, each figure with its source.

use std::fmt;

use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer};
use underbrick_calc::catalogue as calc;
use underbrick_calc::measure::written::read_length_with_unit;
use underbrick_calc::quantity::{Length, in_metres, kilograms_per_cubic_metre};
use underbrick_calc::site::MaterialKey;

use crate::read::{ReadError, from_ron, options};

/// The built-in catalogue: materials, the rules that find causes, the invented price list.
///
/// # Errors
/// [`ReadError`] with line and column; a test of this crate reads it, so that a program that was built whole never sees one.
pub fn catalogue() -> Result<calc::Catalogue, ReadError> {
    let mut catalogue = read_catalogue(include_str!("../../../assets/catalogue/materials.ron"))?;
    catalogue.causes = crate::causes::built_in(&catalogue.materials)?;
    catalogue.prices =
        crate::prices::read_prices(crate::prices::BUILT_IN_PRICES, &catalogue.materials)?;
    Ok(catalogue)
}

fn read_catalogue(text: &str) -> Result<calc::Catalogue, ReadError> {
    let file: CatalogueFile = options().from_str(text).map_err(|error| from_ron(&error))?;
    let bedding = file.materials.iter().find_map(bedding);
    let fired_clay = file.materials.iter().find_map(fired_clay);
    let moistures = file.materials.iter().filter_map(moisture).collect();
    Ok(calc::Catalogue {
        bedding,
        fired_clay,
        moistures,
        materials: file.materials.into_iter().map(material).collect(),
        ..calc::Catalogue::default()
    })
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CatalogueFile {
    materials: Vec<MaterialFile>,
}

/// One material. What it weighs in the ground is loose density × (1 + swell), and as a compacted base loose density × ratio, so that
/// the figures of one material cannot contradict one another.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MaterialFile {
    key: String,
    name: String,
    under_a_walk: UnderAWalk,
    drainage: Drainage,
    hatch: Hatch,
    judged: String,
    loose: Density,
    swell: Swell,
    #[serde(default)]
    as_base: Option<AsBase>,
    /// For the one sand that is bought for setting bed and joints.
    #[serde(default)]
    as_bedding: Option<AsBedding>,
    /// As delivered, for what is sold by weight.
    #[serde(default)]
    moisture: Option<Moisture>,
    /// For the one material that is brick: of a piece, without joints.
    #[serde(default)]
    solid: Option<Density>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Density {
    #[serde(deserialize_with = "above_zero")]
    kg_per_m3: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Swell {
    #[serde(deserialize_with = "above_zero")]
    percent: f64,
    source: String,
}

/// Water by dry weight.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Moisture {
    #[serde(deserialize_with = "zero_to_hundred")]
    percent: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AsBedding {
    loose_to_compacted: Ratio,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AsBase {
    loose_to_compacted: Ratio,
    largest_stone: Stone,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ratio {
    #[serde(deserialize_with = "one_to_two")]
    ratio: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Stone {
    #[serde(deserialize_with = "length")]
    size: Length,
    source: String,
}

#[derive(Deserialize)]
enum UnderAWalk {
    Base,
    Subgrade,
    MustComeOut,
    OldPavement,
}

#[derive(Deserialize)]
enum Drainage {
    Free,
    Slow,
    Poor,
}

#[derive(Deserialize)]
enum Hatch {
    Brick,
    Sand,
    Stone,
    Concrete,
    Earth,
    Clay,
    Loose,
}

fn bedding(file: &MaterialFile) -> Option<calc::Bedding> {
    let figures = file.as_bedding.as_ref()?;
    Some(calc::Bedding {
        key: MaterialKey(file.key.clone()),
        loose_to_compacted: figures.loose_to_compacted.ratio,
        source: figures.loose_to_compacted.source.clone(),
    })
}

fn moisture(file: &MaterialFile) -> Option<calc::DeliveredMoisture> {
    let figures = file.moisture.as_ref()?;
    Some(calc::DeliveredMoisture {
        key: MaterialKey(file.key.clone()),
        percent: figures.percent,
        source: figures.source.clone(),
    })
}

fn fired_clay(file: &MaterialFile) -> Option<calc::FiredClay> {
    let solid = file.solid.as_ref()?;
    Some(calc::FiredClay {
        density: kilograms_per_cubic_metre(solid.kg_per_m3),
        source: solid.source.clone(),
    })
}

fn material(file: MaterialFile) -> calc::Material {
    let source = source_in_words(&file);
    let loose_kg_per_m3 = file.loose.kg_per_m3;
    let swell = file.swell.percent / 100.0;
    calc::Material {
        key: MaterialKey(file.key),
        name: file.name,
        under_a_walk: match file.under_a_walk {
            UnderAWalk::Base => calc::UnderAWalk::Base,
            UnderAWalk::Subgrade => calc::UnderAWalk::Subgrade,
            UnderAWalk::MustComeOut => calc::UnderAWalk::MustComeOut,
            UnderAWalk::OldPavement => calc::UnderAWalk::OldPavement,
        },
        as_base: file.as_base.map(|base| calc::BaseFigures {
            loose_to_compacted: base.loose_to_compacted.ratio,
            largest_stone: base.largest_stone.size,
            compacted_density: kilograms_per_cubic_metre(
                loose_kg_per_m3 * base.loose_to_compacted.ratio,
            ),
        }),
        drainage: match file.drainage {
            Drainage::Free => calc::Drainage::Free,
            Drainage::Slow => calc::Drainage::Slow,
            Drainage::Poor => calc::Drainage::Poor,
        },
        bank_density: kilograms_per_cubic_metre(loose_kg_per_m3 * (1.0 + swell)),
        loose_density: kilograms_per_cubic_metre(loose_kg_per_m3),
        swell,
        hatch: match file.hatch {
            Hatch::Brick => calc::Hatch::Brick,
            Hatch::Sand => calc::Hatch::Sand,
            Hatch::Stone => calc::Hatch::Stone,
            Hatch::Concrete => calc::Hatch::Concrete,
            Hatch::Earth => calc::Hatch::Earth,
            Hatch::Clay => calc::Hatch::Clay,
            Hatch::Loose => calc::Hatch::Loose,
        },
        source,
    }
}

fn source_in_words(file: &MaterialFile) -> String {
    let mut words = format!(
        "under a walk: {}; loose density: {}; swell: {}; density in the ground: loose density and swell",
        file.judged, file.loose.source, file.swell.source
    );
    if let Some(base) = &file.as_base {
        words += &format!(
            "; loose to compacted: {}; largest stone: {}; compacted density: loose density and that ratio",
            base.loose_to_compacted.source, base.largest_stone.source
        );
    }
    if let Some(bedding) = &file.as_bedding {
        words += &format!(
            "; loose to compacted: {}; compacted density: loose density and that ratio",
            bedding.loose_to_compacted.source
        );
    }
    if let Some(moisture) = &file.moisture {
        words += &format!("; moisture as delivered: {}", moisture.source);
    }
    if let Some(solid) = &file.solid {
        words += &format!("; density without joints: {}", solid.source);
    }
    words
}

fn above_zero<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    number_where(deserializer, "a number above zero", |number| number > 0.0)
}

fn zero_to_hundred<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    number_where(deserializer, "a percentage from 0 to 100", |number| {
        (0.0..=100.0).contains(&number)
    })
}

fn one_to_two<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    number_where(deserializer, "a ratio from 1 to 2", |number| {
        (1.0..=2.0).contains(&number)
    })
}

fn number_where<'de, D: Deserializer<'de>>(
    deserializer: D,
    expected: &'static str,
    is_fine: impl Fn(f64) -> bool,
) -> Result<f64, D::Error> {
    let number = f64::deserialize(deserializer)?;
    if number.is_finite() && is_fine(number) {
        Ok(number)
    } else {
        Err(D::Error::custom(format!("{number} is not {expected}")))
    }
}

fn length<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Length, D::Error> {
    struct WithUnit;
    impl Visitor<'_> for WithUnit {
        type Value = Length;

        fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
            formatter.write_str("a length above zero with its unit, in quotes")
        }

        fn visit_str<E: Error>(self, text: &str) -> Result<Length, E> {
            match read_length_with_unit(text) {
                Ok(length) if in_metres(length) > 0.0 => Ok(length),
                Ok(_) => Err(E::custom(format!("{text:?} is not above zero"))),
                Err(error) => Err(E::custom(format!("{text:?}: {error}"))),
            }
        }
    }
    deserializer.deserialize_str(WithUnit)
}

#[cfg(test)]
mod tests;
