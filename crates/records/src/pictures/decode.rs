//! From a JPEG or PNG file to dots, upright and at the size that is asked for.

use std::fmt;
use std::io::Cursor;

use png::{ColorType, Transformations};
use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

use super::PictureError;
use super::bring::PictureKind;
use super::orientation::Orientation;
use super::shrink::Shrinker;

/// Most dots that are looked at.
pub const LARGEST_DOTS: u64 = 100_000_000;

/// Most memory that one picture may take while it is decoded, in bytes.
pub const MOST_MEMORY: u64 = 400_000_000;

/// A picture in dots, rows from the top.
#[derive(Clone, PartialEq, Eq)]
pub struct Pixels {
    pub(super) width: u32,
    pub(super) height: u32,
    pub(super) rgb: Vec<u8>,
}

impl Pixels {
    /// Dots across.
    #[must_use]
    pub const fn width(&self) -> u32 {
        self.width
    }

    /// Dots down.
    #[must_use]
    pub const fn height(&self) -> u32 {
        self.height
    }

    /// Red, green and blue of each dot, rows from the top.
    #[must_use]
    pub fn rgb(&self) -> &[u8] {
        &self.rgb
    }

    /// One dot; black outside.
    pub(super) fn dot(&self, x: u32, y: u32) -> [u8; 3] {
        let at = 3 * (y as usize * self.width as usize + x as usize);
        let dot = self.rgb.get(at..at + 3);
        dot.and_then(|dot| dot.try_into().ok()).unwrap_or_default()
    }
}

impl fmt::Debug for Pixels {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{} x {} dots", self.width, self.height)
    }
}

/// Decodes a picture and brings it to a size whose longer side is at most `longest`. `file` is what it is called in words.
///
/// # Errors
/// [`PictureError::Broken`], or one of the limits.
pub fn decoded(
    bytes: &[u8],
    kind: PictureKind,
    file: &str,
    longest: u32,
) -> Result<Pixels, PictureError> {
    match kind {
        PictureKind::Jpeg => jpeg(bytes, file, longest),
        PictureKind::Png => png(bytes, file, longest),
    }
}

fn jpeg(bytes: &[u8], file: &str, longest: u32) -> Result<Pixels, PictureError> {
    let broken = |why: &dyn fmt::Display| PictureError::broken(file, why);
    // Without that marker the rest of the picture would come out grey.
    if !has_end(bytes) {
        return Err(broken(&"it ends too soon"));
    }
    // Without the processor's own ways, which round differently from one machine to the next.
    let options = DecoderOptions::default()
        .set_use_unsafe(false)
        .set_max_width(usize::from(u16::MAX))
        .set_max_height(usize::from(u16::MAX))
        .jpeg_set_out_colorspace(ColorSpace::RGB);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    decoder.decode_headers().map_err(|error| broken(&error))?;
    let Some(info) = decoder.info() else {
        return Err(broken(&"it has no head"));
    };
    let size = (u32::from(info.width), u32::from(info.height));
    let n_dots = within_dots(size, file)?;
    let coefficients = if info.sof.is_progressive() {
        2 * n_dots * u64::from(info.components)
    } else {
        0
    };
    within_memory(3 * n_dots + coefficients, file)?;
    let orientation = decoder
        .exif()
        .map_or(Orientation::UPRIGHT, |exif| Orientation::read(exif));
    let mut rgb = vec![0; decoder.output_buffer_size().unwrap_or(0)];
    decoder
        .decode_into(&mut rgb)
        .map_err(|error| broken(&error))?;
    let row_bytes = 3 * usize::from(info.width);
    if rgb.len() != row_bytes * usize::from(info.height) {
        return Err(broken(&"its colours cannot be read"));
    }
    let mut shrinker = Shrinker::new(size, longest);
    for row in rgb.chunks_exact(row_bytes.max(1)) {
        shrinker.row(row);
    }
    Ok(orientation.upright(shrinker.finish()))
}

/// Whether the marker EOI stands somewhere after the first scan: no picture data can look like it (ISO/IEC 10918-1, B.1.1.5).
fn has_end(bytes: &[u8]) -> bool {
    let mut at = 2;
    // Segments up to the scan; a small picture within one of them has an end of its own.
    while let Some([0xff, marker]) = bytes.get(at..at + 2) {
        match marker {
            0xda => break,
            0xff => at += 1,
            _ => {
                let Some([high, low]) = bytes.get(at + 2..at + 4) else {
                    return false;
                };
                at += 2 + usize::from(u16::from_be_bytes([*high, *low]));
            }
        }
    }
    bytes
        .get(at..)
        .is_some_and(|rest| rest.windows(2).any(|pair| pair == [0xff, 0xd9]))
}

fn png(bytes: &[u8], file: &str, longest: u32) -> Result<Pixels, PictureError> {
    let broken = |why: &dyn fmt::Display| PictureError::broken(file, why);
    let mut decoder = png::Decoder::new(Cursor::new(bytes));
    decoder.set_transformations(Transformations::normalize_to_color8());
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    let mut reader = decoder.read_info().map_err(|error| broken(&error))?;
    let info = reader.info();
    let size = (info.width, info.height);
    let is_interlaced = info.interlaced;
    let orientation = info
        .exif_metadata
        .as_ref()
        .map_or(Orientation::UPRIGHT, |exif| Orientation::read(exif));
    let n_dots = within_dots(size, file)?;
    let (color, _) = reader.output_color_type();
    let mut shrinker = Shrinker::new(size, longest);
    let mut row_rgb = Vec::with_capacity(3 * size.0 as usize);
    if is_interlaced {
        let samples = u64::try_from(color.samples()).unwrap_or(4);
        within_memory(samples * n_dots, file)?;
        let mut whole = vec![0; reader.output_buffer_size().unwrap_or(0)];
        let frame = reader
            .next_frame(&mut whole)
            .map_err(|error| broken(&error))?;
        for row in whole.chunks_exact(frame.line_size.max(1)) {
            on_white(row, color, &mut row_rgb);
            shrinker.row(&row_rgb);
        }
    } else {
        for _ in 0..size.1 {
            match reader.next_row().map_err(|error| broken(&error))? {
                Some(row) => on_white(row.data(), color, &mut row_rgb),
                None => return Err(broken(&"it ends too soon")),
            }
            shrinker.row(&row_rgb);
        }
    }
    // Sums of the data are looked at behind its last row: a row that came may still be a damaged one.
    reader.finish().map_err(|error| broken(&error))?;
    Ok(orientation.upright(shrinker.finish()))
}

/// A row of whatever kind as red, green and blue; what can be seen through stands on white paper.
fn on_white(row: &[u8], color: ColorType, rgb: &mut Vec<u8>) {
    let over = |value: u8, alpha: u8| {
        let (value, alpha) = (u32::from(value), u32::from(alpha));
        u8::try_from((value * alpha + 255 * (255 - alpha) + 127) / 255).unwrap_or(u8::MAX)
    };
    rgb.clear();
    match color {
        ColorType::Grayscale | ColorType::Indexed => {
            rgb.extend(row.iter().flat_map(|grey| [*grey; 3]));
        }
        ColorType::Rgb => rgb.extend_from_slice(row),
        ColorType::GrayscaleAlpha => {
            rgb.extend(row.chunks_exact(2).flat_map(|dot| match dot {
                [grey, alpha] => [over(*grey, *alpha); 3],
                _ => [0; 3],
            }));
        }
        ColorType::Rgba => {
            rgb.extend(row.chunks_exact(4).flat_map(|dot| match dot {
                [red, green, blue, alpha] => [*red, *green, *blue].map(|value| over(value, *alpha)),
                _ => [0; 3],
            }));
        }
    }
}

fn within_dots((width, height): (u32, u32), file: &str) -> Result<u64, PictureError> {
    let n_dots = u64::from(width) * u64::from(height);
    if n_dots == 0 {
        return Err(PictureError::broken(file, "it has no dots"));
    }
    if n_dots > LARGEST_DOTS {
        return Err(PictureError::TooManyDots {
            file: file.to_owned(),
            megadots: n_dots.div_ceil(1_000_000),
        });
    }
    Ok(n_dots)
}

fn within_memory(bytes: u64, file: &str) -> Result<(), PictureError> {
    if bytes > MOST_MEMORY {
        return Err(PictureError::TooMuchMemory {
            file: file.to_owned(),
            bytes,
        });
    }
    Ok(())
}

#[cfg(test)]
mod tests;
