//! The text at a place: as typed, and what is stored for what was typed.

use underbrick_calc::place::Place;

use crate::v1::{FarEnd, LegShape, Restraint, SiteFile};

/// The text at a place, borrowed as told: one list of places for reading and for writing.
macro_rules! text_at {
    ($site:expr, $place:expr, $get:ident, $($borrow:tt)+) => {
        match $place {
            Place::Address => Some($($borrow)+ $site.address),
            Place::Walk => Some($($borrow)+ $site.walk),
            Place::OldBelowSill => Some($($borrow)+ $site.line.old_below_sill),
            Place::FirstBrickBelowSill => Some($($borrow)+ $site.line.first_brick_below_sill),
            Place::LegLength(leg_idx) => match $($borrow)+ $site.line.legs.$get(leg_idx)?.shape {
                LegShape::Straight { length } => Some(length),
                LegShape::Curve { .. } => None,
            },
            Place::LegRadius(leg_idx) => match $($borrow)+ $site.line.legs.$get(leg_idx)?.shape {
                LegShape::Curve { radius, .. } => Some(radius),
                LegShape::Straight { .. } => None,
            },
            Place::LegTurn(leg_idx) => match $($borrow)+ $site.line.legs.$get(leg_idx)?.shape {
                LegShape::Curve { turn, .. } => Some(turn),
                LegShape::Straight { .. } => None,
            },
            Place::LegWidthAtEnd(leg_idx) => Some($($borrow)+ $site.line.legs.$get(leg_idx)?.width_at_end),
            Place::Width => Some($($borrow)+ $site.line.width),
            Place::Fall => Some($($borrow)+ $site.line.fall),
            Place::CrossFall => Some($($borrow)+ $site.line.cross_fall),
            Place::FarEndBelowSill => match $($borrow)+ $site.line.far_end {
                FarEnd::Fixed { below_sill } => Some(below_sill),
                FarEnd::Free => None,
            },
            Place::StringAboveSill => Some($($borrow)+ $site.line.string_above_sill),
            Place::RodAtSill => Some($($borrow)+ $site.line.rod_at_sill),
            Place::BookStation(row_idx) => {
                let row = $site.line.book.rows.$get(row_idx).filter(|row| row.has_station())?;
                Some($($borrow)+ row.station)
            }
            Place::BookOffset(row_idx) => {
                let row = $site.line.book.rows.$get(row_idx).filter(|row| row.has_station())?;
                Some($($borrow)+ row.offset)
            }
            Place::BookReading(row_idx) => Some($($borrow)+ $site.line.book.rows.$get(row_idx)?.reading),
            Place::BookLimit => Some($($borrow)+ $site.line.book.limit),
            Place::BookBenchmark => Some($($borrow)+ $site.line.book.benchmark_above_sill),
            Place::ShotStation(shot_idx) => Some($($borrow)+ $site.line.shots.$get(shot_idx)?.station),
            Place::ShotOffset(shot_idx) => Some($($borrow)+ $site.line.shots.$get(shot_idx)?.offset),
            Place::ShotReading(shot_idx) => Some($($borrow)+ $site.line.shots.$get(shot_idx)?.reading),
            Place::PitStation(pit_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.station),
            Place::PitOffset(pit_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.offset),
            Place::PitSeep(pit_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.seep),
            Place::LayerMaterial(pit_idx, layer_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.layers.$get(layer_idx)?.material),
            Place::LayerThickness(pit_idx, layer_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.layers.$get(layer_idx)?.thickness),
            Place::SettingBed => Some($($borrow)+ $site.bed.setting_bed),
            Place::LeastBase => Some($($borrow)+ $site.bed.least_base),
            Place::BaseMaterial => Some($($borrow)+ $site.bed.base_material),
            Place::LooseLift => Some($($borrow)+ $site.bed.loose_lift),
            Place::SideExtension => Some($($borrow)+ $site.bed.side_extension),
            Place::UndercutLimit => Some($($borrow)+ $site.bed.undercut_limit),
            Place::BrickLength => Some($($borrow)+ $site.brick.length),
            Place::BrickWidth => Some($($borrow)+ $site.brick.width),
            Place::BrickThickness => Some($($borrow)+ $site.brick.thickness),
            Place::Joint => Some($($borrow)+ $site.brick.joint),
            Place::HaunchHeight => match $($borrow)+ $site.edge.restraint {
                Restraint::Haunch { height, .. } => Some(height),
                Restraint::Spiked { .. } | Restraint::Nothing => None,
            },
            Place::HaunchWidth => match $($borrow)+ $site.edge.restraint {
                Restraint::Haunch { width, .. } => Some(width),
                Restraint::Spiked { .. } | Restraint::Nothing => None,
            },
            Place::HaunchTopWidth => match $($borrow)+ $site.edge.restraint {
                Restraint::Haunch { top_width, .. } => Some(top_width),
                Restraint::Spiked { .. } | Restraint::Nothing => None,
            },
            Place::SpikeSpacing => match $($borrow)+ $site.edge.restraint {
                Restraint::Spiked { spacing } => Some(spacing),
                Restraint::Haunch { .. } | Restraint::Nothing => None,
            },
            // Choices that are no text, and things that are no value.
            Place::Site
            | Place::Leg(_)
            | Place::BookRow(_)
            | Place::Shot(_)
            | Place::Pit(_)
            | Place::Fabric
            | Place::EdgeStands
            | Place::Restraint
            | Place::Lift(_)
            | Place::GradeLine
            | Place::OldSurface
            | Place::DigBottom => None,
        }
    };
}

impl SiteFile {
    /// The text at a place as typed; empty where nothing was measured. `None` where the site has no such place, or no text stands
    /// there.
    #[must_use]
    pub fn text(&self, place: Place) -> Option<&str> {
        self.text_ref(place).map(String::as_str)
    }

    /// Puts a text at a place as it is. False, and nothing is changed, where [`SiteFile::text`] gives `None`.
    pub fn set_text(&mut self, place: Place, text: &str) -> bool {
        let Some(kept) = self.text_mut(place) else {
            return false;
        };
        text.clone_into(kept);
        true
    }

    fn text_ref(&self, place: Place) -> Option<&String> {
        text_at!(self, place, get, &)
    }

    fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        text_at!(self, place, get_mut, &mut)
    }

    /// Every place of this site where a text stands, in the order of the file.
    #[must_use]
    pub fn text_places(&self) -> Vec<Place> {
        let mut places = vec![
            Place::Address,
            Place::Walk,
            Place::OldBelowSill,
            Place::FirstBrickBelowSill,
        ];
        for leg_idx in 0..self.line.legs.len() {
            places.extend([
                Place::LegLength(leg_idx),
                Place::LegRadius(leg_idx),
                Place::LegTurn(leg_idx),
                Place::LegWidthAtEnd(leg_idx),
            ]);
        }
        places.extend([
            Place::Width,
            Place::Fall,
            Place::CrossFall,
            Place::FarEndBelowSill,
            Place::StringAboveSill,
            Place::RodAtSill,
            Place::BookBenchmark,
            Place::BookLimit,
        ]);
        for row_idx in 0..self.line.book.rows.len() {
            places.extend([
                Place::BookStation(row_idx),
                Place::BookOffset(row_idx),
                Place::BookReading(row_idx),
            ]);
        }
        for shot_idx in 0..self.line.shots.len() {
            places.extend([
                Place::ShotStation(shot_idx),
                Place::ShotOffset(shot_idx),
                Place::ShotReading(shot_idx),
            ]);
        }
        for (pit_idx, pit) in self.pits.iter().enumerate() {
            places.extend([Place::PitStation(pit_idx), Place::PitOffset(pit_idx)]);
            for layer_idx in 0..pit.layers.len() {
                places.extend([
                    Place::LayerMaterial(pit_idx, layer_idx),
                    Place::LayerThickness(pit_idx, layer_idx),
                ]);
            }
            places.push(Place::PitSeep(pit_idx));
        }
        places.extend([
            Place::SettingBed,
            Place::LeastBase,
            Place::BaseMaterial,
            Place::LooseLift,
            Place::SideExtension,
            Place::UndercutLimit,
            Place::BrickLength,
            Place::BrickWidth,
            Place::BrickThickness,
            Place::Joint,
            Place::HaunchHeight,
            Place::HaunchWidth,
            Place::HaunchTopWidth,
            Place::SpikeSpacing,
        ]);
        places.retain(|place| self.text(*place).is_some());
        places
    }
}
