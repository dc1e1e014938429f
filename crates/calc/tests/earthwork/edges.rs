//! Edge brick, trench, haunch, spikes and forms.

use crate::sites::{bed_of, curve, plain, straight};
use std::f64::consts::PI;
use underbrick_calc::bed::Restraint;
use underbrick_calc::quantity::unit::inch;
use underbrick_calc::quantity::{feet, in_cubic_feet, in_cubic_metres, in_metres, inches};
use underbrick_calc::site::{EdgeStands, Hand, RestraintInput, Site};

#[track_caller]
fn check(value: f64, expected: f64) {
    assert!(
        (value - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{value} is not {expected}"
    );
}

fn with_haunch(site: &mut Site, height_in: f64, width_in: f64, top_in: f64) {
    site.edge.restraint = RestraintInput::Haunch {
        height: Some(inches(height_in)),
        width: Some(inches(width_in)),
        top_width: Some(inches(top_in)),
    };
}

#[test]
fn haunch_of_sixty_feet() {
    // Row C5: triangle 4 x 4 in, 60 ft (both sides of 30 ft): 3.333 ft³ -> 6 bags of 80 lb (5.56 up).
    let mut site = plain();
    with_haunch(&mut site, 4.0, 4.0, 0.0);
    let Restraint::Haunch {
        concrete,
        n_bags_80_lb,
    } = bed_of(&site).edge.restraint
    else {
        panic!("a haunch")
    };
    check(in_cubic_feet(concrete), 10.0 / 3.0);
    assert_eq!(n_bags_80_lb, 6);
    // Row C4, without its waste: 6 x 6 in, 60 ft: 15.0 ft³ -> 25 bags.
    with_haunch(&mut site, 6.0, 6.0, 6.0);
    let Restraint::Haunch {
        concrete,
        n_bags_80_lb,
    } = bed_of(&site).edge.restraint
    else {
        panic!("a haunch")
    };
    check(in_cubic_feet(concrete), 15.0);
    assert_eq!(n_bags_80_lb, 25);
}

#[test]
fn haunch_on_a_curve_is_pappus() {
    // Centreline 3 m, 90 degrees to the left; clear width 32 in, header 8 in, triangle 4 x 4 in: centroid 4/3 in from the face,
    // so 16 + 8 + 4/3 in from the centreline on both sides: outside and inside make up for each other.
    let mut site = plain();
    site.line.legs = vec![curve(3.0, PI / 2.0, Hand::Left)];
    with_haunch(&mut site, 4.0, 4.0, 0.0);
    let Restraint::Haunch { concrete, .. } = bed_of(&site).edge.restraint else {
        panic!("a haunch")
    };
    let aside = (16.0 + 8.0 + 4.0 / 3.0) * 0.0254;
    let area = 8.0 * 0.0254 * 0.0254;
    check(
        in_cubic_metres(concrete),
        area * PI / 2.0 * ((3.0 + aside) + (3.0 - aside)),
    );
}

#[test]
fn sailor_needs_a_trench() {
    // A sailor of 8 in is 8 - 3 = 5 in below the base top; trench 2 1/4 + 4 in wide; 60 ft of it, wholly in a base of 6 in.
    let mut site = plain();
    site.edge.stands = EdgeStands::Sailor;
    site.bed.least_base = Some(inches(6.0));
    with_haunch(&mut site, 4.0, 4.0, 0.0);
    let bed = bed_of(&site);
    check(bed.edge.trench_depth.get::<inch>(), 5.0);
    check(bed.edge.trench_width.get::<inch>(), 6.25);
    let trench_ft3 = 5.0 / 12.0 * 6.25 / 12.0 * 60.0;
    check(in_cubic_feet(bed.edge.trench_volume), trench_ft3);
    // Dig: 32 in + 2 x 2 1/4 in + 12 in wide, 30 ft, 6 in deep.
    let gross_ft3 = 48.5 / 12.0 * 30.0 * 0.5;
    check(
        in_cubic_feet(bed.earthwork.base_compacted),
        gross_ft3 - trench_ft3,
    );
    // In a base of 4 in the trench takes 4 in of base.
    site.bed.least_base = Some(inches(4.0));
    let bed = bed_of(&site);
    check(
        in_cubic_feet(bed.earthwork.base_compacted),
        48.5 / 12.0 * 30.0 / 3.0 - trench_ft3 * 0.8,
    );
}

#[test]
fn flat_edge_brick_needs_no_trench() {
    let edge = bed_of(&plain()).edge;
    check(in_metres(edge.trench_depth), 0.0);
    check(in_cubic_feet(edge.trench_volume), 0.0);
}

#[test]
fn bricks_on_a_straight() {
    let mut site = plain();
    site.edge.stands = EdgeStands::Stretcher;
    // 30 ft: (360 + 1/8) / 8 1/8 = 44.3 -> 45.
    let edge = bed_of(&site).edge;
    assert_eq!((edge.left.n_bricks, edge.right.n_bricks), (45, 45));
    check(edge.left.widest_joint.get::<inch>(), 0.125);
    // Ten bricks and nine joints are 80 + 1 1/8 in: ten, not eleven.
    site.line.legs = vec![straight(inches(81.125))];
    assert_eq!(bed_of(&site).edge.left.n_bricks, 10);
    // Two legs in line count as one edge.
    site.line.legs = vec![straight(inches(40.0)), straight(inches(41.125))];
    assert_eq!(bed_of(&site).edge.left.n_bricks, 10);
}

#[test]
fn bricks_on_a_curve() {
    // To the right, 10 ft to the centreline, 90 degrees, clear width 4 ft, header: 8 in across, 4 in along, joint 1/8 in.
    // Left: inner face at 12 ft is the tight one: 72 π in = 226.19; (226.19 + 1/8) / 4 1/8 = 54.9 -> 55; the joint at 12 ft 8 in
    // opens to 4 1/8 x 152/144 - 4. Right: outer face at 7 ft 4 in: 44 π = 138.23; 33.5 -> 34; at 8 ft 4 1/8 x 96/88 - 4 = 1/2 in.
    let mut site = plain();
    site.line.width = Some(feet(4.0));
    site.line.legs = vec![curve(10.0 * 0.3048, PI / 2.0, Hand::Right)];
    let edge = bed_of(&site).edge;
    check(edge.left.inner_length.get::<inch>(), 72.0 * PI);
    check(edge.left.outer_length.get::<inch>(), 76.0 * PI);
    check(edge.right.inner_length.get::<inch>(), 48.0 * PI);
    check(edge.right.outer_length.get::<inch>(), 44.0 * PI);
    assert_eq!((edge.left.n_bricks, edge.right.n_bricks), (55, 34));
    check(
        edge.left.widest_joint.get::<inch>(),
        4.125 * 152.0 / 144.0 - 4.0,
    );
    check(edge.right.widest_joint.get::<inch>(), 0.5);
}

#[test]
fn spikes_and_forms() {
    // Common practice, no source: boards of 12 ft, stakes every 3 ft on straights and 18 in on curves, spacers every 6 ft.
    let mut site = plain();
    site.edge.restraint = RestraintInput::Spiked {
        spacing: Some(inches(12.0)),
    };
    let edge = bed_of(&site).edge;
    let Restraint::Spiked { strip, n_spikes } = edge.restraint else {
        panic!("spikes")
    };
    check(strip.get::<inch>(), 720.0);
    assert_eq!(n_spikes, 62); // 30 spaces and one at the end, twice
    check(edge.forms.length.get::<inch>(), 720.0);
    assert_eq!(
        (
            edge.forms.n_boards,
            edge.forms.n_stakes,
            edge.forms.n_spacers
        ),
        (5, 22, 6)
    );
    // A curve of 10 ft to the right, 90 degrees, outer faces at 12 ft and 8 ft: 18.85 ft and 12.57 ft: 13 + 9 spaces and 2 ends.
    site.line.legs = vec![curve(10.0 * 0.3048, PI / 2.0, Hand::Right)];
    site.line.width = Some(feet(4.0) - inches(16.0));
    assert_eq!(bed_of(&site).edge.forms.n_stakes, 24);
}
