//! Every piece that is seen, its hatch, and what is written on it.

use super::room::{Dots, Room, grown, label_box};
use super::strokes::{Scale, strokes};
use super::view::Bounds;
use super::{Detail, Plan};
use crate::clearance::LabelBox;
use crate::draft::{Draft, HAIRLINE, Lettering, rectangle, solid};
use crate::inside::contains;
use crate::item::{Anchor, Item, Point};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::lay::{Part, Piece};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;

/// Space about a letter on its plate, in dots.
const ABOUT_A_LETTER: f64 = 2.5;

/// A piece that is seen.
pub(crate) struct Seen<'a> {
    pub piece_idx: usize,
    pub piece: &'a Piece,
    /// Its outline as points of the drawing.
    pub outline: Vec<Point>,
}

impl Seen<'_> {
    /// How it is named by a finger.
    pub fn place(&self) -> Option<Place> {
        u32::try_from(self.piece_idx).ok().map(Place::Piece)
    }
}

/// Draws the pieces that are seen, and gives them; none where they are too small.
pub(super) fn draw<'a>(draft: &mut Draft, plan: &Plan<'a>) -> Vec<Seen<'a>> {
    if plan.detail == Detail::Band {
        return Vec::new();
    }
    let pieces = plan.input.pieces;
    let sheet = Bounds::seen(plan.view, plan.sheet, 1.0);
    let mut seen = Vec::new();
    for (piece_idx, piece) in pieces.all().iter().enumerate() {
        let corners = pieces.outline(piece);
        let station_m = in_metres(piece.station);
        if station_m < plan.stations_m.0 || station_m > plan.stations_m.1 {
            continue;
        }
        if sheet.meets(Bounds::NOTHING.with(corners)) {
            seen.push(Seen {
                piece_idx,
                piece,
                outline: plan.points(corners),
            });
        }
    }
    let width_dots = in_metres(plan.wishes.brick_width) * plan.view.dots_per_metre;
    let ink = if width_dots < 7.0 {
        Ink::ClayMark
    } else {
        Ink::Ink
    };
    let width = (0.07 * width_dots).clamp(0.35, 1.0);
    let scale = Scale {
        metres_per_dot: 1.0 / plan.view.dots_per_metre,
        width_dots,
    };
    for each in &seen {
        let is_edge = each.piece.part != Part::Field;
        let pen = if is_edge {
            solid(Ink::Ink, (1.5 * width).max(0.7))
        } else {
            solid(ink, width)
        };
        draft.area(each.outline.clone(), Ink::Clay, Some(pen), each.place());
        if each.piece.kind.is_cut() {
            let marks = strokes(&each.outline, each.piece.kind, scale);
            if !marks.is_empty() {
                draft.push(Item::Hatch {
                    strokes: marks,
                    pen: solid(Ink::Ink, HAIRLINE.min(0.12 * width_dots)),
                });
            }
        }
    }
    seen
}

/// Writes on each piece what it is called, where it has room for that.
pub(super) fn names(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room, seen: &[Seen<'_>]) {
    for each in seen {
        let Some(shown) = Shown::of(plan, draft, each) else {
            continue;
        };
        let number = format!("{}.{}", each.piece.course, each.piece.nth);
        let letter = (plan.input.letter)(each.piece_idx);
        if each.piece.kind.is_cut() {
            let Some(letter) = letter else { continue };
            let both = format!("{letter}  {number}");
            let ways: &[String] = if plan.detail >= Detail::Names {
                &[both, letter]
            } else {
                &[letter]
            };
            for written in ways {
                if shown.plate(draft, plan, room, each, Text::bold(written.clone())) {
                    break;
                }
            }
        } else if plan.detail >= Detail::Names && each.piece.part == Part::Field {
            // The number of the course stands at the door as well.
            for written in [number, each.piece.nth.to_string()] {
                let lettering = lettering(plan, each, Text::regular(written));
                if shown.write(draft, room, lettering) {
                    break;
                }
            }
        }
    }
}

/// What of a piece lies on the sheet, in dots.
struct Shown {
    outline: Vec<Point>,
    middle: Dots,
}

impl Shown {
    fn of(plan: &Plan<'_>, draft: &Draft, each: &Seen<'_>) -> Option<Self> {
        let corners = each.outline.iter().map(|point| {
            let (x, y) = draft.dots(*point);
            Point { x, y }
        });
        let outline = on_sheet(corners.collect(), plan.sheet.width, plan.sheet.height);
        let n_corners = outline.len();
        if n_corners < 3 {
            return None;
        }
        // A count of corners is far below the range in which a float has gaps.
        let count = outline.iter().map(|_| 1.0).sum::<f64>();
        let middle = (
            outline.iter().map(|point| point.x).sum::<f64>() / count,
            outline.iter().map(|point| point.y).sum::<f64>() / count,
        );
        Some(Self { outline, middle })
    }

    fn holds(&self, room: &LabelBox) -> bool {
        room.corners()
            .iter()
            .all(|(x, y)| contains(&self.outline, Point { x: *x, y: *y }))
    }

    /// Straight on the clay; whether the piece is large enough.
    fn write(&self, draft: &mut Draft, room: &mut Room, lettering: Lettering) -> bool {
        let taken = label_box(
            self.middle,
            &lettering.text,
            lettering.size,
            lettering.anchor,
        );
        if !self.holds(&grown(&taken, 1.0)) {
            return false;
        }
        // Where something else stands in the way, a smaller figure does not help.
        room.label(draft, self.middle, lettering, false);
        true
    }

    /// On a plate of paper, which keeps the hatch off it.
    fn plate(
        &self,
        draft: &mut Draft,
        plan: &Plan<'_>,
        room: &mut Room,
        each: &Seen<'_>,
        text: Text,
    ) -> bool {
        let lettering = lettering(plan, each, text);
        let taken = label_box(
            self.middle,
            &lettering.text,
            lettering.size,
            lettering.anchor,
        );
        let plate = grown(&taken, ABOUT_A_LETTER);
        if !self.holds(&plate) || !room.is_free(&plate) {
            return false;
        }
        room.take(plate);
        let outline = rectangle(plate.left, plate.top, plate.right, plate.bottom);
        let rim = solid(Ink::Ink, 0.6);
        draft.shape(&outline, Ink::Paper, Some(rim), each.place());
        draft.label(self.middle, lettering);
        true
    }
}

fn lettering(plan: &Plan<'_>, each: &Seen<'_>, text: Text) -> Lettering {
    Lettering {
        text,
        size: plan.sizes.tick,
        ink: Ink::Ink,
        anchor: Anchor::Middle,
        place: each.place(),
    }
}

/// What of an outline lies on the sheet: cut off at one side after the other.
fn on_sheet(outline: Vec<Point>, width: f64, height: f64) -> Vec<Point> {
    let sides: [fn(Point, f64, f64) -> f64; 4] = [
        |point, _, _| point.x,
        |point, width, _| width - point.x,
        |point, _, _| point.y,
        |point, _, height| height - point.y,
    ];
    sides.into_iter().fold(outline, |outline, side| {
        let inside = |point: Point| side(point, width, height);
        let mut kept = Vec::with_capacity(outline.len() + 1);
        for (from, to) in crate::inside::closed_sides(&outline) {
            let (here, there) = (inside(from), inside(to));
            if here >= 0.0 {
                kept.push(from);
            }
            if (here >= 0.0) != (there >= 0.0) {
                let share = here / (here - there);
                kept.push(Point {
                    x: from.x + share * (to.x - from.x),
                    y: from.y + share * (to.y - from.y),
                });
            }
        }
        kept
    })
}
