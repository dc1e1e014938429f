//! Courses from side to side. On a curve the rows stay straight: the joint between two of them is a wedge, and where that does not turn
//! enough a row is cut to a wedge.

mod filled;

use super::super::laid::{Laid, LayNote};
use super::super::pieces::{Kind, Pieces};
use super::super::track::{Along, Track};
use super::super::wishes::LayWishes;
use super::courses;
use super::line_across::{Line, meets, stands_off, stands_off_wide, through, turned_rad};
use super::stock::{EXACT_M, SAME_M, Stock};
use super::{FieldEnds, across_line};
use crate::line::Run;
use crate::quantity::{in_metres, metres};
use crate::site::Hand;

/// Half, and a thousandth of it more.
const REACH_SHARE: f64 = 0.500_5;
/// As much more where the inner edge turns about a spot, so that a row askew reaches further.
const SKEW_SHARE: f64 = 0.03;
/// What is left at least of the inner side of a row, as a share of the brick's width.
const NARROWEST_SHARE: f64 = 0.05;

/// Courses across the run, each a straight row of rigid brick, between the returns.
///
/// On a straight the rows are a brick's width and a joint apart. On a curve the joint is a wedge between the least and the widest; the
/// rest of the turn is taken by rows cut to a wedge, as few as may be. Every second row starts with the piece that gives the lap.
/// The last row is cut to the width that is left; where that is below the least, the last two share it. Where the width of the walk
/// changes see [`super::needs_clipping`].
///
/// # Source
/// Plane geometry. Rows cut to a wedge at even distances: common practice, no source.
#[must_use]
pub fn across(run: &Run, wishes: &LayWishes) -> Laid {
    let mut laid = Laid::default();
    let field = FieldEnds::of(run, wishes);
    let stock = Stock::of(wishes);
    let clear_m = courses::widest_m(run);
    let Some(rows) = Rows::of(run, wishes, &field, stock) else {
        return laid;
    };
    if clear_m < stock.length_m + 2.0 * stock.least_joint_m {
        laid.notes.push(LayNote::WiderThanTheWalk);
    }
    rows.note_tight_curves(&mut laid.notes);
    let bands = rows.bands(&mut laid.notes);
    laid.pieces = Pieces::with_room_for(rows.about_how_many(bands.len()));
    rows.fill(&bands, &mut laid);
    laid
}

/// Lines and measures of a field of rows.
struct Rows<'a> {
    run: &'a Run,
    middle: Track,
    left: Track,
    right: Track,
    stock: Stock,
    /// Joint between rows along straights.
    joint_m: f64,
    /// Clear width where it is widest.
    clear_m: f64,
    tapers: bool,
    start: Hand,
    /// Least lap that was wished for; none in a stack.
    least_lap_m: Option<f64>,
    start_line: Line,
    end_line: Line,
}

/// One row before its bricks are known: the strip between two lines across.
#[derive(Clone, Copy, Debug)]
struct Band {
    near: Line,
    far: Line,
    /// Where its middle lies.
    along: Along,
    kind: Kind,
    /// Joint before it, on the left and on the right.
    gaps_m: (f64, f64),
}

impl<'a> Rows<'a> {
    fn of(run: &'a Run, wishes: &LayWishes, field: &FieldEnds, stock: Stock) -> Option<Self> {
        let edge = |sign: f64| {
            Track::beside(run, |leg_idx| {
                run.legs().get(leg_idx).map_or((0.0, 0.0), |leg| {
                    (
                        sign * 0.5 * in_metres(leg.width_at_start),
                        sign * 0.5 * in_metres(leg.width_at_end),
                    )
                })
            })
        };
        let line = |station_m: f64, by_m: f64| {
            let spot = across_line(run, station_m, 0.0, by_m);
            Line::of(spot.at, super::super::track::heading_rad(run, station_m))
        };
        Some(Self {
            run,
            middle: Track::at_offset(run, 0.0)?,
            left: edge(-1.0)?,
            right: edge(1.0)?,
            stock,
            joint_m: joint_along_m(run, field, &stock),
            clear_m: courses::widest_m(run),
            tapers: courses::tapers(run),
            start: wishes.start,
            least_lap_m: stock.least_lap_m.map(|_| in_metres(wishes.least_lap)),
            start_line: line(0.0, field.at_door_m),
            end_line: line(field.length_m, -field.at_end_m),
        })
    }

    fn about_how_many(&self, n_rows: usize) -> usize {
        let a_row = libm::ceil(self.clear_m / self.stock.length_m) + 2.0;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a cast from a float saturates, and NaN becomes 0"
        )]
        let a_row = a_row as usize;
        n_rows.saturating_mul(a_row.min(1 << 10))
    }

    /// The rows from the door on.
    fn bands(&self, notes: &mut Vec<LayNote>) -> Vec<Band> {
        let mut bands: Vec<Band> = Vec::new();
        let mut before = self.start_line;
        let mut along = self.middle.beside_station(0.0);
        loop {
            let band = self.next(&before, along);
            let room_m = self.room_m(&band.far, along);
            if room_m < -EXACT_M {
                self.close(&mut bands, before, along, notes);
                return bands;
            }
            before = band.far;
            along = band.along;
            bands.push(band);
            if room_m <= self.stock.widest_joint_m - self.joint_m + EXACT_M {
                return bands;
            }
        }
    }

    /// From the far face of a row to where the last one must end.
    fn room_m(&self, far: &Line, along: Along) -> f64 {
        let half_m = self.reach_m(along);
        let at = |right_m| -self.end_line.ahead_m(far, right_m) - self.joint_m;
        at(-half_m).min(at(half_m))
    }

    /// The row after a line across, as wide as a brick on its wider side.
    fn next(&self, before: &Line, from: Along) -> Band {
        let stock = &self.stock;
        let ahead = self
            .middle
            .on_its_leg(from.moved(self.joint_m + stock.width_m));
        let half_m = self.reach_m(ahead);
        // What a joint can turn, then what a row cut to a wedge can.
        let missing_rad = turned_rad(before.heading_rad, self.middle.heading_rad(ahead));
        let most_rad =
            libm::atan((stock.widest_joint_m - stock.least_joint_m).max(0.0) / (2.0 * half_m));
        let wedge_rad = |inner_m: f64| libm::atan((stock.width_m - inner_m) / (2.0 * half_m));
        let joint_rad = self.joint_rad(
            ahead,
            missing_rad,
            (most_rad, wedge_rad(stock.least_width_m)),
        );
        let left_rad = missing_rad - joint_rad;
        let most_rad = wedge_rad(stock.least_width_m);
        let row_rad = if left_rad.abs() < 0.5 * most_rad {
            0.0
        } else if left_rad.abs() <= 1.5 * most_rad {
            libm::copysign(most_rad, left_rad)
        } else {
            // Rows would fall behind the turn for good: the inner side becomes as narrow as it must.
            let must_rad = left_rad.abs() - 0.5 * most_rad;
            libm::copysign(
                must_rad.min(wedge_rad(NARROWEST_SHARE * stock.width_m)),
                left_rad,
            )
        };
        let joint_m = self
            .joint_m
            .min(stock.widest_joint_m - 2.0 * half_m * libm::tan(joint_rad.abs()))
            .max(stock.least_joint_m.min(self.joint_m));
        // The near face stands off by the joint where it is nearer; the row is as wide as a brick where it is wider.
        let near_rad = before.heading_rad + joint_rad;
        let near = stands_off(before, near_rad, joint_m, half_m);
        let far = stands_off_wide(&near, near_rad + row_rad, stock.width_m, half_m);
        let kind = if row_rad == 0.0 {
            Kind::Whole
        } else {
            Kind::Tapered
        };
        self.band(before, near, far, ahead, kind)
    }

    /// Turn of the joint before a row. Where the joints alone cannot follow a curve, each turns as far as it can, also while the rows are
    /// ahead of the curve after a wedge: so the wedges are fewest.
    fn joint_rad(&self, at: Along, missing_rad: f64, (joint_rad, row_rad): (f64, f64)) -> f64 {
        let curvature_per_m = self
            .middle
            .legs()
            .get(at.leg_idx)
            .map_or(0.0, |leg| leg.curvature_per_m);
        if self.turn_of_row_rad(curvature_per_m, at) <= joint_rad {
            return missing_rad.clamp(-joint_rad, joint_rad);
        }
        let hand = curvature_per_m.signum();
        hand * (hand * missing_rad + 0.5 * row_rad).clamp(0.0, joint_rad)
    }

    /// How far the run turns beside a row and its joint, where they lie closest: on the outside of the curve.
    fn turn_of_row_rad(&self, curvature_per_m: f64, at: Along) -> f64 {
        let step_m = self.stock.width_m + self.stock.widest_joint_m;
        let per_m = curvature_per_m.abs();
        step_m * per_m / (1.0 + self.reach_m(at) * per_m)
    }

    /// Says on which curves even a wedge in every row is too little.
    fn note_tight_curves(&self, notes: &mut Vec<LayNote>) {
        let stock = &self.stock;
        for (leg_idx, leg) in self.run.legs().iter().enumerate() {
            let at = self.middle.beside_station(in_metres(leg.start));
            let half_m = self.reach_m(at);
            let wedge_rad = |play_m: f64| libm::atan(play_m.max(0.0) / (2.0 * half_m));
            let most_rad = wedge_rad(stock.widest_joint_m - stock.least_joint_m)
                + wedge_rad(stock.width_m - stock.least_width_m);
            if self.turn_of_row_rad(leg.curvature_per_m, at) > most_rad {
                let least_radius_m = (stock.width_m + stock.widest_joint_m) / most_rad - half_m;
                notes.push(LayNote::TaperedOnCurve {
                    leg_idx,
                    least_radius: metres(least_radius_m),
                });
            }
        }
    }

    /// Puts the spots of both faces onto the middle line of the run.
    fn band(&self, before: &Line, near: Line, far: Line, guess: Along, kind: Kind) -> Band {
        let (near, _) = self.on_middle(near, guess);
        let (far, along) = self.on_middle(far, guess);
        let half_m = self.reach_m(along);
        Band {
            near,
            far,
            along,
            kind,
            gaps_m: (
                before.ahead_m(&near, -half_m),
                before.ahead_m(&near, half_m),
            ),
        }
    }

    fn on_middle(&self, line: Line, guess: Along) -> (Line, Along) {
        let along = meets(&self.middle, &line, guess);
        (
            Line::of(self.middle.spot(along).at, line.heading_rad),
            along,
        )
    }

    /// Half of the clear width there, and a little for rows that are not quite square to the run.
    fn reach_m(&self, along: Along) -> f64 {
        let station_m = self.middle.station_m(along);
        if !self.tapers {
            let turned = |by_m: f64| {
                let at = metres(station_m + by_m);
                0.5 * self.clear_m * self.run.curvature_per_m_at(at).abs()
            };
            let near_m = self.stock.width_m;
            let tightest = turned(0.0)
                .max(turned(near_m))
                .max(turned(-near_m))
                .min(1.0);
            return (REACH_SHARE + SKEW_SHARE * tightest * tightest) * self.clear_m;
        }
        let width_m = |by_m: f64| in_metres(self.run.clear_width_at(metres(station_m + by_m)));
        let near_m = self.stock.length_m;
        REACH_SHARE * width_m(0.0).max(width_m(near_m)).max(width_m(-near_m))
    }

    /// The last row, or the last two where too little is left for one.
    fn close(&self, bands: &mut Vec<Band>, before: Line, along: Along, notes: &mut Vec<LayNote>) {
        let half_m = 0.5 * self.clear_m;
        let end = Line::of(
            self.end_line.spot(0.0, -self.joint_m),
            self.end_line.heading_rad,
        );
        let depth_m = |from: &Line, right_m: f64| from.ahead_m(&end, right_m) - self.joint_m;
        let least_m = depth_m(&before, -half_m).min(depth_m(&before, half_m));
        if least_m >= self.stock.least_width_m - EXACT_M || bands.is_empty() {
            if least_m > SAME_M {
                let near = stands_off(&before, before.heading_rad, self.joint_m, half_m);
                bands.push(self.band(&before, near, end, along, self.kind_of(&near, &end, half_m)));
            }
            return;
        }
        bands.pop();
        let before = bands.last().map_or(self.start_line, |band| band.far);
        let near = stands_off(&before, before.heading_rad, self.joint_m, half_m);
        // Both rows are as wide on each side: the line midway, half a joint before and behind it.
        let share = |right_m: f64| 0.5 * (near.ahead_m(&end, right_m) - self.joint_m);
        let far = through(&near, share(-half_m), share(half_m), half_m);
        let second = stands_off(&far, far.heading_rad, self.joint_m, half_m);
        let first = self.band(&before, near, far, along, self.kind_of(&near, &far, half_m));
        let second = self.band(
            &far,
            second,
            end,
            along,
            self.kind_of(&second, &end, half_m),
        );
        notes.push(LayNote::PieceMerged {
            course: u32::try_from(bands.len()).map_or(u32::MAX, |n| n.saturating_add(1)),
            station: metres(self.middle.station_m(first.along)),
        });
        bands.push(first);
        bands.push(second);
    }

    fn kind_of(&self, near: &Line, far: &Line, half_m: f64) -> Kind {
        let (left_m, right_m) = (near.ahead_m(far, -half_m), near.ahead_m(far, half_m));
        if !Stock::is_same(left_m, right_m) {
            Kind::Tapered
        } else if Stock::is_same(left_m, self.stock.width_m) {
            Kind::Whole
        } else {
            Kind::Ripped
        }
    }
}

/// The joint between rows: on a straight run it flexes where that makes whole rows come out.
fn joint_along_m(run: &Run, field: &FieldEnds, stock: &Stock) -> f64 {
    if run.legs().iter().any(|leg| leg.curvature_per_m != 0.0) {
        return stock.joint_m;
    }
    let clear_m = field.clear_m();
    let n = libm::round((clear_m - stock.joint_m) / (stock.width_m + stock.joint_m));
    let joint_m = (clear_m - n * stock.width_m) / (n + 1.0);
    let is_allowed = n > 0.0
        && joint_m >= stock.least_joint_m - EXACT_M
        && joint_m <= stock.widest_joint_m + EXACT_M;
    if is_allowed { joint_m } else { stock.joint_m }
}
