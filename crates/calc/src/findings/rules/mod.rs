//! Why the old walk failed: rules as data, each with what must be seen, and what it points to.

mod curves;
mod fault;
mod look;
mod near;
mod pits;
mod seen;
mod surface;
mod told;
mod words;

pub use fault::RuleFault;
pub use look::Facts;
pub use seen::{LayerLike, Seen};
pub use words::evidence_words;

use crate::place::Place;
use crate::quantity::Length;
use look::Reading;

/// One rule of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct CauseRule {
    /// Its name in the table: what `unless` of another rule names.
    pub id: String,
    /// What must be seen.
    pub seen: Seen,
    /// Rules that say it better: where one of them points to its cause, this one is silent.
    pub unless: Vec<String>,
    /// What it points to.
    pub cause: Cause,
    /// How surely.
    pub strength: Strength,
    /// Two or three words for a drawing.
    pub mark: String,
    /// What is wrong, as the trade says it.
    pub trade: String,
    /// The same for the homeowner.
    pub homeowner: String,
    /// What to do.
    pub remedy: String,
    /// The least rebuilding that cures it; `None` where the table does not say.
    pub cured_by: Option<CuredBy>,
    /// A published rule by its name, or "common practice, no source".
    pub source: String,
}

/// What makes a walk fail.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// Sand, loam, rubbish under the brick: no plate makes it firm.
    BaseNeverPacks,
    /// No base, or too little of it.
    BaseTooThin,
    /// Ground under the base that gives way.
    SoftGround,
    /// Water in the ground that cannot leave.
    WetGround,
    /// The surface sheds its water to the door.
    FallsToHouse,
    /// The surface holds its water.
    TooFlat,
    /// A setting bed that is too thick, or of the wrong stuff.
    SettingBed,
    /// Joints too wide, or empty.
    JointsTooWide,
    /// Nothing holds the edge.
    NoRestraint,
    /// Brick that cannot be laid as it was laid.
    BondCannotClose,
    /// Roots.
    Roots,
    /// Wet ground that freezes and lifts.
    Frost,
    /// Roof water let out at the walk.
    Downpipe,
    /// Not enough was dug to say.
    NotDugEnough,
}

/// The least rebuilding that cures a cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CuredBy {
    /// Laying the brick again on a new setting bed, with joints, fall and restraint as designed.
    Relay,
    /// A new base on ground that may stay.
    NewBase,
    /// New brick as well.
    NewBrick,
    /// None: other work must be done as well, such as leading water away.
    OtherWork,
}

/// How surely a rule points to its cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strength {
    /// It may be so.
    Possible,
    /// It is to be reckoned with.
    Likely,
    /// Little else does this.
    Sure,
}

/// A cause that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct CauseFound {
    /// The rule that found it.
    pub rule_id: String,
    /// What it is.
    pub cause: Cause,
    /// How surely.
    pub strength: Strength,
    /// Two or three words for a drawing.
    pub mark: String,
    /// What is wrong, as the trade says it.
    pub trade: String,
    /// The same for the homeowner.
    pub homeowner: String,
    /// What to do.
    pub remedy: String,
    /// The least rebuilding that cures it; `None` where the table does not say.
    pub cured_by: Option<CuredBy>,
    /// Where the rule comes from.
    pub source: String,
    /// The readings that it stands on, each once, in the order of the rule.
    pub evidence: Vec<Evidence>,
}

/// One reading that a cause stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// Where it stands in the record.
    pub place: Place,
    /// Where it is along the run; `None` for what is everywhere or nowhere along it.
    pub station: Option<Length>,
    /// The reading with its value, as [`evidence_words`] says it, and what it is held against where the table does not say that.
    pub words: String,
    /// How much it counts: a bad sign 3, a plain one or a measured value 2, a slight one or a side of the brick 1.
    pub weight: u32,
}

/// All rules, checked: each id once, every `unless` names another rule, and none leads back to itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CauseRules {
    /// As in the table.
    rules: Vec<CauseRule>,
    /// Indices so that each rule comes after those that may silence it.
    order: Vec<usize>,
}

impl Cause {
    /// In a few words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::BaseNeverPacks => "a base that never packs",
            Self::BaseTooThin => "a base too thin",
            Self::SoftGround => "soft ground",
            Self::WetGround => "wet ground without a way out",
            Self::FallsToHouse => "fall towards the house",
            Self::TooFlat => "too little fall",
            Self::SettingBed => "the setting bed",
            Self::JointsTooWide => "joints too wide or empty",
            Self::NoRestraint => "no restraint",
            Self::BondCannotClose => "a bond that cannot close",
            Self::Roots => "roots",
            Self::Frost => "frost in wet ground",
            Self::Downpipe => "a downpipe",
            Self::NotDugEnough => "not dug deep enough to say",
        }
    }
}

impl Strength {
    /// In one word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Possible => "possible",
            Self::Likely => "likely",
            Self::Sure => "sure",
        }
    }
}

impl Strength {
    /// How many times over a reading counts.
    const fn times(self) -> u32 {
        match self {
            Self::Possible => 1,
            Self::Likely => 2,
            Self::Sure => 3,
        }
    }
}

impl CauseRules {
    /// The rules of a table, checked.
    ///
    /// # Errors
    /// [`RuleFault`] with the index of the rule: an id that stands twice, an `unless` that names no other rule or leads back to
    /// where it started, a condition that could never or would always be met, a text that is missing.
    pub fn new(rules: Vec<CauseRule>) -> Result<Self, RuleFault> {
        let order = fault::check(&rules)?;
        Ok(Self { rules, order })
    }

    /// The rules as in the table.
    #[must_use]
    pub fn rules(&self) -> &[CauseRule] {
        &self.rules
    }

    /// The causes that the facts point to, those with the weightiest evidence first: a plain sign or a measured value counts 2, a bad
    /// sign 3, a slight one 1, each once, twice or three times over by how surely the rule points. Among equals the surest goes first,
    /// then the order of the table.
    #[must_use]
    pub fn causes(&self, facts: &Facts<'_>) -> Vec<CauseFound> {
        let mut found: Vec<(usize, u32, CauseFound)> = Vec::new();
        for rule_idx in &self.order {
            let Some(rule) = self.rules.get(*rule_idx) else {
                continue;
            };
            let is_silenced = found
                .iter()
                .any(|(_, _, cause)| rule.unless.contains(&cause.rule_id));
            if is_silenced {
                continue;
            }
            if let Some(readings) = facts.look(&rule.seen) {
                let readings = each_once(readings);
                let together: u32 = readings.iter().map(|reading| reading.weight).sum();
                let weight = together.saturating_mul(rule.strength.times());
                found.push((*rule_idx, weight, cause_found(rule, facts, &readings)));
            }
        }
        found.sort_by(|one, other| {
            (other.1, other.2.strength, one.0).cmp(&(one.1, one.2.strength, other.0))
        });
        found.into_iter().map(|(_, _, cause)| cause).collect()
    }
}

fn cause_found(rule: &CauseRule, facts: &Facts<'_>, readings: &[Reading]) -> CauseFound {
    CauseFound {
        rule_id: rule.id.clone(),
        cause: rule.cause,
        strength: rule.strength,
        mark: rule.mark.clone(),
        trade: rule.trade.clone(),
        homeowner: rule.homeowner.clone(),
        remedy: rule.remedy.clone(),
        cured_by: rule.cured_by,
        source: rule.source.clone(),
        evidence: readings
            .iter()
            .map(|reading| Evidence {
                place: reading.place,
                station: reading.station,
                words: told::told(facts, reading.place),
                weight: reading.weight,
            })
            .collect(),
    }
}

fn each_once(readings: Vec<Reading>) -> Vec<Reading> {
    let mut met = std::collections::BTreeSet::new();
    readings
        .into_iter()
        .filter(|reading| met.insert(reading.place))
        .collect()
}
