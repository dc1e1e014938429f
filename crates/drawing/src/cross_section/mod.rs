//! The cross-section at one station, to scale, dimensioned as the trade writes it.

mod cut;
mod frame;
mod ground;
pub(crate) mod missing;
mod names;
pub mod plain;
pub(crate) mod said;
mod sizes;
mod words;

pub(crate) use cut::Cut;
#[cfg(test)]
pub(crate) use cut::Extent;

use crate::as_built;
use crate::draft::{Draft, GRADE, HAIRLINE, OUTLINE, dashed, solid};
use crate::item::{Drawing, Point, Sheet};
use crate::material;
use crate::palette::Ink;
use crate::scale::Scales;
use crate::spotted::{self, Stands};
use frame::Frame;
use underbrick_calc::Results;
use underbrick_calc::bed::EdgeSlice;
use underbrick_calc::catalogue::{Catalogue, Hatch};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::Site;

/// Draws the cross-section at `station`, looking away from the door. A stage that has no results is drawn as missing, in words.
///
/// Where the sheet is small, things are left out in this order: the names of the pit's layers, the width of the dig, the second row
/// of callouts, the whole depth, the width over the edge brick, the parts of the depth, then clear width and callouts together.
/// Callouts go by rank: form board and backfill first, lifts and grade line last. [`Drawing::words`] always says it all.
#[must_use]
pub fn cross_section(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    sheet: Sheet,
) -> Drawing {
    made(site, catalogue, results, station, (sheet, Scales::ANY))
}

/// As [`cross_section`], at the largest of `scales` that the sheet holds, and no higher than it needs to be. A scale is in dots of the
/// sheet for a metre on the ground. Where the sheet holds none of them it is drawn as large as it can be; [`Drawing::dots_per_metre`]
/// tells.
#[must_use]
pub fn cross_section_to_scale(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    sheet: Sheet,
    scales: &[f64],
) -> Drawing {
    made(site, catalogue, results, station, (sheet, Scales(scales)))
}

fn made(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    (sheet, scales): (Sheet, Scales<'_>),
) -> Drawing {
    let sheet = sheet.usable();
    match Cut::new(site, catalogue, results, station) {
        Some(cut) => {
            let mut drawing = drawn(&cut, sheet, scales);
            as_built::across(&mut drawing, results, station, site.shown_in);
            drawing
        }
        None => missing::draw(site, results, sheet),
    }
}

/// Draws a cut that is known.
#[cfg(test)]
pub(crate) fn draw(cut: &Cut<'_>, sheet: Sheet) -> Drawing {
    drawn(cut, sheet, Scales::ANY)
}

/// Draws a cut that is known at one of some scales.
pub(crate) fn drawn(cut: &Cut<'_>, sheet: Sheet, scales: Scales<'_>) -> Drawing {
    let said = said::said(cut);
    let frame = Frame::fit(cut, &said, sheet, scales);
    let sheet = Sheet {
        height: sheet.height - frame.spare_height,
        ..sheet
    };
    let mut draft = frame.board(sheet);
    ground::undisturbed(&mut draft, cut, &frame);
    ground::pit_log(&mut draft, cut, &frame);
    built(&mut draft, cut);
    ground::as_found(&mut draft, cut, &frame);
    signs(&mut draft, cut, &frame);
    grade_line(&mut draft, cut, &frame);
    sizes::draw(&mut draft, cut, &frame);
    names::draw(&mut draft, cut, &frame, said);
    draft.finish(&words::of(cut))
}

/// What is to be built, from the bottom up.
fn built(draft: &mut Draft, cut: &Cut<'_>) {
    lifts(draft, cut, usize::MAX);
    trenches(draft, cut);
    ground::backfill(draft, cut);
    setting_bed(draft, cut);
    bricks(draft, cut);
    for edge in &cut.section.edges {
        haunch(draft, edge);
        let mut form = points(&edge.form);
        form.extend(form.first().copied());
        draft.line(form, dashed(Ink::Ink, HAIRLINE), Some(Place::Restraint));
        edge_brick(draft, edge);
    }
    ground::dig_bottom(draft, cut);
}

/// Lifts from the bottom up to one, counted from 1.
fn lifts(draft: &mut Draft, cut: &Cut<'_>, up_to: usize) {
    let base_hatch = material::hatch_of(cut.catalogue, &cut.site.bed.base_material, Hatch::Stone);
    let lifts = cut.section.lifts.iter();
    for lift in lifts.filter(|lift| lift.number <= up_to) {
        for each in &lift.outlines {
            draft.material(
                &points(each),
                material::lift(lift.number, base_hatch),
                Some(solid(Ink::SecondInk, HAIRLINE)),
                Some(Place::Lift(lift.number)),
            );
        }
    }
}

/// Trenches of a deep edge brick, filled again.
fn trenches(draft: &mut Draft, cut: &Cut<'_>) {
    for edge in &cut.section.edges {
        draft.material(
            &points(&edge.trench),
            material::BACKFILL,
            None,
            Some(Place::Restraint),
        );
    }
}

fn setting_bed(draft: &mut Draft, cut: &Cut<'_>) {
    draft.material(
        &points(&cut.section.setting_bed),
        material::SETTING_BED,
        Some(solid(Ink::Ink, HAIRLINE)),
        Some(Place::SettingBed),
    );
}

fn bricks(draft: &mut Draft, cut: &Cut<'_>) {
    for brick in &cut.section.bricks {
        draft.material(
            &points(brick),
            material::BRICK,
            Some(solid(Ink::Ink, HAIRLINE)),
            Some(Place::BrickThickness),
        );
    }
}

fn haunch(draft: &mut Draft, edge: &EdgeSlice) {
    if let Some(haunch) = &edge.haunch {
        draft.material(
            &points(haunch),
            material::CONCRETE,
            Some(solid(Ink::Ink, HAIRLINE)),
            Some(Place::Restraint),
        );
    }
}

fn edge_brick(draft: &mut Draft, edge: &EdgeSlice) {
    draft.material(
        &points(&edge.brick),
        material::BRICK,
        Some(solid(Ink::Ink, OUTLINE)),
        Some(Place::EdgeStands),
    );
}

/// The marks of what is seen near the cut.
fn signs(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    for spotted in &cut.spotted {
        let (Some(kind), Stands::Surface(offset_m)) = (spotted.mark, spotted.stands) else {
            continue;
        };
        let at = draft.dots(Point {
            x: offset_m,
            y: cut.ground_top_at(offset_m),
        });
        if at.0 > frame.left + 12.0 && at.0 < frame.right - 12.0 {
            spotted::paint(draft, kind, at, spotted.place);
        }
    }
}

fn grade_line(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = (frame.left - 6.0, frame.right + 4.0);
    let across = |x_dots: f64, draft: &Draft| draft.point((x_dots, 0.0)).x;
    let ends = [across(left, draft), across(right, draft)].map(|x| Point {
        x,
        y: cut.grade_at(x),
    });
    draft.line(
        ends.to_vec(),
        dashed(Ink::Line, GRADE),
        Some(Place::GradeLine),
    );
}

/// The outline of a part of the section, as points of the drawing.
pub(crate) fn points(spots: &[underbrick_calc::bed::Spot]) -> Vec<Point> {
    spots
        .iter()
        .map(|spot| Point {
            x: in_metres(spot.across),
            y: in_metres(spot.level),
        })
        .collect()
}
