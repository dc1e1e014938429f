//! Readings by string or rod, turned into levels and held against the design.

use super::advice;
use super::asked::{rods_at_sill, string_above_grade};
use super::check::{ReadingFound, Verdict};
use super::designed;
use super::doubts;
use super::flat;
use super::surface::{Surface, Tolerance};
use crate::bed::Bed;
use crate::defaults;
use crate::field::{check_length, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::line::{Line, beyond_the_run};
use crate::place::Place;
use crate::quantity::{Length, in_metres, inches, metres};
use crate::site::{BuildReading, ReadBy, ShownIn, Site};

/// Differences that come from the arithmetic alone: a thousandth of a millimetre, which no tape shows.
pub(super) const ROUNDING_M: f64 = 1e-6;

/// Readings of one surface nearer to each other than this stand on one spot.
pub(super) fn same_spot() -> Length {
    inches(6.0)
}

/// What each reading says, in the order in which they were written down. Those without a surface or a station are left out.
///
/// Tape: the working string hangs over the centreline, so far above the grade line as was written down. Away from the centreline the tape
/// hangs from a straightedge held level across at the string: level = string at that station − tape, whatever the offset. Rod: level =
/// rod on the sill − rod on the surface, in the set-up that the reading names; moving the instrument changes both alike.
///
/// At the station of a riser a reading is held to that side of it, head or foot, to which it comes nearer; a tape, whose string steps with
/// the grade line, to the head.
pub(super) fn readings(
    site: &Site,
    line: &Line,
    bed: &Bed,
    findings: &mut Findings,
) -> Vec<ReadingFound> {
    let sights = Sights::of(site, line, bed);
    let mut found: Vec<ReadingFound> = site
        .build
        .readings
        .iter()
        .enumerate()
        .filter_map(|(idx, reading)| sights.found(idx, reading, findings))
        .collect();
    mark_read_again(&mut found);
    flat::check(line, bed, &mut found);
    doubts::question(site, &mut found, findings);
    doubts::two_people(site, &found, findings);
    advice::advise(site, line, &mut found);
    found
}

/// Whether two readings stand on one spot of one surface.
pub(super) fn is_same_spot(one: &ReadingFound, other: &ReadingFound) -> bool {
    one.surface == other.surface && apart_m(one, other) <= in_metres(same_spot()) + ROUNDING_M
}

/// How far two readings are apart in plan; on a curve as if it were straight.
pub(super) fn apart_m(one: &ReadingFound, other: &ReadingFound) -> f64 {
    libm::hypot(
        in_metres(one.station - other.station),
        in_metres(one.offset - other.offset),
    )
}

/// A surface and where: `bottom of dig at 12'-0", 1'-3" left`; of forms and edge brick the side alone.
pub(super) fn spot_words(
    shown_in: ShownIn,
    surface: Surface,
    station: Length,
    offset: Length,
) -> String {
    let at = if station.abs() < metres(ROUNDING_M) {
        format!("{} at the door", surface.name())
    } else {
        format!("{} at {}", surface.name(), shown_in.along(station))
    };
    if offset.abs() < metres(ROUNDING_M) {
        return at;
    }
    let side = if offset < metres(0.0) {
        "left"
    } else {
        "right"
    };
    match surface {
        Surface::FormTop | Surface::EdgeTop => format!("{at}, {side}"),
        _ => format!("{at}, {} {side}", shown_in.length(offset.abs())),
    }
}

/// The same with a capital, to begin a sentence.
pub(super) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// How far off in words: `3/8" high`.
pub(super) fn off_words(shown_in: ShownIn, off: Length) -> String {
    let way = if in_metres(off) < 0.0 { "low" } else { "high" };
    format!("{} {way}", shown_in.length(off.abs()))
}

/// What readings are reduced by.
struct Sights<'a> {
    site: &'a Site,
    line: &'a Line,
    bed: &'a Bed,
    /// Working string above the grade line.
    string_above: Length,
    /// Rod on the sill, for each set-up.
    rods: Vec<Option<Length>>,
    /// From the clear width to the side of the dig.
    beyond: Length,
}

impl<'a> Sights<'a> {
    fn of(site: &'a Site, line: &'a Line, bed: &'a Bed) -> Self {
        // A side extension that cannot be true was named when the bed was designed.
        let extension = site
            .bed
            .side_extension
            .and_then(|extension| check_length(Place::SideExtension, extension).ok());
        Self {
            site,
            line,
            bed,
            // A string or a set-up that cannot be true is named where the stakes are set out.
            string_above: string_above_grade(site),
            rods: rods_at_sill(site).collect(),
            beyond: bed.edge.brick.across + extension.unwrap_or_else(defaults::side_extension),
        }
    }

    fn found(
        &self,
        idx: usize,
        reading: &BuildReading,
        findings: &mut Findings,
    ) -> Option<ReadingFound> {
        let surface = reading.surface?;
        let mut take = |place: Place, length: Option<Length>| {
            take_length(self.site, place, length, Weight::Warning, findings)
        };
        let station = take(Place::BuildStation(idx), reading.station)?;
        let offset = match reading.offset {
            Some(offset) => take(Place::BuildOffset(idx), Some(offset))?,
            None => metres(0.0),
        };
        let read = take(Place::BuildValue(idx), reading.reading);
        let is_on_walk = self.is_on_walk(idx, station, offset, findings);
        let rod_at_sill = self.rod_at_sill(idx, reading, findings);
        let (level, design) = self
            .beside_a_riser(station)
            .into_iter()
            .map(|station| {
                let above = match reading.by {
                    ReadBy::String => Some(self.string_at(station)),
                    ReadBy::Rod { .. } => rod_at_sill,
                };
                let design = is_on_walk
                    .then(|| designed::level(self.line, self.bed, surface, station, offset));
                (
                    above.zip(read).map(|(above, read)| above - read),
                    design.flatten(),
                )
            })
            .reduce(|one, other| {
                if off_m(other) < off_m(one) - ROUNDING_M {
                    other
                } else {
                    one
                }
            })?;
        if is_on_walk && design.is_none() {
            let text = format!(
                "There is no {}: the base does not reach down to it there.",
                spot_words(self.site.shown_in, surface, station, offset)
            );
            left_out(Place::BuildReading(idx), text, findings);
        }
        let tolerance = surface.tolerance(designed::is_base_top(self.bed, surface));
        let off = level.zip(design).map(|(level, design)| level - design);
        Some(ReadingFound {
            reading_idx: idx,
            surface,
            station,
            offset,
            level,
            design,
            off,
            verdict: off.map_or(Verdict::NotKnown, |off| verdict(off, &tolerance)),
            tolerance,
            advice: String::new(),
            is_questioned: false,
            uneven_with: None,
            is_read_again: false,
        })
    }

    /// Level of the working string.
    fn string_at(&self, station: Length) -> Length {
        self.line.grade.level(station, metres(0.0)) + self.string_above
    }

    fn rod_at_sill(
        &self,
        idx: usize,
        reading: &BuildReading,
        findings: &mut Findings,
    ) -> Option<Length> {
        let ReadBy::Rod { set_up_idx } = reading.by else {
            return None;
        };
        let rod = self.rods.get(set_up_idx).copied();
        if rod.flatten().is_none() && reading.reading.is_some() {
            let text = if rod.is_none() {
                "A rod reading without a set-up: its level is not known.".to_owned()
            } else {
                format!(
                    "A rod reading in set-up {}, in which the rod was not read on the sill: its level is not known.",
                    set_up_idx + 1
                )
            };
            findings.note(
                Place::BuildValue(idx),
                Weight::Warning,
                Source::Readings,
                text,
                "Read the rod on the underside of the sill in the same set-up and write it down; the reading is kept.",
            );
        }
        rod.flatten()
    }

    fn is_on_walk(
        &self,
        idx: usize,
        station: Length,
        offset: Length,
        findings: &mut Findings,
    ) -> bool {
        let run = &self.line.run;
        // Read at an end and written to the nearest sixteenth.
        let rounding = inches(1.0 / 16.0);
        if station < -rounding || station > run.length() + rounding {
            let text = beyond_the_run(self.site, run, Place::BuildStation(idx), station);
            left_out(Place::BuildStation(idx), text, findings);
            return false;
        }
        let half = run.clear_width_at(station) / 2.0 + self.beyond;
        if offset.abs() > half + rounding {
            let text = format!(
                "{} from the centreline lies outside the dig, which reaches {} at {}.",
                self.site.shown_in.length(offset.abs()),
                self.site.shown_in.length(half),
                self.site.shown_in.along(station)
            );
            left_out(Place::BuildOffset(idx), text, findings);
            return false;
        }
        true
    }

    /// The station, within the run; at a riser a hair before it and behind it.
    fn beside_a_riser(&self, station: Length) -> Vec<Length> {
        let station = metres(in_metres(station).clamp(0.0, in_metres(self.line.run.length())));
        let hair = metres(10.0 * ROUNDING_M);
        let is_at_riser = self
            .line
            .grade
            .risers()
            .iter()
            .any(|riser| (riser.station - station).abs() < hair);
        if is_at_riser {
            vec![station - hair, station + hair]
        } else {
            vec![station]
        }
    }
}

/// How far off without its sign; what is not known is farthest.
fn off_m((level, design): (Option<Length>, Option<Length>)) -> f64 {
    level.zip(design).map_or(f64::INFINITY, |(level, design)| {
        in_metres(level - design).abs()
    })
}

fn verdict(off: Length, tolerance: &Tolerance) -> Verdict {
    let rounding = metres(ROUNDING_M);
    if off > tolerance.high + rounding {
        Verdict::High
    } else if off < -(tolerance.low + rounding) {
        Verdict::Low
    } else {
        Verdict::Right
    }
}

/// A reading is read again by each later one on its spot whose level is known.
fn mark_read_again(found: &mut [ReadingFound]) {
    let mut later: Vec<ReadingFound> = Vec::new();
    for reading in found.iter_mut().rev() {
        reading.is_read_again = later.iter().any(|other| is_same_spot(reading, other));
        if reading.off.is_some() {
            later.push(reading.clone());
        }
    }
}

fn left_out(place: Place, text: String, findings: &mut Findings) {
    findings.note(
        place,
        Weight::Warning,
        Source::Readings,
        text,
        "The reading is kept; it says nothing until this is mended.",
    );
}
