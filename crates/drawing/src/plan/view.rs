//! Which part of the plan is seen and how large: the one place where plan, drawing and sheet are turned into each other.

use super::band::Band;
use crate::draft::Draft;
use crate::item::{Point, Sheet};
use underbrick_calc::lay::{LayWishes, PlanPoint};
use underbrick_calc::line::Run;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::site::Site;

/// Scales outside these show nothing that can be used, in dots per metre.
const SCALES: (f64, f64) = (0.5, 20_000.0);
/// How wide a joint is drawn at the nearest, in dots.
const JOINT_DOTS: f64 = 30.0;
/// How far beside the walk the middle of the sheet may come, as a share of the sheet.
const BESIDE: f64 = 0.4;
/// Least share of a sheet's side that the walk gets when all of it is shown.
const LEAST_SHARE: f64 = 0.4;

/// The part of the plan that is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanView {
    /// The spot in the middle of the sheet.
    pub centre: PlanPoint,
    /// Scale: dots of the sheet for a metre of the walk.
    pub dots_per_metre: f64,
    /// Turned by a quarter: away from the door is to the right of the sheet, so that a long walk lies along it. Else it is up.
    pub turned: bool,
    /// Whether the handles are drawn by which a radius and the width are dragged.
    pub handles: bool,
}

impl PlanView {
    /// The whole walk as large as it fits with its dimensions, turned the way in which it is larger. Without handles.
    #[must_use]
    pub fn whole(site: &Site, run: &Run, sheet: Sheet) -> Self {
        let sheet = sheet.usable();
        let band = Band::whole(site, run);
        let upright = Self::fitted(&band, sheet, false);
        let lying = Self::fitted(&band, sheet, true);
        if lying.dots_per_metre > upright.dots_per_metre {
            lying
        } else {
            upright
        }
    }

    fn fitted(band: &Band<'_>, sheet: Sheet, turned: bool) -> Self {
        let bounds = Bounds::of(band);
        let mut view = Self {
            centre: PlanPoint {
                right_m: f64::midpoint(bounds.low.right_m, bounds.high.right_m),
                away_m: f64::midpoint(bounds.low.away_m, bounds.high.away_m),
            },
            dots_per_metre: 1.0,
            turned,
            handles: false,
        };
        // Room for what stands beside the walk, in dots: left, right, above, below. Past its far end stand the widths.
        let (end, past) = (
            band.spot(band.length_m, 0.0),
            band.spot(band.length_m + 1.0, 0.0),
        );
        let (end, past) = (view.point(end), view.point(past));
        let out = |along: f64| along.max(0.0);
        let (left, right, above, below) = if turned {
            (92.0, 104.0, 92.0, 94.0)
        } else {
            (112.0, 112.0, 100.0, 100.0)
        };
        let left = left + 82.0 * out(end.x - past.x);
        let right = right + 82.0 * out(past.x - end.x);
        let above = above + 28.0 * out(past.y - end.y);
        let below = below + 28.0 * out(end.y - past.y);
        let scale = sheet.text_scale;
        let share = |rooms: f64, side: f64| (side * (1.0 - LEAST_SHARE) / (rooms * scale)).min(1.0);
        let across = scale * share(left + right, sheet.width);
        let down = scale * share(above + below, sheet.height);
        let (width_m, height_m) = if turned {
            (
                bounds.high.away_m - bounds.low.away_m,
                bounds.high.right_m - bounds.low.right_m,
            )
        } else {
            (
                bounds.high.right_m - bounds.low.right_m,
                bounds.high.away_m - bounds.low.away_m,
            )
        };
        let by_width = (sheet.width - across * (left + right)) / width_m.max(0.1);
        let by_height = (sheet.height - down * (above + below)) / height_m.max(0.1);
        view.dots_per_metre = by_width.min(by_height);
        let view = view.usable();
        view.moved(across * (left - right) / 2.0, down * (above - below) / 2.0)
    }

    /// So near that one joint can be measured, with that spot of the walk in the middle.
    #[must_use]
    pub fn one_joint(self, site: &Site, at: PlanPoint) -> Self {
        let joint_m = in_metres(LayWishes::of(site).joint).max(0.002);
        Self {
            centre: at,
            dots_per_metre: (JOINT_DOTS / joint_m).min(5_000.0),
            ..self
        }
        .usable()
    }

    /// The same, so far over that what was seen moves by so many dots to the right and down.
    #[must_use]
    pub fn moved(self, right_dots: f64, down_dots: f64) -> Self {
        let (x_m, y_m) = (
            right_dots / self.dots_per_metre,
            -down_dots / self.dots_per_metre,
        );
        let middle = self.point(self.centre);
        Self {
            centre: self.plan_from(Point {
                x: middle.x - x_m,
                y: middle.y - y_m,
            }),
            ..self
        }
        .usable()
    }

    /// Larger by a factor about a spot of the sheet, which stays where it is.
    #[must_use]
    pub fn zoomed(self, factor: f64, sheet: Sheet, (x, y): (f64, f64)) -> Self {
        let sheet = sheet.usable();
        let held = self.in_plan(sheet, (x, y));
        let nearer = Self {
            dots_per_metre: self.dots_per_metre * factor,
            ..self
        }
        .usable();
        let (now_x, now_y) = nearer.on_sheet(sheet, held);
        nearer.moved(x - now_x, y - now_y)
    }

    /// The same, brought back so far that the walk stays on the sheet.
    #[must_use]
    pub fn over(self, site: &Site, run: &Run, sheet: Sheet) -> Self {
        let bounds = Bounds::of(&Band::whole(site, run));
        let beside_m = BESIDE * sheet.width.min(sheet.height) / self.dots_per_metre;
        let within = |value: f64, low: f64, high: f64| {
            if low <= high {
                value.clamp(low - beside_m, high + beside_m)
            } else {
                value
            }
        };
        let (low, high) = (bounds.low, bounds.high);
        Self {
            centre: PlanPoint {
                right_m: within(self.centre.right_m, low.right_m, high.right_m),
                away_m: within(self.centre.away_m, low.away_m, high.away_m),
            },
            ..self
        }
    }

    /// Where a spot of the plan stands on a sheet, in dots from its upper left corner.
    #[must_use]
    pub fn on_sheet(self, sheet: Sheet, spot: PlanPoint) -> (f64, f64) {
        let (middle, at) = (self.point(self.centre), self.point(spot));
        (
            sheet.width / 2.0 + (at.x - middle.x) * self.dots_per_metre,
            sheet.height / 2.0 - (at.y - middle.y) * self.dots_per_metre,
        )
    }

    /// The reverse of [`PlanView::on_sheet`].
    #[must_use]
    pub fn in_plan(self, sheet: Sheet, (x, y): (f64, f64)) -> PlanPoint {
        let middle = self.point(self.centre);
        self.plan_from(Point {
            x: middle.x + (x - sheet.width / 2.0) / self.dots_per_metre,
            y: middle.y - (y - sheet.height / 2.0) / self.dots_per_metre,
        })
    }

    /// The nearest view that can be drawn.
    #[must_use]
    pub fn usable(self) -> Self {
        let finite = |value: f64| if value.is_finite() { value } else { 0.0 };
        let scale = if self.dots_per_metre.is_finite() {
            self.dots_per_metre.clamp(SCALES.0, SCALES.1)
        } else {
            SCALES.0
        };
        Self {
            centre: PlanPoint {
                right_m: finite(self.centre.right_m),
                away_m: finite(self.centre.away_m),
            },
            dots_per_metre: scale,
            ..self
        }
    }

    /// A spot of the plan as a point of the drawing.
    pub(crate) fn point(self, spot: PlanPoint) -> Point {
        if self.turned {
            Point {
                x: spot.away_m,
                y: -spot.right_m,
            }
        } else {
            Point {
                x: spot.right_m,
                y: spot.away_m,
            }
        }
    }

    fn plan_from(self, point: Point) -> PlanPoint {
        if self.turned {
            PlanPoint {
                right_m: -point.y,
                away_m: point.x,
            }
        } else {
            PlanPoint {
                right_m: point.x,
                away_m: point.y,
            }
        }
    }

    /// An empty board that shows this view.
    pub(crate) fn board(self, sheet: Sheet) -> Draft {
        let middle = self.point(self.centre);
        let upper_left = Point {
            x: middle.x - sheet.width / 2.0 / self.dots_per_metre,
            y: middle.y + sheet.height / 2.0 / self.dots_per_metre,
        };
        Draft::new(sheet, upper_left, self.dots_per_metre, 1.0)
    }
}

/// The least rectangle about something in plan.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bounds {
    pub low: PlanPoint,
    pub high: PlanPoint,
}

impl Bounds {
    /// Nothing yet.
    pub const NOTHING: Self = Self {
        low: PlanPoint {
            right_m: f64::INFINITY,
            away_m: f64::INFINITY,
        },
        high: PlanPoint {
            right_m: f64::NEG_INFINITY,
            away_m: f64::NEG_INFINITY,
        },
    };

    /// Of a walk over its edges.
    fn of(band: &Band<'_>) -> Self {
        let outlines = band
            .stretches
            .iter()
            .map(|stretch| band.outline(stretch, band.edge_m));
        outlines.fold(Self::NOTHING, |bounds, outline| bounds.with(&outline))
    }

    /// Of what a view shows on a sheet, and so many dots about it.
    pub fn seen(view: PlanView, sheet: Sheet, about_dots: f64) -> Self {
        let corners = [
            view.in_plan(sheet, (-about_dots, -about_dots)),
            view.in_plan(sheet, (sheet.width + about_dots, sheet.height + about_dots)),
        ];
        Self::NOTHING.with(&corners)
    }

    pub fn with(self, spots: &[PlanPoint]) -> Self {
        spots.iter().fold(self, |bounds, spot| Self {
            low: PlanPoint {
                right_m: bounds.low.right_m.min(spot.right_m),
                away_m: bounds.low.away_m.min(spot.away_m),
            },
            high: PlanPoint {
                right_m: bounds.high.right_m.max(spot.right_m),
                away_m: bounds.high.away_m.max(spot.away_m),
            },
        })
    }

    pub fn meets(self, other: Self) -> bool {
        self.low.right_m <= other.high.right_m
            && other.low.right_m <= self.high.right_m
            && self.low.away_m <= other.high.away_m
            && other.low.away_m <= self.high.away_m
    }
}
