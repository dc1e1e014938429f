//! Rows of the order.

use super::row;
use crate::field::{Field, Kind};
use crate::place::Place;

pub(super) fn field(place: Place) -> Field {
    match place {
        Place::OrderWay => row(
            "Way",
            "How the walk is rebuilt: what the homeowner chooses between.",
            Kind::Choice,
        ),
        Place::OrderRate(_) => row(
            "Rate",
            "What is asked for one unit of sale, for this job.",
            Kind::Decimal {
                may_be_zero: false,
                most: 100_000,
            },
        )
        .or_else("as the price list has it"),
        Place::OrderCount(_) => row(
            "Locked at",
            "So many units have been ordered: they stay, whatever the readings say now.",
            Kind::Decimal {
                may_be_zero: true,
                most: 1_000_000,
            },
        )
        .or_else("as the readings ask"),
        Place::CrewSize => row(
            "Crew",
            "How many work on this job.",
            Kind::Count { least: 1, most: 20 },
        )
        .or_else("as the price list has it"),
        Place::CrewRate => row(
            "Crew rate",
            "What one hour of one person costs on this job.",
            Kind::Decimal {
                may_be_zero: false,
                most: 1_000,
            },
        )
        .or_else("as the price list has it"),
        Place::StageHours(_) => row(
            "Hours",
            "Hours of one person for one unit of this work, for this job.",
            Kind::Decimal {
                may_be_zero: true,
                most: 1_000,
            },
        )
        .or_else("as the price list has it"),
        _ => row("Line", "One line of the order.", Kind::Thing),
    }
}
