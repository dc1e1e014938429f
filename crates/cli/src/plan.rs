//! `underbrick plan`: every brick from above as SVG.

use anyhow::bail;
use underbrick_calc::lay::PlanPoint;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_drawing::item::Sheet;
use underbrick_drawing::palette::Theme;
use underbrick_drawing::{PlanView, plan_as_laid, svg};

use crate::arguments::PlanAsked;
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, say, write_file};
use crate::station::station;

/// Dots of a sheet for a metre of paper: 160 to an inch.
const DOTS_PER_PAPER_METRE: f64 = 160.0 / 0.0254;

/// Draws, and tells the findings.
pub fn plan(asked: &PlanAsked) -> anyhow::Result<Status> {
    let measured = Measured::read(&asked.site)?;
    let (site, results) = (&measured.site, &measured.results);
    tell(&measured.findings);
    let (Some(line), Some(lay)) = (&results.line, &results.lay) else {
        bail!(
            "{}: no plan, because the run is not known; `underbrick check` says what is missing",
            asked.site.site.display()
        );
    };
    let sheet = Sheet {
        width: f64::from(asked.width),
        height: f64::from(asked.height),
        text_scale: 1.0,
    };
    let mut view = PlanView::whole(site, &line.run, sheet);
    if let Some(scale) = asked.scale {
        view.dots_per_metre = DOTS_PER_PAPER_METRE / f64::from(scale);
    }
    if asked.at.is_some() || asked.scale.is_some() {
        let station = station(asked.at.as_deref(), site, results.line.as_ref())?;
        let (right, away) = line.run.in_plan(station, metres(0.0));
        view.centre = PlanPoint {
            right_m: in_metres(right),
            away_m: in_metres(away),
        };
    }
    let drawing = plan_as_laid(site, line, lay, view, sheet);
    let svg = svg::write(&drawing, if asked.dim { Theme::Dim } else { Theme::Sun });
    match &asked.output {
        Some(path) => write_file(path, &measured.file, &svg)?,
        None => say(&svg)?,
    }
    Ok(measured.status())
}
