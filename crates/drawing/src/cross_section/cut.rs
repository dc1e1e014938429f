//! What a cross-section shows, gathered from the results.

use crate::spotted::{Spotted, Stands, spotted};
use underbrick_calc::Results;
use underbrick_calc::bed::{Bed, EdgeBrick, Lifts, Section, Spot, section_at};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::ground::{Ground, PitFound};
use underbrick_calc::line::Line;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::Site;

/// A cross-section and what stands behind its figures.
pub(crate) struct Cut<'a> {
    pub site: &'a Site,
    pub catalogue: &'a Catalogue,
    pub section: Section,
    pub unit_thickness: Length,
    pub setting_bed: Length,
    pub lifts: &'a Lifts,
    pub edge_brick: EdgeBrick,
    /// The pit nearest along the run; `None` where there is none.
    pub nearest_pit: Option<&'a PitFound>,
    /// What is seen, and what made the walk fail, within a foot along the run.
    pub spotted: Vec<Spotted>,
    pub extent: Extent,
}

/// How far along the run a cut shows what is seen: 1 ft.
const IN_SIGHT_M: f64 = 0.3048 + 1e-9;

/// How far anything reaches along the run, so that the scale stays as the marker moves; a much deeper place elsewhere is left out. Metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Extent {
    /// From the centreline to the side of the dig.
    pub half_dig: f64,
    /// Above the grade line.
    pub above: f64,
    /// Below the grade line.
    pub below: f64,
}

impl<'a> Cut<'a> {
    /// `None` where line, ground or bed have no results.
    pub fn new(
        site: &'a Site,
        catalogue: &'a Catalogue,
        results: &'a Results,
        station: Length,
    ) -> Option<Self> {
        let (Some(line), Some(ground), Some(bed)) = (&results.line, &results.ground, &results.bed)
        else {
            return None;
        };
        let run_m = in_metres(line.run.length());
        let station_m = in_metres(station);
        let station = metres(if station_m.is_finite() {
            station_m.clamp(0.0, run_m.max(0.0))
        } else {
            0.0
        });
        let section = section_at(site, line, ground, bed, station);
        let nearest_pit = ground.pits.iter().min_by(|first, second| {
            let away = |pit: &PitFound| (in_metres(pit.station) - in_metres(station)).abs();
            away(first).total_cmp(&away(second))
        });
        let extent = Extent::along(line, ground, bed, &section);
        let spotted = spotted(site, &ground.pits, &results.causes)
            .into_iter()
            .filter(|each| {
                in_metres(each.station - station).abs() <= IN_SIGHT_M
                    && match each.stands {
                        Stands::Surface(_) => true,
                        Stands::Pit(pit_idx, _) => {
                            nearest_pit.is_some_and(|pit| pit.pit_idx == pit_idx)
                        }
                    }
            })
            .collect();
        Some(Self {
            site,
            catalogue,
            section,
            unit_thickness: bed.unit_thickness,
            setting_bed: bed.setting_bed,
            lifts: &bed.lifts,
            edge_brick: bed.edge.brick,
            nearest_pit,
            spotted,
            extent,
        })
    }

    /// Level of the grade line at an offset, both in metres; straight on past its ends.
    pub fn grade_at(&self, across_m: f64) -> f64 {
        let grade = &self.section.grade;
        let (Some(first), Some(last)) = (grade.first(), grade.last()) else {
            return 0.0;
        };
        let run = in_metres(last.across - first.across);
        if run <= 0.0 {
            return in_metres(first.level);
        }
        in_metres(first.level)
            + (across_m - in_metres(first.across)) / run * in_metres(last.level - first.level)
    }

    /// Level of the old surface at an offset, both in metres; level past its ends. `None` without a reading.
    pub fn old_at(&self, across_m: f64) -> Option<f64> {
        level_at(&self.section.old_surface, across_m)
    }

    /// Level of the ground's top beside the walk: the old surface, or the grade line where there is no reading.
    pub fn ground_top_at(&self, across_m: f64) -> f64 {
        self.old_at(across_m)
            .unwrap_or_else(|| self.grade_at(across_m))
    }

    /// Offsets of the sides of the dig, in metres.
    pub fn dig_sides(&self) -> (f64, f64) {
        let bottom = &self.section.dig_bottom;
        let left = bottom.first().map_or(0.0, |spot| in_metres(spot.across));
        let right = bottom.last().map_or(0.0, |spot| in_metres(spot.across));
        (left, right)
    }

    /// Offsets of the outer faces of the edge brick, in metres.
    pub fn outer_faces(&self) -> (f64, f64) {
        let [left, right] = &self.section.edges;
        (across_span(&left.brick).0, across_span(&right.brick).1)
    }

    /// Offsets of the inner faces of the edge brick, in metres.
    pub fn inner_faces(&self) -> (f64, f64) {
        let [left, right] = &self.section.edges;
        (across_span(&left.brick).1, across_span(&right.brick).0)
    }

    /// Level of the bottom of the dig at an offset, in metres.
    pub fn dig_bottom_at(&self, across_m: f64) -> f64 {
        level_at(&self.section.dig_bottom, across_m).unwrap_or_else(|| self.grade_at(across_m))
    }

    /// Level of the base top at an offset, in metres.
    pub fn base_top_at(&self, across_m: f64) -> f64 {
        level_at(&self.section.base_top, across_m).unwrap_or_else(|| self.grade_at(across_m))
    }
}

impl Extent {
    fn along(line: &Line, ground: &Ground, bed: &Bed, section: &Section) -> Self {
        let widest = line
            .run
            .legs()
            .iter()
            .flat_map(|leg| [leg.width_at_start, leg.width_at_end])
            .map(in_metres)
            .fold(0.0, f64::max);
        let dig_here = match (section.dig_bottom.first(), section.dig_bottom.last()) {
            (Some(first), Some(last)) => in_metres(last.across - first.across),
            _ => in_metres(section.clear_width),
        };
        let half_dig = (dig_here + (widest - in_metres(section.clear_width)).max(0.0)) / 2.0;
        let cross_rise = half_dig * line.grade.cross_fall.ratio().abs();
        let mut above: f64 = 0.0;
        let run_m = in_metres(line.run.length());
        for nth in 0..=8 {
            let station = metres(run_m * f64::from(nth) / 8.0);
            if let Some(old) = line.old_surface.at(station, Length::default()) {
                above = above.max(in_metres(
                    old.level - line.grade.level(station, Length::default()),
                ));
            }
        }
        let mut below = in_metres(bed.base_top_below_grade + bed.thickest_base)
            .max(in_metres(bed.edge.brick.depth));
        for pit in &ground.pits {
            let grade = line.grade.level(pit.station, Length::default());
            below = below.max(in_metres(grade - pit.unsuitable_bottom.level));
        }
        let deepest_m = below + cross_rise;
        let here_m = depth_at(line, ground, bed, section);
        Self {
            half_dig,
            above: above.min(0.3) + cross_rise,
            below: if deepest_m <= MOST_SPARE * here_m {
                deepest_m
            } else {
                ((here_m / SCALE_STEP_M).ceil() * SCALE_STEP_M).min(deepest_m)
            },
        }
    }
}

/// How much deeper than here the deepest place may be for one scale to serve the whole walk.
const MOST_SPARE: f64 = 1.5;
/// Where one scale does not serve, it follows the depth in steps of 6 in, so that it seldom jumps under the finger.
const SCALE_STEP_M: f64 = 0.1524;

/// How far below the grade line the section itself reaches, in metres.
fn depth_at(line: &Line, ground: &Ground, bed: &Bed, section: &Section) -> f64 {
    let grade = |across| in_metres(line.grade.level(section.station, across));
    let dig = section
        .dig_bottom
        .iter()
        .map(|spot| grade(spot.across) - in_metres(spot.level))
        .fold(0.0, f64::max);
    let comes_out = ground
        .unsuitable_bottom(section.station)
        .map_or(0.0, |bottom| {
            grade(Length::default()) - in_metres(bottom.level)
        });
    dig.max(comes_out).max(in_metres(bed.edge.brick.depth))
}

/// Level on a line of spots at an offset, in metres; level past its ends.
fn level_at(spots: &[Spot], across_m: f64) -> Option<f64> {
    let (first, last) = (spots.first()?, spots.last()?);
    if across_m <= in_metres(first.across) {
        return Some(in_metres(first.level));
    }
    for pair in spots.windows(2) {
        let &[from, to] = pair else { continue };
        if across_m <= in_metres(to.across) {
            let run = in_metres(to.across - from.across);
            let share = if run > 0.0 {
                (across_m - in_metres(from.across)) / run
            } else {
                1.0
            };
            return Some(in_metres(from.level) + share * in_metres(to.level - from.level));
        }
    }
    Some(in_metres(last.level))
}

pub(super) fn across_span(outline: &[Spot]) -> (f64, f64) {
    let low = outline
        .iter()
        .map(|spot| in_metres(spot.across))
        .fold(f64::INFINITY, f64::min);
    let high = outline
        .iter()
        .map(|spot| in_metres(spot.across))
        .fold(f64::NEG_INFINITY, f64::max);
    if low <= high { (low, high) } else { (0.0, 0.0) }
}
