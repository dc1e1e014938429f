//! One site as measured and as wished: what `compute` works from. A value that was not measured, or could not be read, is `None`.
//!
//! Frame: *station* runs along the centreline from the outer face of the door wall; *offset* is square to it, positive to the right
//! looking away from the door; the datum is the underside of the door sill, and a *drop* is measured down from it, down positive.

use crate::measure::amount::Amount;
use crate::measure::slope::Fall;
use crate::quantity::{Angle, Length};

mod build;
mod lay;
mod order;
mod show;

pub use build::{
    BuildInput, BuildReading, DayLog, Delivery, LiftPlaced, ReadBy, SetUp, SpotReading,
    StageClosed, Stamp,
};
pub use lay::{Bond, BrickReading, CourseWay, LayInput, Opening, StartSide};

pub use order::{LineWish, OrderInput, StageWish};
pub use show::{Agreement, Clause, Language, Letterhead, Picture, PictureOf, ShowInput, Signature};

pub use crate::measure::levels_book::{BookRow, LevelBook, Sight, Stands};

/// Everything that was written down at one address.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Street address, as the contractor calls the job.
    pub address: String,
    /// Which walk at that address, such as "front walk".
    pub walk: String,
    /// How lengths are shown for this site.
    pub shown_in: ShownIn,
    /// What is seen, in the order in which it was written down.
    pub signs: Vec<Sign>,
    /// Sill, run, levels, far end.
    pub line: LineInput,
    /// Test pits, in the order in which they were written down.
    pub pits: Vec<Pit>,
    /// Setting bed, base and lifts.
    pub bed: BedInput,
    /// The brick of the field.
    pub brick: Brick,
    /// What is known of the soil.
    pub soil: SoilInput,
    /// What is known of the winter, and of the ground as it freezes.
    pub frost: FrostInput,
    /// The edge and what holds it.
    pub edge: EdgeInput,
    /// How the brick is to be laid.
    pub lay: LayInput,
    /// What was decided for the order.
    pub order: OrderInput,
    /// What was written down while it was built.
    pub build: BuildInput,
    /// What is shown, agreed and handed over beside it.
    pub show: ShowInput,
}

/// How lengths are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ShownIn {
    /// Feet, inches and sixteenths.
    #[default]
    FeetInches,
    /// Millimetres and metres.
    Metric,
}

/// One thing that is seen on the old walk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sign {
    /// What it is; `None` while it was not said or the word is not known.
    pub what: Option<SignKind>,
    /// How bad it is.
    pub severity: Severity,
    /// Along the run from the door; `None` where it is all along the walk.
    pub station: Option<Length>,
    /// Square to the run, right positive.
    pub offset: Option<Length>,
    /// Width of the widest joint there: for open joints only.
    pub width: Option<Length>,
}

/// What is seen on the old walk. That it falls to the house is read from the levels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SignKind {
    /// Lower than it was laid.
    Sunk,
    /// Higher than it was laid.
    Heaved,
    /// Brick that moves underfoot.
    Rocking,
    /// Joints wider than they were laid, or empty.
    OpenJoints,
    /// Moss or weeds in the joints.
    Moss,
    /// Water that stands.
    Ponding,
    /// An edge that has moved outwards.
    EdgeSpread,
    /// Brick that is cracked or has lost its face.
    BrokenBrick,
    /// A root under or beside the walk.
    Root,
    /// A downpipe that lets its water out at the walk.
    Downpipe,
}

/// How bad a sign is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// One has to look for it.
    Slight,
    /// One sees it.
    #[default]
    Plain,
    /// One trips over it.
    Bad,
}

impl SignKind {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 10] = [
        Self::Sunk,
        Self::Heaved,
        Self::Rocking,
        Self::OpenJoints,
        Self::Moss,
        Self::Ponding,
        Self::EdgeSpread,
        Self::BrokenBrick,
        Self::Root,
        Self::Downpipe,
    ];

    /// Its word in a record.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Sunk => "sunk",
            Self::Heaved => "heaved",
            Self::Rocking => "rocking",
            Self::OpenJoints => "open-joints",
            Self::Moss => "moss",
            Self::Ponding => "ponding",
            Self::EdgeSpread => "edge-spread",
            Self::BrokenBrick => "broken-brick",
            Self::Root => "root",
            Self::Downpipe => "downpipe",
        }
    }

    /// What the trade calls it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sunk => "Sunk",
            Self::Heaved => "Heaved",
            Self::Rocking => "Rocking brick",
            Self::OpenJoints => "Open joints",
            Self::Moss => "Moss or weeds",
            Self::Ponding => "Ponding",
            Self::EdgeSpread => "Edge spread",
            Self::BrokenBrick => "Cracked or spalled brick",
            Self::Root => "Root",
            Self::Downpipe => "Downpipe",
        }
    }

    /// The sign of that word: its key, or its name in any case.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        let word = word.trim();
        Self::ALL
            .into_iter()
            .find(|kind| kind.key() == word || kind.name().eq_ignore_ascii_case(word))
    }
}

impl Severity {
    /// In one word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Slight => "slight",
            Self::Plain => "plain",
            Self::Bad => "bad",
        }
    }
}

/// The walk in plan and in level.
#[derive(Clone, Debug, PartialEq)]
pub struct LineInput {
    /// Drop from the sill's underside to the old brick at the door.
    pub old_below_sill: Option<Length>,
    /// Drop from the sill's underside to the top of the first new brick. Common practice: zero.
    pub first_brick_below_sill: Option<Length>,
    /// The run, leg by leg from the door, each tangent to the one before.
    pub legs: Vec<Leg>,
    /// Clear width between the edge bricks at the door.
    pub width: Option<Length>,
    /// Fall that is wanted along the run, away from the house.
    pub fall: Option<Fall>,
    /// Fall across the run, positive down to the right looking away from the door.
    pub cross_fall: Option<Fall>,
    /// What the walk meets at its far end.
    pub far_end: FarEnd,
    /// How the grade line gets from one end to the other.
    pub shape: GradeShape,
    /// Height of the level string above the datum; negative when it hangs below.
    pub string_above_sill: Option<Length>,
    /// Rod reading on the datum, for readings by rod from one set-up.
    pub rod_at_sill: Option<Length>,
    /// Sights from several set-ups.
    pub book: LevelBook,
    /// Levels of the old surface.
    pub shots: Vec<Shot>,
}

/// What the walk meets at its far end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FarEnd {
    /// Nothing fixed: the wanted fall decides.
    Free,
    /// A drive, a pavement, a step: the grade line must meet this drop below the sill.
    Fixed {
        /// Drop below the datum, down positive.
        below_sill: Option<Length>,
    },
}

/// How the grade line gets from one end to the other.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum GradeShape {
    /// One fall all along.
    #[default]
    Uniform,
    /// Equal risers with level treads between; the proper fall before and after. Needs a fixed far end.
    Steps {
        /// How many.
        n_risers: u32,
        /// Station of the first riser; `None` puts the flight in the middle of the run.
        first_at: Option<Length>,
        /// From riser to riser.
        tread: Option<Length>,
    },
    /// Two falls that meet at a break: a drain across the walk, or a change of fall.
    Break {
        /// Station of the break.
        at: Option<Length>,
        /// Drop of the break below the datum.
        below_sill: Option<Length>,
    },
    /// A ramp with landings at both ends and between its runs. Needs a fixed far end.
    Ramp,
}

/// One leg of the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Straight or curved.
    pub shape: LegShape,
    /// Clear width at the leg's far end; `None` keeps the width it starts with. In between it tapers evenly.
    pub width_at_end: Option<Length>,
}

/// The centreline of one leg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LegShape {
    /// Straight on.
    Straight {
        /// Length along the centreline.
        length: Option<Length>,
    },
    /// Part of a circle.
    Curve {
        /// Radius to the centreline.
        radius: Option<Length>,
        /// How far the walk turns, positive.
        turn: Option<Angle>,
        /// To which side, looking away from the door.
        hand: Hand,
    },
}

/// A side, looking away from the door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hand {
    /// To the left: offsets are negative.
    Left,
    /// To the right: offsets are positive.
    Right,
}

/// One reading of the old surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shot {
    /// Along the run from the door.
    pub station: Option<Length>,
    /// Square to the run, right positive.
    pub offset: Option<Length>,
    /// How it was read.
    pub by: ShotBy,
    /// Tape from the string down to the surface, or rod reading on the surface.
    pub reading: Option<Length>,
}

/// How a level was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShotBy {
    /// Tape down from the level string.
    String,
    /// Rod against a level line, laser or optical.
    Rod,
}

/// A test pit.
#[derive(Clone, Debug, PartialEq)]
pub struct Pit {
    /// Along the run from the door.
    pub station: Option<Length>,
    /// Square to the run, right positive.
    pub offset: Option<Length>,
    /// Layers from the old surface down, the old brick among them.
    pub layers: Vec<Layer>,
    /// Depth below the old surface at which water seeped in.
    pub seep: Option<Length>,
    /// How the digging ended.
    pub ended: PitEnd,
    /// Cone penetrometer driven from the bottom of the pit.
    pub penetrometer: PenetrometerLog,
}

/// A cone penetrometer as it was driven from the bottom of a pit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PenetrometerLog {
    /// The weight that drove it.
    pub hammer: Hammer,
    /// Into what it was driven: which published relation holds.
    pub driven_into: DrivenInto,
    /// Reading with the cone seated, before the first blow.
    pub start: Option<Length>,
    /// Blows and the reading after them, from the top down.
    pub rows: Vec<PenetrometerRow>,
}

/// The weight that drives a penetrometer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hammer {
    /// 8 kg, 17.6 lb.
    #[default]
    Heavy,
    /// 4.6 kg, 10.1 lb: each of its blows drives half as far.
    Light,
}

/// Into what a penetrometer was driven.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
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
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PenetrometerRow {
    /// Blows since the reading before.
    pub blows: Option<u32>,
    /// Reading after them; it grows as the cone goes down.
    pub reading: Option<Length>,
}

/// How the digging of a pit ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PitEnd {
    /// It was stopped; the last layer goes on down.
    Stopped,
    /// The bar or spade would go no further.
    Refused,
}

/// One layer in a pit.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Key into the catalogue of materials.
    pub material: MaterialKey,
    /// Thickness found; the last layer may go on down and have none.
    pub thickness: Option<Length>,
    /// By thumb or by rod.
    pub firmness: Option<Firmness>,
    /// As it felt.
    pub moisture: Option<Moisture>,
}

/// The key of a material in the catalogue.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct MaterialKey(pub String);

/// Firmness by thumb or rod.
///
/// # Source
/// Classes of the visual-manual practice, ASTM D2488, as summarised in UFC 3-220-10.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moisture {
    /// Dusty, dry to the touch.
    Dry,
    /// Damp, no visible water.
    Moist,
    /// Visible free water.
    Wet,
}

/// What lies between brick and undisturbed ground, as wished.
#[derive(Clone, Debug, PartialEq)]
pub struct BedInput {
    /// Compacted thickness of the setting bed.
    pub setting_bed: Option<Length>,
    /// Least compacted thickness of the base.
    pub least_base: Option<Length>,
    /// Material of the base.
    pub base_material: MaterialKey,
    /// Largest *loose* thickness of one lift.
    pub loose_lift: Option<Length>,
    /// How far the dig goes past the outer face of the edge brick, each side.
    pub side_extension: Option<Length>,
    /// Deepest that the dig may go below the grade line; `None` for no limit.
    pub undercut_limit: Option<Length>,
    /// Separation fabric on the undisturbed ground.
    pub fabric: bool,
    /// What compacts the base.
    pub plant: crate::build::Plant,
}

/// The brick of the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brick {
    /// Longest side.
    pub length: Option<Length>,
    /// Middle side: across a brick that lies flat.
    pub width: Option<Length>,
    /// Shortest side: down, for a brick that lies flat.
    pub thickness: Option<Length>,
    /// Joint between bricks.
    pub joint: Option<Length>,
}

/// The edge brick and what holds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeInput {
    /// How the edge brick stands; the same on both sides.
    pub stands: EdgeStands,
    /// What holds it.
    pub restraint: RestraintInput,
}

/// How an edge brick stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgeStands {
    /// On end, broad face to the field.
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
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RestraintInput {
    /// Concrete against the outer face, from the edge brick's bottom up.
    Haunch {
        /// Height up the brick from its bottom.
        height: Option<Length>,
        /// Width at the bottom.
        width: Option<Length>,
        /// Width at the top; zero makes a triangle.
        top_width: Option<Length>,
    },
    /// Edging strip held by spikes.
    Spiked {
        /// From spike to spike.
        spacing: Option<Length>,
    },
    /// Nothing holds it: allowed, and found fault with.
    Nothing,
}

/// What is known of the soil under the walk: by feel, by the sizes of its grains, by index tests. Each is optional.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SoilInput {
    /// Grains of 0.05 to 2 mm, of all up to 2 mm, in percent.
    pub sand: Option<Amount>,
    /// Grains of 0.002 to 0.05 mm, of all up to 2 mm, in percent.
    pub silt: Option<Amount>,
    /// Grains under 0.002 mm, of all up to 2 mm, in percent.
    pub clay: Option<Amount>,
    /// How far a ribbon of the moist soil reaches before it breaks.
    pub ribbon: Option<Ribbon>,
    /// How it feels, wet, between finger and palm.
    pub grit: Option<Grit>,
    /// Liquid limit, in percent of water.
    pub liquid_limit: Option<Amount>,
    /// Plastic limit, in percent of water.
    pub plastic_limit: Option<Amount>,
    /// What passes the No. 200 sieve (0.075 mm), in percent.
    pub fines: Option<Amount>,
    /// What passes the No. 4 sieve (4.75 mm) and stays on the No. 200, in percent.
    pub sieve_sand: Option<Amount>,
    /// What stays on the No. 4 sieve, in percent.
    pub sieve_gravel: Option<Amount>,
    /// A tenth of the soil by weight is finer, in millimetres.
    pub d10: Option<Amount>,
    /// Three tenths are finer, in millimetres.
    pub d30: Option<Amount>,
    /// Six tenths are finer, in millimetres.
    pub d60: Option<Amount>,
    /// Finer than 0.02 mm, in percent.
    pub finer_than_002: Option<Amount>,
    /// Whether it lies in thin bands of silt and clay.
    pub varved: bool,
}

/// What a ball of moist soil does between thumb and forefinger.
///
/// # Source
/// The United States Department of Agriculture's guide to texture by feel, after Thien (1979).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ribbon {
    /// It does not even stay a ball.
    NoBall,
    /// It stays a ball and makes no ribbon.
    NoRibbon,
    /// The ribbon breaks before 1 in (25 mm).
    Short,
    /// It breaks between 1 and 2 in.
    Middling,
    /// It reaches 2 in (50 mm) and more.
    Long,
}

/// How a pinch of very wet soil feels in the palm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grit {
    /// Very gritty.
    Gritty,
    /// Very smooth.
    Smooth,
    /// Neither above the other.
    Neither,
}

/// What is known of the winter, and of the ground as it freezes. Each is optional.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FrostInput {
    /// Frost depth that the local code or its office names, below the surface. It is taken over any that is computed.
    pub local_depth: Option<Length>,
    /// Air freezing index, in °F days.
    pub freezing_index: Option<Amount>,
    /// Length of the freezing season, in days.
    pub freezing_days: Option<Amount>,
    /// Surface freezing index by air freezing index, in percent.
    pub surface_factor: Option<Amount>,
    /// Mean annual temperature of the air, in °F.
    pub mean_temperature: Option<Amount>,
    /// Dry density of the ground, in lb/ft³.
    pub dry_density: Option<Amount>,
    /// Water by dry weight, in percent.
    pub water_content: Option<Amount>,
    /// Mean of frozen and unfrozen thermal conductivity, in Btu/(h ft °F).
    pub conductivity: Option<Amount>,
}
