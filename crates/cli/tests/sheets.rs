//! Everything that is handed over, on the command line.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use underbrick_records::{SiteFile, write_site};

struct Ran {
    status: Option<i32>,
    out: String,
    err: String,
}

fn sheets(site: &Path, out: &Path, more: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_underbrick"))
        .arg("sheets")
        .arg(site)
        .arg("--out")
        .arg(out)
        .args(more)
        .output()
        .unwrap();
    Ran {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

fn sample(name: &str) -> PathBuf {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-sites");
    root.join(name)
}

fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_str().unwrap().to_owned())
        .collect();
    names.sort();
    names
}

const ALL: [&str; 14] = [
    "crew.pdf",
    "crew.txt",
    "cross-section.svg",
    "edge.svg",
    "hand-over.pdf",
    "long-section.svg",
    "order.csv",
    "order.pdf",
    "owner.pdf",
    "owner.txt",
    "plan.svg",
    "readings.csv",
    "set-out.csv",
    "suppliers.txt",
];

const DATED: [&str; 2] = ["--date", "2026-05-04"];

#[test]
fn every_file_is_made_in_a_folder_with_spaces_and_quotes_and_told_on_a_line() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("Mrs \"Lind's\" walk, José").join("new");
    let ran = sheets(&sample("metric"), &out, &DATED);
    assert!(matches!(ran.status, Some(0 | 1)), "{}", ran.err);
    assert_eq!(names_in(&out), ALL, "and nothing half-written");
    let mut told: Vec<&str> = ran
        .out
        .lines()
        .map(|line| line.rsplit('/').next().unwrap())
        .collect();
    told.sort_unstable();
    assert_eq!(told, ALL);
    // Over what stands there already, byte for byte.
    let before: Vec<Vec<u8>> = ALL.map(|name| fs::read(out.join(name)).unwrap()).to_vec();
    let again = sheets(&sample("metric"), &out, &DATED);
    assert_eq!(again.status, ran.status);
    for (name, before) in ALL.iter().zip(before) {
        assert_eq!(fs::read(out.join(name)).unwrap(), before, "{name}");
    }
}

#[test]
fn paper_and_language_are_as_asked() {
    let folder = tempfile::tempdir().unwrap();
    let crew = |more: &[&str]| {
        let ran = sheets(&sample("short-straight-sunk-on-sand"), folder.path(), more);
        assert!(matches!(ran.status, Some(0 | 1)), "{}", ran.err);
        fs::read(folder.path().join("crew.pdf")).unwrap()
    };
    let english = crew(&DATED);
    let spanish = crew(&[&DATED[..], &["--lang", "es"]].concat());
    let a4 = crew(&[&DATED[..], &["--paper", "a4"]].concat());
    assert!(english != spanish && english != a4 && spanish != a4);
}

#[test]
fn a_site_of_which_nothing_is_known_has_sheets_that_say_so() {
    let folder = tempfile::tempdir().unwrap();
    let site = folder.path().join("new walk");
    fs::create_dir(&site).unwrap();
    let written = write_site(&SiteFile::new("12 Slate Row", "front walk"));
    fs::write(site.join("site.ron"), written).unwrap();
    let out = folder.path().join("out");
    let ran = sheets(&site, &out, &DATED);
    assert!(matches!(ran.status, Some(0 | 1)), "{}", ran.err);
    assert_eq!(names_in(&out), ALL);
    for name in ALL.iter().filter(|name| name.ends_with(".pdf")) {
        assert!(
            fs::read(out.join(name)).unwrap().starts_with(b"%PDF-"),
            "{name}"
        );
    }
}

#[test]
fn what_cannot_be_done_names_the_folder_and_the_reason() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("a file");
    fs::write(&file, "text").unwrap();
    let under_a_file = file.join("out");
    let ran = sheets(&sample("metric"), &under_a_file, &DATED);
    assert_eq!(ran.status, Some(2), "{}", ran.err);
    assert!(ran.err.contains("a file/out"), "{}", ran.err);
    assert!(
        ran.err.to_lowercase().contains("not a directory"),
        "{}",
        ran.err
    );

    // A folder stands where a file should: the sheet is named, and nothing half-written is left.
    let out = folder.path().join("out");
    fs::create_dir_all(out.join("crew.pdf").join("full")).unwrap();
    let ran = sheets(&sample("metric"), &out, &DATED);
    assert_eq!(ran.status, Some(2), "{}", ran.err);
    assert!(ran.err.contains("out/crew.pdf"), "{}", ran.err);
    assert_eq!(names_in(&out), ["crew.pdf", "owner.pdf"]);

    for date in ["4 May", "2026-02-30", "", "9999999999-01-01"] {
        let ran = sheets(&sample("metric"), &out, &["--date", date]);
        assert_eq!(ran.status, Some(2), "{date}: {}", ran.err);
        assert!(
            ran.err.contains("--date") && ran.err.contains("2026-05-04"),
            "{}",
            ran.err
        );
    }
    let ran = sheets(&folder.path().join("no such site"), &out, &DATED);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("no such site"), "{}", ran.err);
}
