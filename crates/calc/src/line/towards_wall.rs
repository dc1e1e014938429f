//! Where a bend or a cross-fall lets the finished surface fall back towards the wall that the door is in.

use super::rules::{HOUSE, near_the_house};
use super::wording::both_ways;
use super::{GradeLine, Run};
use crate::findings::{Findings, Source, Weight};
use crate::measure::slope::Fall;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// A stretch of the run whose surface falls towards the line of the door's wall.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stretch {
    from: Length,
    to: Length,
    /// Steepest fall square to the wall and towards it.
    steepest: f64,
    /// Whether the cross-fall is what brings it.
    is_by_cross_fall: bool,
    /// How near to the wall it comes.
    nearest: Length,
}

/// Slopes flatter than that are level: one in a million.
const LEVEL: f64 = 1e-6;

/// Notes each stretch that falls towards the wall.
pub(super) fn check(site: &Site, run: &Run, grade: &GradeLine, findings: &mut Findings) {
    for stretch in stretches(run, grade) {
        note(site, run, &stretch, findings);
    }
}

fn note(site: &Site, run: &Run, stretch: &Stretch, findings: &mut Findings) {
    let slope = Fall::from_ratio(stretch.steepest).map_or_else(String::new, |fall| {
        format!(", {} where most", both_ways(fall, site.shown_in))
    });
    let where_to = if stretch.to >= run.length() {
        "the far end".to_owned()
    } else {
        site.shown_in.along(stretch.to)
    };
    let (why, remedy, place) = if stretch.is_by_cross_fall {
        (
            "the cross-fall tilts it that way",
            "Tilt it to the other side, or lay it level across there.",
            Place::CrossFall,
        )
    } else {
        (
            "past its bend the walk heads back, and falls along",
            "Let the water off by a cross-fall before it comes back, or put a drain there.",
            Place::GradeLine,
        )
    };
    let text = format!(
        "From {} to {where_to} the walk falls towards the line of the house wall{slope}: {why}.",
        site.shown_in.along(stretch.from)
    );
    findings.note(place, Weight::Warning, stretch.source(), text, remedy);
}

/// The rule that a line breaks by falling towards the wall, named with its source; `None` where it does not.
pub(super) fn broken_by(site: &Site, run: &Run) -> Option<String> {
    let grade = super::grade::grade_line(site, run, &mut Findings::default());
    let found = stretches(run, &grade);
    let nearest = found
        .iter()
        .find(|stretch| stretch.nearest <= near_the_house())
        .or(found.first())?;
    Some(format!(
        "{}: from {} on it falls towards the line of the house wall",
        nearest.source().words(),
        site.shown_in.along(nearest.from)
    ))
}

/// Whether such a fall along and across brings water back to the wall.
pub(super) fn falls_back(run: &Run, grade: &GradeLine, cross_fall: Fall) -> bool {
    let mut tilted = grade.clone();
    tilted.cross_fall = cross_fall;
    !stretches(run, &tilted).is_empty()
}

impl Stretch {
    /// Within the reach of the rule of the house its source, beyond it common practice.
    fn source(&self) -> Source {
        if self.nearest <= near_the_house() {
            HOUSE
        } else {
            Source::CommonPractice
        }
    }
}

/// The stretches, in order along the run, on the centreline and in front of the wall.
///
/// With φ the heading, turned right from straight away, the surface falls p cos φ − c sin φ away from the wall: p along, c across, down to
/// the right. It changes its sign where tan φ = p ÷ c. A climb on the way out (p below zero while heading away) does not count: it has
/// a check of its own.
fn stretches(run: &Run, grade: &GradeLine) -> Vec<Stretch> {
    let mut found: Vec<Stretch> = Vec::new();
    for (from, to) in parts(run, grade) {
        let Some(one) = stretch(run, grade, from, to) else {
            continue;
        };
        match found.last_mut() {
            Some(before)
                if in_metres(from - before.to).abs() < 1e-6
                    && before.is_by_cross_fall == one.is_by_cross_fall =>
            {
                before.to = one.to;
                before.steepest = before.steepest.max(one.steepest);
                if one.nearest < before.nearest {
                    before.nearest = one.nearest;
                }
            }
            _ => found.push(one),
        }
    }
    found
}

/// Parts of the run on which the fall to the wall keeps its sign: from break to break, and cut where the heading makes it change.
fn parts(run: &Run, grade: &GradeLine) -> Vec<(Length, Length)> {
    let mut cuts_m: Vec<f64> = run
        .breaks()
        .into_iter()
        .chain(grade.breaks())
        .map(in_metres)
        .collect();
    for leg in run.legs() {
        if leg.curvature_per_m == 0.0 {
            continue;
        }
        let start_rad = run.heading_rad(leg.start);
        let length_m = in_metres(leg.length);
        for piece in grade.pieces() {
            let level_rad = libm::atan2(piece.fall.ratio(), grade.cross_fall.ratio());
            // Sign changes of the whole, and where the walk turns from heading away to heading back.
            for zero_rad in [level_rad, core::f64::consts::FRAC_PI_2] {
                cuts_m.extend(
                    headings_like(zero_rad, start_rad, leg.curvature_per_m * length_m)
                        .map(|turned_rad| in_metres(leg.start) + turned_rad / leg.curvature_per_m),
                );
            }
        }
    }
    cuts_m.sort_by(f64::total_cmp);
    let pairs = cuts_m.iter().zip(cuts_m.iter().skip(1));
    pairs
        .filter(|(from_m, to_m)| *to_m - *from_m > 1e-6)
        .map(|(from_m, to_m)| (metres(*from_m), metres(*to_m)))
        .collect()
}

/// How far to turn from `start_rad` to meet `zero_rad` or its opposite, each time within `turn_rad`.
fn headings_like(zero_rad: f64, start_rad: f64, turn_rad: f64) -> impl Iterator<Item = f64> {
    // A run does not turn more than a few times about; half turns from -16 to 16 are more than any can have.
    (-16_i8..=16)
        .map(move |half_turns| zero_rad + f64::from(half_turns) * core::f64::consts::PI - start_rad)
        .filter(move |turned_rad| {
            let share = turned_rad / turn_rad;
            share > 0.0 && share < 1.0
        })
}

/// A part as a stretch; `None` where it does not fall towards the wall, or lies behind its line.
fn stretch(run: &Run, grade: &GradeLine, from: Length, to: Length) -> Option<Stretch> {
    let middle = (from + to) * 0.5;
    let away = |station| run.in_plan(station, metres(0.0)).1;
    if away(middle) <= metres(0.0) {
        return None;
    }
    let fall = grade.piece_at(middle)?.fall.ratio();
    let across = grade.cross_fall.ratio();
    // (by the fall along, by the cross-fall), away from the wall.
    let falls = |station| {
        let (sin, cos) = libm::sincos(run.heading_rad(station));
        let along = if fall < 0.0 && cos > 0.0 {
            0.0
        } else {
            fall * cos
        };
        (along, -across * sin)
    };
    let (along, tilt) = falls(middle);
    if along + tilt >= -LEVEL {
        return None;
    }
    // Between two cuts the fall is a wave over at most half a turn: ends, middle and quarters show its most to the last figure shown.
    let steepest = (0..=8_u8)
        .map(|eighth| {
            let (along, tilt) = falls(from + (to - from) * (f64::from(eighth) / 8.0));
            -(along + tilt)
        })
        .fold(0.0, f64::max);
    let nearest = [from, middle, to]
        .map(away)
        .into_iter()
        .fold(
            away(middle),
            |one, other| if other < one { other } else { one },
        );
    Some(Stretch {
        from,
        to,
        steepest,
        is_by_cross_fall: tilt < along,
        nearest,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::line::tests::{curve, line_of, site, straight};
    use crate::quantity::{feet, unit::foot};
    use crate::site::{Hand, Leg};

    /// Stretches (from, to, by cross-fall) in feet, of a walk at 2 % along.
    #[track_caller]
    fn check(legs: Vec<Leg>, fall: f64, cross_fall: f64, expected: &[(f64, f64, bool)]) {
        let mut site = site(legs);
        site.line.fall = Fall::from_ratio(fall);
        site.line.cross_fall = Fall::from_ratio(cross_fall);
        let (line, findings) = line_of(&site);
        let found = stretches(&line.run, &line.grade);
        assert_eq!(found.len(), expected.len(), "{found:#?}");
        for (stretch, (from_ft, to_ft, is_by_cross_fall)) in found.iter().zip(expected) {
            assert!(
                (stretch.from.get::<foot>() - from_ft).abs() < 1e-6,
                "{stretch:?}"
            );
            assert!(
                (stretch.to.get::<foot>() - to_ft).abs() < 1e-6,
                "{stretch:?}"
            );
            assert_eq!(stretch.is_by_cross_fall, *is_by_cross_fall, "{stretch:?}");
        }
        let said = findings
            .iter()
            .filter(|finding| finding.text.contains("line of the house wall"));
        assert_eq!(said.count(), expected.len());
    }

    fn out_and(turn_degrees: f64, hand: Hand, on: f64) -> Vec<Leg> {
        vec![
            straight(feet(12.0)),
            curve(feet(10.0), turn_degrees, hand),
            straight(feet(on)),
        ]
    }

    #[test]
    fn a_straight_walk_tilts_along_the_wall_and_never_to_it() {
        for cross_fall in [-0.02, 0.0, 0.02] {
            check(vec![straight(feet(30.0))], 0.02, cross_fall, &[]);
            check(vec![straight(feet(30.0))], 0.0, cross_fall, &[]);
        }
        // A climb has a check of its own.
        check(vec![straight(feet(30.0))], -0.02, 0.02, &[]);
    }

    #[test]
    fn a_walk_that_turns_back_falls_towards_the_house_from_its_quarter_turn() {
        // A half turn of radius 10 ft: at 12 + 5π ft it runs along the wall, from there it heads back, to the end at 12 + 10π + 6 ft.
        let pi = core::f64::consts::PI;
        let end = 12.0 + 10.0 * pi + 6.0;
        for hand in [Hand::Left, Hand::Right] {
            check(
                out_and(180.0, hand, 6.0),
                0.02,
                0.0,
                &[(12.0 + 5.0 * pi, end, false)],
            );
        }
    }

    #[test]
    fn past_a_quarter_turn_the_cross_fall_tilts_to_the_house_or_away() {
        // Turned right, right is the side of the house. p cos φ = c sin φ where tan φ = 2 / 1: from there the tilt is more.
        let from = 12.0 + 10.0 * libm::atan(2.0);
        let end = 12.0 + 5.0 * core::f64::consts::PI + 15.0;
        check(
            out_and(90.0, Hand::Right, 15.0),
            0.02,
            0.01,
            &[(from, end, true)],
        );
        check(out_and(90.0, Hand::Right, 15.0), 0.02, -0.01, &[]);
        check(
            out_and(90.0, Hand::Left, 15.0),
            0.02,
            -0.01,
            &[(from, end, true)],
        );
        check(out_and(90.0, Hand::Left, 15.0), 0.02, 0.01, &[]);
        check(out_and(90.0, Hand::Left, 15.0), 0.02, 0.0, &[]);
    }

    /// A walk level along that bends to the right: the offered cross-fall goes to the left, away from the wall. Where the walk turns back,
    /// every offer that still falls along names the rule that it breaks.
    #[test]
    fn an_offer_names_that_it_falls_towards_the_wall() {
        let level = |legs| {
            let mut site = site(legs);
            site.line.fall = Fall::from_ratio(0.0);
            line_of(&site).0
        };
        let offers = level(out_and(90.0, Hand::Right, 15.0)).offers;
        let aside = offers
            .iter()
            .find(|offer| offer.title.starts_with("cross-fall"))
            .unwrap();
        assert!(aside.title.ends_with("to the left"), "{}", aside.title);
        let names = |offer: &crate::line::Offer| {
            offer
                .breaks
                .iter()
                .any(|rule| rule.contains("line of the house wall"))
        };
        assert!(!names(aside), "{aside:?}");
        let offers = level(out_and(180.0, Hand::Right, 4.0)).offers;
        let falling = offers
            .iter()
            .find(|offer| offer.fall.ratio() > 0.0)
            .unwrap();
        assert!(names(falling), "{falling:?}");
    }

    /// The closed form against the level itself, read from three spots a millimetre apart in plan.
    #[test]
    fn the_fall_to_the_wall_is_that_of_the_surface() {
        let mut site = site(out_and(150.0, Hand::Right, 4.0));
        site.line.fall = Fall::from_ratio(0.03);
        site.line.cross_fall = Fall::from_ratio(0.015);
        let (line, _) = line_of(&site);
        let found = stretches(&line.run, &line.grade);
        let step = metres(0.001);
        let zero = metres(0.0);
        for nth in 1..100_u8 {
            let station = line.run.length() * (f64::from(nth) / 100.0);
            let here = line.run.in_plan(station, zero);
            let level = in_metres(line.grade.level(station, zero));
            let change = |station, offset| {
                let there = line.run.in_plan(station, offset);
                (
                    in_metres(there.0 - here.0),
                    in_metres(there.1 - here.1),
                    in_metres(line.grade.level(station, offset)) - level,
                )
            };
            let (along, aside) = (change(station + step, zero), change(station, step));
            // Level per metre away from the wall, from two small steps.
            let by_away =
                (along.0 * aside.2 - aside.0 * along.2) / (along.0 * aside.1 - aside.0 * along.1);
            let is_within = found
                .iter()
                .any(|stretch| stretch.from < station && station < stretch.to);
            assert!(
                by_away.abs() < 1e-4 || (by_away > 0.0) == is_within,
                "{by_away} at {station:?}"
            );
        }
    }
}
