//! What is written in the book.

use crate::quantity::Length;

/// A level book as written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LevelBook {
    /// The sights in the order in which they were taken.
    pub rows: Vec<BookRow>,
    /// Height of the benchmark above the datum; negative where it lies below.
    pub benchmark_above_sill: Option<Length>,
    /// Largest misclosure that is let pass; `None` takes [`super::default_limit`].
    pub limit: Option<Length>,
    /// Whether a misclosure is spread over the set-ups.
    pub spread: bool,
}

/// One sight: a reading of the rod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BookRow {
    /// Which column it is written in.
    pub sight: Sight,
    /// What the rod stands on.
    pub stands: Stands,
    /// Along the run from the door, for a sight on the old surface.
    pub station: Option<Length>,
    /// Square to the run, right positive; `None` is the centreline.
    pub offset: Option<Length>,
    /// What the rod reads; negative for a rod held upside down.
    pub reading: Option<Length>,
}

/// The columns of a level book that take readings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sight {
    /// The first of a set-up, on a point whose level is known.
    Back,
    /// Any between the first and the last of a set-up.
    #[default]
    Intermediate,
    /// The last of a set-up.
    Fore,
}

impl Sight {
    /// Its name in the trade.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Back => "backsight",
            Self::Intermediate => "intermediate sight",
            Self::Fore => "foresight",
        }
    }
}

/// What the rod stands on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stands {
    /// The datum, the underside of the door sill.
    Sill,
    /// The benchmark.
    Benchmark,
    /// A turning point: a peg, a kerb. A backsight here stands where the foresight just before it stood.
    TurningPoint,
    /// The old surface, at a station. A backsight here stands where the foresight just before it stood.
    #[default]
    OldSurface,
}
