//! Setting out the edges of curves: by offsets from a chord, and by a tape swung from the centre.

use super::stake::{CurveSetOut, Swing};
use crate::bed::Bed;
use crate::line::{Line, Run, RunLeg};
use crate::quantity::{Length, feet, in_metres, inches, metres, millimetres};
use crate::site::{ShownIn, Site};
use std::f64::consts::FRAC_PI_2;

/// The outer faces of both edges of every curved leg, left then right. A leg that turns by more than a right angle is set out in equal
/// parts that do not, as offsets square to a chord reach no further.
///
/// Offsets are those of the face itself: of an arc √(R² − (x − C/2)²) − √(R² − (C/2)²), and where the walk tapers of the line that the
/// face then takes.
///
/// # Source
/// Offsets from the long chord, any text on setting out curves. 2 ft or 500 mm from offset to offset, and parts of a right angle, are
/// common practice, no source.
#[must_use]
pub fn curves(site: &Site, line: &Line, bed: &Bed) -> Vec<CurveSetOut> {
    let spacing = match site.shown_in {
        ShownIn::FeetInches => feet(2.0),
        ShownIn::Metric => millimetres(500.0),
    };
    let mut curves = Vec::new();
    for (leg_idx, leg) in line.run.legs().iter().enumerate() {
        if leg.curvature_per_m == 0.0 {
            continue;
        }
        for is_right in [false, true] {
            let face = Face::of(&line.run, leg, is_right, bed.edge.brick.across);
            let n_parts = n_parts(leg);
            for part in 0..n_parts {
                let share = |part: u32| f64::from(part) / f64::from(n_parts);
                let stretch = (share(part) * face.length_m, share(part + 1) * face.length_m);
                curves.push(face.set_out(leg_idx, is_right, stretch, spacing));
            }
        }
    }
    curves
}

/// In how many equal parts a leg is set out.
fn n_parts(leg: &RunLeg) -> u32 {
    /// A right angle is not split for the rounding of its degrees.
    const ROUNDING: f64 = 1e-9;
    let turn_rad = leg.curvature_per_m.abs() * in_metres(leg.length);
    // A leg turns by no more than 360 degrees.
    (1..4)
        .find(|n_parts| turn_rad <= f64::from(*n_parts) * FRAC_PI_2 * (1.0 + ROUNDING))
        .unwrap_or(4)
}

/// The outer face of the edge brick along one leg.
#[derive(Clone, Copy, Debug)]
struct Face<'a> {
    run: &'a Run,
    start_m: f64,
    length_m: f64,
    curvature_per_m: f64,
    /// Offset at the leg's start and end.
    offsets_m: (f64, f64),
}

/// A spot in plan: to the right and away from the middle of the door.
type PlanSpot = (f64, f64);

impl<'a> Face<'a> {
    fn of(run: &'a Run, leg: &RunLeg, is_right: bool, across: Length) -> Self {
        let sign = if is_right { 1.0 } else { -1.0 };
        let offset_m = |width: Length| sign * in_metres(width * 0.5 + across);
        Self {
            run,
            start_m: in_metres(leg.start),
            length_m: in_metres(leg.length),
            curvature_per_m: leg.curvature_per_m,
            offsets_m: (offset_m(leg.width_at_start), offset_m(leg.width_at_end)),
        }
    }

    /// One stretch of it, from and to so far along the leg.
    fn set_out(
        &self,
        leg_idx: usize,
        is_right: bool,
        stretch: (f64, f64),
        spacing: Length,
    ) -> CurveSetOut {
        let (start, end) = (self.spot(stretch.0), self.spot(stretch.1));
        let chord_m = libm::hypot(end.0 - start.0, end.1 - start.1);
        let offsets = stops_m(chord_m, in_metres(spacing))
            .into_iter()
            .map(|x_m| (metres(x_m), metres(self.offset_m(stretch, chord_m, x_m))))
            .collect();
        CurveSetOut {
            leg_idx,
            is_right,
            stations: [stretch.0, stretch.1].map(|along_m| metres(self.start_m + along_m)),
            ends: [start, end].map(|(right_m, away_m)| (metres(right_m), metres(away_m))),
            chord: metres(chord_m),
            arc: metres(self.arc_m(stretch)),
            offsets,
            swing: self.swing(),
        }
    }

    /// Offset of the face so far along the leg.
    fn offset_at_m(&self, along_m: f64) -> f64 {
        let (from_m, to_m) = self.offsets_m;
        from_m + (to_m - from_m) * along_m / self.length_m
    }

    fn spot(&self, along_m: f64) -> PlanSpot {
        let (right, away) = self.run.in_plan(
            metres(self.start_m + along_m),
            metres(self.offset_at_m(along_m)),
        );
        (in_metres(right), in_metres(away))
    }

    fn arc_m(&self, stretch: (f64, f64)) -> f64 {
        crate::line::offset_line_length_m(
            stretch.1 - stretch.0,
            self.curvature_per_m,
            self.offset_at_m(stretch.0),
            self.offset_at_m(stretch.1),
        )
    }

    /// From the chord square to it to the face, `x_m` along the chord; positive to the side to which a curve of this hand bows.
    fn offset_m(&self, stretch: (f64, f64), chord_m: f64, x_m: f64) -> f64 {
        /// A thousandth of a micrometre.
        const NEAR_M: f64 = 1e-9;
        let (start, end) = (self.spot(stretch.0), self.spot(stretch.1));
        let (right, away) = ((end.0 - start.0) / chord_m, (end.1 - start.1) / chord_m);
        // Along the chord, and to the right of it.
        let beside_chord = |along_m: f64| {
            let spot = self.spot(along_m);
            let (to_right, to_away) = (spot.0 - start.0, spot.1 - start.1);
            (
                to_right * right + to_away * away,
                to_right * away - to_away * right,
            )
        };
        // The face starts at the chord's start and ends at its end: halving finds where it passes x.
        let (mut before_m, mut behind_m) = stretch;
        while behind_m - before_m > NEAR_M {
            let middle_m = 0.5 * (before_m + behind_m);
            if beside_chord(middle_m).0 < x_m {
                before_m = middle_m;
            } else {
                behind_m = middle_m;
            }
        }
        // The rest of the way in a straight.
        let (near, far) = (beside_chord(before_m), beside_chord(behind_m));
        let part = if far.0 > near.0 {
            (x_m - near.0) / (far.0 - near.0)
        } else {
            0.0
        };
        let to_right_m = near.1 + (far.1 - near.1) * part.clamp(0.0, 1.0);
        // A curve to the right bows to the left.
        -to_right_m * self.curvature_per_m.signum()
    }

    fn swing(&self) -> Option<Swing> {
        let (offset_m, offset_at_end_m) = self.offsets_m;
        let radius_m = 1.0 / self.curvature_per_m;
        // A face that tapers by less than a millionth of a millimetre is an arc.
        ((offset_at_end_m - offset_m).abs() <= 1e-9).then(|| Swing {
            radius: metres((radius_m - offset_m).abs()),
            centre: self.run.in_plan(metres(self.start_m), metres(radius_m)),
            from_start: metres(radius_m.abs()),
        })
    }
}

/// Where offsets are taken along a chord: at the spacing, and in the middle. One nearer than an inch to the middle or the chord's end
/// is left out.
fn stops_m(chord_m: f64, spacing_m: f64) -> Vec<f64> {
    let near_m = in_metres(inches(1.0));
    let middle_m = 0.5 * chord_m;
    let mut stops_m: Vec<f64> = (1_u32..)
        .map(|n| spacing_m * f64::from(n))
        .take_while(|x_m| *x_m <= chord_m - near_m)
        .filter(|x_m| (x_m - middle_m).abs() >= near_m)
        .collect();
    if chord_m > 0.0 {
        stops_m.push(middle_m);
    }
    stops_m.sort_by(f64::total_cmp);
    stops_m
}
