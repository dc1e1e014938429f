//! Documents that no draughtsman would be glad of: too much of everything, letters of every script, broken pictures.

use std::sync::Arc;

use underbrick_calc::site::{Language, Signature};
use underbrick_drawing::Drawing;
use underbrick_drawing::item::{Item, Sheet};
use underbrick_sheets::paper::{
    Align, Block, Column, Document, Figure, Level, Mark, Page, Pages, Paper, Picture,
    SignatureLine, Table, TableRow, lay_out, write_pdf,
};

fn document(blocks: Vec<Block>) -> Document {
    Document {
        title: "Crew sheet".to_owned(),
        address: "28 Quarry Lane".to_owned(),
        from: String::new(),
        date: "4 May 2026".to_owned(),
        language: Language::English,
        blocks,
    }
}

fn labels(page: &Page) -> Vec<&str> {
    let items = page.drawing.items.iter();
    items
        .filter_map(|item| match item {
            Item::Label { text, .. } => Some(text.written.as_str()),
            Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
        })
        .collect()
}

/// Nothing stands in the lower margin but the page's foot, or beyond the paper's sides; and it becomes a PDF.
#[track_caller]
fn check_on_paper(document: &Document, what: &str) -> Pages {
    for paper in [Paper::Letter, Paper::A4] {
        let pages = lay_out(document, paper);
        let (width, height) = paper.size_mm();
        for (nth, page) in pages.pages.iter().enumerate() {
            let body = page.drawing.items.iter().filter_map(|item| match item {
                Item::Label {
                    at,
                    text,
                    size,
                    anchor,
                    ..
                } => {
                    let wide =
                        size * 0.2 * underbrick_drawing::text::advance(&text.written, text.weight);
                    let left = at.x * 1000.0 - wide * anchor.share();
                    Some((left, left + wide, at.y * 1000.0, text.written.as_str()))
                }
                Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
            });
            for (left, right, y, written) in body {
                assert!(
                    left >= 15.9 && right <= width - 15.9,
                    "{what}, page {nth}: {written:?} from {left} to {right} mm"
                );
                let is_foot = y < -(height - 22.0);
                let may_be_foot = written.starts_with("page ")
                    || written.contains("U+")
                    || written.ends_with("place.")
                    || written == document.from;
                assert!(
                    !is_foot || may_be_foot,
                    "{what}, page {nth}: {written:?} stands in the foot"
                );
            }
        }
        let failed = write_pdf(&pages).err();
        assert_eq!(failed, None, "{what}");
    }
    lay_out(document, Paper::Letter)
}

fn table(columns: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table {
        caption: String::new(),
        columns: columns
            .iter()
            .map(|head| Column {
                head: (*head).to_owned(),
                ..Column::default()
            })
            .collect(),
        rows: rows
            .into_iter()
            .map(|cells| TableRow {
                cells,
                is_strong: false,
            })
            .collect(),
    }
}

#[test]
fn what_is_longer_than_a_page_goes_on_the_next() {
    let long = "Rain all day, the trench stood full, pumped it dry twice. ".repeat(400);
    let n_words = long.split_whitespace().count();
    let cases = [
        (
            "a cell",
            Block::Table(table(
                &["Day", "Notes"],
                vec![vec!["1".to_owned(), long.clone()]],
            )),
        ),
        ("a caution", Block::Caution(long.clone())),
        (
            "a fact",
            Block::Facts(vec![("Notes".to_owned(), long.clone())]),
        ),
        ("a list", Block::List(Mark::Number, vec![long.clone(); 2])),
        ("a heading", Block::Heading(Level::Part, long.clone())),
        ("what to write in", Block::WriteIn(long, 4)),
    ];
    for (what, block) in cases {
        let times = if what == "a list" { 2 } else { 1 };
        let pages = check_on_paper(&document(vec![block]), what);
        assert!(pages.pages.len() > 1, "{what}");
        let found: usize = pages
            .pages
            .iter()
            .flat_map(|page| labels(page))
            .flat_map(str::split_whitespace)
            .filter(|word| *word == "trench")
            .count();
        assert_eq!(found, times * n_words / 11, "{what}: no word is lost");
    }
}

#[test]
fn captions_and_names_stay_on_their_page() {
    let long = "Section at the door, looking away from it. ".repeat(300);
    let drawing = Drawing {
        items: Vec::new(),
        upper_left: underbrick_drawing::item::Point { x: 0.0, y: 0.0 },
        sheet: Sheet {
            width: 900.0,
            height: 1400.0,
            text_scale: 1.0,
        },
        dots_per_metre: 900.0,
        heights_times: 1.0,
        words: "Nothing.".to_owned(),
    };
    let figure = |caption: &str| {
        Block::Figure(Figure {
            caption: caption.to_owned(),
            drawing: Arc::new(drawing.clone()),
        })
    };
    check_on_paper(&document(vec![figure(&long)]), "a caption");
    // A few lines under a figure as high as the page.
    check_on_paper(&document(vec![figure(&long[..500])]), "a short caption");
    let signed = SignatureLine {
        role: "Homeowner".to_owned(),
        signed: Some(Signature {
            name: "Maximiliana ".repeat(60),
            strokes: vec![vec![(0, 0), (1000, 4000)]],
            ..Signature::default()
        }),
        date: "4 May 2026".to_owned(),
    };
    check_on_paper(&document(vec![Block::Signature(signed)]), "a name");
    let many: Vec<String> = (0..1200).map(|nth| format!("item {nth}")).collect();
    check_on_paper(&document(vec![Block::List(Mark::Number, many)]), "numbers");
}

#[test]
fn columns_of_tables_that_are_alike_stand_under_each_other() {
    let first = table(
        &["What", "Amount"],
        vec![vec!["Plate compactor".to_owned(), "340.00".to_owned()]],
    );
    let second = table(
        &["What", "Amount"],
        vec![vec!["String".to_owned(), "6.50".to_owned()]],
    );
    let pages = lay_out(
        &document(vec![Block::Table(first), Block::Table(second)]),
        Paper::A4,
    );
    let at = |wanted: &str| -> Vec<f64> {
        let items = pages.pages[0].drawing.items.iter();
        items
            .filter_map(|item| match item {
                Item::Label { at, text, .. } if text.written == wanted => Some(at.x),
                Item::Label { .. } | Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => {
                    None
                }
            })
            .collect()
    };
    let amounts = at("Amount");
    assert_eq!(amounts.len(), 2);
    assert!((amounts[0] - amounts[1]).abs() < 1e-9, "{amounts:?}");
    // In one line each: a column as wide as its widest cell holds it.
    assert_eq!(at("Plate compactor").len(), 1);
}

#[test]
fn letters_of_every_script_are_painted_or_named() {
    for (what, name) in [
        ("Polish", "Łucja Żółć"),
        ("Chinese", "王小明"),
        ("Hebrew", "שרה כהן"),
        ("Arabic", "فاطمة الزهراء"),
        ("Hindi", "प्रिया शर्मा"),
        ("marks of their own", "Jose\u{301} Nun\u{303}ez"),
        ("beyond the first plane", "𠮷野家 🧱"),
        ("not to be seen", "A\u{200b}B\u{feff}C\u{ad}D\u{202e}E"),
        ("control", "A\u{0}B\u{7}C\u{1b}[31mD\u{7f}"),
        ("nobody's", "A\u{e000}\u{ffff}\u{fffe}\u{10ffff}B"),
    ] {
        let mut document = document(vec![
            Block::Heading(Level::Title, format!("For {name}")),
            Block::Facts(vec![("Owner".to_owned(), name.to_owned())]),
            Block::Table(table(&["Owner"], vec![vec![name.to_owned()]; 3])),
            Block::List(Mark::Dot, vec![name.to_owned()]),
            Block::Caution(name.to_owned()),
        ]);
        document.address = format!("{name} 4");
        document.from = name.to_owned();
        let pages = check_on_paper(&document, what);
        let said = labels(&pages.pages[0]).join(" ");
        for letter in name.chars().filter(|letter| !letter.is_ascii()) {
            let has =
                underbrick_drawing::font::has(letter, underbrick_drawing::font::Weight::Regular);
            let code = format!("U+{:04X}", u32::from(letter));
            assert_eq!(said.contains(&code), !has, "{what}: {code} in {said}");
        }
    }
}

#[test]
fn more_letters_than_the_foot_holds_are_cut_off_visibly() {
    let every: String = (0x4e00..0x4f00).filter_map(char::from_u32).collect();
    let pages = check_on_paper(
        &document(vec![Block::Facts(vec![("Owner".to_owned(), every)])]),
        "many",
    );
    let labels = labels(&pages.pages[0]);
    let last = labels.last().unwrap();
    assert!(last.contains("U+4E") && last.ends_with('…'), "{last}");
}

/// Grey, 2 x 2 dots of 8 bits, as Python's zlib and struct write it.
fn png() -> Vec<u8> {
    vec![
        137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13, 73, 72, 68, 82, 0, 0, 0, 2, 0, 0, 0, 2, 8, 0,
        0, 0, 0, 87, 221, 82, 248, 0, 0, 0, 14, 73, 68, 65, 84, 120, 156, 99, 96, 104, 96, 104,
        248, 15, 0, 4, 5, 2, 0, 87, 212, 51, 63, 0, 0, 0, 0, 73, 69, 78, 68, 174, 66, 96, 130,
    ]
}

#[test]
fn a_broken_picture_is_a_framed_note_and_the_sheet_is_made() {
    let whole = png();
    let cases: [(&str, Vec<u8>); 6] = [
        ("empty", Vec::new()),
        ("text", b"not a picture".to_vec()),
        ("a PNG that ends in its head", whole[..20].to_vec()),
        ("a PNG that ends in its body", whole[..50].to_vec()),
        ("a JPEG of two bytes", vec![0xff, 0xd8]),
        (
            "a JPEG without its end",
            [&[0xff, 0xd8, 0xff, 0xe0][..], &[7; 60]].concat(),
        ),
    ];
    for (what, bytes) in cases {
        let picture = Picture {
            caption: "Pit 1".to_owned(),
            bytes: Ok(Arc::new(bytes)),
            width: 2,
            height: 2,
        };
        let pages = check_on_paper(&document(vec![Block::Picture(picture)]), what);
        let labels = labels(&pages.pages[0]);
        assert!(
            labels.contains(&"The picture cannot be shown."),
            "{what}: {labels:?}"
        );
    }
    let picture = Picture {
        caption: "Pit 1".to_owned(),
        bytes: Ok(Arc::new(whole)),
        width: 2,
        height: 2,
    };
    let pages = check_on_paper(&document(vec![Block::Picture(picture)]), "a whole PNG");
    assert_eq!(pages.pages[0].pictures.len(), 1);
}

#[test]
fn aligned_to_the_right_and_in_the_middle_stay_in_their_column() {
    let mut table = table(
        &["Left", "Middle", "Right"],
        vec![vec!["W".repeat(90), "W".repeat(90), "W".repeat(90)]; 60],
    );
    for (column, align) in table
        .columns
        .iter_mut()
        .zip([Align::Left, Align::Middle, Align::Right])
    {
        column.align = align;
    }
    check_on_paper(&document(vec![Block::Table(table)]), "words without an end");
}

#[test]
fn a_short_table_is_not_parted_and_no_row_stands_alone() {
    let rows = |n: usize| {
        (0..n)
            .map(|nth| vec![format!("row {nth} of {n}")])
            .collect()
    };
    // Wherever on the page it starts.
    for n_before in 0..60 {
        let before = vec!["line".to_owned(); n_before];
        for n_rows in [1, 2, 3, 8, 40] {
            let blocks = vec![
                Block::List(Mark::Dot, before.clone()),
                Block::Table(table(&["Head"], rows(n_rows))),
            ];
            let pages = lay_out(&document(blocks), Paper::Letter);
            let on_each: Vec<usize> = pages
                .pages
                .iter()
                .map(|page| {
                    let labels = labels(page);
                    labels
                        .iter()
                        .filter(|label| label.starts_with("row "))
                        .count()
                })
                .filter(|n| *n > 0)
                .collect();
            let what = format!("{n_rows} rows after {n_before} lines: {on_each:?}");
            assert_eq!(on_each.iter().sum::<usize>(), n_rows, "{what}");
            if n_rows < 10 {
                assert_eq!(on_each.len(), 1, "{what}");
            } else {
                assert!(on_each.iter().all(|n| *n > 1), "{what}");
            }
        }
    }
}
