//! What cannot be worked with is named, kept, and costs nothing else.

use super::{changed, figure, folder_with, json_of, sample_file, underbrick};
use std::fs;
use std::path::Path;
use underbrick_records::v1::{Hand, LegShape};
use underbrick_records::{SiteFile, write_site};

/// A reading that cannot be understood is told with its field, its text and what is wrong; the rest is worked out.
#[test]
fn readings_that_cannot_be_understood_are_findings() {
    #[track_caller]
    fn check(change: impl FnOnce(&mut SiteFile), field: &str, told: &[&str]) {
        let (_folder, site) = changed(change);
        let ran = underbrick(&["check", &site]);
        let line = ran.err.lines().find(|line| {
            line.split_once(": ")
                .is_some_and(|(_, rest)| rest.starts_with(field))
        });
        let line = line.unwrap_or_default();
        assert!(
            told.iter().all(|words| line.contains(words)),
            "{told:?} not in {line:?}, all: {}",
            ran.err
        );
    }
    check(
        |file| file.line.string_above_sill = "5'' 3".to_owned(),
        "String above sill",
        &["5'' 3", "cannot be read", "from the readings"],
    );
    check(
        |file| file.line.old_below_sill = "1/0".to_owned(),
        "Sill above old brick",
        &["1/0", "cannot be read"],
    );
    check(
        |file| file.pits[0].layers[2].thickness = "-3 in".to_owned(),
        "Pit 1 layer 3 thickness",
        &["-3 in"],
    );
    check(
        |file| file.line.old_below_sill = "900 ft".to_owned(),
        "Sill above old brick",
        &["900 ft", "above the most"],
    );
    check(
        |file| file.line.width = "NaN".to_owned(),
        "Width",
        &["NaN", "cannot be read"],
    );
    check(
        |file| file.line.fall = "inf".to_owned(),
        "Fall",
        &["inf", "cannot be read"],
    );
    check(
        |file| file.bed.least_base = "4".to_owned(),
        "Least base",
        &["\"4\"", "unit"],
    );
    check(
        |file| file.pits[1].station = "90 ft".to_owned(),
        "Pit 2 station",
        &["beyond the run"],
    );
}

#[test]
fn what_stops_the_job_ends_with_one_and_the_rest_is_written_all_the_same() {
    let (_folder, site) = changed(|file| file.line.width = String::new());
    for command in [
        ["check"].as_slice(),
        &["results"],
        &["results", "--json"],
        &["section"],
        &["section", "--at", "3 ft"],
    ] {
        let ran = underbrick(&[command, &[site.as_str()]].concat());
        assert_eq!(ran.status, Some(1), "{command:?}: {}", ran.err);
        assert!(
            ran.err.lines().any(|line| line.starts_with("stop: ")),
            "{}",
            ran.err
        );
        assert!(!ran.out.is_empty());
    }
    let json = json_of(&site);
    assert_eq!(json["stops"], true);
    assert!(json["stations"].is_null() && json["lifts"].is_null());
    assert!(figure(&json, "base_loose")["value"].is_null());
    usvg::Tree::from_str(
        &underbrick(&["section", &site]).out,
        &usvg::Options::default(),
    )
    .unwrap();

    let (_folder, tight) = changed(|file| {
        file.line.legs[0].shape = LegShape::Curve {
            radius: "1 ft".to_owned(),
            turn: "90 deg".to_owned(),
            hand: Hand::Left,
        };
    });
    let ran = underbrick(&["check", &tight]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.err.contains("stop: Leg 1 radius"), "{}", ran.err);
    assert!(ran.out.starts_with("stopped: "), "{}", ran.out);
}

#[test]
fn bad_files_end_with_two_and_say_where_and_why() {
    #[track_caller]
    fn check(text: impl AsRef<[u8]>, told: &[&str]) {
        let (_folder, site) = folder_with(&text);
        for command in [
            ["check"].as_slice(),
            &["results"],
            &["results", "--json"],
            &["section"],
        ] {
            let ran = underbrick(&[command, &[site.as_str()]].concat());
            assert_eq!(ran.status, Some(2), "{}", ran.err);
            assert!(ran.out.is_empty(), "{}", ran.out);
            assert!(
                ran.err.starts_with("underbrick: ") && ran.err.lines().count() == 1,
                "{}",
                ran.err
            );
            assert!(
                ran.err.contains("site.ron") && told.iter().all(|words| ran.err.contains(words)),
                "{told:?} not in {}",
                ran.err
            );
        }
        let kept = fs::read(Path::new(&site).join("site.ron")).unwrap();
        assert_eq!(kept, text.as_ref(), "the file was touched");
    }
    check("", &["empty"]);
    check("(version: 1,\n address: ", &["line 2, column "]);
    check("(version: 99, shape: round)", &["newer", "99"]);
    check([0x28, 0xff, 0xfe], &["line 1, column 2", "UTF-8"]);
    let good = write_site(&sample_file("metric"));
    let line_of_width = good
        .lines()
        .position(|line| line.contains("\"815 mm\""))
        .unwrap()
        + 1;
    for bare in ["815", "NaN", "inf"] {
        check(
            good.replace("\"815 mm\"", bare),
            &[&format!("line {line_of_width}, column ")],
        );
    }
}

#[test]
fn missing_sites_end_with_two_and_name_the_path() {
    let folder = tempfile::tempdir().unwrap();
    let nowhere = folder.path().join("nowhere");
    for (path, told) in [
        (nowhere.as_path(), "no such folder or file"),
        (folder.path(), "no site.ron"),
    ] {
        let ran = underbrick(&["check", path.to_str().unwrap()]);
        assert_eq!(ran.status, Some(2));
        assert!(
            ran.err.contains(told) && ran.err.contains(path.to_str().unwrap()),
            "{}",
            ran.err
        );
    }
    assert_eq!(underbrick(&["check"]).status, Some(2));
    assert_eq!(underbrick(&["dig", "here"]).status, Some(2));
}
