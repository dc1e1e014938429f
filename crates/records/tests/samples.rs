//! The sample sites: written as this crate writes, and right in what they show.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::{Path, PathBuf};

use underbrick_calc::findings::{Finding, Weight};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::{Results, compute};
use underbrick_records::{OpenSite, SiteFile, catalogue, write_site};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../sample-sites")
        .join(name)
}

fn sample(name: &str) -> SiteFile {
    OpenSite::open(folder(name)).unwrap().site().clone()
}

fn results(name: &str) -> Results {
    let catalogue = catalogue().unwrap();
    let (site, findings) = sample(name).checked(&catalogue);
    assert_eq!(findings.iter().count(), 0, "{name}: {findings:?}");
    compute(&site, &catalogue)
}

const ALL: [&str; 6] = [
    "short-straight-sunk-on-sand",
    "curved-to-a-drive",
    "clay-seep-falls-to-house",
    "metric",
    "half-measured",
    "clay-with-frost",
];

/// Set `UPDATE_GOLDEN` to write them anew.
#[test]
fn samples_are_written_as_this_program_writes_them() {
    for name in ALL {
        let file = folder(name).join("site.ron");
        let written = write_site(&sample(name));
        if std::env::var_os("UPDATE_GOLDEN").is_some() {
            fs::write(&file, &written).unwrap();
        }
        assert_eq!(fs::read_to_string(&file).unwrap(), written, "{name}");
    }
}

#[test]
fn measured_samples_compute_without_a_stop() {
    for name in [
        "short-straight-sunk-on-sand",
        "curved-to-a-drive",
        "clay-seep-falls-to-house",
        "metric",
        "clay-with-frost",
    ] {
        let results = results(name);
        let stops: Vec<&Finding> = results
            .findings
            .iter()
            .filter(|finding| finding.weight == Weight::Stop)
            .collect();
        assert_eq!(stops, Vec::<&Finding>::new(), "{name}");
        assert!(results.bed.is_some(), "{name}");
        assert!(
            results
                .bed
                .is_some_and(|bed| bed.earthwork.dig_bank.is_some() && !bed.earthwork.is_least),
            "{name}"
        );
    }
}

#[test]
fn the_curved_walk_is_38_ft_long_and_meets_the_drive() {
    let line = results("curved-to-a-drive").line.unwrap();
    // 28 ft + 12 ft × 48° × π / 180° = 38.053 ft; the drive lies 10 in down: 10 in ÷ 38.053 ft = 2.19 %.
    assert!((in_metres(line.run.length()) / 0.3048 - 38.053_096).abs() < 1e-5);
    assert!((in_metres(line.grade.end) / 0.0254 + 10.0).abs() < 1e-9);
    assert!((line.grade.fall.ratio() - 0.021_899).abs() < 1e-6);
    assert_eq!(line.offers, []);
}

#[test]
fn on_clay_the_old_surface_falls_to_the_house_and_the_new_one_away() {
    let results = results("clay-seep-falls-to-house");
    let line = results.line.unwrap();
    let old = |station_ft: f64| {
        let station = underbrick_calc::quantity::feet(station_ft);
        in_metres(line.old_surface.at(station, station * 0.0).unwrap().level) / 0.0254
    };
    // Rod readings less the 38 1/2 in on the sill: 5 in down at the door, 2 3/4 in at the far end.
    assert!(
        (old(0.0) + 5.0).abs() < 1e-9 && (old(22.0) + 2.75).abs() < 1e-9,
        "{} {}",
        old(0.0),
        old(22.0)
    );
    assert!((line.grade.fall.ratio() - 0.25 / 12.0).abs() < 1e-12);
}

#[test]
fn the_half_measured_walk_says_what_is_missing_and_guesses_nothing() {
    let results = results("half-measured");
    let at = |place: Place| results.findings.at(place).count();
    assert!(at(Place::FarEndBelowSill) > 0, "{:?}", results.findings);
    assert!(results.line.is_some(), "the run is known, so it is drawn");
}

#[test]
fn on_frosty_clay_the_soil_is_named_and_the_local_depth_is_taken() {
    let results = results("clay-with-frost");
    let soil = results.soil.unwrap();
    // Liquid limit 41, plasticity index 21 over an A-line of 0.73 × 21 = 15.33.
    assert_eq!(soil.uscs.unwrap().symbol, "CL");
    assert_eq!(soil.texture.unwrap().class.name(), "silty clay loam");
    assert_eq!(soil.frost_groups.first().unwrap().line, "F3c");
    let frost = soil.frost.unwrap();
    assert!((in_metres(frost.depth) / 0.0254 - 42.0).abs() < 1e-9);
    // 48 k nF ÷ L with k 0.948 (Kersten), 1250 °F days and L = 144 × 96 × 0.24 = 3317.8: 4.14 ft by hand.
    assert!((in_metres(frost.stefan.unwrap()) / 0.3048 - 4.14).abs() < 0.01);
    let at = |place: Place| results.findings.at(place).count();
    assert!(
        at(Place::FrostDepth) == 1 && at(Place::PitSeep(1)) == 2,
        "{:?}",
        results.findings
    );
}
