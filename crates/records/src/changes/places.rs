//! Which value of a site a path through the record leads to.

use underbrick_calc::build::HoldStage;
use underbrick_calc::order::{Item, Stage};
use underbrick_calc::place::Place;

use super::named::Parts;

/// The value at the end of a path; `None` where no value of its own stands there.
pub fn place_of(parts: &Parts<'_>) -> Option<Place> {
    let (first, second) = (parts.idxs.first().copied(), parts.idxs.get(1).copied());
    match parts.words.as_slice() {
        ["address"] => Some(Place::Address),
        ["walk"] => Some(Place::Walk),
        ["signs", "#", field] => sign(first?, field),
        ["line", rest @ ..] => line(rest, first),
        ["pits", "#", rest @ ..] => pit(rest, first?, second),
        ["bed", field] => bed(field),
        ["brick", field] => brick(field),
        ["soil", field] => soil(field),
        ["frost", field] => frost(field),
        ["edge", rest @ ..] => edge(rest),
        ["lay", rest @ ..] => lay(rest, first),
        ["order", rest @ ..] => order(rest, parts.key),
        ["build", rest @ ..] => build(rest, first, second, parts.key),
        ["show", "start"] => Some(Place::WorkStart),
        ["show", "pictures", "#", "caption"] => Some(Place::PictureCaption(first?)),
        _ => None,
    }
}

fn sign(idx: usize, field: &str) -> Option<Place> {
    match field {
        "what" => Some(Place::Sign(idx)),
        "station" => Some(Place::SignStation(idx)),
        "offset" => Some(Place::SignOffset(idx)),
        "width" => Some(Place::SignWidth(idx)),
        _ => None,
    }
}

fn line(rest: &[&str], first: Option<usize>) -> Option<Place> {
    match rest {
        ["old_below_sill"] => Some(Place::OldBelowSill),
        ["first_brick_below_sill"] => Some(Place::FirstBrickBelowSill),
        ["legs", "#", "shape", "Straight", "length"] => Some(Place::LegLength(first?)),
        ["legs", "#", "shape", "Curve", "radius"] => Some(Place::LegRadius(first?)),
        ["legs", "#", "shape", "Curve", "turn"] => Some(Place::LegTurn(first?)),
        ["legs", "#", "width_at_end"] => Some(Place::LegWidthAtEnd(first?)),
        ["width"] => Some(Place::Width),
        ["fall"] => Some(Place::Fall),
        ["cross_fall"] => Some(Place::CrossFall),
        ["far_end", "Fixed", "below_sill"] => Some(Place::FarEndBelowSill),
        ["shape", "Steps", "first_at"] => Some(Place::StepsAt),
        ["shape", "Steps", "tread"] => Some(Place::StepTread),
        ["shape", "Break", "at"] => Some(Place::BreakAt),
        ["shape", "Break", "below_sill"] => Some(Place::BreakBelowSill),
        ["string_above_sill"] => Some(Place::StringAboveSill),
        ["rod_at_sill"] => Some(Place::RodAtSill),
        ["book", "benchmark_above_sill"] => Some(Place::BookBenchmark),
        ["book", "limit"] => Some(Place::BookLimit),
        ["book", "rows", "#", "station"] => Some(Place::BookStation(first?)),
        ["book", "rows", "#", "offset"] => Some(Place::BookOffset(first?)),
        ["book", "rows", "#", "reading"] => Some(Place::BookReading(first?)),
        ["shots", "#", "station"] => Some(Place::ShotStation(first?)),
        ["shots", "#", "offset"] => Some(Place::ShotOffset(first?)),
        ["shots", "#", "reading"] => Some(Place::ShotReading(first?)),
        _ => None,
    }
}

fn pit(rest: &[&str], idx: usize, second: Option<usize>) -> Option<Place> {
    match rest {
        ["station"] => Some(Place::PitStation(idx)),
        ["offset"] => Some(Place::PitOffset(idx)),
        ["seep"] => Some(Place::PitSeep(idx)),
        ["layers", "#", "material"] => Some(Place::LayerMaterial(idx, second?)),
        ["layers", "#", "thickness"] => Some(Place::LayerThickness(idx, second?)),
        ["penetrometer", "start"] => Some(Place::PenetrometerStart(idx)),
        ["penetrometer", "rows", "#", "blows"] => Some(Place::PenetrometerBlows(idx, second?)),
        ["penetrometer", "rows", "#", "reading"] => Some(Place::PenetrometerReading(idx, second?)),
        _ => None,
    }
}

fn bed(field: &str) -> Option<Place> {
    match field {
        "setting_bed" => Some(Place::SettingBed),
        "least_base" => Some(Place::LeastBase),
        "base_material" => Some(Place::BaseMaterial),
        "loose_lift" => Some(Place::LooseLift),
        "side_extension" => Some(Place::SideExtension),
        "undercut_limit" => Some(Place::UndercutLimit),
        "fabric" => Some(Place::Fabric),
        _ => None,
    }
}

fn brick(field: &str) -> Option<Place> {
    match field {
        "length" => Some(Place::BrickLength),
        "width" => Some(Place::BrickWidth),
        "thickness" => Some(Place::BrickThickness),
        "joint" => Some(Place::Joint),
        _ => None,
    }
}

fn soil(field: &str) -> Option<Place> {
    match field {
        "sand" => Some(Place::SoilSand),
        "silt" => Some(Place::SoilSilt),
        "clay" => Some(Place::SoilClay),
        "liquid_limit" => Some(Place::LiquidLimit),
        "plastic_limit" => Some(Place::PlasticLimit),
        "fines" => Some(Place::Fines),
        "sieve_sand" => Some(Place::SieveSand),
        "sieve_gravel" => Some(Place::SieveGravel),
        "d10" => Some(Place::GrainD10),
        "d30" => Some(Place::GrainD30),
        "d60" => Some(Place::GrainD60),
        "finer_than_002" => Some(Place::FinerThan002),
        _ => None,
    }
}

fn frost(field: &str) -> Option<Place> {
    match field {
        "local_depth" => Some(Place::FrostDepth),
        "freezing_index" => Some(Place::FreezingIndex),
        "freezing_days" => Some(Place::FreezingDays),
        "surface_factor" => Some(Place::SurfaceFactor),
        "mean_temperature" => Some(Place::MeanTemperature),
        "dry_density" => Some(Place::DryDensity),
        "water_content" => Some(Place::WaterContent),
        "conductivity" => Some(Place::Conductivity),
        _ => None,
    }
}

fn edge(rest: &[&str]) -> Option<Place> {
    match rest {
        ["stands"] => Some(Place::EdgeStands),
        ["restraint"] => Some(Place::Restraint),
        ["restraint", "Haunch", "height"] => Some(Place::HaunchHeight),
        ["restraint", "Haunch", "width"] => Some(Place::HaunchWidth),
        ["restraint", "Haunch", "top_width"] => Some(Place::HaunchTopWidth),
        ["restraint", "Spiked", "spacing"] => Some(Place::SpikeSpacing),
        _ => None,
    }
}

fn lay(rest: &[&str], first: Option<usize>) -> Option<Place> {
    match rest {
        ["bond"] => Some(Place::Bond),
        ["courses"] => Some(Place::CourseWay),
        ["lap"] => Some(Place::LapShare),
        ["least_lap"] => Some(Place::LeastLap),
        ["least_piece"] => Some(Place::LeastPiece),
        ["least_joint"] => Some(Place::LeastJoint),
        ["widest_joint"] => Some(Place::WidestJoint),
        ["kerf"] => Some(Place::Kerf),
        ["target_width"] => Some(Place::TargetWidth),
        ["width_tolerance"] => Some(Place::WidthTolerance),
        ["start_side"] => Some(Place::StartSide),
        ["openings", "#", "station"] => Some(Place::OpeningStation(first?)),
        ["openings", "#", "offset"] => Some(Place::OpeningOffset(first?)),
        ["openings", "#", "along"] => Some(Place::OpeningAlong(first?)),
        ["openings", "#", "across"] => Some(Place::OpeningAcross(first?)),
        ["bearing"] => Some(Place::Bearing),
        ["sample", "#", "length"] => Some(Place::SampleLength(first?)),
        ["sample", "#", "width"] => Some(Place::SampleWidth(first?)),
        ["sample", "#", "thickness"] => Some(Place::SampleThickness(first?)),
        ["second_brick", "length"] => Some(Place::SecondLength),
        ["second_brick", "width"] => Some(Place::SecondWidth),
        ["second_brick", "thickness"] => Some(Place::SecondThickness),
        ["on_site"] => Some(Place::BricksOnSite),
        ["loss"] => Some(Place::BrickLoss),
        _ => None,
    }
}

fn order(rest: &[&str], key: &str) -> Option<Place> {
    match rest {
        ["way"] => Some(Place::OrderWay),
        ["crew"] => Some(Place::CrewSize),
        ["crew_rate"] => Some(Place::CrewRate),
        ["lines", "#", "rate"] => Some(Place::OrderRate(Item::of(key)?)),
        ["lines", "#", "locked"] => Some(Place::OrderCount(Item::of(key)?)),
        ["stages", "#", "hours"] => Some(Place::StageHours(Stage::of(key)?)),
        _ => None,
    }
}

fn build(rest: &[&str], first: Option<usize>, second: Option<usize>, key: &str) -> Option<Place> {
    match rest {
        ["spacing"] => Some(Place::BuildSpacing),
        ["string_above_grade"] => Some(Place::StringAboveGrade),
        ["initials"] => Some(Place::Initials),
        ["set_ups", "#"] | ["set_ups", "#", "rod_at_sill"] => Some(Place::SetUpRod(first?)),
        ["readings", "#", "station"] => Some(Place::BuildStation(first?)),
        ["readings", "#", "offset"] => Some(Place::BuildOffset(first?)),
        ["readings", "#", "reading"] => Some(Place::BuildValue(first?)),
        ["spots", "#", "station"] => Some(Place::SpotStation(first?)),
        ["spots", "#", "size"] => Some(Place::SpotSize(first?)),
        ["lifts", "#", "loose"] => Some(Place::LiftLoose(key.parse().ok()?)),
        ["lifts", "#", "compacted"] => Some(Place::LiftCompacted(key.parse().ok()?)),
        ["lifts", "#", "passes"] => Some(Place::LiftPasses(key.parse().ok()?)),
        ["stages", "#", "reason"] => Some(Place::StageReason(HoldStage::of(key)?)),
        ["stages", "#", "stamp", "by"] => Some(Place::StageInitials(HoldStage::of(key)?)),
        ["days", "#", "date"] => Some(Place::DayDate(first?)),
        ["days", "#", "crew"] => Some(Place::DayCrew(first?)),
        ["days", "#", "weather"] => Some(Place::DayWeather(first?)),
        ["days", "#", "notes"] => Some(Place::DayNotes(first?)),
        ["days", "#", "deliveries", "#", "item"] => Some(Place::DeliveryItem(first?, second?)),
        ["days", "#", "deliveries", "#", "count"] => Some(Place::DeliveryCount(first?, second?)),
        _ => None,
    }
}
