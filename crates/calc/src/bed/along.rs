//! Everything along the run at one offset.

use super::Bed;
use super::dig::{Dig, Reach};
use super::outline::{CutPiece, lift_outlines};
use super::patch::{PlanSpot, between};
use super::strip::SAME_M;
use crate::ground::{Ground, UnsuitableBottom};
use crate::line::{Line, OldSurface, SurfaceLevel};
use crate::quantity::{Length, in_metres, metres};

/// The long section. All lines are straight between two spots that follow each other; at a step two spots share a station.
#[derive(Clone, Debug, PartialEq)]
pub struct Along {
    /// Offset at which it is cut.
    pub offset: Length,
    /// In order of station.
    pub spots: Vec<AlongSpot>,
    /// Lifts from the bottom.
    pub lifts: Vec<LiftBand>,
}

/// Levels at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AlongSpot {
    /// Along the run.
    pub station: Length,
    /// Grade line.
    pub grade: Length,
    /// Underside of the brick.
    pub brick_bottom: Length,
    /// Base top.
    pub base_top: Length,
    /// Bottom of the dig.
    pub dig_bottom: Length,
    /// Old surface.
    pub old_surface: Option<SurfaceLevel>,
    /// Bottom of what must come out.
    pub unsuitable_bottom: Option<UnsuitableBottom>,
}

/// One lift along the run.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftBand {
    /// Counted from the bottom, from 1.
    pub number: usize,
    /// Outlines as (station, level), clockwise, not closed by a repeated spot.
    pub outlines: Vec<Vec<(Length, Length)>>,
}

/// The long section at one offset.
pub(super) fn long_section(line: &Line, ground: &Ground, bed: &Bed, offset: Length) -> Along {
    let offset_m = if in_metres(offset).is_finite() {
        in_metres(offset)
    } else {
        0.0
    };
    let offset = metres(offset_m);
    // Of the stretch of the grade line that a piece lies in: at a riser two pieces meet at two levels.
    let grade_of = |piece: &CutPiece, station_m: f64| {
        let middle = metres((piece.from_x_m + piece.to_x_m) / 2.0);
        let on_centreline = line
            .grade
            .piece_at(middle)
            .map_or(line.grade.start, |grade| grade.level_at(metres(station_m)));
        on_centreline - offset * line.grade.cross_fall.ratio()
    };
    let base_top_m = |piece: &CutPiece, station_m: f64| {
        in_metres(grade_of(piece, station_m) - bed.base_top_below_grade)
    };
    let mut pieces: Vec<CutPiece> = Vec::new();
    for reach in bed.dig.reaches() {
        for (from, to) in inside_the_dig(&bed.dig, reach, offset_m) {
            pieces.extend(
                bed.dig
                    .pieces(reach, from, to)
                    .iter()
                    .map(|piece| piece.cut(piece.from.station_m, piece.to.station_m)),
            );
        }
    }
    let mut spots: Vec<AlongSpot> = Vec::new();
    for piece in &pieces {
        for station_m in stops(piece, &line.old_surface, offset_m) {
            let station = metres(station_m);
            let part = (station_m - piece.from_x_m) / (piece.to_x_m - piece.from_x_m);
            let thickness_m =
                piece.from_thickness_m + (piece.to_thickness_m - piece.from_thickness_m) * part;
            let grade = grade_of(piece, station_m);
            let spot = AlongSpot {
                station,
                grade,
                brick_bottom: grade - bed.unit_thickness,
                base_top: grade - bed.base_top_below_grade,
                dig_bottom: grade - bed.base_top_below_grade - metres(thickness_m),
                old_surface: line.old_surface.at(station, offset),
                unsuitable_bottom: ground.unsuitable_bottom(station),
            };
            if spots.last().is_none_or(|last| is_elsewhere(last, &spot)) {
                spots.push(spot);
            }
        }
    }
    let lifts = bed.lifts.each.iter().map(|lift| LiftBand {
        number: lift.number,
        outlines: lift_outlines(bed.dig.rule(), lift.number, &pieces, base_top_m)
            .into_iter()
            .map(|outline| {
                outline
                    .into_iter()
                    .map(|(station_m, level_m)| (metres(station_m), metres(level_m)))
                    .collect()
            })
            .collect(),
    });
    Along {
        offset,
        spots,
        lifts: lifts.collect(),
    }
}

/// Whether a spot is another one than the last: further along, or a step of the dig or of the grade line.
fn is_elsewhere(last: &AlongSpot, spot: &AlongSpot) -> bool {
    in_metres(spot.station - last.station).abs() > SAME_M
        || in_metres(spot.dig_bottom - last.dig_bottom).abs() > SAME_M
        || in_metres(spot.grade - last.grade).abs() > SAME_M
}

/// The line at an offset over one stretch, moved to the side of the dig where it lies outside: one straight or two.
fn inside_the_dig(dig: &Dig, reach: &Reach, offset_m: f64) -> Vec<(PlanSpot, PlanSpot)> {
    let (from_m, to_m) = (reach.stretch.from_m, reach.stretch.to_m);
    let spare_m = |station_m: f64| dig.half_width_m(reach, station_m) - offset_m.abs();
    let spot = |station_m: f64| {
        let half_m = dig.half_width_m(reach, station_m).max(0.0);
        PlanSpot {
            station_m,
            offset_m: offset_m.clamp(-half_m, half_m),
        }
    };
    let (at_from, at_to) = (spare_m(from_m), spare_m(to_m));
    if at_from * at_to < 0.0 {
        let side_m = from_m + (to_m - from_m) * at_from / (at_from - at_to);
        if side_m - from_m > SAME_M && to_m - side_m > SAME_M {
            return vec![(spot(from_m), spot(side_m)), (spot(side_m), spot(to_m))];
        }
    }
    vec![(spot(from_m), spot(to_m))]
}

/// Both ends of a piece, and between them the stations at which the line crosses a fold of the old surface.
fn stops(piece: &CutPiece, surface: &OldSurface, offset_m: f64) -> Vec<f64> {
    let mut stops_m = vec![piece.from_x_m, piece.to_x_m];
    for (near, far) in surface.folds_between(metres(piece.from_x_m), metres(piece.to_x_m)) {
        let (near, far) = (PlanSpot::of(near), PlanSpot::of(far));
        let (at_near, at_far) = (near.offset_m - offset_m, far.offset_m - offset_m);
        if at_near * at_far < 0.0 {
            stops_m.push(between(near, far, at_near / (at_near - at_far)).station_m);
        }
    }
    stops_m.retain(|station_m| *station_m >= piece.from_x_m && *station_m <= piece.to_x_m);
    stops_m.sort_by(f64::total_cmp);
    stops_m
}
