//! The live check of what the pad sets: where the needle stands, what is said big, and what to do.

use underbrick_calc::build::{LiftFound, ReadingFound, SpotFound, Verdict};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, inches, metres};
use underbrick_calc::site::{ReadBy, ShownIn};

use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::build::Live;
use crate::widgets::mark::Mark;

/// The live check of a place; `None` where nothing is checked there.
pub(crate) fn live(visit: &Visit, place: Place) -> Option<Live> {
    let build = visit.results().build.as_ref()?;
    match place {
        Place::BuildStation(idx) | Place::BuildOffset(idx) | Place::BuildValue(idx) => build
            .readings
            .iter()
            .find(|found| found.reading_idx == idx)
            .map(|found| of_reading(visit, found)),
        Place::SpotStation(idx) | Place::SpotSize(idx) => build
            .spots
            .iter()
            .find(|found| found.spot_idx == idx)
            .map(|found| of_spot(visit, found)),
        Place::LiftLoose(number) => build
            .lifts
            .iter()
            .find(|lift| lift.number == number)
            .map(|lift| of_lift(visit, lift)),
        _ => None,
    }
}

/// How far off: `3/8" high`, `on its level`; `read it` without a reading.
pub(super) fn off_words(shown: ShownIn, found: &ReadingFound) -> String {
    let Some(off) = found.off else {
        return if found.level.is_some() {
            "not there".to_owned()
        } else {
            "read it".to_owned()
        };
    };
    if off.abs() < inches(1.0 / 32.0) {
        return "on its level".to_owned();
    }
    let way = if off > metres(0.0) { "high" } else { "low" };
    format!("{} {way}", shown.length(off.abs()))
}

/// What tape or rod must read there, in words; `None` where that is not known.
pub(super) fn wanted(visit: &Visit, found: &ReadingFound) -> Option<String> {
    let design = found.design?;
    let site = visit.site();
    let input = site.build.readings.get(found.reading_idx)?;
    let above = match (input.reading, found.level) {
        // Reading and level differ by the height that they were read from.
        (Some(reading), Some(level)) => level + reading,
        _ => match input.by {
            ReadBy::String => {
                let grade = &visit.results().line.as_ref()?.grade;
                let string_above = site.build.string_above_grade.unwrap_or_default();
                grade.level(found.station, metres(0.0)) + string_above
            }
            ReadBy::Rod { set_up_idx } => site.build.set_ups.get(set_up_idx)?.rod_at_sill?,
        },
    };
    let by = match input.by {
        ReadBy::String => "from the string",
        ReadBy::Rod { .. } => "on the rod",
    };
    Some(format!("{} {by}", site.shown_in.length(above - design)))
}

fn of_reading(visit: &Visit, found: &ReadingFound) -> Live {
    let shown = visit.site().shown_in;
    let off = off_words(shown, found);
    let (mark, verdict, under) = match found.verdict {
        Verdict::Right => (
            Mark::Right,
            "right".to_owned(),
            format!("{off}, in tolerance"),
        ),
        Verdict::High | Verdict::Low => (Mark::Wrong, off, found.advice.clone()),
        Verdict::NotKnown => (
            Mark::NotKnown,
            off,
            why_not_known(visit, found.reading_idx).unwrap_or_default(),
        ),
    };
    let (high, low) = (
        in_metres(found.tolerance.high),
        in_metres(found.tolerance.low),
    );
    let band = [
        format!("+{}", shown.thickness(found.tolerance.high)),
        format!("−{}", shown.thickness(found.tolerance.low)),
    ];
    Live {
        what: what(visit, found),
        wanted: wanted(visit, found).map_or_else(String::new, |words| format!("must read {words}")),
        verdict,
        mark,
        under,
        needle: found
            .off
            .map(|off| in_half_bands(in_metres(off), -low, high)),
        band,
        keys: reading_keys(visit, found),
    }
}

/// Surface and spot, and by whom it was read.
fn what(visit: &Visit, found: &ReadingFound) -> String {
    let shown = visit.site().shown_in;
    let at = if found.station.abs() < metres(1e-6) {
        "at the door".to_owned()
    } else {
        format!("at {}", shown.along(found.station))
    };
    let side = if found.offset.abs() < metres(1e-6) {
        String::new()
    } else {
        let side = if found.offset < metres(0.0) {
            "left"
        } else {
            "right"
        };
        format!(", {} {side}", shown.length(found.offset.abs()))
    };
    let readings = &visit.record().build.readings;
    let by = readings
        .get(found.reading_idx)
        .map_or("", |reading| reading.stamp.by.as_str());
    let by = if by.is_empty() {
        String::new()
    } else {
        format!(" · {by}")
    };
    format!("{} {at}{side}{by}", found.surface.name())
}

fn why_not_known(visit: &Visit, idx: usize) -> Option<String> {
    [
        Place::BuildValue(idx),
        Place::BuildReading(idx),
        Place::BuildStation(idx),
        Place::BuildOffset(idx),
    ]
    .into_iter()
    .find_map(|place| visit.findings_at(place).next())
    .map(|finding| finding.text.clone())
}

/// Where a value stands when its band reaches from -1 to 1.
fn in_half_bands(value_m: f64, least_m: f64, most_m: f64) -> f64 {
    let half_m = 0.5 * (most_m - least_m);
    if half_m > 0.0 {
        (value_m - 0.5 * (least_m + most_m)) / half_m
    } else {
        0.0
    }
}

fn reading_keys(visit: &Visit, found: &ReadingFound) -> Vec<(String, Edit)> {
    let idx = found.reading_idx;
    let mut keys = Vec::new();
    if found.is_questioned {
        keys.push(("it is right".to_owned(), Edit::ConfirmCheck(idx)));
    }
    let is_off = matches!(found.verdict, Verdict::High | Verdict::Low);
    let is_rod = visit
        .site()
        .build
        .readings
        .get(idx)
        .is_some_and(|reading| matches!(reading.by, ReadBy::Rod { .. }));
    if is_off && !found.is_questioned {
        keys.push((
            "mended: read again".to_owned(),
            Edit::AddCheck {
                surface: found.surface,
                station: Some(found.station),
                offset: found.offset,
                by_rod: is_rod,
            },
        ));
    }
    if is_rod {
        keys.push(("by string".to_owned(), Edit::CheckByRod(idx, false)));
    } else if !visit.site().build.set_ups.is_empty() {
        keys.push(("by rod".to_owned(), Edit::CheckByRod(idx, true)));
    }
    keys.push(("take it away".to_owned(), Edit::RemoveCheck(idx)));
    keys
}

fn of_spot(visit: &Visit, found: &SpotFound) -> Live {
    let shown = visit.site().shown_in;
    let size = found.size.map(|size| shown.thickness(size));
    let (mark, verdict, under) = match (found.verdict, size) {
        (Verdict::Right, size) => (
            Mark::Right,
            "right".to_owned(),
            format!("{}, in tolerance", size.unwrap_or_default()),
        ),
        (Verdict::High, Some(size)) => (
            Mark::Wrong,
            format!("{size}, too much"),
            found.advice.clone(),
        ),
        (Verdict::Low, Some(size)) => (
            Mark::Wrong,
            format!("{size}, too little"),
            found.advice.clone(),
        ),
        _ => (Mark::NotKnown, "measure it".to_owned(), String::new()),
    };
    let needle = found.size.map(|size| {
        in_half_bands(
            in_metres(size),
            in_metres(found.least),
            in_metres(found.most),
        )
    });
    Live {
        what: found.kind.name().to_owned(),
        wanted: limits(shown, found.least, found.most),
        verdict,
        mark,
        under,
        needle,
        band: [shown.thickness(found.most), shown.thickness(found.least)],
        keys: vec![("take it away".to_owned(), Edit::RemoveSpot(found.spot_idx))],
    }
}

fn limits(shown: ShownIn, least: Length, most: Length) -> String {
    if least > metres(0.0) {
        format!("{} to {}", shown.thickness(least), shown.thickness(most))
    } else {
        format!("no more than {}", shown.thickness(most))
    }
}

fn of_lift(visit: &Visit, lift: &LiftFound) -> Live {
    let shown = visit.site().shown_in;
    let mut lifts = visit.site().build.lifts.iter().rev();
    let loose = lifts
        .find(|placed| placed.number == lift.number)
        .and_then(|placed| placed.loose);
    let rounding = metres(1e-6);
    let (mark, verdict) = match loose {
        None => (Mark::NotKnown, "measure it".to_owned()),
        Some(loose) if loose > lift.loose_limit + rounding => (
            Mark::Wrong,
            format!("{}, too thick", shown.thickness(loose)),
        ),
        Some(_) => (Mark::Right, "right".to_owned()),
    };
    let under = match (mark, loose) {
        (Mark::Right, Some(loose)) => format!("{}, not too thick", shown.thickness(loose)),
        (Mark::Wrong, _) => lift.advice.clone(),
        _ => String::new(),
    };
    let limit_m = in_metres(lift.loose_limit);
    Live {
        what: format!("lift {} as tipped, at its thickest", lift.number),
        wanted: limits(shown, metres(0.0), lift.loose_limit),
        verdict,
        mark,
        under,
        needle: loose.map(|loose| in_half_bands(in_metres(loose), 0.0, limit_m)),
        band: [
            shown.thickness(lift.loose_limit),
            shown.thickness(metres(0.0)),
        ],
        keys: Vec::new(),
    }
}
