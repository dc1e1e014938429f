//! The plan in words, and one piece in words.

use super::PlanInput;
use crate::tongue;
use crate::wording;
use underbrick_calc::lay::{Kind, Measured, Part};
use underbrick_calc::measure::angle::write_angle;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::{CourseWay, Hand, StartSide};

/// What a piece is: `course 3, brick 12 at 14'-2": half, 3 7/8" long, cut letter C`. `None` where there is no such piece.
#[must_use]
pub fn piece_said(input: &PlanInput<'_>, piece_idx: usize) -> Option<String> {
    let piece = input.pieces.all().get(piece_idx)?;
    let shown_in = input.site.shown_in;
    let row = match piece.part {
        Part::Field => format!("course {}", piece.course),
        Part::Edge(Hand::Left) => "left edge".to_owned(),
        Part::Edge(Hand::Right) => "right edge".to_owned(),
        Part::AtDoor => "row across at the door".to_owned(),
        Part::AtFarEnd => "row across at the far end".to_owned(),
    };
    let (length, width) = (
        shown_in.thickness(piece.length),
        shown_in.thickness(piece.width),
    );
    let size = match piece.kind {
        Kind::Whole => String::new(),
        Kind::ThreeQuarter | Kind::Half | Kind::Cut => format!(", {length} long"),
        Kind::Ripped => format!(", {width} wide"),
        Kind::Tapered | Kind::Shaped => format!(", out of {length} by {width}"),
    };
    let letter = (input.letter)(piece_idx)
        .map(|letter| format!(", cut letter {letter}"))
        .unwrap_or_default();
    Some(format!(
        "{row}, brick {} at {}: {}{size}{letter}",
        piece.nth,
        shown_in.along(piece.station),
        piece.kind.name()
    ))
}

/// Everything that is drawn, one sentence a line.
pub(super) fn words(input: &PlanInput<'_>) -> String {
    let shown_in = input.site.shown_in;
    let lay = &input.site.lay;
    let mut lines = vec![format!(
        "Plan to scale over {} on the centreline, {}.",
        shown_in.along(input.run.length()),
        lay.bond.name().to_lowercase()
    )];
    lines.push(widths(input));
    lines.extend(curves(input));
    lines.push(counts(input));
    if lay.bond.follows() {
        let way = match lay.courses {
            CourseWay::Along => "along the walk",
            CourseWay::Across => "across the walk",
        };
        let side = match lay.start_side {
            StartSide::Left => "left",
            StartSide::Right => "right",
        };
        lines.push(format!(
            "Courses run {way}; laying starts at the door on the {side}."
        ));
    }
    let at = |measured: Measured| {
        format!(
            "{} in course {} at {}",
            shown_in.thickness(measured.length),
            measured.course,
            shown_in.along(measured.station)
        )
    };
    if let (Some(narrowest), Some(widest)) = (input.narrowest_joint, input.widest_joint) {
        lines.push(format!(
            "Joints are {} to {}; the widest is in course {} at {}.",
            shown_in.thickness(narrowest.length),
            shown_in.thickness(widest.length),
            widest.course,
            shown_in.along(widest.station)
        ));
    }
    if let Some(least) = input.least_lap {
        lines.push(format!("The least lap is {}.", at(least)));
    }
    if let Some(fall) = input.fall {
        let fall = wording::fall(fall, shown_in);
        lines.push(format!("The walk {fall} away from the door."));
    }
    if let Some(fall) = input.cross_fall.filter(|fall| fall.ratio() != 0.0) {
        let side = if fall.ratio() > 0.0 { "right" } else { "left" };
        let size = Fall::from_ratio(fall.ratio().abs()).unwrap_or_default();
        let fall = wording::fall(size, shown_in);
        lines.push(format!("It {fall} across, down to the {side}."));
    }
    for opening in &lay.openings {
        if let (Some(station), Some(along), Some(across)) =
            (opening.station, opening.along, opening.across)
        {
            lines.push(format!(
                "An opening of {} by {} is left free at {}.",
                shown_in.thickness(along),
                shown_in.thickness(across),
                shown_in.along(station)
            ));
        }
    }
    if !input.notes.is_empty() {
        let noted = wording::counted(input.notes.len(), "thing");
        lines.push(format!("{noted} could not be laid as asked."));
    }
    match lay.bearing {
        Some(bearing) => lines.push(format!(
            "The way out of the door bears {} from north.",
            write_angle(bearing)
        )),
        None => lines.push("North is not known.".to_owned()),
    }
    lines.join("\n")
}

fn widths(input: &PlanInput<'_>) -> String {
    let shown_in = input.site.shown_in;
    let edge = underbrick_calc::lay::LayWishes::of(input.site)
        .edge_brick
        .across;
    let over = |station| {
        let clear = input.run.clear_width_at(station);
        format!(
            "{} clear, {} over the edges",
            shown_in.thickness(clear),
            shown_in.thickness(clear + edge * 2.0)
        )
    };
    let (door, end) = (over(metres(0.0)), over(input.run.length()));
    if door == end {
        format!("It is {door}.")
    } else {
        format!("It is {door} at the door and {end} at the far end.")
    }
}

fn curves(input: &PlanInput<'_>) -> Vec<String> {
    let shown_in = input.site.shown_in;
    let bends = input
        .run
        .legs()
        .iter()
        .filter(|leg| leg.curvature_per_m != 0.0);
    bends
        .map(|leg| {
            let side = if leg.curvature_per_m > 0.0 {
                "right"
            } else {
                "left"
            };
            let radius = metres(1.0 / leg.curvature_per_m.abs());
            let turn = underbrick_calc::quantity::Angle::new::<
                underbrick_calc::quantity::unit::radian,
            >(in_metres(leg.length) * leg.curvature_per_m.abs());
            format!(
                "It curves {side} from {} to {}, radius {} on the centreline, {}.",
                shown_in.along(leg.start),
                shown_in.along(leg.end()),
                shown_in.along(radius),
                write_angle(turn)
            )
        })
        .collect()
}

/// Pieces in all and by kind.
fn counts(input: &PlanInput<'_>) -> String {
    let all = input.pieces.all();
    if all.is_empty() {
        return "No brick is laid out.".to_owned();
    }
    let of = |kind: Kind| all.iter().filter(|piece| piece.kind == kind).count();
    let kinds = [
        Kind::Whole,
        Kind::ThreeQuarter,
        Kind::Half,
        Kind::Cut,
        Kind::Ripped,
        Kind::Tapered,
        Kind::Shaped,
    ];
    let parts = kinds.into_iter().filter_map(|kind| {
        let n_pieces = of(kind);
        (n_pieces > 0).then(|| format!("{n_pieces} {}", kind.name()))
    });
    format!(
        "{}: {}.",
        wording::counted(all.len(), "piece"),
        tongue::said_each(parts, ", ")
    )
}
