//! The work, stage by stage, in the order in which it is done.

/// One stage of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// Lift the brick, clean and stack what is kept.
    LiftBrick,
    /// Dig, by material, to the bottom of the dig.
    Dig,
    /// Load what is dug and take it away.
    LoadSpoil,
    /// Trim the bottom, compact it.
    TrimBottom,
    /// Lay the fabric.
    LayFabric,
    /// Tip, spread and compact the lifts.
    Lifts,
    /// Set form boards to the line.
    Forms,
    /// Set the edge brick.
    EdgeBrick,
    /// Place the haunch or the edging.
    Restraint,
    /// Screed the setting bed.
    Screed,
    /// Lay the field.
    LayField,
    /// Saw the cuts.
    Cut,
    /// Sweep in the jointing, run the plate, sweep again.
    Jointing,
    /// Backfill the sides, clean, hand over.
    HandOver,
}

/// What the hours of a stage are counted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkUnit {
    /// Area.
    Area,
    /// Volume in the ground, or in place.
    Volume,
    /// Length along the run or along the edges.
    Length,
    /// Pieces, bricks or cuts.
    Pieces,
    /// Area once for each lift.
    LiftArea,
    /// The job as a whole.
    Job,
}

impl Stage {
    /// All, in the order in which they are done.
    pub const ALL: [Self; 14] = [
        Self::LiftBrick,
        Self::Dig,
        Self::LoadSpoil,
        Self::TrimBottom,
        Self::LayFabric,
        Self::Lifts,
        Self::Forms,
        Self::EdgeBrick,
        Self::Restraint,
        Self::Screed,
        Self::LayField,
        Self::Cut,
        Self::Jointing,
        Self::HandOver,
    ];

    /// Its word in a record and in a price list.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::LiftBrick => "lift-brick",
            Self::Dig => "dig",
            Self::LoadSpoil => "load-spoil",
            Self::TrimBottom => "trim-bottom",
            Self::LayFabric => "lay-fabric",
            Self::Lifts => "lifts",
            Self::Forms => "forms",
            Self::EdgeBrick => "edge-brick",
            Self::Restraint => "restraint",
            Self::Screed => "screed",
            Self::LayField => "lay-field",
            Self::Cut => "cut",
            Self::Jointing => "jointing",
            Self::HandOver => "hand-over",
        }
    }

    /// As a heading.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::LiftBrick => "Lift and stack the brick",
            Self::Dig => "Dig",
            Self::LoadSpoil => "Load the spoil",
            Self::TrimBottom => "Trim and compact the bottom",
            Self::LayFabric => "Lay the fabric",
            Self::Lifts => "Base, lift by lift",
            Self::Forms => "Form boards",
            Self::EdgeBrick => "Edge brick",
            Self::Restraint => "Haunch or edging",
            Self::Screed => "Screed the setting bed",
            Self::LayField => "Lay the field",
            Self::Cut => "Saw the cuts",
            Self::Jointing => "Fill the joints",
            Self::HandOver => "Backfill, clean, hand over",
        }
    }

    /// What its hours are counted by.
    #[must_use]
    pub const fn unit(self) -> WorkUnit {
        match self {
            Self::LiftBrick
            | Self::TrimBottom
            | Self::LayFabric
            | Self::Screed
            | Self::LayField
            | Self::Jointing => WorkUnit::Area,
            Self::Dig | Self::LoadSpoil => WorkUnit::Volume,
            Self::Lifts => WorkUnit::LiftArea,
            Self::Forms | Self::EdgeBrick | Self::Restraint => WorkUnit::Length,
            Self::Cut => WorkUnit::Pieces,
            Self::HandOver => WorkUnit::Job,
        }
    }

    /// The stage of that word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|stage| stage.key() == word.trim())
    }
}
