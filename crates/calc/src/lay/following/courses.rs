//! Where the courses lie across the walk, and over which stations each is laid.

use super::super::laid::LayNote;
use super::stock::{EXACT_M, Stock};
use crate::line::Run;
use crate::quantity::{in_metres, metres};
use crate::site::Hand;

/// The courses of a field across the clear width.
#[derive(Clone, Debug, Default)]
pub(super) struct Courses {
    pub all: Vec<CourseAt>,
    /// Between courses, and between the outer ones and the edges.
    pub joint_m: f64,
}

/// One course.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct CourseAt {
    /// From 1, on the side where laying starts.
    pub number: u32,
    /// Offset of its middle line, right positive.
    pub offset_m: f64,
    /// Its width: a brick's, or what is left of one.
    pub width_m: f64,
    pub is_ripped: bool,
}

/// Widths of the courses from the starting side, and the joint between them.
fn widths(clear_m: f64, stock: &Stock, notes: &mut Vec<LayNote>) -> (Vec<f64>, f64) {
    let (width_m, joint_m) = (stock.width_m, stock.joint_m);
    let joint_of = |n: f64| (clear_m - n * width_m) / (n + 1.0);
    // The number whose joint is nearest to the one aimed at is one of the two beside the real-valued answer.
    let below = libm::floor((clear_m - joint_m) / (width_m + joint_m)).max(0.0);
    let fitting = [below, below + 1.0]
        .into_iter()
        .filter(|&n| {
            n > 0.0
                && joint_of(n) >= stock.least_joint_m - EXACT_M
                && joint_of(n) <= stock.widest_joint_m + EXACT_M
        })
        .min_by(|&one, &other| {
            (joint_of(one) - joint_m)
                .abs()
                .total_cmp(&(joint_of(other) - joint_m).abs())
        });
    if let Some(n) = fitting {
        return (of_number(n, width_m), joint_of(n));
    }
    if below == 0.0 {
        notes.push(LayNote::WiderThanTheWalk);
    }
    let rip_m = clear_m - below * width_m - (below + 2.0) * joint_m;
    let mut all = of_number(below, width_m);
    if rip_m >= stock.least_width_m - EXACT_M {
        all.push(rip_m);
        notes.push(LayNote::Ripped {
            to: metres(rip_m),
            n_courses: 1,
        });
    } else if below > 0.0 {
        let rip_m = 0.5 * (rip_m + width_m);
        all.pop();
        all.insert(0, rip_m);
        all.push(rip_m);
        notes.push(LayNote::Ripped {
            to: metres(rip_m),
            n_courses: 2,
        });
    }
    (all, joint_m)
}

/// So many of one width.
pub(in crate::lay) fn of_number(n: f64, width_m: f64) -> Vec<f64> {
    let mut all = Vec::new();
    let mut nth = 0.0;
    while nth < n {
        all.push(width_m);
        nth += 1.0;
    }
    all
}

impl Courses {
    /// Across a walk of constant width.
    pub(super) fn across(
        clear_m: f64,
        start: Hand,
        stock: &Stock,
        notes: &mut Vec<LayNote>,
    ) -> Self {
        let (widths_m, joint_m) = widths(clear_m, stock, notes);
        Self::placed(clear_m, start, stock, &widths_m, joint_m)
    }

    /// Across a walk whose width changes: whole courses that cover its widest place, to be cut along the edges.
    pub(super) fn to_be_cut(widest_m: f64, start: Hand, stock: &Stock) -> Self {
        let n = libm::ceil((widest_m - stock.joint_m) / (stock.width_m + stock.joint_m) - EXACT_M);
        let widths_m = of_number(n, stock.width_m);
        Self::placed(widest_m, start, stock, &widths_m, stock.joint_m)
    }

    /// Offset of the course furthest from the centreline, whichever side, and its width.
    pub(super) fn outermost(&self, stock: &Stock) -> (f64, f64) {
        self.all
            .iter()
            .map(|course| (course.offset_m.abs(), course.width_m))
            .max_by(|one, other| one.0.total_cmp(&other.0))
            .unwrap_or((0.0, stock.width_m))
    }

    fn placed(clear_m: f64, start: Hand, stock: &Stock, widths_m: &[f64], joint_m: f64) -> Self {
        let sign = match start {
            Hand::Left => 1.0,
            Hand::Right => -1.0,
        };
        let mut from_edge_m = joint_m;
        let all = (1_u32..)
            .zip(widths_m)
            .map(|(number, &width_m)| {
                let offset_m = sign * (from_edge_m + 0.5 * width_m - 0.5 * clear_m);
                from_edge_m += width_m + joint_m;
                CourseAt {
                    number,
                    offset_m,
                    width_m,
                    is_ripped: width_m < stock.width_m - EXACT_M,
                }
            })
            .collect();
        Self { all, joint_m }
    }
}

/// Whether the clear width changes along the run.
pub(super) fn tapers(run: &Run) -> bool {
    let Some(first) = run.legs().first() else {
        return false;
    };
    run.legs().iter().any(|leg| {
        [leg.width_at_start, leg.width_at_end]
            .into_iter()
            .any(|width| in_metres(width - first.width_at_start).abs() > EXACT_M)
    })
}

/// Clear width where it is widest.
pub(super) fn widest_m(run: &Run) -> f64 {
    run.legs()
        .iter()
        .flat_map(|leg| [leg.width_at_start, leg.width_at_end])
        .map(in_metres)
        .fold(0.0, f64::max)
}

/// Stations between which the course lies, at least in part, within the walk. Stretches with less than `near_m` between them are one.
pub(super) fn stretches(
    run: &Run,
    course: &CourseAt,
    from_m: f64,
    to_m: f64,
    near_m: f64,
) -> Vec<(f64, f64)> {
    let inner_m = course.offset_m.abs() - 0.5 * course.width_m;
    let mut all: Vec<(f64, f64)> = Vec::new();
    for leg in run.legs() {
        let (start_m, end_m) = (in_metres(leg.start), in_metres(leg.end()));
        let half = |width| 0.5 * in_metres(width) - inner_m;
        let (at_start_m, at_end_m) = (half(leg.width_at_start), half(leg.width_at_end));
        let crossing_m = start_m + (end_m - start_m) * at_start_m / (at_start_m - at_end_m);
        let (first_m, last_m) = match (at_start_m > 0.0, at_end_m > 0.0) {
            (true, true) => (start_m, end_m),
            (true, false) => (start_m, crossing_m),
            (false, true) => (crossing_m, end_m),
            (false, false) => continue,
        };
        let (first_m, last_m) = (first_m.max(from_m), last_m.min(to_m));
        if last_m <= first_m {
            continue;
        }
        match all.last_mut() {
            Some(before) if first_m - before.1 < near_m => before.1 = last_m,
            _ => all.push((first_m, last_m)),
        }
    }
    all
}
