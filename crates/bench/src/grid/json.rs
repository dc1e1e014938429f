//! Bands, bricks and what was cut of them as JSON, for a script that compares the areas with shapely's.

use std::fmt::Write as _;

use underbrick_calc::lay::{Clipper, Parts, Placed, PlanPoint, area_m2};

use super::walks::{Walk, walks};
use super::{Task, task};

/// Prints all cases.
pub fn print_json() -> anyhow::Result<()> {
    let cases = [
        task(400, 0.0),
        task(2000, 0.0),
        task(400, std::f64::consts::FRAC_PI_4),
        task(2000, 0.3),
    ];
    let cases: Vec<String> = cases.iter().map(task_json).collect();
    let walks: Vec<String> = walks()?.iter().map(walk_json).collect();
    println!(
        "{{\"cases\":[{}],\"walks\":[{}]}}",
        cases.join(","),
        walks.join(",")
    );
    Ok(())
}

/// A band, and each brick with the area and the number of its pieces.
pub fn task_json(task: &Task) -> String {
    let clipper = Clipper::new(&task.band);
    let mut parts = Parts::default();
    let bricks: Vec<String> = task
        .bricks
        .iter()
        .map(|brick| {
            let (left_m2, n_parts) = match clipper.place(brick, &mut parts) {
                Placed::Inside => (area_m2(brick), 1),
                Placed::Outside => (0.0, 0),
                Placed::Cut => (parts.iter().map(area_m2).sum(), parts.len()),
            };
            format!(
                "{{\"outline\":{},\"area_m2\":{left_m2},\"n_parts\":{n_parts}}}",
                outline_json(brick)
            )
        })
        .collect();
    format!(
        "{{\"band\":{},\"bricks\":[{}]}}",
        outline_json(&task.band),
        bricks.join(",")
    )
}

/// The clear width of a walk and the outlines of its pieces.
fn walk_json(walk: &Walk) -> String {
    let pieces: Vec<String> = walk
        .pieces
        .all()
        .iter()
        .map(|piece| {
            let outline = walk.pieces.outline(piece);
            format!(
                "{{\"outline\":{},\"area_m2\":{}}}",
                outline_json(outline),
                area_m2(outline)
            )
        })
        .collect();
    format!(
        "{{\"band\":{},\"pieces\":[{}]}}",
        outline_json(&walk.band),
        pieces.join(",")
    )
}

pub fn outline_json(outline: &[PlanPoint]) -> String {
    let mut text = "[".to_owned();
    for (nth, spot) in outline.iter().enumerate() {
        let comma = if nth == 0 { "" } else { "," };
        // Writing to a string cannot fail.
        let _ = write!(text, "{comma}[{},{}]", spot.right_m, spot.away_m);
    }
    text.push(']');
    text
}
