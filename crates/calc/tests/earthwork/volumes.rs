//! Areas and volumes against published figures and closed forms.

use crate::sites::{bed_of, computed, curve, key, pit, plain, shot, straight};
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::unit::{kilogram, square_foot, square_meter};
use underbrick_calc::quantity::{
    POUND_KG, feet, in_cubic_feet, in_cubic_metres, in_cubic_yards, in_short_tons, inches, metres,
};
use underbrick_calc::site::Hand;

#[track_caller]
fn check(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not {expected}"
    );
}

#[test]
fn base_of_a_plain_walk() {
    // Row E32: 4 ft x 30 ft, base widened 6 in on each long side, 4 in thick: 150 ft² -> 50 ft³ = 1.8519 yd³.
    let earthwork = bed_of(&plain()).earthwork;
    check(earthwork.dig_area.get::<square_foot>(), 150.0, 1e-9);
    check(in_cubic_feet(earthwork.base_compacted), 50.0, 1e-9);
    check(in_cubic_yards(earthwork.base_compacted), 1.8519, 1e-4);

    // Row E31: 4 ft x 30 ft x 4 in: 40 ft³ = 1.4815 yd³; row E33: at 135 lb/ft³ 5400 lb = 2.70 short ton.
    let mut narrow = plain();
    narrow.bed.side_extension = Some(inches(0.0));
    let earthwork = bed_of(&narrow).earthwork;
    check(in_cubic_feet(earthwork.base_compacted), 40.0, 1e-9);
    check(in_cubic_yards(earthwork.base_compacted), 1.4815, 1e-4);
    check(
        earthwork.base_mass.get::<kilogram>() / POUND_KG,
        5400.0,
        1e-6,
    );
    check(in_short_tons(earthwork.base_mass), 2.7, 1e-9);
    check(in_cubic_feet(earthwork.base_loose), 50.0, 1e-9); // 40 x 1.25

    // Row E29: 100 ft² x 4 in: 33.3333 ft³ = 1.2346 yd³.
    narrow.line.legs = vec![straight(feet(25.0))];
    let earthwork = bed_of(&narrow).earthwork;
    check(earthwork.paved_area.get::<square_foot>(), 100.0, 1e-9);
    check(in_cubic_feet(earthwork.base_compacted), 33.3333, 1e-4);
    check(in_cubic_yards(earthwork.base_compacted), 1.2346, 1e-4);

    // Row E30: 100 ft² x 1 in: 8.3333 ft³ = 0.30864 yd³, as a setting bed over the clear width.
    narrow.line.width = Some(feet(4.0));
    narrow.bed.setting_bed = Some(inches(1.0));
    let earthwork = bed_of(&narrow).earthwork;
    check(earthwork.field_area.get::<square_foot>(), 100.0, 1e-9);
    check(in_cubic_feet(earthwork.setting_bed_compacted), 8.3333, 1e-4);
    check(
        in_cubic_yards(earthwork.setting_bed_compacted),
        0.30864,
        1e-5,
    );
}

#[test]
fn constant_section_on_a_curve_is_pappus() {
    // Dig as wide as on the plain walk, 5 ft, symmetrical about a centreline of 4 m x 1.2 rad: its centroid runs on the centreline.
    let mut site = plain();
    for hand in [Hand::Left, Hand::Right] {
        site.line.legs = vec![curve(4.0, 1.2, hand)];
        let earthwork = bed_of(&site).earthwork;
        check(
            earthwork.dig_area.get::<square_meter>(),
            5.0 * 0.3048 * 4.8,
            1e-12,
        );
        check(
            in_cubic_metres(earthwork.base_compacted),
            5.0 * 0.3048 * 4.8 * 4.0 * 0.0254,
            1e-12,
        );
    }
}

#[test]
fn wedge_section_on_a_curve_is_pappus() {
    // A dig that follows level sand under a surface with cross-fall: thicker on the left. With thickness t in the middle, rise c
    // across and half width h the section is A = 2 h t, its centroid c h² / (3 t) left of the centreline; it runs around at radius
    // R + that on a curve to the right, R − that on a curve to the left.
    let (radius, turn, cross_fall) = (4.0, 1.2, 0.02);
    let half = 2.5 * 0.3048;
    let mut site = plain();
    site.line.cross_fall = Fall::from_ratio(cross_fall);
    site.line.old_below_sill = Some(metres(0.0));
    site.bed.base_material = key("fine_base");
    site.bed.least_base = Some(inches(1.0));
    site.bed.loose_lift = Some(inches(24.0));
    // Brick 2 in, sand 11 in: 13 in below the sill; base top 3 in below it; t = 10 in on the centreline.
    site.pits = vec![pit(1.0, inches(2.0), inches(11.0))];
    let thickness = 10.0 * 0.0254;
    let aside = cross_fall * half * half / (3.0 * thickness);
    for (hand, around) in [(Hand::Right, radius + aside), (Hand::Left, radius - aside)] {
        site.line.legs = vec![curve(radius, turn, hand)];
        let bed = bed_of(&site);
        assert_eq!(bed.lifts.each.len(), 1);
        check(
            in_cubic_metres(bed.earthwork.base_compacted),
            2.0 * half * thickness * around * turn,
            1e-9,
        );
    }
}

#[test]
fn what_is_dug_is_kept_apart() {
    // 10 m straight, level, brick 2 1/4 in on 3/4 in bed, base 4 in: bottom of the dig 7 in below the sill (177.8 mm).
    // Old surface 20 mm below the sill; old brick 60 mm; sand down to 120 mm; then clay.
    // Paved 4 ft, dig 5 ft. Old brick 60 mm x 4 ft; sand 40 mm x 4 ft + 100 mm x 1 ft beside the walk; clay 57.8 mm x 5 ft.
    let mut site = plain();
    site.line.legs = vec![straight(metres(10.0))];
    site.line.old_below_sill = Some(metres(0.02));
    site.line.shots = vec![shot(10.0, 0.0, 0.02)];
    site.pits = vec![pit(5.0, metres(0.06), metres(0.04))];
    let earthwork = bed_of(&site).earthwork;
    let dug = earthwork.dig_bank.unwrap();
    let foot = 0.3048;
    let (unsuitable, trim) = (
        0.04 * 4.0 * foot * 10.0 + 0.1 * foot * 10.0,
        0.0578 * 5.0 * foot * 10.0,
    );
    check(
        in_cubic_metres(dug.old_pavement),
        0.06 * 4.0 * foot * 10.0,
        1e-12,
    );
    check(in_cubic_metres(dug.unsuitable), unsuitable, 1e-12);
    check(in_cubic_metres(dug.trim), trim, 1e-12);
    check(
        in_cubic_metres(dug.spoil_loose),
        unsuitable * 1.12 + trim * 1.3,
        1e-12,
    );
    check(
        dug.spoil_mass.get::<kilogram>(),
        unsuitable * 1600.0 + trim * 1750.0,
        1e-9,
    );
    check(in_cubic_metres(earthwork.fill_below_dig), 0.0, 1e-15);
    assert!(!earthwork.is_least);
}

#[test]
fn ground_below_the_dig_is_fill() {
    // The old surface falls from 77.8 mm below the sill to 277.8 mm over 10 m; the bottom of the dig lies 177.8 mm below: it meets
    // the ground half way. Triangles of 5 m x 100 mm over 5 ft on both sides.
    let mut site = plain();
    site.line.legs = vec![straight(metres(10.0))];
    site.line.old_below_sill = Some(metres(0.0778));
    site.line.shots = vec![shot(10.0, 0.0, 0.2778)];
    let results = computed(&site);
    let earthwork = results.bed.unwrap().earthwork;
    let dug = earthwork.dig_bank.unwrap();
    let triangle = 5.0 * 0.1 / 2.0 * 5.0 * 0.3048;
    check(
        in_cubic_metres(dug.old_pavement + dug.unsuitable + dug.trim),
        triangle,
        1e-12,
    );
    check(in_cubic_metres(earthwork.fill_below_dig), triangle, 1e-12);
    assert!(
        earthwork.is_least,
        "no pit: what must come out is not known"
    );
    assert!(
        results
            .findings
            .iter()
            .any(|finding| finding.text.contains("to fill"))
    );
}

#[test]
fn no_reading_of_the_surface_gives_no_dug_volume() {
    let earthwork = bed_of(&plain()).earthwork;
    assert!(earthwork.dig_bank.is_none() && earthwork.is_least);
}

#[test]
fn twice_the_walk_takes_twice_of_everything() {
    let once = bed_of(&plain()).earthwork;
    let mut site = plain();
    site.line.legs = vec![straight(feet(30.0)), straight(feet(30.0))];
    let twice = bed_of(&site).earthwork;
    check(
        in_cubic_metres(twice.base_loose),
        2.0 * in_cubic_metres(once.base_loose),
        1e-12,
    );
    check(
        twice.paved_area.get::<square_meter>(),
        2.0 * once.paved_area.get::<square_meter>(),
        1e-12,
    );
    check(
        in_cubic_metres(twice.setting_bed_compacted),
        2.0 * in_cubic_metres(once.setting_bed_compacted),
        1e-12,
    );
}

#[test]
fn a_dig_past_the_centre_of_a_curve_stops_there() {
    // Radius 0.8 m, walk and edges 4 ft wide, 12 in of extension: the dig reaches 3 ft (0.9144 m) from the centreline, past the
    // centre. It is the full sector of the outer radius 0.8 + 0.9144 over 1 rad: half of its square.
    let mut site = plain();
    site.line.legs = vec![curve(0.8, 1.0, Hand::Left)];
    site.bed.side_extension = Some(inches(12.0));
    let earthwork = bed_of(&site).earthwork;
    let outer = 0.8 + 3.0 * 0.3048;
    check(
        earthwork.dig_area.get::<square_meter>(),
        outer * outer / 2.0,
        1e-12,
    );
}
