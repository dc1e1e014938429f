//! Why the base is so thick: each part with its reading, and where the rules come from.

use underbrick_calc::bed::{Bed, Factor};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::ShownIn;

use super::{figure, heading};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

/// What the row of the least base says while nobody asked for one.
pub(super) fn note(visit: &Visit, place: Place) -> String {
    match (place, &visit.results().bed) {
        (Place::LeastBase, Some(bed)) if is_worked_out(visit) => format!(
            "worked out: {}",
            visit.site().shown_in.thickness(bed.worked_out.thickness)
        ),
        (Place::LooseLift, Some(bed)) => by_plant(visit, bed),
        _ => String::new(),
    }
}

/// How thick a lift is taken to be where the person gave none and what compacts it is known.
fn by_plant(visit: &Visit, bed: &Bed) -> String {
    let plant = visit.site().bed.plant;
    let is_own = visit
        .record()
        .text(Place::LooseLift)
        .is_some_and(|text| !text.trim().is_empty());
    match plant.most_compacted() {
        Some(_) if !is_own => format!(
            "{}, published for a {}",
            visit.site().shown_in.thickness(bed.lifts.loose_limit),
            plant.name()
        ),
        _ => String::new(),
    }
}

pub(super) fn rows(visit: &Visit, bed: &Bed, rows: &mut Vec<Row>) {
    let shown_in = visit.site().shown_in;
    let words = |length| shown_in.thickness(length);
    let worked_out = &bed.worked_out;
    let head = if is_worked_out(visit) {
        format!("{} worked out", words(worked_out.thickness))
    } else {
        format!("your own {} is kept", words(bed.least_base))
    };
    rows.push(heading("Why so thick", head));
    for (nth, factor) in worked_out.factors.iter().enumerate() {
        rows.push(figure(
            factor.name.clone(),
            amount(factor.amount, nth > 0, shown_in),
            factor.because.clone(),
        ));
    }
    rows.push(figure(
        "Worked out together",
        words(worked_out.thickness),
        "compacted, the least anywhere",
    ));
    if let Some(theory) = &worked_out.theory {
        rows.push(figure(
            "Theory of wheels beside it",
            words(theory.thickness),
            format!("CBR {}, {}", theory.cbr, theory.wheel),
        ));
        rows.push(Row::Said {
            mark: Mark::of(underbrick_calc::findings::Weight::Note),
            text: format!(
                "The theory is for information only: {}.",
                theory.outside.join("; ")
            ),
            under: "Corps of Engineers, CBR equation, from memory".to_owned(),
        });
    }
    rows.push(Row::Said {
        mark: Mark::of(underbrick_calc::findings::Weight::Note),
        text: "Each part may be changed to the local code: type a least base of your own."
            .to_owned(),
        under: sources(&worked_out.factors),
    });
}

fn is_worked_out(visit: &Visit) -> bool {
    visit.site().bed.least_base.is_none()
}

fn amount(amount: Length, is_added: bool, shown_in: ShownIn) -> String {
    let written = shown_in.thickness(amount);
    if is_added && in_metres(amount) > 0.0 {
        format!("+ {written}")
    } else {
        written
    }
}

/// Each source once, in the order of the factors.
fn sources(factors: &[Factor]) -> String {
    let mut sources: Vec<String> = factors
        .iter()
        .map(|factor| format!("{} ({})", factor.source.words(), factor.grade.words()))
        .collect();
    sources.dedup();
    sources.join(" · ")
}
