//! Rises as built: steps of one flight that are not alike trip people, each in its tolerance or not.

use super::check::{Asks, ReadingFound, Required, Verdict};
use super::readings::{ROUNDING_M, same_spot};
use super::surface::Surface;
use crate::line::Riser;
use crate::place::Place;
use crate::quantity::{Length, in_metres, inches, metres};
use crate::site::ShownIn;

/// Most that the rises of one flight may differ.
///
/// # Source
/// International Residential Code R311.7: 3/8 in.
fn most_spread() -> Length {
    inches(0.375)
}

/// One rise as built.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Rise {
    /// Counted from the door, from 1.
    number: usize,
    /// The reading of its head.
    head_idx: usize,
    rise: Length,
    /// More than it was to be.
    over: Length,
}

/// The check that the riser of that number fails, if it is the one that differs most from its design in a flight whose rises, as far as
/// both head and foot were read, differ by more than they may. The foot is the brick behind the riser, or else the head of the next
/// riser, as treads are level.
pub(super) fn uneven(
    shown_in: ShownIn,
    risers: &[Riser],
    readings: &[ReadingFound],
    number: usize,
) -> Option<Required> {
    let rises: Vec<Rise> = (1..=risers.len())
        .filter_map(|number| rise(risers, readings, number))
        .collect();
    let least = rises.iter().map(|rise| rise.rise).reduce(Length::min)?;
    let most = rises.iter().map(|rise| rise.rise).reduce(Length::max)?;
    let spread = most - least;
    if spread <= most_spread() + metres(ROUNDING_M) {
        return None;
    }
    let worst = rises.iter().copied().reduce(|one, other| {
        if other.over.abs() > one.over.abs() {
            other
        } else {
            one
        }
    })?;
    let riser = risers.get(number.checked_sub(1)?)?;
    (worst.number == number).then(|| Required {
        what: format!(
            "riser {number}, {} as built, in a flight whose rises differ by {}: no more than {}",
            shown_in.thickness(worst.rise),
            shown_in.thickness(spread),
            shown_in.thickness(most_spread())
        ),
        place: Place::BuildValue(worst.head_idx),
        verdict: if in_metres(worst.over) > 0.0 {
            Verdict::High
        } else {
            Verdict::Low
        },
        asks: Asks::Level {
            surface: Surface::EdgeTop,
            station: riser.station,
            offset: metres(0.0),
        },
    })
}

fn rise(risers: &[Riser], readings: &[ReadingFound], number: usize) -> Option<Rise> {
    let riser = risers.get(number.checked_sub(1)?)?;
    let head = head(riser, readings)?;
    let next = || {
        risers
            .get(number)
            .and_then(|next| self::head(next, readings))
    };
    let foot = foot(riser, head, readings).or_else(next)?;
    // Held against the design, so that the fall from the riser to where head and foot were read does not count.
    let over = head.off? - foot.off?;
    Some(Rise {
        number,
        head_idx: head.reading_idx,
        rise: riser.height + over,
        over,
    })
}

/// The reading of edge brick on top of a riser, away from the edges.
fn head<'a>(riser: &Riser, readings: &'a [ReadingFound]) -> Option<&'a ReadingFound> {
    at(riser, Surface::EdgeTop, readings).find(|reading| in_metres(reading.offset).abs() < 1e-3)
}

/// The reading of brick at the foot of a riser.
fn foot<'a>(
    riser: &Riser,
    head: &ReadingFound,
    readings: &'a [ReadingFound],
) -> Option<&'a ReadingFound> {
    let middle = head.design? - riser.height / 2.0;
    at(riser, Surface::BrickTop, readings)
        .find(|reading| reading.design.is_some_and(|design| design < middle))
}

fn at<'a>(
    riser: &Riser,
    surface: Surface,
    readings: &'a [ReadingFound],
) -> impl Iterator<Item = &'a ReadingFound> {
    let station = riser.station;
    readings.iter().filter(move |reading| {
        reading.surface == surface
            && !reading.is_read_again
            && reading.off.is_some()
            && (reading.station - station).abs() <= same_spot() + metres(ROUNDING_M)
    })
}
