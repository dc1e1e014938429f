//! The level that each surface must have, anywhere.

use super::surface::Surface;
use crate::bed::Bed;
use crate::defaults;
use crate::line::Line;
use crate::quantity::{Length, metres};

/// Level of a surface at a spot; `None` where there is no such surface: a lift that does not reach that far.
///
/// Form top and edge brick stand on the grade line, and so does the brick once it is compacted. The setting bed is as screeded: higher
/// than under the compacted brick by what the brick stands proud. With 2 1/4 in brick and 1/8 in proud it lies 2 1/8 in below the grade
/// line. At a riser's station the level is that of its foot.
pub(super) fn level(
    line: &Line,
    bed: &Bed,
    surface: Surface,
    station: Length,
    offset: Length,
) -> Option<Length> {
    let below = match surface {
        Surface::DigBottom => bed.base_top_below_grade + bed.dig.base_at(station, offset).thickness,
        Surface::LiftTop(number) if number < bed.dig.base_at(station, offset).lowest_lift => {
            return None;
        }
        parallel => below_grade(bed, parallel)?,
    };
    Some(line.grade.level(station, offset) - below)
}

/// Depth below the grade line of a surface that is parallel to it; `None` for the bottom of the dig, which is not, and for a lift that there
/// is not.
pub(super) fn below_grade(bed: &Bed, surface: Surface) -> Option<Length> {
    match surface {
        Surface::FormTop | Surface::EdgeTop | Surface::BrickTop => Some(metres(0.0)),
        Surface::SettingBed => Some(bed.unit_thickness - defaults::proud()),
        Surface::LiftTop(number) => {
            let lift = bed.lifts.each.get(number.checked_sub(1)?)?;
            Some(lift.top_below_grade)
        }
        Surface::DigBottom => None,
    }
}

/// Whether the surface is the top of the last lift, on which the setting bed lies.
pub(super) fn is_base_top(bed: &Bed, surface: Surface) -> bool {
    matches!(surface, Surface::LiftTop(number) if number == bed.lifts.each.len())
}
