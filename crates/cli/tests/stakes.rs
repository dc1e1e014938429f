//! `underbrick stakes` as it is run.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

fn stakes(name: &str, options: &[&str]) -> Output {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../sample-sites")
        .join(name);
    Command::new(env!("CARGO_BIN_EXE_underbrick"))
        .arg("stakes")
        .arg(folder)
        .args(options)
        .output()
        .unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn stations_m(options: &[&str]) -> Vec<f64> {
    let mut all = options.to_vec();
    all.push("--json");
    let json: Value = serde_json::from_str(&out(&stakes("curved-to-a-drive", &all))).unwrap();
    json["stakes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|stake| stake["station"]["value"].as_f64().unwrap())
        .collect()
}

#[test]
fn the_spacing_is_as_asked() {
    // 10 ft: 10, 20 and 30 ft beside door, four pits, end of leg 1, far end. 5 ft: 5, 15, 25 and 35 too.
    let (wide, close) = (stations_m(&[]), stations_m(&["--spacing", "5 ft"]));
    assert_eq!((wide.len(), close.len()), (10, 14));
    assert!(wide.iter().all(|station_m| close.contains(station_m)));
    assert_eq!(close, stations_m(&["--spacing", "5"])); // bare: feet
    assert!(close.contains(&4.572)); // 15 ft
}

#[test]
fn a_spacing_that_cannot_be_is_said_in_one_line() {
    for (written, said) in [
        ("wide", "--spacing \"wide\" cannot be read"),
        ("-5 ft", "--spacing \"-5 ft\": stakes stand from"),
        ("1/16 in", "--spacing \"1/16 in\": stakes stand from"),
        ("0", "--spacing \"0\": stakes stand from"),
    ] {
        let output = stakes("curved-to-a-drive", &["--spacing", written]);
        assert_eq!(output.status.code(), Some(2), "{written}");
        assert_eq!(out(&output), "");
        let told = String::from_utf8(output.stderr).unwrap();
        assert_eq!(told.lines().count(), 1, "{told}");
        assert!(told.contains(said), "{told}");
    }
}

#[test]
fn text_spreadsheet_and_json_tell_the_same() {
    let text = out(&stakes("metric", &[]));
    assert!(text.contains("Curve of leg 2, outer face of the left edge"));
    let csv = out(&stakes("metric", &["--csv"]));
    assert!(csv.starts_with("station,why,surface,"));
    assert!(
        csv.lines()
            .skip(1)
            .all(|record| record.trim_end().ends_with(",m"))
    );
    let json: Value = serde_json::from_str(&out(&stakes("metric", &["--json"]))).unwrap();
    assert_eq!(json["format"], "underbrick-stakes");
    assert_eq!(json["curves"].as_array().unwrap().len(), 2);
    assert_eq!(json["screed"]["proud"]["value"], 3.2); // 1/8 in
    assert_eq!(
        stakes("metric", &["--csv", "--json"]).status.code(),
        Some(2)
    );
}
