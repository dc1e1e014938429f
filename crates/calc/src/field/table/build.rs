//! Rows of the building.

use super::{in_inches, row, station};
use crate::field::{Field, Kind};
use crate::measure::written::BareUnit;
use crate::place::Place;
use crate::quantity::{feet, inches};

pub(super) fn field(place: Place) -> Field {
    match place {
        Place::BuildSpacing => row(
            "Stake spacing",
            "From stake to stake along the run.",
            Kind::Length {
                bare: BareUnit::Foot,
                least: inches(6.0),
                most: feet(100.0),
            },
        )
        .or_else("10 ft, or 3 m"),
        Place::StringAboveGrade => row(
            "String above grade",
            "How far the working string hangs above the finished surface; on it where nothing is written.",
            in_inches(0.0, 48.0),
        )
        .or_else("on the grade line"),
        Place::SetUp(_) => row("Set-up", "One set-up of the instrument.", Kind::Thing),
        Place::SetUpRod(_) => row(
            "Set-up rod at sill",
            "Rod reading on the underside of the sill in this set-up.",
            Kind::Length {
                bare: BareUnit::Foot,
                least: feet(-30.0),
                most: feet(30.0),
            },
        ),
        Place::BuildReading(_) => row("Check", "One reading of what was built.", Kind::Thing),
        Place::BuildStation(_) | Place::SpotStation(_) => row(
            "Check station",
            "Along the run from the door.",
            station(),
        ),
        Place::BuildOffset(_) => row(
            "Check offset",
            "Square to the run, right positive; the centreline where nothing is written.",
            Kind::Length {
                bare: BareUnit::Inch,
                least: feet(-30.0),
                most: feet(30.0),
            },
        )
        .or_else("centreline"),
        Place::BuildValue(_) => row(
            "Check reading",
            "Tape from the working string down to the surface, or rod reading on it.",
            Kind::Length {
                bare: BareUnit::Inch,
                least: feet(-30.0),
                most: feet(30.0),
            },
        ),
        Place::Spot(_) => row("Spot", "One check at a spot that is no level.", Kind::Thing),
        Place::SpotSize(_) => row(
            "Spot size",
            "What rule, feeler or tape read.",
            in_inches(0.0, 12.0),
        ),
        Place::LiftLoose(_) => row(
            "Lift loose",
            "Thickness of the lift as tipped and spread, at its thickest.",
            in_inches(0.0, 24.0),
        ),
        Place::LiftCompacted(_) => row(
            "Lift compacted",
            "Thickness of the lift compacted, at its thickest.",
            in_inches(0.0, 24.0),
        ),
        Place::LiftPasses(_) => row(
            "Lift passes",
            "Passes of the plate over every spot of the lift.",
            Kind::Count { least: 0, most: 99 },
        ),
        Place::HoldStage(_) => row("Stage", "A stage that is closed before the next begins.", Kind::Thing),
        Place::StageReason(_) => row(
            "Reason",
            "Why the stage is closed over a check that failed or is missing.",
            Kind::Text,
        ),
        Place::StageInitials(_) => row("Initials", "Who closes the stage.", Kind::Text),
        Place::Day(_) => row("Day", "One day of the log.", Kind::Thing),
        Place::DayDate(_) => row("Day date", "Year, month, day, such as 2026-05-04.", Kind::Text),
        Place::DayCrew(_) => row("Day crew", "Who worked.", Kind::Text),
        Place::DayWeather(_) => row("Day weather", "In a few words.", Kind::Text),
        Place::DayNotes(_) => row("Day notes", "What else is to be remembered.", Kind::Text),
        Place::DeliveryItem(..) => row("Day delivery", "What came.", Kind::Choice),
        Place::DeliveryCount(..) => row(
            "Day delivery count",
            "How many of its unit of sale came.",
            Kind::Decimal {
                may_be_zero: false,
                most: 1_000_000,
            },
        ),
        _ => row("Initials", "Who holds the device: they stand behind every reading.", Kind::Text),
    }
}
