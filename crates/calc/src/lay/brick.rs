//! The size of the brick: as written down, else as the sample says, else the default.

use super::sample::sides;
use crate::bed::EdgeBrick;
use crate::defaults;
use crate::field::check_length;
use crate::place::Place;
use crate::quantity::Length;
use crate::site::Site;

/// The three sides of a brick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BrickSize {
    /// Longest side.
    pub length: Length,
    /// Middle side.
    pub width: Length,
    /// Shortest side.
    pub thickness: Length,
}

impl BrickSize {
    /// The brick of the field: each side as written down where it can be true, else the mean of the sample, else the default.
    #[must_use]
    pub fn of_field(site: &Site) -> Self {
        let sample = sides(site, false);
        let side = |place: Place, written: Option<Length>, mean: Option<Length>, default| {
            can_be(place, written)
                .or_else(|| can_be(place, mean))
                .unwrap_or(default)
        };
        Self {
            length: side(
                Place::BrickLength,
                site.brick.length,
                sample.length,
                defaults::brick_length(),
            ),
            width: side(
                Place::BrickWidth,
                site.brick.width,
                sample.width,
                defaults::brick_width(),
            ),
            thickness: side(
                Place::BrickThickness,
                site.brick.thickness,
                sample.thickness,
                defaults::brick_thickness(),
            ),
        }
    }

    /// The second size on site: each side as written down, else the mean of its sample; `None` where there is none or a side is
    /// not known.
    #[must_use]
    pub fn of_second(site: &Site) -> Option<Self> {
        let written = site.lay.second_brick?;
        let sample = sides(site, true);
        let side = |place: Place, written: Option<Length>, mean: Option<Length>| {
            can_be(place, written).or_else(|| can_be(place, mean))
        };
        Some(Self {
            length: side(Place::SecondLength, written.length, sample.length)?,
            width: side(Place::SecondWidth, written.width, sample.width)?,
            thickness: side(Place::SecondThickness, written.thickness, sample.thickness)?,
        })
    }

    /// The brick of the edge: the second size where it was chosen and is known, else that of the field.
    #[must_use]
    pub fn of_edge(site: &Site) -> Self {
        if site.lay.edge_of_second
            && let Some(second) = Self::of_second(site)
        {
            return second;
        }
        Self::of_field(site)
    }

    /// The edge brick of the site as it stands.
    #[must_use]
    pub fn edge_brick(site: &Site) -> EdgeBrick {
        let size = Self::of_edge(site);
        EdgeBrick::of(site.edge.stands, size.length, size.width, size.thickness)
    }
}

fn can_be(place: Place, length: Option<Length>) -> Option<Length> {
    check_length(place, length?).ok()
}
