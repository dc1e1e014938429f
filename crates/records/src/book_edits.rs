//! Sights added to the level book and taken away.

use crate::v1::{BookRow, Sight, SiteFile, Stands};

impl SiteFile {
    /// Starts the level book with a backsight on the sill; gives its index.
    pub fn start_book(&mut self) -> usize {
        self.add_sight(Sight::Back, Stands::Sill)
    }

    /// Adds an intermediate sight on the old surface; gives its index.
    pub fn add_intermediate_sight(&mut self) -> usize {
        self.add_sight(Sight::Intermediate, Stands::OldSurface)
    }

    /// Adds a foresight and a backsight on a new turning point; gives the index of the foresight.
    pub fn turn_book(&mut self) -> usize {
        let fore_idx = self.add_sight(Sight::Fore, Stands::TurningPoint);
        self.add_sight(Sight::Back, Stands::TurningPoint);
        fore_idx
    }

    /// Adds a foresight on the sill; gives its index.
    pub fn close_book(&mut self) -> usize {
        self.add_sight(Sight::Fore, Stands::Sill)
    }

    /// Takes out one line of the book: a sight, or both sights on one turning point. False when there is no such sight.
    pub fn remove_book_line(&mut self, row_idx: usize) -> bool {
        let rows = &mut self.line.book.rows;
        if row_idx >= rows.len() {
            return false;
        }
        let is = |idx: usize, sight: Sight| rows.get(idx).is_some_and(|row| row.sight == sight);
        let before = row_idx.saturating_sub(1);
        let lines = if is(row_idx, Sight::Fore) && is(row_idx + 1, Sight::Back) {
            row_idx..row_idx + 2
        } else if row_idx > 0 && is(row_idx, Sight::Back) && is(before, Sight::Fore) {
            before..row_idx + 1
        } else {
            row_idx..row_idx + 1
        };
        rows.drain(lines);
        if rows.is_empty() {
            self.line.book.spread = false;
        }
        true
    }

    /// What the rod stands on at a sight; a backsight right after a foresight goes with it. False when there is no such sight.
    pub fn stand_sight_on(&mut self, row_idx: usize, stands: Stands) -> bool {
        let rows = &mut self.line.book.rows;
        let Some(row) = rows.get_mut(row_idx) else {
            return false;
        };
        row.stands = stands;
        if row.sight == Sight::Fore
            && let Some(next) = rows.get_mut(row_idx + 1)
            && next.sight == Sight::Back
        {
            next.stands = stands;
        }
        true
    }

    fn add_sight(&mut self, sight: Sight, stands: Stands) -> usize {
        self.line.book.rows.push(BookRow::new(sight, stands));
        self.line.book.rows.len() - 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turning_point_goes_as_one_line() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        assert_eq!(site.start_book(), 0);
        assert_eq!(site.add_intermediate_sight(), 1);
        assert_eq!(site.turn_book(), 2);
        assert_eq!(site.close_book(), 4);
        assert!(site.stand_sight_on(2, Stands::OldSurface));
        assert_eq!(site.line.book.rows[3].stands, Stands::OldSurface);
        assert!(site.remove_book_line(3));
        let sights: Vec<Sight> = site.line.book.rows.iter().map(|row| row.sight).collect();
        assert_eq!(sights, [Sight::Back, Sight::Intermediate, Sight::Fore]);
        assert!(site.remove_book_line(2) && site.remove_book_line(1) && site.remove_book_line(0));
        assert!(!site.remove_book_line(0) && !site.stand_sight_on(0, Stands::Sill));
        assert!(site.line.book.is_empty());
    }
}
