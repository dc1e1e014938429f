//! A document as plain text: what a golden file holds, and what is read aloud.

use super::{Align, BOX, Block, Document, Level, Mark, SignatureLine, Style, Table};
use crate::columns::paragraph;

/// The document as text, each line ended by `\n`: headings underlined, tables in columns, drawings by what they show in words.
#[must_use]
pub fn as_text(document: &Document) -> String {
    let mut text = String::new();
    let head = [&document.from, &document.address, &document.date];
    let head: Vec<&str> = head
        .into_iter()
        .map(String::as_str)
        .filter(|part| !part.is_empty())
        .collect();
    text += &format!("{} | {}\n", document.title, head.join(" | "));
    blocks(&document.blocks, &mut text);
    text
}

fn blocks(all: &[Block], text: &mut String) {
    for block in all {
        match block {
            Block::Heading(level, words) => heading(*level, words, text),
            Block::Text(style, words) => {
                text.push('\n');
                *text += &match style {
                    Style::Lead | Style::Strong => paragraph("** ", words),
                    Style::Plain => paragraph("", words),
                    Style::Note => paragraph("  ", words),
                };
            }
            Block::List(mark, lines) => list(*mark, lines, text),
            Block::Caution(words) => {
                text.push('\n');
                *text += &paragraph("(!) ", words);
            }
            Block::Facts(facts) => {
                text.push('\n');
                let rows: Vec<Vec<String>> = facts
                    .iter()
                    .map(|(name, value)| vec![name.clone(), value.clone()])
                    .collect();
                *text += &crate::columns::columns(&rows);
            }
            Block::Table(of) => table(of, text),
            Block::Figure(figure) => drawing(&figure.caption, &figure.drawing.words, text),
            Block::Figures(figures) => {
                for figure in figures {
                    drawing(&figure.caption, &figure.drawing.words, text);
                }
            }
            Block::Picture(picture) => {
                text.push('\n');
                let what = match &picture.bytes {
                    Ok(_) => format!("[picture, {} x {}]", picture.width, picture.height),
                    Err(why) => format!("[no picture: {why}]"),
                };
                *text += &paragraph("", &format!("{what} {}", picture.caption));
            }
            Block::Signature(line) => signature(line, text),
            Block::WriteIn(what, lines) => {
                text.push('\n');
                *text += &format!("{what}\n");
                for _ in 0..*lines {
                    *text += "  ______________________________\n";
                }
            }
            Block::Together(parts) => blocks(parts, text),
            Block::NewPage => *text += "\n--- new page ---\n",
        }
    }
}

fn heading(level: Level, words: &str, text: &mut String) {
    let under = match level {
        Level::Title => "=",
        Level::Part => "-",
        Level::Point => "",
    };
    *text += &format!("\n{words}\n");
    if !under.is_empty() {
        *text += &format!("{}\n", under.repeat(words.chars().count()));
    }
}

fn list(mark: Mark, lines: &[String], text: &mut String) {
    text.push('\n');
    for (line, number) in lines.iter().zip(1_u32..) {
        let first = match mark {
            Mark::Dot => "- ".to_owned(),
            Mark::Number => format!("{number}. "),
            Mark::Box => "[ ] ".to_owned(),
        };
        *text += &paragraph(&first, line);
    }
}

fn drawing(caption: &str, words: &str, text: &mut String) {
    *text += &format!("\n[drawing] {caption}\n");
    for line in words.lines() {
        *text += &paragraph("    ", line);
    }
}

fn table(table: &Table, text: &mut String) {
    text.push('\n');
    if !table.caption.is_empty() {
        *text += &format!("{}\n", table.caption);
    }
    let head = table.columns.iter().map(|column| column.head.clone());
    let rows = table.rows.iter().map(|row| {
        row.cells
            .iter()
            .map(|cell| {
                if cell == BOX {
                    "[ ]".to_owned()
                } else {
                    cell.clone()
                }
            })
            .collect()
    });
    let rows: Vec<Vec<String>> = std::iter::once(head.collect()).chain(rows).collect();
    let width_of = |column_idx: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column_idx));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    for row in &rows {
        let mut line = String::new();
        for (column_idx, cell) in row.iter().enumerate() {
            let width = width_of(column_idx);
            let align = table.columns.get(column_idx).map(|column| column.align);
            let cell = match align.unwrap_or_default() {
                Align::Left => format!("{cell:<width$}"),
                Align::Right => format!("{cell:>width$}"),
                Align::Middle => format!("{cell:^width$}"),
            };
            line += &format!("  {cell}");
        }
        *text += &format!("{}\n", line.trim_end());
    }
}

fn signature(line: &SignatureLine, text: &mut String) {
    text.push('\n');
    *text += &match &line.signed {
        Some(signed) => {
            let points: usize = signed.strokes.iter().map(Vec::len).sum();
            format!(
                "{}: {} [signed, {points} points] {}\n",
                line.role, signed.name, line.date
            )
        }
        None => format!("{}: ______________________ Date: __________\n", line.role),
    };
}

#[cfg(test)]
mod tests {
    use super::super::{Column, Picture, TableRow};
    use super::*;
    use std::sync::Arc;
    use underbrick_calc::site::{Language, Signature};

    #[test]
    fn every_block_is_told() {
        let cell = |text: &str| text.to_owned();
        let document = Document {
            title: "Sheet".to_owned(),
            address: "12 Alder Court".to_owned(),
            from: String::new(),
            date: "2026-05-04".to_owned(),
            language: Language::English,
            blocks: vec![
                Block::Heading(Level::Title, "Your walk".to_owned()),
                Block::Text(Style::Lead, "It has sunk.".to_owned()),
                Block::List(Mark::Number, vec![cell("one"), cell("two")]),
                Block::Caution("Dig with care.".to_owned()),
                Block::Facts(vec![(cell("Walk"), cell("front"))]),
                Block::Table(Table {
                    caption: "Ways".to_owned(),
                    columns: vec![
                        Column {
                            head: cell("Way"),
                            ..Column::default()
                        },
                        Column {
                            head: cell("Price"),
                            align: Align::Right,
                            least_mm: 0.0,
                        },
                    ],
                    rows: vec![TableRow {
                        cells: vec![cell("Relay"), cell("$9")],
                        is_strong: false,
                    }],
                }),
                Block::Picture(Picture {
                    caption: "The door".to_owned(),
                    bytes: Err("the file is not there".to_owned()),
                    width: 0,
                    height: 0,
                }),
                Block::Picture(Picture {
                    caption: "The pit".to_owned(),
                    bytes: Ok(Arc::new(vec![1])),
                    width: 30,
                    height: 20,
                }),
                Block::Together(vec![
                    Block::Signature(SignatureLine {
                        role: cell("Owner"),
                        signed: None,
                        date: String::new(),
                    }),
                    Block::Signature(SignatureLine {
                        role: cell("Owner"),
                        signed: Some(Signature {
                            name: cell("Rosa Lind"),
                            strokes: vec![vec![(1, 2), (3, 4)]],
                            ..Signature::default()
                        }),
                        date: cell("May 4, 2026"),
                    }),
                ]),
                Block::WriteIn(cell("Notes"), 1),
                Block::NewPage,
            ],
        };
        let expected = "\
Sheet | 12 Alder Court | 2026-05-04

Your walk
=========

** It has sunk.

1. one
2. two

(!) Dig with care.

  Walk  front

Ways
  Way    Price
  Relay     $9

[no picture: the file is not there] The door

[picture, 30 x 20] The pit

Owner: ______________________ Date: __________

Owner: Rosa Lind [signed, 2 points] May 4, 2026

Notes
  ______________________________

--- new page ---
";
        assert_eq!(as_text(&document), expected);
    }
}
