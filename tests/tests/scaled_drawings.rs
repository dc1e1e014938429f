//! Drawings on paper at a round scale: the bar that is drawn is as long on paper as it says, and so is the walk.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};

use underbrick_calc::compute;
use underbrick_calc::measure::written::{LengthStyle, Nearest, write_length};
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::ShownIn;
use underbrick_drawing::clearance::faults;
use underbrick_drawing::item::{Anchor, Item, Sheet};
use underbrick_drawing::palette::Ink;
use underbrick_drawing::{Drawing, cross_section};
use underbrick_records::{OpenSite, SiteFile};
use underbrick_sheets::paper::{
    DOT_MM, Paper, RoundScale, cross_section_scaled, long_section_scaled,
};

fn every_sample() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root.join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    folders
}

/// Millimetres on the ground from what stands at the end of a bar scale: "1 ft", "6 in", "500 mm", "1 m".
fn ground_mm(written: &str) -> Option<f64> {
    let (number, unit) = written.split_once(' ')?;
    let unit_mm = match unit {
        "ft" => 304.8,
        "in" => 25.4,
        "m" => 1000.0,
        "mm" => 1.0,
        _ => return None,
    };
    Some(number.parse::<f64>().ok()? * unit_mm)
}

/// Length on paper of the bar scale in millimetres, from the left end of its first part to the right end of its last, and on the ground.
fn bar(drawing: &Drawing) -> (f64, f64) {
    // The lowest length that ends where it stands: dimensions stand higher.
    let lengths = drawing.items.iter().filter_map(|item| match item {
        Item::Label {
            at,
            text,
            anchor: Anchor::Right,
            ..
        } => Some((drawing.sheet_from_drawing(*at).1, ground_mm(&text.written)?)),
        Item::Label { .. } | Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
    });
    let end = lengths
        .max_by(|one, other| one.0.total_cmp(&other.0))
        .map(|(_, length)| length);
    let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
    for item in &drawing.items {
        // Parts of the bar: 6 dots high, of ink or paper, with a pen.
        if let Item::Area {
            outline,
            fill: Ink::Ink | Ink::Paper,
            pen: Some(_),
            ..
        } = item
            && let &[upper, _, _, lower] = outline.as_slice()
        {
            let down = |point| drawing.sheet_from_drawing(point).1;
            if ((down(lower) - down(upper)).abs() - 6.0).abs() < 1e-6 {
                for point in outline {
                    let (x, _) = drawing.sheet_from_drawing(*point);
                    ends = (ends.0.min(x), ends.1.max(x));
                }
            }
        }
    }
    ((ends.1 - ends.0) * DOT_MM, end.unwrap())
}

#[test]
fn the_bar_of_a_cross_section_measures_what_it_says_at_the_scale_that_is_said() {
    for folder in every_sample() {
        let catalogue = underbrick_records::catalogue().unwrap();
        let (site, _) = OpenSite::open(&folder).unwrap().site().checked(&catalogue);
        let results = compute(&site, &catalogue);
        let run_m = in_metres(results.line.as_ref().unwrap().run.length());
        for paper in [Paper::Letter, Paper::A4] {
            let (width, _) = paper.text_dots();
            for height in [380.0, 460.0, 520.0, 900.0] {
                let sheet = Sheet {
                    width,
                    height,
                    text_scale: 1.0,
                };
                for share in [0.0, 0.3, 0.5, 0.8, 1.0] {
                    let what = format!("{}, {paper:?}, {height}, {share}", folder.display());
                    let station = metres(run_m * share);
                    let scaled = cross_section_scaled(&site, &catalogue, &results, station, sheet);
                    let scale = scaled.scale.unwrap();
                    let (paper_mm, ground_mm) = bar(&scaled.drawing);
                    let expected = ground_mm / f64::from(scale.one_to);
                    assert!(
                        (paper_mm - expected).abs() < 1e-6,
                        "{what}: {paper_mm} mm for {expected} mm"
                    );
                    let drawn = scaled.drawing.sheet;
                    assert!(
                        drawn.height <= height + 1e-9 && drawn.width <= width + 1e-9,
                        "{what}"
                    );
                    let faults = faults(&scaled.drawing);
                    assert!(faults.is_empty(), "{what}:\n{}", faults.join("\n"));
                    // Neighbouring scales are at most twice as large: no more than that is lost to being round.
                    let free = cross_section(&site, &catalogue, &results, station, sheet);
                    assert!(
                        scaled.drawing.dots_per_metre >= 0.45 * free.dots_per_metre,
                        "{what}: {} of {}",
                        scaled.drawing.dots_per_metre,
                        free.dots_per_metre
                    );
                }
            }
        }
    }
}

#[test]
fn the_walk_lengthwise_is_as_long_on_paper_as_its_scale_says() {
    for folder in every_sample() {
        let catalogue = underbrick_records::catalogue().unwrap();
        let (site, _) = OpenSite::open(&folder).unwrap().site().checked(&catalogue);
        let results = compute(&site, &catalogue);
        let run = results.line.as_ref().unwrap().run.length();
        for paper in [Paper::Letter, Paper::A4] {
            let sheet = Sheet {
                width: paper.text_dots().0,
                height: 420.0,
                text_scale: 1.0,
            };
            let scaled = long_section_scaled(&site, &catalogue, &results, run * 0.5, sheet);
            let what = format!("{}, {paper:?}", folder.display());
            let scale = scaled.scale.unwrap();
            let drawing = &scaled.drawing;
            // The figure at the far end of the axis stands under it.
            let written = match site.shown_in {
                ShownIn::FeetInches => {
                    write_length(run, LengthStyle::FeetInches(Nearest::Sixteenth))
                }
                ShownIn::Metric => site.shown_in.along(run),
            };
            let at = drawing.items.iter().find_map(|item| match item {
                Item::Label { at, text, .. } if text.written == written => Some(*at),
                Item::Label { .. } | Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => {
                    None
                }
            });
            let at = at.unwrap_or_else(|| panic!("{what}: no {written}"));
            let door =
                drawing.sheet_from_drawing(underbrick_drawing::item::Point { x: 0.0, y: 0.0 });
            let end = drawing.sheet_from_drawing(at);
            let paper_mm = (end.0 - door.0) * DOT_MM;
            let expected = in_metres(run) * 1000.0 / f64::from(scale.one_to);
            assert!(
                (paper_mm - expected).abs() < 1.0,
                "{what}: {paper_mm} mm for {expected} mm at {}",
                scale.written
            );
            let faults = faults(drawing);
            assert!(faults.is_empty(), "{what}:\n{}", faults.join("\n"));
        }
    }
}

#[test]
fn a_section_of_nothing_has_no_scale() {
    let catalogue = underbrick_records::catalogue().unwrap();
    let (site, _) = SiteFile::new("3 Sample Lane", "front walk").checked(&catalogue);
    let results = compute(&site, &catalogue);
    let sheet = Sheet {
        width: 900.0,
        height: 460.0,
        text_scale: 1.0,
    };
    let cross = cross_section_scaled(&site, &catalogue, &results, metres(0.0), sheet);
    let long = long_section_scaled(&site, &catalogue, &results, metres(0.0), sheet);
    assert_eq!((cross.scale, long.scale), (None, None));
}

#[test]
fn what_fits_no_round_scale_is_drawn_and_says_none() {
    // 20 mm of paper: a section does not fit at any of them.
    let folder = &every_sample()[0];
    let catalogue = underbrick_records::catalogue().unwrap();
    let (site, _) = OpenSite::open(folder).unwrap().site().checked(&catalogue);
    let results = compute(&site, &catalogue);
    let sheet = Sheet {
        width: 100.0,
        height: 100.0,
        text_scale: 1.0,
    };
    let scaled = cross_section_scaled(&site, &catalogue, &results, metres(1.0), sheet);
    let scales = RoundScale::all(site.shown_in);
    assert_eq!(
        scaled.scale.is_some(),
        scales
            .iter()
            .any(|scale| (scale.dots_per_metre() - scaled.drawing.dots_per_metre).abs() < 1e-9)
    );
    assert!(!scaled.drawing.items.is_empty());
}
