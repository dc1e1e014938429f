//! Areas, volumes and masses.

use crate::figure::{Figure, Group, Measure};
use crate::wording::Wording;
use underbrick_calc::bed::{Dug, Earthwork};
use underbrick_calc::quantity::{Area, Volume};

/// What is paved, dug, tipped and brought. Of the dug amounts the whole dig, the unsuitable ground and the spoil grow with a bottom
/// that lies deeper than the pits show; old brick and good ground do not.
pub(super) fn figures(work: Option<&Earthwork>, base_is_least: bool, say: Wording) -> Vec<Figure> {
    let dug = work.and_then(|work| work.dig_bank.as_ref());
    let dug_is_least = work.is_some_and(|work| work.is_least);
    let area = |of: fn(&Earthwork) -> Area| say.area(work.map(of));
    let volume = |of: fn(&Earthwork) -> Volume| say.volume(work.map(of));
    let dug_volume = |of: fn(&Dug) -> Volume| say.volume(dug.map(of));
    vec![
        figure(
            "field_area",
            "Field between the edge bricks",
            area(|work| work.field_area),
        ),
        figure(
            "paved_area",
            "Field and edge bricks",
            area(|work| work.paved_area),
        ),
        figure("dig_area", "Dig in plan", area(|work| work.dig_area)),
        figure(
            "dug",
            "Dug in all, in place",
            dug_volume(|dug| dug.old_pavement + dug.unsuitable + dug.trim),
        )
        .at_least(dug_is_least),
        figure(
            "old_pavement_lifted",
            "Old brick lifted, in place",
            dug_volume(|dug| dug.old_pavement),
        ),
        figure(
            "unsuitable_ground",
            "Ground that must come out, in place",
            dug_volume(|dug| dug.unsuitable),
        )
        .at_least(dug_is_least),
        figure(
            "trim",
            "Good ground dug away, in place",
            dug_volume(|dug| dug.trim),
        ),
        figure(
            "spoil_loose",
            "Spoil to take away, loose",
            dug_volume(|dug| dug.spoil_loose),
        )
        .at_least(dug_is_least),
        figure(
            "spoil_mass",
            "Spoil to take away",
            say.mass(dug.map(|dug| dug.spoil_mass)),
        )
        .at_least(dug_is_least),
        figure(
            "fill_below_dig",
            "Fill where the old surface lies below the dig",
            fill_below_dig(work, dug, say),
        ),
        figure(
            "base_compacted",
            "Base in place, compacted",
            volume(|work| work.base_compacted),
        )
        .at_least(base_is_least),
        figure(
            "base_loose",
            "Base to order, loose",
            volume(|work| work.base_loose),
        )
        .at_least(base_is_least),
        figure(
            "base_mass",
            "Base to order, dry",
            say.mass(work.map(|work| work.base_mass)),
        )
        .at_least(base_is_least),
        figure(
            "setting_bed_compacted",
            "Setting bed in place, compacted",
            volume(|work| work.setting_bed_compacted),
        ),
    ]
}

/// Not known without a reading of the old surface.
fn fill_below_dig(work: Option<&Earthwork>, dug: Option<&Dug>, say: Wording) -> Measure {
    say.volume(
        work.filter(|_| dug.is_some())
            .map(|work| work.fill_below_dig),
    )
}

fn figure(key: &str, name: &str, measure: Measure) -> Figure {
    Figure::new(Group::Quantities, key, name, measure)
}
