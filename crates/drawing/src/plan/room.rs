//! Where there is still room on the sheet: labels go where they touch nothing, or not at all. All in dots of the sheet.

use crate::clearance::LabelBox;
use crate::draft::{Draft, Lettering, width_of};
use crate::inside::{closed_sides, contains};
use crate::item::{Anchor, Pen, Point, Sheet};
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::place::Place;

/// Least distance of a label from anything else.
const CLEAR: f64 = 2.0;
/// From a mark to the words beside it.
const BESIDE: f64 = 5.0;

/// A spot of the sheet.
pub(crate) type Dots = (f64, f64);

/// What has been taken so far.
pub(crate) struct Room {
    sheet: Sheet,
    /// What labels keep off but lines may run under.
    plates: Vec<LabelBox>,
    boxes: Vec<LabelBox>,
    lines: Vec<(Dots, Dots)>,
    /// What lies between the edges, as outlines.
    band: Vec<Vec<Point>>,
}

/// Lines of text that belong together, the first uppermost.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    pub lines: Vec<(Text, f64, Ink)>,
    pub place: Option<Place>,
}

impl Words {
    /// One line.
    pub fn one(text: Text, size: f64, ink: Ink, place: Option<Place>) -> Self {
        Self {
            lines: vec![(text, size, ink)],
            place,
        }
    }

    /// A further line below.
    pub fn and(mut self, text: Text, size: f64, ink: Ink) -> Self {
        self.lines.push((text, size, ink));
        self
    }

    /// The first line alone.
    pub fn first_line(&self) -> Self {
        Self {
            lines: self.lines.iter().take(1).cloned().collect(),
            place: self.place,
        }
    }

    fn width(&self) -> f64 {
        let widths = self
            .lines
            .iter()
            .map(|(text, size, _)| width_of(text, *size));
        widths.fold(0.0, f64::max)
    }

    fn height(&self) -> f64 {
        self.lines.iter().map(|(_, size, _)| 1.2 * size).sum()
    }
}

impl Room {
    /// An empty sheet with the band of the walk on it.
    pub fn on(sheet: Sheet, band: Vec<Vec<Dots>>) -> Self {
        let as_point = |(x, y): Dots| Point { x, y };
        Self {
            sheet,
            plates: Vec::new(),
            boxes: Vec::new(),
            lines: Vec::new(),
            band: band
                .into_iter()
                .map(|outline| outline.into_iter().map(as_point).collect())
                .collect(),
        }
    }

    /// Whether a spot lies on the sheet.
    pub fn is_on_sheet(&self, (x, y): Dots) -> bool {
        x >= 0.0 && y >= 0.0 && x <= self.sheet.width && y <= self.sheet.height
    }

    /// Whether a spot lies on the walk.
    pub fn is_on_band(&self, (x, y): Dots) -> bool {
        self.band
            .iter()
            .any(|outline| contains(outline, Point { x, y }))
    }

    /// Keeps labels out of a rectangle that covers what lies under it.
    pub fn keep_clear(&mut self, room: LabelBox) {
        self.plates.push(room);
    }

    /// Keeps labels and lines out of a rectangle.
    pub fn take(&mut self, room: LabelBox) {
        self.boxes.push(room);
    }

    /// Whether a rectangle is free of labels and lines and lies on the sheet.
    pub fn is_free(&self, room: &LabelBox) -> bool {
        let about = grown(room, CLEAR);
        about.left >= 0.0
            && about.top >= 0.0
            && about.right <= self.sheet.width
            && about.bottom <= self.sheet.height
            && !self.plates.iter().any(|plate| plate.meets(&about))
            && !self.boxes.iter().any(|taken| taken.meets(&about))
            && !self
                .lines
                .iter()
                .any(|(from, to)| about.is_crossed_by(*from, *to))
    }

    /// Whether a rectangle is free and does not touch the walk.
    pub fn is_free_paper(&self, room: &LabelBox) -> bool {
        self.is_free(room) && !self.touches_band(&grown(room, CLEAR))
    }

    fn touches_band(&self, room: &LabelBox) -> bool {
        self.band.iter().any(|outline| {
            room.corners()
                .iter()
                .any(|(x, y)| contains(outline, Point { x: *x, y: *y }))
                || closed_sides(outline)
                    .any(|(from, to)| room.is_crossed_by((from.x, from.y), (to.x, to.y)))
        })
    }

    /// Whether a line touches no label that has been set.
    pub fn may_pass(&self, through: &[Dots]) -> bool {
        pairs(through)
            .all(|(from, to)| !self.boxes.iter().any(|taken| taken.is_crossed_by(from, to)))
    }

    /// Draws a line and keeps labels off it; a line that would run through a label is left out.
    pub fn line(&mut self, draft: &mut Draft, through: &[Dots], pen: Pen, place: Option<Place>) {
        if !self.may_pass(through) {
            return;
        }
        self.lines.extend(pairs(through));
        draft.stroke(through, pen, place);
    }

    /// Keeps labels off a line that somebody else draws.
    pub fn keep_off(&mut self, through: &[Dots]) {
        self.lines.extend(pairs(through));
    }

    /// Sets a label if there is room; `on_paper` keeps it off the walk. Whether it was set.
    pub fn label(
        &mut self,
        draft: &mut Draft,
        at: Dots,
        lettering: Lettering,
        on_paper: bool,
    ) -> bool {
        let room = label_box(at, &lettering.text, lettering.size, lettering.anchor);
        let fits = if on_paper {
            self.is_free_paper(&room)
        } else {
            self.is_free(&room)
        };
        if fits {
            self.boxes.push(room);
            draft.label(at, lettering);
        }
        fits
    }

    /// The rectangle that words would take beside a spot, off into a direction, where they have room.
    pub fn free_beside(&self, spot: Dots, off: Dots, words: &Words) -> Option<LabelBox> {
        let room = block(spot, off, words);
        self.is_free_paper(&room).then_some(room)
    }

    /// Sets words beside a spot, off into a direction, where they touch neither the walk nor anything else. Whether they were set.
    pub fn beside(&mut self, draft: &mut Draft, spot: Dots, off: Dots, words: &Words) -> bool {
        let Some(room) = self.free_beside(spot, off, words) else {
            return false;
        };
        self.boxes.push(room);
        set(draft, &room, off, words);
        true
    }
}

/// The rectangle that words take beside a spot.
fn block((x, y): Dots, (off_x, off_y): Dots, words: &Words) -> LabelBox {
    let (width, height) = (words.width(), words.height());
    let reach = BESIDE + (off_x.abs() * width + off_y.abs() * height) / 2.0;
    let (middle_x, middle_y) = (x + off_x * reach, y + off_y * reach);
    LabelBox {
        left: middle_x - width / 2.0,
        top: middle_y - height / 2.0,
        right: middle_x + width / 2.0,
        bottom: middle_y + height / 2.0,
    }
}

fn set(draft: &mut Draft, room: &LabelBox, (off_x, _): Dots, words: &Words) {
    let (x, anchor) = if off_x > 0.4 {
        (room.left, Anchor::Left)
    } else if off_x < -0.4 {
        (room.right, Anchor::Right)
    } else {
        (f64::midpoint(room.left, room.right), Anchor::Middle)
    };
    let mut top = room.top;
    for (text, size, ink) in &words.lines {
        draft.label(
            (x, top + 0.55 * size),
            Lettering {
                text: text.clone(),
                size: *size,
                ink: *ink,
                anchor,
                place: words.place,
            },
        );
        top += 1.2 * size;
    }
}

/// The rectangle that a label takes.
pub(crate) fn label_box((x, y): Dots, text: &Text, size: f64, anchor: Anchor) -> LabelBox {
    let width = width_of(text, size);
    let left = x - width * anchor.share();
    LabelBox {
        left,
        top: y - 0.42 * size,
        right: left + width,
        bottom: y + 0.56 * size,
    }
}

/// A rectangle larger by so much on each side.
pub(crate) fn grown(room: &LabelBox, by: f64) -> LabelBox {
    LabelBox {
        left: room.left - by,
        top: room.top - by,
        right: room.right + by,
        bottom: room.bottom + by,
    }
}

/// The direction from one spot to another, of length one; to the right where they are the same.
pub(crate) fn direction(from: Dots, to: Dots) -> Dots {
    let (x, y) = (to.0 - from.0, to.1 - from.1);
    let length = libm::hypot(x, y);
    if length > 0.0 {
        (x / length, y / length)
    } else {
        (1.0, 0.0)
    }
}

/// So far from a spot into a direction.
pub(crate) fn off((x, y): Dots, (off_x, off_y): Dots, dots: f64) -> Dots {
    (x + dots * off_x, y + dots * off_y)
}

fn pairs(through: &[Dots]) -> impl Iterator<Item = (Dots, Dots)> + '_ {
    through.windows(2).filter_map(|pair| match pair {
        [from, to] => Some((*from, *to)),
        _ => None,
    })
}
