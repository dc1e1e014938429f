//! Sites built by hand, and a catalogue of a few invented materials.

use proptest::prelude::*;
use underbrick_calc::bed::Bed;
use underbrick_calc::catalogue::{BaseFigures, Catalogue, Drainage, Hatch, Material, UnderAWalk};
use underbrick_calc::line::Line;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{
    Angle, Length, feet, in_metres, inches, kilograms_per_cubic_metre, metres, unit,
};
use underbrick_calc::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, Hand, Layer, Leg, LegShape, LevelBook,
    LineInput, MaterialKey, PenetrometerLog, Pit, PitEnd, RestraintInput, Shot, ShotBy, ShownIn,
    Site,
};
use underbrick_calc::{Results, compute};

pub fn key(name: &str) -> MaterialKey {
    MaterialKey(name.to_owned())
}

/// Old brick; sand that must come out; clay that stays; base of 1.25 ratio and 3/4 in stone; the same with fine stone.
pub fn catalogue() -> Catalogue {
    let material = |name: &str, under_a_walk, as_base, swell, bank| Material {
        key: key(name),
        name: name.to_owned(),
        under_a_walk,
        as_base,
        drainage: Drainage::Slow,
        bank_density: kilograms_per_cubic_metre(bank),
        loose_density: kilograms_per_cubic_metre(bank / (1.0 + swell)),
        swell,
        hatch: Hatch::Stone,
        source: "invented for tests".to_owned(),
    };
    // Row E33: 135 lb/ft³ compacted.
    let base = |largest_stone| BaseFigures {
        loose_to_compacted: 1.25,
        largest_stone,
        compacted_density: kilograms_per_cubic_metre(135.0 * 0.453_592_37 / 0.028_316_846_592),
    };
    Catalogue {
        materials: vec![
            material("old_brick", UnderAWalk::OldPavement, None, 0.0, 2000.0),
            material("sand", UnderAWalk::MustComeOut, None, 0.12, 1600.0),
            material("clay", UnderAWalk::Subgrade, None, 0.3, 1750.0),
            material(
                "crusher_run",
                UnderAWalk::Base,
                Some(base(inches(0.75))),
                0.25,
                2100.0,
            ),
            material(
                "fine_base",
                UnderAWalk::Base,
                Some(base(inches(0.001))),
                0.25,
                2100.0,
            ),
        ],
        ..Catalogue::default()
    }
}

/// A straight level walk without readings: 30 ft, 4 ft over header edges of 8 in, 6 in of extension, 4 in of base.
pub fn plain() -> Site {
    Site {
        address: "12 Invented Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in: ShownIn::FeetInches,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: None,
            first_brick_below_sill: None,
            legs: vec![straight(feet(30.0))],
            width: Some(feet(4.0) - inches(16.0)),
            fall: Fall::from_ratio(0.0),
            cross_fall: Fall::from_ratio(0.0),
            far_end: FarEnd::Free,
            shape: underbrick_calc::site::GradeShape::Uniform,
            string_above_sill: Some(metres(0.0)),
            rod_at_sill: None,
            book: LevelBook::default(),
            shots: Vec::new(),
        },
        pits: Vec::new(),
        bed: BedInput {
            setting_bed: Some(inches(0.75)),
            least_base: Some(inches(4.0)),
            base_material: key("crusher_run"),
            loose_lift: Some(inches(3.0)),
            side_extension: Some(inches(6.0)),
            undercut_limit: None,
            fabric: false,
            plant: underbrick_calc::build::Plant::NotKnown,
        },
        brick: Brick {
            length: Some(inches(8.0)),
            width: Some(inches(4.0)),
            thickness: Some(inches(2.25)),
            joint: Some(inches(0.125)),
        },
        soil: Default::default(),
        frost: Default::default(),
        lay: Default::default(),
        order: Default::default(),
        build: Default::default(),
        show: Default::default(),
        edge: EdgeInput {
            stands: EdgeStands::Header,
            restraint: RestraintInput::Nothing,
        },
    }
}

pub fn straight(length: Length) -> Leg {
    Leg {
        shape: LegShape::Straight {
            length: Some(length),
        },
        width_at_end: None,
    }
}

pub fn curve(radius_m: f64, turn_rad: f64, hand: Hand) -> Leg {
    let shape = LegShape::Curve {
        radius: Some(metres(radius_m)),
        turn: Some(Angle::new::<unit::radian>(turn_rad)),
        hand,
    };
    Leg {
        shape,
        width_at_end: None,
    }
}

/// The old surface at a spot, by tape from a string at sill level.
pub fn shot(station_m: f64, offset_m: f64, drop_m: f64) -> Shot {
    Shot {
        station: Some(metres(station_m)),
        offset: Some(metres(offset_m)),
        by: ShotBy::String,
        reading: Some(metres(drop_m)),
    }
}

/// A pit through old brick and sand into clay.
pub fn pit(station_m: f64, brick: Length, sand: Length) -> Pit {
    let layer = |name: &str, thickness| Layer {
        material: key(name),
        thickness,
        firmness: None,
        moisture: None,
    };
    Pit {
        station: Some(metres(station_m)),
        offset: None,
        layers: vec![
            layer("old_brick", Some(brick)),
            layer("sand", Some(sand)),
            layer("clay", Some(inches(4.0))),
        ],
        seep: None,
        ended: PitEnd::Refused,
        penetrometer: PenetrometerLog::default(),
    }
}

pub fn computed(site: &Site) -> Results {
    compute(site, &catalogue())
}

pub fn bed_of(site: &Site) -> Bed {
    let results = computed(site);
    results
        .bed
        .unwrap_or_else(|| panic!("no bed: {:#?}", results.findings))
}

/// Walks of three legs, the middle one curved, the last one tapering, with falls both ways, two to four pits and a surface read at
/// three stations, at the last one on three offsets. Header edge, no trench.
pub fn any_site() -> impl Strategy<Value = Site> {
    let legs = (
        2.0..5.0_f64,
        2.5..6.0_f64,
        0.2..1.5_f64,
        any::<bool>(),
        2.0..5.0_f64,
        0.7..1.3_f64,
    );
    let falls = (0.0..0.03_f64, -0.02..0.02_f64);
    let pits = proptest::collection::vec((0.0..1.0_f64, 0.05..0.4_f64), 2..5);
    let drops = proptest::collection::vec(0.0..0.12_f64, 5);
    (legs, falls, pits, drops).prop_map(|(legs, (fall, cross_fall), pits, drops)| {
        let (first, radius, turn, is_left, last, width_at_end) = legs;
        let length = first + radius * turn + last;
        let mut site = plain();
        let hand = if is_left { Hand::Left } else { Hand::Right };
        let taper = Leg {
            width_at_end: Some(metres(width_at_end)),
            ..straight(metres(last))
        };
        site.line.legs = vec![straight(metres(first)), curve(radius, turn, hand), taper];
        site.line.width = Some(metres(1.0));
        site.line.fall = Fall::from_ratio(fall);
        site.line.cross_fall = Fall::from_ratio(cross_fall);
        site.line.old_below_sill = Some(metres(drops[0]));
        site.line.shots = vec![
            shot(length * 0.4, 0.0, drops[1]),
            shot(length, -0.5, drops[2] + fall * length),
            shot(length, 0.0, drops[3] + fall * length),
            shot(length, 0.5, drops[4] + fall * length),
        ];
        site.pits = pits
            .iter()
            .map(|&(part, sand)| pit(part * length, inches(2.0), metres(sand)))
            .collect();
        site
    })
}

/// The same walks with a base so fine and a plate so heavy that one lift does: the base follows the ground without a step.
pub fn any_site_in_one_lift() -> impl Strategy<Value = Site> {
    any_site().prop_map(|mut site| {
        site.bed.base_material = key("fine_base");
        site.bed.loose_lift = Some(inches(24.0));
        site
    })
}

/// Every station at which a leg ends, a pit stands or the surface was read, in order.
pub fn breaks_m(site: &Site, line: &Line) -> Vec<f64> {
    let mut breaks_m: Vec<f64> = line.run.breaks().into_iter().map(in_metres).collect();
    breaks_m.extend(
        site.pits
            .iter()
            .filter_map(|pit| pit.station)
            .map(in_metres),
    );
    breaks_m.extend(
        site.line
            .shots
            .iter()
            .filter_map(|shot| shot.station)
            .map(in_metres),
    );
    breaks_m.sort_by(f64::total_cmp);
    breaks_m
}
