//! A strip across the page that is never parted: marks in dots from its upper left corner, and what they are.

use std::rc::Rc;

use underbrick_drawing::font::Weight;
use underbrick_drawing::item::{Anchor, Dash, Item, Pen, Point};
use underbrick_drawing::palette::Ink;
use underbrick_drawing::text::Text;

use super::pages::{PlacedPicture, Tagged};

/// Lines of a frame and under a head, in dots.
pub(super) const RULE: f64 = 1.4;
/// Lines between rows.
pub(super) const HAIRLINE: f64 = 0.45;

/// A strip.
#[derive(Clone, Debug, Default)]
pub(super) struct Strip {
    pub height: f64,
    /// Space above it, unless it opens a page.
    pub before: f64,
    /// Whether the next strip must stand on the same page.
    pub keeps_next: bool,
    pub starts_page: bool,
    /// Whether it is left out rather than begin a page: one more line to write on.
    pub is_spare: bool,
    /// What is repeated above it where it opens a page: the head of its table.
    pub head: Option<Rc<Strip>>,
    /// In dots to the right and up from the upper left corner.
    pub items: Vec<Item>,
    pub tagged: Vec<Tagged>,
    pub pictures: Vec<PlacedPicture>,
}

/// How a line of text is set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Type {
    pub size: f64,
    pub weight: Weight,
    pub ink: Ink,
}

impl Type {
    pub const fn regular(size: f64) -> Self {
        Self {
            size,
            weight: Weight::Regular,
            ink: Ink::Ink,
        }
    }

    pub const fn bold(size: f64) -> Self {
        Self {
            weight: Weight::Bold,
            ..Self::regular(size)
        }
    }

    pub const fn second(size: f64) -> Self {
        Self {
            ink: Ink::SecondInk,
            ..Self::regular(size)
        }
    }

    /// From one line to the next.
    pub fn leading(self) -> f64 {
        self.size * 1.36
    }
}

impl Strip {
    pub fn of_height(height: f64) -> Self {
        Self {
            height,
            ..Self::default()
        }
    }

    /// One line of text whose line starts `top` below the strip's upper edge.
    pub fn text(&mut self, x: f64, top: f64, written: &str, set: Type, anchor: Anchor) {
        if written.is_empty() {
            return;
        }
        self.items.push(Item::Label {
            at: Point {
                x,
                y: -(top + 0.5 * set.leading()),
            },
            text: Text {
                written: written.to_owned(),
                weight: set.weight,
            },
            size: set.size,
            ink: set.ink,
            anchor,
            place: None,
        });
    }

    pub fn line(&mut self, points: &[(f64, f64)], width: f64, ink: Ink) {
        self.items.push(Item::Line {
            points: points.iter().map(|&(x, y)| Point { x, y: -y }).collect(),
            pen: pen(width, ink),
            place: None,
        });
    }

    pub fn rule(&mut self, from: f64, to: f64, y: f64, width: f64) {
        self.line(&[(from, y), (to, y)], width, Ink::Ink);
    }

    pub fn frame(&mut self, from: (f64, f64), to: (f64, f64), width: f64) {
        let corners = [from, (to.0, from.1), to, (from.0, to.1), from];
        self.line(&corners, width, Ink::Ink);
    }

    pub fn filled(&mut self, outline: &[(f64, f64)], fill: Ink) {
        self.items.push(Item::Area {
            outline: outline.iter().map(|&(x, y)| Point { x, y: -y }).collect(),
            fill,
            pen: None,
            place: None,
        });
    }

    /// An open box to tick, its middle at that height.
    pub fn tick_box(&mut self, x: f64, middle: f64, side: f64) {
        self.frame(
            (x, middle - 0.5 * side),
            (x + side, middle + 0.5 * side),
            1.1,
        );
    }

    /// Says what the marks are that `draw` makes.
    pub fn tag(&mut self, node: usize, draw: impl FnOnce(&mut Self)) {
        let from = self.items.len();
        draw(self);
        let to = self.items.len();
        if to > from {
            self.tagged.push(Tagged {
                items: from..to,
                node,
            });
        }
    }

    /// Takes over another strip's marks, moved to the right and down.
    pub fn take(&mut self, other: Self, by: (f64, f64)) {
        let from = self.items.len();
        self.items
            .extend(other.items.into_iter().map(|item| moved(item, by)));
        self.tagged
            .extend(other.tagged.into_iter().map(|tagged| Tagged {
                items: tagged.items.start + from..tagged.items.end + from,
                ..tagged
            }));
        self.pictures
            .extend(other.pictures.into_iter().map(|picture| PlacedPicture {
                at: (picture.at.0 + by.0, picture.at.1 + by.1),
                ..picture
            }));
    }
}

fn pen(width: f64, ink: Ink) -> Pen {
    Pen {
        ink,
        width,
        dash: Dash::Solid,
    }
}

fn moved(item: Item, by: (f64, f64)) -> Item {
    let shift = |point: Point| Point {
        x: point.x + by.0,
        y: point.y - by.1,
    };
    placed(item, shift, 1.0)
}

/// An item with its points turned into others, and its pens and type so much larger.
pub(super) fn placed(item: Item, to: impl Fn(Point) -> Point, times: f64) -> Item {
    let points = |points: Vec<Point>| points.into_iter().map(&to).collect::<Vec<_>>();
    let pen = |pen: Pen| Pen {
        width: pen.width * times,
        ..pen
    };
    match item {
        Item::Area {
            outline,
            fill,
            pen: outlined,
            place,
        } => Item::Area {
            outline: points(outline),
            fill,
            pen: outlined.map(pen),
            place,
        },
        Item::Line {
            points: through,
            pen: drawn,
            place,
        } => Item::Line {
            points: points(through),
            pen: pen(drawn),
            place,
        },
        Item::Hatch {
            strokes,
            pen: drawn,
        } => Item::Hatch {
            strokes: strokes.moved(&to),
            pen: pen(drawn),
        },
        Item::Label {
            at,
            text,
            size,
            ink,
            anchor,
            place,
        } => Item::Label {
            at: to(at),
            text,
            size: size * times,
            ink,
            anchor,
            place,
        },
    }
}
