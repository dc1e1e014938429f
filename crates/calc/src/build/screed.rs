//! The screed board and the gauge rod: what is cut from scrap wood.

use super::asked::Asked;
use super::stakes::parallel_surfaces;
use super::surface::Surface;
use crate::bed::Bed;
use crate::defaults;
use crate::findings::Findings;
use crate::line::Line;
use crate::quantity::{Length, inches, metres};
use crate::site::Site;

/// The screed board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screed {
    /// Its length: over both edge bricks and their forms where the walk is widest.
    pub length: Length,
    /// From the form top, or the edge brick's, down to the screeded setting bed: how deep the ends are notched.
    pub notch: Length,
    /// How far the brick stands proud before the plate: what the plate takes down.
    pub proud: Length,
    /// Width of the board that dips between the edges: the clear width where the walk is narrowest.
    pub between: Length,
}

/// A mark of the gauge rod, from its upper end, which is held to the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GaugeMark {
    /// Which surface.
    pub surface: Surface,
    /// From the string down. The same at every stake, but for the bottom of the dig.
    pub below_string: Length,
    /// Whether it holds everywhere, or only where the dig is as deep as its least.
    pub is_everywhere: bool,
}

/// The screed board of a bed: it rides on the forms, or on the edge bricks, which stand as high.
///
/// # Source
/// Notch: brick less the proud allowance. Forms of 1 1/2 in: common practice, no source.
#[must_use]
pub fn screed(line: &Line, bed: &Bed) -> Screed {
    let widths = || {
        line.run
            .legs()
            .iter()
            .flat_map(|leg| [leg.width_at_start, leg.width_at_end])
    };
    let widest = widths().fold(metres(0.0), Length::max);
    let form = inches(1.5);
    let proud = defaults::proud();
    Screed {
        length: widest + (bed.edge.brick.across + form) * 2.0,
        notch: bed.unit_thickness - proud,
        proud,
        between: widths().fold(widest, Length::min),
    }
}

/// The marks of the gauge rod, from its upper end.
#[must_use]
pub fn gauge(site: &Site, bed: &Bed) -> Vec<GaugeMark> {
    gauge_as_asked(&Asked::of(site, &mut Findings::default()), bed)
}

pub(super) fn gauge_as_asked(asked: &Asked, bed: &Bed) -> Vec<GaugeMark> {
    let is_even = bed.thickest_base - bed.thinnest_base <= metres(1e-9);
    let mark = |surface, below_grade: Length, is_everywhere| GaugeMark {
        surface,
        below_string: asked.string_above_grade + below_grade,
        is_everywhere,
    };
    let dig_bottom = bed.base_top_below_grade + bed.thinnest_base;
    let mut marks: Vec<GaugeMark> = parallel_surfaces(bed, 1)
        .map(|(surface, below)| mark(surface, below, true))
        .chain([mark(Surface::DigBottom, dig_bottom, is_even)])
        .collect();
    // A lift that is placed in deep places only may lie below the least dig.
    marks.sort_by(|one, other| one.below_string.value.total_cmp(&other.below_string.value));
    marks
}
