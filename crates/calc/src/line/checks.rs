//! Checks of the grade line, each with its source.

use super::rules::{
    ACROSS, DRAINS, HOUSE, LEAST_AWAY_FROM_HOUSE, LEAST_TO_DRAIN, LEVEL_CHANGE, RAMP, STAIR,
    STEEPEST_ACROSS, STEEPEST_RAMP, STEEPEST_WALK, WALK, at_least, at_most, highest_riser,
    lowest_riser, narrowest_ramp, near_the_house, step_landing,
};
use super::wording::{both_ways, from_sill, is_level_with_sill, one_in, size};
use super::{GradeLine, Run};
use crate::findings::{Findings, Source, Weight};
use crate::measure::slope::Fall;
use crate::place::Place;
use crate::quantity::{Length, in_metres, inches, metres};
use crate::site::Site;

/// Holds the grade line to every rule: a finding for each, kept or broken.
pub(super) fn check(site: &Site, run: &Run, grade: &GradeLine, findings: &mut Findings) {
    check_wanted(site, grade, findings);
    check_away_from_house(site, run, grade, findings);
    check_drains(site, grade, findings);
    check_running_slope(site, run, grade, findings);
    check_cross_slope(site, grade, findings);
    check_sill(site, grade, findings);
    check_far_end(site, grade, findings);
    check_steps(site, run, grade, findings);
}

/// Where the fall stands that a person may change.
fn fall_place(grade: &GradeLine) -> Place {
    if grade.end_is_fixed {
        Place::FarEndBelowSill
    } else {
        Place::Fall
    }
}

/// A fixed far end goes before the wanted fall.
fn check_wanted(site: &Site, grade: &GradeLine, findings: &mut Findings) {
    let Some(wanted) = site.line.fall else { return };
    if grade.end_is_fixed && (wanted.ratio() - grade.fall.ratio()).abs() > 1e-9 {
        let text = format!(
            "The far end is fixed: the walk falls {} along it instead of the {} that is wanted.",
            both_ways(grade.fall, site.shown_in),
            both_ways(wanted, site.shown_in)
        );
        findings.note(Place::Fall, Weight::Note, Source::Readings, text, "");
    }
}

fn check_away_from_house(site: &Site, run: &Run, grade: &GradeLine, findings: &mut Findings) {
    let (along, across) = (grade.fall.ratio(), grade.cross_fall.ratio());
    let place = fall_place(grade);
    let reach = if run.length() < near_the_house() {
        run.length()
    } else {
        near_the_house()
    };
    let drop = grade.fall.drop_over(reach);
    let over = format!(
        "{} over the first {}",
        site.shown_in
            .length(if drop < metres(0.0) { -drop } else { drop }),
        site.shown_in.length(reach)
    );
    let is_level = along.abs() < 1e-12;
    if at_least(along, LEAST_AWAY_FROM_HOUSE) {
        let text = format!(
            "The walk falls {over} away from the house: {}.",
            both_ways(grade.fall, site.shown_in)
        );
        findings.note(place, Weight::Right, HOUSE, text, "");
    } else if along > 0.0 && !is_level {
        let text = format!(
            "The walk falls only {over} away from the house: {}, less than 2 %.",
            both_ways(grade.fall, site.shown_in)
        );
        findings.note(
            place,
            Weight::Warning,
            HOUSE,
            text,
            "Fall more, or lead the water aside by a cross-fall or a drain.",
        );
    } else if is_level && at_least(across.abs(), LEAST_AWAY_FROM_HOUSE) {
        let text = format!(
            "The walk does not fall away from the house; water leaves only sideways, by a cross-fall of {}.",
            both_ways(size(grade.cross_fall), site.shown_in)
        );
        findings.note(
            place,
            Weight::Warning,
            HOUSE,
            text,
            "Let it fall away from the house as well, where the far end allows.",
        );
    } else {
        let text = if is_level {
            "The walk does not fall away from the house: water stands at the door.".to_owned()
        } else {
            format!("The walk falls towards the house, {over}: water runs to the door.")
        };
        findings.note(
            place,
            Weight::Stop,
            HOUSE,
            text,
            "See what else could be done: lower the far end, or a drain part-way.",
        );
    }
}

fn check_drains(site: &Site, grade: &GradeLine, findings: &mut Findings) {
    let steepest = grade.flattest().steepest_with(grade.cross_fall);
    let slope = both_ways(steepest, site.shown_in);
    if at_least(steepest.ratio(), LEAST_TO_DRAIN) {
        let text = format!("The surface slopes {slope} where it is steepest, enough to drain.");
        findings.note(Place::GradeLine, Weight::Right, DRAINS, text, "");
    } else {
        // Another published rule is content with 2 % (Interlocking Concrete Pavement Institute; row P15): short of that it matters.
        let weight = if at_least(steepest.ratio(), LEAST_AWAY_FROM_HOUSE) {
            Weight::Note
        } else {
            Weight::Warning
        };
        let text = format!(
            "The surface slopes {slope} where it is steepest, less than 1/4 in per ft: water may stand in low spots."
        );
        findings.note(
            Place::GradeLine,
            weight,
            DRAINS,
            text,
            "Add fall along or across.",
        );
    }
}

/// What helps where the walk climbs away from the house.
const LOWER: &str = "See what else could be done: lower the far end.";

fn check_running_slope(site: &Site, run: &Run, grade: &GradeLine, findings: &mut Findings) {
    let steepest = grade.steepest();
    let along = steepest.ratio().abs();
    let place = fall_place(grade);
    let slope = one_in(steepest);
    let climbs = grade.end > grade.start;
    if at_most(along, STEEPEST_WALK) {
        let text = if grade.risers().is_empty() {
            format!("Gentle enough to walk and wheel on: {slope} along.")
        } else {
            format!("Gentle enough to walk on between the steps: {slope} along.")
        };
        findings.note(place, Weight::Right, WALK, text, "");
    } else if at_most(along, STEEPEST_RAMP) {
        let drop = grade.start - grade.end;
        let rise = if drop < metres(0.0) { -drop } else { drop };
        let mut text = format!(
            "As an accessible option this is a ramp: {slope} along, steeper than 1:20, rising {}",
            site.shown_in.length(rise)
        );
        if rise > inches(6.0) {
            text.push_str(", so that it needs handrails");
        }
        let narrowest = narrowest(run);
        if !at_least(in_metres(narrowest), in_metres(narrowest_ramp())) {
            text.push_str(&format!(
                ", and at {} it is too narrow for one",
                site.shown_in.length(narrowest)
            ));
        }
        text.push('.');
        findings.note(
            place,
            Weight::Warning,
            RAMP,
            text,
            if climbs {
                LOWER
            } else {
                "See what else could be done: steps, or a ramp with landings."
            },
        );
    } else {
        let text = format!("Too steep even for a ramp: {slope} along, steeper than 1:12.");
        findings.note(
            place,
            Weight::Warning,
            RAMP,
            text,
            if climbs {
                LOWER
            } else {
                "See what else could be done: steps."
            },
        );
    }
}

fn check_cross_slope(site: &Site, grade: &GradeLine, findings: &mut Findings) {
    let slope = both_ways(size(grade.cross_fall), site.shown_in);
    if grade.cross_fall == Fall::default() {
        findings.note(
            Place::CrossFall,
            Weight::Right,
            ACROSS,
            "The walk is level across.",
            "",
        );
    } else if at_most(grade.cross_fall.ratio().abs(), STEEPEST_ACROSS) {
        let text = format!("Level enough across to walk and wheel on: {slope}.");
        findings.note(Place::CrossFall, Weight::Right, ACROSS, text, "");
    } else {
        let text =
            format!("As an accessible option it is too steep across: {slope}, more than 1:48.");
        findings.note(
            Place::CrossFall,
            Weight::Warning,
            ACROSS,
            text,
            "Take 1/4 in per ft across at most.",
        );
    }
}

/// Change in level at the door, from the underside of the sill to the first brick.
fn check_sill(site: &Site, grade: &GradeLine, findings: &mut Findings) {
    let place = Place::FirstBrickBelowSill;
    let drop = metres(0.0) - grade.start;
    let down = site.shown_in.length(drop);
    match LevelChange::of(drop) {
        LevelChange::Above => {
            let text = format!(
                "The first brick stands {} above the underside of the sill.",
                site.shown_in.length(-drop)
            );
            findings.note(
                place,
                Weight::Warning,
                Source::CommonPractice,
                text,
                "Water can get under the sill: keep the brick below it.",
            );
        }
        LevelChange::Upright => {
            let text = if is_level_with_sill(grade.start) {
                "The first brick is level with the underside of the sill.".to_owned()
            } else {
                format!("The first brick is {down} below the underside of the sill.")
            };
            findings.note(place, Weight::Right, LEVEL_CHANGE, text, "");
        }
        LevelChange::Bevelled => {
            let text = format!(
                "The first brick is {down} below the underside of the sill: right as an accessible option only if bevelled 1:2."
            );
            findings.note(place, Weight::Note, LEVEL_CHANGE, text, "");
        }
        LevelChange::Ramp if at_most(in_metres(drop), in_metres(highest_riser())) => {
            let text = format!(
                "The first brick is {down} below the underside of the sill: a step, and no accessible option without a ramp."
            );
            findings.note(
                place,
                Weight::Warning,
                LEVEL_CHANGE,
                text,
                "Bring the brick up to the sill, or say that a step is wanted.",
            );
        }
        LevelChange::Ramp => {
            let limit = site.shown_in.length(highest_riser());
            let text = format!(
                "The first brick is {down} below the underside of the sill: more than one riser, {limit}."
            );
            findings.note(
                place,
                Weight::Warning,
                STAIR,
                text,
                "Build a step at the door, or bring the brick up.",
            );
        }
    }
}

/// Steps: equal by construction; their height, the landings before and after, and the handrail.
fn check_steps(site: &Site, run: &Run, grade: &GradeLine, findings: &mut Findings) {
    let risers = grade.risers();
    let (Some(first), Some(last)) = (risers.first(), risers.last()) else {
        return;
    };
    let shown = |length: Length| site.shown_in.length(length);
    let n_risers = risers.len();
    let height_m = in_metres(first.height);
    let each = if n_risers == 1 {
        "One riser"
    } else {
        "Equal risers"
    };
    let text = format!("{each} of {}, {n_risers} in all.", shown(first.height));
    if at_most(height_m, in_metres(highest_riser()))
        && at_least(height_m, in_metres(lowest_riser()))
    {
        findings.note(Place::StepsAt, Weight::Right, STAIR, text, "");
    } else if height_m > in_metres(highest_riser()) {
        let text = format!("{text} Higher than {}.", shown(highest_riser()));
        findings.note(
            Place::StepsAt,
            Weight::Warning,
            STAIR,
            text,
            "Take one riser more.",
        );
    } else {
        let text = format!(
            "{text} Lower than {}: a foot trips on them.",
            shown(lowest_riser())
        );
        findings.note(
            Place::StepsAt,
            Weight::Warning,
            Source::Published("International Building Code, from memory: risers from 4 in"),
            text,
            "Take one riser less.",
        );
    }
    for (what, room) in [
        ("in front of the door", first.station),
        ("beyond the last riser", run.length() - last.station),
    ] {
        if !at_least(in_metres(room), in_metres(step_landing())) {
            let text = format!(
                "Only {} is left {what}, less than a landing of {}.",
                shown(room),
                shown(step_landing())
            );
            findings.note(
                Place::StepsAt,
                Weight::Warning,
                Source::Published("International Residential Code R311.3 and R311.7.6, from memory: a landing of 36 in"),
                text,
                "Move the steps along the walk.",
            );
        }
    }
    findings.note(
        Place::StepsAt,
        Weight::Note,
        LEVEL_CHANGE,
        "Steps are no way for wheels.",
        "As an accessible option take a ramp, where it fits.",
    );
    if n_risers >= 4 {
        findings.note(
            Place::StepsAt,
            Weight::Note,
            Source::Published("International Residential Code R311.7.8, from memory: a handrail from four risers on"),
            "Four risers and more need a handrail.",
            "Local code decides on steps in a garden walk.",
        );
    }
}

/// A far end that is fixed is met exactly; where it is free nothing is known to meet.
fn check_far_end(site: &Site, grade: &GradeLine, findings: &mut Findings) {
    if grade.end_is_fixed {
        let text = format!(
            "The far end meets what is there, {}, without a step.",
            from_sill(grade.end, site.shown_in)
        );
        findings.note(
            Place::FarEndBelowSill,
            Weight::Right,
            LEVEL_CHANGE,
            text,
            "",
        );
    }
}

/// What a change in level asks for.
///
/// # Source
/// 2010 ADA Standards 303 (rows A3, A17).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum LevelChange {
    /// Up from the sill.
    Above,
    /// Up to 1/4 in: as it is.
    Upright,
    /// Up to 1/2 in: bevelled.
    Bevelled,
    /// More: a ramp.
    Ramp,
}

impl LevelChange {
    fn of(drop: Length) -> Self {
        // A millionth of a millimetre: no reading is so fine, it only catches the last figure of a sum.
        const NOTHING_M: f64 = 1e-9;
        let drop_m = in_metres(drop);
        if drop_m < -NOTHING_M {
            Self::Above
        } else if drop_m <= in_metres(inches(0.25)) + NOTHING_M {
            Self::Upright
        } else if drop_m <= in_metres(inches(0.5)) + NOTHING_M {
            Self::Bevelled
        } else {
            Self::Ramp
        }
    }
}

/// Narrowest clear width of the run; a taper is narrowest at one of its ends.
pub(super) fn narrowest(run: &Run) -> Length {
    let widths = run
        .legs()
        .iter()
        .flat_map(|leg| [leg.width_at_start, leg.width_at_end]);
    widths
        .reduce(|one, other| if other < one { other } else { one })
        .unwrap_or_else(|| metres(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_in_level_as_published() {
        // Row A17: 0.25 in passes upright, 0.26 not; 0.5 in passes bevelled; 0.51 in is a ramp. Row A5, from memory, says the same of a new
        // threshold: up to 1/2 in.
        for (drop_in, expected) in [
            (-0.1, LevelChange::Above),
            (0.0, LevelChange::Upright),
            (0.25, LevelChange::Upright),
            (0.26, LevelChange::Bevelled),
            (0.5, LevelChange::Bevelled),
            (0.51, LevelChange::Ramp),
        ] {
            assert_eq!(LevelChange::of(inches(drop_in)), expected, "{drop_in} in");
        }
    }
}
