//! The line of whole sites: what is refused, what is warned of, what is offered.

mod book;
mod grades;
mod readings;
mod runs;

use super::*;
use crate::findings::Weight;
use crate::place::Place;
use crate::quantity::{Angle, Length, feet, inches, unit};
use crate::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, Hand, Leg, LegShape, LevelBook, LineInput,
    MaterialKey, RestraintInput, Shot, ShotBy, ShownIn,
};

pub(crate) fn straight(length: Length) -> Leg {
    Leg {
        shape: LegShape::Straight {
            length: Some(length),
        },
        width_at_end: None,
    }
}

pub(crate) fn curve(radius: Length, turn_degrees: f64, hand: Hand) -> Leg {
    let turn = Some(Angle::new::<unit::degree>(turn_degrees));
    Leg {
        shape: LegShape::Curve {
            radius: Some(radius),
            turn,
            hand,
        },
        width_at_end: None,
    }
}

pub(super) fn shot(station: Length, by: ShotBy, reading: Length) -> Shot {
    Shot {
        station: Some(station),
        offset: None,
        by,
        reading: Some(reading),
    }
}

/// A walk 4 ft wide with sailor edges of 2 1/4 in.
pub(crate) fn site(legs: Vec<Leg>) -> Site {
    Site {
        address: "1 Sample Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in: ShownIn::FeetInches,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: Some(inches(3.0)),
            first_brick_below_sill: None,
            legs,
            width: Some(feet(4.0)),
            fall: None,
            cross_fall: None,
            far_end: FarEnd::Free,
            shape: crate::site::GradeShape::Uniform,
            string_above_sill: None,
            rod_at_sill: None,
            book: LevelBook::default(),
            shots: Vec::new(),
        },
        pits: Vec::new(),
        bed: BedInput {
            setting_bed: None,
            least_base: None,
            base_material: MaterialKey("stone".to_owned()),
            loose_lift: None,
            side_extension: None,
            undercut_limit: None,
            fabric: false,
            plant: crate::build::Plant::NotKnown,
        },
        brick: Brick {
            length: None,
            width: None,
            thickness: None,
            joint: None,
        },
        soil: Default::default(),
        frost: Default::default(),
        lay: Default::default(),
        order: Default::default(),
        build: Default::default(),
        show: Default::default(),
        edge: EdgeInput {
            stands: EdgeStands::Sailor,
            restraint: RestraintInput::Nothing,
        },
    }
}

pub(super) fn fixed(site: Site, below_sill: Length) -> Site {
    let far_end = FarEnd::Fixed {
        below_sill: Some(below_sill),
    };
    Site {
        line: LineInput {
            far_end,
            ..site.line
        },
        ..site
    }
}

#[track_caller]
pub(crate) fn line_of(site: &Site) -> (Line, Findings) {
    let mut findings = Findings::default();
    let line = line(site, &mut findings).unwrap();
    (line, findings)
}

/// The run is refused, and the finding at that place says `text`.
#[track_caller]
pub(super) fn check_refused(site: &Site, place: Place, text: &str) {
    let mut findings = Findings::default();
    assert_eq!(line(site, &mut findings), None);
    let found: Vec<_> = findings.at(place).collect();
    assert!(
        found
            .iter()
            .any(|finding| finding.weight == Weight::Stop && finding.text == text),
        "{findings:#?}"
    );
}

/// A finding of that weight at that place holds `text`.
#[track_caller]
pub(super) fn check_found(findings: &Findings, place: Place, weight: Weight, text: &str) {
    let found = findings
        .at(place)
        .any(|finding| finding.weight == weight && finding.text.contains(text));
    assert!(found, "{findings:#?}");
}
