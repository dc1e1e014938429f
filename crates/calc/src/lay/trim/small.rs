//! Pieces smaller than the least: joined to a neighbour, left to the joint, or the joint beside them moved.

use super::super::clip::{Bounds, Parts, common};
use super::super::pieces::PlanPoint;
use super::extent::{Extent, reach_m, thickness_m};
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
    /// The neighbour is cut shorter by so much, and the piece is as much longer.
    JointMoved { by_m: f64 },
    /// Nothing helped.
    Kept { extent: Extent },
}

/// A neighbour faces a small piece along this share of the piece's side at least, so that the joined piece does not break there.
const LEAST_SHARED: f64 = 0.6;

/// Sees to all small bits; what is left of `bits` are the pieces. In order of rows, so that the same walk gives the same pieces.
pub(super) fn see_to(bits: &mut Vec<Bit>, sizes: &Sizes) -> Vec<SeenTo> {
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
    let mut parts = Parts::default();
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
            joined(bits, bit_idx, &neighbours, sizes, &mut parts)
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
        } else if let Some(moved) = moved(bits, bit_idx, &neighbours, sizes, &mut parts) {
            put(bits, bit_idx, moved.longer);
            put(bits, moved.other_idx, moved.shorter);
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
    let mut neighbours: Vec<(usize, Facing)> = nearby
        .around(middle(&bit.outline))
        .filter(|&other_idx| other_idx != bit_idx)
        .filter_map(|other_idx| {
            let other = bits.get(other_idx)?;
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
    bits: &[Bit],
    bit_idx: usize,
    neighbours: &[(usize, Facing)],
    sizes: &Sizes,
    parts: &mut Parts,
) -> Option<(Bit, usize)> {
    let bit = bits.get(bit_idx)?;
    neighbours.iter().find_map(|(other_idx, facing)| {
        let other = bits.get(*other_idx)?;
        if facing.shared_m() < LEAST_SHARED * facing.side_m {
            return None;
        }
        let joined = one_of(bit, &other.outline, other, facing, sizes, parts)?;
        Some((joined, *other_idx))
    })
}

/// A bit and an outline beside it as one, where it fits in one brick, laid as either of the two is. Called after the larger of the two.
fn one_of(
    bit: &Bit,
    outline: &[PlanPoint],
    other: &Bit,
    facing: &Facing,
    sizes: &Sizes,
    parts: &mut Parts,
) -> Option<Bit> {
    parts.take(&facing.joined(&bit.outline, outline));
    let joined = only(parts)?;
    let row = if other.area_m2() > bit.area_m2() {
        other.row
    } else {
        bit.row
    };
    [other.along, bit.along].into_iter().find_map(|along| {
        let extent = Extent::of(&joined, along);
        extent.fits(sizes).then(|| Bit {
            outline: joined.clone(),
            along,
            row,
            extent,
            how: How::Joined,
        })
    })
}

/// A joint moved into the neighbour.
struct Moved {
    longer: Bit,
    shorter: Bit,
    other_idx: usize,
    by_m: f64,
}

/// The bit made longer at the cost of a neighbour, so that neither is small: by as little as does.
fn moved(
    bits: &[Bit],
    bit_idx: usize,
    neighbours: &[(usize, Facing)],
    sizes: &Sizes,
    parts: &mut Parts,
) -> Option<Moved> {
    let bit = bits.get(bit_idx)?;
    neighbours.iter().find_map(|(other_idx, facing)| {
        let other = bits.get(*other_idx)?;
        if facing.shared_m() < LEAST_SHARED * facing.side_m {
            return None;
        }
        let across_m = reach_m(&bit.outline, facing.towards_other()) + facing.gap_m;
        let deep_m = reach_m(&other.outline, facing.towards_other());
        let mut candidates = [
            sizes.least_width_m - across_m,
            sizes.least_length_m - across_m,
            0.5 * (deep_m - sizes.joint_m),
            sizes.least_width_m,
        ];
        candidates.sort_by(f64::total_cmp);
        candidates
            .into_iter()
            .filter(|by_m| *by_m > sizes.joint_m && *by_m + sizes.joint_m < deep_m)
            .find_map(|by_m| {
                let (longer, shorter) = moved_by(bit, other, facing, by_m, sizes, parts)?;
                let is_good = !longer.extent.is_small(sizes) && !shorter.extent.is_small(sizes);
                is_good.then_some(Moved {
                    longer,
                    shorter,
                    other_idx: *other_idx,
                    by_m,
                })
            })
    })
}

/// The bit with so much of its neighbour, and the rest of that beyond a joint.
fn moved_by(
    bit: &Bit,
    other: &Bit,
    facing: &Facing,
    by_m: f64,
    sizes: &Sizes,
    parts: &mut Parts,
) -> Option<(Bit, Bit)> {
    // From half a joint before the neighbour, where nothing of it lies.
    let strip = |from_m: f64, to_m: f64| {
        let reach_m = 2.0 * (sizes.length_m + sizes.width_m);
        let towards = facing.towards_other();
        [
            (-reach_m, to_m),
            (-reach_m, from_m),
            (reach_m, from_m),
            (reach_m, to_m),
        ]
        .map(|(along_m, off_m)| PlanPoint {
            right_m: facing.start.right_m + facing.along.0 * along_m + towards.0 * off_m,
            away_m: facing.start.away_m + facing.along.1 * along_m + towards.1 * off_m,
        })
    };
    let cut_m = facing.gap_m + by_m;
    let beyond_m = 4.0 * (sizes.length_m + sizes.width_m);
    common(&other.outline, &strip(-beyond_m, cut_m), parts);
    let taken = only(parts)?;
    common(
        &other.outline,
        &strip(cut_m + sizes.joint_m, beyond_m),
        parts,
    );
    let rest = only(parts)?;
    let facing = Facing::between(&bit.outline, &taken, facing.gap_m + 1e-6)?;
    let longer = one_of(bit, &taken, bit, &facing, sizes, parts).or_else(|| {
        let turned = Bit {
            along: other.along,
            ..bit.clone()
        };
        one_of(&turned, &taken, &turned, &facing, sizes, parts)
    })?;
    let extent = Extent::of(&rest, other.along);
    let shorter = Bit {
        outline: rest,
        extent,
        how: How::Joined,
        ..*other
    };
    Some((longer, shorter))
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

/// Bits by where they lie, in squares that no brick is longer than.
struct Nearby {
    square_m: f64,
    all: Vec<(i64, i64, usize)>,
}

impl Nearby {
    fn of(bits: &[Bit], sizes: &Sizes) -> Self {
        let mut nearby = Self {
            square_m: 1.5 * (sizes.length_m + sizes.width_m + sizes.pattern_joint_m),
            all: Vec::with_capacity(bits.len()),
        };
        for (bit_idx, bit) in bits.iter().enumerate() {
            let (away, right) = nearby.square(middle(&bit.outline));
            nearby.all.push((away, right, bit_idx));
        }
        nearby.all.sort_unstable();
        nearby
    }

    /// Bits in the square of a spot and in those around it.
    fn around(&self, spot: PlanPoint) -> impl Iterator<Item = usize> {
        let (away, right) = self.square(spot);
        (away - 1..=away + 1).flat_map(move |away| {
            let from = self
                .all
                .partition_point(|entry| (entry.0, entry.1) < (away, right - 1));
            self.all
                .get(from..)
                .unwrap_or_default()
                .iter()
                .take_while(move |entry| (entry.0, entry.1) <= (away, right + 1))
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
