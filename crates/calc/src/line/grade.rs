//! The grade line: the finished surface.

use super::Run;
use crate::defaults;
use crate::field::{self, full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::measure::slope::Fall;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{FarEnd, Site};

/// The finished surface: a plane along the run, falling `fall` along and `cross_fall` across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GradeLine {
    /// Level at the door, on the centreline.
    pub start: Length,
    /// Fall along the run that results.
    pub fall: Fall,
    /// Fall across, positive down to the right.
    pub cross_fall: Fall,
    /// Level at the far end, on the centreline.
    pub end: Length,
    /// Whether the far end is fixed by something already there.
    pub end_is_fixed: bool,
}

impl GradeLine {
    /// Level at a spot, above the datum, up positive.
    #[must_use]
    pub fn level(&self, station: Length, offset: Length) -> Length {
        self.start - station * self.fall.ratio() - offset * self.cross_fall.ratio()
    }

    /// Level so far below the door.
    pub(super) fn level_down(&self, drop: Length) -> Length {
        self.start - drop
    }
}

/// The grade line of a site: through both ends where the far one is fixed, else from the door at the wanted fall.
pub(super) fn grade_line(site: &Site, run: &Run, findings: &mut Findings) -> GradeLine {
    let wanted_drop = site.line.first_brick_below_sill;
    let drop = take_length(
        site,
        Place::FirstBrickBelowSill,
        wanted_drop,
        Weight::Stop,
        findings,
    );
    let start = metres(0.0) - drop.unwrap_or_else(defaults::first_brick_below_sill);
    let cross_fall = take_fall(site, Place::CrossFall, site.line.cross_fall, findings)
        .unwrap_or(defaults::cross_fall());
    let wanted = take_fall(site, Place::Fall, site.line.fall, findings).unwrap_or(defaults::fall());
    if let Some(end) = fixed_end(site, findings) {
        let ratio = in_metres(start - end) / in_metres(run.length());
        if let Some(fall) = Fall::from_ratio(ratio) {
            return GradeLine {
                start,
                fall,
                cross_fall,
                end,
                end_is_fixed: true,
            };
        }
    }
    GradeLine {
        start,
        fall: wanted,
        cross_fall,
        end: start - run.length() * wanted.ratio(),
        end_is_fixed: false,
    }
}

/// Level of a far end that is fixed; without a reading of it, it counts as free and a finding says so.
fn fixed_end(site: &Site, findings: &mut Findings) -> Option<Length> {
    let FarEnd::Fixed { below_sill } = site.line.far_end else {
        return None;
    };
    let place = Place::FarEndBelowSill;
    if below_sill.is_none() {
        let text = format!(
            "{} is missing: the walk is drawn at the wanted fall, and may miss what it must meet.",
            full_name(place)
        );
        findings.note(
            place,
            Weight::Warning,
            Source::Readings,
            text,
            field::field(place).how,
        );
    }
    Some(metres(0.0) - take_length(site, place, below_sill, Weight::Stop, findings)?)
}

fn take_fall(
    site: &Site,
    place: Place,
    fall: Option<Fall>,
    findings: &mut Findings,
) -> Option<Fall> {
    match field::check_fall(place, fall?) {
        Ok(fall) => Some(fall),
        Err(error) => {
            field::note_out_of_reason(site, error, Weight::Stop, findings);
            None
        }
    }
}
