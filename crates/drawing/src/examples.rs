//! Sections made by hand, so that the drawings can be tried by themselves.

use crate::cross_section::{Cut, Extent};
use crate::long_section::{Bend, Lengthwise};
use underbrick_calc::bed::{
    Along, AlongSpot, EdgeBrick, EdgeSlice, LiftBand, LiftSlice, Lifts, Section, Spot,
};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::ground::{LayerFound, PitFound, UnsuitableBottom, Verdict};
use underbrick_calc::line::SurfaceLevel;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{Length, in_metres, inches};
use underbrick_calc::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, LevelBook, LineInput, MaterialKey,
    RestraintInput, ShownIn, Site,
};

/// A site with nothing measured.
pub(crate) fn empty_site(shown_in: ShownIn) -> Site {
    Site {
        address: "27 Quarry Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in,
        signs: Vec::new(),
        line: LineInput {
            old_below_sill: None,
            first_brick_below_sill: None,
            legs: Vec::new(),
            width: None,
            fall: None,
            cross_fall: None,
            far_end: FarEnd::Free,
            shape: underbrick_calc::site::GradeShape::Uniform,
            string_above_sill: None,
            rod_at_sill: None,
            book: LevelBook::default(),
            shots: Vec::new(),
        },
        pits: Vec::new(),
        bed: BedInput {
            setting_bed: None,
            least_base: None,
            base_material: MaterialKey("crushed stone".to_owned()),
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

/// Everything that a cut borrows.
pub(crate) struct Example {
    pub site: Site,
    pub catalogue: Catalogue,
    pub section: Section,
    pub lifts: Lifts,
    pub pit: Option<PitFound>,
}

impl Example {
    pub fn cut(&self) -> Cut<'_> {
        Cut {
            site: &self.site,
            catalogue: &self.catalogue,
            section: self.section.clone(),
            unit_thickness: inches(2.25),
            setting_bed: inches(0.75),
            lifts: &self.lifts,
            edge_brick: EdgeBrick {
                across: inches(2.25),
                along: inches(4.0),
                depth: inches(7.625),
            },
            nearest_pit: self.pit.as_ref(),
            spotted: Vec::new(),
            extent: Extent {
                half_dig: in_metres(inches(24.5625)),
                above: in_metres(inches(1.0)),
                below: in_metres(inches(12.5)),
            },
        }
    }
}

fn spot(across_in: f64, level_in: f64) -> Spot {
    Spot {
        across: inches(across_in),
        level: inches(level_in),
    }
}

fn box_of(left: f64, right: f64, top: f64, bottom: f64) -> Vec<Spot> {
    vec![
        spot(left, top),
        spot(right, top),
        spot(right, bottom),
        spot(left, bottom),
    ]
}

/// A walk of eight bricks between sailors, 8 5/16 in of base in four lifts, sunk by an inch; grade 3 1/8 in below the sill.
pub(crate) fn sunk_walk(shown_in: ShownIn) -> Example {
    let grade = -3.125;
    let (half, edge, dig) = (16.3125, 18.5625, 24.5625);
    let base_top = grade - 3.0;
    let lift = 8.3125 / 4.0;
    let bottom = base_top - 8.3125;
    let lifts = (1..=4)
        .map(|number| {
            let top = bottom + lift * f64::from(u8::try_from(number).unwrap());
            LiftSlice {
                number,
                outlines: vec![box_of(-dig, dig, top, top - lift)],
            }
        })
        .collect();
    let bricks = (0..8)
        .map(|nth| {
            let left = -half + 0.125 + 4.0703 * f64::from(nth);
            box_of(left, left + 3.95, grade, grade - 2.25)
        })
        .collect();
    let side = |sign: f64| {
        let mirror = |spots: Vec<Spot>| {
            spots
                .into_iter()
                .map(|each| Spot {
                    across: each.across * sign,
                    ..each
                })
                .collect::<Vec<_>>()
        };
        let foot = grade - 7.625;
        EdgeSlice {
            brick: mirror(box_of(half, edge, grade, foot)),
            haunch: Some(mirror(vec![
                spot(edge, foot + 4.0),
                spot(edge + 4.0, foot),
                spot(edge, foot),
            ])),
            trench: mirror(box_of(half, edge + 4.0, base_top, foot)),
            form: mirror(box_of(edge, edge + 1.5, grade, grade - 5.5)),
        }
    };
    let section = Section {
        station: inches(150.0),
        clear_width: inches(2.0 * half),
        grade: vec![spot(-edge, grade), spot(edge, grade)],
        bricks,
        setting_bed: box_of(-half, half, grade - 2.25, base_top),
        base_top: vec![spot(-dig, base_top), spot(dig, base_top)],
        lifts,
        dig_bottom: vec![spot(-dig, bottom), spot(dig, bottom)],
        old_surface: vec![
            spot(-40.0, -2.9),
            spot(-18.0, -4.4),
            spot(0.0, -4.9),
            spot(18.0, -4.1),
            spot(40.0, -2.8),
        ],
        old_surface_known: true,
        unsuitable_bottom: Some(UnsuitableBottom {
            level: inches(bottom),
            found: true,
        }),
        edges: [side(-1.0), side(1.0)],
        fabric: true,
    };
    let lifts = Lifts {
        each: Vec::new(),
        full_compacted: inches(lift),
        compacted_limit: inches(2.4),
        loose_limit: inches(3.0),
        loose_to_compacted: 1.25,
        thinnest_partial: inches(1.1),
    };
    Example {
        site: empty_site(shown_in),
        catalogue: Catalogue::default(),
        section,
        lifts,
        pit: Some(pit(0, 36.0, -4.5)),
    }
}

/// A pit with old brick on sand over loam over clay, its top at a level; both in inches.
pub(crate) fn pit(pit_idx: usize, station_in: f64, top_in: f64) -> PitFound {
    let layer = |top: f64, bottom: Option<f64>, material: &str, verdict| LayerFound {
        top: inches(top_in - top),
        bottom: bottom.map(|bottom| inches(top_in - bottom)),
        material: MaterialKey(material.to_owned()),
        verdict,
    };
    PitFound {
        pit_idx,
        station: inches(station_in),
        offset: Length::default(),
        top: inches(top_in),
        layers: vec![
            layer(0.0, Some(2.25), "old brick", Verdict::Lifted),
            layer(2.25, Some(5.0), "sand", Verdict::ComesOut),
            layer(5.0, Some(9.9375), "loam", Verdict::ComesOut),
            layer(9.9375, None, "stiff clay", Verdict::Stays),
        ],
        dug_to: inches(top_in - 14.0),
        unsuitable_bottom: UnsuitableBottom {
            level: inches(top_in - 9.9375),
            found: true,
        },
        seep: Some(inches(top_in - 12.0)),
    }
}

/// What a long section borrows.
pub(crate) struct Run {
    pub site: Site,
    pub catalogue: Catalogue,
    pub along: Along,
    pub pits: Vec<PitFound>,
    pub bends: Vec<Bend>,
    pub marker: Length,
}

impl Run {
    pub fn walk(&self) -> Lengthwise<'_> {
        Lengthwise {
            site: &self.site,
            catalogue: &self.catalogue,
            along: self.along.clone(),
            pits: &self.pits,
            penetrometers: &[],
            causes: &[],
            bends: self.bends.clone(),
            fall: Fall::inches_per_foot(0.25),
            risers: Vec::new(),
            end_is_fixed: true,
            frost: None,
            run_m: in_metres(inches(456.0)),
            marker: self.marker,
        }
    }
}

/// A walk of 38 ft, falling 1/4 in per ft from the sill, with pits at 3 ft and 21 ft and a curve in its second half.
pub(crate) fn curved_run(shown_in: ShownIn, n_pits: usize) -> Run {
    let grade = |station: f64| -station / 48.0;
    let dig = |station: f64| {
        if station < 100.0 {
            -12.0 - station / 96.0
        } else {
            -13.0 - (station - 100.0) / 60.0
        }
    };
    let spots = (0..=38).map(|nth| {
        let station = 12.0 * f64::from(nth);
        let grade = grade(station);
        let old =
            -2.0 - 1.6 * libm::sin(station / 60.0) * libm::exp(-station / 300.0) - station / 70.0;
        AlongSpot {
            station: inches(station),
            grade: inches(grade),
            brick_bottom: inches(grade - 2.25),
            base_top: inches(grade - 3.0),
            dig_bottom: inches(dig(station)),
            old_surface: Some(SurfaceLevel {
                level: inches(old),
                known: (1..=30).contains(&nth),
            }),
            unsuitable_bottom: (n_pits > 0).then(|| UnsuitableBottom {
                level: inches(dig(station) + 0.4),
                found: true,
            }),
        }
    });
    let lift = 2.4;
    let lifts = (1..=5).map(|number| {
        let down = lift * f64::from(5 - u8::try_from(number).unwrap());
        let top: Vec<(Length, Length)> = (0..=38)
            .map(|nth| 12.0 * f64::from(nth))
            .map(|station| {
                (
                    inches(station),
                    inches((grade(station) - 3.0 - down).max(dig(station))),
                )
            })
            .collect();
        let mut outline = top;
        for nth in (0..=38).rev() {
            let station = 12.0 * f64::from(nth);
            outline.push((
                inches(station),
                inches((grade(station) - 3.0 - down - lift).max(dig(station))),
            ));
        }
        LiftBand {
            number,
            outlines: vec![outline],
        }
    });
    Run {
        site: empty_site(shown_in),
        catalogue: Catalogue::default(),
        along: Along {
            offset: Length::default(),
            spots: spots.collect(),
            lifts: lifts.collect(),
        },
        pits: [pit(0, 36.0, -3.4), pit(1, 252.0, -5.2)]
            .into_iter()
            .take(n_pits)
            .collect(),
        bends: vec![Bend {
            leg_idx: 1,
            from: in_metres(inches(240.0)),
            to: in_metres(inches(360.0)),
            to_the_right: false,
        }],
        marker: inches(150.0),
    }
}
