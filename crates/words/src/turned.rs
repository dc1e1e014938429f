//! Labels of drawings in another language: a label is found among the English messages of the drawings, and said by the same key.

use std::sync::OnceLock;

use fluent_bundle::{FluentArgs, FluentValue};
use underbrick_calc::site::Language;

use super::Words;

/// The English messages of the drawings: labels, and sentences.
const ENGLISH: [&str; 2] = [
    include_str!("../../../assets/words/en/drawing.ftl"),
    include_str!("../../../assets/words/en/told.ftl"),
];
/// How deep a text may stand in a text.
const DEEPEST: usize = 6;

/// One message, as what stands between the values that are put in.
#[derive(Debug)]
struct Pattern {
    key: &'static str,
    parts: Vec<Part>,
    /// Letters that are given: what has most of them is looked at first.
    n_given: usize,
}

#[derive(Debug)]
enum Part {
    Given(&'static str),
    /// A measure or a count: it begins with a figure.
    Measure(&'static str),
    /// Any text.
    Text(&'static str),
}

impl Words {
    /// What a drawing says in English, in this language. A text that is in no catalogue, such as a name that a person gave, stays as it is.
    #[must_use]
    pub fn of_drawing(&self, english: &str) -> String {
        match self.language() {
            Language::English => english.to_owned(),
            Language::Spanish => self
                .turned(english, DEEPEST)
                .unwrap_or_else(|| english.to_owned()),
        }
    }

    /// Whether the catalogue of the drawings knows what to say for a text.
    #[must_use]
    pub fn knows_of_drawing(&self, english: &str) -> bool {
        self.turned(english, DEEPEST).is_some()
    }

    fn turned(&self, english: &str, deepest: usize) -> Option<String> {
        let deeper = deepest.checked_sub(1)?;
        patterns().iter().find_map(|pattern| {
            let mut values = Vec::new();
            matched(english, &pattern.parts, &mut values).then_some(())?;
            let mut args = FluentArgs::with_capacity(values.len());
            for (name, value, is_text) in values {
                let value = if is_text {
                    self.turned(value, deeper)
                        .unwrap_or_else(|| value.to_owned())
                } else {
                    value.to_owned()
                };
                args.set(name, FluentValue::from(value));
            }
            Some(self.said(pattern.key, Some(&args)))
        })
    }
}

/// Whether a text is the parts one after another; what stands for each value.
fn matched<'t>(
    text: &'t str,
    parts: &[Part],
    values: &mut Vec<(&'static str, &'t str, bool)>,
) -> bool {
    let Some((first, rest)) = parts.split_first() else {
        return text.is_empty();
    };
    match first {
        Part::Given(given) => text
            .strip_prefix(given)
            .is_some_and(|after| matched(after, rest, values)),
        Part::Measure(name) | Part::Text(name) => {
            let is_text = matches!(first, Part::Text(_));
            let begins_well = is_text
                || text
                    .starts_with(|letter: char| letter.is_ascii_digit() || "-−".contains(letter));
            if text.is_empty() || !begins_well {
                return false;
            }
            // Up to where what is given next stands, the nearest first.
            let ends: Vec<usize> = match rest.first() {
                Some(Part::Given(next)) => text.match_indices(next).map(|(at, _)| at).collect(),
                _ => vec![text.len()],
            };
            for end in ends.into_iter().filter(|end| *end > 0) {
                let (value, after) = text.split_at(end);
                if !is_text && !is_measure(value) {
                    continue;
                }
                let n_before = values.len();
                values.push((name, value, is_text));
                if matched(after, rest, values) {
                    return true;
                }
                values.truncate(n_before);
            }
            false
        }
    }
}

/// Whether a text is a measure or a count: words with figures, and units.
fn is_measure(text: &str) -> bool {
    let is_unit = |word: &str| ["in", "ft", "mm", "m", "in/ft", "%"].contains(&word);
    text.starts_with(|letter: char| letter.is_ascii_digit() || "-−".contains(letter))
        && text
            .split(' ')
            .all(|word| is_unit(word) || word.contains(|letter: char| letter.is_ascii_digit()))
}

fn patterns() -> &'static [Pattern] {
    static PATTERNS: OnceLock<Vec<Pattern>> = OnceLock::new();
    PATTERNS.get_or_init(|| {
        let lines = ENGLISH.iter().flat_map(|text| text.lines());
        let lines = lines.filter(|line| !line.starts_with('#'));
        let mut patterns: Vec<Pattern> = lines
            .filter_map(|line| line.split_once(" = "))
            .map(|(key, text)| pattern(key, text))
            .collect();
        patterns.sort_by_key(|pattern| std::cmp::Reverse(pattern.n_given));
        patterns
    })
}

fn pattern(key: &'static str, text: &'static str) -> Pattern {
    let mut parts = Vec::new();
    let mut rest = text;
    while let Some((given, after)) = rest.split_once("{ $") {
        if !given.is_empty() {
            parts.push(Part::Given(given));
        }
        let (name, after) = after.split_once(" }").unwrap_or((after, ""));
        parts.push(if name.len() == 1 {
            Part::Measure(name)
        } else {
            Part::Text(name)
        });
        rest = after;
    }
    if !rest.is_empty() {
        parts.push(Part::Given(rest));
    }
    let n_given = parts
        .iter()
        .map(|part| match part {
            Part::Given(given) => given.len(),
            Part::Measure(_) => 1,
            Part::Text(_) => 0,
        })
        .sum();
    Pattern {
        key,
        parts,
        n_given,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(english: &str, spanish: &str) {
        assert_eq!(Words::of(Language::Spanish).of_drawing(english), spanish);
        assert_eq!(Words::of(Language::English).of_drawing(english), english);
    }

    #[test]
    fn labels_are_turned_with_their_measures() {
        check("grade line", "línea de rasante");
        check(
            "2'-8 5/8\" clear, 8 bricks",
            "2'-8 5/8\" libre, 8 ladrillos",
        );
        check("Old brick 2 1/4\"", "Ladrillo viejo 2 1/4\"");
        check(
            "running bond, 818 pieces, falls 0.263 in/ft away from the door",
            "aparejo corrido, 818 piezas, baja 0.263 in/ft alejándose de la puerta",
        );
        check("48° right", "48° a la derecha");
        check("Grandfather's ash 3\"", "Grandfather's ash 3\"");
        check("12'", "12'");
    }
}
