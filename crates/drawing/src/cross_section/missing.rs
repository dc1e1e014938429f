//! A cross-section that cannot be drawn yet: what is missing, in words, over a dashed ghost.

use crate::draft::{Draft, Lettering, OUTLINE, Sizes, dashed, width_of};
use crate::item::{Anchor, Drawing, Point, Sheet};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::Results;
use underbrick_calc::findings::Weight;
use underbrick_calc::place::Place;
use underbrick_calc::site::{LegShape, Site};

/// A line of a ghost: through points as shares of its width and height, from the upper left.
pub(crate) type GhostLine = &'static [(f64, f64)];

/// The side of a dig, and brick between two edges in it: no size is meant.
const GHOST: [GhostLine; 3] = [
    &[
        (0.0, 0.1),
        (0.09, 0.1),
        (0.09, 0.95),
        (0.91, 0.95),
        (0.91, 0.1),
        (1.0, 0.1),
    ],
    &[
        (0.2, 0.1),
        (0.8, 0.1),
        (0.8, 0.62),
        (0.75, 0.62),
        (0.75, 0.3),
        (0.25, 0.3),
        (0.25, 0.62),
        (0.2, 0.62),
        (0.2, 0.1),
    ],
    &[(0.25, 0.38), (0.75, 0.38)],
];

pub(super) fn draw(site: &Site, results: &Results, sheet: Sheet) -> Drawing {
    let missing = what_is_missing(site, results);
    statement("Cross-section not known yet", &missing, &GHOST, sheet)
}

/// What stops the drawing, each with the place to mend it.
pub(crate) fn what_is_missing(site: &Site, results: &Results) -> Vec<(String, Place)> {
    let mut missing: Vec<(String, Place)> = results
        .findings
        .iter()
        .filter(|finding| finding.weight == Weight::Stop)
        .map(|finding| (finding.text.clone(), finding.place))
        .collect();
    if missing.is_empty() {
        if site.line.legs.is_empty() {
            missing.push(("the run is not measured".to_owned(), Place::Leg(0)));
        }
        for (index, leg) in site.line.legs.iter().enumerate() {
            let place = match leg.shape {
                LegShape::Straight { length: None } => Place::LegLength(index),
                LegShape::Curve { radius: None, .. } => Place::LegRadius(index),
                LegShape::Curve { turn: None, .. } => Place::LegTurn(index),
                LegShape::Straight { .. } | LegShape::Curve { .. } => continue,
            };
            missing.push((format!("leg {} is not measured", index + 1), place));
        }
        if site.line.width.is_none() {
            missing.push(("the clear width is not measured".to_owned(), Place::Width));
        }
    }
    if missing.is_empty() {
        missing.push(("the readings do not suffice".to_owned(), Place::Site));
    }
    missing
}

/// A drawing that only says something, over a dashed ghost of what is to stand there.
pub(crate) fn statement(
    title: &str,
    missing: &[(String, Place)],
    ghost: &[GhostLine],
    sheet: Sheet,
) -> Drawing {
    let sizes = Sizes::on(sheet);
    // No scale is known: one dot stands for a millimetre.
    let mut draft = Draft::new(sheet, Point::default(), 1000.0, 1.0);
    let margin = 14.0;
    let room = sheet.width - 2.0 * margin - 2.0 * sizes.label;
    let mut lines = Vec::new();
    for line in wrapped(title, 0.9 * room, sizes.label) {
        lines.push((Text::bold(line), sizes.label, Ink::NotKnown, None));
    }
    for (text, place) in missing {
        for line in wrapped(text, room, sizes.note) {
            lines.push((Text::regular(line), sizes.note, Ink::Ink, Some(*place)));
        }
    }
    let least_top = margin + sizes.label;
    let fitting = |height: f64| height <= sheet.height - 2.0 * least_top;
    let height_of = |lines: &[(Text, f64, Ink, Option<Place>)]| {
        lines.iter().map(|line| 1.45 * line.1).sum::<f64>()
    };
    let mut is_cut = false;
    while lines.len() > 1 && !fitting(height_of(&lines)) {
        lines.pop();
        is_cut = true;
    }
    if is_cut && let Some((text, ..)) = lines.last_mut() {
        *text = Text::regular("… and more");
    }
    // The ghost stands under the words where there is room for it.
    let words_height = height_of(&lines);
    let left_over = sheet.height - words_height - 4.0 * margin;
    let ghost_height = if left_over >= 70.0 {
        left_over.min(0.4 * sheet.height)
    } else {
        0.0
    };
    let mut y = (sheet.height - words_height - ghost_height - margin) / 2.0;
    for (text, size, ink, place) in lines {
        let anchor = Anchor::Middle;
        draft.label(
            (sheet.width / 2.0, y + 0.7 * size),
            Lettering {
                text,
                size,
                ink,
                anchor,
                place,
            },
        );
        y += 1.45 * size;
    }
    if ghost_height > 0.0 {
        let ghost_width = (3.4 * ghost_height).min(0.8 * sheet.width);
        let left = (sheet.width - ghost_width) / 2.0;
        for line in ghost {
            let on_sheet = |(across, down): &(f64, f64)| {
                (
                    left + across * ghost_width,
                    y + margin + down * ghost_height,
                )
            };
            let through: Vec<(f64, f64)> = line.iter().map(on_sheet).collect();
            draft.stroke(&through, dashed(Ink::NotKnown, OUTLINE), None);
        }
    }
    let said: Vec<&str> = missing.iter().map(|(text, _)| text.as_str()).collect();
    draft.finish(&format!("{title}.\n{}", said.join("\n")))
}

/// A text broken at its spaces into lines no wider than `room` dots; a single word may be wider.
pub(crate) fn wrapped(text: &str, room: f64, size: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        if let Some(line) = lines.last_mut() {
            let longer = format!("{line} {word}");
            if width_of(&Text::regular(longer.clone()), size) <= room {
                *line = longer;
                continue;
            }
        }
        lines.push(word.to_owned());
    }
    lines
}
