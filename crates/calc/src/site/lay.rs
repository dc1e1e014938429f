//! How the brick is to be laid, and what brick there is.

use super::{Brick, Hand};
use crate::measure::amount::Amount;
use crate::quantity::{Angle, Length};

/// What was written down for the laying. Each value is optional; what is not given takes its default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LayInput {
    /// The pattern of the field.
    pub bond: Bond,
    /// Which way the courses of running and stack bond run.
    pub courses: CourseWay,
    /// How far the joints of one course stand from those of the next, in percent of a brick and a joint: running bond only.
    pub lap: Option<Amount>,
    /// Least lap that is allowed where the courses drift on a curve.
    pub least_lap: Option<Length>,
    /// Shortest piece that is laid.
    pub least_piece: Option<Length>,
    /// Narrowest joint that is allowed.
    pub least_joint: Option<Length>,
    /// Widest joint that is allowed.
    pub widest_joint: Option<Length>,
    /// Width that the saw takes away.
    pub kerf: Option<Length>,
    /// Width over the edge bricks that is wished for, at the door.
    pub target_width: Option<Length>,
    /// How far the width may be off the wish.
    pub width_tolerance: Option<Length>,
    /// Side on which the first course lies, looking away from the door.
    pub start_side: StartSide,
    /// A row of edge brick across the walk at the door.
    pub return_at_door: bool,
    /// A row of edge brick across the walk at the far end.
    pub return_at_end: bool,
    /// Places that the brick leaves free: a drain, a post.
    pub openings: Vec<Opening>,
    /// Bearing of the way straight out of the door, clockwise from north.
    pub bearing: Option<Angle>,
    /// Bricks as measured.
    pub sample: Vec<BrickReading>,
    /// A second size of brick on site; its readings say so.
    pub second_brick: Option<Brick>,
    /// Whether the edge is of the second brick.
    pub edge_of_second: bool,
    /// Whole bricks of the first size that are there and good, as counted.
    pub n_on_site: Option<u32>,
    /// Share of the lifted brick that is lost, in percent, where they were not counted.
    pub loss: Option<Amount>,
}

/// The pattern of the field.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bond {
    /// Each course is moved against the next by the lap.
    #[default]
    Running,
    /// Joints stand in line.
    Stack,
    /// Squares of two bricks side by side, turned against each other like a chessboard.
    BasketTwoOnTwo,
    /// Two bricks side by side and one across their ends.
    BasketTwoOnOne,
    /// Bricks set end to side in a zigzag, along and across the run.
    Herringbone90,
    /// The same, turned by half a right angle.
    Herringbone45,
}

/// Which way courses run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CourseWay {
    /// With the run.
    #[default]
    Along,
    /// From side to side.
    Across,
}

/// The side of the first course.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum StartSide {
    /// The left edge, looking away from the door.
    #[default]
    Left,
    /// The right edge.
    Right,
}

/// A rectangle that the brick leaves free, square to the run at its middle.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Opening {
    /// Station of its middle.
    pub station: Option<Length>,
    /// Offset of its middle, right positive.
    pub offset: Option<Length>,
    /// Its size along the run.
    pub along: Option<Length>,
    /// Its size across the run.
    pub across: Option<Length>,
}

/// One brick as measured.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BrickReading {
    /// Longest side.
    pub length: Option<Length>,
    /// Middle side.
    pub width: Option<Length>,
    /// Shortest side.
    pub thickness: Option<Length>,
    /// Whether it is of the second size.
    pub of_second: bool,
}

impl Bond {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 6] = [
        Self::Running,
        Self::Stack,
        Self::BasketTwoOnTwo,
        Self::BasketTwoOnOne,
        Self::Herringbone90,
        Self::Herringbone45,
    ];

    /// What the trade calls it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Running => "Running bond",
            Self::Stack => "Stack bond",
            Self::BasketTwoOnTwo => "Basket weave, two on two",
            Self::BasketTwoOnOne => "Basket weave, two on one",
            Self::Herringbone90 => "Herringbone, 90 degrees",
            Self::Herringbone45 => "Herringbone, 45 degrees",
        }
    }

    /// Whether its courses bend with the run; the others keep a straight grid and are clipped by the edges.
    #[must_use]
    pub const fn follows(self) -> bool {
        matches!(self, Self::Running | Self::Stack)
    }
}

impl StartSide {
    /// As a side of the walk.
    #[must_use]
    pub const fn hand(self) -> Hand {
        match self {
            Self::Left => Hand::Left,
            Self::Right => Hand::Right,
        }
    }
}
