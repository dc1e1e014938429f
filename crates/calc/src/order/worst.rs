//! The ground if its worst pit held everywhere.

use crate::ground::{Ground, PitFound, Verdict};
use crate::quantity::{Length, in_metres};
use crate::site::Site;

/// A tenth of a millimetre: pits that differ by less are alike.
const ALIKE_M: f64 = 1e-4;

/// The site with the layers of its worst pit in every pit; `None` where that changes nothing, as with a single pit.
///
/// The worst pit is the one in which what must come out reaches deepest below the surface there; of two as deep, the one that did not
/// find its bottom; of two alike, the one nearer the door. A pit in which the bottom was not found does not find it in the layers of
/// another: they end there with what must come out.
pub(crate) fn worst_site(site: &Site, ground: &Ground) -> Option<Site> {
    let worst = ground
        .pits
        .iter()
        .reduce(|one, other| if is_worse(other, one) { other } else { one })?;
    let depth = unsuitable_depth_m(worst);
    let is_shallower = |pit: &PitFound| unsuitable_depth_m(pit) < depth - ALIKE_M;
    if !ground.pits.iter().any(is_shallower) {
        return None;
    }
    let layers = &site.pits.get(worst.pit_idx)?.layers;
    let n_unsuitable = n_unsuitable(worst);
    let mut changed = site.clone();
    for pit in &ground.pits {
        let Some(written) = changed.pits.get_mut(pit.pit_idx) else {
            continue;
        };
        let n_layers = if pit.unsuitable_bottom.found {
            layers.len()
        } else {
            n_unsuitable
        };
        written.layers = layers.iter().take(n_layers).cloned().collect();
    }
    Some(changed)
}

fn is_worse(other: &PitFound, one: &PitFound) -> bool {
    let (other_m, one_m) = (unsuitable_depth_m(other), unsuitable_depth_m(one));
    if (other_m - one_m).abs() > ALIKE_M {
        return other_m > one_m;
    }
    one.unsuitable_bottom.found && !other.unsuitable_bottom.found
}

fn unsuitable_depth_m(pit: &PitFound) -> f64 {
    let depth: Length = pit.top - pit.unsuitable_bottom.level;
    in_metres(depth)
}

/// How many layers there are down to the bottom of what must come out; all of them where the bottom was not found.
fn n_unsuitable(pit: &PitFound) -> usize {
    if !pit.unsuitable_bottom.found {
        return pit.layers.len();
    }
    let lowest = pit
        .layers
        .iter()
        .rposition(|layer| layer.verdict != Verdict::Stays);
    lowest.map_or(0, |layer_idx| layer_idx + 1)
}
