//! The same cuts by libraries from the registries.

use std::io::Write as _;
use std::process::{Command, Stdio};

use anyhow::Context as _;
use geo::{Area as _, BooleanOps as _, Coord, LineString, MultiPolygon, Polygon};
use underbrick_calc::lay::PlanPoint;

use super::{Task, fastest};

/// What shapely took, the fastest of several runs, and the area that it finds.
pub struct Shapely {
    pub classified_ms: f64,
    pub one_call_ms: f64,
    pub every_ms: f64,
    pub area_m2: f64,
}

/// All bricks as one multipolygon against the band. Which piece came from which brick is lost.
pub fn geo_one_call(task: &Task) -> (f64, f64) {
    let band = polygon(&task.band);
    let bricks = MultiPolygon::new(task.bricks.iter().map(|brick| polygon(brick)).collect());
    let (cost_ms, cut) = fastest(10, || bricks.intersection(&band));
    (cost_ms, cut.unsigned_area())
}

/// Shapely in a Python of its own: `python3`, or what `PYTHON` names.
pub fn shapely(task: &Task) -> anyhow::Result<Shapely> {
    let python = std::env::var("PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let mut child = Command::new(&python)
        .args(["-c", include_str!("shapely_peer.py")])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .with_context(|| format!("there is no {python}"))?;
    let written = child
        .stdin
        .take()
        .context("no way to write to Python")?
        .write_all(super::json::task_json(task).as_bytes());
    let output = child.wait_with_output()?;
    anyhow::ensure!(
        written.is_ok() && output.status.success(),
        "this Python has no shapely (pip install shapely numpy, and PYTHON=its path)"
    );
    let text = String::from_utf8_lossy(&output.stdout);
    let figures: Vec<f64> = text
        .split_whitespace()
        .filter_map(|word| word.parse().ok())
        .collect();
    let &[classified_ms, one_call_ms, every_ms, area_m2] = figures.as_slice() else {
        anyhow::bail!("its answer cannot be read: {text}");
    };
    Ok(Shapely {
        classified_ms,
        one_call_ms,
        every_ms,
        area_m2,
    })
}

fn polygon(outline: &[PlanPoint]) -> Polygon<f64> {
    let ring = outline.iter().map(|spot| Coord {
        x: spot.right_m,
        y: spot.away_m,
    });
    Polygon::new(ring.collect::<LineString<f64>>(), Vec::new())
}
