//! The results for machines.

use crate::results::ResultsSheet;
use serde::Serialize;

/// The sheet as JSON: the same bytes for the same site, keys in a fixed order, lines ended by `\n`.
///
/// Every number stands with its unit; a value that is not known is `null`.
#[must_use]
pub fn to_json(sheet: &ResultsSheet) -> String {
    written(sheet)
}

/// A sheet as JSON, with a line end at its end.
pub(crate) fn written<T: Serialize>(sheet: &T) -> String {
    match serde_json::to_string_pretty(sheet) {
        Ok(text) => text + "\n",
        Err(error) => {
            // Texts, numbers and lists always have a form in this notation.
            debug_assert!(false, "a sheet that cannot be written: {error}");
            String::new()
        }
    }
}
