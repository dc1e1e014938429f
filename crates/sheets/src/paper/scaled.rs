//! Drawings at a round scale, as a draughtsman makes them: a rule laid on the page at 100 % reads true.

use underbrick_calc::Results;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::{ShownIn, Site};
use underbrick_drawing::item::Sheet;
use underbrick_drawing::{Drawing, PlanView, cross_section_to_scale, long_section_to_scale};

use super::DOT_MM;

/// A scale that a rule is made for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoundScale {
    /// Metres on the ground for one on paper.
    pub one_to: u16,
    /// As it is said under a drawing, the same in every language: "3/4 in = 1 ft (1 : 16)".
    pub written: &'static str,
}

const fn scale(one_to: u16, written: &'static str) -> RoundScale {
    RoundScale { one_to, written }
}

/// From the largest on.
///
/// # Source
/// The sides of an architect's scale; common practice, no source.
const FEET_INCHES: [RoundScale; 10] = [
    scale(4, "3 in = 1 ft (1 : 4)"),
    scale(8, "1 1/2 in = 1 ft (1 : 8)"),
    scale(12, "1 in = 1 ft (1 : 12)"),
    scale(16, "3/4 in = 1 ft (1 : 16)"),
    scale(24, "1/2 in = 1 ft (1 : 24)"),
    scale(32, "3/8 in = 1 ft (1 : 32)"),
    scale(48, "1/4 in = 1 ft (1 : 48)"),
    scale(64, "3/16 in = 1 ft (1 : 64)"),
    scale(96, "1/8 in = 1 ft (1 : 96)"),
    scale(192, "1/16 in = 1 ft (1 : 192)"),
];

/// From the largest on.
///
/// # Source
/// ISO 5455:1979, reduction scales, from memory; 1 : 25 stands on rules beside them.
const METRIC: [RoundScale; 8] = [
    scale(5, "1 : 5"),
    scale(10, "1 : 10"),
    scale(20, "1 : 20"),
    scale(25, "1 : 25"),
    scale(50, "1 : 50"),
    scale(100, "1 : 100"),
    scale(200, "1 : 200"),
    scale(500, "1 : 500"),
];

impl RoundScale {
    /// Those of a way of measuring, from the largest on.
    #[must_use]
    pub const fn all(shown_in: ShownIn) -> &'static [Self] {
        match shown_in {
            ShownIn::FeetInches => &FEET_INCHES,
            ShownIn::Metric => &METRIC,
        }
    }

    /// The one of a laying plan: letters of cut pieces have room at it.
    #[must_use]
    pub const fn of_laying_plan(shown_in: ShownIn) -> Self {
        match shown_in {
            ShownIn::FeetInches => scale(16, "3/4 in = 1 ft (1 : 16)"),
            ShownIn::Metric => scale(20, "1 : 20"),
        }
    }

    /// Dots on paper for a metre on the ground.
    #[must_use]
    pub fn dots_per_metre(self) -> f64 {
        1000.0 / DOT_MM / f64::from(self.one_to)
    }

    /// The one that a drawing for paper is made at; `None` where its scale is not round.
    #[must_use]
    pub fn of_drawing(drawing: &Drawing, shown_in: ShownIn) -> Option<Self> {
        Self::of(drawing.dots_per_metre, shown_in)
    }

    fn of(dots_per_metre: f64, shown_in: ShownIn) -> Option<Self> {
        let is_it = |scale: &&Self| {
            (scale.dots_per_metre() - dots_per_metre).abs() <= 1e-9 * dots_per_metre
        };
        Self::all(shown_in).iter().find(is_it).copied()
    }
}

/// A drawing with the scale of its lengths; `None` where the paper is too small for any round one, or nothing is known to draw.
#[derive(Clone, Debug, PartialEq)]
pub struct Scaled {
    /// Laid out for a sheet of [`DOT_MM`].
    pub drawing: Drawing,
    /// What to say under it.
    pub scale: Option<RoundScale>,
}

/// The cross-section at `station` at the largest round scale that fits a sheet in dots of [`DOT_MM`]; no higher than it needs to be.
#[must_use]
pub fn cross_section_scaled(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    sheet: Sheet,
) -> Scaled {
    let scales = dots_of_all(site.shown_in);
    let drawing = cross_section_to_scale(site, catalogue, results, station, sheet, &scales);
    said(drawing, results.bed.is_some(), site.shown_in)
}

/// The walk lengthwise, its lengths at the largest round scale that fits a sheet in dots of [`DOT_MM`].
#[must_use]
pub fn long_section_scaled(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    marker: Length,
    sheet: Sheet,
) -> Scaled {
    let scales = dots_of_all(site.shown_in);
    let drawing = long_section_to_scale(site, catalogue, results, marker, sheet, &scales);
    said(drawing, results.bed.is_some(), site.shown_in)
}

/// A view of the plan, brought to the next smaller round scale; as it is where there is none.
#[must_use]
pub fn plan_view_scaled(view: PlanView, shown_in: ShownIn) -> (PlanView, Option<RoundScale>) {
    let scales = RoundScale::all(shown_in);
    let fits = |scale: &&RoundScale| scale.dots_per_metre() <= view.dots_per_metre * (1.0 + 1e-12);
    let scale = scales.iter().find(fits).copied();
    let view = PlanView {
        dots_per_metre: scale.map_or(view.dots_per_metre, RoundScale::dots_per_metre),
        ..view
    };
    (view, scale)
}

fn dots_of_all(shown_in: ShownIn) -> Vec<f64> {
    let scales = RoundScale::all(shown_in).iter();
    scales.map(|scale| scale.dots_per_metre()).collect()
}

/// What is drawn where nothing is known has no scale.
fn said(drawing: Drawing, is_known: bool, shown_in: ShownIn) -> Scaled {
    let scale = RoundScale::of_drawing(&drawing, shown_in).filter(|_| is_known);
    Scaled { drawing, scale }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Millimetres on paper, for a length on the ground in millimetres.
    #[track_caller]
    fn check(scale: RoundScale, ground_mm: f64, paper_mm: f64) {
        let dots = scale.dots_per_metre() * ground_mm / 1000.0;
        assert!(
            (dots * DOT_MM - paper_mm).abs() < 1e-9,
            "{scale:?}: {}",
            dots * DOT_MM
        );
    }

    #[test]
    fn an_inch_of_paper_is_what_is_written() {
        for scale in FEET_INCHES {
            // "1 1/2 in = 1 ft (1 : 8)": inches of paper, added up from its whole and its fraction.
            let (before, after) = scale.written.split_once(" in = 1 ft (1 : ").unwrap();
            let inches: f64 = before
                .split(' ')
                .map(|part| match part.split_once('/') {
                    Some((over, under)) => {
                        over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap()
                    }
                    None => part.parse().unwrap(),
                })
                .sum();
            check(scale, 304.8, 25.4 * inches);
            assert_eq!(after, format!("{})", scale.one_to));
        }
        for scale in METRIC {
            assert_eq!(scale.written, format!("1 : {}", scale.one_to));
            check(scale, 1000.0, 1000.0 / f64::from(scale.one_to));
        }
    }

    #[test]
    fn scales_go_from_the_largest_to_the_least_and_hold_that_of_the_plan() {
        for shown_in in [ShownIn::FeetInches, ShownIn::Metric] {
            let all = RoundScale::all(shown_in);
            assert!(all.is_sorted_by(|one, next| one.one_to < next.one_to));
            assert!(all.contains(&RoundScale::of_laying_plan(shown_in)));
        }
    }

    #[test]
    fn a_plan_is_brought_to_the_next_smaller_scale() {
        let view = |dots_per_metre: f64| PlanView {
            centre: underbrick_calc::lay::PlanPoint {
                right_m: 0.0,
                away_m: 0.0,
            },
            dots_per_metre,
            turned: false,
            handles: false,
        };
        // 130 dots a metre is 1 : 38.5; next is 1 : 50, 100 dots a metre.
        let (rounded, scale) = plan_view_scaled(view(130.0), ShownIn::Metric);
        assert!((rounded.dots_per_metre - 100.0).abs() < 1e-9);
        assert_eq!(scale.map(|scale| scale.one_to), Some(50));
        let (kept, none) = plan_view_scaled(view(4.0), ShownIn::Metric);
        assert!((kept.dots_per_metre - 4.0).abs() < 1e-12 && none.is_none());
    }
}
