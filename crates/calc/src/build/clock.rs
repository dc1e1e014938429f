//! Stamps that go back in time: a clock that was set back, or two clocks that differ.

use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::site::{BuildInput, Stamp};

/// Notes each stamp that is earlier than the one before it in its list. Nothing is put in another order: it stays as it was written.
pub(super) fn check(build: &BuildInput, findings: &mut Findings) {
    let set_ups = build.set_ups.iter().enumerate();
    in_turn(
        set_ups.map(|(idx, set_up)| (Place::SetUp(idx), &set_up.stamp)),
        findings,
    );
    let readings = build.readings.iter().enumerate();
    in_turn(
        readings.map(|(idx, reading)| (Place::BuildReading(idx), &reading.stamp)),
        findings,
    );
    let spots = build.spots.iter().enumerate();
    in_turn(
        spots.map(|(idx, spot)| (Place::Spot(idx), &spot.stamp)),
        findings,
    );
    let closed = build.closed.iter();
    in_turn(
        closed.map(|closed| (Place::HoldStage(closed.stage), &closed.stamp)),
        findings,
    );
}

fn in_turn<'a>(stamps: impl Iterator<Item = (Place, &'a Stamp)>, findings: &mut Findings) {
    let mut before: Option<(&Stamp, i64)> = None;
    for (place, stamp) in stamps {
        let Some(at_s) = stamp.at_s else {
            continue;
        };
        if let Some((before, before_s)) = before
            && at_s < before_s
        {
            let text = if before.device == stamp.device {
                "Written down after the one before it, but its time is earlier: the clock of the device was set back."
                    .to_owned()
            } else {
                format!(
                    "Written down after the one before it, but its time is earlier: the clocks of {} and {} differ.",
                    device(before),
                    device(stamp)
                )
            };
            findings.note(
                place,
                Weight::Note,
                Source::Readings,
                text,
                "They stay in the order in which they were written down; set the clock.",
            );
        }
        before = Some((stamp, at_s));
    }
}

fn device(stamp: &Stamp) -> String {
    if stamp.device.trim().is_empty() {
        "a device without a name".to_owned()
    } else {
        format!("\"{}\"", stamp.device)
    }
}
