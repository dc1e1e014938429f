//! Every rule of the built-in table of causes on a site that fires it, and on the same site with one thing mended.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

use std::collections::BTreeSet;

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::findings::rules::CauseFound;
use underbrick_calc::place::Place;
use underbrick_records::v1::{Leg, LegShape, Restraint, Severity, Sign};
use underbrick_records::{SiteFile, catalogue};

/// A straight walk of 20 ft that falls 1/4 in per ft, one pit through brick, 1 in of sand and 6 in of crushed stone on firm gravel,
/// brick that makes any pattern, a haunch: nothing is wrong with it.
fn sound() -> SiteFile {
    let mut site = SiteFile::new("3 Cooper Lane", "front walk");
    site.line.legs = vec![Leg {
        shape: LegShape::Straight {
            length: "20 ft".to_owned(),
        },
        width_at_end: String::new(),
    }];
    put(&mut site, Place::Width, "36 in");
    put(&mut site, Place::OldBelowSill, "1 in");
    put(&mut site, Place::StringAboveSill, "0 in");
    // 1 in at the door and 1/4 in more for every foot.
    for (station, reading) in [
        ("5 ft", "2 1/4 in"),
        ("10 ft", "3 1/2 in"),
        ("20 ft", "6 in"),
    ] {
        let shot_idx = site.add_shot(underbrick_calc::site::ShotBy::String);
        put(&mut site, Place::ShotStation(shot_idx), station);
        put(&mut site, Place::ShotReading(shot_idx), reading);
    }
    pit(
        &mut site,
        "6 ft",
        &[
            ("old-brick", "2 1/4 in"),
            ("bedding-sand", "1 in"),
            ("crushed-stone", "6 in"),
            ("firm-gravel", ""),
        ],
    );
    put(&mut site, Place::BrickLength, "8 1/8 in");
    put(&mut site, Place::BrickWidth, "4 in");
    put(&mut site, Place::Joint, "1/8 in");
    site
}

fn put(site: &mut SiteFile, place: Place, text: &str) {
    assert!(site.set_text(place, text), "{place:?}");
}

fn pit(site: &mut SiteFile, station: &str, layers: &[(&str, &str)]) -> usize {
    let pit_idx = site.add_pit();
    put(site, Place::PitStation(pit_idx), station);
    site.pits[pit_idx].layers.clear();
    for (material, thickness) in layers {
        let layer_idx = site.add_layer(pit_idx, material).unwrap();
        put(site, Place::LayerThickness(pit_idx, layer_idx), thickness);
    }
    pit_idx
}

/// A sign at a station; an empty one for all along the walk.
fn sign(site: &mut SiteFile, what: &str, station: &str) -> usize {
    site.signs.push(Sign {
        what: what.to_owned(),
        station: station.to_owned(),
        ..Sign::default()
    });
    site.signs.len() - 1
}

/// What a layer of the first pit is, and how it felt.
fn relay(site: &mut SiteFile, layer_idx: usize, material: &str, felt: &str) {
    use underbrick_records::v1::{Firmness, Moisture};
    let layer = &mut site.pits[0].layers[layer_idx];
    layer.material = material.to_owned();
    layer.firmness = felt.contains("soft").then_some(Firmness::Soft);
    layer.moisture = if felt.contains("wet") {
        Some(Moisture::Wet)
    } else if felt.contains("moist") {
        Some(Moisture::Moist)
    } else {
        None
    };
}

type Change = fn(&mut SiteFile);

/// Rule, what makes it fire, and what then silences it.
const CASES: &[(&str, Change, Change)] = &[
    (
        "sand-never-packs",
        |site| {
            relay(site, 2, "fill-sand", "");
            sign(site, "sunk", "6 ft");
        },
        |site| put(site, Place::LayerThickness(0, 2), "1 in"),
    ),
    (
        "loam-under-walk",
        |site| {
            relay(site, 2, "loam", "");
            sign(site, "sunk", "6 ft");
        },
        |site| relay(site, 2, "crushed-stone", ""),
    ),
    (
        "rubbish-under-walk",
        |site| {
            relay(site, 2, "rubbish", "");
            sign(site, "rocking", "6 ft");
        },
        |site| site.signs.clear(),
    ),
    (
        "stone-loses-sand",
        |site| {
            relay(site, 2, "open-graded-stone", "");
            sign(site, "sunk", "6 ft");
        },
        |site| relay(site, 2, "crushed-stone", ""),
    ),
    (
        "base-too-thin",
        |site| {
            put(site, Place::LayerThickness(0, 2), "3 7/8 in");
            sign(site, "heaved", "6 ft");
        },
        |site| put(site, Place::LayerThickness(0, 2), "4 in"),
    ),
    (
        "no-base",
        |site| {
            relay(site, 2, "sandy-gravel", "");
            sign(site, "sunk", "6 ft");
        },
        |site| relay(site, 2, "recycled-concrete", ""),
    ),
    (
        "new-base-too-thin",
        |site| {
            put(site, Place::LeastBase, "3 1/2 in");
            sign(site, "sunk", "6 ft");
        },
        |site| put(site, Place::LeastBase, "4 in"),
    ),
    (
        "soft-clay",
        |site| {
            relay(site, 3, "firm-clay", "soft");
            sign(site, "sunk", "6 ft");
        },
        |site| relay(site, 3, "firm-clay", ""),
    ),
    (
        "soft-subgrade",
        |site| {
            relay(site, 3, "sandy-gravel", "soft");
            sign(site, "sunk", "6 ft");
        },
        // Of clay that is soft another rule says more.
        |site| relay(site, 3, "firm-clay", "soft"),
    ),
    (
        "stone-in-clay",
        |site| {
            relay(site, 3, "firm-clay", "moist");
            sign(site, "rocking", "6 ft");
        },
        |site| relay(site, 3, "firm-clay", ""),
    ),
    (
        "seep-no-way-out",
        |site| {
            relay(site, 3, "firm-clay", "");
            put(site, Place::PitSeep(0), "15 in");
        },
        |site| put(site, Place::PitSeep(0), ""),
    ),
    (
        "shallow-water",
        |site| put(site, Place::PitSeep(0), "11 in"),
        |site| put(site, Place::PitSeep(0), "12 in"),
    ),
    (
        "wet-bed-on-clay",
        |site| {
            relay(site, 2, "crushed-stone", "wet");
            relay(site, 3, "firm-clay", "");
        },
        |site| relay(site, 2, "crushed-stone", "moist"),
    ),
    (
        "moss-on-wet-ground",
        |site| {
            sign(site, "moss", "");
            relay(site, 1, "bedding-sand", "wet");
        },
        |site| relay(site, 1, "bedding-sand", "moist"),
    ),
    (
        "falls-to-house",
        // 3 1/2 in at 10 ft, the door now lower than that.
        |site| put(site, Place::OldBelowSill, "3 5/8 in"),
        |site| put(site, Place::OldBelowSill, "3 1/2 in"),
    ),
    (
        "too-flat",
        // From 1 1/4 to 3 1/2 in over 10 ft: 2 1/4 in of the 2 1/2 that are asked.
        |site| {
            sign(site, "moss", "");
            put(site, Place::OldBelowSill, "1 1/4 in");
        },
        |site| put(site, Place::OldBelowSill, "1 in"),
    ),
    (
        "ponding-in-hollow",
        // Under the straightedge from the door to 10 ft: 2 1/4 in is even, 2 11/16 in is 7/16 in hollow.
        |site| {
            sign(site, "ponding", "7 ft");
            put(site, Place::ShotReading(0), "2 11/16 in");
        },
        |site| put(site, Place::ShotReading(0), "2 5/8 in"),
    ),
    (
        "thick-setting-bed",
        |site| {
            put(site, Place::LayerThickness(0, 1), "1 9/16 in");
            sign(site, "sunk", "");
        },
        |site| put(site, Place::LayerThickness(0, 1), "1 1/2 in"),
    ),
    (
        "screenings-bed",
        |site| relay(site, 1, "screenings", ""),
        |site| relay(site, 1, "bedding-sand", ""),
    ),
    (
        "broken-over-hollow",
        |site| {
            sign(site, "broken-brick", "4 ft");
            sign(site, "rocking", "7 ft");
        },
        |site| put(site, Place::SignStation(1), "7 ft 1 in"),
    ),
    (
        "joints-too-wide",
        |site| {
            let sign_idx = sign(site, "open-joints", "4 ft");
            put(site, Place::SignWidth(sign_idx), "1/4 in");
        },
        |site| put(site, Place::SignWidth(0), "3/16 in"),
    ),
    (
        "joints-empty",
        |site| {
            sign(site, "open-joints", "4 ft");
            sign(site, "rocking", "5 ft");
        },
        |site| put(site, Place::SignWidth(0), "3/8 in"),
    ),
    (
        "weeds-in-joints",
        |site| {
            sign(site, "open-joints", "4 ft");
            sign(site, "moss", "");
        },
        |site| put(site, Place::SignWidth(0), "3/8 in"),
    ),
    (
        "spread-opens-joints",
        |site| {
            sign(site, "edge-spread", "8 ft");
            sign(site, "open-joints", "9 ft");
        },
        |site| put(site, Place::SignStation(1), "14 ft"),
    ),
    (
        "edge-spread",
        |site| {
            sign(site, "edge-spread", "8 ft");
        },
        |site| put(site, Place::Sign(0), "moss"),
    ),
    (
        "will-spread-again",
        |site| {
            sign(site, "edge-spread", "8 ft");
            site.edge.restraint = Restraint::Nothing;
        },
        |site| site.edge.restraint = Restraint::spiked(),
    ),
    (
        "pattern-cannot-close",
        // 8 in is 1/8 in less than two widths and a joint.
        |site| {
            sign(site, "open-joints", "");
            put(site, Place::BrickLength, "8 in");
        },
        |site| put(site, Place::BrickLength, "8 1/16 in"),
    ),
    (
        "curve-too-tight",
        |site| {
            site.add_curved_leg(underbrick_calc::site::Hand::Left);
            put(site, Place::LegRadius(1), "12 ft");
            put(site, Place::LegTurn(1), "30 deg");
            sign(site, "open-joints", "22 ft");
        },
        // For 8 1/8 by 4 in brick the course on the inside needs 4 (8 1/8 + 1/16) / (1/8) in and half its width, 264 in; the centreline
        // of a walk 36 in wide lies 15 7/8 in further out: just under 23 ft 4 in.
        |site| put(site, Place::LegRadius(1), "23 ft 5 in"),
    ),
    (
        "root-lifts",
        |site| {
            sign(site, "root", "3 ft");
            sign(site, "heaved", "9 ft");
        },
        |site| put(site, Place::SignStation(1), "9 ft 1 in"),
    ),
    (
        "root-breaks",
        |site| {
            sign(site, "root", "3 ft");
            sign(site, "broken-brick", "4 ft");
        },
        |site| {
            sign(site, "heaved", "4 ft");
        },
    ),
    (
        "roots-in-ground",
        |site| {
            relay(site, 2, "roots", "");
            sign(site, "heaved", "6 ft");
        },
        |site| site.signs.clear(),
    ),
    (
        "frost-heave",
        |site| {
            relay(site, 3, "silt", "moist");
            sign(site, "heaved", "6 ft");
        },
        // A root that lifts it says it better.
        |site| {
            sign(site, "root", "6 ft");
        },
    ),
    (
        "frost-breaks-brick",
        |site| {
            sign(site, "broken-brick", "4 ft");
            sign(site, "ponding", "15 ft");
        },
        |site| put(site, Place::Sign(1), "moss"),
    ),
    (
        "downpipe-washes",
        |site| {
            sign(site, "downpipe", "1 ft");
            sign(site, "sunk", "7 ft");
        },
        |site| put(site, Place::SignStation(1), "7 ft 1 in"),
    ),
    (
        "downpipe-at-walk",
        |site| {
            sign(site, "downpipe", "1 ft");
        },
        |site| {
            sign(site, "sunk", "1 ft");
        },
    ),
    (
        "bottom-not-found",
        |site| {
            relay(site, 3, "loam", "");
        },
        |site| relay(site, 3, "firm-gravel", ""),
    ),
];

fn causes(site: &SiteFile, catalogue: &Catalogue) -> Vec<CauseFound> {
    let (checked, findings) = site.checked(catalogue);
    assert_eq!(findings.iter().count(), 0, "{findings:?}");
    compute(&checked, catalogue).causes
}

fn fires(causes: &[CauseFound], id: &str) -> bool {
    causes.iter().any(|cause| cause.rule_id == id)
}

#[test]
fn each_rule_fires_where_it_should_and_goes_with_one_reading() {
    let catalogue = catalogue().unwrap();
    assert_eq!(causes(&sound(), &catalogue), []);
    for (id, spoil, mend) in CASES {
        let mut site = sound();
        spoil(&mut site);
        let found = causes(&site, &catalogue);
        assert!(fires(&found, id), "{id} does not fire: {found:#?}");
        let evidence = found
            .iter()
            .find(|cause| cause.rule_id == *id)
            .map(|cause| cause.evidence.clone())
            .unwrap();
        assert!(!evidence.is_empty(), "{id} stands on nothing");
        mend(&mut site);
        let found = causes(&site, &catalogue);
        assert!(!fires(&found, id), "{id} still fires: {found:#?}");
    }
}

/// Frost groups by UFC 3-250-01 (rows Z1, Z6, Z7): a group from tests goes before the material of the pit, both ways.
#[test]
fn a_frost_group_goes_before_the_material() {
    let catalogue = catalogue().unwrap();
    let heaved = |material: &str, felt: &str| {
        let mut site = sound();
        relay(&mut site, 3, material, felt);
        sign(&mut site, "heaved", "6 ft");
        site
    };
    let tested = |site: &mut SiteFile, fines: &str, finer: &str| {
        put(site, Place::Fines, fines);
        put(site, Place::SieveSand, "90 %");
        put(site, Place::FinerThan002, finer);
        put(site, Place::LiquidLimit, "20 %");
        put(site, Place::PlasticLimit, "18 %");
        for (place, size) in [
            (Place::GrainD10, "0.1 mm"),
            (Place::GrainD30, "0.5 mm"),
            (Place::GrainD60, "1 mm"),
        ] {
            put(site, place, size);
        }
    };
    // Moist silt fires; sand with 2.5 % finer than 0.02 mm, NFS, does not, whatever the pit was called.
    let mut site = heaved("silt", "moist");
    assert!(fires(&causes(&site, &catalogue), "frost-heave"));
    tested(&mut site, "3 %", "2.5 %");
    assert!(!fires(&causes(&site, &catalogue), "frost-heave"));
    // Gravelly ground does not fire, until clay with a plasticity index of 15, F3, says that it heaves; dry ground never does.
    let clay = |site: &mut SiteFile| {
        put(site, Place::Fines, "88 %");
        put(site, Place::LiquidLimit, "35 %");
        put(site, Place::PlasticLimit, "20 %");
    };
    let mut site = heaved("firm-gravel", "moist");
    assert!(!fires(&causes(&site, &catalogue), "frost-heave"));
    clay(&mut site);
    let found = causes(&site, &catalogue);
    let heave = found
        .iter()
        .find(|cause| cause.rule_id == "frost-heave")
        .unwrap();
    let soil = heave
        .evidence
        .iter()
        .find(|reading| reading.place == Place::Soil)
        .unwrap();
    assert!(soil.words.starts_with("Frost group F3, "), "{}", soil.words);
    let mut dry = heaved("firm-gravel", "");
    clay(&mut dry);
    assert!(!fires(&causes(&dry, &catalogue), "frost-heave"));
}

/// The radius is that of this site's brick: half as long, it follows a curve that whole brick does not.
#[test]
fn a_curve_is_too_tight_for_this_brick() {
    let catalogue = catalogue().unwrap();
    let mut site = sound();
    site.add_curved_leg(underbrick_calc::site::Hand::Left);
    put(&mut site, Place::LegRadius(1), "15 ft");
    put(&mut site, Place::LegTurn(1), "30 deg");
    sign(&mut site, "open-joints", "22 ft");
    let found = causes(&site, &catalogue);
    let words = found
        .iter()
        .find(|cause| cause.rule_id == "curve-too-tight")
        .and_then(|cause| cause.evidence.first())
        .map(|reading| reading.words.clone())
        .unwrap();
    // 1/64 is the sine of half the turn from piece to piece: 32 (1/16 + 8 1/8 × 0.99988) = 261.97 in to the inner face, 264.00 to the
    // middle of the course, and 15 7/8 in more to the centreline.
    assert!(
        words.contains("whole brick follows from 23'-3 7/8\""),
        "{words}"
    );
    // 4 (4 + 1/16) / (1/8) in and half a width, 132 in, and 15 7/8 in to the centreline: 12 ft 4 in.
    put(&mut site, Place::BrickLength, "4 in");
    assert!(!fires(&causes(&site, &catalogue), "curve-too-tight"));
}

#[test]
fn each_rule_of_the_table_is_tried() {
    let catalogue = catalogue().unwrap();
    let rules = catalogue.causes.rules().iter();
    let ids: BTreeSet<&str> = rules.map(|rule| rule.id.as_str()).collect();
    let tried: BTreeSet<&str> = CASES.iter().map(|(id, ..)| *id).collect();
    assert_eq!(ids, tried);
}

#[test]
fn the_weightiest_readings_come_first_then_the_surest_rule() {
    let catalogue = catalogue().unwrap();
    let mut site = sound();
    // A plain sign and a measured value count 2, a slight sign 1, a bad one 3. The downpipe and three signs by it, sure: 3 × 8; loam with
    // one sign, sure: 3 × 4; the setting bed alone, possible: 2.
    relay(&mut site, 1, "screenings", "");
    relay(&mut site, 2, "loam", "");
    sign(&mut site, "sunk", "6 ft");
    sign(&mut site, "downpipe", "5 ft");
    sign(&mut site, "ponding", "6 ft");
    sign(&mut site, "open-joints", "6 ft");
    let found = causes(&site, &catalogue);
    let ids: Vec<&str> = found.iter().map(|cause| cause.rule_id.as_str()).collect();
    assert_eq!(
        ids,
        ["downpipe-washes", "loam-under-walk", "screenings-bed"]
    );
    // A root that loosens brick, two slight signs, likely: 2 × (1 + 1). Screenings, possible: 2 for each pit. Two pits draw level, and
    // the surer goes first; a third pit decides.
    let mut site = sound();
    relay(&mut site, 1, "screenings", "");
    for what in ["root", "rocking"] {
        let sign_idx = sign(&mut site, what, "6 ft");
        site.signs[sign_idx].severity = Severity::Slight;
    }
    let ids = |site: &SiteFile| -> Vec<String> {
        let found = causes(site, &catalogue);
        found.into_iter().map(|cause| cause.rule_id).collect()
    };
    assert_eq!(ids(&site), ["root-breaks", "screenings-bed"]);
    let layers = [
        ("old-brick", "2 1/4 in"),
        ("screenings", "1 in"),
        ("crushed-stone", "6 in"),
        ("firm-gravel", ""),
    ];
    pit(&mut site, "12 ft", &layers);
    assert_eq!(ids(&site), ["root-breaks", "screenings-bed"]);
    pit(&mut site, "16 ft", &layers);
    assert_eq!(ids(&site), ["screenings-bed", "root-breaks"]);
}

#[test]
fn evidence_is_told_with_its_value() {
    let catalogue = catalogue().unwrap();
    let mut site = sound();
    relay(&mut site, 2, "loam", "soft wet");
    sign(&mut site, "sunk", "6 ft");
    let (checked, _) = site.checked(&catalogue);
    let found = compute(&checked, &catalogue).causes;
    let loam = found
        .iter()
        .find(|cause| cause.rule_id == "loam-under-walk")
        .unwrap();
    let words: Vec<&str> = loam
        .evidence
        .iter()
        .map(|evidence| evidence.words.as_str())
        .collect();
    assert_eq!(
        words,
        ["Sunk, plain, at 6'-0\"", "Pit 1, Loam 6\", soft, wet",]
    );
}

/// Signs of every kind thrown over each sample, on sheets from a telephone to a wall: no word touches another or a line.
#[test]
fn marks_and_their_words_keep_clear_on_every_sheet() {
    use underbrick_calc::quantity::metres;
    use underbrick_calc::site::SignKind;
    use underbrick_drawing::item::Sheet;
    use underbrick_drawing::{clearance, cross_section, long_section};
    let catalogue = catalogue().unwrap();
    let samples = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../sample-sites");
    let mut n_drawn = 0;
    for folder in std::fs::read_dir(samples).unwrap() {
        let open = underbrick_records::OpenSite::open(folder.unwrap().path()).unwrap();
        for round in 0..4 {
            let mut site = open.site().clone();
            for (nth, kind) in SignKind::ALL.into_iter().enumerate() {
                // Spread in another order each round.
                let station_mm = (nth * (3 + 4 * round) % 10) * 700 + 131 * nth;
                let sign_idx = sign(&mut site, kind.key(), &format!("{station_mm} mm"));
                let offset = format!("{} mm", 37 * nth * (round + 1) % 700);
                put(&mut site, Place::SignOffset(sign_idx), &offset);
            }
            let (checked, _) = site.checked(&catalogue);
            let results = compute(&checked, &catalogue);
            for (width, height, text_scale) in [
                (360.0, 260.0, 1.0),
                (480.0, 300.0, 1.6),
                (768.0, 401.0, 1.0),
                (800.0, 376.0, 1.25),
                (1280.0, 500.0, 0.85),
                (1600.0, 900.0, 1.0),
            ] {
                let sheet = Sheet {
                    width,
                    height,
                    text_scale,
                };
                for station_m in [0.0, 0.9, 1.7, 2.6, 4.3] {
                    let station = metres(station_m);
                    let cross = cross_section(&checked, &catalogue, &results, station, sheet);
                    let long = long_section(&checked, &catalogue, &results, station, sheet).drawing;
                    for drawing in [cross, long] {
                        assert_eq!(
                            clearance::faults(&drawing),
                            Vec::<String>::new(),
                            "{} {sheet:?} at {station_m} m, round {round}",
                            checked.address
                        );
                        n_drawn += 1;
                    }
                }
            }
        }
    }
    assert_eq!(n_drawn, 7 * 4 * 6 * 5 * 2);
}
