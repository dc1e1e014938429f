//! Edging strip and its spikes.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::draft::Draft;
use super::{Job, missing};
use crate::bed::Restraint;
use crate::defaults;
use crate::field::check_length;
use crate::place::Place;
use crate::site::RestraintInput;

/// Strip and spikes on both sides, where they hold the edge.
pub(super) fn edging(job: &Job<'_>) -> Vec<Need> {
    let RestraintInput::Spiked { spacing } = job.site.edge.restraint else {
        return Vec::new();
    };
    let given = spacing.and_then(|spacing| check_length(Place::SpikeSpacing, spacing).ok());
    let spacing = match given {
        Some(given) => Step::new("from spike to spike", Figure::Length(given)),
        None => Step::new(
            "from spike to spike",
            Figure::Length(defaults::spike_spacing()),
        )
        .from("not given: common practice, no source"),
    };
    let strip_draft = Draft::of(Item::EdgingStrip).from([Place::Restraint]);
    let spikes_draft = Draft::of(Item::EdgingSpike).from([Place::Restraint]);
    let Some(bed) = job.bed() else {
        let missing = missing::of_bed(job);
        return vec![
            strip_draft.misses(missing.clone()),
            spikes_draft.misses(missing),
        ];
    };
    let Restraint::Spiked { strip, n_spikes } = bed.edge.restraint else {
        return Vec::new();
    };
    let strip_step = Step::new("outer faces of both edges", Figure::Length(strip));
    vec![
        strip_draft
            .steps([strip_step.clone()])
            .needs(NeedAmount::Length(strip)),
        spikes_draft
            .steps([strip_step, spacing])
            .step(
                "spikes, one at each end of a side",
                Figure::Pieces(n_spikes),
            )
            .needs(NeedAmount::Pieces {
                n: n_spikes,
                each_covers: None,
                each_weighs: None,
            }),
    ]
}
