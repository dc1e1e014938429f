//! Texts as typed: kept at their places, given the unit that was meant, and turned into checked values or a finding.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::field::{Kind, field};
use underbrick_calc::findings::Weight;
use underbrick_calc::measure::amount::AmountUnit;
use underbrick_calc::measure::written::read_length_with_unit;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_calc::site::{self, Hand, LegShape, ShotBy};
use underbrick_records::{SiteFile, catalogue, v1};

/// A site with one of everything.
fn full() -> SiteFile {
    let mut site = SiteFile::new("12 Alder Court", "front walk");
    site.add_curved_leg(Hand::Left);
    site.line.far_end = v1::FarEnd::Fixed {
        below_sill: String::new(),
    };
    site.add_shot(ShotBy::String);
    site.add_shot(v1::ShotBy::Rod);
    let pit_idx = site.add_pit();
    assert_eq!(site.add_layer(pit_idx, "loam"), Some(1));
    assert_eq!(site.add_penetrometer_row(pit_idx), Some(0));
    let sign_idx = site.add_sign();
    assert!(site.set_text(Place::Sign(sign_idx), "open-joints"));
    assert_eq!(site.add_opening(), 0);
    assert_eq!(site.add_sample_brick(false), 0);
    site.set_second_brick(true);
    site
}

/// At `place` the text `typed` is not used, and one warning there says `words`; the text stays in the file.
#[track_caller]
fn questioned(place: Place, typed: &str, words: &[&str]) {
    let mut file = full();
    let (_, before) = file.checked(&catalogue().unwrap());
    assert_eq!(before.iter().count(), 0);
    assert!(file.set_text(place, typed));
    let (_, findings) = file.checked(&catalogue().unwrap());
    assert_eq!(findings.iter().count(), 1, "{findings:?}");
    let finding = findings
        .at(place)
        .next()
        .unwrap_or_else(|| panic!("nothing at {place:?}: {findings:?}"));
    assert_eq!(finding.weight, Weight::Warning);
    for words in words {
        assert!(finding.text.contains(words), "{}", finding.text);
    }
    assert!(
        finding.text.contains(&format!("{typed:?}")),
        "the text as typed stands in it: {}",
        finding.text
    );
    assert_eq!(file.text(place), Some(typed));
}

#[test]
fn what_cannot_be_read_is_questioned_at_its_place() {
    questioned(
        Place::LegLength(0),
        "5'' 3",
        &["Leg 1 length", "cannot be read", "character"],
    );
    questioned(
        Place::LayerThickness(0, 1),
        "1/0",
        &["Pit 1 layer 2", "0 below its line at character 3"],
    );
    questioned(
        Place::Width,
        "NaN",
        &["Width between edge bricks", "NaN", "character 1"],
    );
    questioned(Place::Width, "inf in", &["inf", "character 1"]);
    questioned(Place::Width, "-inf", &["character"]);
    questioned(Place::Width, "32.6", &["has no unit", "character 1"]);
    questioned(Place::FirstBrickBelowSill, "0", &["has no unit"]);
    questioned(Place::Fall, "1/4", &["has no unit"]);
    questioned(Place::LegTurn(1), "48", &["Leg 2 turn", "has no unit"]);
    questioned(Place::FarEndBelowSill, "about a foot", &["about"]);
    questioned(
        Place::PenetrometerBlows(0, 0),
        "2 1/2",
        &["row 1 blows", "cannot be read", "character 2"],
    );
    questioned(Place::PenetrometerReading(0, 0), "NaN", &["NaN"]);
    questioned(Place::PenetrometerStart(0), "30", &["has no unit"]);
    questioned(Place::SettingBed, "\u{202e}3 in", &["cannot be read"]);
    questioned(Place::LiquidLimit, "35", &["Liquid limit", "has no unit"]);
    questioned(Place::Fines, "35 mm", &["Fines", "“mm” at character 4"]);
    questioned(Place::DryDensity, "NaN lb/ft3", &["character 1"]);
}

#[test]
fn what_cannot_be_true_is_questioned_at_its_place() {
    questioned(
        Place::OldBelowSill,
        "900 ft",
        &["900'", "above the most that can be true"],
    );
    questioned(
        Place::StringAboveSill,
        "900 ft",
        &["900'", "above the most that can be true"],
    );
    questioned(
        Place::LayerThickness(0, 0),
        "-3 in",
        &["Pit 1 layer 1", "-3\"", "below the least that can be true"],
    );
    questioned(Place::PitSeep(0), "-3 in", &["Pit 1", "below the least"]);
    questioned(Place::LegTurn(1), "400°", &["Leg 2 turn", "above the most"]);
    questioned(Place::LegTurn(1), "-48°", &["not above zero"]);
    questioned(Place::Fall, "3:1", &["cannot be read"]);
    questioned(Place::Fall, "200 %", &["above the most"]);
    questioned(Place::LegRadius(1), "0 ft", &["below the least"]);
    questioned(
        Place::SoilSand,
        "-3 %",
        &["Sand", "-3 %", "below the least"],
    );
    questioned(Place::Fines, "101 %", &["Fines", "101 %", "100 %"]);
    questioned(
        Place::MeanTemperature,
        "120 °F",
        &["above the most", "95 °F"],
    );
    questioned(Place::FrostDepth, "900 ft", &["above the most"]);
    questioned(
        Place::PenetrometerBlows(0, 0),
        "0",
        &["Pit 1 penetrometer row 1 blows", "below the least", "1"],
    );
    questioned(
        Place::PenetrometerReading(0, 0),
        "30 ft",
        &["row 1 reading", "above the most"],
    );
    questioned(Place::PenetrometerStart(0), "-1 in", &["below the least"]);
}

#[test]
fn a_metric_site_is_answered_in_metric() {
    let mut file = full();
    file.shown_in = v1::ShownIn::Metric;
    file.set_text(Place::OldBelowSill, "900 m");
    let (_, findings) = file.checked(&Catalogue::default());
    let text = &findings.at(Place::OldBelowSill).next().unwrap().text;
    assert!(text.contains("900000 mm") && !text.contains('\''), "{text}");
}

#[test]
fn nothing_else_is_lost_when_one_value_cannot_be_read() {
    let mut file = full();
    file.set_text(Place::Width, "32 5/8 in");
    file.set_text(Place::LegLength(0), "5'' 3");
    let (site, _) = file.checked(&catalogue().unwrap());
    assert!((in_metres(site.line.width.unwrap()) - 32.625 * 0.0254).abs() < 1e-12);
    assert_eq!(
        site.line.legs.first().unwrap().shape,
        LegShape::Straight { length: None }
    );
}

#[test]
fn every_value_reaches_the_same_value_of_the_calculation() {
    let mut file = full();
    let places = file.text_places();
    // Each length gets its own number of millimetres; what cannot be true where it stands is left as it was.
    let mut given = Vec::new();
    for (number, place) in places.iter().enumerate() {
        let typed = format!("{} mm", 26 + number);
        let before = file.clone();
        file.set_text(*place, &typed);
        let (_, findings) = file.checked(&Catalogue::default());
        if findings.iter().count() == 0
            && !matches!(place, Place::LayerMaterial(..) | Place::BaseMaterial)
            && field(*place).kind != Kind::Text
            && !matches!(field(*place).kind, Kind::Number { .. })
        {
            given.push(typed);
        } else {
            file = before;
        }
    }
    assert!(given.len() > 25, "{given:?}");
    let (site, findings) = file.checked(&Catalogue::default());
    assert_eq!(findings.iter().count(), 0);
    let words = format!("{site:?}");
    for typed in given {
        let metres = in_metres(read_length_with_unit(&typed).unwrap());
        assert_eq!(
            words.matches(&format!("Some({metres} m^1)")).count(),
            1,
            "{typed} = {metres} m in {words}"
        );
    }
}

#[test]
fn every_amount_reaches_the_same_amount_of_the_calculation() {
    let mut file = full();
    let mut given = Vec::new();
    for (number, place) in file.text_places().into_iter().enumerate() {
        if let Kind::Number { unit, .. } = field(place).kind {
            // Conductivity is never so much; a share of 1 % is true nowhere else.
            let number = if unit == AmountUnit::BtuPerHourFootFahrenheit {
                1.25
            } else {
                // Above the least of a dry density, below the most of a temperature.
                20.0 + number as f64 / 2.0
            };
            file.set_text(
                place,
                &format!("{number} {}", unit.symbol(site::ShownIn::FeetInches)),
            );
            given.push((place, number));
        }
    }
    assert_eq!(given.len(), 21);
    let (site, findings) = file.checked(&Catalogue::default());
    assert_eq!(findings.iter().count(), 0, "{findings:?}");
    let words = format!("{site:?}");
    for (place, number) in given {
        assert_eq!(
            words.matches(&format!("number: {number:?},")).count(),
            1,
            "{place:?} {number} in {words}"
        );
    }
}

#[test]
fn choices_reach_the_calculation() {
    let mut file = full();
    file.shown_in = v1::ShownIn::Metric;
    file.edge.stands = v1::EdgeStands::Rowlock;
    file.edge.restraint = v1::Restraint::spiked();
    file.bed.fabric = true;
    file.soil.ribbon = Some(v1::Ribbon::Middling);
    file.soil.grit = Some(v1::Grit::Smooth);
    file.soil.varved = true;
    file.lay.bond = v1::Bond::Herringbone45;
    file.lay.courses = v1::CourseWay::Across;
    file.lay.start_side = v1::StartSide::Right;
    file.lay.return_at_door = true;
    file.lay.edge_of_second = true;
    file.lay.sample.first_mut().unwrap().of_second = true;
    file.set_text(Place::BricksOnSite, "870");
    file.set_text(Place::Bearing, "0 deg");
    let pit = file.pits.first_mut().unwrap();
    pit.ended = v1::PitEnd::Refused;
    let layer = pit.layers.last_mut().unwrap();
    layer.firmness = Some(v1::Firmness::VerySoft);
    layer.moisture = Some(v1::Moisture::Wet);
    "Loam".clone_into(&mut layer.material);
    let (site, findings) = file.checked(&catalogue().unwrap());
    assert_eq!(findings.iter().count(), 0);
    assert_eq!(site.shown_in, site::ShownIn::Metric);
    assert_eq!(site.edge.stands, site::EdgeStands::Rowlock);
    assert_eq!(
        site.edge.restraint,
        site::RestraintInput::Spiked { spacing: None }
    );
    assert!(site.bed.fabric);
    assert_eq!(site.lay.bond, site::Bond::Herringbone45);
    assert_eq!(site.lay.courses, site::CourseWay::Across);
    assert_eq!(site.lay.start_side, site::StartSide::Right);
    assert!(site.lay.return_at_door && !site.lay.return_at_end && site.lay.edge_of_second);
    assert!(site.lay.sample.first().unwrap().of_second);
    assert_eq!(site.lay.n_on_site, Some(870));
    assert!(site.lay.bearing.is_some());
    let soil = (site.soil.ribbon, site.soil.grit, site.soil.varved);
    let expected = (Some(site::Ribbon::Middling), Some(site::Grit::Smooth), true);
    assert_eq!(soil, expected);
    assert_eq!(site.line.far_end, site::FarEnd::Fixed { below_sill: None });
    let pit = site.pits.first().unwrap();
    assert_eq!(pit.ended, site::PitEnd::Refused);
    let layer = pit.layers.last().unwrap();
    assert_eq!(
        (layer.firmness, layer.moisture),
        (Some(site::Firmness::VerySoft), Some(site::Moisture::Wet))
    );
    // The catalogue's own name stands for the key.
    assert_eq!(layer.material.0, "loam");
    let hands: Vec<_> = site.line.legs.iter().map(|leg| leg.shape).collect();
    assert!(matches!(
        hands.as_slice(),
        [
            LegShape::Straight { .. },
            LegShape::Curve {
                hand: Hand::Left,
                ..
            }
        ]
    ));
    let by: Vec<ShotBy> = site.line.shots.iter().map(|shot| shot.by).collect();
    assert_eq!(by, [ShotBy::String, ShotBy::Rod]);
}

#[track_caller]
fn stored(shown_in: v1::ShownIn, place: Place, typed: &str, stored: &str) {
    let mut file = full();
    file.shown_in = shown_in;
    assert_eq!(
        file.normalised(place, typed),
        stored,
        "{typed:?} at {place:?}"
    );
}

#[test]
fn a_bare_number_is_stored_with_the_unit_that_it_means() {
    use v1::ShownIn::{FeetInches, Metric};
    stored(FeetInches, Place::Width, "9 1/2", "9 1/2 in");
    stored(FeetInches, Place::Width, " 9.5 ", "9.5 in");
    stored(FeetInches, Place::Width, "9½", "9½ in");
    stored(FeetInches, Place::Width, "9-1/2", "9-1/2 in");
    stored(FeetInches, Place::Width, "-3", "-3 in");
    stored(FeetInches, Place::LegLength(0), "28", "28 ft");
    stored(
        FeetInches,
        Place::LegLength(0),
        "28-6 1/2",
        "28 ft 6 1/2 in",
    );
    stored(FeetInches, Place::Fall, "1/4", "1/4 in/ft");
    stored(FeetInches, Place::LegTurn(1), "48", "48 deg");
    stored(FeetInches, Place::Fines, "35", "35 %");
    stored(FeetInches, Place::GrainD10, "0.07", "0.07 mm");
    stored(FeetInches, Place::FreezingIndex, "1250", "1250 °F days");
    stored(FeetInches, Place::MeanTemperature, "7 °C", "7 °C");
    stored(Metric, Place::DryDensity, "1600", "1600 kg/m3");
    stored(Metric, Place::MeanTemperature, "-3", "-3 °C");
    stored(Metric, Place::Width, "815", "815 mm");
    stored(Metric, Place::LegLength(0), "4.5", "4.5 m");
    stored(Metric, Place::LegLength(0), "4,5", "4,5 m");
    stored(Metric, Place::Fall, "2.5", "2.5 %");
    stored(Metric, Place::LegTurn(1), "48", "48 deg");
}

#[test]
fn what_carries_its_unit_or_cannot_be_read_is_stored_as_typed() {
    use v1::ShownIn::{FeetInches, Metric};
    for shown_in in [FeetInches, Metric] {
        for typed in [
            "57 mm", "5' 3\"", "1 m", "5'' 3", "1/0", "NaN", "", "  ", "about 9", "9 1/2 9", "inf",
            "1e3",
        ] {
            stored(shown_in, Place::Width, typed, typed);
        }
        stored(shown_in, Place::Fall, "1:48", "1:48");
        stored(shown_in, Place::Fall, "level", "level");
        stored(shown_in, Place::LegTurn(1), "48°", "48°");
        stored(shown_in, Place::Address, "28", "28");
        stored(shown_in, Place::LayerMaterial(0, 0), "28", "28");
    }
}

#[test]
fn things_that_are_not_there_have_no_text() {
    let mut file = full();
    let nowhere = [
        Place::Site,
        Place::Leg(0),
        Place::LegLength(1),
        Place::LegRadius(0),
        Place::LegTurn(0),
        Place::LegLength(2),
        Place::LegWidthAtEnd(usize::MAX),
        Place::Shot(0),
        Place::ShotReading(2),
        Place::Pit(0),
        Place::PitStation(1),
        Place::LayerThickness(0, 2),
        Place::LayerThickness(1, 0),
        Place::LayerMaterial(7, 7),
        Place::PenetrometerStart(1),
        Place::PenetrometerBlows(0, 1),
        Place::PenetrometerReading(1, 0),
        Place::SpikeSpacing,
        Place::Fabric,
        Place::EdgeStands,
        Place::Restraint,
        Place::Lift(0),
        Place::GradeLine,
        Place::OldSurface,
        Place::DigBottom,
    ];
    let before = file.clone();
    for place in nowhere {
        assert_eq!(file.text(place), None, "{place:?}");
        assert!(!file.set_text(place, "3 in"), "{place:?}");
    }
    assert_eq!(file, before);
    file.line.far_end = v1::FarEnd::Free;
    assert_eq!(file.text(Place::FarEndBelowSill), None);
    file.edge.restraint = v1::Restraint::Nothing;
    assert_eq!(file.text(Place::HaunchHeight), None);
}

#[test]
fn things_are_added_at_the_end_and_taken_away_one_by_one() {
    let mut file = SiteFile::new("12 Alder Court", "front walk");
    assert_eq!(file.add_straight_leg(), 1);
    assert_eq!(file.add_curved_leg(Hand::Right), 2);
    file.set_text(Place::LegRadius(2), "12 ft");
    assert!(file.remove_leg(0));
    assert_eq!(file.text(Place::LegRadius(1)), Some("12 ft"));
    assert!(!file.remove_leg(2));
    assert_eq!(file.add_shot(ShotBy::Rod), 0);
    assert!(file.remove_shot(0) && !file.remove_shot(0));
    assert_eq!(file.add_pit(), 0);
    assert_eq!(file.text(Place::LayerMaterial(0, 0)), Some("old-brick"));
    assert_eq!(file.add_layer(0, "loam"), Some(1));
    assert_eq!(file.add_layer(1, "loam"), None);
    assert!(file.remove_layer(0, 1) && !file.remove_layer(0, 1) && !file.remove_layer(3, 0));
    assert_eq!(file.add_penetrometer_row(0), Some(0));
    assert_eq!(file.add_penetrometer_row(1), None);
    assert!(file.remove_penetrometer_row(0, 0) && !file.remove_penetrometer_row(0, 0));
    assert!(file.remove_pit(0) && !file.remove_pit(0));
}

#[test]
fn what_the_laying_cannot_be_is_questioned() {
    questioned(Place::LapShare, "0 %", &["Lap: 0 %", "stack bond"]);
    questioned(Place::LapShare, "100 %", &["Lap: 100 %", "stack bond"]);
    questioned(Place::WidestJoint, "1/4", &["Widest joint", "no unit"]);
    questioned(
        Place::Kerf,
        "1 ft",
        &["Saw kerf", "above the most", "1/2\""],
    );
    questioned(Place::Bearing, "400 deg", &["Bearing", "400°", "360°"]);
    questioned(
        Place::OpeningAlong(0),
        "0 in",
        &["Opening 1 along", "below the least"],
    );
    questioned(
        Place::SampleLength(0),
        "a hand",
        &["Sample 1 length", "cannot be read"],
    );
    questioned(
        Place::SecondWidth,
        "8 ft",
        &["Second brick width", "above the most"],
    );
    questioned(Place::BricksOnSite, "1.5", &["Brick on site"]);
    questioned(Place::BrickLoss, "101 %", &["Brick lost", "95 %"]);
}

#[test]
fn a_sign_that_is_none_is_questioned_and_kept() {
    questioned(
        Place::Sign(0),
        "sunken",
        &["Sign 1", "none of what can be seen"],
    );
    questioned(
        Place::SignWidth(0),
        "5 ft",
        &["Sign 1 joint width", "above the most"],
    );
    questioned(Place::SignStation(0), "3", &["Sign 1 station"]);
    let mut file = full();
    file.set_text(Place::Sign(0), "Open joints");
    file.set_text(Place::SignWidth(0), "3/8 in");
    let (site, findings) = file.checked(&catalogue().unwrap());
    assert_eq!(findings.iter().count(), 0);
    let sign = site.signs.first().unwrap();
    assert_eq!(sign.what, Some(site::SignKind::OpenJoints));
    assert!((in_metres(sign.width.unwrap()) - 0.375 * 0.0254).abs() < 1e-12);
    // Any other sign has no width; what was typed stays in the file.
    file.set_text(Place::Sign(0), "moss");
    let (site, findings) = file.checked(&catalogue().unwrap());
    assert_eq!(findings.iter().count(), 0);
    assert_eq!(site.signs.first().unwrap().width, None);
    assert_eq!(file.text(Place::SignWidth(0)), Some("3/8 in"));
}
