//! What is shown, agreed and handed over, as written down.

use serde::{Deserialize, Serialize};

use super::Stamp;
use crate::written::{is_usual, written};

/// What is kept of a site beside its readings.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Show {
    /// What the crew sheet and the cautions are written in.
    #[serde(skip_serializing_if = "is_usual")]
    pub crew_reads: Language,
    /// Pictures, in the order in which they were added.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pictures: Vec<Picture>,
    /// Files of pictures that were taken away: they stay in the folder.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub put_away: Vec<String>,
    /// What was agreed, first to last.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub agreements: Vec<Agreement>,
    /// Day on which the work is to start, such as `2026-05-04`.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub start: String,
}

/// A language that the crew sheet and the cautions are written in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish.
    Spanish,
}

/// One picture: a file in the folder `pictures` of the site.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Picture {
    /// Name of the file, without a folder.
    #[serde(deserialize_with = "written")]
    pub file: String,
    /// What it shows.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub caption: String,
    /// What it belongs to.
    #[serde(default)]
    pub of: PictureOf,
    /// Who added it, and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// What a picture belongs to. Numbers are those that stand on screen, from 1.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum PictureOf {
    /// The walk as found.
    #[default]
    AsFound,
    /// A pit.
    Pit(usize),
    /// A sign.
    Sign(usize),
    /// A day of the log.
    Day(usize),
    /// The walk as handed over.
    HandedOver,
}

/// What was agreed, word for word.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Agreement {
    /// The clauses as they were signed.
    pub clauses: Vec<Clause>,
    /// SHA-256 of the clauses, in hexadecimal figures.
    #[serde(deserialize_with = "written")]
    pub digest: String,
    /// Who signed.
    #[serde(default)]
    pub signatures: Vec<Signature>,
}

/// One clause.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clause {
    /// What it is about, such as `price`.
    #[serde(deserialize_with = "written")]
    pub key: String,
    /// What it says.
    #[serde(deserialize_with = "written")]
    pub text: String,
}

/// A signature by finger.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    /// Whose, in letters.
    #[serde(deserialize_with = "written")]
    pub name: String,
    /// Strokes, each through these points: thousandths of the field's width to the right and down.
    #[serde(default)]
    pub strokes: Vec<Vec<(i32, i32)>>,
    /// Who took it, and when.
    #[serde(default)]
    pub stamp: Stamp,
}

impl Show {
    /// Whether nothing was written down.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        is_usual(self)
    }
}
