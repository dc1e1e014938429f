//! Courses that reach over an edge of a tapered walk, or over an opening, cut to what the field leaves.

use super::band::{Within, field_outline};
use super::clip::{Bounds, Clipper, Parts, Placed, without};
use super::laid::{Laid, LayNote, Measured};
use super::openings::PlacedOpening;
use super::pieces::{Kind, Label, Piece, Pieces, PlanPoint, area_m2};
use super::trim::reach_m;
use super::wishes::LayWishes;
use crate::line::Run;
use crate::quantity::{in_metres, metres};

/// A piece cut this near to square is square: 1 mm² short of its rectangle.
const SQUARE_M2: f64 = 1e-6;
/// Sizes nearer than this are the same: a tenth of a millimetre.
const SAME_M: f64 = 1e-4;

/// Cuts the pieces of `laid` along the edges, where `along_edges` asks for it, and around openings with a joint between. A strip no thicker
/// than the widest joint is left to the joint; a piece smaller than the least stays, and each is noted.
pub(super) fn cut_to_fit(
    laid: &mut Laid,
    run: &Run,
    wishes: &LayWishes,
    along_edges: bool,
    openings: &[PlacedOpening],
) {
    if !along_edges && openings.is_empty() {
        return;
    }
    let field = along_edges.then(|| Clipper::new(&field_outline(run, Within::of(wishes))));
    let openings: Vec<[PlanPoint; 4]> = openings
        .iter()
        .map(|opening| opening.with_joint(wishes.joint))
        .collect();
    let whole = std::mem::take(&mut laid.pieces);
    let mut cut = Cut {
        wishes,
        field,
        openings,
        parts: Parts::default(),
        notes: Vec::new(),
        pieces: Pieces::with_room_for(whole.all().len()),
    };
    for piece in whole.all() {
        cut.take(piece, whole.outline(piece));
    }
    laid.notes.append(&mut cut.notes);
    laid.pieces = cut.pieces;
}

struct Cut<'a> {
    wishes: &'a LayWishes,
    field: Option<Clipper>,
    openings: Vec<[PlanPoint; 4]>,
    parts: Parts,
    notes: Vec<LayNote>,
    pieces: Pieces,
}

impl Cut<'_> {
    fn take(&mut self, piece: &Piece, outline: &[PlanPoint]) {
        let mut left = vec![counter_clockwise(outline)];
        let mut is_touched = false;
        if let Some(field) = &self.field {
            match field.place(outline_of(&left), &mut self.parts) {
                Placed::Inside => {}
                Placed::Outside => return,
                Placed::Cut => {
                    is_touched = true;
                    left = self.parts.iter().map(<[PlanPoint]>::to_vec).collect();
                }
            }
        }
        let bounds = Bounds::of(outline);
        for opening in &self.openings {
            let is_near = bounds
                .zip(Bounds::of(opening))
                .is_some_and(|(piece, opening)| piece.meets(&opening));
            if !is_near {
                continue;
            }
            let mut after = Vec::with_capacity(left.len());
            for part in left {
                match without(
                    &part,
                    opening,
                    in_metres(self.wishes.joint),
                    &mut self.parts,
                ) {
                    Placed::Inside => after.push(part),
                    Placed::Outside => is_touched = true,
                    Placed::Cut => {
                        is_touched = true;
                        after.extend(self.parts.iter().map(<[PlanPoint]>::to_vec));
                    }
                }
            }
            left = after;
        }
        if is_touched {
            let along = way_of_length(piece, outline);
            for part in left {
                self.add(piece, &part, along);
            }
        } else {
            self.pieces.add(piece.label(), outline);
        }
    }

    fn add(&mut self, piece: &Piece, part: &[PlanPoint], along: (f64, f64)) {
        let length_m = reach_m(part, along);
        let width_m = reach_m(part, (-along.1, along.0));
        let wishes = self.wishes;
        let smaller = Measured {
            length: metres(length_m.min(width_m)),
            course: piece.course,
            station: piece.station,
        };
        if smaller.length <= wishes.widest_joint {
            self.notes.push(LayNote::LeftToTheJoint(smaller));
            return;
        }
        let least_m = in_metres(wishes.least_piece);
        let least_width_m =
            least_m * in_metres(wishes.brick_width) / in_metres(wishes.brick_length);
        if length_m < least_m - SAME_M || width_m < least_width_m - SAME_M {
            self.notes.push(LayNote::SmallPieceKept(smaller));
        }
        let is_square = length_m * width_m - area_m2(part) <= SQUARE_M2;
        let kind = if !is_square {
            Kind::Shaped
        } else if (width_m - in_metres(wishes.brick_width)).abs() > SAME_M {
            Kind::Ripped
        } else {
            Kind::Cut
        };
        let label = Label {
            kind,
            length: metres(length_m),
            width: metres(width_m),
            ..piece.label()
        };
        self.pieces.add(label, part);
    }
}

fn outline_of(left: &[Vec<PlanPoint>]) -> &[PlanPoint] {
    left.first().map_or(&[], Vec::as_slice)
}

fn counter_clockwise(outline: &[PlanPoint]) -> Vec<PlanPoint> {
    let mut turned = outline.to_vec();
    let twice_m2: f64 = outline
        .iter()
        .zip(outline.iter().cycle().skip(1))
        .map(|(from, to)| {
            let origin = outline.first().copied().unwrap_or_default();
            (from.right_m - origin.right_m) * (to.away_m - origin.away_m)
                - (to.right_m - origin.right_m) * (from.away_m - origin.away_m)
        })
        .sum();
    if twice_m2 < 0.0 {
        turned.reverse();
    }
    turned
}

/// The way along the brick, of length 1: that of the side whose length is nearer to what the piece needs along the brick.
fn way_of_length(piece: &Piece, outline: &[PlanPoint]) -> (f64, f64) {
    let wanted_m = in_metres(piece.length);
    let sides = outline.windows(2).take(2).filter_map(|pair| {
        let &[from, to] = pair else { return None };
        let (right_m, away_m) = (to.right_m - from.right_m, to.away_m - from.away_m);
        let length_m = libm::hypot(right_m, away_m);
        (length_m > 0.0).then(|| {
            (
                (length_m - wanted_m).abs(),
                (right_m / length_m, away_m / length_m),
            )
        })
    });
    sides
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map_or((0.0, 1.0), |(_, way)| way)
}

#[cfg(test)]
mod tests {
    use super::super::openings::openings as placed;
    use super::super::walks::{self, any_run, polygon, run_of, whole_band};
    use super::super::{across, along, needs_clipping};
    use super::*;
    use crate::quantity::{Length, inches};
    use crate::site::{Bond, CourseWay, Opening};
    use geo::{Area as _, BooleanOps as _, MultiPolygon};
    use proptest::prelude::*;

    fn wishes(courses: CourseWay) -> LayWishes {
        LayWishes {
            courses,
            ..walks::wishes(Bond::Running, inches(8.0), inches(4.0), inches(0.125))
        }
    }

    fn post(station: Length, offset: Length) -> Opening {
        Opening {
            station: Some(station),
            offset: Some(offset),
            along: Some(inches(6.0)),
            across: Some(inches(9.0)),
        }
    }

    proptest! {
        #![proptest_config(crate::lay::walks::random_walks(60))]
        /// The oracle is geo's boolean operations, whose own grid keeps areas to 1e-5 m².
        #[test]
        fn what_is_left_lies_in_the_walk_and_off_the_post(
            run in any_run(), part in 0.1..0.9_f64, offset_m in -0.3..0.3_f64, is_across in any::<bool>(),
        ) {
            let wishes = wishes(if is_across { CourseWay::Across } else { CourseWay::Along });
            let mut laid = if is_across { across(&run, &wishes) } else { along(&run, &wishes) };
            let written = [post(run.length() * part, metres(offset_m))];
            let (openings, _) = placed(&run, &written);
            cut_to_fit(&mut laid, &run, &wishes, needs_clipping(&run, wishes.courses), &openings);
            let pieces = MultiPolygon(
                laid.pieces.all().iter().map(|piece| polygon(laid.pieces.outline(piece))).collect(),
            );
            for opening in &openings {
                let in_the_opening = pieces.intersection(&polygon(&opening.outline));
                prop_assert!(in_the_opening.unsigned_area() < 1e-5);
            }
            if needs_clipping(&run, wishes.courses) {
                let beyond = pieces.difference(&polygon(&whole_band(&run)));
                prop_assert!(beyond.unsigned_area() < 1e-5, "{}", beyond.unsigned_area());
            }
        }
    }

    /// A walk found at random: rows across, inside a curve as tight as this, have faces that meet within the clear width.
    #[test]
    fn rows_inside_a_tight_curve_stay_in_the_walk() {
        let run = run_of(0.9, &[(3.756, 0.0, 1.361), (1.0, 1.075, 1.361)]);
        let wishes = wishes(CourseWay::Across);
        let mut laid = across(&run, &wishes);
        cut_to_fit(
            &mut laid,
            &run,
            &wishes,
            needs_clipping(&run, wishes.courses),
            &[],
        );
        let band = polygon(&whole_band(&run));
        for piece in laid.pieces.all() {
            let beyond = polygon(laid.pieces.outline(piece)).difference(&band);
            assert!(beyond.unsigned_area() < 1e-6, "{piece:?}");
        }
    }

    #[test]
    fn a_post_in_a_straight_walk_by_hand() {
        // Courses 4 1/8 in apart from 1/8 in off the left edge; brick from 1/8 in off the door. A post of 6 x 9 in, a joint around it.
        let run = run_of(8.25 * 4.0 * 0.0254 + 0.000_1, &[(3.0, 0.0, 0.8383)]);
        let wishes = wishes(CourseWay::Along);
        let before = along(&run, &wishes);
        let mut after = before.clone();
        let (openings, faults) = placed(&run, &[post(metres(1.5), metres(0.0))]);
        assert_eq!(faults, []);
        cut_to_fit(&mut after, &run, &wishes, false, &openings);
        let area = |laid: &Laid| -> f64 {
            let pieces = laid.pieces.all().iter();
            pieces
                .map(|piece| area_m2(laid.pieces.outline(piece)))
                .sum()
        };
        // What is taken away is brick within the opening and its joint: below (6 1/4 x 9 1/4 in), above that less joints of 1/8 in.
        let taken_m2 = (area(&before) - area(&after)) / (0.0254 * 0.0254);
        assert!(
            taken_m2 < 6.25 * 9.25 && taken_m2 > 6.25 * 9.25 * 0.93,
            "{taken_m2} in²"
        );
        let n_shaped = after
            .pieces
            .all()
            .iter()
            .filter(|piece| piece.kind.is_cut())
            .count();
        assert!(n_shaped > 2, "{n_shaped}");
    }
}
