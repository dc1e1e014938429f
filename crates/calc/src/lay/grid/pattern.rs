//! Where each brick of a grid bond lies, row by row, as far as the field goes.

use super::super::clip::Clipper;
use super::super::pieces::PlanPoint;
use super::super::trim::Brick;
use super::super::wishes::LayWishes;
use crate::quantity::in_metres;
use crate::site::{Bond, Hand};
use std::f64::consts::{FRAC_1_SQRT_2, SQRT_2};

/// Rows beyond this are not laid: no walk has them.
const MOST_ROWS: f64 = 1e6;

/// A grid bond with its brick, and where it starts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pattern {
    bond: Bond,
    length_m: f64,
    width_m: f64,
    joint_m: f64,
    /// Length and width of the rectangle that a brick of herringbone fills with its joint; the brick stands in its middle.
    cell_m: (f64, f64),
    /// From the start side's edge of the field, and away from the door.
    start_right_m: f64,
    start_away_m: f64,
    /// 1 for a start on the left, -1 on the right: the pattern is mirrored.
    sign: f64,
}

impl Pattern {
    /// Starts at the field's near corner on the start side; herringbone at 45 degrees has its point on the centreline.
    pub fn of(wishes: &LayWishes, half_width_m: f64, start_away_m: f64) -> Self {
        let start_right_m = match wishes.bond {
            Bond::Herringbone45 => 0.0,
            _ => -half_width_m,
        };
        let mut pattern = Self {
            bond: wishes.bond,
            length_m: in_metres(wishes.brick_length),
            width_m: in_metres(wishes.brick_width),
            joint_m: in_metres(wishes.joint),
            cell_m: (
                in_metres(wishes.brick_length + wishes.joint),
                in_metres(wishes.brick_width + wishes.joint),
            ),
            start_right_m,
            start_away_m,
            sign: match wishes.start {
                Hand::Left => 1.0,
                Hand::Right => -1.0,
            },
        };
        pattern.stand_square(in_metres(wishes.widest_joint));
        pattern
    }

    /// Herringbone at 90 degrees stays square to its start only if two widths make a length. Where joints can be opened to that within
    /// their limit, they are; else the bond keeps its joint and leans.
    fn stand_square(&mut self, widest_joint_m: f64) {
        let (length_m, width_m) = self.cell_m;
        let square = (length_m.max(2.0 * width_m), width_m.max(0.5 * length_m));
        let is_herringbone_90 = self.bond == Bond::Herringbone90;
        if is_herringbone_90 && self.opened_m(square) <= widest_joint_m + 1e-9 {
            self.cell_m = square;
        }
    }

    /// Widest joint of herringbone in such cells: at the ends of short bricks half of the lack, beside narrow ones all of it where two
    /// lie side by side.
    fn opened_m(&self, cell_m: (f64, f64)) -> f64 {
        let (lacks_along_m, lacks_across_m) = (
            cell_m.0 - self.joint_m - self.length_m,
            cell_m.1 - self.joint_m - self.width_m,
        );
        self.joint_m + (0.5 * lacks_along_m).max(lacks_across_m)
    }

    /// How far herringbone at 90 degrees leans in a pair of rows, along their length; zero where it stands square.
    pub fn leans_m(&self) -> f64 {
        if self.bond == Bond::Herringbone90 {
            2.0 * self.cell_m.1 - self.cell_m.0
        } else {
            0.0
        }
    }

    /// What two bricks side by side with their joint have over a brick's length; negative where the brick is longer.
    ///
    /// # Source
    /// Bond rule L = 2 W + j, check value B22.
    pub fn over_m(&self) -> f64 {
        2.0 * self.width_m + self.joint_m - self.length_m
    }

    /// The widest joint of the whole pattern.
    ///
    /// In basket weave the brick that is too short for its square stands in its middle, half of the lack at each end; a pair that is
    /// too narrow takes the lack in equal shares. Herringbone closes with any brick: rectangles set end to side fill the plane whatever
    /// their sides are.
    pub fn widest_joint_m(&self) -> f64 {
        let over_m = self.over_m();
        match self.bond {
            Bond::BasketTwoOnTwo if over_m < 0.0 => self.joint_m - over_m / 3.0,
            Bond::BasketTwoOnOne if over_m < 0.0 => self.joint_m - over_m / 2.0,
            Bond::BasketTwoOnTwo | Bond::BasketTwoOnOne => self.joint_m + over_m / 2.0,
            _ => self.opened_m(self.cell_m),
        }
    }

    /// Bricks per square metre of the whole plane.
    #[cfg(test)]
    pub fn per_square_metre(&self) -> f64 {
        let (brick_m, course_m) = self.cell_m;
        let square_m = self.square_m() + self.joint_m;
        match self.bond {
            Bond::BasketTwoOnTwo => 2.0 / (square_m * square_m),
            Bond::BasketTwoOnOne => 3.0 / (square_m * (brick_m + course_m)),
            _ => 1.0 / (brick_m * course_m),
        }
    }

    /// All bricks that may lie in the field, row by row.
    pub fn lay(&self, field: &Clipper, mut add: impl FnMut(Brick)) {
        match self.bond {
            Bond::BasketTwoOnTwo => self.two_on_two(field, &mut add),
            Bond::BasketTwoOnOne => self.two_on_one(field, &mut add),
            Bond::Herringbone45 => self.herringbone_45(field, &mut add),
            _ => self.herringbone_90(field, &mut add),
        }
    }

    /// Squares of two, turned like a chessboard.
    fn two_on_two(&self, field: &Clipper, add: &mut impl FnMut(Brick)) {
        let (square_m, pitch_m) = (self.square_m(), self.square_m() + self.joint_m);
        let aside_m = (-self.over_m() / 3.0).max(0.0);
        let inset_m = 0.5 * (square_m - self.length_m);
        for row in self.rows(field, pitch_m, square_m) {
            let near_m = row * pitch_m;
            for column in self.columns(field, (near_m, near_m + square_m), pitch_m, square_m) {
                let left_m = column * pitch_m;
                let is_turned = libm::fmod(row + column, 2.0) != 0.0;
                for across_m in [aside_m, square_m - aside_m - self.width_m] {
                    let (right_m, away_m) = if is_turned {
                        (left_m + inset_m, near_m + across_m)
                    } else {
                        (left_m + across_m, near_m + inset_m)
                    };
                    add(self.upright(row, right_m, away_m, is_turned));
                }
            }
        }
    }

    /// Two along and one across their ends, in columns of which every second is moved by half of that.
    fn two_on_one(&self, field: &Clipper, add: &mut impl FnMut(Brick)) {
        let (square_m, pitch_m) = (self.square_m(), self.square_m() + self.joint_m);
        let unit_m = self.length_m + self.width_m + 2.0 * self.joint_m;
        let aside_m = (-self.over_m() / 4.0).max(0.0);
        let inset_m = 0.5 * (square_m - self.length_m);
        for row in self.rows(field, unit_m, 1.5 * unit_m) {
            let row_near_m = row * unit_m;
            for column in self.columns(
                field,
                (row_near_m, row_near_m + 1.5 * unit_m),
                pitch_m,
                square_m,
            ) {
                let left_m = column * pitch_m;
                let is_moved = libm::fmod(column, 2.0) != 0.0;
                let near_m = row_near_m + if is_moved { 0.5 * unit_m } else { 0.0 };
                for across_m in [aside_m, square_m - aside_m - self.width_m] {
                    add(self.upright(row, left_m + across_m, near_m, false));
                }
                let across_near_m = near_m + self.length_m + self.joint_m;
                add(self.upright(row, left_m + inset_m, across_near_m, true));
            }
        }
    }

    /// Bricks end to side, along and across. With a and b the sides of a cell, cells across start at k (b, b) + m (a, -a), and beside the
    /// end of each one along; a row is what starts within one b.
    fn herringbone_90(&self, field: &Clipper, add: &mut impl FnMut(Brick)) {
        let (a_m, b_m) = self.cell_m;
        for row in self.rows(field, b_m, b_m + self.length_m) {
            let near_m = row * b_m;
            let away = (near_m, near_m + b_m + self.length_m);
            for (is_across, first_m) in [(true, (0.0, 0.0)), (false, (a_m, b_m - a_m))] {
                let inset_m = (
                    0.5 * (a_m - self.joint_m - self.length_m),
                    0.5 * (b_m - self.joint_m - self.width_m),
                );
                let (inset_right_m, inset_away_m) = if is_across {
                    inset_m
                } else {
                    (inset_m.1, inset_m.0)
                };
                // Brick m of a row starts at 2 a m from where its diagonal crosses the row, by less than one b further on.
                let reach_m = self.length_m + b_m;
                let row_start_m = near_m - first_m.1 + first_m.0;
                for column in self.columns_from(field, away, 2.0 * a_m, reach_m, row_start_m) {
                    let steps = row + libm::ceil((column * a_m - first_m.1) / b_m - 1e-6);
                    add(self.upright(
                        row,
                        first_m.0 + steps * b_m + column * a_m + inset_right_m,
                        first_m.1 + steps * b_m - column * a_m + inset_away_m,
                        is_across,
                    ));
                }
            }
        }
    }

    /// The same turned to the left by half a right angle: k leads away from the door, m to the right. A row is one k.
    fn herringbone_45(&self, field: &Clipper, add: &mut impl FnMut(Brick)) {
        let (a_m, b_m) = self.cell_m;
        let reach_m = (a_m + b_m) * SQRT_2;
        for row in self.rows(field, b_m * SQRT_2, reach_m) {
            let near_m = row * b_m * SQRT_2;
            let away = (near_m, near_m + reach_m);
            // The point of the two lies at a / √2 from where the row's bricks start.
            let first_right_m = -a_m * FRAC_1_SQRT_2;
            for column in self.columns_from(field, away, a_m * SQRT_2, reach_m, first_right_m) {
                let (right_m, away_m) = (first_right_m + column * a_m * SQRT_2, near_m);
                for (frame_right_m, frame_away_m, is_across) in
                    [(0.0, 0.0, true), (a_m, b_m - a_m, false)]
                {
                    add(self.turned(
                        row,
                        right_m + (frame_right_m - frame_away_m) * FRAC_1_SQRT_2,
                        away_m + (frame_right_m + frame_away_m) * FRAC_1_SQRT_2,
                        is_across,
                    ));
                }
            }
        }
    }

    /// Side of a square of two bricks: their length, or two widths and a joint, whichever is larger.
    fn square_m(&self) -> f64 {
        self.length_m.max(2.0 * self.width_m + self.joint_m)
    }

    /// Rows that meet the field, where each reaches away from its start by `reach_m`.
    fn rows(
        &self,
        field: &Clipper,
        pitch_m: f64,
        reach_m: f64,
    ) -> impl Iterator<Item = f64> + use<> {
        let (near_m, far_m) = field.bounds().map_or((0.0, -1.0), |bounds| {
            (
                bounds.near_m - self.start_away_m,
                bounds.far_m - self.start_away_m,
            )
        });
        steps(
            libm::floor((near_m - reach_m) / pitch_m),
            libm::ceil(far_m / pitch_m),
        )
    }

    fn columns(&self, field: &Clipper, away: (f64, f64), pitch_m: f64, reach_m: f64) -> Vec<f64> {
        self.columns_from(field, away, pitch_m, reach_m, 0.0)
    }

    /// Columns that may meet the field between two distances away, the first of them starting at `from_m`, each once.
    fn columns_from(
        &self,
        field: &Clipper,
        away: (f64, f64),
        pitch_m: f64,
        reach_m: f64,
        from_m: f64,
    ) -> Vec<f64> {
        let mut ranges = field.ranges(self.start_away_m + away.0, self.start_away_m + away.1);
        if self.sign < 0.0 {
            ranges.reverse();
            for range in &mut ranges {
                *range = (-range.1, -range.0);
            }
        }
        let start_m = self.start_right_m + from_m;
        let mut columns: Vec<f64> = Vec::new();
        for (left_m, right_m) in ranges {
            let mut first = libm::floor((left_m - start_m - reach_m) / pitch_m);
            if let Some(&last) = columns.last() {
                first = first.max(last + 1.0);
            }
            columns.extend(steps(first, libm::ceil((right_m - start_m) / pitch_m)));
        }
        columns
    }

    /// A brick whose near left corner lies there, its length across or along.
    fn upright(&self, row: f64, right_m: f64, away_m: f64, is_across: bool) -> Brick {
        let (across_m, along_m) = if is_across {
            (self.length_m, self.width_m)
        } else {
            (self.width_m, self.length_m)
        };
        let corners = [
            (0.0, 0.0),
            (across_m, 0.0),
            (across_m, along_m),
            (0.0, along_m),
        ]
        .map(|(right, away)| (right_m + right, away_m + away));
        let along = if is_across { (1.0, 0.0) } else { (0.0, 1.0) };
        self.placed(row, corners, along)
    }

    /// The same turned to the left by half a right angle about that corner.
    fn turned(&self, row: f64, right_m: f64, away_m: f64, is_across: bool) -> Brick {
        let (across_m, along_m) = if is_across {
            (self.length_m, self.width_m)
        } else {
            (self.width_m, self.length_m)
        };
        let corners = [
            (0.0, 0.0),
            (across_m, 0.0),
            (across_m, along_m),
            (0.0, along_m),
        ]
        .map(|(right, away)| {
            (
                right_m + (right - away) * FRAC_1_SQRT_2,
                away_m + (right + away) * FRAC_1_SQRT_2,
            )
        });
        let along = if is_across {
            (FRAC_1_SQRT_2, FRAC_1_SQRT_2)
        } else {
            (-FRAC_1_SQRT_2, FRAC_1_SQRT_2)
        };
        self.placed(row, corners, along)
    }

    /// From the pattern's start to plan, mirrored where the start is on the right.
    fn placed(&self, row: f64, corners: [(f64, f64); 4], along: (f64, f64)) -> Brick {
        let mut outline = corners.map(|(right_m, away_m)| PlanPoint {
            right_m: self.sign * (self.start_right_m + right_m),
            away_m: self.start_away_m + away_m,
        });
        if self.sign < 0.0 {
            outline.reverse();
        }
        #[expect(
            clippy::cast_possible_truncation,
            reason = "rows are whole and stay within a million"
        )]
        let row = row as i32;
        Brick {
            outline,
            along: (self.sign * along.0, along.1),
            row,
        }
    }
}

/// Whole numbers from one to another.
fn steps(first: f64, last: f64) -> impl Iterator<Item = f64> + use<> {
    let (first, last) = (first.max(-MOST_ROWS), last.min(MOST_ROWS));
    std::iter::successors(Some(first), |number| Some(number + 1.0))
        .take_while(move |number| *number <= last)
}
