//! What is left out, what is open, and how changes are agreed.

use super::Design;
use super::plain::{counted, listed};
use super::scope::is_depth_open;
use underbrick_calc::bed::along;
use underbrick_calc::findings::Weight;
use underbrick_calc::line::Line;
use underbrick_calc::quantity::metres;
use underbrick_calc::site::RestraintInput;

/// What the readings leave open, each in a sentence.
pub(super) fn open(design: Design<'_>) -> Vec<String> {
    let results = design.results;
    let mut lines = Vec::new();
    let stops = results.findings.iter();
    for stop in stops.filter(|finding| finding.weight == Weight::Stop) {
        lines.push(format!("This has to be settled first: {}", stop.text));
    }
    let n_pits = results
        .ground
        .as_ref()
        .map_or(0, |ground| ground.pits.len());
    if n_pits == 0 {
        lines.push(
            "How deep the weak ground goes: no hole was dug. The price and the depth are for the least that can be expected."
                .to_owned(),
        );
    } else if is_depth_open(design) {
        lines.push(
            "How deep the weak ground goes: a hole ended before firm ground was reached. If it goes deeper, more has to be dug and filled: that is a change, and you agree to it first."
                .to_owned(),
        );
    } else {
        lines.push(format!(
            "What lies between the {}: the ground may differ from what was seen there.",
            if n_pits == 1 {
                "one hole that was dug and the rest of the walk".to_owned()
            } else {
                counted(n_pits, "hole")
            }
        ));
    }
    if let Some(line) = &results.line
        && let Some(words) = surface_not_read(line)
    {
        lines.push(words.to_owned());
    }
    if weak_ground_stays(design) {
        lines.push(
            "How the weak ground that stays under the stone behaves: the depth that is dug is limited, and it goes on below."
                .to_owned(),
        );
    }
    let chosen = design.chosen();
    if design.site.order.way != underbrick_calc::order::Way::NewBrick
        && chosen.is_some_and(|priced| priced.needs.n_reused.is_none())
    {
        lines.push(
            "How many of the old bricks can be laid again: they were not counted.".to_owned(),
        );
    }
    let brick = &design.site.brick;
    let sides = [
        (brick.length, "length"),
        (brick.width, "width"),
        (brick.thickness, "thickness"),
    ];
    let missing: Vec<String> = sides
        .iter()
        .filter(|(side, _)| side.is_none())
        .map(|(_, name)| (*name).to_owned())
        .collect();
    if !missing.is_empty() && design.site.lay.sample.is_empty() {
        lines.push(format!(
            "The {} of the brick: not measured, a usual brick is taken.",
            listed(&missing)
        ));
    }
    lines
}

/// Whether what should come out reaches below the dig.
fn weak_ground_stays(design: Design<'_>) -> bool {
    let results = design.results;
    let (Some(line), Some(ground), Some(bed)) = (&results.line, &results.ground, &results.bed)
    else {
        return false;
    };
    // Less than a millimetre is a rounding of the arithmetic.
    let reaches_below = |spot: &underbrick_calc::bed::AlongSpot| {
        spot.unsuitable_bottom
            .is_some_and(|bottom| bottom.level < spot.dig_bottom - metres(0.001))
    };
    design.digs()
        && along(line, ground, bed, metres(0.0))
            .spots
            .iter()
            .any(reaches_below)
}

/// Where the old surface was not read; `None` where it was read at both ends.
fn surface_not_read(line: &Line) -> Option<&'static str> {
    let ends = [metres(0.0), line.run.length()];
    let read = ends.map(|end| line.old_surface.at(end, metres(0.0)));
    match read {
        [None, None] => Some(
            "How high the old walk lies now: its height was not measured, so how much has to be dug or filled is not known.",
        ),
        [Some(door), Some(far)] if door.known && far.known => None,
        _ => Some(
            "How high the old walk lies now was not measured all along; between and beyond the readings it is assumed.",
        ),
    }
}

pub(super) fn excluded(design: Design<'_>) -> Vec<String> {
    let digs = design.digs();
    let lines = [
        Some(
            "Pipes, cables, drains, tanks and old foundations in the ground that nobody knew of: finding, moving or mending them.",
        ),
        Some("Drains, downpipes and gutters: leading water away from the house."),
        Some("Tree roots: cutting them back, and what they push up later."),
        digs.then_some("Whatever lies deeper than the depth that is dug."),
        Some("Your door sill, steps, house wall and drive: nothing there is altered."),
        Some("Lawn and planting, beyond making good the strip beside the walk."),
        Some("Permits, inspections and surveys, and what they ask for."),
        Some("Anything that was not measured or is not named here."),
    ];
    lines.into_iter().flatten().map(str::to_owned).collect()
}

pub(super) fn cautions(design: Design<'_>) -> Vec<String> {
    let is_concrete = matches!(design.site.edge.restraint, RestraintInput::Haunch { .. });
    let lines = [
        Some("Before anyone digs, buried pipes and cables are located. Tell us of any that you know: sprinklers, lights, a gas line to a grill."),
        Some("While the walk is open, use another door, and keep children and pets away from the hole and the machines."),
        Some("Sawing brick makes a dust that harms the lungs. Water or a vacuum is used with the saw; keep windows on that side closed."),
        is_concrete.then_some("Fresh concrete burns the skin: nobody touches it, and nobody steps on the edges until it is hard."),
        Some("De-icing salt and heavy loads can harm brick: ask before you use either."),
    ];
    lines.into_iter().flatten().map(str::to_owned).collect()
}

pub(super) fn code() -> Vec<String> {
    vec![
        "The rules of your town or county come before anything written here. Where they ask for more, such as for steps, slopes, drainage or depth against frost, that is done and agreed as a change."
            .to_owned(),
    ]
}

pub(super) fn changes() -> Vec<String> {
    vec![
        "If the ground turns out otherwise than it was found, work stops at that place. You see what was found, and what it changes in work and price, before it goes on."
            .to_owned(),
        "A change counts once it is written down beside this agreement and signed by both. What was signed before is kept as it was."
            .to_owned(),
    ]
}

pub(super) fn own_terms(design: Design<'_>) -> Vec<String> {
    design
        .letterhead
        .map_or_else(Vec::new, |letterhead| letterhead.terms.clone())
}

pub(super) fn copy() -> Vec<String> {
    vec![
        "Each side keeps a copy of these words and of the drawing of the walk as it will be. When the work is done you get a record of what lies under the brick."
            .to_owned(),
    ]
}
