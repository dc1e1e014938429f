//! What the laying came to: bricks, joints, laps, cuts, the laying order, and other bonds beside this one.

use underbrick_calc::lay::{
    Compared, Course, CutLine, Lay, Laying, Measured, OtherWay, Part, compared,
};
use underbrick_calc::site::{Bond, CourseWay, Hand, ShownIn};

use super::super::opened::{Opened, Part as Fold};
use super::super::{figure, heading};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::offer_card::OfferCard;
use crate::widgets::rows::Row;

/// Cuts that are shown before the rest is asked for: the most frequent.
const MOST_CUTS: usize = 6;

pub(super) fn rows(visit: &Visit, opened: &Opened, rows: &mut Vec<Row>) {
    let Some(lay) = &visit.results().lay else {
        return;
    };
    let shown = visit.site().shown_in;
    rows.push(heading(
        "Laid out",
        format!(
            "{} pieces, {} cut",
            lay.pieces.all().len(),
            lay.cuts.n_cut()
        ),
    ));
    rows.push(figure(
        "Bricks for all of it",
        lay.cuts.n_bricks().to_string(),
        format!("offcuts used again; at least {}", lay.cuts.lower_bound()),
    ));
    rows.push(short_or_over(lay));
    if let (Some(narrowest), Some(widest)) = (lay.narrowest_joint, lay.widest_joint) {
        rows.push(figure(
            "Joints",
            format!(
                "{} to {}",
                shown.thickness(narrowest.length),
                shown.thickness(widest.length)
            ),
            format!("widest {}", at(widest, shown)),
        ));
    }
    if let Some(lap) = lay.least_lap {
        rows.push(figure(
            "Least lap",
            shown.thickness(lap.length),
            at(lap, shown),
        ));
    }
    if lay.wishes.bond.follows() && lay.wishes.courses == CourseWay::Along {
        radius_rows(lay, shown, rows);
    }
    cut_rows(lay, opened, shown, rows);
    order_rows(lay, opened, shown, rows);
    other_bonds(visit, lay, opened, rows);
}

fn at(measured: Measured, shown: ShownIn) -> String {
    format!(
        "in course {} at {}",
        measured.course,
        shown.along(measured.station)
    )
}

fn short_or_over(lay: &Lay) -> Row {
    let lifted = format!("some {} in the old walk", lay.n_lifted);
    match lay.salvage {
        None => figure(
            "Brick short or over",
            "not known",
            format!("{lifted}; count, or give the loss"),
        ),
        Some(salvage) => {
            let how = if salvage.is_counted {
                "counted"
            } else {
                "left after the loss"
            };
            let value = if salvage.over < 0 {
                format!("{} short", -salvage.over)
            } else {
                format!("{} over", salvage.over)
            };
            figure(
                "Brick short or over",
                value,
                format!("{} {how}; {lifted}", salvage.n_whole),
            )
        }
    }
}

fn radius_rows(lay: &Lay, shown: ShownIn, rows: &mut Vec<Row>) {
    let said = |radius: underbrick_calc::quantity::Length| {
        if radius.is_finite() {
            shown.length(radius)
        } else {
            "none".to_owned()
        }
    };
    rows.push(figure(
        "Least radius, whole brick",
        said(lay.least_radii.whole),
        format!("halves {}", said(lay.least_radii.halves)),
    ));
}

fn cut_rows(lay: &Lay, opened: &Opened, shown: ShownIn, rows: &mut Vec<Row>) {
    let lines = &lay.cuts.lines;
    if lines.is_empty() {
        return;
    }
    rows.push(heading("Cuts", format!("{} sizes", lines.len())));
    let all = opened.shows(&Fold::Cuts);
    let n_shown = if all { lines.len() } else { MOST_CUTS };
    for line in lines.iter().take(n_shown) {
        let part = if line.of_edge { "edge" } else { "field" };
        rows.push(figure(
            format!("{}, {} of them", line.letter, line.n_pieces),
            size(line, shown),
            format!("{}, {part}", line.kind.name()),
        ));
    }
    if lines.len() > MOST_CUTS {
        rows.push(Row::More {
            words: if all {
                "show the most frequent only".to_owned()
            } else {
                format!("show the other {}", lines.len() - MOST_CUTS)
            },
            part: Fold::Cuts,
        });
    }
}

fn size(line: &CutLine, shown: ShownIn) -> String {
    if line.sides.is_empty() {
        return format!(
            "{} x {}",
            shown.thickness(line.length),
            shown.thickness(line.width)
        );
    }
    let sides: Vec<String> = line
        .sides
        .iter()
        .map(|side| shown.thickness(*side))
        .collect();
    sides.join(", ")
}

fn order_rows(lay: &Lay, opened: &Opened, shown: ShownIn, rows: &mut Vec<Row>) {
    if !lay.wishes.bond.follows() || lay.courses.is_empty() {
        return;
    }
    let is_open = opened.shows(&Fold::LayingOrder);
    rows.push(heading(
        "Laying order",
        format!("{} courses and rows", lay.courses.len()),
    ));
    if is_open {
        for course in &lay.courses {
            rows.push(Row::Said {
                mark: Mark::Right,
                text: course_name(course),
                under: course_words(course, lay, shown),
            });
        }
    }
    rows.push(Row::More {
        words: if is_open {
            "fold the laying order".to_owned()
        } else {
            "show it course by course".to_owned()
        },
        part: Fold::LayingOrder,
    });
}

fn course_name(course: &Course) -> String {
    match course.part {
        Part::Field => format!("Course {}", course.number),
        Part::Edge(Hand::Left) => "Left edge".to_owned(),
        Part::Edge(Hand::Right) => "Right edge".to_owned(),
        Part::AtDoor => "Row at the door".to_owned(),
        Part::AtFarEnd => "Row at the far end".to_owned(),
    }
}

fn course_words(course: &Course, lay: &Lay, shown: ShownIn) -> String {
    let words = |laying: &Laying| match laying.line(&lay.cuts) {
        None => format!("{} whole", laying.n_pieces),
        Some(line) if laying.n_pieces == 1 => format!(
            "{} ({}) at {}",
            line.letter,
            laying.kind.name(),
            shown.along(laying.station)
        ),
        Some(line) => format!(
            "{} of {} ({}) from {}",
            laying.n_pieces,
            line.letter,
            laying.kind.name(),
            shown.along(laying.station)
        ),
    };
    let all: Vec<String> = course.layings.iter().map(words).collect();
    all.join("; ")
}

/// Worked out only while it is open.
fn other_bonds(visit: &Visit, lay: &Lay, opened: &Opened, rows: &mut Vec<Row>) {
    let is_open = opened.shows(&Fold::OtherBonds);
    rows.push(heading("Side by side", "other bonds and widths"));
    if is_open {
        let now = (lay.wishes.bond, lay.wishes.courses);
        for (bond, way) in ways() {
            let is_now = bond == now.0 && (!bond.follows() || way == now.1);
            let said = if is_now {
                Some(Compared::of(lay))
            } else {
                compared(visit.site(), OtherWay::Bond(bond, way))
            };
            if let Some(said) = said {
                let edit = Edit::TakeBond(bond, way);
                rows.push(card(name(bond, way), &said, is_now, edit, visit));
            }
        }
        other_widths(visit, rows);
    }
    rows.push(Row::More {
        words: if is_open {
            "fold the other ways".to_owned()
        } else {
            "lay the other ways, too".to_owned()
        },
        part: Fold::OtherBonds,
    });
}

fn ways() -> impl Iterator<Item = (Bond, CourseWay)> {
    Bond::ALL.into_iter().flat_map(|bond| {
        let across = bond.follows().then_some((bond, CourseWay::Across));
        [(bond, CourseWay::Along)].into_iter().chain(across)
    })
}

/// Widths that whole courses give with the edge as it stands, laid out.
fn other_widths(visit: &Visit, rows: &mut Vec<Row>) {
    let site = visit.site();
    let Some(fit) = visit
        .results()
        .brick
        .as_ref()
        .and_then(|brick| brick.fit.as_ref())
    else {
        return;
    };
    let offers = fit.offers.iter().chain(&fit.narrower).chain(&fit.wider);
    for offer in offers.filter(|offer| offer.stands == site.edge.stands) {
        let way = OtherWay::Width {
            clear: offer.clear,
            joint: offer.joint,
        };
        if let Some(said) = compared(site, way) {
            let title = format!("{} clear", site.shown_in.thickness(offer.clear));
            let edit = Edit::TakeWidth {
                clear: offer.clear,
                joint: offer.joint,
                stands: offer.stands,
            };
            rows.push(card(title, &said, false, edit, visit));
        }
    }
}

fn name(bond: Bond, way: CourseWay) -> String {
    match (bond.follows(), way) {
        (true, CourseWay::Across) => format!("{}, across", bond.name()),
        _ => bond.name().to_owned(),
    }
}

fn card(title: String, said: &Compared, is_now: bool, edit: Edit, visit: &Visit) -> Row {
    let shown = visit.site().shown_in;
    let joints = said.joints.map_or_else(String::new, |(narrowest, widest)| {
        format!(
            "joints {} to {}",
            shown.thickness(narrowest),
            shown.thickness(widest)
        )
    });
    let lap = said.least_lap.map_or_else(
        || "no laps".to_owned(),
        |lap| format!("least lap {}", shown.thickness(lap)),
    );
    Row::Offer(OfferCard {
        title,
        value: format!("{} bricks", said.n_bricks),
        note: format!(
            "{} pieces, {} cut in {} sizes",
            said.n_pieces, said.n_cut, said.n_cut_sizes
        ),
        more: [joints, lap]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(", "),
        is_now,
        edit,
    })
}
