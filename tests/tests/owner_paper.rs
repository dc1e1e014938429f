//! The owner sheet of every sample site as PDF, on both papers.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::compute;
use underbrick_calc::order::Way;
use underbrick_records::{OpenSite, STARTER_LETTERHEAD, read_letterhead};
use underbrick_sheets::agreement::Design;
use underbrick_sheets::owner::{OwnerSheet, owner_sheet};
use underbrick_sheets::paper::{Paper, lay_out, write_pdf};

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
            if let Some(folder) = std::env::var_os("OWNER_PAPER") {
                let file = PathBuf::from(folder).join(format!("{name}-{paper:?}.pdf"));
                std::fs::write(file, pdf).unwrap();
            }
        }
    }
}
