//! A cone penetrometer's log: its layers and how strong they are.

use super::slopes::{misfit, parts};
use super::strength::{Strength, strength};
use crate::field::{check_count, full_name, note_out_of_reason, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::{Length, inches, millimetres, unit::inch, unit::millimeter};
use crate::site::{DrivenInto, Hammer, PenetrometerLog, ShownIn, Site};

/// Most rows that are read.
const MOST_ROWS: usize = 200;

/// What a penetrometer found under the bottom of a pit.
#[derive(Clone, Debug, PartialEq)]
pub struct Penetrometer {
    /// Which pit of the site.
    pub pit_idx: usize,
    /// The weight that drove it.
    pub hammer: Hammer,
    /// Into what it was driven.
    pub driven_into: DrivenInto,
    /// From the top down.
    pub layers: Vec<DrivenLayer>,
    /// How far the layers miss the readings, root mean square.
    pub misfit: Length,
    /// How far they may.
    pub allowed_misfit: Length,
}

/// A layer of even slope in a log. Depths are below the bottom of the pit, where the cone stood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrivenLayer {
    /// Depth of its upper face.
    pub from: Length,
    /// Depth of its lower face, or where the log ends.
    pub to: Length,
    /// Blows through it.
    pub n_blows: u32,
    /// Whole travel ÷ all blows, with the hammer that was used.
    pub per_blow: Length,
    /// Its strength.
    pub strength: Strength,
}

impl DrivenLayer {
    /// Travel per blow as it is said on site: `12.4 mm` or `0.49 in`.
    #[must_use]
    pub fn per_blow_words(&self, shown_in: ShownIn) -> String {
        match shown_in {
            ShownIn::FeetInches => format!("{:.2} in", self.per_blow.get::<inch>()),
            ShownIn::Metric => format!("{:.1} mm", self.per_blow.get::<millimeter>()),
        }
    }
}

impl Penetrometer {
    /// The weakest layer among those that begin where a walk still feels them: within 12 in.
    ///
    /// # Source
    /// The depth is common practice, no source.
    #[must_use]
    pub fn weakest(&self) -> Option<&DrivenLayer> {
        let near = self.layers.iter().filter(|layer| layer.from < inches(12.0));
        near.min_by(|one, other| {
            one.strength
                .cbr
                .percent()
                .total_cmp(&other.strength.cbr.percent())
        })
    }
}

/// The logs of all pits that can be used. What cannot be is named in the findings, and the log is used down to there.
pub fn penetrometers(site: &Site, findings: &mut Findings) -> Vec<Penetrometer> {
    site.pits
        .iter()
        .enumerate()
        .filter_map(|(pit_idx, pit)| {
            let points = points(site, pit_idx, &pit.penetrometer, findings);
            of_points(pit_idx, &pit.penetrometer, &points)
        })
        .collect()
}

/// A reading that can be used: blows so far and depth below where the cone stood.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Point {
    n_blows: u32,
    depth: Length,
}

/// How far layers may miss the readings: 2 mm, or 1/2 % of the depth where that is more.
///
/// # Source
/// Common practice, no source: a rod is read to a millimetre or two, and the ground itself is not even.
fn allowed_misfit(depth: Length) -> Length {
    millimetres(2.0).max(depth * 0.005)
}

/// How often the travel of this hammer's blow is counted, beside the 8 kg one's.
///
/// # Source
/// ASTM D6951, from memory: travel under the 4.6 kg hammer is doubled.
const fn times_travel(hammer: Hammer) -> f64 {
    match hammer {
        Hammer::Heavy => 1.0,
        Hammer::Light => 2.0,
    }
}

fn of_points(pit_idx: usize, log: &PenetrometerLog, points: &[Point]) -> Option<Penetrometer> {
    let plain: Vec<(f64, f64)> = points
        .iter()
        .map(|point| (f64::from(point.n_blows), point.depth.get::<millimeter>()))
        .collect();
    let allowed_misfit = allowed_misfit(points.last()?.depth);
    let ends = parts(&plain, allowed_misfit.get::<millimeter>());
    let layers: Vec<DrivenLayer> = ends
        .windows(2)
        .filter_map(|pair| layer(log, points.get(*pair.first()?)?, points.get(*pair.last()?)?))
        .collect();
    (!layers.is_empty()).then(|| Penetrometer {
        pit_idx,
        hammer: log.hammer,
        driven_into: log.driven_into,
        layers,
        misfit: millimetres(misfit(&plain, &ends)),
        allowed_misfit,
    })
}

/// Whole travel ÷ all blows first, the strength from that: a mean of strengths would be another.
fn layer(log: &PenetrometerLog, from: &Point, to: &Point) -> Option<DrivenLayer> {
    let n_blows = to.n_blows.checked_sub(from.n_blows)?;
    let per_blow = (to.depth - from.depth) / f64::from(n_blows);
    Some(DrivenLayer {
        from: from.depth,
        to: to.depth,
        n_blows,
        per_blow,
        strength: strength(per_blow * times_travel(log.hammer), log.driven_into).ok()?,
    })
}

/// Readings from the top down to the first that cannot be used: a finding says why.
fn points(
    site: &Site,
    pit_idx: usize,
    log: &PenetrometerLog,
    findings: &mut Findings,
) -> Vec<Point> {
    let last_idx = log
        .rows
        .iter()
        .rposition(|row| row.blows.is_some() || row.reading.is_some());
    let Some(last_idx) = last_idx else {
        return Vec::new();
    };
    let start_place = Place::PenetrometerStart(pit_idx);
    if log.start.is_none() {
        let text = format!(
            "{} is not known: no travel can be worked out.",
            full_name(start_place)
        );
        used_to(findings, start_place, Weight::Warning, text);
    }
    if log.rows.len() > MOST_ROWS {
        let text = format!(
            "{} has {} rows, more than the {MOST_ROWS} that are read.",
            full_name(Place::Pit(pit_idx)),
            log.rows.len()
        );
        let place = Place::PenetrometerBlows(pit_idx, MOST_ROWS);
        used_to(findings, place, Weight::Warning, text);
    }
    let Some(start) = take_length(site, start_place, log.start, Weight::Warning, findings) else {
        return Vec::new();
    };
    let mut points = vec![Point {
        n_blows: 0,
        depth: Length::default(),
    }];
    let (mut n_blows, mut before) = (0_u32, start);
    for (row_idx, row) in log
        .rows
        .iter()
        .enumerate()
        .take(MOST_ROWS.min(last_idx + 1))
    {
        let blows_place = Place::PenetrometerBlows(pit_idx, row_idx);
        let reading_place = Place::PenetrometerReading(pit_idx, row_idx);
        let blows = match row.blows.map(|blows| check_count(blows_place, blows)) {
            Some(Err(error)) => {
                note_out_of_reason(site, error, Weight::Warning, findings);
                break;
            }
            Some(Ok(blows)) => Some(blows),
            None => None,
        };
        let reading = match row.reading {
            Some(_) => {
                let taken =
                    take_length(site, reading_place, row.reading, Weight::Warning, findings);
                if taken.is_none() {
                    break;
                }
                taken
            }
            None => None,
        };
        let (Some(blows), Some(reading)) = (blows, reading) else {
            let place = if blows.is_none() {
                blows_place
            } else {
                reading_place
            };
            // The last row may still be on its way in.
            let weight = if row_idx == last_idx {
                Weight::Note
            } else {
                Weight::Warning
            };
            let text = format!("{} is not known.", full_name(place));
            used_to(findings, place, weight, text);
            break;
        };
        if reading <= before {
            used_to(
                findings,
                reading_place,
                Weight::Warning,
                backwards(site, reading_place, reading, before),
            );
            break;
        }
        n_blows = n_blows.saturating_add(blows);
        before = reading;
        points.push(Point {
            n_blows,
            depth: reading - start,
        });
    }
    points
}

fn backwards(site: &Site, place: Place, reading: Length, before: Length) -> String {
    let words = |length| site.shown_in.length(length);
    if reading < before {
        format!(
            "{}: {} lies above {}, the reading before it; a cone only goes down.",
            full_name(place),
            words(reading),
            words(before)
        )
    } else {
        format!(
            "{}: {} is the reading before it; a cone that does not move tells no strength.",
            full_name(place),
            words(reading)
        )
    }
}

fn used_to(findings: &mut Findings, place: Place, weight: Weight, text: String) {
    let remedy = "The log is used down to the row before. Set the row right, or take it away.";
    findings.note(place, weight, Source::Readings, text, remedy);
}

#[cfg(test)]
mod tests;
