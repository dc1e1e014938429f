//! Drops below the sill, stations along the run, where it curves, and the fixed points at both ends.

use super::Lengthwise;
use super::frame::Frame;
use crate::draft::{Draft, HAIRLINE, Lettering, OUTLINE, Sizes, rectangle, solid, width_of};
use crate::item::Anchor;
use crate::palette::Ink;
use crate::spread::{Wish, spread};
use crate::text::Text;
use crate::wording;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::ShownIn;

/// From the figures of the drops to station 0, in dots: the sill stands there.
const SILL: f64 = 20.0;

/// Width of the figures at the left, in dots.
pub(super) fn drop_figures_width(walk: &Lengthwise<'_>, sizes: Sizes) -> f64 {
    let (_, low) = walk.levels();
    let widest = match walk.site.shown_in {
        ShownIn::FeetInches if -low > 2.5 => "100\"",
        ShownIn::FeetInches => "24\"",
        ShownIn::Metric => "500",
    };
    let figures = width_of(&Text::regular(widest), sizes.tick);
    figures.max(width_of(&Text::regular("sill"), sizes.note))
}

/// Level lines at round drops below the sill, on the paper behind everything.
pub(super) fn grid(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let (unit_m, steps): (f64, &[f64]) = match walk.site.shown_in {
        ShownIn::FeetInches => (0.0254, &[1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 120.0]),
        ShownIn::Metric => (
            0.001,
            &[10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 5000.0],
        ),
    };
    let dots = unit_m * frame.times * frame.dots_per_metre;
    let Some(step) = steps
        .iter()
        .copied()
        .find(|step| step * dots >= 1.75 * sizes.tick)
    else {
        return;
    };
    let mut drop = 0.0;
    while frame.sill + drop * dots <= frame.bottom + 0.5 {
        let y = frame.sill + drop * dots;
        draft.stroke(
            &[(frame.left, y), (frame.right, y)],
            solid(Ink::Hairline, HAIRLINE),
            None,
        );
        draft.stroke(
            &[(frame.left - SILL + 4.0, y), (frame.left, y)],
            solid(Ink::SecondInk, HAIRLINE),
            None,
        );
        let figures = match walk.site.shown_in {
            ShownIn::FeetInches if drop > 0.0 => format!("{drop:.0}\""),
            ShownIn::FeetInches | ShownIn::Metric => format!("{drop:.0}"),
        };
        label(
            draft,
            (frame.left - SILL, y),
            figures,
            sizes.tick,
            Anchor::Right,
            None,
        );
        drop += step;
    }
}

/// The sill at the door, and the far end with its level.
pub(super) fn fixed_points(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let place = Some(Place::FirstBrickBelowSill);
    let (x, y) = (frame.left, frame.sill);
    let pen = Some(solid(Ink::Ink, OUTLINE));
    let tall = 1.2 * sizes.note + 8.0;
    draft.shape(
        &rectangle(x - 13.0, y - tall, x - 1.5, y - 5.0),
        Ink::Hairline,
        pen,
        place,
    );
    draft.shape(
        &rectangle(x - 16.0, y - 6.0, x + 4.0, y),
        Ink::Timber,
        pen,
        place,
    );
    label(
        draft,
        (x - SILL, y - 0.6 * sizes.note - 0.5 * sizes.tick - 2.0),
        "sill".to_owned(),
        sizes.note,
        Anchor::Right,
        place,
    );
    let Some(last) = walk.along.spots.last() else {
        return;
    };
    let level = in_metres(last.grade);
    let (end_x, end_y) = frame.dots(walk.run_m, level);
    let end_place = Some(Place::FarEndBelowSill);
    let weight = if walk.end_is_fixed { 3.0 } else { OUTLINE };
    draft.stroke(
        &[(end_x, end_y), (end_x, frame.bottom)],
        solid(Ink::Ink, weight),
        end_place,
    );
    if !frame.names_far_end {
        return;
    }
    let wishes: Vec<Wish> = vec![Wish {
        middle: end_y,
        room: 1.2 * (sizes.label + 2.0 * sizes.note),
    }];
    let Some(middles) = spread(&wishes, frame.callouts.knee + 4.0, frame.bottom) else {
        return;
    };
    let mut top =
        middles.first().copied().unwrap_or(end_y) - 0.6 * (sizes.label + 2.0 * sizes.note);
    for (nth, line) in far_end(walk).into_iter().enumerate() {
        let (text, size, ink) = if nth == 0 {
            (Text::bold(line), sizes.label, Ink::Ink)
        } else {
            (Text::regular(line), sizes.note, Ink::SecondInk)
        };
        let lettering = Lettering {
            text,
            size,
            ink,
            anchor: Anchor::Left,
            place: end_place,
        };
        draft.label((end_x + 10.0, top + 0.55 * size), lettering);
        top += 1.2 * size;
    }
}

fn far_end(walk: &Lengthwise<'_>) -> [String; 3] {
    let level = walk
        .along
        .spots
        .last()
        .map_or(metres(0.0), |spot| spot.grade);
    let below = wording::below(-level, walk.site.shown_in);
    let met = if walk.end_is_fixed {
        "the sill, fixed"
    } else {
        "the sill, free"
    };
    ["far end".to_owned(), below, met.to_owned()]
}

/// Width of what is written at the far end, in dots.
pub(super) fn far_end_width(walk: &Lengthwise<'_>, sizes: Sizes) -> f64 {
    let [title, level, met] = far_end(walk);
    let notes =
        width_of(&Text::regular(level), sizes.note).max(width_of(&Text::regular(met), sizes.note));
    notes.max(width_of(&Text::bold(title), sizes.label))
}

/// The axis of stations, with the curves under it.
pub(super) fn stations(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    draft.stroke(
        &[(frame.left, frame.bottom), (frame.right, frame.bottom)],
        solid(Ink::Ink, OUTLINE),
        None,
    );
    let (unit_m, steps, mark): (f64, &[f64], &str) = match walk.site.shown_in {
        ShownIn::FeetInches => (
            0.3048,
            &[
                1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 10.0, 12.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0,
            ],
            "'",
        ),
        ShownIn::Metric => (
            1.0,
            &[0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0],
            " m",
        ),
    };
    let figures = |station: f64| format!("{station}{mark}");
    let run = walk.run_m / unit_m;
    let widest = width_of(&Text::regular(figures(run.floor() + 0.5)), sizes.tick) + 14.0;
    let dots = unit_m * frame.dots_per_metre;
    let step = steps.iter().copied().find(|step| step * dots >= widest);
    let end = walk.site.shown_in.along(metres(walk.run_m));
    let end_width = width_of(&Text::regular(end.clone()), sizes.tick);
    // The length of the run stands under the far end, pushed back from the sheet's edge.
    let end_x = frame.right.min(draft.sheet().width - 4.0 - end_width / 2.0);
    // The marker's line takes the place of a figure that it would run through: the flag says the station.
    let marker = frame.dots(in_metres(walk.marker), 0.0).0;
    let is_clear = |x: f64, width: f64| (x - marker).abs() > width / 2.0 + 4.0;
    let mut nth = 0.0;
    while let Some(step) = step
        && nth * step <= run + 1e-9
    {
        let x = frame.left + nth * step * dots;
        draft.stroke(
            &[(x, frame.bottom), (x, frame.bottom + 5.0)],
            solid(Ink::Ink, HAIRLINE),
            None,
        );
        let text = figures(nth * step);
        let width = width_of(&Text::regular(text.clone()), sizes.tick);
        if x + width / 2.0 + 8.0 < end_x - end_width / 2.0 && is_clear(x, width) {
            label(
                draft,
                (x, frame.station_row),
                text,
                sizes.tick,
                Anchor::Middle,
                None,
            );
        }
        nth += 1.0;
    }
    draft.stroke(
        &[
            (frame.right, frame.bottom),
            (frame.right, frame.bottom + 5.0),
        ],
        solid(Ink::Ink, HAIRLINE),
        None,
    );
    if is_clear(end_x, end_width) {
        label(
            draft,
            (end_x, frame.station_row),
            end,
            sizes.tick,
            Anchor::Middle,
            None,
        );
    }
    curves(draft, walk, frame);
}

fn curves(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let Some(y) = frame.curve_row else {
        // No room for a row of its own: a heavy part of the axis.
        for bend in &walk.bends {
            let ends = [
                (frame.dots(bend.from, 0.0).0, frame.bottom),
                (frame.dots(bend.to, 0.0).0, frame.bottom),
            ];
            draft.stroke(&ends, solid(Ink::Line, 4.0), Some(Place::Leg(bend.leg_idx)));
        }
        return;
    };
    let half = 0.7 * sizes.tick;
    draft.stroke(
        &[(frame.left, y), (frame.right, y)],
        solid(Ink::Hairline, HAIRLINE),
        None,
    );
    for bend in &walk.bends {
        let place = Some(Place::Leg(bend.leg_idx));
        let (from, to) = (frame.dots(bend.from, 0.0).0, frame.dots(bend.to, 0.0).0);
        draft.shape(
            &rectangle(from, y - half, to, y + half),
            Ink::LineGround,
            Some(solid(Ink::Line, HAIRLINE)),
            place,
        );
        let side = if bend.to_the_right { "right" } else { "left" };
        for way in [format!("curve {side}"), side.to_owned()] {
            let text = Text::regular(way);
            if width_of(&text, sizes.tick) + 8.0 <= to - from {
                let lettering = Lettering {
                    text,
                    size: sizes.tick,
                    ink: Ink::Line,
                    anchor: Anchor::Middle,
                    place,
                };
                draft.label((f64::midpoint(from, to), y), lettering);
                break;
            }
        }
    }
}

fn label(
    draft: &mut Draft,
    at: (f64, f64),
    written: String,
    size: f64,
    anchor: Anchor,
    place: Option<Place>,
) {
    draft.label(
        at,
        Lettering {
            text: Text::regular(written),
            size,
            ink: Ink::SecondInk,
            anchor,
            place,
        },
    );
}
