//! All sheets of one site, and the same marks of their pages drawn by a general PDF library of another language.

use std::io::Write as _;
use std::process::{Command, Stdio};

use anyhow::Context as _;
use underbrick_calc::compute;
use underbrick_calc::site::Language;
use underbrick_drawing::Drawing;
use underbrick_drawing::font::Weight;
use underbrick_drawing::item::{Item, Pen, Point};
use underbrick_drawing::palette::{Ink, Theme, rgb};
use underbrick_drawing::text::{Placed, lay_out};
use underbrick_records::read_site;
use underbrick_sheets::paper::{Pages, Paper, lay_out as pages_of, write_pdf};
use underbrick_sheets::sheet_set::{SHEETS, SheetSet};

use super::grid::fastest;

/// Prints what all sheets cost, and the part of it that the peer does too.
pub fn print() -> anyhow::Result<()> {
    let catalogue = underbrick_records::catalogue()?;
    let (site, _) = read_site(crate::CURVED)?.checked(&catalogue);
    let results = compute(&site, &catalogue);
    let set = SheetSet {
        site: &site,
        catalogue: &catalogue,
        results: &results,
        letterhead: None,
        paper: Paper::Letter,
        language: Language::English,
        date: (2026, 5, 4),
        pictures: &[],
    };
    let (all_ms, sizes) = fastest(10, || {
        let made = SHEETS
            .iter()
            .map(|sheet| sheet.bytes(&set).map_or(0, |bytes| bytes.len()));
        made.collect::<Vec<usize>>()
    });
    println!("\nAll sheets of the curved sample, from its results to whole files:");
    println!(
        "  {:<28}{all_ms:8.1} ms  (to reach: under 150 ms)",
        "everything"
    );
    for (sheet, size) in SHEETS.iter().zip(&sizes) {
        println!(
            "  {:<28}{:8.1} KB",
            sheet.file,
            f64::from(u32::try_from(*size)?) / 1000.0
        );
    }
    let documents: Vec<Pages> = SHEETS
        .iter()
        .filter_map(|sheet| sheet.document(&set))
        .map(|document| pages_of(&document, set.paper))
        .collect();
    let (written_ms, _) = fastest(10, || {
        let written = documents
            .iter()
            .map(|pages| write_pdf(pages).map_or(0, |bytes| bytes.len()));
        written.sum::<usize>()
    });
    println!(
        "  {:<28}{written_ms:8.1} ms  (pages as laid out to the four PDFs)",
        "PDF alone"
    );
    match peer(&documents) {
        Ok(peer_ms) => println!(
            "  {:<28}{peer_ms:8.1} ms  (peer: Python's reportlab drawing the same marks, untagged)\n  ratio peer ÷ ours           {:8.1}  (to reach: 5)",
            "beside",
            peer_ms / written_ms
        ),
        Err(error) => println!("  no peer: {error:#}"),
    }
    Ok(())
}

fn peer(documents: &[Pages]) -> anyhow::Result<f64> {
    let python = std::env::var("PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let mut child = Command::new(&python)
        .args(["-c", include_str!("reportlab_peer.py")])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .with_context(|| format!("there is no {python}"))?;
    let documents: Vec<serde_json::Value> = documents
        .iter()
        .map(|pages| {
            pages
                .pages
                .iter()
                .map(|page| page_json(&page.drawing))
                .collect()
        })
        .collect();
    let task = serde_json::to_vec(&documents)?;
    let written = child
        .stdin
        .take()
        .context("no way to write to Python")?
        .write_all(&task);
    let output = child.wait_with_output()?;
    anyhow::ensure!(
        written.is_ok() && output.status.success(),
        "this Python has no reportlab (pip install reportlab, and PYTHON=its path)"
    );
    Ok(String::from_utf8_lossy(&output.stdout).trim().parse()?)
}

/// The marks of a page in points, from its lower left corner.
fn page_json(page: &Drawing) -> serde_json::Value {
    let marks: Vec<serde_json::Value> = page
        .items
        .iter()
        .map(|item| mark_json(page, item))
        .collect();
    marks.into()
}

const DOT: f64 = underbrick_sheets::paper::DOT_MM * 72.0 / 25.4;

fn mark_json(page: &Drawing, item: &Item) -> serde_json::Value {
    let spot = |point: Point| {
        let (right, down) = page.sheet_from_drawing(point);
        [right * DOT, (page.sheet.height - down) * DOT]
    };
    let line = |points: &[Point]| points.iter().map(|point| spot(*point)).collect::<Vec<_>>();
    match item {
        Item::Area {
            outline, fill, pen, ..
        } => {
            serde_json::json!({"kind": "area", "lines": [line(outline)], "fill": colour(*fill), "pen": pen.map(pen_json)})
        }
        Item::Line { points, pen, .. } => {
            serde_json::json!({"kind": "line", "lines": [line(points)], "pen": pen_json(*pen)})
        }
        Item::Hatch { strokes, pen } => {
            let lines: Vec<_> = strokes.iter().map(line).collect();
            serde_json::json!({"kind": "line", "lines": lines, "pen": pen_json(*pen)})
        }
        Item::Label {
            at,
            text,
            size,
            ink,
            anchor,
            ..
        } => {
            let laid_out = lay_out(text);
            let [x, y] = spot(*at);
            let size = size * DOT;
            let left = x - size * laid_out.advance * anchor.share();
            let runs: Vec<_> = laid_out
                .parts
                .iter()
                .filter_map(|part| match part {
                    Placed::Run {
                        x,
                        y: up,
                        size: share,
                        letters,
                    } => Some(serde_json::json!([
                        left + size * x,
                        y - 0.35 * size + size * up,
                        size * share,
                        letters
                    ])),
                    Placed::Bar { .. } => None,
                })
                .collect();
            serde_json::json!({"kind": "text", "runs": runs, "bold": text.weight == Weight::Bold, "fill": colour(*ink)})
        }
    }
}

fn pen_json(pen: Pen) -> serde_json::Value {
    let dashes = pen.dashes().map(|(on, off)| [on * DOT, off * DOT]);
    serde_json::json!({"colour": colour(pen.ink), "width": pen.width * DOT, "dashes": dashes})
}

fn colour(ink: Ink) -> [f64; 3] {
    rgb(ink, Theme::Sun).map(|part| f64::from(part) / 255.0)
}
