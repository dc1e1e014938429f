//! When the work starts and how long it takes.

use super::Design;
use super::plain::{counted, date_in_words};
use underbrick_calc::order::Priced;

pub(super) fn dates(design: Design<'_>) -> Vec<String> {
    let start = design.site.show.start.and_then(date_in_words);
    let starts = start.map_or_else(
        || "The day on which the work starts is not set yet.".to_owned(),
        |day| format!("The work starts on {day}."),
    );
    let takes = match design
        .chosen()
        .map(|priced| (priced, n_days(design, priced)))
    {
        Some((priced, Some((n, is_least)))) => {
            let about = if is_least { "at least" } else { "about" };
            let days = counted(n, "working day");
            let crew = match priced.programme.n_crew {
                1 => "one person".to_owned(),
                n => format!("{n} people"),
            };
            format!("It takes {about} {days} for {crew}.")
        }
        _ => "How many days it takes is not known yet.".to_owned(),
    };
    vec![format!(
        "{starts} {takes} Rain, frost and wet ground can move these days; you are told as soon as they do."
    )]
}

/// Days of a way, and whether they are the least; `None` where nothing is designed that could take them.
fn n_days(design: Design<'_>, priced: &Priced) -> Option<(usize, bool)> {
    let n = priced.programme.days.len();
    design.results.bed.as_ref().filter(|_| n > 0)?;
    let is_least = priced.labour.iter().any(|labour| labour.hours.is_none());
    Some((n, is_least))
}

/// Days of a way in words: `3 days`, `at least 3 days`, `not known`.
pub(crate) fn days_in_words(design: Design<'_>, priced: &Priced) -> String {
    match n_days(design, priced) {
        None => "not known".to_owned(),
        Some((n, true)) => format!("at least {}", counted(n, "day")),
        Some((n, false)) => counted(n, "day"),
    }
}
