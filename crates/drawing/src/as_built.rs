//! What was read while the walk was built, over its design: a disc where it is right, a wedge that points the way it is off.

use crate::draft::{HAIRLINE, solid};
use crate::item::{Drawing, Item, Point};
use crate::palette::Ink;
use underbrick_calc::Results;
use underbrick_calc::build::{ReadingFound, Verdict};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, inches, metres};
use underbrick_calc::site::ShownIn;

/// Half the size of a mark, in dots.
const HALF: f64 = 6.5;

/// A cross-section shows what was read no farther from it than this: common practice, no source.
fn beside_the_cut() -> Length {
    inches(12.0)
}

/// Marks of all readings along the walk, and what they say.
pub(crate) fn along(drawing: &mut Drawing, results: &Results, shown_in: ShownIn) {
    let times = drawing.heights_times;
    paint(drawing, counting(results), shown_in, |found, level_m| {
        Point {
            x: in_metres(found.station),
            y: level_m * times,
        }
    });
}

/// Marks of the readings beside a cut, and what they say.
pub(crate) fn across(drawing: &mut Drawing, results: &Results, station: Length, shown_in: ShownIn) {
    let near =
        counting(results).filter(|found| (found.station - station).abs() <= beside_the_cut());
    paint(drawing, near, shown_in, |found, level_m| Point {
        x: in_metres(found.offset),
        y: level_m,
    });
}

/// Readings that say something and were not read again since.
fn counting(results: &Results) -> impl Iterator<Item = &ReadingFound> {
    let readings = results.build.iter().flat_map(|build| &build.readings);
    readings.filter(|found| !found.is_read_again && found.off.is_some())
}

fn paint<'a>(
    drawing: &mut Drawing,
    readings: impl Iterator<Item = &'a ReadingFound>,
    shown_in: ShownIn,
    spot: impl Fn(&ReadingFound, f64) -> Point,
) {
    let rows = ground_rows(drawing);
    for found in readings {
        let Some((level, off)) = found.level.zip(found.off) else {
            continue;
        };
        drawing.words += &said(found, off, shown_in);
        let at = spot(found, in_metres(level));
        let (x_dots, y_dots) = drawing.sheet_from_drawing(at);
        // A slip of a foot lies among dimensions or off the sheet: it is said, not drawn.
        let is_in = |(from, to): (f64, f64), dots: f64| from <= dots && dots <= to;
        if !is_in(rows, y_dots) || !is_in((0.0, drawing.sheet.width), x_dots) {
            continue;
        }
        let ink = match found.verdict {
            Verdict::Right => Ink::Right,
            Verdict::High | Verdict::Low => Ink::Wrong,
            Verdict::NotKnown => Ink::NotKnown,
        };
        let outline = shape(found.verdict)
            .into_iter()
            .map(|(right, down)| {
                drawing.drawing_from_sheet(x_dots + right * HALF, y_dots + down * HALF)
            })
            .collect();
        drawing.items.push(Item::Area {
            outline,
            fill: ink,
            pen: Some(solid(Ink::Paper, 2.0 * HAIRLINE)),
            place: Some(Place::BuildValue(found.reading_idx)),
        });
    }
}

/// From a mark's height above the highest brick or ground to the floor of what is drawn, in dots from the top of the sheet.
fn ground_rows(drawing: &Drawing) -> (f64, f64) {
    let rows = drawing.items.iter().filter_map(|item| match item {
        Item::Area { outline, fill, .. } if [Ink::Ground, Ink::Clay].contains(fill) => {
            Some(outline)
        }
        _ => None,
    });
    let (top, floor) = rows
        .flatten()
        .map(|point| drawing.sheet_from_drawing(*point).1)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(top, floor), y| {
            (top.min(y), floor.max(y))
        });
    (top - 2.0 * HALF, floor - HALF)
}

/// Corners of a mark about its middle, in halves of its size, to the right and down.
fn shape(verdict: Verdict) -> Vec<(f64, f64)> {
    const CORNERS: u32 = 16;
    match verdict {
        Verdict::High => vec![(0.0, -1.2), (1.2, 0.9), (-1.2, 0.9)],
        Verdict::Low => vec![(0.0, 1.2), (1.2, -0.9), (-1.2, -0.9)],
        Verdict::Right | Verdict::NotKnown => (0..CORNERS)
            .map(|corner| {
                let angle = std::f64::consts::TAU * f64::from(corner) / f64::from(CORNERS);
                (libm::cos(angle), libm::sin(angle))
            })
            .collect(),
    }
}

/// One sentence on a line of its own.
fn said(found: &ReadingFound, off: Length, shown_in: ShownIn) -> String {
    let how = if found.verdict == Verdict::Right {
        "right".to_owned()
    } else {
        let way = if off > metres(0.0) { "high" } else { "low" };
        format!("{} {way}", shown_in.length(off.abs()))
    };
    format!(
        "\nAs built: {} at {}: {how}.",
        found.surface.name(),
        shown_in.along(found.station)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::item::Sheet;
    use underbrick_calc::build::Surface;

    /// Ground from the top of the sheet to its bottom.
    fn board() -> Drawing {
        let corner = |x: f64, y: f64| Point { x, y };
        Drawing {
            items: vec![Item::Area {
                outline: vec![corner(0.0, 1.0), corner(10.0, 1.0), corner(10.0, -3.0)],
                fill: Ink::Ground,
                pen: None,
                place: None,
            }],
            upper_left: Point { x: 0.0, y: 1.0 },
            sheet: Sheet {
                width: 1000.0,
                height: 400.0,
                text_scale: 1.0,
            },
            dots_per_metre: 100.0,
            heights_times: 5.0,
            words: String::new(),
        }
    }

    fn reading(level_in: f64, off_in: f64, verdict: Verdict) -> ReadingFound {
        ReadingFound {
            reading_idx: 3,
            surface: Surface::DigBottom,
            station: metres(4.0),
            offset: metres(0.0),
            level: Some(inches(level_in)),
            design: Some(inches(level_in - off_in)),
            off: Some(inches(off_in)),
            tolerance: Surface::DigBottom.tolerance(false),
            verdict,
            advice: String::new(),
            is_questioned: false,
            uneven_with: None,
            is_read_again: false,
        }
    }

    #[track_caller]
    fn outline(found: &ReadingFound) -> Option<(Vec<(f64, f64)>, Ink)> {
        let mut drawing = board();
        let times = drawing.heights_times;
        let spot = |found: &ReadingFound, level_m: f64| Point {
            x: in_metres(found.station),
            y: level_m * times,
        };
        paint(
            &mut drawing,
            std::iter::once(found),
            ShownIn::FeetInches,
            spot,
        );
        match drawing.items.get(1) {
            Some(Item::Area {
                outline,
                fill,
                place,
                ..
            }) => {
                assert_eq!(*place, Some(Place::BuildValue(3)));
                let dots = outline
                    .iter()
                    .map(|point| drawing.sheet_from_drawing(*point))
                    .collect();
                Some((dots, *fill))
            }
            _ => None,
        }
    }

    /// Station 4 m at 100 dots a metre is 400 dots to the right; level -10 in is -0.254 m, five times that -1.27 m: with the sheet's top at
    /// 1 m, 2.27 m or 227 dots down.
    #[test]
    fn a_wedge_points_the_way_a_reading_is_off() {
        let (high, ink) = outline(&reading(-10.0, 1.0, Verdict::High)).unwrap();
        assert_eq!(ink, Ink::Wrong);
        let (x, y) = high.first().copied().unwrap();
        assert!((x - 400.0).abs() < 1e-9 && (y - (227.0 - 1.2 * HALF)).abs() < 1e-9);
        let (low, _) = outline(&reading(-10.0, -1.0, Verdict::Low)).unwrap();
        assert!(low.first().unwrap().1 > 227.0);
        let (right, ink) = outline(&reading(-10.0, 0.0, Verdict::Right)).unwrap();
        assert_eq!((right.len(), ink), (16, Ink::Right));
    }

    #[test]
    fn what_lies_off_the_sheet_is_said_and_not_drawn() {
        let far = reading(-100.0, -90.0, Verdict::Low);
        assert_eq!(outline(&far), None);
        assert_eq!(
            said(&far, inches(-90.0), ShownIn::FeetInches),
            "\nAs built: bottom of dig at 13'-1 1/2\": 7'-6\" low."
        );
    }
}
