//! Where the section stands on the sheet, at which scale, and what there is room for.

use super::said::Said;
use super::{Cut, names, sizes};
use crate::callouts::Band;
use crate::draft::{Draft, Sizes};
use crate::item::{Point, Sheet};
use crate::scale::Scales;

/// Space to the edge of the sheet, in dots.
pub(super) const MARGIN: f64 = 12.0;
/// From the callouts to where their leaders run straight down, in dots.
const KNEE: f64 = 20.0;
/// Least ground drawn under the dig, in dots.
const UNDER: f64 = 16.0;
/// Most ground drawn beside the dig, in dots.
const BESIDE: f64 = 130.0;
/// Height over what it needs that a section keeps at a scale that was asked for, in dots.
const AIR: f64 = 40.0;

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

const fn detail(
    callout_rows: usize,
    level_chains: usize,
    upright_chains: usize,
    layer_names: bool,
) -> Detail {
    Detail {
        callout_rows,
        level_chains,
        upright_chains,
        layer_names,
    }
}

/// From the most to the least.
const DETAILS: [Detail; 8] = [
    detail(2, 3, 2, true),
    detail(2, 3, 2, false),
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
    /// Height of the sheet that is not needed at one of the scales that were asked for.
    pub spare_height: f64,
    centre: f64,
    grade_level: f64,
}

impl Frame {
    /// The most that can be drawn with the section still large: not much smaller than it would be alone on the sheet.
    pub fn fit(cut: &Cut<'_>, said: &[Said], sheet: Sheet, scales: Scales<'_>) -> Self {
        let sizes = Sizes::on(sheet);
        let rows = names::rows_wanted(said, sheet, sizes);
        let layer_names = names::layer_names_width(cut, sheet, sizes);
        let upright = [0, 1, 2].map(|chains| sizes::upright_room(cut, sizes, chains));
        let with = |detail: Detail| {
            let left_room = if detail.layer_names { layer_names } else { 0.0 };
            let right_room = upright.get(detail.upright_chains).copied().unwrap_or(0.0);
            let detail = Detail {
                callout_rows: detail.callout_rows.min(rows),
                layer_names: left_room > 0.0,
                ..detail
            };
            Self::with(cut, sheet, detail, (left_room, right_room), scales)
        };
        let alone = with(detail(0, 0, 0, false));
        let depth = cut.extent.above + cut.extent.below;
        let least_depth = 62.0_f64.min(0.8 * depth * alone.dots_per_metre);
        let is_large = |frame: &Self| {
            // Round scales lie up to a factor of 2 apart: dimensions go before size there.
            let least_share = if scales.holds(frame.dots_per_metre) {
                0.49
            } else if frame.detail.layer_names {
                0.56
            } else {
                0.64
            };
            frame.dots_per_metre >= least_share * alone.dots_per_metre
                && depth * frame.dots_per_metre >= least_depth
        };
        DETAILS
            .into_iter()
            .map(with)
            .find(is_large)
            .unwrap_or(alone)
    }

    fn with(
        cut: &Cut<'_>,
        sheet: Sheet,
        detail: Detail,
        (left_room, right_room): (f64, f64),
        scales: Scales<'_>,
    ) -> Self {
        let sizes = Sizes::on(sheet);
        let beside = if detail.layer_names { 46.0 } else { 24.0 };
        let (left, right) = (MARGIN + left_room, sheet.width - MARGIN - right_room);
        let callouts_bottom = MARGIN - 4.0 + Band::height(detail.callout_rows, sizes);
        let top = callouts_bottom + if detail.callout_rows > 0 { KNEE } else { 0.0 };
        let under_room = sizes::level_room(sizes, detail.level_chains);
        let Extents {
            half_dig,
            above,
            below,
        } = Extents::of(cut);
        let by_width = (right - left - 2.0 * beside) / (2.0 * half_dig);
        let height = sheet.height - top - under_room - UNDER;
        let by_height = height / (above + below);
        let dots_per_metre = scales.largest_within(by_width.min(by_height).max(10.0));
        // What is left over in height goes above, into the ground, and below.
        let left_over = (height - (above + below) * dots_per_metre).max(0.0);
        let spare_height = if scales.holds(dots_per_metre) {
            (left_over - AIR).max(0.0)
        } else {
            0.0
        };
        let left_over = left_over - spare_height;
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
            knee: callouts_bottom + 0.75 * KNEE + (0.3 * left_over).min(30.0),
        };
        Self {
            detail,
            dots_per_metre,
            left: centre - half,
            right: centre + half,
            bottom,
            grade,
            callouts,
            centre,
            grade_level,
            spare_height,
        }
    }

    /// A section without dimensions, with a column of names at its right: `names` dots wide. `below` is how far under the grade line it
    /// must reach, in metres.
    pub fn beside_names(cut: &Cut<'_>, sheet: Sheet, names: f64, below: f64) -> Self {
        let sizes = Sizes::on(sheet);
        let extents = Extents::of(cut);
        let (half_dig, above) = (extents.half_dig, extents.above);
        let below = extents.below.max(below);
        let (left, right) = (MARGIN, sheet.width - MARGIN - names);
        let top = MARGIN + 6.0;
        let height = sheet.height - top - sizes::level_room(sizes, 0) - UNDER;
        let by_width = (right - left - 2.0 * UNDER) / (2.0 * half_dig);
        let dots_per_metre = by_width.min(height / (above + below)).max(10.0);
        let left_over = (height - (above + below) * dots_per_metre).max(0.0);
        let grade = top + above * dots_per_metre + (0.3 * left_over).min(40.0);
        let bottom = grade + below * dots_per_metre + UNDER + (0.3 * left_over).min(60.0);
        let half = ((right - left) / 2.0).min(half_dig * dots_per_metre + BESIDE);
        let centre = f64::midpoint(left, right);
        Self {
            detail: detail(0, 0, 0, false),
            dots_per_metre,
            left: centre - half,
            right: centre + half,
            bottom,
            grade,
            callouts: Band {
                left: MARGIN,
                right,
                top,
                rows: 0,
                knee: top,
            },
            centre,
            grade_level: cut.grade_at(0.0),
            spare_height: 0.0,
        }
    }

    /// An empty board with this frame.
    pub fn board(&self, sheet: Sheet) -> Draft {
        let upper_left = Point {
            x: -self.centre / self.dots_per_metre,
            y: self.grade_level + self.grade / self.dots_per_metre,
        };
        let mut draft = Draft::new(sheet, upper_left, self.dots_per_metre, 1.0);
        draft.hatch_origin = Point {
            x: 0.0,
            y: self.grade_level,
        };
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
        let at_least = |value: f64, least: f64| {
            if value.is_finite() {
                value.max(least)
            } else {
                least
            }
        };
        Self {
            half_dig: at_least(cut.extent.half_dig, 0.1),
            above: at_least(cut.extent.above, 0.0),
            below: at_least(cut.extent.below, 0.05),
        }
    }
}
