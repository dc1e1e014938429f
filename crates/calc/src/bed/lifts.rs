//! Lifts: how the base is filled, layer by layer, from the deepest place up.

use super::dig::Dig;
use super::patch::Plane;
use crate::catalogue::BaseFigures;
use crate::quantity::{Length, Volume, cubic_metres, metres};

/// The lifts of a base.
#[derive(Clone, Debug, PartialEq)]
pub struct Lifts {
    /// From the bottom.
    pub each: Vec<Lift>,
    /// Compacted thickness of a full lift.
    pub full_compacted: Length,
    /// Largest compacted thickness of a lift: the loose limit ÷ the ratio.
    pub compacted_limit: Length,
    /// Largest loose thickness that was asked for.
    pub loose_limit: Length,
    /// Loose ÷ compacted thickness of the base material.
    pub loose_to_compacted: f64,
    /// Thinnest partial lift that is placed by itself: 1.5 times the largest stone.
    pub thinnest_partial: Length,
}

/// One lift.
#[derive(Clone, Debug, PartialEq)]
pub struct Lift {
    /// Counted from the bottom, from 1.
    pub number: usize,
    /// Its top below a string on the grade line: the same everywhere, one mark on the tape.
    pub top_below_grade: Length,
    /// Thickest place of this lift, compacted; where a thin rest below it was merged into it, with that rest.
    pub compacted: Length,
    /// The same, as tipped.
    pub loose: Length,
    /// Where it runs, from station to station: wherever it is needed anywhere across.
    pub runs: Vec<(Length, Length)>,
    /// Compacted in place. Trenches for the edge are not taken off.
    pub compacted_volume: Volume,
    /// As delivered.
    pub loose_volume: Volume,
}

/// How thick a lift may be, loose and compacted, and how thin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LiftLimits {
    pub loose: Length,
    pub compacted: Length,
    pub thinnest_partial: Length,
    pub loose_to_compacted: f64,
}

impl LiftLimits {
    /// For a material, with that largest loose thickness.
    ///
    /// # Source
    /// A lift is at least 1.5 times its largest stone: common practice, no source.
    pub(super) fn new(loose: Length, base: &BaseFigures) -> Self {
        Self {
            loose,
            compacted: loose / base.loose_to_compacted,
            thinnest_partial: base.largest_stone * 1.5,
            loose_to_compacted: base.loose_to_compacted,
        }
    }
}

/// The lifts that fill a dig.
pub(super) fn lifts(dig: &Dig, limits: &LiftLimits, base_top_below_grade: Length) -> Lifts {
    let each = (1..=dig.rule().n_lifts())
        .map(|number| lift(dig, number, limits, base_top_below_grade))
        .collect();
    Lifts {
        each,
        full_compacted: metres(dig.rule().full_m()),
        compacted_limit: limits.compacted,
        loose_limit: limits.loose,
        loose_to_compacted: limits.loose_to_compacted,
        thinnest_partial: limits.thinnest_partial,
    }
}

fn lift(dig: &Dig, number: usize, limits: &LiftLimits, base_top_below_grade: Length) -> Lift {
    let rule = dig.rule();
    let mut volume_m3 = 0.0;
    let mut thickest_m = 0.0_f64;
    let mut stations_m = Vec::new();
    for facet in dig.facets() {
        let lowest = rule.lowest_number(facet.n_lifts);
        if number < lowest {
            continue;
        }
        let thickness = if number == lowest {
            facet.thickness - Plane::flat(rule.above_lowest_m(facet.n_lifts))
        } else {
            Plane::flat(rule.full_m())
        };
        volume_m3 += facet.patch.volume_m3(thickness);
        thickest_m = facet
            .patch
            .range(thickness)
            .map_or(thickest_m, |(_, most_m)| thickest_m.max(most_m));
        stations_m.extend(facet.patch.stations_m());
    }
    let compacted = metres(thickest_m);
    Lift {
        number,
        top_below_grade: base_top_below_grade + metres(rule.top_below_base_top_m(number)),
        compacted,
        loose: compacted * limits.loose_to_compacted,
        runs: joined(stations_m),
        compacted_volume: cubic_metres(volume_m3),
        loose_volume: cubic_metres(volume_m3) * limits.loose_to_compacted,
    }
}

/// Stretches along the run that touch or overlap as one, in order of station.
pub(super) fn joined(mut stations_m: Vec<(f64, f64)>) -> Vec<(Length, Length)> {
    /// A gap that no tape shows.
    const GAP_M: f64 = 1e-6;
    stations_m.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
    let mut runs: Vec<(f64, f64)> = Vec::new();
    for (from_m, to_m) in stations_m {
        match runs.last_mut() {
            Some(last) if from_m <= last.1 + GAP_M => last.1 = last.1.max(to_m),
            _ => runs.push((from_m, to_m)),
        }
    }
    runs.into_iter()
        .map(|(from_m, to_m)| (metres(from_m), metres(to_m)))
        .collect()
}

/// Whole base in place, before trenches are taken off.
pub(super) fn gross_base_m3(dig: &Dig) -> f64 {
    dig.facets()
        .iter()
        .map(|facet| facet.patch.volume_m3(facet.thickness))
        .sum()
}
