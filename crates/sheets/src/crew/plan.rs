//! The laying plan across pages: parts of the walk at one round scale, joined at match lines.

use std::sync::Arc;

use underbrick_calc::lay::{Lay, PlanPoint};
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::Hand;
use underbrick_drawing::clearance::{LabelBox, label_box};
use underbrick_drawing::item::{Anchor, Dash, Drawing, Item, Pen, Point, Sheet};
use underbrick_drawing::palette::Ink;
use underbrick_drawing::text::Text;
use underbrick_drawing::{
    PlanPart, PlanView, in_language, measured_on, plan_as_laid, plan_part_as_laid,
};

use super::Designed;
use super::sections::to_scale;
use crate::paper::{Block, Figure, RoundScale, plan_view_scaled};

/// Room around the walk for dimensions and stations, in dots.
const AROUND: f64 = 105.0;
/// Height of the plan of the whole walk, in dots.
const WHOLE: f64 = 330.0;
/// Steps in which a part is made longer.
const STEP_M: f64 = 0.05;
/// How much of the walk is drawn past a match line, in dots: less than [`AROUND`] by the height of bar scale and legend.
const OVER: f64 = 44.0;
/// How far a match line stands out beside the walk, in dots: where its letter stands, and on the other side, where dimensions do.
const OUT: (f64, f64) = (50.0, 16.0);
/// The same on the plan of the whole walk.
const OUT_OF_WHOLE: (f64, f64) = (14.0, 8.0);
/// From the end of a match line to its letter, in dots.
const TO_LETTER: f64 = 10.0;
/// Height of the letter of a match line, in dots.
const LETTER: f64 = 15.0;
/// Room at the right for the words of a match line, in dots.
const MATCH_WORDS: f64 = 150.0;
/// How far a part is moved to the right where there is room, so that bar scale and legend stand beside it, in dots.
const MOST_MOVED: f64 = 90.0;
/// Parts after which no more are drawn: a walk of some 500 ft.
const MOST_PARTS: usize = 40;

/// A stretch of the run on one page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Part {
    pub from_m: f64,
    pub to_m: f64,
    centre: PlanPoint,
}

/// The plan of the whole walk, where it is drawn in parts; and the parts.
pub(super) fn plans(designed: &Designed<'_>, lay: &Lay) -> (Option<Block>, Vec<Block>) {
    let said = designed.said;
    let (width, height) = designed.sheet.paper.text_dots();
    let sheet = Sheet {
        width,
        // A heading and three lines of caption stand on the page as well.
        height: height - 150.0,
        text_scale: 1.0,
    };
    let scale = RoundScale::of_laying_plan(said.shown_in);
    let dots_per_metre = scale.dots_per_metre();
    let parts = parts(designed, (sheet.width, sheet.height), dots_per_metre);
    let scale = to_scale(said, Some(scale));
    let site = designed.sheet.site;
    let n_parts = parts.len();
    let mut blocks = Vec::new();
    let mut whole = None;
    if n_parts > 1 {
        let small = Sheet {
            height: WHOLE,
            ..sheet
        };
        let view = PlanView::whole(site, &designed.line.run, small);
        let (view, whole_scale) = plan_view_scaled(view, said.shown_in);
        let mut drawing = in_language(designed.sheet.language, || {
            plan_as_laid(site, designed.line, lay, view, small)
        });
        for (nth, part) in parts.iter().take(n_parts - 1).enumerate() {
            match_line(&mut drawing, designed, view, part.to_m, nth, false);
        }
        whole = Some(Block::Figure(Figure {
            caption: said.with("plan-whole", &[("scale", &to_scale(said, whole_scale))]),
            drawing: Arc::new(drawing),
        }));
    }
    for (nth, part) in parts.iter().enumerate() {
        let view = PlanView {
            centre: part.centre,
            dots_per_metre,
            turned: false,
            handles: false,
        };
        let own = Sheet {
            height: needed(designed, *part, dots_per_metre).min(sheet.height),
            ..sheet
        };
        let shown = PlanPart {
            from: metres(part.from_m),
            to: metres(part.to_m),
            over: metres(OVER / dots_per_metre),
            out_dots: OUT.0,
        };
        let mut drawing = in_language(designed.sheet.language, || {
            plan_part_as_laid(site, designed.line, lay, view, own, shown)
        });
        if nth > 0 {
            match_line(&mut drawing, designed, view, part.from_m, nth - 1, true);
        }
        if nth + 1 < n_parts {
            match_line(&mut drawing, designed, view, part.to_m, nth, true);
        }
        let caption = if n_parts == 1 {
            said.with("plan-caption-alone", &[("scale", &scale)])
        } else {
            let (from, to) = (
                said.shown_in.along(metres(part.from_m)),
                said.shown_in.along(metres(part.to_m)),
            );
            let (part, of) = ((nth + 1).to_string(), n_parts.to_string());
            let mut values = vec![
                ("part", part.as_str()),
                ("parts", &of),
                ("from", &from),
                ("to", &to),
                ("scale", &scale),
            ];
            let letter = letter(nth);
            if nth + 1 < n_parts {
                values.push(("match", &letter));
                said.with("plan-caption", &values)
            } else {
                said.with("plan-last", &values)
            }
        };
        // What the whole plan says in words stands on the plan of the whole walk.
        if n_parts > 1 {
            drawing.words.clone_from(&caption);
        }
        blocks.push(Block::Figure(Figure {
            caption,
            drawing: Arc::new(drawing),
        }));
    }
    (whole, blocks)
}

/// Letter of a match line.
fn letter(nth: usize) -> String {
    u8::try_from(nth).ok().filter(|nth| *nth < 26).map_or_else(
        || (nth + 1).to_string(),
        |nth| char::from(b'A' + nth).to_string(),
    )
}

/// Height in dots that a part needs with what stands around it.
fn needed(designed: &Designed<'_>, part: Part, dots_per_metre: f64) -> f64 {
    let (low, high) = bounds(designed, part.from_m, part.to_m);
    (high.away_m - low.away_m) * dots_per_metre + 2.0 * AROUND
}

/// The walk in as few parts as each fit a sheet of that size at that scale, from the door on; none longer than it must be.
pub(crate) fn parts(designed: &Designed<'_>, size: (f64, f64), dots_per_metre: f64) -> Vec<Part> {
    let length_m = in_metres(designed.line.run.length());
    let greedy = parts_up_to(designed, size, dots_per_metre, length_m);
    let longest_m = |parts: &[Part]| {
        let lengths = parts.iter().map(|part| part.to_m - part.from_m);
        lengths.fold(0.0, f64::max)
    };
    let most_m = longest_m(&greedy);
    let n_parts = f64::from(u32::try_from(greedy.len()).unwrap_or(u32::MAX).max(1));
    let mut cap_m = (length_m / n_parts / STEP_M).ceil() * STEP_M;
    while cap_m < most_m {
        let even = parts_up_to(designed, size, dots_per_metre, cap_m);
        if even.len() <= greedy.len() {
            return even;
        }
        cap_m += 2.0 * STEP_M;
    }
    greedy
}

/// The same, each no longer than `most_m`.
fn parts_up_to(
    designed: &Designed<'_>,
    size: (f64, f64),
    dots_per_metre: f64,
    most_m: f64,
) -> Vec<Part> {
    let length_m = in_metres(designed.line.run.length());
    let fits = |from_m: f64, to_m: f64| {
        let (low, high) = bounds(designed, from_m, to_m);
        to_m - from_m <= most_m + 1e-9
            && (high.right_m - low.right_m) * dots_per_metre + 2.0 * AROUND <= size.0
            && (high.away_m - low.away_m) * dots_per_metre + 2.0 * AROUND <= size.1
    };
    let mut parts = Vec::new();
    let mut from_m = 0.0;
    while from_m < length_m && parts.len() < MOST_PARTS {
        // A walk that is wider than the paper is drawn in steps of the least length all the same.
        let mut to_m = f64::min(from_m + 1.0, length_m);
        while to_m < length_m && fits(from_m, f64::min(to_m + STEP_M, length_m)) {
            to_m = f64::min(to_m + STEP_M, length_m);
        }
        // No stub at the far end.
        if length_m - to_m < 0.3 {
            to_m = length_m;
        }
        let (low, high) = bounds(designed, from_m, to_m);
        let beside = 0.5 * (size.0 - (high.right_m - low.right_m) * dots_per_metre);
        let moved_m = (beside - MATCH_WORDS).clamp(0.0, MOST_MOVED) / dots_per_metre;
        parts.push(Part {
            from_m,
            to_m,
            centre: PlanPoint {
                right_m: 0.5 * (low.right_m + high.right_m) - moved_m,
                away_m: 0.5 * (low.away_m + high.away_m),
            },
        });
        from_m = to_m;
    }
    parts
}

fn half_over_edges_m(designed: &Designed<'_>, station_m: f64) -> f64 {
    0.5 * in_metres(designed.line.run.clear_width_at(metres(station_m)))
        + in_metres(designed.bed.edge.brick.across)
}

fn spot(designed: &Designed<'_>, station_m: f64, offset_m: f64) -> PlanPoint {
    let (right, away) = designed
        .line
        .run
        .in_plan(metres(station_m), metres(offset_m));
    PlanPoint {
        right_m: in_metres(right),
        away_m: in_metres(away),
    }
}

/// Corners of the upright rectangle around a stretch with its edges.
fn bounds(designed: &Designed<'_>, from_m: f64, to_m: f64) -> (PlanPoint, PlanPoint) {
    let (mut low, mut high) = (
        PlanPoint {
            right_m: f64::INFINITY,
            away_m: f64::INFINITY,
        },
        PlanPoint {
            right_m: f64::NEG_INFINITY,
            away_m: f64::NEG_INFINITY,
        },
    );
    let n = 24.0;
    let mut nth = 0.0;
    while nth <= n {
        let station_m = from_m + (to_m - from_m) * nth / n;
        let half_m = half_over_edges_m(designed, station_m);
        for offset_m in [-half_m, half_m] {
            let at = spot(designed, station_m, offset_m);
            low.right_m = low.right_m.min(at.right_m);
            low.away_m = low.away_m.min(at.away_m);
            high.right_m = high.right_m.max(at.right_m);
            high.away_m = high.away_m.max(at.away_m);
        }
        nth += 1.0;
    }
    (low, high)
}

/// A match line across the walk, with its letter at one end.
fn match_line(
    drawing: &mut Drawing,
    designed: &Designed<'_>,
    view: PlanView,
    station_m: f64,
    nth: usize,
    in_words: bool,
) {
    let half_m = half_over_edges_m(designed, station_m);
    let outwards = match measured_on(&designed.line.run, metres(station_m)) {
        Hand::Left => 1.0,
        Hand::Right => -1.0,
    };
    let (out, other) = if in_words { OUT } else { OUT_OF_WHOLE };
    let out_m = half_m + out / view.dots_per_metre;
    let other_m = half_m + other / view.dots_per_metre;
    let point = |off_m: f64| {
        let at = spot(designed, station_m, outwards * off_m);
        if view.turned {
            Point {
                x: at.away_m,
                y: -at.right_m,
            }
        } else {
            Point {
                x: at.right_m,
                y: at.away_m,
            }
        }
    };
    let line = Item::Line {
        points: vec![point(-other_m), point(out_m)],
        pen: Pen {
            ink: Ink::Ink,
            width: 2.6,
            dash: Dash::Dashed,
        },
        place: None,
    };
    // Below the letters of the pieces, each of which stands on a patch of paper.
    let is_label = |item: &Item| matches!(item, Item::Label { .. });
    let first_label = drawing.items.iter().position(is_label);
    let under = first_label.map_or(drawing.items.len(), |idx| idx.saturating_sub(1));
    drawing.items.insert(under, line);
    let letter = letter(nth);
    let words = designed.said.with("match-line", &[("letter", &letter)]);
    let ways = if in_words {
        vec![words, letter]
    } else {
        vec![letter]
    };
    // At the end of the line, else further out; on the other side, where dimensions are, as near as on this.
    let at_distance = |further: f64| {
        let to_letter_m = (TO_LETTER + further) / view.dots_per_metre;
        [
            (point(out_m), point(out_m + to_letter_m)),
            (point(-other_m), point(-other_m - to_letter_m)),
        ]
    };
    let strokes: Vec<((f64, f64), (f64, f64))> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Line { points, .. } => Some(points),
            Item::Label { .. } | Item::Area { .. } | Item::Hatch { .. } => None,
        })
        .flat_map(|points| points.windows(2))
        .filter_map(|pair| match pair {
            [from, to] => Some((
                drawing.sheet_from_drawing(*from),
                drawing.sheet_from_drawing(*to),
            )),
            _ => None,
        })
        .collect();
    let taken: Vec<LabelBox> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Label {
                at,
                text,
                size,
                anchor,
                ..
            } => Some(label_box(drawing, *at, text, *size, *anchor)),
            Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
        })
        .collect();
    // The words where they fit the sheet and touch nothing, else the letter alone, else on the other side.
    let standing = |(end, beside): (Point, Point), way: &str, may_cross: bool| {
        // A line that runs up or down the sheet has its letter at its end, above or below.
        let aside = (beside.x - end.x) * view.dots_per_metre;
        let anchor = if aside < -0.4 * TO_LETTER {
            Anchor::Right
        } else if aside > 0.4 * TO_LETTER {
            Anchor::Left
        } else {
            Anchor::Middle
        };
        let text = Text::bold(way);
        let room = label_box(drawing, beside, &text, LETTER, anchor);
        let is_on_sheet = room.left >= 0.0 && room.right <= drawing.sheet.width;
        let is_crossed = !may_cross
            && strokes
                .iter()
                .any(|(from, to)| room.is_crossed_by(*from, *to));
        let is_free = is_on_sheet && !is_crossed && !taken.iter().any(|taken| taken.meets(&room));
        is_free.then_some((beside, text, anchor))
    };
    // A letter that a line runs through is better than none.
    let fitting = [(0.0, false), (16.0, false), (32.0, false), (0.0, true)]
        .into_iter()
        .flat_map(|(further, may_cross)| {
            let sides = at_distance(further);
            sides.into_iter().map(move |side| (side, may_cross))
        })
        .flat_map(|(side, may_cross)| ways.iter().map(move |way| (side, way, may_cross)))
        .find_map(|(side, way, may_cross)| standing(side, way, may_cross));
    drawing
        .items
        .extend(fitting.map(|(at, text, anchor)| Item::Label {
            at,
            text,
            size: LETTER,
            ink: Ink::Ink,
            anchor,
            place: None,
        }));
}
