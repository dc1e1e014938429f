//! The bundled type, B612 (SIL Open Font License): its bytes for those who draw, and its measure for those who lay out.

use std::sync::OnceLock;
use ttf_parser::{Face, GlyphId};

/// Regular weight, an OpenType file.
pub const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/B612-Regular.otf");
/// Bold weight, an OpenType file.
pub const BOLD: &[u8] = include_bytes!("../../../assets/fonts/B612-Bold.otf");

/// Height of a figure above the baseline, in ems, where the file does not say.
const FALLBACK_FIGURE_HEIGHT: f64 = 0.7;
/// Advance of a letter, in ems, where the file does not say.
const FALLBACK_ADVANCE: f64 = 0.6;
/// Letters below this code point have their advance kept in a table: Latin with its accents.
const KEPT: u32 = 0x180;

/// Weight of type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Notes and values.
    Regular,
    /// Titles and dimensions.
    Bold,
}

/// Advance of a string set in one weight, in ems, without kerning. A letter that the type lacks counts as its missing-glyph box.
#[must_use]
pub fn advance(letters: &str, weight: Weight) -> f64 {
    let measure = Measure::of(weight);
    letters.chars().map(|letter| measure.advance(letter)).sum()
}

/// Advance of one letter, in ems.
#[must_use]
pub fn advance_of(letter: char, weight: Weight) -> f64 {
    Measure::of(weight).advance(letter)
}

/// Height of the figures above the baseline, in ems.
#[must_use]
pub fn figure_height(weight: Weight) -> f64 {
    Measure::of(weight).figure_height
}

/// Whether the type has a shape for this letter.
#[must_use]
pub fn has(letter: char, weight: Weight) -> bool {
    glyph(letter, weight).is_some()
}

/// Number of the type's shape for a letter; `None` where it has none. A control letter and the mark of byte order have none, though a
/// font may carry an empty one: no reader of a PDF may be told of them.
#[must_use]
pub fn glyph(letter: char, weight: Weight) -> Option<u16> {
    if letter.is_control() || letter == '\u{feff}' {
        return None;
    }
    let face = Measure::of(weight).face.as_ref()?;
    let glyph = face.glyph_index(letter)?;
    // A table of letters may end in one that stands for what is missing.
    (glyph != GlyphId(0)).then_some(glyph.0)
}

/// One face, read once.
struct Measure {
    face: Option<Face<'static>>,
    units_per_em: f64,
    figure_height: f64,
    kept: Vec<f64>,
}

impl Measure {
    fn of(weight: Weight) -> &'static Self {
        static REGULAR_MEASURE: OnceLock<Measure> = OnceLock::new();
        static BOLD_MEASURE: OnceLock<Measure> = OnceLock::new();
        match weight {
            Weight::Regular => REGULAR_MEASURE.get_or_init(|| Self::read(REGULAR)),
            Weight::Bold => BOLD_MEASURE.get_or_init(|| Self::read(BOLD)),
        }
    }

    fn read(bytes: &'static [u8]) -> Self {
        let face = Face::parse(bytes, 0).ok();
        let units_per_em = face
            .as_ref()
            .map_or(1000.0, |face| f64::from(face.units_per_em()));
        let figure_height = face
            .as_ref()
            .and_then(|face| face.glyph_bounding_box(face.glyph_index('7')?))
            .map_or(FALLBACK_FIGURE_HEIGHT, |bounds| {
                f64::from(bounds.y_max) / units_per_em
            });
        let mut measure = Self {
            face,
            units_per_em,
            figure_height,
            kept: Vec::new(),
        };
        measure.kept = (0..KEPT)
            .map(|code| char::from_u32(code).map_or(0.0, |letter| measure.looked_up(letter)))
            .collect();
        measure
    }

    fn advance(&self, letter: char) -> f64 {
        let kept = usize::try_from(u32::from(letter))
            .ok()
            .and_then(|code| self.kept.get(code));
        kept.copied().unwrap_or_else(|| self.looked_up(letter))
    }

    fn looked_up(&self, letter: char) -> f64 {
        let Some(face) = &self.face else {
            return FALLBACK_ADVANCE;
        };
        let glyph = face.glyph_index(letter).unwrap_or(GlyphId(0));
        face.glyph_hor_advance(glyph)
            .map_or(FALLBACK_ADVANCE, |units| {
                f64::from(units) / self.units_per_em
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_of_one_width_in_both_weights() {
        for weight in [Weight::Regular, Weight::Bold] {
            let nought = advance("0", weight);
            assert!(nought > 0.4 && nought < 0.8, "{nought} em");
            for figure in "123456789".chars() {
                assert!(
                    (advance(&figure.to_string(), weight) - nought).abs() < 1e-9,
                    "{figure}"
                );
            }
        }
    }

    #[test]
    fn a_missing_letter_counts_as_its_box() {
        // U+2044, the fraction slash, is not in the type.
        assert!(!has('\u{2044}', Weight::Regular));
        assert!(advance("\u{2044}", Weight::Regular) > 0.0);
    }

    #[test]
    fn what_steers_a_terminal_has_no_shape() {
        for letter in ['\0', '\u{7}', '\u{1b}', '\u{85}', '\u{feff}', '\u{ffff}'] {
            assert!(!has(letter, Weight::Regular), "{letter:?}");
        }
    }

    #[test]
    fn primes_and_accents_are_there() {
        for weight in [Weight::Regular, Weight::Bold] {
            for letter in "′″×ñáéíóú¿¡".chars() {
                assert!(has(letter, weight), "{letter}");
            }
        }
    }

    #[test]
    fn kept_and_looked_up_advances_agree() {
        let measure = Measure::of(Weight::Bold);
        for letter in "Ag7é".chars() {
            assert!((measure.advance(letter) - measure.looked_up(letter)).abs() < 1e-12);
        }
    }
}
