//! The drawings, and where they are cut.

use super::{folder_with, sample, underbrick};
use std::fs;
use std::path::PathBuf;

#[test]
fn the_drawings_are_well_formed() {
    let curved = sample("curved-to-a-drive");
    let drawn = |arguments: &[&str]| {
        let ran = underbrick(&[&["section", curved.as_str()], arguments].concat());
        assert_eq!(ran.status, Some(0), "{arguments:?}: {}", ran.err);
        let tree = usvg::Tree::from_str(&ran.out, &usvg::Options::default()).unwrap();
        (ran.out, (tree.size().width(), tree.size().height()))
    };
    let (middle, size) = drawn(&[]);
    assert_eq!(size, (1400.0, 720.0));
    let (wide, size) = drawn(&["--width", "2000", "--height", "600"]);
    assert_eq!(size, (2000.0, 600.0));
    let (at_the_door, _) = drawn(&["--at", "0"]);
    let (dim, _) = drawn(&["--dim"]);
    let (long, _) = drawn(&["--long"]);
    let (long_at_the_door, _) = drawn(&["--long", "--at", "0"]);
    let drawings = [middle, wide, at_the_door, dim, long, long_at_the_door];
    for (idx, drawing) in drawings.iter().enumerate() {
        assert!(
            drawings.iter().skip(idx + 1).all(|other| other != drawing),
            "two drawings are the same"
        );
    }
    for (width, height) in [("200", "200"), ("20000", "200"), ("200", "20000")] {
        drawn(&["--width", width, "--height", height]);
        drawn(&["--long", "--width", width, "--height", height]);
    }
}

#[test]
fn a_station_is_read_as_the_site_is_written() {
    let at = |name: &str, station: &str| underbrick(&["section", &sample(name), "--at", station]);
    let twelve_and_a_half_feet = at("curved-to-a-drive", "12 ft 6 in").out;
    for written in ["12'6\"", "12.5", "150 in", "3.81 m"] {
        assert_eq!(
            at("curved-to-a-drive", written).out,
            twelve_and_a_half_feet,
            "{written}"
        ); // 12.5 × 0.3048 = 3.81
    }
    assert_eq!(at("metric", "3.5").out, at("metric", "3.5 m").out);
    // The run of the curved sample is 28 ft + 12 ft × 48° = 38.0531 ft, and 38'-0 5/8" is 38.0521 ft; 38'-0 11/16" lies past its end,
    // by less than a sixteenth.
    for near_the_end in ["38'-0 5/8\"", "38'-0 11/16\""] {
        assert_eq!(
            at("curved-to-a-drive", near_the_end).status,
            Some(0),
            "{near_the_end}"
        );
    }
    for (station, told) in [
        ("50 ft", ["50'-0\"", "beyond the run", "38'-0 5/8\""]),
        (
            "38'-0 3/4\"",
            ["38'-0 3/4\"", "beyond the run", "38'-0 5/8\""],
        ),
        ("-3", ["-3'-0\"", "before the door", "0\""]),
        ("5'' 3", ["5'' 3", "cannot be read", "character"]),
        ("1/0", ["1/0", "cannot be read", "--at"]),
        ("", ["--at", "cannot be read", ""]),
    ] {
        let ran = at("curved-to-a-drive", station);
        assert_eq!(ran.status, Some(2), "{station}: {}", ran.err);
        assert!(ran.out.is_empty());
        assert!(
            told.iter().all(|words| ran.err.contains(words)),
            "{told:?} not in {}",
            ran.err
        );
    }
    for (option, value) in [("--width", "0"), ("--width", "1e9"), ("--height", "-5")] {
        assert_eq!(
            underbrick(&["section", &sample("metric"), &format!("{option}={value}")]).status,
            Some(2)
        );
    }
}

#[test]
fn a_drawing_goes_to_a_file_but_never_over_the_site() {
    let (folder, site) =
        folder_with(fs::read(PathBuf::from(sample("metric")).join("site.ron")).unwrap());
    let path = folder.path().join("section.svg");
    let ran = underbrick(&["section", &site, "-o", path.to_str().unwrap()]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), ""));
    assert_eq!(
        fs::read_to_string(&path).unwrap(),
        underbrick(&["section", &site]).out
    );

    let site_file = folder.path().join("site.ron");
    let before = fs::read(&site_file).unwrap();
    let ran = underbrick(&["section", &site, "-o", site_file.to_str().unwrap()]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("the site itself"), "{}", ran.err);
    assert_eq!(fs::read(&site_file).unwrap(), before);

    let nowhere = folder.path().join("no/such/folder.svg");
    let ran = underbrick(&["section", &site, "-o", nowhere.to_str().unwrap()]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains(nowhere.to_str().unwrap()), "{}", ran.err);
}
