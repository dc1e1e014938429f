//! Plain text in columns and paragraphs.

/// The width of a sheet in characters: a page of typewriter type, or half a screen.
pub(crate) const SHEET_WIDTH: usize = 100;

/// Rows as aligned columns, each line led by two spaces. A row may be shorter than the others.
pub(crate) fn columns(rows: &[Vec<String>]) -> String {
    let mut widths: Vec<usize> = Vec::new();
    for row in rows {
        for (idx, cell) in row.iter().enumerate() {
            let width = cell.chars().count();
            match widths.get_mut(idx) {
                Some(widest) => *widest = width.max(*widest),
                None => widths.push(width),
            }
        }
    }
    let mut text = String::new();
    for row in rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(&widths) {
            line.push_str(&format!("  {cell:<width$}"));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// A paragraph no wider than a sheet: its first line led by `first`, the others by as many spaces.
pub(crate) fn paragraph(first: &str, text: &str) -> String {
    let margin = first.chars().count();
    let mut written = first.to_owned();
    let mut width = margin;
    let mut is_line_start = true;
    for word in text.split_whitespace() {
        let word_width = word.chars().count();
        if !is_line_start && width + 1 + word_width > SHEET_WIDTH {
            written.push('\n');
            written.push_str(&" ".repeat(margin));
            width = margin;
            is_line_start = true;
        }
        if !is_line_start {
            written.push(' ');
            width += 1;
        }
        written.push_str(word);
        width += word_width;
        is_line_start = false;
    }
    written.push('\n');
    written
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_under_one_another() {
        let rows = [
            vec!["Trim", "1.20 yd³"],
            vec!["Old brick", "9.3 ft³", "least"],
            vec![],
        ];
        let rows: Vec<Vec<String>> = rows
            .iter()
            .map(|row| row.iter().map(|cell| (*cell).to_owned()).collect())
            .collect();
        assert_eq!(
            columns(&rows),
            "  Trim       1.20 yd³\n  Old brick  9.3 ft³   least\n\n"
        );
    }

    #[test]
    fn paragraphs_break_between_words() {
        assert_eq!(paragraph("- ", ""), "- \n");
        let text = paragraph("  - ", &"brick ".repeat(30));
        // 4 + 16 × 5 + 15 = 99 characters, and a 17th word would make 105.
        let widths: Vec<usize> = text.lines().map(|line| line.chars().count()).collect();
        assert_eq!(widths, [99, 87]); // the other 14: 4 + 14 × 5 + 13
        assert!(
            text.lines()
                .skip(1)
                .all(|line| line.starts_with("    brick"))
        );
    }
}
