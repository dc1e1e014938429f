//! The owner sheet and the agreement of every sample site, from its file to plain text.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::site::{Letterhead, Site};
use underbrick_records::{OpenSite, STARTER_LETTERHEAD, read_letterhead};
use underbrick_sheets::agreement::Design;
use underbrick_sheets::owner::{OwnerSheet, owner_message, owner_sheet};
use underbrick_sheets::paper::{Document, Paper, as_text};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests package stands in the root")
        .to_path_buf()
}

fn catalogue() -> Catalogue {
    underbrick_records::catalogue().unwrap()
}

fn samples() -> Vec<(String, Site)> {
    let catalogue = catalogue();
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root().join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    let read = folders.iter().map(|folder| {
        let (site, _) = OpenSite::open(folder).unwrap().site().checked(&catalogue);
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        (name, site)
    });
    read.collect()
}

fn letterhead() -> Letterhead {
    read_letterhead(STARTER_LETTERHEAD).unwrap()
}

fn document(site: &Site, letterhead: Option<&Letterhead>) -> (Document, String) {
    let catalogue = catalogue();
    let results = compute(site, &catalogue);
    let design = Design {
        site,
        catalogue: &catalogue,
        results: &results,
        letterhead,
    };
    let sheet = OwnerSheet {
        paper: Paper::Letter,
        date: "May 4, 2026",
        pictures: &[],
    };
    (owner_sheet(design, sheet), owner_message(design))
}

/// Compares with a golden file, or renews it where `UPDATE_GOLDEN` is set.
#[track_caller]
fn golden(name: &str, text: &str) {
    let file = root().join("tests/golden/owner").join(name);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&file, text).unwrap();
    }
    let expected = std::fs::read_to_string(&file).unwrap_or_default();
    assert!(
        expected == text,
        "{name} has changed: look at it, then renew with UPDATE_GOLDEN=1"
    );
}

#[test]
fn the_sheet_of_each_sample_reads_as_it_was_read_aloud() {
    for (name, site) in samples() {
        let (document, message) = document(&site, Some(&letterhead()));
        golden(&format!("{name}.txt"), &as_text(&document));
        golden(&format!("{name}.message.txt"), &message);
    }
}
