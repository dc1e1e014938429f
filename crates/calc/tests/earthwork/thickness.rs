//! How thick the base is where nobody says.

use super::sites::{catalogue, computed, key, pit, plain, shot};
use underbrick_calc::bed::{Factor, Grade, section_at};
use underbrick_calc::catalogue::{Catalogue, Drainage};
use underbrick_calc::compute;
use underbrick_calc::findings::{Source, Weight};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{inches, metres, millimetres, unit::inch};
use underbrick_calc::site::{Firmness, Moisture, PenetrometerLog, PenetrometerRow, Site};

/// A walk with one pit into clay whose base nobody asked for.
fn not_asked() -> Site {
    let mut site = plain();
    site.bed.least_base = None;
    site.bed.side_extension = None;
    site.line.shots = vec![shot(1.0, 0.0, 0.05)];
    site.pits = vec![pit(2.0, inches(2.25), inches(4.0))];
    site
}

/// The same with a cone driven so far at every blow.
pub fn driven(per_blow_mm: f64) -> Site {
    let mut site = not_asked();
    let row = |nth: f64| PenetrometerRow {
        blows: Some(2),
        reading: Some(millimetres(nth * 2.0 * per_blow_mm)),
    };
    site.pits[0].penetrometer = PenetrometerLog {
        start: Some(metres(0.0)),
        rows: vec![row(1.0), row(2.0)],
        ..PenetrometerLog::default()
    };
    site
}

/// With clay that holds water.
pub fn clay() -> Catalogue {
    let mut catalogue = catalogue();
    for material in &mut catalogue.materials {
        if material.key == key("clay") {
            material.drainage = Drainage::Poor;
        }
    }
    catalogue
}

/// The base is so thick, of these parts, and they add up.
#[track_caller]
pub fn check(site: &Site, catalogue: &Catalogue, base_in: f64, parts_in: &[f64]) -> Vec<Factor> {
    let bed = compute(site, catalogue).bed.unwrap();
    let is = |length: underbrick_calc::quantity::Length, value_in: f64| {
        (length.get::<inch>() - value_in).abs() < 1e-9
    };
    let factors = bed.worked_out.factors.clone();
    assert!(
        factors.len() == parts_in.len()
            && factors
                .iter()
                .zip(parts_in)
                .all(|(factor, part_in)| is(factor.amount, *part_in)),
        "{factors:#?}"
    );
    assert!(
        is(bed.worked_out.thickness, base_in),
        "{:?}",
        bed.worked_out
    );
    assert_eq!(bed.least_base, bed.worked_out.thickness);
    factors
}

#[test]
fn good_ground_takes_the_published_base_alone() {
    // Row P1: 4 in under a walk, Interlocking Concrete Pavement Institute; row P25, clay pavers, says the same from memory, and row P27,
    // one maker's 3 to 4 in, shows the spread under it.
    let factors = check(&not_asked(), &catalogue(), 4.0, &[4.0]);
    assert_eq!(factors[0].grade, Grade::Published);
    assert!(matches!(factors[0].source, Source::Published(name) if name.contains("Tolerances")));
    let no_pit = Site {
        pits: Vec::new(),
        ..not_asked()
    };
    check(&no_pit, &catalogue(), 4.0, &[4.0]);
}

#[test]
fn weak_ground_by_penetrometer_takes_more() {
    // Row P26, second-hand: walks 4 in made 6 in, "2 to 4 in" more. Classes by UFC 3-250-01, table 4-1; CBR by rows D10 to D12.
    check(&driven(15.0), &catalogue(), 4.0, &[4.0]); // CBR 14.07: A
    check(&driven(20.0), &catalogue(), 4.0, &[4.0]); // CBR 10.19: B
    let class_c = check(&driven(30.0), &catalogue(), 6.0, &[4.0, 2.0]); // CBR 6.47: C
    assert_eq!(class_c[1].grade, Grade::SecondHand);
    assert_eq!(class_c[1].name, "Weak ground, class C");
    assert_eq!(class_c[1].because, "CBR 6.5 by penetrometer, pit 1");
    assert_eq!(class_c[1].place, Place::PenetrometerStart(0));
    check(&driven(50.0), &catalogue(), 8.0, &[4.0, 4.0]); // CBR 3.65: D
}

#[test]
fn clay_that_holds_water_takes_more() {
    let clay = clay();
    let mut site = not_asked();
    check(&site, &clay, 6.0, &[4.0, 2.0]);
    site.pits[0].layers[2].firmness = Some(Firmness::Soft);
    check(&site, &clay, 8.0, &[4.0, 4.0]);
    // All together adds no more than 4 in.
    site.pits[0].seep = Some(inches(7.0));
    check(&site, &clay, 8.0, &[4.0, 4.0, 2.0, -2.0]);
    site.pits[0].layers[2].firmness = Some(Firmness::Hard);
    check(&site, &clay, 8.0, &[4.0, 2.0, 2.0]);
    // Ground that lets water go, but stands wet.
    let mut wet = not_asked();
    wet.pits[0].layers[2].moisture = Some(Moisture::Wet);
    check(&wet, &catalogue(), 6.0, &[4.0, 2.0]);
    // Strong by measure, but it holds water all the same.
    check(&driven(15.0), &clay, 6.0, &[4.0, 2.0]);
}

#[test]
fn the_dig_goes_as_far_past_the_edge_as_the_base_is_thick() {
    // Row P13: the greater of 6 in and the base: 4 -> 6, 6 -> 6, 8 -> 8.
    let beyond_in = |site: &Site| {
        let results = computed(site);
        let (line, ground) = (results.line.unwrap(), results.ground.unwrap());
        let bed = results.bed.unwrap();
        let section = section_at(site, &line, &ground, &bed, metres(2.0));
        let side = section.base_top.last().unwrap().across;
        (side - section.clear_width * 0.5 - bed.edge.brick.across).get::<inch>()
    };
    for (per_blow_mm, expected_in) in [(15.0, 6.0), (30.0, 6.0), (50.0, 8.0)] {
        let beyond_in = beyond_in(&driven(per_blow_mm));
        assert!((beyond_in - expected_in).abs() < 1e-9, "{beyond_in}");
    }
}

#[test]
fn what_was_asked_for_is_kept_and_said() {
    let told = |site: &Site| -> Vec<(Weight, String)> {
        let results = computed(site);
        results
            .findings
            .at(Place::LeastBase)
            .map(|finding| (finding.weight, finding.text.clone()))
            .collect()
    };
    let mut site = driven(50.0); // works out to 8 in
    assert_eq!(told(&site), []);
    for (asked_in, n_told) in [(8.0, 0), (6.0, 1), (10.0, 1), (3.0, 2)] {
        site.bed.least_base = Some(inches(asked_in));
        assert_eq!(computed(&site).bed.unwrap().least_base, inches(asked_in));
        let told = told(&site);
        assert_eq!(told.len(), n_told, "{told:?}");
        for (weight, text) in told {
            assert_eq!(weight, Weight::Note);
            assert!(text.contains("is your own"), "{text}");
        }
    }
    site.bed.least_base = Some(inches(-1.0)); // cannot be true: what is worked out is taken
    assert_eq!(computed(&site).bed.unwrap().least_base, inches(8.0));
}

#[test]
fn ground_below_cbr_3_asks_for_a_fabric() {
    // FHWA-NHI-05-037, table 7-15. The general relation gives CBR 3 at 59.60 mm a blow, row D15.
    let asks = |site: &Site| computed(site).findings.at(Place::Fabric).count();
    assert_eq!(asks(&driven(59.0)), 0);
    assert_eq!(asks(&driven(60.0)), 1);
    let mut laid = driven(60.0);
    laid.bed.fabric = true;
    assert_eq!(asks(&laid), 0);
}

#[test]
fn theory_stands_beside_what_was_measured() {
    assert!(
        computed(&not_asked())
            .bed
            .unwrap()
            .worked_out
            .theory
            .is_none()
    );
    let theory = computed(&driven(59.60))
        .bed
        .unwrap()
        .worked_out
        .theory
        .unwrap();
    // Row T9 times row T10 for 5000 coverages: 4.170 x 1.0008 in.
    assert!(
        (theory.thickness.get::<inch>() - 4.173).abs() < 0.01,
        "{theory:?}"
    );
    assert!(!theory.outside.is_empty());
}
