//! The cross-section at one station, as outlines in true size.

use super::Bed;
use super::outline::{CutPiece, CutSpot, base_bottom, lift_outlines, straightened};
use super::patch::PlanSpot;
use super::wishes::{HaunchShape, Wishes};
use crate::findings::Findings;
use crate::ground::{Ground, UnsuitableBottom};
use crate::line::{Line, OldSurface};
use crate::quantity::{Length, feet, in_metres, inches, metres};
use crate::site::Site;

/// A spot in a cross-section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Offset from the centreline, right positive.
    pub across: Length,
    /// Above the datum, up positive.
    pub level: Length,
}

/// Everything in one cross-section. Outlines run clockwise from their upper left corner and are not closed by a repeated spot.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Where it is cut.
    pub station: Length,
    /// Clear width between the edge bricks.
    pub clear_width: Length,
    /// Grade line over brick and edges, left to right.
    pub grade: Vec<Spot>,
    /// Field bricks, left to right, a joint before each and after the last; the last is narrower where whole ones do not fit. The
    /// courses run along the walk.
    pub bricks: Vec<Vec<Spot>>,
    /// The setting bed between the edge bricks.
    pub setting_bed: Vec<Spot>,
    /// Base top across the dig, left to right.
    pub base_top: Vec<Spot>,
    /// Lifts from the bottom, as far as they exist here; trench and haunch are drawn over them.
    pub lifts: Vec<LiftSlice>,
    /// Bottom of the dig, left to right, across the dig; at a step two spots share an offset.
    pub dig_bottom: Vec<Spot>,
    /// The old surface, left to right, a foot past the dig on both sides; empty where there is no reading.
    pub old_surface: Vec<Spot>,
    /// Whether the old surface is known here, or held flat.
    pub old_surface_known: bool,
    /// Bottom of what must come out.
    pub unsuitable_bottom: Option<UnsuitableBottom>,
    /// Left and right edge.
    pub edges: [EdgeSlice; 2],
    /// Separation fabric along the dig bottom.
    pub fabric: bool,
}

/// A lift in a cross-section.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftSlice {
    /// Counted from the bottom, from 1.
    pub number: usize,
    /// Its outlines; more than one where it thins out between.
    pub outlines: Vec<Vec<Spot>>,
}

/// An edge in a cross-section.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeSlice {
    /// The edge brick.
    pub brick: Vec<Spot>,
    /// Concrete haunch, where there is one.
    pub haunch: Option<Vec<Spot>>,
    /// Trench below the base top for a deep edge brick and its haunch; empty where none is needed.
    pub trench: Vec<Spot>,
    /// Form board against the outer face, 1 1/2 in thick and as deep as the edge brick, as it stands before the haunch is placed.
    pub form: Vec<Spot>,
}

/// More courses than this are not drawn: no brick is that narrow.
const MOST_COURSES: usize = 2000;

/// The cross-section at a station.
pub(super) fn section(
    site: &Site,
    line: &Line,
    ground: &Ground,
    bed: &Bed,
    station: Length,
) -> Section {
    let length_m = in_metres(line.run.length());
    let station_m = if in_metres(station).is_finite() {
        in_metres(station).clamp(0.0, length_m)
    } else {
        0.0
    };
    let station = metres(station_m);
    // Values that cannot be true were named when the bed was designed.
    let wishes = Wishes::of(site, bed.least_base, &mut Findings::default());
    let cut = Cut {
        grade_on_centreline_m: in_metres(line.grade.level(station, metres(0.0))),
        cross_fall: line.grade.cross_fall.ratio(),
        half_clear_m: in_metres(line.run.clear_width_at(station)) / 2.0,
        base_top_below_grade_m: in_metres(bed.base_top_below_grade),
    };
    let half_dig_m = cut.half_clear_m + bed.dig.beyond_m();
    let half_paved_m = cut.half_clear_m + in_metres(bed.edge.brick.across);
    let pieces = pieces_across(bed, station_m, half_dig_m);
    let base_top_m =
        |_: &CutPiece, offset_m: f64| cut.level_m(offset_m, cut.base_top_below_grade_m);
    let lifts = bed.lifts.each.iter().map(|lift| LiftSlice {
        number: lift.number,
        outlines: lift_outlines(bed.dig.rule(), lift.number, &pieces, base_top_m)
            .into_iter()
            .map(spots)
            .collect(),
    });
    let old_surface_at = line.old_surface.at(station, metres(0.0));
    Section {
        station,
        clear_width: metres(2.0 * cut.half_clear_m),
        grade: cut.parallel(-half_paved_m, half_paved_m, 0.0),
        bricks: bricks(&cut, &wishes),
        setting_bed: cut.layer(
            -cut.half_clear_m,
            cut.half_clear_m,
            in_metres(bed.unit_thickness),
            cut.base_top_below_grade_m,
        ),
        base_top: cut.parallel(-half_dig_m, half_dig_m, cut.base_top_below_grade_m),
        lifts: lifts.filter(|slice| !slice.outlines.is_empty()).collect(),
        dig_bottom: spots(base_bottom(&pieces, base_top_m)),
        old_surface: old_surface(
            &line.old_surface,
            station_m,
            half_dig_m + in_metres(feet(1.0)),
        ),
        old_surface_known: old_surface_at.is_some_and(|found| found.known),
        unsuitable_bottom: ground.unsuitable_bottom(station),
        edges: [-1.0, 1.0].map(|side| edge(&cut, bed, &wishes, side)),
        fabric: bed.fabric,
    }
}

/// The frame of a cross-section: everything in it is parallel to the grade line.
#[derive(Clone, Copy, Debug)]
struct Cut {
    grade_on_centreline_m: f64,
    /// Down ÷ across, positive down to the right.
    cross_fall: f64,
    half_clear_m: f64,
    base_top_below_grade_m: f64,
}

impl Cut {
    fn level_m(&self, offset_m: f64, below_grade_m: f64) -> f64 {
        self.grade_on_centreline_m - offset_m * self.cross_fall - below_grade_m
    }

    fn spot(&self, offset_m: f64, below_grade_m: f64) -> Spot {
        Spot {
            across: metres(offset_m),
            level: metres(self.level_m(offset_m, below_grade_m)),
        }
    }

    /// A line parallel to the grade line.
    fn parallel(&self, left_m: f64, right_m: f64, below_grade_m: f64) -> Vec<Spot> {
        vec![
            self.spot(left_m, below_grade_m),
            self.spot(right_m, below_grade_m),
        ]
    }

    /// A layer parallel to the grade line, with upright sides.
    fn layer(&self, left_m: f64, right_m: f64, top_below_m: f64, bottom_below_m: f64) -> Vec<Spot> {
        let mut outline = self.parallel(left_m, right_m, top_below_m);
        outline.extend([
            self.spot(right_m, bottom_below_m),
            self.spot(left_m, bottom_below_m),
        ]);
        outline
    }
}

fn pieces_across(bed: &Bed, station_m: f64, half_dig_m: f64) -> Vec<CutPiece> {
    // A run without a stretch is refused before a bed is designed.
    let Some(reach) = bed.dig.reach_at(station_m) else {
        return Vec::new();
    };
    let [left, right] = [-half_dig_m, half_dig_m].map(|offset_m| PlanSpot {
        station_m,
        offset_m,
    });
    let pieces = bed.dig.pieces(reach, left, right);
    pieces
        .iter()
        .map(|piece| piece.cut(piece.from.offset_m, piece.to.offset_m))
        .collect()
}

fn bricks(cut: &Cut, wishes: &Wishes) -> Vec<Vec<Spot>> {
    let (width_m, joint_m) = (in_metres(wishes.brick_width), in_metres(wishes.joint));
    let last_m = cut.half_clear_m - joint_m;
    let mut bricks = Vec::new();
    let mut left_m = -cut.half_clear_m + joint_m;
    // A rest of less than a hundredth of a millimetre is rounding.
    while last_m - left_m > 1e-5 && bricks.len() < MOST_COURSES {
        let right_m = if left_m + width_m > last_m - 1e-9 {
            last_m
        } else {
            left_m + width_m
        };
        bricks.push(cut.layer(left_m, right_m, 0.0, in_metres(wishes.brick_thickness)));
        left_m = right_m + joint_m;
    }
    bricks
}

/// The edge on one side: −1 left, 1 right.
fn edge(cut: &Cut, bed: &Bed, wishes: &Wishes, side: f64) -> EdgeSlice {
    let depth_m = in_metres(bed.edge.brick.depth);
    let face_m = cut.half_clear_m + in_metres(bed.edge.brick.across);
    let layer = |inner_m: f64, outer_m: f64, top_below_m: f64, bottom_below_m: f64| {
        let (one_m, other_m) = (side * inner_m, side * outer_m);
        cut.layer(
            one_m.min(other_m),
            one_m.max(other_m),
            top_below_m,
            bottom_below_m,
        )
    };
    let trench_depth_m = in_metres(bed.edge.trench_depth);
    let trench = if trench_depth_m > 0.0 {
        let outer_m = cut.half_clear_m + in_metres(bed.edge.trench_width);
        layer(
            cut.half_clear_m,
            outer_m,
            cut.base_top_below_grade_m,
            cut.base_top_below_grade_m + trench_depth_m,
        )
    } else {
        Vec::new()
    };
    EdgeSlice {
        brick: layer(cut.half_clear_m, face_m, 0.0, depth_m),
        haunch: wishes
            .haunch()
            .map(|shape| haunch(cut, shape, side, face_m, depth_m)),
        trench,
        form: layer(face_m, face_m + in_metres(inches(1.5)), 0.0, depth_m),
    }
}

/// The haunch, from the bottom of the edge brick up its outer face.
fn haunch(cut: &Cut, shape: HaunchShape, side: f64, face_m: f64, depth_m: f64) -> Vec<Spot> {
    let spot =
        |from_face_m: f64, up_m: f64| cut.spot(side * (face_m + from_face_m), depth_m - up_m);
    let top = spot(0.0, shape.height_m);
    let top_outside = (shape.top_width_m > 0.0).then(|| spot(shape.top_width_m, shape.height_m));
    let (bottom, bottom_outside) = (spot(0.0, 0.0), spot(shape.width_m, 0.0));
    if side > 0.0 {
        [Some(top), top_outside, Some(bottom_outside), Some(bottom)]
            .into_iter()
            .flatten()
            .collect()
    } else {
        [top_outside, Some(top), Some(bottom), Some(bottom_outside)]
            .into_iter()
            .flatten()
            .collect()
    }
}

/// The old surface across, from one offset left to the same right, with a spot at every fold.
fn old_surface(surface: &OldSurface, station_m: f64, half_m: f64) -> Vec<Spot> {
    /// Folds of the ground before and behind the station, for one that stands on a border.
    const BESIDE_M: f64 = 1e-6;
    let (from, to) = (metres(station_m - BESIDE_M), metres(station_m + BESIDE_M));
    let mut offsets_m: Vec<f64> = surface
        .offsets_between(from, to)
        .into_iter()
        .map(in_metres)
        .collect();
    for (near, far) in surface.folds_between(from, to) {
        let part = (station_m - in_metres(near.0)) / in_metres(far.0 - near.0);
        offsets_m.push(in_metres(near.1) + in_metres(far.1 - near.1) * part.clamp(0.0, 1.0));
    }
    offsets_m.retain(|offset_m| offset_m.abs() < half_m);
    offsets_m.extend([-half_m, half_m]);
    offsets_m.sort_by(f64::total_cmp);
    let level = |offset_m: f64| {
        Some((
            offset_m,
            in_metres(surface.at(metres(station_m), metres(offset_m))?.level),
        ))
    };
    spots(straightened(offsets_m.into_iter().filter_map(level)))
}

fn spots(line: Vec<CutSpot>) -> Vec<Spot> {
    line.into_iter()
        .map(|(offset_m, level_m)| Spot {
            across: metres(offset_m),
            level: metres(level_m),
        })
        .collect()
}
