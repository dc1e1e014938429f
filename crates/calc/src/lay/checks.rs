//! What someone should look at in a layout.

use super::fine::fine;
use super::laid::{LayNote, Measured};
use super::layout::{Lay, MOST_PIECES};
use super::openings::OpeningFault;
use super::pieces::Part;
use super::radius::LeastRadii;
use crate::findings::{Findings, Source, Weight};
use crate::line::Run;
use crate::place::Place;
use crate::quantity::{Length, inches, metres};
use crate::site::{ShownIn, Site};

const JOINTS: Source = Source::Published(
    "Brick Industry Association, Technical Note 14A: joints from 1/16 to 3/16 in, unless other limits were given",
);

/// Notes what could not be laid as asked, and what was kept.
pub(super) fn check(site: &Site, run: &Run, lay: &Lay, findings: &mut Findings) {
    let shown = site.shown_in;
    for note in &lay.notes {
        one(note, shown, run, lay, findings);
    }
    merged(lay, shown, findings);
    small_pieces(lay, shown, findings);
    worst_lap(lay, shown, findings);
    worst_joint(lay, shown, findings);
    widest_edge_joint(lay, shown, findings);
    let all_kept = !lay.notes.iter().any(|note| {
        matches!(
            note,
            LayNote::TooMany { .. }
                | LayNote::WiderThanTheWalk
                | LayNote::LapNotKept(_)
                | LayNote::JointNotKept(_)
                | LayNote::EdgeJointNotKept(_)
        )
    });
    if all_kept && !lay.pieces.all().is_empty() {
        kept(lay, shown, findings);
    }
}

fn one(note: &LayNote, shown: ShownIn, run: &Run, lay: &Lay, findings: &mut Findings) {
    match note {
        LayNote::TooMany { about } => findings.note(
            Place::BrickLength,
            Weight::Warning,
            Source::Readings,
            format!(
                "About {about:.0} pieces: more than the {MOST_PIECES:.0} that are laid out one by one."
            ),
            "Look at the size of the brick, the width and the run once more.",
        ),
        LayNote::Ripped { to, n_courses } => findings.note(
            Place::Width,
            Weight::Warning,
            JOINTS,
            format!(
                "No number of whole courses fills the clear width with joints from {} to {}: {} cut along the length to {}.",
                shown.thickness(lay.wishes.least_joint),
                shown.thickness(lay.wishes.widest_joint),
                if *n_courses == 1 {
                    "one course is".to_owned()
                } else {
                    format!("{n_courses} courses are")
                },
                shown.thickness(*to),
            ),
            "Take a width that whole brick fits.",
        ),
        LayNote::HalvesOnCurve {
            leg_idx,
            least_radius,
        } => curve((run, lay), *leg_idx, *least_radius, ("whole brick", "halves"), shown, findings),
        LayNote::TaperedOnCurve {
            leg_idx,
            least_radius,
        } => curve(
            (run, lay),
            *leg_idx,
            *least_radius,
            ("halves", "pieces cut to a taper"),
            shown,
            findings,
        ),
        LayNote::Leans(lean) => findings.note(
            Place::BrickLength,
            Weight::Warning,
            Source::Readings,
            format!(
                "Herringbone of this brick does not stand square within the joint limits: each pair of rows leans by {}.",
                shown.thickness(*lean)
            ),
            "Take a brick whose length is twice its width and a joint, or allow wider joints.",
        ),
        // That no brick fits is named with what is asked.
        LayNote::WiderThanTheWalk
        | LayNote::PieceMerged { .. }
        | LayNote::LapNotKept(_)
        | LayNote::JointNotKept(_)
        | LayNote::EdgeJointNotKept(_)
        | LayNote::PieceJoined { .. }
        | LayNote::JointMoved(_)
        | LayNote::LeftToTheJoint(_)
        | LayNote::SmallPieceKept(_) => {}
    }
}

fn curve(
    (run, lay): (&Run, &Lay),
    leg_idx: usize,
    least_radius: Length,
    (asked, laid): (&str, &str),
    shown: ShownIn,
    findings: &mut Findings,
) {
    let reason = if least_radius.is_finite() {
        format!(
            "{asked} would need {} or more to the centreline to keep the joints",
            shown.length(least_radius)
        )
    } else {
        format!("the joints between courses leave no play for {asked}")
    };
    findings.note(
        Place::LegRadius(leg_idx),
        Weight::Note,
        Source::Readings,
        format!("The curve is tight for this brick: {reason}, so {laid} are laid there."),
        match whole_brick_width(run, lay, leg_idx) {
            Some((clear, joint)) => format!(
                "With a clear width of {}, joints of {} between courses, whole brick lies on this curve.",
                shown.thickness(clear),
                shown.thickness(joint)
            ),
            None => "A larger radius lets larger pieces lie.".to_owned(),
        },
    );
}

/// The clear width next to this one, and the joint between as many courses, with which whole brick keeps its joints on that curve; `None`
/// where there is none within the limits.
fn whole_brick_width(run: &Run, lay: &Lay, leg_idx: usize) -> Option<(Length, Length)> {
    let wishes = &lay.wishes;
    let courses = lay
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.part == Part::Field);
    let n_courses = f64::from(courses.map(|piece| piece.course).max()?);
    let radius = metres(1.0 / run.legs().get(leg_idx)?.curvature_per_m.abs());
    let step = inches(1.0 / 64.0);
    let mut joint = wishes.least_joint;
    while joint <= wishes.widest_joint {
        let clear = wishes.brick_width * n_courses + joint * (n_courses + 1.0);
        if LeastRadii::of(wishes, clear, joint).whole <= radius {
            return Some((clear, joint));
        }
        joint += step;
    }
    None
}

fn merged(lay: &Lay, shown: ShownIn, findings: &mut Findings) {
    let n_merged = lay
        .notes
        .iter()
        .filter(|note| matches!(note, LayNote::PieceMerged { .. }))
        .count();
    if n_merged == 0 {
        return;
    }
    let pieces = if n_merged == 1 {
        "One closing piece".to_owned()
    } else {
        format!("{n_merged} closing pieces")
    };
    findings.note(
        Place::LeastPiece,
        Weight::Note,
        Source::CommonPractice,
        format!(
            "{pieces} would have been shorter than {}: the last two of the course share instead.",
            shown.thickness(lay.wishes.least_piece)
        ),
        "",
    );
}

/// What was done about pieces that the edges or an opening would have left too small.
fn small_pieces(lay: &Lay, shown: ShownIn, findings: &mut Findings) {
    let count = |is: &dyn Fn(&LayNote) -> bool| lay.notes.iter().filter(|note| is(note)).count();
    let done = [
        (
            count(&|note| matches!(note, LayNote::PieceJoined { .. })),
            "made one with the piece beside it",
        ),
        (
            count(&|note| matches!(note, LayNote::JointMoved(_))),
            "made larger, and the piece beside it smaller",
        ),
        (
            count(&|note| matches!(note, LayNote::LeftToTheJoint(_))),
            "left to the joint",
        ),
    ];
    let said: Vec<String> = done
        .iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, what)| format!("{n} {what}"))
        .collect();
    if !said.is_empty() {
        findings.note(
            Place::LeastPiece,
            Weight::Note,
            Source::CommonPractice,
            format!(
                "Pieces smaller than {} along the brick, or the same share across it: {}.",
                shown.thickness(lay.wishes.least_piece),
                said.join(", ")
            ),
            "",
        );
    }
    let kept = lay.notes.iter().filter_map(|note| match note {
        LayNote::SmallPieceKept(piece) => Some(*piece),
        _ => None,
    });
    if let Some((n_kept, worst)) = worst(kept, |a, b| a.length < b.length) {
        findings.note(
            Place::LeastPiece,
            Weight::Warning,
            Source::CommonPractice,
            format!(
                "{n_kept} {} smaller than the least: down to {} at {}.",
                if n_kept == 1 {
                    "piece stays"
                } else {
                    "pieces stay"
                },
                shown.thickness(worst.length),
                shown.along(worst.station),
            ),
            "Another width, or another place for the opening.",
        );
    }
}

fn worst_lap(lay: &Lay, shown: ShownIn, findings: &mut Findings) {
    let laps = lay.notes.iter().filter_map(|note| match note {
        LayNote::LapNotKept(lap) => Some(*lap),
        _ => None,
    });
    let Some((n_laps, worst)) = worst(laps, |a, b| a.length < b.length) else {
        return;
    };
    findings.note(
        Place::LeastLap,
        Weight::Warning,
        Source::CommonPractice,
        format!(
            "The lap falls below {} at {n_laps} {}: down to {} in course {} at {}.",
            shown.thickness(lay.wishes.least_lap),
            if n_laps == 1 { "place" } else { "places" },
            shown.thickness(worst.length),
            worst.course,
            shown.along(worst.station),
        ),
        "Allow shorter pieces, or a smaller least lap.",
    );
}

fn worst_joint(lay: &Lay, shown: ShownIn, findings: &mut Findings) {
    let joints = lay.notes.iter().filter_map(|note| match note {
        LayNote::JointNotKept(joint) => Some(*joint),
        _ => None,
    });
    let middle = (lay.wishes.least_joint + lay.wishes.widest_joint) / 2.0;
    let off = |joint: Measured| (joint.length - middle).abs();
    let Some((n_joints, worst)) = worst(joints, |a, b| off(*a) > off(*b)) else {
        return;
    };
    findings.note(
        Place::Joint,
        Weight::Warning,
        JOINTS,
        format!(
            "{n_joints} {} outside {} to {}: {} in course {} at {}.",
            if n_joints == 1 {
                "joint is"
            } else {
                "joints are"
            },
            shown.thickness(lay.wishes.least_joint),
            shown.thickness(lay.wishes.widest_joint),
            fine(worst.length, shown),
            worst.course,
            shown.along(worst.station),
        ),
        "Take a larger radius, another bond, or a brick that fits it.",
    );
}

fn widest_edge_joint(lay: &Lay, shown: ShownIn, findings: &mut Findings) {
    let joints = lay.notes.iter().filter_map(|note| match note {
        LayNote::EdgeJointNotKept(joint) => Some(*joint),
        _ => None,
    });
    let Some((_, widest)) = worst(joints, |a, b| a.length > b.length) else {
        return;
    };
    findings.note(
        Place::EdgeStands,
        Weight::Warning,
        JOINTS,
        format!(
            "The widest joint of the edge is {} at {}: more than {}.",
            fine(widest.length, shown),
            shown.along(widest.station),
            shown.thickness(lay.wishes.widest_joint),
        ),
        "Turn the narrow side of the brick along, or cut it to a taper.",
    );
}

/// How many there are, and the one that comes before all others.
fn worst(
    all: impl Iterator<Item = Measured>,
    comes_before: impl Fn(&Measured, &Measured) -> bool,
) -> Option<(usize, Measured)> {
    all.fold(None, |so_far, next| match so_far {
        None => Some((1, next)),
        Some((n, worst)) => Some((
            n + 1,
            if comes_before(&next, &worst) {
                next
            } else {
                worst
            },
        )),
    })
}

fn kept(lay: &Lay, shown: ShownIn, findings: &mut Findings) {
    if let (Some(narrowest), Some(widest)) = (lay.narrowest_joint, lay.widest_joint) {
        findings.note(
            Place::Joint,
            Weight::Right,
            JOINTS,
            format!(
                "Joints lie from {} to {}.",
                shown.thickness(narrowest.length),
                shown.thickness(widest.length)
            ),
            "",
        );
    }
    if let Some(lap) = lay.least_lap {
        findings.note(
            Place::LeastLap,
            Weight::Right,
            Source::CommonPractice,
            format!(
                "The least lap is {}, in course {} at {}.",
                shown.thickness(lap.length),
                lap.course,
                shown.along(lap.station)
            ),
            "",
        );
    }
}

/// Notes openings that cannot be as written down; what is missing of them or lies outside the walk is named with what is asked.
pub(super) fn openings(faults: &[(usize, OpeningFault)], findings: &mut Findings) {
    for (opening_idx, fault) in faults {
        let nth = opening_idx + 1;
        let text = match fault {
            OpeningFault::NotKnown | OpeningFault::OutsideTheWalk | OpeningFault::OverAnEdge => {
                continue;
            }
            OpeningFault::WiderThanTheWalk => {
                format!("Opening {nth} is as wide as the walk and cuts it in two.")
            }
            OpeningFault::Overlaps(other) => {
                format!("Opening {nth} overlaps opening {}.", other + 1)
            }
        };
        findings.note(
            Place::Opening(*opening_idx),
            Weight::Warning,
            Source::Readings,
            text,
            "Look at its place and its size once more.",
        );
    }
}
