//! Building it: what string, tape and rod must read, and whether what they read is right.

mod advice;
mod asked;
mod cautions;
mod check;
mod checked;
mod clock;
mod designed;
mod doubts;
mod flat;
mod hold_checks;
mod lifts_placed;
mod passes;
mod placed;
mod readings;
mod rises;
mod screed;
mod set_out;
mod spots;
mod stage;
mod stages;
mod stake;
mod stakes;
mod stops;
mod string_line;
mod surface;

pub use cautions::Caution;
pub use check::{Asks, LiftFound, ReadingFound, Required, SpotFound, Verdict};
pub use checked::{Checked, checked};
pub use passes::Plant;
pub use screed::{GaugeMark, Screed, gauge, screed};
pub use set_out::curves;
pub use stage::{HoldStage, StageFound, StageState};
pub use stake::{CurveSetOut, EdgeStake, Stake, StakeRow, StakeWhy, Swing};
pub use stakes::stakes;
pub use string_line::{StringLine, string_line};
pub use surface::{SpotKind, Surface, Tolerance};

use crate::bed::Bed;
use crate::findings::Findings;
use crate::ground::Ground;
use crate::line::Line;
use crate::order::{Decimal, Item, Order, SaleUnit};
use crate::quantity::Volume;
use crate::site::Site;
use asked::Asked;

/// All that the crew builds by.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// The stake table, from the door.
    pub stakes: Vec<Stake>,
    /// Arcs of the edges, both of each curved leg.
    pub curves: Vec<CurveSetOut>,
    /// The screed board.
    pub screed: Screed,
    /// The gauge rod, from its upper end.
    pub gauge: Vec<GaugeMark>,
    /// What each reading says, in the order in which they were written down; those without a surface or a station are left out.
    pub readings: Vec<ReadingFound>,
    /// What each check at a spot says.
    pub spots: Vec<SpotFound>,
    /// What the lift record says, a lift each.
    pub lifts: Vec<LiftFound>,
    /// Base placed, as tipped, against what was ordered.
    pub placed: Option<Placed>,
    /// Stages in the order in which they are done.
    pub stages: Vec<StageFound>,
}

/// Base placed against base ordered.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Lifts that are closed, as tipped, by the design.
    pub by_design: Volume,
    /// The same by the thickness that was read; `None` where none was.
    pub by_readings: Option<Volume>,
    /// What the lifts to come still need, as tipped.
    pub to_come: Volume,
    /// Of which item, what came so far and what was ordered, in units of sale.
    pub delivered: Vec<(Item, Decimal, Option<Decimal>, SaleUnit)>,
    /// Whether what is left will do; `None` where it cannot be said.
    pub will_do: Option<bool>,
}

/// All that the crew builds by. A value of the building that cannot be true is named in the findings, and not used.
#[must_use]
pub fn build(
    site: &Site,
    line: &Line,
    ground: &Ground,
    bed: &Bed,
    order: Option<&Order>,
    findings: &mut Findings,
) -> Build {
    let asked = Asked::of(site, findings);
    let checked = checked(site, line, bed, order, findings);
    Build {
        stakes: stakes::stakes_as_asked(&asked, line, bed, ground),
        curves: curves(site, line, bed),
        screed: screed(line, bed),
        gauge: screed::gauge_as_asked(&asked, bed),
        readings: checked.readings,
        spots: checked.spots,
        lifts: checked.lifts,
        placed: checked.placed,
        stages: checked.stages,
    }
}
