//! Pictures of a site on its sheets, and what is said of those that cannot be shown.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use jpeg_encoder::{ColorType, Encoder};
use tempfile::TempDir;

fn underbrick(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_underbrick"))
        .args(arguments)
        .output()
        .unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// The metric sample in a folder of its own, with these pictures named in its record: file, caption, what it belongs to.
fn site_with(pictures: &[(&str, &str, &str)]) -> (TempDir, PathBuf) {
    let place = tempfile::tempdir().unwrap();
    let site = place.path().join("site");
    fs::create_dir_all(site.join("pictures")).unwrap();
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-sites/metric/site.ron");
    let mut record = fs::read_to_string(sample).unwrap();
    assert!(
        !record.contains("show:"),
        "the sample has a part of its own"
    );
    let named: String = pictures
        .iter()
        .map(|(file, caption, of)| format!("(file: {file:?}, caption: {caption:?}, of: {of}),"))
        .collect();
    let end = record.trim_end().len() - 1;
    assert_eq!(record.get(end..=end), Some(")"));
    record.insert_str(end, &format!("show: (pictures: [{named}]),\n"));
    fs::write(site.join("site.ron"), record).unwrap();
    (place, site)
}

/// A picture of stripes, as JPEG.
fn jpeg(width: u16, height: u16) -> Vec<u8> {
    let mut rgb = Vec::new();
    for _ in 0..height {
        for x in 0..width {
            rgb.extend(if x % 16 < 8 {
                [160, 70, 50]
            } else {
                [90, 90, 90]
            });
        }
    }
    let mut bytes = Vec::new();
    Encoder::new(&mut bytes, 80)
        .encode(&rgb, width, height, ColorType::Rgb)
        .unwrap();
    bytes
}

/// Makes the sheets of a site; gives the owner sheet, the hand-over record and what was told.
fn sheets(site: &Path) -> (Vec<u8>, Vec<u8>, String) {
    let out = site.join("paper");
    let ran = underbrick(&[
        "sheets",
        site.to_str().unwrap(),
        "--out",
        out.to_str().unwrap(),
        "--date",
        "2026-05-04",
    ]);
    let told = text(&ran.stderr);
    assert!(ran.status.code().is_some_and(|code| code < 2), "{told}");
    let read = |name: &str| fs::read(out.join(name)).unwrap();
    (read("owner.pdf"), read("hand-over.pdf"), told)
}

/// How many pictures that are stored as JPEG a PDF holds.
fn n_jpegs(pdf: &[u8]) -> usize {
    let mark = b"/DCTDecode";
    pdf.windows(mark.len()).filter(|at| at == mark).count()
}

#[test]
fn a_picture_stands_on_the_sheets_that_it_belongs_to() {
    let (_place, bare) = site_with(&[]);
    let (owner, handed_over, _) = sheets(&bare);
    assert_eq!((n_jpegs(&owner), n_jpegs(&handed_over)), (0, 0));

    let (_place, site) = site_with(&[
        ("dip.jpg", "The dip at the door", "AsFound"),
        ("done.jpg", "", "HandedOver"),
    ]);
    // The first is larger than is printed.
    let large = jpeg(3200, 1200);
    fs::write(site.join("pictures/dip.jpg"), &large).unwrap();
    fs::write(site.join("pictures/done.jpg"), jpeg(640, 480)).unwrap();
    let (owner, handed_over, told) = sheets(&site);
    assert_eq!((n_jpegs(&owner), n_jpegs(&handed_over)), (1, 1), "{told}");
    assert!(!told.contains("dip.jpg"), "{told}");
    // What lies in the folder is as it was.
    assert_eq!(fs::read(site.join("pictures/dip.jpg")).unwrap(), large);
    // The same files give the same sheets.
    assert_eq!(sheets(&site).0, owner);
}

/// Checks that one picture is told with these words, and that the sheets come all the same.
#[track_caller]
fn check_told(file: &str, bytes: Option<&[u8]>, words: &str) {
    let (place, site) = site_with(&[(file, "", "AsFound")]);
    // A picture that can be shown lies beside the folder: it is never reached.
    fs::write(place.path().join("secret.jpg"), jpeg(64, 64)).unwrap();
    if let Some(bytes) = bytes {
        fs::write(site.join("pictures").join(file), bytes).unwrap();
    }
    let (owner, handed_over, told) = sheets(&site);
    assert!(told.contains(words), "{file}: {told}");
    assert_eq!((n_jpegs(&owner), n_jpegs(&handed_over)), (0, 0), "{file}");
    let checked = text(&underbrick(&["check", site.to_str().unwrap()]).stderr);
    assert!(checked.contains(words), "{file}: {checked}");
}

#[test]
fn a_picture_that_cannot_be_shown_is_told_and_stops_nothing() {
    check_told("gone.jpg", None, "gone.jpg is not there");
    check_told("../../secret.jpg", None, "is no name of a picture");
    check_told("a\\b.jpg", None, "is no name of a picture");
    check_told("/secret.jpg", None, "is no name of a picture");
}

#[test]
fn a_broken_picture_leaves_its_sheet_whole() {
    let whole = jpeg(640, 480);
    let cut = whole.get(..whole.len() / 2).unwrap();
    for (name, bytes) in [("cut.jpg", cut), ("words.jpg", b"no picture at all")] {
        let (_place, site) = site_with(&[(name, "", "AsFound")]);
        fs::write(site.join("pictures").join(name), bytes).unwrap();
        let (owner, _, _) = sheets(&site);
        assert_eq!(n_jpegs(&owner), 0, "{name}");
        assert!(owner.starts_with(b"%PDF-"), "{name}");
    }
}
