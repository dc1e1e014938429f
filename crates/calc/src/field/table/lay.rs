//! Rows of the laying and of the brick as measured.

use super::{in_inches, row, station};
use crate::field::{Field, Kind};
use crate::measure::amount::AmountUnit;
use crate::place::Place;

pub(super) fn field(place: Place) -> Field {
    match place {
        Place::Opening(_)
        | Place::OpeningStation(_)
        | Place::OpeningAlong(_)
        | Place::OpeningAcross(_)
        | Place::OpeningOffset(_) => opening(place),
        Place::SampleBrick(_)
        | Place::SampleLength(_)
        | Place::SampleWidth(_)
        | Place::SampleThickness(_)
        | Place::SecondLength
        | Place::SecondWidth
        | Place::SecondThickness
        | Place::BricksOnSite
        | Place::BrickLoss => brick(place),
        Place::Bond
        | Place::CourseWay
        | Place::LapShare
        | Place::StartSide
        | Place::Returns
        | Place::Bearing => pattern(place),
        Place::Piece(_) => row("Piece", "One brick or piece as laid.", Kind::Thing),
        _ => limit(place),
    }
}

fn pattern(place: Place) -> Field {
    match place {
        Place::Bond => row("Bond", "The pattern of the field.", Kind::Choice),
        Place::CourseWay => row(
            "Courses run",
            "Whether the courses of running and stack bond run with the walk or from side to side.",
            Kind::Choice,
        ),
        Place::LapShare => row(
            "Lap",
            "How far each course is moved against the next, in percent of a brick and its joint; 50 % is half a brick.",
            Kind::Number {
                unit: AmountUnit::Percent,
                least: 1.0,
                most: 99.0,
            },
        )
        .or_else("50 %"),
        Place::StartSide => row(
            "First course",
            "The side on which laying starts, looking away from the door.",
            Kind::Choice,
        ),
        Place::Returns => row(
            "Row across",
            "A row of edge brick across the walk at an end.",
            Kind::Choice,
        ),
        _ => row(
            "Bearing",
            "Which way the walk leaves the door, by compass: 0 is north, 90 is east.",
            Kind::Turn {
                most_degrees: 360.0,
                may_be_zero: true,
            },
        )
        .or_else("no north arrow"),
    }
}

fn limit(place: Place) -> Field {
    match place {
        Place::LeastLap => row(
            "Least lap",
            "How near the joints of two courses may come where they drift on a curve.",
            in_inches(0.0, 18.0),
        )
        .or_else("a quarter of the brick"),
        Place::LeastPiece => row(
            "Least piece",
            "The shortest piece that is laid.",
            in_inches(0.25, 18.0),
        )
        .or_else("a third of the brick"),
        Place::LeastJoint => row(
            "Least joint",
            "The narrowest joint that is allowed.",
            in_inches(0.0, 1.0),
        )
        .or_else("1/16 in"),
        Place::WidestJoint => row(
            "Widest joint",
            "The widest joint that is allowed.",
            in_inches(1.0 / 64.0, 2.0),
        )
        .or_else("3/16 in"),
        Place::Kerf => row(
            "Saw kerf",
            "Width that the saw takes away.",
            in_inches(0.0, 0.5),
        )
        .or_else("1/8 in"),
        Place::TargetWidth => row(
            "Width over the edges",
            "The width that is wished for at the door, from outer face to outer face of the edge bricks.",
            in_inches(12.0, 300.0),
        )
        .or_else("as the clear width and the edges give it"),
        _ => row(
            "Width tolerance",
            "How far the width may be off the wish, either way.",
            in_inches(0.0, 12.0),
        )
        .or_else("1/2 in"),
    }
}

fn opening(place: Place) -> Field {
    match place {
        Place::OpeningStation(_) => row(
            "Opening station",
            "Tape along the centreline from the door wall to the middle of the opening.",
            station(),
        ),
        Place::OpeningAlong(_) => row(
            "Opening along",
            "Size of the opening along the run.",
            in_inches(0.25, 240.0),
        ),
        Place::OpeningAcross(_) => row(
            "Opening across",
            "Size of the opening across the run.",
            in_inches(0.25, 240.0),
        ),
        Place::OpeningOffset(_) => row(
            "Opening offset",
            "Tape from the centreline square to the run, positive to the right looking away from the door.",
            in_inches(-360.0, 360.0),
        )
        .or_else("on the centreline"),
        _ => row(
            "Opening",
            "A place that the brick leaves free: a drain, a post.",
            Kind::Thing,
        ),
    }
}

fn brick(place: Place) -> Field {
    match place {
        Place::SampleLength(_) => row(
            "Sample length",
            "Longest side of this one brick.",
            in_inches(0.25, 360.0),
        )
        .or_else("not measured"),
        Place::SampleWidth(_) => row(
            "Sample width",
            "Middle side of this one brick.",
            in_inches(0.125, 360.0),
        )
        .or_else("not measured"),
        Place::SampleThickness(_) => row(
            "Sample thickness",
            "Shortest side of this one brick.",
            in_inches(0.05, 120.0),
        )
        .or_else("not measured"),
        Place::SecondLength => row(
            "Second brick length",
            "Longest side of the other size on site.",
            in_inches(2.0, 36.0),
        )
        .or_else("from its sample, else not known"),
        Place::SecondWidth => row(
            "Second brick width",
            "Middle side of the other size on site.",
            in_inches(1.0, 36.0),
        )
        .or_else("from its sample, else not known"),
        Place::SecondThickness => row(
            "Second brick thickness",
            "Shortest side of the other size on site.",
            in_inches(0.5, 12.0),
        )
        .or_else("from its sample, else not known"),
        Place::BricksOnSite => row(
            "Brick on site",
            "Whole bricks of the first size that are there and good, as counted.",
            Kind::Count {
                least: 0,
                most: 1_000_000,
            },
        )
        .or_else("not counted"),
        Place::BrickLoss => row(
            "Brick lost",
            "Share of the lifted brick that breaks or is no good, where it was not counted.",
            Kind::Number {
                unit: AmountUnit::Percent,
                least: 0.0,
                most: 95.0,
            },
        )
        .or_else("not known"),
        _ => row(
            "Sample",
            "One brick as measured with the tape.",
            Kind::Thing,
        ),
    }
}
