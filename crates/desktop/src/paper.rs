//! The job without a window: drawings, results and order in a folder.

use std::path::{Path, PathBuf};

use anyhow::Context as _;
use underbrick_app::{picture, theme::Theme};
use underbrick_calc::quantity::metres;
use underbrick_calc::site::Site;
use underbrick_calc::{Results, compute};
use underbrick_drawing::item::{Drawing, Sheet};
use underbrick_drawing::{PlanView, cross_section, long_section_on_paper, plan_as_laid, svg};
use underbrick_records::{OpenSite, RecordError, Shelf};
use underbrick_sheets::order::{order_csv, order_sheet, order_text};

/// A sheet with the width of a letter page, lying.
const SHEET: Sheet = Sheet {
    width: 1400.0,
    height: 720.0,
    text_scale: 1.2,
};

/// A person's own tables, where he named them.
#[derive(Clone, Debug, Default)]
pub struct OwnFiles {
    /// Rules for causes.
    pub causes: Option<PathBuf>,
    /// The price list.
    pub prices: Option<PathBuf>,
}

/// Writes the drawings, as SVG and PNG, the results and the order of `site`, or of the curved sample where none is named. Gives the folder's place.
/// The person's own tables are read from the files named, or from beside the site; where they cannot be used, stderr says why.
pub fn write(folder: &Path, site: Option<&Path>, own: OwnFiles) -> anyhow::Result<PathBuf> {
    std::fs::create_dir_all(folder)
        .with_context(|| format!("the folder could not be made: {}", folder.display()))?;
    let folder = folder
        .canonicalize()
        .with_context(|| format!("the folder could not be found again: {}", folder.display()))?;
    let site_path = match site {
        Some(site) => site.to_path_buf(),
        None => sample(&folder)?,
    };
    let built_in = underbrick_records::catalogue()?;
    let open = OpenSite::open(&site_path)?;
    let own = open
        .own_tables()
        .or_named(own.causes, own.prices)
        .over(&built_in);
    for (what, fault) in [("causes", &own.causes_fault), ("prices", &own.prices_fault)] {
        if let Some(error) = fault {
            complain(what, error);
        }
    }
    let catalogue = own.catalogue;
    let (site, mut findings) = open.site().checked(&catalogue);
    let results = compute(&site, &catalogue);
    findings.append(results.findings.clone());

    let station = results
        .line
        .as_ref()
        .map_or_else(|| metres(0.0), |line| line.run.length() / 3.0);
    let cross = cross_section(&site, &catalogue, &results, station, SHEET);
    let long = long_section_on_paper(&site, &catalogue, &results, station, SHEET);
    write_drawing(&folder, "cross-section", &cross)?;
    write_drawing(&folder, "long-section", &long)?;
    if let Some(plan) = results_plan(&site, &results) {
        write_drawing(&folder, "plan", &plan)?;
    }
    let sheet = underbrick_sheets::results(&site, &results, &findings);
    write_file(
        &folder,
        "results.txt",
        underbrick_sheets::to_text(&sheet).as_bytes(),
    )?;
    write_file(
        &folder,
        "results.json",
        underbrick_sheets::to_json(&sheet).as_bytes(),
    )?;
    if let Some(order) = &results.order {
        let sheet = order_sheet(&site, order, &catalogue.prices);
        let text = order_text(&site, order, &sheet, true);
        write_file(&folder, "order.txt", text.as_bytes())?;
        write_file(&folder, "order.csv", order_csv(&sheet).as_bytes())?;
    }
    Ok(folder)
}

/// The whole walk from above; `None` where the run is not known.
fn results_plan(site: &Site, results: &Results) -> Option<Drawing> {
    let (line, lay) = (results.line.as_ref()?, results.lay.as_ref()?);
    let view = PlanView::whole(site, &line.run, SHEET);
    Some(plan_as_laid(site, line, lay, view, SHEET))
}

fn sample(folder: &Path) -> anyhow::Result<PathBuf> {
    let shelf = Shelf::at(folder.join("sites"));
    let is_curved = |path: &PathBuf| {
        path.file_name()
            .is_some_and(|name| name.to_string_lossy().contains("curved"))
    };
    let there: Vec<PathBuf> = shelf
        .list()
        .map(|entries| entries.into_iter().map(|entry| entry.folder).collect())
        .unwrap_or_default();
    if let Some(curved) = there.into_iter().find(is_curved) {
        return Ok(curved);
    }
    let copies = shelf.copy_samples()?;
    copies
        .into_iter()
        .find(is_curved)
        .context("the curved sample is not among the samples")
}

fn complain(what: &str, error: &RecordError) {
    use std::io::Write as _;
    // Where even stderr is closed there is nobody left to tell.
    drop(writeln!(
        std::io::stderr(),
        "own {what} left out, the built-in ones are used: {error}"
    ));
}

fn write_drawing(folder: &Path, name: &str, drawing: &Drawing) -> anyhow::Result<()> {
    write_file(
        folder,
        &format!("{name}.svg"),
        svg::write(drawing, Theme::Sun).as_bytes(),
    )?;
    let picture = picture::of_drawing(drawing, Theme::Sun, 2.0)?;
    write_file(folder, &format!("{name}.png"), &picture.png()?)
}

fn write_file(folder: &Path, name: &str, bytes: &[u8]) -> anyhow::Result<()> {
    let path = folder.join(name);
    std::fs::write(&path, bytes)
        .with_context(|| format!("could not be written: {}", path.display()))
}
