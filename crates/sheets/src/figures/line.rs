//! Figures of the run and its grade line.

use crate::figure::{Figure, Group, Measure};
use crate::wording::{Wording, counted};
use underbrick_calc::line::Line;
use underbrick_calc::quantity::metres;
use underbrick_calc::site::{FarEnd, Site};

/// The run and its grade line. What the far end must meet is a figure of its own where something is fixed there: it may be missing
/// while the grade line, drawn at the wanted fall, is known.
pub(super) fn figures(site: &Site, line: Option<&Line>, say: Wording) -> Vec<Figure> {
    let run = line.map(|line| &line.run);
    let grade = line.map(|line| &line.grade);
    let length = run.map(|run| run.length());
    let width_at_door = run.map(|run| run.clear_width_at(metres(0.0)));
    let width_at_far_end = run.map(|run| run.clear_width_at(run.length()));
    let mut figures = vec![
        figure(
            "run_length",
            "Length along the centreline",
            say.station(length),
        ),
        figure(
            "clear_width_at_door",
            "Clear width at the door",
            say.length(width_at_door),
        ),
        figure(
            "clear_width_at_far_end",
            "Clear width at the far end",
            say.length(width_at_far_end),
        ),
        figure(
            "first_brick_below_sill",
            "First brick below the sill",
            say.length(grade.map(|grade| -grade.start)),
        ),
        figure(
            "last_brick_below_sill",
            "Last brick below the sill",
            say.length(grade.map(|grade| -grade.end)),
        ),
        figure(
            "fall",
            "Fall along the run",
            say.fall(grade.map(|grade| grade.fall)),
        ),
        figure(
            "cross_fall",
            "Cross-fall, down to the right",
            say.fall(grade.map(|grade| grade.cross_fall)),
        ),
    ];
    if let FarEnd::Fixed { below_sill } = site.line.far_end {
        figures.push(figure(
            "fixed_far_end_below_sill",
            "What the far end must meet, below the sill",
            say.length(below_sill),
        ));
    }
    let risers = grade.map(|grade| grade.risers()).unwrap_or_default();
    if let Some(first) = risers.first() {
        figures.extend([
            figure("n_risers", "Risers", counted(Some(risers.len()))),
            figure("riser_height", "Each riser", say.length(Some(first.height))),
            figure(
                "first_riser_station",
                "First riser, from the door",
                say.station(Some(first.station)),
            ),
        ]);
    }
    figures
}

fn figure(key: &str, name: &str, measure: Measure) -> Figure {
    Figure::new(Group::Line, key, name, measure)
}
