use super::*;
use crate::findings::Findings;
use crate::line::tests::{site as plain_site, straight};
use crate::quantity::{feet, inches};
use num_rational::Ratio;
use proptest::prelude::*;

type Exact = Ratio<i64>;

/// A brick and a wish in 64ths of an inch.
#[derive(Clone, Copy, Debug)]
struct Asked {
    length: i64,
    width: i64,
    thickness: i64,
    joint: i64,
    least: i64,
    widest: i64,
    target: i64,
    tolerance: i64,
    across: bool,
}

impl Asked {
    fn site(self) -> Site {
        let mut site = plain_site(vec![straight(feet(20.0))]);
        site.brick.length = Some(sixty_fourths(self.length));
        site.brick.width = Some(sixty_fourths(self.width));
        site.brick.thickness = Some(sixty_fourths(self.thickness));
        site.brick.joint = Some(sixty_fourths(self.joint));
        site.lay.least_joint = Some(sixty_fourths(self.least));
        site.lay.widest_joint = Some(sixty_fourths(self.widest));
        site.lay.target_width = Some(sixty_fourths(self.target));
        site.lay.width_tolerance = Some(sixty_fourths(self.tolerance));
        if self.across {
            site.lay.courses = CourseWay::Across;
        }
        site
    }

    fn unit(self) -> i64 {
        if self.across { self.length } else { self.width }
    }

    /// Twice the edge brick, in the order of [`STANDS`]: sailor T, soldier W, header L, stretcher W, rowlock L.
    fn edges(self) -> [i64; 5] {
        [
            self.thickness,
            self.width,
            self.length,
            self.width,
            self.length,
        ]
        .map(|across| 2 * across)
    }

    /// Every (way to stand, courses) that meets the target with some joint in whole 64ths, and the joint of them nearest to the one
    /// that is aimed at, by counting all of them.
    fn counted(self) -> Vec<(usize, i64, i64)> {
        let mut found = Vec::new();
        for (way, edges) in self.edges().into_iter().enumerate() {
            for n in 1..=63 {
                let meets = |joint: &i64| {
                    let over = n * self.unit() + (n + 1) * joint + edges;
                    (over - self.target).abs() <= self.tolerance
                };
                let best = (self.least..=self.widest)
                    .filter(meets)
                    .min_by_key(|joint| (joint - self.joint).abs());
                found.extend(best.map(|joint| (way, n, joint)));
            }
        }
        found
    }
}

fn sixty_fourths(number: i64) -> Length {
    inches(number as f64 / 64.0)
}

fn fitted(site: &Site) -> Fit {
    let run = crate::line::line(site, &mut Findings::default())
        .unwrap()
        .run;
    fit(site, &LayWishes::of(site), &run).unwrap()
}

fn in_64ths(length: Length) -> f64 {
    in_metres(length) / 0.0254 * 64.0
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "64ths of a few hundred inches"
)]
fn whole(parts: f64) -> i64 {
    parts.round() as i64
}

/// The rounding of a width, a nanometre, in 64ths of an inch, and the bits of the sum.
const NANOMETRE: f64 = 1e-9 / 0.0254 * 64.0 + 1e-9;

/// Offers are those that counting finds, each with its joint.
#[track_caller]
fn as_counted(asked: Asked) {
    let fit = fitted(&asked.site());
    let mut offered: Vec<(usize, i64, i64)> = fit
        .offers
        .iter()
        .map(|offer| {
            let way = STANDS
                .iter()
                .position(|stands| *stands == offer.stands)
                .unwrap();
            let joint = in_64ths(offer.joint);
            assert!((joint - joint.round()).abs() < 1e-6, "{offer:?}");
            (way, i64::from(offer.n_courses), whole(joint))
        })
        .collect();
    offered.sort_unstable();
    assert_eq!(offered, asked.counted(), "{asked:?}");
    for offer in &fit.offers {
        let off = in_64ths(offer.off).abs();
        assert!(off <= asked.tolerance as f64 + NANOMETRE, "{offer:?}");
    }
    if offered.is_empty() {
        nothing_lies_nearer(asked, &fit);
    } else {
        assert_eq!((fit.narrower, fit.wider), (None, None));
    }
}

/// Narrower and wider are the nearest of all, by counting.
fn nothing_lies_nearer(asked: Asked, fit: &Fit) {
    let all = || {
        asked.edges().into_iter().flat_map(move |edges| {
            (1..=400_i64).flat_map(move |n| {
                [asked.least, asked.widest].map(|joint| n * asked.unit() + (n + 1) * joint + edges)
            })
        })
    };
    let below = all().filter(|over| *over < asked.target).max();
    let above = all().filter(|over| *over > asked.target).min();
    let over = |offer: Option<FitOffer>| offer.map(|offer| whole(in_64ths(offer.over)));
    assert_eq!(
        (over(fit.narrower), over(fit.wider)),
        (below, above),
        "{asked:?}"
    );
}

#[test]
fn sizes_of_row_b24() {
    // BIA TN 29, table 1: 4 x 8, 3 5/8 x 7 5/8, 3 1/2 x 7 1/2, 7 5/8 x 7 5/8, 8 x 8 in; 1 1/4, 2 1/4, 2 5/8, 2 3/4 in high.
    for (length, width) in [(512, 256), (488, 232), (480, 224), (488, 488), (512, 512)] {
        for thickness in [80, 144, 168, 176] {
            for across in [false, true] {
                for target_in in 24..72 {
                    as_counted(Asked {
                        length,
                        width,
                        thickness,
                        joint: 8,
                        least: 4,
                        widest: 12,
                        target: target_in * 64,
                        tolerance: 16,
                        across,
                    });
                }
            }
        }
    }
}

proptest! {
    #[test]
    fn any_brick_and_any_wish(
        sides in (128..700_i64, 64..500_i64, 32..300_i64),
        joints in (0..8_i64, 0..12_i64, 0..12_i64),
        target in 1000..4000_i64,
        tolerance in 0..40_i64,
        across in any::<bool>(),
    ) {
        let (length, width, thickness) = sides;
        let least = joints.0;
        let joint = least + joints.1;
        let asked = Asked {
            length, width, thickness, joint, least,
            widest: joint.max(1) + joints.2,
            target, tolerance, across,
        };
        // Counting goes to 63 courses, and so far steps of 64ths do not jump over a tolerance of half an inch and more.
        prop_assume!(63 * (asked.unit() + least) > target + tolerance);
        // With a small tolerance a joint between two 64ths may meet what no whole 64th does: those are checked by value alone.
        if tolerance >= 32 {
            as_counted(asked);
        } else {
            let fit = fitted(&asked.site());
            let found: Vec<(usize, i64)> = fit.offers.iter().map(|offer| (
                STANDS.iter().position(|stands| *stands == offer.stands).unwrap(),
                i64::from(offer.n_courses),
            )).collect();
            for (way, n, _) in asked.counted() {
                prop_assert!(found.contains(&(way, n)), "{asked:?} misses {way} {n}");
            }
            for offer in &fit.offers {
                prop_assert!(in_64ths(offer.off).abs() <= tolerance as f64 + NANOMETRE);
                let joint = in_64ths(offer.joint);
                prop_assert!(joint >= least as f64 - 1e-6 && joint <= asked.widest as f64 + 1e-6);
            }
        }
    }
}

#[test]
fn by_hand_with_exact_fractions() {
    // Brick 8 x 4 x 2 1/4 in, joint 1/8, sailors, 4 ft over the edges. Clear 48 − 2 × 2 1/4 = 43 1/2 in.
    // n = 10: 10 × 4 + 11 j = 43 1/2 at j = 7/22 in, too wide; at most 3/16: 42 1/16 in, 1 7/16 short.
    // n = 11: 11 × 4 = 44 in is already over; at the least, 1/16: 44 3/4 in, 1 1/4 over. So no sailor meets 1/2 in.
    let exact = |n: i64, joint: Exact, edge: Exact| {
        Exact::from(n * 4) + joint * Exact::from(n + 1) + edge * Exact::from(2)
    };
    let mut site = plain_site(vec![straight(feet(20.0))]);
    site.lay.target_width = Some(inches(48.0));
    let found = fitted(&site);
    assert!(
        found
            .offers
            .iter()
            .all(|offer| offer.stands != EdgeStands::Sailor)
    );
    // Headers: 48 − 16 = 32 in; n = 7: 28 + 8 j at 1/8 = 29; no. n = 8: 32 + 9/16 = 32 9/16, off 9/16, over the tolerance even at
    // the least joint. Soldiers and stretchers: 40 in; n = 9: 36 + 10 j at 3/16 = 37 7/8; n = 10: 40 + 11/16: off 11/16. None.
    assert!(found.offers.is_empty());
    // The nearest narrower is the sailor's 10 courses at 3/16 in: 46 9/16 in; the nearest wider, headers with 8 at 1/16: 48 9/16 in.
    let narrower = exact(10, Exact::new(3, 16), Exact::new(9, 4));
    assert_eq!(narrower, Exact::new(745, 16));
    let found_narrower = found.narrower.unwrap();
    assert_eq!(
        (found_narrower.stands, found_narrower.n_courses),
        (EdgeStands::Sailor, 10)
    );
    assert!((in_64ths(found_narrower.over) - 745.0 * 4.0).abs() < 1e-6);
    let wider = exact(8, Exact::new(1, 16), Exact::from(8));
    assert_eq!(wider, Exact::new(777, 16));
    let found_wider = found.wider.unwrap();
    assert_eq!(found_wider.n_courses, 8);
    assert!((in_64ths(found_wider.over) - 777.0 * 4.0).abs() < 1e-6);
    // Exactly 48 in with sailors: 10 whole at 1/8 take 41 3/8 in; left 43 1/2 − 41 3/8 − 1/8 = 2 in, half a brick: one strip.
    let cut = found.cut.unwrap();
    assert_eq!((cut.n_whole, cut.n_ripped), (10, 1));
    assert!((in_64ths(cut.to) - 128.0).abs() < 1e-6);
}

#[test]
fn a_sliver_is_shared_by_two_courses() {
    // 42 3/4 in clear: 10 whole at 1/8 take 41 3/8 in; left 1 1/4 in, under a third of 4 in. Two strips of (4 + 1 1/4) ÷ 2 = 2 5/8 in.
    let mut site = plain_site(vec![straight(feet(20.0))]);
    site.lay.target_width = Some(inches(42.75 + 4.5));
    let cut = fitted(&site).cut.unwrap();
    assert_eq!((cut.n_whole, cut.n_ripped), (9, 2));
    assert!((in_64ths(cut.to) - 2.625 * 64.0).abs() < 1e-6);
    // 9 × 4 + 2 × 2 5/8 + 12 joints of 1/8 = 42 3/4 in.
    assert!((9.0 * 4.0 + 2.0 * 2.625 + 12.0 * 0.125 - 42.75_f64).abs() < 1e-12);
}

#[test]
fn the_best_keeps_the_joint_then_the_width_then_the_edge() {
    // 41 3/8 in clear and sailors: 45 7/8 in, ten courses at exactly 1/8 in.
    let mut site = plain_site(vec![straight(feet(20.0))]);
    site.lay.target_width = Some(inches(45.875));
    let found = fitted(&site);
    let best = found.offers[0];
    assert_eq!((best.stands, best.n_courses), (EdgeStands::Sailor, 10));
    assert!(in_64ths(best.off).abs() < 1e-6);
    assert_eq!(found.cut, None);
    assert!((in_64ths(best.clear) - 41.375 * 64.0).abs() < 1e-6);
    // A soldier and a stretcher are both 4 in across: the one that stands now comes first.
    site.lay.target_width = Some(inches(41.375 + 8.0));
    for now in [EdgeStands::Soldier, EdgeStands::Stretcher] {
        site.edge.stands = now;
        assert_eq!(fitted(&site).offers[0].stands, now);
    }
}

#[test]
fn without_a_wish_the_walk_as_it_is_stands_for_it() {
    let site = plain_site(vec![straight(feet(20.0))]);
    let found = fitted(&site);
    assert!(!found.is_asked);
    // 48 in clear and two sailors of 2 1/4 in.
    assert!((in_64ths(found.target) - 52.5 * 64.0).abs() < 1e-6);
    assert_eq!(found.far_end, None);
    // 48 in: 11 courses at (48 − 44) ÷ 12 = 1/3 in are too wide, 12 too many: 11 at 1/8 take 45 1/2, left 2 3/8 in.
    assert_eq!(found.door.n_courses, 11);
    let cut = found.door.cut.unwrap();
    assert!((in_64ths(cut.to) - 2.375 * 64.0).abs() < 1e-6);
}

#[test]
fn a_flared_walk_is_fitted_at_both_ends() {
    let mut leg = straight(feet(20.0));
    leg.width_at_end = Some(inches(53.75));
    let mut site = plain_site(vec![leg]);
    site.line.width = Some(inches(41.375));
    let found = fitted(&site);
    assert_eq!((found.door.n_courses, found.door.cut), (10, None));
    // 13 courses at 1/8 in: 13 × 4 + 14 ÷ 8 = 53 3/4 in.
    let far = found.far_end.unwrap();
    assert_eq!((far.n_courses, far.cut), (13, None));
    let gained: Vec<u32> = found.runs_out.iter().map(|out| out.n_after).collect();
    assert_eq!(gained, [11, 12]);
}

#[test]
fn herringbone_is_clipped_at_any_width() {
    let mut site = plain_site(vec![straight(feet(20.0))]);
    site.lay.bond = Bond::Herringbone45;
    let run = crate::line::line(&site, &mut Findings::default())
        .unwrap()
        .run;
    assert_eq!(fit(&site, &LayWishes::of(&site), &run), None);
    // Basket weave goes by squares as wide as the brick is long, whichever way courses run.
    site.lay.bond = Bond::BasketTwoOnTwo;
    assert_eq!(fitted(&site).unit, inches(8.0));
}

#[test]
fn a_walk_narrower_than_the_brick_fits_nothing_and_cuts_what_it_can() {
    let mut site = plain_site(vec![straight(feet(20.0))]);
    site.line.width = Some(inches(12.0));
    site.brick.width = Some(inches(13.0));
    let found = fitted(&site);
    assert_eq!(found.door.n_courses, 0);
    // 12 − 2 × 1/8 = 11 3/4 in of one course.
    let cut = found.door.cut.unwrap();
    assert_eq!((cut.n_whole, cut.n_ripped), (0, 1));
    assert!((in_64ths(cut.to) - 11.75 * 64.0).abs() < 1e-6);
}
