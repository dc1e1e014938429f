//! Everything that is read while the walk is built, held against the design.

use super::Placed;
use super::check::{LiftFound, ReadingFound, SpotFound};
use super::stage::StageFound;
use super::{clock, lifts_placed, placed, readings, spots, stages, string_line};
use crate::bed::Bed;
use crate::findings::Findings;
use crate::line::Line;
use crate::order::Order;
use crate::site::Site;

/// What the readings of the building say. The fields are those of [`super::Build`].
#[derive(Clone, Debug, PartialEq)]
pub struct Checked {
    /// What each reading says.
    pub readings: Vec<ReadingFound>,
    /// What each check at a spot says.
    pub spots: Vec<SpotFound>,
    /// What the lift record says, a lift each.
    pub lifts: Vec<LiftFound>,
    /// Base placed against base ordered; `None` where no base is built.
    pub placed: Option<Placed>,
    /// Stages in the order in which they are done.
    pub stages: Vec<StageFound>,
}

/// Holds what was read, placed and closed against the design.
#[must_use]
pub fn checked(
    site: &Site,
    line: &Line,
    bed: &Bed,
    order: Option<&Order>,
    findings: &mut Findings,
) -> Checked {
    let readings = readings::readings(site, line, bed, findings);
    let spots = spots::spots(site, findings);
    let lifts = lifts_placed::lifts(site, bed, findings);
    let placed = placed::placed(site, bed, order);
    let stages = stages::stages(site, line, bed, (&readings, &spots), findings);
    string_line::check(site, line, findings);
    clock::check(&site.build, findings);
    Checked {
        readings,
        spots,
        lifts,
        placed,
        stages,
    }
}
