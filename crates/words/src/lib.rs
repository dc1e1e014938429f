//! What the crew reads, in its language: one catalogue a language, in `assets/words`. Knows nothing of screens, paper or formulas.
//!
//! A catalogue is Project Fluent's plain text, one file a subject. English stands beside Spanish under the same key; a key that a
//! catalogue lacks shows as itself, and a test finds it.

mod turned;

use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

pub use underbrick_calc::site::Language;

/// Subject, English, Spanish.
const CATALOGUES: &[(&str, &str, &str)] = &[
    (
        "paper",
        include_str!("../../../assets/words/en/paper.ftl"),
        include_str!("../../../assets/words/es/paper.ftl"),
    ),
    (
        "crew",
        include_str!("../../../assets/words/en/crew.ftl"),
        include_str!("../../../assets/words/es/crew.ftl"),
    ),
    (
        "drawing",
        include_str!("../../../assets/words/en/drawing.ftl"),
        include_str!("../../../assets/words/es/drawing.ftl"),
    ),
    (
        "told",
        include_str!("../../../assets/words/en/told.ftl"),
        include_str!("../../../assets/words/es/told.ftl"),
    ),
];

/// The words of one language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
}

impl Words {
    /// The words of a language, read once.
    #[must_use]
    pub fn of(language: Language) -> &'static Self {
        static ENGLISH: OnceLock<Words> = OnceLock::new();
        static SPANISH: OnceLock<Words> = OnceLock::new();
        match language {
            Language::English => ENGLISH.get_or_init(|| Self::read(language)),
            Language::Spanish => SPANISH.get_or_init(|| Self::read(language)),
        }
    }

    /// Which language it is.
    #[must_use]
    pub const fn language(&self) -> Language {
        self.language
    }

    /// What stands under a key.
    #[must_use]
    pub fn say(&self, key: &str) -> String {
        self.said(key, None)
    }

    /// What stands under a key, with values put in: a text as it is, a number so that the sentence agrees with it.
    #[must_use]
    pub fn say_with<'a>(&'a self, key: &str, values: &[(&'a str, Value<'a>)]) -> String {
        let mut args = FluentArgs::with_capacity(values.len());
        for (name, value) in values {
            match value {
                Value::Text(text) => args.set(*name, FluentValue::from(*text)),
                Value::Count(count) => args.set(*name, FluentValue::from(*count)),
            }
        }
        self.said(key, Some(&args))
    }

    fn said(&self, key: &str, args: Option<&FluentArgs<'_>>) -> String {
        let pattern = self
            .bundle
            .get_message(key)
            .and_then(|message| message.value());
        let Some(pattern) = pattern else {
            return key.to_owned();
        };
        let mut errors = Vec::new();
        let said = self.bundle.format_pattern(pattern, args, &mut errors);
        said.into_owned()
    }

    fn read(language: Language) -> Self {
        let tag = match language {
            Language::English => "en-US",
            Language::Spanish => "es-US",
        };
        let id: LanguageIdentifier = tag.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![id]);
        // What is put in is not fenced by marks of direction: both languages run from left to right, and the marks would be printed.
        bundle.set_use_isolating(false);
        for (_, english, spanish) in CATALOGUES {
            let text = match language {
                Language::English => english,
                Language::Spanish => spanish,
            };
            // A message that cannot be read is left out; the test of the catalogues finds it.
            let resource =
                FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(rest, _)| rest);
            bundle.add_resource_overriding(resource);
        }
        Self { language, bundle }
    }
}

/// A value that is put into a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Value<'a> {
    /// As it is: a length as written, a name.
    Text(&'a str),
    /// So many: the sentence agrees with it.
    Count(usize),
}

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a String> for Value<'a> {
    fn from(text: &'a String) -> Self {
        Self::Text(text)
    }
}

impl From<usize> for Value<'_> {
    fn from(count: usize) -> Self {
        Self::Count(count)
    }
}

#[cfg(test)]
mod tests;
