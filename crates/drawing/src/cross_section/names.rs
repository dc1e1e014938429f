//! Where the callouts of a cross-section stand, and what their leaders point at.

use super::frame::{Frame, MARGIN};
use super::said::{Said, What};
use super::{Cut, ground, points};
use crate::callouts::{self, Callout};
use crate::draft::{Draft, Sizes, width_of};
use crate::item::{Point, Sheet};
use crate::spotted::REACH;
use crate::text::Text;
use underbrick_calc::quantity::in_metres;

/// Rows of callouts that the cut can fill.
pub(super) fn rows_wanted(said: &[Said], sheet: Sheet, sizes: Sizes) -> usize {
    let widths = said
        .iter()
        .map(|said| callouts::width(&said.title, &said.note, sizes) + 16.0);
    if widths.sum::<f64>() <= sheet.width - 2.0 * MARGIN {
        1
    } else {
        2
    }
}

/// Width that the names of the pit's layers take at the left of the ground, in dots; 0 where they would take too much.
pub(super) fn layer_names_width(cut: &Cut<'_>, sheet: Sheet, sizes: Sizes) -> f64 {
    let Some(pit) = cut.nearest_pit else {
        return 0.0;
    };
    let seep = pit
        .seep
        .map(|seep| format!("seep {}", cut.site.shown_in.length(pit.top - seep)));
    let names = pit
        .layers
        .iter()
        .map(|layer| ground::layer_name(cut, layer))
        .chain(seep);
    let widest = names
        .map(|name| width_of(&Text::regular(name), sizes.note))
        .fold(0.0, f64::max);
    if widest + 14.0 > 0.24 * sheet.width {
        0.0
    } else {
        widest + 14.0
    }
}

/// Draws the callouts.
pub(super) fn draw(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame, said: Vec<Said>) {
    let callouts = said.into_iter().map(|said| Callout {
        along: along(said.what, draft, cut, frame),
        title: said.title,
        note: said.note,
        ink: said.ink,
        place: said.place,
        rank: said.rank,
        again: matches!(said.what, What::OnOldSurface(_) | What::InPit(_)),
    });
    let callouts = callouts.collect();
    callouts::draw(draft, callouts, frame.callouts);
}

/// Where a callout's leader may end, in dots; nothing where the thing is not in the picture.
fn along(what: What, draft: &Draft, cut: &Cut<'_>, frame: &Frame) -> Vec<(f64, f64)> {
    let dots = |x: f64, y: f64| draft.dots(Point { x, y });
    let (inner_left, inner_right) = cut.inner_faces();
    let (outer_left, outer_right) = cut.outer_faces();
    let (dig_left, dig_right) = cut.dig_sides();
    let edge_right = draft.point((frame.right, 0.0)).x;
    let field = |share: f64| inner_left + share * (inner_right - inner_left);
    // Between two offsets, at a height that may change across.
    let between = |from: f64, to: f64, height: &dyn Fn(f64) -> f64| {
        vec![dots(from, height(from)), dots(to, height(to))]
    };
    match what {
        What::GradeLine => {
            let log_right = ground::log_span(frame).1 + 14.0;
            let from = draft
                .point((
                    if cut.nearest_pit.is_some() {
                        log_right
                    } else {
                        frame.left + 6.0
                    },
                    0.0,
                ))
                .x;
            between(from.min(dig_left), dig_left.max(from), &|x| cut.grade_at(x))
        }
        What::Pit => {
            let Some(pit) = cut.nearest_pit else {
                return Vec::new();
            };
            let (left, right) = ground::log_span(frame);
            let hung = ground::hung_by(draft, cut, frame, pit);
            let (_, top) = dots(0.0, in_metres(pit.top) + hung);
            vec![(f64::midpoint(left, right), (top + 5.0).min(frame.bottom))]
        }
        What::OnOldSurface(offset_m) => {
            let (x, y) = dots(offset_m, cut.ground_top_at(offset_m));
            if x - REACH < frame.left || x + REACH > frame.right {
                return Vec::new();
            }
            vec![(x - REACH, y), (x + REACH, y)]
        }
        What::InPit(level_m) => {
            let Some(pit) = cut.nearest_pit else {
                return Vec::new();
            };
            let (left, right) = ground::log_span(frame);
            let y = dots(0.0, level_m + ground::hung_by(draft, cut, frame, pit)).1;
            if y >= frame.bottom {
                return Vec::new();
            }
            vec![(left + 2.0, y), (right - 2.0, y)]
        }
        What::OldSurface => between(
            dig_right + 0.2 * (edge_right - dig_right),
            edge_right - 0.1 * (edge_right - dig_right),
            &|x| cut.ground_top_at(x),
        ),
        What::Ground => {
            let level =
                (cut.ground_top_at(edge_right) + 2.0 * draft.point((0.0, frame.bottom)).y) / 3.0;
            between(
                dig_right + 0.3 * (edge_right - dig_right),
                edge_right - 0.25 * (edge_right - dig_right),
                &|_| level,
            )
        }
        What::Backfill => {
            let middle = 0.35 * dig_left + 0.65 * outer_left;
            vec![dots(
                middle,
                0.6 * cut.grade_at(middle) + 0.4 * cut.base_top_at(middle),
            )]
        }
        What::Form => {
            let [left, _] = &cut.section.edges;
            let form = points(&left.form);
            let count = f64::from(u32::try_from(form.len()).unwrap_or(0));
            if form.is_empty() {
                return Vec::new();
            }
            let x = form.iter().map(|corner| corner.x).sum::<f64>() / count;
            let y = form.iter().map(|corner| corner.y).sum::<f64>() / count;
            vec![dots(x, y)]
        }
        What::Brick => {
            let half = in_metres(cut.unit_thickness) / 2.0;
            between(field(0.05), field(0.25), &|x| cut.grade_at(x) - half)
        }
        What::SettingBed => {
            let down = in_metres(cut.unit_thickness + cut.setting_bed / 2.0);
            between(field(0.28), field(0.42), &|x| cut.grade_at(x) - down)
        }
        What::Lifts => {
            let down = in_metres(cut.lifts.full_compacted) / 2.0;
            between(field(0.46), field(0.64), &|x| cut.base_top_at(x) - down)
        }
        What::DigBottom => between(field(0.68), field(0.9), &|x| cut.dig_bottom_at(x)),
        What::Unsuitable => {
            let Some(bottom) = cut.section.unsuitable_bottom else {
                return Vec::new();
            };
            let level = in_metres(bottom.level);
            if dots(0.0, level).1 >= frame.bottom {
                return Vec::new();
            }
            between(field(0.68), field(0.8), &|_| level)
        }
        What::Fabric => between(field(0.84), field(0.95), &|x| {
            cut.dig_bottom_at(x) + 2.5 / frame.dots_per_metre
        }),
        What::EdgeBrick => {
            let middle = f64::midpoint(inner_right, outer_right);
            vec![dots(
                middle,
                cut.grade_at(middle) - 0.62 * in_metres(cut.edge_brick.depth),
            )]
        }
        What::Restraint => {
            let [_, right] = &cut.section.edges;
            let bottom = outer_right + 0.004;
            match &right.haunch {
                Some(haunch) => {
                    let haunch = points(haunch);
                    let count = f64::from(u32::try_from(haunch.len()).unwrap_or(1).max(1));
                    let x = haunch.iter().map(|corner| corner.x).sum::<f64>() / count;
                    let y = haunch.iter().map(|corner| corner.y).sum::<f64>() / count;
                    vec![dots(x, y)]
                }
                None => vec![dots(
                    bottom,
                    cut.grade_at(bottom) - 0.9 * in_metres(cut.unit_thickness),
                )],
            }
        }
    }
}
