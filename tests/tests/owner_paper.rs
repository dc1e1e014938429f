//! The owner sheet of every sample site as PDF, on both papers.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::compute;
use underbrick_calc::order::Way;
use underbrick_calc::place::Place;
use underbrick_calc::site::{Letterhead, Site};
use underbrick_records::v1::{Signature, Stamp};
use underbrick_records::{OpenSite, STARTER_LETTERHEAD, SiteFile, read_letterhead};
use underbrick_sheets::agreement::{Design, terms};
use underbrick_sheets::owner::{OwnerSheet, owner_sheet};
use underbrick_sheets::paper::{Paper, lay_out, write_pdf};

/// Writes a sheet to the folder that `OWNER_PAPER` names, for whoever wants to look at it.
fn keep(name: &str, pdf: &[u8]) {
    if let Some(folder) = std::env::var_os("OWNER_PAPER") {
        std::fs::write(PathBuf::from(folder).join(name), pdf).unwrap();
    }
}

#[test]
fn the_owner_sheet_of_every_sample_is_laid_out_and_written() {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let samples = root.parent().expect("the tests package stands in the root");
    let catalogue = underbrick_records::catalogue().unwrap();
    let letterhead = read_letterhead(STARTER_LETTERHEAD).unwrap();
    for entry in std::fs::read_dir(samples.join("sample-sites")).unwrap() {
        let folder = entry.unwrap().path();
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        let (mut site, _) = OpenSite::open(&folder).unwrap().site().checked(&catalogue);
        for (paper, way) in [(Paper::Letter, Way::NewBase), (Paper::A4, Way::Relay)] {
            site.order.way = way;
            let results = compute(&site, &catalogue);
            let design = Design {
                site: &site,
                catalogue: &catalogue,
                results: &results,
                letterhead: Some(&letterhead),
            };
            let sheet = OwnerSheet {
                paper,
                date: "May 4, 2026",
                pictures: &[],
            };
            let pages = lay_out(&owner_sheet(design, sheet), paper);
            let count = pages.pages.len();
            assert!((4..=9).contains(&count), "{name}, {paper:?}: {count} pages");
            let pdf = write_pdf(&pages).unwrap();
            assert!(pdf.len() < 300_000, "{name}: {} bytes", pdf.len());
            keep(&format!("{name}-{paper:?}.pdf"), &pdf);
        }
    }
}

/// The owner sheet of a record as PDF.
fn printed(site: &Site, letterhead: &Letterhead) -> Vec<u8> {
    let catalogue = underbrick_records::catalogue().unwrap();
    let results = compute(site, &catalogue);
    let design = Design {
        site,
        catalogue: &catalogue,
        results: &results,
        letterhead: Some(letterhead),
    };
    let sheet = OwnerSheet {
        paper: Paper::Letter,
        date: "May 12, 2026",
        pictures: &[],
    };
    write_pdf(&lay_out(&owner_sheet(design, sheet), sheet.paper)).unwrap()
}

fn signed_by(name: &str) -> Signature {
    // A zigzag and a stroke, as a finger draws them.
    let wave = |nth: i32| (60 + 14 * nth, 140 + 45 * (nth % 3) - 20 * (nth % 5));
    Signature {
        name: name.to_owned(),
        strokes: vec![(0..40).map(wave).collect(), vec![(80, 230), (600, 210)]],
        stamp: Stamp {
            at: "2026-05-04T13:30:00Z".to_owned(),
            ..Stamp::default()
        },
    }
}

fn checked(file: &SiteFile) -> Site {
    file.checked(&underbrick_records::catalogue().unwrap()).0
}

#[test]
fn what_was_signed_and_what_has_changed_since_is_printed() {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let folder = root.parent().unwrap().join("sample-sites/metric");
    let letterhead = read_letterhead(STARTER_LETTERHEAD).unwrap();
    let mut file = OpenSite::open(&folder).unwrap().site().clone();
    let site = checked(&file);
    let catalogue = underbrick_records::catalogue().unwrap();
    let now = terms(Design {
        site: &site,
        catalogue: &catalogue,
        results: &compute(&site, &catalogue),
        letterhead: Some(&letterhead),
    });
    file.agree(&now.clauses, signed_by("Rosa Lind")).unwrap();
    file.sign(0, signed_by("Jon Marsh")).unwrap();
    let signed = printed(&checked(&file), &letterhead);
    assert!(file.set_text(Place::SettingBed, "20 mm"));
    let changed = printed(&checked(&file), &letterhead);
    assert_ne!(signed, changed);
    assert_eq!(
        changed,
        printed(&checked(&file), &letterhead),
        "the same bytes"
    );
    keep("signed.pdf", &signed);
    keep("changed.pdf", &changed);
}
