//! Stop Lay: bond, brick, the width that fits, limits, where laying starts, openings, what brick there is.

mod fit;
mod laid;
mod sample;

use underbrick_calc::lay::{BrickSize, fine};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::{Bond, CourseWay, StartSide};

use super::opened::Opened;
use super::{Stop, findings, heading, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::rows::Row;

/// Sides and joint of the brick: shown here and at the first stop, set the same way at both.
pub(super) const BRICK: [Place; 4] = [
    Place::BrickLength,
    Place::BrickWidth,
    Place::BrickThickness,
    Place::Joint,
];

pub(super) fn rows(visit: &Visit, set: Option<Place>, opened: &Opened) -> Vec<Row> {
    let mut rows = Vec::new();
    bond_rows(visit, &mut rows);
    rows.push(heading("The brick", taken(visit)));
    for place in BRICK {
        rows.push(value(visit, place, &brick_note(visit, place)));
    }
    sample::rows(visit, set, &mut rows);
    fit::rows(visit, &mut rows);
    laid::rows(visit, opened, &mut rows);
    limit_rows(visit, &mut rows);
    start_rows(visit, &mut rows);
    opening_rows(visit, set, &mut rows);
    stock_rows(visit, &mut rows);
    rows.push(heading("North", ""));
    rows.push(value(visit, Place::Bearing, ""));
    rows.extend(findings(visit, Stop::Lay));
    rows
}

/// What an empty side of the brick takes from the sample, in words; empty where it takes its default.
pub(super) fn brick_note(visit: &Visit, place: Place) -> String {
    let site = visit.site();
    let Some(sample) = visit
        .results()
        .brick
        .as_ref()
        .and_then(|brick| brick.sample.first.as_ref())
    else {
        return String::new();
    };
    let (written, side) = match place {
        Place::BrickLength => (site.brick.length, sample.length),
        Place::BrickWidth => (site.brick.width, sample.width),
        Place::BrickThickness => (site.brick.thickness, sample.thickness),
        _ => return String::new(),
    };
    match (written, side) {
        (None, Some(side)) => format!("mean of the sample: {}", fine(side.mean, site.shown_in)),
        _ => String::new(),
    }
}

fn taken(visit: &Visit) -> String {
    let size = BrickSize::of_field(visit.site());
    let words = |length: Length| fine(length, visit.site().shown_in);
    format!(
        "{} x {} x {}",
        words(size.length),
        words(size.width),
        words(size.thickness)
    )
}

fn bond_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let lay = &visit.site().lay;
    let word = |bond: Bond| match bond {
        Bond::Running => "running",
        Bond::Stack => "stack",
        Bond::BasketTwoOnTwo => "basket 2 on 2",
        Bond::BasketTwoOnOne => "basket 2 on 1",
        Bond::Herringbone90 => "herringbone 90°",
        Bond::Herringbone45 => "herringbone 45°",
    };
    rows.push(heading("Bond", lay.bond.name()));
    rows.push(Row::Choice {
        label: "The pattern of the field".to_owned(),
        options: Bond::ALL
            .map(|bond| (word(bond).to_owned(), Edit::Bond(bond), lay.bond == bond))
            .to_vec(),
    });
    if lay.bond.follows() {
        let option =
            |word: &str, way: CourseWay| (word.to_owned(), Edit::Courses(way), lay.courses == way);
        rows.push(Row::Choice {
            label: "Courses run".to_owned(),
            options: vec![
                option("with the walk", CourseWay::Along),
                option("from side to side", CourseWay::Across),
            ],
        });
    }
    if lay.bond == Bond::Running {
        rows.push(value(visit, Place::LapShare, ""));
    }
}

fn limit_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let follows = visit.site().lay.bond.follows();
    rows.push(heading("Limits", "what may be laid"));
    rows.push(value(visit, Place::LeastJoint, ""));
    rows.push(value(visit, Place::WidestJoint, ""));
    if follows {
        rows.push(value(visit, Place::LeastLap, ""));
    }
    rows.push(value(visit, Place::LeastPiece, ""));
    rows.push(value(visit, Place::Kerf, ""));
}

fn start_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let lay = &visit.site().lay;
    rows.push(heading("Where laying starts", ""));
    let side = |word: &str, side: StartSide| {
        (
            word.to_owned(),
            Edit::StartSide(side),
            lay.start_side == side,
        )
    };
    rows.push(Row::Choice {
        label: "First course, looking away from the door".to_owned(),
        options: vec![
            side("left edge", StartSide::Left),
            side("right edge", StartSide::Right),
        ],
    });
    let across = |edit: fn(bool) -> Edit, is_laid: bool| {
        vec![
            ("none".to_owned(), edit(false), !is_laid),
            ("laid".to_owned(), edit(true), is_laid),
        ]
    };
    rows.push(Row::Choice {
        label: "A row of edge brick across, at the door".to_owned(),
        options: across(Edit::ReturnAtDoor, lay.return_at_door),
    });
    rows.push(Row::Choice {
        label: "A row of edge brick across, at the far end".to_owned(),
        options: across(Edit::ReturnAtEnd, lay.return_at_end),
    });
}

fn opening_rows(visit: &Visit, set: Option<Place>, rows: &mut Vec<Row>) {
    let site = visit.site();
    let openings = &site.lay.openings;
    rows.push(heading(
        "Openings",
        match openings.len() {
            0 => "none: drain, post".to_owned(),
            1 => "1 is left free".to_owned(),
            more => format!("{more} are left free"),
        },
    ));
    for (opening_idx, opening) in openings.iter().enumerate() {
        let places = [
            Place::OpeningStation(opening_idx),
            Place::OpeningAlong(opening_idx),
            Place::OpeningAcross(opening_idx),
            Place::OpeningOffset(opening_idx),
        ];
        let words = |length: Option<Length>| {
            length.map_or_else(|| "?".to_owned(), |length| site.shown_in.thickness(length))
        };
        let note = format!(
            "{} along, {} across",
            words(opening.along),
            words(opening.across)
        );
        let [station, others @ ..] = places;
        rows.push(super::named(
            visit,
            station,
            None,
            &format!("Opening {} at", opening_idx + 1),
            &note,
        ));
        if places.into_iter().any(|place| set == Some(place)) {
            for place in others {
                rows.push(value(visit, place, ""));
            }
            rows.push(Row::Acts(vec![(
                format!("take opening {} away", opening_idx + 1),
                Edit::RemoveOpening(opening_idx),
            )]));
        }
    }
    rows.push(Row::Acts(vec![(
        "add an opening".to_owned(),
        Edit::AddOpening,
    )]));
}

fn stock_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let lay = &visit.site().lay;
    let has_second = lay.second_brick.is_some();
    rows.push(heading("What brick there is", ""));
    rows.push(Row::Choice {
        label: "Sizes of brick on site".to_owned(),
        options: vec![
            ("one size".to_owned(), Edit::SecondBrick(false), !has_second),
            ("two sizes".to_owned(), Edit::SecondBrick(true), has_second),
        ],
    });
    if has_second {
        for place in [
            Place::SecondLength,
            Place::SecondWidth,
            Place::SecondThickness,
        ] {
            rows.push(value(visit, place, ""));
        }
        let of_second = lay.edge_of_second;
        rows.push(Row::Choice {
            label: "The edge is of".to_owned(),
            options: vec![
                (
                    "the first size".to_owned(),
                    Edit::EdgeOfSecond(false),
                    !of_second,
                ),
                (
                    "the second size".to_owned(),
                    Edit::EdgeOfSecond(true),
                    of_second,
                ),
            ],
        });
    }
    rows.push(value(visit, Place::BricksOnSite, ""));
    rows.push(value(visit, Place::BrickLoss, ""));
}
