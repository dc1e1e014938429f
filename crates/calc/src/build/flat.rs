//! Flatness between neighbouring readings: a surface may lie in its tolerance everywhere and still be wavy.

use super::check::{ReadingFound, Verdict};
use super::designed;
use super::readings::{ROUNDING_M, apart_m};
use super::surface::Surface;
use crate::bed::Bed;
use crate::line::Line;
use crate::quantity::{Length, feet, in_metres, inches};

/// Most that two readings of base top or brick may differ in how far they are off, when they lie within [`over`].
///
/// # Source
/// Interlocking Concrete Pavement Institute, construction tolerances and recommendations: 3/8 in over 10 ft, not cumulative.
pub(super) fn most() -> Length {
    inches(0.375)
}

/// Length over which flatness is judged: a straightedge of 10 ft. Source as [`most`].
pub(super) fn over() -> Length {
    feet(10.0)
}

/// Of two readings that are uneven with each other, the one farther from its design is high or low by this; both where they are as far
/// off. Readings on two sides of a riser are not compared, nor are those that were read again.
pub(super) fn check(line: &Line, bed: &Bed, found: &mut [ReadingFound]) {
    let risers: Vec<Length> = line
        .grade
        .risers()
        .into_iter()
        .map(|riser| riser.station)
        .collect();
    let uneven: Vec<Option<usize>> = found
        .iter()
        .map(|reading| {
            if !is_judged(bed, reading) {
                return None;
            }
            let worst = found
                .iter()
                .filter(|other| {
                    other.surface == reading.surface
                        && is_judged(bed, other)
                        && !is_riser_between(&risers, reading, other)
                        && apart_m(reading, other) <= in_metres(over()) + ROUNDING_M
                })
                .filter(|other| {
                    off_m(reading).abs() >= off_m(other).abs() - ROUNDING_M
                        && differ_m(reading, other) > in_metres(most()) + ROUNDING_M
                })
                // Of several that differ as much the nearest, then the first along the walk, then the leftmost: not the one read first.
                .max_by(|one, other| {
                    differ_m(reading, one)
                        .total_cmp(&differ_m(reading, other))
                        .then(apart_m(reading, other).total_cmp(&apart_m(reading, one)))
                        .then(in_metres(other.station).total_cmp(&in_metres(one.station)))
                        .then(in_metres(other.offset).total_cmp(&in_metres(one.offset)))
                });
            worst.map(|other| other.reading_idx)
        })
        .collect();
    for (reading, uneven_with) in found.iter_mut().zip(uneven) {
        reading.uneven_with = uneven_with;
        if uneven_with.is_some() && reading.verdict == Verdict::Right {
            reading.verdict = if off_m(reading) > 0.0 {
                Verdict::High
            } else {
                Verdict::Low
            };
        }
    }
}

fn is_judged(bed: &Bed, reading: &ReadingFound) -> bool {
    let is_flat_surface =
        reading.surface == Surface::BrickTop || designed::is_base_top(bed, reading.surface);
    is_flat_surface && !reading.is_read_again && reading.off.is_some()
}

fn off_m(reading: &ReadingFound) -> f64 {
    reading.off.map_or(0.0, in_metres)
}

fn differ_m(one: &ReadingFound, other: &ReadingFound) -> f64 {
    (off_m(one) - off_m(other)).abs()
}

fn is_riser_between(risers: &[Length], one: &ReadingFound, other: &ReadingFound) -> bool {
    let (near, far) = (
        one.station.min(other.station),
        one.station.max(other.station),
    );
    risers
        .iter()
        .any(|station| *station >= near && *station <= far)
}
