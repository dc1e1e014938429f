//! How the walk is set out: as written down where it can be true, else the default.

use crate::defaults;
use crate::field::take_length;
use crate::findings::{Findings, Weight};
use crate::measure::levels::HeightOfCollimation;
use crate::place::Place;
use crate::quantity::{Length, metres};
use crate::site::Site;

/// Spacing, string and instrument.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Asked {
    /// From stake to stake.
    pub spacing: Length,
    /// The working string above the grade line.
    pub string_above_grade: Length,
    /// The line of sight of the last set-up whose rod was read on the sill.
    pub sight: Option<HeightOfCollimation>,
}

impl Asked {
    /// From the site. A value that cannot be true is named in the findings and the default is taken, or the set-up before it.
    pub(super) fn of(site: &Site, findings: &mut Findings) -> Self {
        let build = &site.build;
        let mut take = |place, value| take_length(site, place, value, Weight::Warning, findings);
        let spacing = take(Place::BuildSpacing, build.spacing);
        let string_above_grade = take(Place::StringAboveGrade, build.string_above_grade);
        let rods_at_sill = build
            .set_ups
            .iter()
            .enumerate()
            .filter_map(|(idx, set_up)| take(Place::SetUpRod(idx), set_up.rod_at_sill));
        Self {
            spacing: spacing.unwrap_or_else(|| defaults::stake_spacing(site.shown_in)),
            string_above_grade: string_above_grade.unwrap_or_else(defaults::string_above_grade),
            // The sill is the datum.
            sight: rods_at_sill
                .last()
                .map(|rod| HeightOfCollimation::from_backsight(metres(0.0), rod)),
        }
    }
}
