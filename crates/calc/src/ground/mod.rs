//! The pits in levels, and the bottom of what must come out.

pub mod frost_depth;
mod layers;
mod penetrometer;
mod pits;
mod reports;
mod slopes;
pub mod soil;
mod strength;
pub mod symbol_strength;
#[cfg(test)]
mod tests;

pub use penetrometer::{DrivenLayer, Penetrometer, penetrometers};
pub use pits::{LayerFound, PitFound, Verdict};
pub use strength::{Category, Cbr, NoStrength, Relation, Strength, strength};

use crate::catalogue::Catalogue;
use crate::findings::Findings;
use crate::line::Line;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// What lies under the walk.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ground {
    /// Pits with a known station, in order along the run.
    pub pits: Vec<PitFound>,
}

/// The bottom of ground that must come out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnsuitableBottom {
    /// Above the datum, up positive.
    pub level: Length,
    /// Whether the pits on both sides reached it; if not this is the least depth.
    pub found: bool,
}

/// Pits nearer to the next than this along the run count as one station, in their middle; the deepest of them decides.
const SAME_STATION_M: f64 = 0.001;

impl Ground {
    /// Bottom of what must come out at a station: straight between pits, level beyond the first and the last. `None` without pits.
    ///
    /// It is the same over the whole width. Where several pits share a station the deepest decides, and all of them must have
    /// found the bottom.
    #[must_use]
    pub fn unsuitable_bottom(&self, station: Length) -> Option<UnsuitableBottom> {
        let (mut before, mut after) = (None, None);
        for (at, bottom) in self.bottoms() {
            if at <= station {
                before = Some((at, bottom));
            }
            if at >= station && after.is_none() {
                after = Some((at, bottom));
            }
        }
        match (before, after) {
            (Some((from, near)), Some((to, far))) if from < to => {
                let part = in_metres(station - from) / in_metres(to - from);
                let level = near.level * (1.0 - part) + far.level * part;
                Some(UnsuitableBottom {
                    level,
                    found: near.found && far.found,
                })
            }
            (Some((_, bottom)), _) | (None, Some((_, bottom))) => Some(bottom),
            (None, None) => None,
        }
    }

    /// Stations of the pits, in order, each once: between two that follow each other the bottom of what must come out is straight.
    #[must_use]
    pub fn station_breaks(&self) -> Vec<Length> {
        self.bottoms()
            .into_iter()
            .map(|(station, _)| station)
            .collect()
    }

    /// The bottom at every station that has a pit, in order.
    fn bottoms(&self) -> Vec<(Length, UnsuitableBottom)> {
        let groups = self
            .pits
            .chunk_by(|one, next| next.station - one.station <= metres(SAME_STATION_M));
        let bottom_of = |same: &[PitFound]| {
            let middle = (same.first()?.station + same.last()?.station) * 0.5;
            let bottoms = same.iter().map(|pit| pit.unsuitable_bottom);
            let deepest = bottoms.reduce(|one, other| UnsuitableBottom {
                level: if other.level < one.level {
                    other.level
                } else {
                    one.level
                },
                found: one.found && other.found,
            });
            Some((middle, deepest?))
        };
        groups.filter_map(bottom_of).collect()
    }
}

/// Puts the pits into levels and judges their layers.
///
/// A pit without a station, beyond the run, without layers or where no level of the old surface is known is named in the findings
/// and left out.
pub fn ground(site: &Site, catalogue: &Catalogue, line: &Line, findings: &mut Findings) -> Ground {
    let mut pits: Vec<PitFound> = (0..site.pits.len())
        .filter_map(|pit_idx| pits::pit_found(site, catalogue, line, pit_idx, findings))
        .collect();
    pits.sort_by(|one, other| in_metres(one.station).total_cmp(&in_metres(other.station)));
    reports::report(site, catalogue, &pits, findings);
    Ground { pits }
}
