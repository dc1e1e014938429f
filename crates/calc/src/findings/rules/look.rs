//! Looks for what a rule wants to see.

use super::{Seen, curves, near, pits, surface};
use crate::catalogue::Catalogue;
use crate::defaults;
use crate::ground::Ground;
use crate::ground::soil::SoilFound;
use crate::ground::soil::frost_group::FrostGroup;
use crate::line::Line;
use crate::place::Place;
use crate::quantity::{Length, in_metres};
use crate::site::{RestraintInput, Severity, Sign, SignKind, Site};

/// What is known of a site: what was written down, and what follows from it so far.
#[derive(Clone, Copy, Debug)]
pub struct Facts<'a> {
    /// As written down.
    pub site: &'a Site,
    /// The materials.
    pub catalogue: &'a Catalogue,
    /// Run and surfaces, where they are known.
    pub line: Option<&'a Line>,
    /// Pits in levels, where they are known.
    pub ground: Option<&'a Ground>,
    /// What tests and feel say of the soil, where anything was written down of it.
    pub soil: Option<&'a SoilFound>,
}

/// One reading that was seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reading {
    pub place: Place,
    pub station: Option<Length>,
    /// How much it counts among the evidence.
    pub weight: u32,
}

/// A measured value counts as much as a plain sign; a side of the brick, which is the same all over, half of that.
const MEASURED: u32 = 2;

impl Reading {
    pub(super) const fn measured(place: Place, station: Option<Length>) -> Self {
        Self {
            place,
            station,
            weight: MEASURED,
        }
    }
}

impl Facts<'_> {
    /// The readings on which it is seen; `None` where it is not.
    pub(super) fn look(&self, seen: &Seen) -> Option<Vec<Reading>> {
        match seen {
            Seen::All(all) => {
                let each: Option<Vec<Vec<Reading>>> =
                    all.iter().map(|one| self.look(one)).collect();
                each.map(|each| each.concat())
            }
            Seen::Any(any) => {
                let each: Vec<Vec<Reading>> = any.iter().filter_map(|one| self.look(one)).collect();
                (!each.is_empty()).then(|| each.concat())
            }
            Seen::Not(inner) => match self.look(inner) {
                Some(_) => None,
                None => Some(Vec::new()),
            },
            Seen::Near { one, other, within } => {
                near::both(&self.look(one)?, &self.look(other)?, *within)
            }
            Seen::Sign(kind) => self.signs(*kind, |_| true),
            Seen::SignAtLeast(kind, least) => self.signs(*kind, |sign| sign.severity >= *least),
            Seen::Layer(like) => pits::layer(self, like),
            Seen::LayerAbove { upper, lower } => pits::layer_above(self, upper, lower),
            Seen::SettingBed(like) => pits::setting_bed(self, like),
            Seen::SettingBedThickerThan(limit) => pits::setting_bed_thicker(self, *limit),
            Seen::NoBaseInPit => pits::no_base(self),
            Seen::BaseThinnerThan(limit) => pits::base_thinner(self, *limit),
            Seen::PitBottomNotFound => pits::bottom_not_found(self),
            Seen::Seep => pits::seep(self, None),
            Seen::SeepShallowerThan(limit) => pits::seep(self, Some(*limit)),
            Seen::JointWiderThan(limit) => self.wide_joints(*limit),
            Seen::BrickPatternOffBy(limit) => self.pattern_off(*limit),
            Seen::NoRestraint => {
                let is_free = self.site.edge.restraint == RestraintInput::Nothing;
                is_free.then(|| vec![Reading::measured(Place::Restraint, None)])
            }
            Seen::NoFabric => {
                (!self.site.bed.fabric).then(|| vec![Reading::measured(Place::Fabric, None)])
            }
            Seen::WishedBaseThinnerThan(limit) => {
                let wished = self
                    .site
                    .bed
                    .least_base
                    .unwrap_or_else(defaults::least_base);
                (wished < *limit).then(|| vec![Reading::measured(Place::LeastBase, None)])
            }
            Seen::OldSurfaceFallsToHouse => surface::falls_to_house(self),
            Seen::OldFallBelow(limit) => surface::fall_below(self, *limit),
            Seen::OldLowSpot(depth) => surface::low_spots(self, *depth),
            Seen::CurveTooTight => curves::too_tight(self),
            Seen::SoilHeaves => self.frost_group(FrostGroup::heaves),
            Seen::SoilDoesNotHeave => self.frost_group(|group| group == FrostGroup::Nfs),
        }
    }

    /// Signs of a kind. A bad one counts for more, a slight one for less.
    fn signs(&self, kind: SignKind, fits: impl Fn(&Sign) -> bool) -> Option<Vec<Reading>> {
        let signs = self.site.signs.iter().enumerate();
        some(
            signs
                .filter(|(_, sign)| sign.what == Some(kind) && fits(sign))
                .map(|(sign_idx, sign)| Reading {
                    place: Place::SignStation(sign_idx),
                    station: sign.station,
                    weight: match sign.severity {
                        Severity::Slight => 1,
                        Severity::Plain => MEASURED,
                        Severity::Bad => 3,
                    },
                })
                .collect(),
        )
    }

    fn wide_joints(&self, limit: Length) -> Option<Vec<Reading>> {
        let signs = self.site.signs.iter().enumerate();
        some(
            signs
                .filter(|(_, sign)| {
                    sign.what == Some(SignKind::OpenJoints)
                        && sign.width.is_some_and(|width| wider(width, limit))
                })
                .map(|(sign_idx, sign)| Reading::measured(Place::SignWidth(sign_idx), sign.station))
                .collect(),
        )
    }

    /// Length of a brick against two widths and a joint; said only where both sides were measured.
    fn pattern_off(&self, limit: Length) -> Option<Vec<Reading>> {
        let brick = &self.site.brick;
        let (length, width) = (brick.length?, brick.width?);
        let joint = brick.joint.unwrap_or_else(defaults::joint);
        let off_m = in_metres(length - width * 2.0 - joint).abs();
        let mut places = vec![Place::BrickLength, Place::BrickWidth];
        places.extend(brick.joint.map(|_| Place::Joint));
        (off_m > in_metres(limit) + SAME_M).then(|| {
            let side = |place| Reading {
                weight: 1,
                ..Reading::measured(place, None)
            };
            places.into_iter().map(side).collect()
        })
    }

    /// The soil as a whole, where its worst frost group is such.
    fn frost_group(&self, is_such: impl Fn(FrostGroup) -> bool) -> Option<Vec<Reading>> {
        let worst = self.soil?.frost_groups.first()?;
        is_such(worst.group).then(|| vec![Reading::measured(Place::Soil, None)])
    }
}

/// Readings nearer to a limit than this stand on it: what no tape tells.
const SAME_M: f64 = 1e-9;

/// Above a limit by more than a rounding.
pub(super) fn wider(length: Length, limit: Length) -> bool {
    in_metres(length) > in_metres(limit) + SAME_M
}

/// The readings, where there are any.
pub(super) fn some(readings: Vec<Reading>) -> Option<Vec<Reading>> {
    (!readings.is_empty()).then_some(readings)
}
