//! Whether the pictures that a record names are there.

use std::path::Path;

use underbrick_calc::field::full_name;
use underbrick_calc::findings::{Findings, Source, Weight};
use underbrick_calc::place::Place;

use super::PictureError;
use super::bring::plain_file;
use crate::v1::SiteFile;

/// A finding for each picture of the record whose file is not there, or is none. A name that leads out of the folder is found when the
/// record is checked, and not looked for.
#[must_use]
pub fn picture_findings(site_folder: &Path, record: &SiteFile) -> Findings {
    let mut findings = Findings::default();
    for (idx, picture) in record.show.pictures.iter().enumerate() {
        if let Err(error) = plain_file(site_folder, &picture.file) {
            note_picture(idx, &error, &mut findings);
        }
    }
    findings
}

/// Notes why the picture of that index cannot be shown. A name that leads out of the folder is none: that is found when the record is
/// checked.
pub fn note_picture(picture_idx: usize, error: &PictureError, findings: &mut Findings) {
    let remedy = match error {
        PictureError::NoName { .. } => return,
        PictureError::Missing { .. } => {
            "Put the file back into the folder pictures of this site, or take the picture away."
        }
        _ => "The file is kept as it is. Take another picture, or take this one away.",
    };
    let place = Place::Picture(picture_idx);
    findings.note(
        place,
        Weight::Warning,
        Source::Readings,
        format!("{}: {error}.", full_name(place)),
        remedy,
    );
}
