//! Words that every clause needs.

use crate::dates::MONTHS;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::order::Way;
use underbrick_calc::quantity::{Length, feet, in_metres, metres};
use underbrick_calc::site::ShownIn;

/// A way of rebuilding as a homeowner chooses between them.
#[must_use]
pub const fn way_in_plain_words(way: Way) -> &'static str {
    match way {
        Way::Relay => "Your brick laid again on what is there now",
        Way::NewBase => "New stone underneath, your brick laid again",
        Way::NewBrick => "New stone underneath, and new brick",
    }
}

/// A day in words: `May 4, 2026`. `None` where the numbers are no month.
#[must_use]
pub fn date_in_words((year, month, day): (i16, i8, i8)) -> Option<String> {
    let month_idx = usize::try_from(month).ok()?.checked_sub(1)?;
    let month = MONTHS.get(month_idx)?;
    Some(format!("{month} {day}, {year}"))
}

/// Things of one sentence: `a`, `a and b`, `a, b and c`.
pub(super) fn listed(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// With a capital letter at its head, as a sentence and a line that stands alone have.
#[must_use]
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// One thing or several: `1 day`, `4 days`.
pub(super) fn counted(count: usize, one: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {one}s")
    }
}

/// From one length to another, or the one where both are shown alike.
pub(super) fn from_to(shown: ShownIn, one: Length, other: Length) -> String {
    let (least, most) = if one < other {
        (one, other)
    } else {
        (other, one)
    };
    let (least, most) = (shown.length(least), shown.length(most));
    if least == most {
        most
    } else {
        format!("{least} to {most}")
    }
}

/// How steep something is: `1/4" for every foot`, `21 mm for every metre`; no sign.
pub(super) fn steepness(shown: ShownIn, fall: Fall) -> String {
    let ratio = fall.ratio().abs();
    match shown {
        ShownIn::FeetInches => format!("{} for every foot", shown.length(feet(1.0) * ratio)),
        ShownIn::Metric => format!("{} for every metre", shown.length(metres(1.0) * ratio)),
    }
}

/// Whether a length is shown as nothing.
pub(super) fn is_nothing(shown: ShownIn, length: Length) -> bool {
    shown.length(size(length)) == shown.length(Length::default())
}

/// A length without its sign.
pub(super) fn size(length: Length) -> Length {
    if in_metres(length) < 0.0 {
        -length
    } else {
        length
    }
}
