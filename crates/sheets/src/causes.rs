//! What is seen on the old walk, and why it failed.

use crate::figure::Measure;
use crate::wording::{Wording, on_one_line};
use serde::Serialize;
use underbrick_calc::Results;
use underbrick_calc::field::full_name;
use underbrick_calc::findings::rules::{CauseFound, Strength};
use underbrick_calc::site::{Sign, SignKind, Site};

/// One thing that is seen.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SignRow {
    /// What it is, as the trade calls it; `None` where it was not said.
    pub what: Option<&'static str>,
    /// `slight`, `plain` or `bad`.
    pub severity: &'static str,
    /// Along the run from the door; `None` where it is all along the walk.
    pub station: Option<Measure>,
    /// From the centreline, right positive; `None` where it was not said.
    pub offset: Option<Measure>,
    /// Widest joint; `None` for anything but open joints that were measured.
    pub width: Option<Measure>,
}

/// One cause of the failure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CauseRow {
    /// The rule of the table.
    pub rule: String,
    /// What it is, in a few words.
    pub cause: &'static str,
    /// `sure`, `likely` or `possible`.
    pub strength: &'static str,
    /// As the trade says it.
    pub trade: String,
    /// As it is said to the homeowner.
    pub homeowner: String,
    /// What to do.
    pub remedy: String,
    /// Where the rule comes from.
    pub source: String,
    /// The readings that it stands on.
    pub evidence: Vec<EvidenceRow>,
}

/// One reading behind a cause.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EvidenceRow {
    /// Name of the field.
    pub field: String,
    /// The reading with its value.
    pub reading: String,
}

/// What is seen, in the order in which it was written down.
pub(crate) fn signs(site: &Site, say: Wording) -> Vec<SignRow> {
    let row = |sign: &Sign| SignRow {
        what: sign.what.map(SignKind::name),
        severity: sign.severity.word(),
        station: sign.station.map(|station| say.station(Some(station))),
        offset: sign.offset.map(|offset| say.offset(offset)),
        width: sign.width.map(|width| say.length(Some(width))),
    };
    site.signs.iter().map(row).collect()
}

/// The causes, strongest evidence first.
pub(crate) fn causes(results: &Results) -> Vec<CauseRow> {
    let row = |cause: &CauseFound| CauseRow {
        rule: cause.rule_id.clone(),
        cause: cause.cause.words(),
        strength: Strength::word(cause.strength),
        trade: on_one_line(&cause.trade),
        homeowner: on_one_line(&cause.homeowner),
        remedy: on_one_line(&cause.remedy),
        source: on_one_line(&cause.source),
        evidence: cause
            .evidence
            .iter()
            .map(|evidence| EvidenceRow {
                field: full_name(evidence.place),
                reading: on_one_line(&evidence.words),
            })
            .collect(),
    };
    results.causes.iter().map(row).collect()
}
