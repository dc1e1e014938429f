//! A field as laid: its pieces, and what its joints and laps came to.

use super::pieces::Pieces;
use crate::quantity::Length;

/// A field laid out piece by piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Laid {
    /// Every piece, course by course.
    pub pieces: Pieces,
    /// The narrowest joint.
    pub narrowest_joint: Option<Measured>,
    /// The widest joint.
    pub widest_joint: Option<Measured>,
    /// The least distance between the joints of two courses that adjoin; `None` in a bond without laps.
    pub least_lap: Option<Measured>,
    /// What could not be laid as asked, and what was done about it.
    pub notes: Vec<LayNote>,
}

/// A joint or a lap, and where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// How much.
    pub length: Length,
    /// In which course.
    pub course: u32,
    /// At which station.
    pub station: Length,
}

/// What could not be laid as asked, and what was done about it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LayNote {
    /// There would be more pieces than can be laid out; none is.
    TooMany {
        /// About how many.
        about: f64,
    },
    /// Not even one brick fits into the width.
    WiderThanTheWalk,
    /// No number of whole courses fills the width within the joint limits: one course, or two, are cut along their length.
    Ripped {
        /// Width of what is left of a brick there.
        to: Length,
        /// Courses that are cut.
        n_courses: u32,
    },
    /// A curve is tighter than whole bricks allow: halves are laid there.
    HalvesOnCurve {
        /// Which leg.
        leg_idx: usize,
        /// Least radius of the centreline for whole brick.
        least_radius: Length,
    },
    /// A curve is tighter than halves allow: each piece is cut to a taper there.
    TaperedOnCurve {
        /// Which leg.
        leg_idx: usize,
        /// Least radius of the centreline for halves.
        least_radius: Length,
    },
    /// A piece that would have been shorter than the least was joined to the one before it.
    PieceMerged {
        /// In which course.
        course: u32,
        /// At which station.
        station: Length,
    },
    /// The least lap could not be kept.
    LapNotKept(Measured),
    /// A joint of the field is outside the limits.
    JointNotKept(Measured),
    /// A joint of an edge is wider than the limit: the widest of one side.
    EdgeJointNotKept(Measured),
    /// On a grid: a piece smaller than the least was made one with the piece beside it.
    PieceJoined {
        /// In which row.
        course: u32,
        /// At which station.
        station: Length,
    },
    /// On a grid: a piece smaller than the least was made larger, and the one beside it smaller: the joint between them is moved by so much.
    JointMoved(Measured),
    /// A strip no thicker than the widest joint is left to the joint.
    LeftToTheJoint(Measured),
    /// Herringbone at 90 degrees does not stay square: two widths and their joints are so much more than a length and its joint, and the
    /// joint limits do not take it up. Each pair of rows leans by that; the joint itself holds.
    Leans(Length),
    /// A piece smaller than the least stays, because no piece beside it can take it; its shorter side.
    SmallPieceKept(Measured),
}

impl Laid {
    /// Takes in a joint that was laid.
    pub fn note_joint(&mut self, joint: Measured) {
        if self
            .narrowest_joint
            .is_none_or(|narrowest| joint.length < narrowest.length)
        {
            self.narrowest_joint = Some(joint);
        }
        if self
            .widest_joint
            .is_none_or(|widest| joint.length > widest.length)
        {
            self.widest_joint = Some(joint);
        }
    }

    /// Takes in a lap that was laid.
    pub fn note_lap(&mut self, lap: Measured) {
        if self.least_lap.is_none_or(|least| lap.length < least.length) {
            self.least_lap = Some(lap);
        }
    }
}
