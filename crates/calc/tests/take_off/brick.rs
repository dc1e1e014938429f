//! Brick bought, laid again, left over and taken away.

use crate::sites::{plain, straight};
use crate::walk::{bulk, check, cubic_feet, need, needs, pieces, pounds, square_feet, work};
use underbrick_calc::measure::amount::{Amount, AmountUnit};
use underbrick_calc::order::{Figure, Item, NeedAmount, Stage, Way, WorkAmount};
use underbrick_calc::quantity::{feet, inches};
use underbrick_calc::site::{Bond, Brick, Site};

/// So many feet by so many, stack bond of 4 x 8 in without joint, and edges of a second size, so that the first is the field alone.
fn tight(feet_wide: f64, feet_long: f64) -> Site {
    let mut site = plain();
    site.line.legs = vec![straight(feet(feet_long))];
    site.line.width = Some(feet(feet_wide));
    site.brick.joint = Some(inches(0.0));
    site.lay.least_joint = Some(inches(0.0));
    site.lay.bond = Bond::Stack;
    site.lay.edge_of_second = true;
    site.lay.second_brick = Some(Brick {
        length: Some(inches(12.0)),
        width: Some(inches(4.0)),
        thickness: Some(inches(2.25)),
        joint: None,
    });
    site
}

#[test]
fn brick_of_two_articles() {
    // Row B21 (doityourself.com): 10 x 20 ft of 4 x 8 in take 900. Row B27 (hunker.com/13401159): 10 x 12 ft, 540.
    for (wide, long, n) in [(10.0, 20.0, 900), (10.0, 12.0, 540)] {
        let needs = needs(&tight(wide, long), Way::NewBrick);
        assert_eq!(pieces(&needs, Item::Brick), n);
        // Header edges of 12 x 4 in, 4 in along: both sides.
        assert_eq!(
            f64::from(pieces(&needs, Item::SecondBrick)),
            2.0 * long * 3.0
        );
        let Some(NeedAmount::Pieces {
            each_covers: Some(covers),
            each_weighs: Some(weighs),
            ..
        }) = need(&needs, Item::Brick).amount
        else {
            panic!("{:?}", need(&needs, Item::Brick));
        };
        check(square_feet(covers), 32.0 / 144.0, 1e-12);
        // Row B23: 130 lb/ft³ x 0.1875 ft = 24.4 lb/ft² for brick 2 1/4 in thick.
        check(pounds(weighs) / square_feet(covers), 24.375, 1e-9);
        assert!((23.0..25.0).contains(&(pounds(weighs) / square_feet(covers))));
    }
}

#[test]
fn what_was_counted_is_laid_again_and_the_rest_bought() {
    let mut site = tight(10.0, 12.0);
    for (counted, bought, reused, over) in [
        (500, Some(40), 500, 0),
        (540, None, 540, 0),
        (600, None, 540, 60),
    ] {
        site.lay.n_on_site = Some(counted);
        for way in [Way::Relay, Way::NewBase] {
            let needs = needs(&site, way);
            let brick = needs.of(Item::Brick).map(|need| need.amount);
            let n = brick.flatten().map(|amount| match amount {
                NeedAmount::Pieces { n, .. } => n,
                other => panic!("{other:?}"),
            });
            assert_eq!(n, bought, "{way:?}, {counted} counted");
            assert_eq!((needs.n_reused, needs.n_over), (Some(reused), over));
            // About 540 lie in the old walk: what is not whole is taken away; 8 x 4 x 2 1/4 in = 72 in³ = 1/24 ft³ each.
            let broken = 540_u32.saturating_sub(counted);
            match needs.of(Item::OldBrick) {
                Some(_) => {
                    let (in_place, ..) = bulk(&needs, Item::OldBrick);
                    check(cubic_feet(in_place), f64::from(broken) / 24.0, 1e-9);
                }
                None => assert_eq!(broken, 0),
            }
        }
        let new = needs(&site, Way::NewBrick);
        assert_eq!(pieces(&new, Item::Brick), 540);
        assert_eq!((new.n_reused, new.n_over), (Some(0), 0));
    }
}

#[test]
fn a_loss_is_bought_and_taken_away() {
    // 540 lifted less 10 % leave 486: 54 bought, 54 taken away, 54 x 72 in³ x 130 lb/ft³ = 54 ÷ 24 x 130 = 292.5 lb.
    let mut site = tight(10.0, 12.0);
    site.lay.loss = Some(Amount::new(10.0, AmountUnit::Percent).unwrap());
    let needs = needs(&site, Way::NewBase);
    assert_eq!(pieces(&needs, Item::Brick), 54);
    assert_eq!(needs.n_reused, Some(486));
    let (_, _, mass) = bulk(&needs, Item::OldBrick);
    check(pounds(mass), 292.5, 1e-6);
}

#[test]
fn without_count_or_loss_it_is_not_known_and_not_zero() {
    let site = tight(10.0, 12.0);
    for way in [Way::Relay, Way::NewBase] {
        let needs = needs(&site, way);
        assert_eq!(needs.n_reused, None);
        for item in [Item::Brick, Item::OldBrick] {
            let need = need(&needs, item);
            assert!(need.amount.is_none() && need.is_least, "{need:?}");
            let last = need.steps.last().unwrap();
            assert_eq!(
                last.figure,
                Figure::Words(
                    "how many whole bricks there are: count them or give a loss".to_owned()
                )
            );
        }
    }
}

#[test]
fn a_walk_of_whole_brick_has_nothing_to_saw() {
    let needs = needs(&tight(10.0, 12.0), Way::NewBrick);
    assert!(needs.work.iter().all(|work| work.stage != Stage::Cut));
    // 12 ft 4 in is 18 bricks and a half, more than joints of 3/16 in take up: a half in each of 30 courses, and none in the edges.
    let needs = self::needs(&tight(10.0, 12.0 + 4.0 / 12.0), Way::NewBrick);
    let WorkAmount::Pieces(n_cut) = work(&needs, Stage::Cut) else {
        panic!("{:?}", needs.work);
    };
    assert_eq!(n_cut, 30);
    let cut = needs
        .work
        .iter()
        .find(|work| work.stage == Stage::Cut)
        .unwrap();
    assert_eq!(cut.from.len(), usize::try_from(n_cut).unwrap());
}

#[test]
fn more_pieces_than_can_be_laid_out_are_not_none() {
    let mut site = tight(10.0, 12.0);
    site.brick.length = Some(inches(3.0));
    site.brick.width = Some(inches(1.5));
    site.line.legs = vec![straight(feet(900.0))];
    site.line.width = Some(feet(19.0));
    let needs = needs(&site, Way::NewBrick);
    let brick = need(&needs, Item::Brick);
    assert!(brick.amount.is_none(), "{brick:?}");
    assert!(need(&needs, Item::Jointing).amount.is_none());
}
