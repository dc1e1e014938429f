//! Bonds on a straight grid: basket weave and herringbone, cut along the edges of the walk.

mod pattern;
#[cfg(test)]
mod tests;

use super::band::{Within, field_outline};
use super::clip::Clipper;
use super::laid::{Laid, LayNote, Measured};
use super::openings::PlacedOpening;
use super::trim::{Sizes, Trimmer};
use super::wishes::LayWishes;
use crate::line::Run;
use crate::quantity::{Length, in_metres, metres};
use pattern::Pattern;

/// Every brick of a grid bond in the field between edges and returns, a joint from each, the openings left free with a joint around
/// them.
///
/// The grid stays as it starts at the door however the walk bends. Basket weave and herringbone at 90 degrees start with whole brick in
/// the near corner on the start side; herringbone at 45 degrees has its points on the centreline. Rows are counted away from the door,
/// pieces in a row from the start side. No piece is smaller than the least, along the brick and by the same share across it: it is
/// joined to a neighbour, left to the joint or the joint beside it is moved, and each says so; a bond that follows the run gives nothing.
#[must_use]
pub fn grid(run: &Run, wishes: &LayWishes, openings: &[PlacedOpening]) -> Laid {
    let mut laid = Laid::default();
    if wishes.bond.follows() {
        return laid;
    }
    let within = Within::of(wishes);
    let half_width = run.clear_width_at(metres(0.0)) * 0.5 - wishes.joint;
    let start_away = within.at_door + wishes.joint;
    let pattern = Pattern::of(wishes, in_metres(half_width), in_metres(start_away));
    let is_wider = run.legs().iter().any(|leg| {
        let room = wishes.brick_width + wishes.joint * 2.0;
        leg.width_at_start < room || leg.width_at_end < room
    });
    if is_wider {
        laid.notes.push(LayNote::WiderThanTheWalk);
    }
    if pattern.leans_m().abs() > 1e-6 {
        laid.notes.push(LayNote::Leans(metres(pattern.leans_m())));
    }
    let field = Clipper::new(&field_outline(run, within));
    let sizes = Sizes::of(wishes, pattern.widest_joint_m());
    let mut trimmer = Trimmer::new(&field, openings, wishes.joint, sizes);
    pattern.lay(&field, |brick| trimmer.add(&brick));
    trimmer.finish(run, wishes.start, &mut laid);
    note_joints(&mut laid, wishes, metres(pattern.widest_joint_m()));
    laid
}

/// The joint and the widest joint of the pattern are the same all over; they are noted where the first piece lies.
fn note_joints(laid: &mut Laid, wishes: &LayWishes, widest: Length) {
    let Some(first) = laid.pieces.all().first() else {
        return;
    };
    let at_first = |length: Length| Measured {
        length,
        course: first.course,
        station: first.station,
    };
    let (joint, widest) = (at_first(wishes.joint), at_first(widest));
    laid.note_joint(joint);
    laid.note_joint(widest);
    if widest.length > wishes.widest_joint + metres(1e-9) {
        laid.notes.push(LayNote::JointNotKept(widest));
    }
    if joint.length < wishes.least_joint - metres(1e-9) {
        laid.notes.push(LayNote::JointNotKept(joint));
    }
}
