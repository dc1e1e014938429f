//! `site.ron`, format 1: plain structs, named as the calculation names the same things.
//!
//! Every length, fall and angle is text as typed, with its unit; an empty text is a value that was not measured. A text that cannot
//! be read stays as it is until the person mends it.

mod soil;

use serde::{Deserialize, Serialize};
use underbrick_calc::site;

use crate::written::{is_usual, written};

mod book;
mod build;
mod lay;
mod order;
mod show;

pub use book::{BookRow, LevelBook, Sight, Stands};
pub use build::{
    Build, BuildReading, DayLog, Delivery, LiftPlaced, ReadBy, SetUp, SpotReading, StageNote, Stamp,
};
pub use lay::{Bond, BrickReading, CourseWay, Lay, Opening, SecondBrick, StartSide};
pub use order::{Order, OrderLine, StageHours, Way};
pub use show::{Agreement, Clause, Language, Picture, PictureOf, Show, Signature};
pub use soil::{Frost, Grit, Ribbon, Soil};

/// The number of this format, as it stands in the file.
pub const VERSION: u32 = 1;

/// Everything that was written down at one address, as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SiteFile {
    /// Always [`VERSION`].
    pub version: u32,
    /// Street address, as the contractor calls the job.
    #[serde(deserialize_with = "written")]
    pub address: String,
    /// Which walk at that address, such as "front walk".
    #[serde(default, deserialize_with = "written")]
    pub walk: String,
    /// How lengths are shown for this site.
    pub shown_in: ShownIn,
    /// What is seen, in the order in which it was written down.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub signs: Vec<Sign>,
    /// Sill, run, levels, far end.
    pub line: Line,
    /// Test pits, in the order in which they were written down.
    #[serde(default)]
    pub pits: Vec<Pit>,
    /// Setting bed, base and lifts.
    pub bed: Bed,
    /// The brick of the field.
    pub brick: Brick,
    /// What is known of the soil.
    #[serde(default, skip_serializing_if = "Soil::is_empty")]
    pub soil: Soil,
    /// What is known of the winter, and of the ground as it freezes.
    #[serde(default, skip_serializing_if = "Frost::is_empty")]
    pub frost: Frost,
    /// The edge and what holds it.
    pub edge: Edge,
    /// How the brick is to be laid, and what brick there is.
    #[serde(default, skip_serializing_if = "Lay::is_empty")]
    pub lay: Lay,
    /// What was decided for the order.
    #[serde(default, skip_serializing_if = "Order::is_empty")]
    pub order: Order,
    /// What was written down while it was built.
    #[serde(default, skip_serializing_if = "Build::is_empty")]
    pub build: Build,
    /// What is shown, agreed and handed over beside it.
    #[serde(default, skip_serializing_if = "Show::is_empty")]
    pub show: Show,
}

impl SiteFile {
    /// A site of which nothing has been measured yet: one straight leg, free far end, crushed stone, edge brick on end in a
    /// concrete haunch.
    #[must_use]
    pub fn new(address: &str, walk: &str) -> Self {
        Self {
            version: VERSION,
            address: address.to_owned(),
            walk: walk.to_owned(),
            shown_in: ShownIn::FeetInches,
            signs: Vec::new(),
            line: Line {
                legs: vec![Leg::straight()],
                ..Line::default()
            },
            pits: Vec::new(),
            bed: Bed {
                base_material: "crushed-stone".to_owned(),
                ..Bed::default()
            },
            brick: Brick::default(),
            soil: Soil::default(),
            frost: Frost::default(),
            edge: Edge {
                stands: EdgeStands::Sailor,
                restraint: Restraint::haunch(),
            },
            lay: Lay::default(),
            order: Order::default(),
            build: Build::default(),
            show: Show::default(),
        }
    }
}

/// How lengths are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ShownIn {
    /// Feet, inches and sixteenths.
    #[default]
    FeetInches,
    /// Millimetres and metres.
    Metric,
}

/// One thing that is seen on the old walk.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sign {
    /// What it is: a word such as `sunk` or `open-joints`.
    #[serde(default, deserialize_with = "written")]
    pub what: String,
    /// How bad it is.
    #[serde(default)]
    pub severity: Severity,
    /// Along the run from the door; empty where it is all along the walk.
    #[serde(default, deserialize_with = "written")]
    pub station: String,
    /// Square to the run, right positive; empty for the centreline.
    #[serde(default, deserialize_with = "written")]
    pub offset: String,
    /// Width of the widest joint: for open joints only.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub width: String,
}

/// How bad a sign is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Severity {
    /// One has to look for it.
    Slight,
    /// One sees it.
    #[default]
    Plain,
    /// One trips over it.
    Bad,
}

/// The walk in plan and in level.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// Drop from the sill's underside to the old brick at the door.
    #[serde(default, deserialize_with = "written")]
    pub old_below_sill: String,
    /// Drop from the sill's underside to the top of the first new brick.
    #[serde(default, deserialize_with = "written")]
    pub first_brick_below_sill: String,
    /// The run, leg by leg from the door, each tangent to the one before.
    #[serde(default)]
    pub legs: Vec<Leg>,
    /// Clear width between the edge bricks at the door.
    #[serde(default, deserialize_with = "written")]
    pub width: String,
    /// Fall that is wanted along the run.
    #[serde(default, deserialize_with = "written")]
    pub fall: String,
    /// Fall across the run, positive down to the right looking away from the door.
    #[serde(default, deserialize_with = "written")]
    pub cross_fall: String,
    /// What the walk meets at its far end.
    #[serde(default)]
    pub far_end: FarEnd,
    /// How the grade line gets from one end to the other; left out for one fall.
    #[serde(default, skip_serializing_if = "GradeShape::is_uniform")]
    pub shape: GradeShape,
    /// Height of the level string above the sill's underside; negative when it hangs below.
    #[serde(default, deserialize_with = "written")]
    pub string_above_sill: String,
    /// Rod reading on the sill's underside.
    #[serde(default, deserialize_with = "written")]
    pub rod_at_sill: String,
    /// Sights from several set-ups.
    #[serde(default, skip_serializing_if = "LevelBook::is_empty")]
    pub book: LevelBook,
    /// Levels of the old surface.
    #[serde(default)]
    pub shots: Vec<Shot>,
}

/// What the walk meets at its far end.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum FarEnd {
    /// Nothing fixed: the wanted fall decides.
    #[default]
    Free,
    /// A drive, a pavement, a step.
    Fixed {
        /// Drop below the sill's underside, down positive.
        #[serde(default, deserialize_with = "written")]
        below_sill: String,
    },
}

/// How the grade line gets from one end to the other.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum GradeShape {
    /// One fall all along.
    #[default]
    Uniform,
    /// Equal risers with level treads between.
    Steps {
        /// How many.
        n_risers: u32,
        /// Station of the first riser; empty for a flight in the middle of the run.
        #[serde(default, deserialize_with = "written")]
        first_at: String,
        /// From riser to riser.
        #[serde(default, deserialize_with = "written")]
        tread: String,
    },
    /// Two falls that meet at a break.
    Break {
        /// Station of the break.
        #[serde(default, deserialize_with = "written")]
        at: String,
        /// Drop of the break below the sill's underside.
        #[serde(default, deserialize_with = "written")]
        below_sill: String,
    },
    /// A ramp with its landings.
    Ramp,
}

impl GradeShape {
    fn is_uniform(&self) -> bool {
        *self == Self::Uniform
    }
}

/// One leg of the run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Leg {
    /// Straight or curved.
    pub shape: LegShape,
    /// Clear width at the leg's far end; empty keeps the width it starts with.
    #[serde(default, deserialize_with = "written")]
    pub width_at_end: String,
}

impl Leg {
    /// A straight leg, not measured.
    #[must_use]
    pub const fn straight() -> Self {
        Self {
            shape: LegShape::Straight {
                length: String::new(),
            },
            width_at_end: String::new(),
        }
    }

    /// A curved leg to that hand, not measured.
    #[must_use]
    pub const fn curve(hand: Hand) -> Self {
        Self {
            shape: LegShape::Curve {
                radius: String::new(),
                turn: String::new(),
                hand,
            },
            width_at_end: String::new(),
        }
    }
}

/// The centreline of one leg.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LegShape {
    /// Straight on.
    Straight {
        /// Length along the centreline.
        #[serde(default, deserialize_with = "written")]
        length: String,
    },
    /// Part of a circle.
    Curve {
        /// Radius to the centreline.
        #[serde(default, deserialize_with = "written")]
        radius: String,
        /// How far the walk turns.
        #[serde(default, deserialize_with = "written")]
        turn: String,
        /// To which side, looking away from the door.
        hand: Hand,
    },
}

/// A side, looking away from the door.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Hand {
    /// To the left.
    Left,
    /// To the right.
    #[default]
    Right,
}

/// One reading of the old surface.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shot {
    /// Along the run from the door.
    #[serde(default, deserialize_with = "written")]
    pub station: String,
    /// Square to the run, right positive; empty for the centreline.
    #[serde(default, deserialize_with = "written")]
    pub offset: String,
    /// How it was read.
    pub by: ShotBy,
    /// Tape from the string down to the surface, or rod reading on the surface.
    #[serde(default, deserialize_with = "written")]
    pub reading: String,
}

/// How a level was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ShotBy {
    /// Tape down from the level string.
    #[default]
    String,
    /// Rod against a level line.
    Rod,
}

/// A test pit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pit {
    /// Along the run from the door.
    #[serde(default, deserialize_with = "written")]
    pub station: String,
    /// Square to the run, right positive; empty for the centreline.
    #[serde(default, deserialize_with = "written")]
    pub offset: String,
    /// Layers from the old surface down, the old brick among them.
    #[serde(default)]
    pub layers: Vec<Layer>,
    /// Depth below the old surface at which water seeped in.
    #[serde(default, deserialize_with = "written")]
    pub seep: String,
    /// How the digging ended.
    #[serde(default)]
    pub ended: PitEnd,
    /// Cone penetrometer driven from the bottom of the pit.
    #[serde(default, skip_serializing_if = "Penetrometer::is_empty")]
    pub penetrometer: Penetrometer,
}

/// A cone penetrometer as it was driven from the bottom of a pit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Penetrometer {
    /// The weight that drove it.
    #[serde(default)]
    pub hammer: Hammer,
    /// Into what it was driven.
    #[serde(default)]
    pub driven_into: DrivenInto,
    /// Reading with the cone seated, before the first blow.
    #[serde(default, deserialize_with = "written")]
    pub start: String,
    /// Blows and the reading after them, from the top down.
    #[serde(default)]
    pub rows: Vec<PenetrometerRow>,
}

impl Penetrometer {
    /// Whether nothing was written down.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// The weight that drives a penetrometer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Hammer {
    /// 8 kg.
    #[default]
    Heavy,
    /// 4.6 kg.
    Light,
}

/// Into what a penetrometer was driven.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum DrivenInto {
    /// Sand, gravel, silt, or a clay of which no more is known.
    #[default]
    AnySoil,
    /// Lean clay, CL.
    LeanClay,
    /// Fat clay, CH.
    FatClay,
}

/// Some blows of a penetrometer.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PenetrometerRow {
    /// Blows since the reading before, a whole number without a unit.
    #[serde(default, deserialize_with = "written")]
    pub blows: String,
    /// Reading after them.
    #[serde(default, deserialize_with = "written")]
    pub reading: String,
}

/// How the digging of a pit ended.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum PitEnd {
    /// It was stopped; the last layer goes on down.
    #[default]
    Stopped,
    /// The bar or spade would go no further.
    Refused,
}

/// One layer in a pit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// Key into the catalogue of materials.
    #[serde(default, deserialize_with = "written")]
    pub material: String,
    /// Thickness found; empty for a last layer that goes on down.
    #[serde(default, deserialize_with = "written")]
    pub thickness: String,
    /// By thumb or by rod.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub firmness: Option<Firmness>,
    /// As it felt.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub moisture: Option<Moisture>,
}

/// Firmness by thumb or rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Firmness {
    /// Thumb goes in more than an inch.
    VerySoft,
    /// Thumb goes in about an inch.
    Soft,
    /// Thumb goes in about a quarter inch.
    Firm,
    /// Only the thumbnail marks it.
    Hard,
    /// The thumbnail does not mark it.
    VeryHard,
}

/// Moisture as it felt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Moisture {
    /// Dusty, dry to the touch.
    Dry,
    /// Damp, no visible water.
    Moist,
    /// Visible free water.
    Wet,
}

/// What lies between brick and undisturbed ground, as wished.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bed {
    /// Compacted thickness of the setting bed.
    #[serde(default, deserialize_with = "written")]
    pub setting_bed: String,
    /// Least compacted thickness of the base.
    #[serde(default, deserialize_with = "written")]
    pub least_base: String,
    /// Key of the base's material in the catalogue.
    #[serde(default, deserialize_with = "written")]
    pub base_material: String,
    /// Largest loose thickness of one lift.
    #[serde(default, deserialize_with = "written")]
    pub loose_lift: String,
    /// How far the dig goes past the outer face of the edge brick, each side.
    #[serde(default, deserialize_with = "written")]
    pub side_extension: String,
    /// Deepest that the dig may go below the grade line; empty for no limit.
    #[serde(default, deserialize_with = "written")]
    pub undercut_limit: String,
    /// Separation fabric on the undisturbed ground.
    #[serde(default)]
    pub fabric: bool,
    /// What compacts the base; left out where it was not written down.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub plant: Plant,
}

/// What compacts the base.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Plant {
    /// It was not written down.
    #[default]
    NotKnown,
    /// Vibrating plate of 1,400 to 1,800 kg/m².
    Plate,
    /// A heavier one.
    HeavyPlate,
    /// Vibrating tamper from 50 kg.
    Tamper,
    /// Vibrating tamper of 25 kg.
    LightTamper,
    /// Twin roller of 600 to 1,000 kg/m.
    Roller,
}

impl From<Plant> for underbrick_calc::build::Plant {
    fn from(plant: Plant) -> Self {
        match plant {
            Plant::NotKnown => Self::NotKnown,
            Plant::Plate => Self::Plate,
            Plant::HeavyPlate => Self::HeavyPlate,
            Plant::Tamper => Self::Tamper,
            Plant::LightTamper => Self::LightTamper,
            Plant::Roller => Self::Roller,
        }
    }
}

impl From<underbrick_calc::build::Plant> for Plant {
    fn from(plant: underbrick_calc::build::Plant) -> Self {
        use underbrick_calc::build::Plant as Calculated;
        match plant {
            Calculated::NotKnown => Self::NotKnown,
            Calculated::Plate => Self::Plate,
            Calculated::HeavyPlate => Self::HeavyPlate,
            Calculated::Tamper => Self::Tamper,
            Calculated::LightTamper => Self::LightTamper,
            Calculated::Roller => Self::Roller,
        }
    }
}

/// The brick of the field.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Brick {
    /// Longest side.
    #[serde(default, deserialize_with = "written")]
    pub length: String,
    /// Middle side.
    #[serde(default, deserialize_with = "written")]
    pub width: String,
    /// Shortest side.
    #[serde(default, deserialize_with = "written")]
    pub thickness: String,
    /// Joint between bricks.
    #[serde(default, deserialize_with = "written")]
    pub joint: String,
}

/// The edge brick and what holds it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edge {
    /// How the edge brick stands; the same on both sides.
    pub stands: EdgeStands,
    /// What holds it.
    pub restraint: Restraint,
}

/// How an edge brick stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum EdgeStands {
    /// On end, broad face to the field.
    #[default]
    Sailor,
    /// On end, narrow face to the field.
    Soldier,
    /// Flat, square to the run.
    Header,
    /// Flat, along the run.
    Stretcher,
    /// On edge, square to the run.
    Rowlock,
}

/// What holds the edge, as wished.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Restraint {
    /// Concrete against the outer face, from the edge brick's bottom up.
    Haunch {
        /// Height up the brick from its bottom.
        #[serde(default, deserialize_with = "written")]
        height: String,
        /// Width at the bottom.
        #[serde(default, deserialize_with = "written")]
        width: String,
        /// Width at the top.
        #[serde(default, deserialize_with = "written")]
        top_width: String,
    },
    /// Edging strip held by spikes.
    Spiked {
        /// From spike to spike.
        #[serde(default, deserialize_with = "written")]
        spacing: String,
    },
    /// Nothing holds it.
    Nothing,
}

impl Restraint {
    /// A concrete haunch, not measured.
    #[must_use]
    pub const fn haunch() -> Self {
        Self::Haunch {
            height: String::new(),
            width: String::new(),
            top_width: String::new(),
        }
    }

    /// An edging strip, spacing not measured.
    #[must_use]
    pub const fn spiked() -> Self {
        Self::Spiked {
            spacing: String::new(),
        }
    }
}

/// Both ways between a choice in the file and the same choice in the calculation, matched name by name.
macro_rules! same_names {
    ($($choice:ident { $($name:ident),+ })+) => {$(
        impl From<$choice> for site::$choice {
            fn from(choice: $choice) -> Self {
                match choice { $($choice::$name => Self::$name),+ }
            }
        }

        impl From<site::$choice> for $choice {
            fn from(choice: site::$choice) -> Self {
                match choice { $(site::$choice::$name => Self::$name),+ }
            }
        }
    )+};
}

same_names! {
    ShownIn { FeetInches, Metric }
    Severity { Slight, Plain, Bad }
    Hand { Left, Right }
    ShotBy { String, Rod }
    Sight { Back, Intermediate, Fore }
    Stands { Sill, Benchmark, TurningPoint, OldSurface }
    PitEnd { Stopped, Refused }
    Hammer { Heavy, Light }
    DrivenInto { AnySoil, LeanClay, FatClay }
    Firmness { VerySoft, Soft, Firm, Hard, VeryHard }
    Moisture { Dry, Moist, Wet }
    Ribbon { NoBall, NoRibbon, Short, Middling, Long }
    Grit { Gritty, Smooth, Neither }
    EdgeStands { Sailor, Soldier, Header, Stretcher, Rowlock }
    Bond { Running, Stack, BasketTwoOnTwo, BasketTwoOnOne, Herringbone90, Herringbone45 }
    CourseWay { Along, Across }
    StartSide { Left, Right }
}
