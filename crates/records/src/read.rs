//! `site.ron` from text and back.

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::Deserialize;

use crate::layout::joined;
use crate::v1::{SiteFile, VERSION};

/// Largest file that is read: 8 MB, some two thousand times a site.
pub const LARGEST_FILE_BYTES: u64 = 8 * 1024 * 1024;

/// Why a text is not a site.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// It cannot be read from this character on; both count from 1.
    #[error("line {line}, column {column}: {reason}")]
    Text {
        /// Line in the file.
        line: usize,
        /// Character in that line.
        column: usize,
        /// What was not understood.
        reason: String,
    },
    /// A newer Underbrick wrote it.
    #[error("written by a newer Underbrick: format {found}, this one reads format {known}")]
    Newer {
        /// Format of the file.
        found: u32,
        /// Newest format that is read.
        known: u32,
    },
    /// Nothing stands in it.
    #[error("the file is empty")]
    Empty,
    /// It is too large to be a site.
    #[error("the file has {bytes} bytes, more than the {limit} of the largest site that is read")]
    TooLarge {
        /// Its size, or as much of it as was read.
        bytes: u64,
        /// [`LARGEST_FILE_BYTES`].
        limit: u64,
    },
}

/// Reads a site.
///
/// # Errors
/// [`ReadError`] with line and column of what was not understood; a newer format, an empty text and one of more than
/// [`LARGEST_FILE_BYTES`] are told apart.
pub fn read_site(text: &str) -> Result<SiteFile, ReadError> {
    let bytes = u64::try_from(text.len()).unwrap_or(u64::MAX);
    if bytes > LARGEST_FILE_BYTES {
        return Err(ReadError::TooLarge {
            bytes,
            limit: LARGEST_FILE_BYTES,
        });
    }
    let text = without_byte_order_mark(text);
    if text.trim().is_empty() {
        return Err(ReadError::Empty);
    }
    let site = options().from_str::<SiteFile>(text);
    // A newer file is called newer and not misspelt, whatever else stands in it.
    let version = match &site {
        Ok(site) => site.version,
        Err(_) => options()
            .from_str::<VersionOnly>(text)
            .map_or(VERSION, |file| file.version),
    };
    match version {
        VERSION => site.map_err(|error| from_ron(&error)),
        0 => {
            let (line, column) = text
                .find("version")
                .map_or((1, 1), |at| line_and_column(text, at));
            let reason = format!("there is no format 0: the first is {VERSION}");
            Err(ReadError::Text {
                line,
                column,
                reason,
            })
        }
        found => Err(ReadError::Newer {
            found,
            known: VERSION,
        }),
    }
}

/// A site as text: the same bytes for the same site on every machine, each line ended by `\n`.
#[must_use]
pub fn write_site(site: &SiteFile) -> String {
    let pretty = PrettyConfig::new().new_line("\n").indentor("    ");
    match options().to_string_pretty(site, pretty) {
        Ok(text) => format!(
            "// One walk as measured. Each length stands with its unit; \"\" was not measured.\n{}",
            joined(&text)
        ),
        Err(error) => {
            // Strings, choices and lists always have a form in this notation.
            debug_assert!(false, "a site that cannot be written: {error}");
            String::new()
        }
    }
}

/// Reads the bytes of a file as text.
///
/// # Errors
/// [`ReadError::Text`] at the first byte that is not UTF-8.
pub(crate) fn text_of(bytes: Vec<u8>) -> Result<String, ReadError> {
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let before =
            String::from_utf8_lossy(error.as_bytes().get(..good).unwrap_or_default()).into_owned();
        let (line, column) = line_and_column(&before, before.len());
        ReadError::Text {
            line,
            column,
            reason: "a byte that is not text (UTF-8)".to_owned(),
        }
    })
}

/// Optional values are written as themselves: `firmness: Firm`.
pub(crate) fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

pub(crate) fn from_ron(error: &ron::error::SpannedError) -> ReadError {
    ReadError::Text {
        line: error.span.start.line,
        column: error.span.start.col,
        reason: error.code.to_string(),
    }
}

#[derive(Deserialize)]
pub(crate) struct VersionOnly {
    pub(crate) version: u32,
}

pub(crate) fn without_byte_order_mark(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// Line and character, from 1, of a byte in a text.
pub(crate) fn line_and_column(text: &str, at: usize) -> (usize, usize) {
    let before = text.get(..at).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let line = before.matches('\n').count() + 1;
    (
        line,
        before.get(line_start..).unwrap_or_default().chars().count() + 1,
    )
}
