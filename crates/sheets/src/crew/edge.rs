//! The edge drawn large.

use std::sync::Arc;

use underbrick_calc::site::ShownIn;
use underbrick_drawing::{Drawing, edge_detail, in_language};

use super::{CrewSheet, Designed};
use crate::paper::{DOT_MM, Figure};

/// Height that the drawing may take, in dots: some 170 mm.
const MOST_HEIGHT: f64 = 850.0;

/// Metres on the ground for one on paper, and how that is written; the largest drawing first.
const fn scales(shown_in: ShownIn) -> [(f64, &'static str); 3] {
    match shown_in {
        ShownIn::FeetInches => [
            (4.0, "3 in = 1 ft (1 : 4)"),
            (8.0, "1 1/2 in = 1 ft (1 : 8)"),
            (12.0, "1 in = 1 ft (1 : 12)"),
        ],
        ShownIn::Metric => [(5.0, "1 : 5"), (10.0, "1 : 10"), (20.0, "1 : 20")],
    }
}

/// The right edge in the middle of the walk, at the largest round scale that the page has room for.
pub(super) fn detail(designed: &Designed<'_>) -> Option<Figure> {
    let said = designed.said;
    let (drawing, scale) = drawn(designed.sheet)?;
    let scale = said.with("to-scale", &[("scale", scale)]);
    Some(Figure {
        caption: said.with("edge-detail", &[("scale", &scale)]),
        drawing: Arc::new(drawing),
    })
}

/// The drawing alone; `None` where the readings do not give a bed.
#[must_use]
pub fn edge_drawing(sheet: CrewSheet<'_>) -> Option<Drawing> {
    drawn(sheet).map(|(drawing, _)| drawing)
}

fn drawn(sheet: CrewSheet<'_>) -> Option<(Drawing, &'static str)> {
    let (width, _) = sheet.paper.text_dots();
    let station = sheet.results.line.as_ref()?.run.length() * 0.5;
    scales(sheet.site.shown_in)
        .into_iter()
        .find_map(|(times, words)| {
            let drawing = in_language(sheet.language, || {
                edge_detail(
                    sheet.site,
                    sheet.catalogue,
                    sheet.results,
                    station,
                    width,
                    1000.0 / DOT_MM / times,
                )
            })?;
            (drawing.sheet.height <= MOST_HEIGHT).then_some((drawing, words))
        })
}
