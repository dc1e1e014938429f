//! The texture class from shares of sand, silt and clay.

use super::SoilError;
use super::shares::whole;
use crate::place::Place;

/// A texture class of the United States Department of Agriculture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Texture {
    /// Sand.
    Sand,
    /// Loamy sand.
    LoamySand,
    /// Sandy loam.
    SandyLoam,
    /// Loam.
    Loam,
    /// Silt loam.
    SiltLoam,
    /// Silt.
    Silt,
    /// Sandy clay loam.
    SandyClayLoam,
    /// Clay loam.
    ClayLoam,
    /// Silty clay loam.
    SiltyClayLoam,
    /// Sandy clay.
    SandyClay,
    /// Silty clay.
    SiltyClay,
    /// Clay.
    Clay,
}

impl Texture {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sand => "sand",
            Self::LoamySand => "loamy sand",
            Self::SandyLoam => "sandy loam",
            Self::Loam => "loam",
            Self::SiltLoam => "silt loam",
            Self::Silt => "silt",
            Self::SandyClayLoam => "sandy clay loam",
            Self::ClayLoam => "clay loam",
            Self::SiltyClayLoam => "silty clay loam",
            Self::SandyClay => "sandy clay",
            Self::SiltyClay => "silty clay",
            Self::Clay => "clay",
        }
    }
}

/// Whether a soil of so much sand, silt and clay is of a class.
type Rule = fn(f64, f64, f64) -> bool;

/// Each class with its rule; every soil fits exactly one.
pub(super) const RULES: [(Texture, Rule); 12] = [
    (Texture::Sand, |_, silt, clay| silt + 1.5 * clay < 15.0),
    (Texture::LoamySand, |_, silt, clay| {
        silt + 1.5 * clay >= 15.0 && silt + 2.0 * clay < 30.0
    }),
    (Texture::SandyLoam, |sand, silt, clay| {
        let is_coarse = silt + 2.0 * clay >= 30.0;
        is_coarse && ((clay < 7.0 && silt < 50.0) || ((7.0..20.0).contains(&clay) && sand > 52.0))
    }),
    (Texture::Loam, |sand, silt, clay| {
        (7.0..27.0).contains(&clay) && (28.0..50.0).contains(&silt) && sand <= 52.0
    }),
    (Texture::SiltLoam, |_, silt, clay| {
        silt >= 50.0 && clay < 27.0 && (clay >= 12.0 || silt < 80.0)
    }),
    (Texture::Silt, |_, silt, clay| silt >= 80.0 && clay < 12.0),
    (Texture::SandyClayLoam, |sand, silt, clay| {
        (20.0..35.0).contains(&clay) && silt < 28.0 && sand > 45.0
    }),
    (Texture::ClayLoam, |sand, _, clay| {
        (27.0..40.0).contains(&clay) && sand > 20.0 && sand <= 45.0
    }),
    (Texture::SiltyClayLoam, |sand, _, clay| {
        (27.0..40.0).contains(&clay) && sand <= 20.0
    }),
    (Texture::SandyClay, |sand, _, clay| {
        clay >= 35.0 && sand > 45.0
    }),
    (Texture::SiltyClay, |_, silt, clay| {
        clay >= 40.0 && silt >= 40.0
    }),
    (Texture::Clay, |sand, silt, clay| {
        clay >= 40.0 && sand <= 45.0 && silt < 40.0
    }),
];

/// The class of a soil by its shares in percent, and what they added up to where they had to be scaled to 100 %.
///
/// # Errors
/// [`SoilError`] for a share outside 0 to 100 % and for shares that do not add up to 100 % within 1 %.
///
/// # Source
/// Class limits of the United States Department of Agriculture (Soil Survey Manual), as the NRCS texture calculation states them.
pub fn texture(sand: f64, silt: f64, clay: f64) -> Result<(Texture, Option<f64>), SoilError> {
    let whole = whole(
        "Sand, silt and clay",
        [
            (Place::SoilSand, sand),
            (Place::SoilSilt, silt),
            (Place::SoilClay, clay),
        ],
    )?;
    // A millionth of a percent is no difference in any soil, and keeps scaled shares on the limits where they stand.
    let [sand, silt, clay] = whole.shares.map(|share| (share * 1e6).round() / 1e6);
    let class = RULES
        .iter()
        .find(|(_, is_of)| is_of(sand, silt, clay))
        .map_or(Texture::Loam, |(class, _)| *class);
    Ok((class, whole.scaled_from))
}
