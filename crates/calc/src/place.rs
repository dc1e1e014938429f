//! Where in a site a value stands: how a finding, a mark in a drawing and an entry on screen name the same thing.

use crate::build::HoldStage;
use crate::order::{Item, Stage};

/// One value of a site, or one thing drawn. Indices count from zero in the order in which things were written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// The site as a whole.
    Site,
    /// Street address.
    Address,
    /// Name of the walk.
    Walk,
    /// What is seen: the kind of one sign.
    Sign(usize),
    /// Station of a sign.
    SignStation(usize),
    /// Offset of a sign.
    SignOffset(usize),
    /// Width of the open joints of a sign.
    SignWidth(usize),
    /// Drop from sill to the old brick at the door.
    OldBelowSill,
    /// Drop from sill to the first new brick.
    FirstBrickBelowSill,
    /// One leg as a whole.
    Leg(usize),
    /// Length of a straight leg.
    LegLength(usize),
    /// Radius of a curved leg.
    LegRadius(usize),
    /// Turn of a curved leg.
    LegTurn(usize),
    /// Clear width at the end of a leg.
    LegWidthAtEnd(usize),
    /// Clear width at the door.
    Width,
    /// Wanted fall.
    Fall,
    /// Cross-fall.
    CrossFall,
    /// Drop of the fixed far end.
    FarEndBelowSill,
    /// Station of the first riser.
    StepsAt,
    /// From riser to riser.
    StepTread,
    /// Station of a break in the fall.
    BreakAt,
    /// Drop of a break below the sill.
    BreakBelowSill,
    /// The level string.
    StringAboveSill,
    /// Rod reading on the datum.
    RodAtSill,
    /// One sight of the level book as a whole.
    BookRow(usize),
    /// Station of a sight.
    BookStation(usize),
    /// Offset of a sight.
    BookOffset(usize),
    /// The rod reading of a sight.
    BookReading(usize),
    /// Largest misclosure of the level book.
    BookLimit,
    /// Height of the benchmark of the level book.
    BookBenchmark,
    /// One reading of the old surface as a whole.
    Shot(usize),
    /// Station of a reading.
    ShotStation(usize),
    /// Offset of a reading.
    ShotOffset(usize),
    /// The reading itself.
    ShotReading(usize),
    /// One pit as a whole.
    Pit(usize),
    /// Station of a pit.
    PitStation(usize),
    /// Offset of a pit.
    PitOffset(usize),
    /// Seep level of a pit.
    PitSeep(usize),
    /// Material of a layer: pit, layer.
    LayerMaterial(usize, usize),
    /// Thickness of a layer: pit, layer.
    LayerThickness(usize, usize),
    /// Reading of a pit's penetrometer before the first blow.
    PenetrometerStart(usize),
    /// Blows of a penetrometer's row: pit, row.
    PenetrometerBlows(usize, usize),
    /// Reading after the blows of a penetrometer's row: pit, row.
    PenetrometerReading(usize, usize),
    /// Setting bed.
    SettingBed,
    /// Least thickness of the base.
    LeastBase,
    /// Material of the base.
    BaseMaterial,
    /// Largest loose lift.
    LooseLift,
    /// Dig past the edge brick.
    SideExtension,
    /// Deepest dig.
    UndercutLimit,
    /// Separation fabric.
    Fabric,
    /// Length of the brick.
    BrickLength,
    /// Width of the brick.
    BrickWidth,
    /// Thickness of the brick.
    BrickThickness,
    /// Joint.
    Joint,
    /// Soil and frost as a whole.
    Soil,
    /// Sand by the texture triangle's sizes.
    SoilSand,
    /// Silt by the texture triangle's sizes.
    SoilSilt,
    /// Clay by the texture triangle's sizes.
    SoilClay,
    /// Liquid limit.
    LiquidLimit,
    /// Plastic limit.
    PlasticLimit,
    /// What passes the No. 200 sieve.
    Fines,
    /// Sand between the No. 4 and the No. 200 sieve.
    SieveSand,
    /// What stays on the No. 4 sieve.
    SieveGravel,
    /// Size that a tenth of the soil is finer than.
    GrainD10,
    /// Size that three tenths of the soil are finer than.
    GrainD30,
    /// Size that six tenths of the soil are finer than.
    GrainD60,
    /// Share finer than 0.02 mm.
    FinerThan002,
    /// Local frost depth.
    FrostDepth,
    /// Air freezing index.
    FreezingIndex,
    /// Length of the freezing season.
    FreezingDays,
    /// Surface index by air index.
    SurfaceFactor,
    /// Mean annual temperature.
    MeanTemperature,
    /// Dry density of the ground.
    DryDensity,
    /// Water content of the ground.
    WaterContent,
    /// Thermal conductivity of the ground.
    Conductivity,
    /// How the edge brick stands.
    EdgeStands,
    /// What holds the edge.
    Restraint,
    /// Height of the haunch.
    HaunchHeight,
    /// Width of the haunch at its bottom.
    HaunchWidth,
    /// Width of the haunch at its top.
    HaunchTopWidth,
    /// Spacing of the spikes.
    SpikeSpacing,
    /// The pattern of the field.
    Bond,
    /// Which way courses run.
    CourseWay,
    /// Lap of the courses.
    LapShare,
    /// Least lap.
    LeastLap,
    /// Shortest piece.
    LeastPiece,
    /// Narrowest joint.
    LeastJoint,
    /// Widest joint.
    WidestJoint,
    /// Width that the saw takes away.
    Kerf,
    /// Width over the edge bricks that is wished for.
    TargetWidth,
    /// How far the width may be off the wish.
    WidthTolerance,
    /// Side of the first course.
    StartSide,
    /// Rows of edge brick across the ends.
    Returns,
    /// One opening as a whole.
    Opening(usize),
    /// Station of an opening's middle.
    OpeningStation(usize),
    /// Size of an opening along the run.
    OpeningAlong(usize),
    /// Size of an opening across the run.
    OpeningAcross(usize),
    /// Offset of an opening's middle.
    OpeningOffset(usize),
    /// Bearing of the way out of the door.
    Bearing,
    /// One brick as measured, as a whole.
    SampleBrick(usize),
    /// Length of a measured brick.
    SampleLength(usize),
    /// Width of a measured brick.
    SampleWidth(usize),
    /// Thickness of a measured brick.
    SampleThickness(usize),
    /// Length of the second size of brick.
    SecondLength,
    /// Width of the second size of brick.
    SecondWidth,
    /// Thickness of the second size of brick.
    SecondThickness,
    /// Whole bricks on site.
    BricksOnSite,
    /// Share of the lifted brick that is lost.
    BrickLoss,
    /// One piece of the plan, by its index.
    Piece(u32),
    /// The way of rebuilding that is ordered.
    OrderWay,
    /// One line of the order as a whole.
    OrderLine(Item),
    /// What is asked for one unit of a line.
    OrderRate(Item),
    /// How many units a line is locked at.
    OrderCount(Item),
    /// How many work on the job.
    CrewSize,
    /// One hour of one person.
    CrewRate,
    /// Hours of a stage for one unit of its work.
    StageHours(Stage),
    /// From stake to stake.
    BuildSpacing,
    /// Height of the working string above the grade line.
    StringAboveGrade,
    /// Initials of whoever holds the device.
    Initials,
    /// One set-up of the instrument as a whole.
    SetUp(usize),
    /// Rod reading on the sill in a set-up.
    SetUpRod(usize),
    /// One reading of what was built, as a whole.
    BuildReading(usize),
    /// Station of a reading of what was built.
    BuildStation(usize),
    /// Offset of a reading of what was built.
    BuildOffset(usize),
    /// The reading of what was built itself.
    BuildValue(usize),
    /// One check at a spot as a whole.
    Spot(usize),
    /// Station of a check at a spot.
    SpotStation(usize),
    /// What a check at a spot read.
    SpotSize(usize),
    /// The lift of this number as it was tipped.
    LiftLoose(usize),
    /// The lift of this number as it was compacted.
    LiftCompacted(usize),
    /// Passes over the lift of this number.
    LiftPasses(usize),
    /// One stage as a whole.
    HoldStage(HoldStage),
    /// Why a stage was closed over a check.
    StageReason(HoldStage),
    /// Who closed a stage.
    StageInitials(HoldStage),
    /// One day of the log as a whole.
    Day(usize),
    /// Date of a day.
    DayDate(usize),
    /// Crew of a day.
    DayCrew(usize),
    /// Weather of a day.
    DayWeather(usize),
    /// Notes of a day.
    DayNotes(usize),
    /// What came on a day: day, delivery.
    DeliveryItem(usize, usize),
    /// How much of it: day, delivery.
    DeliveryCount(usize, usize),
    /// Day on which the work is to start.
    WorkStart,
    /// One agreement as a whole.
    Agreement(usize),
    /// One picture as a whole.
    Picture(usize),
    /// What a picture shows.
    PictureCaption(usize),
    /// The lift of this number, counted from the bottom.
    Lift(usize),
    /// The grade line.
    GradeLine,
    /// The old surface.
    OldSurface,
    /// Bottom of the dig.
    DigBottom,
}
