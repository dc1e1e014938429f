//! A walk laid in the simplest way, so that the plan can be tried by itself: rigid bricks set along courses at constant offset, every
//! second course moved by half, a piece at each end.

use underbrick_calc::lay::{Kind, Label, LayWishes, Measured, Part, Pieces, PlanPoint};
use underbrick_calc::line::Run;
use underbrick_calc::measure::written::{BareUnit, read_length};
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::{Hand, Site};

/// A walk and its pieces.
pub struct Laid {
    /// Every piece.
    pub pieces: Pieces,
    /// The least lap.
    pub least_lap: Measured,
    /// The narrowest joint.
    pub narrowest_joint: Measured,
    /// The widest joint.
    pub widest_joint: Measured,
}

/// A length as written.
pub fn length(written: &str) -> Length {
    read_length(written, BareUnit::Inch).unwrap()
}

/// Lays a whole walk.
pub fn lay(site: &Site, run: &Run) -> Laid {
    let wishes = LayWishes::of(site);
    let (brick_m, width_m, joint_m) = (
        in_metres(wishes.brick_length),
        in_metres(wishes.brick_width),
        in_metres(wishes.joint),
    );
    let mut pieces = Pieces::default();
    let clear_m = in_metres(run.clear_width_at(metres(0.0)));
    let n_courses = ((clear_m - joint_m) / (width_m + joint_m)).round().max(1.0);
    let gap_m = (clear_m - n_courses * width_m) / (n_courses + 1.0);
    let mut course = 0;
    while f64::from(course) < n_courses {
        let offset_m =
            -clear_m / 2.0 + gap_m + width_m / 2.0 + f64::from(course) * (width_m + gap_m);
        let starts_half = course % 2 == 1;
        course += 1;
        row(
            &mut pieces,
            run,
            Row {
                part: Part::Field,
                course,
                offset_m,
                along_m: brick_m,
                across_m: width_m,
                joint_m,
                starts_half,
            },
        );
    }
    let edge = wishes.edge_brick;
    for (hand, side) in [(Hand::Left, -1.0), (Hand::Right, 1.0)] {
        let across_m = in_metres(edge.across);
        row(
            &mut pieces,
            run,
            Row {
                part: Part::Edge(hand),
                course: 1,
                offset_m: side * (clear_m / 2.0 + across_m / 2.0),
                along_m: in_metres(edge.along),
                across_m,
                joint_m,
                starts_half: false,
            },
        );
    }
    let measured = |written: &str, course, station: f64| Measured {
        length: length(written),
        course,
        station: run.length() * station,
    };
    Laid {
        pieces,
        least_lap: measured("2 1/8\"", 3, 0.62),
        narrowest_joint: measured("3/16\"", 1, 0.1),
        widest_joint: measured("7/16\"", 8, 0.7),
    }
}

#[derive(Clone, Copy)]
struct Row {
    part: Part,
    course: u32,
    offset_m: f64,
    along_m: f64,
    across_m: f64,
    joint_m: f64,
    starts_half: bool,
}

/// One course from the door to the far end. The step along the centreline is what the course itself needs on the inner side of a curve.
fn row(pieces: &mut Pieces, run: &Run, row: Row) {
    let end_m = in_metres(run.length());
    let (mut station_m, mut nth) = (0.0, 0);
    while station_m < end_m - 0.01 {
        let curvature = run.curvature_per_m_at(metres(station_m));
        // What of a step on the centreline the inner corner of the brick gets.
        let inner = 1.0 - curvature * (row.offset_m + row.across_m / 2.0 * curvature.signum());
        let stretch = inner.max(0.2);
        let want_m = if row.starts_half && nth == 0 {
            (row.along_m - row.joint_m) / 2.0
        } else {
            row.along_m
        };
        let left_m = (end_m - station_m) * stretch;
        let piece_m = want_m.min(left_m);
        nth += 1;
        let middle_m = station_m + piece_m / stretch / 2.0;
        let spot = |offset_m: f64| {
            let (right, away) = run.in_plan(metres(middle_m), metres(offset_m));
            (in_metres(right), in_metres(away))
        };
        let (middle, beside) = (spot(row.offset_m), spot(row.offset_m + 1.0));
        let right = (beside.0 - middle.0, beside.1 - middle.1);
        let corner = |on: f64, aside: f64| PlanPoint {
            right_m: middle.0 + aside * row.across_m / 2.0 * right.0 - on * piece_m / 2.0 * right.1,
            away_m: middle.1 + aside * row.across_m / 2.0 * right.1 + on * piece_m / 2.0 * right.0,
        };
        let kind = if (piece_m - row.along_m).abs() < 1e-6 {
            Kind::Whole
        } else if (piece_m - (row.along_m - row.joint_m) / 2.0).abs() < 1e-6 {
            Kind::Half
        } else if piece_m > 0.6 * row.along_m {
            Kind::ThreeQuarter
        } else {
            Kind::Cut
        };
        pieces.add(
            Label {
                part: row.part,
                course: row.course,
                nth,
                kind,
                length: metres(piece_m),
                width: metres(row.across_m),
                station: metres(middle_m),
            },
            &[
                corner(-1.0, -1.0),
                corner(-1.0, 1.0),
                corner(1.0, 1.0),
                corner(1.0, -1.0),
            ],
        );
        station_m += (piece_m + row.joint_m) / stretch;
    }
}

/// Letters by kind, as a cut list might give them.
pub fn letter(pieces: &Pieces, piece_idx: usize) -> Option<String> {
    let piece = pieces.all().get(piece_idx)?;
    match piece.kind {
        Kind::Whole => None,
        Kind::Half => Some("A".to_owned()),
        Kind::ThreeQuarter => Some("B".to_owned()),
        _ => Some("C".to_owned()),
    }
}
