//! The walk from above, to scale: every piece, cuts by hatch and letter, courses numbered where laying starts, dimensions, stations,
//! north. What is drawn grows with the scale: a band, then pieces, then their names, then the widths of the joints.

mod band;
mod bricks;
mod corners;
mod door;
mod fall;
mod handles;
mod joints;
mod pointed_out;
mod radii;
mod room;
mod said;
mod sizes;
mod stations;
mod strokes;
#[cfg(test)]
mod tests;
mod view;

pub use band::measured_on;
pub use handles::{Handle, handles};
pub use said::piece_said;
pub use view::PlanView;

use crate::clearance::LabelBox;
use crate::cross_section::missing;
use crate::draft::{Draft, HAIRLINE, OUTLINE, Sizes, solid};
use crate::item::{Drawing, Point, Sheet};
use crate::palette::Ink;
use band::Band;
use room::{Dots, Room};
use underbrick_calc::Results;
use underbrick_calc::lay::{Lay, LayNote, LayWishes, Measured, Pieces, PlanPoint};
use underbrick_calc::line::{GradePiece, Line, Run};
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::{Hand, Opening, Site};

/// What a plan is drawn from.
#[derive(Clone, Copy)]
pub struct PlanInput<'a> {
    /// Bond, edge, openings, bearing, and how lengths are shown.
    pub site: &'a Site,
    /// The centreline with its widths.
    pub run: &'a Run,
    /// Every piece as laid; empty where nothing could be laid.
    pub pieces: &'a Pieces,
    /// Letter of a piece in the cut list, by its index.
    pub letter: &'a dyn Fn(usize) -> Option<String>,
    /// Fall along the run, where it is known.
    pub fall: Option<Fall>,
    /// Fall across, positive down to the right, where it is known.
    pub cross_fall: Option<Fall>,
    /// Stretches of one fall each; empty where the walk has one fall.
    pub grade_pieces: &'a [GradePiece],
    /// The narrowest joint.
    pub narrowest_joint: Option<Measured>,
    /// The widest joint.
    pub widest_joint: Option<Measured>,
    /// The least lap.
    pub least_lap: Option<Measured>,
    /// What could not be laid as asked.
    pub notes: &'a [LayNote],
}

impl<'a> PlanInput<'a> {
    /// What follows from a site; `letter` gives the cut list's letter of a piece by its index.
    #[must_use]
    pub fn of(
        site: &'a Site,
        line: &'a Line,
        lay: &'a Lay,
        letter: &'a dyn Fn(usize) -> Option<String>,
    ) -> Self {
        Self {
            site,
            run: &line.run,
            pieces: &lay.pieces,
            letter,
            fall: Some(line.grade.fall),
            cross_fall: Some(line.grade.cross_fall),
            grade_pieces: line.grade.pieces(),
            narrowest_joint: lay.narrowest_joint,
            widest_joint: lay.widest_joint,
            least_lap: lay.least_lap,
            notes: &lay.notes,
        }
    }
}

/// What stands in the place of a plan of which nothing is known: what is missing, in words.
#[must_use]
pub fn plan_not_known(site: &Site, results: &Results, sheet: Sheet) -> Drawing {
    let missing = missing::what_is_missing(site, results);
    missing::statement("Plan not known yet", &missing, &[], sheet.usable())
}

/// How much is drawn, by the scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Detail {
    /// The walk as a band.
    Band,
    /// Every piece with its outline and its hatch.
    Pieces,
    /// Letters, courses and numbers on the pieces.
    Names,
    /// Widths of joints and laps.
    Joints,
}

impl Detail {
    /// By how wide a brick and a joint are drawn, in dots.
    fn of(site: &Site, view: PlanView, sheet: Sheet) -> Self {
        let wishes = LayWishes::of(site);
        let dots = |length| in_metres(length) * view.dots_per_metre;
        let figure = Sizes::on(sheet).tick;
        if dots(wishes.brick_width) < 2.5 {
            Self::Band
        } else if dots(wishes.brick_width) < figure * 1.3 {
            Self::Pieces
        } else if dots(wishes.joint) < 5.0 {
            Self::Names
        } else {
            Self::Joints
        }
    }
}

/// A plan in the making.
pub(crate) struct Plan<'a> {
    pub input: &'a PlanInput<'a>,
    pub wishes: LayWishes,
    pub view: PlanView,
    pub sheet: Sheet,
    pub sizes: Sizes,
    pub detail: Detail,
    pub band: Band<'a>,
    /// The stations between which pieces are drawn, in metres.
    pub stations_m: (f64, f64),
}

impl Plan<'_> {
    /// A spot on the sheet.
    pub fn dots(&self, spot: PlanPoint) -> Dots {
        self.view.on_sheet(self.sheet, spot)
    }

    /// A spot square to the run on the sheet, so many dots further out than an offset.
    pub fn beside(&self, station_m: f64, offset_m: f64, out_dots: f64) -> Dots {
        let further = out_dots / self.view.dots_per_metre;
        let offset_m = offset_m + further * if offset_m < 0.0 { -1.0 } else { 1.0 };
        self.dots(self.band.spot(station_m, offset_m))
    }

    /// The way off the walk at a station, to the right or to the left of it.
    pub fn way_off(&self, station_m: f64, side: f64) -> Dots {
        let centre = self.dots(self.band.spot(station_m, 0.0));
        room::direction(centre, self.dots(self.band.spot(station_m, side)))
    }

    /// Corners of an outline as points of the drawing.
    pub fn points(&self, outline: &[PlanPoint]) -> Vec<Point> {
        outline.iter().map(|spot| self.view.point(*spot)).collect()
    }
}

/// Draws what `view` shows of the walk that was laid, with the letters of its cut list.
#[must_use]
pub fn plan_as_laid(site: &Site, line: &Line, lay: &Lay, view: PlanView, sheet: Sheet) -> Drawing {
    let letter = |piece_idx: usize| lay.cuts.line(piece_idx).map(|line| line.letter.clone());
    plan(&PlanInput::of(site, line, lay, &letter), view, sheet)
}

/// A part of the walk that goes on on other sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanPart {
    /// Its first station.
    pub from: Length,
    /// Its last station.
    pub to: Length,
    /// How much of the walk is drawn beyond both.
    pub over: Length,
    /// How far beside the walk a line stands out where it goes on, in dots: nothing else is written there.
    pub out_dots: f64,
}

/// The same of a part of the walk. The brick beyond it is left out, and what is written keeps off the lines at which it goes on.
#[must_use]
pub fn plan_part_as_laid(
    site: &Site,
    line: &Line,
    lay: &Lay,
    view: PlanView,
    sheet: Sheet,
    part: PlanPart,
) -> Drawing {
    let letter = |piece_idx: usize| lay.cuts.line(piece_idx).map(|line| line.letter.clone());
    let input = PlanInput::of(site, line, lay, &letter);
    drawn(&input, view, sheet, Some(part))
}

/// Draws what `view` shows of the plan on a sheet. Marks that lie wholly outside the sheet are left out; labels stand only where
/// there is room.
#[must_use]
pub fn plan(input: &PlanInput<'_>, view: PlanView, sheet: Sheet) -> Drawing {
    drawn(input, view, sheet, None)
}

fn drawn(input: &PlanInput<'_>, view: PlanView, sheet: Sheet, part: Option<PlanPart>) -> Drawing {
    let stations_m = part.map_or((f64::NEG_INFINITY, f64::INFINITY), |part| {
        (
            in_metres(part.from - part.over),
            in_metres(part.to + part.over),
        )
    });
    let (sheet, view) = (sheet.usable(), view.usable());
    let plan = Plan {
        input,
        wishes: LayWishes::of(input.site),
        view,
        sheet,
        sizes: Sizes::on(sheet),
        detail: Detail::of(input.site, view, sheet),
        band: Band::seen(input.site, input.run, view, sheet).between(stations_m),
        stations_m,
    };
    let mut draft = view.board(sheet);
    let outlines = plan.band.stretches.iter().map(|stretch| {
        let outline = plan.band.outline(stretch, plan.band.edge_m);
        outline.iter().map(|spot| plan.dots(*spot)).collect()
    });
    let mut room = Room::on(sheet, outlines.collect());
    if let Some(part) = part {
        keep_match_lines_free(&plan, &mut room, part);
    }
    ground(&mut draft, &plan);
    let seen = bricks::draw(&mut draft, &plan);
    let corners = corners::lay_out(&plan, &mut room, &seen);
    openings(&mut draft, &plan, &mut room);
    door::wall(&mut draft, &plan, &mut room);
    handles::keep_clear(&plan, &mut room);
    door::chalk_line(&mut draft, &plan, &mut room);
    sizes::lines(&mut draft, &plan, &mut room);
    stations::ticks(&mut draft, &plan, &mut room);
    door::start(&mut draft, &plan, &mut room);
    sizes::labels(&mut draft, &plan, &mut room);
    pointed_out::draw(&mut draft, &plan, &mut room);
    door::course_numbers(&mut draft, &plan, &mut room, &seen);
    stations::figures(&mut draft, &plan, &mut room);
    fall::arrows(&mut draft, &plan, &mut room);
    joints::draw(&mut draft, &plan, &mut room, &seen);
    bricks::names(&mut draft, &plan, &mut room, &seen);
    handles::draw(&mut draft, &plan);
    corners::draw(&mut draft, &plan, &corners);
    draft.finish(&said::words(input))
}

/// Half the room that is kept for the letter of a match line, in dots.
const LETTER_ROOM: f64 = 14.0;

/// Keeps what is written off the lines at which a part goes on; the door and the far end are none.
fn keep_match_lines_free(plan: &Plan<'_>, room: &mut Room, part: PlanPart) {
    for station_m in [in_metres(part.from), in_metres(part.to)] {
        if station_m > 0.0 && station_m < plan.band.length_m {
            let over_m = plan.band.over_m(station_m);
            let end = |side: f64| plan.beside(station_m, side * over_m, part.out_dots);
            room.keep_off(&[end(-1.0), end(1.0)]);
            // Room for the letter, on the side that carries no dimensions.
            let side = match measured_on(plan.input.run, metres(station_m)) {
                Hand::Left => 1.0,
                Hand::Right => -1.0,
            };
            let (x, y) = plan.beside(station_m, side * over_m, part.out_dots + LETTER_ROOM);
            room.take(LabelBox {
                left: x - LETTER_ROOM,
                top: y - LETTER_ROOM,
                right: x + LETTER_ROOM,
                bottom: y + LETTER_ROOM,
            });
        }
    }
}

/// Jointing sand between the edges; a band of brick where single pieces are too small to be seen.
fn ground(draft: &mut Draft, plan: &Plan<'_>) {
    let is_laid = !plan.input.pieces.all().is_empty();
    for stretch in &plan.band.stretches {
        let over = plan.points(&plan.band.outline(stretch, plan.band.edge_m));
        let clear = plan.points(&plan.band.outline(stretch, 0.0));
        let line = solid(Ink::Ink, HAIRLINE);
        if plan.detail == Detail::Band && is_laid {
            draft.area(
                over,
                Ink::Clay,
                Some(solid(Ink::Ink, OUTLINE)),
                Some(Place::Width),
            );
            draft.area(
                clear,
                Ink::Clay,
                Some(solid(Ink::ClayMark, HAIRLINE)),
                Some(Place::Width),
            );
        } else {
            draft.area(over, Ink::SettingBed, Some(line), Some(Place::Joint));
            if !is_laid {
                draft.area(clear, Ink::SettingBed, Some(line), Some(Place::Width));
            }
        }
    }
}

/// Places that the brick leaves free: empty, crossed by their diagonals.
fn openings(draft: &mut Draft, plan: &Plan<'_>, room: &mut Room) {
    for opening in &plan.input.site.lay.openings {
        let Some(corners) = opening_corners(plan, opening) else {
            continue;
        };
        let outline = plan.points(&corners);
        draft.area(outline, Ink::Paper, Some(solid(Ink::Ink, OUTLINE)), None);
        let [a, b, c, d] = corners.map(|corner| plan.dots(corner));
        for diagonal in [[a, c], [b, d]] {
            room.line(draft, &diagonal, solid(Ink::Ink, HAIRLINE), None);
        }
    }
}

/// Corners of an opening, square to the run at its middle; `None` where it is not known or not seen.
fn opening_corners(plan: &Plan<'_>, opening: &Opening) -> Option<[PlanPoint; 4]> {
    let (station_m, offset_m) = (
        in_metres(opening.station?),
        in_metres(opening.offset.unwrap_or_default()),
    );
    let (along_m, across_m) = (
        in_metres(opening.along?) / 2.0,
        in_metres(opening.across?) / 2.0,
    );
    let middle = plan.band.spot(station_m, offset_m);
    let beside = plan.band.spot(station_m, offset_m + 1.0);
    // Square to the run to the right; the way on is a quarter turn to its left.
    let (right_x, right_y) = (
        beside.right_m - middle.right_m,
        beside.away_m - middle.away_m,
    );
    let corner = |on: f64, right: f64| PlanPoint {
        right_m: middle.right_m + right * across_m * right_x - on * along_m * right_y,
        away_m: middle.away_m + right * across_m * right_y + on * along_m * right_x,
    };
    let corners = [
        corner(-1.0, -1.0),
        corner(-1.0, 1.0),
        corner(1.0, 1.0),
        corner(1.0, -1.0),
    ];
    let seen = view::Bounds::seen(plan.view, plan.sheet, 2.0);
    seen.meets(view::Bounds::NOTHING.with(&corners))
        .then_some(corners)
}
