//! Outlines of the lifts along a cut through the bed, across or lengthwise.

use super::lift_rule::LiftRule;
use super::strip::SAME_M;

/// A stretch of a cut on which the base is of even slope and has as many lifts everywhere: `x` is station or offset, in metres,
/// rising from piece to piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct CutPiece {
    pub from_x_m: f64,
    pub to_x_m: f64,
    pub from_thickness_m: f64,
    pub to_thickness_m: f64,
    /// How many lifts there are, counted from the top.
    pub n_lifts: usize,
}

/// A spot of a cut: (x, level), in metres.
pub(super) type CutSpot = (f64, f64);

/// The bottom of the base along a cut, in order of x; at a step two spots share an x.
pub(super) fn base_bottom(
    pieces: &[CutPiece],
    base_top_m: impl Fn(&CutPiece, f64) -> f64,
) -> Vec<CutSpot> {
    let spots = pieces.iter().flat_map(|piece| {
        [
            (piece.from_x_m, piece.from_thickness_m),
            (piece.to_x_m, piece.to_thickness_m),
        ]
        .map(|(x_m, thickness_m)| (x_m, base_top_m(piece, x_m) - thickness_m))
    });
    straightened(spots)
}

/// The outlines of one lift along a cut, clockwise from the upper left: one for each stretch on which it exists.
pub(super) fn lift_outlines(
    rule: &LiftRule,
    number: usize,
    pieces: &[CutPiece],
    base_top_m: impl Fn(&CutPiece, f64) -> f64,
) -> Vec<Vec<CutSpot>> {
    let exists = |piece: &CutPiece| rule.lowest_number(piece.n_lifts) <= number;
    let stretches = pieces
        .chunk_by(|one, other| exists(one) == exists(other))
        .filter(|stretch| stretch.iter().all(exists));
    stretches
        .filter_map(|stretch| outline(rule, number, stretch, &base_top_m))
        .collect()
}

fn outline(
    rule: &LiftRule,
    number: usize,
    stretch: &[CutPiece],
    base_top_m: impl Fn(&CutPiece, f64) -> f64,
) -> Option<Vec<CutSpot>> {
    stretch.first()?;
    let top_m = rule.top_below_base_top_m(number);
    let bottom_m = |piece: &CutPiece, thickness_m: f64| {
        if rule.lowest_number(piece.n_lifts) == number {
            thickness_m
        } else {
            top_m + rule.full_m()
        }
    };
    let spot = |piece: &CutPiece, x_m: f64, depth_m: f64| (x_m, base_top_m(piece, x_m) - depth_m);
    let top = stretch
        .iter()
        .flat_map(|piece| [piece.from_x_m, piece.to_x_m].map(|x_m| spot(piece, x_m, top_m)));
    let bottom = stretch.iter().rev().flat_map(|piece| {
        [
            (piece.to_x_m, bottom_m(piece, piece.to_thickness_m)),
            (piece.from_x_m, bottom_m(piece, piece.from_thickness_m)),
        ]
        .map(|(x_m, depth_m)| spot(piece, x_m, depth_m))
    });
    Some(straightened(top.chain(bottom)))
}

/// The same line without repeated spots and without spots in the middle of a straight.
pub(super) fn straightened(spots: impl IntoIterator<Item = CutSpot>) -> Vec<CutSpot> {
    let mut line: Vec<CutSpot> = Vec::new();
    for spot in spots {
        if line.last().is_some_and(|last| {
            (last.0 - spot.0).abs() <= SAME_M && (last.1 - spot.1).abs() <= SAME_M
        }) {
            continue;
        }
        if let [.., before, middle] = line.as_slice()
            && lies_between(*middle, *before, spot)
        {
            line.pop();
        }
        line.push(spot);
    }
    line
}

/// Whether a spot lies on the straight between two others, within rounding.
fn lies_between(middle: CutSpot, before: CutSpot, after: CutSpot) -> bool {
    let (to_middle, to_after) = (
        (middle.0 - before.0, middle.1 - before.1),
        (after.0 - before.0, after.1 - before.1),
    );
    let aside = to_middle.0 * to_after.1 - to_middle.1 * to_after.0;
    let onward = to_middle.0 * to_after.0 + to_middle.1 * to_after.1;
    let length = libm::hypot(to_after.0, to_after.1);
    aside.abs() <= SAME_M * length
        && onward > 0.0
        && libm::hypot(to_middle.0, to_middle.1) <= length
}
