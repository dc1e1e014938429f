//! Every sample site from its file to what is handed over. The texts are compared with those that a person has read:
//! `UPDATE_GOLDEN=1` renews them; read what you renew.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};

use underbrick_calc::findings::Findings;
use underbrick_calc::quantity::metres;
use underbrick_calc::site::Site;
use underbrick_calc::{Results, compute};
use underbrick_drawing::item::{Drawing, Sheet};
use underbrick_drawing::palette::Theme;
use underbrick_drawing::{clearance, cross_section, long_section, svg};
use underbrick_records::OpenSite;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests package stands in the root")
        .to_path_buf()
}

struct Sample {
    name: String,
    site: Site,
    results: Results,
    findings: Findings,
}

fn samples() -> Vec<Sample> {
    let catalogue = underbrick_records::catalogue().unwrap();
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root().join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    assert_eq!(folders.len(), 7, "all sample sites");
    folders
        .iter()
        .map(|folder| {
            let open = OpenSite::open(folder).unwrap();
            let (site, mut findings) = open.site().checked(&catalogue);
            let results = compute(&site, &catalogue);
            findings.append(results.findings.clone());
            Sample {
                name: folder.file_name().unwrap().to_string_lossy().into_owned(),
                site,
                results,
                findings,
            }
        })
        .collect()
}

#[track_caller]
fn check_golden(file: &str, text: &str) {
    let path = root().join("tests/golden").join(file);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, text).unwrap();
    }
    let golden = std::fs::read_to_string(&path).unwrap_or_default();
    if let Some((idx, (was, is))) = golden
        .lines()
        .zip(text.lines())
        .enumerate()
        .find(|(_, (was, is))| was != is)
    {
        panic!("{file}, line {}:\n  was {was}\n  is  {is}", idx + 1);
    }
    assert_eq!(
        golden.lines().count(),
        text.lines().count(),
        "{file} has another number of lines"
    );
}

#[test]
fn results_of_every_sample_are_as_read() {
    for sample in samples() {
        let sheet = underbrick_sheets::results(&sample.site, &sample.results, &sample.findings);
        check_golden(
            &format!("{}.txt", sample.name),
            &underbrick_sheets::to_text(&sheet),
        );
    }
}

/// Both drawings on the canvases of both screens.
fn drawings(sample: &Sample) -> Vec<(String, Drawing)> {
    let catalogue = underbrick_records::catalogue().unwrap();
    let length = sample
        .results
        .line
        .as_ref()
        .map_or(metres(0.0), |line| line.run.length());
    let mut drawings = Vec::new();
    for (way, width, height) in [("lying", 768.0, 401.0), ("upright", 800.0, 376.0)] {
        let sheet = Sheet {
            width,
            height,
            text_scale: 1.0,
        };
        for share in [0.0, 0.33, 0.71, 1.0] {
            let station = length * share;
            let cross = cross_section(&sample.site, &catalogue, &sample.results, station, sheet);
            let long =
                long_section(&sample.site, &catalogue, &sample.results, station, sheet).drawing;
            drawings.push((
                format!("{} cross-section {way} at {share}", sample.name),
                cross,
            ));
            drawings.push((
                format!("{} long section {way} at {share}", sample.name),
                long,
            ));
        }
    }
    drawings
}

#[test]
fn no_label_of_any_sample_is_crossed_or_covered() {
    for sample in samples() {
        for (name, drawing) in drawings(&sample) {
            assert_eq!(clearance::faults(&drawing), Vec::<String>::new(), "{name}");
        }
    }
}

#[test]
fn every_drawing_of_every_sample_is_an_svg_that_another_program_reads() {
    for sample in samples() {
        for (name, drawing) in drawings(&sample) {
            for theme in [Theme::Sun, Theme::Dim] {
                let text = svg::write(&drawing, theme);
                let tree = usvg::Tree::from_str(&text, &usvg::Options::default())
                    .unwrap_or_else(|error| panic!("{name}: {error}"));
                let size = (
                    f64::from(tree.size().width()),
                    f64::from(tree.size().height()),
                );
                assert_eq!(size, (drawing.sheet.width, drawing.sheet.height), "{name}");
            }
        }
    }
}

#[test]
fn the_curved_sample_drawn_is_as_looked_at() {
    let sample = samples()
        .into_iter()
        .find(|sample| sample.name.contains("curved"))
        .unwrap();
    let (_, drawing) = drawings(&sample).into_iter().nth(2).unwrap();
    check_golden(
        "curved-cross-section.svg",
        &svg::write(&drawing, Theme::Sun),
    );
}

#[test]
fn samples_are_kept_in_the_form_that_the_program_writes() {
    for sample in samples() {
        let path: &Path = &root()
            .join("sample-sites")
            .join(&sample.name)
            .join("site.ron");
        let text = std::fs::read_to_string(path).unwrap();
        assert_eq!(
            underbrick_records::write_site(&underbrick_records::read_site(&text).unwrap()),
            text,
            "{}",
            sample.name
        );
    }
}
