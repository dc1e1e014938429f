//! Sections made by hand, so that the drawings can be tried by themselves.

use crate::clearance::faults;
use crate::cross_section::{self, Cut, Extent};
use crate::item::{Drawing, Item, Sheet};
use crate::long_section::{self, Bend, Lengthwise};
use crate::palette::{Ink, Theme};
use crate::svg;
use underbrick_calc::Results;
use underbrick_calc::bed::{Along, AlongSpot, LiftBand, EdgeBrick, EdgeSlice, LiftSlice, Lifts, Section, Spot};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::ground::{LayerFound, PitFound, UnsuitableBottom, Verdict};
use underbrick_calc::line::SurfaceLevel;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{Length, in_metres, inches};
use underbrick_calc::site::{
    BedInput, Brick, EdgeInput, EdgeStands, FarEnd, LineInput, MaterialKey, RestraintInput, ShownIn, Site,
};

/// A site with nothing measured.
pub(crate) fn empty_site(shown_in: ShownIn) -> Site {
    Site {
        address: "27 Quarry Lane".to_owned(),
        walk: "front walk".to_owned(),
        shown_in,
        line: LineInput {
            old_below_sill: None,
            first_brick_below_sill: None,
            legs: Vec::new(),
            width: None,
            fall: None,
            cross_fall: None,
            far_end: FarEnd::Free,
            string_above_sill: None,
            rod_at_sill: None,
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
        },
        brick: Brick { length: None, width: None, thickness: None, joint: None },
        edge: EdgeInput {
            stands: EdgeStands::Sailor,
            restraint: RestraintInput::Haunch { height: None, width: None, top_width: None },
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
            edge_brick: EdgeBrick { across: inches(2.25), along: inches(4.0), depth: inches(7.625) },
            nearest_pit: self.pit.as_ref(),
            extent: Extent { half_dig: in_metres(inches(24.5625)), above: in_metres(inches(1.0)), below: in_metres(inches(12.5)) },
        }
    }
}

fn spot(across_in: f64, level_in: f64) -> Spot {
    Spot { across: inches(across_in), level: inches(level_in) }
}

fn box_of(left: f64, right: f64, top: f64, bottom: f64) -> Vec<Spot> {
    vec![spot(left, top), spot(right, top), spot(right, bottom), spot(left, bottom)]
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
            LiftSlice { number, outlines: vec![box_of(-dig, dig, top, top - lift)] }
        })
        .collect();
    let bricks = (0..8)
        .map(|nth| {
            let left = -half + 0.125 + 4.0703 * f64::from(nth);
            box_of(left, left + 3.95, grade, grade - 2.25)
        })
        .collect();
    let side = |sign: f64| {
        let mirror = |spots: Vec<Spot>| spots.into_iter().map(|each| Spot { across: each.across * sign, ..each }).collect::<Vec<_>>();
        let foot = grade - 7.625;
        EdgeSlice {
            brick: mirror(box_of(half, edge, grade, foot)),
            haunch: Some(mirror(vec![spot(edge, foot + 4.0), spot(edge + 4.0, foot), spot(edge, foot)])),
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
        old_surface: vec![spot(-40.0, -2.9), spot(-18.0, -4.4), spot(0.0, -4.9), spot(18.0, -4.1), spot(40.0, -2.8)],
        old_surface_known: true,
        unsuitable_bottom: Some(UnsuitableBottom { level: inches(bottom), found: true }),
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
    Example { site: empty_site(shown_in), catalogue: Catalogue::default(), section, lifts, pit: Some(pit(0, 36.0, -4.5)) }
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
        unsuitable_bottom: UnsuitableBottom { level: inches(top_in - 9.9375), found: true },
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
            bends: self.bends.clone(),
            fall: Fall::inches_per_foot(0.25),
            end_is_fixed: true,
            run_m: in_metres(inches(456.0)),
            marker: self.marker,
        }
    }
}

/// A walk of 38 ft, falling 1/4 in per ft from the sill, with pits at 3 ft and 21 ft and a curve in its second half.
pub(crate) fn curved_run(shown_in: ShownIn, n_pits: usize) -> Run {
    let grade = |station: f64| -station / 48.0;
    let dig = |station: f64| if station < 100.0 { -12.0 - station / 96.0 } else { -13.0 - (station - 100.0) / 60.0 };
    let spots = (0..=38).map(|nth| {
        let station = 12.0 * f64::from(nth);
        let grade = grade(station);
        let old = -2.0 - 1.6 * libm::sin(station / 60.0) * libm::exp(-station / 300.0) - station / 70.0;
        AlongSpot {
            station: inches(station),
            grade: inches(grade),
            brick_bottom: inches(grade - 2.25),
            base_top: inches(grade - 3.0),
            dig_bottom: inches(dig(station)),
            old_surface: Some(SurfaceLevel { level: inches(old), known: nth >= 1 && nth <= 30 }),
            unsuitable_bottom: (n_pits > 0).then(|| UnsuitableBottom { level: inches(dig(station) + 0.4), found: true }),
        }
    });
    let lift = 2.4;
    let lifts = (1..=5).map(|number| {
        let down = lift * f64::from(5 - u8::try_from(number).unwrap());
        let top: Vec<(Length, Length)> = (0..=38)
            .map(|nth| 12.0 * f64::from(nth))
            .map(|station| (inches(station), inches((grade(station) - 3.0 - down).max(dig(station)))))
            .collect();
        let mut outline = top;
        for nth in (0..=38).rev() {
            let station = 12.0 * f64::from(nth);
            outline.push((inches(station), inches((grade(station) - 3.0 - down - lift).max(dig(station)))));
        }
        LiftBand { number, outlines: vec![outline] }
    });
    Run {
        site: empty_site(shown_in),
        catalogue: Catalogue::default(),
        along: Along { offset: Length::default(), spots: spots.collect(), lifts: lifts.collect() },
        pits: [pit(0, 36.0, -3.4), pit(1, 252.0, -5.2)].into_iter().take(n_pits).collect(),
        bends: vec![Bend { leg_idx: 1, from: in_metres(inches(240.0)), to: in_metres(inches(360.0)), to_the_right: false }],
        marker: inches(150.0),
    }
}

/// The sheets that a drawing must stay good on, each with its text size setting.
pub(crate) fn sheets() -> Vec<Sheet> {
    let mut sheets = Vec::new();
    for (width, height) in [(360.0, 260.0), (480.0, 300.0), (620.0, 400.0), (776.0, 360.0), (900.0, 560.0), (1280.0, 500.0), (1600.0, 900.0)] {
        for text_scale in [0.85, 1.0, 1.25, 1.6] {
            sheets.push(Sheet { width, height, text_scale });
        }
    }
    sheets
}

#[track_caller]
fn check_clear(drawing: &Drawing, what: &str) {
    let faults = faults(drawing);
    assert!(faults.is_empty(), "{what} on {:?}:\n{}", drawing.sheet, faults.join("\n"));
}

#[test]
fn no_label_touches_another_or_a_line_on_any_sheet() {
    for shown_in in [ShownIn::FeetInches, ShownIn::Metric] {
        for sheet in sheets() {
            let mut example = sunk_walk(shown_in);
            check_clear(&cross_section::draw(&example.cut(), sheet), "cross-section");
            example.pit = None;
            example.section.unsuitable_bottom = None;
            check_clear(&cross_section::draw(&example.cut(), sheet), "cross-section without a pit");
            for n_pits in 0..=2 {
                let mut run = curved_run(shown_in, n_pits);
                for marker in [0.0, 37.0, 150.0, 301.5, 456.0] {
                    run.marker = inches(marker);
                    check_clear(&long_section::draw(&run.walk(), sheet).drawing, "long section");
                }
            }
        }
    }
}

#[test]
fn every_drawing_is_read_by_a_parser() {
    for sheet in sheets() {
        for theme in [Theme::Sun, Theme::Dim] {
            let cross = cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet);
            let long = long_section::draw(&curved_run(ShownIn::Metric, 2).walk(), sheet).drawing;
            for drawing in [cross, long] {
                let svg = svg::write(&drawing, theme);
                assert_eq!(svg, svg::write(&drawing, theme));
                let tree = usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
                assert!((f64::from(tree.size().width()) - sheet.width).abs() < 0.01);
                assert!(!svg.contains("NaN") && !svg.contains("inf"));
            }
        }
    }
}

/// Ends of every line in a drawing, in dots.
fn strokes(drawing: &Drawing) -> Vec<((f64, f64), (f64, f64))> {
    let lines = drawing.items.iter().filter_map(|item| match item {
        Item::Line { points, .. } => Some(points),
        Item::Area { .. } | Item::Hatch { .. } | Item::Label { .. } => None,
    });
    let pairs = lines.flat_map(|points| points.windows(2));
    pairs.map(|pair| (drawing.sheet_from_drawing(pair[0]), drawing.sheet_from_drawing(pair[1]))).collect()
}

fn labels(drawing: &Drawing) -> Vec<String> {
    let written = drawing.items.iter().filter_map(|item| match item {
        Item::Label { text, .. } => Some(text.written.clone()),
        Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
    });
    written.collect()
}

#[test]
fn a_foot_of_the_bar_is_a_foot_of_the_section() {
    // The clear width of 32 5/8 in against a bar of 1 ft in four parts: the bar's black parts are areas of ink.
    let sheet = Sheet { width: 776.0, height: 380.0, text_scale: 1.0 };
    let drawing = cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet);
    assert!(labels(&drawing).contains(&"1 ft".to_owned()));
    let parts = drawing.items.iter().filter_map(|item| match item {
        Item::Area { outline, fill: Ink::Ink, pen: Some(_), .. } if outline.len() == 4 => Some(outline),
        _ => None,
    });
    let part_dots = parts.map(|outline| (outline[1].x - outline[0].x) * drawing.dots_per_metre).next().unwrap();
    // In the SVG itself: dots between the inner faces of the edge brick, 2 x 16 5/16 in apart.
    let svg = svg::write(&drawing, Theme::Sun);
    let clear_dots = 4.0 * part_dots * 32.625 / 12.0;
    let chain = strokes(&drawing).into_iter().any(|(from, to)| {
        // The dimension line runs 6 dots past its stops at each end.
        from.1 == to.1 && ((to.0 - from.0).abs() - 12.0 - clear_dots).abs() < 1e-6
    });
    assert!(chain, "no dimension line of {clear_dots} dots");
    assert!(svg.contains("<title>Cross-section at 12'-6"));
}

#[test]
fn dimensions_say_what_the_writer_of_lengths_writes() {
    use underbrick_calc::measure::written::{LengthStyle, Nearest, write_length};
    let sheet = Sheet { width: 1280.0, height: 700.0, text_scale: 1.0 };
    for (shown_in, style) in
        [(ShownIn::FeetInches, LengthStyle::FeetInches(Nearest::Sixteenth)), (ShownIn::Metric, LengthStyle::Millimetres)]
    {
        let drawing = cross_section::draw(&sunk_walk(shown_in).cut(), sheet);
        let labels = labels(&drawing);
        // 3 in of brick and bed, 8 5/16 in of base, 11 5/16 in deep, 6 in past the edge.
        for inches_long in [3.0, 8.3125, 11.3125, 6.0] {
            let written = write_length(inches(inches_long), style);
            assert!(labels.contains(&written), "{written} not in {labels:?}");
        }
        // 2 x 16 5/16 in clear, 2 x 18 9/16 in over the edge brick, 2 x 24 9/16 in of dig.
        for (inches_long, what) in [(32.625, "clear, 8 bricks"), (37.125, "over the edge brick"), (49.125, "wide dig")] {
            let written = format!("{} {what}", write_length(inches(inches_long), style));
            assert!(labels.contains(&written), "{written} not in {labels:?}");
        }
    }
}

#[test]
fn the_marker_stands_where_the_finger_is() {
    for sheet in sheets() {
        let mut run = curved_run(ShownIn::FeetInches, 2);
        for marker in [0.0, 100.0, 456.0] {
            run.marker = inches(marker);
            let long = long_section::draw(&run.walk(), sheet);
            let (x, _) = long.drawing.sheet_from_drawing(crate::item::Point { x: in_metres(inches(marker)), y: 0.0 });
            let back = long.station_at(x).unwrap();
            assert!((in_metres(back) - in_metres(inches(marker))).abs() < 1e-9);
            assert!(x - 20.0 >= 0.0 && x + 20.0 <= sheet.width, "the handle is 40 dots wide");
        }
        let long = long_section::draw(&run.walk(), sheet);
        assert_eq!(long.station_at(-50.0), Some(Length::default()));
        assert!((in_metres(long.station_at(1e6).unwrap()) - in_metres(inches(456.0))).abs() < 1e-12);
        assert_eq!(long.station_at(f64::NAN), None);
    }
}

#[test]
fn heights_are_enlarged_by_what_is_said() {
    let sheet = Sheet { width: 776.0, height: 360.0, text_scale: 1.0 };
    let drawing = long_section::draw(&curved_run(ShownIn::FeetInches, 2).walk(), sheet).drawing;
    let said = labels(&drawing).into_iter().find(|written| written.starts_with("heights")).unwrap();
    assert!(said.starts_with(&format!("heights × {}", drawing.heights_times)), "{said}");
    // The grade line falls 9 1/2 in over 38 ft: on paper it is as many times as steep as is said.
    let grade = drawing.items.iter().find_map(|item| match item {
        Item::Line { points, place: Some(underbrick_calc::place::Place::GradeLine), pen } if pen.width > 2.0 => Some(points.clone()),
        _ => None,
    });
    let (from, to) = (grade.as_ref().unwrap()[0], *grade.as_ref().unwrap().last().unwrap());
    let steepness = (from.y - to.y) / (to.x - from.x);
    assert!((steepness - drawing.heights_times * 9.5 / 456.0).abs() < 1e-9);
}

#[test]
fn what_is_missing_is_said_and_never_drawn_as_zero() {
    let site = empty_site(ShownIn::FeetInches);
    for sheet in sheets() {
        let cross = cross_section::cross_section(&site, &Catalogue::default(), &Results::default(), inches(0.0), sheet);
        let long = long_section::long_section(&site, &Catalogue::default(), &Results::default(), inches(0.0), sheet);
        assert_eq!(long.run_length, None);
        assert_eq!(long.station_at(100.0), None);
        for drawing in [&cross, &long.drawing] {
            check_clear(drawing, "missing");
            assert!(drawing.words.contains("the clear width is not measured"), "{}", drawing.words);
            let labels = labels(drawing);
            assert!(labels.join(" ").contains("not known yet"), "{labels:?}");
            assert!(!labels.iter().any(|written| written.contains('0')), "{labels:?}");
        }
    }
    let sheet = Sheet { width: 900.0, height: 500.0, text_scale: 1.0 };
    let drawing = long_section::draw(&curved_run(ShownIn::FeetInches, 0).walk(), sheet).drawing;
    assert!(labels(&drawing).contains(&"no pit: depth not known".to_owned()));
    let is_dashed = |item: &Item| {
        matches!(item, Item::Line { pen, place: Some(underbrick_calc::place::Place::DigBottom), .. } if pen.dash == crate::item::Dash::Dashed)
    };
    assert!(drawing.items.iter().any(is_dashed));
}

#[test]
fn write_pictures() {
    let Ok(folder) = std::env::var("DRAW_TO") else { return };
    let write = |name: &str, drawing: &Drawing, theme: Theme| {
        let Sheet { width, height, text_scale } = drawing.sheet;
        std::fs::write(format!("{folder}/{name}-{width}x{height}-{text_scale}.svg"), svg::write(drawing, theme)).unwrap();
    };
    for (width, height, text_scale) in [(776.0, 360.0, 1.0), (776.0, 380.0, 1.0), (360.0, 260.0, 1.0), (1600.0, 900.0, 1.0), (776.0, 420.0, 1.6), (600.0, 400.0, 0.85)] {
        let sheet = Sheet { width, height, text_scale };
        write("cross", &cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet), Theme::Sun);
        write("cross-metric-dim", &cross_section::draw(&sunk_walk(ShownIn::Metric).cut(), sheet), Theme::Dim);
        write("long", &long_section::draw(&curved_run(ShownIn::FeetInches, 2).walk(), sheet).drawing, Theme::Sun);
        write("long-metric-dim", &long_section::draw(&curved_run(ShownIn::Metric, 0).walk(), sheet).drawing, Theme::Dim);
        let site = empty_site(ShownIn::FeetInches);
        write("missing", &cross_section::cross_section(&site, &Catalogue::default(), &Results::default(), inches(0.0), sheet), Theme::Sun);
    }
}
