//! What fills the joints.

use super::super::item::Item;
use super::super::need::{Figure, Need};
use super::bed::sand;
use super::bulk::{Compacted, tipped};
use super::draft::Draft;
use super::{Job, missing};
use crate::lay::{area_m2, openings};
use crate::place::Place;
use crate::quantity::{Area, square_metres};

/// Sand for every joint, as deep as its brick: those of the field by the brick's thickness, those of the edge by the edge brick's depth.
/// Its figures are taken as the setting bed's, but that it comes dry, in bags.
pub(super) fn jointing(job: &Job<'_>) -> Need {
    let draft = Draft::of(Item::Jointing).named("Jointing sand").from([
        Place::Joint,
        Place::BrickThickness,
        Place::EdgeStands,
    ]);
    let Some((_, figures)) = sand(job) else {
        return draft.misses("a sand for the joints in the catalogue");
    };
    let Some(lay) = job.lay() else {
        return draft.misses(missing::of_lay(job));
    };
    let figures = Compacted {
        moisture: None,
        ..figures
    };
    let left_free = left_free(job);
    let field = (lay.areas.joints - left_free).max(square_metres(0.0));
    let edge = lay.areas.edge_joints;
    let (field_depth, edge_depth) = (lay.wishes.brick_thickness, lay.wishes.edge_brick.depth);
    let mut draft = draft;
    if left_free > square_metres(0.0) {
        draft = draft
            .step(
                "not brick, between the edges",
                Figure::Area(lay.areas.joints),
            )
            .step("less openings", Figure::Area(left_free));
    }
    let (amount, steps) = tipped(
        field * field_depth + edge * edge_depth,
        &figures,
        job.offer(Item::Jointing, None),
    );
    draft
        .step("joints of the field", Figure::Area(field))
        .step("as deep as the brick", Figure::Length(field_depth))
        .step("joints of the edges", Figure::Area(edge))
        .step("as deep as the edge brick", Figure::Length(edge_depth))
        .steps(steps)
        .needs(amount)
}

/// Openings in plan: no brick and no joint.
fn left_free(job: &Job<'_>) -> Area {
    let Some(line) = job.found.line else {
        return square_metres(0.0);
    };
    let (openings, _) = openings(&line.run, &job.site.lay.openings);
    square_metres(
        openings
            .iter()
            .map(|opening| area_m2(&opening.outline).abs())
            .sum(),
    )
}
