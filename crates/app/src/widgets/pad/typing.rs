//! The text on the pad and what each key does to it.

use underbrick_calc::field::{Kind, field};
use underbrick_calc::measure::amount::{AmountUnit, plain, read_amount};
use underbrick_calc::measure::angle::read_angle;
use underbrick_calc::measure::count::read_count;
use underbrick_calc::measure::decimal::read_decimal;
use underbrick_calc::measure::slope::{Fall, SlopeStyle, read_fall, write_fall};
use underbrick_calc::measure::written::{
    BareUnit, LengthStyle, Nearest, read_length, write_length,
};
use underbrick_calc::order::Decimal;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, inches, metres, millimetres};
use underbrick_calc::site::ShownIn;

/// Most characters that the pad takes.
const MOST_CHARACTERS: usize = 40;

/// The text on the pad.
#[derive(Clone, Debug, Default)]
pub struct Typing {
    place: Option<Place>,
    shown_in: ShownIn,
    text: String,
    /// The next figure starts a new number.
    is_fresh: bool,
}

impl Typing {
    /// Starts with what is written down at `place`.
    #[must_use]
    pub fn new(place: Place, text: &str, shown_in: ShownIn) -> Self {
        Self {
            place: Some(place),
            shown_in,
            text: text.to_owned(),
            is_fresh: true,
        }
    }

    /// What stands on the pad.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What is being set.
    #[must_use]
    pub const fn place(&self) -> Option<Place> {
        self.place
    }

    /// How the site shows lengths.
    #[must_use]
    pub const fn shown_in(&self) -> ShownIn {
        self.shown_in
    }

    /// What a number without a unit means here.
    #[must_use]
    pub fn bare(&self) -> BareUnit {
        let Some(place) = self.place else {
            return BareUnit::Inch;
        };
        let field = field(place);
        match (self.shown_in, field.kind) {
            (ShownIn::Metric, _) => field.metric_bare(),
            (ShownIn::FeetInches, Kind::Length { bare, .. }) => bare,
            (ShownIn::FeetInches, _) => BareUnit::Inch,
        }
    }

    /// Whether the text can be read as what belongs here. Nothing at all can: it means not measured.
    #[must_use]
    pub fn is_readable(&self) -> bool {
        let Some(place) = self.place else { return true };
        if self.text.trim().is_empty() {
            return true;
        }
        match field(place).kind {
            Kind::Length { .. } => read_length(&self.text, self.bare()).is_ok(),
            Kind::Fall { .. } => read_fall(&self.text).is_ok(),
            Kind::Turn { .. } => read_angle(&self.text).is_ok(),
            Kind::Number { unit, .. } => {
                let with_unit = format!("{} {}", self.text, unit.symbol(self.shown_in));
                read_amount(&self.text, unit).is_ok() || read_amount(&with_unit, unit).is_ok()
            }
            Kind::Count { .. } => read_count(&self.text).is_ok(),
            Kind::Decimal { .. } => read_decimal(&self.text).is_ok(),
            Kind::Text | Kind::Choice | Kind::Thing => true,
        }
    }

    /// Puts another text in place of the one that stands there.
    pub fn replace(&mut self, text: &str) {
        self.text = text.chars().take(80).collect();
        self.is_fresh = false;
    }

    /// Letters from a keyboard, as they come.
    pub fn write(&mut self, letters: &str) {
        if self.is_fresh {
            self.text.clear();
            self.is_fresh = false;
        }
        for letter in letters.chars().filter(|letter| !letter.is_control()) {
            if self.text.chars().count() < MOST_CHARACTERS {
                self.text.push(letter);
            }
        }
    }

    /// A figure key. A figure after a foot mark starts the inches; after a fraction it does nothing.
    pub fn figure(&mut self, figures: &str) {
        let (number, suffix) = self.parts();
        let mut number = if self.is_fresh { String::new() } else { number };
        self.is_fresh = false;
        if ends_in_fraction(&number) || number.ends_with('"') {
            return;
        }
        if number.ends_with('\'') {
            number.push(' ');
        }
        if number.chars().count() + figures.len() <= 12 {
            number.push_str(figures);
        }
        self.text = number + &suffix;
    }

    /// The point of a decimal number.
    pub fn point(&mut self) {
        let (number, suffix) = self.parts();
        let number = if self.is_fresh { String::new() } else { number };
        self.is_fresh = false;
        if number.contains(['.', '/', '\'']) {
            self.text = number + &suffix;
        } else if number.is_empty() {
            self.text = "0.".to_owned() + &suffix;
        } else {
            self.text = number + "." + &suffix;
        }
    }

    /// Adds so many sixteenths to what stands there.
    pub fn fraction(&mut self, sixteenths: u32) {
        let (number, suffix) = self.parts();
        let number = if self.is_fresh && !self.is_slope() {
            String::new()
        } else {
            number
        };
        let number = if self.is_fresh { String::new() } else { number };
        self.is_fresh = false;
        let (whole, had) = split_fraction(&number);
        if whole.ends_with('"') || whole.contains('.') {
            return;
        }
        let sum = had + sixteenths;
        let (carry, rest) = (sum / 16, sum % 16);
        let whole = if carry > 0 {
            add_to_last_number(&whole, carry)
        } else {
            whole
        };
        self.text = join(&whole, rest) + &suffix;
    }

    /// Foot mark after the figures.
    pub fn feet(&mut self) {
        self.is_fresh = false;
        if self.text.ends_with(|last: char| last.is_ascii_digit())
            && !self.text.contains(['\'', '/'])
        {
            self.text.push('\'');
        }
    }

    /// Inch mark after the figures.
    pub fn inch(&mut self) {
        self.is_fresh = false;
        if self.text.ends_with(|last: char| last.is_ascii_digit()) && !self.text.contains('"') {
            self.text.push('"');
        }
    }

    /// Sets the unit behind the number.
    pub fn unit(&mut self, unit: &str) {
        let (number, _) = self.parts();
        self.is_fresh = false;
        if !number.is_empty() {
            self.text = format!("{} {unit}", number.trim_end_matches(['\'', '"']));
        }
    }

    /// Puts the text of a common value there.
    pub fn put(&mut self, text: &str) {
        self.text = text.to_owned();
        self.is_fresh = true;
    }

    /// Turns the sign.
    pub fn sign(&mut self) {
        self.is_fresh = false;
        self.text = match self.text.strip_prefix(['-', '−']) {
            Some(rest) => rest.trim_start().to_owned(),
            None if self.text.is_empty() => String::new(),
            None => format!("-{}", self.text),
        };
    }

    /// Takes away the last figure, fraction or mark.
    pub fn erase(&mut self) {
        self.is_fresh = false;
        let (number, suffix) = self.parts();
        if suffix.is_empty() || number.is_empty() {
            let (whole, sixteenths) = split_fraction(&self.text);
            if sixteenths > 0 {
                self.text = whole;
            } else {
                self.text.pop();
                self.text.truncate(self.text.trim_end().len());
            }
            return;
        }
        let (whole, sixteenths) = split_fraction(&number);
        let number = if sixteenths > 0 {
            whole
        } else {
            let mut shorter = number;
            shorter.pop();
            shorter.trim_end().to_owned()
        };
        self.text = if number.is_empty() {
            String::new()
        } else {
            number + &suffix
        };
    }

    /// One small step up or down. Does nothing where the text cannot be read.
    pub fn nudge(&mut self, up: bool) {
        let Some(place) = self.place else { return };
        let sign = if up { 1.0 } else { -1.0 };
        match field(place).kind {
            Kind::Length { .. } => {
                let now = if self.text.trim().is_empty() {
                    metres(0.0)
                } else {
                    let Ok(now) = read_length(&self.text, self.bare()) else {
                        return;
                    };
                    now
                };
                self.text = self.stepped(now, sign);
            }
            Kind::Fall { .. } => {
                let Ok(now) = read_fall(&self.text) else {
                    return;
                };
                let (step, style) = if self.text.contains('%') {
                    (0.001, SlopeStyle::Percent)
                } else {
                    (1.0 / 192.0, SlopeStyle::InchesPerFoot)
                };
                if let Some(next) = Fall::from_ratio(now.ratio() + sign * step) {
                    self.text = write_fall(next, style);
                }
            }
            Kind::Number { unit, .. } => self.step_number(unit, sign),
            Kind::Decimal { .. } => {
                let now = read_decimal(&self.text).unwrap_or_default();
                let next = if up {
                    now + Decimal::ONE
                } else {
                    (now - Decimal::ONE).max(Decimal::ZERO)
                };
                self.text = next.to_string();
            }
            Kind::Count { least, .. } => {
                let now = read_count(&self.text).unwrap_or(0);
                let next = if up {
                    now.saturating_add(1)
                } else {
                    now.saturating_sub(1)
                };
                self.text = next.max(least).to_string();
            }
            Kind::Turn { .. } | Kind::Text | Kind::Choice | Kind::Thing => {}
        }
        self.is_fresh = true;
    }

    /// One step of an amount in the unit in which it stands there.
    fn step_number(&mut self, unit: AmountUnit, sign: f64) {
        let (number, suffix) = self.parts();
        let now = if number.is_empty() {
            0.0
        } else {
            let Ok(now) = number.parse::<f64>() else {
                return;
            };
            now
        };
        self.text = plain(now + sign * amount_step(unit)) + &suffix;
    }

    fn stepped(&self, now: Length, sign: f64) -> String {
        match self.shown_in {
            ShownIn::Metric => write_length(now + millimetres(sign), LengthStyle::Millimetres),
            ShownIn::FeetInches => {
                let style = if self.text.contains('\'') {
                    LengthStyle::FeetInches(Nearest::Sixteenth)
                } else {
                    LengthStyle::Inches(Nearest::Sixteenth)
                };
                write_length(now + inches(sign / 16.0), style)
            }
        }
    }

    fn is_slope(&self) -> bool {
        self.place
            .is_some_and(|place| matches!(field(place).kind, Kind::Fall { .. }))
    }

    /// Number, and the unit in words behind it with its space. Foot and inch marks belong to the number.
    fn parts(&self) -> (String, String) {
        let default = match self.place.map(|place| field(place).kind) {
            Some(Kind::Fall { .. }) => match self.shown_in {
                ShownIn::FeetInches => " in/ft",
                ShownIn::Metric => " %",
            },
            Some(Kind::Turn { .. }) => " deg",
            _ => "",
        };
        let default = match self.place.map(|place| field(place).kind) {
            Some(Kind::Number { unit, .. }) => format!(" {}", unit.symbol(self.shown_in)),
            _ => default.to_owned(),
        };
        match self
            .text
            .find(|letter: char| letter.is_alphabetic() || letter == '%' || letter == '°')
        {
            Some(at) => {
                let (number, unit) = self.text.split_at(at);
                let suffix = if default.is_empty() && self.is_fresh {
                    String::new()
                } else {
                    format!(" {unit}")
                };
                (number.trim_end().to_owned(), suffix)
            }
            None => (self.text.trim_end().to_owned(), default),
        }
    }
}

/// How far a key steps an amount.
pub(super) const fn amount_step(unit: AmountUnit) -> f64 {
    match unit {
        AmountUnit::Millimetre | AmountUnit::BtuPerHourFootFahrenheit => 0.01,
        AmountUnit::Percent
        | AmountUnit::FahrenheitDays
        | AmountUnit::Fahrenheit
        | AmountUnit::PoundsPerCubicFoot
        | AmountUnit::Days => 1.0,
    }
}

fn ends_in_fraction(number: &str) -> bool {
    split_fraction(number).1 > 0
}

/// What stands before a closing fraction, and the fraction in sixteenths; 0 where there is none that sixteenths can say.
fn split_fraction(number: &str) -> (String, u32) {
    let (head, tail) = number.rsplit_once(' ').unwrap_or(("", number));
    let sixteenths = tail.split_once('/').and_then(|(over, under)| {
        let (over, under) = (over.parse::<u32>().ok()?, under.parse::<u32>().ok()?);
        (matches!(under, 2 | 4 | 8 | 16) && over < under).then_some(over * 16 / under)
    });
    match sixteenths {
        Some(sixteenths) => (head.to_owned(), sixteenths),
        None => (number.to_owned(), 0),
    }
}

fn join(whole: &str, sixteenths: u32) -> String {
    if sixteenths == 0 {
        return whole.to_owned();
    }
    let shift = sixteenths.trailing_zeros().min(4);
    let fraction = format!("{}/{}", sixteenths >> shift, 16_u32 >> shift);
    if whole.is_empty() {
        fraction
    } else {
        format!("{whole} {fraction}")
    }
}

/// Adds to the number at the end of `text`; a text that ends otherwise gets the number behind it.
fn add_to_last_number(text: &str, add: u32) -> String {
    let cut = text
        .trim_end_matches(|letter: char| letter.is_ascii_digit())
        .len();
    let (head, digits) = text.split_at(cut);
    let number = digits.parse::<u32>().unwrap_or(0).saturating_add(add);
    let gap = if digits.is_empty() && head.ends_with('\'') {
        " "
    } else {
        ""
    };
    format!("{head}{gap}{number}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(place: Place, keys: &[&str]) -> String {
        let mut typing = Typing::new(place, "", ShownIn::FeetInches);
        for key in keys {
            match *key {
                "1/2" => typing.fraction(8),
                "1/4" => typing.fraction(4),
                "1/8" => typing.fraction(2),
                "1/16" => typing.fraction(1),
                "ft" => typing.feet(),
                "in" => typing.inch(),
                "up" => typing.nudge(true),
                "down" => typing.nudge(false),
                "erase" => typing.erase(),
                "+-" => typing.sign(),
                "." => typing.point(),
                figure => typing.figure(figure),
            }
        }
        typing.text().to_owned()
    }

    #[track_caller]
    fn check(keys: &[&str], expected: &str) {
        assert_eq!(typed(Place::OldBelowSill, keys), expected);
    }

    #[test]
    fn keys_write_what_a_mason_would() {
        check(&["9", "1/2"], "9 1/2");
        check(&["9", "1/2", "1/4"], "9 3/4");
        check(&["9", "1/2", "1/2"], "10");
        check(&["1", "1/16", "1/16"], "1 1/8");
        check(&["1/4"], "1/4");
        check(&["5", "ft", "3", "1/2"], "5' 3 1/2");
        check(&["5", "ft", "1/2", "1/2"], "5' 1");
        check(&["5", "ft", "ft"], "5'");
        check(&["9", "1/2", "7"], "9 1/2");
        check(&["9", "1/2", "erase"], "9");
        check(&["9", "1/2", "erase", "erase"], "");
        check(&["1", "2", "erase", "3"], "13");
        check(&["9", "up"], "9 1/16\"");
        check(&["up", "down"], "0\"");
        check(&["2", ".", "2", "5"], "2.25");
        check(&["9", "+-"], "-9");
        check(&["9", "+-", "+-"], "9");
    }

    #[test]
    fn first_figure_replaces_what_stood_there() {
        let mut typing = Typing::new(Place::OldBelowSill, "1 7/8 in", ShownIn::FeetInches);
        typing.figure("4");
        assert_eq!(typing.text(), "4");
    }

    #[test]
    fn erasing_first_keeps_what_stood_there() {
        let mut typing = Typing::new(Place::OldBelowSill, "1 7/8\"", ShownIn::FeetInches);
        typing.erase();
        assert_eq!(typing.text(), "1 7/8");
        typing.erase();
        assert_eq!(typing.text(), "1");
    }

    #[test]
    fn fall_keeps_its_unit() {
        assert_eq!(typed(Place::Fall, &["1/4"]), "1/4 in/ft");
        assert_eq!(typed(Place::Fall, &["1/4", "1/8"]), "3/8 in/ft");
        let mut typing = Typing::new(Place::Fall, "1/4 in/ft", ShownIn::FeetInches);
        typing.figure("2");
        typing.unit("%");
        assert_eq!(typing.text(), "2 %");
    }

    #[test]
    fn an_amount_keeps_its_unit() {
        assert_eq!(typed(Place::Fines, &["8", "8"]), "88 %");
        assert_eq!(typed(Place::Fines, &["8", ".", "5", "up"]), "9.5 %");
        assert_eq!(typed(Place::Fines, &["8", "erase"]), "");
        assert_eq!(typed(Place::GrainD10, &[".", "0", "7"]), "0.07 mm");
        assert_eq!(typed(Place::GrainD10, &["up", "up"]), "0.02 mm");
        assert_eq!(typed(Place::FreezingIndex, &["9", "0"]), "90 °F days");
        let mut typing = Typing::new(Place::DryDensity, "96 lb/ft3", ShownIn::FeetInches);
        assert!(typing.is_readable());
        typing.erase();
        assert_eq!(typing.text(), "9 lb/ft3");
        typing.unit("kg/m3");
        assert_eq!(typing.text(), "9 kg/m3");
        typing.figure("5");
        assert_eq!(typing.text(), "95 kg/m3");
    }

    #[test]
    fn nothing_that_keys_do_panics() {
        let keys = [
            "1", "9", "0", "1/2", "1/16", "ft", "in", "up", "down", "erase", "+-", ".",
        ];
        for a in keys {
            for b in keys {
                for c in keys {
                    for d in keys {
                        for place in [
                            Place::OldBelowSill,
                            Place::ShotOffset(0),
                            Place::Fall,
                            Place::LegTurn(0),
                            Place::MeanTemperature,
                        ] {
                            typed(place, &[a, b, c, d]);
                        }
                    }
                }
            }
        }
    }
}
