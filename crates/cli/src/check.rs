//! `underbrick check`: what someone should look at.

use underbrick_calc::findings::{Findings, Weight};

use crate::arguments::SiteAsked;
use crate::findings::tell_all;
use crate::measured::Measured;
use crate::output::{Status, say};

/// Tells every finding, and sums up.
pub fn check(asked: &SiteAsked) -> anyhow::Result<Status> {
    let measured = Measured::read(asked)?;
    tell_all(&measured.findings);
    say(&format!("{}\n", summary(&measured.findings)))?;
    Ok(measured.status())
}

fn summary(findings: &Findings) -> String {
    let count = |weight: Weight| {
        findings
            .iter()
            .filter(|finding| finding.weight == weight)
            .count()
    };
    let (n_stops, n_warnings, n_notes, n_right) = (
        count(Weight::Stop),
        count(Weight::Warning),
        count(Weight::Note),
        count(Weight::Right),
    );
    let outcome = if n_stops > 0 { "stopped" } else { "fine" };
    format!(
        "{outcome}: {n_stops} to stop the job, {n_warnings} to look at, {n_notes} to know, {n_right} right"
    )
}
