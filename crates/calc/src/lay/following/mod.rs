//! Running bond and stack: courses that bend with the run.

mod across;
mod arc;
pub(super) mod bond;
pub(super) mod course_line;
pub(super) mod courses;
mod line_across;
mod neighbour;
mod record;
mod row;
pub(super) mod stock;
#[cfg(test)]
pub(super) mod tests;

pub use across::across;

use super::laid::{Laid, LayNote};
use super::pieces::Pieces;
use super::radius::{LeastRadii, bow_m, tight_joint_m};
use super::track::{Spot, Track, heading_rad};
use super::wishes::LayWishes;
use crate::line::{Run, RunLeg};
use crate::quantity::{in_metres, metres};
use crate::site::CourseWay;
use arc::Arc;
use bond::Bounds;
use course_line::{CourseLine, LaidOf};
use courses::{CourseAt, Courses};
use neighbour::Neighbour;
use record::CourseRecord;
use stock::{EXACT_M, SAME_M, Stock};

/// Inside a curve tighter than this rows across turn about one spot, and the end of one may stand out of the walk by a millimetre.
const TURNS_ABOUT_A_SPOT_M: f64 = 0.25;

/// Whether pieces laid by [`along`] or [`across`] may reach beyond the clear width and are to be cut along the edges: where the width
/// changes, courses stay beside the centreline and cover the widest place; and rows across on the inside of a very tight curve.
#[must_use]
pub fn needs_clipping(run: &Run, courses: CourseWay) -> bool {
    let turns_about_a_spot = |leg: &RunLeg| {
        let half_m = 0.5 * in_metres(leg.width_at_start).max(in_metres(leg.width_at_end));
        leg.curvature_per_m != 0.0
            && 1.0 / leg.curvature_per_m.abs() - half_m < TURNS_ABOUT_A_SPOT_M
    };
    courses::tapers(run)
        || courses == CourseWay::Across && run.legs().iter().any(turns_about_a_spot)
}

/// Courses along the run, each at a constant offset from the centreline, between the returns.
///
/// Odd courses start with a whole brick, even ones with the piece that gives the lap. On a curve the courses differ in length, so the
/// lap drifts; where it would fall below the least, a piece is set in. Pieces are rigid; a curve too tight for whole brick is laid of
/// halves, and one too tight for those of pieces cut to a taper. Where the width changes see [`needs_clipping`].
///
/// # Source
/// Rigid geometry. Second course with a half, pieces set in to keep the lap: common practice, no source.
#[must_use]
pub fn along(run: &Run, wishes: &LayWishes) -> Laid {
    let mut laid = Laid::default();
    let field = FieldEnds::of(run, wishes);
    let stock = stock(run, wishes, &field);
    let widest_m = courses::widest_m(run);
    let courses = if courses::tapers(run) {
        Courses::to_be_cut(widest_m, wishes.start, &stock)
    } else {
        Courses::across(widest_m, wishes.start, &stock, &mut laid.notes)
    };
    laid.pieces = Pieces::with_room_for(about_how_many(run, &courses, &stock));
    let plan = Plan {
        run,
        wishes,
        laid_of: laid_of(run, wishes, &courses, &stock, &mut laid.notes),
        field,
        stock,
        transverse_joint_m: courses.joint_m,
    };
    let mut before: Option<(CourseAt, Vec<f64>)> = None;
    for course in courses.all {
        let joints_m = plan.lay(course, before.as_ref(), &mut laid);
        before = Some((course, joints_m));
    }
    laid
}

/// What is the same for all courses.
struct Plan<'a> {
    run: &'a Run,
    wishes: &'a LayWishes,
    field: FieldEnds,
    stock: Stock,
    laid_of: Vec<LaidOf>,
    /// Between courses.
    transverse_joint_m: f64,
}

/// Stations between which the field lies, its returns left out.
#[derive(Clone, Copy, Debug)]
pub(super) struct FieldEnds {
    /// Depth of the row across at the door; zero without one.
    pub at_door_m: f64,
    /// Depth of the row across at the far end.
    pub at_end_m: f64,
    /// Length of the run.
    pub length_m: f64,
}

impl FieldEnds {
    pub(super) fn of(run: &Run, wishes: &LayWishes) -> Self {
        let depth_m = |is_wished: bool| {
            if is_wished {
                in_metres(wishes.edge_brick.across)
            } else {
                0.0
            }
        };
        Self {
            at_door_m: depth_m(wishes.return_at_door),
            at_end_m: depth_m(wishes.return_at_end),
            length_m: in_metres(run.length()),
        }
    }

    /// From the row at the door to the row at the far end, along the centreline.
    pub(super) fn clear_m(&self) -> f64 {
        self.length_m - self.at_door_m - self.at_end_m
    }

    /// The line across where the field starts, met by a line at that offset.
    pub(super) fn start(&self, run: &Run, offset_m: f64) -> Spot {
        across_line(run, 0.0, offset_m, self.at_door_m)
    }

    /// The line across where it ends.
    pub(super) fn end(&self, run: &Run, offset_m: f64) -> Spot {
        across_line(run, self.length_m, offset_m, -self.at_end_m)
    }
}

/// A line square to the run at a station, moved along by `by_m` as a whole.
pub(super) fn across_line(run: &Run, station_m: f64, offset_m: f64, by_m: f64) -> Spot {
    let (sin, cos) = libm::sincos(heading_rad(run, station_m));
    let mut at = super::track::in_plan(run, station_m, offset_m);
    at.right_m += sin * by_m;
    at.away_m += cos * by_m;
    Spot { at, sin, cos }
}

/// Brick and joints; on a straight run the joint flexes within its limits where that makes the courses come out in whole brick.
fn stock(run: &Run, wishes: &LayWishes, field: &FieldEnds) -> Stock {
    let stock = Stock::of(wishes);
    if run.legs().iter().any(|leg| leg.curvature_per_m != 0.0) {
        return stock;
    }
    let clear_m = field.clear_m();
    let n = libm::round((clear_m - stock.joint_m) / (stock.length_m + stock.joint_m));
    let joint_m = (clear_m - n * stock.length_m) / (n + 1.0);
    let is_allowed = n > 0.0
        && joint_m >= stock.least_joint_m - EXACT_M
        && joint_m <= stock.widest_joint_m + EXACT_M;
    if is_allowed {
        Stock::with_joint(wishes, joint_m)
    } else {
        stock
    }
}

/// What each leg is laid of.
fn laid_of(
    run: &Run,
    wishes: &LayWishes,
    courses: &Courses,
    stock: &Stock,
    notes: &mut Vec<LayNote>,
) -> Vec<LaidOf> {
    let mut all = Vec::with_capacity(run.legs().len());
    for (leg_idx, leg) in run.legs().iter().enumerate() {
        let clear = if leg.width_at_start > leg.width_at_end {
            leg.width_at_start
        } else {
            leg.width_at_end
        };
        let least = LeastRadii::of(wishes, clear, metres(courses.joint_m));
        let is_above = |radius| leg.curvature_per_m.abs() * in_metres(radius) <= 1.0 + EXACT_M;
        let is_straight = leg.curvature_per_m == 0.0;
        all.push(if is_straight || is_above(least.whole) {
            LaidOf::Whole
        } else if is_above(least.halves) {
            notes.push(LayNote::HalvesOnCurve {
                leg_idx,
                least_radius: least.whole,
            });
            LaidOf::Halves {
                turn_rad: halves_turn_rad(courses, 1.0 / leg.curvature_per_m.abs(), wishes, stock),
            }
        } else {
            notes.push(LayNote::TaperedOnCurve {
                leg_idx,
                least_radius: least.halves,
            });
            LaidOf::Tapered {
                turn_rad: taper_turn_rad(courses, 1.0 / leg.curvature_per_m.abs(), stock),
            }
        });
    }
    all
}

/// The angle that halves of the outermost course take at the centre.
fn halves_turn_rad(courses: &Courses, radius_m: f64, wishes: &LayWishes, stock: &Stock) -> f64 {
    let (reach_m, width_m) = courses.outermost(stock);
    let radius_m = radius_m + reach_m;
    Arc {
        radius_m,
        width_m,
        joint_m: tight_joint_m(wishes, radius_m, stock.half_m, width_m),
    }
    .rigid_turn_rad(stock.half_m)
}

/// The angle that tapered pieces take at the centre: whole brick on the outside of the outermost course, or a half where that would bow
/// too far into the joint beside it.
fn taper_turn_rad(courses: &Courses, radius_m: f64, stock: &Stock) -> f64 {
    let (reach_m, width_m) = courses.outermost(stock);
    let radius_m = radius_m + reach_m;
    let play_m =
        (courses.joint_m - stock.least_joint_m).min(stock.widest_joint_m - courses.joint_m);
    let side_m = if bow_m(radius_m, stock.length_m) <= play_m {
        stock.length_m
    } else {
        stock.half_m
    };
    Arc {
        radius_m,
        width_m,
        joint_m: stock.joint_m,
    }
    .tapered_turn_rad(side_m)
}

impl Plan<'_> {
    /// Lays one course beside the one before; gives the stations of its joints.
    fn lay(
        &self,
        course: CourseAt,
        before: Option<&(CourseAt, Vec<f64>)>,
        laid: &mut Laid,
    ) -> Vec<f64> {
        let (run, stock, joint_m) = (self.run, self.stock, self.transverse_joint_m);
        let mut joints_m = Vec::new();
        let Some(line) = CourseLine::of(run, &course, joint_m, &self.laid_of, self.wishes, stock)
        else {
            return joints_m;
        };
        let is_running = stock.least_lap_m.is_some();
        let neighbour = before.filter(|_| is_running).map(|(before, joints_m)| {
            Neighbour::of(run, 0.5 * (before.offset_m + course.offset_m), joints_m)
        });
        let least_lap_m = is_running.then(|| in_metres(self.wishes.least_lap));
        let mut record = CourseRecord::of(laid, course, stock, least_lap_m);
        let near_m = 2.0 * stock.length_m;
        for (from_m, to_m) in courses::stretches(run, &course, 0.0, self.field.length_m, near_m) {
            let bounds = bounds(run, &self.field, &line, course.offset_m, from_m, to_m);
            let is_at_door = bounds.start_joint_m > 0.0;
            let is_whole = line
                .leg(bounds.start_at)
                .is_some_and(|leg| leg.laid_of == LaidOf::Whole);
            let first_m = (is_running && is_at_door && is_whole && course.number.is_multiple_of(2))
                .then_some(stock.second_start_m);
            let stretch = bond::stretch(&line, neighbour.as_ref(), &bounds, first_m);
            record.take(&line, neighbour.as_ref(), &bounds, &stretch, &mut joints_m);
            record.beside(&line, joint_m, bounds.start_at, bounds.end_at);
        }
        record.close();
        joints_m
    }
}

/// Start and end of a stretch of a course between two stations.
fn bounds(
    run: &Run,
    field: &FieldEnds,
    line: &CourseLine,
    offset_m: f64,
    from_m: f64,
    to_m: f64,
) -> Bounds {
    let track: &Track = &line.track;
    let on = |station_m: f64, by_m: f64| {
        let along = track.beside_station(station_m);
        track.on_its_leg(along.moved(by_m))
    };
    let (start, start_at, start_joint_m) = if from_m <= SAME_M {
        (
            field.start(run, offset_m),
            on(from_m, field.at_door_m),
            line.stock.joint_m,
        )
    } else {
        let at = on(from_m, 0.0);
        (track.spot(at), at, 0.0)
    };
    let (end, end_at) = if to_m >= field.length_m - SAME_M {
        (Some(field.end(run, offset_m)), on(to_m, -field.at_end_m))
    } else {
        (None, on(to_m, 0.0))
    };
    Bounds {
        start,
        start_at,
        start_joint_m,
        end,
        end_at,
        end_joint_m: line.stock.joint_m,
        end_play_m: line.stock.widest_joint_m - line.stock.joint_m,
    }
}

/// For the room to be kept; a few more or less do not matter.
fn about_how_many(run: &Run, courses: &Courses, stock: &Stock) -> usize {
    let n_a_course = in_metres(run.length()) / (stock.length_m + stock.joint_m) * 1.1 + 4.0;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a cast from a float saturates, and NaN becomes 0"
    )]
    let n_a_course = n_a_course as usize;
    n_a_course.min(1 << 20).saturating_mul(courses.all.len())
}
