//! Which keys the pad has, by what is being set.

use egui::{Rect, Ui, pos2, vec2};
use underbrick_calc::field::{Kind, field};
use underbrick_calc::measure::amount::AmountUnit;
use underbrick_calc::place::Place;
use underbrick_calc::site::ShownIn;

use super::super::key::Key;
use super::Typing;
use super::typing::amount_step;
use crate::theme::{Ink, size};

/// What a key does.
#[derive(Clone, Copy, Debug)]
enum Act {
    Figure(&'static str),
    Fraction(&'static str, u32),
    Feet,
    Inch,
    Point,
    Unit(&'static str),
    Put(&'static str, &'static str),
    Common(&'static str, &'static str),
    Sign(&'static str, &'static str),
    Erase,
    Up(&'static str),
    Down(&'static str),
    Clear,
    Next,
    /// No key.
    Blank,
}

use Act::{
    Blank, Clear, Common, Down, Erase, Feet, Figure, Fraction, Inch, Next, Point, Put, Sign, Unit,
    Up,
};

/// Five keys in each of four rows.
type Layout = [[Act; 5]; 4];

const FEET_INCHES: Layout = [
    [
        Figure("7"),
        Figure("8"),
        Figure("9"),
        Fraction("1/2", 8),
        Erase,
    ],
    [
        Figure("4"),
        Figure("5"),
        Figure("6"),
        Fraction("1/4", 4),
        Up("+ 1/16"),
    ],
    [
        Figure("1"),
        Figure("2"),
        Figure("3"),
        Fraction("1/8", 2),
        Down("− 1/16"),
    ],
    [Feet, Figure("0"), Inch, Fraction("1/16", 1), Next],
];

const METRIC: Layout = [
    [Figure("7"), Figure("8"), Figure("9"), Unit("mm"), Erase],
    [
        Figure("4"),
        Figure("5"),
        Figure("6"),
        Unit("cm"),
        Up("+ 1 mm"),
    ],
    [
        Figure("1"),
        Figure("2"),
        Figure("3"),
        Unit("m"),
        Down("− 1 mm"),
    ],
    [Point, Figure("0"), Figure("00"), Clear, Next],
];

const FALL: Layout = [
    [
        Figure("7"),
        Figure("8"),
        Figure("9"),
        Fraction("1/4", 4),
        Erase,
    ],
    [
        Figure("4"),
        Figure("5"),
        Figure("6"),
        Fraction("1/8", 2),
        Up("steeper"),
    ],
    [
        Figure("1"),
        Figure("2"),
        Figure("3"),
        Fraction("1/16", 1),
        Down("flatter"),
    ],
    [Point, Figure("0"), Unit("in/ft"), Unit("%"), Next],
];

const TURN: Layout = [
    [
        Figure("7"),
        Figure("8"),
        Figure("9"),
        Put("30", "30 deg"),
        Erase,
    ],
    [
        Figure("4"),
        Figure("5"),
        Figure("6"),
        Put("45", "45 deg"),
        Put("60", "60 deg"),
    ],
    [
        Figure("1"),
        Figure("2"),
        Figure("3"),
        Put("90", "90 deg"),
        Put("180", "180 deg"),
    ],
    [Point, Figure("0"), Unit("deg"), Clear, Next],
];

/// Keys of an amount: its units, or values that are common where it has but one.
fn number(unit: AmountUnit, shown_in: ShownIn) -> Layout {
    use AmountUnit::{
        BtuPerHourFootFahrenheit, Days, Fahrenheit, FahrenheitDays, Millimetre, Percent,
        PoundsPerCubicFoot,
    };
    let mut symbols = unit.symbols();
    let first = symbols.next().unwrap_or_default();
    let second = symbols.next().map_or(Clear, Unit);
    let (second, third) = match (unit, shown_in) {
        (Percent, _) => (Common("20", "20 %"), Common("50", "50 %")),
        (Millimetre, _) => (Common("0.1", "0.1 mm"), Common("0.5", "0.5 mm")),
        (Days, _) => (Common("90", "90 days"), Common("120", "120 days")),
        (Fahrenheit, _) => (second, Sign("above", "or below")),
        (FahrenheitDays, ShownIn::FeetInches) => (second, Common("1000", "1000 °F days")),
        (FahrenheitDays, ShownIn::Metric) => (second, Common("500", "500 °C days")),
        (PoundsPerCubicFoot, ShownIn::FeetInches) => (second, Common("100", "100 lb/ft3")),
        (PoundsPerCubicFoot, ShownIn::Metric) => (second, Common("1600", "1600 kg/m3")),
        (BtuPerHourFootFahrenheit, ShownIn::FeetInches) => {
            (second, Common("0.8", "0.8 Btu/h ft °F"))
        }
        (BtuPerHourFootFahrenheit, ShownIn::Metric) => (second, Common("1.4", "1.4 W/m K")),
    };
    let (up, down) = if amount_step(unit) < 1.0 {
        ("+ 0.01", "− 0.01")
    } else {
        ("+ 1", "− 1")
    };
    [
        [Figure("7"), Figure("8"), Figure("9"), Unit(first), Erase],
        [Figure("4"), Figure("5"), Figure("6"), second, Up(up)],
        [Figure("1"), Figure("2"), Figure("3"), third, Down(down)],
        [Point, Figure("0"), Figure("00"), Clear, Next],
    ]
}
/// Whole numbers.
const COUNT: Layout = [
    [Figure("7"), Figure("8"), Figure("9"), Blank, Erase],
    [Figure("4"), Figure("5"), Figure("6"), Blank, Up("+ 1")],
    [Figure("1"), Figure("2"), Figure("3"), Blank, Down("− 1")],
    [Blank, Figure("0"), Blank, Clear, Next],
];

/// Money, units of sale, hours.
const DECIMAL: Layout = [
    [Figure("7"), Figure("8"), Figure("9"), Blank, Erase],
    [Figure("4"), Figure("5"), Figure("6"), Blank, Up("+ 1")],
    [Figure("1"), Figure("2"), Figure("3"), Blank, Down("− 1")],
    [Point, Figure("0"), Blank, Clear, Next],
];

/// A scale that may be divided either way.
const SCALE: Layout = [
    [
        Figure("7"),
        Figure("8"),
        Figure("9"),
        Fraction("1/2", 8),
        Erase,
    ],
    [
        Figure("4"),
        Figure("5"),
        Figure("6"),
        Fraction("1/4", 4),
        Unit("in"),
    ],
    [
        Figure("1"),
        Figure("2"),
        Figure("3"),
        Fraction("1/8", 2),
        Unit("mm"),
    ],
    [Point, Figure("0"), Clear, Fraction("1/16", 1), Next],
];

/// Shows the keys in `grid` and lets them work on `typing`.
pub(super) fn grid_ui(ui: &mut Ui, grid: Rect, typing: &mut Typing, next: &mut bool) {
    let Some(place) = typing.place() else { return };
    let layout = match (field(place).kind, typing.shown_in()) {
        (Kind::Fall { .. }, _) => FALL,
        (Kind::Turn { .. }, _) => TURN,
        (Kind::Number { unit, .. }, shown_in) => number(unit, shown_in),
        (Kind::Count { .. }, _) => COUNT,
        (Kind::Decimal { .. }, _) => DECIMAL,
        (_, ShownIn::FeetInches) if is_penetrometer(place) => SCALE,
        (_, ShownIn::FeetInches) => FEET_INCHES,
        (_, ShownIn::Metric) => METRIC,
    };
    let sign = sign_key(place);
    let rows = layout.len() as f32;
    let height = ((grid.height() - size::GAP * (rows - 1.0)) / rows).clamp(40.0, 84.0);
    for (row_idx, row) in layout.iter().enumerate() {
        let top = grid.min.y + row_idx as f32 * (height + size::GAP);
        let line = Rect::from_min_size(pos2(grid.min.x, top), vec2(grid.width(), height));
        for (act, cell) in row.iter().zip(super::super::key::cells(line, row.len())) {
            let act = match act {
                Up(_) => sign.unwrap_or(*act),
                other => *other,
            };
            if !matches!(act, Blank) && face(act).show(ui, cell).clicked() {
                press(act, typing, next);
            }
        }
    }
}

/// What turning the sign means, where a value may be either as a matter of course: a side of the centreline, above or below the sill,
/// which way up the rod stands.
const fn sign_key(place: Place) -> Option<Act> {
    match place {
        Place::SignOffset(_)
        | Place::ShotOffset(_)
        | Place::PitOffset(_)
        | Place::BookOffset(_)
        | Place::CrossFall => Some(Sign("+ / −", "side")),
        Place::StringAboveSill | Place::BookBenchmark => Some(Sign("above", "or below")),
        Place::BookReading(_) => Some(Sign("+ / −", "inverted")),
        _ => None,
    }
}

const fn is_penetrometer(place: Place) -> bool {
    matches!(
        place,
        Place::PenetrometerStart(_) | Place::PenetrometerReading(..)
    )
}

fn face(act: Act) -> Key {
    match act {
        Figure(figure) => Key::figure(figure),
        Fraction(fraction, _) => Key::figure(fraction).on(Ink::FractionKey, Ink::Ink),
        Feet => Key::new("ft").on(Ink::LineGround, Ink::Ink),
        Inch => Key::new("in").on(Ink::LineGround, Ink::Ink),
        Point => Key::figure("."),
        Unit(unit) => Key::new(unit).on(Ink::LineGround, Ink::Ink),
        Common(word, _) => Key::figure(word).on(Ink::FractionKey, Ink::Ink),
        Put(word, _) => Key::new(format!("{word}°")).on(Ink::FractionKey, Ink::Ink),
        Sign(upper, lower) => Key::two_lines(upper, lower),
        Erase => Key::two_lines("erase", "one"),
        Clear => Key::two_lines("erase", "all"),
        Up(step) => Key::two_lines(step, "up"),
        Down(step) => Key::two_lines(step, "down"),
        Next => Key::new("next").on(Ink::Line, Ink::Paper),
        Blank => Key::new(""),
    }
}

fn press(act: Act, typing: &mut Typing, next: &mut bool) {
    match act {
        Figure(figure) => typing.figure(figure),
        Fraction(_, sixteenths) => typing.fraction(sixteenths),
        Feet => typing.feet(),
        Inch => typing.inch(),
        Point => typing.point(),
        Unit(unit) => typing.unit(unit),
        Put(_, text) | Common(_, text) => typing.put(text),
        Sign(..) => typing.sign(),
        Erase => typing.erase(),
        Clear => typing.replace(""),
        Up(_) => typing.nudge(true),
        Down(_) => typing.nudge(false),
        Next => *next = true,
        Blank => {}
    }
}
