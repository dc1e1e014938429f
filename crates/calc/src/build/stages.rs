//! Stages with hold points: which the design asks for, and where each stands.

use super::cautions::cautions;
use super::check::{Asks, ReadingFound, Required, SpotFound, Verdict};
use super::hold_checks::HoldChecks;
use super::lifts_placed;
use super::stage::{HoldStage, StageFound, StageState};
use crate::bed::{Bed, Restraint};
use crate::findings::{Findings, Source, Weight};
use crate::line::Line;
use crate::place::Place;
use crate::site::{Site, StageClosed};

/// Whether a stage was closed, rightly or not.
pub(super) fn is_closed(site: &Site, stage: HoldStage) -> bool {
    closing(site, stage).is_some()
}

/// The stages that the design asks for, in the order in which they are done, each with its checks, cautions and state.
///
/// Every stage asks that the first one that is still open before it is closed. Lifting the brick, fabric, restraint and hand-over ask for
/// nothing else: they are closed by hand.
pub(super) fn stages(
    site: &Site,
    line: &Line,
    bed: &Bed,
    (readings, spots): (&[ReadingFound], &[SpotFound]),
    findings: &mut Findings,
) -> Vec<StageFound> {
    let checks = HoldChecks {
        site,
        line,
        bed,
        readings,
        spots,
    };
    let order = in_order(site, line, bed);
    let mut found = Vec::with_capacity(order.len());
    let mut open_before: Vec<HoldStage> = Vec::new();
    for stage in order.iter().copied() {
        let mut required = checks.of(stage);
        required.extend(open_before.first().map(|before| Required {
            what: format!("\"{}\" closed before it", before.name()),
            place: Place::HoldStage(*before),
            verdict: Verdict::NotKnown,
            asks: Asks::StageBefore(*before),
        }));
        let closing = closing(site, stage);
        let state = match closing {
            None => open_state(&required),
            Some(closing) => {
                let stands = Stands {
                    site,
                    closing,
                    required: &required,
                    open_before: &open_before,
                };
                stands.state(findings)
            }
        };
        if closing.is_none() {
            open_before.push(stage);
        }
        found.push(StageFound {
            stage,
            required,
            cautions: cautions(stage, bed.edge.restraint),
            state,
        });
    }
    not_in_design(site, &order, findings);
    out_of_order(site, &order, findings);
    found
}

fn in_order(site: &Site, line: &Line, bed: &Bed) -> Vec<HoldStage> {
    let mut order = vec![HoldStage::LiftBrick];
    // Laid again on its old base, a walk is neither dug nor filled.
    if site.order.way.digs() {
        order.push(HoldStage::Dig);
        if bed.fabric {
            order.push(HoldStage::Fabric);
        }
        let lifts = &bed.lifts.each;
        order.extend(lifts.iter().map(|lift| HoldStage::Lift(lift.number)));
    }
    if bed.edge.forms.n_boards > 0 {
        order.push(HoldStage::Forms);
    }
    order.push(HoldStage::Edge);
    if bed.edge.restraint != Restraint::Nothing {
        order.push(HoldStage::Restraint);
    }
    let n_risers = line.grade.risers().len();
    order.extend((1..=n_risers).map(HoldStage::Riser));
    order.extend([
        HoldStage::SettingBed,
        HoldStage::Field,
        HoldStage::Jointing,
        HoldStage::HandOver,
    ]);
    order
}

/// The last closing of a stage.
fn closing(site: &Site, stage: HoldStage) -> Option<&StageClosed> {
    site.build
        .closed
        .iter()
        .rev()
        .find(|closed| closed.stage == stage)
}

fn open_state(required: &[Required]) -> StageState {
    if required.iter().any(is_off) {
        StageState::Failed
    } else if required.iter().any(is_missing) {
        StageState::Open
    } else {
        StageState::Ready
    }
}

const fn is_off(check: &Required) -> bool {
    matches!(check.verdict, Verdict::High | Verdict::Low)
}

const fn is_missing(check: &Required) -> bool {
    matches!(check.verdict, Verdict::NotKnown)
}

/// A stage that was closed, and what it is judged by.
struct Stands<'a> {
    site: &'a Site,
    closing: &'a StageClosed,
    required: &'a [Required],
    open_before: &'a [HoldStage],
}

impl Stands<'_> {
    /// A reason with initials covers what failed or was missing when it was written, and the stages that were open; not what was read
    /// after it.
    fn state(&self, findings: &mut Findings) -> StageState {
        let has_reason = !self.closing.reason.trim().is_empty();
        let has_initials = !self.closing.stamp.initials.trim().is_empty();
        if has_reason && !has_initials {
            self.doubt(
                Place::StageInitials(self.closing.stage),
                "closed for a reason, but nobody put their initials to it",
                "Whoever closed it writes down their initials.",
                findings,
            );
            return StageState::Doubtful;
        }
        if has_reason {
            let Some(later) = self.required.iter().find(|check| self.is_read_later(check)) else {
                return StageState::ClosedWithReason;
            };
            let text = format!(
                "closed for a reason, but {} is off and was read since then",
                later.what
            );
            self.doubt_here(&text, findings);
            return StageState::Doubtful;
        }
        let said = self
            .required
            .iter()
            .find(|check| is_off(check))
            .map(|check| format!("closed, but {} is off", check.what))
            .or_else(|| {
                let first = self.open_before.first()?;
                Some(format!(
                    "closed out of order: \"{}\" comes before it and is not closed",
                    first.name()
                ))
            })
            .or_else(|| {
                let check = self.required.iter().find(|check| is_missing(check))?;
                Some(format!("closed, but {} was not read", check.what))
            });
        match said {
            Some(text) => {
                self.doubt_here(&text, findings);
                StageState::Doubtful
            }
            None => StageState::Closed,
        }
    }

    fn is_read_later(&self, check: &Required) -> bool {
        let build = &self.site.build;
        let stamp = match check.place {
            Place::BuildValue(idx) => build.readings.get(idx).map(|reading| &reading.stamp),
            Place::SpotSize(idx) => build.spots.get(idx).map(|spot| &spot.stamp),
            Place::LiftLoose(number) | Place::LiftPasses(number) => {
                lifts_placed::last(self.site, number).map(|placed| &placed.stamp)
            }
            _ => None,
        };
        let read_s = stamp.and_then(|stamp| stamp.at_s);
        is_off(check)
            && read_s
                .zip(self.closing.stamp.at_s)
                .is_some_and(|(read_s, closed_s)| read_s > closed_s)
    }

    fn doubt_here(&self, text: &str, findings: &mut Findings) {
        self.doubt(
            Place::HoldStage(self.closing.stage),
            text,
            "Mend it and read again, or close the stage with a reason and initials.",
            findings,
        );
    }

    fn doubt(&self, place: Place, text: &str, remedy: &str, findings: &mut Findings) {
        findings.note(
            place,
            Weight::Warning,
            Source::Readings,
            format!("{}: {text}.", self.closing.stage.name()),
            remedy,
        );
    }
}

/// A stage that was closed and that the design no longer has: a lift less, no fabric.
fn not_in_design(site: &Site, order: &[HoldStage], findings: &mut Findings) {
    let mut named: Vec<HoldStage> = Vec::new();
    for closed in &site.build.closed {
        if order.contains(&closed.stage) || named.contains(&closed.stage) {
            continue;
        }
        named.push(closed.stage);
        findings.note(
            Place::HoldStage(closed.stage),
            Weight::Note,
            Source::Readings,
            format!(
                "{}: closed, but the design does not ask for it any more.",
                closed.stage.name()
            ),
            "It is kept as written; see whether the design was changed on purpose.",
        );
    }
}

/// A stage that was closed after one that comes behind it.
fn out_of_order(site: &Site, order: &[HoldStage], findings: &mut Findings) {
    let turn = |stage: HoldStage| order.iter().position(|other| *other == stage);
    let mut farthest: Option<(usize, HoldStage)> = None;
    for closed in &site.build.closed {
        let is_last = closing(site, closed.stage).is_some_and(|last| std::ptr::eq(last, closed));
        let Some(here) = turn(closed.stage).filter(|_| is_last) else {
            continue;
        };
        match farthest {
            Some((far, behind)) if here < far => findings.note(
                Place::HoldStage(closed.stage),
                Weight::Note,
                Source::Readings,
                format!(
                    "{}: closed after \"{}\", which comes behind it.",
                    closed.stage.name(),
                    behind.name()
                ),
                "See that nothing was covered before it was checked.",
            ),
            _ => farthest = Some((here, closed.stage)),
        }
    }
}
