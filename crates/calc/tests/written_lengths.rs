//! Lengths as people write them: every form, every refusal, and every sixteenth up to 100 ft against exact rational arithmetic.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use num_rational::Ratio;
use proptest::prelude::*;
use underbrick_calc::measure::written::{
    BareUnit, LengthStyle, Nearest, WrittenError, read_length, read_length_with_unit, write_length,
};
use underbrick_calc::quantity::{Length, in_metres, inches, metres, millimetres, unit};

const STYLES: [LengthStyle; 9] = [
    LengthStyle::FeetInches(Nearest::Sixteenth),
    LengthStyle::FeetInches(Nearest::Eighth),
    LengthStyle::FeetInches(Nearest::Quarter),
    LengthStyle::Inches(Nearest::Sixteenth),
    LengthStyle::Inches(Nearest::Eighth),
    LengthStyle::Inches(Nearest::Quarter),
    LengthStyle::DecimalFeet,
    LengthStyle::Millimetres,
    LengthStyle::Metres,
];
const FEET_INCHES: LengthStyle = LengthStyle::FeetInches(Nearest::Sixteenth);
const LONGEST_M: f64 = 1e9;

/// The double nearest to a fraction: IEEE 754 division of two integers that doubles hold exactly.
fn nearest(exact: Ratio<i64>) -> f64 {
    assert!(exact.numer().abs() < 1 << 53 && *exact.denom() < 1 << 53);
    *exact.numer() as f64 / *exact.denom() as f64
}

/// An inch is 254 / 10 000 m (check-values U1).
fn metres_of_inches(exact_in: Ratio<i64>) -> f64 {
    nearest(exact_in * Ratio::new(254, 10_000))
}

#[track_caller]
fn reads_m(text: &str, bare: BareUnit, value_m: f64) {
    assert_eq!(
        read_length(text, bare).map(in_metres),
        Ok(value_m),
        "{text:?}"
    );
}

/// `numerator / denominator` inches, in an inch field.
#[track_caller]
fn reads_in(text: &str, numerator: i64, denominator: i64) {
    reads_m(
        text,
        BareUnit::Inch,
        metres_of_inches(Ratio::new(numerator, denominator)),
    );
}

#[test]
fn inches_alone() {
    for text in [
        "2 1/4",
        "2-1/4",
        "2-1/4\"",
        "2 1/4\"",
        "2.25",
        "2,25",
        "2.25 in",
        "2.25in.",
        "2 1/4 inches",
        "2.25 INCH",
        "2¼",
        "2 ¼ ″",
        "2-¼”",
        "2 1⁄4\"",
        "2 1 / 4",
        "2 1/4''",
        "2.25′′",
        "+2 1/4",
        "+ 2.25",
        "  2   1/4  in  ",
        "9/4",
        "02.250",
        "2\u{a0}1/4\u{202f}in",
    ] {
        reads_in(text, 9, 4);
    }
    for (text, eighths) in [
        ("⅛", 1),
        ("¼", 2),
        ("⅜", 3),
        ("½", 4),
        ("⅝", 5),
        ("¾", 6),
        ("⅞", 7),
    ] {
        reads_in(text, eighths, 8);
    }
    reads_in("1⁄16", 1, 16);
    reads_in("11 15/16", 191, 16);
    reads_in(".5", 1, 2);
    reads_in("0", 0, 1);
    reads_in("57", 57, 1);
    reads_in("1/3 in", 1, 3);
}

#[test]
fn feet_and_inches() {
    for text in [
        "5' 3 1/2\"",
        "5'-3 1/2\"",
        "5-3 1/2",
        "5-3 1/2\"",
        "5-3-1/2",
        "5'-3-1/2\"",
        "5'3½\"",
        "5' 3 1/2",
        "5 ft 3 1/2 in",
        "5ft3.5in",
        "5 ft. 3 1/2 in.",
        "5 feet 3.5 inches",
        "5 FOOT - 3 1/2 Inch",
        "5′ 3½″",
        "5’ 3 1/2”",
        "5' 3 1/2''",
        "5'  -  3 1/2 \"",
        "5'−3½″",
        "5'–3½\"",
        "63 1/2",
        "63.5\"",
        "5-3.5",
    ] {
        reads_in(text, 127, 2);
    }
    reads_in("5'", 60, 1);
    reads_in("5 ft", 60, 1);
    reads_in("5'-0\"", 60, 1);
    reads_in("5' 1/2\"", 121, 2);
    reads_in("5'-11 15/16\"", 1151, 16);
    reads_in("5-3", 63, 1);
    reads_in("5-3/4", 23, 4); // five and three quarters, not 5 ft
    reads_in("5 3/4'", 69, 1);
    reads_in("5.5 ft", 66, 1);
    reads_in("3 yd", 108, 1);
    reads_in("5.29 ft", 529 * 12, 100);
}

#[test]
fn metric() {
    for (text, value_mm) in [
        ("57 mm", 57.0),
        ("1.2 m", 1200.0),
        ("1,2 m", 1200.0),
        ("12 cm", 120.0),
        ("1.2 Metres", 1200.0),
        ("1 meter", 1000.0),
        ("57MM", 57.0),
        ("0,125 m", 125.0),
        ("1200,125 mm", 1200.125),
        ("1/2 m", 500.0),
        ("57 millimetres", 57.0),
    ] {
        reads_m(text, BareUnit::Inch, value_mm / 1000.0);
        assert_eq!(
            read_length_with_unit(text).map(in_metres),
            Ok(value_mm / 1000.0),
            "{text}"
        );
    }
}

#[test]
fn a_number_without_a_unit_takes_the_one_of_the_field() {
    reads_m("57", BareUnit::Inch, 1.4478);
    reads_m("57", BareUnit::Foot, 17.3736);
    reads_m("57", BareUnit::Millimetre, 0.057);
    reads_m("57", BareUnit::Metre, 57.0);
    reads_m("2-1/4", BareUnit::Foot, 0.6858); // two and a quarter feet
    reads_m("5-3", BareUnit::Foot, 1.6002); // 63 in
    reads_m("2 1/4", BareUnit::Millimetre, 0.00225);
    reads_m("5' 3", BareUnit::Millimetre, 1.6002); // after feet come inches, whatever the field
}

#[test]
fn a_sign_belongs_to_the_whole() {
    for text in ["-5' 3 1/2\"", "−5'-3½″", "- 5-3 1/2", "-63.5", "–63 1/2 in"] {
        reads_in(text, -127, 2);
    }
    for text in ["-0", "-0 mm", "-0'-0\""] {
        assert!(
            read_length(text, BareUnit::Inch)
                .is_ok_and(|length| in_metres(length).is_sign_positive()),
            "{text}"
        );
    }
}

/// check-values U1, U13, U14 and U15: exact by definition of the inch (international yard and pound agreement of 1959).
#[test]
fn units_are_exact() {
    for (text, value_mm) in [
        ("1 in", 25.4),
        ("1 ft", 304.8),
        ("1 yd", 914.4),
        ("12 ft 6-3/8 in", 3819.525),
        ("12.53125 ft", 3819.525),
        ("5'-7 1/2\"", 1714.5),
        ("5.625 ft", 1714.5),
        ("1/16 in", 1.5875),
    ] {
        assert_eq!(
            read_length_with_unit(text).map(in_metres),
            Ok(value_mm / 1000.0),
            "{text}"
        );
    }
    // U12: an international foot, not the survey foot of 1200/3937 m.
    assert!(in_metres(read_length_with_unit("1 ft").unwrap()) < 1200.0 / 3937.0);
    // U17: a 1 in sieve has a 25.0 mm opening (ASTM E11) and is a name; a length of 1 in stays 25.4 mm.
    assert_eq!(read_length_with_unit("1 in").map(in_metres), Ok(0.0254));
}

/// check-values U2 and U3: the areas and volumes that follow from a foot and a yard as read.
#[test]
fn squares_and_cubes_follow() {
    let foot = read_length_with_unit("1 ft").unwrap();
    let yard = read_length_with_unit("1 yd").unwrap();
    let close = |got: f64, exact: f64| (got / exact - 1.0).abs() < 1e-12;
    assert!(close(
        (foot * foot).get::<unit::square_meter>(),
        0.092_903_04
    ));
    assert!(close(
        (foot * foot * foot).get::<unit::cubic_meter>(),
        0.028_316_846_592
    ));
    assert!(close(
        (yard * yard * yard).get::<unit::cubic_meter>(),
        0.764_554_857_984
    ));
}

#[track_caller]
fn refuses(text: &str, error: &WrittenError) {
    assert_eq!(
        read_length(text, BareUnit::Inch).as_ref(),
        Err(error),
        "{text:?}"
    );
}

#[test]
fn anything_else_is_refused_where_it_stands() {
    use WrittenError::*;
    let odd = |what: &str, character| NotUnderstood {
        what: what.to_owned(),
        character,
    };
    let cut = |after: &str, character| Unfinished {
        after: after.to_owned(),
        character,
    };
    refuses("", &Empty);
    refuses(" \t ", &Empty);
    refuses("5'' 3", &odd("3", 5));
    refuses(
        "5' 3\"\"",
        &SecondMark {
            mark: "inch",
            character: 6,
        },
    );
    refuses(
        "5\"\"",
        &SecondMark {
            mark: "inch",
            character: 3,
        },
    );
    refuses(
        "5' 3'",
        &SecondMark {
            mark: "foot",
            character: 5,
        },
    );
    refuses(
        "5' '",
        &SecondMark {
            mark: "foot",
            character: 4,
        },
    );
    refuses("5 mm\"", &odd("\"", 5));
    refuses("5 in 3", &odd("3", 6));
    refuses("5 ft 3 ft", &odd("ft", 8));
    refuses("3 in 5 ft", &odd("5", 6));
    refuses("3\" 1/2", &odd("1", 4));
    refuses("1 m 20 cm", &odd("20", 5));
    refuses("5 3 1/2", &odd("3", 3));
    refuses("5 - 3", &odd("-", 3));
    refuses("5 -3 1/2", &odd("-", 3));
    refuses("5- 3 1/2", &odd("-", 2));
    refuses("2 - 1/4", &odd("-", 3));
    refuses("5-3'", &odd("'", 4));
    refuses("5-3 mm", &odd("mm", 5));
    refuses("1-2-3", &odd("-", 4));
    refuses("1/0", &NothingBelowLine { character: 3 });
    refuses("5' 3 1/0\"", &NothingBelowLine { character: 8 });
    refuses("1/4/2", &odd("/", 4));
    refuses("¼/2", &odd("/", 2));
    refuses("½½", &odd("½", 2));
    refuses("1/", &cut("/", 2));
    refuses("/2", &odd("/", 1));
    refuses("1/x", &odd("x", 3));
    refuses("1/½", &odd("½", 3));
    refuses("1/-2", &odd("-", 3));
    refuses("1.5/2", &BrokenFraction { character: 1 });
    refuses("1/2.5", &BrokenFraction { character: 3 });
    refuses("2 5/4", &FractionNotBelowOne { character: 3 });
    refuses("2.5 1/4", &odd("1", 5));
    refuses("5.", &NoDecimals { character: 2 });
    refuses(".", &odd(".", 1));
    refuses(
        "1.2.3",
        &SecondMark {
            mark: "decimal",
            character: 4,
        },
    );
    refuses("1,200 mm", &CommaUnclear { character: 2 });
    refuses(
        "1,200.5 mm",
        &SecondMark {
            mark: "decimal",
            character: 6,
        },
    );
    refuses("5' 12\"", &InchesNotBelowFoot { character: 4 });
    refuses("5-14", &InchesNotBelowFoot { character: 3 });
    refuses("5.5' 3\"", &FeetNotWhole { character: 1 });
    refuses("5 1/2' 3\"", &FeetNotWhole { character: 1 });
    refuses("5'-", &cut("-", 3));
    refuses("5-", &cut("-", 2));
    refuses("-", &cut("-", 1));
    refuses("--5", &odd("-", 2));
    refuses("-+5", &odd("+", 2));
    refuses("5' +3\"", &odd("+", 4));
    refuses("in", &odd("in", 1));
    refuses("5 in in", &odd("in", 6));
    refuses("5 furlongs", &odd("furlongs", 3));
    refuses("NaN", &odd("NaN", 1));
    refuses("inf", &odd("inf", 1));
    refuses("-inf", &odd("inf", 2));
    refuses("1e400 m", &odd("e", 2));
    refuses("1e3 mm", &odd("e", 2));
    refuses("٣ in", &odd("٣", 1));
    refuses("2² in", &odd("²", 2));
    refuses("(2)", &odd("(", 1));
    refuses(
        "½ 2.2.2",
        &SecondMark {
            mark: "decimal",
            character: 6,
        },
    );
    refuses("x 1.2.3", &odd("x", 1)); // the first trouble from the left
    refuses("5 supercalifragilistic", &odd("supercalifragili…", 3));
    refuses(
        "1234567890123456 mm",
        &TooManyDigits {
            most: 15,
            character: 1,
        },
    );
    refuses(
        "5' 0.1234567890123",
        &TooManyDecimals {
            most: 12,
            character: 4,
        },
    );
    refuses(
        "1/1000000",
        &TooManyDigits {
            most: 6,
            character: 3,
        },
    );
    refuses(
        "1000000001 m",
        &Beyond {
            limit: "a million kilometres",
            character: 1,
        },
    );
    refuses(
        "999999999999999'-11\"",
        &Beyond {
            limit: "a million kilometres",
            character: 1,
        },
    );
    refuses(
        &"9".repeat(100_000),
        &TooManyDigits {
            most: 15,
            character: 1,
        },
    );
}

#[test]
fn the_bad_input_says_where() {
    assert_eq!(
        read_length("5' 3\"\"", BareUnit::Inch)
            .unwrap_err()
            .to_string(),
        "a second inch mark at character 6 was not understood"
    );
    let error = read_length("5'' 3", BareUnit::Inch).unwrap_err();
    assert_eq!(error.to_string(), "“3” at character 5 was not understood");
    assert_eq!(error.character(), Some(5));
    assert_eq!(WrittenError::Empty.character(), None);
}

#[test]
fn a_dash_stands_for_feet_only_in_a_field_of_feet_or_inches() {
    let dash = WrittenError::NotUnderstood {
        what: "-".to_owned(),
        character: 2,
    };
    assert_eq!(read_length("5-3", BareUnit::Millimetre), Err(dash.clone()));
    assert_eq!(read_length("5-3 1/2", BareUnit::Metre), Err(dash));
}

#[test]
fn a_record_takes_no_bare_number() {
    for (text, character) in [
        ("57", 1),
        ("0", 1),
        ("-3", 2),
        ("2 1/4", 1),
        ("¼", 1),
        ("5-3 1/2", 1),
        ("5-3 1/2\"", 1),
    ] {
        assert_eq!(
            read_length_with_unit(text),
            Err(WrittenError::NoUnit { character }),
            "{text}"
        );
    }
    let odd = WrittenError::NotUnderstood {
        what: "xyz".to_owned(),
        character: 4,
    };
    assert_eq!(read_length_with_unit("57 xyz"), Err(odd));
    assert_eq!(read_length_with_unit("5' 3").map(in_metres), Ok(1.6002));
    assert_eq!(read_length_with_unit("2-1/4\"").map(in_metres), Ok(0.05715));
}

#[track_caller]
fn writes(length: Length, style: LengthStyle, text: &str) {
    assert_eq!(write_length(length, style), text);
}

#[test]
fn feet_inches_and_fractions_are_written_as_the_trade_does() {
    let (eighth, quarter) = (
        LengthStyle::FeetInches(Nearest::Eighth),
        LengthStyle::FeetInches(Nearest::Quarter),
    );
    for (value_in, text) in [
        (63.5, "5'-3 1/2\""),
        (11.875, "11 7/8\""),
        (12.0, "1'-0\""),
        (12.5, "1'-0 1/2\""),
        (0.375, "3/8\""),
        (0.0, "0\""),
        (-0.0, "0\""),
        (-63.5, "-5'-3 1/2\""),
        (-0.25, "-1/4\""),
        (-0.01, "0\""),
        (150.375, "12'-6 3/8\""), // check-values U13
        (67.5, "5'-7 1/2\""),     // check-values U14
        (3.03, "3\""),            // check-values U16: the nearest sixteenth
        (11.99, "1'-0\""),        // check-values U16: carried
        (11.0 + 31.0 / 32.0, "1'-0\""),
        (-11.0 - 31.0 / 32.0, "-1'-0\""),
        (3.031_25, "3 1/16\""), // half a sixteenth goes away from zero
        (-3.031_25, "-3 1/16\""),
    ] {
        writes(inches(value_in), FEET_INCHES, text);
    }
    writes(inches(2.0 + 1.0 / 16.0), eighth, "2 1/8\"");
    writes(inches(11.0 + 15.0 / 16.0), eighth, "1'-0\"");
    writes(inches(2.0 + 1.0 / 8.0), quarter, "2 1/4\"");
    writes(inches(2.1), quarter, "2\"");
    writes(
        inches(63.5),
        LengthStyle::Inches(Nearest::Sixteenth),
        "63 1/2\"",
    );
    writes(
        inches(-0.25),
        LengthStyle::Inches(Nearest::Quarter),
        "-1/4\"",
    );
}

#[test]
fn decimals_and_millimetres() {
    for (length, feet, mm, m) in [
        (inches(63.5), "5.29 ft", "1613 mm", "1.613 m"), // 5.2917 ft, 1612.9 mm
        (millimetres(57.0), "0.19 ft", "57 mm", "0.057 m"),
        (millimetres(57.5), "0.19 ft", "58 mm", "0.058 m"), // half goes away from zero
        (millimetres(-57.5), "-0.19 ft", "-58 mm", "-0.058 m"),
        (metres(1.2), "3.94 ft", "1200 mm", "1.20 m"),
        (metres(12.0), "39.37 ft", "12000 mm", "12.00 m"),
        (metres(-0.0004), "0.00 ft", "0 mm", "0.00 m"),
    ] {
        writes(length, LengthStyle::DecimalFeet, feet);
        writes(length, LengthStyle::Millimetres, mm);
        writes(length, LengthStyle::Metres, m);
    }
}

#[test]
fn what_cannot_be_written_says_so() {
    for style in STYLES {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            writes(metres(value), style, "not a number");
        }
        writes(metres(f64::MAX), style, "too long to write");
        writes(
            metres(f64::MIN_POSITIVE),
            style,
            &write_length(metres(0.0), style),
        );
    }
}

/// The longest length and its neighbour below, where rounding up must not leave what can be read.
#[test]
fn the_longest_length_comes_back() {
    for value_m in [LONGEST_M, LONGEST_M.next_down(), -LONGEST_M] {
        for style in STYLES {
            comes_back(metres(value_m), style);
        }
    }
}

/// Every sixteenth up to 100 ft, both ways and in three spellings, against exact rational arithmetic.
#[test]
fn every_sixteenth_up_to_100_ft() {
    for sixteenths in 0..=100 * 12 * 16_i64 {
        let exact_in = Ratio::new(sixteenths, 16);
        let feet = (exact_in / 12).to_integer();
        let rest_in = exact_in - feet * 12;
        let (whole_in, part) = (rest_in.to_integer(), rest_in.fract());
        let mixed = match (whole_in, *part.numer()) {
            (_, 0) => whole_in.to_string(),
            (0, _) if feet == 0 => part.to_string(),
            _ => format!("{whole_in} {part}"),
        };
        let text = if feet == 0 {
            format!("{mixed}\"")
        } else {
            format!("{feet}'-{mixed}\"")
        };
        let exact_m = metres_of_inches(exact_in);

        assert_eq!(write_length(metres(exact_m), FEET_INCHES), text);
        reads_m(&text, BareUnit::Millimetre, exact_m);
        reads_m(
            &format!("{feet}-{whole_in} {}/16", (part * 16).to_integer()),
            BareUnit::Inch,
            exact_m,
        );
        reads_m(
            &format!("-{sixteenths}/16 in"),
            BareUnit::Millimetre,
            0.0 - exact_m,
        );

        // Half a sixteenth more is written as the next one, at each coarseness.
        for (nearest, parts) in [
            (Nearest::Sixteenth, 16),
            (Nearest::Eighth, 8),
            (Nearest::Quarter, 4),
        ] {
            let half = exact_in + Ratio::new(1, 32);
            let rounded = (half * parts + Ratio::new(1, 2)).floor() / parts;
            let (whole, part) = (rounded.to_integer(), rounded.fract());
            let expected = match (whole, *part.numer()) {
                (_, 0) => format!("{whole}\""),
                (0, _) => format!("{part}\""),
                _ => format!("{whole} {part}\""),
            };
            assert_eq!(
                write_length(metres(metres_of_inches(half)), LengthStyle::Inches(nearest)),
                expected
            );
        }
    }
}

/// Every half millimetre up to 30 m, typed in metres, goes away from zero when millimetres are written.
#[test]
fn every_half_millimetre_up_to_30_m() {
    for mm in 0..30_000_i64 {
        let text = format!("{}.{:03}5 m", mm / 1000, mm % 1000);
        let length = read_length_with_unit(&text).unwrap();
        assert_eq!(in_metres(length), nearest(Ratio::new(mm * 10 + 5, 10_000)));
        writes(length, LengthStyle::Millimetres, &format!("{} mm", mm + 1));
        writes(
            -length,
            LengthStyle::Millimetres,
            &format!("-{} mm", mm + 1),
        );
    }
}

#[track_caller]
fn comes_back(length: Length, style: LengthStyle) {
    let text = write_length(length, style);
    let read = read_length_with_unit(&text);
    assert!(read.is_ok(), "{text}: {read:?}");
    assert_eq!(write_length(read.unwrap(), style), text);
    for bare in [
        BareUnit::Inch,
        BareUnit::Foot,
        BareUnit::Millimetre,
        BareUnit::Metre,
    ] {
        assert_eq!(
            read_length(&text, bare),
            read_length_with_unit(&text),
            "{text}"
        );
    }
}

proptest! {
    #[test]
    fn reading_what_was_written_gives_the_same_text(
        value_m in prop_oneof![
            -100.0..100.0,
            -LONGEST_M..=LONGEST_M,
            -0.1..0.1,
            any::<f64>().prop_filter("within reach", |value| value.abs() <= LONGEST_M),
        ],
    ) {
        for style in STYLES {
            comes_back(metres(value_m), style);
        }
    }

    /// What is written is within half a step of the length, by the units library's own factors.
    #[test]
    fn what_is_written_is_near(value_in in -5000.0..5000.0) {
        for (style, step_in) in [
            (FEET_INCHES, 1.0 / 16.0),
            (LengthStyle::Inches(Nearest::Eighth), 1.0 / 8.0),
            (LengthStyle::Inches(Nearest::Quarter), 1.0 / 4.0),
            (LengthStyle::DecimalFeet, 0.12),
            (LengthStyle::Millimetres, 1.0 / 25.4),
        ] {
            let back = read_length_with_unit(&write_length(inches(value_in), style)).unwrap();
            prop_assert!((back.get::<unit::inch>() - value_in).abs() <= step_in / 2.0 + 1e-8, "{value_in} {style:?}");
        }
    }

    #[test]
    fn any_length_is_written(value_m in any::<f64>()) {
        for style in STYLES {
            prop_assert!(!write_length(metres(value_m), style).is_empty());
        }
    }

    #[test]
    fn any_text_is_answered(text in any::<String>()) {
        let _ = (read_length(&text, BareUnit::Inch), read_length_with_unit(&text));
    }

    /// Texts that look like lengths: answered, the place inside the text, the length finite and within reach.
    #[test]
    fn any_row_of_marks_is_answered(text in "[-+−0-9 .,/⁄'\"′″¼½infmtcydeE]{0,14}") {
        match read_length(&text, BareUnit::Inch) {
            Ok(length) => prop_assert!(in_metres(length).abs() <= LONGEST_M),
            Err(error) => {
                let last = text.chars().count();
                prop_assert!(error.character().is_none_or(|character| (1..=last).contains(&character)), "{text:?} {error:?}");
            }
        }
    }
}
