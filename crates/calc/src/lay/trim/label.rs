//! Rows and numbers, kinds and notes of pieces that are done.

use super::super::laid::{Laid, LayNote, Measured};
use super::super::pieces::{Kind, Label, Part, Pieces, PlanPoint};
use super::super::stations::Stations;
use super::small::{Done, SeenTo, middle};
use super::{Bit, How, Sizes};
use crate::quantity::metres;
use crate::site::Hand;

/// A piece cut this near to a half or to three quarters is one: 1/16 in.
const AS_CUT_M: f64 = 0.001_587_5;
/// An outline that lacks no more than this of a rectangle is one: 1 mm².
const SQUARE_M2: f64 = 1e-6;

/// Adds all pieces, row by row from the door, and in a row from the start side.
pub(super) fn label_all(
    bits: Vec<Bit>,
    seen_to: &[SeenTo],
    sizes: &Sizes,
    stations: &mut Stations,
    start: Hand,
    laid: &mut Laid,
) {
    let from_start_m = |spot: PlanPoint| match start {
        Hand::Left => spot.right_m,
        Hand::Right => -spot.right_m,
    };
    let mut ordered: Vec<(i32, f64, PlanPoint, Bit)> = bits
        .into_iter()
        .map(|bit| {
            let at = middle(&bit.outline);
            (bit.row, from_start_m(at), at, bit)
        })
        .collect();
    ordered.sort_by(|one, other| {
        one.0
            .cmp(&other.0)
            .then(one.1.total_cmp(&other.1))
            .then(one.2.away_m.total_cmp(&other.2.away_m))
    });
    let first_row = ordered.first().map_or(0, |first| first.0);
    let course = |row: i32| u32::try_from(row - first_row).unwrap_or(0) + 1;
    laid.pieces = Pieces::with_room_for(ordered.len());
    let mut last = (0, 0);
    for (row, _, at, bit) in &ordered {
        let course = course(*row);
        last = if last.0 == course {
            (course, last.1 + 1)
        } else {
            (course, 1)
        };
        let label = Label {
            part: Part::Field,
            course,
            nth: last.1,
            kind: kind(bit, sizes),
            length: metres(bit.extent.length_m),
            width: metres(bit.extent.width_m),
            station: stations.beside(*at),
        };
        laid.pieces.add(label, &bit.outline);
    }
    laid.notes.extend(seen_to.iter().map(|seen_to| {
        let (course, station) = (course(seen_to.row), stations.beside(seen_to.at));
        match seen_to.done {
            Done::Joined => LayNote::PieceJoined { course, station },
            Done::JointMoved { by_m } => LayNote::JointMoved(Measured {
                length: metres(by_m),
                course,
                station,
            }),
            Done::LeftToTheJoint { thickness_m } => LayNote::LeftToTheJoint(Measured {
                length: metres(thickness_m),
                course,
                station,
            }),
            Done::Kept { extent } => LayNote::SmallPieceKept(Measured {
                length: metres(extent.length_m.min(extent.width_m)),
                course,
                station,
            }),
        }
    }));
}

/// Whole, or how it is cut.
fn kind(bit: &Bit, sizes: &Sizes) -> Kind {
    let (length_m, width_m) = (bit.extent.length_m, bit.extent.width_m);
    if bit.how == How::Whole {
        return Kind::Whole;
    }
    if length_m * width_m - bit.area_m2() > SQUARE_M2 {
        return Kind::Shaped;
    }
    let is = |found_m: f64, wanted_m: f64| (found_m - wanted_m).abs() <= AS_CUT_M;
    if !is(width_m, sizes.width_m) {
        return Kind::Ripped;
    }
    // Two halves and a joint, or four quarters and three joints, make a brick.
    let half_m = 0.5 * (sizes.length_m - sizes.joint_m);
    let three_quarters_m = sizes.length_m - 0.25 * (sizes.length_m + sizes.joint_m);
    if is(length_m, half_m) {
        Kind::Half
    } else if is(length_m, three_quarters_m) {
        Kind::ThreeQuarter
    } else {
        Kind::Cut
    }
}
