//! The drawings of the crew sheet by geometry: every piece on a page, match lines where the neighbour has them, the edge at its scale.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};
use std::sync::Arc;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::{Language, ShownIn, Site};
use underbrick_calc::{Results, compute};
use underbrick_drawing::clearance::faults;
use underbrick_drawing::item::{Dash, Drawing, Item, Point};
use underbrick_records::OpenSite;
use underbrick_sheets::crew::{CrewSheet, Said, crew_sheet};
use underbrick_sheets::paper::{Block, DOT_MM, Document, Figure, Paper};

struct Sample {
    name: String,
    site: Site,
    catalogue: Catalogue,
    results: Results,
}

fn every_sample() -> Vec<Sample> {
    let catalogue = underbrick_records::catalogue().unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root.join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    folders
        .into_iter()
        .map(|folder| {
            let (site, _) = OpenSite::open(&folder).unwrap().site().checked(&catalogue);
            let results = compute(&site, &catalogue);
            Sample {
                name: folder.file_name().unwrap().to_string_lossy().into_owned(),
                site,
                catalogue: catalogue.clone(),
                results,
            }
        })
        .collect()
}

fn sheet(sample: &Sample, paper: Paper, language: Language) -> Document {
    crew_sheet(CrewSheet {
        site: &sample.site,
        catalogue: &sample.catalogue,
        results: &sample.results,
        paper,
        date: "4 May 2026",
        from: "",
        language,
    })
}

fn figures(blocks: &[Block]) -> Vec<&Figure> {
    blocks
        .iter()
        .flat_map(|block| match block {
            Block::Together(inner) => figures(inner),
            Block::Figure(figure) => vec![figure],
            _ => Vec::new(),
        })
        .collect()
}

/// The parts of the laying plan, from the door on.
fn plan_parts(document: &Document) -> Vec<Arc<Drawing>> {
    figures(&document.blocks)
        .into_iter()
        .filter(|figure| figure.caption.starts_with("Laying plan"))
        .map(|figure| figure.drawing.clone())
        .collect()
}

fn stands_on(drawing: &Drawing, point: Point) -> bool {
    let (x, y) = drawing.sheet_from_drawing(point);
    (0.0..=drawing.sheet.width).contains(&x) && (0.0..=drawing.sheet.height).contains(&y)
}

#[test]
fn every_piece_stands_whole_on_a_page_of_the_plan() {
    for sample in every_sample() {
        let Some(lay) = sample.results.lay.as_ref() else {
            continue;
        };
        if sample.results.build.is_none() || lay.pieces.all().is_empty() {
            continue;
        }
        for paper in [Paper::Letter, Paper::A4] {
            let parts = plan_parts(&sheet(&sample, paper, Language::English));
            assert!(!parts.is_empty(), "{}", sample.name);
            for piece in lay.pieces.all() {
                let corners: Vec<Point> = lay
                    .pieces
                    .outline(piece)
                    .iter()
                    .map(|corner| Point {
                        x: corner.right_m,
                        y: corner.away_m,
                    })
                    .collect();
                assert!(corners.len() >= 3);
                let whole = parts
                    .iter()
                    .any(|part| corners.iter().all(|corner| stands_on(part, *corner)));
                assert!(
                    whole,
                    "{}, {paper:?}: course {} piece {} at {corners:?}",
                    sample.name, piece.course, piece.nth
                );
            }
        }
    }
}

/// Match lines of a part: thick dashed lines in ink that no material has.
fn match_lines(drawing: &Drawing) -> Vec<Vec<Point>> {
    drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Line {
                points,
                pen,
                place: None,
            } if pen.dash == Dash::Dashed && (pen.width - 2.6).abs() < 1e-9 => Some(points.clone()),
            _ => None,
        })
        .collect()
}

fn says(drawing: &Drawing, written: &str) -> bool {
    drawing
        .items
        .iter()
        .any(|item| matches!(item, Item::Label { text, .. } if text.written == written))
}

#[test]
fn a_match_line_is_the_same_line_on_both_pages() {
    let mut n_joined = 0;
    for sample in every_sample() {
        let Some(line) = &sample.results.line else {
            continue;
        };
        let document = sheet(&sample, Paper::Letter, Language::English);
        let parts = plan_parts(&document);
        for (nth, pair) in parts.windows(2).enumerate() {
            let (here, next) = (match_lines(&pair[0]), match_lines(&pair[1]));
            let same: Vec<&Vec<Point>> = here.iter().filter(|line| next.contains(line)).collect();
            assert_eq!(same.len(), 1, "{}, after part {}", sample.name, nth + 1);
            let last = same[0];
            // Each says its letter.
            let letter = u8::try_from(nth).map(|nth| char::from(b'A' + nth)).unwrap();
            for part in pair {
                assert!(
                    says(part, &format!("match line {letter}")) || says(part, &letter.to_string()),
                    "{}, after part {}",
                    sample.name,
                    nth + 1
                );
            }
            // On the sheet of both, and square to the run.
            for end in last {
                assert!(stands_on(&pair[0], *end) && stands_on(&pair[1], *end));
            }
            let across = libm::hypot(last[1].x - last[0].x, last[1].y - last[0].y);
            let clear = in_metres(line.run.clear_width_at(metres(0.0)));
            assert!(across > 0.8 * clear, "{}: {across}", sample.name);
            n_joined += 1;
        }
    }
    assert!(n_joined >= 3, "{n_joined} match lines on all samples");
}

#[test]
fn the_letter_of_a_match_line_touches_nothing() {
    for sample in every_sample() {
        if sample.results.build.is_none() {
            continue;
        }
        for (language, words) in [
            (Language::English, "match line"),
            (Language::Spanish, "línea de empalme"),
        ] {
            for paper in [Paper::Letter, Paper::A4] {
                let document = sheet(&sample, paper, language);
                for figure in figures(&document.blocks) {
                    let faults: Vec<String> = faults(&figure.drawing)
                        .into_iter()
                        .filter(|fault| fault.contains(words))
                        .collect();
                    assert!(
                        faults.is_empty(),
                        "{}, {paper:?}: {}\n{}",
                        sample.name,
                        figure.caption,
                        faults.join("\n")
                    );
                }
            }
        }
    }
}

#[test]
fn plans_and_edges_are_at_the_scale_that_they_name() {
    for sample in every_sample() {
        if sample.results.build.is_none() {
            continue;
        }
        let document = sheet(&sample, Paper::Letter, Language::English);
        let mut n_scaled = 0;
        for figure in figures(&document.blocks) {
            // "(1 : 16)" or "1 : 20" in the caption: a metre is 1000 / 16 mm on paper, of 0.2 mm a dot.
            let Some((_, after)) = figure.caption.split_once("1 : ") else {
                continue;
            };
            let digits: String = after.chars().take_while(char::is_ascii_digit).collect();
            let times: f64 = digits.parse().unwrap();
            let dots = 1000.0 / times / DOT_MM;
            assert!(
                (figure.drawing.dots_per_metre - dots).abs() < 1e-9,
                "{}: {}",
                sample.name,
                figure.caption
            );
            n_scaled += 1;
        }
        assert!(n_scaled >= 2, "{}: {n_scaled}", sample.name);
    }
}

#[test]
fn the_edge_is_drawn_large_and_can_be_read_in_both_languages() {
    for sample in every_sample() {
        let Some(bed) = &sample.results.bed else {
            continue;
        };
        if sample.results.build.is_none() {
            continue;
        }
        let shown = sample.site.shown_in;
        for paper in [Paper::Letter, Paper::A4] {
            for (language, begins) in [
                (Language::English, "The right edge in the middle"),
                (Language::Spanish, "El borde derecho a la mitad"),
            ] {
                let document = sheet(&sample, paper, language);
                let figure = figures(&document.blocks)
                    .into_iter()
                    .find(|figure| figure.caption.starts_with(begins))
                    .unwrap();
                let drawing = &figure.drawing;
                assert_eq!(drawing.sheet.width, paper.text_dots().0);
                assert!(drawing.sheet.height < paper.text_dots().1);
                let faults = faults(drawing);
                assert!(
                    faults.is_empty(),
                    "{}, {paper:?}, {language:?}:\n{}",
                    sample.name,
                    faults.join("\n")
                );
                let labels: Vec<&str> = drawing
                    .items
                    .iter()
                    .filter_map(|item| match item {
                        Item::Label { text, .. } => Some(text.written.as_str()),
                        _ => None,
                    })
                    .collect();
                for size in [bed.edge.brick.across, bed.edge.brick.depth, bed.setting_bed] {
                    let written = shown.length(size);
                    assert!(
                        labels.contains(&written.as_str()),
                        "{}: {written} not in {labels:?}",
                        sample.name
                    );
                }
            }
        }
    }
}

#[test]
fn what_is_sawn_comes_to_what_is_cut() {
    for sample in every_sample() {
        let Some(lay) = &sample.results.lay else {
            continue;
        };
        if sample.results.build.is_none() || lay.cuts.lines.is_empty() {
            continue;
        }
        let said = Said::of(Language::English, ShownIn::FeetInches);
        let document = sheet(&sample, Paper::Letter, Language::English);
        let mut n_of_letter = std::collections::BTreeMap::<String, u32>::new();
        for block in &document.blocks {
            let Block::Table(table) = block else { continue };
            if table.columns[0].head != said.say("bricks") {
                continue;
            }
            for pair in table.rows.iter().flat_map(|row| row.cells.chunks(2)) {
                let Ok(n_bricks) = pair[0].parse::<u32>() else {
                    continue;
                };
                for letter in pair[1].split(" + ") {
                    *n_of_letter.entry(letter.to_owned()).or_default() += n_bricks;
                }
            }
        }
        for line in &lay.cuts.lines {
            let sawn = n_of_letter.get(&line.letter).copied().unwrap_or(0);
            assert!(
                sawn >= line.n_pieces,
                "{}: {} of {} sawn, {} wanted",
                sample.name,
                sawn,
                line.letter,
                line.n_pieces
            );
        }
    }
}

#[test]
fn a_part_shows_little_more_than_its_stretch_and_none_is_a_stub() {
    for sample in every_sample() {
        let Some(lay) = &sample.results.lay else {
            continue;
        };
        let document = sheet(&sample, Paper::Letter, Language::English);
        let drawn: Vec<(f64, f64)> = plan_parts(&document)
            .iter()
            .map(|part| {
                let stations = part.items.iter().filter_map(|item| match item {
                    Item::Area {
                        place: Some(Place::Piece(idx)),
                        ..
                    } => lay.pieces.all().get(usize::try_from(*idx).ok()?),
                    _ => None,
                });
                stations.map(|piece| in_metres(piece.station)).fold(
                    (f64::INFINITY, f64::NEG_INFINITY),
                    |(low, high), station| (low.min(station), high.max(station)),
                )
            })
            .collect();
        for pair in drawn.windows(2) {
            // 44 dots on both sides of the match line are 0.18 m at 1 : 20.
            let shared_m = pair[0].1 - pair[1].0;
            assert!(
                (0.0..0.4).contains(&shared_m),
                "{}: {shared_m}",
                sample.name
            );
        }
        let lengths = drawn.iter().map(|(low, high)| high - low);
        let (least, most) = lengths.fold((f64::INFINITY, 0.0_f64), |(least, most), length| {
            (least.min(length), most.max(length))
        });
        // A stretch on a curve may have to be shorter than the others to fit its page.
        assert!(
            drawn.len() < 2 || least > 0.5 * most,
            "{}: {least} to {most}",
            sample.name
        );
    }
}
