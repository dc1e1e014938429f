//! What a place in the record is called in the list of changes: the field's own name where it has one, else the words of the file.

use serde_json::{Map, Value};
use underbrick_calc::build::{HoldStage, SpotKind, Surface};
use underbrick_calc::field::{Kind, field, full_name};
use underbrick_calc::order::{Item, Stage};
use underbrick_calc::place::Place;

use super::places;
use crate::v1::Penetrometer;

/// One step on the way to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// A field, or a choice.
    Field(String),
    /// A thing of a list, by its index, with its own name where it has one.
    Nth(usize, Option<String>),
    /// A thing of a list, by its key.
    Keyed(String),
}

/// Where a path leads, and what it passes.
pub struct Parts<'a> {
    /// Fields and choices, `#` for a thing of a list.
    pub words: Vec<&'a str>,
    /// Indices of the things, one for each that has no key.
    pub idxs: Vec<usize>,
    /// Key of the last thing that has one.
    pub key: &'a str,
}

fn parts(path: &[Step]) -> Parts<'_> {
    let mut parts = Parts {
        words: Vec::new(),
        idxs: Vec::new(),
        key: "",
    };
    for step in path {
        match step {
            Step::Field(word) => parts.words.push(word),
            Step::Nth(idx, _) => {
                parts.words.push("#");
                parts.idxs.push(*idx);
            }
            Step::Keyed(key) => {
                parts.words.push("#");
                parts.key = key;
            }
        }
    }
    parts
}

/// Whether what stands there says nothing that is not told elsewhere: who and when, keys, checksums.
pub fn is_quiet(path: &[Step]) -> bool {
    let parts = parts(path);
    match parts.words.as_slice() {
        ["build", "stages", "#", "stamp"] | ["build", "stages", "#", "stamp", "by"] => false,
        ["build", "stages", "#", "stage"]
        | ["build", "lifts", "#", "number"]
        | ["order", "lines", "#", "item"]
        | ["order", "stages", "#", "stage"]
        | ["show", "put_away"]
        | ["version"] => true,
        [.., "at" | "device"] if parts.words.contains(&"stamp") => true,
        [.., "stamp" | "digest" | "strokes" | "clauses"] => true,
        _ => false,
    }
}

/// The field by which things of a list are told apart; `None` where they stand one behind the other.
pub fn key_field(path: &[Step]) -> Option<&'static str> {
    match parts(path).words.as_slice() {
        ["build", "lifts"] => Some("number"),
        ["build" | "order", "stages"] => Some("stage"),
        ["order", "lines"] => Some("item"),
        _ => None,
    }
}

/// Whether something that need not be there is a thing of its own.
pub fn is_thing(path: &[Step]) -> bool {
    parts(path).words.as_slice() == ["lay", "second_brick"]
}

/// What stands in the place of fields that are left out of the file together.
pub fn as_usual(path: &[Step]) -> Map<String, Value> {
    let usual = match parts(path).words.as_slice() {
        ["pits", "#", "penetrometer"] => serde_json::to_value(Penetrometer::default()),
        _ => return Map::new(),
    };
    match usual {
        Ok(Value::Object(fields)) => fields,
        _ => Map::new(),
    }
}

/// Whether a thing is told with its first value, and not before.
pub fn counts_with_value(path: &[Step]) -> bool {
    matches!(
        parts(path).words.as_slice(),
        ["build", "readings" | "spots" | "set_ups", "#"]
            | ["build", "days", "#", "deliveries", "#"]
    )
}

/// The step to a thing of a list.
pub fn thing(path: &[Step], idx: usize, thing: &Value) -> Step {
    let text = |field: &str| {
        thing
            .get(field)
            .and_then(Value::as_str)
            .unwrap_or_default()
            .trim()
    };
    let at = |name: String| match (text("station"), text("offset")) {
        ("", _) => name,
        (station, "") => format!("{name} at {station}"),
        (station, offset) => format!("{name} at {station}, {offset} off the middle"),
    };
    let name = match parts(path).words.as_slice() {
        ["build", "readings"] => {
            let surface = Surface::of(text("surface"));
            Some(at(surface.map_or_else(
                || "Reading".to_owned(),
                |surface| capital(&surface.name()),
            )))
        }
        ["build", "spots"] => {
            let kind = SpotKind::of(text("kind"));
            Some(at(kind.map_or("Check", SpotKind::name).to_owned()))
        }
        ["build", "days"] => Some(match text("date") {
            "" => format!("Day {}", idx + 1),
            date => format!("Day {date}"),
        }),
        ["build", "days", "#", "deliveries"] => {
            let item = Item::of(text("item"));
            Some(item.map_or_else(
                || "delivery".to_owned(),
                |item| format!("{} that came", item.name()),
            ))
        }
        _ => None,
    };
    Step::Nth(idx, name)
}

/// What stands at the end of a path, in words.
pub fn words_of(path: &[Step]) -> String {
    let has_own_name = path
        .iter()
        .any(|step| matches!(step, Step::Nth(_, Some(_))));
    if let Some(place) = place_of(path).filter(|_| !has_own_name) {
        return full_name(place);
    }
    let mut said: Vec<String> = Vec::new();
    for (nth, step) in path.iter().enumerate() {
        match step {
            Step::Field(word) => match word.as_str() {
                // Sections, and what has no name of its own beside its thing.
                "build" | "line" | "lay" | "order" | "show" | "soil" | "frost" | "shape"
                | "days" | "readings" | "spots" | "deliveries" | "reading" | "size" | "count"
                | "closed" | "stamp" | "book" => {}
                "by" if path.get(nth + 1).is_none() => said.push("how it was read".to_owned()),
                "of" => said.push("belongs to".to_owned()),
                "confirmed" => said.push("asked about, and right".to_owned()),
                "Straight" | "Curve" | "Steps" | "Break" | "Fixed" => {}
                _ if matches!(path.get(nth + 1), Some(Step::Nth(..) | Step::Keyed(_))) => {}
                "plant" => said.push("the base is compacted by a".to_owned()),
                word => said.push(word.replace('_', " ")),
            },
            Step::Nth(_, Some(name)) => said.push(format!("{name}:")),
            Step::Nth(idx, None) => {
                let list = nth.checked_sub(1).and_then(|before| path.get(before));
                said.push(format!("{} {}", one_of(list), idx + 1));
            }
            Step::Keyed(key) => said.push(format!("{}:", key_words(path, key))),
        }
    }
    let said = said.join(" ");
    capital(said.trim_end_matches(':'))
}

/// What one thing of a list is called.
fn one_of(list: Option<&Step>) -> &str {
    let Some(Step::Field(list)) = list else {
        return "";
    };
    match list.as_str() {
        "legs" => "leg",
        "pits" => "pit",
        "layers" => "layer",
        "signs" => "sign",
        "shots" => "reading of the old surface",
        "rows" => "row",
        "openings" => "opening",
        "sample" => "measured brick",
        "set_ups" => "set-up",
        "pictures" => "picture",
        "agreements" => "agreement",
        "signatures" => "signature",
        other => other,
    }
}

fn key_words(path: &[Step], key: &str) -> String {
    let named = match parts(path).words.as_slice() {
        ["build", "stages", ..] => HoldStage::of(key).map(HoldStage::name),
        ["build", "lifts", ..] => Some(format!("Lift {key}")),
        ["order", "lines", ..] => Item::of(key).map(|item| item.name().to_owned()),
        ["order", "stages", ..] => Stage::of(key).map(|stage| stage.name().to_owned()),
        _ => None,
    };
    named.unwrap_or_else(|| key.to_owned())
}

/// A value in words; `other` is what it is compared with.
pub fn said(path: &[Step], value: &Value, other: &Value) -> String {
    let words = parts(path).words;
    if words.as_slice() == ["build", "stages", "#", "closed"] {
        return if value == &Value::Bool(true) {
            "closed"
        } else {
            "open"
        }
        .to_owned();
    }
    let is_text = is_typed(path);
    match value {
        Value::Null if matches!(other, Value::Bool(_)) => "no".to_owned(),
        Value::Null if is_text => String::new(),
        Value::Null => match words.as_slice() {
            [.., "firmness" | "moisture" | "ribbon" | "grit"] => String::new(),
            _ if other.as_str().is_some_and(is_choice_word) || other.is_object() => {
                "as usual".to_owned()
            }
            _ => String::new(),
        },
        Value::Bool(true) => "yes".to_owned(),
        Value::Bool(false) => "no".to_owned(),
        Value::Number(number) => number.to_string(),
        Value::String(text) if is_text => text.clone(),
        Value::String(text) => plain(text),
        Value::Array(things) => format!("{} of them", things.len()),
        Value::Object(fields) => match fields.iter().next() {
            Some((choice, Value::Number(number))) => format!("{} {number}", plain(choice)),
            Some((choice, _)) => plain(choice),
            None => String::new(),
        },
    }
}

/// Whether a text there was typed, and is no word of a list.
fn is_typed(path: &[Step]) -> bool {
    match place_of(path) {
        Some(place) => !matches!(field(place).kind, Kind::Choice | Kind::Thing),
        None => {
            matches!(path.last(), Some(Step::Field(word)) if ["supplier", "file", "name"].contains(&word.as_str()))
        }
    }
}

fn place_of(path: &[Step]) -> Option<Place> {
    places::place_of(&parts(path))
}

/// What a thing holds, on one line no longer than that. `None` where it holds nothing that is text.
pub fn sum_of(path: &[Step], thing: &Value, longest: usize) -> Option<String> {
    let words = parts(path).words;
    let one = |field: &str| {
        Some(
            thing
                .get(field)
                .and_then(Value::as_str)
                .unwrap_or_default()
                .to_owned(),
        )
    };
    match words.as_slice() {
        ["build", "readings", "#"] => return one("reading"),
        ["build", "spots", "#"] => return one("size"),
        ["build", "set_ups", "#"] => return one("rod_at_sill"),
        ["build", "days", "#", "deliveries", "#"] => return one("count"),
        ["show", "pictures", "#"] => return one("file"),
        _ => {}
    }
    let mut texts = Vec::new();
    gather(path, thing, &mut texts);
    if words.as_slice() == ["build", "days", "#"] {
        // Its date is its name.
        let date = one("date").unwrap_or_default();
        texts.retain(|text| *text != date);
    }
    let mut sum = texts.join(", ");
    if sum.chars().count() > longest {
        sum = sum.chars().take(longest).chain(['…']).collect();
    }
    (!sum.is_empty()).then_some(sum)
}

fn gather(path: &[Step], value: &Value, texts: &mut Vec<String>) {
    if is_quiet(path) {
        return;
    }
    match value {
        Value::String(text) if text.trim().is_empty() => {}
        Value::String(text) if is_typed(path) => texts.push(text.clone()),
        Value::String(text) if !is_choice_word(text) => texts.push(plain(text)),
        Value::Array(things) => {
            for (idx, thing) in things.iter().enumerate() {
                gather(&longer(path, Step::Nth(idx, None)), thing, texts);
            }
        }
        Value::Object(fields) => {
            for (field, value) in fields {
                gather(&longer(path, Step::Field(field.clone())), value, texts);
            }
        }
        _ => {}
    }
}

fn longer(path: &[Step], step: Step) -> Vec<Step> {
    path.iter().cloned().chain([step]).collect()
}

/// Whether a word is one that a choice is written with in the file: `Herringbone90`.
fn is_choice_word(word: &str) -> bool {
    word.starts_with(|letter: char| letter.is_ascii_uppercase())
        && word.chars().all(|letter| letter.is_ascii_alphanumeric())
}

/// `VeryHard` as `very hard`, `open-joints` as `open joints`.
fn plain(word: &str) -> String {
    if !is_choice_word(word) {
        let is_key = !word.is_empty()
            && word.chars().all(|letter| {
                letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-'
            });
        return if is_key {
            word.replace('-', " ")
        } else {
            word.to_owned()
        };
    }
    let mut plain = String::new();
    let mut was_digit = false;
    for (nth, letter) in word.chars().enumerate() {
        let starts = letter.is_ascii_uppercase() || (letter.is_ascii_digit() && !was_digit);
        if starts && nth > 0 {
            plain.push(' ');
        }
        was_digit = letter.is_ascii_digit();
        plain.push(letter.to_ascii_lowercase());
    }
    plain
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
