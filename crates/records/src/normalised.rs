//! What is stored for what was typed: a bare number gets the unit that it means in its field.

use underbrick_calc::field::{Kind, field};
use underbrick_calc::measure::amount::read_amount;
use underbrick_calc::measure::angle::read_angle;
use underbrick_calc::measure::slope::read_fall;
use underbrick_calc::measure::written::{BareUnit, read_length, read_length_with_unit};
use underbrick_calc::place::Place;
use underbrick_calc::site::ShownIn;

use crate::v1::SiteFile;

impl SiteFile {
    /// What to store at a place for what was typed there: `9 1/2` becomes `9 1/2 in`, on a metric site `240` becomes `240 mm`. What
    /// carries its unit, and what cannot be read, stays exactly as typed. A fall gets `in/ft` or `%`, a turn `deg`.
    #[must_use]
    pub fn normalised(&self, place: Place, typed: &str) -> String {
        let field = field(place);
        let bare_text = typed.trim();
        let shown_in = ShownIn::from(self.shown_in);
        let with_unit = match (field.kind, shown_in) {
            (Kind::Length { bare, .. }, ShownIn::FeetInches) => length_with_unit(bare_text, bare),
            (Kind::Length { .. }, ShownIn::Metric) => {
                length_with_unit(bare_text, field.metric_bare())
            }
            (Kind::Fall { .. }, ShownIn::FeetInches) => {
                suffixed(bare_text, "in/ft", |text| read_fall(text).is_ok())
            }
            (Kind::Fall { .. }, ShownIn::Metric) => {
                suffixed(bare_text, "%", |text| read_fall(text).is_ok())
            }
            (Kind::Turn { .. }, _) => suffixed(bare_text, "deg", |text| read_angle(text).is_ok()),
            (Kind::Number { unit, .. }, _) => suffixed(bare_text, unit.symbol(shown_in), |text| {
                read_amount(text, unit).is_ok()
            }),
            (
                Kind::Count { .. } | Kind::Decimal { .. } | Kind::Text | Kind::Choice | Kind::Thing,
                _,
            ) => None,
        };
        with_unit.unwrap_or_else(|| typed.to_owned())
    }
}

/// A bare length with its unit in words; `None` where it has one already or cannot be read.
fn length_with_unit(text: &str, bare: BareUnit) -> Option<String> {
    if read_length_with_unit(text).is_ok() {
        return None;
    }
    let meant = read_length(text, bare).ok()?;
    let unit = match bare {
        BareUnit::Inch => "in",
        BareUnit::Foot => "ft",
        BareUnit::Millimetre => "mm",
        BareUnit::Metre => "m",
    };
    // `5-3 1/2` is feet and inches whatever the field: its dash gives way to the feet's unit.
    let feet_and_inches = text
        .split_once('-')
        .map(|(feet, inches)| format!("{feet} ft {inches} in"));
    let candidates = [Some(format!("{text} {unit}")), feet_and_inches];
    candidates
        .into_iter()
        .flatten()
        .find(|candidate| read_length_with_unit(candidate) == Ok(meant))
}

/// The text with a unit after it, where it can be read only so.
fn suffixed(text: &str, unit: &str, can_be_read: impl Fn(&str) -> bool) -> Option<String> {
    let with_unit = format!("{text} {unit}");
    (!can_be_read(text) && can_be_read(&with_unit)).then_some(with_unit)
}
