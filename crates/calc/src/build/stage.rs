//! Stages with hold points, made from the design.

use super::cautions::Caution;
use super::check::Required;

/// One stage that is closed before the next begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HoldStage {
    /// Brick lifted, cleaned, stacked.
    LiftBrick,
    /// Dug to the bottom, trimmed and compacted.
    Dig,
    /// Fabric laid.
    Fabric,
    /// The lift of this number placed and compacted.
    Lift(usize),
    /// Form boards set.
    Forms,
    /// Edge brick set.
    Edge,
    /// Haunch or edging placed.
    Restraint,
    /// The riser of this number built, counted from the door, from 1.
    Riser(usize),
    /// Setting bed screeded.
    SettingBed,
    /// Field laid.
    Field,
    /// Joints filled and compacted.
    Jointing,
    /// Handed over.
    HandOver,
}

/// A stage with what it asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct StageFound {
    /// Which.
    pub stage: HoldStage,
    /// Checks that it is closed on.
    pub required: Vec<Required>,
    /// What may hurt someone at this stage.
    pub cautions: Vec<Caution>,
    /// Where it stands.
    pub state: StageState,
}

/// Where a stage stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StageState {
    /// Checks are missing.
    Open,
    /// All checks are right: it can be closed.
    Ready,
    /// A check failed: it is mended, or closed with a reason.
    Failed,
    /// Closed on checks that are right.
    Closed,
    /// Closed with a written reason.
    ClosedWithReason,
    /// Closed, and a reading since then contradicts it, or a stage before it is open.
    Doubtful,
}

impl HoldStage {
    /// Its word in a record: `dig`, `lift-2`.
    #[must_use]
    pub fn key(self) -> String {
        match self {
            Self::LiftBrick => "lift-brick".to_owned(),
            Self::Dig => "dig".to_owned(),
            Self::Fabric => "fabric".to_owned(),
            Self::Lift(number) => format!("lift-{number}"),
            Self::Forms => "forms".to_owned(),
            Self::Edge => "edge".to_owned(),
            Self::Restraint => "restraint".to_owned(),
            Self::Riser(number) => format!("riser-{number}"),
            Self::SettingBed => "setting-bed".to_owned(),
            Self::Field => "field".to_owned(),
            Self::Jointing => "jointing".to_owned(),
            Self::HandOver => "hand-over".to_owned(),
        }
    }

    /// As a heading.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::LiftBrick => "Lift the brick".to_owned(),
            Self::Dig => "Dig, trim, compact the bottom".to_owned(),
            Self::Fabric => "Fabric".to_owned(),
            Self::Lift(number) => format!("Lift {number}"),
            Self::Forms => "Form boards".to_owned(),
            Self::Edge => "Edge brick".to_owned(),
            Self::Restraint => "Haunch or edging".to_owned(),
            Self::Riser(number) => format!("Riser {number}"),
            Self::SettingBed => "Setting bed".to_owned(),
            Self::Field => "Field".to_owned(),
            Self::Jointing => "Joints".to_owned(),
            Self::HandOver => "Hand over".to_owned(),
        }
    }

    /// The stage of that word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        let word = word.trim();
        let numbered = |prefix: &str| -> Option<usize> {
            let number = word.strip_prefix(prefix)?.parse().ok()?;
            (1..=1000).contains(&number).then_some(number)
        };
        match word {
            "lift-brick" => Some(Self::LiftBrick),
            "dig" => Some(Self::Dig),
            "fabric" => Some(Self::Fabric),
            "forms" => Some(Self::Forms),
            "edge" => Some(Self::Edge),
            "restraint" => Some(Self::Restraint),
            "setting-bed" => Some(Self::SettingBed),
            "field" => Some(Self::Field),
            "jointing" => Some(Self::Jointing),
            "hand-over" => Some(Self::HandOver),
            _ => numbered("lift-")
                .map(Self::Lift)
                .or_else(|| numbered("riser-").map(Self::Riser)),
        }
    }
}
