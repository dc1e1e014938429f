//! The board that a drawing is made on: marks are laid out in dots of the sheet and kept in ground units.

use crate::hatch::{self, Grid};
use crate::item::{Anchor, Dash, Drawing, Item, Pen, Point, Sheet};
use crate::palette::Ink;
use crate::text::{Text, advance};
use crate::tongue;
use underbrick_calc::catalogue::Hatch;
use underbrick_calc::place::Place;

/// Outlines of what is cut.
pub(crate) const OUTLINE: f64 = 1.5;
/// Hairlines: dimensions, leaders, joints.
pub(crate) const HAIRLINE: f64 = 0.8;
/// The line that is being set.
pub(crate) const GRADE: f64 = 2.5;
/// Lines as found.
pub(crate) const AS_FOUND: f64 = 1.9;

/// An unbroken pen.
pub(crate) const fn solid(ink: Ink, width: f64) -> Pen {
    Pen {
        ink,
        width,
        dash: Dash::Solid,
    }
}

/// A pen of long dashes.
pub(crate) const fn dashed(ink: Ink, width: f64) -> Pen {
    Pen {
        ink,
        width,
        dash: Dash::Dashed,
    }
}

/// A pen of dots.
pub(crate) const fn dotted(ink: Ink, width: f64) -> Pen {
    Pen {
        ink,
        width,
        dash: Dash::Dotted,
    }
}

/// Type sizes on one sheet, in dots.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sizes {
    /// Axis ticks only.
    pub tick: f64,
    /// Notes.
    pub note: f64,
    /// Labels and dimensions.
    pub label: f64,
}

impl Sizes {
    /// The design's sizes times the sheet's setting.
    pub fn on(sheet: Sheet) -> Self {
        let scale = sheet.usable().text_scale;
        Self {
            tick: 13.0 * scale,
            note: 15.0 * scale,
            label: 17.0 * scale,
        }
    }
}

/// Width of a text in dots.
pub(crate) fn width_of(text: &Text, size: f64) -> f64 {
    size * advance(&text.written, text.weight)
}

/// How a label is set.
#[derive(Clone, Debug)]
pub(crate) struct Lettering {
    pub text: Text,
    pub size: f64,
    pub ink: Ink,
    pub anchor: Anchor,
    pub place: Option<Place>,
}

/// How a material is shown.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shown {
    pub fill: Ink,
    pub mark: Ink,
    pub hatch: Hatch,
}

/// A drawing in the making.
pub(crate) struct Draft {
    drawing: Drawing,
    /// The point that hatches hang on.
    pub hatch_origin: Point,
}

impl Draft {
    /// An empty board; `upper_left` is the sheet's corner in drawing metres.
    pub fn new(sheet: Sheet, upper_left: Point, dots_per_metre: f64, heights_times: f64) -> Self {
        let drawing = Drawing {
            items: Vec::new(),
            upper_left,
            sheet,
            dots_per_metre,
            heights_times,
            words: String::new(),
        };
        Self {
            drawing,
            hatch_origin: Point::default(),
        }
    }

    /// The drawing, with what it says in words, one sentence a line, in the language that is spoken.
    pub fn finish(self, words: &str) -> Drawing {
        let lines: Vec<String> = words
            .lines()
            .map(|line| tongue::said(line.to_owned()))
            .collect();
        Drawing {
            words: lines.join("\n"),
            ..self.drawing
        }
    }

    /// Drawing metres from dots of the sheet.
    pub fn point(&self, (x_dots, y_dots): (f64, f64)) -> Point {
        self.drawing.drawing_from_sheet(x_dots, y_dots)
    }

    /// Dots of the sheet from drawing metres.
    pub fn dots(&self, point: Point) -> (f64, f64) {
        self.drawing.sheet_from_drawing(point)
    }

    pub fn sheet(&self) -> Sheet {
        self.drawing.sheet
    }

    /// A mark as it is.
    pub fn push(&mut self, item: Item) {
        self.drawing.items.push(item);
    }

    pub fn area(&mut self, outline: Vec<Point>, fill: Ink, pen: Option<Pen>, place: Option<Place>) {
        if outline.len() >= 3 {
            self.drawing.items.push(Item::Area {
                outline,
                fill,
                pen,
                place,
            });
        }
    }

    /// An area with its hatch, and its outline over both.
    pub fn material(
        &mut self,
        outline: &[Point],
        shown: Shown,
        pen: Option<Pen>,
        place: Option<Place>,
    ) {
        let grid = Grid {
            origin: self.hatch_origin,
            metres_per_dot: 1.0 / self.drawing.dots_per_metre,
        };
        self.area(outline.to_vec(), shown.fill, None, place);
        let strokes = if shown.hatch == Hatch::Brick {
            hatch::slanted_through(outline, 8.5, grid)
        } else {
            hatch::strokes(outline, shown.hatch, grid)
        };
        if !strokes.is_empty() {
            let width = if shown.hatch == Hatch::Sand {
                1.1
            } else {
                HAIRLINE
            };
            self.drawing.items.push(Item::Hatch {
                strokes,
                pen: solid(shown.mark, width),
            });
        }
        if let Some(pen) = pen {
            let mut closed = outline.to_vec();
            closed.extend(outline.first().copied());
            self.line(closed, pen, place);
        }
    }

    pub fn line(&mut self, points: Vec<Point>, pen: Pen, place: Option<Place>) {
        if points.len() >= 2 {
            self.drawing.items.push(Item::Line { points, pen, place });
        }
    }

    /// A line through points of the sheet.
    pub fn stroke(&mut self, through_dots: &[(f64, f64)], pen: Pen, place: Option<Place>) {
        let points = through_dots.iter().map(|at| self.point(*at)).collect();
        self.line(points, pen, place);
    }

    /// A filled outline on the sheet.
    pub fn shape(
        &mut self,
        outline_dots: &[(f64, f64)],
        fill: Ink,
        pen: Option<Pen>,
        place: Option<Place>,
    ) {
        let outline = outline_dots.iter().map(|at| self.point(*at)).collect();
        self.area(outline, fill, pen, place);
    }

    /// A filled disc on the sheet.
    pub fn disc(&mut self, (x, y): (f64, f64), radius_dots: f64, fill: Ink, place: Option<Place>) {
        let corners = if radius_dots > 8.0 { 40 } else { 12 };
        let rim: Vec<(f64, f64)> = (0..corners)
            .map(|corner| {
                let angle = std::f64::consts::TAU * f64::from(corner) / f64::from(corners);
                (
                    x + radius_dots * libm::cos(angle),
                    y + radius_dots * libm::sin(angle),
                )
            })
            .collect();
        self.shape(&rim, fill, None, place);
    }

    pub fn label(&mut self, at_dots: (f64, f64), lettering: Lettering) {
        let at = self.point(at_dots);
        let Lettering {
            text,
            size,
            ink,
            anchor,
            place,
        } = lettering;
        self.drawing.items.push(Item::Label {
            at,
            text,
            size,
            ink,
            anchor,
            place,
        });
    }
}

/// A rectangle on the sheet, from its upper left to its lower right corner.
pub(crate) fn rectangle(left: f64, top: f64, right: f64, bottom: f64) -> [(f64, f64); 4] {
    [(left, top), (right, top), (right, bottom), (left, bottom)]
}
