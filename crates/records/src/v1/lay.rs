//! How the brick is to be laid, and what brick there is, as typed. What is as usual is left out of the file.

use serde::{Deserialize, Serialize};

use crate::written::{is_usual, written};

/// What was written down for the laying.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Lay {
    /// The pattern of the field.
    #[serde(skip_serializing_if = "is_usual")]
    pub bond: Bond,
    /// Which way courses run.
    #[serde(skip_serializing_if = "is_usual")]
    pub courses: CourseWay,
    /// Lap, in percent of a brick and a joint.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub lap: String,
    /// Least lap.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub least_lap: String,
    /// Shortest piece.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub least_piece: String,
    /// Narrowest joint.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub least_joint: String,
    /// Widest joint.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub widest_joint: String,
    /// Width that the saw takes away.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub kerf: String,
    /// Width over the edge bricks that is wished for.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub target_width: String,
    /// How far the width may be off the wish.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub width_tolerance: String,
    /// Side of the first course.
    #[serde(skip_serializing_if = "is_usual")]
    pub start_side: StartSide,
    /// A row of edge brick across at the door.
    #[serde(skip_serializing_if = "is_usual")]
    pub return_at_door: bool,
    /// A row of edge brick across at the far end.
    #[serde(skip_serializing_if = "is_usual")]
    pub return_at_end: bool,
    /// Places that the brick leaves free.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub openings: Vec<Opening>,
    /// Bearing of the way out of the door.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub bearing: String,
    /// Bricks as measured.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sample: Vec<BrickReading>,
    /// A second size of brick on site.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub second_brick: Option<SecondBrick>,
    /// Whether the edge is of the second brick.
    #[serde(skip_serializing_if = "is_usual")]
    pub edge_of_second: bool,
    /// Whole bricks that are there, a number without a unit.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub on_site: String,
    /// Share of the lifted brick that is lost.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub loss: String,
}

impl Lay {
    /// Whether nothing was written down.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        is_usual(self)
    }
}

/// The pattern of the field.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Bond {
    /// Each course is moved against the next by the lap.
    #[default]
    Running,
    /// Joints stand in line.
    Stack,
    /// Squares of two bricks, turned against each other.
    BasketTwoOnTwo,
    /// Two bricks side by side and one across their ends.
    BasketTwoOnOne,
    /// A zigzag along and across the run.
    Herringbone90,
    /// The same, turned by half a right angle.
    Herringbone45,
}

/// Which way courses run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum CourseWay {
    /// With the run.
    #[default]
    Along,
    /// From side to side.
    Across,
}

/// The side of the first course.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum StartSide {
    /// The left edge, looking away from the door.
    #[default]
    Left,
    /// The right edge.
    Right,
}

/// A rectangle that the brick leaves free.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Opening {
    /// Station of its middle.
    #[serde(default, deserialize_with = "written")]
    pub station: String,
    /// Offset of its middle, right positive; empty for the centreline.
    #[serde(default, deserialize_with = "written")]
    pub offset: String,
    /// Its size along the run.
    #[serde(default, deserialize_with = "written")]
    pub along: String,
    /// Its size across the run.
    #[serde(default, deserialize_with = "written")]
    pub across: String,
}

/// One brick as measured.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BrickReading {
    /// Longest side.
    #[serde(default, deserialize_with = "written")]
    pub length: String,
    /// Middle side.
    #[serde(default, deserialize_with = "written")]
    pub width: String,
    /// Shortest side.
    #[serde(default, deserialize_with = "written")]
    pub thickness: String,
    /// Whether it is of the second size.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub of_second: bool,
}

/// The second size of brick.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SecondBrick {
    /// Longest side.
    #[serde(default, deserialize_with = "written")]
    pub length: String,
    /// Middle side.
    #[serde(default, deserialize_with = "written")]
    pub width: String,
    /// Shortest side.
    #[serde(default, deserialize_with = "written")]
    pub thickness: String,
}
