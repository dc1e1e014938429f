//! Pits of whole sites: what is left out, what is judged, what is reported.

use super::*;
use crate::catalogue::{Drainage, Hatch, Material, UnderAWalk};
use crate::findings::Weight;
use crate::line::tests::{site, straight};
use crate::place::Place;
use crate::quantity::{feet, inches, kilograms_per_cubic_metre};
use crate::site::{Firmness, Layer, MaterialKey, PenetrometerLog, Pit, PitEnd};
use proptest::prelude::*;

fn pit(station_m: f64, level_m: f64, found: bool) -> PitFound {
    PitFound {
        pit_idx: 0,
        station: metres(station_m),
        offset: metres(0.0),
        top: metres(0.0),
        layers: Vec::new(),
        dug_to: metres(level_m),
        unsuitable_bottom: UnsuitableBottom {
            level: metres(level_m),
            found,
        },
        seep: None,
    }
}

#[track_caller]
fn check(ground: &Ground, station_m: f64, level_m: f64, found: bool) {
    let bottom = ground.unsuitable_bottom(metres(station_m)).unwrap();
    assert!(
        (in_metres(bottom.level) - level_m).abs() < 1e-12,
        "{} m",
        in_metres(bottom.level)
    );
    assert_eq!(bottom.found, found);
}

#[test]
fn straight_between_pits_and_level_beyond() {
    let ground = Ground {
        pits: vec![
            pit(1.0, -0.2, true),
            pit(5.0, -0.4, false),
            pit(7.0, -0.3, true),
        ],
    };
    check(&ground, 0.0, -0.2, true);
    check(&ground, 1.0, -0.2, true);
    check(&ground, 2.0, -0.25, false); // a quarter of the way, and one pit did not reach it
    check(&ground, 5.0, -0.4, false);
    check(&ground, 6.0, -0.35, false);
    check(&ground, 7.0, -0.3, true);
    check(&ground, 9.0, -0.3, true);
    assert!(Ground::default().unsuitable_bottom(metres(0.0)).is_none());
}

#[test]
fn the_deepest_of_pits_at_one_station_decides() {
    let ground = Ground {
        pits: vec![pit(2.0, -0.2, false), pit(2.000_488_281_25, -0.5, true)],
    };
    check(&ground, 2.0, -0.5, false);
    assert_eq!(ground.station_breaks(), [metres(2.000_244_140_625)]);
}

proptest! {
    /// It never lies above, nor below, the straight between the pits on both sides, which is worked out here the long way round.
    #[test]
    fn never_off_the_straight_between_pits(
        levels_m in proptest::collection::vec(-1.0..0.0_f64, 2..6),
        part in 0.0..1.0_f64,
        nth in 0_usize..4,
    ) {
        let stations_m: Vec<f64> = (0..levels_m.len()).scan(0.5, |at_m, step| { *at_m += 1.0 + step as f64; Some(*at_m) }).collect();
        let pits = stations_m.iter().zip(&levels_m).map(|(at_m, level_m)| pit(*at_m, *level_m, true)).collect();
        let ground = Ground { pits };
        let near = nth % (levels_m.len() - 1);
        let station_m = stations_m[near] + part * (stations_m[near + 1] - stations_m[near]);
        let slope = (levels_m[near + 1] - levels_m[near]) / (stations_m[near + 1] - stations_m[near]);
        let straight_m = levels_m[near] + slope * (station_m - stations_m[near]);
        let bottom_m = in_metres(ground.unsuitable_bottom(metres(station_m)).unwrap().level);
        prop_assert!((bottom_m - straight_m).abs() < 1e-12);
        prop_assert!(bottom_m <= levels_m[near].max(levels_m[near + 1]) + 1e-15);
    }
}

fn material(key: &str, name: &str, under_a_walk: UnderAWalk) -> Material {
    Material {
        key: MaterialKey(key.to_owned()),
        name: name.to_owned(),
        under_a_walk,
        as_base: None,
        drainage: Drainage::Free,
        bank_density: kilograms_per_cubic_metre(1800.0),
        loose_density: kilograms_per_cubic_metre(1500.0),
        swell: 0.15,
        hatch: Hatch::Earth,
        source: "made up for this test".to_owned(),
    }
}

fn catalogue() -> Catalogue {
    Catalogue {
        materials: vec![
            material("old brick", "old brick", UnderAWalk::OldPavement),
            material("sand", "bedding sand", UnderAWalk::MustComeOut),
            material("gravel", "bank gravel", UnderAWalk::Subgrade),
        ],
        ..Catalogue::default()
    }
}

fn layer(key: &str, thickness_in: Option<f64>) -> Layer {
    Layer {
        material: MaterialKey(key.to_owned()),
        thickness: thickness_in.map(inches),
        firmness: None,
        moisture: None,
    }
}

fn written(station_ft: f64, layers: Vec<Layer>) -> Pit {
    Pit {
        station: Some(feet(station_ft)),
        offset: None,
        layers,
        seep: None,
        ended: PitEnd::Stopped,
        penetrometer: PenetrometerLog::default(),
    }
}

/// The ground of a straight walk of 20 ft whose old brick lies 3 in below the sill all along.
fn ground_of(pits: Vec<Pit>) -> (Ground, Findings) {
    let mut findings = Findings::default();
    let site = Site {
        pits,
        ..site(vec![straight(feet(20.0))])
    };
    let line = crate::line::line(&site, &mut Findings::default()).unwrap();
    let ground = ground(&site, &catalogue(), &line, &mut findings);
    (ground, findings)
}

#[track_caller]
fn check_found(findings: &Findings, place: Place, weight: Weight, text: &str) {
    let found = findings
        .at(place)
        .any(|finding| finding.weight == weight && finding.text.contains(text));
    assert!(found, "{findings:#?}");
}

#[test]
fn layers_hang_from_the_old_surface() {
    // Old brick 3 in below the sill; 2 1/4 in brick, 3 in sand, gravel going on: the gravel starts 8 1/4 in below the sill.
    let layers = vec![
        layer("old brick", Some(2.25)),
        layer("sand", Some(3.0)),
        layer("gravel", None),
    ];
    let (ground, findings) = ground_of(vec![written(12.0, layers)]);
    let pit = &ground.pits[0];
    let in_inches = |level: Length| (in_metres(level) / 0.0254 * 1e6).round() / 1e6;
    let tops: Vec<f64> = pit
        .layers
        .iter()
        .map(|layer| in_inches(layer.top))
        .collect();
    assert_eq!(tops, [-3.0, -5.25, -8.25]);
    let verdicts: Vec<Verdict> = pit.layers.iter().map(|layer| layer.verdict).collect();
    assert_eq!(
        verdicts,
        [Verdict::Lifted, Verdict::ComesOut, Verdict::Stays]
    );
    check(&ground, 0.0, -8.25 * 0.0254, true);
    assert_eq!(findings, Findings::default());
}

#[test]
fn a_pit_that_ends_in_sand_says_so() {
    let (ground, findings) = ground_of(vec![written(
        5.0,
        vec![layer("old brick", Some(2.25)), layer("sand", Some(9.0))],
    )]);
    check(&ground, 5.0, -14.25 * 0.0254, false); // 3 + 2 1/4 + 9 in below the sill, at least
    let text = "Pit 1 ends in bedding sand: the digging stopped 11 1/4\" below the old surface, and the bottom of what must come out was not found.";
    check_found(&findings, Place::Pit(0), Weight::Warning, text);
}

#[test]
fn pits_that_cannot_be_used_are_named_and_left_out() {
    let layers = || vec![layer("sand", Some(3.0)), layer("gravel", None)];
    let pits = vec![
        written(21.0, layers()),
        Pit {
            station: None,
            ..written(1.0, layers())
        },
        written(2.0, Vec::new()),
        Pit {
            offset: Some(feet(300.0)),
            ..written(3.0, layers())
        },
        written(-1.0, layers()),
    ];
    let (ground, findings) = ground_of(pits);
    assert_eq!(ground, Ground::default());
    let text = "Pit 1 station: 21'-0\" lies beyond the run, which goes from 0 to 20'-0\".";
    check_found(&findings, Place::PitStation(0), Weight::Warning, text);
    check_found(
        &findings,
        Place::PitStation(1),
        Weight::Warning,
        "Pit 2 station is missing.",
    );
    check_found(
        &findings,
        Place::Pit(2),
        Weight::Warning,
        "Pit 3 has no layers.",
    );
    check_found(
        &findings,
        Place::PitOffset(3),
        Weight::Warning,
        "Pit 4 offset: 300'-0\" is above the most that can be true",
    );
    check_found(
        &findings,
        Place::PitStation(4),
        Weight::Warning,
        "Pit 5 station: -1'-0\" is below the least",
    );
    check_found(
        &findings,
        Place::Site,
        Weight::Warning,
        "No pit can be used",
    );
}

#[test]
fn a_pit_without_a_level_of_the_old_surface_is_left_out() {
    let mut site = site(vec![straight(feet(20.0))]);
    site.line.old_below_sill = None;
    site.pits = vec![written(5.0, vec![layer("gravel", None)])];
    let line = crate::line::line(&site, &mut Findings::default()).unwrap();
    let mut findings = Findings::default();
    assert_eq!(
        ground(&site, &catalogue(), &line, &mut findings),
        Ground::default()
    );
    check_found(
        &findings,
        Place::Pit(0),
        Weight::Warning,
        "no level of the old surface is known",
    );
}

#[test]
fn what_the_catalogue_does_not_know_and_what_has_no_thickness_is_named() {
    let layers = vec![
        layer("old brick", Some(2.25)),
        layer("mystery", None),
        layer("gravel", None),
    ];
    let (ground, findings) = ground_of(vec![written(5.0, layers)]);
    check_found(
        &findings,
        Place::LayerMaterial(0, 1),
        Weight::Warning,
        "does not know \"mystery\"",
    );
    check_found(
        &findings,
        Place::LayerThickness(0, 1),
        Weight::Warning,
        "Pit 1 layer 2 thickness is missing",
    );
    assert_eq!(ground.pits[0].layers.len(), 2);
    assert!(!ground.pits[0].unsuitable_bottom.found);
}

#[test]
fn water_and_soft_ground_are_reported() {
    let soft = Layer {
        firmness: Some(Firmness::Soft),
        ..layer("gravel", Some(12.0))
    };
    let pit = Pit {
        seep: Some(inches(4.0)),
        ..written(5.0, vec![layer("sand", Some(6.0)), soft])
    };
    let deeper = Pit {
        seep: Some(inches(9.0)),
        ..written(
            9.0,
            vec![layer("sand", Some(6.0)), layer("gravel", Some(12.0))],
        )
    };
    let (ground, findings) = ground_of(vec![pit, deeper]);
    assert!((in_metres(ground.pits[0].seep.unwrap()) / 0.0254 + 7.0).abs() < 1e-9); // 3 + 4 in below the sill
    check_found(
        &findings,
        Place::PitSeep(0),
        Weight::Warning,
        "water seeped in 4\" below the old surface",
    );
    check_found(
        &findings,
        Place::PitSeep(1),
        Weight::Note,
        "water seeped in 9\" below the old surface",
    );
    check_found(
        &findings,
        Place::LayerMaterial(0, 1),
        Weight::Warning,
        "bank gravel may stay, but here it is soft",
    );
}
