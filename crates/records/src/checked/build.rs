//! What was written down while the walk was built, checked.

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::fmt::temporal::Pieces;
use jiff::tz::Offset;
use underbrick_calc::build::{HoldStage, SpotKind, Surface};
use underbrick_calc::order::Item;
use underbrick_calc::place::Place;
use underbrick_calc::site;

use super::Check;
use crate::v1::{ReadBy, Stamp};

impl Check<'_> {
    pub(super) fn build(&mut self) -> site::BuildInput {
        let build = &self.file.build;
        site::BuildInput {
            spacing: self.length(Place::BuildSpacing),
            string_above_grade: self.length(Place::StringAboveGrade),
            set_ups: build
                .set_ups
                .iter()
                .enumerate()
                .map(|(idx, set_up)| site::SetUp {
                    rod_at_sill: self.length(Place::SetUpRod(idx)),
                    stamp: self.stamp(Place::SetUp(idx), &set_up.stamp),
                })
                .collect(),
            readings: (0..build.readings.len())
                .filter_map(|idx| self.build_reading(idx))
                .collect(),
            spots: build
                .spots
                .iter()
                .enumerate()
                .map(|(idx, spot)| site::SpotReading {
                    kind: self.word(Place::Spot(idx), &spot.kind, SpotKind::of),
                    station: self.length(Place::SpotStation(idx)),
                    size: self.length(Place::SpotSize(idx)),
                    stamp: self.stamp(Place::Spot(idx), &spot.stamp),
                })
                .collect(),
            lifts: build
                .lifts
                .iter()
                .map(|lift| site::LiftPlaced {
                    number: lift.number,
                    loose: self.length(Place::LiftLoose(lift.number)),
                    compacted: self.length(Place::LiftCompacted(lift.number)),
                    n_passes: self.count(Place::LiftPasses(lift.number)),
                    stamp: self.stamp(Place::LiftLoose(lift.number), &lift.stamp),
                })
                .collect(),
            closed: self.closed(),
            days: (0..build.days.len())
                .filter_map(|idx| self.day(idx))
                .collect(),
        }
    }

    fn build_reading(&mut self, idx: usize) -> Option<site::BuildReading> {
        let reading = self.file.build.readings.get(idx)?;
        Some(site::BuildReading {
            station: self.length(Place::BuildStation(idx)),
            offset: self.length(Place::BuildOffset(idx)),
            surface: self.word(Place::BuildReading(idx), &reading.surface, Surface::of),
            by: match reading.by {
                ReadBy::String => site::ReadBy::String,
                // Number 0 is no set-up; the calculation says that there is none.
                ReadBy::Rod(number) => site::ReadBy::Rod {
                    set_up_idx: number.checked_sub(1).unwrap_or(usize::MAX),
                },
            },
            reading: self.length(Place::BuildValue(idx)),
            is_confirmed: reading.confirmed,
            stamp: self.stamp(Place::BuildReading(idx), &reading.stamp),
        })
    }

    fn closed(&mut self) -> Vec<site::StageClosed> {
        let mut closed = Vec::new();
        for note in &self.file.build.stages {
            let Some(stage) = HoldStage::of(&note.stage) else {
                self.warn(
                    Place::Initials,
                    format!("Build: {:?} is no stage.", note.stage),
                    "It is kept as written and not used.",
                );
                continue;
            };
            if note.closed {
                closed.push(site::StageClosed {
                    stage,
                    reason: note.reason.trim().to_owned(),
                    stamp: self.stamp(Place::HoldStage(stage), &note.stamp),
                });
            }
        }
        closed
    }

    fn day(&mut self, idx: usize) -> Option<site::DayLog> {
        let day = self.file.build.days.get(idx)?;
        let date = day.date.trim();
        let read: Option<Date> = date.parse().ok();
        if read.is_none() && !date.is_empty() {
            self.warn(
                Place::DayDate(idx),
                format!("Day {} date: {date:?} is no date.", idx + 1),
                "It is kept as written and not used. Write year, month and day, such as 2026-05-04.",
            );
        }
        Some(site::DayLog {
            date: read.map(|date| (date.year(), date.month(), date.day())),
            crew: day.crew.clone(),
            weather: day.weather.clone(),
            deliveries: day
                .deliveries
                .iter()
                .enumerate()
                .filter_map(|(nth, delivery)| {
                    let place = Place::DeliveryItem(idx, nth);
                    Some(site::Delivery {
                        item: self.word(place, &delivery.item, Item::of)?,
                        count: self.decimal(Place::DeliveryCount(idx, nth)),
                    })
                })
                .collect(),
            notes: day.notes.clone(),
            stamp: self.stamp(Place::Day(idx), &day.stamp),
        })
    }

    /// A word of a short list; one that is not on it is kept, said and not used.
    fn word<T>(
        &mut self,
        place: Place,
        written: &str,
        of: impl Fn(&str) -> Option<T>,
    ) -> Option<T> {
        let found = of(written);
        if found.is_none() && !written.trim().is_empty() {
            self.warn(
                place,
                format!(
                    "{}: {written:?} is none of what can be chosen.",
                    underbrick_calc::field::full_name(place)
                ),
                "It is kept as written and not used. Choose anew.",
            );
        }
        found
    }

    pub(super) fn stamp(&mut self, place: Place, stamp: &Stamp) -> site::Stamp {
        let at = stamp.at.trim();
        let read: Option<Timestamp> = at.parse().ok();
        if read.is_none() && !at.is_empty() {
            self.warn(
                place,
                format!(
                    "{}: {at:?} is no date and time.",
                    underbrick_calc::field::full_name(place)
                ),
                "It is kept as written and not used. Write it as 2026-05-04T13:30:00Z.",
            );
        }
        site::Stamp {
            at_s: read.map(Timestamp::as_second),
            east_s: Pieces::parse(at)
                .ok()
                .and_then(|pieces| pieces.to_numeric_offset())
                .map_or(0, Offset::seconds),
            initials: stamp.by.trim().to_owned(),
            device: stamp.device.trim().to_owned(),
        }
    }
}
