//! `underbrick results`: every figure with its unit.

use underbrick_sheets::{to_json, to_text};

use crate::arguments::ResultsAsked;
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, say};

/// Writes the results, and tells the findings.
pub fn results(asked: &ResultsAsked) -> anyhow::Result<Status> {
    let measured = Measured::read(&asked.site)?;
    tell(&measured.findings);
    let sheet = underbrick_sheets::results(&measured.site, &measured.results, &measured.findings);
    say(&if asked.json {
        to_json(&sheet)
    } else {
        to_text(&sheet)
    })?;
    Ok(measured.status())
}
