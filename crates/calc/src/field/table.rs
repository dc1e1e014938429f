//! One row for every place.

mod build;
mod lay;
mod order;
mod soil;

use super::{Field, Kind};
use crate::measure::written::BareUnit;
use crate::place::Place;
use crate::quantity::{feet, inches};

/// The field at a place.
///
/// # Source
/// Limits are common practice, no source: wide enough for any walk, narrow enough to catch a slip of the unit.
#[must_use]
pub fn field(place: Place) -> Field {
    match place {
        Place::Site => row(
            "Site",
            "Everything written down at this address.",
            Kind::Thing,
        ),
        Place::Address => row(
            "Address",
            "Street and number, as you call the job.",
            Kind::Text,
        ),
        Place::Walk => row(
            "Walk",
            "Which walk at this address, such as front walk.",
            Kind::Text,
        ),
        Place::Sign(_) | Place::SignStation(_) | Place::SignOffset(_) | Place::SignWidth(_) => {
            sign_field(place)
        }
        Place::OldBelowSill
        | Place::FirstBrickBelowSill
        | Place::FarEndBelowSill
        | Place::StringAboveSill
        | Place::RodAtSill => level_field(place),
        Place::BookRow(_)
        | Place::BookStation(_)
        | Place::BookOffset(_)
        | Place::BookReading(_)
        | Place::BookLimit
        | Place::BookBenchmark => book_field(place),
        Place::Leg(_)
        | Place::LegLength(_)
        | Place::LegRadius(_)
        | Place::LegTurn(_)
        | Place::LegWidthAtEnd(_)
        | Place::Width
        | Place::Fall
        | Place::CrossFall => run_field(place),
        Place::StepsAt | Place::StepTread | Place::BreakAt | Place::BreakBelowSill => {
            shape_field(place)
        }
        Place::Shot(_) | Place::ShotStation(_) | Place::ShotOffset(_) | Place::ShotReading(_) => {
            shot_field(place)
        }
        Place::Pit(_)
        | Place::PitStation(_)
        | Place::PitOffset(_)
        | Place::PitSeep(_)
        | Place::LayerMaterial(..)
        | Place::LayerThickness(..) => pit_field(place),
        Place::PenetrometerStart(_)
        | Place::PenetrometerBlows(..)
        | Place::PenetrometerReading(..) => penetrometer_field(place),
        Place::SettingBed
        | Place::LeastBase
        | Place::BaseMaterial
        | Place::LooseLift
        | Place::SideExtension
        | Place::UndercutLimit
        | Place::Fabric => bed_field(place),
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
        | Place::Conductivity => soil::field(place),
        Place::BrickLength
        | Place::BrickWidth
        | Place::BrickThickness
        | Place::Joint
        | Place::EdgeStands
        | Place::Restraint
        | Place::HaunchHeight
        | Place::HaunchWidth
        | Place::HaunchTopWidth
        | Place::SpikeSpacing => brick_field(place),
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
        | Place::Piece(_) => lay::field(place),
        Place::OrderWay
        | Place::OrderLine(_)
        | Place::OrderRate(_)
        | Place::OrderCount(_)
        | Place::CrewSize
        | Place::CrewRate
        | Place::StageHours(_) => order::field(place),
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
        | Place::DeliveryCount(..) => build::field(place),
        Place::WorkStart => row(
            "Start of the work",
            "Year, month, day, such as 2026-05-04.",
            Kind::Text,
        ),
        Place::Agreement(_) => row(
            "Agreement",
            "What was agreed, word for word, with who signed it.",
            Kind::Thing,
        ),
        Place::Picture(_) => row(
            "Picture",
            "A file in the folder pictures of the site.",
            Kind::Thing,
        ),
        Place::PictureCaption(_) => row(
            "Picture caption",
            "What it shows, in a few words: it stands under the picture on paper.",
            Kind::Text,
        ),
        Place::Lift(_) => row(
            "Lift",
            "One compacted layer of base, counted from the bottom.",
            Kind::Thing,
        ),
        Place::GradeLine => row("Grade line", "Top of the brick to be laid.", Kind::Thing),
        Place::OldSurface => row("Old surface", "Top of the walk as found.", Kind::Thing),
        Place::DigBottom => row(
            "Bottom of the dig",
            "Where digging ends and the base begins.",
            Kind::Thing,
        ),
    }
}

fn sign_field(place: Place) -> Field {
    match place {
        Place::SignStation(_) => row(
            "Sign station",
            "Tape along the centreline from the door wall to the middle of what is seen.",
            station(),
        )
        .or_else("all along the walk"),
        Place::SignOffset(_) => row(
            "Sign offset",
            "Tape from the centreline square to the run, positive to the right looking away from the door.",
            in_inches(-360.0, 360.0),
        )
        .or_else("on the centreline"),
        Place::SignWidth(_) => row(
            "Sign joint width",
            "Widest joint there, from brick to brick; a wedge or a drill shank reads it.",
            in_inches(0.0, 4.0),
        ),
        _ => row(
            "Sign",
            "What is seen on the old walk.",
            Kind::Choice,
        ),
    }
}

fn level_field(place: Place) -> Field {
    match place {
        Place::OldBelowSill => row(
            "Sill above old brick",
            "Tape from the underside of the door sill straight down to the old brick, on the centreline at the wall.",
            in_inches(-12.0, 120.0),
        ),
        Place::FirstBrickBelowSill => row(
            "Sill above first brick",
            "From the underside of the door sill down to the top of the first new brick.",
            in_inches(-12.0, 120.0),
        )
        .or_else("level with the underside of the sill"),
        Place::FarEndBelowSill => row(
            "Far end below sill",
            "Drop from the underside of the sill to what the walk must meet: tape from the string less its height above the sill, or rod there less rod at the sill.",
            in_inches(-240.0, 720.0),
        ),
        Place::StringAboveSill => row(
            "String above sill",
            "Tape from the underside of the sill up to the level string. Negative where the string hangs below.",
            in_inches(-120.0, 120.0),
        ),
        _ => row(
            "Rod at sill",
            "Hold the rod on the underside of the sill and read it at the level line.",
            in_inches(0.0, 300.0),
        ),
    }
}

fn book_field(place: Place) -> Field {
    match place {
        Place::BookStation(_) => row(
            "Sight station",
            "Tape along the centreline from the door wall to where the rod stands.",
            station(),
        ),
        Place::BookOffset(_) => row(
            "Sight offset",
            "Tape from the centreline square to the run, positive to the right looking away from the door.",
            in_inches(-360.0, 360.0),
        )
        .or_else("on the centreline"),
        Place::BookReading(_) => row(
            "Sight reading",
            "What the rod reads at the level line. Negative for a rod held upside down under a soffit.",
            in_inches(-360.0, 360.0),
        ),
        Place::BookLimit => row(
            "Misclosure limit",
            "Largest difference that is let pass when the book comes back to a known level.",
            in_inches(0.0, 12.0),
        )
        .or_else("1/8 in"),
        Place::BookBenchmark => row(
            "Benchmark above sill",
            "Height of the benchmark above the underside of the sill. Negative where it lies below.",
            in_inches(-720.0, 720.0),
        ),
        _ => row(
            "Sight",
            "One sight of the level book.",
            Kind::Thing,
        ),
    }
}

fn run_field(place: Place) -> Field {
    match place {
        Place::Leg(_) => row("Leg", "One straight or one curve of the run.", Kind::Thing),
        Place::LegLength(_) => {
            row("Leg length", "Tape along the centreline from where the leg starts to where it ends.", in_feet(1.0 / 12.0, 500.0))
        }
        Place::LegRadius(_) => row(
            "Leg radius",
            "Radius to the centreline: swing a tape from the centre of the curve, or work it out from chord and rise.",
            in_feet(0.5, 1000.0),
        ),
        Place::LegTurn(_) => row(
            "Leg turn",
            "How far the walk turns from the start of the curve to its end; a right-angled corner is 90 degrees.",
            Kind::Turn { most_degrees: 360.0, may_be_zero: false },
        ),
        Place::LegWidthAtEnd(_) => row(
            "Leg width at end",
            "Tape square to the run between the inner faces of the edge bricks, where the leg ends.",
            in_inches(12.0, 240.0),
        )
        .or_else("the width it starts with"),
        Place::Width => row(
            "Width between edge bricks",
            "Tape square to the run between the inner faces of the edge bricks, at the door.",
            in_inches(12.0, 240.0),
        ),
        Place::Fall => row(
            "Fall",
            "How much the finished walk is to drop along the run, away from the house.",
            Kind::Fall { least_ratio: -0.25, most_ratio: 0.25 },
        )
        .or_else("1/4 in per ft"),
        _ => row(
            "Cross-fall",
            "How much the finished walk is to drop across the run, positive to the right looking away from the door.",
            Kind::Fall { least_ratio: -0.125, most_ratio: 0.125 },
        )
        .or_else("level across"),
    }
}

fn shape_field(place: Place) -> Field {
    match place {
        Place::StepsAt => row(
            "First riser from door",
            "Tape along the centreline from the door to the first riser.",
            in_feet(0.0, 1500.0),
        )
        .or_else("the flight stands in the middle"),
        Place::StepTread => row(
            "Tread",
            "From the face of one riser to the face of the next.",
            in_inches(6.0, 120.0),
        )
        .or_else("10 in"),
        Place::BreakAt => row(
            "Break from door",
            "Tape along the centreline from the door to where the fall changes, such as a channel drain across the walk.",
            in_feet(0.0, 1500.0),
        ),
        _ => row(
            "Break below sill",
            "Drop from the underside of the sill to the finished surface at the break.",
            in_inches(-120.0, 360.0),
        ),
    }
}

fn shot_field(place: Place) -> Field {
    match place {
        Place::ShotStation(_) => row("Level station", "Tape along the centreline from the door wall to the reading.", station()),
        Place::ShotOffset(_) => row(
            "Level offset",
            "Tape from the centreline square to the run, positive to the right looking away from the door.",
            in_inches(-360.0, 360.0),
        )
        .or_else("on the centreline"),
        Place::ShotReading(_) => row(
            "Level reading",
            "By string: tape from the string straight down to the old surface. By rod: what the rod reads when it stands there.",
            in_inches(0.0, 360.0),
        ),
        _ => row("Level", "One level of the old surface.", Kind::Thing),
    }
}

fn pit_field(place: Place) -> Field {
    match place {
        Place::PitStation(_) => {
            row("Pit station", "Tape along the centreline from the door wall to the middle of the pit.", station())
        }
        Place::PitOffset(_) => row(
            "Pit offset",
            "Tape from the centreline square to the run, positive to the right looking away from the door.",
            in_inches(-360.0, 360.0),
        )
        .or_else("on the centreline"),
        Place::PitSeep(_) => {
            row("Pit seep", "Depth below the old surface at which water came in.", in_inches(0.0, 120.0)).or_else("no water seen")
        }
        Place::LayerMaterial(..) => row("Layer material", "What it looks and feels like; the old brick is the first layer.", Kind::Choice),
        Place::LayerThickness(..) => row(
            "Layer thickness",
            "Tape on the side of the pit from the top of the layer to its bottom.",
            in_inches(1.0 / 16.0, 120.0),
        )
        .or_else("the last layer goes on down"),
        _ => row("Pit", "One hole through the old walk, with its layers from the top down.", Kind::Thing),
    }
}

fn penetrometer_field(place: Place) -> Field {
    match place {
        Place::PenetrometerStart(_) => row(
            "Penetrometer start",
            "Stand the cone on the bottom of the pit, seat it, and read the scale before the first blow.",
            in_inches(0.0, 80.0),
        ),
        Place::PenetrometerBlows(..) => row(
            "Penetrometer blows",
            "How often the hammer fell since the reading before.",
            Kind::Count {
                least: 1,
                most: 100,
            },
        ),
        _ => row(
            "Penetrometer reading",
            "What the scale says after these blows; it grows as the cone goes down.",
            in_inches(0.0, 80.0),
        ),
    }
}

fn bed_field(place: Place) -> Field {
    match place {
        Place::SettingBed => row(
            "Setting bed",
            "Thickness of the sand under the brick once it is compacted.",
            in_inches(0.0, 6.0),
        )
        .or_else("3/4 in"),
        Place::LeastBase => row(
            "Least base",
            "Thinnest the compacted base may be anywhere.",
            in_inches(0.0, 48.0),
        )
        .or_else("4 in, more on weak or wet ground"),
        Place::BaseMaterial => row("Base material", "What the base is built of.", Kind::Choice),
        Place::LooseLift => row(
            "Loose lift",
            "Most that is tipped before it is compacted; the plate's maker may say.",
            in_inches(1.0, 24.0),
        )
        .or_else("3 in"),
        Place::SideExtension => row(
            "Dig past the edge",
            "How far the dig goes past the outer face of the edge brick, each side.",
            in_inches(0.0, 48.0),
        )
        .or_else("6 in, or the base where that is thicker"),
        Place::UndercutLimit => row(
            "Deepest dig",
            "How far below the grade line the dig may go at most.",
            in_inches(1.0, 120.0),
        )
        .or_else("no limit"),
        _ => row(
            "Fabric",
            "Whether a separation fabric lies on the undisturbed ground.",
            Kind::Choice,
        ),
    }
}

fn brick_field(place: Place) -> Field {
    match place {
        Place::BrickLength => row(
            "Brick length",
            "Longest side; the mean of ten bricks in a row.",
            in_inches(2.0, 36.0),
        )
        .or_else("8 in"),
        Place::BrickWidth => row(
            "Brick width",
            "Middle side; the mean of ten bricks in a row.",
            in_inches(1.0, 36.0),
        )
        .or_else("4 in"),
        Place::BrickThickness => row(
            "Brick thickness",
            "Shortest side; the mean of ten bricks in a stack.",
            in_inches(0.5, 12.0),
        )
        .or_else("2 1/4 in"),
        Place::Joint => row(
            "Joint",
            "Gap between two bricks as they are to be laid.",
            in_inches(0.0, 1.0),
        )
        .or_else("1/8 in"),
        Place::EdgeStands => row(
            "Edge brick",
            "How the edge brick stands; the same on both sides.",
            Kind::Choice,
        ),
        Place::HaunchHeight => row(
            "Haunch height",
            "How far the concrete goes up the edge brick, from its bottom.",
            in_inches(0.5, 24.0),
        )
        .or_else("4 in"),
        Place::HaunchWidth => row(
            "Haunch width",
            "Width of the concrete at its bottom.",
            in_inches(0.5, 36.0),
        )
        .or_else("4 in"),
        Place::HaunchTopWidth => row(
            "Haunch top width",
            "Width of the concrete at its top; zero makes a triangle.",
            in_inches(0.0, 36.0),
        )
        .or_else("0 in"),
        Place::SpikeSpacing => row(
            "Spike spacing",
            "From spike to spike along the edging strip.",
            in_inches(2.0, 120.0),
        )
        .or_else("12 in"),
        _ => row(
            "Restraint",
            "What holds the edge brick from outside.",
            Kind::Choice,
        ),
    }
}

fn row(name: &'static str, how: &'static str, kind: Kind) -> Field {
    Field {
        name,
        how,
        kind,
        when_empty: None,
    }
}

impl Field {
    fn or_else(self, when_empty: &'static str) -> Self {
        Self {
            when_empty: Some(when_empty),
            ..self
        }
    }
}

/// A length of which a bare number means inches.
fn in_inches(least_in: f64, most_in: f64) -> Kind {
    Kind::Length {
        bare: BareUnit::Inch,
        least: inches(least_in),
        most: inches(most_in),
    }
}

/// A length along the run, of which a bare number means feet.
fn in_feet(least_ft: f64, most_ft: f64) -> Kind {
    Kind::Length {
        bare: BareUnit::Foot,
        least: feet(least_ft),
        most: feet(most_ft),
    }
}

fn station() -> Kind {
    in_feet(0.0, 5000.0)
}
