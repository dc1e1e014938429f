//! What is shown full size: the notched end of the screed board with the brick that stands proud, and the gauge rod with its marks.

use underbrick_calc::build::{Build, GaugeMark};
use underbrick_calc::quantity::in_metres;

use crate::stops::opened::FullSize;
use crate::visit::Visit;
use crate::widgets::build::{FullSizeView, RodMark, ScreedEnd};

/// What is shown in the place of the ground; `None` where there is nothing to build by.
pub(crate) fn view(visit: &Visit, which: FullSize) -> Option<FullSizeView> {
    let build = visit.results().build.as_ref()?;
    Some(match which {
        FullSize::Screed => FullSizeView::Screed(screed(visit, build)),
        FullSize::Rod => FullSizeView::Rod(rod(visit, build)),
        FullSize::Measure => FullSizeView::Measure,
    })
}

fn screed(visit: &Visit, build: &Build) -> ScreedEnd {
    let (shown, screed) = (visit.site().shown_in, &build.screed);
    ScreedEnd {
        notch_mm: millimetres(in_metres(screed.notch)),
        proud_mm: millimetres(in_metres(screed.proud)),
        notch: format!("notch {}", shown.thickness(screed.notch)),
        proud: format!("proud {}", shown.thickness(screed.proud)),
        board: format!("board {} long", shown.length(screed.length)),
    }
}

/// Surfaces at one depth share a mark.
fn rod(visit: &Visit, build: &Build) -> Vec<RodMark> {
    let shown = visit.site().shown_in;
    let same = |one: &GaugeMark, other: &GaugeMark| {
        one.is_everywhere == other.is_everywhere
            && shown.length(one.below_string) == shown.length(other.below_string)
    };
    let marks = build.gauge.chunk_by(same).filter_map(|marks| {
        let first = marks.first()?;
        let names: Vec<String> = marks.iter().map(|mark| mark.surface.name()).collect();
        let depth = shown.length(first.below_string);
        let least = if first.is_everywhere {
            ""
        } else {
            ", where the dig is least"
        };
        Some(RodMark {
            below_string_mm: millimetres(in_metres(first.below_string)),
            words: format!("{}: {depth}{least}", names.join(", ")),
        })
    });
    marks.collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a length on a screen needs no more than an f32 has"
)]
fn millimetres(length_m: f64) -> f32 {
    (length_m * 1000.0) as f32
}
