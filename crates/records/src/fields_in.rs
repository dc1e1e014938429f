//! Where a field is named in a text in RON's notation, to tell a line and a column of what was understood but cannot be.

/// Byte offsets at which the field `name` is given a value, outside strings and comments.
pub(crate) fn fields_in(text: &str, name: &str) -> Vec<usize> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(rest) = text.get(at..).filter(|rest| !rest.is_empty()) {
        at += if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            rest.find("*/").map_or(rest.len(), |end| end + 2)
        } else if rest.starts_with('"') {
            string(rest)
        } else if let Some(length) = raw_string(rest) {
            length
        } else if rest.starts_with(is_of_a_word) {
            let word = rest.split(|letter| !is_of_a_word(letter)).next();
            let word = word.unwrap_or_default();
            let behind = rest.get(word.len()..).unwrap_or_default();
            if word == name && behind.trim_start().starts_with(':') {
                found.push(at);
            }
            word.len().max(1)
        } else {
            rest.chars().next().map_or(1, char::len_utf8)
        };
    }
    found
}

fn is_of_a_word(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// Length of a string with its quotes; the whole rest where it is never closed.
fn string(rest: &str) -> usize {
    let mut is_escaped = false;
    for (at, letter) in rest.char_indices().skip(1) {
        match letter {
            _ if is_escaped => is_escaped = false,
            '\\' => is_escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    rest.len()
}

/// Length of `r"..."` or `r#"..."#`.
fn raw_string(rest: &str) -> Option<usize> {
    let behind = rest.strip_prefix('r')?;
    let quoted = behind.trim_start_matches('#');
    let n_marks = behind.len() - quoted.len();
    let inside = quoted.strip_prefix('"')?;
    let close = format!("\"{}", "#".repeat(n_marks));
    let end = inside.find(&close).map(|end| end + close.len());
    Some(2 + n_marks + end.unwrap_or(inside.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &[usize]) {
        assert_eq!(fields_in(text, "id"), expected, "{text}");
    }

    #[test]
    fn a_field_is_found_outside_strings_and_comments() {
        check("id: 1", &[0]);
        check("(id :\"a\", idle: 2, id: 3)", &[1, 19]);
        check("// id: no\nid: 1", &[10]);
        check("/* id: no */ id: 1", &[13]);
        check("(a: \"id: \\\" id:\", id: 1)", &[18]);
        check("(a: r#\"id: \" id:\"#, id: 1)", &[20]);
        check("§id: 1", &[2]);
        check("rid: 1, r: 2, id", &[]);
    }

    #[test]
    fn what_is_never_closed_ends_with_the_text() {
        for text in [
            "\"id: 1",
            "/* id: 1",
            "r#\"id: 1\"",
            "// id: 1",
            "\"\\",
            "r",
        ] {
            check(text, &[]);
        }
    }
}
