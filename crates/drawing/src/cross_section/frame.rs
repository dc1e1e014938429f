//! Where the section stands on the sheet, at which scale, and what there is room for.

use super::{Cut, names, sizes};
use crate::callouts::Band;
use crate::draft::{Draft, Sizes};
use crate::item::{Point, Sheet};

/// Space to the edge of the sheet, in dots.
pub(super) const MARGIN: f64 = 12.0;
/// From the callouts to where their leaders run straight down, in dots.
const KNEE: f64 = 20.0;
/// Least ground drawn under the dig, in dots.
const UNDER: f64 = 16.0;
/// Most ground drawn beside the dig, in dots.
const BESIDE: f64 = 130.0;

/// How much is drawn round the section.
#[derive(Clone, Copy, Debug)]
pub(super) struct Detail {
    pub callout_rows: usize,
    /// Level chains: clear width; over the edge brick; the dig.
    pub level_chains: usize,
    /// Upright chains: brick, bed and base; whole depth.
    pub upright_chains: usize,
    /// Names of the layers beside the pit's log.
    pub layer_names: bool,
}

const fn detail(callout_rows: usize, level_chains: usize, upright_chains: usize, layer_names: bool) -> Detail {
    Detail { callout_rows, level_chains, upright_chains, layer_names }
}

/// From the most to the least.
const DETAILS: [Detail; 8] = [
    detail(2, 3, 2, true),
    detail(2, 2, 2, true),
    detail(2, 2, 2, false),
    detail(1, 2, 2, false),
    detail(1, 2, 1, false),
    detail(1, 1, 1, false),
    detail(1, 1, 0, false),
    detail(0, 0, 0, false),
];

/// The frame of one cross-section. All in dots of the sheet but the scale.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub detail: Detail,
    pub dots_per_metre: f64,
    /// Ends of the ground that is drawn.
    pub left: f64,
    pub right: f64,
    /// Bottom of the ground that is drawn.
    pub bottom: f64,
    /// Height of the grade line at the centreline.
    pub grade: f64,
    pub callouts: Band,
    centre: f64,
    grade_level: f64,
}

impl Frame {
    /// The most that can be drawn with the section still large.
    pub fn fit(cut: &Cut<'_>, sheet: Sheet) -> Self {
        let sizes = Sizes::on(sheet);
        let mut best = None;
        for detail in DETAILS {
            let detail = Detail { callout_rows: detail.callout_rows.min(names::rows_wanted(cut, sheet, sizes)), ..detail };
            let frame = Self::with(cut, sheet, sizes, detail);
            let deep_enough = (cut.extent.above + cut.extent.below) * frame.dots_per_metre >= 62.0;
            let wide_enough = cut.extent.half_dig * 2.0 * frame.dots_per_metre >= 0.48 * sheet.width;
            best = Some(frame);
            if wide_enough && deep_enough {
                break;
            }
        }
        best.unwrap_or_else(|| Self::with(cut, sheet, sizes, detail(0, 0, 0, false)))
    }

    fn with(cut: &Cut<'_>, sheet: Sheet, sizes: Sizes, detail: Detail) -> Self {
        let left_room = if detail.layer_names { names::layer_names_width(cut, sheet, sizes) } else { 0.0 };
        let detail = Detail { layer_names: left_room > 0.0, ..detail };
        let right_room = sizes::upright_room(cut, sizes, detail.upright_chains);
        let beside = if detail.layer_names { 46.0 } else { 24.0 };
        let (left, right) = (MARGIN + left_room, sheet.width - MARGIN - right_room);
        let callouts_bottom = MARGIN - 4.0 + Band::height(detail.callout_rows, sizes);
        let top = callouts_bottom + if detail.callout_rows > 0 { KNEE } else { 0.0 };
        let under_room = sizes::level_room(sizes, detail.level_chains);
        let Extents { half_dig, above, below } = Extents::of(cut);
        let by_width = (right - left - 2.0 * beside) / (2.0 * half_dig);
        let height = sheet.height - top - under_room - UNDER;
        let by_height = height / (above + below);
        let dots_per_metre = by_width.min(by_height).max(10.0);
        // What is left over in height goes above, into the ground, and below.
        let left_over = (height - (above + below) * dots_per_metre).max(0.0);
        let grade = top + above * dots_per_metre + 0.4 * left_over;
        let bottom = grade + below * dots_per_metre + UNDER + (0.2 * left_over).min(60.0);
        let half = ((right - left) / 2.0).min(half_dig * dots_per_metre + BESIDE);
        let centre = f64::midpoint(left, right);
        let grade_level = cut.grade_at(0.0);
        let callouts = Band {
            left: MARGIN,
            right: sheet.width - MARGIN,
            top: MARGIN - 4.0,
            rows: detail.callout_rows,
            knee: callouts_bottom + 0.75 * KNEE,
        };
        Self { detail, dots_per_metre, left: centre - half, right: centre + half, bottom, grade, callouts, centre, grade_level }
    }

    /// An empty board with this frame.
    pub fn board(&self, sheet: Sheet) -> Draft {
        let upper_left = Point { x: -self.centre / self.dots_per_metre, y: self.grade_level + self.grade / self.dots_per_metre };
        let mut draft = Draft::new(sheet, upper_left, self.dots_per_metre, 1.0);
        draft.hatch_origin = Point { x: 0.0, y: self.grade_level };
        draft
    }
}

/// The cut's extents with the least that can be drawn.
struct Extents {
    half_dig: f64,
    above: f64,
    below: f64,
}

impl Extents {
    fn of(cut: &Cut<'_>) -> Self {
        let at_least = |value: f64, least: f64| if value.is_finite() { value.max(least) } else { least };
        Self {
            half_dig: at_least(cut.extent.half_dig, 0.1),
            above: at_least(cut.extent.above, 0.0),
            below: at_least(cut.extent.below, 0.05),
        }
    }
}
