//! The ground round the section: undisturbed, put back, and as it was found.

use super::{Cut, Frame, points};
use crate::draft::{AS_FOUND, Draft, HAIRLINE, Lettering, OUTLINE, Sizes, dashed, dotted, solid};
use crate::item::{Anchor, Point};
use crate::material;
use crate::palette::Ink;
use crate::spread::{Wish, spread};
use crate::text::Text;
use underbrick_calc::catalogue::Hatch;
use underbrick_calc::ground::PitFound;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// Width of the pit's log, in dots.
const LOG: f64 = 18.0;

/// Undisturbed ground under and beside the dig.
pub(super) fn undisturbed(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (dig_left, dig_right) = cut.dig_sides();
    let (left, right) = (
        draft.point((frame.left, 0.0)).x,
        draft.point((frame.right, 0.0)).x,
    );
    let bottom = draft.point((0.0, frame.bottom)).y;
    let side = |x: f64| Point {
        x,
        y: cut.ground_top_at(x).max(cut.dig_bottom_at(x)),
    };
    let mut outline = vec![Point {
        x: left,
        y: cut.ground_top_at(left),
    }];
    outline.extend(old_between(cut, left, dig_left));
    outline.push(side(dig_left));
    outline.extend(points(&cut.section.dig_bottom));
    outline.push(side(dig_right));
    outline.extend(old_between(cut, dig_right, right));
    outline.push(Point {
        x: right,
        y: cut.ground_top_at(right),
    });
    outline.push(Point {
        x: right,
        y: bottom,
    });
    outline.push(Point { x: left, y: bottom });
    draft.material(&outline, material::GROUND, None, Some(Place::DigBottom));
}

/// Corners of the old surface strictly between two offsets.
fn old_between(cut: &Cut<'_>, from: f64, to: f64) -> Vec<Point> {
    let mut corners = points(&cut.section.old_surface);
    corners.retain(|corner| corner.x > from + 1e-6 && corner.x < to - 1e-6);
    corners
}

/// Ground put back between the edge brick and the side of the dig.
pub(super) fn backfill(draft: &mut Draft, cut: &Cut<'_>) {
    let (dig_left, dig_right) = cut.dig_sides();
    let (outer_left, outer_right) = cut.outer_faces();
    for (dig, outer) in [(dig_left, outer_left), (dig_right, outer_right)] {
        let base_top = cut.base_top_at(dig);
        let outline = [
            Point {
                x: dig,
                y: cut.ground_top_at(dig).max(base_top),
            },
            Point {
                x: outer,
                y: cut.grade_at(outer),
            },
            Point {
                x: outer,
                y: cut.base_top_at(outer),
            },
            Point {
                x: dig,
                y: base_top,
            },
        ];
        draft.material(
            &outline,
            material::BACKFILL,
            None,
            Some(Place::SideExtension),
        );
    }
}

/// The outline of the dig: dashed where no pit says how deep it must be.
pub(super) fn dig_bottom(draft: &mut Draft, cut: &Cut<'_>) {
    let (left, right) = cut.dig_sides();
    let mut outline = vec![Point {
        x: left,
        y: cut.ground_top_at(left).max(cut.dig_bottom_at(left)),
    }];
    outline.extend(points(&cut.section.dig_bottom));
    outline.push(Point {
        x: right,
        y: cut.ground_top_at(right).max(cut.dig_bottom_at(right)),
    });
    if cut.nearest_pit.is_none() {
        draft.line(
            outline,
            dashed(Ink::NotKnown, OUTLINE + 0.4),
            Some(Place::DigBottom),
        );
        return;
    }
    draft.line(outline, solid(Ink::Ink, OUTLINE), Some(Place::DigBottom));
    if cut.section.fabric {
        fabric(draft, cut);
    }
}

/// Fabric: a fine wave that lies on the bottom of the dig.
fn fabric(draft: &mut Draft, cut: &Cut<'_>) {
    let (left, right) = cut.dig_sides();
    let (from, _) = draft.dots(Point { x: left, y: 0.0 });
    let (to, _) = draft.dots(Point { x: right, y: 0.0 });
    let mut wave = Vec::new();
    let mut x = from + 3.0;
    let mut is_up = true;
    while x < to - 2.0 && wave.len() < 2000 {
        let across = draft.point((x, 0.0)).x;
        let (_, y) = draft.dots(Point {
            x: across,
            y: cut.dig_bottom_at(across),
        });
        wave.push((x, y - if is_up { 5.0 } else { 1.6 }));
        is_up = !is_up;
        x += 4.5;
    }
    draft.stroke(&wave, solid(Ink::Line, 1.3), Some(Place::Fabric));
}

/// The old surface, and the bottom of what must come out.
pub(super) fn as_found(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let (left, right) = (
        draft.point((frame.left, 0.0)).x,
        draft.point((frame.right, 0.0)).x,
    );
    if let (Some(at_left), Some(at_right)) = (cut.old_at(left), cut.old_at(right)) {
        let mut surface = vec![Point {
            x: left,
            y: at_left,
        }];
        surface.extend(old_between(cut, left, right));
        surface.push(Point {
            x: right,
            y: at_right,
        });
        let pen = if cut.section.old_surface_known {
            dotted(Ink::NotKnown, AS_FOUND)
        } else {
            dashed(Ink::NotKnown, AS_FOUND)
        };
        // Paper behind the dots lifts them off the hatch.
        draft.line(surface.clone(), solid(Ink::Paper, AS_FOUND + 0.9), None);
        draft.line(surface, pen, Some(Place::OldSurface));
    }
    if let Some(bottom) = cut.section.unsuitable_bottom {
        let level = in_metres(bottom.level);
        let (dig_left, dig_right) = cut.dig_sides();
        let (from, y) = draft.dots(Point {
            x: dig_left,
            y: level,
        });
        let (to, _) = draft.dots(Point {
            x: dig_right,
            y: level,
        });
        if y < frame.bottom {
            let pen = if bottom.found {
                dotted(Ink::NotKnown, AS_FOUND)
            } else {
                dashed(Ink::NotKnown, AS_FOUND)
            };
            draft.stroke(
                &[(from - 16.0, y), (to + 16.0, y)],
                pen,
                Some(Place::DigBottom),
            );
        }
    }
}

/// The nearest pit's layers, to scale, hung from the old surface here, with their names on paper at the left.
pub(super) fn pit_log(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let Some(pit) = cut.nearest_pit else { return };
    let (left, right) = log_span(frame);
    let hung = hung_by(draft, cut, frame, pit);
    let place = Some(Place::Pit(pit.pit_idx));
    let mut names = Vec::new();
    for layer in &pit.layers {
        let (_, top) = draft.dots(Point {
            x: 0.0,
            y: in_metres(layer.top) + hung,
        });
        let goes_on = layer.bottom.is_none();
        let (_, bottom) = draft.dots(Point {
            x: 0.0,
            y: in_metres(layer.bottom.unwrap_or(pit.dug_to)) + hung,
        });
        let (top, bottom) = (top.min(frame.bottom), bottom.min(frame.bottom));
        if bottom - top < 0.5 {
            continue;
        }
        let corners =
            [(left, top), (right, top), (right, bottom), (left, bottom)].map(|at| draft.point(at));
        let hatch = material::hatch_of(cut.catalogue, &layer.material, Hatch::Earth);
        draft.material(&corners, material::layer(layer.verdict, hatch), None, place);
        draft.stroke(
            &[(left, top), (left, bottom)],
            solid(Ink::Ink, HAIRLINE),
            place,
        );
        draft.stroke(
            &[(right, top), (right, bottom)],
            solid(Ink::Ink, HAIRLINE),
            place,
        );
        draft.stroke(
            &[(left, top), (right, top)],
            solid(Ink::Ink, HAIRLINE),
            place,
        );
        let pen = if goes_on {
            dashed(Ink::NotKnown, OUTLINE)
        } else {
            solid(Ink::Ink, HAIRLINE)
        };
        draft.stroke(&[(left, bottom), (right, bottom)], pen, place);
        names.push((f64::midpoint(top, bottom), layer_name(cut, layer)));
    }
    if let Some(seep) = pit.seep {
        let (_, y) = draft.dots(Point {
            x: 0.0,
            y: in_metres(seep) + hung,
        });
        if y < frame.bottom - 4.0 {
            draft.shape(
                &[
                    (right + 2.0, y),
                    (right + 12.0, y - 9.0),
                    (right + 12.0, y + 1.0),
                ],
                Ink::Line,
                None,
                Some(Place::PitSeep(pit.pit_idx)),
            );
            names.push((
                y,
                format!("seep {}", cut.site.shown_in.length(pit.top - seep)),
            ));
        }
    }
    if frame.detail.layer_names {
        layer_names(draft, frame, &mut names, place);
    }
}

fn layer_names(
    draft: &mut Draft,
    frame: &Frame,
    names: &mut [(f64, String)],
    place: Option<Place>,
) {
    let sizes = Sizes::on(draft.sheet());
    let (log_left, _) = log_span(frame);
    names.sort_by(|first, second| first.0.total_cmp(&second.0));
    let wishes: Vec<Wish> = names
        .iter()
        .map(|(y, _)| Wish {
            middle: *y,
            room: 1.15 * sizes.note,
        })
        .collect();
    let Some(middles) = spread(&wishes, frame.callouts.knee + 6.0, frame.bottom) else {
        return;
    };
    for ((y, name), middle) in names.iter().zip(middles) {
        draft.label(
            (frame.left - 12.0, middle),
            Lettering {
                text: Text::regular(name.clone()),
                size: sizes.note,
                ink: Ink::SecondInk,
                anchor: Anchor::Right,
                place,
            },
        );
        draft.stroke(
            &[
                (frame.left - 9.0, middle),
                (frame.left, *y),
                (log_left + 2.0, *y),
            ],
            solid(Ink::SecondInk, HAIRLINE),
            None,
        );
    }
}

/// A layer's name and thickness: `loam 3 1/2"`.
pub(super) fn layer_name(cut: &Cut<'_>, layer: &underbrick_calc::ground::LayerFound) -> String {
    let name = material::name_of(cut.catalogue, &layer.material);
    match layer.bottom {
        Some(bottom) => format!("{name} {}", cut.site.shown_in.length(layer.top - bottom)),
        None => format!("{name} on down"),
    }
}

/// Left and right side of the pit's log, in dots.
pub(super) fn log_span(frame: &Frame) -> (f64, f64) {
    (frame.left + 5.0, frame.left + 5.0 + LOG)
}

/// How far the pit is lifted so that its top lies in the old surface here, in metres.
pub(super) fn hung_by(draft: &Draft, cut: &Cut<'_>, frame: &Frame, pit: &PitFound) -> f64 {
    let (left, right) = log_span(frame);
    let across = draft.point((f64::midpoint(left, right), 0.0)).x;
    cut.ground_top_at(across) - in_metres(pit.top)
}
