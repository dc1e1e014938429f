//! The grade line: the finished surface.

use super::{Run, shape};
use crate::defaults;
use crate::field::{self, full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::measure::slope::Fall;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{FarEnd, Site};

/// The finished surface: falling along the run in one piece or more, and `cross_fall` across.
#[derive(Clone, Debug, PartialEq)]
pub struct GradeLine {
    /// Level at the door, on the centreline.
    pub start: Length,
    /// Fall along the run that results, from the door on.
    pub fall: Fall,
    /// Fall across, positive down to the right.
    pub cross_fall: Fall,
    /// Level at the far end, on the centreline.
    pub end: Length,
    /// Whether the far end is fixed by something already there.
    pub end_is_fixed: bool,
    /// Stretches of one fall each, from the door to the far end; where the level jumps between two, a riser stands.
    pieces: Vec<GradePiece>,
}

/// A stretch of one fall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GradePiece {
    /// Where it starts.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Level where it starts, on the centreline.
    pub level: Length,
    /// Fall along it.
    pub fall: Fall,
    /// Whether it is a tread: laid level between two risers.
    pub is_tread: bool,
}

/// A riser across the walk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Riser {
    /// Where it stands.
    pub station: Length,
    /// How high it is.
    pub height: Length,
}

impl GradePiece {
    /// Level at a station, on the centreline, as if the piece had no ends.
    #[must_use]
    pub fn level_at(&self, station: Length) -> Length {
        self.level - (station - self.from) * self.fall.ratio()
    }
}

impl GradeLine {
    /// One fall from the door to the far end.
    pub(super) fn uniform(
        length: Length,
        start: Length,
        fall: Fall,
        cross_fall: Fall,
        end: Length,
        end_is_fixed: bool,
    ) -> Self {
        let piece = GradePiece {
            from: metres(0.0),
            to: length,
            level: start,
            fall,
            is_tread: false,
        };
        Self {
            start,
            fall,
            cross_fall,
            end,
            end_is_fixed,
            pieces: vec![piece],
        }
    }

    /// One fall between the same ends.
    pub(super) fn as_one_fall(&self) -> Self {
        let length = self.pieces.last().map_or(metres(0.0), |piece| piece.to);
        let fall = Fall::from_ratio(in_metres(self.start - self.end) / in_metres(length));
        Self::uniform(
            length,
            self.start,
            fall.unwrap_or(self.fall),
            self.cross_fall,
            self.end,
            self.end_is_fixed,
        )
    }

    /// The same ends in other pieces; `None` without a piece.
    pub(super) fn in_pieces(&self, pieces: Vec<GradePiece>) -> Option<Self> {
        let (first, last) = (pieces.first()?, pieces.last()?);
        Some(Self {
            fall: first.fall,
            end: last.level_at(last.to),
            pieces,
            ..self.clone()
        })
    }

    /// Level at a spot, above the datum, up positive. At a riser it is that of its foot.
    #[must_use]
    pub fn level(&self, station: Length, offset: Length) -> Length {
        self.piece_at(station)
            .map_or(self.start, |piece| piece.level_at(station))
            - offset * self.cross_fall.ratio()
    }

    /// The pieces, from the door to the far end.
    #[must_use]
    pub fn pieces(&self) -> &[GradePiece] {
        &self.pieces
    }

    /// The piece at a station: the one that starts there, where two meet; the nearest for one beyond the run.
    #[must_use]
    pub fn piece_at(&self, station: Length) -> Option<&GradePiece> {
        let n_begun = self.pieces.partition_point(|piece| piece.from <= station);
        self.pieces.get(n_begun.saturating_sub(1))
    }

    /// Stations at which the fall changes or a riser stands.
    #[must_use]
    pub fn breaks(&self) -> Vec<Length> {
        self.pieces.iter().skip(1).map(|piece| piece.from).collect()
    }

    /// The risers, from the door to the far end.
    #[must_use]
    pub fn risers(&self) -> Vec<Riser> {
        let meeting = self.pieces.windows(2).filter_map(|pair| match pair {
            [before, after] => Some((after.from, before.level_at(before.to) - after.level)),
            _ => None,
        });
        meeting
            .filter(|(_, height)| in_metres(*height).abs() > SAME_LEVEL_M)
            .map(|(station, height)| Riser { station, height })
            .collect()
    }

    /// The steepest fall along, up or down, treads left out.
    #[must_use]
    pub fn steepest(&self) -> Fall {
        self.sloping()
            .map(|piece| piece.fall)
            .reduce(|one, other| {
                if other.ratio().abs() > one.ratio().abs() {
                    other
                } else {
                    one
                }
            })
            .unwrap_or(self.fall)
    }

    /// The flattest fall along, treads left out; one towards the house is flatter than level.
    #[must_use]
    pub fn flattest(&self) -> Fall {
        self.sloping()
            .map(|piece| piece.fall)
            .reduce(|one, other| {
                if other.ratio().abs() < one.ratio().abs() {
                    other
                } else {
                    one
                }
            })
            .unwrap_or(self.fall)
    }

    fn sloping(&self) -> impl Iterator<Item = &GradePiece> {
        self.pieces.iter().filter(|piece| !piece.is_tread)
    }

    /// Level so far below the door.
    pub(super) fn level_down(&self, drop: Length) -> Length {
        self.start - drop
    }
}

/// Levels nearer than this meet without a riser: a millionth of a millimetre.
const SAME_LEVEL_M: f64 = 1e-9;

/// The grade line of a site: through both ends where the far one is fixed, else from the door at the wanted fall.
pub(super) fn grade_line(site: &Site, run: &Run, findings: &mut Findings) -> GradeLine {
    let wanted_drop = site.line.first_brick_below_sill;
    let drop = take_length(
        site,
        Place::FirstBrickBelowSill,
        wanted_drop,
        Weight::Stop,
        findings,
    );
    let start = metres(0.0) - drop.unwrap_or_else(defaults::first_brick_below_sill);
    let cross_fall = take_fall(site, Place::CrossFall, site.line.cross_fall, findings)
        .unwrap_or(defaults::cross_fall());
    let wanted = take_fall(site, Place::Fall, site.line.fall, findings).unwrap_or(defaults::fall());
    if let Some(end) = fixed_end(site, findings) {
        let ratio = in_metres(start - end) / in_metres(run.length());
        if let Some(fall) = Fall::from_ratio(ratio) {
            let uniform = GradeLine::uniform(run.length(), start, fall, cross_fall, end, true);
            return shape::shaped(site, run, uniform, findings);
        }
    }
    let end = start - run.length() * wanted.ratio();
    let uniform = GradeLine::uniform(run.length(), start, wanted, cross_fall, end, false);
    shape::shaped(site, run, uniform, findings)
}

/// Level of a far end that is fixed; without a reading of it, it counts as free and a finding says so.
fn fixed_end(site: &Site, findings: &mut Findings) -> Option<Length> {
    let FarEnd::Fixed { below_sill } = site.line.far_end else {
        return None;
    };
    let place = Place::FarEndBelowSill;
    if below_sill.is_none() {
        let text = format!(
            "{} is missing: the walk is drawn at the wanted fall, and may miss what it must meet.",
            full_name(place)
        );
        findings.note(
            place,
            Weight::Warning,
            Source::Readings,
            text,
            field::field(place).how,
        );
    }
    Some(metres(0.0) - take_length(site, place, below_sill, Weight::Stop, findings)?)
}

fn take_fall(
    site: &Site,
    place: Place,
    fall: Option<Fall>,
    findings: &mut Findings,
) -> Option<Fall> {
    match field::check_fall(place, fall?) {
        Ok(fall) => Some(fall),
        Err(error) => {
            field::note_out_of_reason(site, error, Weight::Stop, findings);
            None
        }
    }
}
