//! What is seen on the old walk: one row a sign.

use underbrick_calc::place::Place;
use underbrick_calc::site::{PictureOf, Severity, SignKind};

use super::line::side;
use super::{heading, named, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, set: Option<Place>, rows: &mut Vec<Row>) {
    let signs = &visit.site().signs;
    rows.push(heading(
        "What is seen",
        if signs.is_empty() {
            "nothing written down".to_owned()
        } else {
            format!("{} written down", signs.len())
        },
    ));
    for (sign_idx, sign) in signs.iter().enumerate() {
        let station = Place::SignStation(sign_idx);
        let what = Place::Sign(sign_idx);
        let name = sign.what.map_or("choose what is seen", |kind| kind.name());
        let mut note = sign.severity.word().to_owned();
        if visit.record().text(station).is_some_and(str::is_empty) {
            note += ", all along the walk";
        }
        if let Some(width) = sign.width {
            note = format!("{note}, {} wide", visit.site().shown_in.thickness(width));
        }
        if let Some(offset) = sign.offset {
            note += &side(offset, visit.site().shown_in);
        }
        rows.push(named(visit, station, Some(what), name, &note));
        let places = [
            what,
            station,
            Place::SignOffset(sign_idx),
            Place::SignWidth(sign_idx),
        ];
        if places.into_iter().any(|place| set == Some(place)) {
            if sign.what == Some(SignKind::OpenJoints) {
                rows.push(value(visit, Place::SignWidth(sign_idx), ""));
            }
            rows.push(value(visit, Place::SignOffset(sign_idx), ""));
            rows.push(Row::Choice {
                label: format!("{name}: how bad"),
                options: severities(sign_idx, sign.severity),
            });
            super::pictures::those_of(visit, PictureOf::Sign(sign_idx), rows);
            rows.push(Row::Acts(vec![(
                format!("take sign {} away", sign_idx + 1),
                Edit::RemoveSign(sign_idx),
            )]));
        }
    }
    rows.push(Row::Acts(vec![(
        "add what is seen".to_owned(),
        Edit::AddSign,
    )]));
}

fn severities(sign_idx: usize, now: Severity) -> Vec<(String, Edit, bool)> {
    [Severity::Slight, Severity::Plain, Severity::Bad]
        .map(|severity| {
            (
                severity.word().to_owned(),
                Edit::SignSeverity(sign_idx, severity),
                now == severity,
            )
        })
        .to_vec()
}
