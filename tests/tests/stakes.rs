//! The stake table of the samples: the curved one worked by hand, all of them from record to spreadsheet.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::Path;

use underbrick_calc::build::{Build, Stake, StakeWhy, Surface};
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::{ShownIn, Site};
use underbrick_calc::{Results, compute};
use underbrick_records::OpenSite;
use underbrick_sheets::stakes::{stake_sheet, stakes_csv, stakes_json, stakes_text};

const WITH_A_BED: [&str; 7] = [
    "clay-seep-falls-to-house",
    "clay-with-frost",
    "curved-to-a-drive",
    "half-measured",
    "metric",
    "short-straight-sunk-on-sand",
    "steep-with-steps",
];

fn sample(name: &str) -> (Site, Results) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../sample-sites")
        .join(name);
    let catalogue = underbrick_records::catalogue().unwrap();
    let (site, _) = OpenSite::open(folder).unwrap().site().checked(&catalogue);
    let results = compute(&site, &catalogue);
    (site, results)
}

fn in_inches(length: Length) -> f64 {
    in_metres(length) / 0.0254
}

#[track_caller]
fn near(got: Length, expected_in: f64) {
    let got_in = in_inches(got);
    assert!(
        (got_in - expected_in).abs() < 5e-4,
        "{got_in} in, expected {expected_in} in"
    );
}

/// The stake that stands there for that reason, and its drops from the base top down.
#[track_caller]
fn check(build: &Build, why: StakeWhy, station_in: f64, grade_in: f64, drops_in: &[f64]) -> Stake {
    let stake = build.stakes.iter().find(|stake| stake.why.contains(&why));
    let stake = stake.unwrap_or_else(|| panic!("no {why:?}")).clone();
    near(stake.station, station_in);
    near(stake.grade, grade_in);
    let below_bed: Vec<_> = stake.rows.iter().skip(4).collect();
    assert_eq!(below_bed.len(), drops_in.len(), "{below_bed:#?}");
    for (row, drop_in) in below_bed.iter().zip(drops_in) {
        near(row.drop, *drop_in);
    }
    assert_eq!(below_bed.last().unwrap().surface, Surface::DigBottom);
    stake
}

/// The curved sample by hand, in inches below the sill's underside. The string hangs on the grade line.
///
/// Run: 28 ft, then 12 ft × 48° = 12 × 0.837 758 = 10.053 096 ft: 38.053 096 ft. It falls 10 in: 0.262 790 8 in per ft.
/// Base top: 2 1/4 + 3/4 = 3 below the grade line. A lift is at most 3 ÷ 1.25 = 2.4 in; no partial one is thinner than 1.5 × 3/4 = 1 1/8.
/// Pit 1 at 4 ft: the old surface lies at 1.5 + (4 − 1.5) × 4/7 = 2.928 571, soft ground ends 2.25 + 1.5 + 7 = 10.75 deeper, at 13.678 571;
/// as deep at the door, where the base is thickest: 13.678 571 − 3 = 10.678 571: 5 lifts of 2.135 714.
#[test]
fn the_curved_sample_by_hand() {
    let (_, results) = sample("curved-to-a-drive");
    let build = results.build.unwrap();
    let lift = 10.678_571 / 5.0;
    let tops: Vec<f64> = (0..5).map(|n| 3.0 + f64::from(n) * lift).collect();
    let drops = |n_lifts: usize, dig_bottom: f64| -> Vec<f64> {
        let lifts = tops.iter().copied().take(n_lifts);
        lifts.chain([dig_bottom]).collect()
    };
    let door = check(&build, StakeWhy::Door, 0.0, 0.0, &drops(5, 13.678_571));
    near(door.dig.unwrap(), 13.678_571 - 1.5);
    // Pit 1: grade 1.051 163, so 13.678 571 − 1.051 163 − 3 = 9.627 408 of base: four lifts, 8.542 857, and 1.084 551, less than 1 1/8:
    // dug to 8.542 857 + 1.125 + 3.
    let pit = check(
        &build,
        StakeWhy::Pit(0),
        48.0,
        -1.051_163,
        &drops(5, 12.667_857),
    );
    near(pit.dig.unwrap(), 1.051_163 + 12.667_857 - 2.928_571);
    // Pit 2 at 14 ft, 12 in left: the old surface there lies 12/15 of the way from 12 1/4 − 6 = 6.25 to 12 3/4 − 6 = 6.75, at 6.65; soft
    // ground ends 2.25 + 1.5 + 6.5 = 10.25 deeper, at 16.9; grade 3.679 072: 13.220 928 below the string, 10.220 928 of base in five lifts.
    let pit = check(
        &build,
        StakeWhy::Pit(1),
        168.0,
        -3.679_072,
        &drops(5, 13.220_928),
    );
    near(pit.dig.unwrap(), 16.9 - 6.25);
    // End of leg 1 and far end: the least base, 4 in, so 7 below the string: a lift and 4 − 2.135 714 of the next.
    check(
        &build,
        StakeWhy::LegEnd(0),
        336.0,
        -28.0 * 0.262_790_8,
        &drops(2, 7.0),
    );
    let end = check(&build, StakeWhy::FarEnd, 456.637_15, -10.0, &drops(2, 7.0));
    near(end.dig.unwrap(), 7.0); // 16 − 6 = 10, where the grade line ends too
    near(end.rows[3].drop, 2.125); // setting bed: 2 1/4 − 1/8
    // Half of 32 5/8 is 16.3125; sailor 2 1/4; side extension 6. The sailor is 8 in deep.
    for (edge, sign) in end.edges.iter().zip([-1.0, 1.0]) {
        near(edge.form_offset, sign * 18.5625);
        near(edge.dig_offset, sign * 24.5625);
        near(edge.trench_bottom.unwrap(), -18.0);
    }
}

/// Outer faces at 144 ± 18.5625 in, 48°: chord 2 R sin 24° (0.406 736 643), middle R (1 − cos 24°) (0.086 454 542).
/// Left, R = 162.5625: 132.240 25 and 14.054 28. Right, R = 125.4375: 102.039 94 and 10.844 65.
#[test]
fn the_curve_of_the_curved_sample_by_hand() {
    let (_, results) = sample("curved-to-a-drive");
    let curves = results.build.unwrap().curves;
    let expected = [
        (162.5625, 132.240_25, 14.054_28),
        (125.4375, 102.039_94, 10.844_65),
    ];
    assert_eq!(curves.len(), 2);
    for (curve, (radius_in, chord_in, middle_in)) in curves.iter().zip(expected) {
        near(curve.chord, chord_in);
        near(curve.arc, radius_in * 0.837_758_041);
        let swing = curve.swing.unwrap();
        near(swing.radius, radius_in);
        near(swing.centre.0, 144.0);
        near(swing.centre.1, 336.0);
        let middle = curve
            .offsets
            .iter()
            .find(|(along, _)| (in_inches(*along) - chord_in / 2.0).abs() < 1e-3);
        near(middle.unwrap().1, middle_in);
    }
}

#[test]
fn every_sample_gives_a_spreadsheet_that_adds_up() {
    for name in WITH_A_BED {
        let (site, results) = sample(name);
        let (line, build) = (results.line.unwrap(), results.build.unwrap());
        let csv = stakes_csv(&site, &line, &build);
        let mut records = csv.split("\r\n");
        let head: Vec<&str> = records.next().unwrap().split(',').collect();
        let column = |name: &str| head.iter().position(|cell| *cell == name).unwrap();
        let unit_m = match site.shown_in {
            ShownIn::FeetInches => 0.3048,
            ShownIn::Metric => 1.0,
        };
        // Rows of the centreline, form and dig at two edges, their trenches, the present surface.
        let stakes = build.stakes.iter().flat_map(|stake| {
            let trenches = stake
                .edges
                .iter()
                .filter(|edge| edge.trench_bottom.is_some());
            let n_old = usize::from(stake.old_surface.is_some());
            std::iter::repeat_n(stake, stake.rows.len() + 4 + trenches.count() + n_old)
        });
        let mut stakes = stakes.fuse();
        for record in records.filter(|record| !record.is_empty()) {
            let stake = stakes.next().unwrap();
            assert!(!record.contains(['"', '\n', '\r']), "{record}");
            let cells: Vec<&str> = record.split(',').collect();
            assert_eq!(cells.len(), head.len(), "{record}");
            let number_m = |name: &str| cells[column(name)].parse::<f64>().unwrap() * unit_m;
            let string_m = in_metres(stake.string);
            assert!(
                (number_m("drop") + number_m("level") - string_m).abs() < 1e-4,
                "{record}"
            );
            assert!(
                (number_m("station") - in_metres(stake.station)).abs() < 1e-4,
                "{record}"
            );
            // No spot lies further from the door than the walk is long.
            let away_m = libm::hypot(number_m("right"), number_m("away"));
            assert!(
                away_m <= number_m("station") + number_m("offset").abs() + 1e-3,
                "{record}"
            );
        }
        assert!(stakes.next().is_none(), "{name}");
        assert_eq!(csv, stakes_csv(&site, &line, &build));
    }
}

#[test]
fn every_sample_gives_a_text_and_json_of_all_stakes() {
    for name in WITH_A_BED {
        let (site, results) = sample(name);
        let build = results.build.unwrap();
        let sheet = stake_sheet(&site, &build);
        assert_eq!(sheet.stakes.len(), build.stakes.len());
        assert_eq!(sheet.rod_at_sill.value, None);
        let text = stakes_text(&sheet);
        for stake in &sheet.stakes {
            assert!(
                text.contains(&stake.station.shown),
                "{name}: {}",
                stake.station.shown
            );
        }
        assert!(!text.contains("Rod,"), "{name}");
        assert!(stakes_json(&sheet).contains("\"underbrick-stakes\""));
    }
}

#[test]
fn a_set_up_adds_the_rod() {
    let (mut site, _) = sample("curved-to-a-drive");
    let rod = underbrick_calc::quantity::feet(5.0);
    site.build.set_ups.push(underbrick_calc::site::SetUp {
        rod_at_sill: Some(rod),
        ..Default::default()
    });
    let results = compute(&site, &underbrick_records::catalogue().unwrap());
    let build = results.build.unwrap();
    let sheet = stake_sheet(&site, &build);
    assert_eq!(sheet.rod_at_sill.shown, "5'-0\"");
    // At the far end the brick lies 10 in below the sill: 5'-10" on the rod; the bottom of the dig 17 in: 6'-5".
    let text = stakes_text(&sheet);
    let told = text
        .split("\nRod, where it reads 5'-0\" on the sill's underside\n")
        .nth(1);
    let row = told
        .unwrap()
        .lines()
        .find(|row| row.contains("far end"))
        .unwrap();
    assert!(row.contains("5'-10\"") && row.contains("6'-5\""), "{row}");
    let csv = stakes_csv(&site, &results.line.unwrap(), &build);
    assert!(
        csv.lines()
            .any(|record| record.contains("far end,brick-top,") && record.ends_with(",5.8333,,ft"))
    );
}
