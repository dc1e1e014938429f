//! What is wrong with a page.

use super::Sight;
use crate::field::full_name;
use crate::place::Place;
use crate::quantity::Length;
use crate::site::ShownIn;

/// A slip in the book: what hangs on it has no level. Row indices count from zero.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{}", self.words(ShownIn::FeetInches))]
pub enum BookFault {
    /// A reading was not written down.
    ReadingMissing {
        /// The row.
        row_idx: usize,
        /// Its column.
        sight: Sight,
    },
    /// A reading is no number.
    NotANumber {
        /// The row.
        row_idx: usize,
        /// Its column.
        sight: Sight,
    },
    /// An intermediate sight or a foresight before any backsight, or after a foresight whose backsight is missing.
    NoSetUp {
        /// The row.
        row_idx: usize,
        /// Its column.
        sight: Sight,
        /// What it reads.
        reading: Option<Length>,
        /// The foresight that has no backsight after it.
        fore_idx: Option<usize>,
    },
    /// A backsight on a turning point on which no foresight was taken just before.
    NoForesight {
        /// The row.
        row_idx: usize,
        /// What it reads.
        reading: Option<Length>,
    },
    /// A sight on the benchmark, whose height was not written down.
    NoBenchmark {
        /// The row.
        row_idx: usize,
    },
}

impl BookFault {
    /// Where it is mended.
    #[must_use]
    pub const fn place(&self) -> Place {
        match self {
            Self::ReadingMissing { row_idx, .. }
            | Self::NotANumber { row_idx, .. }
            | Self::NoSetUp { row_idx, .. }
            | Self::NoForesight { row_idx, .. } => Place::BookReading(*row_idx),
            Self::NoBenchmark { .. } => Place::BookBenchmark,
        }
    }

    /// Row, field and value in words.
    #[must_use]
    pub fn words(&self, shown_in: ShownIn) -> String {
        let value = |reading: Option<Length>| {
            reading
                .filter(|reading| reading.value.is_finite())
                .map_or_else(
                    || "not measured".to_owned(),
                    |reading| shown_in.thickness(reading),
                )
        };
        let name = |row_idx: usize| full_name(Place::BookReading(row_idx));
        match *self {
            Self::ReadingMissing { row_idx, sight } => {
                format!("{} ({}) is missing", name(row_idx), sight.word())
            }
            Self::NotANumber { row_idx, sight } => {
                format!(
                    "{} ({}) is not a number that can be measured",
                    name(row_idx),
                    sight.word()
                )
            }
            Self::NoSetUp {
                row_idx,
                sight,
                reading,
                fore_idx,
            } => {
                let why = fore_idx.map_or_else(
                    || "no backsight stands before it".to_owned(),
                    |fore_idx| {
                        format!(
                            "the backsight after foresight {} is missing",
                            fore_idx.saturating_add(1)
                        )
                    },
                );
                format!(
                    "{} ({}, {}) has no set-up: {why}",
                    name(row_idx),
                    sight.word(),
                    value(reading)
                )
            }
            Self::NoForesight { row_idx, reading } => {
                format!(
                    "{} (backsight, {}) stands on a turning point that no foresight was taken on just before",
                    name(row_idx),
                    value(reading)
                )
            }
            Self::NoBenchmark { row_idx } => {
                format!(
                    "{} is missing, and sight {} stands on the benchmark",
                    full_name(Place::BookBenchmark),
                    row_idx.saturating_add(1)
                )
            }
        }
    }
}
