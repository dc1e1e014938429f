//! The marker: where the cross-section is cut.

use super::Lengthwise;
use super::frame::{Frame, HANDLE, MARGIN};
use crate::draft::{Draft, Lettering, Sizes, rectangle, solid, width_of};
use crate::item::Anchor;
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::quantity::in_metres;

/// The line from the flag to the handle; it passes behind names.
pub(super) fn line(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let x = position(walk, frame);
    draft.stroke(
        &[(x, frame.flag), (x, frame.marker_end)],
        solid(Ink::Line, 2.2),
        None,
    );
}

/// The flag says the station. Beside it stands what the drawing is.
pub(super) fn flag(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let x = position(walk, frame);
    let text = Text::bold(walk.site.shown_in.along(walk.marker));
    let half = width_of(&text, sizes.label) / 2.0 + 12.0;
    let middle = x.max(half + 4.0).min(draft.sheet().width - half - 4.0);
    let tall = 0.8 * sizes.label;
    draft.shape(
        &rectangle(
            middle - half,
            frame.flag - tall,
            middle + half,
            frame.flag + tall,
        ),
        Ink::Line,
        None,
        None,
    );
    draft.label(
        (middle, frame.flag),
        Lettering {
            text,
            size: sizes.label,
            ink: Ink::Paper,
            anchor: Anchor::Middle,
            place: None,
        },
    );
    title(
        draft,
        walk,
        frame,
        (middle - half - 16.0, middle + half + 16.0),
    );
}

/// What a finger takes.
pub(super) fn handle(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame) {
    let x = position(walk, frame);
    draft.disc((x, frame.handle), HANDLE, Ink::Line, None);
    for side in [-1.0, 1.0] {
        let tip = x + side * 15.0;
        draft.shape(
            &[
                (tip, frame.handle),
                (x + side * 5.0, frame.handle - 8.0),
                (x + side * 5.0, frame.handle + 8.0),
            ],
            Ink::Paper,
            None,
            None,
        );
    }
}

/// What the drawing is, at the left, or at the right where the flag stands in its way.
fn title(draft: &mut Draft, walk: &Lengthwise<'_>, frame: &Frame, flag: (f64, f64)) {
    let sizes = Sizes::on(draft.sheet());
    let name = Text::bold("along the walk");
    let name_width = width_of(&name, sizes.label);
    for note in notes(walk, frame) {
        let note = Text::regular(note);
        let whole = name_width + 12.0 + width_of(&note, sizes.note);
        let left = if MARGIN + whole <= flag.0 {
            MARGIN
        } else if draft.sheet().width - MARGIN - whole >= flag.1 {
            draft.sheet().width - MARGIN - whole
        } else {
            continue;
        };
        draft.label(
            (left, frame.flag),
            Lettering {
                text: name,
                size: sizes.label,
                ink: Ink::Ink,
                anchor: Anchor::Left,
                place: None,
            },
        );
        draft.label(
            (left + name_width + 12.0, frame.flag),
            Lettering {
                text: note,
                size: sizes.note,
                ink: Ink::SecondInk,
                anchor: Anchor::Left,
                place: None,
            },
        );
        return;
    }
    // Too narrow for a title: how far heights are enlarged is said in any case, beside the handle.
    let note = Text::regular(format!("heights × {}", frame.times));
    let width = width_of(&note, sizes.note);
    let is_left_free = MARGIN + width <= position(walk, frame) - HANDLE - 8.0;
    let left = if is_left_free {
        MARGIN
    } else {
        draft.sheet().width - MARGIN - width
    };
    draft.label(
        (left, frame.handle),
        Lettering {
            text: note,
            size: sizes.note,
            ink: Ink::SecondInk,
            anchor: Anchor::Left,
            place: None,
        },
    );
}

fn notes(walk: &Lengthwise<'_>, frame: &Frame) -> Vec<String> {
    let enlarged = if frame.times > 1.0 {
        format!("heights × {}", frame.times)
    } else {
        "to scale".to_owned()
    };
    let is_measured = walk
        .along
        .spots
        .iter()
        .any(|spot| spot.old_surface.is_some());
    let drops = match walk.site.shown_in {
        underbrick_calc::site::ShownIn::FeetInches => "drops below the sill",
        underbrick_calc::site::ShownIn::Metric => "drops below the sill in mm",
    };
    if is_measured {
        vec![format!("{enlarged}, {drops}"), enlarged]
    } else {
        vec![
            format!("{enlarged}, {drops}, old surface not measured"),
            format!("{enlarged}, old surface not measured"),
            enlarged,
        ]
    }
}

fn position(walk: &Lengthwise<'_>, frame: &Frame) -> f64 {
    frame.dots(in_metres(walk.marker), 0.0).0
}
