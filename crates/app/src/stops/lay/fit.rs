//! The width that fits: what whole courses give, as cards that are taken with one tap.

use underbrick_calc::lay::{Fit, FitOffer};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_sheets::brick::{EndRow, FitRow, FitSheet, brick};

use super::super::{figure, heading, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::offer_card::OfferCard;
use crate::widgets::rows::Row;

/// Most cards that are shown: the best ones.
const MOST_OFFERS: usize = 5;
/// Most stations at which a course runs out that are shown.
const MOST_RUNS_OUT: usize = 8;

pub(super) fn rows(visit: &Visit, rows: &mut Vec<Row>) {
    let found = visit.results().brick.as_ref();
    let sheet = found.and_then(|found| brick(found, visit.site().shown_in).fit);
    let head = match &sheet {
        Some(sheet) => format!("{} over the edges", sheet.target.shown),
        None if visit.results().line.is_none() => "the run is not known".to_owned(),
        None => "any: the edges clip this bond".to_owned(),
    };
    rows.push(heading("Width that fits", head));
    rows.push(value(visit, Place::TargetWidth, ""));
    rows.push(value(visit, Place::WidthTolerance, ""));
    let (Some(sheet), Some(fit)) = (sheet, found.and_then(|found| found.fit.as_ref())) else {
        return;
    };
    offer_rows(visit, &sheet, fit, rows);
    if !sheet.cut.is_empty() {
        rows.push(figure(
            format!("Exactly {} takes cuts", sheet.target.shown),
            "",
            sheet.cut.clone(),
        ));
    }
    for (nth, end) in sheet.ends.iter().enumerate() {
        rows.push(end_row(nth, end));
    }
    for out in sheet.runs_out.iter().take(MOST_RUNS_OUT) {
        let what = if out.after > out.before {
            "A course comes in"
        } else {
            "A course runs out"
        };
        rows.push(figure(
            what,
            out.station.shown.clone(),
            format!("{} courses before, {} after", out.before, out.after),
        ));
    }
}

fn offer_rows(visit: &Visit, sheet: &FitSheet, fit: &Fit, rows: &mut Vec<Row>) {
    if sheet.offers.is_empty() {
        rows.push(Row::Said {
            mark: Mark::Wrong,
            text: format!(
                "No number of whole courses comes within {} of {}.",
                sheet.tolerance.shown, sheet.target.shown
            ),
            under: "The nearest narrower and wider follow.".to_owned(),
        });
        let nearest = [(&sheet.narrower, fit.narrower), (&sheet.wider, fit.wider)];
        for (row, offer) in nearest {
            if let (Some(row), Some(offer)) = (row, offer) {
                rows.push(card(visit, row, offer));
            }
        }
        return;
    }
    for (row, offer) in sheet.offers.iter().zip(&fit.offers).take(MOST_OFFERS) {
        rows.push(card(visit, row, *offer));
    }
}

fn card(visit: &Visit, row: &FitRow, offer: FitOffer) -> Row {
    Row::Offer(OfferCard {
        title: format!("{} courses, joint {}", row.courses, row.joint.shown),
        value: row.over.shown.clone(),
        note: format!("{} edge, {}", row.edge, row.off),
        more: String::new(),
        is_now: is_now(visit, offer),
        edit: Edit::TakeWidth {
            clear: offer.clear,
            joint: offer.joint,
            stands: offer.stands,
        },
    })
}

/// Whether the walk is so already, to the thousandth of an inch in which a width is written down.
fn is_now(visit: &Visit, offer: FitOffer) -> bool {
    const WRITTEN_M: f64 = 6e-5;
    let site = visit.site();
    let same = |one, other| (in_metres(one) - in_metres(other)).abs() < WRITTEN_M;
    site.edge.stands == offer.stands
        && site
            .line
            .width
            .is_some_and(|width| same(width, offer.clear))
        && same(
            site.brick
                .joint
                .unwrap_or_else(underbrick_calc::defaults::joint),
            offer.joint,
        )
}

fn end_row(nth: usize, end: &EndRow) -> Row {
    let label = if nth == 0 {
        "As set, at the door".to_owned()
    } else {
        format!("As set, at {}", end.station.shown)
    };
    let note = if end.cut.is_empty() {
        format!("{} whole courses, joint {}", end.courses, end.joint.shown)
    } else {
        end.cut.clone()
    };
    figure(label, format!("{} clear", end.clear.shown), note)
}
