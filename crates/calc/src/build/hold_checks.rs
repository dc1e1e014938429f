//! What each stage is closed on: levels at the door, the far end and between, and checks at spots.

use super::asked::spacing;
use super::check::{Asks, ReadingFound, Required, SpotFound, Verdict};
use super::designed;
use super::lifts_placed;
use super::readings::{ROUNDING_M, same_spot, spot_words};
use super::rises;
use super::stage::HoldStage;
use super::surface::{SpotKind, Surface};
use crate::bed::Bed;
use crate::line::Line;
use crate::place::Place;
use crate::quantity::{Length, feet, in_metres, inches, metres};
use crate::site::Site;

/// What the checks of every stage are made from.
pub(super) struct HoldChecks<'a> {
    pub site: &'a Site,
    pub line: &'a Line,
    pub bed: &'a Bed,
    pub readings: &'a [ReadingFound],
    pub spots: &'a [SpotFound],
}

/// Where a surface must be read.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Asked {
    station: Length,
    offset: Length,
    side: Side,
}

/// On which side a reading must lie to count.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Side {
    Any,
    /// Left of the centreline, or on a straightedge across both edges, which is read on the centreline.
    Left,
    /// The same to the right.
    Right,
}

impl HoldChecks<'_> {
    /// The checks of a stage. A level that was asked for and not read is not known; a reading that was not asked for counts where it is off.
    pub fn of(&self, stage: HoldStage) -> Vec<Required> {
        match stage {
            HoldStage::LiftBrick
            | HoldStage::Fabric
            | HoldStage::Restraint
            | HoldStage::HandOver => Vec::new(),
            HoldStage::Dig => self.levels(stage, Surface::DigBottom, &self.along_the_run()),
            HoldStage::Lift(number) => self.lift(stage, number),
            HoldStage::Forms => {
                let outer_face = self.bed.edge.brick.across;
                self.levels(stage, Surface::FormTop, &self.along_both_edges(outer_face))
            }
            HoldStage::Edge => {
                let middle = self.bed.edge.brick.across / 2.0;
                self.levels(stage, Surface::EdgeTop, &self.along_both_edges(middle))
            }
            HoldStage::Riser(number) => self.riser(stage, number),
            HoldStage::SettingBed => self.levels(stage, Surface::SettingBed, &self.along_the_run()),
            HoldStage::Field => {
                let mut required = self.levels(stage, Surface::BrickTop, &self.along_the_run());
                required.extend(self.spots(stage, SpotKind::StraightedgeOnBrick, true));
                required.extend(self.spots(stage, SpotKind::Lippage, true));
                required.extend(self.spots(stage, SpotKind::JointWidth, false));
                required.extend(self.spots(stage, SpotKind::BondLine, false));
                required.extend(self.spots(stage, SpotKind::AboveInlet, false));
                required
            }
            HoldStage::Jointing => self.spots(stage, SpotKind::JointFill, true),
        }
    }

    /// At the door, at every stake, at the far end.
    fn along_the_run(&self) -> Vec<Asked> {
        let stations = stations(metres(0.0), self.line.run.length(), spacing(self.site));
        stations.into_iter().map(on_the_centreline).collect()
    }

    /// The same on both edges, so far outside the clear width.
    fn along_both_edges(&self, outside: Length) -> Vec<Asked> {
        self.along_the_run()
            .into_iter()
            .flat_map(|asked| {
                let out = self.line.run.clear_width_at(asked.station) / 2.0 + outside;
                [(Side::Left, -out), (Side::Right, out)].map(|(side, offset)| Asked {
                    station: asked.station,
                    offset,
                    side,
                })
            })
            .collect()
    }

    fn lift(&self, stage: HoldStage, number: usize) -> Vec<Required> {
        let placed = lifts_placed::entry(self.site, number);
        let mut required = vec![
            Required {
                what: format!("lift {number} as tipped, at its thickest"),
                place: Place::LiftLoose(number),
                verdict: lifts_placed::thickness_verdict(self.bed, placed.as_ref()),
                asks: Asks::LiftLoose(number),
            },
            Required {
                what: format!("passes over lift {number}"),
                place: Place::LiftPasses(number),
                verdict: self.passes_verdict(number),
                asks: Asks::LiftPasses(number),
            },
        ];
        let surface = Surface::LiftTop(number);
        required.extend(self.levels(stage, surface, &self.along_a_lift(number)));
        if designed::is_base_top(self.bed, surface) {
            required.extend(self.spots(stage, SpotKind::StraightedgeOnBase, false));
        }
        required
    }

    fn passes_verdict(&self, number: usize) -> Verdict {
        let lift = number
            .checked_sub(1)
            .and_then(|lift_idx| self.bed.lifts.each.get(lift_idx));
        let placed = lifts_placed::entry(self.site, number);
        lift.map_or(Verdict::NotKnown, |lift| {
            lifts_placed::passes_verdict(self.site.bed.plant, lift, placed.as_ref())
        })
    }

    /// Both ends of each stretch on which the lift runs, and the stakes between. Half a foot in from where it thins out, as nobody reads
    /// it at its very end. Where it misses the centreline it is read beside it.
    fn along_a_lift(&self, number: usize) -> Vec<Asked> {
        let Some(lift) = number
            .checked_sub(1)
            .and_then(|lift_idx| self.bed.lifts.each.get(lift_idx))
        else {
            return Vec::new();
        };
        let rounding = metres(ROUNDING_M);
        let end = self.line.run.length();
        let mut asked = Vec::new();
        for (from, to) in lift.runs.iter().copied() {
            let first = if from <= rounding {
                from
            } else {
                from + same_spot()
            };
            let last = if to >= end - rounding {
                to
            } else {
                to - same_spot()
            };
            let here: Vec<Asked> = if first < last {
                let stations = stations(first, last, spacing(self.site));
                let on_line = stations.into_iter().map(on_the_centreline);
                on_line
                    .filter(|asked| self.has_lift(number, asked))
                    .collect()
            } else {
                Vec::new()
            };
            if here.is_empty() {
                asked.extend(self.somewhere_on(number, from, to));
            } else {
                asked.extend(here);
            }
        }
        asked
    }

    fn has_lift(&self, number: usize, asked: &Asked) -> bool {
        self.bed
            .dig
            .base_at(asked.station, asked.offset)
            .lowest_lift
            <= number
    }

    /// A spot of a stretch on which the lift runs, as near to its middle and to the centreline as can be found.
    fn somewhere_on(&self, number: usize, from: Length, to: Length) -> Option<Asked> {
        const PARTS: [f64; 9] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];
        const ACROSS: [f64; 7] = [0.0, -0.5, 0.5, -0.8, 0.8, -1.0, 1.0];
        ACROSS.into_iter().find_map(|across| {
            PARTS.into_iter().find_map(|part| {
                let station = from + (to - from) * part;
                let offset = self.line.run.clear_width_at(station) / 2.0 * across;
                let asked = Asked {
                    station,
                    offset,
                    side: Side::Any,
                };
                self.has_lift(number, &asked).then_some(asked)
            })
        })
    }

    /// The head of a riser.
    fn riser(&self, stage: HoldStage, number: usize) -> Vec<Required> {
        let risers = self.line.grade.risers();
        let Some(riser) = number
            .checked_sub(1)
            .and_then(|riser_idx| risers.get(riser_idx))
        else {
            return Vec::new();
        };
        let of_riser: Vec<&ReadingFound> = self
            .readings
            .iter()
            .filter(|reading| {
                self.is_on_a_riser(reading)
                    && (reading.station - riser.station).abs() <= same_spot() + metres(ROUNDING_M)
            })
            .collect();
        let mut required = self.held(
            stage,
            Surface::EdgeTop,
            &[on_the_centreline(riser.station)],
            &of_riser,
        );
        required.extend(rises::uneven(
            self.site.shown_in,
            &risers,
            self.readings,
            number,
        ));
        required
    }

    /// Whether a reading of edge brick stands on a riser, and not on the edge beside it.
    fn is_on_a_riser(&self, reading: &ReadingFound) -> bool {
        let half = self.line.run.clear_width_at(reading.station) / 2.0;
        reading.surface == Surface::EdgeTop
            && reading.offset.abs() < half
            && self.line.grade.risers().iter().any(|riser| {
                (reading.station - riser.station).abs() <= same_spot() + metres(ROUNDING_M)
            })
    }

    fn levels(&self, stage: HoldStage, surface: Surface, asked: &[Asked]) -> Vec<Required> {
        let of_surface: Vec<&ReadingFound> = self
            .readings
            .iter()
            .filter(|reading| reading.surface == surface && !self.is_on_a_riser(reading))
            .collect();
        self.held(stage, surface, asked, &of_surface)
    }

    fn held(
        &self,
        stage: HoldStage,
        surface: Surface,
        asked: &[Asked],
        readings: &[&ReadingFound],
    ) -> Vec<Required> {
        let shown = self.site.shown_in;
        let reach = reach(spacing(self.site)) + metres(ROUNDING_M);
        let counting: Vec<&ReadingFound> = readings
            .iter()
            .copied()
            .filter(|reading| !reading.is_read_again)
            .collect();
        let mut taken = Vec::new();
        let mut required = Vec::new();
        for spot in asked {
            let nearest = counting
                .iter()
                .filter(|reading| {
                    reading.design.is_some()
                        && spot.side.takes(reading.offset)
                        && (reading.station - spot.station).abs() <= reach
                })
                .min_by(|one, other| {
                    let away =
                        |reading: &ReadingFound| in_metres((reading.station - spot.station).abs());
                    away(one)
                        .total_cmp(&away(other))
                        .then(is_right(one).cmp(&is_right(other)))
                });
            required.push(Required {
                what: spot_words(shown, surface, spot.station, spot.offset),
                place: nearest.map_or(Place::HoldStage(stage), |reading| {
                    Place::BuildValue(reading.reading_idx)
                }),
                verdict: nearest.map_or(Verdict::NotKnown, |reading| reading.verdict),
                asks: Asks::Level {
                    surface,
                    station: spot.station,
                    offset: spot.offset,
                },
            });
            taken.extend(nearest.map(|reading| reading.reading_idx));
        }
        let others = counting.iter().filter(|reading| {
            matches!(reading.verdict, Verdict::High | Verdict::Low)
                && !taken.contains(&reading.reading_idx)
        });
        required.extend(others.map(|reading| Required {
            what: spot_words(shown, surface, reading.station, reading.offset),
            place: Place::BuildValue(reading.reading_idx),
            verdict: reading.verdict,
            asks: Asks::Level {
                surface,
                station: reading.station,
                offset: reading.offset,
            },
        }));
        required
    }

    /// Checks at spots of that kind; one at least where it is asked for.
    fn spots(&self, stage: HoldStage, kind: SpotKind, is_asked: bool) -> Vec<Required> {
        let mut required: Vec<Required> = self
            .spots
            .iter()
            .filter(|spot| spot.kind == kind && !spot.is_read_again)
            .filter(|spot| is_asked || spot.verdict != Verdict::NotKnown)
            .map(|spot| Required {
                what: self.spot_words(spot),
                place: Place::SpotSize(spot.spot_idx),
                verdict: spot.verdict,
                asks: Asks::Spot(kind),
            })
            .collect();
        if required.is_empty() && is_asked {
            required.push(Required {
                what: named(kind),
                place: Place::HoldStage(stage),
                verdict: Verdict::NotKnown,
                asks: Asks::Spot(kind),
            });
        }
        required
    }

    fn spot_words(&self, spot: &SpotFound) -> String {
        let station = self
            .site
            .build
            .spots
            .get(spot.spot_idx)
            .and_then(|spot| spot.station);
        let at = station.map_or_else(String::new, |station| {
            format!(" at {}", self.site.shown_in.along(station))
        });
        format!("{}{at}", named(spot.kind))
    }
}

impl Side {
    fn takes(self, offset: Length) -> bool {
        let rounding = metres(ROUNDING_M);
        match self {
            Self::Any => true,
            Self::Left => offset <= rounding,
            Self::Right => offset >= -rounding,
        }
    }
}

const fn is_right(reading: &ReadingFound) -> bool {
    matches!(reading.verdict, Verdict::Right)
}

fn named(kind: SpotKind) -> String {
    let name = kind.name();
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

fn on_the_centreline(station: Length) -> Asked {
    Asked {
        station,
        offset: metres(0.0),
        side: Side::Any,
    }
}

/// How far from where it was asked for a reading still counts: 2 ft, but never half way to the next stake.
///
/// # Source
/// Common practice, no source.
fn reach(spacing: Length) -> Length {
    feet(2.0).min(spacing / 2.0)
}

/// From the first to the last, and at whole spacings from the door between: where a stake stands. One that the reading of an end would
/// serve is left out.
fn stations(first: Length, last: Length, spacing: Length) -> Vec<Length> {
    let reach = reach(spacing).max(inches(1.0));
    let mut stations = vec![first];
    let mut n = (in_metres(first) / in_metres(spacing)).floor() + 1.0;
    while spacing * n < last - reach {
        if spacing * n > first + reach {
            stations.push(spacing * n);
        }
        n += 1.0;
    }
    if last > first {
        stations.push(last);
    }
    stations
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit;

    #[track_caller]
    fn check(first_ft: f64, last_ft: f64, spacing_ft: f64, expected_ft: &[f64]) {
        let found: Vec<f64> = stations(feet(first_ft), feet(last_ft), feet(spacing_ft))
            .into_iter()
            .map(|station| station.get::<unit::foot>())
            .collect();
        assert_eq!(found.len(), expected_ft.len(), "{found:?}");
        for (one, other) in found.iter().zip(expected_ft) {
            assert!((one - other).abs() < 1e-9, "{found:?}");
        }
    }

    #[test]
    fn a_level_is_asked_for_at_both_ends_and_no_further_apart_than_the_stakes() {
        check(0.0, 38.0, 10.0, &[0.0, 10.0, 20.0, 30.0, 38.0]);
        check(0.0, 41.0, 10.0, &[0.0, 10.0, 20.0, 30.0, 41.0]); // 40 is within 2 ft of 41
        check(0.0, 6.0, 10.0, &[0.0, 6.0]);
        check(9.0, 25.0, 10.0, &[9.0, 20.0, 25.0]); // 10 is within 2 ft of 9
        check(4.0, 4.0, 10.0, &[4.0]);
    }
}
