//! Edge bricks laid one by one are as many as the bed counts.

use crate::sites::{catalogue, curve, plain, straight};
use proptest::prelude::*;
use underbrick_calc::compute;
use underbrick_calc::lay::{LayWishes, Part, edges};
use underbrick_calc::quantity::{inches, metres};
use underbrick_calc::site::{EdgeStands, Hand, Leg};

const STANDS: [EdgeStands; 5] = [
    EdgeStands::Sailor,
    EdgeStands::Soldier,
    EdgeStands::Header,
    EdgeStands::Stretcher,
    EdgeStands::Rowlock,
];

/// Laid and counted, left and right.
fn counts(legs: Vec<Leg>, stands: EdgeStands) -> [(u32, u32); 2] {
    let mut site = plain();
    site.line.legs = legs;
    site.edge.stands = stands;
    let results = compute(&site, &catalogue());
    let (run, edge) = (results.line.unwrap().run, results.bed.unwrap().edge);
    let laid = edges(&run, &LayWishes::of(&site));
    let count = |hand| {
        let of_side = |part| part == Part::Edge(hand);
        laid.pieces
            .all()
            .iter()
            .filter(|piece| of_side(piece.part))
            .fold(0_u32, |n, _| n + 1)
    };
    [
        (count(Hand::Left), edge.left.n_bricks),
        (count(Hand::Right), edge.right.n_bricks),
    ]
}

#[test]
fn thirty_feet_of_sailors() {
    // 360 in and a joint ÷ 4 1/8 in = 87.3: 88.
    let [left, right] = counts(vec![straight(inches(360.0))], EdgeStands::Sailor);
    assert_eq!((left, right), ((88, 88), (88, 88)));
}

proptest! {
    #[test]
    fn straights_agree_with_the_count(length_m in 0.6..30.0_f64, which in 0..5_usize) {
        for (laid, counted) in counts(vec![straight(metres(length_m))], STANDS[which]) {
            prop_assert_eq!(laid, counted);
        }
    }

    /// On a curve the count goes by the pitch along the face that is tighter, the laying by chords: they differ by a few in a hundred. On
    /// tighter ones stretchers are laid as halves, which the count does not know.
    #[test]
    fn curves_agree_nearly(radius_m in 3.0..20.0_f64, turn_rad in 0.3..1.5_f64, which in 0..5_usize, is_left in any::<bool>()) {
        let hand = if is_left { Hand::Left } else { Hand::Right };
        let legs = vec![straight(metres(1.0)), curve(radius_m, turn_rad, hand), straight(metres(1.0))];
        for (laid, counted) in counts(legs, STANDS[which]) {
            prop_assert!(laid.abs_diff(counted) <= 2 + counted / 50, "{laid} laid, {counted} counted");
        }
    }
}
