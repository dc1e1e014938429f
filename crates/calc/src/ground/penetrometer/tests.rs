//! Logs: layers that are found, strengths that follow, and what a log may not be.

use super::*;
use crate::line::tests::{site, straight};
use crate::quantity::{feet, in_metres};
use crate::site::{PenetrometerRow, Pit, PitEnd};
use proptest::prelude::*;

/// A log in millimetres.
fn log(start_mm: f64, rows: &[(u32, f64)]) -> PenetrometerLog {
    PenetrometerLog {
        start: Some(millimetres(start_mm)),
        rows: rows
            .iter()
            .map(|(blows, reading_mm)| PenetrometerRow {
                blows: Some(*blows),
                reading: Some(millimetres(*reading_mm)),
            })
            .collect(),
        ..PenetrometerLog::default()
    }
}

fn found(log: PenetrometerLog) -> (Option<Penetrometer>, Findings) {
    let mut site = site(vec![straight(feet(20.0))]);
    site.pits = vec![Pit {
        station: None,
        offset: None,
        layers: Vec::new(),
        seep: None,
        ended: PitEnd::Stopped,
        penetrometer: log,
    }];
    let mut findings = Findings::default();
    let found = penetrometers(&site, &mut findings).pop();
    (found, findings)
}

/// Check value D19, a synthetic log.
const FIELD_LOG: [(u32, f64); 8] = [
    (1, 42.0),
    (5, 82.0),
    (5, 120.0),
    (5, 160.0),
    (3, 205.0),
    (2, 265.0),
    (1, 305.0),
    (1, 347.0),
];

/// Check value D19, row by row: travel per blow and CBR by the general relation.
#[test]
fn each_row_of_the_field_log_has_its_published_travel() {
    let expected = [
        (12.0, 18.1),
        (8.0, 28.4),
        (7.6, 30.1),
        (8.0, 28.4),
        (15.0, 14.1),
        (30.0, 6.5),
        (40.0, 4.7),
        (42.0, 4.4),
    ];
    let mut before_mm = 30.0;
    for ((blows, reading_mm), (d_mm, cbr)) in FIELD_LOG.into_iter().zip(expected) {
        let (one, findings) = found(log(before_mm, &[(blows, reading_mm)]));
        let one = one.unwrap();
        let layer = one.layers.first().unwrap();
        assert!((layer.per_blow.get::<millimeter>() - d_mm).abs() < 1e-9);
        assert!((layer.strength.cbr.percent() - cbr).abs() < 0.1);
        assert_eq!(findings, Findings::default());
        before_mm = reading_mm;
    }
}

/// Check values D19 and D20: the natural breaks lie at readings 160, 205 and 265, and a layer's strength follows from whole travel ÷
/// all blows.
#[test]
fn the_field_log_breaks_where_it_naturally_does() {
    let (found, findings) = found(log(30.0, &FIELD_LOG));
    let found = found.unwrap();
    let faces: Vec<f64> = found
        .layers
        .iter()
        .map(|layer| (layer.to.get::<millimeter>() + 30.0).round())
        .collect();
    assert_eq!(faces, [160.0, 205.0, 265.0, 347.0]);
    let (first, last) = (found.layers.first().unwrap(), found.layers.last().unwrap());
    assert!((first.per_blow.get::<millimeter>() - 8.125).abs() < 1e-9); // 130 / 16
    assert!((first.strength.cbr.percent() - 27.95).abs() < 0.05);
    assert!((last.per_blow.get::<millimeter>() - 41.0).abs() < 1e-9); // 82 / 2
    assert!((last.strength.cbr.percent() - 4.56).abs() < 0.05);
    // The mean of both rows' strengths is another figure.
    assert!((last.strength.cbr.percent() - 4.561).abs() < 0.002);
    assert!(found.misfit <= found.allowed_misfit);
    assert_eq!(found.weakest(), Some(last));
    assert_eq!(findings, Findings::default());
}

/// Check value D18, the unit trap: the same log in inches gives the same strengths.
#[test]
fn a_log_in_inches_gives_the_same_strengths() {
    let (in_mm, _) = found(log(25.4, &[(2, 76.2), (3, 152.4)])); // 1 in a blow
    let mut written = log(0.0, &[]);
    written.start = Some(inches(1.0));
    written.rows = [(2, 3.0), (3, 6.0)]
        .map(|(blows, reading_in)| PenetrometerRow {
            blows: Some(blows),
            reading: Some(inches(reading_in)),
        })
        .to_vec();
    let (in_inches, _) = found(written);
    for found in [in_mm.unwrap(), in_inches.unwrap()] {
        assert_eq!(found.layers.len(), 1);
        let layer = found.layers.first().unwrap();
        assert!((layer.strength.cbr.percent() - 7.80).abs() < 0.01);
        assert_eq!(layer.per_blow_words(ShownIn::FeetInches), "1.00 in");
        assert_eq!(layer.per_blow_words(ShownIn::Metric), "25.4 mm");
    }
}

/// ASTM D6951, from memory: travel under the 4.6 kg hammer counts twice.
#[test]
fn a_light_hammer_counts_twice() {
    let light = PenetrometerLog {
        hammer: Hammer::Light,
        ..log(0.0, &[(10, 100.0)])
    };
    let found = found(light).0.unwrap();
    let layer = found.layers.first().unwrap();
    assert!((layer.per_blow.get::<millimeter>() - 10.0).abs() < 1e-9);
    assert!((layer.strength.cbr.percent() - 10.19).abs() < 0.01); // check value D8, 20 mm
}

#[test]
fn the_soil_chooses_the_relation() {
    let at = |driven_into| {
        let log = PenetrometerLog {
            driven_into,
            ..log(0.0, &[(5, 125.0)])
        };
        let layers = found(log).0.unwrap().layers;
        layers.first().unwrap().strength.cbr.percent()
    };
    // Check value D9, 25 mm a blow.
    assert!((at(DrivenInto::AnySoil) - 7.94).abs() < 0.01);
    assert!((at(DrivenInto::FatClay) - 13.93).abs() < 0.01);
    assert!((at(DrivenInto::LeanClay) - 5.52).abs() < 0.01);
}

#[test]
fn a_layer_far_down_does_not_decide() {
    // 300 mm of 10 mm a blow, 100 mm of 5, then 50 mm a blow from 400 mm down.
    let (found, _) = found(log(
        0.0,
        &[(15, 150.0), (15, 300.0), (20, 400.0), (2, 500.0)],
    ));
    let found = found.unwrap();
    assert_eq!(found.layers.len(), 3);
    let weakest = found.weakest().unwrap();
    assert!((weakest.per_blow.get::<millimeter>() - 10.0).abs() < 1e-9);
}

#[track_caller]
fn used_to(log: PenetrometerLog, place: Place, weight: Weight, words: &str, depth_mm: f64) {
    let (found, findings) = found(log);
    let told: Vec<_> = findings.iter().collect();
    assert!(
        told.len() == 1
            && told.iter().all(|finding| finding.place == place
                && finding.weight == weight
                && finding.text.contains(words)),
        "{told:#?}"
    );
    let depth = found.map_or(0.0, |found| {
        found
            .layers
            .last()
            .map_or(0.0, |layer| layer.to.get::<millimeter>())
    });
    assert!((depth - depth_mm).abs() < 1e-9, "{depth}");
}

/// Check value D21, and whatever else a log may not be: named with field and value, and used down to there.
#[test]
fn a_log_that_cannot_be_is_named_and_used_down_to_there() {
    let reading = |row_idx| Place::PenetrometerReading(0, row_idx);
    let blows = |row_idx| Place::PenetrometerBlows(0, row_idx);
    let start = Place::PenetrometerStart(0);
    let good = || log(30.0, &[(5, 80.0), (5, 130.0), (5, 180.0)]);
    let with = |change: fn(&mut PenetrometerRow)| {
        let mut log = good();
        log.rows.get_mut(1).map(change).unwrap();
        log
    };
    let (warning, note) = (Weight::Warning, Weight::Note);
    used_to(
        with(|row| row.reading = Some(millimetres(63.5))),
        reading(1),
        warning,
        "row 2 reading: 2 1/2\" lies above 3 1/8\", the reading before it",
        50.0,
    );
    used_to(
        with(|row| row.reading = Some(millimetres(80.0))),
        reading(1),
        warning,
        "does not move",
        50.0,
    );
    used_to(
        with(|row| row.blows = Some(0)),
        blows(1),
        warning,
        "row 2 blows: 0 is below the least that can be true, 1",
        50.0,
    );
    used_to(
        with(|row| row.blows = None),
        blows(1),
        warning,
        "row 2 blows is not known",
        50.0,
    );
    used_to(
        with(|row| row.reading = None),
        reading(1),
        warning,
        "row 2 reading is not known",
        50.0,
    );
    // An empty row between others would give its travel to the blows after it.
    used_to(
        with(|row| *row = PenetrometerRow::default()),
        blows(1),
        warning,
        "row 2 blows is not known",
        50.0,
    );
    for bad_mm in [f64::NAN, f64::INFINITY] {
        let mut log = good();
        log.rows.get_mut(1).unwrap().reading = Some(millimetres(bad_mm));
        used_to(
            log,
            reading(1),
            warning,
            "not a number that can be measured",
            50.0,
        );
    }
    let mut negative = good();
    negative.rows.get_mut(0).unwrap().reading = Some(millimetres(-254.0));
    used_to(
        negative,
        reading(0),
        warning,
        "-10\" is below the least that can be true",
        0.0,
    );
    let mut no_start = good();
    no_start.start = None;
    used_to(no_start, start, warning, "start is not known", 0.0);
    let mut on_its_way = good();
    on_its_way.rows.push(PenetrometerRow {
        blows: Some(3),
        reading: None,
    });
    used_to(
        on_its_way,
        reading(3),
        note,
        "row 4 reading is not known",
        150.0,
    );
}

#[test]
fn rows_at_the_end_that_are_empty_say_nothing() {
    let mut log = log(30.0, &[(5, 80.0)]);
    log.rows.push(PenetrometerRow::default());
    let (found, findings) = found(log);
    assert!(found.is_some());
    assert_eq!(findings, Findings::default());
    let empty = PenetrometerLog {
        start: Some(millimetres(30.0)),
        ..PenetrometerLog::default()
    };
    assert_eq!(super::tests::found(empty), (None, Findings::default()));
}

#[test]
fn a_log_without_end_is_read_to_its_limit() {
    let rows: Vec<(u32, f64)> = (1..=250).map(|nth| (1, f64::from(nth))).collect();
    let (found, findings) = found(log(0.0, &rows));
    assert_eq!(found.unwrap().layers.len(), 1);
    assert!(
        findings
            .iter()
            .any(|finding| finding.text.contains("250 rows, more than the 200")),
        "{findings:?}"
    );
}

/// Noise that is the same in every run, from −1 to 1: a congruential generator with the constants of Numerical Recipes.
fn noise(state: &mut u32) -> f64 {
    *state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
    f64::from(*state) / f64::from(u32::MAX) * 2.0 - 1.0
}

#[test]
fn a_noisy_log_gives_its_layers_back() {
    // 6 mm a blow to 180 mm, 24 mm a blow to 420 mm, 11 mm a blow to 640 mm, each reading off by up to 2 mm.
    for seed in 0..200_u32 {
        let mut state = seed;
        let mut rows = Vec::new();
        let mut down_mm = 0.0;
        for (n_rows, blows, d_mm) in [(6, 5, 6.0), (5, 2, 24.0), (5, 4, 11.0)] {
            for _ in 0..n_rows {
                down_mm += f64::from(blows) * d_mm;
                rows.push((blows, 100.0 + down_mm + 2.0 * noise(&mut state)));
            }
        }
        let found = found(log(100.0, &rows)).0.unwrap();
        let layers: Vec<(f64, f64)> = found
            .layers
            .iter()
            .map(|layer| {
                (
                    in_metres(layer.to) * 1000.0,
                    in_metres(layer.per_blow) * 1000.0,
                )
            })
            .collect();
        assert_eq!(layers.len(), 3, "seed {seed}: {layers:?}");
        for ((to_mm, per_blow_mm), (face_mm, d_mm)) in
            layers
                .into_iter()
                .zip([(180.0, 6.0), (420.0, 24.0), (640.0, 11.0)])
        {
            assert!((to_mm - face_mm).abs() < 3.0, "seed {seed}: face {to_mm}");
            assert!(
                (per_blow_mm / d_mm - 1.0).abs() < 0.05,
                "seed {seed}: {per_blow_mm}"
            );
        }
    }
}

proptest! {
    /// Whatever goes down gives layers that fill the log without gap, within the misfit that is allowed.
    #[test]
    fn layers_fill_the_log(rows in prop::collection::vec((1_u32..=100, 1.0..60.0_f64), 1..40)) {
        let mut reading_mm = 20.0;
        let rows: Vec<(u32, f64)> = rows
            .into_iter()
            .map(|(blows, down_mm)| {
                reading_mm += down_mm;
                (blows, reading_mm)
            })
            .filter(|(_, reading_mm)| *reading_mm < 2000.0)
            .collect();
        let n_rows = rows.len();
        let n_blows: u32 = rows.iter().map(|(blows, _)| blows).sum();
        let (found, findings) = found(log(20.0, &rows));
        let found = found.unwrap();
        prop_assert_eq!(findings, Findings::default());
        prop_assert!(found.layers.len() <= n_rows);
        prop_assert_eq!(found.layers.iter().map(|layer| layer.n_blows).sum::<u32>(), n_blows);
        prop_assert!(found.misfit <= found.allowed_misfit);
        let mut face = Length::default();
        for layer in &found.layers {
            prop_assert!(layer.from == face && layer.to > layer.from);
            face = layer.to;
        }
    }
}
