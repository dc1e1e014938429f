//! The walk as found: old brick on whatever the nearest pit showed.

use super::super::{Cut, Frame};
use crate::draft::{AS_FOUND, Draft, HAIRLINE, OUTLINE, dashed, dotted, solid};
use crate::item::Point;
use crate::material;
use crate::palette::Ink;
use underbrick_calc::catalogue::Hatch;
use underbrick_calc::ground::Verdict;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// How far below the grade line what was found reaches, in metres: at most half as deep again as the section itself, so that one deep
/// pit does not make all else small.
pub(super) fn depth(cut: &Cut<'_>) -> f64 {
    const MOST: f64 = 1.5;
    let Some(pit) = cut.nearest_pit else {
        return 0.0;
    };
    let dug = in_metres(pit.top - pit.dug_to);
    let sunk = cut.old_at(0.0).map_or(0.0, |old| cut.grade_at(0.0) - old);
    (dug + sunk).min(MOST * cut.extent.below)
}

/// Ground, old brick, and the layers under it.
pub(super) fn draw(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    ground(draft, cut, frame);
    layers(draft, cut, frame);
    old_brick(draft, cut);
    surface(draft, cut, frame);
    seep(draft, cut, frame);
    new_line(draft, cut, frame);
}

/// All the ground in the picture, up to the old surface.
fn ground(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = ends(draft, frame);
    let bottom = draft.point((0.0, frame.bottom)).y;
    let mut outline = along_surface(cut, left, right, 0.0);
    outline.push(Point {
        x: right,
        y: bottom,
    });
    outline.push(Point { x: left, y: bottom });
    let place = Some(Place::DigBottom);
    draft.material(&outline, material::GROUND, None, place);
}

/// What the nearest pit showed, under the walk and as far down as the picture goes. What may stay looks like the ground beside it.
pub(super) fn layers(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = cut.outer_faces();
    let bottom_of_picture = draft.point((0.0, frame.bottom)).y;
    let Some(pit) = cut.nearest_pit else {
        unknown(draft, cut);
        return;
    };
    for (layer_idx, layer) in pit.layers.iter().enumerate() {
        if layer.verdict == Verdict::Lifted {
            continue;
        }
        let place = Some(Place::LayerMaterial(pit.pit_idx, layer_idx));
        let top = along_surface(cut, left, right, in_metres(pit.top - layer.top));
        let is_in_picture = top.iter().any(|corner| corner.y > bottom_of_picture);
        if !is_in_picture {
            continue;
        }
        let down = in_metres(pit.top - layer.bottom.unwrap_or(pit.dug_to));
        let mut outline = top;
        let mut under = if layer.bottom.is_none() {
            [left, right]
                .map(|x| Point {
                    x,
                    y: bottom_of_picture,
                })
                .to_vec()
        } else {
            along_surface(cut, left, right, down)
        };
        under.reverse();
        outline.extend(under);
        for corner in &mut outline {
            corner.y = corner.y.max(bottom_of_picture);
        }
        let hatch = material::hatch_of(cut.catalogue, &layer.material, Hatch::Earth);
        draft.material(
            &outline,
            material::layer(layer.verdict, hatch),
            Some(solid(Ink::Ink, HAIRLINE)),
            place,
        );
    }
}

/// Under the brick where nobody has dug: paper within a dashed line.
fn unknown(draft: &mut Draft, cut: &Cut<'_>) {
    let (left, right) = cut.outer_faces();
    let thickness = in_metres(cut.unit_thickness);
    let mut outline = along_surface(cut, left, right, thickness);
    let depth = thickness + in_metres(cut.setting_bed) + 0.1;
    let mut under = along_surface(cut, left, right, depth);
    under.reverse();
    outline.extend(under);
    let place = Some(Place::DigBottom);
    draft.area(outline.clone(), Ink::Paper, None, place);
    outline.extend(outline.first().copied());
    draft.line(outline, dashed(Ink::NotKnown, OUTLINE), place);
}

/// The old brick, each where the old surface holds it. None where the pit shows that there is none.
fn old_brick(draft: &mut Draft, cut: &Cut<'_>) {
    let lifted = cut.nearest_pit.map(|pit| {
        pit.layers
            .iter()
            .enumerate()
            .filter(|(_, layer)| layer.verdict == Verdict::Lifted)
            .filter_map(|(layer_idx, layer)| {
                let thickness = in_metres(layer.top - layer.bottom?);
                Some((
                    in_metres(pit.top - layer.top),
                    thickness,
                    Place::LayerMaterial(pit.pit_idx, layer_idx),
                ))
            })
            .collect::<Vec<_>>()
    });
    let lifted =
        lifted.unwrap_or_else(|| vec![(0.0, in_metres(cut.unit_thickness), Place::BrickThickness)]);
    let outlines = cut.section.bricks.iter();
    let outlines = outlines.chain(cut.section.edges.iter().map(|edge| &edge.brick));
    let spans: Vec<(f64, f64)> = outlines
        .map(|outline| super::super::cut::across_span(outline))
        .collect();
    for (down, thickness, place) in lifted {
        for (left, right) in &spans {
            let corner = |x: f64, down: f64| Point {
                x,
                y: cut.ground_top_at(x) - down,
            };
            let outline = [
                corner(*left, down),
                corner(*right, down),
                corner(*right, down + thickness),
                corner(*left, down + thickness),
            ];
            draft.material(
                &outline,
                material::BRICK,
                Some(solid(Ink::Ink, HAIRLINE)),
                Some(place),
            );
        }
    }
}

/// The old surface beside the walk and over it.
fn surface(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = ends(draft, frame);
    let pen = if cut.section.old_surface_known {
        solid(Ink::NotKnown, AS_FOUND)
    } else {
        dashed(Ink::NotKnown, AS_FOUND)
    };
    let line = along_surface(cut, left, right, 0.0);
    draft.line(line, pen, Some(Place::OldSurface));
}

/// Water that came in, as a line of dots across the pit with a drop on it.
fn seep(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let Some((pit, seep)) = cut.nearest_pit.and_then(|pit| Some((pit, pit.seep?))) else {
        return;
    };
    let (left, right) = cut.outer_faces();
    let line = along_surface(cut, left, right, in_metres(pit.top - seep));
    if line.iter().any(|at| draft.dots(*at).1 > frame.bottom) {
        return;
    }
    let place = Some(Place::PitSeep(pit.pit_idx));
    draft.line(line.clone(), solid(Ink::Paper, AS_FOUND + 1.2), None);
    draft.line(line, dotted(Ink::Line, AS_FOUND), place);
}

/// Where the new surface will lie.
fn new_line(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = (frame.left - 4.0, frame.right + 4.0);
    let ends = [left, right].map(|x| {
        let x = draft.point((x, 0.0)).x;
        Point {
            x,
            y: cut.grade_at(x),
        }
    });
    draft.line(
        ends.to_vec(),
        dashed(Ink::Line, AS_FOUND),
        Some(Place::GradeLine),
    );
}

/// The surface where the walk lies today, over the section as it will be.
pub(super) fn surface_today(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    if cut.section.old_surface.is_empty() {
        return;
    }
    let (left, right) = ends(draft, frame);
    let line = along_surface(cut, left, right, 0.0);
    draft.line(line.clone(), solid(Ink::Paper, AS_FOUND + 0.9), None);
    let pen = if cut.section.old_surface_known {
        dotted(Ink::NotKnown, AS_FOUND)
    } else {
        dashed(Ink::NotKnown, AS_FOUND)
    };
    draft.line(line, pen, Some(Place::OldSurface));
}

/// Left and right end of the ground that is drawn, in metres.
pub(super) fn ends(draft: &Draft, frame: &Frame) -> (f64, f64) {
    (
        draft.point((frame.left, 0.0)).x,
        draft.point((frame.right, 0.0)).x,
    )
}

/// A line so far below the old surface, from one offset to another, with all its folds.
pub(super) fn along_surface(cut: &Cut<'_>, left: f64, right: f64, down: f64) -> Vec<Point> {
    let at = |x: f64| Point {
        x,
        y: cut.ground_top_at(x) - down,
    };
    let mut line = vec![at(left)];
    let folds = cut.section.old_surface.iter();
    let folds = folds.map(|spot| in_metres(spot.across));
    line.extend(
        folds
            .filter(|x| *x > left + 1e-6 && *x < right - 1e-6)
            .map(at),
    );
    line.push(at(right));
    line
}
