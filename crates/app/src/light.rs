//! What the drawings light while a line of the order is open: the marks that its number is measured from. Everything else stands back
//! under a veil of paper, and what is lit is outlined and named, so that no one has to tell colours apart.

use egui::{Painter, Pos2, Rect, Shape, Stroke, pos2, vec2};
use underbrick_calc::lay::{Part, Piece, Pieces};
use underbrick_calc::place::Place;
use underbrick_drawing::item::{Anchor, Dash, Drawing, Item, Pen, Point};
use underbrick_drawing::text::Text;

use crate::canvas;
use crate::canvas::lettering::{self, narrowed};
use crate::theme::{self, Ink, Theme, size};

/// How much of what is not lit is covered.
const VEIL: f32 = 0.66;
/// Width of the outline about what is lit, in points.
const OUTLINE: f32 = 3.0;
/// Most marks that get a halo of paper.
const MOST_HALOED: usize = 40;

/// What is lit.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Light {
    /// The line that is open.
    pub name: String,
    /// How much it is.
    pub value: String,
    /// Where its number comes from.
    pub places: Vec<Place>,
    /// What of the dig.
    pub dug: Option<Dug>,
    /// What of the plan; `None` leaves the plan away.
    pub plan: Option<LitPlan>,
}

/// What of the dig is lit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Dug {
    /// From the old surface to the bottom of the dig.
    All,
    /// As deep as it must come out.
    Unsuitable,
    /// Good ground below that.
    Trim,
}

/// What of the plan is lit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum LitPlan {
    /// Every piece.
    All,
    /// Pieces between the edges.
    Field,
    /// Pieces of the edges.
    Edge,
    /// Pieces that are cut.
    Cut,
    /// What lies between pieces.
    Joints,
}

/// Shapes that go over a drawing, and how many marks they light.
#[derive(Clone, Default)]
pub(crate) struct Lit {
    pub shapes: Vec<Shape>,
    pub n_marks: usize,
}

impl LitPlan {
    fn has(self, piece: &Piece) -> bool {
        match self {
            Self::All => true,
            Self::Field => piece.part == Part::Field,
            Self::Edge => piece.part != Part::Field,
            Self::Cut => piece.kind.is_cut(),
            Self::Joints => false,
        }
    }
}

impl Light {
    /// Over a section that stands in `rect`.
    pub fn over_section(
        &self,
        painter: &Painter,
        drawing: &Drawing,
        rect: Rect,
        theme: Theme,
    ) -> Lit {
        let mut items = Vec::new();
        if let Some(what) = self.dug {
            items.extend(dug(drawing, what).into_iter().map(|outline| Item::Area {
                outline,
                fill: Ink::ComesOut,
                pen: None,
                place: None,
            }));
        }
        let mut hatch_follows = false;
        for item in &drawing.items {
            let is_lit = match item {
                Item::Area { fill, place, .. } => {
                    hatch_follows = self.has_area(*fill, *place);
                    hatch_follows
                }
                Item::Hatch { .. } => hatch_follows,
                Item::Line { place, .. } => self.has(*place),
                Item::Label { .. } => false,
            };
            if is_lit {
                items.push(item.clone());
            }
        }
        self.over(painter, drawing, items, rect, theme)
    }

    /// Over a plan that stands in `rect`.
    pub fn over_plan(
        &self,
        painter: &Painter,
        drawing: &Drawing,
        pieces: &Pieces,
        rect: Rect,
        theme: Theme,
    ) -> Lit {
        let Some(plan) = self.plan else {
            return Lit::default();
        };
        if plan == LitPlan::Joints {
            return self.joints(painter, drawing, rect, theme);
        }
        let is_lit = |place: Place| match place {
            Place::Piece(piece_idx) => usize::try_from(piece_idx)
                .ok()
                .and_then(|idx| pieces.all().get(idx))
                .is_some_and(|piece| plan.has(piece)),
            // Too small to be seen piece by piece, the walk is a band.
            Place::Width => plan == LitPlan::All,
            _ => false,
        };
        let items = drawing
            .items
            .iter()
            .filter(|item| matches!(item, Item::Area { place: Some(place), .. } if is_lit(*place)))
            .cloned()
            .collect();
        self.over(painter, drawing, items, rect, theme)
    }

    /// The line that is open, and how much it is.
    pub fn title(&self) -> String {
        format!("{}: {}", self.name, self.value)
    }

    /// What is lit, in words, behind those of a drawing; empty where nothing is.
    pub fn words(&self, lit: &Lit) -> String {
        match lit.n_marks {
            0 => String::new(),
            1 => format!(" Lit for {}: 1 mark.", self.name),
            n => format!(" Lit for {}: {n} marks.", self.name),
        }
    }

    fn has(&self, place: Option<Place>) -> bool {
        place.is_some_and(|place| self.places.contains(&place))
    }

    /// Whether an area is lit: ground that stays never is, though a tap on it opens the bottom of the dig; nor is what is put back
    /// about an edge.
    fn has_area(&self, fill: Ink, place: Option<Place>) -> bool {
        let stays =
            fill == Ink::Ground || (fill == Ink::Backfill && place != Some(Place::SideExtension));
        !stays && self.has(place)
    }

    fn over(
        &self,
        painter: &Painter,
        drawing: &Drawing,
        items: Vec<Item>,
        rect: Rect,
        theme: Theme,
    ) -> Lit {
        let n_marks = items
            .iter()
            .filter(|item| !matches!(item, Item::Hatch { .. }))
            .count();
        if n_marks == 0 {
            return Lit::default();
        }
        let paper = theme::color(Ink::Paper, theme);
        let line = theme::color(Ink::Line, theme);
        let mut shapes = vec![Shape::rect_filled(rect, 0, paper.gamma_multiply(VEIL))];
        let mut outlines = Vec::new();
        for item in &items {
            match item {
                Item::Area { outline, .. } => outlines.push(Outline {
                    corners: corners(drawing, rect, outline),
                    is_closed: true,
                }),
                Item::Line { points, .. } => outlines.push(Outline {
                    corners: corners(drawing, rect, points),
                    is_closed: false,
                }),
                Item::Hatch { .. } | Item::Label { .. } => {}
            }
        }
        // What words stand on comes forward with them.
        let labels = plates(drawing).chain(labels(drawing)).collect();
        let only = |items: Vec<Item>| Drawing {
            items,
            ..drawing.clone()
        };
        shapes.extend(canvas::shapes(painter, &only(items), rect.min, theme));
        // Halos first, so that none covers the outline of a neighbour. Single bricks are too many for one.
        if n_marks <= MOST_HALOED {
            shapes.extend(outlines.iter().map(|outline| {
                let halo = Stroke::new(outline.width() + 3.0, paper);
                outline.stroked(halo)
            }));
        }
        shapes.extend(
            outlines
                .iter()
                .map(|outline| outline.stroked(Stroke::new(outline.width(), line))),
        );
        shapes.extend(canvas::shapes(painter, &only(labels), rect.min, theme));
        Lit { shapes, n_marks }
    }

    /// The net of joints: the ground of the plan in the colour of the line, with the pieces on it.
    fn joints(&self, painter: &Painter, drawing: &Drawing, rect: Rect, theme: Theme) -> Lit {
        let mut items = Vec::new();
        let mut n_marks = 0;
        for item in &drawing.items {
            match item {
                Item::Area {
                    outline,
                    place: Some(Place::Joint),
                    ..
                } => {
                    n_marks += 1;
                    items.push(Item::Area {
                        outline: outline.clone(),
                        fill: Ink::Line,
                        pen: None,
                        place: None,
                    });
                }
                Item::Area {
                    outline,
                    place: Some(Place::Piece(_)),
                    ..
                } => items.push(Item::Area {
                    outline: outline.clone(),
                    fill: Ink::SettingBed,
                    // Joints too narrow to be seen at this scale are seen all the same.
                    pen: Some(Pen {
                        ink: Ink::Line,
                        width: 1.0,
                        dash: Dash::Solid,
                    }),
                    place: None,
                }),
                Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } | Item::Label { .. } => {
                }
            }
        }
        if n_marks == 0 {
            return Lit::default();
        }
        items.extend(labels(drawing));
        let over = Drawing {
            items,
            ..drawing.clone()
        };
        let shapes = canvas::shapes(painter, &over, rect.min, theme);
        Lit { shapes, n_marks }
    }

    /// The name of the open line and how much it is, on a plate in the lower right corner of the long section, which is free.
    pub fn plate(&self, painter: &Painter, rect: Rect, theme: Theme) -> Vec<Shape> {
        let points = theme::sized(painter.ctx(), size::NOTE);
        let words = self.title();
        let room = rect.width() - 40.0;
        let text = Text::bold(crate::widgets::rows::elided(&words, true, points, room));
        let plate_size = vec2(lettering::width(&text, points) + 20.0, points + 14.0);
        let plate = Rect::from_min_size(rect.max - plate_size - vec2(8.0, 8.0), plate_size);
        let line = theme::color(Ink::Line, theme);
        let mut shapes = vec![Shape::rect_filled(plate, size::CORNER, line)];
        let ink = theme::color(Ink::Paper, theme);
        shapes.extend(lettering::shapes(
            painter,
            plate.center(),
            Anchor::Middle,
            &text,
            points,
            ink,
        ));
        shapes
    }
}

/// The marker of the cut and the like, with the arrows on it.
fn plates(drawing: &Drawing) -> impl Iterator<Item = Item> {
    let mut arrows_follow = false;
    drawing.items.iter().filter_map(move |item| {
        arrows_follow = match item {
            Item::Area {
                fill: Ink::Line,
                place: None,
                ..
            } => true,
            Item::Area { place: None, .. } => arrows_follow,
            _ => false,
        };
        arrows_follow.then(|| item.clone())
    })
}

fn labels(drawing: &Drawing) -> impl Iterator<Item = Item> {
    drawing
        .items
        .iter()
        .filter(|item| matches!(item, Item::Label { .. }))
        .cloned()
}

fn corners(drawing: &Drawing, rect: Rect, points: &[Point]) -> Vec<Pos2> {
    points
        .iter()
        .map(|point| {
            let (x, y) = drawing.sheet_from_drawing(*point);
            pos2(rect.min.x, rect.min.y) + vec2(narrowed(x), narrowed(y))
        })
        .collect()
}

/// The outline of what is lit, on screen.
struct Outline {
    corners: Vec<Pos2>,
    is_closed: bool,
}

impl Outline {
    /// Finer about what is thin, so that it is still seen.
    fn width(&self) -> f32 {
        let bounds = Rect::from_points(&self.corners);
        let thin = bounds.width().min(bounds.height());
        if self.is_closed {
            (thin * 0.16).clamp(0.8, OUTLINE)
        } else {
            OUTLINE
        }
    }

    fn stroked(&self, stroke: Stroke) -> Shape {
        if self.is_closed {
            Shape::closed_line(self.corners.clone(), stroke)
        } else {
            Shape::line(self.corners.clone(), stroke)
        }
    }
}

/// What is dug, as far as it is drawn.
fn dug(drawing: &Drawing, what: Dug) -> Vec<Vec<Point>> {
    let mut old = Vec::new();
    let mut unsuitable = Vec::new();
    let mut bottom = Vec::new();
    for item in &drawing.items {
        let Item::Line {
            points,
            pen,
            place: Some(place),
        } = item
        else {
            continue;
        };
        match place {
            Place::OldSurface => old.push(points.as_slice()),
            Place::DigBottom if pen.dash == Dash::Solid && points.len() > 2 => {
                bottom.push(points.as_slice());
            }
            Place::DigBottom if pen.dash != Dash::Solid => unsuitable.push(points.as_slice()),
            _ => {}
        }
    }
    // Strokes of the section reach beyond the sides of the dig.
    let stations = || {
        bottom
            .iter()
            .flat_map(|line| line.iter().map(|point| point.x))
    };
    let from = stations().fold(f64::INFINITY, f64::min);
    let to = stations().fold(f64::NEG_INFINITY, f64::max);
    match what {
        Dug::All => between(&old, &bottom, (from, to)),
        Dug::Unsuitable => between(&old, &unsuitable, (from, to)),
        Dug::Trim => between(&unsuitable, &bottom, (from, to)),
    }
}

/// Regions between upper lines and lower ones, where the lower lie lower, from one station to another.
fn between(upper: &[&[Point]], lower: &[&[Point]], (from, to): (f64, f64)) -> Vec<Vec<Point>> {
    let mut stations: Vec<f64> = upper
        .iter()
        .chain(lower)
        .flat_map(|line| line.iter().map(|point| point.x))
        .chain([from, to])
        .filter(|x| (from..=to).contains(x))
        .collect();
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
    let mut regions = Vec::new();
    let mut top: Vec<Point> = Vec::new();
    let mut bottom: Vec<Point> = Vec::new();
    let mut close = |top: &mut Vec<Point>, bottom: &mut Vec<Point>| {
        let mut region = std::mem::take(top);
        region.extend(std::mem::take(bottom).into_iter().rev());
        if region.len() > 3 {
            regions.push(region);
        }
    };
    for x in stations {
        let heights = height_at(upper, x).zip(height_at(lower, x));
        match heights.filter(|(above, below)| above - below > 1e-4) {
            Some((above, below)) => {
                top.push(Point { x, y: above });
                bottom.push(Point { x, y: below });
            }
            None => close(&mut top, &mut bottom),
        }
    }
    close(&mut top, &mut bottom);
    regions
}

/// Height of the lowest of some lines at a station.
fn height_at(lines: &[&[Point]], x: f64) -> Option<f64> {
    lines
        .iter()
        .flat_map(|line| line.windows(2))
        .filter_map(|pair| {
            let &[from, to] = pair else { return None };
            let (least, most) = (from.x.min(to.x), from.x.max(to.x));
            if !(least - 1e-9..=most + 1e-9).contains(&x) {
                return None;
            }
            let run = to.x - from.x;
            Some(if run.abs() < 1e-9 {
                from.y.min(to.y)
            } else {
                from.y + (to.y - from.y) * (x - from.x) / run
            })
        })
        .min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|(x, y)| Point { x: *x, y: *y }).collect()
    }

    #[test]
    fn a_region_lies_only_where_the_lower_line_is_lower() {
        // A dig of 4 by 1 under level ground, its sides upright.
        let old = line(&[(-3.0, 0.0), (3.0, 0.0)]);
        let dig = line(&[(-2.0, 0.0), (-2.0, -1.0), (2.0, -1.0), (2.0, 0.0)]);
        let regions = between(&[&old], &[&dig], (-2.0, 2.0));
        assert_eq!(
            regions,
            [line(&[(-2.0, 0.0), (2.0, 0.0), (2.0, -1.0), (-2.0, -1.0)])]
        );
        // A stroke that reaches further is cut off at the sides.
        let stroke = line(&[(-4.0, -0.5), (4.0, -0.5)]);
        let regions = between(&[&old], &[&stroke], (-2.0, 2.0));
        assert_eq!(
            regions,
            [line(&[(-2.0, 0.0), (2.0, 0.0), (2.0, -0.5), (-2.0, -0.5)])]
        );
        // Lower than the dig nothing is left of it.
        let deep = line(&[(-3.0, -2.0), (3.0, -2.0)]);
        assert!(between(&[&deep], &[&dig], (-2.0, 2.0)).is_empty());
    }
}
