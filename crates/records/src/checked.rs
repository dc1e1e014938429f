//! From a site as typed to the checked types of the calculation. What cannot be read, or cannot be true, becomes a value that is
//! missing and a finding that says why; the typed text stays in the file.

mod build;
mod lay;
mod order;
mod show;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::field::{
    Kind, OutOfReason, check_amount, check_count, check_fall, check_length, check_turn, field,
    full_name,
};
use underbrick_calc::findings::{Findings, Source, Weight};
use underbrick_calc::measure::amount::{Amount, read_amount};
use underbrick_calc::measure::angle::read_angle;
use underbrick_calc::measure::count::read_count;
use underbrick_calc::measure::slope::{Fall, read_fall};
use underbrick_calc::measure::written::{WrittenError, read_length_with_unit};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Angle, Length};
use underbrick_calc::site::{self, MaterialKey, Site};

use crate::v1::{
    FarEnd, GradeShape, Layer, Leg, LegShape, Penetrometer, Pit, Restraint, Shot, Sign, SiteFile,
};

impl SiteFile {
    /// The site for [`underbrick_calc::compute`], and what could not be taken over.
    ///
    /// A text that cannot be read, a number without a unit and a value outside the limits of its field are missing from the site;
    /// each is a [`Weight::Warning`] at its place that names the field, the text and what is wrong with it. A material may be
    /// written by its key or by the name that the catalogue gives it.
    #[must_use]
    pub fn checked(&self, catalogue: &Catalogue) -> (Site, Findings) {
        let mut check = Check {
            file: self,
            catalogue,
            findings: Findings::default(),
        };
        let site = check.site();
        (site, check.findings)
    }
}

struct Check<'a> {
    file: &'a SiteFile,
    catalogue: &'a Catalogue,
    findings: Findings,
}

impl Check<'_> {
    fn site(&mut self) -> Site {
        let file = self.file;
        Site {
            address: file.address.clone(),
            walk: file.walk.clone(),
            shown_in: file.shown_in.into(),
            signs: file
                .signs
                .iter()
                .enumerate()
                .map(|(sign_idx, sign)| self.sign(sign_idx, sign))
                .collect(),
            line: self.line(),
            pits: file
                .pits
                .iter()
                .enumerate()
                .map(|(pit_idx, pit)| self.pit(pit_idx, pit))
                .collect(),
            bed: self.bed(),
            brick: site::Brick {
                length: self.length(Place::BrickLength),
                width: self.length(Place::BrickWidth),
                thickness: self.length(Place::BrickThickness),
                joint: self.length(Place::Joint),
            },
            soil: self.soil(),
            frost: self.frost(),
            lay: self.lay(),
            order: self.order(),
            build: self.build(),
            show: self.show(),
            edge: site::EdgeInput {
                stands: file.edge.stands.into(),
                restraint: self.restraint(),
            },
        }
    }

    fn sign(&mut self, sign_idx: usize, sign: &Sign) -> site::Sign {
        let what = site::SignKind::of(&sign.what);
        let place = Place::Sign(sign_idx);
        if what.is_none() {
            let text = if sign.what.trim().is_empty() {
                format!("{}: it is not said what is seen.", full_name(place))
            } else {
                format!(
                    "{}: {:?} is none of what can be seen.",
                    full_name(place),
                    sign.what
                )
            };
            self.warn(
                place,
                text,
                "It is kept as written and not used. Choose what is seen, or take it away.",
            );
        }
        site::Sign {
            what,
            severity: sign.severity.into(),
            station: self.length(Place::SignStation(sign_idx)),
            offset: self.length(Place::SignOffset(sign_idx)),
            width: match what {
                Some(site::SignKind::OpenJoints) => self.length(Place::SignWidth(sign_idx)),
                _ => None,
            },
        }
    }

    fn line(&mut self) -> site::LineInput {
        let line = &self.file.line;
        site::LineInput {
            old_below_sill: self.length(Place::OldBelowSill),
            first_brick_below_sill: self.length(Place::FirstBrickBelowSill),
            legs: line
                .legs
                .iter()
                .enumerate()
                .map(|(leg_idx, leg)| self.leg(leg_idx, leg))
                .collect(),
            width: self.length(Place::Width),
            fall: self.fall(Place::Fall),
            cross_fall: self.fall(Place::CrossFall),
            far_end: match line.far_end {
                FarEnd::Free => site::FarEnd::Free,
                FarEnd::Fixed { .. } => site::FarEnd::Fixed {
                    below_sill: self.length(Place::FarEndBelowSill),
                },
            },
            shape: match line.shape {
                GradeShape::Uniform => site::GradeShape::Uniform,
                GradeShape::Steps { n_risers, .. } => site::GradeShape::Steps {
                    n_risers,
                    first_at: self.length(Place::StepsAt),
                    tread: self.length(Place::StepTread),
                },
                GradeShape::Break { .. } => site::GradeShape::Break {
                    at: self.length(Place::BreakAt),
                    below_sill: self.length(Place::BreakBelowSill),
                },
                GradeShape::Ramp => site::GradeShape::Ramp,
            },
            string_above_sill: self.length(Place::StringAboveSill),
            rod_at_sill: self.length(Place::RodAtSill),
            book: self.book(),
            shots: line
                .shots
                .iter()
                .enumerate()
                .map(|(shot_idx, shot)| self.shot(shot_idx, shot))
                .collect(),
        }
    }

    fn book(&mut self) -> site::LevelBook {
        let file = &self.file.line.book;
        let benchmark_above_sill = self.length(Place::BookBenchmark);
        let limit = self.length(Place::BookLimit);
        let rows = file.rows.iter().enumerate();
        site::LevelBook {
            rows: rows
                .map(|(row_idx, row)| site::BookRow {
                    sight: row.sight.into(),
                    stands: row.stands.into(),
                    station: self.length(Place::BookStation(row_idx)),
                    offset: self.length(Place::BookOffset(row_idx)),
                    reading: self.length(Place::BookReading(row_idx)),
                })
                .collect(),
            benchmark_above_sill,
            limit,
            spread: file.spread,
        }
    }

    fn leg(&mut self, leg_idx: usize, leg: &Leg) -> site::Leg {
        let shape = match leg.shape {
            LegShape::Straight { .. } => site::LegShape::Straight {
                length: self.length(Place::LegLength(leg_idx)),
            },
            LegShape::Curve { hand, .. } => site::LegShape::Curve {
                radius: self.length(Place::LegRadius(leg_idx)),
                turn: self.turn(Place::LegTurn(leg_idx)),
                hand: hand.into(),
            },
        };
        site::Leg {
            shape,
            width_at_end: self.length(Place::LegWidthAtEnd(leg_idx)),
        }
    }

    fn shot(&mut self, shot_idx: usize, shot: &Shot) -> site::Shot {
        site::Shot {
            station: self.length(Place::ShotStation(shot_idx)),
            offset: self.length(Place::ShotOffset(shot_idx)),
            by: shot.by.into(),
            reading: self.length(Place::ShotReading(shot_idx)),
        }
    }

    fn pit(&mut self, pit_idx: usize, pit: &Pit) -> site::Pit {
        let layers = pit.layers.iter().enumerate();
        site::Pit {
            station: self.length(Place::PitStation(pit_idx)),
            offset: self.length(Place::PitOffset(pit_idx)),
            layers: layers
                .map(|(layer_idx, layer)| {
                    self.layer(Place::LayerThickness(pit_idx, layer_idx), layer)
                })
                .collect(),
            seep: self.length(Place::PitSeep(pit_idx)),
            ended: pit.ended.into(),
            penetrometer: self.penetrometer(pit_idx, &pit.penetrometer),
        }
    }

    fn penetrometer(&mut self, pit_idx: usize, log: &Penetrometer) -> site::PenetrometerLog {
        site::PenetrometerLog {
            hammer: log.hammer.into(),
            driven_into: log.driven_into.into(),
            start: self.length(Place::PenetrometerStart(pit_idx)),
            rows: (0..log.rows.len())
                .map(|row_idx| site::PenetrometerRow {
                    blows: self.count(Place::PenetrometerBlows(pit_idx, row_idx)),
                    reading: self.length(Place::PenetrometerReading(pit_idx, row_idx)),
                })
                .collect(),
        }
    }

    fn layer(&mut self, thickness: Place, layer: &Layer) -> site::Layer {
        site::Layer {
            material: self.material(&layer.material),
            thickness: self.length(thickness),
            firmness: layer.firmness.map(Into::into),
            moisture: layer.moisture.map(Into::into),
        }
    }

    fn bed(&mut self) -> site::BedInput {
        site::BedInput {
            setting_bed: self.length(Place::SettingBed),
            least_base: self.length(Place::LeastBase),
            base_material: self.material(&self.file.bed.base_material),
            loose_lift: self.length(Place::LooseLift),
            side_extension: self.length(Place::SideExtension),
            undercut_limit: self.length(Place::UndercutLimit),
            fabric: self.file.bed.fabric,
            plant: self.file.bed.plant.into(),
        }
    }

    fn soil(&mut self) -> site::SoilInput {
        let soil = &self.file.soil;
        site::SoilInput {
            sand: self.amount(Place::SoilSand),
            silt: self.amount(Place::SoilSilt),
            clay: self.amount(Place::SoilClay),
            ribbon: soil.ribbon.map(Into::into),
            grit: soil.grit.map(Into::into),
            liquid_limit: self.amount(Place::LiquidLimit),
            plastic_limit: self.amount(Place::PlasticLimit),
            fines: self.amount(Place::Fines),
            sieve_sand: self.amount(Place::SieveSand),
            sieve_gravel: self.amount(Place::SieveGravel),
            d10: self.amount(Place::GrainD10),
            d30: self.amount(Place::GrainD30),
            d60: self.amount(Place::GrainD60),
            finer_than_002: self.amount(Place::FinerThan002),
            varved: soil.varved,
        }
    }

    fn frost(&mut self) -> site::FrostInput {
        site::FrostInput {
            local_depth: self.length(Place::FrostDepth),
            freezing_index: self.amount(Place::FreezingIndex),
            freezing_days: self.amount(Place::FreezingDays),
            surface_factor: self.amount(Place::SurfaceFactor),
            mean_temperature: self.amount(Place::MeanTemperature),
            dry_density: self.amount(Place::DryDensity),
            water_content: self.amount(Place::WaterContent),
            conductivity: self.amount(Place::Conductivity),
        }
    }

    fn restraint(&mut self) -> site::RestraintInput {
        match self.file.edge.restraint {
            Restraint::Haunch { .. } => site::RestraintInput::Haunch {
                height: self.length(Place::HaunchHeight),
                width: self.length(Place::HaunchWidth),
                top_width: self.length(Place::HaunchTopWidth),
            },
            Restraint::Spiked { .. } => site::RestraintInput::Spiked {
                spacing: self.length(Place::SpikeSpacing),
            },
            Restraint::Nothing => site::RestraintInput::Nothing,
        }
    }

    fn length(&mut self, place: Place) -> Option<Length> {
        self.value(place, read_length_with_unit, check_length)
    }

    fn fall(&mut self, place: Place) -> Option<Fall> {
        self.value(place, read_fall, check_fall)
    }

    fn turn(&mut self, place: Place) -> Option<Angle> {
        self.value(place, read_angle, check_turn)
    }

    fn amount(&mut self, place: Place) -> Option<Amount> {
        let Kind::Number { unit, .. } = field(place).kind else {
            return None;
        };
        self.value(place, |text| read_amount(text, unit), check_amount)
    }

    fn count(&mut self, place: Place) -> Option<u32> {
        self.value(place, read_count, check_count)
    }

    /// The value at a place, if something stands there that can be read and can be true.
    fn value<T>(
        &mut self,
        place: Place,
        read: impl Fn(&str) -> Result<T, WrittenError>,
        check: impl Fn(Place, T) -> Result<T, OutOfReason>,
    ) -> Option<T> {
        let text = self
            .file
            .text(place)
            .filter(|text| !text.trim().is_empty())?;
        let value = match read(text) {
            Ok(value) => value,
            Err(error) => {
                self.warn(
                    place,
                    format!("{}: {text:?} cannot be read: {error}.", full_name(place)),
                    &remedy_of(place, &error),
                );
                return None;
            }
        };
        match check(place, value) {
            Ok(value) => Some(value),
            Err(error) => {
                let words = error.words(self.file.shown_in.into());
                self.warn(
                    place,
                    format!("{words} (written {text:?})."),
                    "It is kept as written and not used. Measure it again.",
                );
                None
            }
        }
    }

    fn warn(&mut self, place: Place, text: String, remedy: &str) {
        self.findings
            .note(place, Weight::Warning, Source::Readings, text, remedy);
    }

    /// The key of a material that was written by its key or by its name; what the catalogue does not know stays as it is.
    fn material(&self, written: &str) -> MaterialKey {
        let key = MaterialKey(written.trim().to_owned());
        if self.catalogue.find(&key).is_some() {
            return key;
        }
        let named = self
            .catalogue
            .materials
            .iter()
            .find(|material| material.name.eq_ignore_ascii_case(&key.0));
        named.map_or(key, |material| material.key.clone())
    }
}

fn remedy_of(place: Place, error: &WrittenError) -> String {
    let remedy = match (field(place).kind, error) {
        (Kind::Number { unit, .. }, _) => {
            let units: Vec<&str> = unit.symbols().collect();
            let units = units.join(" or ");
            return format!(
                "It is kept as written and not used. Write a number and its unit after it: {units}."
            );
        }
        (Kind::Count { .. }, _) => {
            "It is kept as written and not used. Write a whole number, such as 5."
        }
        (Kind::Decimal { .. }, _) => {
            "It is kept as written and not used. Write a plain number, such as 28.50."
        }
        (_, WrittenError::NoUnit { .. }) => {
            "It is kept as written and not used. Write its unit after it, such as in, ft, mm or m."
        }
        _ => "It is kept as written and not used. Write it anew, such as 5' 3 1/2\" or 1.6 m.",
    };
    remedy.to_owned()
}
