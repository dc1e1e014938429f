//! How the walk is set out: as written down where it can be true, else the default.

use crate::defaults;
use crate::field::{check_length, take_length};
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
    /// From the site, with a finding for a value that cannot be true.
    pub(super) fn of(site: &Site, findings: &mut Findings) -> Self {
        let build = &site.build;
        let mut note = |place, value| {
            let _taken = take_length(site, place, value, Weight::Warning, findings);
        };
        note(Place::BuildSpacing, build.spacing);
        note(Place::StringAboveGrade, build.string_above_grade);
        for (idx, set_up) in build.set_ups.iter().enumerate() {
            note(Place::SetUpRod(idx), set_up.rod_at_sill);
        }
        Self {
            spacing: spacing(site),
            string_above_grade: string_above_grade(site),
            // The sill is the datum.
            sight: rods_at_sill(site)
                .flatten()
                .last()
                .map(|rod| HeightOfCollimation::from_backsight(metres(0.0), rod)),
        }
    }
}

/// From stake to stake: as written down where it can be true, else the default.
pub(super) fn spacing(site: &Site) -> Length {
    as_written(Place::BuildSpacing, site.build.spacing)
        .unwrap_or_else(|| defaults::stake_spacing(site.shown_in))
}

/// The working string above the grade line: as written down where it can be true, else the default.
pub(super) fn string_above_grade(site: &Site) -> Length {
    as_written(Place::StringAboveGrade, site.build.string_above_grade)
        .unwrap_or_else(defaults::string_above_grade)
}

/// What the rod read on the sill in each set-up; `None` where it was not read, or cannot be true.
pub(super) fn rods_at_sill(site: &Site) -> impl DoubleEndedIterator<Item = Option<Length>> {
    let set_ups = site.build.set_ups.iter().enumerate();
    set_ups.map(|(idx, set_up)| as_written(Place::SetUpRod(idx), set_up.rod_at_sill))
}

fn as_written(place: Place, value: Option<Length>) -> Option<Length> {
    check_length(place, value?).ok()
}
