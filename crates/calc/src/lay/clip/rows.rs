//! The edges of an outline in rows of cells, and which cells without an edge lie inside.
//!
//! Only cells with an edge are kept, row by row from left to right, each with a note whether the empty cells after it lie inside. So the
//! store grows with the length of the outline, not with the ground that it spans.

use super::super::pieces::PlanPoint;
use super::Bounds;

/// Side of a cell: half a brick or so.
const CELL_M: f64 = 0.15;
/// More rows than this are not kept: a walk of ten miles.
const MOST_CELLS: f64 = 100_000.0;
/// An edge counts in each cell that it comes as near to as this.
const REACH_M: f64 = 1e-6;

/// The edges of one outline.
#[derive(Clone, Debug, Default)]
pub(super) struct Rows {
    left_m: f64,
    near_m: f64,
    cell_m: f64,
    /// First cell of each row, and the end of the last.
    row_starts: Vec<usize>,
    cells: Vec<Cell>,
    /// Edges cell by cell.
    edges: Vec<u32>,
    /// Start and end of each edge.
    ends: Vec<(PlanPoint, PlanPoint)>,
}

/// A cell with an edge.
#[derive(Clone, Copy, Debug)]
struct Cell {
    column: u32,
    first_edge: usize,
    end_edge: usize,
    is_middle_inside: bool,
    is_after_inside: bool,
}

impl Rows {
    pub fn new(outline: &[PlanPoint]) -> Self {
        let Some(bounds) = Bounds::of(outline) else {
            return Self::default();
        };
        let span_m = (bounds.right_m - bounds.left_m).max(bounds.far_m - bounds.near_m);
        let ends = outline.iter().skip(1).chain(outline.first());
        let mut rows = Self {
            left_m: bounds.left_m - 2.0 * REACH_M,
            near_m: bounds.near_m - 2.0 * REACH_M,
            cell_m: CELL_M.max(span_m / MOST_CELLS),
            row_starts: Vec::new(),
            cells: Vec::new(),
            edges: Vec::new(),
            ends: outline.iter().copied().zip(ends.copied()).collect(),
        };
        let entries = rows.entries();
        let n_rows = rows.row_of(bounds.far_m + REACH_M) + 1;
        rows.fill(&entries, n_rows);
        rows
    }

    /// The edges in cells that meet the bounds, in order; or, where there are none, whether the ground there is inside.
    pub fn edges_beside(&self, bounds: Bounds, edges: &mut Vec<u32>) -> Option<bool> {
        edges.clear();
        let mut is_inside = false;
        let mut n_cells = 0_u32;
        let (first, last) = (
            self.column_of(bounds.left_m),
            self.column_of(bounds.right_m),
        );
        if bounds.right_m < self.left_m || bounds.far_m < self.near_m {
            return Some(false);
        }
        for row in self.row_of(bounds.near_m)..=self.row_of(bounds.far_m) {
            let cells = self.row(row);
            let from = cells.partition_point(|cell| cell.column < first);
            let here = cells
                .get(from..)
                .unwrap_or_default()
                .iter()
                .take_while(|cell| cell.column <= last);
            let mut is_empty = true;
            for cell in here {
                is_empty = false;
                n_cells += 1;
                edges.extend_from_slice(
                    self.edges
                        .get(cell.first_edge..cell.end_edge)
                        .unwrap_or_default(),
                );
            }
            if is_empty {
                let before = from.checked_sub(1).and_then(|before| cells.get(before));
                is_inside = before.is_some_and(|cell| cell.is_after_inside);
            }
        }
        match n_cells {
            0 => return Some(is_inside),
            1 => {}
            _ => {
                edges.sort_unstable();
                edges.dedup();
            }
        }
        None
    }

    /// Whether a spot lies inside. From the middle of its cell, whose side is known, a way along the row and one across it lead to the
    /// spot; each edge that is crossed changes sides.
    pub fn is_inside(&self, spot: PlanPoint) -> bool {
        if spot.right_m < self.left_m || spot.away_m < self.near_m {
            return false;
        }
        let (row, column) = (self.row_of(spot.away_m), self.column_of(spot.right_m));
        let cells = self.row(row);
        let at = cells.partition_point(|cell| cell.column < column);
        let Some(cell) = cells.get(at).filter(|cell| cell.column == column) else {
            let before = at.checked_sub(1).and_then(|before| cells.get(before));
            return before.is_some_and(|cell| cell.is_after_inside);
        };
        let (middle_right_m, middle_away_m) = (self.middle_m(column), self.row_middle_m(row));
        let edges = self
            .edges
            .get(cell.first_edge..cell.end_edge)
            .unwrap_or_default();
        let mut is_inside = cell.is_middle_inside;
        for (start, end) in edges.iter().filter_map(|&edge_idx| self.edge(edge_idx)) {
            if let Some(crossed_m) = crossed_at_away(start, end, spot.away_m)
                && (crossed_m > spot.right_m) != (crossed_m > middle_right_m)
            {
                is_inside = !is_inside;
            }
            if let Some(crossed_m) = crossed_at_right(start, end, middle_right_m)
                && (crossed_m > spot.away_m) != (crossed_m > middle_away_m)
            {
                is_inside = !is_inside;
            }
        }
        is_inside
    }

    /// Ranges to the right that may be inside in any row between two distances away.
    pub fn ranges(&self, near_m: f64, far_m: f64) -> Vec<(f64, f64)> {
        let mut ranges: Vec<(f64, f64)> = Vec::new();
        if far_m < self.near_m {
            return ranges;
        }
        for row in self.row_of(near_m)..=self.row_of(far_m) {
            let mut open: Option<f64> = None;
            for cell in self.row(row) {
                let left_m = open.take().unwrap_or_else(|| self.left_of_m(cell.column));
                if cell.is_after_inside {
                    open = Some(left_m);
                } else {
                    ranges.push((left_m, self.left_of_m(cell.column) + self.cell_m));
                }
            }
        }
        ranges.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut merged: Vec<(f64, f64)> = Vec::with_capacity(ranges.len());
        for (left_m, right_m) in ranges {
            match merged.last_mut() {
                Some(last) if left_m <= last.1 + 0.5 * self.cell_m => last.1 = last.1.max(right_m),
                _ => merged.push((left_m, right_m)),
            }
        }
        merged
    }

    /// Row, column and edge of every cell that an edge touches.
    fn entries(&self) -> Vec<(u32, u32, u32)> {
        let mut entries = Vec::with_capacity(self.ends.len().saturating_mul(2));
        for (edge_idx, &(start, end)) in (0_u32..).zip(&self.ends) {
            let (near, far) = if start.away_m <= end.away_m {
                (start, end)
            } else {
                (end, start)
            };
            for row in self.row_of(near.away_m - REACH_M)..=self.row_of(far.away_m + REACH_M) {
                let row_near_m = self.near_m + f64::from(row) * self.cell_m - REACH_M;
                let row_far_m = row_near_m + self.cell_m + 2.0 * REACH_M;
                let right_at = |away_m: f64| {
                    let height_m = far.away_m - near.away_m;
                    let part = if height_m > 0.0 {
                        ((away_m - near.away_m) / height_m).clamp(0.0, 1.0)
                    } else {
                        return (near.right_m, far.right_m);
                    };
                    let right_m = near.right_m + (far.right_m - near.right_m) * part;
                    (right_m, right_m)
                };
                let (one, other) = (right_at(row_near_m), right_at(row_far_m));
                let left_m = one.0.min(one.1).min(other.0).min(other.1) - REACH_M;
                let right_m = one.0.max(one.1).max(other.0).max(other.1) + REACH_M;
                for column in self.column_of(left_m)..=self.column_of(right_m) {
                    entries.push((row, column, edge_idx));
                }
            }
        }
        entries.sort_unstable();
        entries
    }

    fn fill(&mut self, entries: &[(u32, u32, u32)], n_rows: u32) {
        let mut rest = entries;
        for row in 0..n_rows {
            self.row_starts.push(self.cells.len());
            let (here, after) = rest.split_at(rest.partition_point(|entry| entry.0 == row));
            rest = after;
            self.fill_row(row, here);
        }
        self.row_starts.push(self.cells.len());
    }

    fn fill_row(&mut self, row: u32, entries: &[(u32, u32, u32)]) {
        // Where the middle of the row is crossed, each edge once.
        let away_m = self.row_middle_m(row);
        let mut crossings: Vec<(u32, f64)> = entries
            .iter()
            .filter_map(|&(_, _, edge_idx)| {
                let (start, end) = self.edge(edge_idx)?;
                Some((edge_idx, crossed_at_away(start, end, away_m)?))
            })
            .collect();
        crossings.sort_by_key(|crossing| crossing.0);
        crossings.dedup_by_key(|crossing| crossing.0);
        crossings.sort_by(|one, other| one.1.total_cmp(&other.1));
        let is_inside_at =
            |right_m: f64| crossings.partition_point(|crossing| crossing.1 <= right_m) % 2 == 1;
        for cell_entries in entries.chunk_by(|one, other| one.1 == other.1) {
            let Some(&(_, column, _)) = cell_entries.first() else {
                continue;
            };
            let first_edge = self.edges.len();
            self.edges
                .extend(cell_entries.iter().map(|&(_, _, edge_idx)| edge_idx));
            self.cells.push(Cell {
                column,
                first_edge,
                end_edge: self.edges.len(),
                is_middle_inside: is_inside_at(self.middle_m(column)),
                is_after_inside: is_inside_at(self.middle_m(column) + self.cell_m),
            });
        }
    }

    fn row(&self, row: u32) -> &[Cell] {
        let Ok(row) = usize::try_from(row) else {
            return &[];
        };
        match (self.row_starts.get(row), self.row_starts.get(row + 1)) {
            (Some(&start), Some(&end)) => self.cells.get(start..end).unwrap_or_default(),
            _ => &[],
        }
    }

    fn edge(&self, edge_idx: u32) -> Option<(PlanPoint, PlanPoint)> {
        self.ends.get(usize::try_from(edge_idx).ok()?).copied()
    }

    fn row_of(&self, away_m: f64) -> u32 {
        cell_number((away_m - self.near_m) / self.cell_m)
    }

    fn column_of(&self, right_m: f64) -> u32 {
        cell_number((right_m - self.left_m) / self.cell_m)
    }

    fn left_of_m(&self, column: u32) -> f64 {
        self.left_m + f64::from(column) * self.cell_m
    }

    fn middle_m(&self, column: u32) -> f64 {
        self.left_of_m(column) + 0.5 * self.cell_m
    }

    fn row_middle_m(&self, row: u32) -> f64 {
        self.near_m + (f64::from(row) + 0.5) * self.cell_m
    }
}

/// Number of the cell; the first for what lies before it.
fn cell_number(cells: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a cast from a float saturates, and NaN becomes 0"
    )]
    let number = cells.min(2.0 * MOST_CELLS) as u32;
    number
}

/// Where an edge crosses the line at a distance away, to the right. The line runs just beyond a corner that lies on it.
fn crossed_at_away(start: PlanPoint, end: PlanPoint, away_m: f64) -> Option<f64> {
    if (start.away_m > away_m) == (end.away_m > away_m) {
        return None;
    }
    let part = (away_m - start.away_m) / (end.away_m - start.away_m);
    Some(start.right_m + (end.right_m - start.right_m) * part)
}

/// The same for the line at a distance to the right.
fn crossed_at_right(start: PlanPoint, end: PlanPoint, right_m: f64) -> Option<f64> {
    if (start.right_m > right_m) == (end.right_m > right_m) {
        return None;
    }
    let part = (right_m - start.right_m) / (end.right_m - start.right_m);
    Some(start.away_m + (end.away_m - start.away_m) * part)
}
