//! The language that drawings are made in. A label is turned when its text is made, before it is measured: so every language is laid out by
//! the widths of its own words.

use std::cell::Cell;

use underbrick_calc::site::Language;
use underbrick_words::Words;

thread_local! {
    static TONGUE: Cell<Language> = const { Cell::new(Language::English) };
}

/// Makes something, such as a drawing, with its labels in a language. On screen they are English.
pub fn in_language<T>(language: Language, make: impl FnOnce() -> T) -> T {
    struct Back(Language);
    impl Drop for Back {
        fn drop(&mut self) {
            TONGUE.set(self.0);
        }
    }
    let _back = Back(TONGUE.replace(language));
    make()
}

/// Things that are told one after the other, each in the language that is spoken.
pub(crate) fn said_each(english: impl IntoIterator<Item = String>, between: &str) -> String {
    let told: Vec<String> = english.into_iter().map(said).collect();
    told.join(between)
}

/// A label in the language that is spoken.
pub(crate) fn said(english: String) -> String {
    match TONGUE.get() {
        Language::English => english,
        language => Words::of(language).of_drawing(&english),
    }
}
