//! The level book in the file.

use serde::{Deserialize, Serialize};

use crate::written::written;

/// A level book, as typed. Left out of the file where nothing stands in it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelBook {
    /// Height of the benchmark above the sill's underside; negative where it lies below.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub benchmark_above_sill: String,
    /// Largest misclosure that is let pass.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub limit: String,
    /// Whether a misclosure is spread over the set-ups.
    #[serde(default)]
    pub spread: bool,
    /// The sights in the order in which they were taken.
    #[serde(default)]
    pub rows: Vec<BookRow>,
}

impl LevelBook {
    /// Whether nothing stands in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// One sight of a level book.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BookRow {
    /// Which column it is written in.
    pub sight: Sight,
    /// What the rod stands on.
    pub stands: Stands,
    /// Along the run from the door, for a sight on the old surface.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub station: String,
    /// Square to the run, right positive; empty for the centreline.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub offset: String,
    /// What the rod reads; negative for a rod held upside down.
    #[serde(default, deserialize_with = "written")]
    pub reading: String,
}

impl BookRow {
    /// A sight, not read.
    #[must_use]
    pub fn new(sight: Sight, stands: Stands) -> Self {
        Self {
            sight,
            stands,
            ..Self::default()
        }
    }

    /// Whether a station is asked for: a backsight stands where the foresight before it stood.
    #[must_use]
    pub fn has_station(&self) -> bool {
        self.stands == Stands::OldSurface && self.sight != Sight::Back
    }
}

/// The columns of a level book that take readings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Sight {
    /// The first of a set-up.
    Back,
    /// Any between.
    #[default]
    Intermediate,
    /// The last of a set-up.
    Fore,
}

/// What the rod stands on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Stands {
    /// The sill's underside.
    Sill,
    /// The benchmark.
    Benchmark,
    /// A turning point.
    TurningPoint,
    /// The old surface.
    #[default]
    OldSurface,
}
