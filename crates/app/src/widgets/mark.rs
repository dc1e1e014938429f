//! Marks that tell a state by shape, beside the word and the colour.

use egui::{Color32, Painter, Pos2, Shape, Stroke, pos2};

use crate::theme::{self, Ink, Theme};
use underbrick_calc::findings::Weight;

/// A state that is told by a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A tick.
    Right,
    /// A triangle with a stroke.
    Wrong,
    /// A dashed ring.
    NotKnown,
    /// A dot.
    Note,
}

impl Mark {
    /// The mark of a finding's weight.
    #[must_use]
    pub const fn of(weight: Weight) -> Self {
        match weight {
            Weight::Right => Self::Right,
            Weight::Note => Self::Note,
            Weight::Warning | Weight::Stop => Self::Wrong,
        }
    }

    /// Its colour.
    #[must_use]
    pub fn color(self, theme: Theme) -> Color32 {
        theme::color(
            match self {
                Self::Right => Ink::Right,
                Self::Wrong => Ink::Wrong,
                Self::NotKnown => Ink::NotKnown,
                Self::Note => Ink::SecondInk,
            },
            theme,
        )
    }

    /// Paints it, `size` points high, centred on `at`.
    pub fn paint(self, painter: &Painter, at: Pos2, size: f32, theme: Theme) {
        let color = self.color(theme);
        let half = size / 2.0;
        let spot = |x: f32, y: f32| pos2(at.x + x * half, at.y + y * half);
        match self {
            Self::Right => {
                painter.add(Shape::line(
                    vec![spot(-0.9, 0.0), spot(-0.25, 0.7), spot(0.95, -0.75)],
                    Stroke::new(size / 6.0, color),
                ));
            }
            Self::Wrong => {
                painter.add(Shape::convex_polygon(
                    vec![spot(0.0, -1.0), spot(1.05, 0.85), spot(-1.05, 0.85)],
                    color,
                    Stroke::NONE,
                ));
                let paper = theme::color(Ink::Paper, theme);
                painter.line_segment(
                    [spot(0.0, -0.4), spot(0.0, 0.25)],
                    Stroke::new(size / 8.0, paper),
                );
                painter.circle_filled(spot(0.0, 0.55), size / 14.0, paper);
            }
            Self::NotKnown => {
                let ring: Vec<Pos2> = (0..=24)
                    .map(|step| {
                        let angle = step as f32 * std::f32::consts::TAU / 24.0;
                        spot(angle.cos() * 0.8, angle.sin() * 0.8)
                    })
                    .collect();
                painter.extend(Shape::dashed_line(
                    &ring,
                    Stroke::new(size / 9.0, color),
                    size / 6.0,
                    size / 8.0,
                ));
            }
            Self::Note => {
                painter.circle_filled(at, size / 5.0, color);
            }
        }
    }
}
