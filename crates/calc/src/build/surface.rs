//! What a reading can stand on, and how near it must come.

use crate::findings::Source;
use crate::quantity::{Length, inches};

/// A surface of the walk that is read while it is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Surface {
    /// Bottom of the dig, trimmed.
    DigBottom,
    /// Top of the lift of this number, compacted, counted from the bottom, from 1. The last one's is the base top.
    LiftTop(usize),
    /// Top of a form board.
    FormTop,
    /// Top of an edge brick.
    EdgeTop,
    /// Setting bed, screeded.
    SettingBed,
    /// Brick, compacted.
    BrickTop,
}

/// A check at one spot that is no level.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SpotKind {
    /// Gap under a straightedge of 10 ft on the base.
    StraightedgeOnBase,
    /// Gap under a straightedge of 10 ft on the brick.
    StraightedgeOnBrick,
    /// Step from one brick to the next.
    Lippage,
    /// Width of a joint.
    JointWidth,
    /// How far the jointing lies below the brick's top, or its chamfer.
    JointFill,
    /// How far a bond line leaves a string of 50 ft.
    BondLine,
    /// How far the brick stands above a drain inlet or channel beside it.
    AboveInlet,
}

/// How far from its design a surface may lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Tolerance {
    /// Above it.
    pub high: Length,
    /// Below it.
    pub low: Length,
    /// Where it comes from.
    pub source: Source,
}

impl Surface {
    /// Its word in a record: `dig-bottom`, `lift-2`.
    #[must_use]
    pub fn key(self) -> String {
        match self {
            Self::DigBottom => "dig-bottom".to_owned(),
            Self::LiftTop(number) => format!("lift-{number}"),
            Self::FormTop => "form-top".to_owned(),
            Self::EdgeTop => "edge-top".to_owned(),
            Self::SettingBed => "setting-bed".to_owned(),
            Self::BrickTop => "brick-top".to_owned(),
        }
    }

    /// What the crew calls it: `bottom of dig`, `lift 2`.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::DigBottom => "bottom of dig".to_owned(),
            Self::LiftTop(number) => format!("lift {number}"),
            Self::FormTop => "form top".to_owned(),
            Self::EdgeTop => "edge brick".to_owned(),
            Self::SettingBed => "setting bed".to_owned(),
            Self::BrickTop => "brick".to_owned(),
        }
    }

    /// The surface of that word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        let word = word.trim();
        match word {
            "dig-bottom" => Some(Self::DigBottom),
            "form-top" => Some(Self::FormTop),
            "edge-top" => Some(Self::EdgeTop),
            "setting-bed" => Some(Self::SettingBed),
            "brick-top" => Some(Self::BrickTop),
            _ => {
                let number = word.strip_prefix("lift-")?.parse().ok()?;
                (1..=1000)
                    .contains(&number)
                    .then_some(Self::LiftTop(number))
            }
        }
    }

    /// How far from its design it may lie; `is_base_top` for the last lift.
    ///
    /// # Source
    /// Interlocking Concrete Pavement Institute, construction tolerances and recommendations: base top and surface ± 3/8 in over 10 ft,
    /// base thickness + 3/4, − 1/2 in, which with a base top in tolerance leaves the bottom of the dig 1/2 in high and 3/4 in low. The others
    /// are common practice, no source.
    #[must_use]
    pub fn tolerance(self, is_base_top: bool) -> Tolerance {
        const ICPI: Source = Source::Published(
            "Interlocking Concrete Pavement Institute, construction tolerances and recommendations",
        );
        let (high_in, low_in, source) = match self {
            Self::DigBottom => (0.5, 0.75, ICPI),
            Self::LiftTop(_) if is_base_top => (0.375, 0.375, ICPI),
            Self::LiftTop(_) => (0.5, 0.5, Source::CommonPractice),
            Self::FormTop | Self::EdgeTop | Self::SettingBed => {
                (0.125, 0.125, Source::CommonPractice)
            }
            Self::BrickTop => (0.375, 0.375, ICPI),
        };
        Tolerance {
            high: inches(high_in),
            low: inches(low_in),
            source,
        }
    }
}

impl SpotKind {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::StraightedgeOnBase,
        Self::StraightedgeOnBrick,
        Self::Lippage,
        Self::JointWidth,
        Self::JointFill,
        Self::BondLine,
        Self::AboveInlet,
    ];

    /// Its word in a record.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::StraightedgeOnBase => "straightedge-base",
            Self::StraightedgeOnBrick => "straightedge-brick",
            Self::Lippage => "lippage",
            Self::JointWidth => "joint-width",
            Self::JointFill => "joint-fill",
            Self::BondLine => "bond-line",
            Self::AboveInlet => "above-inlet",
        }
    }

    /// What the crew calls it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::StraightedgeOnBase => "Gap under a 10 ft straightedge, base",
            Self::StraightedgeOnBrick => "Gap under a 10 ft straightedge, brick",
            Self::Lippage => "Step from brick to brick",
            Self::JointWidth => "Joint width",
            Self::JointFill => "Jointing below the brick's top",
            Self::BondLine => "Bond line off a 50 ft string",
            Self::AboveInlet => "Brick above a drain inlet",
        }
    }

    /// The kind of that word.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == word.trim())
    }
}
