//! The stake table: what string, tape and rod must read.

use super::surface::Surface;
use crate::line::SurfaceLevel;
use crate::quantity::Length;

/// One station of the stake table.
#[derive(Clone, Debug, PartialEq)]
pub struct Stake {
    /// Along the run from the door.
    pub station: Length,
    /// Why it is there; never empty.
    pub why: Vec<StakeWhy>,
    /// Level of the finished surface on the centreline. At a riser two stakes share a station: the one before it, then the one behind.
    pub grade: Length,
    /// Level of the working string, over the centreline.
    pub string: Length,
    /// Surfaces from the top down, on the centreline.
    pub rows: Vec<StakeRow>,
    /// The present surface on the centreline.
    pub old_surface: Option<SurfaceLevel>,
    /// From the present surface down to the bottom of the dig: positive is dug, negative filled.
    pub dig: Option<Length>,
    /// Left and right edge.
    pub edges: [EdgeStake; 2],
}

/// Why a stake stands where it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StakeWhy {
    /// The door.
    Door,
    /// The chosen spacing.
    Spacing,
    /// The end of a leg of that index.
    LegEnd(usize),
    /// A change of fall.
    Break,
    /// A riser, looking from the door: before it.
    BeforeRiser,
    /// A riser: behind it.
    BehindRiser,
    /// The pit of that index.
    Pit(usize),
    /// The far end.
    FarEnd,
}

impl StakeWhy {
    /// In words: `end of leg 1`, `pit 2`.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::Door => "door".to_owned(),
            Self::Spacing => "spacing".to_owned(),
            Self::LegEnd(leg_idx) => format!("end of leg {}", leg_idx + 1),
            Self::Break => "change of fall".to_owned(),
            Self::BeforeRiser => "before a riser".to_owned(),
            Self::BehindRiser => "behind a riser".to_owned(),
            Self::Pit(pit_idx) => format!("pit {}", pit_idx + 1),
            Self::FarEnd => "far end".to_owned(),
        }
    }
}

/// What is read on one surface at a stake.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StakeRow {
    /// Which.
    pub surface: Surface,
    /// Its level.
    pub level: Length,
    /// From the string down to it.
    pub drop: Length,
    /// What the rod must read in today's set-up; `None` without one.
    pub rod: Option<Length>,
}

/// An edge at a stake.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeStake {
    /// Offset of the outer face of the edge brick, where the form stands; right positive.
    pub form_offset: Length,
    /// Offset of the outer end of the dig.
    pub dig_offset: Length,
    /// Level of the form top there, cross-fall counted in.
    pub form_top: Length,
    /// Bottom of the dig there.
    pub dig_bottom: Length,
    /// Bottom of the trench for the edge brick, at its outer face; `None` where it stands on the base.
    pub trench_bottom: Option<Length>,
}

/// The arc of one edge of one curved leg, or of a part of it, set out two ways.
#[derive(Clone, Debug, PartialEq)]
pub struct CurveSetOut {
    /// Which leg.
    pub leg_idx: usize,
    /// Whether it is the right edge, looking away from the door.
    pub is_right: bool,
    /// Stations of its start and end: the leg's, or a part's where a leg turns too far for one chord.
    pub stations: [Length; 2],
    /// Outer face of the edge brick there, as (to the right, away) from the middle of the door.
    pub ends: [(Length, Length); 2],
    /// Straight from one to the other.
    pub chord: Length,
    /// Along the arc.
    pub arc: Length,
    /// Along the chord from its start, and square to it to the arc; positive to the side to which the arc bows.
    pub offsets: Vec<(Length, Length)>,
    /// Swung from the centre with a tape; `None` where the walk tapers, and its edge is no arc.
    pub swing: Option<Swing>,
}

/// An arc swung from its centre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// Tape from the centre to the outer face of the edge brick.
    pub radius: Length,
    /// The centre, as (to the right, away) from the middle of the door.
    pub centre: (Length, Length),
    /// From the centreline at the leg's start square to the run, to the side of the turn.
    pub from_start: Length,
}
