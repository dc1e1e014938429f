//! From how many whole bricks the cut pieces come, when offcuts are used again.

use std::collections::BTreeMap;

use crate::quantity::{Length, in_metres};

/// Bricks that are sawn up for pieces.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stock {
    /// Bricks that are needed.
    pub n_bricks: u32,
    /// No way of cutting needs fewer.
    pub lower_bound: u32,
    /// What each brick is sawn into; bricks that are sawn alike stand together.
    pub patterns: Vec<Pattern>,
}

/// What a brick is sawn into.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pattern {
    /// Which sizes come out of it, longest first, by their index.
    pub sizes: Vec<usize>,
    /// Bricks that are sawn so.
    pub n_bricks: u32,
}

/// So many pieces of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// What the piece needs along the brick.
    pub length: Length,
    /// How many.
    pub n_pieces: u32,
}

/// Sizes are compared in whole nanometres: a sixty-fourth of an inch is 396,875 of them, so that two halves and a joint are a brick exactly.
const NANOMETRES_PER_METRE: f64 = 1e9;
/// What rounding to nanometres may take from a brick: a thousandth of a millimetre.
const SLACK_NM: u64 = 1_000;

/// Saws `wanted` from bricks of `brick` length with a saw that takes `kerf` away. Pieces of one brick lie end to end; a piece longer than the
/// brick takes one by itself.
///
/// # Source
/// Best fit, longest piece first, a usual heuristic of cutting stock; the lower bound is by the dual feasible functions of S. P. Fekete and
/// J. Schepers, New classes of fast lower bounds for bin packing problems, Mathematical Programming 91 (2001), from memory, and tested
/// against an integer solver. The saw's cut is counted with each piece, and the brick is taken one cut longer, because the last cut
/// may fall beside it.
#[must_use]
pub fn saw(wanted: &[Wanted], brick: Length, kerf: Length) -> Stock {
    let kerf_nm = nanometres(kerf);
    let room_nm = nanometres(brick) + kerf_nm + SLACK_NM;
    let mut sizes: Vec<Size> = wanted
        .iter()
        .enumerate()
        .map(|(size_idx, each)| Size {
            size_idx,
            takes_nm: (nanometres(each.length) + kerf_nm).min(room_nm),
            n_pieces: each.n_pieces,
        })
        .filter(|size| size.n_pieces > 0)
        .collect();
    sizes.sort_by(|a, b| (b.takes_nm, a.size_idx).cmp(&(a.takes_nm, b.size_idx)));
    let bricks = best_fit(&sizes, room_nm);
    let n_bricks = u32::try_from(bricks.len()).unwrap_or(u32::MAX);
    Stock {
        n_bricks,
        lower_bound: lower_bound(&sizes, room_nm).min(n_bricks),
        patterns: patterns(bricks),
    }
}

#[derive(Clone, Copy)]
struct Size {
    size_idx: usize,
    takes_nm: u64,
    n_pieces: u32,
}

fn nanometres(length: Length) -> u64 {
    let nm = (in_metres(length) * NANOMETRES_PER_METRE).round();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative, and far below 2^63 after the clamp"
    )]
    let whole = nm.clamp(0.0, 1e15) as u64;
    whole
}

/// Each piece, longest first, goes into the brick where it leaves least.
fn best_fit(sizes: &[Size], room_nm: u64) -> Vec<Vec<usize>> {
    let mut bricks: Vec<Vec<usize>> = Vec::new();
    let mut by_rest: BTreeMap<u64, Vec<usize>> = BTreeMap::new();
    for size in sizes {
        for _ in 0..size.n_pieces {
            let fits = by_rest
                .range(size.takes_nm..)
                .next()
                .map(|(rest_nm, _)| *rest_nm);
            let (brick_idx, rest_nm) = match fits {
                Some(rest_nm) => (take_one(&mut by_rest, rest_nm), rest_nm),
                None => (None, room_nm),
            };
            let brick_idx = brick_idx.unwrap_or_else(|| {
                bricks.push(Vec::new());
                bricks.len() - 1
            });
            if let Some(brick) = bricks.get_mut(brick_idx) {
                brick.push(size.size_idx);
            }
            by_rest
                .entry(rest_nm.saturating_sub(size.takes_nm))
                .or_default()
                .push(brick_idx);
        }
    }
    bricks
}

fn take_one(by_rest: &mut BTreeMap<u64, Vec<usize>>, rest_nm: u64) -> Option<usize> {
    let bricks = by_rest.get_mut(&rest_nm)?;
    let brick_idx = bricks.pop();
    if bricks.is_empty() {
        by_rest.remove(&rest_nm);
    }
    brick_idx
}

/// Largest k of the step functions u(k).
const MOST_STEPS: u64 = 12;

/// Sizes are turned by dual feasible functions, whose sum over all pieces no way of cutting can beat: U(ε) rounds pieces over (brick − ε) up to
/// a brick and those under ε down to nothing, and u(k) counts how many (k + 1)ths of a brick a piece exceeds. u(2) knows that of pieces over a
/// third no more than two come out of a brick.
fn lower_bound(sizes: &[Size], room_nm: u64) -> u32 {
    let half_nm = room_nm / 2;
    let mut thresholds: Vec<u64> = sizes
        .iter()
        .map(|size| size.takes_nm)
        .filter(|takes_nm| *takes_nm <= half_nm)
        .chain([0])
        .collect();
    thresholds.dedup();
    // The longest stand first, so what U(ε) turns into bricks is a head of the sizes, and what it turns into nothing a tail.
    let cuts: Vec<(usize, usize)> = thresholds
        .iter()
        .map(|least_nm| {
            (
                sizes.partition_point(|size| size.takes_nm > room_nm - least_nm),
                sizes.partition_point(|size| size.takes_nm >= *least_nm),
            )
        })
        .collect();
    let best = std::iter::once(None)
        .chain((1..=MOST_STEPS).map(Some))
        .map(|k| bound(sizes, room_nm, &cuts, k))
        .max();
    u32::try_from(best.unwrap_or(0)).unwrap_or(u32::MAX)
}

/// The largest sum of u(k) of U(ε), in bricks, rounded up; `cuts` has for each ε how many sizes become bricks and how many stay more than
/// nothing. Without `k` it is that of U alone.
fn bound(sizes: &[Size], room_nm: u64, cuts: &[(usize, usize)], k: Option<u64>) -> u128 {
    // In shares of a brick times k. A brick is under 2^52 nm, so thirteen of them are far inside 64 bits.
    let whole = room_nm * k.unwrap_or(1);
    let share = |takes_nm: u64| match k {
        None => takes_nm,
        Some(k) if (takes_nm * (k + 1)).is_multiple_of(room_nm) => takes_nm * k,
        Some(k) => takes_nm * (k + 1) / room_nm * room_nm,
    };
    // Pieces and shares of the first sizes, for each number of sizes.
    let mut so_far = vec![(0_u64, 0_u128)];
    let (mut n_pieces, mut shares) = (0_u64, 0_u128);
    for size in sizes {
        n_pieces += u64::from(size.n_pieces);
        shares += u128::from(share(size.takes_nm)) * u128::from(size.n_pieces);
        so_far.push((n_pieces, shares));
    }
    let first = |n_sizes: usize| so_far.get(n_sizes).copied().unwrap_or_default();
    let sums = cuts.iter().map(|(n_bricks, n_counted)| {
        let ((n_whole, as_sawn), (_, counted)) = (first(*n_bricks), first(*n_counted));
        u128::from(whole) * u128::from(n_whole) + counted - as_sawn
    });
    sums.max().unwrap_or(0).div_ceil(u128::from(whole))
}

fn patterns(bricks: Vec<Vec<usize>>) -> Vec<Pattern> {
    let mut counted: BTreeMap<Vec<usize>, u32> = BTreeMap::new();
    for brick in bricks {
        let n_bricks = counted.entry(brick).or_default();
        *n_bricks = n_bricks.saturating_add(1);
    }
    let mut patterns: Vec<Pattern> = counted
        .into_iter()
        .map(|(sizes, n_bricks)| Pattern { sizes, n_bricks })
        .collect();
    patterns.sort_by(|a, b| {
        b.n_bricks
            .cmp(&a.n_bricks)
            .then_with(|| a.sizes.cmp(&b.sizes))
    });
    patterns
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{inches, millimetres};
    use microlp::{ComparisonOp, OptimizationDirection, Problem};
    use proptest::prelude::*;

    #[track_caller]
    fn check(lengths_in: &[(f64, u32)], n_bricks: u32, lower_bound: u32) {
        let wanted: Vec<Wanted> = lengths_in
            .iter()
            .map(|(length_in, n_pieces)| Wanted {
                length: inches(*length_in),
                n_pieces: *n_pieces,
            })
            .collect();
        let stock = saw(&wanted, inches(8.0), inches(0.125));
        assert_eq!(
            (stock.n_bricks, stock.lower_bound),
            (n_bricks, lower_bound),
            "{lengths_in:?}: {stock:?}"
        );
    }

    #[test]
    fn bricks_by_hand() {
        check(&[], 0, 0);
        check(&[(3.9375, 2)], 1, 1); // two halves and a kerf: 3 15/16 + 1/8 + 3 15/16 = 8 exactly
        check(&[(3.9375, 3)], 2, 2);
        check(&[(3.96, 2)], 2, 2); // 8.045 in does not come out of 8 in
        check(&[(5.0, 4)], 4, 4); // over a half: one to a brick, though four of them are 20 in of 32
        check(&[(5.0, 4), (2.875, 4)], 4, 4); // 5 + 1/8 + 2 7/8 = 8
        check(&[(2.5, 6)], 2, 2); // 3 x 2.5 + 2/8 = 7.75
        check(&[(2.0, 4)], 2, 2); // 4 x 2 + 3/8 is over 8 in
        check(&[(9.0, 1)], 1, 1); // longer than the brick: one by itself
    }

    /// Fewest bricks by an integer program over bricks and sizes: a piece of size s in brick b, brick b used or not.
    fn fewest(wanted: &[Wanted], brick_mm: f64, kerf_mm: f64, most: u32) -> u32 {
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let bricks: Vec<_> = (0..most)
            .map(|_| problem.add_integer_var(1.0, (0, 1)))
            .collect();
        let mut takes = vec![Vec::new(); bricks.len()];
        for each in wanted {
            let n_pieces = i32::try_from(each.n_pieces).unwrap();
            let of_size: Vec<_> = bricks
                .iter()
                .map(|_| problem.add_integer_var(0.0, (0, n_pieces)))
                .collect();
            let all: Vec<_> = of_size.iter().map(|var| (*var, 1.0)).collect();
            problem.add_constraint(all, ComparisonOp::Eq, f64::from(n_pieces));
            for (brick_idx, var) in of_size.into_iter().enumerate() {
                takes[brick_idx].push((var, in_metres(each.length) * 1000.0 + kerf_mm));
            }
        }
        for (brick, mut row) in bricks.iter().zip(takes) {
            row.push((*brick, -(brick_mm + kerf_mm)));
            problem.add_constraint(row, ComparisonOp::Le, 1e-6);
        }
        for pair in bricks.windows(2) {
            problem.add_constraint([(pair[0], 1.0), (pair[1], -1.0)], ComparisonOp::Ge, 0.0);
        }
        let fewest = problem
            .solve()
            .unwrap()
            .solution()
            .unwrap()
            .objective()
            .round();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a small count"
        )]
        let fewest = fewest as u32;
        fewest
    }

    /// The bound as it is defined, size by size and threshold by threshold.
    fn plain_bound(sizes: &[Size], room_nm: u64) -> u128 {
        let room = u128::from(room_nm);
        let mut best = 0;
        for least in std::iter::once(0).chain(sizes.iter().map(|size| u128::from(size.takes_nm))) {
            if least > room / 2 {
                continue;
            }
            let rounded = |size: &Size| match u128::from(size.takes_nm) {
                takes if takes > room - least => room,
                takes if takes < least => 0,
                takes => takes,
            };
            for k in 0..=12 {
                let share = |takes: u128| match k {
                    0 => takes,
                    k if (takes * (k + 1)).is_multiple_of(room) => takes * k,
                    k => takes * (k + 1) / room * room,
                };
                let sum: u128 = sizes
                    .iter()
                    .map(|size| share(rounded(size)) * u128::from(size.n_pieces))
                    .sum();
                best = best.max(sum.div_ceil(room * k.max(1)));
            }
        }
        best
    }

    proptest! {
        #[test]
        fn the_bound_is_that_of_its_definition(
            takes in proptest::collection::vec((1_u64..=120, 1_u32..50), 0..12),
        ) {
            // Of 120 many sizes are exact shares.
            let mut sizes: Vec<Size> = takes
                .iter()
                .map(|(takes_nm, n_pieces)| Size { size_idx: 0, takes_nm: *takes_nm, n_pieces: *n_pieces })
                .collect();
            sizes.sort_by_key(|size| std::cmp::Reverse(size.takes_nm));
            prop_assert_eq!(u128::from(lower_bound(&sizes, 120)), plain_bound(&sizes, 120));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]
        /// The exact optimum is that of the registry's integer solver microlp.
        #[test]
        fn between_the_bound_and_one_brick_over_the_optimum(
            sizes in proptest::collection::vec((60_u32..190, 1_u32..3), 1..4),
        ) {
            let wanted: Vec<Wanted> = sizes
                .iter()
                .map(|(length_mm, n_pieces)| Wanted {
                    length: millimetres(f64::from(*length_mm)),
                    n_pieces: *n_pieces,
                })
                .collect();
            let stock = saw(&wanted, millimetres(200.0), millimetres(3.0));
            let fewest = fewest(&wanted, 200.0, 3.0, stock.n_bricks);
            prop_assert!(stock.lower_bound <= fewest);
            prop_assert!(fewest <= stock.n_bricks && stock.n_bricks <= fewest + 1);
        }

        #[test]
        fn every_piece_is_sawn_once_and_no_brick_is_too_short(
            sizes in proptest::collection::vec((20_u32..200, 1_u32..40), 1..30),
            kerf_mm in 0_u32..6,
        ) {
            let wanted: Vec<Wanted> = sizes
                .iter()
                .map(|(length_mm, n_pieces)| Wanted {
                    length: millimetres(f64::from(*length_mm)),
                    n_pieces: *n_pieces,
                })
                .collect();
            let stock = saw(&wanted, millimetres(200.0), millimetres(f64::from(kerf_mm)));
            let mut sawn = vec![0_u32; wanted.len()];
            let mut n_bricks = 0;
            for pattern in &stock.patterns {
                n_bricks += pattern.n_bricks;
                let n_cuts = u32::try_from(pattern.sizes.len()).unwrap() - 1;
                let mut used_mm = n_cuts * kerf_mm;
                for size_idx in &pattern.sizes {
                    sawn[*size_idx] += pattern.n_bricks;
                    used_mm += sizes[*size_idx].0;
                }
                prop_assert!(used_mm <= 200, "{pattern:?}");
            }
            let asked: Vec<u32> = sizes.iter().map(|(_, n_pieces)| *n_pieces).collect();
            prop_assert_eq!(sawn, asked);
            prop_assert_eq!(n_bricks, stock.n_bricks);
            prop_assert!(stock.lower_bound <= stock.n_bricks);
        }
    }
}
