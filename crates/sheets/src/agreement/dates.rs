//! When the work starts and how long it takes.

use super::Design;
use super::plain::{counted, date_in_words};

pub(super) fn dates(design: Design<'_>) -> Vec<String> {
    let start = design.site.show.start.and_then(date_in_words);
    let starts = start.map_or_else(
        || "The day on which the work starts is not set yet.".to_owned(),
        |day| format!("The work starts on {day}."),
    );
    let takes = match design.chosen().map(|priced| &priced.programme) {
        Some(programme) if !programme.days.is_empty() => {
            let days = counted(programme.days.len(), "working day");
            let crew = match programme.n_crew {
                1 => "one person".to_owned(),
                n => format!("{n} people"),
            };
            format!("It takes about {days} for {crew}.")
        }
        _ => "How many days it takes is not known yet.".to_owned(),
    };
    vec![format!(
        "{starts} {takes} Rain, frost and wet ground can move these days; you are told as soon as they do."
    )]
}
