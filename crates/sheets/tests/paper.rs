//! Documents on paper: laid out, written, and looked at through what other programs read.

use std::sync::Arc;

use underbrick_calc::site::{Language, Signature};
use underbrick_drawing::Drawing;
use underbrick_drawing::item::{Anchor, Item, Point, Sheet};
use underbrick_drawing::palette::Ink;
use underbrick_drawing::text::Text;
use underbrick_sheets::paper::{
    Align, BOX, Block, Column, Document, Figure, Level, Mark, Paper, Picture, SignatureLine, Style,
    Table, TableRow, lay_out, write_pdf,
};

fn drawing(width: f64, height: f64) -> Drawing {
    Drawing {
        items: vec![
            Item::Area {
                outline: [(0.0, 0.0), (1.0, 0.0), (1.0, -0.5), (0.0, -0.5)]
                    .map(|(x, y)| Point { x, y })
                    .to_vec(),
                fill: Ink::BaseOdd,
                pen: None,
                place: None,
            },
            Item::Label {
                at: Point { x: 0.1, y: -0.2 },
                text: Text::bold("11 1/4\" deep"),
                size: 15.0,
                ink: Ink::Ink,
                anchor: Anchor::Left,
                place: None,
            },
        ],
        upper_left: Point { x: 0.0, y: 0.0 },
        sheet: Sheet {
            width,
            height,
            text_scale: 1.0,
        },
        dots_per_metre: width,
        heights_times: 1.0,
        words: "A base in section.".to_owned(),
    }
}

fn every_block(language: Language) -> Document {
    let long =
        "Dig down to 11 1/4 in below the string, and keep what comes out 2 ft back from the side. "
            .repeat(6);
    let table = Table {
        caption: "Stakes".to_owned(),
        columns: [
            "Station",
            "Why",
            "Form top",
            "Base top",
            "Dig bottom",
            "Read",
        ]
        .into_iter()
        .enumerate()
        .map(|(nth, head)| Column {
            head: head.to_owned(),
            align: if nth == 1 { Align::Left } else { Align::Right },
            least_mm: 0.0,
        })
        .collect(),
        rows: (0..70)
            .map(|nth| TableRow {
                cells: vec![
                    format!("{}'-6 1/2\"", nth),
                    if nth % 7 == 0 {
                        "pit 2, the end of a leg and the lowest place of the run".to_owned()
                    } else {
                        "spacing".to_owned()
                    },
                    "6 3/8\"".to_owned(),
                    "9 1/16\"".to_owned(),
                    "1'-8 1/4\"".to_owned(),
                    BOX.to_owned(),
                ],
                is_strong: nth == 69,
            })
            .collect(),
    };
    let figure = |width: f64, height: f64| {
        Figure {
        caption: "Section at 3'-0\", to scale 1 : 10. What is under the brick, from the setting bed down.".to_owned(),
        drawing: Arc::new(drawing(width, height)),
    }
    };
    Document {
        title: "Crew sheet".to_owned(),
        address: format!("28 Quarry Lane, front walk, {}", "behind the third gate ".repeat(9)),
        from: "Fallow & Daughters, brick walks, 555-0142".to_owned(),
        date: "25 November 2026".to_owned(),
        language,
        blocks: vec![
            Block::Heading(Level::Title, "Crew sheet".to_owned()),
            Block::Facts(vec![
                ("Address".to_owned(), "28 Quarry Lane".to_owned()),
                ("Walk".to_owned(), "front walk".to_owned()),
                ("Owner".to_owned(), "Łucja 王小明 Ωραία".to_owned()),
                ("Width".to_owned(), "4 ft 2 5/8 in".to_owned()),
            ]),
            Block::Text(Style::Lead, "The base under the walk is too thin, and clay holds water in it.".to_owned()),
            Block::Text(Style::Plain, long.clone()),
            Block::Heading(Level::Part, "Before anyone digs".to_owned()),
            Block::Caution("Have buried services located before anyone digs. In the United States call 811, some days ahead.".to_owned()),
            Block::List(Mark::Dot, vec!["one".to_owned(), long]),
            Block::List(Mark::Number, vec!["first".to_owned(), "second".to_owned()]),
            Block::List(Mark::Box, vec!["Base top within 1/4 in".to_owned(), "Passes: 4".to_owned()]),
            Block::Heading(Level::Point, "Stakes".to_owned()),
            Block::Table(table),
            Block::Figures(vec![figure(430.0, 300.0), figure(430.0, 300.0)]),
            Block::Figure(figure(1400.0, 600.0)),
            Block::Picture(Picture {
                caption: "Pit 1".to_owned(),
                bytes: Err("pictures/pit 1.jpg is broken: it ends too soon".to_owned()),
                width: 0,
                height: 0,
            }),
            Block::Together(vec![
                Block::Text(Style::Strong, "Agreed".to_owned()),
                Block::Signature(SignatureLine {
                    role: "Homeowner".to_owned(),
                    signed: Some(Signature {
                        name: "A. Tenby".to_owned(),
                        strokes: vec![vec![(20, 200), (120, 20), (220, 180), (420, 60)], vec![(500, 100)]],
                        ..Signature::default()
                    }),
                    date: "25 November 2026".to_owned(),
                }),
            ]),
            Block::WriteIn("What was found otherwise".to_owned(), 3),
            Block::NewPage,
            Block::Text(Style::Note, "W".repeat(300)),
        ],
    }
}

#[test]
fn every_kind_of_block_on_both_papers_and_in_both_languages() {
    for language in [Language::English, Language::Spanish] {
        for paper in [Paper::Letter, Paper::A4] {
            let document = every_block(language);
            let pages = lay_out(&document, paper);
            let pdf = write_pdf(&pages).unwrap();
            assert!(pdf.starts_with(b"%PDF-"));
            assert_eq!(pdf, write_pdf(&lay_out(&document, paper)).unwrap());
            if let Some(folder) = std::env::var_os("UNDERBRICK_PAPER") {
                let name = format!("every-{language:?}-{paper:?}.pdf");
                std::fs::write(std::path::Path::new(&folder).join(name), &pdf).unwrap();
            }
            // Nothing stands beyond the paper.
            let (width, height) = (paper.size_mm().0 / 1000.0, paper.size_mm().1 / 1000.0);
            for page in &pages.pages {
                for item in &page.drawing.items {
                    let points = match item {
                        Item::Area {
                            outline: points, ..
                        }
                        | Item::Line { points, .. } => points.clone(),
                        Item::Label { at, .. } => vec![*at],
                        Item::Hatch { .. } => Vec::new(),
                    };
                    for point in points {
                        assert!(
                            (0.0..=width).contains(&point.x) && (-height..=0.0).contains(&point.y),
                            "{item:?}"
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn an_empty_document_is_one_page() {
    let document = Document {
        title: "Crew sheet".to_owned(),
        address: String::new(),
        from: String::new(),
        date: String::new(),
        language: Language::English,
        blocks: Vec::new(),
    };
    let pages = lay_out(&document, Paper::A4);
    assert_eq!(pages.pages.len(), 1);
    assert!(write_pdf(&pages).is_ok());
}

#[test]
fn the_head_of_a_table_stands_on_every_page_that_it_reaches() {
    let pages = lay_out(&every_block(Language::English), Paper::Letter);
    let labels = |page: usize| -> Vec<String> {
        let items = pages.pages[page].drawing.items.iter();
        items
            .filter_map(|item| match item {
                Item::Label { text, .. } => Some(text.written.clone()),
                Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
            })
            .collect()
    };
    for page in 0..pages.pages.len() {
        let labels = labels(page);
        let has = |wanted: &str| labels.iter().any(|label| label == wanted);
        assert_eq!(has("spacing"), has("Station"), "page {page}");
        assert!(has(&format!("page {} of {}", page + 1, pages.pages.len())));
    }
}
