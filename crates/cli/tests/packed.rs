//! A site as one file, on the command line.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn underbrick(arguments: &[&Path]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_underbrick"))
        .args(arguments)
        .output()
        .unwrap()
}

fn sample() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-sites/curved-to-a-drive")
}

#[test]
fn a_sample_is_packed_and_unpacked_to_the_letter() {
    let folder = tempfile::tempdir().unwrap();
    let (file, sites) = (
        folder.path().join("curved.zip"),
        folder.path().join("sites"),
    );
    let (o, into) = (Path::new("-o"), Path::new("--into"));
    let packed = underbrick(&[Path::new("pack"), &sample(), o, &file]);
    assert!(packed.status.success());
    let unpacked = underbrick(&[Path::new("unpack"), &file, into, &sites]);
    assert!(unpacked.status.success());
    let back = PathBuf::from(String::from_utf8(unpacked.stdout).unwrap().trim());
    assert_eq!(
        std::fs::read(back.join("site.ron")).unwrap(),
        std::fs::read(sample().join("site.ron")).unwrap()
    );
    // Neither is written over.
    let again = underbrick(&[Path::new("pack"), &sample(), o, &file]);
    assert_eq!(again.status.code(), Some(2));
    let said = String::from_utf8(again.stderr).unwrap();
    assert!(
        said.contains("not written over") && said.lines().count() == 1,
        "{said}"
    );
    assert!(
        underbrick(&[Path::new("unpack"), &file, into, &sites])
            .status
            .success()
    );
    assert_eq!(std::fs::read_dir(&sites).unwrap().count(), 2);
}

#[test]
fn what_is_no_packed_site_is_bad_input() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("letter.zip");
    std::fs::write(&file, "dear customer").unwrap();
    let refused = underbrick(&[
        Path::new("unpack"),
        &file,
        Path::new("--into"),
        folder.path(),
    ]);
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8(refused.stderr).unwrap();
    assert!(
        said.contains("no packed site") && said.lines().count() == 1,
        "{said}"
    );
}
