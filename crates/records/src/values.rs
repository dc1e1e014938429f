//! The text at a place: as typed, and what is stored for what was typed.

use underbrick_calc::place::Place;

use crate::v1::{FarEnd, GradeShape, LegShape, Restraint, SiteFile};

/// The text at a place, borrowed as told: one list of places for reading and for writing.
macro_rules! text_at {
    ($site:expr, $place:expr, $get:ident, $($borrow:tt)+) => {
        match $place {
            Place::Address => Some($($borrow)+ $site.address),
            Place::Walk => Some($($borrow)+ $site.walk),
            Place::Sign(sign_idx) => Some($($borrow)+ $site.signs.$get(sign_idx)?.what),
            Place::SignStation(sign_idx) => Some($($borrow)+ $site.signs.$get(sign_idx)?.station),
            Place::SignOffset(sign_idx) => Some($($borrow)+ $site.signs.$get(sign_idx)?.offset),
            Place::SignWidth(sign_idx) => Some($($borrow)+ $site.signs.$get(sign_idx)?.width),
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
            Place::StepsAt => match $($borrow)+ $site.line.shape {
                GradeShape::Steps { first_at, .. } => Some(first_at),
                GradeShape::Uniform | GradeShape::Break { .. } | GradeShape::Ramp => None,
            },
            Place::StepTread => match $($borrow)+ $site.line.shape {
                GradeShape::Steps { tread, .. } => Some(tread),
                GradeShape::Uniform | GradeShape::Break { .. } | GradeShape::Ramp => None,
            },
            Place::BreakAt => match $($borrow)+ $site.line.shape {
                GradeShape::Break { at, .. } => Some(at),
                GradeShape::Uniform | GradeShape::Steps { .. } | GradeShape::Ramp => None,
            },
            Place::BreakBelowSill => match $($borrow)+ $site.line.shape {
                GradeShape::Break { below_sill, .. } => Some(below_sill),
                GradeShape::Uniform | GradeShape::Steps { .. } | GradeShape::Ramp => None,
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
            Place::PenetrometerStart(pit_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.penetrometer.start),
            Place::PenetrometerBlows(pit_idx, row_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.penetrometer.rows.$get(row_idx)?.blows),
            Place::PenetrometerReading(pit_idx, row_idx) => Some($($borrow)+ $site.pits.$get(pit_idx)?.penetrometer.rows.$get(row_idx)?.reading),
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
            Place::SoilSand => Some($($borrow)+ $site.soil.sand),
            Place::SoilSilt => Some($($borrow)+ $site.soil.silt),
            Place::SoilClay => Some($($borrow)+ $site.soil.clay),
            Place::LiquidLimit => Some($($borrow)+ $site.soil.liquid_limit),
            Place::PlasticLimit => Some($($borrow)+ $site.soil.plastic_limit),
            Place::Fines => Some($($borrow)+ $site.soil.fines),
            Place::SieveSand => Some($($borrow)+ $site.soil.sieve_sand),
            Place::SieveGravel => Some($($borrow)+ $site.soil.sieve_gravel),
            Place::GrainD10 => Some($($borrow)+ $site.soil.d10),
            Place::GrainD30 => Some($($borrow)+ $site.soil.d30),
            Place::GrainD60 => Some($($borrow)+ $site.soil.d60),
            Place::FinerThan002 => Some($($borrow)+ $site.soil.finer_than_002),
            Place::FrostDepth => Some($($borrow)+ $site.frost.local_depth),
            Place::FreezingIndex => Some($($borrow)+ $site.frost.freezing_index),
            Place::FreezingDays => Some($($borrow)+ $site.frost.freezing_days),
            Place::SurfaceFactor => Some($($borrow)+ $site.frost.surface_factor),
            Place::MeanTemperature => Some($($borrow)+ $site.frost.mean_temperature),
            Place::DryDensity => Some($($borrow)+ $site.frost.dry_density),
            Place::WaterContent => Some($($borrow)+ $site.frost.water_content),
            Place::Conductivity => Some($($borrow)+ $site.frost.conductivity),
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
            Place::LapShare => Some($($borrow)+ $site.lay.lap),
            Place::LeastLap => Some($($borrow)+ $site.lay.least_lap),
            Place::LeastPiece => Some($($borrow)+ $site.lay.least_piece),
            Place::LeastJoint => Some($($borrow)+ $site.lay.least_joint),
            Place::WidestJoint => Some($($borrow)+ $site.lay.widest_joint),
            Place::Kerf => Some($($borrow)+ $site.lay.kerf),
            Place::TargetWidth => Some($($borrow)+ $site.lay.target_width),
            Place::WidthTolerance => Some($($borrow)+ $site.lay.width_tolerance),
            Place::OpeningStation(opening_idx) => Some($($borrow)+ $site.lay.openings.$get(opening_idx)?.station),
            Place::OpeningAlong(opening_idx) => Some($($borrow)+ $site.lay.openings.$get(opening_idx)?.along),
            Place::OpeningAcross(opening_idx) => Some($($borrow)+ $site.lay.openings.$get(opening_idx)?.across),
            Place::OpeningOffset(opening_idx) => Some($($borrow)+ $site.lay.openings.$get(opening_idx)?.offset),
            Place::Bearing => Some($($borrow)+ $site.lay.bearing),
            Place::SampleLength(brick_idx) => Some($($borrow)+ $site.lay.sample.$get(brick_idx)?.length),
            Place::SampleWidth(brick_idx) => Some($($borrow)+ $site.lay.sample.$get(brick_idx)?.width),
            Place::SampleThickness(brick_idx) => Some($($borrow)+ $site.lay.sample.$get(brick_idx)?.thickness),
            Place::SecondLength => match $($borrow)+ $site.lay.second_brick {
                Some(second) => Some($($borrow)+ second.length),
                None => None,
            },
            Place::SecondWidth => match $($borrow)+ $site.lay.second_brick {
                Some(second) => Some($($borrow)+ second.width),
                None => None,
            },
            Place::SecondThickness => match $($borrow)+ $site.lay.second_brick {
                Some(second) => Some($($borrow)+ second.thickness),
                None => None,
            },
            Place::BricksOnSite => Some($($borrow)+ $site.lay.on_site),
            Place::BrickLoss => Some($($borrow)+ $site.lay.loss),
            Place::WorkStart => Some($($borrow)+ $site.show.start),
            Place::PictureCaption(idx) => Some($($borrow)+ $site.show.pictures.$get(idx)?.caption),
            // Choices that are no text, and things that are no value.
            Place::Site
            | Place::Leg(_)
            | Place::BookRow(_)
            | Place::Shot(_)
            | Place::Pit(_)
            | Place::Soil
            | Place::Fabric
            | Place::EdgeStands
            | Place::Restraint
            | Place::Bond
            | Place::CourseWay
            | Place::StartSide
            | Place::Returns
            | Place::Opening(_)
            | Place::SampleBrick(_)
            | Place::Piece(_)
            | Place::BuildSpacing
            | Place::StringAboveGrade
            | Place::Initials
            | Place::SetUp(_)
            | Place::SetUpRod(_)
            | Place::BuildReading(_)
            | Place::BuildStation(_)
            | Place::BuildOffset(_)
            | Place::BuildValue(_)
            | Place::Spot(_)
            | Place::SpotStation(_)
            | Place::SpotSize(_)
            | Place::LiftLoose(_)
            | Place::LiftCompacted(_)
            | Place::LiftPasses(_)
            | Place::HoldStage(_)
            | Place::StageReason(_)
            | Place::StageInitials(_)
            | Place::Day(_)
            | Place::Agreement(_)
            | Place::Picture(_)
            | Place::DayDate(_)
            | Place::DayCrew(_)
            | Place::DayWeather(_)
            | Place::DayNotes(_)
            | Place::DeliveryItem(..)
            | Place::DeliveryCount(..)
            | Place::OrderWay
            | Place::OrderLine(_)
            // Found before, in the order itself.
            | Place::OrderRate(_)
            | Place::OrderCount(_)
            | Place::CrewSize
            | Place::CrewRate
            | Place::StageHours(_)
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
        self.order.tidy();
        self.build.tidy();
        true
    }

    fn text_ref(&self, place: Place) -> Option<&String> {
        if let Some(text) = self
            .order
            .text_ref(place)
            .or_else(|| self.build.text_ref(place))
        {
            return Some(text);
        }
        text_at!(self, place, get, &)
    }

    fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        if self.order.text_ref(place).is_some() {
            return self.order.text_mut(place);
        }
        if self.build.text_ref(place).is_some() {
            return self.build.text_mut(place);
        }
        text_at!(self, place, get_mut, &mut)
    }

    /// Every place of this site where a text stands, in the order of the file.
    #[must_use]
    pub fn text_places(&self) -> Vec<Place> {
        let mut places = vec![Place::Address, Place::Walk];
        for sign_idx in 0..self.signs.len() {
            places.extend([
                Place::Sign(sign_idx),
                Place::SignStation(sign_idx),
                Place::SignOffset(sign_idx),
                Place::SignWidth(sign_idx),
            ]);
        }
        places.extend([Place::OldBelowSill, Place::FirstBrickBelowSill]);
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
            Place::StepsAt,
            Place::StepTread,
            Place::BreakAt,
            Place::BreakBelowSill,
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
            places.push(Place::PenetrometerStart(pit_idx));
            for row_idx in 0..pit.penetrometer.rows.len() {
                places.extend([
                    Place::PenetrometerBlows(pit_idx, row_idx),
                    Place::PenetrometerReading(pit_idx, row_idx),
                ]);
            }
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
            Place::SoilSand,
            Place::SoilSilt,
            Place::SoilClay,
            Place::LiquidLimit,
            Place::PlasticLimit,
            Place::Fines,
            Place::SieveSand,
            Place::SieveGravel,
            Place::GrainD10,
            Place::GrainD30,
            Place::GrainD60,
            Place::FinerThan002,
            Place::FrostDepth,
            Place::FreezingIndex,
            Place::FreezingDays,
            Place::SurfaceFactor,
            Place::MeanTemperature,
            Place::DryDensity,
            Place::WaterContent,
            Place::Conductivity,
            Place::HaunchHeight,
            Place::HaunchWidth,
            Place::HaunchTopWidth,
            Place::SpikeSpacing,
        ]);
        self.add_lay_places(&mut places);
        places.extend(self.order.places());
        places.extend(self.build.places());
        places.extend((0..self.show.pictures.len()).map(Place::PictureCaption));
        places.retain(|place| self.text(*place).is_some());
        places
    }

    fn add_lay_places(&self, places: &mut Vec<Place>) {
        places.extend([
            Place::LapShare,
            Place::LeastLap,
            Place::LeastPiece,
            Place::LeastJoint,
            Place::WidestJoint,
            Place::Kerf,
            Place::TargetWidth,
            Place::WidthTolerance,
        ]);
        for opening_idx in 0..self.lay.openings.len() {
            places.extend([
                Place::OpeningStation(opening_idx),
                Place::OpeningOffset(opening_idx),
                Place::OpeningAlong(opening_idx),
                Place::OpeningAcross(opening_idx),
            ]);
        }
        places.push(Place::Bearing);
        for brick_idx in 0..self.lay.sample.len() {
            places.extend([
                Place::SampleLength(brick_idx),
                Place::SampleWidth(brick_idx),
                Place::SampleThickness(brick_idx),
            ]);
        }
        places.extend([
            Place::SecondLength,
            Place::SecondWidth,
            Place::SecondThickness,
            Place::BricksOnSite,
            Place::BrickLoss,
        ]);
    }
}
