//! What is named over a long section: pits, the grade line, the old surface, and what is not known.

use super::frame::Frame;
use super::{Lengthwise, frost, pits, spots};
use crate::callouts::{self, Callout};
use crate::draft::Draft;
use crate::palette::Ink;
use crate::wording;
use underbrick_calc::bed::AlongSpot;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres};

pub(super) fn draw(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let mut said = said(walk, frame);
    said.extend(spots::callouts(walk, frame));
    callouts::draw(draft, said, frame.callouts);
}

fn said(walk: &Lengthwise<'_>, frame: &Frame) -> Vec<Callout> {
    let shown_in = walk.site.shown_in;
    let mut all = Vec::new();
    for pit in walk
        .pits
        .iter()
        .filter(|pit| pits::is_on_the_run(walk, pit))
    {
        let (x, y) = frame.dots(in_metres(pit.station), in_metres(pit.top));
        let seep = pit
            .seep
            .map(|seep| format!("seep {} down", shown_in.length(pit.top - seep)));
        let note = walk
            .strength_words(pit.pit_idx)
            .into_iter()
            .chain(seep)
            .collect::<Vec<_>>()
            .join(", ");
        all.push(Callout {
            title: format!("pit {}", pit.pit_idx + 1),
            note,
            ink: Ink::Ink,
            place: Some(Place::Pit(pit.pit_idx)),
            along: vec![(x, y + 4.0)],
            rank: 1,
            again: false,
        });
    }
    if walk.pits.is_empty() {
        all.push(Callout {
            title: "no pit: depth not known".to_owned(),
            note: "the least base is drawn".to_owned(),
            ink: Ink::NotKnown,
            place: Some(Place::DigBottom),
            along: along(walk, frame, (0.45, 0.75), |spot| Some(spot.dig_bottom)),
            rank: 0,
            again: false,
        });
    } else if walk
        .along
        .spots
        .iter()
        .any(|spot| spot.unsuitable_bottom.is_some_and(|bottom| !bottom.found))
    {
        let bottom = |spot: &AlongSpot| spot.unsuitable_bottom.map(|bottom| bottom.level);
        let is_found = |spot: &AlongSpot| spot.unsuitable_bottom.is_some_and(|bottom| bottom.found);
        all.push(Callout {
            title: "bottom not found".to_owned(),
            note: "at least so deep".to_owned(),
            ink: Ink::NotKnown,
            place: Some(Place::DigBottom),
            along: longest(walk, frame, bottom, |from, to| {
                !(is_found(from) && is_found(to))
            }),
            rank: 2,
            again: false,
        });
    }
    all.push(Callout {
        title: "grade line".to_owned(),
        note: wording::fall(walk.fall, shown_in),
        ink: Ink::Line,
        place: Some(Place::GradeLine),
        along: along(walk, frame, (0.06, 0.4), |spot| Some(spot.grade)),
        rank: 4,
        again: false,
    });
    if let (Some(first), Some(last)) = (walk.risers.first(), walk.risers.last()) {
        let middle = (in_metres(first.station) + in_metres(last.station)) / 2.0;
        let level = |spot: &AlongSpot| Some(spot.grade);
        let tread = walk
            .level_at(middle, level)
            .map(|level| frame.dots(middle, level));
        all.push(Callout {
            title: wording::counted(walk.risers.len(), "riser"),
            note: format!("{} each", shown_in.thickness(first.height)),
            ink: Ink::Ink,
            place: Some(Place::StepsAt),
            along: tread.into_iter().collect(),
            rank: 2,
            again: false,
        });
    }
    let old = |spot: &AlongSpot| spot.old_surface.map(|old| old.level);
    let is_known = |from: &AlongSpot, to: &AlongSpot| {
        [from, to]
            .iter()
            .all(|spot| spot.old_surface.is_some_and(|old| old.known))
    };
    all.extend(frost::name(walk, frame));
    all.push(as_found(
        "as found",
        "",
        Place::OldSurface,
        longest(walk, frame, old, is_known),
    ));
    all.push(as_found(
        "not measured",
        "held level",
        Place::OldSurface,
        longest(walk, frame, old, |from, to| !is_known(from, to)),
    ));
    all
}

fn as_found(title: &str, note: &str, place: Place, along: Vec<(f64, f64)>) -> Callout {
    Callout {
        title: title.to_owned(),
        note: note.to_owned(),
        ink: Ink::NotKnown,
        place: Some(place),
        along,
        rank: 3,
        again: false,
    }
}

/// Where a level is known between two shares of the run, in dots.
fn along(
    walk: &Lengthwise<'_>,
    frame: &Frame,
    (from, to): (f64, f64),
    level: impl Fn(&AlongSpot) -> Option<Length>,
) -> Vec<(f64, f64)> {
    (0..=12)
        .filter_map(|nth| {
            let station = walk.run_m * (from + (to - from) * f64::from(nth) / 12.0);
            walk.level_at(station, &level)
                .map(|level| frame.dots(station, level))
        })
        .collect()
}

/// The longest unbroken part of the run where there is a level and its spots are such, without its ends, in dots.
fn longest(
    walk: &Lengthwise<'_>,
    frame: &Frame,
    level: impl Fn(&AlongSpot) -> Option<Length>,
    are_such: impl Fn(&AlongSpot, &AlongSpot) -> bool,
) -> Vec<(f64, f64)> {
    let mut best: (f64, f64) = (0.0, 0.0);
    let mut part: Option<(f64, f64)> = None;
    for pair in walk.along.spots.windows(2) {
        let [from, to] = pair else { continue };
        let (start, end) = (in_metres(from.station), in_metres(to.station));
        part = match (
            level(from).is_some() && level(to).is_some() && are_such(from, to),
            part,
        ) {
            (true, Some((first, _))) => Some((first, end)),
            (true, None) => Some((start, end)),
            (false, _) => None,
        };
        if let Some(part) = part
            && part.1 - part.0 > best.1 - best.0
        {
            best = part;
        }
    }
    if best.1 - best.0 <= 0.0 {
        return Vec::new();
    }
    let (from, to) = (best.0 / walk.run_m, best.1 / walk.run_m);
    along(
        walk,
        frame,
        (from + 0.3 * (to - from), from + 0.9 * (to - from)),
        level,
    )
}
