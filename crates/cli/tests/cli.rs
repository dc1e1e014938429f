//! The program as it is run: exit statuses, what it writes where, and the same numbers as the calculation.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

mod bad_input;
mod drawings;
mod numbers;

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value;
use tempfile::TempDir;
use underbrick_records::v1::FarEnd;
use underbrick_records::{OpenSite, SiteFile, write_site};

const SAMPLES: [&str; 6] = [
    "short-straight-sunk-on-sand",
    "curved-to-a-drive",
    "clay-seep-falls-to-house",
    "metric",
    "half-measured",
    "clay-with-frost",
];

/// What a run of the program left behind.
struct Ran {
    status: Option<i32>,
    out: String,
    err: String,
}

fn underbrick(arguments: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_underbrick"))
        .args(arguments)
        .output()
        .unwrap();
    Ran {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

fn sample(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../sample-sites")
        .join(name);
    folder.to_str().unwrap().to_owned()
}

fn sample_file(name: &str) -> SiteFile {
    OpenSite::open(sample(name)).unwrap().into_parts().0
}

/// A site folder with that text for a site.
fn folder_with(text: impl AsRef<[u8]>) -> (TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("site.ron"), text).unwrap();
    let path = folder.path().to_str().unwrap().to_owned();
    (folder, path)
}

/// The short straight sample with a change.
fn changed(change: impl FnOnce(&mut SiteFile)) -> (TempDir, String) {
    let mut file = sample_file("short-straight-sunk-on-sand");
    change(&mut file);
    folder_with(write_site(&file))
}

fn json_of(site: &str) -> Value {
    serde_json::from_str(&underbrick(&["results", site, "--json"]).out).unwrap()
}

fn figure<'a>(json: &'a Value, key: &str) -> &'a Value {
    json["figures"]
        .as_array()
        .unwrap()
        .iter()
        .find(|figure| figure["key"] == key)
        .unwrap()
}

#[test]
fn every_sample_is_read_and_nothing_stops_it() {
    for name in SAMPLES {
        for command in [
            ["check"].as_slice(),
            &["results"],
            &["results", "--json"],
            &["section"],
            &["section", "--long"],
        ] {
            let ran = underbrick(&[command, &[sample(name).as_str()]].concat());
            assert_eq!(ran.status, Some(0), "{name} {command:?}: {}", ran.err);
            assert!(!ran.out.is_empty());
        }
    }
}

#[test]
fn a_site_is_named_by_folder_or_by_file() {
    let folder = sample("metric");
    let by_folder = underbrick(&["results", &folder, "--json"]).out;
    assert_eq!(
        underbrick(&["results", &format!("{folder}/site.ron"), "--json"]).out,
        by_folder
    );
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("copy of a site.ron");
    fs::copy(Path::new(&folder).join("site.ron"), &copy).unwrap();
    assert_eq!(
        underbrick(&["results", copy.to_str().unwrap(), "--json"]).out,
        by_folder
    );
}

#[test]
fn check_tells_each_finding_on_one_line() {
    let ran = underbrick(&["check", &sample("half-measured")]);
    assert!(ran.err.lines().count() > 4, "{}", ran.err);
    for line in ran.err.lines() {
        let (weight, rest) = line.split_once(": ").unwrap();
        assert!(
            ["stop", "warning", "note", "right"].contains(&weight),
            "{line}"
        );
        assert!(rest.ends_with(']') && rest.contains(" ["), "{line}");
    }
    assert!(
        ran.err
            .lines()
            .any(|line| line.starts_with("warning: Pit 2 station")),
        "{}",
        ran.err
    );
    assert!(
        ran.out.starts_with("fine: 0 to stop the job, "),
        "{}",
        ran.out
    );
    assert_eq!(ran.out.lines().count(), 1);
}

#[test]
fn what_was_not_measured_is_null() {
    let mut file = sample_file("half-measured");
    assert_eq!(
        file.line.far_end,
        FarEnd::Fixed {
            below_sill: String::new()
        }
    );
    let json = json_of(&sample("half-measured"));
    assert!(figure(&json, "fixed_far_end_below_sill")["value"].is_null());
    assert_eq!(figure(&json, "unsuitable_ground")["is_least"], true);
    assert!(
        figure(&json, "unsuitable_ground")["shown"]
            .as_str()
            .unwrap()
            .starts_with("at least ")
    );
    let stations = json["stations"].as_array().unwrap();
    assert!(stations.first().unwrap()["old_surface"].is_object());
    let last = stations.last().unwrap(); // beyond the readings
    assert!(last["old_surface"].is_null() && last["old_surface_held"].is_object());
    assert!(
        json["pits"]
            .as_array()
            .unwrap()
            .iter()
            .all(|pit| pit["seep_depth"].is_null() && pit["unsuitable_bottom_is_found"] == false)
    );
    let text = underbrick(&["results", &sample("half-measured")]).out;
    assert!(
        text.contains("not known") && text.contains("at least"),
        "{text}"
    );

    file.line.shots.clear();
    file.line.old_below_sill.clear();
    let (_folder, site) = folder_with(write_site(&file));
    let json = json_of(&site);
    for key in [
        "dug",
        "old_pavement_lifted",
        "unsuitable_ground",
        "trim",
        "spoil_loose",
        "spoil_mass",
        "fill_below_dig",
    ] {
        assert!(figure(&json, key)["value"].is_null(), "{key}");
    }
    let stations = json["stations"].as_array().unwrap();
    assert!(
        stations
            .iter()
            .all(|row| row["old_surface"].is_null() && row["old_surface_held"].is_null())
    );
}

#[test]
fn keys_and_bytes_are_the_same_every_time() {
    let keys = |name: &str| -> Vec<String> {
        let json = json_of(&sample(name));
        let figures = json["figures"].as_array().unwrap().iter();
        figures
            .map(|figure| figure["key"].as_str().unwrap().to_owned())
            .filter(|key| !key.starts_with("lift_"))
            .collect()
    };
    // All three have a haunch and a fixed far end.
    assert_eq!(keys("curved-to-a-drive"), keys("half-measured"));
    assert_eq!(keys("curved-to-a-drive"), keys("metric"));
    let first: Vec<String> = keys("metric").into_iter().take(4).collect();
    assert_eq!(
        first,
        [
            "run_length",
            "clear_width_at_door",
            "clear_width_at_far_end",
            "first_brick_below_sill"
        ]
    );
    for name in SAMPLES {
        for [command, option] in [
            ["results", "--json"],
            ["section", "--long"],
            ["section", "--dim"],
        ] {
            let run = || underbrick(&[command, option, &sample(name)]).out;
            assert_eq!(run(), run(), "{name} {command} {option}");
        }
    }
}

#[test]
fn findings_of_the_results_go_to_stderr_and_into_the_json() {
    let ran = underbrick(&["results", &sample("half-measured"), "--json"]);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    let findings = json["findings"].as_array().unwrap();
    let n_told = findings
        .iter()
        .filter(|finding| finding["weight"] != "right")
        .count();
    assert_eq!(ran.err.lines().count(), n_told);
    for finding in findings {
        for part in ["place", "weight", "text", "remedy", "source"] {
            assert!(finding[part].is_string(), "{finding}");
        }
    }
}

#[test]
fn a_reader_that_has_seen_enough_is_no_error() {
    let closed = || {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        writer
    };
    for arguments in [["results", "--json"], ["section", "--long"]] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_underbrick"));
        let command = command
            .args(arguments)
            .arg(sample("curved-to-a-drive"))
            .stdout(closed())
            .stderr(Stdio::piped());
        let output = command.spawn().unwrap().wait_with_output().unwrap();
        assert_eq!(output.status.code(), Some(0));
        assert!(
            !String::from_utf8(output.stderr)
                .unwrap()
                .contains("panicked")
        );
    }
    let mut command = Command::new(env!("CARGO_BIN_EXE_underbrick"));
    let command = command
        .args(["check", &sample("half-measured")])
        .stdout(Stdio::null())
        .stderr(closed());
    assert_eq!(command.status().unwrap().code(), Some(0));
}

#[test]
fn the_help_teaches() {
    for command in [
        ["--help"].as_slice(),
        &["check", "--help"],
        &["section", "--help"],
        &["results", "--help"],
    ] {
        let ran = underbrick(command);
        assert_eq!(ran.status, Some(0));
        for words in [
            "Example",
            "underbrick ",
            "Exit status:",
            "a finding stops the job",
            "bad input",
        ] {
            assert!(
                ran.out.contains(words),
                "{words} is not in the help of {command:?}:\n{}",
                ran.out
            );
        }
    }
    assert!(underbrick(&["-h"]).out.contains("Examples:"));
}
