//! Where the long section stands on the sheet, and how many times heights are enlarged.

use super::Lengthwise;
use super::axes;
use crate::callouts::Band;
use crate::draft::{Draft, Sizes};
use crate::item::{Point, Sheet};
use crate::scale::Scales;

/// Space to the edge of the sheet, in dots.
pub(super) const MARGIN: f64 = 12.0;
/// Half the width of the marker's handle, in dots.
pub(super) const HANDLE: f64 = 22.0;
/// From the callouts to where their leaders run straight down, in dots.
const KNEE: f64 = 16.0;
/// Least ground under the lowest line, in dots.
const UNDER: f64 = 12.0;
/// How many times heights may be enlarged: round figures up to 20, however tall the sheet. Past that a fall of 1/4 in/ft stands steeper
/// than 1 in 2.5 and reads as a ramp; common practice, no source.
const TIMES: [f64; 11] = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0];

/// What a long section is drawn for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum MadeFor {
    /// A finger takes the marker by its handle.
    Screen,
    /// The marker is a line with its flag.
    Paper,
}

/// The frame of one long section. All in dots of the sheet but the scale.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub dots_per_metre: f64,
    pub times: f64,
    /// Station 0.
    pub left: f64,
    /// Far end.
    pub right: f64,
    /// Bottom of the ground that is drawn.
    pub bottom: f64,
    /// Height of the sill.
    pub sill: f64,
    /// Height of the row that the flag and the title stand in: its middle.
    pub flag: f64,
    /// Middle of the row of station figures.
    pub station_row: f64,
    /// Middle of the row that names the curves; `None` where there are none or there is no room.
    pub curve_row: Option<f64>,
    /// Middle of the handle, or of the row that stands in its place on paper.
    pub handle: f64,
    /// Lower end of the marker's line.
    pub marker_end: f64,
    pub callouts: Band,
    /// Whether the far end is named in a column at the right.
    pub names_far_end: bool,
}

impl Frame {
    /// The most that can be drawn with the ground still tall.
    pub fn fit(walk: &Lengthwise<'_>, sheet: Sheet, made_for: MadeFor, scales: Scales<'_>) -> Self {
        let most_rows = if sheet.height >= 520.0 { 2 } else { 1 };
        let details = [(most_rows, true), (1, true), (1, false), (0, false)];
        let frames = details.map(|(callout_rows, names_curves)| {
            Self::with(walk, sheet, made_for, (callout_rows, names_curves), scales)
        });
        let tall = |frame: &Self| frame.ground_height() >= (0.24 * sheet.height).max(60.0);
        let [.., least] = frames;
        frames.into_iter().find(tall).unwrap_or(least)
    }

    fn ground_height(&self) -> f64 {
        self.bottom - self.callouts.knee
    }

    fn with(
        walk: &Lengthwise<'_>,
        sheet: Sheet,
        made_for: MadeFor,
        (callout_rows, names_curves): (usize, bool),
        scales: Scales<'_>,
    ) -> Self {
        let sizes = Sizes::on(sheet);
        let flag_row = 1.7 * sizes.label;
        let callouts_top = 4.0 + flag_row + 5.0;
        let callouts_bottom = callouts_top + Band::height(callout_rows, sizes);
        let half_row = match made_for {
            MadeFor::Screen => HANDLE,
            MadeFor::Paper => 0.65 * sizes.note,
        };
        let handle = sheet.height - 3.0 - half_row;
        let has_curve_row = names_curves && !walk.bends.is_empty();
        let curve_height = if has_curve_row {
            1.4 * sizes.tick + 3.0
        } else {
            0.0
        };
        let station_height = 1.4 * sizes.tick + 5.0;
        let bottom = handle - half_row - 3.0 - curve_height - station_height;
        // Room for the sill over its underside.
        let top = callouts_bottom + KNEE + 1.25 * sizes.note + 4.0;
        let left = MARGIN + axes::drop_figures_width(walk, sizes) + 22.0;
        let names_far_end = sheet.width >= 560.0;
        let end_width = if names_far_end {
            axes::far_end_width(walk, sizes) + 14.0
        } else {
            0.0
        };
        let right = sheet.width - MARGIN - end_width.max(HANDLE - 4.0);
        let (high, low) = walk.levels();
        let height = (bottom - UNDER - top).max(20.0);
        let range = (high - low).max(0.05);
        let by_width = scales.largest_within((right - left).max(40.0) / walk.run_m);
        let times = TIMES
            .iter()
            .copied()
            .filter(|times| range * times * by_width <= height)
            .fold(1.0, f64::max);
        // A short, deep walk is limited by its depth.
        let dots_per_metre = if range * times * by_width <= height {
            by_width
        } else {
            scales.largest_within(height / range / times)
        };
        let used = range * times * dots_per_metre;
        let sill = top + high * times * dots_per_metre + 0.35 * (height - used).max(0.0);
        let callouts = Band {
            left: left - 10.0,
            right: sheet.width - MARGIN,
            top: callouts_top,
            rows: callout_rows,
            knee: callouts_bottom + 0.7 * KNEE,
        };
        Self {
            dots_per_metre,
            times,
            left,
            right: left + walk.run_m * dots_per_metre,
            bottom,
            sill,
            flag: 4.0 + flag_row / 2.0,
            station_row: bottom + 7.0 + 0.6 * sizes.tick,
            curve_row: has_curve_row.then_some(bottom + station_height + curve_height / 2.0),
            handle,
            marker_end: match made_for {
                MadeFor::Screen => handle,
                MadeFor::Paper => bottom,
            },
            callouts,
            names_far_end,
        }
    }

    pub fn board(&self, sheet: Sheet) -> Draft {
        let upper_left = Point {
            x: -self.left / self.dots_per_metre,
            y: self.sill / self.dots_per_metre,
        };
        Draft::new(sheet, upper_left, self.dots_per_metre, self.times)
    }

    /// A point of the drawing from station and level, in metres.
    pub fn point(&self, station_m: f64, level_m: f64) -> Point {
        Point {
            x: station_m,
            y: level_m * self.times,
        }
    }

    /// Dots of the sheet from station and level, in metres.
    pub fn dots(&self, station_m: f64, level_m: f64) -> (f64, f64) {
        (
            self.left + station_m * self.dots_per_metre,
            self.sill - level_m * self.times * self.dots_per_metre,
        )
    }
}
