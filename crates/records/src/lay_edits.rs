//! Openings and measured bricks added and taken away.

use crate::v1::{BrickReading, Opening, SecondBrick, SiteFile};

impl SiteFile {
    /// Adds an opening, not measured; gives its index.
    pub fn add_opening(&mut self) -> usize {
        self.lay.openings.push(Opening::default());
        self.lay.openings.len() - 1
    }

    /// Takes an opening out. False when there is no such opening.
    pub fn remove_opening(&mut self, opening_idx: usize) -> bool {
        let is_there = opening_idx < self.lay.openings.len();
        if is_there {
            self.lay.openings.remove(opening_idx);
        }
        is_there
    }

    /// Adds a brick to the sample, not measured, of the first size or the second; gives its index.
    pub fn add_sample_brick(&mut self, of_second: bool) -> usize {
        self.lay.sample.push(BrickReading {
            of_second,
            ..BrickReading::default()
        });
        self.lay.sample.len() - 1
    }

    /// Takes a brick out of the sample. False when there is no such brick.
    pub fn remove_sample_brick(&mut self, brick_idx: usize) -> bool {
        let is_there = brick_idx < self.lay.sample.len();
        if is_there {
            self.lay.sample.remove(brick_idx);
        }
        is_there
    }

    /// Whether there is a second size of brick on site. What was typed of it is lost when it goes, and so are its readings.
    pub fn set_second_brick(&mut self, is_there: bool) {
        match (is_there, &self.lay.second_brick) {
            (true, None) => self.lay.second_brick = Some(SecondBrick::default()),
            (false, Some(_)) => {
                self.lay.second_brick = None;
                self.lay.edge_of_second = false;
                self.lay.sample.retain(|brick| !brick.of_second);
            }
            (true, Some(_)) | (false, None) => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::place::Place;

    #[test]
    fn openings_and_bricks_come_and_go() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        assert!(site.lay.is_empty());
        assert_eq!((site.add_opening(), site.add_opening()), (0, 1));
        assert!(site.set_text(Place::OpeningStation(1), "12 ft"));
        assert!(site.remove_opening(0) && !site.remove_opening(1));
        assert_eq!(site.text(Place::OpeningStation(0)), Some("12 ft"));
        assert_eq!(site.add_sample_brick(false), 0);
        assert_eq!(site.text(Place::SecondWidth), None);
        site.set_second_brick(true);
        assert_eq!(site.add_sample_brick(true), 1);
        assert!(site.set_text(Place::SecondWidth, "3 5/8 in"));
        site.set_second_brick(true);
        assert_eq!(site.text(Place::SecondWidth), Some("3 5/8 in"));
        site.set_second_brick(false);
        assert_eq!(site.lay.sample.len(), 1);
        assert!(site.remove_sample_brick(0) && !site.remove_sample_brick(0));
        assert!(site.remove_opening(0) && site.lay.is_empty());
    }
}
