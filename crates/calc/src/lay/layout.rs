//! The whole walk laid out: field, edges, cuts, and the order in which it all is laid.

use super::brick::BrickSize;
use super::course_table::{Course, course_table};
use super::coverage::{Salvage, coverage_per_m2, salvage};
use super::cut_to_fit::cut_to_fit;
use super::cuts::{CutFrom, CutList};
use super::laid::{Laid, LayNote, Measured};
use super::openings::{PlacedOpening, openings};
use super::pieces::{Kind, Part, Pieces};
use super::radius::LeastRadii;
use super::wishes::LayWishes;
use super::{across, along, edges, grid, needs_clipping};
use crate::findings::Findings;
use crate::line::Run;
use crate::quantity::{Area, in_metres, metres, square_metres};
use crate::site::{CourseWay, Hand, LayInput, ShownIn, Site};

/// Every brick of a walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Lay {
    /// What it was laid by.
    pub wishes: LayWishes,
    /// The field course by course, then the edges.
    pub pieces: Pieces,
    /// The narrowest joint of the field.
    pub narrowest_joint: Option<Measured>,
    /// The widest joint of the field.
    pub widest_joint: Option<Measured>,
    /// The widest joint of the edges.
    pub widest_edge_joint: Option<Measured>,
    /// The least distance between the joints of two courses that adjoin; `None` in a bond without laps.
    pub least_lap: Option<Measured>,
    /// What could not be laid as asked, and what was done about it.
    pub notes: Vec<LayNote>,
    /// Least radii of the centreline for this brick and joint, courses along the run.
    pub least_radii: LeastRadii,
    /// What is cut, and the bricks for everything.
    pub cuts: CutList,
    /// The laying order.
    pub courses: Vec<Course>,
    /// About how many bricks lie in the old walk: what whole brick and joints of this size give on its area.
    pub n_lifted: u32,
    /// Whole brick of the first size over or short; `None` where neither a count nor a loss is known.
    pub salvage: Option<Salvage>,
    /// Areas, as seen from above.
    pub areas: LayAreas,
    from: LaidFrom,
}

/// More pieces than these are not laid: forty times a long walk.
pub(super) const MOST_PIECES: f64 = 200_000.0;

/// Areas of a walk as seen from above.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayAreas {
    /// Between the edges, rows across and openings counted in.
    pub clear: Area,
    /// Pieces of the field and of the rows across.
    pub pieces: Area,
    /// Joints between those, and whatever else the brick leaves free.
    pub joints: Area,
    /// Both edges with their joints.
    pub edges: Area,
    /// Joints of both edges.
    pub edge_joints: Area,
}

/// All that a layout follows from: where it has not changed, the layout has not.
#[derive(Clone, Debug, PartialEq)]
struct LaidFrom {
    run: Run,
    wishes: LayWishes,
    input: LayInput,
    second: Option<BrickSize>,
    shown_in: ShownIn,
}

impl LaidFrom {
    fn of(site: &Site, run: &Run) -> Self {
        Self {
            run: run.clone(),
            wishes: LayWishes::of(site),
            input: site.lay.clone(),
            second: BrickSize::of_second(site),
            shown_in: site.shown_in,
        }
    }
}

/// Lays every brick of a walk, and notes what someone should look at. A layout from `before` is taken over where nothing that it follows
/// from has changed.
#[must_use]
pub fn lay(site: &Site, run: &Run, before: Option<Lay>, findings: &mut Findings) -> Lay {
    let from = LaidFrom::of(site, run);
    let (openings, faults) = openings(run, &site.lay.openings);
    let lay = match before {
        Some(before) if before.from == from => before,
        _ => laid_from(from, &openings),
    };
    super::checks::check(site, run, &lay, findings);
    super::checks::openings(&faults, findings);
    lay
}

fn laid_from(from: LaidFrom, openings: &[PlacedOpening]) -> Lay {
    let (run, wishes) = (&from.run, from.wishes);
    let (field, edges) = match too_many(run, &wishes) {
        Some(note) => (
            Laid {
                notes: vec![note],
                ..Laid::default()
            },
            Laid::default(),
        ),
        None => (field(run, &wishes, openings), edges(run, &wishes)),
    };
    let areas = LayAreas::of(run, &wishes, &field, &edges);
    let mut pieces = field.pieces;
    pieces.append(&edges.pieces);
    let cuts = cuts(&pieces, &from);
    let courses = course_table(&pieces, &cuts);
    let n_lifted = lifted(run, &wishes);
    let loss = from.input.loss.map(|loss| loss.number());
    let salvage = salvage(
        cuts.first.n_bricks(),
        Some(n_lifted),
        from.input.n_on_site,
        loss,
    );
    let mut notes = field.notes;
    notes.extend(edges.notes);
    Lay {
        wishes,
        narrowest_joint: field.narrowest_joint,
        widest_joint: field.widest_joint,
        widest_edge_joint: edges.widest_joint,
        least_lap: field.least_lap,
        notes,
        least_radii: LeastRadii::of(&wishes, run.clear_width_at(metres(0.0)), wishes.joint),
        cuts,
        courses,
        n_lifted,
        salvage,
        areas,
        pieces,
        from,
    }
}

pub(super) fn field(run: &Run, wishes: &LayWishes, openings: &[PlacedOpening]) -> Laid {
    if !wishes.bond.follows() {
        return grid(run, wishes, openings);
    }
    let mut laid = match wishes.courses {
        CourseWay::Along => along(run, wishes),
        CourseWay::Across => across(run, wishes),
    };
    cut_to_fit(
        &mut laid,
        run,
        wishes,
        needs_clipping(run, wishes.courses),
        openings,
    );
    laid
}

/// A slip of the finger must not fill the memory: a note where there would be more than [`MOST_PIECES`].
fn too_many(run: &Run, wishes: &LayWishes) -> Option<LayNote> {
    let field = clear_m2(run) / in_metres(wishes.brick_length) / in_metres(wishes.brick_width);
    let edge = 2.0 * in_metres(run.length()) / in_metres(wishes.edge_brick.along);
    let about = field + edge;
    let is_within = about <= MOST_PIECES;
    (!is_within).then_some(LayNote::TooMany { about })
}

/// A strip with the centreline in its middle has the area of its mean width times its length, on a curve too.
fn clear_m2(run: &Run) -> f64 {
    let legs = run.legs().iter();
    legs.map(|leg| in_metres(leg.length) * in_metres(leg.width_at_start + leg.width_at_end) / 2.0)
        .sum()
}

fn lifted(run: &Run, wishes: &LayWishes) -> u32 {
    let a_square_metre = coverage_per_m2(wishes.brick_length, wishes.brick_width, wishes.joint);
    let lifted = (clear_m2(run) * a_square_metre).floor().max(0.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a cast from a float saturates, and NaN becomes 0"
    )]
    let lifted = lifted as u32;
    lifted
}

fn cuts(pieces: &Pieces, from_what: &LaidFrom) -> CutList {
    let wishes = &from_what.wishes;
    let from = |length, width| CutFrom {
        length,
        width,
        kerf: wishes.kerf,
    };
    let second = from_what
        .second
        .filter(|_| from_what.input.edge_of_second)
        .map(|brick| from(brick.length, brick.width));
    CutList::of(
        pieces,
        from(wishes.brick_length, wishes.brick_width),
        second,
        from_what.shown_in,
    )
}

impl Lay {
    /// Pieces between the edges.
    #[must_use]
    pub fn n_field(&self) -> usize {
        self.count(|part| part == Part::Field)
    }

    /// Pieces of both edges and of the rows across.
    #[must_use]
    pub fn n_edge(&self) -> usize {
        self.count(|part| part != Part::Field)
    }

    /// Pieces of the edge on one side; `None` where nothing could be laid.
    #[must_use]
    pub fn n_on_edge(&self, hand: Hand) -> Option<usize> {
        let n = self.count(|part| part == Part::Edge(hand));
        (n > 0).then_some(n)
    }

    /// Whole bricks as laid.
    #[must_use]
    pub fn n_whole(&self) -> usize {
        let all = self.pieces.all();
        all.iter().filter(|piece| piece.kind == Kind::Whole).count()
    }

    fn count(&self, of: impl Fn(Part) -> bool) -> usize {
        self.pieces
            .all()
            .iter()
            .filter(|piece| of(piece.part))
            .count()
    }
}

impl LayAreas {
    fn of(run: &Run, wishes: &LayWishes, field: &Laid, edges: &Laid) -> Self {
        let clear_m2 = clear_m2(run);
        let across_m = in_metres(wishes.edge_brick.across);
        // Both edges together: the strip over the edges less the clear one.
        let edges_m2 = 2.0 * across_m * in_metres(run.length());
        let area_m2 = |laid: &Laid, of: &dyn Fn(Part) -> bool| -> f64 {
            let pieces = laid.pieces.all().iter();
            pieces
                .filter(|piece| of(piece.part))
                .map(|piece| laid.pieces.area(piece).value)
                .sum()
        };
        let in_edge = |part: Part| matches!(part, Part::Edge(_));
        let pieces_m2 = area_m2(field, &|_| true) + area_m2(edges, &|part| !in_edge(part));
        Self {
            clear: square_metres(clear_m2),
            pieces: square_metres(pieces_m2),
            joints: square_metres((clear_m2 - pieces_m2).max(0.0)),
            edges: square_metres(edges_m2),
            edge_joints: square_metres((edges_m2 - area_m2(edges, &in_edge)).max(0.0)),
        }
    }
}
