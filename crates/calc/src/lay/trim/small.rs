//! Pieces smaller than the least: joined to a neighbour, left to the joint, or grown into their neighbours.

use super::super::clip::{Bounds, Clipper, Parts, Placed, without};
use super::super::pieces::{PlanPoint, area_m2};
use super::extent::{Extent, Reach, thickness_m};
use super::join::Facing;
use super::{Bit, How, Sizes};

/// What was done about a small piece, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SeenTo {
    pub row: i32,
    pub at: PlanPoint,
    pub done: Done,
}

/// What was done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Done {
    /// Of one piece with a neighbour.
    Joined,
    /// Left to the joint, which is so much wider there.
    LeftToTheJoint { thickness_m: f64 },
    /// The piece is larger by so much along or across, and its neighbours are smaller.
    JointMoved { by_m: f64 },
    /// Nothing helped.
    Kept { extent: Extent },
}

/// A neighbour faces a small piece along this share of the piece's side at least, so that the joined piece does not break there.
const LEAST_SHARED: f64 = 0.6;

/// A corner turned inwards by no more is the bend of an arc's chords: two sides of 1 cm at half a degree.
const INNER_CORNER_M2: f64 = 1e-6;

/// Sees to all small bits; what is left of `bits` are the pieces. In order of rows, so that the same walk gives the same pieces.
pub(super) fn see_to(bits: &mut Vec<Bit>, ground: &mut Ground<'_>, sizes: &Sizes) -> Vec<SeenTo> {
    let mut waiting: Vec<usize> = bits
        .iter()
        .enumerate()
        .filter(|(_, bit)| bit.extent.is_small(sizes))
        .map(|(bit_idx, _)| bit_idx)
        .collect();
    waiting.reverse();
    let mut seen_to = Vec::new();
    if waiting.is_empty() {
        return seen_to;
    }
    let nearby = Nearby::of(bits, sizes);
    while let Some(bit_idx) = waiting.pop() {
        let Some(bit) = bits.get(bit_idx) else {
            continue;
        };
        if bit.outline.is_empty() || !bit.extent.is_small(sizes) {
            continue;
        }
        let (row, at) = (bit.row, middle(&bit.outline));
        let neighbours = neighbours(bits, bit_idx, &nearby, sizes);
        let done = if let Some((joined, other_idx)) =
            joined(ground, bits, bit_idx, &neighbours, &nearby, sizes)
        {
            if joined.extent.is_small(sizes) {
                waiting.push(bit_idx);
            }
            take(bits, other_idx);
            put(bits, bit_idx, joined);
            Done::Joined
        } else if thickness_m(&bit.outline) <= sizes.widest_joint_m {
            let thickness_m = thickness_m(&bit.outline);
            take(bits, bit_idx);
            Done::LeftToTheJoint { thickness_m }
        } else if let Some(moved) = moved(ground, bits, bit_idx, &nearby, sizes) {
            put(bits, bit_idx, moved.larger);
            for (other_idx, kept) in moved.others {
                match kept {
                    Some(kept) => put(bits, other_idx, kept),
                    None => take(bits, other_idx),
                }
            }
            Done::JointMoved { by_m: moved.by_m }
        } else {
            Done::Kept { extent: bit.extent }
        };
        seen_to.push(SeenTo { row, at, done });
    }
    bits.retain(|bit| !bit.outline.is_empty());
    seen_to
}

fn take(bits: &mut [Bit], bit_idx: usize) {
    if let Some(bit) = bits.get_mut(bit_idx) {
        bit.outline.clear();
    }
}

fn put(bits: &mut [Bit], bit_idx: usize, new: Bit) {
    if let Some(bit) = bits.get_mut(bit_idx) {
        *bit = new;
    }
}

/// Neighbours of a bit with the sides that face each other, the longest first.
fn neighbours(
    bits: &[Bit],
    bit_idx: usize,
    nearby: &Nearby,
    sizes: &Sizes,
) -> Vec<(usize, Facing)> {
    let Some(bit) = bits.get(bit_idx) else {
        return Vec::new();
    };
    let most_gap_m = sizes.pattern_joint_m + 1e-4;
    let Some(around) = Bounds::of(&bit.outline).map(|bounds| bounds.grown(most_gap_m)) else {
        return Vec::new();
    };
    let mut neighbours: Vec<(usize, Facing)> = nearby
        .around(middle(&bit.outline), 1)
        .filter(|&other_idx| other_idx != bit_idx)
        .filter_map(|other_idx| {
            let other = bits.get(other_idx)?;
            Bounds::of(&other.outline).filter(|other| other.meets(&around))?;
            let facing = Facing::between(&bit.outline, &other.outline, most_gap_m)?;
            Some((other_idx, facing))
        })
        .collect();
    neighbours.sort_by(|one, other| {
        other
            .1
            .shared_m()
            .total_cmp(&one.1.shared_m())
            .then(one.0.cmp(&other.0))
    });
    neighbours
}

/// The bit with the first neighbour with which it fits in one brick.
fn joined(
    ground: &mut Ground<'_>,
    bits: &[Bit],
    bit_idx: usize,
    neighbours: &[(usize, Facing)],
    nearby: &Nearby,
    sizes: &Sizes,
) -> Option<(Bit, usize)> {
    let bit = bits.get(bit_idx)?;
    neighbours.iter().find_map(|(other_idx, facing)| {
        let other = bits.get(*other_idx)?;
        // Two parts of one brick were cut apart for a reason.
        if other.brick == bit.brick || facing.shared_m() < LEAST_SHARED * facing.side_m {
            return None;
        }
        let joined = one_of(bit, other, facing, sizes, &mut ground.parts)?;
        // In a wide joint a thin piece may lie.
        let bridge = facing.bridge(&other.outline)?;
        let is_empty = ground.is_in_field(&bridge)
            && nearby
                .around(middle(&bridge), 2)
                .filter(|third_idx| *third_idx != bit_idx && third_idx != other_idx)
                .filter_map(|third_idx| bits.get(third_idx))
                .all(|third| ground.keeps_clear(&third.outline, &bridge));
        (is_empty && ground.is_free(&joined.outline)).then_some((joined, *other_idx))
    })
}

/// Two bits as one, where that fits in one brick, laid as either of the two is. It belongs to the row of the larger.
fn one_of(
    bit: &Bit,
    other: &Bit,
    facing: &Facing,
    sizes: &Sizes,
    parts: &mut Parts,
) -> Option<Bit> {
    parts.take(&facing.joined(&bit.outline, &other.outline));
    let joined = only(parts)?;
    let row = if other.area_m2() > bit.area_m2() {
        other.row
    } else {
        bit.row
    };
    let (along, extent) = laid_to_fit(&joined, &[other.along, bit.along], sizes)?;
    Some(Bit {
        outline: joined,
        brick: bit.brick,
        along,
        row,
        extent,
        how: How::Joined,
    })
}

/// The first way to lay a brick from which an outline can be cut.
fn laid_to_fit(
    outline: &[PlanPoint],
    ways: &[(f64, f64)],
    sizes: &Sizes,
) -> Option<((f64, f64), Extent)> {
    ways.iter().find_map(|&along| {
        let extent = Extent::of(outline, along);
        extent.fits(sizes).then_some((along, extent))
    })
}

const fn across(along: (f64, f64)) -> (f64, f64) {
    (-along.1, along.0)
}

/// A piece made larger, and what its neighbours keep.
struct Moved {
    larger: Bit,
    others: Vec<(usize, Option<Bit>)>,
    by_m: f64,
}

/// The bit made larger at the cost of its neighbours, so that none of them is small: with the fewest notches, then by as little as does. It
/// grows along or across its
/// brick to the least piece laid either way; neighbours keep what lies a joint away.
fn moved(
    ground: &mut Ground<'_>,
    bits: &[Bit],
    bit_idx: usize,
    nearby: &Nearby,
    sizes: &Sizes,
) -> Option<Moved> {
    let bit = bits.get(bit_idx)?;
    let reach = Reach::of(&bit.outline, bit.along);
    let (length_m, width_m) = (bit.extent.length_m, bit.extent.width_m);
    let mut grown: Vec<(f64, Reach)> = Vec::with_capacity(8);
    for (least_along_m, least_across_m) in [
        (sizes.least_length_m, sizes.least_width_m),
        (sizes.least_width_m, sizes.least_length_m),
    ] {
        let more_along_m = (least_along_m - length_m).max(0.0);
        let more_across_m = (least_across_m - width_m).max(0.0);
        for along_sign in [-1.0, 1.0] {
            for across_sign in [-1.0, 1.0] {
                let more_m = more_along_m + more_across_m;
                let reach = reach
                    .longer(more_along_m * along_sign)
                    .wider(more_across_m * across_sign);
                grown.push((more_m, reach));
            }
        }
    }
    grown.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut best: Option<(usize, Moved)> = None;
    for (by_m, reach) in grown {
        let Some(moved) = grown_to(ground, bits, bit_idx, &reach, by_m, nearby, sizes) else {
            continue;
        };
        let kept = moved.others.iter().filter_map(|(_, kept)| kept.as_ref());
        let n_notches: usize = kept.map(|kept| n_inner_corners(&kept.outline)).sum();
        if best.as_ref().is_none_or(|best| n_notches < best.0) {
            best = Some((n_notches, moved));
        }
    }
    best.map(|(_, moved)| moved)
}

/// The bit grown to a rectangle, where that leaves nothing small.
fn grown_to(
    ground: &mut Ground<'_>,
    bits: &[Bit],
    bit_idx: usize,
    reach: &Reach,
    by_m: f64,
    nearby: &Nearby,
    sizes: &Sizes,
) -> Option<Moved> {
    let bit = bits.get(bit_idx)?;
    let outline = ground.left_of(&reach.outline(0.0))?;
    let (along, extent) = laid_to_fit(&outline, &[bit.along, across(bit.along)], sizes)?;
    if extent.is_small(sizes) {
        return None;
    }
    let others = ground.kept_beside(bits, bit_idx, &reach.outline(sizes.joint_m), nearby, sizes)?;
    Some(Moved {
        larger: Bit {
            outline,
            brick: bit.brick,
            along,
            row: bit.row,
            extent,
            how: How::Joined,
        },
        others,
        by_m,
    })
}

/// Corners that point inwards: each is two cuts that meet in the brick.
fn n_inner_corners(outline: &[PlanPoint]) -> usize {
    let n = outline.len();
    let corner = |idx: usize| outline.get(idx % n).copied().unwrap_or_default();
    (0..n)
        .filter(|&idx| {
            let (before, at, after) = (corner(idx), corner(idx + 1), corner(idx + 2));
            let turn = (at.right_m - before.right_m) * (after.away_m - at.away_m)
                - (at.away_m - before.away_m) * (after.right_m - at.right_m);
            turn < -INNER_CORNER_M2
        })
        .count()
}

/// Where pieces may lie: in the field, beside its openings.
pub(super) struct Ground<'a> {
    pub field: &'a Clipper,
    pub openings: &'a [([PlanPoint; 4], Option<Bounds>)],
    pub parts: Parts,
}

impl Ground<'_> {
    /// Whether all of a rectangle lies in the field, but for a hair at an edge.
    fn is_in_field(&mut self, rectangle: &[PlanPoint; 4]) -> bool {
        match self.field.place(rectangle, &mut self.parts) {
            Placed::Inside => true,
            Placed::Outside => false,
            Placed::Cut => {
                let left_m2: f64 = self.parts.iter().map(area_m2).sum();
                area_m2(rectangle) - left_m2 < 1e-8
            }
        }
    }

    /// Whether a piece keeps clear of a rectangle.
    fn keeps_clear(&mut self, outline: &[PlanPoint], rectangle: &[PlanPoint; 4]) -> bool {
        without(outline, rectangle, 0.0, &mut self.parts) == Placed::Inside
    }

    /// Whether a piece keeps clear of all openings.
    fn is_free(&mut self, outline: &[PlanPoint]) -> bool {
        self.openings
            .iter()
            .all(|(opening, _)| without(outline, opening, 0.0, &mut self.parts) == Placed::Inside)
    }

    /// What field and openings leave of a rectangle, where that is one piece.
    fn left_of(&mut self, rectangle: &[PlanPoint; 4]) -> Option<Vec<PlanPoint>> {
        let mut left = match self.field.place(rectangle, &mut self.parts) {
            Placed::Outside => return None,
            Placed::Inside => rectangle.to_vec(),
            Placed::Cut => only(&self.parts)?,
        };
        for (opening, _) in self.openings {
            match without(&left, opening, 0.0, &mut self.parts) {
                Placed::Outside => return None,
                Placed::Inside => {}
                Placed::Cut => left = only(&self.parts)?,
            }
        }
        Some(left)
    }

    /// What neighbours keep beside a rectangle, `None` for one that keeps nothing. No answer where one of them would be small or fall
    /// apart.
    fn kept_beside(
        &mut self,
        bits: &[Bit],
        bit_idx: usize,
        rectangle: &[PlanPoint; 4],
        nearby: &Nearby,
        sizes: &Sizes,
    ) -> Option<Vec<(usize, Option<Bit>)>> {
        let mut kept = Vec::new();
        // A joined bit may reach beyond the squares next to where it lay at first.
        for other_idx in nearby.around(middle(rectangle), 2) {
            let Some(other) = bits.get(other_idx).filter(|_| other_idx != bit_idx) else {
                continue;
            };
            if other.outline.is_empty() {
                continue;
            }
            match without(&other.outline, rectangle, 0.0, &mut self.parts) {
                Placed::Inside => {}
                Placed::Outside => kept.push((other_idx, None)),
                Placed::Cut => {
                    let outline = only(&self.parts)?;
                    let extent = Extent::of(&outline, other.along);
                    if extent.is_small(sizes) {
                        return None;
                    }
                    let bit = Bit {
                        outline,
                        extent,
                        how: How::Joined,
                        ..*other
                    };
                    kept.push((other_idx, Some(bit)));
                }
            }
        }
        Some(kept)
    }
}

/// The one outline that there is.
fn only(parts: &Parts) -> Option<Vec<PlanPoint>> {
    let mut outlines = parts.iter();
    let outline = outlines.next()?.to_vec();
    outlines.next().is_none().then_some(outline)
}

pub(super) fn middle(outline: &[PlanPoint]) -> PlanPoint {
    Bounds::of(outline).map_or_else(PlanPoint::default, |bounds| PlanPoint {
        right_m: 0.5 * (bounds.left_m + bounds.right_m),
        away_m: 0.5 * (bounds.near_m + bounds.far_m),
    })
}

/// Bits by where they lay at first, in squares so large that neighbours lie in the same or in the next.
struct Nearby {
    square_m: f64,
    all: Vec<(i64, i64, usize)>,
}

impl Nearby {
    fn of(bits: &[Bit], sizes: &Sizes) -> Self {
        let mut nearby = Self {
            square_m: sizes.length_m + sizes.width_m + sizes.pattern_joint_m,
            all: Vec::with_capacity(bits.len()),
        };
        for (bit_idx, bit) in bits.iter().enumerate() {
            let (away, right) = nearby.square(middle(&bit.outline));
            nearby.all.push((away, right, bit_idx));
        }
        nearby.all.sort_unstable();
        nearby
    }

    /// Bits in the square of a spot and in those around it, so many rings of them.
    fn around(&self, spot: PlanPoint, n_rings: i64) -> impl Iterator<Item = usize> {
        let (away, right) = self.square(spot);
        (away - n_rings..=away + n_rings).flat_map(move |away| {
            let from = self
                .all
                .partition_point(|entry| (entry.0, entry.1) < (away, right - n_rings));
            self.all
                .get(from..)
                .unwrap_or_default()
                .iter()
                .take_while(move |entry| (entry.0, entry.1) <= (away, right + n_rings))
                .map(|entry| entry.2)
        })
    }

    fn square(&self, spot: PlanPoint) -> (i64, i64) {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a cast from a float saturates, and no walk is that long"
        )]
        let number = |m: f64| libm::floor(m / self.square_m) as i64;
        (number(spot.away_m), number(spot.right_m))
    }
}
