//! What a finger means when it touches a drawing.

use crate::clearance::label_box;
use crate::inside::contains;
use crate::item::{Drawing, Item, Point};
use underbrick_calc::place::Place;

/// A line this close to the finger goes before the area under it, as a share of the reach.
const LINE_BEFORE_AREA: f64 = 0.3;

/// The place under a finger, in dots from the upper left corner of the sheet: a label that it touches; else a line close to it; else
/// the front-most area under it; else the nearest label or line within `reach_dots`. `None` where there is nothing to open.
#[must_use]
pub fn picked(drawing: &Drawing, x_dots: f64, y_dots: f64, reach_dots: f64) -> Option<Place> {
    if !(x_dots.is_finite() && y_dots.is_finite()) {
        return None;
    }
    let finger = drawing.drawing_from_sheet(x_dots, y_dots);
    let mut nearest: Option<(f64, Place)> = None;
    let mut near = |distance: f64, place: Place| {
        if distance <= reach_dots && nearest.is_none_or(|(least, _)| distance <= least) {
            nearest = Some((distance, place));
        }
    };
    let mut touched_label = None;
    let mut front_area = None;
    for item in &drawing.items {
        match item {
            Item::Label {
                at,
                text,
                size,
                anchor,
                place: Some(place),
                ..
            } => {
                let distance =
                    label_box(drawing, *at, text, *size, *anchor).distance(x_dots, y_dots);
                if distance <= 0.0 {
                    touched_label = Some(*place);
                }
                near(distance, *place);
            }
            Item::Line {
                points,
                place: Some(place),
                ..
            } => {
                for pair in points.windows(2) {
                    let &[from, to] = pair else { continue };
                    near(
                        distance_to(finger, from, to) * drawing.dots_per_metre,
                        *place,
                    );
                }
            }
            // An area without a place of its own hides what lies behind it.
            Item::Area { outline, place, .. } if contains(outline, finger) => front_area = *place,
            Item::Area { .. }
            | Item::Hatch { .. }
            | Item::Line { place: None, .. }
            | Item::Label { place: None, .. } => {}
        }
    }
    let close = nearest.filter(|(distance, _)| *distance <= LINE_BEFORE_AREA * reach_dots);
    let place_of = |(_, place): (f64, Place)| place;
    touched_label
        .or(close.map(place_of))
        .or(front_area)
        .or(nearest.map(place_of))
}

/// Distance from a spot to a straight line between two others, in drawing metres.
fn distance_to(spot: Point, from: Point, to: Point) -> f64 {
    let (run, rise) = (to.x - from.x, to.y - from.y);
    let length_2 = run * run + rise * rise;
    let share = if length_2 > 0.0 {
        (((spot.x - from.x) * run + (spot.y - from.y) * rise) / length_2).clamp(0.0, 1.0)
    } else {
        0.0
    };
    libm::hypot(
        spot.x - from.x - share * run,
        spot.y - from.y - share * rise,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::examples::sunk_walk;
    use crate::item::Sheet;
    use underbrick_calc::quantity::{in_metres, inches};
    use underbrick_calc::site::ShownIn;

    fn drawing() -> Drawing {
        crate::cross_section::draw(
            &sunk_walk(ShownIn::FeetInches).cut(),
            Sheet {
                width: 1200.0,
                height: 700.0,
                text_scale: 1.0,
            },
        )
    }

    /// A touch at so many inches right of the centreline and below the grade line.
    #[track_caller]
    fn check(across_in: f64, below_in: f64, expected: Place) {
        let drawing = drawing();
        let at = Point {
            x: in_metres(inches(across_in)),
            y: in_metres(inches(-3.125 - below_in)),
        };
        let (x, y) = drawing.sheet_from_drawing(at);
        assert_eq!(
            picked(&drawing, x, y, 12.0),
            Some(expected),
            "{across_in} {below_in}"
        );
    }

    #[test]
    fn a_finger_opens_what_lies_under_it() {
        check(-9.0, 0.95, Place::BrickThickness);
        check(-13.0, 2.63, Place::SettingBed);
        // Lifts of 2.078 in from 3 in down: middles at 4.04 in and, the lowest, 10.27 in.
        check(-13.0, 4.04, Place::Lift(4));
        check(-13.0, 9.9, Place::Lift(1));
        check(17.4, 3.5, Place::EdgeStands);
        check(-19.8, 6.6, Place::Restraint);
        check(-10.0, 0.0, Place::GradeLine);
        check(-10.0, 13.0, Place::DigBottom);
    }

    #[test]
    fn a_label_opens_its_entry_and_empty_paper_nothing() {
        let drawing = drawing();
        let label = drawing.items.iter().find_map(|item| match item {
            Item::Label { at, text, .. } if text.written.contains("clear") => Some(*at),
            _ => None,
        });
        let (x, y) = drawing.sheet_from_drawing(label.unwrap());
        assert_eq!(picked(&drawing, x, y, 12.0), Some(Place::Width));
        assert_eq!(picked(&drawing, 600.0, 695.0, 12.0), None);
        assert_eq!(picked(&drawing, f64::NAN, 1.0, 12.0), None);
    }
}
