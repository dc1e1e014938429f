//! Pictures for paper: at most 1,600 dots on their longer side, upright, stored anew without what a camera wrote about place and time.

use std::path::Path;
use std::sync::Arc;

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use underbrick_calc::site::{PictureOf, Site};

use super::bring::{PictureKind, bytes_in_folder};
use super::decode::{Pixels, decoded};
use super::{PAPER_DOTS, PictureError};

/// How well pictures for paper are stored, of 100.
const QUALITY: u8 = 82;

/// One picture for paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PaperPicture {
    /// What it belongs to.
    pub of: PictureOf,
    /// What it shows; what it belongs to, where nothing was said.
    pub caption: String,
    /// A whole JPEG file, or why there is none, in words.
    pub bytes: Result<Arc<Vec<u8>>, String>,
    /// Dots across; 0 where there is no picture.
    pub width: u32,
    /// Dots down; 0 where there is no picture.
    pub height: u32,
}

/// A picture for paper in dots again, to be looked at before it is printed; its longer side is at most `longest`.
///
/// # Errors
/// [`PictureError::Broken`] where the bytes are no whole picture.
pub fn pixels_of(bytes: &[u8], longest: u32) -> Result<Pixels, PictureError> {
    const NAME: &str = "the picture for paper";
    let Some(kind) = PictureKind::of(bytes) else {
        return Err(PictureError::broken(NAME, "it is neither a JPEG nor a PNG"));
    };
    decoded(bytes, kind, NAME, longest)
}

/// Every picture of a site, in the order in which they were added. The same files give the same bytes on every machine. It takes a
/// good part of a second for each large picture: not on the path of a tap.
#[must_use]
pub fn for_paper(site_folder: &Path, site: &Site) -> Vec<PaperPicture> {
    let pictures = site.show.pictures.iter();
    pictures
        .map(|picture| {
            let caption = match picture.caption.trim() {
                "" => said(picture.of),
                caption => caption.to_owned(),
            };
            let stored = at_print_size(site_folder, &picture.file).and_then(|pixels| {
                Ok((stored(&pixels, &picture.file)?, pixels.width, pixels.height))
            });
            let (bytes, width, height) = match stored {
                Ok((bytes, width, height)) => (Ok(Arc::new(bytes)), width, height),
                Err(error) => (Err(error.to_string()), 0, 0),
            };
            PaperPicture {
                of: picture.of,
                caption,
                bytes,
                width,
                height,
            }
        })
        .collect()
}

/// A picture of the site at the size for print, upright.
pub fn at_print_size(site_folder: &Path, file: &str) -> Result<Pixels, PictureError> {
    let (bytes, kind) = bytes_in_folder(site_folder, file)?;
    decoded(&bytes, kind, file, PAPER_DOTS)
}

/// What a picture belongs to, in words.
fn said(of: PictureOf) -> String {
    match of {
        PictureOf::AsFound => "The walk as found".to_owned(),
        PictureOf::Pit(idx) => format!("Pit {}", idx.saturating_add(1)),
        PictureOf::Sign(idx) => format!("Sign {}", idx.saturating_add(1)),
        PictureOf::Day(idx) => format!("Day {} of the work", idx.saturating_add(1)),
        PictureOf::HandedOver => "The walk as handed over".to_owned(),
    }
}

fn stored(pixels: &Pixels, file: &str) -> Result<Vec<u8>, PictureError> {
    let too_large = |_| PictureError::broken(file, "it is too large for paper");
    let width = u16::try_from(pixels.width).map_err(too_large)?;
    let height = u16::try_from(pixels.height).map_err(too_large)?;
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, QUALITY);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder
        .encode(&pixels.rgb, width, height, ColorType::Rgb)
        .map_err(|error| PictureError::broken(file, &error))?;
    Ok(bytes)
}
