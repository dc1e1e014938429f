//! What a sheet, and the stop where the digging is planned, never leaves out.

use underbrick_calc::site::{RestraintInput, Site};
use underbrick_words::Words;

/// Cautions for a site, in plain words, in the order of the work. The same stand on screen where the digging is planned.
#[must_use]
pub fn cautions(site: &Site) -> Vec<&'static str> {
    let is_concrete = matches!(site.edge.restraint, RestraintInput::Haunch { .. });
    [
        Some("Have buried services located before anyone digs."),
        Some("Frost and drainage are left to the local code and to licensed practice: nothing here stands for either."),
        Some("A side of a trench that may slip is sloped or held before anyone steps in."),
        Some("Cutting brick or stone makes silica dust: cut wet or with extraction, and wear a mask made for it."),
        is_concrete.then_some("Wet concrete burns skin and eyes: gloves, boots, glasses; wash it off at once."),
        Some("Lift brick and stone in loads that one back can bear."),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Keys of [`cautions`] in the catalogue of words, in the same order.
const KEYS: [&str; 6] = [
    "caution-services",
    "caution-code",
    "caution-trench",
    "caution-dust",
    "caution-concrete",
    "caution-lifting",
];

/// As [`cautions`], in the crew's language.
#[must_use]
pub fn cautions_in(site: &Site, words: &Words) -> Vec<String> {
    let is_concrete = matches!(site.edge.restraint, RestraintInput::Haunch { .. });
    KEYS.into_iter()
        .filter(|key| *key != "caution-concrete" || is_concrete)
        .map(|key| words.say(key))
        .collect()
}
