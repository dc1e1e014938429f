//! How the brick is laid: pieces, joints, laps, the cut list, the laying order.

use crate::columns::{columns, paragraph};
use crate::figure::Measure;
use crate::results::ResultsSheet;
use crate::wording::{Wording, counted};
use serde::Serialize;
use underbrick_calc::lay::{Course, CutLine, CutList, Lay, Laying, Measured, Part};
use underbrick_calc::site::{CourseWay, Hand, Site};

/// Every brick in figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LayingSheet {
    /// The pattern.
    pub bond: &'static str,
    /// `along the run` or `from side to side`; `None` in a bond without courses.
    pub courses: Option<&'static str>,
    /// Side where laying starts.
    pub starts: &'static str,
    /// Pieces between the edges.
    pub field_pieces: Measure,
    /// Pieces of the edges and of the rows across.
    pub edge_pieces: Measure,
    /// Whole bricks as laid.
    pub whole: Measure,
    /// Pieces that are cut.
    pub cut: Measure,
    /// Bricks for everything, offcuts used again.
    pub bricks: Measure,
    /// No way of cutting needs fewer.
    pub bricks_at_least: Measure,
    /// Narrowest joint of the field.
    pub narrowest_joint: Option<SpotRow>,
    /// Widest joint of the field.
    pub widest_joint: Option<SpotRow>,
    /// Least lap; `None` in a bond without laps.
    pub least_lap: Option<SpotRow>,
    /// Least radius of the centreline for whole brick; not known where the joints leave no play.
    pub least_radius_whole: Measure,
    /// The same for halves.
    pub least_radius_halves: Measure,
    /// Area between the edges.
    pub clear_area: Measure,
    /// Joints of field and edges, as seen from above.
    pub joint_area: Measure,
    /// The cut list.
    pub cuts: Vec<CutRow>,
    /// The laying order, course by course; empty in a bond without courses.
    pub order: Vec<CourseRow>,
}

/// A joint or a lap, and where it is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpotRow {
    /// How much.
    pub size: Measure,
    /// In which course.
    pub course: u32,
    /// At which station.
    pub station: Measure,
}

/// Pieces that are cut alike.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutRow {
    /// The letter on the plan.
    pub letter: String,
    /// How many.
    pub pieces: Measure,
    /// How it is cut.
    pub kind: &'static str,
    /// `field` or `edge`.
    pub part: &'static str,
    /// Along the brick.
    pub length: Measure,
    /// Across it.
    pub width: Measure,
    /// Its sides in order; empty where the cuts are square.
    pub sides: Vec<Measure>,
}

/// One course as it is laid.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CourseRow {
    /// Field or edge.
    pub part: &'static str,
    /// Its number from the side where laying starts.
    pub number: u32,
    /// Pieces in it.
    pub pieces: Measure,
    /// What is laid, one after another.
    pub layings: Vec<LayingRow>,
}

/// Some pieces of one kind, one after another.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LayingRow {
    /// How many.
    pub pieces: u32,
    /// Whole, or how it is cut.
    pub kind: &'static str,
    /// Letter of the cut list; `None` for whole brick.
    pub letter: Option<String>,
    /// Number of the first of them in the course.
    pub first: u32,
    /// Station of the first one's middle.
    pub station: Measure,
}

pub(crate) fn laying(site: &Site, lay: &Lay, say: Wording) -> LayingSheet {
    let wishes = &lay.wishes;
    let follows = wishes.bond.follows();
    let spot = |measured: Option<Measured>| measured.map(|measured| spot_row(measured, say));
    let radius = |radius: underbrick_calc::quantity::Length| {
        say.station(radius.is_finite().then_some(radius))
    };
    LayingSheet {
        bond: wishes.bond.name(),
        courses: follows.then_some(match wishes.courses {
            CourseWay::Along => "along the run",
            CourseWay::Across => "from side to side",
        }),
        starts: match site.lay.start_side.hand() {
            Hand::Left => "left edge, looking away from the door",
            Hand::Right => "right edge, looking away from the door",
        },
        field_pieces: counted(Some(lay.n_field())),
        edge_pieces: counted(Some(lay.n_edge())),
        whole: counted(Some(lay.n_whole())),
        cut: Measure::count(Some(lay.cuts.n_cut())),
        bricks: Measure::count(Some(lay.cuts.n_bricks())),
        bricks_at_least: Measure::count(Some(lay.cuts.lower_bound())),
        narrowest_joint: spot(lay.narrowest_joint),
        widest_joint: spot(lay.widest_joint),
        least_lap: spot(lay.least_lap),
        least_radius_whole: radius(lay.least_radii.whole),
        least_radius_halves: radius(lay.least_radii.halves),
        clear_area: say.area(Some(lay.areas.clear)),
        joint_area: say.area(Some(lay.areas.joints + lay.areas.edge_joints)),
        cuts: lay
            .cuts
            .lines
            .iter()
            .map(|line| cut_row(line, say))
            .collect(),
        order: if follows {
            lay.courses
                .iter()
                .map(|course| course_row(course, &lay.cuts, say))
                .collect()
        } else {
            Vec::new()
        },
    }
}

fn spot_row(measured: Measured, say: Wording) -> SpotRow {
    SpotRow {
        size: say.length(Some(measured.length)),
        course: measured.course,
        station: say.station(Some(measured.station)),
    }
}

fn cut_row(line: &CutLine, say: Wording) -> CutRow {
    CutRow {
        letter: line.letter.clone(),
        pieces: Measure::count(Some(line.n_pieces)),
        kind: line.kind.name(),
        part: if line.of_edge { "edge" } else { "field" },
        length: say.length(Some(line.length)),
        width: say.length(Some(line.width)),
        sides: line
            .sides
            .iter()
            .map(|side| say.length(Some(*side)))
            .collect(),
    }
}

fn course_row(course: &Course, cuts: &CutList, say: Wording) -> CourseRow {
    CourseRow {
        part: part_name(course.part),
        number: course.number,
        pieces: Measure::count(Some(course.n_pieces)),
        layings: course
            .layings
            .iter()
            .map(|laying| laying_row(laying, cuts, say))
            .collect(),
    }
}

fn laying_row(laying: &Laying, cuts: &CutList, say: Wording) -> LayingRow {
    LayingRow {
        pieces: laying.n_pieces,
        kind: laying.kind.name(),
        letter: laying.line(cuts).map(|line| line.letter.clone()),
        first: laying.first_nth,
        station: say.station(Some(laying.station)),
    }
}

const fn part_name(part: Part) -> &'static str {
    match part {
        Part::Field => "course",
        Part::Edge(Hand::Left) => "left edge",
        Part::Edge(Hand::Right) => "right edge",
        Part::AtDoor => "row at the door",
        Part::AtFarEnd => "row at the far end",
    }
}

/// The same for people; nothing where nothing is laid.
pub(crate) fn to_text(sheet: &ResultsSheet) -> String {
    let Some(laying) = &sheet.laying else {
        return String::new();
    };
    let mut text = format!("\nTHE BRICK, PIECE BY PIECE\n{}", columns(&figures(laying)));
    if !laying.cuts.is_empty() {
        let rows: Vec<Vec<String>> = laying.cuts.iter().map(cut_words).collect();
        text.push_str(&format!("\nCUTS\n{}", columns(&rows)));
    }
    if !laying.order.is_empty() {
        text.push_str(&format!(
            "\nLAYING ORDER, FROM THE {}\n",
            laying.starts.to_uppercase()
        ));
        for course in &laying.order {
            text.push_str(&paragraph("  ", &course_words(course)));
        }
    }
    text
}

fn figures(laying: &LayingSheet) -> Vec<Vec<String>> {
    let row = |name: &str, shown: String| vec![name.to_owned(), shown];
    let spot = |name: &str, spot: &Option<SpotRow>| {
        spot.as_ref().map(|spot| {
            row(
                name,
                format!(
                    "{} (course {} at {})",
                    spot.size.shown, spot.course, spot.station.shown
                ),
            )
        })
    };
    let bond = match laying.courses {
        Some(way) => format!("{}, courses {way}", laying.bond),
        None => laying.bond.to_owned(),
    };
    let mut rows = vec![
        row("Bond", bond),
        row("Pieces of the field", laying.field_pieces.shown.clone()),
        row("Pieces of the edges", laying.edge_pieces.shown.clone()),
        row("Whole as laid", laying.whole.shown.clone()),
        row("Cut", laying.cut.shown.clone()),
        row(
            "Bricks for all of it",
            format!(
                "{}, offcuts used again; no way of cutting needs fewer than {}",
                laying.bricks.shown, laying.bricks_at_least.shown
            ),
        ),
    ];
    rows.extend(spot("Narrowest joint", &laying.narrowest_joint));
    rows.extend(spot("Widest joint", &laying.widest_joint));
    rows.extend(spot("Least lap", &laying.least_lap));
    rows.push(row(
        "Least radius, whole brick",
        laying.least_radius_whole.shown.clone(),
    ));
    rows.push(row(
        "Least radius, halves",
        laying.least_radius_halves.shown.clone(),
    ));
    rows.push(row("Between the edges", laying.clear_area.shown.clone()));
    rows.push(row(
        "Joints, seen from above",
        laying.joint_area.shown.clone(),
    ));
    rows
}

fn cut_words(cut: &CutRow) -> Vec<String> {
    let size = if cut.sides.is_empty() {
        format!("{} × {}", cut.length.shown, cut.width.shown)
    } else {
        let sides: Vec<&str> = cut.sides.iter().map(|side| side.shown.as_str()).collect();
        format!("sides {}", sides.join(", "))
    };
    vec![
        cut.letter.clone(),
        cut.pieces.shown.clone(),
        format!("{}, {}", cut.kind, cut.part),
        size,
    ]
}

fn course_words(course: &CourseRow) -> String {
    let name = if course.part == "course" {
        format!("course {}", course.number)
    } else {
        course.part.to_owned()
    };
    let layings: Vec<String> = course.layings.iter().map(laying_words).collect();
    format!("{name}: {}", layings.join("; "))
}

fn laying_words(laying: &LayingRow) -> String {
    match &laying.letter {
        None => format!("{} whole", laying.pieces),
        Some(letter) if laying.pieces == 1 => {
            format!("{letter} ({}) at {}", laying.kind, laying.station.shown)
        }
        Some(letter) => format!(
            "{} × {letter} ({}) from {}",
            laying.pieces, laying.kind, laying.station.shown
        ),
    }
}
