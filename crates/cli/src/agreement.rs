//! What can be agreed on now, and what has changed since it was agreed.

use crate::arguments::AgreementAsked;
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, say};
use underbrick_sheets::agreement::{Design, Standing, changes_text, clauses_text, standing, terms};
use underbrick_sheets::owner::owner_message;

/// Writes the clauses, or what has changed of them, or the message to the owner.
///
/// # Errors
/// A site or a letterhead that cannot be read, and an output that cannot be written.
pub fn agreement(asked: &AgreementAsked) -> anyhow::Result<Status> {
    let measured = Measured::read(&asked.site)?;
    tell(&measured.findings);
    let design = Design {
        site: &measured.site,
        catalogue: &measured.catalogue,
        results: &measured.results,
        letterhead: measured.letterhead.as_ref(),
    };
    if asked.message {
        say(&owner_message(design))?;
        return Ok(measured.status());
    }
    let now = terms(design);
    let stands = standing(&measured.site, &now);
    if asked.changes {
        say(&changes_text(&stands))?;
        return Ok(measured.status());
    }
    let mut text = clauses_text(&now.clauses);
    if stands != Standing::NotAgreed {
        text += &format!("\n{}", changes_text(&stands));
    }
    say(&text)?;
    Ok(measured.status())
}
