//! The level book as it was reduced.

use crate::columns::{columns, paragraph};
use crate::figure::{Measure, NOT_KNOWN};
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::Results;
use underbrick_calc::measure::levels_book::{
    Closing, ReducedBook, ReducedRow, Sums, allowed_by_distance, allowed_by_set_ups,
    allowed_third_order,
};
use underbrick_calc::site::{BookRow, Sight, Site, Stands};

/// The level book: its sights, the sums at its foot, and how it closes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BookSheet {
    /// One for every sight, in the order in which they were taken.
    pub sights: Vec<SightRow>,
    /// Set-ups that have both a backsight and a foresight.
    pub set_ups: usize,
    /// The sums at the foot; `None` where no set-up has both.
    pub check: Option<CheckRow>,
    /// Returns to a known point.
    pub closings: Vec<ClosingRow>,
    /// Whether the misclosure is spread over the set-ups.
    pub is_spread: bool,
}

/// One sight.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SightRow {
    /// Counted from 1.
    pub number: usize,
    /// `backsight`, `intermediate sight` or `foresight`.
    pub sight: &'static str,
    /// What the rod stands on.
    pub stands_on: String,
    /// Along the run, for a sight on the old surface.
    pub station: Option<Measure>,
    /// From the centreline, right positive, for a sight on the old surface.
    pub offset: Option<Measure>,
    /// What the rod reads.
    pub reading: Measure,
    /// Level of the line of sight, for a backsight.
    pub collimation: Option<Measure>,
    /// Step from the sight before, a rise positive.
    pub rise: Option<Measure>,
    /// Level as read; `None` where the book is broken before it.
    pub level_as_read: Option<Measure>,
    /// The level that is used.
    pub level: Option<Measure>,
}

/// The three-way check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckRow {
    /// Sum of the backsights.
    pub backsights: Measure,
    /// Sum of the foresights.
    pub foresights: Measure,
    /// Sum of the rises.
    pub rises: Measure,
    /// Sum of the falls.
    pub falls: Measure,
    /// Last level less first.
    pub last_less_first: Measure,
    /// Whether all three differences are the same.
    pub agrees: bool,
}

/// One return to a known point.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClosingRow {
    /// Number of the foresight.
    pub sight: usize,
    /// Set-ups since the known point before.
    pub set_ups: usize,
    /// Level as read less known level.
    pub misclosure: Measure,
    /// The largest that is let pass.
    pub limit: Measure,
    /// Whether it is within it.
    pub is_kept: bool,
    /// For information: 5 mm times the square root of the set-ups.
    pub allowed_by_set_ups: Measure,
    /// For information: 0.05 ft times the square root of the miles along the walk and back.
    pub allowed_by_distance: Measure,
    /// For information: third-order levelling, 12 mm times the square root of the kilometres along the walk and back; from memory, and
    /// meant for long lines.
    pub allowed_third_order: Measure,
}

/// `None` where no sight was written down.
pub(crate) fn book(site: &Site, results: &Results, say: Wording) -> Option<BookSheet> {
    let reduced = results.book.as_ref()?;
    let run = results.line.as_ref().map(|line| line.run.length());
    let rows = site.line.book.rows.iter().zip(&reduced.rows);
    let mut turning_point = None;
    let sights = rows.enumerate().map(|(row_idx, (row, reduced))| {
        turning_point = reduced.turning_point.or(turning_point);
        sight(row_idx, row, reduced, turning_point, say)
    });
    Some(BookSheet {
        sights: sights.collect(),
        set_ups: reduced.n_set_ups,
        check: reduced.sums.map(|sums| check(&sums, say)),
        closings: closings(reduced, run.map(|length| length * 2.0), say),
        is_spread: site.line.book.spread,
    })
}

fn sight(
    row_idx: usize,
    row: &BookRow,
    reduced: &ReducedRow,
    turning_point: Option<usize>,
    say: Wording,
) -> SightRow {
    let is_on_walk = row.stands == Stands::OldSurface && row.sight != Sight::Back;
    SightRow {
        number: row_idx.saturating_add(1),
        sight: row.sight.word(),
        stands_on: match (row.stands, turning_point) {
            (Stands::Sill, _) => "sill".to_owned(),
            (Stands::Benchmark, _) => "benchmark".to_owned(),
            (Stands::OldSurface, _) if is_on_walk => "old surface".to_owned(),
            (Stands::TurningPoint, Some(number)) => format!("turning point {number}"),
            (Stands::TurningPoint | Stands::OldSurface, _) => "turning point".to_owned(),
        },
        station: is_on_walk.then(|| say.station(row.station)),
        offset: is_on_walk.then(|| say.offset(row.offset.unwrap_or_default())),
        reading: say.length(row.reading),
        collimation: reduced.collimation.map(|height| say.level(height)),
        rise: reduced.step.map(|step| say.length(Some(step))),
        level_as_read: reduced.level.map(|level| say.level(level)),
        level: reduced.level_used.map(|level| say.level(level)),
    }
}

fn check(sums: &Sums, say: Wording) -> CheckRow {
    CheckRow {
        backsights: say.length(Some(sums.back)),
        foresights: say.length(Some(sums.fore)),
        rises: say.length(Some(sums.rise)),
        falls: say.length(Some(sums.fall)),
        last_less_first: say.length(Some(sums.last_less_first)),
        agrees: sums.agree(),
    }
}

fn closings(
    reduced: &ReducedBook,
    there_and_back: Option<underbrick_calc::quantity::Length>,
    say: Wording,
) -> Vec<ClosingRow> {
    let row = |closing: &Closing| ClosingRow {
        sight: closing.row_idx.saturating_add(1),
        set_ups: closing.n_set_ups,
        misclosure: say.length(Some(closing.misclosure)),
        limit: say.length(Some(closing.limit)),
        is_kept: closing.is_kept,
        allowed_by_set_ups: say.length(Some(allowed_by_set_ups(closing.n_set_ups))),
        allowed_by_distance: say.length(there_and_back.map(allowed_by_distance)),
        allowed_third_order: say.length(there_and_back.map(allowed_third_order)),
    };
    reduced.closings.iter().map(row).collect()
}

/// The book as a table with its foot.
pub(crate) fn to_text(book: &BookSheet) -> String {
    let head = ["Sight", "Stands on", "BS", "IS", "FS", "Rise", "Level"];
    let head = head.map(str::to_owned).to_vec();
    let rows = std::iter::once(head).chain(book.sights.iter().map(cells));
    let mut text = columns(&rows.collect::<Vec<_>>());
    if let Some(check) = &book.check {
        let agrees = if check.agrees {
            "all three agree"
        } else {
            "THEY DO NOT AGREE"
        };
        let words = format!(
            "Backsights {} less foresights {}; rises {} less falls {}; last level less first {}: {agrees}.",
            check.backsights.shown,
            check.foresights.shown,
            check.rises.shown,
            check.falls.shown,
            check.last_less_first.shown
        );
        text.push_str(&paragraph("  ", &words));
    }
    for closing in &book.closings {
        let kept = if closing.is_kept {
            "within"
        } else {
            "more than"
        };
        let spread = if book.is_spread {
            "spread over the set-ups"
        } else {
            "not spread"
        };
        let words = format!(
            "Sight {} closes by {} over {} set-ups, {kept} the limit of {}; {spread}. For information: by set-ups {}, by distance {}; third-order levelling, meant for long lines, {} (12 mm times the square root of the kilometres, from memory).",
            closing.sight,
            closing.misclosure.shown,
            closing.set_ups,
            closing.limit.shown,
            closing.allowed_by_set_ups.shown,
            closing.allowed_by_distance.shown,
            closing.allowed_third_order.shown
        );
        text.push_str(&paragraph("  ", &words));
    }
    text
}

fn cells(row: &SightRow) -> Vec<String> {
    let shown = |measure: &Option<Measure>| {
        measure
            .as_ref()
            .map_or_else(String::new, |measure| measure.shown.clone())
    };
    let point = match (&row.station, &row.offset) {
        (Some(station), Some(offset)) => {
            format!("{}, {}, {}", row.stands_on, station.shown, offset.shown)
        }
        _ => row.stands_on.clone(),
    };
    let reading = |sight: Sight| {
        if row.sight == sight.word() {
            row.reading.shown.clone()
        } else {
            String::new()
        }
    };
    vec![
        row.number.to_string(),
        point,
        reading(Sight::Back),
        reading(Sight::Intermediate),
        reading(Sight::Fore),
        shown(&row.rise),
        row.level
            .as_ref()
            .map_or_else(|| NOT_KNOWN.to_owned(), |level| level.shown.clone()),
    ]
}
