//! What the drawings of the crew sheet say to whoever cannot see them is in the language of the sheet.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use underbrick_calc::compute;
use underbrick_calc::site::Language;
use underbrick_records::OpenSite;
use underbrick_sheets::crew::{CrewSheet, crew_sheet};
use underbrick_sheets::paper::{Block, Document, Paper};

/// The crew sheet of every sample.
fn sheets(language: Language) -> Vec<(String, Document)> {
    let catalogue = underbrick_records::catalogue().unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root.join("sample-sites"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    folders.sort();
    let sheets = folders.into_iter().map(|folder| {
        let (site, _) = OpenSite::open(&folder).unwrap().site().checked(&catalogue);
        let results = compute(&site, &catalogue);
        let sheet = crew_sheet(CrewSheet {
            site: &site,
            catalogue: &catalogue,
            results: &results,
            paper: Paper::Letter,
            date: "4 May 2026",
            from: "",
            language,
        });
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        (name, sheet)
    });
    sheets.collect()
}

/// What its drawings say, sentence by sentence.
fn sentences(of: &[Block]) -> Vec<String> {
    of.iter()
        .flat_map(|block| match block {
            Block::Together(inner) => sentences(inner),
            Block::Figure(figure) => figure.drawing.words.lines().map(str::to_owned).collect(),
            _ => Vec::new(),
        })
        .collect()
}

#[test]
fn no_sentence_about_a_drawing_is_left_in_english() {
    const ENGLISH: [&str; 33] = [
        "the", "and", "of", "with", "from", "is", "are", "to", "at", "by", "for", "on", "lift",
        "brick", "joint", "drop", "where", "not", "dig", "edge", "line", "which", "walk", "pit",
        "deep", "wide", "below", "above", "section", "surface", "clear", "whole", "cut",
    ];
    let (english, spanish) = (sheets(Language::English), sheets(Language::Spanish));
    let mut left = BTreeSet::new();
    for ((name, english), (_, spanish)) in english.iter().zip(&spanish) {
        let (english, spanish) = (sentences(&english.blocks), sentences(&spanish.blocks));
        assert!(english.len() > 20, "{name}");
        assert_eq!(english.len(), spanish.len(), "{name}");
        for (english, spanish) in english.iter().zip(&spanish) {
            let words = spanish.split(|letter: char| !letter.is_alphabetic());
            let is_english = |word: &str| ENGLISH.contains(&word.to_lowercase().as_str());
            if english == spanish || words.into_iter().any(is_english) {
                left.insert(format!("{english}\n    {spanish}"));
            }
        }
    }
    let left: Vec<String> = left.into_iter().collect();
    assert!(left.is_empty(), "{}", left.join("\n"));
}
