//! The sheet of a site that is known, and of one that is not.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use underbrick_calc::catalogue::{BaseFigures, Catalogue, Drainage, Hatch, Material, UnderAWalk};
use underbrick_calc::findings::{Findings, Source, Weight};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{feet, inches, kilograms_per_cubic_metre, millimetres};
use underbrick_calc::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, Leg, LegShape, LevelBook, LineInput,
    MaterialKey, PenetrometerLog, PenetrometerRow, Pit, PitEnd, RestraintInput, ShownIn, Site,
};
use underbrick_calc::{Results, compute};
use underbrick_sheets::figure::NOT_KNOWN;
use underbrick_sheets::{ResultsSheet, results, to_json, to_text};

/// A straight walk of 12 ft, 3 ft wide, of which neither old surface nor ground is known.
fn site() -> Site {
    let shape = LegShape::Straight {
        length: Some(feet(12.0)),
    };
    Site {
        address: "3 Ropewalk\u{1b}[2J".to_owned(),
        walk: "side path".to_owned(),
        shown_in: ShownIn::FeetInches,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: None,
            first_brick_below_sill: None,
            legs: vec![Leg {
                shape,
                width_at_end: None,
            }],
            width: Some(feet(3.0)),
            fall: None,
            cross_fall: None,
            far_end: FarEnd::Fixed { below_sill: None },
            shape: underbrick_calc::site::GradeShape::Uniform,
            string_above_sill: None,
            rod_at_sill: None,
            book: LevelBook::default(),
            shots: Vec::new(),
        },
        pits: Vec::new(),
        bed: BedInput {
            setting_bed: None,
            least_base: Some(inches(7.0)),
            base_material: MaterialKey("stone".to_owned()),
            loose_lift: None,
            side_extension: Some(inches(6.0)),
            undercut_limit: None,
            fabric: true,
            plant: underbrick_calc::build::Plant::NotKnown,
        },
        brick: Brick {
            length: None,
            width: None,
            thickness: None,
            joint: None,
        },
        soil: Default::default(),
        frost: Default::default(),
        lay: Default::default(),
        order: Default::default(),
        build: Default::default(),
        show: Default::default(),
        edge: EdgeInput {
            stands: EdgeStands::Stretcher,
            restraint: RestraintInput::Spiked { spacing: None },
        },
    }
}

fn catalogue() -> Catalogue {
    let stone = Material {
        key: MaterialKey("stone".to_owned()),
        name: "Stone".to_owned(),
        under_a_walk: UnderAWalk::Base,
        as_base: Some(BaseFigures {
            loose_to_compacted: 1.25,
            largest_stone: inches(0.75),
            compacted_density: kilograms_per_cubic_metre(2000.0),
        }),
        drainage: Drainage::Free,
        bank_density: kilograms_per_cubic_metre(1900.0),
        loose_density: kilograms_per_cubic_metre(1600.0),
        swell: 0.2,
        hatch: Hatch::Stone,
        source: "made up for this test".to_owned(),
    };
    Catalogue {
        materials: vec![stone],
        ..Catalogue::default()
    }
}

fn sheet_of(site: &Site) -> ResultsSheet {
    let computed = compute(site, &catalogue());
    let findings = computed.findings.clone();
    results(site, &computed, &findings)
}

#[track_caller]
fn check(sheet: &ResultsSheet, key: &str, number: Option<f64>, shown: &str) {
    let figure = sheet
        .figures
        .iter()
        .find(|figure| figure.key == key)
        .unwrap();
    assert_eq!(
        (figure.measure.number(), figure.measure.shown.as_str()),
        (number, shown),
        "{key}"
    );
}

#[test]
fn figures_are_right_in_both_writings() {
    let sheet = sheet_of(&site());
    check(&sheet, "run_length", Some(3.658), "12'-0\""); // 12 × 0.3048 = 3.6576
    check(&sheet, "last_brick_below_sill", Some(76.2), "3\""); // 1/4 in per ft falls 3 in over 12 ft: common practice, no source
    check(&sheet, "base_top_below_grade_line", Some(76.2), "3\""); // 2 1/4 in brick on a 3/4 in bed
    check(&sheet, "field_area", Some(3.34), "36.0 ft²"); // 12 × 3 = 36; × 0.09290304 = 3.3445
    check(&sheet, "lifts", Some(3.0), "at least 3"); // 7 in ÷ (3 ÷ 1.25 = 2.4) = 2.9; no pit says how deep it must go
    check(&sheet, "lift_1_compacted", Some(59.3), "2 5/16\""); // 7 ÷ 3 = 2.333 in = 59.27 mm
    check(&sheet, "lift_1_top_below_string", Some(194.7), "7 11/16\""); // 3 + 2 × 2.333 = 7.667 in = 194.73 mm
    check(&sheet, "lift_3_top_below_string", Some(76.2), "3\"");
    check(&sheet, "dig_area", Some(5.2), "56.0 ft²"); // 12 × (3 + 2 × (4 + 6) ÷ 12 = 4.667) = 56; × 0.09290304 = 5.2026
    check(&sheet, "base_compacted", Some(0.925), "at least 1.21 yd³"); // 56 × 7 ÷ 12 = 32.667 ft³ = 1.2099 yd³ = 0.92502 m³
    check(&sheet, "base_loose", Some(1.156), "at least 1.51 yd³"); // × 1.25 = 1.5123 yd³ = 1.15628 m³
    check(
        &sheet,
        "base_mass",
        Some(1850.0),
        "at least 2.04 short tons",
    ); // 0.92502 × 2000 = 1850.05 kg ÷ 907.18474 = 2.0393
}

#[test]
fn what_was_not_measured_is_not_known_and_never_zero() {
    let sheet = sheet_of(&site());
    for key in [
        "dug",
        "old_pavement_lifted",
        "unsuitable_ground",
        "trim",
        "spoil_loose",
        "spoil_mass",
        "fill_below_dig",
    ] {
        check(&sheet, key, None, NOT_KNOWN);
    }
    check(&sheet, "fixed_far_end_below_sill", None, NOT_KNOWN);
    let stations = sheet.stations.unwrap();
    assert!(stations.iter().all(|row| row.old_surface.is_none()
        && row.unsuitable_bottom.is_none()
        && row.dig_bottom.is_some()));
}

#[test]
fn a_site_without_results_has_the_same_figures_without_values() {
    let site = site();
    let known = sheet_of(&site);
    let sheet = results(&site, &Results::default(), &Findings::default());
    assert!(
        sheet
            .figures
            .iter()
            .all(|figure| figure.measure.number().is_none() && figure.measure.shown == NOT_KNOWN)
    );
    let not_of_lifts = |sheet: &ResultsSheet| -> Vec<String> {
        sheet
            .figures
            .iter()
            .map(|figure| figure.key.clone())
            .filter(|key| !key.starts_with("lift_"))
            .collect()
    };
    assert_eq!(not_of_lifts(&sheet), not_of_lifts(&known));
    assert!(
        sheet.pits.is_none()
            && sheet.stations.is_none()
            && sheet.lifts.is_none()
            && sheet.fabric.is_none()
    );
    let json = to_json(&sheet);
    assert!(json.contains("\"stations\": null") && json.contains("\"value\": null"));
}

#[test]
fn a_walk_without_a_base_still_has_its_grade_line() {
    let mut site = site();
    site.bed.base_material = MaterialKey("cheese".to_owned());
    let sheet = sheet_of(&site);
    assert!(sheet.stops);
    check(&sheet, "last_brick_below_sill", Some(76.2), "3\"");
    check(&sheet, "base_loose", None, NOT_KNOWN);
    let stations = sheet.stations.unwrap();
    let shown: Vec<_> = stations
        .iter()
        .map(|row| (row.station.shown.as_str(), row.grade.shown.as_str()))
        .collect();
    assert_eq!(shown, [("0\"", "level with it"), ("12'-0\"", "3\" below")]);
    assert!(
        stations
            .iter()
            .all(|row| row.base_top.is_none() && row.dig_bottom.is_none())
    );
}

#[test]
fn the_text_is_for_a_person() {
    let site = site();
    let computed = compute(&site, &catalogue());
    let mut findings = computed.findings.clone();
    findings.note(
        Place::PitStation(1),
        Weight::Stop,
        Source::CommonPractice,
        "It is\u{7} nowhere.",
        "Measure it.",
    );
    let text = to_text(&results(&site, &computed, &findings));
    assert!(
        text.starts_with(
            "Underbrick: results for 3 Ropewalk [2J, side path\n\nSomething stops the job"
        ),
        "{text}"
    );
    for line in [
        "  stop     Pit 2 station: It is nowhere. Measure it. [common practice, no source]",
        "  1     7 11/16\"          2 5/16\"    2 15/16\"",
        "  Base to order, loose                           at least 1.51 yd³",
        "  - Have buried services located before anyone digs.",
        "local code",
    ] {
        assert!(text.contains(line), "{line:?} is not in\n{text}");
    }
    assert!(
        text.chars()
            .all(|letter| letter == '\n' || !letter.is_control())
    );
    assert!(
        text.lines()
            .all(|line| line.chars().count() <= 100 && line.trim_end() == line),
        "{text}"
    );
}

/// 12 mm a blow is CBR 18.06 by the general relation, check value D6; 50 mm is 3.65, D12: class D, 4 in more.
#[test]
fn a_penetrometer_and_the_base_it_asks_for_are_on_the_sheet() {
    let mut site = site();
    site.bed.least_base = None;
    site.bed.side_extension = None;
    let row = |blows, reading_mm| PenetrometerRow {
        blows: Some(blows),
        reading: Some(millimetres(reading_mm)),
    };
    site.pits = vec![Pit {
        station: None,
        offset: None,
        layers: Vec::new(),
        seep: None,
        ended: PitEnd::Stopped,
        penetrometer: PenetrometerLog {
            start: Some(millimetres(0.0)),
            rows: vec![row(10, 120.0), row(10, 240.0), row(4, 440.0)],
            ..PenetrometerLog::default()
        },
    }];
    let sheet = sheet_of(&site);
    assert_eq!(sheet.penetrometers.len(), 1);
    let found = sheet.penetrometers.first().unwrap();
    let layers: Vec<_> = found
        .layers
        .iter()
        .map(|layer| {
            (
                layer.per_blow.number(),
                layer.cbr.number(),
                layer.cbr.shown.as_str(),
            )
        })
        .collect();
    assert_eq!(
        layers,
        [
            (Some(12.0), Some(18.1), "18"),
            (Some(50.0), Some(3.7), "3.7")
        ]
    );
    let base = sheet.base.as_ref().unwrap();
    assert!(base.is_taken && base.factors.len() == 2);
    assert_eq!(base.worked_out.shown, "8\"");
    let text = to_text(&sheet);
    for words in [
        "WHAT THE PENETROMETER FOUND",
        "CBR 3.7",
        "WHY THE BASE IS SO THICK",
        "Weak ground, class D",
        "second-hand",
        "for information only",
    ] {
        assert!(text.contains(words), "{words} is missing in\n{text}");
    }
}

#[test]
fn the_json_is_the_same_every_time() {
    let (one, other) = (to_json(&sheet_of(&site())), to_json(&sheet_of(&site())));
    assert_eq!(one, other);
    let keys: Vec<&str> = one
        .lines()
        .filter_map(|line| line.strip_prefix("  \"")?.split('"').next())
        .collect();
    let expected = [
        "format",
        "version",
        "site",
        "datum",
        "stops",
        "figures",
        "fabric",
        "signs",
        "causes",
        "pits",
        "soil",
        "penetrometers",
        "base",
        "brick",
        "stations",
        "lifts",
        "laying",
        "offers",
        "findings",
        "cautions",
    ];
    assert_eq!(keys, expected);
    let parsed: serde_json::Value = serde_json::from_str(&one).unwrap();
    assert_eq!(
        (parsed["format"].as_str(), parsed["version"].as_u64()),
        (Some("underbrick-results"), Some(1))
    );
}

#[test]
fn causes_are_told_in_both_wordings_with_their_readings() {
    use underbrick_calc::findings::rules::{Cause, CauseRule, CauseRules, Seen, Strength};
    use underbrick_calc::site::{Severity, Sign, SignKind};
    let rule = CauseRule {
        id: "sinks".to_owned(),
        seen: Seen::Sign(SignKind::Sunk),
        unless: Vec::new(),
        cause: Cause::BaseNeverPacks,
        strength: Strength::Sure,
        mark: "sinks".to_owned(),
        trade: "It was laid on sand.".to_owned(),
        homeowner: "Your walk\u{1b}[2J sinks.".to_owned(),
        remedy: "Build a base.".to_owned(),
        cured_by: None,
        source: "a rule of this test".to_owned(),
    };
    let catalogue = Catalogue {
        causes: CauseRules::new(vec![rule]).unwrap(),
        ..catalogue()
    };
    let mut site = site();
    site.signs = vec![Sign {
        what: Some(SignKind::Sunk),
        severity: Severity::Bad,
        station: Some(feet(3.0)),
        offset: Some(inches(-14.0)),
        width: None,
    }];
    let computed = compute(&site, &catalogue);
    let sheet = results(&site, &computed, &computed.findings);
    let text = to_text(&sheet);
    for line in [
        "WHAT IS SEEN",
        "  Sunk  bad  at 3'-0\", 1'-2\" left",
        "WHY IT FAILED",
        "  1. a base that never packs (sure): It was laid on sand. [a rule of this test]",
        "     To the homeowner: Your walk [2J sinks.",
        "     Seen: Sunk, bad, at 3'-0\".",
        "     What to do: Build a base.",
    ] {
        assert!(
            text.lines().any(|each| each == line),
            "{line:?} is not in\n{text}"
        );
    }
    let parsed: serde_json::Value = serde_json::from_str(&to_json(&sheet)).unwrap();
    assert_eq!(parsed["causes"][0]["rule"], "sinks");
    assert_eq!(
        parsed["causes"][0]["evidence"][0]["field"],
        "Sign 1 station"
    );
    assert_eq!(parsed["signs"][0]["station"]["value"], 0.914);
}

/// Sill 40 in, 6 ft out 46 in, turning point 42 in and 44 in, sill again 41 7/8 in: 6 in below at 6 ft, and 1/8 in out at the end.
#[test]
fn the_level_book_is_a_table_with_its_check() {
    use underbrick_calc::site::{BookRow, Sight, Stands};
    assert!(!to_json(&sheet_of(&site())).contains("\"book\""));
    let row = |sight, stands, reading_in| BookRow {
        sight,
        stands,
        station: (stands == Stands::OldSurface).then(|| feet(6.0)),
        offset: None,
        reading: Some(inches(reading_in)),
    };
    let mut site = site();
    site.line.book.rows = vec![
        row(Sight::Back, Stands::Sill, 40.0),
        row(Sight::Intermediate, Stands::OldSurface, 46.0),
        row(Sight::Fore, Stands::TurningPoint, 42.0),
        row(Sight::Back, Stands::TurningPoint, 44.0),
        row(Sight::Fore, Stands::Sill, 41.875),
    ];
    let sheet = sheet_of(&site);
    let book = sheet.book.clone().unwrap();
    assert_eq!(book.sights[1].level.as_ref().unwrap().shown, "6\" below");
    assert_eq!(book.sights[3].stands_on, "turning point 1");
    let check = book.check.unwrap();
    // 40 + 44 = 84 in and 42 + 41 7/8 = 83 7/8 in.
    assert_eq!(check.backsights.shown, "7'-0\"");
    assert_eq!(check.foresights.shown, "6'-11 7/8\"");
    assert!(check.agrees);
    let closing = &book.closings[0];
    assert_eq!((closing.set_ups, closing.is_kept), (2, true));
    assert_eq!(closing.misclosure.shown, "1/8\"");
    // 5 mm × √2 = 7.07 mm.
    assert_eq!(closing.allowed_by_set_ups.shown, "1/4\"");
    let text = to_text(&sheet);
    assert!(text.contains("THE LEVEL BOOK"), "{text}");
    assert!(text.contains("all three agree"), "{text}");
    let json: serde_json::Value = serde_json::from_str(&to_json(&sheet)).unwrap();
    assert_eq!(json["book"]["sights"][1]["level"]["value"], -152.4);
    assert_eq!(json["book"]["check"]["last_less_first"]["value"], 3.2);
}
