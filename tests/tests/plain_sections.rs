//! The two sections that a homeowner is shown, drawn for every sample site.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::order::Way;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::Site;
use underbrick_calc::{Results, compute};
use underbrick_drawing::clearance::faults;
use underbrick_drawing::item::{Item, Point, Sheet};
use underbrick_drawing::palette::Theme;
use underbrick_drawing::{Drawing, plain, plain_lengthwise, svg};
use underbrick_records::OpenSite;

fn samples() -> Vec<(String, Site)> {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let samples = root.parent().expect("the tests package stands in the root");
    let mut folders: Vec<PathBuf> = std::fs::read_dir(samples.join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    let catalogue = catalogue();
    let mut sites = Vec::new();
    for folder in folders {
        let (site, _) = OpenSite::open(&folder).unwrap().site().checked(&catalogue);
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        sites.push((name, site));
    }
    sites
}

fn catalogue() -> Catalogue {
    underbrick_records::catalogue().unwrap()
}

/// On paper, on a tablet's screen one above the other and side by side, and small with large type.
const SHEETS: [Sheet; 4] = [
    Sheet {
        width: 919.0,
        height: 360.0,
        text_scale: 1.0,
    },
    Sheet {
        width: 1240.0,
        height: 330.0,
        text_scale: 1.25,
    },
    Sheet {
        width: 620.0,
        height: 600.0,
        text_scale: 1.0,
    },
    Sheet {
        width: 480.0,
        height: 300.0,
        text_scale: 1.6,
    },
];

fn labels(drawing: &Drawing) -> Vec<String> {
    let written = drawing.items.iter().filter_map(|item| match item {
        Item::Label { text, .. } => Some(text.written.clone()),
        Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
    });
    written.collect()
}

/// Where in metres the parts of a place reach from and to, down and up.
fn reach(drawing: &Drawing, wanted: Place) -> Option<(f64, f64)> {
    let areas = drawing.items.iter().filter_map(|item| match item {
        Item::Area {
            outline,
            place: Some(place),
            ..
        } if *place == wanted && is_wide(outline) => Some(outline),
        _ => None,
    });
    let levels: Vec<f64> = areas.flatten().map(|corner| corner.y).collect();
    let low = levels.iter().copied().reduce(f64::min)?;
    let high = levels.iter().copied().reduce(f64::max)?;
    Some((low, high))
}

/// Whether an outline is wider than the disc at the end of a leader.
fn is_wide(outline: &[Point]) -> bool {
    let across = outline.iter().map(|corner| corner.x);
    let left = across.clone().fold(f64::INFINITY, f64::min);
    across.fold(f64::NEG_INFINITY, f64::max) - left > 0.1
}

fn run_m(results: &Results) -> f64 {
    results
        .line
        .as_ref()
        .map_or(0.0, |line| in_metres(line.run.length()))
}

#[test]
fn both_have_one_scale_and_can_be_read_on_every_sheet() {
    let catalogue = catalogue();
    for (name, site) in samples() {
        for way in Way::ALL {
            let mut site = site.clone();
            site.order.way = way;
            let results = compute(&site, &catalogue);
            for share in [0.0, 0.33, 0.5, 1.0] {
                let station = metres(share * run_m(&results));
                for (nth, sheet) in SHEETS.into_iter().enumerate() {
                    let what = format!("{name}, {way:?}, {share} of the run, sheet {nth}");
                    let found =
                        plain::as_found_section(&site, &catalogue, &results, station, sheet);
                    let proposed =
                        plain::proposed_section(&site, &catalogue, &results, station, sheet);
                    assert_eq!(found.dots_per_metre, proposed.dots_per_metre, "{what}");
                    assert_eq!(found.upper_left, proposed.upper_left, "{what}");
                    for (drawing, which) in [(&found, "found"), (&proposed, "proposed")] {
                        let faults = faults(drawing);
                        assert!(faults.is_empty(), "{what}, {which}: {}", faults.join("\n"));
                        let written = svg::write(drawing, Theme::Sun);
                        usvg::Tree::from_str(&written, &usvg::Options::default()).unwrap();
                        assert!(!written.contains("NaN"), "{what}");
                        if let Some(folder) = std::env::var_os("PLAIN_SECTIONS") {
                            let file = format!("{name}-{way:?}-{nth}-{which}-{share}.svg");
                            std::fs::write(PathBuf::from(folder).join(file), written).unwrap();
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn the_walk_from_the_side_can_be_read_on_every_sheet() {
    let catalogue = catalogue();
    for (name, site) in samples() {
        let results = compute(&site, &catalogue);
        for (nth, sheet) in SHEETS.into_iter().enumerate() {
            let drawing = plain_lengthwise(&site, &catalogue, &results, sheet);
            let what = format!("{name}, sheet {nth}");
            let faults = faults(&drawing);
            assert!(faults.is_empty(), "{what}: {}", faults.join("\n"));
            let written = svg::write(&drawing, Theme::Sun);
            usvg::Tree::from_str(&written, &usvg::Options::default()).unwrap();
            let grade = drawing.items.iter().find_map(|item| match item {
                Item::Line {
                    points,
                    place: Some(Place::GradeLine),
                    ..
                } => Some(points),
                _ => None,
            });
            let grade = grade.unwrap();
            let line = results.line.as_ref().unwrap();
            // Where the drawing ends, heights taken back to true size.
            let end = grade.last().unwrap().y / drawing.heights_times;
            assert!((end - in_metres(line.grade.end)).abs() < 1e-6, "{what}");
            assert!(
                (grade.last().unwrap().x - run_m(&results)).abs() < 1e-6,
                "{what}"
            );
            if let Some(folder) = std::env::var_os("PLAIN_SECTIONS") {
                let file = format!("{name}-{nth}-side.svg");
                std::fs::write(PathBuf::from(folder).join(file), written).unwrap();
            }
        }
    }
}

#[test]
fn what_was_found_hangs_from_the_old_surface() {
    let catalogue = catalogue();
    let (_, site) = samples()
        .into_iter()
        .find(|(name, _)| name == "short-straight-sunk-on-sand")
        .unwrap();
    let results = compute(&site, &catalogue);
    let station = metres(12.0 * 0.3048 * 0.33);
    let found = plain::as_found_section(&site, &catalogue, &results, station, SHEETS[0]);
    // Pit 1 at 3 ft: 2 1/4 in brick, 1 in screenings, 8 in sand.
    let old = results.line.as_ref().unwrap().old_surface.clone();
    let across = |offset: f64| in_metres(old.at(station, metres(offset)).unwrap().level);
    let (low, high) = reach(&found, Place::LayerMaterial(0, 2)).unwrap();
    // The clear width of 40 3/4 in and an edge brick of 2 1/4 in on each side.
    let half = (40.75 / 2.0 + 2.25) * 0.0254;
    let tops = [-half, half].map(|offset| across(offset) - 3.25 * 0.0254);
    let most = tops[0].max(tops[1]);
    let least = tops[0].min(tops[1]) - 8.0 * 0.0254;
    assert!((high - most).abs() < 2e-3, "{high} {most}");
    assert!((low - least).abs() < 2e-3, "{low} {least}");
    let written = labels(&found).join(" | ");
    assert!(written.contains("loose sand"), "{written}");
    assert!(written.contains("8\" thick: has to come out"), "{written}");
}

fn shows_stone(drawing: &Drawing) -> bool {
    (1..20).any(|number| reach(drawing, Place::Lift(number)).is_some())
}

#[test]
fn a_way_that_keeps_the_old_base_shows_no_new_stone() {
    let catalogue = catalogue();
    for (name, mut site) in samples() {
        let station = metres(1.0);
        site.order.way = Way::Relay;
        let results = compute(&site, &catalogue);
        let kept = plain::proposed_section(&site, &catalogue, &results, station, SHEETS[0]);
        assert!(!shows_stone(&kept), "{name}");
        site.order.way = Way::NewBase;
        let results = compute(&site, &catalogue);
        let dug = plain::proposed_section(&site, &catalogue, &results, station, SHEETS[0]);
        assert!(shows_stone(&dug), "{name}");
    }
}

#[test]
fn each_step_adds_to_the_one_before() {
    let catalogue = catalogue();
    for (name, site) in samples() {
        let results = compute(&site, &catalogue);
        let station = metres(1.0);
        let steps = plain::building_steps(&site, &catalogue, &results, station);
        let lifts = steps
            .iter()
            .filter(|step| step.title.starts_with("Stone"))
            .count();
        // Dug, each layer of stone, edges, sand, brick.
        assert_eq!(steps.len(), lifts + 4, "{name}");
        let mut n_items = 0;
        for n_steps in 0..=steps.len() {
            let sheet = SHEETS[0];
            let drawing =
                plain::proposed_up_to(&site, &catalogue, &results, station, sheet, n_steps);
            let faults = faults(&drawing);
            assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
            let materials = drawing
                .items
                .iter()
                .filter(|item| matches!(item, Item::Area { .. }))
                .count();
            assert!(materials >= n_items, "{name}, step {n_steps}");
            n_items = materials;
        }
    }
}

#[test]
fn no_trade_word_stands_in_a_plain_section() {
    const TRADE: [&str; 12] = [
        "subgrade",
        "lift ",
        "lifts",
        "setting bed",
        "grade line",
        "haunch",
        "sailor",
        "soldier",
        "screed",
        "restraint",
        "fabric",
        "compact",
    ];
    let catalogue = catalogue();
    for (name, site) in samples() {
        for way in Way::ALL {
            let mut site = site.clone();
            site.order.way = way;
            let results = compute(&site, &catalogue);
            let station = metres(1.0);
            let mut said = String::new();
            let (found, proposed) = plain::plain_names(&site, &catalogue, &results, station);
            for each in found.iter().chain(&proposed) {
                said += &format!("{} {} {}\n", each.title, each.note, each.why);
            }
            for step in plain::building_steps(&site, &catalogue, &results, station) {
                said += &format!("{} {}\n", step.title, step.words);
            }
            for word in TRADE {
                assert!(!said.contains(word), "{name}: {word} in\n{said}");
            }
        }
    }
}
