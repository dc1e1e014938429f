//! The display list.

use crate::marks::Strokes;
use crate::palette::Ink;
use crate::text::Text;
use underbrick_calc::place::Place;

/// A point of a drawing: metres to the right and up from the drawing's own origin. In the long section the upward metres are
/// multiplied by [`Drawing::heights_times`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

/// The sheet that a drawing is laid out for. Its unit is the dot: 1/160 in at the tablet's arm's length, one SVG user unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Width in dots.
    pub width: f64,
    /// Height in dots.
    pub height: f64,
    /// Text size setting: 1.0 is the design's.
    pub text_scale: f64,
}

impl Sheet {
    /// The same sheet, or the nearest that a drawing can be laid out on: 40 to 20,000 dots each way, type from half to three times.
    #[must_use]
    pub fn usable(self) -> Self {
        let within = |value: f64, usual: f64, least: f64, most: f64| {
            if value.is_finite() {
                value.clamp(least, most)
            } else {
                usual
            }
        };
        Self {
            width: within(self.width, 776.0, 40.0, 20_000.0),
            height: within(self.height, 380.0, 40.0, 20_000.0),
            text_scale: within(self.text_scale, 1.0, 0.5, 3.0),
        }
    }
}

/// A finished drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Marks, from the back to the front.
    pub items: Vec<Item>,
    /// Upper left corner of the sheet, in drawing metres.
    pub upper_left: Point,
    /// The sheet that it is laid out for.
    pub sheet: Sheet,
    /// Dots for one metre, to the right.
    pub dots_per_metre: f64,
    /// How many times heights are enlarged against lengths; 1 in a drawing to scale.
    pub heights_times: f64,
    /// What the drawing shows, in words, for a screen reader: no figure that is drawn is left out.
    pub words: String,
}

impl Drawing {
    /// A point on the sheet in dots from its upper left corner, down positive.
    #[must_use]
    pub fn sheet_from_drawing(&self, point: Point) -> (f64, f64) {
        (
            (point.x - self.upper_left.x) * self.dots_per_metre,
            (self.upper_left.y - point.y) * self.dots_per_metre,
        )
    }

    /// The reverse of [`Drawing::sheet_from_drawing`].
    #[must_use]
    pub fn drawing_from_sheet(&self, x_dots: f64, y_dots: f64) -> Point {
        Point {
            x: self.upper_left.x + x_dots / self.dots_per_metre,
            y: self.upper_left.y - y_dots / self.dots_per_metre,
        }
    }
}

/// One mark. Every back-end matches every variant.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A filled outline; convex or not, never crossing itself.
    Area {
        /// Corners, not closed by a repeated one.
        outline: Vec<Point>,
        /// Colour.
        fill: Ink,
        /// Outline, if drawn.
        pen: Option<Pen>,
        /// What it is.
        place: Option<Place>,
    },
    /// An open line.
    Line {
        /// Through these points.
        points: Vec<Point>,
        /// How.
        pen: Pen,
        /// What it is.
        place: Option<Place>,
    },
    /// Many short strokes of one pen: a hatch. One item, so that a back-end may draw it in one go.
    Hatch {
        /// Each an open line.
        strokes: Strokes,
        /// How.
        pen: Pen,
    },
    /// One line of text.
    Label {
        /// Where its anchor stands.
        at: Point,
        /// What it says.
        text: Text,
        /// Height of the type in dots.
        size: f64,
        /// Colour.
        ink: Ink,
        /// Which of its points stands at `at`.
        anchor: Anchor,
        /// What it is about: a tap on it opens the entry behind it.
        place: Option<Place>,
    },
}

/// How a line is drawn. Widths are in dots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Colour.
    pub ink: Ink,
    /// Width in dots.
    pub width: f64,
    /// Broken or not.
    pub dash: Dash,
}

/// Whether a line is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Long dashes: the line that is being set.
    Dashed,
    /// Dots: as found, or not known.
    Dotted,
}

/// Which point of a label stands at its place. The height is always that of the middle of the figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Left end.
    Left,
    /// Middle.
    Middle,
    /// Right end.
    Right,
}

impl Pen {
    /// Length of a dash and of the gap after it, in dots; `None` for an unbroken line. The same in every back-end.
    #[must_use]
    pub fn dashes(self) -> Option<(f64, f64)> {
        match self.dash {
            Dash::Solid => None,
            Dash::Dashed => Some((4.0 + 2.6 * self.width, 3.0 + 1.2 * self.width)),
            Dash::Dotted => Some((0.6 + self.width, 1.8 + 1.3 * self.width)),
        }
    }
}

impl Anchor {
    /// Share of a text's advance that lies left of the anchored point.
    #[must_use]
    pub const fn share(self) -> f64 {
        match self {
            Self::Left => 0.0,
            Self::Middle => 0.5,
            Self::Right => 1.0,
        }
    }
}
