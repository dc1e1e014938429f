//! The stake table, worked out.

use super::asked::Asked;
use super::designed::below_grade;
use super::stake::{EdgeStake, Stake, StakeRow};
use super::stops::{Side, Stop, stops};
use super::surface::Surface;
use crate::bed::{BaseSpot, Bed};
use crate::findings::Findings;
use crate::ground::Ground;
use crate::line::{GradeLine, Line};
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// The stake table of a site, from the door: at the chosen spacing, both ends, every end of a leg, change of fall, riser and pit.
///
/// The working string hangs parallel to the grade line, so that one mark on the tape serves a surface at all stakes; only the bottom
/// of the dig goes its own way. Rod readings are those of the last set-up whose rod was read on the sill. A lift that is not placed at
/// a station has no row there.
#[must_use]
pub fn stakes(site: &Site, line: &Line, bed: &Bed, ground: &Ground) -> Vec<Stake> {
    let asked = Asked::of(site, &mut Findings::default());
    stakes_as_asked(&asked, line, bed, ground)
}

pub(super) fn stakes_as_asked(
    asked: &Asked,
    line: &Line,
    bed: &Bed,
    ground: &Ground,
) -> Vec<Stake> {
    stops(line, ground, asked.spacing)
        .into_iter()
        .map(|stop| stake(stop, asked, line, bed))
        .collect()
}

/// Surfaces above the bottom of the dig that are parallel to the grade line, from the top down, with their depths below it: the lifts
/// from the last to the lowest that is placed.
///
/// The setting bed is that on which brick is laid: as much above the compacted one as the plate takes down.
pub(super) fn parallel_surfaces(
    bed: &Bed,
    lowest_lift: usize,
) -> impl Iterator<Item = (Surface, Length)> {
    let lifts = (lowest_lift..=bed.lifts.each.len()).rev();
    [
        Surface::FormTop,
        Surface::EdgeTop,
        Surface::BrickTop,
        Surface::SettingBed,
    ]
    .into_iter()
    .chain(lifts.map(Surface::LiftTop))
    .filter_map(|surface| Some((surface, below_grade(bed, surface)?)))
}

fn stake(stop: Stop, asked: &Asked, line: &Line, bed: &Bed) -> Stake {
    let Stop { station, side, why } = stop;
    let centre = metres(0.0);
    let grade = grade_at(&line.grade, station, side);
    let base = base_at(bed, station, side, centre);
    let dig_below_grade = bed.base_top_below_grade + base.thickness;
    let row = |(surface, below): (Surface, Length)| StakeRow {
        surface,
        level: grade - below,
        drop: asked.string_above_grade + below,
        rod: asked.sight.map(|sight| sight.rod_for(grade - below)),
    };
    let old_surface = line.old_surface.at(station, centre);
    Stake {
        station,
        why,
        grade,
        string: grade + asked.string_above_grade,
        rows: parallel_surfaces(bed, base.lowest_lift)
            .chain([(Surface::DigBottom, dig_below_grade)])
            .map(row)
            .collect(),
        old_surface,
        dig: old_surface.map(|surface| surface.level - (grade - dig_below_grade)),
        edges: [-1.0, 1.0].map(|sign| {
            let form_offset = outward(line, station, sign, bed.edge.brick.across);
            let dig_offset = outward(line, station, sign, bed.dig.beyond_clear_width());
            let grade_at_offset = |offset: Length| grade - offset * line.grade.cross_fall.ratio();
            let trench_below_grade = bed.base_top_below_grade + bed.edge.trench_depth;
            EdgeStake {
                form_offset,
                dig_offset,
                form_top: grade_at_offset(form_offset),
                dig_bottom: grade_at_offset(dig_offset)
                    - bed.base_top_below_grade
                    - base_at(bed, station, side, dig_offset).thickness,
                trench_bottom: (bed.edge.trench_depth > centre)
                    .then(|| grade_at_offset(form_offset) - trench_below_grade),
            }
        }),
    }
}

/// Level of the grade line on the centreline: at a riser, that of its side.
fn grade_at(grade: &GradeLine, station: Length, side: Side) -> Length {
    let n_begun = grade.pieces().partition_point(|piece| match side {
        Side::Before => piece.from < station,
        Side::Behind => piece.from <= station,
    });
    grade
        .pieces()
        .get(n_begun.saturating_sub(1))
        .map_or(grade.start, |piece| piece.level_at(station))
}

fn base_at(bed: &Bed, station: Length, side: Side, offset: Length) -> BaseSpot {
    match side {
        Side::Before => bed.dig.base_before(station, offset),
        Side::Behind => bed.dig.base_at(station, offset),
    }
}

/// The offset so far outside the clear width, right positive for a sign of 1, left for −1; never past the centre of a curve.
fn outward(line: &Line, station: Length, sign: f64, beyond: Length) -> Length {
    let offset_m = sign * in_metres(line.run.clear_width_at(station) * 0.5 + beyond);
    let curvature_per_m = line.run.curvature_per_m_at(station);
    if curvature_per_m * offset_m > 1.0 {
        metres(1.0 / curvature_per_m)
    } else {
        metres(offset_m)
    }
}
