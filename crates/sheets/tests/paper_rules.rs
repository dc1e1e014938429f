//! What a careful draughtsman keeps to where a page ends, wherever it ends.

use underbrick_drawing::item::Item;
use underbrick_sheets::paper::{
    Align, Block, Column, Document, Page, Paper, Style, Table, TableRow, lay_out,
};

fn document(blocks: Vec<Block>) -> Document {
    Document {
        title: "Sheet".to_owned(),
        address: "28 Quarry Lane".to_owned(),
        from: String::new(),
        date: "25 November 2026".to_owned(),
        language: underbrick_calc::site::Language::English,
        blocks,
    }
}

/// Texts of a page that begin with one of these, from the top down.
fn texts(page: &Page, of: &[&str]) -> Vec<String> {
    let mut labels: Vec<(f64, &str)> = page
        .drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Label { at, text, .. } => Some((at.y, text.written.as_str())),
            Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
        })
        .filter(|(_, text)| of.iter().any(|begins| text.starts_with(begins)))
        .collect();
    labels.sort_by(|one, other| other.0.total_cmp(&one.0));
    labels
        .into_iter()
        .map(|(_, text)| text.to_owned())
        .collect()
}

fn paragraphs(n: usize) -> Vec<Block> {
    (0..n)
        .map(|nth| Block::Text(Style::Plain, format!("line {nth}")))
        .collect()
}

#[test]
fn no_page_holds_nothing_but_lines_to_write_on() {
    for n in 0..90 {
        let mut blocks = paragraphs(n);
        blocks.push(Block::WriteIn("What was seen".to_owned(), 4));
        let pages = lay_out(&document(blocks), Paper::Letter);
        for (nth, page) in pages.pages.iter().enumerate() {
            let body = texts(page, &["line ", "What was seen"]);
            assert!(!body.is_empty(), "{n} paragraphs, page {}", nth + 1);
        }
    }
}

#[test]
fn the_name_of_a_group_does_not_end_a_page() {
    let cells = |first: String, second: &str| vec![first, second.to_owned(), second.to_owned()];
    let rows: Vec<TableRow> = (0..12)
        .flat_map(|group| {
            let head = TableRow {
                cells: cells(format!("Group {group} of a supplier with a long name"), ""),
                is_strong: true,
            };
            let of_group = (0..3).map(move |nth| TableRow {
                cells: vec![format!("thing {nth}"), "7".to_owned(), "7".to_owned()],
                is_strong: false,
            });
            std::iter::once(head).chain(of_group)
        })
        .collect();
    let column = |head: &str| Column {
        head: head.to_owned(),
        align: Align::Left,
        least_mm: 0.0,
    };
    for n in 0..50 {
        let mut blocks = paragraphs(n);
        blocks.push(Block::Table(Table {
            caption: String::new(),
            columns: vec![column("What"), column("How"), column("Rate")],
            rows: rows.clone(),
        }));
        let pages = lay_out(&document(blocks), Paper::A4);
        let mut n_groups = 0;
        for page in &pages.pages {
            let body = texts(page, &["line ", "Group ", "thing "]);
            assert!(
                body.last().is_none_or(|last| !last.starts_with("Group ")),
                "{n} paragraphs: {body:?}"
            );
            // A name runs over all columns on one line.
            n_groups += body
                .iter()
                .filter(|text| text.ends_with("long name"))
                .count();
        }
        assert_eq!(n_groups, 12, "{n} paragraphs");
    }
}
