//! Why the base is so thick.

use crate::columns::{columns, paragraph};
use crate::figure::Measure;
use crate::penetrometers::cbr;
use crate::results::ResultsSheet;
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::bed::{Bed, Factor, Theory};
use underbrick_calc::site::Site;

/// The base that use and ground ask for.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BaseSheet {
    /// All factors together, compacted.
    pub worked_out: Measure,
    /// Whether it is taken; else the site asks for a least base of its own.
    pub is_taken: bool,
    /// What it is made of, the use first.
    pub factors: Vec<FactorRow>,
    /// The theory of wheels beside it, for information; `None` where no strength was measured.
    pub theory: Option<TheoryRow>,
}

/// One part of the thickness.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FactorRow {
    /// What asks for it.
    pub name: String,
    /// The reading that shows it.
    pub because: String,
    /// Thickness that it adds.
    pub amount: Measure,
    /// Where the rule comes from.
    pub source: &'static str,
    /// How far that can be trusted.
    pub grade: &'static str,
}

/// What the theory asks for under one wheel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TheoryRow {
    /// Cover over the ground.
    pub thickness: Measure,
    /// The strength that it was worked out for.
    pub cbr: Measure,
    /// The wheel.
    pub wheel: &'static str,
    /// Why it stands outside its range.
    pub outside: Vec<&'static str>,
}

pub(crate) fn base(site: &Site, bed: &Bed, say: Wording) -> BaseSheet {
    let worked_out = &bed.worked_out;
    BaseSheet {
        worked_out: say.length(Some(worked_out.thickness)),
        is_taken: site.bed.least_base.is_none(),
        factors: worked_out
            .factors
            .iter()
            .map(|factor| factor_row(factor, say))
            .collect(),
        theory: worked_out
            .theory
            .as_ref()
            .map(|theory| theory_row(theory, say)),
    }
}

fn factor_row(factor: &Factor, say: Wording) -> FactorRow {
    FactorRow {
        name: factor.name.clone(),
        because: factor.because.clone(),
        amount: say.length(Some(factor.amount)),
        source: factor.source.words(),
        grade: factor.grade.words(),
    }
}

fn theory_row(theory: &Theory, say: Wording) -> TheoryRow {
    TheoryRow {
        thickness: say.length(Some(theory.thickness)),
        cbr: cbr(theory.cbr),
        wheel: theory.wheel,
        outside: theory.outside.clone(),
    }
}

/// The same for people; nothing where there is no bed.
pub(crate) fn to_text(sheet: &ResultsSheet) -> String {
    let Some(base) = &sheet.base else {
        return String::new();
    };
    let mut rows: Vec<Vec<String>> = base.factors.iter().map(words).collect();
    let together = if base.is_taken {
        "taken"
    } else {
        "not taken: the site asks for its own"
    };
    rows.push(vec![
        "Together".to_owned(),
        base.worked_out.shown.clone(),
        together.to_owned(),
    ]);
    let mut text = columns(&rows);
    let mut sources: Vec<String> = base
        .factors
        .iter()
        .map(|factor| format!("{} ({})", factor.source, factor.grade))
        .collect();
    sources.dedup();
    text.push_str(&paragraph("  ", &format!("{}.", sources.join("; "))));
    if let Some(theory) = &base.theory {
        let words = format!(
            "Theory, for information only: {} for CBR {} and {}; {} [Corps of Engineers, CBR equation, from memory]",
            theory.thickness.shown,
            theory.cbr.shown,
            theory.wheel,
            theory.outside.join("; ")
        );
        text.push_str(&paragraph("  ", &words));
    }
    format!("\nWHY THE BASE IS SO THICK\n{text}")
}

fn words(factor: &FactorRow) -> Vec<String> {
    vec![
        factor.name.clone(),
        factor.amount.shown.clone(),
        factor.because.clone(),
    ]
}
