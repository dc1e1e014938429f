//! Stop Line: sill, run, width, levels of the old surface, fall, far end.

use underbrick_calc::place::Place;
use underbrick_calc::site::{FarEnd, GradeShape, Hand, LegShape, ShotBy, ShownIn};

use super::{Stop, figure, findings, heading, named, shown_fall, value};
use crate::edit::{Edit, ShapeKind};
use crate::taken::kind_of;
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, set: Option<Place>) -> Vec<Row> {
    let mut rows = vec![
        value(visit, Place::OldBelowSill, ""),
        value(visit, Place::FirstBrickBelowSill, ""),
        value(visit, Place::Width, ""),
    ];
    run_rows(visit, set, &mut rows);
    fall_rows(visit, &mut rows);
    shot_rows(visit, set, &mut rows);
    rows.extend(findings(visit, Stop::Line));
    offer_rows(visit, &mut rows);
    rows
}

/// Most offers that are shown: the best ones.
const MOST_OFFERS: usize = 6;

fn offer_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let Some(line) = &visit.results().line else {
        return;
    };
    if line.offers.is_empty() {
        return;
    }
    rows.push(heading("What would meet both ends", "best first"));
    for offer in line.offers.iter().take(MOST_OFFERS) {
        let (mark, under) = if offer.breaks.is_empty() {
            (Mark::Right, "keeps every rule above".to_owned())
        } else {
            (Mark::Wrong, format!("breaks: {}", offer.breaks.join("; ")))
        };
        rows.push(Row::Said {
            mark,
            text: format!("{}: {}", offer.title, offer.words),
            under,
        });
        if let Some(taking) = offer.take {
            rows.push(Row::Acts(vec![(
                format!("draw it: {}", offer.title),
                Edit::Take(taking),
            )]));
        }
    }
}

fn shape_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let site = visit.site();
    let kind = kind_of(&visit.record().line.shape);
    let option =
        |word: &str, asked: ShapeKind| (word.to_owned(), Edit::Shape(asked), kind == asked);
    rows.push(Row::Choice {
        label: "Between door and far end".to_owned(),
        options: vec![
            option("one fall", ShapeKind::Uniform),
            option("two falls", ShapeKind::Break),
            option("steps", ShapeKind::Steps),
            option("ramp", ShapeKind::Ramp),
        ],
    });
    for place in [
        Place::BreakAt,
        Place::BreakBelowSill,
        Place::StepsAt,
        Place::StepTread,
    ] {
        if visit.record().text(place).is_some() {
            rows.push(value(visit, place, ""));
        }
    }
    if let GradeShape::Steps { n_risers, .. } = site.line.shape {
        let risers = visit
            .results()
            .line
            .as_ref()
            .map(|line| line.grade.risers())
            .unwrap_or_default();
        let height = risers.first().map_or_else(
            || "not drawn".to_owned(),
            |riser| format!("{n_risers} of {}", site.shown_in.thickness(riser.height)),
        );
        rows.push(figure(
            "Risers, all alike",
            height,
            "what the slope leaves, shared out",
        ));
        rows.push(Row::Acts(vec![
            (
                "one riser less".to_owned(),
                Edit::Risers(n_risers.saturating_sub(1)),
            ),
            (
                "one riser more".to_owned(),
                Edit::Risers(n_risers.saturating_add(1)),
            ),
        ]));
    }
}

fn run_rows(visit: &Visit, set: Option<Place>, rows: &mut Vec<Row>) {
    let site = visit.site();
    let run = visit.results().line.as_ref().map(|line| &line.run);
    let whole = run.map_or_else(
        || "length not known".to_owned(),
        |run| format!("{} long", site.shown_in.along(run.length())),
    );
    rows.push(heading("The run", whole));
    for (leg_idx, leg) in site.line.legs.iter().enumerate() {
        let number = leg_idx + 1;
        let open = match leg.shape {
            LegShape::Straight { .. } => {
                rows.push(named(
                    visit,
                    Place::LegLength(leg_idx),
                    None,
                    &format!("Leg {number}, straight"),
                    "",
                ));
                set == Some(Place::LegLength(leg_idx))
            }
            LegShape::Curve { hand, .. } => {
                let word = match hand {
                    Hand::Left => "left",
                    Hand::Right => "right",
                };
                let length = run
                    .and_then(|run| run.legs().get(leg_idx))
                    .map_or_else(String::new, |leg| {
                        format!("{} along the middle", site.shown_in.along(leg.length))
                    });
                rows.push(named(
                    visit,
                    Place::LegRadius(leg_idx),
                    None,
                    &format!("Leg {number}, curve {word}: radius"),
                    &length,
                ));
                rows.push(named(
                    visit,
                    Place::LegTurn(leg_idx),
                    None,
                    &format!("Leg {number}, turn"),
                    "",
                ));
                let open =
                    set == Some(Place::LegRadius(leg_idx)) || set == Some(Place::LegTurn(leg_idx));
                if open {
                    rows.push(Row::Choice {
                        label: "Turns, looking away from the door".to_owned(),
                        options: vec![
                            (
                                "left".to_owned(),
                                Edit::Hand(leg_idx, Hand::Left),
                                hand == Hand::Left,
                            ),
                            (
                                "right".to_owned(),
                                Edit::Hand(leg_idx, Hand::Right),
                                hand == Hand::Right,
                            ),
                        ],
                    });
                }
                open
            }
        };
        if open || set == Some(Place::LegWidthAtEnd(leg_idx)) {
            rows.push(named(
                visit,
                Place::LegWidthAtEnd(leg_idx),
                None,
                &format!("Leg {number}, width at its end"),
                "",
            ));
            rows.push(Row::Acts(vec![(
                format!("take leg {number} away"),
                Edit::RemoveLeg(leg_idx),
            )]));
        }
    }
    rows.push(Row::Acts(vec![
        ("add a straight".to_owned(), Edit::AddStraight),
        ("add a curve".to_owned(), Edit::AddCurve),
    ]));
}

fn fall_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let site = visit.site();
    let grade = visit.results().line.as_ref().map(|line| &line.grade);
    rows.push(heading("Fall", ""));
    let fixed = matches!(site.line.far_end, FarEnd::Fixed { .. });
    rows.push(Row::Choice {
        label: "The far end".to_owned(),
        options: vec![
            ("is free".to_owned(), Edit::FarEndFixed(false), !fixed),
            (
                "meets a fixed level".to_owned(),
                Edit::FarEndFixed(true),
                fixed,
            ),
        ],
    });
    if fixed {
        rows.push(value(visit, Place::FarEndBelowSill, ""));
    }
    shape_rows(visit, rows);
    rows.push(value(
        visit,
        Place::Fall,
        if fixed {
            "wanted; both ends decide"
        } else {
            ""
        },
    ));
    rows.push(value(visit, Place::CrossFall, ""));
    if let Some(grade) = grade {
        let (fall, other) = shown_fall(grade.fall, site.shown_in);
        rows.push(figure("Fall that results", fall, other));
        rows.push(figure(
            "Far end below the sill",
            site.shown_in.thickness(-grade.end),
            if grade.end_is_fixed {
                "fixed"
            } else {
                "free: the fall decides"
            },
        ));
    }
}

fn shot_rows(visit: &Visit, set: Option<Place>, rows: &mut Vec<Row>) {
    let site = visit.site();
    let n_shots = site.line.shots.len();
    rows.push(heading(
        "Old surface",
        if n_shots == 1 {
            "1 reading".to_owned()
        } else {
            format!("{n_shots} readings")
        },
    ));
    rows.push(value(visit, Place::StringAboveSill, ""));
    if site.line.rod_at_sill.is_some()
        || site.line.shots.iter().any(|shot| shot.by == ShotBy::Rod)
        || visit
            .record()
            .text(Place::RodAtSill)
            .is_some_and(|text| !text.is_empty())
    {
        rows.push(value(visit, Place::RodAtSill, ""));
    }
    for (shot_idx, shot) in site.line.shots.iter().enumerate() {
        let by = match shot.by {
            ShotBy::String => "tape from the string",
            ShotBy::Rod => "rod",
        };
        let label = shot.station.map_or_else(
            || "station not measured".to_owned(),
            |station| format!("At {}", site.shown_in.along(station)),
        );
        let side = shot
            .offset
            .filter(|offset| *offset != underbrick_calc::quantity::metres(0.0))
            .map_or_else(String::new, |offset| side(offset, site.shown_in));
        let reading = Place::ShotReading(shot_idx);
        let station = Place::ShotStation(shot_idx);
        rows.push(named(
            visit,
            reading,
            Some(station),
            &label,
            &format!("{by}{side}"),
        ));
        if [reading, station, Place::ShotOffset(shot_idx)]
            .into_iter()
            .any(|place| set == Some(place))
        {
            rows.push(value(visit, Place::ShotOffset(shot_idx), ""));
            rows.push(Row::Acts(vec![(
                format!("take reading {} away", shot_idx + 1),
                Edit::RemoveShot(shot_idx),
            )]));
        }
    }
    rows.push(Row::Acts(vec![
        ("add by string".to_owned(), Edit::AddShot(ShotBy::String)),
        ("add by rod".to_owned(), Edit::AddShot(ShotBy::Rod)),
    ]));
    super::book::rows(visit, set, rows);
}

/// An offset by its side: `, 15" left`.
pub(super) fn side(offset: underbrick_calc::quantity::Length, shown_in: ShownIn) -> String {
    let zero = underbrick_calc::quantity::metres(0.0);
    let (far, word) = if offset < zero {
        (-offset, "left")
    } else {
        (offset, "right")
    };
    format!(", {} {word}", shown_in.thickness(far))
}
