//! A cross-section that cannot be drawn yet: what is missing, in words, in a dashed outline.

use crate::draft::{Draft, Lettering, OUTLINE, Sizes, dashed, rectangle, width_of};
use crate::item::{Anchor, Drawing, Point, Sheet};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::Results;
use underbrick_calc::findings::Weight;
use underbrick_calc::place::Place;
use underbrick_calc::site::{LegShape, Site};

pub(super) fn draw(site: &Site, results: &Results, sheet: Sheet) -> Drawing {
    let missing = what_is_missing(site, results);
    statement("Cross-section not known yet", &missing, sheet)
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

/// A drawing that only says something, in a dashed outline.
pub(crate) fn statement(title: &str, missing: &[(String, Place)], sheet: Sheet) -> Drawing {
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
    let height_of = |lines: &[(Text, f64, Ink, Option<Place>)]| lines.iter().map(|line| 1.45 * line.1).sum::<f64>();
    while lines.len() > 1 && !fitting(height_of(&lines)) {
        lines.pop();
    }
    let mut outline: Vec<(f64, f64)> = rectangle(margin, margin, sheet.width - margin, sheet.height - margin).to_vec();
    outline.extend(outline.first().copied());
    draft.stroke(&outline, dashed(Ink::NotKnown, OUTLINE), None);
    let mut y = (sheet.height - height_of(&lines)) / 2.0;
    for (text, size, ink, place) in lines {
        draft.label((sheet.width / 2.0, y + 0.7 * size), Lettering { text, size, ink, anchor: Anchor::Middle, place });
        y += 1.45 * size;
    }
    let said: Vec<&str> = missing.iter().map(|(text, _)| text.as_str()).collect();
    draft.finish(format!("{title}.\n{}", said.join("\n")))
}

/// A text broken at its spaces into lines no wider than `room` dots; a single word may be wider.
fn wrapped(text: &str, room: f64, size: f64) -> Vec<String> {
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
