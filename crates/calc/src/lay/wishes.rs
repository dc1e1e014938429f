//! What the laying goes by: as written down where it can be true, else the default.

use super::asked;
use super::brick::BrickSize;
use crate::bed::EdgeBrick;
use crate::defaults;
use crate::field::{check_amount, check_length};
use crate::findings::Findings;
use crate::place::Place;
use crate::quantity::{Length, in_metres};
use crate::site::{Bond, CourseWay, Hand, Site};

/// All measures of the laying, each of them known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayWishes {
    /// The pattern of the field.
    pub bond: Bond,
    /// Which way courses run.
    pub courses: CourseWay,
    /// Side of the first course.
    pub start: Hand,
    /// Longest side of the field's brick.
    pub brick_length: Length,
    /// Its middle side.
    pub brick_width: Length,
    /// Its shortest side.
    pub brick_thickness: Length,
    /// The joint that is aimed at.
    pub joint: Length,
    /// Narrowest joint that is allowed.
    pub least_joint: Length,
    /// Widest joint that is allowed.
    pub widest_joint: Length,
    /// Lap as a share of brick and joint, above 0 and below 1.
    pub lap_share: f64,
    /// Least lap.
    pub least_lap: Length,
    /// Shortest piece.
    pub least_piece: Length,
    /// Width that the saw takes away.
    pub kerf: Length,
    /// The edge brick as it stands.
    pub edge_brick: EdgeBrick,
    /// A row of edge brick across at the door.
    pub return_at_door: bool,
    /// A row of edge brick across at the far end.
    pub return_at_end: bool,
}

/// The joints that are allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JointLimits {
    /// The narrowest.
    pub least: Length,
    /// The widest.
    pub widest: Length,
}

impl JointLimits {
    /// Whether a joint is within them, to a rounding.
    #[must_use]
    pub fn allow(self, joint: Length) -> bool {
        const ROUNDING_M: f64 = 1e-9;
        in_metres(joint) >= in_metres(self.least) - ROUNDING_M
            && in_metres(joint) <= in_metres(self.widest) + ROUNDING_M
    }
}

impl LayWishes {
    /// From the site; a value that was not given, or cannot be true, takes its default.
    #[must_use]
    pub fn of(site: &Site) -> Self {
        let brick = BrickSize::of_field(site);
        let limits = joint_limits(site);
        Self {
            bond: site.lay.bond,
            courses: site.lay.courses,
            start: site.lay.start_side.hand(),
            brick_length: brick.length,
            brick_width: brick.width,
            brick_thickness: brick.thickness,
            joint: can_be(Place::Joint, site.brick.joint).unwrap_or_else(defaults::joint),
            least_joint: limits.least,
            widest_joint: limits.widest,
            lap_share: site
                .lay
                .lap
                .and_then(|lap| check_amount(Place::LapShare, lap).ok())
                .map_or(0.5, |lap| lap.number() / 100.0),
            least_lap: can_be(Place::LeastLap, site.lay.least_lap)
                .filter(|lap| *lap <= most_lap(brick))
                .unwrap_or(brick.length * 0.25),
            least_piece: can_be(Place::LeastPiece, site.lay.least_piece)
                .filter(|piece| *piece <= brick.length)
                .unwrap_or(brick.length / 3.0),
            kerf: can_be(Place::Kerf, site.lay.kerf).unwrap_or_else(defaults::kerf),
            edge_brick: BrickSize::edge_brick(site),
            return_at_door: site.lay.return_at_door,
            return_at_end: site.lay.return_at_end,
        }
    }

    /// From the site, as [`LayWishes::of`]; every value of the laying that is not taken as given is named in the findings.
    #[must_use]
    pub fn checked(site: &Site, findings: &mut Findings) -> Self {
        let wishes = Self::of(site);
        asked::values(site, &wishes, findings);
        wishes
    }

    /// The joints that are allowed.
    #[must_use]
    pub const fn joint_limits(&self) -> JointLimits {
        JointLimits {
            least: self.least_joint,
            widest: self.widest_joint,
        }
    }
}

/// Half the brick: a lap cannot be more to both sides.
pub(super) fn most_lap(brick: BrickSize) -> Length {
    brick.length * 0.5
}

/// The joints that are allowed: as written down where they can be true; a least joint above the widest takes its default, and never
/// more than the widest.
pub(super) fn joint_limits(site: &Site) -> JointLimits {
    let widest =
        can_be(Place::WidestJoint, site.lay.widest_joint).unwrap_or_else(defaults::widest_joint);
    let least = can_be(Place::LeastJoint, site.lay.least_joint)
        .filter(|least| *least <= widest)
        .unwrap_or_else(|| defaults::least_joint().min(widest));
    JointLimits { least, widest }
}

fn can_be(place: Place, length: Option<Length>) -> Option<Length> {
    check_length(place, length?).ok()
}
