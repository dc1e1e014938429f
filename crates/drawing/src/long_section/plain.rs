//! The walk lengthwise for those who have never seen a section: how it lies today, how it will lie, and where the water runs.

use super::{GHOST, Lengthwise};
use crate::cross_section::missing;
use crate::draft::{
    AS_FOUND, Draft, GRADE, HAIRLINE, Lettering, OUTLINE, Sizes, dashed, solid, width_of,
};
use crate::item::{Anchor, Drawing, Point, Sheet};
use crate::material;
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::Results;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::Site;

/// Space to the edge of the sheet, in dots.
const MARGIN: f64 = 12.0;
/// Width of the house wall that is drawn, in dots.
const WALL: f64 = 64.0;
/// How many times heights may be enlarged.
const TIMES: [f64; 9] = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0];

/// Draws the walk lengthwise on its centreline, in plain words, heights enlarged as a note says. What was not read is drawn dashed, and
/// what is not known is left out and said.
#[must_use]
pub fn plain_lengthwise(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    sheet: Sheet,
) -> Drawing {
    let sheet = sheet.usable();
    let Some(walk) = Lengthwise::new(site, catalogue, results, Length::default()) else {
        let missing = missing::what_is_missing(site, results);
        return missing::statement(
            "How the walk slopes is not known yet",
            &missing,
            &GHOST,
            sheet,
        );
    };
    let view = View::of(&walk, sheet);
    let mut draft = view.board(sheet);
    ground(&mut draft, &view);
    house(&mut draft, &view);
    surfaces(&mut draft, &view);
    let legend = legend(&mut draft, &view, sheet);
    ends(&mut draft, &walk, &view, site);
    draft.finish(&words(site, &walk, &view, &legend))
}

/// Surfaces in drawing metres, heights enlarged.
struct View {
    new: Vec<Point>,
    /// The old surface in runs: whether it was read there.
    old: Vec<(bool, Vec<Point>)>,
    times: f64,
    dots_per_metre: f64,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    high: f64,
}

impl View {
    fn of(walk: &Lengthwise<'_>, sheet: Sheet) -> Self {
        let sizes = Sizes::on(sheet);
        let spots = &walk.along.spots;
        let run = spots
            .last()
            .map_or(1.0, |last| in_metres(last.station))
            .max(0.1);
        let (left, right) = (MARGIN + WALL, sheet.width - MARGIN);
        let (top, bottom) = (
            MARGIN + 1.5 * sizes.note,
            sheet.height - MARGIN - 2.9 * sizes.note - 1.4 * sizes.tick,
        );
        let dots_per_metre = (right - left) / run;
        let levels = spots.iter().flat_map(|spot| {
            let old = spot.old_surface.map(|old| in_metres(old.level));
            [Some(in_metres(spot.grade)), old].into_iter().flatten()
        });
        let high = levels.clone().fold(0.0, f64::max);
        let low = levels.fold(f64::INFINITY, f64::min);
        let range = (high - low).max(0.02);
        // Ground under the lowest line.
        let room = (bottom - top) * 0.78;
        let times = TIMES
            .into_iter()
            .rev()
            .find(|times| range * times * dots_per_metre <= room)
            .unwrap_or(1.0);
        let dots_per_metre = dots_per_metre
            .min((bottom - top) / (range * times))
            .max(0.5);
        let at = |station: Length, level: Length| Point {
            x: in_metres(station),
            y: in_metres(level) * times,
        };
        let mut old: Vec<(bool, Vec<Point>)> = Vec::new();
        let mut before: Option<(bool, Point)> = None;
        for spot in spots {
            let Some(surface) = spot.old_surface else {
                before = None;
                continue;
            };
            let point = at(spot.station, surface.level);
            if let Some((was_known, from)) = before {
                let known = was_known && surface.known;
                match old.last_mut() {
                    Some((of, line)) if *of == known && line.last() == Some(&from) => {
                        line.push(point);
                    }
                    _ => old.push((known, vec![from, point])),
                }
            }
            before = Some((surface.known, point));
        }
        Self {
            new: spots
                .iter()
                .map(|spot| at(spot.station, spot.grade))
                .collect(),
            old,
            times,
            dots_per_metre,
            left,
            right: left + run * dots_per_metre,
            top,
            bottom,
            high: high * times,
        }
    }

    fn board(&self, sheet: Sheet) -> Draft {
        let upper_left = Point {
            x: -self.left / self.dots_per_metre,
            y: self.high + self.top / self.dots_per_metre,
        };
        Draft::new(sheet, upper_left, self.dots_per_metre, self.times)
    }
}

fn ground(draft: &mut Draft, view: &View) {
    let bottom = draft.point((0.0, view.bottom)).y;
    let (Some(first), Some(last)) = (view.new.first(), view.new.last()) else {
        return;
    };
    let mut outline = view.new.clone();
    outline.push(Point {
        x: last.x,
        y: bottom,
    });
    outline.push(Point {
        x: first.x,
        y: bottom,
    });
    draft.material(&outline, material::GROUND, None, Some(Place::DigBottom));
}

/// The wall with the door's sill, at the left.
fn house(draft: &mut Draft, view: &View) {
    let sill = draft.dots(Point { x: 0.0, y: 0.0 }).1;
    let wall = [
        (MARGIN, view.top - 8.0),
        (view.left, view.top - 8.0),
        (view.left, view.bottom),
        (MARGIN, view.bottom),
    ];
    draft.shape(&wall, Ink::Concrete, Some(solid(Ink::Ink, HAIRLINE)), None);
    draft.stroke(
        &[(MARGIN, sill), (view.left, sill)],
        solid(Ink::Ink, OUTLINE + 1.0),
        Some(Place::FirstBrickBelowSill),
    );
    let size = Sizes::on(draft.sheet()).tick;
    let lettering = Lettering {
        text: Text::regular("door sill"),
        size,
        ink: Ink::SecondInk,
        anchor: Anchor::Left,
        place: Some(Place::FirstBrickBelowSill),
    };
    draft.label((MARGIN, view.top - 10.0 - 0.6 * size), lettering);
}

fn surfaces(draft: &mut Draft, view: &View) {
    for (known, line) in &view.old {
        let pen = if *known {
            solid(Ink::NotKnown, AS_FOUND)
        } else {
            dashed(Ink::NotKnown, AS_FOUND)
        };
        draft.line(line.clone(), solid(Ink::Paper, AS_FOUND + 1.4), None);
        draft.line(line.clone(), pen, Some(Place::OldSurface));
    }
    draft.line(
        view.new.clone(),
        solid(Ink::Line, GRADE),
        Some(Place::GradeLine),
    );
}

/// What the lines are, under the drawing; what was written.
fn legend(draft: &mut Draft, view: &View, sheet: Sheet) -> Vec<String> {
    let sizes = Sizes::on(sheet);
    let mut rows = vec![(Ink::Line, GRADE, "the walk as it will lie")];
    if view.old.is_empty() {
        rows.push((Ink::NotKnown, 0.0, "how it lies today was not measured"));
    } else {
        rows.push((Ink::NotKnown, AS_FOUND, "as it lies today"));
        if view.old.iter().any(|(known, _)| !known) {
            rows.push((Ink::NotKnown, 0.0, "dashed: assumed, not measured there"));
        }
    }
    let y = sheet.height - MARGIN - 2.0 * sizes.note + 2.0;
    let mut x = MARGIN;
    let mut written = Vec::new();
    for (ink, width, words) in rows {
        let text = Text::regular(words);
        let sample = if width > 0.0 { 40.0 } else { 0.0 };
        if x + sample + width_of(&text, sizes.note) > sheet.width - MARGIN {
            break;
        }
        if width > 0.0 {
            draft.stroke(&[(x, y), (x + 30.0, y)], solid(ink, width), None);
        }
        let advance = sample + width_of(&text, sizes.note) + 26.0;
        let lettering = Lettering {
            text,
            size: sizes.note,
            ink,
            anchor: Anchor::Left,
            place: None,
        };
        draft.label((x + sample, y), lettering);
        x += advance;
        written.push(words.to_owned());
    }
    let ways = [
        format!(
            "heights are drawn {} times too large, so that the slope can be seen",
            view.times
        ),
        format!("heights × {}", view.times),
    ];
    let second = sheet.height - MARGIN - 0.5 * sizes.note;
    if view.times > 1.0 {
        for way in ways {
            let text = Text::regular(way.clone());
            if width_of(&text, sizes.note) <= sheet.width - 2.0 * MARGIN {
                let lettering = Lettering {
                    text,
                    size: sizes.note,
                    ink: Ink::SecondInk,
                    anchor: Anchor::Left,
                    place: None,
                };
                draft.label((MARGIN, second), lettering);
                written.push(way);
                break;
            }
        }
    }
    written
}

/// Door and far end under the ground.
fn ends(draft: &mut Draft, walk: &Lengthwise<'_>, view: &View, site: &Site) {
    let sizes = Sizes::on(draft.sheet());
    let y = view.bottom + 0.8 * sizes.tick;
    let run = walk
        .along
        .spots
        .last()
        .map_or(Length::default(), |last| last.station);
    let far = format!("{} from the door", site.shown_in.along(run));
    let texts = [
        ("your house", view.left - WALL, Anchor::Left),
        (far.as_str(), view.right, Anchor::Right),
    ];
    let room = view.right - view.left + WALL;
    let needed: f64 = texts
        .iter()
        .map(|(words, _, _)| width_of(&Text::regular(*words), sizes.tick) + 12.0)
        .sum();
    if needed > room {
        return;
    }
    for (words, x, anchor) in texts {
        let lettering = Lettering {
            text: Text::regular(words),
            size: sizes.tick,
            ink: Ink::SecondInk,
            anchor,
            place: None,
        };
        draft.label((x, y), lettering);
    }
}

fn words(site: &Site, walk: &Lengthwise<'_>, view: &View, legend: &[String]) -> String {
    let run = walk
        .along
        .spots
        .last()
        .map_or(Length::default(), |last| last.station);
    let lines = [
        format!(
            "The walk from the door, at the left, to its far end, {} away.",
            site.shown_in.along(run)
        ),
        if view.old.is_empty() {
            String::new()
        } else {
            "One line shows it as it lies today, the other as it will lie.".to_owned()
        },
        legend.join("; "),
    ];
    let lines: Vec<String> = lines.into_iter().filter(|line| !line.is_empty()).collect();
    lines.join("\n")
}
