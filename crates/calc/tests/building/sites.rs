//! Sites built by hand, and readings on them.

use underbrick_calc::bed::Bed;
use underbrick_calc::build::{Checked, ReadingFound, Surface, checked};
use underbrick_calc::catalogue::{BaseFigures, Catalogue, Drainage, Hatch, Material, UnderAWalk};
use underbrick_calc::compute;
use underbrick_calc::findings::{Findings, Weight};
use underbrick_calc::line::Line;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{
    Angle, Length, feet, inches, kilograms_per_cubic_metre, metres, unit,
};
use underbrick_calc::site::{
    BedInput, Brick, BuildReading, EdgeInput, EdgeStands, FarEnd, GradeShape, Hand, Layer, Leg,
    LegShape, LevelBook, LineInput, MaterialKey, PenetrometerLog, Pit, PitEnd, ReadBy,
    RestraintInput, SetUp, Shot, ShotBy, ShownIn, Site, Stamp,
};

/// A site with its design, worked out once: what is read changes nothing of it.
pub struct Job {
    pub site: Site,
    pub line: Line,
    pub bed: Bed,
}

impl Job {
    #[track_caller]
    pub fn of(site: Site) -> Self {
        let results = compute(&site, &catalogue());
        let (Some(line), Some(bed)) = (results.line, results.bed) else {
            panic!("no design: {:#?}", results.findings);
        };
        Self { site, line, bed }
    }

    pub fn checked(&self) -> (Checked, Findings) {
        let mut findings = Findings::default();
        let checked = checked(&self.site, &self.line, &self.bed, None, &mut findings);
        (checked, findings)
    }

    /// Takes a reading and says its index.
    pub fn read(&mut self, reading: BuildReading) -> usize {
        self.site.build.readings.push(reading);
        self.site.build.readings.len() - 1
    }

    /// What one reading says, alone.
    pub fn alone(&self, reading: BuildReading) -> ReadingFound {
        let mut site = self.site.clone();
        site.build.readings = vec![reading];
        let mut findings = Findings::default();
        let mut checked = checked(&site, &self.line, &self.bed, None, &mut findings);
        checked.readings.remove(0)
    }

    /// A reading that lies so far above its design.
    #[track_caller]
    pub fn off_by(
        &self,
        surface: Surface,
        station: Length,
        offset: Length,
        off: Length,
    ) -> BuildReading {
        let reading = tape(surface, station, offset, metres(0.0));
        let found = self.alone(reading.clone());
        let design = found
            .design
            .unwrap_or_else(|| panic!("no {surface:?} at {station:?}"));
        // A tape of nothing reads the string itself.
        let string = found.level.unwrap();
        BuildReading {
            reading: Some(string - design - off),
            ..reading
        }
    }

    /// A reading on the head of the riser at that station, so far above its design. The tape hangs from the string before the riser; as
    /// a step is far higher than it is off, it is held to the head.
    pub fn head_off_by(&self, station: Length, off: Length) -> BuildReading {
        tape(Surface::EdgeTop, station, metres(0.0), metres(0.0) - off)
    }
}

/// A tape reading.
pub fn tape(surface: Surface, station: Length, offset: Length, reading: Length) -> BuildReading {
    BuildReading {
        station: Some(station),
        offset: Some(offset),
        surface: Some(surface),
        by: ReadBy::String,
        reading: Some(reading),
        is_confirmed: false,
        stamp: Stamp::default(),
    }
}

/// A rod reading in a set-up.
pub fn rod(
    surface: Surface,
    station: Length,
    offset: Length,
    reading: Length,
    set_up_idx: usize,
) -> BuildReading {
    BuildReading {
        by: ReadBy::Rod { set_up_idx },
        ..tape(surface, station, offset, reading)
    }
}

pub fn set_up(rod_at_sill: Option<Length>) -> SetUp {
    SetUp {
        rod_at_sill,
        stamp: Stamp::default(),
    }
}

pub fn stamp(at_s: i64, initials: &str) -> Stamp {
    Stamp {
        at_s: Some(at_s),
        east_s: 0,
        initials: initials.to_owned(),
        device: "tablet".to_owned(),
    }
}

/// Centreline.
pub fn mid() -> Length {
    metres(0.0)
}

#[track_caller]
pub fn check_found(findings: &Findings, place: Place, weight: Weight, text: &str) {
    let found = findings
        .at(place)
        .any(|finding| finding.weight == weight && finding.text == text);
    assert!(found, "{findings:#?}");
}

fn key(name: &str) -> MaterialKey {
    MaterialKey(name.to_owned())
}

/// Old brick; sand that must come out; gravel that stays; base of 1.25 ratio and 3/4 in stone.
fn catalogue() -> Catalogue {
    let material = |name: &str, under_a_walk, as_base| Material {
        key: key(name),
        name: name.to_owned(),
        under_a_walk,
        as_base,
        drainage: Drainage::Free,
        bank_density: kilograms_per_cubic_metre(1800.0),
        loose_density: kilograms_per_cubic_metre(1500.0),
        swell: 0.2,
        hatch: Hatch::Stone,
        source: "invented for tests".to_owned(),
    };
    let base = BaseFigures {
        loose_to_compacted: 1.25,
        largest_stone: inches(0.75),
        compacted_density: kilograms_per_cubic_metre(2100.0),
    };
    Catalogue {
        materials: vec![
            material("old-brick", UnderAWalk::OldPavement, None),
            material("sand", UnderAWalk::MustComeOut, None),
            material("gravel", UnderAWalk::Subgrade, None),
            material("stone", UnderAWalk::Base, Some(base)),
        ],
        ..Catalogue::default()
    }
}

fn straight(length: Length) -> Leg {
    Leg {
        shape: LegShape::Straight {
            length: Some(length),
        },
        width_at_end: None,
    }
}

/// Straight, 30 ft, 4 ft clear, falling 1/4 in per ft, no cross-fall. 2 1/4 in brick on 3/4 in of bed on 4 in of base in two lifts of
/// 2 in. So from the string on the grade line: setting bed as screeded 2 1/8 in, base top 3 in, lift 1 5 in, bottom of dig 7 in.
pub fn plain() -> Site {
    Site {
        address: "12 Invented Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in: ShownIn::FeetInches,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: Some(inches(0.0)),
            first_brick_below_sill: None,
            legs: vec![straight(feet(30.0))],
            width: Some(feet(4.0)),
            fall: Some(Fall::inches_per_foot(0.25)),
            cross_fall: None,
            far_end: FarEnd::Free,
            shape: GradeShape::Uniform,
            string_above_sill: Some(metres(0.0)),
            rod_at_sill: None,
            book: LevelBook::default(),
            shots: Vec::new(),
        },
        pits: Vec::new(),
        bed: BedInput {
            setting_bed: Some(inches(0.75)),
            least_base: Some(inches(4.0)),
            base_material: key("stone"),
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
            stands: EdgeStands::Sailor,
            restraint: RestraintInput::Nothing,
        },
    }
}

/// The walk of the curved sample: 28 ft straight, then 48 degrees at 12 ft to the right, down to a drive 10 in below the sill; what must
/// come out differs along it, so that the lower lifts run only where it is deep.
pub fn curved() -> Site {
    let mut site = plain();
    let curve = LegShape::Curve {
        radius: Some(feet(12.0)),
        turn: Some(Angle::new::<unit::degree>(48.0)),
        hand: Hand::Right,
    };
    site.line.legs = vec![
        straight(feet(28.0)),
        Leg {
            shape: curve,
            width_at_end: None,
        },
    ];
    site.line.width = Some(inches(32.625));
    site.line.fall = None;
    site.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(10.0)),
    };
    site.line.old_below_sill = Some(inches(1.5));
    site.line.string_above_sill = Some(inches(6.0));
    let shot = |station_ft: f64, offset_in: f64, tape_in: f64| Shot {
        station: Some(feet(station_ft)),
        offset: Some(inches(offset_in)),
        by: ShotBy::String,
        reading: Some(inches(tape_in)),
    };
    site.line.shots = vec![
        shot(7.0, -15.0, 10.375),
        shot(7.0, 0.0, 10.0),
        shot(7.0, 15.0, 9.75),
        shot(14.0, 0.0, 12.25),
        shot(21.0, 0.0, 13.125),
        shot(28.0, 0.0, 13.75),
        shot(38.0, 0.0, 16.0),
    ];
    site.pits = vec![
        pit(4.0, 0.0, 8.5),
        pit(14.0, -12.0, 8.0),
        pit(24.0, 12.0, 5.0),
        pit(34.0, 0.0, 1.5),
    ];
    site.edge.restraint = RestraintInput::Haunch {
        height: Some(inches(4.0)),
        width: Some(inches(4.0)),
        top_width: Some(inches(1.0)),
    };
    site
}

/// Through old brick and so much that must come out into gravel.
fn pit(station_ft: f64, offset_in: f64, must_come_out_in: f64) -> Pit {
    let layer = |name: &str, thickness| Layer {
        material: key(name),
        thickness,
        firmness: None,
        moisture: None,
    };
    Pit {
        station: Some(feet(station_ft)),
        offset: Some(inches(offset_in)),
        layers: vec![
            layer("old-brick", Some(inches(2.25))),
            layer("sand", Some(inches(must_come_out_in))),
            layer("gravel", None),
        ],
        seep: None,
        ended: PitEnd::Stopped,
        penetrometer: PenetrometerLog::default(),
    }
}

/// The plain walk with two risers of 6 in, 18 in apart, in the middle, down to 1'-7" at the far end.
pub fn stepped() -> Site {
    let mut site = plain();
    site.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(19.0)),
    };
    site.line.shape = GradeShape::Steps {
        n_risers: 2,
        first_at: Some(feet(14.0)),
        tread: Some(inches(18.0)),
    };
    site
}
