//! The walk lengthwise, heights enlarged.

mod axes;
mod frame;
mod frost;
mod lengthwise;
mod marker;
mod names;
mod pits;
mod plain;
mod spots;
mod words;

#[cfg(test)]
pub(crate) use lengthwise::Bend;
pub(crate) use lengthwise::Lengthwise;
pub use plain::plain_lengthwise;

use crate::as_built;
use crate::cross_section::missing;
use crate::draft::{AS_FOUND, Draft, GRADE, HAIRLINE, OUTLINE, dashed, dotted, solid};
use crate::item::{Drawing, Point, Sheet};
use crate::material;
use crate::palette::Ink;
use crate::scale::Scales;
use frame::{Frame, MadeFor};
use underbrick_calc::Results;
use underbrick_calc::bed::AlongSpot;
use underbrick_calc::catalogue::{Catalogue, Hatch};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::Site;

/// A grade line falling from a sill, brick and base under it: no size is meant.
const GHOST: [missing::GhostLine; 3] = [
    &[(0.0, 0.08), (1.0, 0.42)],
    &[(0.0, 0.28), (1.0, 0.62)],
    &[(0.0, 0.08), (0.0, 0.78), (1.0, 0.94), (1.0, 0.42)],
];

/// A long section and how its picture answers a finger.
#[derive(Clone, Debug, PartialEq)]
pub struct LongSection {
    /// The drawing, with the marker at the station that was asked for.
    pub drawing: Drawing,
    /// Length of the run; `None` where it is not known and nothing can be dragged.
    pub run_length: Option<Length>,
}

impl LongSection {
    /// The station under a finger that is so many dots from the left edge of the sheet; past the ends of the run, that end.
    /// `None` where the run is not known.
    #[must_use]
    pub fn station_at(&self, x_dots: f64) -> Option<Length> {
        let run_m = in_metres(self.run_length?);
        let station_m = self.drawing.drawing_from_sheet(x_dots, 0.0).x;
        (station_m.is_finite() && run_m >= 0.0).then(|| metres(station_m.clamp(0.0, run_m)))
    }
}

/// Draws the long section on the centreline with the station marker at `marker`; a marker past the ends stands at that end.
///
/// Where the sheet is small, callouts are left out first (what is seen and why it failed, from the least on, then the fall, then the
/// old surface, then pits), then the names of the curves.
#[must_use]
pub fn long_section(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    marker: Length,
    sheet: Sheet,
) -> LongSection {
    let on = (sheet, MadeFor::Screen, Scales::ANY);
    made(site, catalogue, results, marker, on)
}

/// The long section on paper, or in a file: as [`long_section`], without the handle that only a finger needs.
#[must_use]
pub fn long_section_on_paper(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    marker: Length,
    sheet: Sheet,
) -> Drawing {
    let on = (sheet, MadeFor::Paper, Scales::ANY);
    made(site, catalogue, results, marker, on).drawing
}

/// As [`long_section_on_paper`], with lengths at the largest of `scales` that the sheet holds; heights are enlarged by a whole number.
/// A scale is in dots of the sheet for a metre on the ground. Where the sheet holds none of them it is drawn as large as it can be;
/// [`Drawing::dots_per_metre`] tells.
#[must_use]
pub fn long_section_to_scale(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    marker: Length,
    sheet: Sheet,
    scales: &[f64],
) -> Drawing {
    let on = (sheet, MadeFor::Paper, Scales(scales));
    made(site, catalogue, results, marker, on).drawing
}

fn made(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    marker: Length,
    (sheet, made_for, scales): (Sheet, MadeFor, Scales<'_>),
) -> LongSection {
    let sheet = sheet.usable();
    match Lengthwise::new(site, catalogue, results, marker) {
        Some(walk) => {
            let mut section = draw_for(&walk, sheet, made_for, scales);
            as_built::along(&mut section.drawing, results, site.shown_in);
            section
        }
        None => {
            let missing = missing::what_is_missing(site, results);
            LongSection {
                drawing: missing::statement("Long section not known yet", &missing, &GHOST, sheet),
                run_length: None,
            }
        }
    }
}

/// Draws a walk that is known, for a finger.
#[cfg(test)]
pub(crate) fn draw(walk: &Lengthwise<'_>, sheet: Sheet) -> LongSection {
    draw_for(walk, sheet, MadeFor::Screen, Scales::ANY)
}

/// Draws a walk that is known, on paper.
#[cfg(test)]
pub(crate) fn draw_on_paper(walk: &Lengthwise<'_>, sheet: Sheet) -> Drawing {
    draw_for(walk, sheet, MadeFor::Paper, Scales::ANY).drawing
}

fn draw_for(
    walk: &Lengthwise<'_>,
    sheet: Sheet,
    made_for: MadeFor,
    scales: Scales<'_>,
) -> LongSection {
    let frame = Frame::fit(walk, sheet, made_for, scales);
    let mut draft = frame.board(sheet);
    axes::grid(&mut draft, walk, &frame);
    built(&mut draft, walk, &frame);
    pits::columns(&mut draft, walk, &frame);
    frost::line(&mut draft, walk, &frame);
    as_found(&mut draft, walk, &frame);
    spots::marks(&mut draft, walk, &frame);
    let grade = spots_line(walk, &frame, |spot| Some(spot.grade));
    draft.line(grade, dashed(Ink::Line, GRADE), Some(Place::GradeLine));
    axes::fixed_points(&mut draft, walk, &frame);
    marker::line(&mut draft, walk, &frame);
    axes::stations(&mut draft, walk, &frame);
    names::draw(&mut draft, walk, &frame);
    marker::flag(&mut draft, walk, &frame);
    if made_for == MadeFor::Screen {
        marker::handle(&mut draft, walk, &frame);
    }
    let words = words::of(walk, &frame);
    LongSection {
        drawing: draft.finish(&words),
        run_length: Some(metres(walk.run_m)),
    }
}

/// What is to be built, and the ground under it.
fn built(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let floor = draft.point((0.0, frame.bottom)).y;
    let dig_bottom = spots_line(walk, frame, |spot| Some(spot.dig_bottom));
    let (Some(first), Some(last)) = (dig_bottom.first().copied(), dig_bottom.last().copied())
    else {
        return;
    };
    let mut ground = dig_bottom.clone();
    ground.push(Point {
        x: last.x,
        y: floor,
    });
    ground.push(Point {
        x: first.x,
        y: floor,
    });
    draft.material(&ground, material::GROUND, None, Some(Place::DigBottom));
    let base_hatch = material::hatch_of(walk.catalogue, &walk.site.bed.base_material, Hatch::Stone);
    for lift in &walk.along.lifts {
        for outline in &lift.outlines {
            let corners: Vec<Point> = outline
                .iter()
                .map(|(station, level)| frame.point(in_metres(*station), in_metres(*level)))
                .collect();
            draft.material(
                &corners,
                material::lift(lift.number, base_hatch),
                Some(solid(Ink::SecondInk, HAIRLINE)),
                Some(Place::Lift(lift.number)),
            );
        }
    }
    let bed = band(walk, frame, |spot| spot.brick_bottom, |spot| spot.base_top);
    draft.material(
        &bed,
        material::SETTING_BED,
        Some(solid(Ink::Ink, HAIRLINE)),
        Some(Place::SettingBed),
    );
    let brick = band(walk, frame, |spot| spot.grade, |spot| spot.brick_bottom);
    draft.material(
        &brick,
        material::BRICK,
        Some(solid(Ink::Ink, HAIRLINE)),
        Some(Place::BrickThickness),
    );
    let pen = if walk.pits.is_empty() {
        dashed(Ink::NotKnown, OUTLINE + 0.4)
    } else {
        solid(Ink::Ink, OUTLINE)
    };
    draft.line(dig_bottom, pen, Some(Place::DigBottom));
}

/// The old surface, and the bottom of what must come out: dotted where known, dashed where not.
fn as_found(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let unsuitable = |spot: &AlongSpot| {
        spot.unsuitable_bottom
            .map(|bottom| (bottom.level, bottom.found))
    };
    known_or_not(draft, walk, frame, unsuitable, Place::DigBottom);
    let old = |spot: &AlongSpot| spot.old_surface.map(|old| (old.level, old.known));
    known_or_not(draft, walk, frame, old, Place::OldSurface);
}

fn known_or_not(
    draft: &mut Draft,
    walk: &Lengthwise<'_>,
    frame: &Frame,
    level: impl Fn(&AlongSpot) -> Option<(Length, bool)>,
    place: Place,
) {
    let mut line: Vec<Point> = Vec::new();
    let mut line_is_known = true;
    let finish = |line: Vec<Point>, known: bool, draft: &mut Draft| {
        // Paper behind the dots lifts them off the hatch.
        draft.line(line.clone(), solid(Ink::Paper, AS_FOUND + 0.9), None);
        let pen = if known {
            dotted(Ink::NotKnown, AS_FOUND)
        } else {
            dashed(Ink::NotKnown, AS_FOUND)
        };
        draft.line(line, pen, Some(place));
    };
    for pair in walk.along.spots.windows(2) {
        let [from, to] = pair else { continue };
        let (Some((from_level, from_known)), Some((to_level, to_known))) = (level(from), level(to))
        else {
            continue;
        };
        let is_known = from_known && to_known;
        if is_known != line_is_known || line.is_empty() {
            finish(std::mem::take(&mut line), line_is_known, draft);
            line.push(frame.point(in_metres(from.station), in_metres(from_level)));
            line_is_known = is_known;
        }
        line.push(frame.point(in_metres(to.station), in_metres(to_level)));
    }
    finish(line, line_is_known, draft);
}

/// One level along the run, as points of the drawing.
fn spots_line(
    walk: &Lengthwise<'_>,
    frame: &Frame,
    level: impl Fn(&AlongSpot) -> Option<Length>,
) -> Vec<Point> {
    let spots = walk.along.spots.iter();
    spots
        .filter_map(|spot| {
            level(spot).map(|level| frame.point(in_metres(spot.station), in_metres(level)))
        })
        .collect()
}

/// The outline between two levels along the run.
fn band(
    walk: &Lengthwise<'_>,
    frame: &Frame,
    top: impl Fn(&AlongSpot) -> Length,
    bottom: impl Fn(&AlongSpot) -> Length,
) -> Vec<Point> {
    let mut outline = spots_line(walk, frame, |spot| Some(top(spot)));
    let mut below = spots_line(walk, frame, |spot| Some(bottom(spot)));
    below.reverse();
    outline.append(&mut below);
    outline
}
