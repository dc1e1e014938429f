//! What was read, placed and closed while the walk was built.

use crate::build::{HoldStage, SpotKind, Surface};
use crate::order::{Decimal, Item};
use crate::quantity::Length;

/// What was written down while the walk was built. Each value is optional; what is not given takes its default or is missing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BuildInput {
    /// From stake to stake.
    pub spacing: Option<Length>,
    /// How far the working string hangs above the grade line: common practice is on it.
    pub string_above_grade: Option<Length>,
    /// Set-ups of the instrument, in the order in which they were made; the last is today's.
    pub set_ups: Vec<SetUp>,
    /// Readings of what was built, in the order in which they were written down.
    pub readings: Vec<BuildReading>,
    /// Straightedge, lippage, joints and the like.
    pub spots: Vec<SpotReading>,
    /// Lifts as they were placed.
    pub lifts: Vec<LiftPlaced>,
    /// Stages that were closed.
    pub closed: Vec<StageClosed>,
    /// The log, a day each.
    pub days: Vec<DayLog>,
}

/// Who wrote something down, when, and on which device. There is no account: initials are what a person gives.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stamp {
    /// Seconds since the start of 1970, UTC, by the device's clock; `None` where it could not be read.
    pub at_s: Option<i64>,
    /// How many seconds the device's clock was ahead of UTC, east positive; 0 where it showed UTC.
    pub east_s: i32,
    /// Initials; empty where none were given.
    pub initials: String,
    /// What the device is called; empty where it is not known.
    pub device: String,
}

impl Stamp {
    /// Seconds since the start of 1970 as the device's clock showed them, for the day on which it was; `None` where the time could not be
    /// read.
    #[must_use]
    pub fn local_s(&self) -> Option<i64> {
        self.at_s?.checked_add(i64::from(self.east_s))
    }
}

/// One set-up of an instrument.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SetUp {
    /// Rod reading on the underside of the sill, the datum.
    pub rod_at_sill: Option<Length>,
    /// Who and when.
    pub stamp: Stamp,
}

/// How a level was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ReadBy {
    /// Tape down from the working string.
    #[default]
    String,
    /// Rod, in the set-up of that index.
    Rod {
        /// Index into [`BuildInput::set_ups`].
        set_up_idx: usize,
    },
}

/// A reading of what was built.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BuildReading {
    /// Along the run from the door.
    pub station: Option<Length>,
    /// Square to the run, right positive; `None` for the centreline.
    pub offset: Option<Length>,
    /// What it stands on.
    pub surface: Option<Surface>,
    /// How it was read.
    pub by: ReadBy,
    /// What tape or rod read.
    pub reading: Option<Length>,
    /// Whether the person was asked about it and says that it is right.
    pub is_confirmed: bool,
    /// Who and when.
    pub stamp: Stamp,
}

/// A check at one spot that is no level.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SpotReading {
    /// What was checked.
    pub kind: Option<SpotKind>,
    /// Along the run from the door.
    pub station: Option<Length>,
    /// What the rule, the feeler or the tape read.
    pub size: Option<Length>,
    /// Who and when.
    pub stamp: Stamp,
}

/// A lift as it was placed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LiftPlaced {
    /// Counted from the bottom, from 1.
    pub number: usize,
    /// As tipped and spread, at its thickest.
    pub loose: Option<Length>,
    /// Compacted.
    pub compacted: Option<Length>,
    /// Passes of the plate.
    pub n_passes: Option<u32>,
    /// Who and when.
    pub stamp: Stamp,
}

/// A stage that was closed.
#[derive(Clone, Debug, PartialEq)]
pub struct StageClosed {
    /// Which.
    pub stage: HoldStage,
    /// Why it was closed over a check that failed or is missing; empty where all were right.
    pub reason: String,
    /// Who and when; the initials are asked for where there is a reason.
    pub stamp: Stamp,
}

/// One day of the log.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DayLog {
    /// Date as year, month, day.
    pub date: Option<(i16, i8, i8)>,
    /// Who worked.
    pub crew: String,
    /// Weather in a few words.
    pub weather: String,
    /// What came.
    pub deliveries: Vec<Delivery>,
    /// What else is to be remembered.
    pub notes: String,
    /// Who and when.
    pub stamp: Stamp,
}

/// What came on one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Delivery {
    /// Of what.
    pub item: Item,
    /// How many of its unit of sale.
    pub count: Option<Decimal>,
}
