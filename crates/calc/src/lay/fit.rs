//! The width that fits: whole courses, a joint within its limits, an edge brick that stands one of five ways.

use super::brick::BrickSize;
use super::runs_out::{RunsOut, runs_out};
use super::wishes::{JointLimits, LayWishes};
use crate::bed::EdgeBrick;
use crate::defaults;
use crate::field::check_length;
use crate::line::Run;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{Bond, CourseWay, EdgeStands, ShownIn, Site};

/// Which widths whole courses give, held against the width that is wished for.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// What one course takes of the width: the brick's width, where courses run across its length.
    pub unit: Length,
    /// Width over the edge bricks that is wished for, at the door.
    pub target: Length,
    /// Whether it was written down; else it is the clear width and the edges as they are.
    pub is_asked: bool,
    /// How far the width may be off.
    pub tolerance: Length,
    /// What meets it, best first: the joint nearest to the one that is aimed at, then the width nearest to the wish, then the edge
    /// as it stands now. One for each way to stand and number of courses.
    pub offers: Vec<FitOffer>,
    /// Where nothing meets it: the nearest below.
    pub narrower: Option<FitOffer>,
    /// Where nothing meets it: the nearest above.
    pub wider: Option<FitOffer>,
    /// What must be cut for exactly the target with the edge as it stands; `None` where whole courses make it, or no course fits.
    pub cut: Option<RipCut>,
    /// The walk as it is set now, at the door.
    pub door: EndFit,
    /// The same at the far end, where the walk is wider or narrower there.
    pub far_end: Option<EndFit>,
    /// Where the walk narrows or widens by a course at the joint that is aimed at, in order of the stations.
    pub runs_out: Vec<RunsOut>,
}

/// One width that whole courses give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FitOffer {
    /// Courses in the field.
    pub n_courses: u32,
    /// Every joint, those at the edge bricks among them.
    pub joint: Length,
    /// How the edge brick stands.
    pub stands: EdgeStands,
    /// Clear width between the edge bricks.
    pub clear: Length,
    /// Width over the edge bricks.
    pub over: Length,
    /// How far that is from the target: positive is wider.
    pub off: Length,
}

/// Courses that are cut along, at the joint that is aimed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RipCut {
    /// Courses that stay whole.
    pub n_whole: u32,
    /// Courses that are cut: one, or two where one would be a sliver.
    pub n_ripped: u32,
    /// What is left of a brick's unit there.
    pub to: Length,
}

/// How one end of the walk is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndFit {
    /// Station.
    pub station: Length,
    /// Clear width.
    pub clear: Length,
    /// Whole courses.
    pub n_courses: u32,
    /// The joint that fills the width with them, where it is within the limits; else the joint that is aimed at.
    pub joint: Length,
    /// What must be cut; `None` where whole courses fill it.
    pub cut: Option<RipCut>,
}

/// How an edge brick may stand, in the order in which it is offered.
const STANDS: [EdgeStands; 5] = [
    EdgeStands::Sailor,
    EdgeStands::Soldier,
    EdgeStands::Header,
    EdgeStands::Stretcher,
    EdgeStands::Rowlock,
];

/// Widths that differ by less are the same width.
const ROUNDING_M: f64 = 1e-9;
/// Joints that differ by less differ in the last bits alone.
const BITS_M: f64 = 1e-14;

/// The width that fits. `None` for herringbone, which the edges clip at any width, and where the run has no width.
#[must_use]
pub fn fit(site: &Site, wishes: &LayWishes, run: &Run) -> Option<Fit> {
    let unit = unit(wishes)?;
    let clear = run.clear_width_at(metres(0.0));
    let asked = site
        .lay
        .target_width
        .and_then(|target| check_length(Place::TargetWidth, target).ok());
    let edges = wishes.edge_brick.across * 2.0;
    let search = Search {
        unit_m: in_metres(unit),
        limits: wishes.joint_limits(),
        aimed: wishes.joint,
        target: asked.unwrap_or(clear + edges),
        tolerance: site
            .lay
            .width_tolerance
            .and_then(|tolerance| check_length(Place::WidthTolerance, tolerance).ok())
            .unwrap_or_else(defaults::width_tolerance),
        step_m: match site.shown_in {
            ShownIn::FeetInches => 0.0254 / 64.0,
            ShownIn::Metric => 0.000_5,
        },
    };
    let size = BrickSize::of_edge(site);
    let ways = STANDS.map(|stands| {
        let brick = EdgeBrick::of(stands, size.length, size.width, size.thickness);
        (stands, brick.across)
    });
    let mut offers: Vec<FitOffer> = ways
        .into_iter()
        .flat_map(|(stands, across)| search.meeting(stands, across))
        .collect();
    let now = site.edge.stands;
    offers.sort_by(|one, other| search.better(one, other, now));
    let (narrower, wider) = if offers.is_empty() {
        search.nearest(&ways, now)
    } else {
        (None, None)
    };
    let at = |station: Length| search.end(station, run.clear_width_at(station), wishes);
    let is_tapered = run
        .legs()
        .iter()
        .any(|leg| leg.width_at_start != leg.width_at_end);
    Some(Fit {
        unit,
        target: search.target,
        is_asked: asked.is_some(),
        tolerance: search.tolerance,
        cut: search.end(metres(0.0), search.target - edges, wishes).cut,
        offers,
        narrower,
        wider,
        door: at(metres(0.0)),
        far_end: is_tapered.then(|| at(run.length())),
        runs_out: runs_out(run, unit, wishes.joint),
    })
}

/// What one course takes of the width; `None` where the bond knows no courses.
fn unit(wishes: &LayWishes) -> Option<Length> {
    match (wishes.bond, wishes.courses) {
        (Bond::Running | Bond::Stack, CourseWay::Along) => Some(wishes.brick_width),
        // A square of basket weave is as wide as the brick is long.
        (Bond::Running | Bond::Stack, CourseWay::Across)
        | (Bond::BasketTwoOnTwo | Bond::BasketTwoOnOne, _) => Some(wishes.brick_length),
        (Bond::Herringbone90 | Bond::Herringbone45, _) => None,
    }
}

struct Search {
    unit_m: f64,
    limits: JointLimits,
    aimed: Length,
    target: Length,
    tolerance: Length,
    /// Joints between the limits are offered in whole steps of the tape.
    step_m: f64,
}

/// More courses than this no walk has.
const MOST_COURSES: u32 = 2_000;

impl Search {
    /// Clear width of so many courses: n unit + (n + 1) joint.
    fn clear_m(&self, n_courses: u32, joint_m: f64) -> f64 {
        f64::from(n_courses) * self.unit_m + f64::from(n_courses + 1) * joint_m
    }

    fn least_m(&self, n_courses: u32) -> f64 {
        self.clear_m(n_courses, in_metres(self.limits.least))
    }

    fn offer(&self, stands: EdgeStands, across: Length, n_courses: u32, joint_m: f64) -> FitOffer {
        let clear = metres(self.clear_m(n_courses, joint_m));
        let over = clear + across * 2.0;
        FitOffer {
            n_courses,
            joint: metres(joint_m),
            stands,
            clear,
            over,
            off: over - self.target,
        }
    }

    /// Numbers of courses that may reach a clear width and no more.
    fn counts(&self, clear_m: f64) -> impl Iterator<Item = u32> + '_ {
        (1..=MOST_COURSES).take_while(move |n_courses| self.least_m(*n_courses) <= clear_m)
    }

    /// What meets the target within tolerance with an edge brick that is so far across.
    fn meeting(&self, stands: EdgeStands, across: Length) -> Vec<FitOffer> {
        let middle_m = in_metres(self.target - across * 2.0);
        let tolerance_m = in_metres(self.tolerance) + ROUNDING_M;
        self.counts(middle_m + tolerance_m)
            .filter_map(|n_courses| {
                let joint_for = |clear_m: f64| {
                    (clear_m - f64::from(n_courses) * self.unit_m) / f64::from(n_courses + 1)
                };
                let least_m = joint_for(middle_m - tolerance_m).max(in_metres(self.limits.least));
                let most_m = joint_for(middle_m + tolerance_m).min(in_metres(self.limits.widest));
                let joint_m = self.nearest_joint_m(least_m, most_m)?;
                Some(self.offer(stands, across, n_courses, joint_m))
            })
            .collect()
    }

    /// Of the joints from `least_m` to `most_m` the one nearest to that which is aimed at, on a step of the tape where one lies
    /// between them.
    fn nearest_joint_m(&self, least_m: f64, most_m: f64) -> Option<f64> {
        if least_m > most_m {
            return None;
        }
        let aimed_m = in_metres(self.aimed);
        let on_step = |joint_m: f64, round: fn(f64) -> f64, hair: f64| {
            let stepped_m = round(joint_m / self.step_m + hair) * self.step_m;
            if (least_m - BITS_M..=most_m + BITS_M).contains(&stepped_m) {
                stepped_m
            } else {
                joint_m
            }
        };
        // A millionth of a step is rounding.
        Some(if aimed_m < least_m {
            on_step(least_m, f64::ceil, -1e-6)
        } else if aimed_m > most_m {
            on_step(most_m, f64::floor, 1e-6)
        } else {
            aimed_m
        })
    }

    /// The widest below the target and the narrowest above it, over all ways to stand.
    fn nearest(
        &self,
        ways: &[(EdgeStands, Length)],
        now: EdgeStands,
    ) -> (Option<FitOffer>, Option<FitOffer>) {
        let mut narrower: Option<FitOffer> = None;
        let mut wider: Option<FitOffer> = None;
        let nearer = |one: &FitOffer, kept: &Option<FitOffer>| {
            kept.is_none_or(|kept| {
                let (one_m, kept_m) = (in_metres(one.off).abs(), in_metres(kept.off).abs());
                one_m < kept_m - ROUNDING_M
                    || (one_m <= kept_m + ROUNDING_M && one.stands == now && kept.stands != now)
            })
        };
        for &(stands, across) in ways {
            let middle_m = in_metres(self.target - across * 2.0);
            let n_below = self.counts(middle_m).last().unwrap_or(0);
            if n_below > 0 {
                let joint_m = in_metres(self.limits.widest);
                // Every joint of so many courses lies below: else it would meet the target.
                let offer = self.offer(stands, across, n_below, joint_m);
                if nearer(&offer, &narrower) {
                    narrower = Some(offer);
                }
            }
            let offer = self.offer(stands, across, n_below + 1, in_metres(self.limits.least));
            if nearer(&offer, &wider) {
                wider = Some(offer);
            }
        }
        (narrower, wider)
    }

    /// The joint nearest to the one that is aimed at, then the width nearest to the wish, then the edge as it stands.
    fn better(&self, one: &FitOffer, other: &FitOffer, now: EdgeStands) -> std::cmp::Ordering {
        // In whole hundredths of a millimetre, so that roundings do not rank.
        let coarse = |length: Length| (in_metres(length).abs() * 1e5).round();
        let joint_off = |offer: &FitOffer| coarse(offer.joint - self.aimed);
        joint_off(one)
            .total_cmp(&joint_off(other))
            .then(coarse(one.off).total_cmp(&coarse(other.off)))
            .then((one.stands != now).cmp(&(other.stands != now)))
    }

    /// How a clear width is filled: by whole courses where the joint limits allow it, nearest to the joint that is aimed at; else by
    /// a cut.
    fn end(&self, station: Length, clear: Length, wishes: &LayWishes) -> EndFit {
        let clear_m = in_metres(clear);
        let aimed_m = in_metres(self.aimed);
        let joint_of = |n_courses: u32| {
            (clear_m - f64::from(n_courses) * self.unit_m) / f64::from(n_courses + 1)
        };
        let whole = self
            .counts(clear_m + ROUNDING_M)
            .filter(|n_courses| self.limits.allow(metres(joint_of(*n_courses))))
            .min_by(|one, other| {
                let off = |n_courses: u32| (joint_of(n_courses) - aimed_m).abs();
                off(*one).total_cmp(&off(*other))
            });
        if let Some(n_courses) = whole {
            return EndFit {
                station,
                clear,
                n_courses,
                joint: metres(joint_of(n_courses)),
                cut: None,
            };
        }
        let n_whole = (1..=MOST_COURSES)
            .take_while(|n_courses| self.clear_m(*n_courses, aimed_m) <= clear_m)
            .last()
            .unwrap_or(0);
        EndFit {
            station,
            clear,
            n_courses: n_whole,
            joint: self.aimed,
            cut: self.rip(clear_m, n_whole, wishes),
        }
    }

    /// What is left beside so many whole courses, as one strip or shared by two.
    fn rip(&self, clear_m: f64, n_whole: u32, wishes: &LayWishes) -> Option<RipCut> {
        let aimed_m = in_metres(self.aimed);
        // One strip, with its joint: what is left after n courses and n + 1 joints.
        let strip_m = clear_m - self.clear_m(n_whole, aimed_m) - aimed_m;
        let share =
            (in_metres(wishes.least_piece) / in_metres(wishes.brick_length)).clamp(0.0, 1.0);
        if strip_m >= self.unit_m * share && strip_m > 0.0 {
            return Some(RipCut {
                n_whole,
                n_ripped: 1,
                to: metres(strip_m),
            });
        }
        // A sliver: the last whole course gives half of itself. n + 2 joints either way.
        let shared_m = (self.unit_m + strip_m) / 2.0;
        (n_whole > 0 && shared_m > 0.0).then(|| RipCut {
            n_whole: n_whole - 1,
            n_ripped: 2,
            to: metres(shared_m),
        })
    }
}

#[cfg(test)]
mod tests;
