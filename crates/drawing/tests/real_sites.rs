//! Whole sites, computed and drawn: straight and curved, sunk and half measured, deep and shallow.

use underbrick_calc::catalogue::{BaseFigures, Catalogue, Drainage, Hatch, Material, UnderAWalk};
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{
    Angle, Length, feet, in_metres, inches, kilograms_per_cubic_metre, unit,
};
use underbrick_calc::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, Hand, Layer, Leg, LegShape, LevelBook,
    LineInput, MaterialKey, PenetrometerLog, PenetrometerRow, Pit, PitEnd, RestraintInput, Shot,
    ShotBy, ShownIn, Site,
};
use underbrick_calc::{Results, compute};
use underbrick_drawing::clearance::faults;
use underbrick_drawing::item::{Dash, Sheet};
use underbrick_drawing::palette::Theme;
use underbrick_drawing::{Drawing, Item, cross_section, long_section, svg};

fn material(
    key: &str,
    under_a_walk: UnderAWalk,
    hatch: Hatch,
    as_base: Option<BaseFigures>,
) -> Material {
    Material {
        key: MaterialKey(key.to_owned()),
        name: key.replace('-', " "),
        under_a_walk,
        as_base,
        drainage: Drainage::Slow,
        bank_density: kilograms_per_cubic_metre(1800.0),
        loose_density: kilograms_per_cubic_metre(1500.0),
        swell: 0.2,
        hatch,
        source: "made up for this test".to_owned(),
    }
}

fn catalogue() -> Catalogue {
    let base = BaseFigures {
        loose_to_compacted: 1.25,
        largest_stone: inches(0.75),
        compacted_density: kilograms_per_cubic_metre(2200.0),
    };
    Catalogue {
        materials: vec![
            material("crushed-stone", UnderAWalk::Base, Hatch::Stone, Some(base)),
            material("old-brick", UnderAWalk::OldPavement, Hatch::Brick, None),
            material("sand", UnderAWalk::MustComeOut, Hatch::Sand, None),
            material("loam", UnderAWalk::MustComeOut, Hatch::Loose, None),
            material("stiff-clay", UnderAWalk::Subgrade, Hatch::Clay, None),
        ],
        ..Catalogue::default()
    }
}

fn layer(material: &str, thickness_in: Option<f64>) -> Layer {
    Layer {
        material: MaterialKey(material.to_owned()),
        thickness: thickness_in.map(inches),
        firmness: None,
        moisture: None,
    }
}

fn pit(station_ft: f64, sand_in: f64, loam_in: f64) -> Pit {
    Pit {
        station: Some(feet(station_ft)),
        offset: Some(Length::default()),
        layers: vec![
            layer("old-brick", Some(2.25)),
            layer("sand", Some(sand_in)),
            layer("loam", Some(loam_in)),
            layer("stiff-clay", None),
        ],
        seep: Some(inches(2.25 + sand_in + loam_in + 1.0)),
        ended: PitEnd::Stopped,
        penetrometer: PenetrometerLog::default(),
    }
}

fn straight(length_ft: f64) -> Leg {
    Leg {
        shape: LegShape::Straight {
            length: Some(feet(length_ft)),
        },
        width_at_end: None,
    }
}

fn curve(radius_ft: f64, turn_degrees: f64, hand: Hand) -> Leg {
    let turn = Some(Angle::new::<unit::degree>(turn_degrees));
    Leg {
        shape: LegShape::Curve {
            radius: Some(feet(radius_ft)),
            turn,
            hand,
        },
        width_at_end: None,
    }
}

fn shot(station_ft: f64, offset_in: f64, down_in: f64) -> Shot {
    Shot {
        station: Some(feet(station_ft)),
        offset: Some(inches(offset_in)),
        by: ShotBy::String,
        reading: Some(inches(down_in)),
    }
}

fn site(legs: Vec<Leg>, pits: Vec<Pit>, shots: Vec<Shot>, shown_in: ShownIn) -> Site {
    Site {
        address: "27 Quarry Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: Some(inches(1.5)),
            first_brick_below_sill: None,
            legs,
            width: Some(inches(36.0)),
            fall: None,
            cross_fall: None,
            far_end: FarEnd::Free,
            shape: underbrick_calc::site::GradeShape::Uniform,
            string_above_sill: Some(inches(2.0)),
            rod_at_sill: None,
            book: LevelBook::default(),
            shots,
        },
        pits,
        bed: BedInput {
            setting_bed: None,
            least_base: None,
            base_material: MaterialKey("crushed-stone".to_owned()),
            loose_lift: None,
            side_extension: None,
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
            stands: EdgeStands::Sailor,
            restraint: RestraintInput::Haunch {
                height: None,
                width: None,
                top_width: None,
            },
        },
    }
}

/// A walk of 40 ft with two curves, meeting a drive.
fn curved() -> Site {
    let legs = vec![
        straight(12.0),
        curve(12.0, 45.0, Hand::Left),
        straight(6.0),
        curve(20.0, 36.0, Hand::Right),
    ];
    let shots = vec![
        shot(0.5, 0.0, 4.0),
        shot(6.0, -15.0, 6.5),
        shot(6.0, 0.0, 7.0),
        shot(6.0, 15.0, 6.0),
        shot(20.0, 0.0, 8.5),
        shot(33.0, 0.0, 11.0),
    ];
    let mut curved = site(
        legs,
        vec![
            pit(3.0, 3.0, 4.0),
            pit(14.0, 4.5, 6.0),
            pit(15.5, 4.5, 8.0),
            pit(30.0, 2.0, 2.0),
        ],
        shots,
        ShownIn::FeetInches,
    );
    curved.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(10.5)),
    };
    curved
}

/// A penetrometer in each pit.
fn driven() -> Site {
    let mut site = curved();
    for pit in &mut site.pits {
        pit.penetrometer.start = Some(Length::default());
        pit.penetrometer.rows = vec![PenetrometerRow {
            blows: Some(4),
            reading: Some(inches(7.0)),
        }];
    }
    site
}

fn all_sites() -> Vec<(&'static str, Site)> {
    let sunk = site(
        vec![straight(24.0)],
        vec![pit(4.0, 5.0, 1.0)],
        vec![
            shot(1.0, 0.0, 4.0),
            shot(10.0, 0.0, 8.0),
            shot(20.0, 0.0, 9.0),
        ],
        ShownIn::FeetInches,
    );
    let mut metric = sunk.clone();
    metric.shown_in = ShownIn::Metric;
    metric.line.cross_fall = Fall::from_ratio(0.02);
    let half_measured = site(
        vec![straight(18.0)],
        Vec::new(),
        Vec::new(),
        ShownIn::FeetInches,
    );
    let mut nothing_holds = sunk.clone();
    nothing_holds.edge = EdgeInput {
        stands: EdgeStands::Header,
        restraint: RestraintInput::Nothing,
    };
    let mut spiked = metric.clone();
    spiked.edge = EdgeInput {
        stands: EdgeStands::Rowlock,
        restraint: RestraintInput::Spiked { spacing: None },
    };
    let mut heaved = curved();
    heaved.line.shots = vec![
        shot(0.5, 0.0, -1.0),
        shot(20.0, 0.0, 1.0),
        shot(39.0, 0.0, 3.0),
    ];
    let mut endless = curved();
    endless.pits = vec![Pit {
        layers: vec![layer("old-brick", Some(2.25)), layer("sand", Some(14.0))],
        ..pit(5.0, 1.0, 1.0)
    }];
    let mut short = sunk.clone();
    short.line.legs = vec![straight(4.0)];
    let mut narrow = sunk.clone();
    narrow.line.width = Some(inches(14.0));
    let mut wide = sunk.clone();
    wide.line.width = Some(feet(9.0));
    let mut deep = sunk.clone();
    deep.pits = vec![pit(4.0, 10.0, 24.0)];
    let frosty = |site: &Site, depth_in: f64| {
        let mut site = site.clone();
        site.frost.local_depth = Some(inches(depth_in));
        site
    };
    vec![
        ("frost in the base", frosty(&sunk, 7.0)),
        ("frost under a deep pit", frosty(&deep, 18.0)),
        ("frost that leaves the drawing", frosty(&heaved, 12.0)),
        ("frost below the drawing", frosty(&curved(), 42.0)),
        ("shallow frost on a curve", frosty(&curved(), 5.0)),
        ("sunk", sunk),
        ("curved", curved()),
        ("driven", driven()),
        ("metric", metric),
        ("half-measured", half_measured),
        ("nothing-holds", nothing_holds),
        ("spiked", spiked),
        ("heaved", heaved),
        ("endless", endless),
        ("short", short),
        ("narrow", narrow),
        ("wide", wide),
        ("deep", deep),
    ]
}

fn both(site: &Site, results: &Results, share: f64, sheet: Sheet) -> [Drawing; 2] {
    let catalogue = catalogue();
    let run = results
        .line
        .as_ref()
        .map_or(Length::default(), |line| line.run.length());
    let cross = cross_section(site, &catalogue, results, run * share, sheet);
    [
        cross,
        long_section(site, &catalogue, results, run * share, sheet).drawing,
    ]
}

#[test]
fn every_site_is_readable_on_every_sheet_at_every_station() {
    let mut all_faults = Vec::new();
    for (name, site) in all_sites() {
        let results = compute(&site, &catalogue());
        assert!(results.bed.is_some(), "{name}");
        for (width, height) in [
            (360.0, 260.0),
            (560.0, 420.0),
            (776.0, 380.0),
            (1280.0, 560.0),
            (1600.0, 900.0),
        ] {
            for text_scale in [0.85, 1.0, 1.6] {
                for share in [0.0, 0.13, 0.5, 1.0] {
                    let sheet = Sheet {
                        width,
                        height,
                        text_scale,
                    };
                    for drawing in both(&site, &results, share, sheet) {
                        let faults = faults(&drawing);
                        all_faults.extend(faults.iter().map(|fault| {
                            format!("{name} at {share} of the run on {sheet:?}: {fault}")
                        }));
                    }
                }
            }
        }
    }
    assert!(all_faults.is_empty(), "{}", all_faults.join("\n"));
}

#[test]
fn every_site_gives_an_svg_that_a_parser_reads() {
    for (name, site) in all_sites() {
        let results = compute(&site, &catalogue());
        for drawing in both(
            &site,
            &results,
            0.4,
            Sheet {
                width: 776.0,
                height: 400.0,
                text_scale: 1.0,
            },
        ) {
            let svg = svg::write(&drawing, Theme::Sun);
            assert!(
                usvg::Tree::from_str(&svg, &usvg::Options::default()).is_ok(),
                "{name}"
            );
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{name}");
        }
    }
}

#[test]
fn the_scale_stays_while_the_marker_moves() {
    for (name, site) in all_sites() {
        let results = compute(&site, &catalogue());
        let sheet = Sheet {
            width: 776.0,
            height: 380.0,
            text_scale: 1.0,
        };
        let scales: Vec<f64> = [0.0, 0.3, 0.7, 1.0]
            .iter()
            .map(|share| both(&site, &results, *share, sheet)[0].dots_per_metre)
            .collect();
        let widest = scales.iter().copied().fold(0.0, f64::max);
        let narrowest = scales.iter().copied().fold(f64::INFINITY, f64::min);
        // Callouts may change with what there is to say; the scale may follow them only a little.
        assert!(narrowest > 0.8 * widest, "{name}: {scales:?}");
    }
}

#[test]
fn without_a_pit_the_bottom_is_dashed_and_said_to_be_unknown() {
    let site = site(
        vec![straight(18.0)],
        Vec::new(),
        Vec::new(),
        ShownIn::FeetInches,
    );
    let results = compute(&site, &catalogue());
    for drawing in both(
        &site,
        &results,
        0.5,
        Sheet {
            width: 900.0,
            height: 560.0,
            text_scale: 1.0,
        },
    ) {
        let says = |words: &str| {
            drawing
                .items
                .iter()
                .any(|item| matches!(item, Item::Label { text, .. } if text.written == words))
        };
        assert!(says("no pit: depth not known"));
        let place = Some(underbrick_calc::place::Place::DigBottom);
        let dashed = |item: &Item| matches!(item, Item::Line { pen, place: at, .. } if pen.dash == Dash::Dashed && *at == place);
        assert!(drawing.items.iter().any(dashed));
        assert!(drawing.words.contains("No pit: depth not known"));
    }
}

#[test]
fn the_grade_line_of_the_section_is_that_of_the_line() {
    let site = curved();
    let results = compute(&site, &catalogue());
    let line = results.line.as_ref().unwrap();
    let sheet = Sheet {
        width: 776.0,
        height: 380.0,
        text_scale: 1.0,
    };
    for share in [0.0, 0.25, 0.9] {
        let station = line.run.length() * share;
        let [cross, _] = both(&site, &results, share, sheet);
        let grade = cross.items.iter().find_map(|item| match item {
            Item::Line {
                points,
                place: Some(underbrick_calc::place::Place::GradeLine),
                pen,
            } if pen.width > 2.0 => Some(points.clone()),
            _ => None,
        });
        let grade = grade.unwrap();
        let middle = (grade[0].y + grade[1].y) / 2.0;
        assert!((middle - in_metres(line.grade.level(station, Length::default()))).abs() < 1e-9);
    }
}

/// The frost line runs a frost depth below the grade line, and where the drawing does not reach so deep there is none.
#[test]
fn the_frost_line_lies_its_depth_below_the_grade_line() {
    let sheet = Sheet {
        width: 1280.0,
        height: 560.0,
        text_scale: 1.0,
    };
    let sites = all_sites();
    let drawn = |wanted: &str| {
        let (_, site) = sites.iter().find(|(name, _)| *name == wanted).unwrap();
        let [_, long] = both(site, &compute(site, &catalogue()), 0.5, sheet);
        long.items
    };
    let line_of = |items: &[Item], wanted: Place| {
        items.iter().find_map(|item| match item {
            Item::Line { points, place, .. } if *place == Some(wanted) => Some(points.clone()),
            _ => None,
        })
    };
    let items = drawn("frost in the base");
    let frost = line_of(&items, Place::FrostDepth).unwrap();
    let grade = line_of(&items, Place::GradeLine).unwrap();
    // Heights are enlarged: the brick, 2 1/4 in, tells by how much.
    let brick = items
        .iter()
        .find_map(|item| match item {
            Item::Area { outline, place, .. } if *place == Some(Place::BrickThickness) => {
                Some(outline.clone())
            }
            _ => None,
        })
        .unwrap();
    let per_inch = (brick.first().unwrap().y - brick.last().unwrap().y) / 2.25;
    for (frost, grade) in [
        (frost.first().unwrap(), grade.first().unwrap()),
        (frost.last().unwrap(), grade.last().unwrap()),
    ] {
        assert!((frost.x - grade.x).abs() < 1e-9);
        assert!((grade.y - frost.y - 7.0 * per_inch).abs() < 1e-9 * per_inch);
    }
    let is_named = |items: &[Item]| {
        items.iter().any(
            |item| matches!(item, Item::Label { text, .. } if text.written.contains("frost depth")),
        )
    };
    assert!(is_named(&items));
    let below = drawn("frost below the drawing");
    assert!(line_of(&below, Place::FrostDepth).is_none() && !is_named(&below));
    let leaving = line_of(&drawn("frost that leaves the drawing"), Place::FrostDepth);
    assert!(leaving.is_none_or(|line| line.len() >= 2));
}
