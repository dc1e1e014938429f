//! The small language in which a rule says what must be seen.

use crate::catalogue::{Drainage, UnderAWalk};
use crate::measure::slope::Fall;
use crate::quantity::Length;
use crate::site::{Firmness, MaterialKey, Moisture, Severity, SignKind};

/// What must be seen.
#[derive(Clone, Debug, PartialEq)]
pub enum Seen {
    /// Each of them.
    All(Vec<Seen>),
    /// At least one of them; all that are seen are evidence.
    Any(Vec<Seen>),
    /// Not that. What was never looked for is not seen either.
    Not(Box<Seen>),
    /// Both, no further apart along the run than that. What has no station is everywhere.
    Near {
        /// The one.
        one: Box<Seen>,
        /// The other.
        other: Box<Seen>,
        /// Most distance along the run.
        within: Length,
    },
    /// Such a sign.
    Sign(SignKind),
    /// Such a sign, no milder than that.
    SignAtLeast(SignKind, Severity),
    /// A layer like that in any pit.
    Layer(LayerLike),
    /// A layer lying straight on another.
    LayerAbove {
        /// The upper one.
        upper: LayerLike,
        /// The lower one.
        lower: LayerLike,
    },
    /// The layer right under the old pavement is like that.
    SettingBed(LayerLike),
    /// The layer right under the old pavement is thicker than that.
    SettingBedThickerThan(Length),
    /// A pit that has no layer of base material under the layer that the old pavement lies on.
    NoBaseInPit,
    /// A pit whose base is there, and thinner than that.
    BaseThinnerThan(Length),
    /// A pit that did not reach the bottom of what must come out.
    PitBottomNotFound,
    /// Water came into a pit.
    Seep,
    /// Water came into a pit less deep than that.
    SeepShallowerThan(Length),
    /// Open joints wider than that.
    JointWiderThan(Length),
    /// Brick of which the length misses two widths and a joint by more than that.
    BrickPatternOffBy(Length),
    /// Nothing is to hold the new edge.
    NoRestraint,
    /// No fabric is to lie under the new base.
    NoFabric,
    /// The new base is to be thinner than that.
    WishedBaseThinnerThan(Length),
    /// The old surface falls towards the house.
    OldSurfaceFallsToHouse,
    /// The old surface falls away from the house by less than that.
    OldFallBelow(Fall),
    /// The old surface is hollow under a straightedge of 10 ft by more than that.
    OldLowSpot(Length),
    /// A curve of less radius to the centreline than whole brick of this site can follow within its joint limits, laid along.
    CurveTooTight,
    /// By its frost group, from tests or feel, the ground heaves.
    SoilHeaves,
    /// By its frost group the ground does not heave; what only a laboratory can tell is neither.
    SoilDoesNotHeave,
}

/// A layer of a pit by its marks; an empty list takes any, and all that are given must fit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LayerLike {
    /// One of these materials.
    pub materials: Vec<MaterialKey>,
    /// What the catalogue says of it under a walk.
    pub under_a_walk: Vec<UnderAWalk>,
    /// How water leaves it, by the catalogue.
    pub drainage: Vec<Drainage>,
    /// As felt by thumb or rod.
    pub firmness: Vec<Firmness>,
    /// As it felt.
    pub moisture: Vec<Moisture>,
    /// At least so thick, where its thickness is known.
    pub at_least: Option<Length>,
}

impl LayerLike {
    /// Whether it would take any layer at all.
    #[must_use]
    pub fn takes_any(&self) -> bool {
        *self == Self::default()
    }
}
