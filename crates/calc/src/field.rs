//! What each value is: its name, what a bare number means, what is possible, and how it is measured on site.

mod table;

use crate::findings::{Findings, Source, Weight};
use crate::measure::amount::{Amount, AmountUnit, write_amount};
use crate::measure::angle::write_angle;
use crate::measure::slope::Fall;
use crate::measure::written::BareUnit;
use crate::place::Place;
use crate::quantity::{Angle, Length, unit};
use crate::site::{ShownIn, Site};
use rust_decimal::Decimal;

pub use table::field;

/// What kind of value stands at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// A length; `least` and `most` are what can be true on such a site: anything outside is questioned and not used.
    Length {
        /// What a number without a unit means in feet and inches.
        bare: BareUnit,
        /// Least that can be true.
        least: Length,
        /// Most that can be true.
        most: Length,
    },
    /// A fall along or across; limits in down ÷ along.
    Fall {
        /// Least that can be true.
        least_ratio: f64,
        /// Most that can be true.
        most_ratio: f64,
    },
    /// An angle, above zero; limits in degrees.
    Turn {
        /// Most that can be true.
        most_degrees: f64,
        /// Whether zero can be true too.
        may_be_zero: bool,
    },
    /// An amount that is no length; limits in its unit.
    Number {
        /// What a number without a unit counts, but for metric sites.
        unit: AmountUnit,
        /// Least that can be true.
        least: f64,
        /// Most that can be true.
        most: f64,
    },
    /// So many of something, whole.
    Count {
        /// Least that can be true.
        least: u32,
        /// Most that can be true.
        most: u32,
    },
    /// A decimal number: money, units of sale, hours. Never below zero.
    Decimal {
        /// Whether it can be zero.
        may_be_zero: bool,
        /// Most that can be true.
        most: u32,
    },
    /// Free text.
    Text,
    /// One of a short list.
    Choice,
    /// Not a value: a thing in the drawing.
    Thing,
}

/// What is known of a value before it is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Field {
    /// Name as shown, the same on screens, sheets and in errors.
    pub name: &'static str,
    /// How it is measured, in one or two sentences.
    pub how: &'static str,
    /// What kind of value it is.
    pub kind: Kind,
    /// What is taken when it is empty, in words; `None` where nothing is taken and the value is missing.
    pub when_empty: Option<&'static str>,
}

impl Field {
    /// What a number without a unit means on a metric site: millimetres where feet-inches sites mean inches, metres where they
    /// mean feet. Millimetres for what is no length.
    #[must_use]
    pub fn metric_bare(&self) -> BareUnit {
        match self.kind {
            Kind::Length {
                bare: BareUnit::Foot | BareUnit::Metre,
                ..
            } => BareUnit::Metre,
            _ => BareUnit::Millimetre,
        }
    }
}

/// A value that cannot be true where it stands.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{}", self.words(ShownIn::FeetInches))]
pub struct OutOfReason {
    /// Where it stands.
    pub place: Place,
    /// What was given.
    pub given: Given,
}

/// The value that was given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Given {
    /// A length.
    Length(Length),
    /// A fall.
    Fall(Fall),
    /// A turn.
    Turn(Angle),
    /// An amount.
    Amount(Amount),
    /// So many.
    Count(u32),
    /// A decimal number.
    Decimal(Decimal),
}

impl OutOfReason {
    /// Field, value and limit in words, lengths as the site shows them.
    #[must_use]
    pub fn words(&self, shown_in: ShownIn) -> String {
        let name = full_name(self.place);
        match (self.given, field(self.place).kind) {
            (Given::Length(given), Kind::Length { least, most, .. }) if given.value.is_finite() => {
                let (side, limit) = if given < least {
                    ("below the least", least)
                } else {
                    ("above the most", most)
                };
                format!(
                    "{name}: {} is {side} that can be true, {}",
                    shown_in.length(given),
                    shown_in.length(limit)
                )
            }
            (
                Given::Fall(given),
                Kind::Fall {
                    least_ratio,
                    most_ratio,
                },
            ) => {
                let below = given.ratio() < least_ratio;
                let (side, limit) = if below {
                    ("below the least", least_ratio)
                } else {
                    ("above the most", most_ratio)
                };
                let limit = Fall::from_ratio(limit).unwrap_or_default();
                format!(
                    "{name}: {} is {side} that can be true, {}",
                    shown_in.fall(given),
                    shown_in.fall(limit)
                )
            }
            (Given::Amount(given), _) if self.place == Place::LapShare && is_stack(given) => {
                format!(
                    "{name}: {} is a stack bond, not a lap; between 0 % and 100 % it laps",
                    write_amount(given, shown_in)
                )
            }
            (
                Given::Turn(given),
                Kind::Turn {
                    most_degrees,
                    may_be_zero,
                },
            ) if given.value.is_finite() => {
                let degrees = given.get::<unit::degree>();
                if may_be_zero && degrees < 0.0 {
                    format!(
                        "{name}: {} is below the least that can be true, 0°",
                        write_angle(given)
                    )
                } else if degrees > 0.0 {
                    format!(
                        "{name}: {} is above the most that can be true, {most_degrees:.0}°",
                        write_angle(given)
                    )
                } else {
                    format!("{name}: {} is not above zero", write_angle(given))
                }
            }
            (Given::Amount(given), Kind::Number { unit, least, most }) if given.unit() == unit => {
                let (side, limit) = if given.number() < least {
                    ("below the least", least)
                } else {
                    ("above the most", most)
                };
                let limit = Amount::new(limit, unit)
                    .map_or_else(String::new, |limit| write_amount(limit, shown_in));
                format!(
                    "{name}: {} is {side} that can be true, {limit}",
                    write_amount(given, shown_in)
                )
            }
            (Given::Count(given), Kind::Count { least, most }) => {
                let (side, limit) = if given < least {
                    ("below the least", least)
                } else {
                    ("above the most", most)
                };
                format!("{name}: {given} is {side} that can be true, {limit}")
            }
            (Given::Decimal(given), Kind::Decimal { most, .. }) => {
                if given > Decimal::from(most) {
                    format!("{name}: {given} is above the most that can be true, {most}")
                } else if given.is_zero() {
                    format!("{name}: 0 is not above zero")
                } else {
                    format!("{name}: {given} is below the least that can be true, 0")
                }
            }
            _ => format!("{name} is not a number that can be measured"),
        }
    }
}

/// The length itself if it can be true at that place.
///
/// # Errors
/// [`OutOfReason`] for a length outside the limits of its field, NaN or an infinity, and for a place where no length stands.
pub fn check_length(place: Place, length: Length) -> Result<Length, OutOfReason> {
    match field(place).kind {
        // NaN fails both comparisons.
        Kind::Length { least, most, .. } if length >= least && length <= most => Ok(length),
        _ => Err(OutOfReason {
            place,
            given: Given::Length(length),
        }),
    }
}

/// The fall itself if it can be true at that place.
///
/// # Errors
/// [`OutOfReason`] for a fall outside the limits of its field, and for a place where no fall stands.
pub fn check_fall(place: Place, fall: Fall) -> Result<Fall, OutOfReason> {
    match field(place).kind {
        Kind::Fall {
            least_ratio,
            most_ratio,
        } if fall.ratio() >= least_ratio && fall.ratio() <= most_ratio => Ok(fall),
        _ => Err(OutOfReason {
            place,
            given: Given::Fall(fall),
        }),
    }
}

/// The angle itself if it can be true at that place: above zero (a bearing may be zero), no more than its field allows.
///
/// # Errors
/// [`OutOfReason`] otherwise, for NaN or an infinity, and for a place where no turn stands.
pub fn check_turn(place: Place, turn: Angle) -> Result<Angle, OutOfReason> {
    // A full circle written as 360° may come back from radians a rounding above it.
    const ROUNDING: f64 = 1.0 + 1e-12;
    let degrees = turn.get::<unit::degree>();
    match field(place).kind {
        Kind::Turn {
            most_degrees,
            may_be_zero,
        } if (degrees > 0.0 || may_be_zero && degrees >= 0.0)
            && degrees <= most_degrees * ROUNDING =>
        {
            Ok(turn)
        }
        _ => Err(OutOfReason {
            place,
            given: Given::Turn(turn),
        }),
    }
}

/// Whether a lap of that share is none: the joints of all courses stand in line.
fn is_stack(lap: Amount) -> bool {
    lap.number() <= 0.0 || lap.number() >= 100.0
}

/// The amount itself if it can be true at that place.
///
/// # Errors
/// [`OutOfReason`] for an amount outside the limits of its field, of another unit, and for a place where no amount stands.
pub fn check_amount(place: Place, amount: Amount) -> Result<Amount, OutOfReason> {
    match field(place).kind {
        Kind::Number { unit, least, most }
            if unit == amount.unit() && amount.number() >= least && amount.number() <= most =>
        {
            Ok(amount)
        }
        _ => Err(OutOfReason {
            place,
            given: Given::Amount(amount),
        }),
    }
}

/// The count itself if it can be true at that place.
///
/// # Errors
/// [`OutOfReason`] for a count outside the limits of its field, and for a place where nothing is counted.
pub fn check_count(place: Place, count: u32) -> Result<u32, OutOfReason> {
    match field(place).kind {
        Kind::Count { least, most } if (least..=most).contains(&count) => Ok(count),
        _ => Err(OutOfReason {
            place,
            given: Given::Count(count),
        }),
    }
}

/// The decimal number itself if it can be true at that place.
///
/// # Errors
/// [`OutOfReason`] for a number outside the limits of its field, and for a place where no decimal number stands.
pub fn check_decimal(place: Place, number: Decimal) -> Result<Decimal, OutOfReason> {
    match field(place).kind {
        Kind::Decimal { may_be_zero, most }
            if number <= Decimal::from(most)
                && (number > Decimal::ZERO || may_be_zero && number.is_zero()) =>
        {
            Ok(number)
        }
        _ => Err(OutOfReason {
            place,
            given: Given::Decimal(number),
        }),
    }
}

/// Name of the field at a place with the number of its leg, reading, pit, layer or lift, counted from 1: "Pit 2 station".
#[must_use]
pub fn full_name(place: Place) -> String {
    let name = field(place).name;
    let numbered = |idx: usize| match name.split_once(' ') {
        Some((thing, rest)) => format!("{thing} {} {rest}", idx + 1),
        None => format!("{name} {}", idx + 1),
    };
    match place {
        Place::Sign(idx)
        | Place::SignStation(idx)
        | Place::SignOffset(idx)
        | Place::SignWidth(idx)
        | Place::Leg(idx)
        | Place::LegLength(idx)
        | Place::LegRadius(idx)
        | Place::LegTurn(idx)
        | Place::LegWidthAtEnd(idx)
        | Place::Shot(idx)
        | Place::ShotStation(idx)
        | Place::ShotOffset(idx)
        | Place::ShotReading(idx)
        | Place::BookRow(idx)
        | Place::BookStation(idx)
        | Place::BookOffset(idx)
        | Place::BookReading(idx)
        | Place::Pit(idx)
        | Place::PitStation(idx)
        | Place::PitOffset(idx)
        | Place::PitSeep(idx)
        | Place::Opening(idx)
        | Place::OpeningStation(idx)
        | Place::OpeningAlong(idx)
        | Place::OpeningAcross(idx)
        | Place::OpeningOffset(idx)
        | Place::SampleBrick(idx)
        | Place::SampleLength(idx)
        | Place::SampleWidth(idx)
        | Place::SampleThickness(idx) => numbered(idx),
        Place::Piece(piece_idx) => format!("{name} {}", u64::from(piece_idx) + 1),
        Place::LayerMaterial(pit_idx, layer_idx) | Place::LayerThickness(pit_idx, layer_idx) => {
            let rest = name.split_once(' ').map_or(name, |(_, rest)| rest);
            format!("Pit {} layer {} {rest}", pit_idx + 1, layer_idx + 1)
        }
        Place::PenetrometerStart(pit_idx) => format!("Pit {} penetrometer start", pit_idx + 1),
        Place::PenetrometerBlows(pit_idx, row_idx)
        | Place::PenetrometerReading(pit_idx, row_idx) => {
            let rest = name.split_once(' ').map_or(name, |(_, rest)| rest);
            format!(
                "Pit {} penetrometer row {} {rest}",
                pit_idx + 1,
                row_idx + 1
            )
        }
        Place::Lift(number) => format!("{name} {number}"),
        Place::HoldStage(stage) => stage.name(),
        Place::StageReason(stage) | Place::StageInitials(stage) => {
            format!("{}: {}", stage.name(), name.to_lowercase())
        }
        Place::SetUp(idx)
        | Place::BuildReading(idx)
        | Place::BuildStation(idx)
        | Place::BuildOffset(idx)
        | Place::BuildValue(idx)
        | Place::Spot(idx)
        | Place::SpotSize(idx)
        | Place::Day(idx)
        | Place::Agreement(idx)
        | Place::Picture(idx)
        | Place::PictureCaption(idx)
        | Place::DayDate(idx)
        | Place::DayCrew(idx)
        | Place::DayWeather(idx)
        | Place::DayNotes(idx)
        | Place::DeliveryItem(idx, _)
        | Place::DeliveryCount(idx, _) => numbered(idx),
        Place::SpotStation(idx) => format!("Spot {} station", idx + 1),
        Place::SetUpRod(idx) => format!("Set-up {} rod at sill", idx + 1),
        Place::LiftLoose(number) | Place::LiftCompacted(number) | Place::LiftPasses(number) => {
            let rest = name.split_once(' ').map_or(name, |(_, rest)| rest);
            format!("Lift {number} {rest}")
        }
        Place::OrderLine(item) => item.name().to_owned(),
        Place::OrderRate(item) | Place::OrderCount(item) => {
            format!("{}: {}", item.name(), name.to_lowercase())
        }
        Place::StageHours(stage) => format!("{}: {}", stage.name(), name.to_lowercase()),
        _ => name.to_owned(),
    }
}

/// The length at a place if it is there and can be true. Where it cannot be true it is left out and a finding of that weight says
/// so; where it is missing that is for the caller to judge.
pub(crate) fn take_length(
    site: &Site,
    place: Place,
    length: Option<Length>,
    weight: Weight,
    findings: &mut Findings,
) -> Option<Length> {
    match check_length(place, length?) {
        Ok(length) => Some(length),
        Err(error) => {
            note_out_of_reason(site, error, weight, findings);
            None
        }
    }
}

/// Notes that a value cannot be true and is not used.
pub(crate) fn note_out_of_reason(
    site: &Site,
    error: OutOfReason,
    weight: Weight,
    findings: &mut Findings,
) {
    let remedy = "It is kept as written and not used. Measure it again.";
    findings.note(
        error.place,
        weight,
        Source::Readings,
        format!("{}.", error.words(site.shown_in)),
        remedy,
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::HoldStage;
    use crate::defaults;
    use crate::order::{Item, Stage};
    use crate::quantity::{feet, inches, metres, millimetres};

    /// Every place that holds a value, and the things drawn.
    const PLACES: [Place; 150] = [
        Place::BuildSpacing,
        Place::StringAboveGrade,
        Place::Initials,
        Place::SetUp(0),
        Place::SetUpRod(0),
        Place::BuildReading(0),
        Place::BuildStation(0),
        Place::BuildOffset(0),
        Place::BuildValue(0),
        Place::Spot(0),
        Place::SpotStation(0),
        Place::SpotSize(0),
        Place::LiftLoose(1),
        Place::LiftCompacted(1),
        Place::LiftPasses(1),
        Place::HoldStage(HoldStage::Dig),
        Place::StageReason(HoldStage::Dig),
        Place::StageInitials(HoldStage::Dig),
        Place::Day(0),
        Place::WorkStart,
        Place::Agreement(0),
        Place::Picture(0),
        Place::PictureCaption(0),
        Place::DayDate(0),
        Place::DayCrew(0),
        Place::DayWeather(0),
        Place::DayNotes(0),
        Place::DeliveryItem(0, 0),
        Place::DeliveryCount(0, 0),
        Place::OrderWay,
        Place::OrderLine(Item::Base),
        Place::OrderRate(Item::Base),
        Place::OrderCount(Item::Base),
        Place::CrewSize,
        Place::CrewRate,
        Place::StageHours(Stage::Dig),
        Place::Site,
        Place::Address,
        Place::Walk,
        Place::Sign(0),
        Place::SignStation(0),
        Place::SignOffset(0),
        Place::SignWidth(0),
        Place::OldBelowSill,
        Place::FirstBrickBelowSill,
        Place::Leg(0),
        Place::LegLength(0),
        Place::LegRadius(0),
        Place::LegTurn(0),
        Place::LegWidthAtEnd(0),
        Place::Width,
        Place::Fall,
        Place::CrossFall,
        Place::FarEndBelowSill,
        Place::StepsAt,
        Place::StepTread,
        Place::BreakAt,
        Place::BreakBelowSill,
        Place::StringAboveSill,
        Place::RodAtSill,
        Place::BookRow(0),
        Place::BookStation(0),
        Place::BookOffset(0),
        Place::BookReading(0),
        Place::BookLimit,
        Place::BookBenchmark,
        Place::Shot(0),
        Place::ShotStation(0),
        Place::ShotOffset(0),
        Place::ShotReading(0),
        Place::Pit(0),
        Place::PitStation(0),
        Place::PitOffset(0),
        Place::PitSeep(0),
        Place::LayerMaterial(0, 0),
        Place::LayerThickness(0, 0),
        Place::PenetrometerStart(0),
        Place::PenetrometerBlows(0, 0),
        Place::PenetrometerReading(0, 0),
        Place::SettingBed,
        Place::LeastBase,
        Place::BaseMaterial,
        Place::LooseLift,
        Place::SideExtension,
        Place::UndercutLimit,
        Place::Fabric,
        Place::BrickLength,
        Place::BrickWidth,
        Place::BrickThickness,
        Place::Joint,
        Place::Soil,
        Place::SoilSand,
        Place::SoilSilt,
        Place::SoilClay,
        Place::LiquidLimit,
        Place::PlasticLimit,
        Place::Fines,
        Place::SieveSand,
        Place::SieveGravel,
        Place::GrainD10,
        Place::GrainD30,
        Place::GrainD60,
        Place::FinerThan002,
        Place::FrostDepth,
        Place::FreezingIndex,
        Place::FreezingDays,
        Place::SurfaceFactor,
        Place::MeanTemperature,
        Place::DryDensity,
        Place::WaterContent,
        Place::Conductivity,
        Place::EdgeStands,
        Place::Restraint,
        Place::HaunchHeight,
        Place::HaunchWidth,
        Place::HaunchTopWidth,
        Place::SpikeSpacing,
        Place::Bond,
        Place::CourseWay,
        Place::LapShare,
        Place::LeastLap,
        Place::LeastPiece,
        Place::LeastJoint,
        Place::WidestJoint,
        Place::Kerf,
        Place::TargetWidth,
        Place::WidthTolerance,
        Place::StartSide,
        Place::Returns,
        Place::Opening(0),
        Place::OpeningStation(0),
        Place::OpeningAlong(0),
        Place::OpeningAcross(0),
        Place::OpeningOffset(0),
        Place::Bearing,
        Place::SampleBrick(0),
        Place::SampleLength(0),
        Place::SampleWidth(0),
        Place::SampleThickness(0),
        Place::SecondLength,
        Place::SecondWidth,
        Place::SecondThickness,
        Place::BricksOnSite,
        Place::BrickLoss,
        Place::Piece(0),
        Place::Lift(1),
        Place::GradeLine,
        Place::OldSurface,
        Place::DigBottom,
        Place::Lift(2),
    ];

    #[test]
    fn no_two_places_share_a_name() {
        let mut names: Vec<String> = PLACES.iter().map(|place| full_name(*place)).collect();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), PLACES.len());
    }

    #[test]
    fn limits_are_in_order_and_finite() {
        for place in PLACES {
            match field(place).kind {
                Kind::Length { least, most, .. } => {
                    assert!(
                        least < most && least.value.is_finite() && most.value.is_finite(),
                        "{place:?}"
                    );
                    assert_eq!(check_length(place, least), Ok(least));
                    assert_eq!(check_length(place, most), Ok(most));
                }
                Kind::Fall {
                    least_ratio,
                    most_ratio,
                } => assert!(least_ratio < most_ratio, "{place:?}"),
                Kind::Number { unit, least, most } => {
                    assert!(least < most && most.is_finite(), "{place:?}");
                    for edge in [least, most] {
                        let amount = Amount::new(edge, unit).unwrap();
                        assert_eq!(check_amount(place, amount), Ok(amount));
                    }
                }
                Kind::Count { least, most } => {
                    assert!(least < most, "{place:?}");
                    assert_eq!(check_count(place, least), Ok(least));
                    assert_eq!(check_count(place, most), Ok(most));
                    assert!(check_count(place, most + 1).is_err());
                }
                Kind::Decimal { may_be_zero, most } => {
                    let most = Decimal::from(most);
                    assert_eq!(check_decimal(place, most), Ok(most));
                    assert!(check_decimal(place, most + Decimal::ONE).is_err());
                    assert!(check_decimal(place, -Decimal::ONE).is_err());
                    assert_eq!(check_decimal(place, Decimal::ZERO).is_ok(), may_be_zero);
                }
                Kind::Turn { .. } | Kind::Text | Kind::Choice | Kind::Thing => {}
            }
        }
    }

    #[test]
    fn what_is_taken_when_empty_is_what_is_said() {
        for (place, default) in [
            (Place::SettingBed, defaults::setting_bed()),
            (Place::LooseLift, defaults::loose_lift()),
            (Place::BrickLength, defaults::brick_length()),
            (Place::BrickWidth, defaults::brick_width()),
            (Place::BrickThickness, defaults::brick_thickness()),
            (Place::Joint, defaults::joint()),
            (Place::HaunchHeight, defaults::haunch_height()),
            (Place::HaunchWidth, defaults::haunch_width()),
            (Place::HaunchTopWidth, defaults::haunch_top_width()),
            (Place::SpikeSpacing, defaults::spike_spacing()),
            (Place::LeastJoint, defaults::least_joint()),
            (Place::WidestJoint, defaults::widest_joint()),
            (Place::Kerf, defaults::kerf()),
            (Place::WidthTolerance, defaults::width_tolerance()),
        ] {
            let text = ShownIn::FeetInches.thickness(default).replace('"', " in");
            assert_eq!(field(place).when_empty, Some(text.as_str()), "{place:?}");
            assert_eq!(check_length(place, default), Ok(default));
        }
        for (place, at_least) in [
            (Place::LeastBase, defaults::least_base()),
            (Place::SideExtension, defaults::side_extension()),
        ] {
            let text = ShownIn::FeetInches.thickness(at_least).replace('"', " in");
            let said = field(place).when_empty.unwrap_or_default();
            assert!(said.starts_with(&format!("{text}, ")), "{said}");
        }
        let fall = ShownIn::FeetInches
            .fall(defaults::fall())
            .replace('/', " per ")
            .replace("1 per 4", "1/4");
        assert_eq!(field(Place::Fall).when_empty, Some(fall.as_str()));
    }

    #[track_caller]
    fn check_words(error: OutOfReason, feet_inches: &str, metric: &str) {
        assert_eq!(error.to_string(), feet_inches);
        assert_eq!(error.words(ShownIn::Metric), metric);
    }

    #[test]
    fn an_error_names_field_value_and_limit() {
        check_words(
            check_length(Place::OldBelowSill, feet(900.0)).unwrap_err(),
            "Sill above old brick: 900'-0\" is above the most that can be true, 10'-0\"",
            "Sill above old brick: 274320 mm is above the most that can be true, 3048 mm",
        );
        check_words(
            check_length(Place::LayerThickness(1, 2), inches(-3.0)).unwrap_err(),
            "Pit 2 layer 3 thickness: -3\" is below the least that can be true, 1/16\"",
            "Pit 2 layer 3 thickness: -76 mm is below the least that can be true, 2 mm",
        );
        check_words(
            check_fall(Place::CrossFall, Fall::percent(25.0)).unwrap_err(),
            "Cross-fall: 3 in/ft is above the most that can be true, 1 1/2 in/ft",
            "Cross-fall: 25 % is above the most that can be true, 12.5 %",
        );
        let cold = Amount::new(-60.0, AmountUnit::Fahrenheit).unwrap();
        check_words(
            check_amount(Place::MeanTemperature, cold).unwrap_err(),
            "Mean temperature: -60 °F is below the least that can be true, -22 °F",
            "Mean temperature: -51.11 °C is below the least that can be true, -30 °C",
        );
        let turn = check_turn(Place::LegTurn(0), Angle::new::<unit::degree>(361.0)).unwrap_err();
        check_words(
            turn,
            "Leg 1 turn: 361° is above the most that can be true, 360°",
            "Leg 1 turn: 361° is above the most that can be true, 360°",
        );
    }

    #[test]
    fn a_lap_that_is_none_is_called_a_stack_bond() {
        for number in [0.0, 100.0] {
            let lap = Amount::new(number, AmountUnit::Percent).unwrap();
            let text = format!(
                "Lap: {number} % is a stack bond, not a lap; between 0 % and 100 % it laps"
            );
            check_words(
                check_amount(Place::LapShare, lap).unwrap_err(),
                &text,
                &text,
            );
        }
        let half = Amount::new(50.0, AmountUnit::Percent).unwrap();
        assert_eq!(check_amount(Place::LapShare, half), Ok(half));
    }

    #[test]
    fn a_bearing_may_be_due_north() {
        let degrees = Angle::new::<unit::degree>;
        assert!(check_turn(Place::Bearing, degrees(0.0)).is_ok());
        assert!(check_turn(Place::Bearing, degrees(360.0)).is_ok());
        let text = "Bearing: -3° is below the least that can be true, 0°";
        check_words(
            check_turn(Place::Bearing, degrees(-3.0)).unwrap_err(),
            text,
            text,
        );
        assert!(check_turn(Place::Bearing, degrees(361.0)).is_err());
    }

    #[test]
    fn an_impossible_count_names_field_value_and_limit() {
        let text = "Pit 1 penetrometer row 3 blows: 0 is below the least that can be true, 1";
        check_words(
            check_count(Place::PenetrometerBlows(0, 2), 0).unwrap_err(),
            text,
            text,
        );
        let text = "Pit 2 penetrometer row 1 blows: 101 is above the most that can be true, 100";
        check_words(
            check_count(Place::PenetrometerBlows(1, 0), 101).unwrap_err(),
            text,
            text,
        );
        assert!(check_count(Place::Width, 1).is_err());
        assert!(check_length(Place::PenetrometerBlows(0, 0), inches(1.0)).is_err());
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let text = "Pit 1 station is not a number that can be measured";
            check_words(
                check_length(Place::PitStation(0), metres(value)).unwrap_err(),
                text,
                text,
            );
            assert!(check_turn(Place::LegTurn(0), Angle::new::<unit::radian>(value)).is_err());
        }
        assert!(check_length(Place::Fabric, inches(1.0)).is_err());
        assert!(check_fall(Place::Width, Fall::percent(1.0)).is_err());
        assert!(check_turn(Place::Width, Angle::new::<unit::degree>(1.0)).is_err());
    }

    #[test]
    fn a_full_circle_is_the_most_a_walk_turns() {
        assert!(check_turn(Place::LegTurn(0), Angle::new::<unit::degree>(360.0)).is_ok());
        assert!(
            check_turn(
                Place::LegTurn(0),
                Angle::new::<unit::radian>(2.0 * std::f64::consts::PI)
            )
            .is_ok()
        );
        assert!(check_turn(Place::LegTurn(0), Angle::new::<unit::degree>(0.0)).is_err());
    }

    #[test]
    fn bare_numbers_keep_their_size_in_metric() {
        assert_eq!(field(Place::LegLength(0)).metric_bare(), BareUnit::Metre);
        assert_eq!(
            field(Place::LayerThickness(0, 0)).metric_bare(),
            BareUnit::Millimetre
        );
        assert_eq!(field(Place::Fabric).metric_bare(), BareUnit::Millimetre);
        assert_eq!(ShownIn::Metric.length(millimetres(82.6)), "83 mm");
        assert_eq!(ShownIn::FeetInches.length(inches(3.25)), "3 1/4\"");
    }
}
