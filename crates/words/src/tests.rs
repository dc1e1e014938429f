//! The catalogues: both whole, alike, and used.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use fluent_bundle::FluentResource;

use super::*;

/// Messages of a catalogue: key and text, with the lines of a plural joined.
fn messages(text: &str) -> BTreeMap<String, String> {
    let mut messages = BTreeMap::new();
    let mut last: Option<String> = None;
    for line in text.lines() {
        if line.starts_with('#') || line.trim().is_empty() {
            last = None;
        } else if line.starts_with([' ', '}']) {
            let key = last
                .clone()
                .unwrap_or_else(|| panic!("a line that belongs to no message: {line}"));
            let entry: &mut String = messages.get_mut(&key).unwrap();
            entry.push(' ');
            entry.push_str(line.trim());
        } else {
            let (key, value) = line.split_once(" = ").unwrap_or_else(|| panic!("{line}"));
            assert!(
                messages.insert(key.to_owned(), value.to_owned()).is_none(),
                "{key} stands twice"
            );
            last = Some(key.to_owned());
        }
    }
    messages
}

/// All messages of one language.
fn all(
    of: impl Fn(&(&str, &'static str, &'static str)) -> &'static str,
) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for catalogue in CATALOGUES {
        for (key, value) in messages(of(catalogue)) {
            assert!(
                all.insert(key.clone(), value).is_none(),
                "{key} stands in two catalogues"
            );
        }
    }
    all
}

fn english() -> BTreeMap<String, String> {
    all(|(_, english, _)| english)
}

fn spanish() -> BTreeMap<String, String> {
    all(|(_, _, spanish)| spanish)
}

/// Names of what is put in.
fn variables(text: &str) -> BTreeSet<String> {
    text.split('$')
        .skip(1)
        .map(|rest| {
            rest.chars()
                .take_while(|letter| letter.is_alphanumeric())
                .collect()
        })
        .collect()
}

#[test]
fn a_page_says_its_number_in_both_languages() {
    let check = |language, expected: &str| {
        let values = [("page", Value::from(2)), ("pages", Value::from(5))];
        assert_eq!(Words::of(language).say_with("page-of", &values), expected);
    };
    check(Language::English, "page 2 of 5");
    check(Language::Spanish, "página 2 de 5");
}

#[test]
fn a_count_agrees_with_its_noun() {
    let check = |language, lifts: usize, expected: &str| {
        let values = [
            ("thickness", Value::from("9\"")),
            ("lifts", Value::from(lifts)),
        ];
        assert_eq!(Words::of(language).say_with("in-lifts", &values), expected);
    };
    check(Language::English, 1, "9\" in 1 lift");
    check(Language::English, 3, "9\" in 3 lifts");
    check(Language::Spanish, 1, "9\" en 1 capa");
    check(Language::Spanish, 3, "9\" en 3 capas");
}

#[test]
fn a_key_that_there_is_not_shows_as_itself() {
    assert_eq!(
        Words::of(Language::Spanish).say("no-such-key"),
        "no-such-key"
    );
}

#[test]
fn every_catalogue_is_read_without_an_error() {
    for (name, english, spanish) in CATALOGUES {
        for text in [english, spanish] {
            if let Err((_, errors)) = FluentResource::try_new((*text).to_owned()) {
                panic!("{name}: {errors:?}");
            }
        }
    }
}

#[test]
fn both_languages_have_the_same_keys_with_the_same_values_put_in() {
    let (english, spanish) = (english(), spanish());
    let keys = |of: &BTreeMap<String, String>| of.keys().cloned().collect::<Vec<_>>();
    assert_eq!(keys(&english), keys(&spanish));
    for (key, text) in &english {
        assert_eq!(variables(text), variables(&spanish[key]), "{key}");
    }
}

/// Words that are the same in both, or names.
const SAME: [&str; 1] = ["d-radius"];

#[test]
fn nothing_is_left_in_english() {
    const ENGLISH_WORDS: [&str; 22] = [
        "the", "and", "of", "with", "from", "is", "are", "to", "at", "by", "for", "lift", "brick",
        "stake", "joint", "drop", "where", "not", "dig", "edge", "string", "which",
    ];
    let english = english();
    for (key, text) in spanish() {
        let has_words = text
            .split(['{', '}'])
            .step_by(2)
            .any(|part| part.chars().any(char::is_alphabetic));
        assert!(
            !has_words || text != english[&key] || SAME.contains(&key.as_str()),
            "{key} = {text}"
        );
        // What is quoted is the name of a command.
        let plain: String = text.split('`').step_by(2).collect();
        let outside: String = plain
            .split(['{', '}'])
            .step_by(2)
            .collect::<Vec<_>>()
            .join(" ");
        for word in outside.split(|letter: char| !letter.is_alphabetic()) {
            assert!(
                !ENGLISH_WORDS.contains(&word.to_lowercase().as_str()),
                "{key}: {word:?} in {text}"
            );
        }
    }
}

/// Every text in quotes in the sources of the crates that may say something.
fn quoted() -> BTreeSet<String> {
    fn gather(folder: &Path, quoted: &mut BTreeSet<String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                gather(&path, quoted);
            } else if path.extension().is_some_and(|ext| ext == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                quoted.extend(text.split('"').map(str::to_owned));
            }
        }
    }
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let mut found = BTreeSet::new();
    for name in ["calc", "drawing", "sheets", "app"] {
        gather(&crates.join(name).join("src"), &mut found);
    }
    found
}

#[test]
fn every_key_is_said_somewhere() {
    let quoted = quoted();
    for key in english().keys() {
        // Labels of drawings are found by what they say; months by their number.
        let is_made = key.starts_with("month-") || key.starts_with("d-");
        assert!(is_made || quoted.contains(key), "nobody says {key}");
    }
}

#[test]
fn every_key_that_is_said_is_there() {
    let english = english();
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    fn gather(folder: &Path, said: &mut BTreeSet<String>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                gather(&path, said);
            } else if path.extension().is_some_and(|ext| ext == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                for call in [".say(\"", ".say_with(\"", ".with(\"", "said.with(\n"] {
                    for rest in text.split(call).skip(1) {
                        let rest = rest.trim_start().trim_start_matches('"');
                        let key: String =
                            rest.chars().take_while(|letter| *letter != '"').collect();
                        said.insert(key);
                    }
                }
            }
        }
    }
    let mut said = BTreeSet::new();
    gather(&crates.join("sheets").join("src"), &mut said);
    assert!(said.len() > 40, "{said:?}");
    for key in said {
        assert!(
            english.contains_key(&key),
            "{key:?} is said and is in no catalogue"
        );
    }
}
