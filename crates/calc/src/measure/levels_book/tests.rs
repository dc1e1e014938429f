//! Published pages reduced, pages that are wrong, and the identity.

use super::*;
use crate::quantity::{in_metres, inches, metres, unit::foot};
use crate::site::ShownIn;

use Sight::{Back, Fore, Intermediate};
use Stands::{Benchmark, OldSurface, Sill, TurningPoint};

fn row(sight: Sight, stands: Stands, reading_m: f64) -> BookRow {
    BookRow {
        sight,
        stands,
        station: None,
        offset: None,
        reading: Some(metres(reading_m)),
    }
}

/// A page that starts on a benchmark, its sights as `b1.205 i1.605 f1.860`, all but the first on turning points or the old surface;
/// `F` is a foresight on the benchmark.
fn page(benchmark: f64, unit_m: f64, sights: &str) -> LevelBook {
    let rows = sights.split_whitespace().enumerate().map(|(nth, sight)| {
        let (kind, reading) = sight.split_at(1);
        let reading_m = reading.parse::<f64>().unwrap() * unit_m;
        match kind {
            "b" if nth == 0 => row(Back, Benchmark, reading_m),
            "b" => row(Back, TurningPoint, reading_m),
            "i" => row(Intermediate, OldSurface, reading_m),
            "f" => row(Fore, TurningPoint, reading_m),
            _ => row(Fore, Benchmark, reading_m),
        }
    });
    LevelBook {
        rows: rows.collect(),
        benchmark_above_sill: Some(metres(benchmark * unit_m)),
        ..LevelBook::default()
    }
}

const FOOT_M: f64 = 0.3048;

/// Levels of all sights but backsights, by both methods.
#[track_caller]
fn check_levels(
    reduced: &ReducedBook,
    book: &LevelBook,
    unit_m: f64,
    expected: &[f64],
    tolerance: f64,
) {
    let rows = book.rows.iter().zip(&reduced.rows);
    let found: Vec<_> = rows
        .filter(|(row, _)| row.sight != Back)
        .map(|(_, row)| row)
        .collect();
    assert_eq!(found.len(), expected.len());
    for (row, expected) in found.iter().zip(expected) {
        for level in [row.level, row.level_by_steps] {
            let got = in_metres(level.unwrap()) / unit_m;
            assert!((got - expected).abs() <= tolerance, "{got} for {expected}");
        }
    }
}

/// Sums: backsights, foresights, rises, falls.
#[track_caller]
fn check_sums(reduced: &ReducedBook, unit_m: f64, expected: [f64; 4], tolerance: f64) {
    let sums = reduced.sums.unwrap();
    let found = [sums.back, sums.fore, sums.rise, sums.fall];
    for (got, expected) in found.iter().zip(expected) {
        let got = in_metres(*got) / unit_m;
        assert!((got - expected).abs() <= tolerance, "{got} for {expected}");
    }
    assert!(sums.agree(), "{sums:?}");
}

const L1: &str = "b1.205 f1.860 b0.125 f1.915 b0.395 f2.615 b0.880 f1.760 b1.960 f0.920 b2.595 f0.915 b2.255 f0.515 b2.305 F1.170";
const L1_LEVELS: [f64; 8] = [
    149.830, 148.040, 145.820, 144.940, 145.980, 147.660, 149.400, 150.535,
];

/// check-values L1: NPTEL, module 4, example 13-1; eight set-ups that close on the benchmark they start from.
#[test]
fn l1_eight_set_ups() {
    let book = page(150.485, 1.0, L1);
    let reduced = reduce(&book);
    check_levels(&reduced, &book, 1.0, &L1_LEVELS, 0.0005);
    let steps = [-0.655, -1.790, -2.220, -0.880, 1.040, 1.680, 1.740, 1.135];
    let found: Vec<f64> = reduced
        .rows
        .iter()
        .filter_map(|row| row.step)
        .map(in_metres)
        .collect();
    for (got, expected) in found.iter().zip(steps) {
        assert!((got - expected).abs() < 1e-9, "{got} for {expected}");
    }
    check_sums(&reduced, 1.0, [11.720, 11.670, 5.595, 5.545], 1e-9);
    let closing = reduced.closings[0];
    assert_eq!((closing.n_set_ups, reduced.n_set_ups), (8, 8));
    assert!((in_metres(closing.misclosure) - 0.050).abs() < 1e-9);
}

/// check-values L2: a textbook exercise in feet; the known end is 94.91 ft.
#[test]
fn l2_height_of_instrument() {
    let book = page(
        100.0,
        FOOT_M,
        "b3.10 f9.82 b6.44 f6.96 b8.76 f3.27 b7.12 f10.42",
    );
    let reduced = reduce(&book);
    check_levels(&reduced, &book, FOOT_M, &[93.28, 92.76, 98.25, 94.95], 1e-9);
    let heights: Vec<f64> = reduced
        .rows
        .iter()
        .filter_map(|row| row.collimation)
        .map(|height| height.get::<foot>())
        .collect();
    for (got, expected) in heights.iter().zip([103.10, 99.72, 101.52, 105.37]) {
        assert!((got - expected).abs() < 1e-9, "{got} for {expected}");
    }
    let sums = reduced.sums.unwrap();
    assert!((sums.back.get::<foot>() - 25.42).abs() < 1e-9);
    assert!((sums.fore.get::<foot>() - 30.47).abs() < 1e-9);
    assert!((sums.last_less_first.get::<foot>() + 5.05).abs() < 1e-9);
    // From the known end, 94.91 ft, back in the other direction the page is out by 0.04 ft.
    let end = reduced.rows.last().unwrap().level.unwrap().get::<foot>();
    assert!((end - 94.91 - 0.04).abs() < 1e-9);
}

/// check-values L3: one set-up from 820.00 ft.
#[test]
fn l3_one_set_up() {
    let book = page(820.0, FOOT_M, "b8.42 f1.20");
    let reduced = reduce(&book);
    check_levels(&reduced, &book, FOOT_M, &[827.22], 1e-9);
    assert!((reduced.rows[0].collimation.unwrap().get::<foot>() - 828.42).abs() < 1e-9);
}

/// check-values L4: ques10.com/p/29304, re-computed; a staff held upside down reads negative. The benchmark, 185.635, is the tenth
/// point; the first follows from it.
#[test]
fn l4_inverted_staff() {
    let sights = "b1.355 i1.605 i2.125 i0.685 f1.365 b2.015 i1.355 i-1.385 i0.685 f2.105 b1.685 i1.155 i1.105 f2.015 \
                  b1.085 i1.345 i1.355 i-2.015 f1.305 b1.655 i1.685 f1.455";
    let levels = [
        184.955, 184.435, 185.875, 185.195, 185.855, 188.595, 186.525, 185.105, 185.635, 185.685,
        184.775, 184.515, 184.505, 187.875, 184.555, 184.525, 184.755,
    ];
    let book = page(185.205, 1.0, sights);
    let reduced = reduce(&book);
    check_levels(&reduced, &book, 1.0, &levels, 0.0005);
    check_sums(&reduced, 1.0, [7.795, 8.245, 9.020, 9.470], 1e-9);
    let out = in_metres(reduced.sums.unwrap().last_less_first);
    assert!((out + 0.450).abs() < 1e-9, "{out}");
}

/// A page beyond the check values: Papua New Guinea University of Technology, surveying, lecture two, levels at a bridge whose
/// underside is read with the staff upside down; heights of collimation, levels and sums as printed.
#[test]
fn a_printed_page_with_a_bridge() {
    let sights = "b6.482 f2.159 b5.844 i3.141 i-2.956 i5.600 f7.318 b4.298 i3.015 f4.264";
    let book = page(40.000, 1.0, sights);
    let reduced = reduce(&book);
    let levels = [44.323, 47.026, 53.123, 44.567, 42.849, 44.132, 42.883];
    check_levels(&reduced, &book, 1.0, &levels, 1e-9);
    let heights: Vec<f64> = reduced
        .rows
        .iter()
        .filter_map(|row| row.collimation)
        .map(in_metres)
        .collect();
    for (got, expected) in heights.iter().zip([46.482, 50.167, 47.147]) {
        assert!((got - expected).abs() < 1e-9, "{got} for {expected}");
    }
    let sums = reduced.sums.unwrap();
    assert!((in_metres(sums.back) - 16.624).abs() < 1e-9);
    assert!((in_metres(sums.fore) - 13.741).abs() < 1e-9);
    assert!((in_metres(sums.last_less_first) - 2.883).abs() < 1e-9);
}

/// check-values L5: a published page books its last step, 2.165 to 1.720, as a fall and prints 100.415; the sums expose it.
#[test]
fn l5_a_rise_booked_as_a_fall_is_exposed() {
    let book = page(100.0, 1.0, "b1.855 i2.410 i1.280 f0.995 b2.165 f1.720");
    let reduced = reduce(&book);
    let levels = [99.445, 100.575, 100.860, 101.305];
    check_levels(&reduced, &book, 1.0, &levels, 1e-9);
    let (back, fore) = ([1.855, 2.165].map(metres), [0.995, 1.720].map(metres));
    let booked = |last_step: f64, last_level: f64| {
        let steps = [-0.555, 1.130, 0.285, last_step].map(metres);
        Sums::as_booked(&back, &fore, &steps, metres(100.0), metres(last_level))
    };
    assert!(booked(0.445, 101.305).agree());
    assert!((in_metres(booked(0.445, 101.305).back_less_fore()) - 1.305).abs() < 1e-9);
    // 100.860 - 0.445 = 100.415, and the foot says 1.305 beside 0.415.
    assert!(!booked(-0.445, 100.415).agree());
    // Even where only one of column and level is wrong.
    assert!(!booked(-0.445, 101.305).agree());
    assert!(!booked(0.445, 100.415).agree());
}

/// check-values L7: the misclosure of L1 spread in proportion to set-ups; the end comes out exactly.
#[test]
fn l7_spread_over_the_set_ups() {
    let book = LevelBook {
        spread: true,
        ..page(150.485, 1.0, L1)
    };
    let reduced = reduce(&book);
    let rows = book.rows.iter().zip(&reduced.rows);
    let fore: Vec<_> = rows
        .filter(|(row, _)| row.sight == Fore)
        .map(|(_, row)| row)
        .collect();
    for (nth, row) in (1_u8..).zip(&fore) {
        let correction = in_metres(row.level_used.unwrap() - row.level.unwrap());
        let expected = -0.050 * f64::from(nth) / 8.0;
        assert!(
            (correction - expected).abs() < 1e-9,
            "{correction} for {expected}"
        );
    }
    assert_eq!(fore.last().unwrap().level_used, Some(metres(150.485)));
    // As read where it is not asked for.
    let as_read = reduce(&page(150.485, 1.0, L1));
    assert!(as_read.rows.iter().all(|row| row.level_used == row.level));
}

/// check-values L8 (third-order levelling, from memory): 12 mm √10 km.
#[test]
fn long_lines_are_allowed_more() {
    let kilometres = |km: f64| crate::quantity::metres(1000.0 * km);
    let allowed_mm = |km: f64| in_metres(allowed_third_order(kilometres(km))) * 1000.0;
    assert!((allowed_mm(10.0) - 37.9).abs() < 0.1);
    assert!((allowed_mm(1.0) - 12.0).abs() < 1e-9);
    assert!(allowed_mm(-1.0).abs() < 1e-12);
    // Meant for long lines: over a walk of 40 ft and back, 24.4 m, it is less than the 1/8 in that is common practice.
    assert!(allowed_third_order(crate::quantity::feet(80.0)) < default_limit());
}

/// check-values L9 (Navy Engineering Aid course, answer key) and L10 (site practice, from memory).
#[test]
fn what_others_allow() {
    let mile = Length::new::<foot>(5280.0);
    assert!((allowed_by_distance(mile).get::<foot>() - 0.050).abs() < 1e-4);
    assert!((allowed_by_distance(mile * 0.1).get::<foot>() - 0.0158).abs() < 1e-4);
    assert!((in_metres(allowed_by_set_ups(8)) * 1000.0 - 14.14).abs() < 0.01);
    // L1 is out by 50 mm: it fails, by that and by 1/8 in.
    let closing = reduce(&page(150.485, 1.0, L1)).closings[0];
    assert!(closing.misclosure > allowed_by_set_ups(closing.n_set_ups));
    assert!(!closing.is_kept);
}

use crate::quantity::Length;

#[test]
fn the_limit_itself_is_kept() {
    let closing = |out_in: f64, limit: Option<Length>| {
        let book = LevelBook {
            rows: vec![row(Back, Sill, 1.0), row(Fore, Sill, 1.0 - out_in * 0.0254)],
            limit,
            ..LevelBook::default()
        };
        reduce(&book).closings[0]
    };
    assert!(closing(0.125, None).is_kept);
    assert!(closing(-0.125, None).is_kept);
    assert!(!closing(0.1875, None).is_kept);
    assert!(closing(0.1875, Some(inches(0.25))).is_kept);
    assert!(!closing(f64::from(1_u8) / 16.0, Some(inches(0.0))).is_kept);
}

#[track_caller]
fn check_fault(book: &LevelBook, words: &[&str]) -> ReducedBook {
    let reduced = reduce(book);
    let found: Vec<String> = reduced
        .faults
        .iter()
        .map(|fault| fault.words(ShownIn::Metric))
        .collect();
    assert_eq!(found, words);
    reduced
}

#[test]
fn a_slip_is_named_by_row_field_and_value() {
    // Three turning points, the second without its backsight.
    let book = page(0.0, 1.0, "b1.2 f1.5 b1.4 f1.6 i1.7 f1.8 b1.1 F0.9");
    let reduced = check_fault(
        &book,
        &[
            "Sight 5 reading (intermediate sight, 1700 mm) has no set-up: the backsight after foresight 4 is missing",
        ],
    );
    assert_eq!(
        reduced.rows[3]
            .level
            .map(in_metres)
            .map(|it| (it * 1e6).round()),
        Some(-500_000.0)
    );
    assert_eq!(
        reduced.rows[4..]
            .iter()
            .filter(|row| row.level.is_some())
            .count(),
        0
    );
    assert_eq!((reduced.n_set_ups, reduced.closings.len()), (2, 0));
    assert!(reduced.sums.unwrap().agree(), "the page so far");

    check_fault(
        &page(0.0, 1.0, "f1.5"),
        &["Sight 1 reading (foresight, 1500 mm) has no set-up: no backsight stands before it"],
    );
    check_fault(
        &page(0.0, 1.0, "b1.2 i1.5 b1.4"),
        &[
            "Sight 3 reading (backsight, 1400 mm) stands on a turning point that no foresight was taken on just before",
        ],
    );

    let mut book = page(0.0, 1.0, "b1.2 i1.5 i1.4 f1.3 b1.2 i1.1");
    book.rows[1].reading = None;
    let reduced = check_fault(&book, &["Sight 2 reading (intermediate sight) is missing"]);
    assert_eq!(
        reduced
            .rows
            .iter()
            .filter(|row| row.level.is_none())
            .count(),
        1
    );
    assert!(
        reduced.sums.unwrap().agree(),
        "the step goes over the row that is missing"
    );

    book.rows[1].reading = Some(metres(f64::NAN));
    check_fault(
        &book,
        &["Sight 2 reading (intermediate sight) is not a number that can be measured"],
    );

    let mut book = page(0.0, 1.0, "b1.2 f1.5 b1.4 f1.6");
    book.rows[2].reading = None;
    let reduced = check_fault(&book, &["Sight 3 reading (backsight) is missing"]);
    assert_eq!(reduced.rows[3].level, None);
    book.benchmark_above_sill = None;
    book.rows[2].reading = Some(metres(1.0));
    check_fault(
        &book,
        &["Benchmark above sill is missing, and sight 1 stands on the benchmark"],
    );
}

#[test]
fn a_page_starts_anew_from_a_known_point() {
    // Out by 0.1 on the first return; the second stretch starts from the sill itself, and its page check goes over both.
    let mut book = page(0.0, 1.0, "b1.2 F1.1 b1.5 i1.4 F1.5");
    let reduced = reduce(&book);
    assert_eq!(reduced.closings.len(), 2);
    assert!((in_metres(reduced.closings[0].misclosure) - 0.1).abs() < 1e-9);
    assert!(in_metres(reduced.closings[1].misclosure).abs() < 1e-9);
    assert!((in_metres(reduced.rows[3].level.unwrap()) - 0.1).abs() < 1e-9);
    assert!(reduced.sums.unwrap().agree());
    // A broken set-up is left behind in the same way.
    book.rows[1] = row(Intermediate, OldSurface, 1.1);
    book.rows[2] = row(Back, Benchmark, 1.5);
    let reduced = reduce(&book);
    assert_eq!(reduced.faults, []);
    assert!((in_metres(reduced.rows[3].level.unwrap()) - 0.1).abs() < 1e-9);
}

mod identity {
    use super::*;
    use proptest::prelude::*;

    fn sights() -> impl Strategy<Value = Vec<(f64, Vec<f64>, f64)>> {
        let reading = || -9.0..9.0_f64;
        prop::collection::vec(
            (reading(), prop::collection::vec(reading(), 0..4), reading()),
            1..12,
        )
    }

    fn booked(set_ups: &[(f64, Vec<f64>, f64)]) -> LevelBook {
        let mut rows = Vec::new();
        for (nth, (back, between, fore)) in set_ups.iter().enumerate() {
            let is_last = nth + 1 == set_ups.len();
            rows.push(row(Back, if nth == 0 { Sill } else { TurningPoint }, *back));
            rows.extend(between.iter().map(|it| row(Intermediate, OldSurface, *it)));
            rows.push(row(Fore, if is_last { Sill } else { TurningPoint }, *fore));
        }
        LevelBook {
            rows,
            ..LevelBook::default()
        }
    }

    proptest! {
        /// check-values L6.
        #[test]
        fn three_ways_to_one_number(set_ups in sights()) {
            let reduced = reduce(&booked(&set_ups));
            let sums = reduced.sums.unwrap();
            let by_hand: f64 = set_ups.iter().map(|(back, _, fore)| back - fore).sum();
            for difference in [sums.back_less_fore(), sums.rise_less_fall(), sums.last_less_first] {
                prop_assert!((in_metres(difference) - by_hand).abs() < 1e-9);
            }
            for row in &reduced.rows {
                let both = (row.level.unwrap(), row.level_by_steps.unwrap());
                prop_assert!(in_metres(both.0 - both.1).abs() < 1e-9);
            }
        }

        #[test]
        fn spread_comes_out_on_the_known_level(set_ups in sights()) {
            let book = LevelBook { spread: true, ..booked(&set_ups) };
            let reduced = reduce(&book);
            prop_assert_eq!(reduced.rows.last().unwrap().level_used, Some(metres(0.0)));
            prop_assert_eq!(reduced.rows[0].level_used, Some(metres(0.0)));
        }

        #[test]
        fn any_page_is_reduced(rows in prop::collection::vec((0..3_u8, 0..4_u8, prop::option::of(-3.0..3.0_f64)), 0..12)) {
            let rows: Vec<BookRow> = rows.into_iter().map(|(sight, stands, reading)| BookRow {
                reading: reading.map(metres),
                ..row(
                    [Back, Intermediate, Fore][usize::from(sight)],
                    [Sill, Benchmark, TurningPoint, OldSurface][usize::from(stands)],
                    0.0,
                )
            }).collect();
            let n_rows = rows.len();
            let book = LevelBook { rows, benchmark_above_sill: Some(metres(0.5)), spread: true, limit: None };
            let reduced = reduce(&book);
            prop_assert_eq!(reduced.rows.len(), n_rows);
            prop_assert!(reduced.sums.is_none_or(|sums| sums.agree()));
            for row in &reduced.rows {
                prop_assert_eq!(row.level.is_some(), row.level_used.is_some());
            }
        }
    }
}
