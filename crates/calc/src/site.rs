//! One site as measured and as wished: what `compute` works from. A value that was not measured, or could not be read, is `None`.
//!
//! Frame: *station* runs along the centreline from the outer face of the door wall; *offset* is square to it, positive to the right
//! looking away from the door; the datum is the underside of the door sill, and a *drop* is measured down from it, down positive.

use crate::measure::slope::Fall;
use crate::quantity::{Angle, Length};

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
    /// Sill, run, levels, far end.
    pub line: LineInput,
    /// Test pits, in the order in which they were written down.
    pub pits: Vec<Pit>,
    /// Setting bed, base and lifts.
    pub bed: BedInput,
    /// The brick of the field.
    pub brick: Brick,
    /// The edge and what holds it.
    pub edge: EdgeInput,
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
