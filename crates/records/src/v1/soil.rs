//! Soil and winter, as typed. What was not tested is left out of the file.

use serde::{Deserialize, Serialize};

use crate::written::written;

/// What is known of the soil.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Soil {
    /// Grains of 0.05 to 2 mm, of all up to 2 mm.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub sand: String,
    /// Grains of 0.002 to 0.05 mm.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub silt: String,
    /// Grains under 0.002 mm.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub clay: String,
    /// How far a ribbon of the moist soil reaches.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ribbon: Option<Ribbon>,
    /// How it feels, wet, between finger and palm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grit: Option<Grit>,
    /// Liquid limit.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub liquid_limit: String,
    /// Plastic limit.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub plastic_limit: String,
    /// What passes the No. 200 sieve.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub fines: String,
    /// From the No. 200 to the No. 4 sieve.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub sieve_sand: String,
    /// What stays on the No. 4 sieve.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub sieve_gravel: String,
    /// A tenth of the soil is finer.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub d10: String,
    /// Three tenths are finer.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub d30: String,
    /// Six tenths are finer.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub d60: String,
    /// Finer than 0.02 mm.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub finer_than_002: String,
    /// Whether it lies in thin bands of silt and clay.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub varved: bool,
}

impl Soil {
    pub(super) fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What a ball of moist soil does between thumb and forefinger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ribbon {
    /// It does not stay a ball.
    NoBall,
    /// A ball, and no ribbon.
    NoRibbon,
    /// It breaks before 1 in.
    Short,
    /// It breaks between 1 and 2 in.
    Middling,
    /// It reaches 2 in and more.
    Long,
}

/// How a pinch of very wet soil feels in the palm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Grit {
    /// Very gritty.
    Gritty,
    /// Very smooth.
    Smooth,
    /// Neither above the other.
    Neither,
}

/// What is known of the winter, and of the ground as it freezes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Frost {
    /// As the local code or its office says.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub local_depth: String,
    /// Air freezing index.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub freezing_index: String,
    /// Length of the freezing season.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub freezing_days: String,
    /// Surface index by air index.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub surface_factor: String,
    /// Mean annual temperature of the air.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub mean_temperature: String,
    /// Dry density of the ground.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub dry_density: String,
    /// Water by dry weight.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub water_content: String,
    /// Mean of frozen and unfrozen conductivity.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub conductivity: String,
}

impl Frost {
    pub(super) fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
