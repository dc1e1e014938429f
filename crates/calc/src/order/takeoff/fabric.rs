//! Separation fabric.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::draft::Draft;
use super::{Job, missing};
use crate::bed::Bed;
use crate::line::Run;
use crate::place::Place;
use crate::quantity::{Area, Length, inches, metres, square_metres};

/// One strip covers the next by so much, and hangs over by so much at the ends of the walk: 12 in, common practice, no source.
fn lap() -> Length {
    inches(12.0)
}

/// Fabric under the base, where the design has it. It is cut for each leg, so that there is a lap across at the door, at the far end and
/// wherever two legs meet; it does not turn up at the sides.
pub(super) fn fabric(job: &Job<'_>) -> Option<Need> {
    if !job.site.bed.fabric {
        return None;
    }
    let draft = Draft::of(Item::Fabric).from([Place::Fabric, Place::DigBottom]);
    let Some((bed, line)) = job.bed().zip(job.found.line) else {
        return Some(draft.misses(missing::of_bed(job)));
    };
    let dig = bed.earthwork.dig_area;
    let laps = laps(bed, &line.run);
    let need = draft
        .step("dig in plan", Figure::Area(dig))
        .steps([
            Step::new("each lap", Figure::Length(lap())).from("common practice, no source"),
            Step::new("laps at the ends and between legs", Figure::Area(laps)),
            Step::new("fabric", Figure::Area(dig + laps)),
        ])
        .needs(NeedAmount::Area(dig + laps));
    Some(need)
}

fn laps(bed: &Bed, run: &Run) -> Area {
    let ends = run.legs().iter().map(|leg| leg.end());
    let across = std::iter::once(metres(0.0))
        .chain(ends)
        .map(|station| bed.dig.width_at(station));
    across.fold(square_metres(0.0), |sum, width| sum + width * lap())
}
