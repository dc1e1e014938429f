//! What is added, closed and taken away while the walk is built. Who and when comes from whoever calls: a record knows no clock.

use underbrick_calc::build::{HoldStage, SpotKind, Surface};

use crate::v1::{BuildReading, DayLog, Delivery, ReadBy, SetUp, SiteFile, SpotReading, Stamp};

impl SiteFile {
    /// Adds a set-up of the instrument, not read yet; gives its index.
    pub fn add_set_up(&mut self, stamp: Stamp) -> usize {
        self.build.set_ups.push(SetUp {
            rod_at_sill: String::new(),
            stamp,
        });
        self.build.set_ups.len() - 1
    }

    /// Adds a reading of a surface at a station as text, by the last set-up where there is one and `by_rod` is asked; gives its index.
    pub fn add_build_reading(
        &mut self,
        station: &str,
        offset: &str,
        surface: Surface,
        by_rod: bool,
        stamp: Stamp,
    ) -> usize {
        let by = match self.build.set_ups.len() {
            n if by_rod && n > 0 => ReadBy::Rod(n),
            _ => ReadBy::String,
        };
        self.build.readings.push(BuildReading {
            station: station.to_owned(),
            offset: offset.to_owned(),
            surface: surface.key(),
            by,
            reading: String::new(),
            confirmed: false,
            stamp,
        });
        self.build.readings.len() - 1
    }

    /// Takes a reading of what was built out. False when there is no such reading.
    pub fn remove_build_reading(&mut self, reading_idx: usize) -> bool {
        let is_there = reading_idx < self.build.readings.len();
        if is_there {
            self.build.readings.remove(reading_idx);
        }
        is_there
    }

    /// Says that a reading is right although it looks like a slip.
    pub fn confirm_build_reading(&mut self, reading_idx: usize, is_right: bool) {
        if let Some(reading) = self.build.readings.get_mut(reading_idx) {
            reading.confirmed = is_right;
        }
    }

    /// Adds a check at a spot, not read yet; gives its index.
    pub fn add_spot(&mut self, kind: SpotKind, station: &str, stamp: Stamp) -> usize {
        self.build.spots.push(SpotReading {
            kind: kind.key().to_owned(),
            station: station.to_owned(),
            size: String::new(),
            stamp,
        });
        self.build.spots.len() - 1
    }

    /// Takes a check at a spot out. False when there is no such check.
    pub fn remove_spot(&mut self, spot_idx: usize) -> bool {
        let is_there = spot_idx < self.build.spots.len();
        if is_there {
            self.build.spots.remove(spot_idx);
        }
        is_there
    }

    /// Closes a stage; its reason and initials are what was written at it.
    pub fn close_stage(&mut self, stage: HoldStage, stamp: Stamp) {
        if let Some(note) = self.build.stage_mut(stage) {
            let by = if note.stamp.by.is_empty() {
                stamp.by.clone()
            } else {
                note.stamp.by.clone()
            };
            note.closed = true;
            note.stamp = Stamp { by, ..stamp };
        }
    }

    /// Opens a stage again; its reason stays as written.
    pub fn reopen_stage(&mut self, stage: HoldStage) {
        if let Some(note) = self.build.stage_mut(stage) {
            note.closed = false;
        }
        self.build.tidy();
    }

    /// Adds a day to the log; gives its index.
    pub fn add_day(&mut self, date: &str, stamp: Stamp) -> usize {
        self.build.days.push(DayLog {
            date: date.to_owned(),
            stamp,
            ..DayLog::default()
        });
        self.build.days.len() - 1
    }

    /// Takes a day out of the log. False when there is no such day.
    pub fn remove_day(&mut self, day_idx: usize) -> bool {
        let is_there = day_idx < self.build.days.len();
        if is_there {
            self.build.days.remove(day_idx);
            self.pictures_after_day(day_idx);
        }
        is_there
    }

    /// Adds a delivery to a day; gives its index. `None` when there is no such day.
    pub fn add_delivery(&mut self, day_idx: usize) -> Option<usize> {
        let day = self.build.days.get_mut(day_idx)?;
        day.deliveries.push(Delivery::default());
        Some(day.deliveries.len() - 1)
    }

    /// Takes a delivery out. False when there is no such delivery.
    pub fn remove_delivery(&mut self, day_idx: usize, nth: usize) -> bool {
        let Some(day) = self.build.days.get_mut(day_idx) else {
            return false;
        };
        let is_there = nth < day.deliveries.len();
        if is_there {
            day.deliveries.remove(nth);
        }
        is_there
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::place::Place;

    fn stamp(by: &str) -> Stamp {
        Stamp {
            at: "2026-05-04T13:30:00Z".to_owned(),
            by: by.to_owned(),
            device: "tablet".to_owned(),
        }
    }

    #[test]
    fn readings_come_and_go_with_who_wrote_them() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        assert!(site.build.is_empty());
        let first = site.add_build_reading("12 ft", "", Surface::DigBottom, true, stamp("JM"));
        assert_eq!(site.build.readings[first].by, ReadBy::String);
        site.add_set_up(stamp("JM"));
        let second = site.add_build_reading("12 ft", "", Surface::LiftTop(2), true, stamp("JM"));
        assert_eq!(site.build.readings[second].by, ReadBy::Rod(1));
        assert_eq!(site.build.readings[second].surface, "lift-2");
        assert!(site.set_text(Place::BuildValue(second), "14 1/2 in"));
        assert!(site.remove_build_reading(first) && !site.remove_build_reading(7));
        assert_eq!(site.text(Place::BuildValue(0)), Some("14 1/2 in"));
    }

    #[test]
    fn a_stage_is_closed_with_initials_and_opened_again() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        let reason = Place::StageReason(HoldStage::Dig);
        assert_eq!(site.text(reason), Some(""));
        assert!(site.set_text(reason, "rock at 9 ft, agreed with the owner"));
        assert!(!site.build.stages[0].closed);
        site.close_stage(HoldStage::Dig, stamp("JM"));
        assert!(site.build.stages[0].closed);
        assert_eq!(site.build.stages[0].stamp.by, "JM");
        site.reopen_stage(HoldStage::Dig);
        assert_eq!(
            site.text(reason),
            Some("rock at 9 ft, agreed with the owner")
        );
        site.close_stage(HoldStage::Fabric, stamp(""));
        site.reopen_stage(HoldStage::Fabric);
        assert_eq!(site.build.stages.len(), 1);
    }

    #[test]
    fn a_lift_is_kept_while_something_is_written_of_it() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        assert!(site.set_text(Place::LiftPasses(2), "4"));
        assert_eq!(site.build.lifts.len(), 1);
        assert!(site.set_text(Place::LiftPasses(2), ""));
        assert!(site.build.is_empty());
    }
}
