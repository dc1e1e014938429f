//! Every brick and every piece of one, where it lies in plan.

use crate::quantity::{Area, Length, square_metres};
use crate::site::Hand;

/// A spot in plan, from the middle of the door.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PlanPoint {
    /// To the right, looking away from the door.
    pub right_m: f64,
    /// Away from the door.
    pub away_m: f64,
}

/// One brick or piece as laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Field or edge.
    pub part: Part,
    /// Its course, counted from the side where laying starts, from 1; along a grid bond its row.
    pub course: u32,
    /// Its number within the course, from the door (courses across: from the starting side), from 1.
    pub nth: u32,
    /// Whole or cut, and how.
    pub kind: Kind,
    /// What it needs of a brick along the brick's length.
    pub length: Length,
    /// What it needs of a brick across its length.
    pub width: Length,
    /// Station of its middle.
    pub station: Length,
    first_corner: u32,
    n_corners: u32,
}

/// Where a piece belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Between the edges.
    Field,
    /// The edge on that side.
    Edge(Hand),
    /// The row across at the door.
    AtDoor,
    /// The row across at the far end.
    AtFarEnd,
}

/// Whole or cut, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A whole brick.
    Whole,
    /// Three quarters: a brick less a quarter of a brick and joint.
    ThreeQuarter,
    /// A half: two and a joint make a brick.
    Half,
    /// Cut square to a length of its own.
    Cut,
    /// Cut along its length to a width of its own.
    Ripped,
    /// Its ends or its sides are not parallel, so that a curve closes.
    Tapered,
    /// Cut along an edge of the walk or an opening.
    Shaped,
}

impl Kind {
    /// What the crew calls it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::ThreeQuarter => "three quarters",
            Self::Half => "half",
            Self::Cut => "cut to length",
            Self::Ripped => "cut to width",
            Self::Tapered => "cut to a taper",
            Self::Shaped => "cut to shape",
        }
    }

    /// Whether a saw or a hammer is needed.
    #[must_use]
    pub const fn is_cut(self) -> bool {
        !matches!(self, Self::Whole)
    }
}

/// What is known of a piece before it is placed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Label {
    /// See [`Piece::part`].
    pub part: Part,
    /// See [`Piece::course`].
    pub course: u32,
    /// See [`Piece::nth`].
    pub nth: u32,
    /// See [`Piece::kind`].
    pub kind: Kind,
    /// See [`Piece::length`].
    pub length: Length,
    /// See [`Piece::width`].
    pub width: Length,
    /// See [`Piece::station`].
    pub station: Length,
}

/// All pieces of a walk. Their corners stand in one list, so that fifty thousand of them are still one allocation.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pieces {
    all: Vec<Piece>,
    corners: Vec<PlanPoint>,
}

impl Pieces {
    /// Room for that many pieces of four corners.
    #[must_use]
    pub fn with_room_for(n_pieces: usize) -> Self {
        Self {
            all: Vec::with_capacity(n_pieces),
            corners: Vec::with_capacity(n_pieces.saturating_mul(4)),
        }
    }

    /// Adds a piece with its outline, counter-clockwise as seen from above or not. Fewer than three corners are no piece and are left out.
    pub fn add(&mut self, label: Label, outline: &[PlanPoint]) {
        let (Ok(first_corner), Ok(n_corners)) = (
            u32::try_from(self.corners.len()),
            u32::try_from(outline.len()),
        ) else {
            return;
        };
        if n_corners < 3 {
            return;
        }
        self.corners.extend_from_slice(outline);
        let Label {
            part,
            course,
            nth,
            kind,
            length,
            width,
            station,
        } = label;
        self.all.push(Piece {
            part,
            course,
            nth,
            kind,
            length,
            width,
            station,
            first_corner,
            n_corners,
        });
    }

    /// Takes in all pieces of another list, after its own.
    pub fn append(&mut self, other: &Self) {
        self.all.reserve(other.all.len());
        self.corners.reserve(other.corners.len());
        for piece in &other.all {
            self.add(piece.label(), other.outline(piece));
        }
    }

    /// In the order in which they are laid: the field course by course, then the edges.
    #[must_use]
    pub fn all(&self) -> &[Piece] {
        &self.all
    }

    /// Corners of one of its pieces; empty for a piece of another list.
    #[must_use]
    pub fn outline(&self, piece: &Piece) -> &[PlanPoint] {
        let first = usize::try_from(piece.first_corner).unwrap_or(usize::MAX);
        let n_corners = usize::try_from(piece.n_corners).unwrap_or(0);
        self.corners
            .get(first..first.saturating_add(n_corners))
            .unwrap_or_default()
    }

    /// Area of one of its pieces as seen from above.
    #[must_use]
    pub fn area(&self, piece: &Piece) -> Area {
        square_metres(area_m2(self.outline(piece)))
    }
}

impl Piece {
    /// What is known of it beside its outline.
    #[must_use]
    pub const fn label(&self) -> Label {
        Label {
            part: self.part,
            course: self.course,
            nth: self.nth,
            kind: self.kind,
            length: self.length,
            width: self.width,
            station: self.station,
        }
    }
}

/// From one spot to another.
pub(super) fn apart_m(one: PlanPoint, other: PlanPoint) -> f64 {
    libm::hypot(one.right_m - other.right_m, one.away_m - other.away_m)
}

/// Area of an outline, in square metres, whichever way it turns. Computed about its first corner, so that a walk far from the door loses
/// no figures.
#[must_use]
pub fn area_m2(outline: &[PlanPoint]) -> f64 {
    let Some(first) = outline.first() else {
        return 0.0;
    };
    let twice: f64 = outline
        .windows(2)
        .map(|pair| {
            let &[from, to] = pair else { return 0.0 };
            (from.right_m - first.right_m) * (to.away_m - first.away_m)
                - (to.right_m - first.right_m) * (from.away_m - first.away_m)
        })
        .sum();
    twice.abs() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::metres;

    #[test]
    fn area_of_a_brick_far_from_the_door() {
        // 0.2 x 0.1 m, 365 m away and turned by the angle whose sine is 3/5: 0.02 m².
        let at = |along: f64, across: f64| PlanPoint {
            right_m: 365.0 + 0.6 * along - 0.8 * across,
            away_m: 365.0 + 0.8 * along + 0.6 * across,
        };
        let outline = [at(0.0, 0.0), at(0.2, 0.0), at(0.2, 0.1), at(0.0, 0.1)];
        assert!((area_m2(&outline) - 0.02).abs() < 1e-12);
    }

    #[test]
    fn lists_are_joined_with_their_corners() {
        let label = Label {
            part: Part::Field,
            course: 1,
            nth: 1,
            kind: Kind::Whole,
            length: metres(0.2),
            width: metres(0.1),
            station: metres(0.0),
        };
        let triangle = |right_m: f64| {
            [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)].map(|(x, y)| PlanPoint {
                right_m: x + right_m,
                away_m: y,
            })
        };
        let mut pieces = Pieces::default();
        pieces.add(label, &triangle(0.0));
        pieces.add(label, &triangle(0.0)[..2]);
        let mut others = Pieces::default();
        others.add(label, &triangle(5.0));
        pieces.append(&others);
        let outlines: Vec<&[PlanPoint]> = pieces
            .all()
            .iter()
            .map(|piece| pieces.outline(piece))
            .collect();
        assert_eq!(outlines, [&triangle(0.0)[..], &triangle(5.0)[..]]);
    }
}
