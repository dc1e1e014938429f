//! A text in `site.ron`: what stands there without quotes is refused in words that help.

use std::fmt;

use serde::Deserializer;
use serde::de::{Error, Visitor};

/// Reads a quoted text, and refuses a bare number: without its unit it could mean anything.
pub fn written<'de, D: Deserializer<'de>>(deserializer: D) -> Result<String, D::Error> {
    deserializer.deserialize_any(QuotedText)
}

struct QuotedText;

impl QuotedText {
    fn bare<E: Error>(number: impl fmt::Display) -> E {
        E::custom(format!(
            "a bare number {number}: write it in quotes with its unit, such as \"9 1/2 in\" or \"240 mm\""
        ))
    }
}

impl Visitor<'_> for QuotedText {
    type Value = String;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter
            .write_str("a text in quotes, such as \"9 1/2 in\", or \"\" where nothing was measured")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        Ok(text.to_owned())
    }

    fn visit_string<E: Error>(self, text: String) -> Result<String, E> {
        Ok(text)
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<String, E> {
        Err(Self::bare(number))
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<String, E> {
        Err(Self::bare(number))
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<String, E> {
        Err(Self::bare(number))
    }
}

/// Whether a value is as usual, and left out of the file.
pub(crate) fn is_usual<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}
