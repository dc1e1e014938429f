//! Whole bricks brought to what the field leaves of them: cut along its edges and around openings, no piece smaller than the least.

mod extent;
mod join;
mod label;
mod small;

use super::clip::{Bounds, Clipper, Parts, Placed, without};
use super::laid::Laid;
use super::openings::PlacedOpening;
use super::pieces::{PlanPoint, area_m2};
use super::stations::Stations;
use super::wishes::LayWishes;
use crate::line::Run;
use crate::quantity::{Length, in_metres};
use crate::site::Hand;
use extent::Extent;
pub(super) use extent::reach_m;
use small::Ground;

/// A whole brick where its pattern has it, before anything is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Brick {
    /// Counter-clockwise as seen from above.
    pub outline: [PlanPoint; 4],
    /// The way of its length, of length 1.
    pub along: (f64, f64),
    /// Its row by the pattern, from anywhere.
    pub row: i32,
}

/// What is left of a brick, or of two that were joined.
#[derive(Clone, Debug, PartialEq)]
struct Bit {
    outline: Vec<PlanPoint>,
    /// Number of the brick that it was.
    brick: usize,
    along: (f64, f64),
    row: i32,
    extent: Extent,
    how: How,
}

/// How a bit came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum How {
    /// Not touched.
    Whole,
    /// Cut along an edge or an opening.
    Cut,
    /// Of two bricks, or with its joint moved.
    Joined,
}

/// Sizes by which bits are judged, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sizes {
    length_m: f64,
    width_m: f64,
    joint_m: f64,
    least_length_m: f64,
    least_width_m: f64,
    /// Widest joint of the pattern, over which bits are still neighbours.
    pattern_joint_m: f64,
    /// Widest joint that is allowed.
    widest_joint_m: f64,
}

impl Sizes {
    /// The least piece holds along the brick; across it the same share of its width.
    pub fn of(wishes: &LayWishes, pattern_joint_m: f64) -> Self {
        let length_m = in_metres(wishes.brick_length);
        let width_m = in_metres(wishes.brick_width);
        let joint_m = in_metres(wishes.joint);
        // Of two pieces of one brick, both can be no larger than half.
        let least_length_m = in_metres(wishes.least_piece).clamp(0.0, 0.5 * length_m);
        Self {
            length_m,
            width_m,
            joint_m,
            least_length_m,
            least_width_m: width_m * least_length_m / length_m,
            pattern_joint_m,
            widest_joint_m: in_metres(wishes.widest_joint).max(joint_m),
        }
    }
}

/// Takes bricks one by one and cuts them; then sees to what is too small.
pub(super) struct Trimmer<'a> {
    field: &'a Clipper,
    openings: Vec<([PlanPoint; 4], Option<Bounds>)>,
    sizes: Sizes,
    parts: Parts,
    bits: Vec<Bit>,
    n_bricks: usize,
}

impl<'a> Trimmer<'a> {
    pub fn new(
        field: &'a Clipper,
        openings: &[PlacedOpening],
        joint: Length,
        sizes: Sizes,
    ) -> Self {
        let openings = openings.iter().map(|opening| {
            let outline = opening.with_joint(joint);
            (outline, Bounds::of(&outline))
        });
        Self {
            field,
            openings: openings.collect(),
            sizes,
            parts: Parts::default(),
            bits: Vec::new(),
            n_bricks: 0,
        }
    }

    /// Takes in what the field leaves of a brick.
    pub fn add(&mut self, brick: &Brick) {
        let whole = brick.outline.as_slice();
        self.n_bricks += 1;
        match self.field.place(whole, &mut self.parts) {
            Placed::Outside => {}
            Placed::Inside => {
                let is_beside_an_opening = Bounds::of(whole).is_some_and(|bounds| {
                    self.openings
                        .iter()
                        .any(|(_, opening)| opening.is_some_and(|opening| opening.meets(&bounds)))
                });
                if is_beside_an_opening {
                    self.add_beside_openings(brick, vec![whole.to_vec()], How::Whole);
                } else {
                    self.bits.push(Bit {
                        outline: whole.to_vec(),
                        brick: self.n_bricks,
                        along: brick.along,
                        row: brick.row,
                        extent: Extent {
                            length_m: self.sizes.length_m,
                            width_m: self.sizes.width_m,
                        },
                        how: How::Whole,
                    });
                }
            }
            Placed::Cut => {
                let outlines = self.parts.iter().map(<[PlanPoint]>::to_vec).collect();
                self.add_beside_openings(brick, outlines, How::Cut);
            }
        }
    }

    /// Sees to pieces that are too small, numbers all and adds them.
    pub fn finish(mut self, run: &Run, start: Hand, laid: &mut Laid) {
        let mut stations = Stations::of(run);
        let mut ground = Ground {
            field: self.field,
            openings: &self.openings,
            parts: self.parts,
        };
        let seen_to = small::see_to(&mut self.bits, &mut ground, &self.sizes);
        label::label_all(self.bits, &seen_to, &self.sizes, &mut stations, start, laid);
    }

    fn add_beside_openings(&mut self, brick: &Brick, outlines: Vec<Vec<PlanPoint>>, how: How) {
        let mut left: Vec<(Vec<PlanPoint>, How)> =
            outlines.into_iter().map(|outline| (outline, how)).collect();
        for (opening, _) in &self.openings {
            let mut after = Vec::with_capacity(left.len());
            for (outline, how) in left {
                match without(&outline, opening, self.sizes.joint_m, &mut self.parts) {
                    Placed::Inside => after.push((outline, how)),
                    Placed::Outside => {}
                    Placed::Cut => {
                        after.extend(self.parts.iter().map(|part| (part.to_vec(), How::Cut)));
                    }
                }
            }
            left = after;
        }
        for (outline, how) in left {
            let extent = Extent::of(&outline, brick.along);
            self.bits.push(Bit {
                outline,
                brick: self.n_bricks,
                along: brick.along,
                row: brick.row,
                extent,
                how,
            });
        }
    }
}

impl Bit {
    fn area_m2(&self) -> f64 {
        area_m2(&self.outline)
    }
}
