//! A reading against the design: right or wrong now, by how much, and what to do.

use super::stage::HoldStage;
use super::surface::{SpotKind, Surface, Tolerance};
use crate::place::Place;
use crate::quantity::Length;

/// What a reading says of one surface.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingFound {
    /// Which reading.
    pub reading_idx: usize,
    /// What it stands on.
    pub surface: Surface,
    /// Where.
    pub station: Length,
    /// Where, right positive.
    pub offset: Length,
    /// Level that was read; `None` without a reading, or a rod reading without its set-up.
    pub level: Option<Length>,
    /// Level that it must have; `None` where there is no such surface there.
    pub design: Option<Length>,
    /// Read less design: high is positive.
    pub off: Option<Length>,
    /// How far it may be off.
    pub tolerance: Tolerance,
    /// Right, high, low.
    pub verdict: Verdict,
    /// What to do, in one sentence; empty where it is right.
    pub advice: String,
    /// Whether it is so far off that it is asked about once: it may be a slip of reading.
    pub is_questioned: bool,
    /// The reading that it is uneven with: the two differ by more than may be over 10 ft, though each may lie in its tolerance.
    pub uneven_with: Option<usize>,
    /// Whether the same spot was read again after it: the later reading counts.
    pub is_read_again: bool,
}

/// Right, high, low.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// In tolerance.
    Right,
    /// Too high, or too much.
    High,
    /// Too low, or too little.
    Low,
    /// Nothing to say: a reading is missing.
    NotKnown,
}

/// What a check at a spot says.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotFound {
    /// Which.
    pub spot_idx: usize,
    /// What was checked.
    pub kind: SpotKind,
    /// What was read.
    pub size: Option<Length>,
    /// Least that it may be; zero for most.
    pub least: Length,
    /// Most that it may be.
    pub most: Length,
    /// Right, high, low.
    pub verdict: Verdict,
    /// What to do; empty where it is right.
    pub advice: String,
    /// Where the limits come from.
    pub source: crate::findings::Source,
    /// What another published rule says of the same, in words; empty where none does.
    pub beside: &'static str,
    /// Whether the same was checked again there after it: the later check counts.
    pub is_read_again: bool,
}

/// What the lift record says of one lift.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftFound {
    /// Which lift.
    pub number: usize,
    /// Most that may be tipped.
    pub loose_limit: Length,
    /// What it must come to, at its thickest.
    pub compacted: Length,
    /// Passes that are asked for, the fewest of all classes of plate that are published for this thickness; `None` where none is.
    pub n_passes_asked: Option<u32>,
    /// Passes of each class of plate, in words: the crew knows its own.
    pub passes_rule: String,
    /// Right, high (tipped too thick), low (too few passes).
    pub verdict: Verdict,
    /// What to do; empty where it is right.
    pub advice: String,
}

/// A check that a stage asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct Required {
    /// What, in words: "bottom of dig at 12'-0\"".
    pub what: String,
    /// Where it is entered.
    pub place: Place,
    /// Right, high, low; not known where it was not read.
    pub verdict: Verdict,
    /// What is to be entered there.
    pub asks: Asks,
}

/// What a check asks for, so that whoever taps on it need not say it again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asks {
    /// A level.
    Level {
        /// Of which surface.
        surface: Surface,
        /// Where along the run.
        station: Length,
        /// Where across, right positive.
        offset: Length,
    },
    /// A check at a spot.
    Spot(SpotKind),
    /// How thick the lift of this number was tipped.
    LiftLoose(usize),
    /// Passes over the lift of this number.
    LiftPasses(usize),
    /// The stage before it, which is to be closed first.
    StageBefore(HoldStage),
}
