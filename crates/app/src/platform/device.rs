//! What this device is called among those of a crew: a letter that a person gives it, and writes on its back.

use egui::Context;

/// The letter of this device; `None` until a person has given it one.
#[must_use]
pub fn letter(context: &Context) -> Option<char> {
    context.data(|data| data.get_temp(id())).flatten()
}

/// Gives the device that letter.
pub fn set_letter(context: &Context, letter: Option<char>) {
    let known = letter.filter(char::is_ascii_uppercase);
    context.data_mut(|data| data.insert_temp::<Option<char>>(id(), known));
}

/// Gives the device the letter after its own; after H comes none again.
pub fn next_letter(context: &Context) {
    let next = match letter(context) {
        None => Some('A'),
        Some('A') => Some('B'),
        Some('B') => Some('C'),
        Some('C') => Some('D'),
        Some('D') => Some('E'),
        Some('E') => Some('F'),
        Some('F') => Some('G'),
        Some('G') => Some('H'),
        Some(_) => None,
    };
    set_letter(context, next);
}

/// The device as it stands in the record: `device A`, or `this device` where it has no letter.
#[must_use]
pub fn name(letter: Option<char>) -> String {
    letter.map_or_else(
        || "this device".to_owned(),
        |letter| format!("device {letter}"),
    )
}

fn id() -> egui::Id {
    egui::Id::unique("underbrick letter of the device")
}
