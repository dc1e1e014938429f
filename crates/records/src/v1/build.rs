//! What was read, placed and closed while the walk was built, as typed. What was not written down is left out of the file.

use serde::{Deserialize, Serialize};
use underbrick_calc::build;
use underbrick_calc::place::Place;

use crate::written::{is_usual, written};

/// What was written down while the walk was built.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Build {
    /// From stake to stake.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub spacing: String,
    /// How far the working string hangs above the grade line.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub string_above_grade: String,
    /// Initials of whoever holds the device: they stand behind what is written next.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub initials: String,
    /// Set-ups of the instrument, the last is today's.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub set_ups: Vec<SetUp>,
    /// Readings of what was built.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<BuildReading>,
    /// Checks at spots that are no levels.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub spots: Vec<SpotReading>,
    /// Lifts as they were placed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lifts: Vec<LiftPlaced>,
    /// Stages that were closed, or for which a reason was begun.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub stages: Vec<StageNote>,
    /// The log, a day each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub days: Vec<DayLog>,
}

/// Who wrote something down, when, and on which device.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stamp {
    /// Date and time by the device's clock with what that is ahead of UTC, such as `2026-05-04T08:30:00-05:00`; `Z` at the end where the
    /// device's time zone is not known.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub at: String,
    /// Initials.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub by: String,
    /// What the device is called.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub device: String,
}

impl Stamp {
    /// Now, by the clock of this device and in its time zone, to the second.
    #[must_use]
    pub fn now(by: &str, device: &str) -> Self {
        Self::at(jiff::Timestamp::now(), by, device)
    }

    /// At that time, to the second.
    pub(crate) fn at(time: jiff::Timestamp, by: &str, device: &str) -> Self {
        Self {
            at: crate::local_time::written(time),
            by: by.to_owned(),
            device: device.to_owned(),
        }
    }
}

/// One set-up of an instrument.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetUp {
    /// Rod reading on the underside of the sill.
    #[serde(default, deserialize_with = "written")]
    pub rod_at_sill: String,
    /// Who and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// How a level was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ReadBy {
    /// Tape down from the working string.
    #[default]
    String,
    /// Rod, in the set-up of that number, from 1.
    Rod(usize),
}

/// A reading of what was built.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildReading {
    /// Along the run from the door.
    #[serde(default, deserialize_with = "written")]
    pub station: String,
    /// Square to the run, right positive; empty for the centreline.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub offset: String,
    /// What it stands on: a word such as `dig-bottom` or `lift-2`.
    #[serde(default, deserialize_with = "written")]
    pub surface: String,
    /// How it was read.
    #[serde(default)]
    pub by: ReadBy,
    /// What tape or rod read.
    #[serde(default, deserialize_with = "written")]
    pub reading: String,
    /// Whether the person was asked about it and says that it is right.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub confirmed: bool,
    /// Who and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// A check at one spot that is no level.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpotReading {
    /// What was checked: a word such as `lippage`.
    #[serde(default, deserialize_with = "written")]
    pub kind: String,
    /// Along the run from the door.
    #[serde(default, deserialize_with = "written")]
    pub station: String,
    /// What rule, feeler or tape read.
    #[serde(default, deserialize_with = "written")]
    pub size: String,
    /// Who and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// A lift as it was placed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LiftPlaced {
    /// Counted from the bottom, from 1.
    pub number: usize,
    /// As tipped and spread.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub loose: String,
    /// Compacted.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub compacted: String,
    /// Passes of the plate, a number without a unit.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub passes: String,
    /// Who and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// A stage that was closed, or for which a reason was begun.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StageNote {
    /// Which: a word such as `dig` or `lift-2`.
    #[serde(deserialize_with = "written")]
    pub stage: String,
    /// Whether it is closed.
    #[serde(default)]
    pub closed: bool,
    /// Why it is closed over a check that failed or is missing.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub reason: String,
    /// Who and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// One day of the log.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DayLog {
    /// Year, month, day: `2026-05-04`.
    #[serde(default, deserialize_with = "written")]
    pub date: String,
    /// Who worked.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub crew: String,
    /// Weather in a few words.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub weather: String,
    /// What came.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub deliveries: Vec<Delivery>,
    /// What else is to be remembered.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub notes: String,
    /// Who and when.
    #[serde(default)]
    pub stamp: Stamp,
}

/// What came on one day.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Delivery {
    /// Of what: a word such as `base`.
    #[serde(default, deserialize_with = "written")]
    pub item: String,
    /// How many of its unit of sale.
    #[serde(default, deserialize_with = "written")]
    pub count: String,
}

/// Where nothing was written down.
static NOTHING: String = String::new();

impl Build {
    /// Whether nothing was written down.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        is_usual(self)
    }

    /// The text at a place of the building; nothing where nothing was written down. `None` for a place elsewhere, or a thing that is not
    /// there.
    pub(crate) fn text_ref(&self, place: Place) -> Option<&String> {
        let lift = |number: usize, text: fn(&LiftPlaced) -> &String| {
            let lift = self.lifts.iter().find(|lift| lift.number == number);
            Some(lift.map_or(&NOTHING, text))
        };
        let stage = |stage: build::HoldStage, text: fn(&StageNote) -> &String| {
            let key = stage.key();
            let note = self.stages.iter().find(|note| note.stage == key);
            Some(note.map_or(&NOTHING, text))
        };
        match place {
            Place::BuildSpacing => Some(&self.spacing),
            Place::StringAboveGrade => Some(&self.string_above_grade),
            Place::Initials => Some(&self.initials),
            Place::SetUpRod(idx) => Some(&self.set_ups.get(idx)?.rod_at_sill),
            Place::BuildStation(idx) => Some(&self.readings.get(idx)?.station),
            Place::BuildOffset(idx) => Some(&self.readings.get(idx)?.offset),
            Place::BuildValue(idx) => Some(&self.readings.get(idx)?.reading),
            Place::SpotStation(idx) => Some(&self.spots.get(idx)?.station),
            Place::SpotSize(idx) => Some(&self.spots.get(idx)?.size),
            Place::LiftLoose(number) => lift(number, |lift| &lift.loose),
            Place::LiftCompacted(number) => lift(number, |lift| &lift.compacted),
            Place::LiftPasses(number) => lift(number, |lift| &lift.passes),
            Place::StageReason(of) => stage(of, |note| &note.reason),
            Place::StageInitials(of) => stage(of, |note| &note.stamp.by),
            Place::DayDate(idx) => Some(&self.days.get(idx)?.date),
            Place::DayCrew(idx) => Some(&self.days.get(idx)?.crew),
            Place::DayWeather(idx) => Some(&self.days.get(idx)?.weather),
            Place::DayNotes(idx) => Some(&self.days.get(idx)?.notes),
            Place::DeliveryItem(idx, nth) => Some(&self.days.get(idx)?.deliveries.get(nth)?.item),
            Place::DeliveryCount(idx, nth) => Some(&self.days.get(idx)?.deliveries.get(nth)?.count),
            _ => None,
        }
    }

    /// The text at a place of the building, to be written to; [`Build::tidy`] takes away what holds nothing.
    pub(crate) fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        match place {
            Place::BuildSpacing => Some(&mut self.spacing),
            Place::StringAboveGrade => Some(&mut self.string_above_grade),
            Place::Initials => Some(&mut self.initials),
            Place::SetUpRod(idx) => Some(&mut self.set_ups.get_mut(idx)?.rod_at_sill),
            Place::BuildStation(idx) => Some(&mut self.readings.get_mut(idx)?.station),
            Place::BuildOffset(idx) => Some(&mut self.readings.get_mut(idx)?.offset),
            Place::BuildValue(idx) => Some(&mut self.readings.get_mut(idx)?.reading),
            Place::SpotStation(idx) => Some(&mut self.spots.get_mut(idx)?.station),
            Place::SpotSize(idx) => Some(&mut self.spots.get_mut(idx)?.size),
            Place::LiftLoose(number) => Some(&mut self.lift_mut(number)?.loose),
            Place::LiftCompacted(number) => Some(&mut self.lift_mut(number)?.compacted),
            Place::LiftPasses(number) => Some(&mut self.lift_mut(number)?.passes),
            Place::StageReason(stage) => Some(&mut self.stage_mut(stage)?.reason),
            Place::StageInitials(stage) => Some(&mut self.stage_mut(stage)?.stamp.by),
            Place::DayDate(idx) => Some(&mut self.days.get_mut(idx)?.date),
            Place::DayCrew(idx) => Some(&mut self.days.get_mut(idx)?.crew),
            Place::DayWeather(idx) => Some(&mut self.days.get_mut(idx)?.weather),
            Place::DayNotes(idx) => Some(&mut self.days.get_mut(idx)?.notes),
            Place::DeliveryItem(idx, nth) => {
                Some(&mut self.days.get_mut(idx)?.deliveries.get_mut(nth)?.item)
            }
            Place::DeliveryCount(idx, nth) => {
                Some(&mut self.days.get_mut(idx)?.deliveries.get_mut(nth)?.count)
            }
            _ => None,
        }
    }

    /// The lift of a number, made where nothing was written down of it.
    pub(crate) fn lift_mut(&mut self, number: usize) -> Option<&mut LiftPlaced> {
        if self.lifts.iter().all(|lift| lift.number != number) {
            self.lifts.push(LiftPlaced {
                number,
                ..LiftPlaced::default()
            });
        }
        self.lifts.iter_mut().find(|lift| lift.number == number)
    }

    /// The note of a stage, made where there is none.
    pub(crate) fn stage_mut(&mut self, stage: build::HoldStage) -> Option<&mut StageNote> {
        let key = stage.key();
        if self.stages.iter().all(|note| note.stage != key) {
            self.stages.push(StageNote {
                stage: key.clone(),
                ..StageNote::default()
            });
        }
        self.stages.iter_mut().find(|note| note.stage == key)
    }

    /// Takes lifts and stages away that hold nothing. A stage whose name is not known is kept: a person wrote it.
    pub(crate) fn tidy(&mut self) {
        self.lifts.retain(|lift| {
            !(lift.loose.is_empty() && lift.compacted.is_empty() && lift.passes.is_empty())
        });
        self.stages.retain(|note| {
            note.closed
                || !note.reason.is_empty()
                || !note.stamp.by.is_empty()
                || build::HoldStage::of(&note.stage).is_none()
        });
    }

    /// Places of the building where something can be written, in the order of the file.
    pub(crate) fn places(&self) -> Vec<Place> {
        let mut places = vec![
            Place::BuildSpacing,
            Place::StringAboveGrade,
            Place::Initials,
        ];
        places.extend((0..self.set_ups.len()).map(Place::SetUpRod));
        for idx in 0..self.readings.len() {
            places.extend([
                Place::BuildStation(idx),
                Place::BuildOffset(idx),
                Place::BuildValue(idx),
            ]);
        }
        for idx in 0..self.spots.len() {
            places.extend([Place::SpotStation(idx), Place::SpotSize(idx)]);
        }
        for lift in &self.lifts {
            places.extend([
                Place::LiftLoose(lift.number),
                Place::LiftCompacted(lift.number),
                Place::LiftPasses(lift.number),
            ]);
        }
        for stage in self
            .stages
            .iter()
            .filter_map(|note| build::HoldStage::of(&note.stage))
        {
            places.extend([Place::StageReason(stage), Place::StageInitials(stage)]);
        }
        for (day_idx, day) in self.days.iter().enumerate() {
            places.extend([
                Place::DayDate(day_idx),
                Place::DayCrew(day_idx),
                Place::DayWeather(day_idx),
                Place::DayNotes(day_idx),
            ]);
            for nth in 0..day.deliveries.len() {
                places.extend([
                    Place::DeliveryItem(day_idx, nth),
                    Place::DeliveryCount(day_idx, nth),
                ]);
            }
        }
        places
    }
}
