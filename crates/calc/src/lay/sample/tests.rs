use super::*;
use crate::lay::BrickSize;
use crate::lay::Standard;
use crate::lay::grade::Class;
use crate::line::tests::{site as plain_site, straight};
use crate::quantity::{feet, inches};
use crate::site::Brick;

/// A site with bricks of these sides in inches: (length, width, thickness).
fn sampled(bricks: &[(f64, f64, f64)]) -> Site {
    let mut site = plain_site(vec![straight(feet(20.0))]);
    site.brick = Brick {
        length: None,
        width: None,
        thickness: None,
        joint: None,
    };
    site.lay.sample = bricks
        .iter()
        .map(|&(length, width, thickness)| BrickReading {
            length: Some(inches(length)),
            width: Some(inches(width)),
            thickness: Some(inches(thickness)),
            of_second: false,
        })
        .collect();
    site
}

fn first(site: &Site) -> BrickSample {
    sample(site).first.unwrap()
}

#[track_caller]
fn is_in(got: Length, expected_in: f64) {
    let got_in = in_metres(got) / 0.0254;
    assert!(
        (got_in - expected_in).abs() < 1e-9,
        "{got_in} in, expected {expected_in} in"
    );
}

fn class_of(site: &Site, standard: Standard) -> Class {
    let found = first(site);
    found
        .classes
        .iter()
        .find(|class| class.standard == standard)
        .unwrap()
        .class
}

#[test]
fn mean_and_spread_by_hand() {
    // 8, 8 1/8, 7 7/8, 8 in: mean 8; squares 0 + 1/64 + 1/64 + 0 = 1/32, by 3: 1/96; root 0.1020620726 in; range 1/4 in.
    let site = sampled(&[
        (8.0, 4.0, 2.25),
        (8.125, 4.0, 2.25),
        (7.875, 4.0, 2.25),
        (8.0, 4.0, 2.25),
    ]);
    let side = first(&site).length.unwrap();
    is_in(side.mean, 8.0);
    let spread = side.spread.unwrap();
    assert!((in_metres(spread.deviation) / 0.0254 - 0.102_062_072_615_966).abs() < 1e-12);
    is_in(spread.range(), 0.25);
    is_in(first(&site).width.unwrap().spread.unwrap().deviation, 0.0);
}

#[test]
fn one_reading_tells_no_spread_and_no_class() {
    let found = first(&sampled(&[(7.625, 3.625, 2.25)]));
    let side = found.length.unwrap();
    is_in(side.mean, 7.625);
    assert_eq!((side.n_taken, side.spread), (1, None));
    assert!(found.classes.is_empty());
    // 7 5/8 − 2 × 3 5/8 = 3/8 in: not within 1/16 to 3/16 in.
    is_in(found.modular.unwrap().joint, 0.375);
    assert!(!found.modular.unwrap().is_modular);
}

#[test]
fn a_slip_of_ten_times_is_questioned_and_left_out() {
    let site = sampled(&[(8.0, 4.0, 2.25), (80.0, 4.0, 2.25), (8.125, 0.4, 2.25)]);
    let found = first(&site);
    is_in(found.length.unwrap().mean, 8.0625);
    is_in(found.width.unwrap().mean, 4.0);
    let slips: Vec<(Place, SlipKind)> = found
        .slips
        .iter()
        .map(|slip| (slip.place, slip.kind))
        .collect();
    assert_eq!(
        slips,
        [
            (Place::SampleLength(1), SlipKind::TenTimes),
            (Place::SampleWidth(2), SlipKind::ATenth)
        ]
    );
    assert_eq!(found.n_bricks, 3);
}

#[test]
fn a_half_among_whole_bricks_is_questioned() {
    let found = first(&sampled(&[
        (8.0, 4.0, 2.25),
        (4.0, 4.0, 2.25),
        (8.0, 4.0, 2.25),
    ]));
    assert_eq!(found.slips[0].kind, SlipKind::FarOff);
    is_in(found.length.unwrap().mean, 8.0);
    // A quarter off and no more is taken: 8, 8, 10.
    let found = first(&sampled(&[
        (8.0, 4.0, 2.25),
        (10.0, 4.0, 2.25),
        (8.0, 4.0, 2.25),
    ]));
    assert!(found.slips.is_empty());
}

#[test]
fn of_two_readings_the_stranger_is_questioned() {
    let found = first(&sampled(&[(75.0, 4.0, 2.25), (7.5, 4.0, 2.25)]));
    assert_eq!(found.slips[0].place, Place::SampleLength(0));
    is_in(found.length.unwrap().mean, 7.5);
    // With a size written down that decides.
    let mut site = sampled(&[(12.0, 4.0, 2.25), (7.5, 4.0, 2.25)]);
    site.brick.length = Some(inches(12.0));
    assert_eq!(first(&site).slips[0].place, Place::SampleLength(1));
    // One alone is only held against the usual brick by tens: a 12 in brick is none of that.
    assert!(first(&sampled(&[(12.0, 4.0, 2.25)])).slips.is_empty());
    assert_eq!(
        first(&sampled(&[(80.0, 4.0, 2.25)])).slips[0].kind,
        SlipKind::TenTimes
    );
}

#[test]
fn every_reading_questioned_leaves_no_mean() {
    let found = first(&sampled(&[(80.0, 4.0, 2.25)]));
    assert_eq!(found.length, None);
    assert_eq!(found.modular, None);
    let size = BrickSize::of_field(&sampled(&[(80.0, 4.0, 2.25)]));
    is_in(size.length, 8.0);
}

#[test]
fn classes_by_rows_b1_to_b10() {
    // Against 8 x 4 x 2 1/4 in written down. PX allows 1/8, 3/32 and 1/16 in (B2, B1, B3); PS 1/4, 3/16, 1/8.
    let with_size = |bricks: &[(f64, f64, f64)]| {
        let mut site = sampled(bricks);
        site.brick.length = Some(inches(8.0));
        site.brick.width = Some(inches(4.0));
        site.brick.thickness = Some(inches(2.25));
        site
    };
    let px = with_size(&[(8.125, 4.0, 2.25), (8.0, 3.90625, 2.3125)]);
    assert_eq!(class_of(&px, Standard::AstmPaving), Class::Is("PX"));
    let ps = with_size(&[(8.125, 4.0, 2.25), (8.0, 3.875, 2.25)]);
    assert_eq!(class_of(&ps, Standard::AstmPaving), Class::Is("PS"));
    let pa = with_size(&[(8.5, 4.0, 2.25), (8.0, 4.0, 2.25)]);
    assert_eq!(class_of(&pa, Standard::AstmPaving), Class::Is("PA"));
    // FBX allows 5/32, 3/32, 1/16 in (B8); FBS 1/4, 1/8, 3/32.
    assert_eq!(class_of(&px, Standard::AstmFacing), Class::Is("FBX"));
    assert_eq!(class_of(&ps, Standard::AstmFacing), Class::Is("FBS"));
    assert_eq!(class_of(&pa, Standard::AstmFacing), Class::Outside);
    // 203.2 mm: range R1 0.6 √203.2 = 8.55 mm (B9). 8 and 8 1/2 in are 12.7 mm apart; their mean is 6.35 mm off, more than 5.70.
    assert_eq!(class_of(&px, Standard::EnPaving), Class::Is("R1"));
    assert_eq!(class_of(&pa, Standard::EnPaving), Class::Outside);
    // T2 of 203.2 mm: 3.56 -> 4 mm; of 101.6: 2.52 -> 3; of 57.15: 1.89 -> 2 (B10). Means are 1.6, 1.2, 0.8 mm off.
    assert_eq!(class_of(&px, Standard::EnWall), Class::Is("T2"));
    // 6.35 mm is over T1 of 203.2 mm, 5.70 -> 6 mm: declared by the maker, Tm.
    assert_eq!(class_of(&pa, Standard::EnWall), Class::Is("Tm"));
}

#[test]
fn without_a_written_size_the_mean_stands_for_it() {
    let site = sampled(&[(8.0, 4.0, 2.25), (8.5, 4.0, 2.25)]);
    // 1/4 in off a mean of 8 1/4 in, where PX allows 7/32 and PS 5/16 (B4).
    assert_eq!(class_of(&site, Standard::AstmPaving), Class::Is("PS"));
    // 12.7 mm apart, over 0.6 √209.55 = 8.69 mm.
    assert_eq!(class_of(&site, Standard::EnPaving), Class::Is("R0"));
    assert_eq!(class_of(&site, Standard::EnWall), Class::SizeNotKnown);
    assert!(!first(&site).classes[0].against_written);
}

#[test]
fn length_by_thickness() {
    // Row P3: at most 4:1 for feet, 3:1 for a street. 8 by 2 in is 4, 8 by 2 1/4 in 3.56, 8 by 2 3/4 in 2.91, 12 by 2 1/4 in 5.33.
    for (length, thickness, feet, street) in [
        (8.0, 2.0, true, false),
        (8.0, 2.25, true, false),
        (8.0, 2.75, true, true),
        (12.0, 2.25, false, false),
    ] {
        let aspect = first(&sampled(&[(length, 4.0, thickness)])).aspect.unwrap();
        assert!((aspect.ratio - length / thickness).abs() < 1e-12);
        assert_eq!(
            (aspect.is_for_feet(), aspect.is_for_a_street()),
            (feet, street)
        );
    }
}

#[test]
fn the_brick_is_the_written_one_else_the_mean_else_the_usual() {
    let mut site = sampled(&[(7.5, 3.5, 2.0), (7.75, 3.75, 2.25)]);
    site.lay.sample[1].thickness = None;
    let size = BrickSize::of_field(&site);
    is_in(size.length, 7.625);
    is_in(size.width, 3.625);
    is_in(size.thickness, 2.0);
    site.brick.width = Some(inches(3.5));
    is_in(BrickSize::of_field(&site).width, 3.5);
    // What cannot be true is not taken.
    site.brick.width = Some(inches(90.0));
    is_in(BrickSize::of_field(&site).width, 3.625);
    site.lay.sample.clear();
    is_in(BrickSize::of_field(&site).width, 4.0);
    assert_eq!(sample(&site), SampleFound::default());
}

#[test]
fn the_second_size_is_kept_apart() {
    let mut site = sampled(&[(8.0, 4.0, 2.25), (6.0, 3.0, 2.0)]);
    site.lay.sample[1].of_second = true;
    is_in(first(&site).length.unwrap().mean, 8.0);
    is_in(sample(&site).second.unwrap().length.unwrap().mean, 6.0);
    // It counts as the edge only where it is on site and chosen.
    is_in(BrickSize::of_edge(&site).length, 8.0);
    site.lay.edge_of_second = true;
    is_in(BrickSize::of_edge(&site).length, 8.0);
    site.lay.second_brick = Some(Brick {
        length: None,
        width: Some(inches(2.75)),
        thickness: None,
        joint: None,
    });
    let edge = BrickSize::of_edge(&site);
    is_in(edge.length, 6.0);
    is_in(edge.width, 2.75);
    is_in(edge.thickness, 2.0);
}
