//! What someone should look at: checks of the design, readings that are missing, values out of reason.

pub mod rules;

use crate::place::Place;

/// One thing that was found, with the place it concerns and the rule behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Where.
    pub place: Place,
    /// How much it matters.
    pub weight: Weight,
    /// What was found, in plain words, with value, unit and limit.
    pub text: String,
    /// What can be done about it; empty when the text says it.
    pub remedy: String,
    /// Where the rule comes from.
    pub source: Source,
}

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// Right: a check that was kept.
    Right,
    /// Worth knowing.
    Note,
    /// Look at it before the work goes on.
    Warning,
    /// Stops the job: what depends on it is not computed, or would be wrong.
    Stop,
}

/// Where a rule comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// A published rule, named.
    Published(&'static str),
    /// Common practice, no source: a default that may be changed to the local code.
    CommonPractice,
    /// It follows from the readings alone.
    Readings,
}

impl Source {
    /// In words, for a screen or a sheet.
    #[must_use]
    pub fn words(&self) -> &'static str {
        match self {
            Self::Published(name) => name,
            Self::CommonPractice => "common practice, no source",
            Self::Readings => "from the readings",
        }
    }
}

/// Findings in the order in which they were met.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Findings(Vec<Finding>);

impl Findings {
    /// Notes one finding.
    pub fn note(
        &mut self,
        place: Place,
        weight: Weight,
        source: Source,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.0.push(Finding {
            place,
            weight,
            text: text.into(),
            remedy: remedy.into(),
            source,
        });
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.0.iter()
    }

    /// Those at one place.
    pub fn at(&self, place: Place) -> impl Iterator<Item = &Finding> {
        self.0.iter().filter(move |finding| finding.place == place)
    }

    /// Takes in all findings of another list, after its own.
    pub fn append(&mut self, mut other: Self) {
        self.0.append(&mut other.0);
    }

    /// Whether any of them stops the job.
    #[must_use]
    pub fn stop_the_job(&self) -> bool {
        self.0.iter().any(|finding| finding.weight == Weight::Stop)
    }
}
