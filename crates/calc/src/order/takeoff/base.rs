//! Base: all lifts, as tipped.

use super::super::item::Item;
use super::super::need::{Figure, Need, Step};
use super::bulk::{Compacted, from_loose, loose_to_compacted, tipped};
use super::{Job, missing};
use crate::bed::Bed;
use crate::catalogue::{BaseFigures, Material};
use crate::place::Place;
use crate::quantity::{Volume, cubic_metres, in_cubic_metres};

/// A millilitre: less is a rounding of the arithmetic.
const NOTHING_M3: f64 = 1e-6;

/// Base, fill among it where the old surface lies below the bottom of the dig: filled with base, common practice, no source.
pub(super) fn base(job: &Job<'_>) -> Need {
    let key = &job.site.bed.base_material;
    let material = job.catalogue.find(key);
    let name = material.map_or("Base", |material| &material.name);
    let draft = super::draft::Draft::of(Item::Base).material(key, name);
    let known = job
        .bed()
        .zip(material.and_then(|material| Some((material, material.as_base?))));
    let Some((bed, (material, base))) = known else {
        return draft
            .from([Place::BaseMaterial])
            .misses(missing::of_bed(job));
    };
    let offer = job.offer(Item::Base, Some(key));
    let figures = figures(job, material, &base);
    let earthwork = &bed.earthwork;
    let in_place = earthwork.base_compacted + earthwork.fill_below_dig;
    let (amount, steps) = tipped(in_place, &figures, offer);
    let (ratio, _) = loose_to_compacted(&figures, offer);
    draft
        .least(earthwork.is_least)
        .from(bed.lifts.each.iter().map(|lift| Place::Lift(lift.number)))
        .from([Place::DigBottom, Place::BaseMaterial])
        .step("dig in plan", Figure::Area(earthwork.dig_area))
        .step("thickest base", Figure::Length(bed.thickest_base))
        .step("thinnest base", Figure::Length(bed.thinnest_base))
        .steps(each_lift(bed, ratio))
        .steps(trench_taken_off(bed))
        .steps(fill(earthwork.fill_below_dig))
        .steps(steps)
        .needs(amount)
}

fn figures<'a>(job: &Job<'a>, material: &'a Material, base: &BaseFigures) -> Compacted<'a> {
    Compacted {
        loose_to_compacted: base.loose_to_compacted,
        ratio_source: material.source_of("loose to compacted"),
        density: base.compacted_density,
        density_source: from_loose(material),
        moisture: job.catalogue.moisture(&material.key),
    }
}

fn each_lift(bed: &Bed, ratio: f64) -> impl Iterator<Item = Step> + '_ {
    bed.lifts.each.iter().map(move |lift| {
        Step::new(
            "in one lift, loose",
            Figure::Volume(lift.compacted_volume * ratio),
        )
        .from(format!("lift {} from the bottom", lift.number))
    })
}

/// Lifts run through under the edge; its trench takes their place.
fn trench_taken_off(bed: &Bed) -> Option<Step> {
    let gross = bed
        .lifts
        .each
        .iter()
        .fold(cubic_metres(0.0), |sum, lift| sum + lift.compacted_volume);
    more_than_nothing(gross - bed.earthwork.base_compacted)
        .map(|trench| Step::new("less the trench of the edge", Figure::Volume(trench)))
}

fn fill(fill: Volume) -> Option<Step> {
    more_than_nothing(fill).map(|fill| {
        Step::new(
            "fill where the ground lies below the dig",
            Figure::Volume(fill),
        )
        .from("filled with base: common practice, no source")
    })
}

fn more_than_nothing(volume: Volume) -> Option<Volume> {
    (in_cubic_metres(volume) > NOTHING_M3).then_some(volume)
}
