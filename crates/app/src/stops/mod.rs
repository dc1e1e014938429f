//! The stops of a visit, one file each: which rows a stop shows. A stop only reads the visit.

mod bed;
mod book;
pub(crate) mod build;
mod causes;
mod lay;
mod line;
mod look;
pub mod opened;
pub(crate) mod order;
pub(crate) mod penetrometer;
pub(crate) mod pictures;
mod seen;
pub mod show;
mod soil;
mod thickness;

use underbrick_calc::field::{Kind, field};
use underbrick_calc::findings::Weight;
use underbrick_calc::measure::amount::{Amount, read_amount, write_amount};
use underbrick_calc::measure::slope::{SlopeStyle, write_fall};
use underbrick_calc::measure::written::read_length_with_unit;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::site::{MaterialKey, ShownIn, SignKind};

use crate::visit::Visit;
use crate::widgets::rows::{Row, ValueRow, ValueState, state_of};
use opened::Opened;

/// A stop of the visit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stop {
    /// What is seen: address, pits, brick.
    #[default]
    Look,
    /// Sill, run, levels, far end.
    Line,
    /// From brick to undisturbed ground.
    Bed,
    /// Bond, brick, the width that fits.
    Lay,
    /// What is bought, taken away and hired, hours and price.
    Order,
    /// What string, tape and rod must read, and what they read.
    Build,
    /// What the homeowner is shown, agrees on and keeps.
    Show,
}

impl Stop {
    /// In the order of the visit.
    pub const ALL: [Self; 7] = [
        Self::Look,
        Self::Line,
        Self::Bed,
        Self::Lay,
        Self::Order,
        Self::Build,
        Self::Show,
    ];

    /// Its one verb.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Look => "Look",
            Self::Line => "Line",
            Self::Bed => "Bed",
            Self::Lay => "Lay",
            Self::Order => "Order",
            Self::Build => "Build",
            Self::Show => "Show",
        }
    }

    /// The rows of the stop. `set` is what the pad sets, `opened` what is shown in full.
    #[must_use]
    pub fn rows(self, visit: &Visit, set: Option<Place>, opened: &Opened) -> Vec<Row> {
        match self {
            Self::Look => look::rows(visit, set, opened),
            Self::Line => line::rows(visit, set),
            Self::Bed => bed::rows(visit),
            Self::Lay => lay::rows(visit, set, opened),
            Self::Order => order::rows(visit, opened),
            Self::Build => build::rows(visit, set, opened),
            // It has neither rod nor entries.
            Self::Show => Vec::new(),
        }
    }

    /// Whether a value can be set at this stop: the brick's can at two of them.
    #[must_use]
    pub fn shows(self, place: Place) -> bool {
        let is_picture = matches!(place, Place::Picture(_) | Place::PictureCaption(_));
        Self::of(place) == self
            || (self == Self::Lay && lay::BRICK.contains(&place))
            || (self == Self::Build && is_picture)
    }

    /// The stop where a value is set.
    #[must_use]
    pub const fn of(place: Place) -> Self {
        match place {
            Place::Site
            | Place::Address
            | Place::Walk
            | Place::Sign(_)
            | Place::SignStation(_)
            | Place::SignOffset(_)
            | Place::SignWidth(_)
            | Place::Pit(_)
            | Place::PitStation(_)
            | Place::PitOffset(_)
            | Place::PitSeep(_)
            | Place::LayerMaterial(..)
            | Place::LayerThickness(..)
            | Place::PenetrometerStart(_)
            | Place::PenetrometerBlows(..)
            | Place::PenetrometerReading(..)
            | Place::BrickLength
            | Place::BrickWidth
            | Place::BrickThickness
            | Place::Joint
            | Place::Soil
            | Place::SoilSand
            | Place::SoilSilt
            | Place::SoilClay
            | Place::LiquidLimit
            | Place::PlasticLimit
            | Place::Fines
            | Place::SieveSand
            | Place::SieveGravel
            | Place::GrainD10
            | Place::GrainD30
            | Place::GrainD60
            | Place::FinerThan002
            | Place::FrostDepth
            | Place::FreezingIndex
            | Place::FreezingDays
            | Place::SurfaceFactor
            | Place::MeanTemperature
            | Place::DryDensity
            | Place::WaterContent
            | Place::Conductivity
            | Place::Picture(_)
            | Place::PictureCaption(_) => Self::Look,
            Place::OldBelowSill
            | Place::FirstBrickBelowSill
            | Place::Leg(_)
            | Place::LegLength(_)
            | Place::LegRadius(_)
            | Place::LegTurn(_)
            | Place::LegWidthAtEnd(_)
            | Place::Width
            | Place::Fall
            | Place::CrossFall
            | Place::FarEndBelowSill
            | Place::StepsAt
            | Place::StepTread
            | Place::BreakAt
            | Place::BreakBelowSill
            | Place::StringAboveSill
            | Place::RodAtSill
            | Place::BookRow(_)
            | Place::BookStation(_)
            | Place::BookOffset(_)
            | Place::BookReading(_)
            | Place::BookLimit
            | Place::BookBenchmark
            | Place::Shot(_)
            | Place::ShotStation(_)
            | Place::ShotOffset(_)
            | Place::ShotReading(_)
            | Place::GradeLine
            | Place::OldSurface => Self::Line,
            Place::SettingBed
            | Place::LeastBase
            | Place::BaseMaterial
            | Place::LooseLift
            | Place::SideExtension
            | Place::UndercutLimit
            | Place::Fabric
            | Place::EdgeStands
            | Place::Restraint
            | Place::HaunchHeight
            | Place::HaunchWidth
            | Place::HaunchTopWidth
            | Place::SpikeSpacing
            | Place::Lift(_)
            | Place::DigBottom => Self::Bed,
            Place::Bond
            | Place::CourseWay
            | Place::LapShare
            | Place::LeastLap
            | Place::LeastPiece
            | Place::LeastJoint
            | Place::WidestJoint
            | Place::Kerf
            | Place::TargetWidth
            | Place::WidthTolerance
            | Place::StartSide
            | Place::Returns
            | Place::Opening(_)
            | Place::OpeningStation(_)
            | Place::OpeningAlong(_)
            | Place::OpeningAcross(_)
            | Place::OpeningOffset(_)
            | Place::Bearing
            | Place::SampleBrick(_)
            | Place::SampleLength(_)
            | Place::SampleWidth(_)
            | Place::SampleThickness(_)
            | Place::SecondLength
            | Place::SecondWidth
            | Place::SecondThickness
            | Place::BricksOnSite
            | Place::BrickLoss
            | Place::Piece(_) => Self::Lay,
            Place::BuildSpacing
            | Place::StringAboveGrade
            | Place::Initials
            | Place::SetUp(_)
            | Place::SetUpRod(_)
            | Place::BuildReading(_)
            | Place::BuildStation(_)
            | Place::BuildOffset(_)
            | Place::BuildValue(_)
            | Place::Spot(_)
            | Place::SpotStation(_)
            | Place::SpotSize(_)
            | Place::LiftLoose(_)
            | Place::LiftCompacted(_)
            | Place::LiftPasses(_)
            | Place::HoldStage(_)
            | Place::StageReason(_)
            | Place::StageInitials(_)
            | Place::Day(_)
            | Place::DayDate(_)
            | Place::DayCrew(_)
            | Place::DayWeather(_)
            | Place::DayNotes(_)
            | Place::DeliveryItem(..)
            | Place::DeliveryCount(..) => Self::Build,
            Place::OrderWay
            | Place::OrderLine(_)
            | Place::OrderRate(_)
            | Place::OrderCount(_)
            | Place::CrewSize
            | Place::CrewRate
            | Place::WorkStart
            | Place::StageHours(_) => Self::Order,
            Place::Agreement(_) => Self::Show,
        }
    }
}

/// The value behind a thing that was tapped in a drawing.
#[must_use]
pub fn entry_behind(place: Place, visit: &Visit) -> Place {
    match place {
        Place::GradeLine => match visit.record().text(Place::FarEndBelowSill) {
            Some(_) => Place::FarEndBelowSill,
            None => Place::Fall,
        },
        Place::OldSurface => Place::OldBelowSill,
        Place::DigBottom => Place::LeastBase,
        Place::Lift(_) => Place::LooseLift,
        Place::EdgeStands | Place::Restraint => {
            if visit.record().text(Place::HaunchHeight).is_some() {
                Place::HaunchHeight
            } else if visit.record().text(Place::SpikeSpacing).is_some() {
                Place::SpikeSpacing
            } else {
                Place::BrickLength
            }
        }
        Place::Pit(pit_idx) => Place::PitStation(pit_idx),
        Place::Picture(picture_idx) => Place::PictureCaption(picture_idx),
        Place::BuildReading(reading_idx) => Place::BuildValue(reading_idx),
        Place::Spot(spot_idx) => Place::SpotSize(spot_idx),
        Place::SetUp(set_up_idx) => Place::SetUpRod(set_up_idx),
        Place::Day(day_idx) => Place::DayNotes(day_idx),
        Place::Shot(shot_idx) => Place::ShotReading(shot_idx),
        Place::BookRow(row_idx) => Place::BookReading(row_idx),
        Place::Leg(leg_idx) => match visit.record().text(Place::LegLength(leg_idx)) {
            Some(_) => Place::LegLength(leg_idx),
            None => Place::LegRadius(leg_idx),
        },
        other => other,
    }
}

/// Which pit a place belongs to.
#[must_use]
pub const fn pit_of(place: Place) -> Option<usize> {
    match place {
        Place::Pit(pit_idx)
        | Place::PitStation(pit_idx)
        | Place::PitOffset(pit_idx)
        | Place::PitSeep(pit_idx)
        | Place::LayerMaterial(pit_idx, _)
        | Place::LayerThickness(pit_idx, _)
        | Place::PenetrometerStart(pit_idx)
        | Place::PenetrometerBlows(pit_idx, _)
        | Place::PenetrometerReading(pit_idx, _) => Some(pit_idx),
        _ => None,
    }
}

/// Whether a place stands among soil and frost.
#[must_use]
pub const fn is_soil(place: Place) -> bool {
    matches!(
        place,
        Place::Soil
            | Place::SoilSand
            | Place::SoilSilt
            | Place::SoilClay
            | Place::LiquidLimit
            | Place::PlasticLimit
            | Place::Fines
            | Place::SieveSand
            | Place::SieveGravel
            | Place::GrainD10
            | Place::GrainD30
            | Place::GrainD60
            | Place::FinerThan002
            | Place::FrostDepth
            | Place::FreezingIndex
            | Place::FreezingDays
            | Place::SurfaceFactor
            | Place::MeanTemperature
            | Place::DryDensity
            | Place::WaterContent
            | Place::Conductivity
    )
}

/// The row of a value under the field's own name.
fn value(visit: &Visit, place: Place, note: &str) -> Row {
    named(visit, place, None, field(place).name, note)
}

/// The row of a value under another name.
fn named(visit: &Visit, place: Place, left_place: Option<Place>, label: &str, note: &str) -> Row {
    let text = visit.record().text(place).unwrap_or_default();
    let value = displayed(visit, place, text);
    let field = field(place);
    let worst = visit
        .findings_at(place)
        .chain(
            left_place
                .into_iter()
                .flat_map(|left| visit.findings_at(left)),
        )
        .max_by_key(|finding| finding.weight);
    let mut state = match (text.trim().is_empty(), field.when_empty) {
        (false, _) => ValueState::Known,
        (true, Some(_)) => ValueState::Default,
        (true, None) => ValueState::Missing,
    };
    let mut note = note.to_owned();
    if state == ValueState::Default && note.is_empty() {
        note = field.when_empty.unwrap_or_default().to_owned();
    }
    if let Some(worst) = worst
        && let Some(heavier) = state_of(worst.weight)
        && (worst.weight > Weight::Note || state == ValueState::Known)
    {
        state = heavier;
        note.clone_from(&worst.text);
    }
    Row::Value(ValueRow {
        place,
        left_place,
        label: label.to_owned(),
        value,
        state,
        note,
    })
}

/// The text of a value as the site shows it, where that says the same; else just as typed.
fn displayed(visit: &Visit, place: Place, text: &str) -> String {
    match field(place).kind {
        Kind::Length { bare, .. } => match read_length_with_unit(text) {
            Ok(length) => {
                let along = matches!(bare, underbrick_calc::measure::written::BareUnit::Foot);
                let written = if along {
                    visit.site().shown_in.along(length)
                } else {
                    visit.site().shown_in.thickness(length)
                };
                let same = read_length_with_unit(&written)
                    .is_ok_and(|again| (in_metres(again) - in_metres(length)).abs() < 1e-7);
                if same { written } else { text.to_owned() }
            }
            Err(_) => text.to_owned(),
        },
        Kind::Number { unit, .. } => match read_amount(text, unit) {
            Ok(amount) => {
                let written = write_amount(amount, visit.site().shown_in);
                let is_same = |again: Amount| {
                    (again.number() - amount.number()).abs() <= 1e-9 * amount.number().abs()
                };
                if read_amount(&written, unit).is_ok_and(is_same) {
                    written
                } else {
                    text.to_owned()
                }
            }
            Err(_) => text.to_owned(),
        },
        Kind::Choice if matches!(place, Place::Sign(_)) => {
            SignKind::of(text).map_or_else(|| text.to_owned(), |kind| kind.name().to_owned())
        }
        Kind::Choice => visit
            .catalogue()
            .find(&MaterialKey(text.to_owned()))
            .map_or_else(|| text.to_owned(), |material| material.name.clone()),
        Kind::Fall { .. }
        | Kind::Turn { .. }
        | Kind::Count { .. }
        | Kind::Decimal { .. }
        | Kind::Text
        | Kind::Thing => text.to_owned(),
    }
}

fn heading(title: &str, note: impl Into<String>) -> Row {
    Row::Heading {
        title: title.to_owned(),
        note: note.into(),
    }
}

fn figure(label: impl Into<String>, value: impl Into<String>, note: impl Into<String>) -> Row {
    Row::Figure {
        label: label.into(),
        value: value.into(),
        note: note.into(),
    }
}

/// The findings of a stop, in words.
fn findings(visit: &Visit, stop: Stop) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let mut found: Vec<_> = visit
        .findings()
        .filter(|finding| stop.shows(finding.place))
        .collect();
    found.sort_by_key(|finding| std::cmp::Reverse(finding.weight));
    if !found.is_empty() {
        rows.push(heading("What the readings say", ""));
        rows.extend(found.into_iter().map(Row::said));
    }
    rows
}

/// A fall in the two ways that are said on site.
fn shown_fall(fall: underbrick_calc::measure::slope::Fall, shown_in: ShownIn) -> (String, String) {
    let percent = write_fall(fall, SlopeStyle::Percent);
    match shown_in {
        ShownIn::FeetInches => (write_fall(fall, SlopeStyle::InchesPerFoot), percent),
        ShownIn::Metric => (percent, write_fall(fall, SlopeStyle::OneIn)),
    }
}
