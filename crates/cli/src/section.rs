//! `underbrick section`: both drawings as SVG.

use underbrick_drawing::item::Sheet;
use underbrick_drawing::palette::Theme;
use underbrick_drawing::{cross_section, long_section_on_paper, svg};

use crate::arguments::SectionAsked;
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, say, write_file};
use crate::station::station;

/// Draws, and tells the findings.
pub fn section(asked: &SectionAsked) -> anyhow::Result<Status> {
    let measured = Measured::read(&asked.site)?;
    let Measured {
        site,
        catalogue,
        results,
        ..
    } = &measured;
    let station = station(asked.at.as_deref(), site, results.line.as_ref())?;
    tell(&measured.findings);
    let sheet = Sheet {
        width: f64::from(asked.width),
        height: f64::from(asked.height),
        text_scale: 1.0,
    };
    let drawing = if asked.long {
        long_section_on_paper(site, catalogue, results, station, sheet)
    } else {
        cross_section(site, catalogue, results, station, sheet)
    };
    let svg = svg::write(&drawing, if asked.dim { Theme::Dim } else { Theme::Sun });
    match &asked.output {
        Some(path) => write_file(path, &measured.file, &svg)?,
        None => say(&svg)?,
    }
    Ok(measured.status())
}
