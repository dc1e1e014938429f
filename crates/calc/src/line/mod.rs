//! The run, the old surface along it, and the grade line that is to replace it.

mod as_found;
mod book;
mod checks;
mod crossing;
mod flatter;
mod grade;
mod legs;
mod offers;
mod plan;
mod rules;
mod run;
mod shape;
mod shots;
mod steeper;
mod surface;
#[cfg(test)]
pub(crate) mod tests;
mod towards_wall;
mod wording;

pub(crate) use as_found::NearTheHouse;
pub(crate) use book::level_book;
pub use grade::{GradeLine, GradePiece, Riser};
pub use offers::{Offer, Taking};
pub(crate) use plan::offset_line_length_m;
pub use run::{Run, RunLeg};
pub(crate) use shots::beyond_the_run;
pub use surface::{Fold, OldSurface, SurfaceLevel};

use crate::findings::Findings;
use crate::site::Site;

/// The walk in plan and in level.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Centreline and widths.
    pub run: Run,
    /// The surface as found.
    pub old_surface: OldSurface,
    /// The surface to be.
    pub grade: GradeLine,
    /// What else could be done where the uniform fall breaks a rule; empty where it keeps them all. Best first.
    pub offers: Vec<Offer>,
}

/// Works out run, old surface and grade line. `None` where the run or its width is not known or impossible: a finding names the field.
pub fn line(site: &Site, findings: &mut Findings) -> Option<Line> {
    let run = run::run(site, findings)?;
    let old_surface = surface::old_surface(site, &run, findings);
    as_found::check(site, &run, &old_surface, findings);
    let grade = grade::grade_line(site, &run, findings);
    let offers = offers::offers(site, &run, &grade.as_one_fall());
    checks::check(site, &run, &grade, findings);
    towards_wall::check(site, &run, &grade, findings);
    Some(Line {
        run,
        old_surface,
        grade,
        offers,
    })
}
