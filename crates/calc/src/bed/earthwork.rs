//! Volumes, exact for the flat facets that the readings give, curves included.

use super::dig::{Dig, Facet, Reach, grade_plane};
use super::edges::Edge;
use super::lifts::gross_base_m3;
use super::patch::{OFFSET, Patch, PlanSpot, Plane};
use super::spoil::Spoil;
use super::wishes::Wishes;
use crate::catalogue::{BaseFigures, Catalogue};
use crate::ground::{Ground, PitFound, Verdict};
use crate::line::{Line, OldSurface};
use crate::quantity::{Area, Length, Mass, Volume, cubic_metres, in_metres, metres, square_metres};

/// What is lifted, dug, tipped and brought.
#[derive(Clone, Debug, PartialEq)]
pub struct Earthwork {
    /// Clear area between the edge bricks.
    pub field_area: Area,
    /// Field and edge bricks.
    pub paved_area: Area,
    /// The dig in plan.
    pub dig_area: Area,
    /// From the old surface to the bottom of the dig, in place; `None` without a reading of the old surface.
    pub dig_bank: Option<Dug>,
    /// Fill needed where the old surface lies below the bottom of the dig.
    pub fill_below_dig: Volume,
    /// Base in place, trench taken off.
    pub base_compacted: Volume,
    /// Base as delivered.
    pub base_loose: Volume,
    /// Base, dry, compacted.
    pub base_mass: Mass,
    /// Setting bed in place, compacted, between the edge bricks.
    pub setting_bed_compacted: Volume,
    /// Whether the bottom of what must come out was not found everywhere, or the old surface is not known everywhere along the run:
    /// then the dug amounts are the least.
    pub is_least: bool,
}

/// What comes out of the ground, kept apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dug {
    /// Old brick lifted, in place, over the width that is paved again: as thick as the pits show it, straight between them, or as
    /// the brick where they do not.
    pub old_pavement: Volume,
    /// Ground that must come out.
    pub unsuitable: Volume,
    /// Good ground dug away to make room, a trench that reaches below the dig among it.
    pub trim: Volume,
    /// Everything but the old brick, tipped.
    pub spoil_loose: Volume,
    /// Its mass.
    pub spoil_mass: Mass,
    /// Swell and density of [`Dug::unsuitable`].
    pub unsuitable_spoil: Spoil,
    /// Swell and density of [`Dug::trim`].
    pub trim_spoil: Spoil,
}

/// All volumes of a bed.
pub(super) fn earthwork(
    catalogue: &Catalogue,
    line: &Line,
    ground: &Ground,
    dig: &Dig,
    edge: &Edge,
    wishes: &Wishes,
    base: &BaseFigures,
) -> Earthwork {
    let area = |beyond_m: f64| {
        square_metres(
            dig.reaches()
                .iter()
                .map(|reach| reach.stretch.patch(beyond_m).area_m2())
                .sum(),
        )
    };
    let field_area = area(0.0);
    let trench = trench(dig, edge);
    let base_compacted = cubic_metres(gross_base_m3(dig) - trench.in_base_m3);
    let taken_out = taken_out(line, ground, dig, wishes);
    Earthwork {
        field_area,
        paved_area: area(in_metres(edge.brick.across)),
        dig_area: area(dig.beyond_m()),
        dig_bank: taken_out.map(|taken_out| dug(&taken_out, &trench, ground, catalogue)),
        fill_below_dig: cubic_metres(taken_out.map_or(0.0, |taken_out| taken_out.fill_m3)),
        base_compacted,
        base_loose: base_compacted * base.loose_to_compacted,
        base_mass: base_compacted * base.compacted_density,
        setting_bed_compacted: field_area * wishes.setting_bed,
        is_least: is_least(dig.reaches(), line, ground),
    }
}

fn dug(taken_out: &TakenOut, trench: &Trench, ground: &Ground, catalogue: &Catalogue) -> Dug {
    let trim_m3 = taken_out.trim_m3 + trench.below_dig_m3;
    let unsuitable_spoil = Spoil::met(ground, catalogue, Verdict::ComesOut);
    let trim_spoil = Spoil::met(ground, catalogue, Verdict::Stays);
    let (unsuitable, trim) = (cubic_metres(taken_out.unsuitable_m3), cubic_metres(trim_m3));
    Dug {
        old_pavement: cubic_metres(taken_out.old_pavement_m3),
        unsuitable,
        trim,
        spoil_loose: unsuitable_spoil.loose(unsuitable) + trim_spoil.loose(trim),
        spoil_mass: unsuitable_spoil.mass(unsuitable) + trim_spoil.mass(trim),
        unsuitable_spoil,
        trim_spoil,
    }
}

/// Trenches for the edge, split at the bottom of the dig.
#[derive(Clone, Copy, Debug, Default)]
struct Trench {
    in_base_m3: f64,
    below_dig_m3: f64,
}

fn trench(dig: &Dig, edge: &Edge) -> Trench {
    let depth = Plane::flat(in_metres(edge.trench_depth));
    let width = Plane::flat(in_metres(edge.trench_width));
    let mut trench = Trench::default();
    if depth.level <= 0.0 {
        return trench;
    }
    for (facet, reach) in with_reach(dig) {
        let inner = reach.stretch.half_clear;
        for outwards in [OFFSET, -OFFSET] {
            let strip = facet
                .patch
                .clipped(outwards - inner)
                .clipped(inner + width - outwards);
            let below_m3 = strip.volume_above_m3(depth - facet.thickness);
            trench.below_dig_m3 += below_m3;
            trench.in_base_m3 += strip.volume_m3(depth) - below_m3;
        }
    }
    trench
}

/// Volumes between the old surface and the bottom of the dig, in place.
#[derive(Clone, Copy, Debug, Default)]
struct TakenOut {
    old_pavement_m3: f64,
    unsuitable_m3: f64,
    trim_m3: f64,
    fill_m3: f64,
}

fn taken_out(line: &Line, ground: &Ground, dig: &Dig, wishes: &Wishes) -> Option<TakenOut> {
    line.old_surface.at(metres(0.0), metres(0.0))?;
    let edge_across = Plane::flat(in_metres(wishes.edge_brick.across));
    let mut sum = TakenOut::default();
    for facets in dig
        .facets()
        .chunk_by(|one, other| one.reach_idx == other.reach_idx)
    {
        let Some(reach) = facets
            .first()
            .and_then(|facet| dig.reaches().get(facet.reach_idx))
        else {
            continue;
        };
        let base_top = grade_plane(&line.grade, &reach.stretch)
            - Plane::flat(in_metres(wishes.base_top_below_grade()));
        let unsuitable_bottom = reach.to_unsuitable_bottom.map(|depth| base_top - depth);
        let pavement = reach
            .stretch
            .linear(|station_m| old_pavement_m(ground, wishes.brick_thickness, station_m));
        let paved = reach.stretch.half_clear + edge_across;
        let folds = folds(reach, &line.old_surface);
        for facet in facets {
            let bottom = base_top - facet.thickness;
            for patch in folded(&facet.patch, &folds) {
                let surface = patch.plane_of(|spot| level_m(&line.old_surface, spot));
                let inside = patch.clipped(paved - OFFSET).clipped(paved + OFFSET);
                sum.add(
                    &inside,
                    surface,
                    surface - pavement,
                    unsuitable_bottom,
                    bottom,
                );
                for outside in [
                    patch.clipped(OFFSET - paved),
                    patch.clipped(-OFFSET - paved),
                ] {
                    sum.add(&outside, surface, surface, unsuitable_bottom, bottom);
                }
            }
        }
    }
    Some(sum)
}

impl TakenOut {
    /// Adds the column of ground over one patch: the old pavement from `surface` down to `ground_top`, what must come out down to
    /// `unsuitable_bottom`, and good ground down to `bottom`; each as far as it lies above `bottom`.
    fn add(
        &mut self,
        patch: &Patch,
        surface: Plane,
        ground_top: Plane,
        unsuitable_bottom: Option<Plane>,
        bottom: Plane,
    ) {
        if patch.is_empty() {
            return;
        }
        let below_pavement_m3 = patch.volume_above_m3(ground_top - bottom);
        let trim_m3 = match unsuitable_bottom {
            None => below_pavement_m3,
            // Good ground starts at the lower of the two.
            Some(unsuitable_bottom) => {
                let [none_unsuitable, some_unsuitable] =
                    patch.parted(unsuitable_bottom - ground_top);
                none_unsuitable.volume_above_m3(ground_top - bottom)
                    + some_unsuitable.volume_above_m3(unsuitable_bottom - bottom)
            }
        };
        self.old_pavement_m3 += patch.volume_above_m3(surface - bottom) - below_pavement_m3;
        self.unsuitable_m3 += below_pavement_m3 - trim_m3;
        self.trim_m3 += trim_m3;
        self.fill_m3 += patch.volume_above_m3(bottom - surface);
    }
}

fn with_reach(dig: &Dig) -> impl Iterator<Item = (&Facet, &Reach)> {
    dig.facets()
        .iter()
        .filter_map(|facet| Some((facet, dig.reaches().get(facet.reach_idx)?)))
}

/// The folds of the old surface over a stretch, each as the plane that is zero along it.
fn folds(reach: &Reach, surface: &OldSurface) -> Vec<Plane> {
    let (from, to) = (metres(reach.stretch.from_m), metres(reach.stretch.to_m));
    let across = surface
        .offsets_between(from, to)
        .into_iter()
        .map(|offset| OFFSET - Plane::flat(in_metres(offset)));
    let slanting = surface
        .folds_between(from, to)
        .into_iter()
        .map(|(near, far)| Plane::beside(PlanSpot::of(near), PlanSpot::of(far)));
    across.chain(slanting).collect()
}

/// The patch, cut along every fold that crosses it.
fn folded(patch: &Patch, folds: &[Plane]) -> Vec<Patch> {
    let mut patches = vec![patch.clone()];
    for fold in folds {
        let mut parts = Vec::with_capacity(patches.len() + 1);
        for patch in patches {
            match patch.range(*fold) {
                Some((least, most)) if least < 0.0 && most > 0.0 => {
                    parts.extend(patch.parted(*fold));
                }
                _ => parts.push(patch),
            }
        }
        patches = parts;
    }
    patches.retain(|patch| !patch.is_empty());
    patches
}

fn level_m(surface: &OldSurface, spot: PlanSpot) -> f64 {
    surface
        .at(metres(spot.station_m), metres(spot.offset_m))
        .map_or(0.0, |found| in_metres(found.level))
}

/// Thickness of the old pavement at a station: straight between the pits that show it, the same beyond the first and the last.
fn old_pavement_m(ground: &Ground, brick_thickness: Length, station_m: f64) -> f64 {
    let mut before: Option<(f64, f64)> = None;
    for (pit, thickness_m) in ground
        .pits
        .iter()
        .filter_map(|pit| Some((pit, shown_pavement_m(pit)?)))
    {
        let here = (in_metres(pit.station), thickness_m);
        if here.0 > station_m {
            let Some((before_m, at_before_m)) = before else {
                return thickness_m;
            };
            return at_before_m
                + (thickness_m - at_before_m) * (station_m - before_m) / (here.0 - before_m);
        }
        before = Some(here);
    }
    before.map_or(in_metres(brick_thickness), |(_, thickness_m)| thickness_m)
}

/// Thickness of the old pavement in one pit: from the surface to the bottom of its lowest lifted layer.
fn shown_pavement_m(pit: &PitFound) -> Option<f64> {
    let lowest = pit
        .layers
        .iter()
        .take_while(|layer| layer.verdict == Verdict::Lifted)
        .last()?;
    Some(in_metres(pit.top - lowest.bottom?).max(0.0))
}

fn is_least(reaches: &[Reach], line: &Line, ground: &Ground) -> bool {
    reaches.iter().any(|reach| {
        let middle = metres((reach.stretch.from_m + reach.stretch.to_m) / 2.0);
        let bottom_found = ground
            .unsuitable_bottom(middle)
            .is_some_and(|bottom| bottom.found);
        let surface_known = line
            .old_surface
            .at(middle, metres(0.0))
            .is_some_and(|surface| surface.known);
        !(bottom_found && surface_known)
    })
}
