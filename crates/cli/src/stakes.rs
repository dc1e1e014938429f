//! `underbrick stakes`: what string, tape and rod must read.

use anyhow::{Context as _, ensure};
use underbrick_calc::field::check_length;
use underbrick_calc::measure::written::{BareUnit, read_length};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::ShownIn;
use underbrick_sheets::stakes::{stake_sheet, stakes_csv, stakes_json, stakes_text};

use crate::arguments::StakesAsked;
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, say};

/// Writes the stake table, and tells the findings.
pub fn stakes(asked: &StakesAsked) -> anyhow::Result<Status> {
    let mut measured = Measured::read(&asked.site)?;
    let spacing = asked.spacing.as_deref();
    let spacing = spacing
        .map(|written| spacing_of(written, measured.site.shown_in))
        .transpose()?;
    tell(&measured.findings);
    let results = &mut measured.results;
    let (Some(line), Some(ground), Some(bed), Some(build)) = (
        &results.line,
        &results.ground,
        &results.bed,
        &mut results.build,
    ) else {
        anyhow::bail!(
            "without a bed there is nothing to set out: the findings say what is missing"
        );
    };
    if spacing.is_some() {
        measured.site.build.spacing = spacing;
        build.stakes = underbrick_calc::build::stakes(&measured.site, line, bed, ground);
    }
    let sheet = || stake_sheet(&measured.site, build);
    let text = if asked.csv {
        stakes_csv(&measured.site, line, build)
    } else if asked.json {
        stakes_json(&sheet())
    } else {
        stakes_text(&sheet())
    };
    say(&text)?;
    Ok(measured.status())
}

fn spacing_of(written: &str, shown_in: ShownIn) -> anyhow::Result<Length> {
    let bare = match shown_in {
        ShownIn::FeetInches => BareUnit::Foot,
        ShownIn::Metric => BareUnit::Metre,
    };
    let spacing = read_length(written, bare)
        .with_context(|| format!("--spacing {written:?} cannot be read"))?;
    ensure!(
        check_length(Place::BuildSpacing, spacing).is_ok(),
        "--spacing {written:?}: stakes stand from 6 in (0.15 m) to 100 ft (30 m) apart"
    );
    Ok(spacing)
}
