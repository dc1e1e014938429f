//! The crew sheet of every sample, in both languages: what a crew asks is answered by it alone.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::{Path, PathBuf};

use underbrick_calc::build::{Asks, HoldStage};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::site::{Language, Site};
use underbrick_calc::{Results, compute};
use underbrick_drawing::item::Item;
use underbrick_records::OpenSite;
use underbrick_sheets::crew::{CrewSheet, Said, crew_sheet};
use underbrick_sheets::paper::{BOX, Block, Document, Paper, as_text};
use underbrick_words::Words;

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

fn sheet(sample: &Sample, language: Language) -> Document {
    crew_sheet(CrewSheet {
        site: &sample.site,
        catalogue: &sample.catalogue,
        results: &sample.results,
        paper: Paper::Letter,
        date: "4 May 2026",
        from: "",
        language,
    })
}

fn blocks(of: &[Block]) -> Vec<&Block> {
    of.iter()
        .flat_map(|block| match block {
            Block::Together(inner) => blocks(inner),
            other => vec![other],
        })
        .collect()
}

#[test]
fn every_drop_of_the_stake_table_stands_in_its_row() {
    for sample in every_sample() {
        let Some(build) = &sample.results.build else {
            continue;
        };
        for language in [Language::English, Language::Spanish] {
            let document = sheet(&sample, language);
            let tables: Vec<_> = blocks(&document.blocks)
                .into_iter()
                .filter_map(|block| match block {
                    Block::Table(table) => Some(table),
                    _ => None,
                })
                .collect();
            let said = Said::of(language, sample.site.shown_in);
            for (nth, stake) in build.stakes.iter().enumerate() {
                for row in &stake.rows {
                    let head = said.surface(row.surface);
                    let drop = sample.site.shown_in.length(row.drop);
                    let station = sample.site.shown_in.along(stake.station);
                    let stands = tables.iter().any(|table| {
                        let column = table.columns.iter().position(|column| column.head == head);
                        table.rows.len() == build.stakes.len()
                            && column.is_some_and(|column| {
                                table.rows[nth].cells[column] == drop
                                    && table.rows[nth].cells[0] == station
                            })
                    });
                    assert!(
                        stands,
                        "{}, {language:?}: {head} {drop} at {station}",
                        sample.name
                    );
                }
            }
        }
    }
}

#[test]
fn every_check_of_every_stage_has_a_box() {
    for sample in every_sample() {
        let Some(build) = &sample.results.build else {
            continue;
        };
        let document = sheet(&sample, Language::English);
        let boxes: Vec<&str> = blocks(&document.blocks)
            .into_iter()
            .filter_map(|block| match block {
                Block::Table(table) => Some(&table.rows),
                _ => None,
            })
            .flatten()
            .filter(|row| row.cells[0] == BOX)
            .map(|row| row.cells[1].as_str())
            .collect();
        let asked = build.stages.iter().flat_map(|stage| &stage.required);
        let asked: Vec<_> = asked
            .filter(|required| !matches!(required.asks, Asks::StageBefore(_)))
            .collect();
        let n_by_hand = build
            .stages
            .iter()
            .filter(|stage| {
                stage
                    .required
                    .iter()
                    .all(|required| matches!(required.asks, Asks::StageBefore(_)))
            })
            .count();
        assert_eq!(boxes.len(), asked.len() + n_by_hand, "{}", sample.name);
        // The words of a level are those of the app.
        for required in asked {
            if matches!(required.asks, Asks::Level { .. }) {
                let said = Said::of(Language::English, sample.site.shown_in).required(required);
                assert_eq!(said, required.what, "{}", sample.name);
                let is_it = |check: &&str| check.to_lowercase() == said.to_lowercase();
                assert!(boxes.iter().any(is_it), "{}: {said}", sample.name);
            }
        }
    }
}

#[test]
fn stages_and_cautions_in_english_are_those_of_the_app() {
    let said = Said::of(
        Language::English,
        underbrick_calc::site::ShownIn::FeetInches,
    );
    let stages = [
        HoldStage::LiftBrick,
        HoldStage::Dig,
        HoldStage::Fabric,
        HoldStage::Lift(2),
        HoldStage::Forms,
        HoldStage::Edge,
        HoldStage::Restraint,
        HoldStage::Riser(1),
        HoldStage::SettingBed,
        HoldStage::Field,
        HoldStage::Jointing,
        HoldStage::HandOver,
    ];
    for stage in stages {
        assert_eq!(
            said.stage(stage).to_lowercase(),
            stage.name().to_lowercase()
        );
    }
    for caution in underbrick_calc::build::Caution::ALL {
        assert_eq!(said.say(caution.key()), caution.words());
    }
    for sample in every_sample() {
        let english: Vec<String> = underbrick_sheets::cautions::cautions(&sample.site)
            .into_iter()
            .map(str::to_owned)
            .collect();
        assert_eq!(
            underbrick_sheets::cautions::cautions_in(&sample.site, said.words),
            english
        );
    }
}

#[test]
fn the_cut_list_counts_what_was_cut() {
    for sample in every_sample() {
        let Some(lay) = &sample.results.lay else {
            continue;
        };
        if sample.results.build.is_none() || lay.cuts.lines.is_empty() {
            continue;
        }
        let document = sheet(&sample, Language::English);
        let table = blocks(&document.blocks)
            .into_iter()
            .find_map(|block| match block {
                Block::Table(table) if table.columns[0].head == "Letter" => Some(table),
                _ => None,
            })
            .unwrap();
        let counted: usize = table
            .rows
            .iter()
            .map(|row| row.cells[1].parse::<usize>().unwrap())
            .sum();
        let cut = lay
            .pieces
            .all()
            .iter()
            .filter(|piece| piece.kind.is_cut())
            .count();
        assert_eq!(counted, cut, "{}", sample.name);
    }
}

#[test]
fn the_plan_goes_on_where_it_stopped() {
    for sample in every_sample() {
        let Some(line) = &sample.results.line else {
            continue;
        };
        let document = sheet(&sample, Language::English);
        let captions: Vec<&str> = blocks(&document.blocks)
            .into_iter()
            .filter_map(|block| match block {
                Block::Figure(figure) if figure.caption.starts_with("Laying plan, part") => {
                    Some(figure.caption.as_str())
                }
                _ => None,
            })
            .collect();
        let ends: Vec<(String, String)> = captions
            .iter()
            .map(|caption| {
                let rest = caption.split_once(": from ").unwrap().1;
                let (from, rest) = rest.split_once(" to ").unwrap();
                (
                    from.to_owned(),
                    rest.split_once(", to scale").unwrap().0.to_owned(),
                )
            })
            .collect();
        for pair in ends.windows(2) {
            assert_eq!(pair[0].1, pair[1].0, "{}", sample.name);
        }
        if let (Some(first), Some(last)) = (ends.first(), ends.last()) {
            assert_eq!(
                first.0,
                sample
                    .site
                    .shown_in
                    .along(underbrick_calc::quantity::Length::default())
            );
            assert_eq!(last.1, sample.site.shown_in.along(line.run.length()));
        }
    }
}

/// Labels of a document's drawings.
fn labels(document: &Document) -> Vec<String> {
    let figures = blocks(&document.blocks)
        .into_iter()
        .filter_map(|block| match block {
            Block::Figure(figure) => Some(&figure.drawing.items),
            _ => None,
        });
    let labels = figures.flatten().filter_map(|item| match item {
        Item::Label { text, .. } => Some(text.written.clone()),
        _ => None,
    });
    labels.collect()
}

#[test]
fn no_label_of_a_drawing_is_left_in_english() {
    for sample in every_sample() {
        let (english, spanish) = (
            labels(&sheet(&sample, Language::English)),
            labels(&sheet(&sample, Language::Spanish)),
        );
        // A letter of the cut list, a unit, a scale: the same in every language.
        let says_something = |label: &str| {
            label
                .split(|letter: char| !letter.is_alphabetic())
                .any(|word| word.chars().count() > 2)
        };
        for label in english.iter().filter(|label| says_something(label)) {
            let is_match_line = label.starts_with("match line");
            assert!(
                is_match_line || Words::of(Language::Spanish).knows_of_drawing(label),
                "{}: {label:?}",
                sample.name
            );
        }
        for label in spanish.iter().filter(|label| says_something(label)) {
            let turned = Words::of(Language::Spanish).of_drawing(label);
            assert_eq!(&turned, label, "{}: left in English", sample.name);
        }
    }
}

/// Ten questions of a crew on the curved sample, each with what the sheet must say.
#[test]
fn ten_questions_of_a_crew() {
    let samples = every_sample();
    let sample = samples
        .iter()
        .find(|sample| sample.name == "curved-to-a-drive")
        .unwrap();
    let english = as_text(&sheet(sample, Language::English));
    let spanish = as_text(&sheet(sample, Language::Spanish));
    let build = sample.results.build.as_ref().unwrap();
    let bed = sample.results.bed.as_ref().unwrap();
    let shown = sample.site.shown_in;
    let deepest = build
        .stakes
        .iter()
        .flat_map(|stake| &stake.rows)
        .map(|row| row.drop)
        .fold(
            underbrick_calc::quantity::Length::default(),
            |one, other| one.max(other),
        );
    for (question, english_answer, spanish_answer) in [
        (
            "How deep do we dig at the deepest stake?",
            shown.length(deepest),
            shown.length(deepest),
        ),
        (
            "How many lifts, how thick loose?",
            shown.length(bed.lifts.each[0].loose),
            shown.length(bed.lifts.each[0].loose),
        ),
        (
            "How often does the plate pass?",
            "at least 3".to_owned(),
            "por lo menos 3".to_owned(),
        ),
        (
            "How do we set out the curve?",
            "swing a tape of".to_owned(),
            "gire una cinta de".to_owned(),
        ),
        (
            "What notch does the screed board get?",
            shown.thickness(build.screed.notch),
            shown.thickness(build.screed.notch),
        ),
        (
            "Where does the form stand?",
            "Form, out from the centreline".to_owned(),
            "Cimbra, desde el eje".to_owned(),
        ),
        (
            "What holds the edge?",
            "concrete haunch".to_owned(),
            "chaflán de concreto".to_owned(),
        ),
        (
            "On which side do we start laying?",
            "Starts on the".to_owned(),
            "Se empieza por la".to_owned(),
        ),
        (
            "Which pieces do we cut, how many?",
            "cut to a taper".to_owned(),
            "cortado en cuña".to_owned(),
        ),
        (
            "When may we go on to the next stage?",
            "A stage is closed on readings that are right".to_owned(),
            "Una etapa se cierra con lecturas correctas".to_owned(),
        ),
    ] {
        // Text is broken into lines; what is looked for is not.
        let holds = |text: &str, answer: &str| {
            text.split_whitespace()
                .collect::<Vec<_>>()
                .join(" ")
                .contains(answer)
        };
        assert!(
            holds(&english, &english_answer),
            "{question}: {english_answer}"
        );
        assert!(
            holds(&spanish, &spanish_answer),
            "{question}: {spanish_answer}"
        );
    }
}

#[test]
fn a_star_is_explained_where_one_stands_and_nowhere_else() {
    let mut n_starred = 0;
    for sample in every_sample() {
        let text = as_text(&sheet(&sample, Language::English));
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let is_starred = text.contains("\" *") || text.contains("mm *");
        let is_told = text.contains("* The present surface is not measured there");
        assert_eq!(is_starred, is_told, "{}", sample.name);
        n_starred += usize::from(is_starred);
    }
    assert!(n_starred > 0);
}

#[test]
fn edges_that_are_alike_stand_in_one_table() {
    for sample in every_sample() {
        let Some(build) = &sample.results.build else {
            continue;
        };
        let document = sheet(&sample, Language::English);
        let captions: Vec<&str> = blocks(&document.blocks)
            .into_iter()
            .filter_map(|block| match block {
                Block::Table(table) if table.caption.contains("carried across level") => {
                    Some(table.caption.as_str())
                }
                _ => None,
            })
            .collect();
        let shown = sample.site.shown_in;
        let are_alike = build.stakes.iter().all(|stake| {
            let [left, right] = &stake.edges;
            shown.length(left.form_top) == shown.length(right.form_top)
                && shown.length(left.dig_bottom) == shown.length(right.dig_bottom)
        });
        let expected = if are_alike { 1 } else { 2 };
        assert_eq!(captions.len(), expected, "{}: {captions:?}", sample.name);
    }
}
