//! What the pits showed.

use crate::figure::Measure;
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::ground::{Ground, LayerFound, PitFound, Verdict};

/// One pit that could be placed. Depths are below the old surface there.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PitRow {
    /// Counted from 1 in the order in which the pits were written down.
    pub number: usize,
    /// Along the run from the door.
    pub station: Measure,
    /// From the centreline, right positive.
    pub offset: Measure,
    /// Level of the old surface, up positive.
    pub old_surface: Measure,
    /// From the top down.
    pub layers: Vec<LayerRow>,
    /// Depth of the bottom of what must come out.
    pub unsuitable_bottom_depth: Measure,
    /// Whether the pit reached it; if not it is the least depth.
    pub unsuitable_bottom_is_found: bool,
    /// Depth at which water seeped in; `None` where none was seen.
    pub seep_depth: Option<Measure>,
}

/// One layer of a pit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LayerRow {
    /// Its key in the catalogue of materials.
    pub material: String,
    /// Depth of its upper face.
    pub from_depth: Measure,
    /// Depth of its lower face; `None` where it goes on down.
    pub to_depth: Option<Measure>,
    /// What becomes of it.
    pub verdict: &'static str,
}

/// The pits in order along the run.
pub(crate) fn pits(ground: &Ground, say: Wording) -> Vec<PitRow> {
    ground.pits.iter().map(|pit| pit_row(pit, say)).collect()
}

fn pit_row(pit: &PitFound, say: Wording) -> PitRow {
    PitRow {
        number: pit.pit_idx.saturating_add(1),
        station: say.station(Some(pit.station)),
        offset: say.offset(pit.offset),
        old_surface: say.level(pit.top),
        layers: pit
            .layers
            .iter()
            .map(|layer| layer_row(pit, layer, say))
            .collect(),
        unsuitable_bottom_depth: say.length(Some(pit.top - pit.unsuitable_bottom.level)),
        unsuitable_bottom_is_found: pit.unsuitable_bottom.found,
        seep_depth: pit.seep.map(|level| say.length(Some(pit.top - level))),
    }
}

fn layer_row(pit: &PitFound, layer: &LayerFound, say: Wording) -> LayerRow {
    LayerRow {
        material: layer.material.0.clone(),
        from_depth: say.length(Some(pit.top - layer.top)),
        to_depth: layer
            .bottom
            .map(|bottom| say.length(Some(pit.top - bottom))),
        verdict: match layer.verdict {
            Verdict::Lifted => "lifted and kept",
            Verdict::ComesOut => "comes out",
            Verdict::Stays => "may stay",
            Verdict::NotKnown => "not known",
        },
    }
}
