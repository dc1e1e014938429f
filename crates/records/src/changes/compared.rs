//! What is other in one state of a site than in another, value by value.

use serde_json::{Map, Value};

use super::named::{self, Step};
use crate::v1::SiteFile;

/// One value that is other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// What, in words of the trade.
    pub what: String,
    /// What stood there before; empty where nothing did.
    pub from: String,
    /// What stands there now.
    pub to: String,
}

/// What stands in the place of a thing that was taken away, or was added without a value.
const AWAY: &str = "taken away";
const ADDED: &str = "added";
const THERE: &str = "there";

/// Longest text that sums up a thing.
const LONGEST_SUM: usize = 90;

static NOTHING: Value = Value::Null;

/// Every value that is other in `after` than in `before`, sections and fields by their names.
pub fn compared(before: &SiteFile, after: &SiteFile) -> Vec<Difference> {
    let tree = |site: &SiteFile| serde_json::to_value(site).unwrap_or_default();
    let mut walk = Walk::default();
    walk.value(&tree(before), &tree(after));
    walk.found
}

#[derive(Default)]
struct Walk {
    path: Vec<Step>,
    found: Vec<Difference>,
}

impl Walk {
    fn under(&mut self, step: Step, before: &Value, after: &Value) {
        self.path.push(step);
        self.value(before, after);
        self.path.pop();
    }

    fn value(&mut self, before: &Value, after: &Value) {
        if before == after || named::is_quiet(&self.path) {
            return;
        }
        match (before, after) {
            (Value::Array(before), Value::Array(after)) => self.list(before, after),
            (Value::Array(before), Value::Null) => self.list(before, &[]),
            (Value::Null, Value::Array(after)) => self.list(&[], after),
            (Value::Object(before), Value::Object(after)) if is_same_kind(before, after) => {
                self.fields(before, after);
            }
            (Value::Object(before), Value::Null) if !is_choice(before) => {
                if named::is_thing(&self.path) {
                    self.note(named::words_of(&self.path), THERE, "");
                }
                self.fields(before, &named::as_usual(&self.path));
            }
            (Value::Null, Value::Object(after)) if !is_choice(after) => {
                if named::is_thing(&self.path) {
                    self.note(named::words_of(&self.path), "", THERE);
                }
                self.fields(&named::as_usual(&self.path), after);
            }
            _ => {
                let from = named::said(&self.path, before, after);
                let to = named::said(&self.path, after, before);
                self.note(named::words_of(&self.path), &from, &to);
            }
        }
    }

    fn note(&mut self, what: String, from: &str, to: &str) {
        if from != to {
            self.found.push(Difference {
                what,
                from: from.to_owned(),
                to: to.to_owned(),
            });
        }
    }

    fn fields(&mut self, before: &Map<String, Value>, after: &Map<String, Value>) {
        let added = after.keys().filter(|key| !before.contains_key(*key));
        for key in before.keys().chain(added) {
            // Whoever closes a stage is told as whoever changed it.
            let is_told = key == "stamp" && before.get("closed") != after.get("closed");
            if is_told {
                continue;
            }
            self.under(
                Step::Field(key.clone()),
                before.get(key).unwrap_or(&NOTHING),
                after.get(key).unwrap_or(&NOTHING),
            );
        }
    }

    fn list(&mut self, before: &[Value], after: &[Value]) {
        match named::key_field(&self.path) {
            Some(field) => self.keyed(field, before, after),
            None => self.in_turn(before, after),
        }
    }

    /// A list whose things are told apart by a key of their own.
    fn keyed(&mut self, field: &str, before: &[Value], after: &[Value]) {
        let key = |thing: &Value| match thing.get(field) {
            Some(Value::String(word)) => word.clone(),
            Some(other) => other.to_string(),
            None => String::new(),
        };
        let is_there =
            |things: &[Value], sought: &str| things.iter().any(|thing| key(thing) == sought);
        let added = after.iter().filter(|thing| !is_there(before, &key(thing)));
        for thing in before.iter().chain(added) {
            let sought = key(thing);
            let find = |things: &[Value]| {
                let found = things.iter().find(|thing| key(thing) == sought);
                found.cloned().unwrap_or_default()
            };
            let (before, after) = (find(before), find(after));
            self.under(Step::Keyed(sought), &before, &after);
        }
    }

    /// A list whose things stand one behind the other: what is alike at both its ends is the same, and what lies between is compared in
    /// turn.
    fn in_turn(&mut self, before: &[Value], after: &[Value]) {
        let alike = |(before, after): &(&Value, &Value)| before == after;
        let n_first = before.iter().zip(after).take_while(alike).count();
        let (rest_before, rest_after) = (
            before.get(n_first..).unwrap_or_default(),
            after.get(n_first..).unwrap_or_default(),
        );
        let backwards = rest_before.iter().rev().zip(rest_after.iter().rev());
        let n_last = backwards.take_while(alike).count();
        let between = |rest: &[Value]| rest.len().saturating_sub(n_last);
        let (n_before, n_after) = (between(rest_before), between(rest_after));
        for nth in 0..n_before.max(n_after) {
            let before = rest_before.get(nth).filter(|_| nth < n_before);
            let after = rest_after.get(nth).filter(|_| nth < n_after);
            let Some(thing) = after.or(before) else {
                continue;
            };
            let step = named::thing(&self.path, n_first + nth, thing);
            match (before, after) {
                (Some(before), Some(after)) => self.under(step, before, after),
                (Some(before), None) => self.came_or_went(step, before, false),
                _ => self.came_or_went(step, thing, true),
            }
        }
    }

    fn came_or_went(&mut self, step: Step, thing: &Value, is_new: bool) {
        self.path.push(step);
        let sum = named::sum_of(&self.path, thing, LONGEST_SUM);
        let what = named::words_of(&self.path);
        match (sum, is_new) {
            // It was asked for, and nothing was read yet.
            (Some(sum), _) if sum.is_empty() && named::counts_with_value(&self.path) => {}
            (Some(sum), true) if !sum.is_empty() => self.note(what, "", &sum),
            (_, true) => self.note(what, "", ADDED),
            (sum, false) => {
                let sum = sum.filter(|sum| !sum.is_empty());
                self.note(what, sum.as_deref().unwrap_or(THERE), AWAY);
            }
        }
        self.path.pop();
    }
}

/// Whether an object is a choice with what belongs to it, such as `Curve(radius: …)`.
fn is_choice(object: &Map<String, Value>) -> bool {
    let mut keys = object.keys();
    match (keys.next(), keys.next()) {
        (Some(key), None) => key.starts_with(|letter: char| letter.is_ascii_uppercase()),
        _ => false,
    }
}

/// Whether two objects are compared field by field: two structs, or the same choice with fields.
fn is_same_kind(before: &Map<String, Value>, after: &Map<String, Value>) -> bool {
    if is_choice(before) || is_choice(after) {
        return before.keys().eq(after.keys()) && before.values().all(Value::is_object);
    }
    true
}
