//! Every mark of the display list as a shape of the painter.

use std::sync::Arc;

use earcut::Earcut;
use egui::epaint::{Mesh, PathStroke, Vertex, WHITE_UV};
use egui::{Color32, Painter, Pos2, Shape, Stroke, pos2};
use underbrick_drawing::item::{Dash, Drawing, Item, Pen, Point};

use super::lettering::{self, narrowed};
use crate::theme::{self, Theme};

/// Shapes of a whole drawing whose sheet stands with its upper left corner at `corner`.
#[must_use]
pub fn shapes(painter: &Painter, drawing: &Drawing, corner: Pos2, theme: Theme) -> Vec<Shape> {
    let on_screen = |point: &Point| {
        let (x, y) = drawing.sheet_from_drawing(*point);
        corner + egui::vec2(narrowed(x), narrowed(y))
    };
    let mut shapes = Vec::with_capacity(drawing.items.len() * 2);
    let mut triangles = Earcut::new();
    for item in &drawing.items {
        match item {
            Item::Area {
                outline,
                fill,
                pen,
                place: _,
            } => {
                let corners: Vec<Pos2> = outline.iter().map(on_screen).collect();
                shapes.push(filled(&mut triangles, &corners, theme::color(*fill, theme)));
                if let Some(pen) = pen {
                    let mut closed = corners;
                    closed.extend(closed.first().copied());
                    line(&mut shapes, closed, *pen, theme);
                }
            }
            Item::Line {
                points,
                pen,
                place: _,
            } => line(
                &mut shapes,
                points.iter().map(on_screen).collect(),
                *pen,
                theme,
            ),
            Item::Hatch { strokes, pen } => {
                for stroke in strokes.iter() {
                    line(
                        &mut shapes,
                        stroke.iter().map(on_screen).collect(),
                        *pen,
                        theme,
                    );
                }
            }
            Item::Label {
                at,
                text,
                size,
                ink,
                anchor,
                place: _,
            } => {
                shapes.extend(lettering::shapes(
                    painter,
                    on_screen(at),
                    *anchor,
                    text,
                    narrowed(*size),
                    theme::color(*ink, theme),
                ));
            }
        }
    }
    shapes
}

fn line(shapes: &mut Vec<Shape>, points: Vec<Pos2>, pen: Pen, theme: Theme) {
    let width = narrowed(pen.width);
    let stroke = Stroke::new(width, theme::color(pen.ink, theme));
    match pen.dash {
        Dash::Solid => shapes.push(Shape::line(points, PathStroke::from(stroke))),
        Dash::Dashed => shapes.extend(Shape::dashed_line(&points, stroke, 9.0, 5.0)),
        Dash::Dotted => shapes.extend(Shape::dashed_line(&points, stroke, width.max(2.0), 4.0)),
    }
}

fn filled(triangles: &mut Earcut<f32>, corners: &[Pos2], color: Color32) -> Shape {
    let mut indices: Vec<u32> = Vec::new();
    triangles.earcut(
        corners.iter().map(|corner| [corner.x, corner.y]),
        &[],
        &mut indices,
    );
    let vertices = corners
        .iter()
        .map(|corner| Vertex {
            pos: pos2(corner.x, corner.y),
            uv: WHITE_UV,
            color,
        })
        .collect();
    Shape::Mesh(Arc::new(Mesh {
        indices,
        vertices,
        ..Mesh::default()
    }))
}
