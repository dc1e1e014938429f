//! What stands in the corners of the sheet: what is drawn, north, the bar scale, and the key of the hatches.

use super::bricks::Seen;
use super::room::{Dots, Room, off};
use super::strokes::{Scale, strokes};
use super::{Detail, Plan};
use crate::clearance::LabelBox;
use crate::dimension::bar_scale;
use crate::draft::{Draft, HAIRLINE, Lettering, rectangle, solid, width_of};
use crate::item::{Anchor, Item, Point};
use crate::palette::Ink;
use crate::text::Text;
use crate::wording;
use underbrick_calc::lay::Kind;
use underbrick_calc::quantity::unit;
use underbrick_calc::site::ShownIn;

/// From the sheet's edge, in dots.
const MARGIN: f64 = 12.0;
/// Space inside a plate, in dots.
const INSIDE: f64 = 7.0;

/// What has a place in a corner.
pub(super) struct Corners {
    title: Option<(LabelBox, Title)>,
    north: Option<LabelBox>,
    scale: Option<(LabelBox, BarScale)>,
    key: Vec<(LabelBox, Kind, Text)>,
}

struct BarScale {
    part_dots: f64,
    n_parts: usize,
    end: String,
}

/// Finds a place for each and keeps other labels off it.
pub(super) fn lay_out(plan: &Plan<'_>, room: &mut Room, seen: &[Seen<'_>]) -> Corners {
    let (width, height) = (plan.sheet.width, plan.sheet.height);
    let sizes = plan.sizes;
    let mut taken: Vec<LabelBox> = Vec::new();
    let mut take = |plate: LabelBox| {
        let fits = plate.left >= 0.0
            && plate.top >= 0.0
            && plate.right <= width
            && plate.bottom <= height
            && !taken.iter().any(|other| other.meets(&plate));
        fits.then(|| {
            taken.push(plate);
            plate
        })
    };
    let north_width = north_width(plan);
    let north = take(LabelBox {
        left: width - MARGIN - north_width,
        top: MARGIN - INSIDE,
        right: width - MARGIN + INSIDE,
        bottom: MARGIN + 46.0 + 2.0 * sizes.note,
    });
    let title = titles(plan).into_iter().find_map(|title| {
        let plate = take(LabelBox {
            left: MARGIN - INSIDE,
            top: MARGIN - INSIDE,
            right: MARGIN + title.width() + INSIDE,
            bottom: MARGIN + title.height() + INSIDE * 0.5,
        })?;
        Some((plate, title))
    });
    let bar = bar(plan);
    let scale = bar.and_then(|bar| {
        let right = MARGIN + bar.part_dots * count(bar.n_parts) + INSIDE;
        let plate = LabelBox {
            left: MARGIN - INSIDE,
            top: height - MARGIN - 1.3 * sizes.tick - 14.0,
            right: right.max(MARGIN + width_of(&Text::regular(bar.end.clone()), sizes.tick) + 24.0),
            bottom: height - MARGIN + INSIDE,
        };
        take(plate).map(|plate| (plate, bar))
    });
    let mut key = Vec::new();
    let mut left = scale.as_ref().map_or(MARGIN, |(plate, _)| plate.right) + 10.0;
    for (kind, n_pieces) in cuts(seen) {
        let text = Text::regular(format!("{n_pieces} {}", kind.name()));
        let right = left + 2.0 * INSIDE + 30.0 + width_of(&text, sizes.tick);
        let plate = LabelBox {
            left,
            top: height - MARGIN - 1.6 * sizes.tick,
            right,
            bottom: height - MARGIN + INSIDE,
        };
        let Some(plate) = take(plate) else { break };
        key.push((plate, kind, text));
        left = right + 2.0;
    }
    for plate in taken {
        room.keep_clear(plate);
    }
    Corners {
        title,
        north,
        scale,
        key,
    }
}

/// A count of marks on one sheet as a number that lengths are multiplied with.
fn count(n_marks: usize) -> f64 {
    u32::try_from(n_marks).map_or(0.0, f64::from)
}

/// Between the name of the drawing and what is said beside it, in dots.
const AFTER_NAME: f64 = 14.0;

/// What the drawing is: rows of words, each set beside the one before it.
struct Title {
    rows: Vec<Vec<(Text, f64, Ink)>>,
}

impl Title {
    fn width(&self) -> f64 {
        let rows = self.rows.iter().map(|row| {
            let words: f64 = row
                .iter()
                .map(|(text, size, _)| width_of(text, *size) + AFTER_NAME)
                .sum();
            words - AFTER_NAME
        });
        rows.fold(0.0, f64::max)
    }

    fn height(&self) -> f64 {
        let rows = self.rows.iter().map(|row| row_height(row));
        rows.sum()
    }
}

fn row_height(row: &[(Text, f64, Ink)]) -> f64 {
    row.iter()
        .map(|(_, size, _)| 1.25 * size)
        .fold(0.0, f64::max)
}

/// From the fullest to the shortest; the first that has room is drawn. Near by, its name is enough.
fn titles(plan: &Plan<'_>) -> Vec<Title> {
    let (sizes, site) = (plan.sizes, plan.input.site);
    let n_pieces = plan.input.pieces.all().len();
    let laid = if n_pieces == 0 {
        "no brick laid out".to_owned()
    } else {
        let bond = site.lay.bond.name().to_lowercase();
        format!("{bond}, {}", wording::counted(n_pieces, "piece"))
    };
    let name = || (Text::bold("plan, to scale"), sizes.label, Ink::Ink);
    let note = |words: &str| (Text::regular(words), sizes.note, Ink::SecondInk);
    let mut ways: Vec<Vec<Vec<(Text, f64, Ink)>>> = Vec::new();
    if plan.detail < Detail::Names {
        if let Some(fall) = plan.input.fall {
            let fall = format!("{} away from the door", wording::fall(fall, site.shown_in));
            ways.push(vec![vec![name(), note(&format!("{laid}, {fall}"))]]);
            ways.push(vec![vec![name(), note(&laid)], vec![note(&fall)]]);
        }
        ways.push(vec![vec![name(), note(&laid)]]);
    }
    ways.push(vec![vec![name()]]);
    ways.into_iter().map(|rows| Title { rows }).collect()
}

/// Kinds of cut pieces that are seen, with how many of each.
fn cuts(seen: &[Seen<'_>]) -> Vec<(Kind, usize)> {
    let kinds = [
        Kind::ThreeQuarter,
        Kind::Half,
        Kind::Cut,
        Kind::Ripped,
        Kind::Tapered,
        Kind::Shaped,
    ];
    let counts = kinds.map(|kind| {
        let n_pieces = seen.iter().filter(|each| each.piece.kind == kind).count();
        (kind, n_pieces)
    });
    counts
        .into_iter()
        .filter(|(_, n_pieces)| *n_pieces > 0)
        .collect()
}

fn bar(plan: &Plan<'_>) -> Option<BarScale> {
    // Length of a part in metres, parts, and what their end is called.
    let lengths: &[(f64, usize, &str)] = match plan.input.site.shown_in {
        ShownIn::FeetInches => &[
            (0.0254 / 4.0, 4, "1 in"),
            (0.0254, 3, "3 in"),
            (0.0254 * 3.0, 4, "1 ft"),
            (0.3048, 3, "3 ft"),
            (0.3048 * 2.0, 5, "10 ft"),
            (0.3048 * 5.0, 4, "20 ft"),
            (0.3048 * 10.0, 5, "50 ft"),
            (0.3048 * 20.0, 5, "100 ft"),
            (0.3048 * 50.0, 4, "200 ft"),
        ],
        ShownIn::Metric => &[
            (0.005, 4, "20 mm"),
            (0.01, 5, "50 mm"),
            (0.05, 4, "200 mm"),
            (0.1, 5, "500 mm"),
            (0.25, 4, "1 m"),
            (1.0, 3, "3 m"),
            (2.0, 5, "10 m"),
            (5.0, 4, "20 m"),
            (10.0, 5, "50 m"),
        ],
    };
    let most = (0.3 * plan.sheet.width).clamp(165.0, 230.0) * plan.sheet.text_scale.max(1.0);
    let fitting = lengths.iter().rev().find(|(part_m, n_parts, end)| {
        let dots = part_m * count(*n_parts) * plan.view.dots_per_metre;
        let figures = ["0", end].map(|figure| width_of(&Text::regular(figure), plan.sizes.tick));
        let least = figures.iter().sum::<f64>() + 12.0;
        (least..=most).contains(&dots)
    });
    fitting.map(|(part_m, n_parts, end)| BarScale {
        part_dots: part_m * plan.view.dots_per_metre,
        n_parts: *n_parts,
        end: (*end).to_owned(),
    })
}

/// Draws them on plates of paper, over whatever lies there.
pub(super) fn draw(draft: &mut Draft, plan: &Plan<'_>, corners: &Corners) {
    let plate = |draft: &mut Draft, of: &LabelBox| {
        draft.shape(
            &rectangle(of.left, of.top, of.right, of.bottom),
            Ink::Paper,
            None,
            None,
        );
    };
    if let Some((of, title)) = &corners.title {
        plate(draft, of);
        let mut top = MARGIN - 2.0;
        for row in &title.rows {
            let mut left = MARGIN;
            for (text, size, ink) in row {
                let lettering = lettering(text.clone(), *size, *ink, Anchor::Left);
                draft.label((left, top + 0.48 * row_height(row)), lettering);
                left += width_of(text, *size) + AFTER_NAME;
            }
            top += row_height(row);
        }
    }
    if let Some(of) = &corners.north {
        plate(draft, of);
        north(draft, plan, of);
    }
    if let Some((of, bar)) = &corners.scale {
        plate(draft, of);
        let y = of.bottom - INSIDE - 1.25 * plan.sizes.tick;
        bar_scale(draft, (MARGIN, y), bar.part_dots, bar.n_parts, &bar.end);
    }
    for (of, kind, text) in &corners.key {
        plate(draft, of);
        let middle = f64::midpoint(of.top, of.bottom);
        let swatch = rectangle(
            of.left + INSIDE,
            middle - 8.0,
            of.left + INSIDE + 24.0,
            middle + 8.0,
        );
        let outline: Vec<Point> = swatch.iter().map(|at| draft.point(*at)).collect();
        let scale = Scale {
            metres_per_dot: 1.0 / plan.view.dots_per_metre,
            width_dots: 26.0,
        };
        let marks = strokes(&outline, *kind, scale);
        draft.area(outline, Ink::Clay, Some(solid(Ink::Ink, HAIRLINE)), None);
        draft.push(Item::Hatch {
            strokes: marks,
            pen: solid(Ink::Ink, HAIRLINE),
        });
        let lettering = lettering(text.clone(), plan.sizes.tick, Ink::SecondInk, Anchor::Left);
        draft.label((of.left + INSIDE + 30.0, middle), lettering);
    }
}

fn lettering(text: Text, size: f64, ink: Ink, anchor: Anchor) -> Lettering {
    Lettering {
        text,
        size,
        ink,
        anchor,
        place: None,
    }
}

/// What the arrow says where north is not known.
const AWAY: [&str; 2] = ["away from", "the door"];

fn north_width(plan: &Plan<'_>) -> f64 {
    match plan.input.site.lay.bearing {
        Some(_) => 46.0,
        None => {
            let [first, _] = AWAY;
            width_of(&Text::regular(first), plan.sizes.tick).max(46.0) + INSIDE
        }
    }
}

/// Where the arrow of a corner stands.
fn arrow_middle(of: &LabelBox) -> Dots {
    (f64::midpoint(of.left, of.right), of.top + INSIDE + 22.0)
}

/// An arrow to north where the bearing of the way out is known; else the way away from the door.
fn north(draft: &mut Draft, plan: &Plan<'_>, of: &LabelBox) {
    let out = if plan.view.turned {
        (1.0, 0.0)
    } else {
        (0.0, -1.0)
    };
    let Some(bearing) = plan.input.site.lay.bearing else {
        return away(draft, plan, of, out);
    };
    // A bearing turns clockwise from north to the way out: north lies as far back from the way out.
    let back = -bearing.get::<unit::radian>();
    let (sin, cos) = (libm::sin(back), libm::cos(back));
    let way = (out.0 * cos - out.1 * sin, out.0 * sin + out.1 * cos);
    let aside = (-way.1, way.0);
    let middle = arrow_middle(of);
    let (tip, tail) = (off(middle, way, 22.0), off(middle, way, -22.0));
    let (notch, foot) = (off(tip, way, -20.0), off(tip, way, -26.0));
    for (side, fill) in [(9.0, Ink::Ink), (-9.0, Ink::Paper)] {
        let half = [tip, off(foot, aside, side), notch];
        draft.shape(&half, fill, Some(solid(Ink::Ink, HAIRLINE)), None);
    }
    draft.stroke(&[notch, tail], solid(Ink::Ink, 1.6), None);
    let lettering = lettering(Text::bold("N"), plan.sizes.note, Ink::Ink, Anchor::Middle);
    draft.label((middle.0, of.bottom - 0.75 * plan.sizes.note), lettering);
}

fn away(draft: &mut Draft, plan: &Plan<'_>, of: &LabelBox, way: Dots) {
    let middle = arrow_middle(of);
    let aside = (-way.1, way.0);
    let (tip, tail) = (off(middle, way, 18.0), off(middle, way, -18.0));
    let neck = off(tip, way, -12.0);
    draft.stroke(&[neck, tail], solid(Ink::Ink, 1.6), None);
    let head = [tip, off(neck, aside, 6.0), off(neck, aside, -6.0)];
    draft.shape(&head, Ink::Ink, None, None);
    let size = plan.sizes.tick;
    let mut y = of.bottom - 1.95 * size;
    for line in AWAY {
        let lettering = lettering(Text::regular(line), size, Ink::SecondInk, Anchor::Middle);
        draft.label((middle.0, y), lettering);
        y += 1.2 * size;
    }
}
