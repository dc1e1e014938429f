//! What a view asks for. Views return edits; `Visit::apply` alone carries them out.

use underbrick_calc::build::{HoldStage, Plant, SpotKind, Surface};
use underbrick_calc::line::Taking;
use underbrick_calc::order::{Decimal, Item, Way};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::{
    Bond, Clause, CourseWay, DrivenInto, EdgeStands, Firmness, Grit, Hammer, Hand, Language,
    Moisture, PictureOf, PitEnd, Ribbon, Severity, ShotBy, ShownIn, Stands, StartSide,
};

/// One change of a record.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Text typed at a value. Kept as typed, readable or not.
    Text {
        /// Where.
        place: Place,
        /// What was typed.
        typed: String,
    },
    /// How lengths are shown.
    ShownIn(ShownIn),
    /// What the crew sheet and the cautions are written in.
    CrewReads(Language),
    /// A thing that is seen; what it is, is asked next.
    AddSign,
    /// Take a sign away.
    RemoveSign(usize),
    /// How bad a sign is.
    SignSeverity(usize, Severity),
    /// A straight leg at the end of the run.
    AddStraight,
    /// A curved leg at the end of the run.
    AddCurve,
    /// Take a leg away.
    RemoveLeg(usize),
    /// To which side a leg turns.
    Hand(usize, Hand),
    /// Whether the far end meets something fixed.
    FarEndFixed(bool),
    /// How the grade line gets from one end to the other.
    Shape(ShapeKind),
    /// One riser more or less.
    Risers(u32),
    /// Write down what an offer asks for.
    Take(Taking),
    /// A reading of the old surface.
    AddShot(ShotBy),
    /// Take a reading away.
    RemoveShot(usize),
    /// A backsight on the sill: a new set-up of the level book.
    BookStart,
    /// An intermediate sight.
    BookSight,
    /// A foresight and a backsight on a new turning point.
    BookTurn,
    /// A foresight on the sill.
    BookClose,
    /// What the rod stands on at a sight.
    BookStands(usize, Stands),
    /// Take a line of the level book out.
    RemoveBookLine(usize),
    /// Whether the misclosure is spread over the set-ups.
    BookSpread(bool),
    /// A pit.
    AddPit,
    /// Take a pit away.
    RemovePit(usize),
    /// A layer under the others of a pit.
    AddLayer(usize),
    /// Take a layer away: pit, layer.
    RemoveLayer(usize, usize),
    /// How a pit ended.
    PitEnded(usize, PitEnd),
    /// Firmness of a layer: pit, layer.
    Firmness(usize, usize, Option<Firmness>),
    /// Moisture of a layer: pit, layer.
    Moisture(usize, usize, Option<Moisture>),
    /// How far a ribbon of the soil reaches.
    Ribbon(Option<Ribbon>),
    /// How the soil feels, very wet.
    Grit(Option<Grit>),
    /// Whether the soil lies in thin bands.
    Varved(bool),
    /// A row at the end of a pit's penetrometer.
    AddPenetrometerRow(usize),
    /// Take a row of a penetrometer away: pit, row.
    RemovePenetrometerRow(usize, usize),
    /// The weight that drove a pit's penetrometer.
    Hammer(usize, Hammer),
    /// Into what a pit's penetrometer was driven.
    DrivenInto(usize, DrivenInto),
    /// Whether a fabric lies on the undisturbed ground.
    Fabric(bool),
    /// What compacts the base.
    Plant(Plant),
    /// How the edge brick stands.
    EdgeStands(EdgeStands),
    /// What holds the edge.
    Restraint(RestraintKind),
    /// The pattern of the field.
    Bond(Bond),
    /// Bond and the way of its courses, in one step.
    TakeBond(Bond, CourseWay),
    /// Which way courses run.
    Courses(CourseWay),
    /// The side of the first course.
    StartSide(StartSide),
    /// Whether a row of edge brick lies across at the door.
    ReturnAtDoor(bool),
    /// Whether a row of edge brick lies across at the far end.
    ReturnAtEnd(bool),
    /// A place that the brick leaves free.
    AddOpening,
    /// Take an opening away.
    RemoveOpening(usize),
    /// A brick to measure, of the second size or not.
    AddSampleBrick(bool),
    /// Take a measured brick away.
    RemoveSampleBrick(usize),
    /// Whether there is a second size of brick.
    SecondBrick(bool),
    /// Whether the edge is of the second size.
    EdgeOfSecond(bool),
    /// The way of rebuilding that is ordered.
    OrderWay(Way),
    /// Who sells an item; `None` for the first of the price list.
    Supplier(Item, Option<String>),
    /// Lock a line at so many units of sale, or give it free.
    Lock(Item, Option<Decimal>),
    /// A set-up of the instrument: its rod on the sill is asked next.
    AddSetUp,
    /// A reading of what is built; who and when is written with it.
    AddCheck {
        /// What it stands on.
        surface: Surface,
        /// Where along the run; without it that is asked next.
        station: Option<Length>,
        /// Where across, right positive.
        offset: Length,
        /// By rod in the last set-up, else by tape from the string.
        by_rod: bool,
    },
    /// Take a reading of what is built away.
    RemoveCheck(usize),
    /// The person was asked about a reading and says that it is right.
    ConfirmCheck(usize),
    /// Whether a reading is by rod in the last set-up, or by tape from the string.
    CheckByRod(usize, bool),
    /// A check at a spot that is no level.
    AddSpot(SpotKind),
    /// Take a check at a spot away.
    RemoveSpot(usize),
    /// Close a stage.
    CloseStage(HoldStage),
    /// Open a stage again.
    ReopenStage(HoldStage),
    /// A day of the log: today.
    AddDay,
    /// Take a day away.
    RemoveDay(usize),
    /// Something that came on a day; what it is, is asked next.
    AddDelivery(usize),
    /// Take a delivery away: day, delivery.
    RemoveDelivery(usize, usize),
    /// Name pictures that lie in the folder; who and when is written with them.
    AddPictures {
        /// Names of their files.
        files: Vec<String>,
        /// What they belong to.
        of: PictureOf,
    },
    /// Take a picture away; its file stays.
    RemovePicture(usize),
    /// What a picture belongs to.
    PictureOf(usize, PictureOf),
    /// Name a picture again that was taken away.
    BringPictureBack(String),
    /// Agree on clauses with a signature by finger; who and when is written with it.
    Agree {
        /// What is agreed, word for word.
        clauses: Vec<Clause>,
        /// Who signs, in letters.
        name: String,
        /// Strokes, in thousandths of the field's width.
        strokes: Vec<Vec<(i32, i32)>>,
    },
    /// Write down a width that whole courses give, with its joint and its edge brick.
    TakeWidth {
        /// Clear width between the edge bricks.
        clear: Length,
        /// Every joint.
        joint: Length,
        /// How the edge brick stands.
        stands: EdgeStands,
    },
}

/// What holds the edge, without its measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RestraintKind {
    /// Concrete haunch.
    Haunch,
    /// Spiked edging strip.
    Spiked,
    /// Nothing.
    Nothing,
}

/// How the grade line gets from one end to the other, without its measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShapeKind {
    /// One fall.
    Uniform,
    /// Steps.
    Steps,
    /// Two falls.
    Break,
    /// A ramp.
    Ramp,
}
