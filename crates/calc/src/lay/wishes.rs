//! What the laying goes by: as written down where it can be true, else the default.

use crate::bed::EdgeBrick;
use crate::defaults;
use crate::quantity::Length;
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

impl LayWishes {
    /// From the site; a value that was not given takes its default.
    #[must_use]
    pub fn of(site: &Site) -> Self {
        let brick_length = site.brick.length.unwrap_or_else(defaults::brick_length);
        let brick_width = site.brick.width.unwrap_or_else(defaults::brick_width);
        let brick_thickness = site
            .brick
            .thickness
            .unwrap_or_else(defaults::brick_thickness);
        Self {
            bond: site.lay.bond,
            courses: site.lay.courses,
            start: site.lay.start_side.hand(),
            brick_length,
            brick_width,
            brick_thickness,
            joint: site.brick.joint.unwrap_or_else(defaults::joint),
            least_joint: site.lay.least_joint.unwrap_or_else(defaults::least_joint),
            widest_joint: site.lay.widest_joint.unwrap_or_else(defaults::widest_joint),
            lap_share: site.lay.lap.map_or(0.5, |lap| lap.number() / 100.0),
            least_lap: site.lay.least_lap.unwrap_or(brick_length * 0.25),
            least_piece: site.lay.least_piece.unwrap_or(brick_length / 3.0),
            kerf: site.lay.kerf.unwrap_or_else(defaults::kerf),
            edge_brick: EdgeBrick::of(site.edge.stands, brick_length, brick_width, brick_thickness),
            return_at_door: site.lay.return_at_door,
            return_at_end: site.lay.return_at_end,
        }
    }
}
