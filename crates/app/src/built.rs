//! What an edit changes in what was read, placed and closed while the walk was built: with who, when and on which device.

use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, metres};
use underbrick_calc::site::ShownIn;
use underbrick_records::SiteFile;
use underbrick_records::v1::{ReadBy, Signature, Stamp};

use crate::edit::Edit;

/// Tells date and time of the place, such as `2026-05-04T08:30:00-05:00`; with a `Z` where it is UTC.
pub type Clock = fn() -> String;

/// The clock of the device.
pub(crate) fn device_clock() -> String {
    Stamp::now("", "").at
}

/// Carries out an edit of the building, by whom, when and on which device `stamp` says. False where the edit is of something else, and nothing was changed.
pub(crate) fn change(record: &mut SiteFile, edit: &Edit, stamp: &Stamp) -> bool {
    let stamp = || stamp.clone();
    match edit {
        Edit::AddSetUp => {
            record.add_set_up(stamp());
        }
        Edit::AddCheck {
            surface,
            station,
            offset,
            by_rod,
        } => {
            let shown_in: ShownIn = record.shown_in.into();
            let station =
                station.map_or_else(String::new, |station| written(shown_in, station, true));
            let offset = if *offset == metres(0.0) {
                String::new()
            } else {
                written(shown_in, *offset, false)
            };
            let stamp = stamp();
            record.add_build_reading(&station, &offset, *surface, *by_rod, stamp);
        }
        Edit::RemoveCheck(reading_idx) => {
            record.remove_build_reading(*reading_idx);
        }
        Edit::ConfirmCheck(reading_idx) => record.confirm_build_reading(*reading_idx, true),
        Edit::CheckByRod(reading_idx, by_rod) => {
            let set_up = record.build.set_ups.len();
            if let Some(reading) = record.build.readings.get_mut(*reading_idx) {
                reading.by = if *by_rod && set_up > 0 {
                    ReadBy::Rod(set_up)
                } else {
                    ReadBy::String
                };
                reading.confirmed = false;
            }
        }
        Edit::AddSpot(kind) => {
            let stamp = stamp();
            record.add_spot(*kind, "", stamp);
        }
        Edit::RemoveSpot(spot_idx) => {
            record.remove_spot(*spot_idx);
        }
        Edit::CloseStage(stage) => {
            let stamp = stamp();
            record.close_stage(*stage, stamp);
        }
        Edit::ReopenStage(stage) => record.reopen_stage(*stage),
        Edit::AddDay => {
            let stamp = stamp();
            let date: String = stamp
                .at
                .chars()
                .take_while(|letter| *letter != 'T')
                .collect();
            record.add_day(&date, stamp);
        }
        Edit::RemoveDay(day_idx) => {
            record.remove_day(*day_idx);
        }
        Edit::AddDelivery(day_idx) => {
            record.add_delivery(*day_idx);
        }
        Edit::RemoveDelivery(day_idx, nth) => {
            record.remove_delivery(*day_idx, *nth);
        }
        Edit::AddPictures { files, of } => {
            for file in files {
                let stamp = stamp();
                record.add_picture(file, (*of).into(), stamp);
            }
        }
        Edit::BringPictureBack(file) => {
            let stamp = stamp();
            record.bring_picture_back(file, stamp);
        }
        Edit::Text { place, typed } => {
            let text = record.normalised(*place, typed);
            let is_same = record.text(*place) == Some(text.as_str());
            record.set_text(*place, &text);
            if !is_same {
                let stamp = stamp();
                stamp_at(record, *place, stamp);
            }
        }
        Edit::Agree {
            clauses,
            name,
            strokes,
        } => {
            let signature = Signature {
                name: name.clone(),
                strokes: strokes.clone(),
                stamp: stamp(),
            };
            // What cannot be signed is said at the field, before anyone gets here; the record is as before then.
            drop(record.agree(clauses, signature));
        }
        _ => return false,
    }
    true
}

/// Whoever changes a reading stands behind it from then on, and it is asked about anew where it is far off.
fn stamp_at(record: &mut SiteFile, place: Place, stamp: Stamp) {
    let build = &mut record.build;
    let at = match place {
        Place::SetUpRod(idx) => build.set_ups.get_mut(idx).map(|set_up| &mut set_up.stamp),
        Place::BuildStation(idx) | Place::BuildOffset(idx) | Place::BuildValue(idx) => {
            build.readings.get_mut(idx).map(|reading| {
                reading.confirmed = false;
                &mut reading.stamp
            })
        }
        Place::SpotStation(idx) | Place::SpotSize(idx) => {
            build.spots.get_mut(idx).map(|spot| &mut spot.stamp)
        }
        Place::LiftLoose(number) | Place::LiftCompacted(number) | Place::LiftPasses(number) => {
            let mut lifts = build.lifts.iter_mut();
            lifts
                .find(|lift| lift.number == number)
                .map(|lift| &mut lift.stamp)
        }
        _ => None,
    };
    if let Some(at) = at {
        *at = stamp;
    }
}

/// A length as a person would type it, as near as a tape shows.
fn written(shown_in: ShownIn, length: Length, is_along: bool) -> String {
    match shown_in {
        ShownIn::FeetInches if is_along => shown_in.along(length),
        ShownIn::FeetInches | ShownIn::Metric => shown_in.thickness(length),
    }
}
