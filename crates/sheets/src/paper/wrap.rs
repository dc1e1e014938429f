//! A text broken into lines: between words, never between a number and its fraction or its unit.

use underbrick_drawing::font::Weight;
use underbrick_drawing::text;

/// Units that stay on the line of their number.
const UNITS: &[&str] = &[
    "in", "ft", "mm", "m", "cm", "yd", "lb", "kg", "t", "%", "h", "in/ft", "yd³", "m³", "ft²",
    "m²", "ft³", "in,", "ft,", "mm,", "m,", "in.", "ft.", "mm.", "m.",
];

/// The text in lines no wider than `width`, in the unit of `size`. A word that is wider than a line is broken. At least one line.
pub(super) fn wrap(written: &str, weight: Weight, size: f64, width: f64) -> Vec<String> {
    let most_em = width / size;
    let mut lines = Vec::new();
    for paragraph in written.split('\n') {
        let mut line = String::new();
        for word in words(paragraph) {
            let longer = if line.is_empty() {
                word.clone()
            } else {
                format!("{line} {word}")
            };
            if text::advance(&longer, weight) <= most_em {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            line = broken(&word, weight, most_em, &mut lines);
        }
        lines.push(line);
    }
    lines
}

/// Width of the widest word, in ems.
pub(super) fn widest_word_em(written: &str, weight: Weight) -> f64 {
    written
        .split('\n')
        .flat_map(words)
        .map(|word| text::advance(&word, weight))
        .fold(0.0, f64::max)
}

/// What is not broken: words, numbers with their fraction and unit.
fn words(paragraph: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in paragraph.split([' ', '\t']).filter(|word| !word.is_empty()) {
        let ends_in_figure =
            |before: &String| before.ends_with(|letter: char| letter.is_ascii_digit());
        let is_fraction =
            word.contains('/') && word.starts_with(|letter: char| letter.is_ascii_digit());
        match words.last_mut() {
            Some(before) if ends_in_figure(before) && (is_fraction || UNITS.contains(&word)) => {
                before.push(' ');
                before.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// A word that is wider than a line: whole lines of it are added, what is left is given.
fn broken(word: &str, weight: Weight, most_em: f64, lines: &mut Vec<String>) -> String {
    let mut rest = String::new();
    for letter in word.chars() {
        rest.push(letter);
        if text::advance(&rest, weight) > most_em && rest.chars().count() > 1 {
            rest.pop();
            lines.push(std::mem::take(&mut rest));
            rest.push(letter);
        }
    }
    rest
}

/// The text, or as much of it as fits with an ellipsis after it.
pub(super) fn shortened(written: &str, weight: Weight, size: f64, width: f64) -> String {
    let most_em = width / size;
    if text::advance(written, weight) <= most_em {
        return written.to_owned();
    }
    let mut kept = String::new();
    for letter in written.chars() {
        kept.push(letter);
        if text::advance(&format!("{kept}…"), weight) > most_em {
            kept.pop();
            break;
        }
    }
    format!("{}…", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lines of a text at a width; none is wider, and none begins with what belongs to the line before.
    #[track_caller]
    fn check(written: &str, width: f64) -> Vec<String> {
        let lines = wrap(written, Weight::Regular, 10.0, width);
        for line in &lines {
            let advance = 10.0 * text::advance(line, Weight::Regular);
            assert!(
                advance <= width || line.chars().count() == 1,
                "{line}: {advance}"
            );
            assert!(
                !["1/4", "in"].iter().any(|part| line.starts_with(part)),
                "{lines:?}"
            );
        }
        lines
    }

    #[test]
    fn lines_break_between_words_and_not_inside_a_measure() {
        assert_eq!(check("one two", 1000.0), ["one two"]);
        assert_eq!(check("", 100.0), [""]);
        assert_eq!(check("a\nb", 100.0), ["a", "b"]);
        for width in [46.0, 50.0, 60.0, 70.0, 80.0, 90.0] {
            let lines = check("dig down 11 1/4 in here", width);
            assert_eq!(lines.join(" "), "dig down 11 1/4 in here");
            assert!(lines.len() > 1, "{lines:?}");
        }
        let lines = check("Donaudampfschiff", 40.0);
        assert!(
            lines.len() > 1 && lines.concat() == "Donaudampfschiff",
            "{lines:?}"
        );
    }

    #[test]
    fn what_is_too_long_says_so() {
        let short = shortened(&"Alder ".repeat(50), Weight::Regular, 10.0, 120.0);
        assert!(short.ends_with('…') && 10.0 * text::advance(&short, Weight::Regular) <= 120.0);
        assert_eq!(shortened("Alder", Weight::Regular, 10.0, 120.0), "Alder");
    }
}
