//! What to do about a reading that is off: one sentence, with how much and over which length.

use super::asked::spacing;
use super::check::{ReadingFound, Verdict};
use super::flat;
use super::readings::{ROUNDING_M, same_spot};
use super::surface::Surface;
use crate::line::Line;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// Writes the advice of every reading that is off.
pub(super) fn advise(site: &Site, line: &Line, found: &mut [ReadingFound]) {
    let advice: Vec<String> = found
        .iter()
        .map(|reading| advice(site, line, found, reading))
        .collect();
    for (reading, advice) in found.iter_mut().zip(advice) {
        reading.advice = advice;
    }
}

fn advice(site: &Site, line: &Line, found: &[ReadingFound], reading: &ReadingFound) -> String {
    let Some(off) = reading.off else {
        return String::new();
    };
    if matches!(reading.verdict, Verdict::Right | Verdict::NotKnown) {
        return String::new();
    }
    if reading.is_questioned {
        return "Read it again before anything is moved.".to_owned();
    }
    let amount = site.shown_in.thickness(off.abs());
    let over = over_words(site, line, found, reading);
    let is_high = reading.verdict == Verdict::High;
    let sentence = what_to_do(reading.surface, is_high, &amount, &over);
    let other = reading.uneven_with.and_then(|other_idx| {
        found
            .iter()
            .find(|other| other.reading_idx == other_idx)
            .and_then(|other| Some((other, other.off?)))
    });
    match other {
        Some((other, other_off)) => format!(
            "{} off the line from {}, more than {} over {}: {}",
            site.shown_in.thickness((off - other_off).abs()),
            site.shown_in.along(other.station),
            site.shown_in.thickness(flat::most()),
            site.shown_in.along(flat::over()),
            begun_small(&sentence)
        ),
        None => sentence,
    }
}

fn what_to_do(surface: Surface, is_high: bool, amount: &str, over: &str) -> String {
    match (surface, is_high) {
        (Surface::DigBottom, true) => {
            format!("Dig off {amount} over {over}, compact, then read again.")
        }
        (Surface::DigBottom, false) => {
            format!(
                "Fill {amount} over {over} with base, not with what was dug, compact, then read again."
            )
        }
        (Surface::LiftTop(_), true) => {
            format!("Take off {amount} over {over}, compact, then read again.")
        }
        (Surface::LiftTop(_), false) => {
            format!("Loosen the top, fill {amount} over {over} and compact, then read again.")
        }
        (Surface::FormTop, true) => {
            format!("Tap the form down {amount}, sight along it over {over}, then read again.")
        }
        (Surface::FormTop, false) => {
            format!(
                "Raise the form {amount}, screw it to its stakes, sight along it over {over}, then read again."
            )
        }
        (Surface::EdgeTop, true) => {
            format!("Tap the edge brick down {amount} over {over}, then read again.")
        }
        (Surface::EdgeTop, false) => {
            format!("Lift the edge brick over {over}, bed it {amount} higher, then read again.")
        }
        (Surface::SettingBed, true) => {
            format!("Screed off {amount} over {over}, then read again.")
        }
        (Surface::SettingBed, false) => {
            format!(
                "Fill {amount} over {over}, screed again without treading on it, then read again."
            )
        }
        (Surface::BrickTop, true) => format!(
            "Tap the brick down {amount} over {over}; where it does not go, lift it and screed the bed lower, then read again."
        ),
        (Surface::BrickTop, false) => {
            format!(
                "Lift the brick over {over}, screed the bed {amount} higher, lay and tap it down, then read again."
            )
        }
    }
}

/// From the reading on to the next one of its surface; without one as far as the next stake is, and not past the far end. At the far
/// end the same, backwards.
fn over_words(site: &Site, line: &Line, found: &[ReadingFound], reading: &ReadingFound) -> String {
    let end = line.run.length();
    let here = metres(in_metres(reading.station).clamp(0.0, in_metres(end)));
    let others = found.iter().filter(|other| {
        other.surface == reading.surface
            && !other.is_read_again
            && (other.station - here).abs() > same_spot()
    });
    let away = |is_on: bool| {
        others
            .clone()
            .map(|other| {
                if is_on {
                    other.station - here
                } else {
                    here - other.station
                }
            })
            .filter(|away| *away > metres(ROUNDING_M))
            .reduce(Length::min)
            .unwrap_or_else(|| spacing(site))
    };
    let on = away(true).min(end - here);
    if on > same_spot() {
        format!("the next {}", site.shown_in.along(on))
    } else {
        format!("the last {}", site.shown_in.along(away(false).min(here)))
    }
}

/// A sentence that goes on after a colon.
fn begun_small(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
