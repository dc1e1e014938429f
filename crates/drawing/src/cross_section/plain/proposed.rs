//! The walk as it will be, step by step from the ground up.

use super::super::cut::across_span;
use super::super::{Cut, Frame, ground};
use super::{Part, found, way};
use crate::draft::{Draft, GRADE, HAIRLINE, solid};
use crate::item::Point;
use crate::material;
use crate::palette::Ink;
use underbrick_calc::ground::Verdict;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// What is there once `done` is done; nothing but the ground where that is `None`.
pub(super) fn draw(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame, done: Option<Part>) {
    let is_done = |part: Part| Some(part) <= done;
    if way(cut).digs() {
        ground::undisturbed(draft, cut, frame);
        let up_to = match done {
            Some(Part::Lift(number)) => number,
            Some(Part::Dug) | None => 0,
            Some(Part::Edge | Part::SettingBed | Part::Brick) => usize::MAX,
        };
        super::super::lifts(draft, cut, up_to);
    } else {
        old_base(draft, cut, frame);
    }
    if is_done(Part::Edge) {
        super::super::trenches(draft, cut);
        ground::backfill(draft, cut);
    }
    if is_done(Part::SettingBed) {
        super::super::setting_bed(draft, cut);
        under_the_edge(draft, cut);
    }
    if is_done(Part::Brick) {
        super::super::bricks(draft, cut);
    }
    if is_done(Part::Edge) {
        for edge in &cut.section.edges {
            super::super::haunch(draft, edge);
            super::super::edge_brick(draft, edge);
        }
    }
    if way(cut).digs() {
        ground::dig_bottom(draft, cut);
    }
    found::surface_today(draft, cut, frame);
    if is_done(Part::Brick) {
        let (left, right) = cut.outer_faces();
        let top = [left, right].map(|x| Point {
            x,
            y: cut.grade_at(x),
        });
        draft.line(
            top.to_vec(),
            solid(Ink::Line, GRADE),
            Some(Place::GradeLine),
        );
    }
}

/// The sand under an edge brick that stands higher than the stone.
fn under_the_edge(draft: &mut Draft, cut: &Cut<'_>) {
    for edge in &cut.section.edges {
        let (left, right) = across_span(&edge.brick);
        let depth = in_metres(cut.edge_brick.depth);
        let corner = |x: f64, y: f64| Point { x, y };
        let outline = [
            corner(left, cut.grade_at(left) - depth),
            corner(right, cut.grade_at(right) - depth),
            corner(right, cut.base_top_at(right)),
            corner(left, cut.base_top_at(left)),
        ];
        let [upper, _, _, lower] = outline;
        if upper.y - lower.y > 1e-4 {
            draft.material(
                &outline,
                material::SETTING_BED,
                None,
                Some(Place::SettingBed),
            );
        }
    }
}

/// The ground as it is once the old brick is up: what lies under it stays, hollows are filled with the sand of the bed.
fn old_base(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = found::ends(draft, frame);
    let (outer_left, outer_right) = cut.outer_faces();
    let bottom = draft.point((0.0, frame.bottom)).y;
    let brick = cut
        .nearest_pit
        .map_or(in_metres(cut.unit_thickness), |pit| {
            let lifted = pit
                .layers
                .iter()
                .filter(|layer| layer.verdict == Verdict::Lifted);
            lifted
                .filter_map(|layer| Some(in_metres(layer.top - layer.bottom?)))
                .sum()
        });
    let mut outline = found::along_surface(cut, left, outer_left, 0.0);
    outline.extend(found::along_surface(cut, outer_left, outer_right, brick));
    outline.extend(found::along_surface(cut, outer_right, right, 0.0));
    outline.push(Point {
        x: right,
        y: bottom,
    });
    outline.push(Point { x: left, y: bottom });
    draft.material(&outline, material::GROUND, None, Some(Place::DigBottom));
    found::layers(draft, cut, frame);
    // From the new bed down to where the old brick lay, where that is deeper.
    let (from, to) = cut.inner_faces();
    let mut hollow = vec![
        Point {
            x: from,
            y: cut.base_top_at(from),
        },
        Point {
            x: to,
            y: cut.base_top_at(to),
        },
    ];
    let mut under = found::along_surface(cut, from, to, brick);
    under.reverse();
    for corner in &mut under {
        corner.y = corner.y.min(cut.base_top_at(corner.x));
    }
    let is_hollow = under
        .iter()
        .any(|corner| cut.base_top_at(corner.x) - corner.y > 1e-4);
    hollow.extend(under);
    if is_hollow {
        let hairline = Some(solid(Ink::SecondInk, HAIRLINE));
        draft.material(
            &hollow,
            material::SETTING_BED,
            hairline,
            Some(Place::SettingBed),
        );
    }
    // What stood higher than the new bed goes: paper from the old surface down to it.
    let mut cut_away = found::along_surface(cut, outer_left, outer_right, 0.0);
    let mut floor: Vec<Point> = [outer_right, outer_left]
        .map(|x| Point {
            x,
            y: cut.base_top_at(x),
        })
        .to_vec();
    let stands_above = cut_away
        .iter()
        .any(|corner| corner.y - cut.base_top_at(corner.x) > 1e-4);
    if stands_above {
        for corner in &mut cut_away {
            corner.y = corner.y.max(cut.base_top_at(corner.x));
        }
        cut_away.append(&mut floor);
        draft.area(cut_away, Ink::Paper, None, None);
    }
}
