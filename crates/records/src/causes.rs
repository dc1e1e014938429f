//! Tables of causes: the one that is built in, `assets/findings/causes.ron`, and a person's own over it. Each rule has its source.

use std::fmt;

use ron::extensions::Extensions;
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer};
use underbrick_calc::catalogue as calc;
use underbrick_calc::findings::rules::{self, CauseRules, RuleFault};
use underbrick_calc::measure::slope::{Fall, read_fall};
use underbrick_calc::measure::written::read_length_with_unit;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::{self, MaterialKey};

use crate::fields_in::fields_in;
use crate::read::{
    ReadError, VersionOnly, from_ron, line_and_column, options, without_byte_order_mark,
};
use crate::v1;

/// The text of the built-in table: what a person's own table starts from.
pub const BUILT_IN_CAUSES: &str = include_str!("../../../assets/findings/causes.ron");

/// The only format of a table so far.
const CAUSES_VERSION: u32 = 1;

/// The built-in rules, checked against the materials that they name.
///
/// # Errors
/// [`ReadError`] with the line of the rule; a test of this crate reads it, so that a program that was built whole never sees one.
pub(crate) fn built_in(materials: &[calc::Material]) -> Result<CauseRules, ReadError> {
    read_causes(BUILT_IN_CAUSES, materials)
}

/// Reads a table of causes.
///
/// # Errors
/// [`ReadError::Text`] with the line: a word that is not known, a field that is missing, a material that the catalogue lacks, an id
/// that stands twice, an `unless` that names no rule or leads back to its start.
pub fn read_causes(text: &str, materials: &[calc::Material]) -> Result<CauseRules, ReadError> {
    let table = table(text, materials)?;
    CauseRules::new(table.rules).map_err(|fault| at_rule(text, fault.rule_idx(), fault.to_string()))
}

/// Reads a person's own table and lays it over the built-in one: a rule of the same id takes the place of the built-in one, others come
/// after it, and built-in rules that it names under `silenced` are left out.
///
/// # Errors
/// As [`read_causes`]; and an empty text, a newer format, a silenced rule that is not built in. A loop through built-in rules is told at
/// a rule of the person's own that is on it.
pub fn read_own_causes(
    text: &str,
    materials: &[calc::Material],
    built_in: &CauseRules,
) -> Result<CauseRules, ReadError> {
    let text = without_byte_order_mark(text);
    if text.trim().is_empty() {
        return Err(ReadError::Empty);
    }
    let Table {
        rules: own,
        silenced,
    } = table(text, materials)?;
    if let Some(unknown) = silenced
        .iter()
        .find(|id| !built_in.rules().iter().any(|rule| rule.id == **id))
    {
        return Err(at_silenced(text, unknown));
    }
    let is_own = |id: &String| own.iter().any(|rule| rule.id == *id);
    let is_gone = |id: &String| silenced.contains(id) && !is_own(id);
    let without_gone = |rule: &rules::CauseRule| {
        let mut rule = rule.clone();
        rule.unless.retain(|id| !is_gone(id));
        rule
    };
    let kept = || built_in.rules().iter().filter(|rule| !is_gone(&rule.id));
    // Own rules first, in the order of their file, so that what is wrong is told at one of them.
    let own_first = own
        .iter()
        .chain(kept().filter(|rule| !is_own(&rule.id)))
        .map(without_gone)
        .collect();
    CauseRules::new(own_first)
        .map_err(|fault| at_rule(text, own_rule(&fault, &own), fault.to_string()))?;
    let replaced = kept().map(|rule| own.iter().find(|own| own.id == rule.id).unwrap_or(rule));
    let added = own
        .iter()
        .filter(|own| !kept().any(|rule| rule.id == own.id));
    let merged = replaced.chain(added).map(without_gone).collect();
    CauseRules::new(merged)
        .map_err(|fault| at_rule(text, own_rule(&fault, &own), fault.to_string()))
}

/// Which rule of a person's own a fault is told at: the one that has it, or one that is on the loop.
fn own_rule(fault: &RuleFault, own: &[rules::CauseRule]) -> usize {
    match fault {
        RuleFault::Loop { way, .. } => own
            .iter()
            .position(|rule| way.split(", ").any(|id| id == rule.id))
            .unwrap_or(0),
        other => other.rule_idx(),
    }
}

/// A table as it stands, with words and materials checked, and not yet how its rules hang together.
struct Table {
    rules: Vec<rules::CauseRule>,
    silenced: Vec<String>,
}

fn table(text: &str, materials: &[calc::Material]) -> Result<Table, ReadError> {
    // `Layer(materials: [..])` without a second pair of brackets.
    let options = options().with_default_extension(Extensions::UNWRAP_VARIANT_NEWTYPES);
    let file = options.from_str::<CausesFile>(text);
    // A newer table is called newer and not misspelt, whatever else stands in it.
    let version = match &file {
        Ok(file) => file.version,
        Err(_) => options
            .from_str::<VersionOnly>(text)
            .map_or(CAUSES_VERSION, |file| file.version),
    };
    if version == 0 {
        let at = fields_in(text, "version").first().copied().unwrap_or(0);
        let reason = format!("there is no format 0: the first is {CAUSES_VERSION}");
        return Err(said_at(text, at, reason));
    }
    if version > CAUSES_VERSION {
        return Err(ReadError::Newer {
            found: version,
            known: CAUSES_VERSION,
        });
    }
    let file = file.map_err(|error| from_ron(&error))?;
    let rules: Vec<rules::CauseRule> = file.rules.into_iter().map(rule).collect();
    for (rule_idx, rule) in rules.iter().enumerate() {
        if let Some(unknown) = unknown_material(&rule.seen, materials) {
            let reason = format!(
                "the rule {:?} names the material {unknown:?}, which the catalogue does not know",
                rule.id
            );
            return Err(at_rule(text, rule_idx, reason));
        }
    }
    Ok(Table {
        rules,
        silenced: file.silenced,
    })
}

/// The error where a rule says its id.
fn at_rule(text: &str, rule_idx: usize, reason: String) -> ReadError {
    let at = fields_in(text, "id").get(rule_idx).copied().unwrap_or(0);
    said_at(text, at, reason)
}

/// The error where a silenced rule is named.
fn at_silenced(text: &str, id: &str) -> ReadError {
    let quoted = format!("{id:?}");
    let start = fields_in(text, "silenced").first().copied().unwrap_or(0);
    let named = text.get(start..).and_then(|rest| rest.find(&quoted));
    let reason = format!("{quoted} is silenced, and no built-in rule is called so");
    said_at(text, start + named.unwrap_or(0), reason)
}

fn said_at(text: &str, at: usize, reason: String) -> ReadError {
    let (line, column) = line_and_column(text, at);
    ReadError::Text {
        line,
        column,
        reason,
    }
}

fn unknown_material(seen: &rules::Seen, materials: &[calc::Material]) -> Option<String> {
    use rules::Seen;
    let unknown = |like: &rules::LayerLike| {
        like.materials
            .iter()
            .find(|key| !materials.iter().any(|material| material.key == **key))
            .map(|key| key.0.clone())
    };
    match seen {
        Seen::All(list) | Seen::Any(list) => list
            .iter()
            .find_map(|each| unknown_material(each, materials)),
        Seen::Not(inner) => unknown_material(inner, materials),
        Seen::Near { one, other, .. } => {
            unknown_material(one, materials).or_else(|| unknown_material(other, materials))
        }
        Seen::Layer(like) | Seen::SettingBed(like) => unknown(like),
        Seen::LayerAbove { upper, lower } => unknown(upper).or_else(|| unknown(lower)),
        _ => None,
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "causes")]
struct CausesFile {
    #[serde(default = "first_version")]
    version: u32,
    #[serde(default)]
    silenced: Vec<String>,
    #[serde(default)]
    rules: Vec<RuleFile>,
}

const fn first_version() -> u32 {
    CAUSES_VERSION
}

#[derive(Deserialize)]
enum CuredBy {
    Relay,
    NewBase,
    NewBrick,
    OtherWork,
}

impl From<CuredBy> for rules::CuredBy {
    fn from(by: CuredBy) -> Self {
        match by {
            CuredBy::Relay => Self::Relay,
            CuredBy::NewBase => Self::NewBase,
            CuredBy::NewBrick => Self::NewBrick,
            CuredBy::OtherWork => Self::OtherWork,
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "rule")]
struct RuleFile {
    id: String,
    seen: Seen,
    #[serde(default)]
    unless: Vec<String>,
    cause: Cause,
    strength: Strength,
    mark: String,
    trade: String,
    homeowner: String,
    remedy: String,
    #[serde(default)]
    cured_by: Option<CuredBy>,
    source: String,
}

fn rule(file: RuleFile) -> rules::CauseRule {
    rules::CauseRule {
        id: file.id,
        seen: seen(file.seen),
        unless: file.unless,
        cause: file.cause.into(),
        strength: file.strength.into(),
        mark: file.mark,
        trade: file.trade,
        homeowner: file.homeowner,
        remedy: file.remedy,
        cured_by: file.cured_by.map(Into::into),
        source: file.source,
    }
}

/// What must be seen, as it is written.
#[derive(Deserialize)]
enum Seen {
    All(Vec<Seen>),
    Any(Vec<Seen>),
    Not(Box<Seen>),
    Near {
        one: Box<Seen>,
        other: Box<Seen>,
        within: WrittenLength,
    },
    Sign(SignKind),
    SignAtLeast(SignKind, v1::Severity),
    Layer(LayerLike),
    LayerAbove {
        upper: LayerLike,
        lower: LayerLike,
    },
    SettingBed(LayerLike),
    SettingBedThickerThan(WrittenLength),
    NoBaseInPit,
    BaseThinnerThan(WrittenLength),
    PitBottomNotFound,
    Seep,
    SeepShallowerThan(WrittenLength),
    JointWiderThan(WrittenLength),
    BrickPatternOffBy(WrittenLength),
    NoRestraint,
    NoFabric,
    WishedBaseThinnerThan(WrittenLength),
    OldSurfaceFallsToHouse,
    OldFallBelow(WrittenFall),
    OldLowSpot(WrittenLength),
    CurveTooTight,
    SoilHeaves,
    SoilDoesNotHeave,
}

fn seen(file: Seen) -> rules::Seen {
    use rules::Seen as Calc;
    let all = |list: Vec<Seen>| list.into_iter().map(seen).collect();
    match file {
        Seen::All(list) => Calc::All(all(list)),
        Seen::Any(list) => Calc::Any(all(list)),
        Seen::Not(inner) => Calc::Not(Box::new(seen(*inner))),
        Seen::Near { one, other, within } => Calc::Near {
            one: Box::new(seen(*one)),
            other: Box::new(seen(*other)),
            within: within.0,
        },
        Seen::Sign(kind) => Calc::Sign(kind.into()),
        Seen::SignAtLeast(kind, least) => Calc::SignAtLeast(kind.into(), least.into()),
        Seen::Layer(like) => Calc::Layer(like.into()),
        Seen::LayerAbove { upper, lower } => Calc::LayerAbove {
            upper: upper.into(),
            lower: lower.into(),
        },
        Seen::SettingBed(like) => Calc::SettingBed(like.into()),
        Seen::SettingBedThickerThan(limit) => Calc::SettingBedThickerThan(limit.0),
        Seen::NoBaseInPit => Calc::NoBaseInPit,
        Seen::BaseThinnerThan(limit) => Calc::BaseThinnerThan(limit.0),
        Seen::PitBottomNotFound => Calc::PitBottomNotFound,
        Seen::Seep => Calc::Seep,
        Seen::SeepShallowerThan(limit) => Calc::SeepShallowerThan(limit.0),
        Seen::JointWiderThan(limit) => Calc::JointWiderThan(limit.0),
        Seen::BrickPatternOffBy(limit) => Calc::BrickPatternOffBy(limit.0),
        Seen::NoRestraint => Calc::NoRestraint,
        Seen::NoFabric => Calc::NoFabric,
        Seen::WishedBaseThinnerThan(limit) => Calc::WishedBaseThinnerThan(limit.0),
        Seen::OldSurfaceFallsToHouse => Calc::OldSurfaceFallsToHouse,
        Seen::OldFallBelow(limit) => Calc::OldFallBelow(limit.0),
        Seen::OldLowSpot(depth) => Calc::OldLowSpot(depth.0),
        Seen::CurveTooTight => Calc::CurveTooTight,
        Seen::SoilHeaves => Calc::SoilHeaves,
        Seen::SoilDoesNotHeave => Calc::SoilDoesNotHeave,
    }
}

/// A layer by its marks; what is left out takes any.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "layer")]
struct LayerLike {
    #[serde(default)]
    materials: Vec<String>,
    #[serde(default)]
    under_a_walk: Vec<UnderAWalk>,
    #[serde(default)]
    drainage: Vec<Drainage>,
    #[serde(default)]
    firmness: Vec<v1::Firmness>,
    #[serde(default)]
    moisture: Vec<v1::Moisture>,
    #[serde(default)]
    at_least: Option<WrittenLength>,
}

impl From<LayerLike> for rules::LayerLike {
    fn from(file: LayerLike) -> Self {
        Self {
            materials: file.materials.into_iter().map(MaterialKey).collect(),
            under_a_walk: all_into(file.under_a_walk),
            drainage: all_into(file.drainage),
            firmness: all_into(file.firmness),
            moisture: all_into(file.moisture),
            at_least: file.at_least.map(|length| length.0),
        }
    }
}

fn all_into<T, U: From<T>>(list: Vec<T>) -> Vec<U> {
    list.into_iter().map(U::from).collect()
}

/// The words of a table beside those of the calculation, matched name by name.
macro_rules! same_words {
    ($($choice:ident as $of:path { $($name:ident),+ })+) => {$(
        #[derive(Deserialize)]
        enum $choice { $($name),+ }

        impl From<$choice> for $of {
            fn from(choice: $choice) -> Self {
                match choice { $($choice::$name => Self::$name),+ }
            }
        }
    )+};
}

same_words! {
    SignKind as site::SignKind {
        Sunk, Heaved, Rocking, OpenJoints, Moss, Ponding, EdgeSpread, BrokenBrick, Root, Downpipe
    }
    UnderAWalk as calc::UnderAWalk { Base, Subgrade, MustComeOut, OldPavement }
    Drainage as calc::Drainage { Free, Slow, Poor }
    Strength as rules::Strength { Possible, Likely, Sure }
    Cause as rules::Cause {
        BaseNeverPacks, BaseTooThin, SoftGround, WetGround, FallsToHouse, TooFlat, SettingBed, JointsTooWide, NoRestraint, BondCannotClose,
        Roots, Frost, Downpipe, NotDugEnough
    }
}

struct WrittenLength(Length);

impl<'de> Deserialize<'de> for WrittenLength {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let read = |text: &str| read_length_with_unit(text).map_err(|error| error.to_string());
        deserializer
            .deserialize_str(Written("a length with its unit, in quotes", read))
            .map(Self)
    }
}

struct WrittenFall(Fall);

impl<'de> Deserialize<'de> for WrittenFall {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let read = |text: &str| read_fall(text).map_err(|error| error.to_string());
        deserializer
            .deserialize_str(Written("a fall with its unit, in quotes", read))
            .map(Self)
    }
}

struct Written<F>(&'static str, F);

impl<T, F: Fn(&str) -> Result<T, String>> Visitor<'_> for Written<F> {
    type Value = T;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.0)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        (self.1)(text).map_err(|error| E::custom(format!("{text:?}: {error}")))
    }
}

#[cfg(test)]
mod tests;
