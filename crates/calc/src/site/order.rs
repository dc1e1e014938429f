//! What was decided for the order of this job.

use crate::order::{Item, Money, Stage, Way};
use rust_decimal::Decimal;

/// What was decided for the order. What is not given is as the price list has it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OrderInput {
    /// The way of rebuilding that is ordered.
    pub way: Way,
    /// How many work on it.
    pub n_crew: Option<u32>,
    /// One hour of one person.
    pub crew_rate: Option<Money>,
    /// Lines that are not as the list has them, each item at most once.
    pub lines: Vec<LineWish>,
    /// Stages whose hours are not as the list has them, each at most once.
    pub stages: Vec<StageWish>,
}

/// A line that is not as the list has it.
#[derive(Clone, Debug, PartialEq)]
pub struct LineWish {
    /// Which.
    pub item: Item,
    /// Who sells it.
    pub supplier: Option<String>,
    /// For one unit.
    pub rate: Option<Money>,
    /// Locked at so many units of sale, whatever the readings say now: it has been ordered.
    pub locked: Option<Decimal>,
}

/// A stage whose hours are not as the list has them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StageWish {
    /// Which.
    pub stage: Stage,
    /// Hours of one person for one unit of the list.
    pub hours: Option<Decimal>,
}

impl OrderInput {
    /// What was decided for a line.
    #[must_use]
    pub fn line(&self, item: Item) -> Option<&LineWish> {
        self.lines.iter().find(|line| line.item == item)
    }

    /// Hours that were set for a stage.
    #[must_use]
    pub fn hours_of(&self, stage: Stage) -> Option<Decimal> {
        self.stages.iter().find(|wish| wish.stage == stage)?.hours
    }
}
