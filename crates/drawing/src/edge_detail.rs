//! The edge drawn large, to scale: edge brick, what holds it, its trench, the form board, and how far the base goes on past it.

use crate::callouts::{self, Band, Callout};
use crate::cross_section::{Cut, points, said};
use crate::dimension::{
    Dimension, Upright, bar_scale, level_chain, upright_chain, upright_chain_on, upright_width,
};
use crate::draft::{Draft, GRADE, HAIRLINE, Lettering, OUTLINE, Sizes, dashed, solid};
use crate::item::{Anchor, Drawing, Point, Sheet};
use crate::material;
use crate::palette::Ink;
use crate::text::Text;
use crate::tongue;
use crate::wording;
use underbrick_calc::Results;
use underbrick_calc::bed::EdgeSlice;
use underbrick_calc::catalogue::{Catalogue, Hatch};
use underbrick_calc::defaults;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, inches, metres, millimetres};
use underbrick_calc::site::{Hand, RestraintInput, ShownIn, Site};

/// Field that is shown beside the edge brick, where the sheet has room for it.
const MOST_FIELD_M: f64 = 0.18;
/// Field without which the edge is not understood.
const LEAST_FIELD_M: f64 = 0.08;
/// Ground that is shown past the side of the dig.
const PAST_DIG_M: f64 = 0.05;
/// Ground that is shown below the bottom of the dig.
const BELOW_DIG_M: f64 = 0.035;
/// From the picture to the first chain beside it, and between two chains, in dots.
const TO_CHAIN: f64 = 16.0;
/// Around everything, in dots.
const MARGIN: f64 = 12.0;
/// Rows of callouts.
const ROWS: usize = 2;
/// From the callouts down to the picture, in dots.
const KNEE: f64 = 20.0;

/// The right edge at `station`, seen looking away from the door, on a sheet of `width` dots and as high as it needs, at `dots_per_metre`.
/// `None` where the readings do not give a bed, or where the sheet is too narrow for that scale.
#[must_use]
pub fn edge_detail(
    site: &Site,
    catalogue: &Catalogue,
    results: &Results,
    station: Length,
    width: f64,
    dots_per_metre: f64,
) -> Option<Drawing> {
    draw(
        &Cut::new(site, catalogue, results, station)?,
        width,
        dots_per_metre,
    )
}

/// Draws the right edge of a cut.
pub(crate) fn draw(cut: &Cut<'_>, width: f64, dots_per_metre: f64) -> Option<Drawing> {
    let [_, edge] = &cut.section.edges;
    let frame = Frame::fit(cut, edge, width, dots_per_metre)?;
    let mut draft = Draft::new(frame.sheet, frame.upper_left(), dots_per_metre, 1.0);
    draft.hatch_origin = Point {
        x: frame.outer_m,
        y: cut.grade_at(frame.outer_m),
    };
    ground(&mut draft, cut, &frame);
    built(&mut draft, cut, edge, &frame);
    break_line(&mut draft, &frame);
    upright_dimensions(&mut draft, cut, &frame);
    level_dimensions(&mut draft, cut, &frame);
    foot(&mut draft, cut, &frame);
    let band = Band {
        left: MARGIN,
        right: frame.sheet.width - MARGIN,
        top: MARGIN - 4.0,
        rows: ROWS,
        knee: frame.top - KNEE + 6.0,
    };
    let callouts = callouts(&draft, cut, edge, &frame);
    callouts::draw(&mut draft, callouts, band);
    Some(draft.finish(&words(cut, &frame)))
}

/// Where things are: the picture in dots of the sheet, its ends and the edge in metres.
struct Frame {
    sheet: Sheet,
    dots_per_metre: f64,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    left_m: f64,
    right_m: f64,
    top_m: f64,
    /// Faces of the edge brick.
    inner_m: f64,
    outer_m: f64,
    /// Lower end of the edge brick, at its outer face.
    foot_m: f64,
    /// Upper end of the haunch, and how far it reaches.
    haunch_m: Option<(f64, f64)>,
    dig_m: f64,
}

impl Frame {
    fn fit(cut: &Cut<'_>, edge: &EdgeSlice, width: f64, dots_per_metre: f64) -> Option<Self> {
        if !(width.is_finite() && dots_per_metre.is_finite() && dots_per_metre > 0.0) {
            return None;
        }
        let (inner_left_m, inner_m) = cut.inner_faces();
        let (_, outer_m) = cut.outer_faces();
        let (_, dig_m) = cut.dig_sides();
        let sheet = Sheet {
            width,
            height: 400.0,
            text_scale: 1.0,
        };
        let sizes = Sizes::on(sheet);
        let haunch_m = edge.haunch.as_ref().map(|haunch| {
            let corners = points(haunch);
            let top = corners.iter().map(|corner| corner.y);
            let out = corners.iter().map(|corner| corner.x);
            (
                top.fold(f64::NEG_INFINITY, f64::max),
                out.fold(outer_m, f64::max),
            )
        });
        let right_m = dig_m.max(haunch_m.map_or(dig_m, |(_, out_m)| out_m)) + PAST_DIG_M;
        let foot_m = cut.grade_at(outer_m) - in_metres(cut.edge_brick.depth);
        let mut frame = Self {
            sheet,
            dots_per_metre,
            left: 0.0,
            right: 0.0,
            top: MARGIN - 4.0 + Band::height(ROWS, sizes) + KNEE,
            bottom: 0.0,
            left_m: inner_m,
            right_m,
            top_m: 0.0,
            inner_m,
            outer_m,
            foot_m,
            haunch_m,
            dig_m,
        };
        let room_left = TO_CHAIN + lines_width(&field_parts(cut, &frame).1, sizes) + MARGIN;
        let chains = edge_chains(cut, &frame);
        let room_right: f64 = MARGIN
            + chains
                .iter()
                .map(|(_, parts)| TO_CHAIN + lines_width(parts, sizes))
                .sum::<f64>();
        let room_m = (width - room_left - room_right) / dots_per_metre;
        let field_m = (room_m - (right_m - inner_m))
            .min(MOST_FIELD_M)
            .min(inner_m - inner_left_m);
        if field_m < LEAST_FIELD_M.min(inner_m - inner_left_m) {
            return None;
        }
        frame.left_m = inner_m - field_m;
        let span = (right_m - frame.left_m) * dots_per_metre;
        // What is left over stands on both sides.
        frame.left = room_left + 0.5 * (width - room_left - room_right - span).max(0.0);
        frame.right = frame.left + span;
        let tops = [frame.left_m, inner_m, outer_m].map(|x| cut.grade_at(x));
        let ground = [dig_m, right_m].map(|x| cut.ground_top_at(x));
        frame.top_m = tops
            .into_iter()
            .chain(ground)
            .fold(f64::NEG_INFINITY, f64::max)
            + 0.01;
        let lowest_m = [frame.left_m, inner_m, outer_m, dig_m]
            .map(|x| cut.dig_bottom_at(x))
            .into_iter()
            .fold(foot_m, f64::min)
            - BELOW_DIG_M;
        frame.bottom = frame.top + (frame.top_m - lowest_m) * dots_per_metre;
        let chains = 2.0 * chain_height(sizes) + 12.0;
        frame.sheet.height = frame.bottom + chains + 40.0 + 1.4 * sizes.note;
        Some(frame)
    }

    fn upper_left(&self) -> Point {
        Point {
            x: self.left_m - self.left / self.dots_per_metre,
            y: self.top_m + self.top / self.dots_per_metre,
        }
    }

    /// Height on the sheet of a level, in dots.
    fn down(&self, level_m: f64) -> f64 {
        self.top + (self.top_m - level_m) * self.dots_per_metre
    }
}

fn chain_height(sizes: Sizes) -> f64 {
    1.18 * sizes.label + 9.0
}

fn lines_width(parts: &[Upright], sizes: Sizes) -> f64 {
    let lines: Vec<Vec<String>> = parts.iter().map(|part| part.lines.clone()).collect();
    upright_width(&lines, sizes)
}

/// Ground beside and under the dig, and what is put back.
fn ground(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let lowest_m = frame.top_m - (frame.bottom - frame.top) / frame.dots_per_metre;
    let at = |x: f64, y: f64| Point { x, y };
    let top = |x: f64| cut.ground_top_at(x).max(cut.dig_bottom_at(x));
    let mut outline = vec![at(frame.left_m, cut.dig_bottom_at(frame.left_m))];
    outline.extend(
        points(&cut.section.dig_bottom)
            .into_iter()
            .filter(|corner| corner.x > frame.left_m),
    );
    let side = at(frame.dig_m, top(frame.dig_m));
    outline.push(side);
    outline.push(at(frame.right_m, top(frame.right_m)));
    outline.push(at(frame.right_m, lowest_m));
    outline.push(at(frame.left_m, lowest_m));
    draft.material(&outline, material::GROUND, None, Some(Place::DigBottom));
    let put_back = [
        at(
            frame.dig_m,
            cut.ground_top_at(frame.dig_m)
                .max(cut.base_top_at(frame.dig_m)),
        ),
        at(frame.outer_m, cut.grade_at(frame.outer_m)),
        at(frame.outer_m, cut.base_top_at(frame.outer_m)),
        at(frame.dig_m, cut.base_top_at(frame.dig_m)),
    ];
    draft.material(
        &put_back,
        material::BACKFILL,
        None,
        Some(Place::SideExtension),
    );
}

/// What is to be built, from the bottom up.
fn built(draft: &mut Draft, cut: &Cut<'_>, edge: &EdgeSlice, frame: &Frame) {
    let left_m = frame.left_m;
    let hatch = material::hatch_of(cut.catalogue, &cut.site.bed.base_material, Hatch::Stone);
    for lift in &cut.section.lifts {
        for each in &lift.outlines {
            let place = Some(Place::Lift(lift.number));
            let pen = Some(solid(Ink::SecondInk, HAIRLINE));
            let outline = right_of(&points(each), left_m);
            draft.material(&outline, material::lift(lift.number, hatch), pen, place);
        }
    }
    let trench = right_of(&points(&edge.trench), left_m);
    let pen = Some(solid(Ink::SecondInk, HAIRLINE));
    draft.material(&trench, material::BACKFILL, pen, Some(Place::Restraint));
    let bed = right_of(&points(&cut.section.setting_bed), left_m);
    let pen = Some(solid(Ink::Ink, HAIRLINE));
    draft.material(&bed, material::SETTING_BED, pen, Some(Place::SettingBed));
    for brick in &cut.section.bricks {
        let brick = right_of(&points(brick), left_m);
        draft.material(&brick, material::BRICK, pen, Some(Place::BrickThickness));
    }
    if let Some(haunch) = &edge.haunch {
        draft.material(
            &points(haunch),
            material::CONCRETE,
            pen,
            Some(Place::Restraint),
        );
    }
    if matches!(cut.site.edge.restraint, RestraintInput::Spiked { .. }) {
        edging(draft, cut, frame);
    }
    let mut form = points(&edge.form);
    form.extend(form.first().copied());
    draft.line(form, dashed(Ink::Ink, OUTLINE), Some(Place::Restraint));
    draft.material(
        &points(&edge.brick),
        material::BRICK,
        Some(solid(Ink::Ink, OUTLINE)),
        Some(Place::EdgeStands),
    );
    let mut dig = vec![Point {
        x: left_m,
        y: cut.dig_bottom_at(left_m),
    }];
    dig.extend(
        points(&cut.section.dig_bottom)
            .into_iter()
            .filter(|corner| corner.x > left_m),
    );
    dig.push(Point {
        x: frame.dig_m,
        y: cut
            .ground_top_at(frame.dig_m)
            .max(cut.dig_bottom_at(frame.dig_m)),
    });
    let pen = if cut.nearest_pit.is_some() {
        solid(Ink::Ink, OUTLINE)
    } else {
        dashed(Ink::NotKnown, OUTLINE + 0.4)
    };
    draft.line(dig, pen, Some(Place::DigBottom));
    if cut.section.fabric && cut.nearest_pit.is_some() {
        fabric(draft, cut, frame);
    }
    let grade = [left_m, frame.outer_m].map(|x| Point {
        x,
        y: cut.grade_at(x),
    });
    draft.line(
        grade.to_vec(),
        dashed(Ink::Line, GRADE),
        Some(Place::GradeLine),
    );
}

/// An edging strip on the base top against the edge brick, with a spike down to the bottom of the dig. Its maker's profile is not known.
fn edging(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    const FOOT_M: f64 = 0.06;
    let outer_m = frame.outer_m + 0.002;
    let stands_m = cut.base_top_at(outer_m);
    let high_m = 0.7 * (cut.grade_at(outer_m) - stands_m);
    let at = |x: f64, y: f64| Point { x, y };
    let place = Some(Place::Restraint);
    let profile = vec![
        at(outer_m, stands_m + high_m),
        at(outer_m, stands_m + 0.002),
        at(outer_m + FOOT_M, stands_m + 0.002),
    ];
    draft.line(profile, solid(Ink::Ink, 3.2), place);
    let spike_m = outer_m + 0.5 * FOOT_M;
    let spike = vec![
        at(spike_m, stands_m + 0.008),
        at(spike_m, cut.dig_bottom_at(spike_m)),
    ];
    draft.line(spike, solid(Ink::Paper, 4.6), None);
    let spike = vec![
        at(spike_m, stands_m + 0.008),
        at(spike_m, cut.dig_bottom_at(spike_m)),
    ];
    draft.line(spike, solid(Ink::Ink, 2.2), place);
}

/// Fabric: a fine wave on the bottom of the dig.
fn fabric(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let end = draft.dots(Point {
        x: frame.dig_m,
        y: 0.0,
    });
    let mut wave = Vec::new();
    let mut x = frame.left + 3.0;
    let mut is_up = true;
    while x < end.0 - 2.0 && wave.len() < 2000 {
        let across_m = draft.point((x, 0.0)).x;
        let y = frame.down(cut.dig_bottom_at(across_m));
        wave.push((x, y - if is_up { 5.0 } else { 1.6 }));
        is_up = !is_up;
        x += 4.5;
    }
    draft.stroke(&wave, solid(Ink::Line, 1.3), Some(Place::Fabric));
}

/// The field goes on to the left.
fn break_line(draft: &mut Draft, frame: &Frame) {
    let middle = f64::midpoint(frame.top, frame.bottom);
    let x = frame.left;
    let through = [
        (x, frame.top - 4.0),
        (x, middle - 12.0),
        (x - 7.0, middle - 5.0),
        (x + 7.0, middle + 5.0),
        (x, middle + 12.0),
        (x, frame.bottom + 4.0),
    ];
    draft.stroke(&through, solid(Ink::Paper, 4.0), None);
    draft.stroke(&through, solid(Ink::Ink, HAIRLINE), None);
}

/// Brick, bed and base at the left end: levels from the top down, and what lies between.
fn field_parts(cut: &Cut<'_>, frame: &Frame) -> (Vec<f64>, Vec<Upright>) {
    let shown_in = cut.site.shown_in;
    let x = frame.left_m;
    let grade = cut.grade_at(x);
    let under_brick = grade - in_metres(cut.unit_thickness);
    let (base_top, bottom) = (cut.base_top_at(x), cut.dig_bottom_at(x));
    let part = |size: Length, name: String, place: Place| Upright {
        lines: vec![shown_in.length(size), name],
        place: Some(place),
    };
    let mut parts = vec![
        part(
            cut.unit_thickness,
            "brick".to_owned(),
            Place::BrickThickness,
        ),
        part(cut.setting_bed, "setting bed".to_owned(), Place::SettingBed),
    ];
    let mut levels = vec![grade, under_brick, base_top];
    if base_top - bottom > 1e-6 {
        let lifts = wording::counted(cut.section.lifts.len(), "lift");
        parts.push(part(
            metres(base_top - bottom),
            format!("in {lifts}"),
            Place::LeastBase,
        ));
        levels.push(bottom);
    }
    (levels, parts)
}

/// The chains beside the edge: the edge brick with what is left below it, and the haunch.
fn edge_chains(cut: &Cut<'_>, frame: &Frame) -> Vec<(Vec<f64>, Vec<Upright>)> {
    let shown_in = cut.site.shown_in;
    let part = |from_m: f64, to_m: f64, name: &str, place: Place| Upright {
        lines: vec![shown_in.length(metres(from_m - to_m)), name.to_owned()],
        place: Some(place),
    };
    let top = cut.grade_at(frame.outer_m);
    let foot = frame.foot_m;
    let bottom = cut.dig_bottom_at(frame.outer_m);
    let mut levels = vec![top, foot];
    let mut parts = vec![part(top, foot, "edge brick", Place::EdgeStands)];
    if foot - bottom > 1e-4 {
        levels.push(bottom);
        parts.push(part(foot, bottom, "below it", Place::DigBottom));
    }
    let mut chains = vec![(levels, parts)];
    if let Some((haunch, _)) = frame.haunch_m {
        let mut levels = vec![haunch, foot];
        let mut parts = vec![part(haunch, foot, "haunch", Place::Restraint)];
        if top - haunch > 1e-4 {
            levels.insert(0, top);
            parts.insert(0, part(top, haunch, "over it", Place::Restraint));
        }
        chains.push((levels, parts));
    }
    chains
}

fn upright_dimensions(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let limits = (frame.top - 4.0, frame.bottom + 4.0);
    let on_sheet =
        |levels: &[f64]| -> Vec<f64> { levels.iter().map(|level| frame.down(*level)).collect() };
    let (levels, parts) = field_parts(cut, frame);
    let (x, from_x) = (frame.left - TO_CHAIN, frame.left - 8.0);
    let stops = on_sheet(&levels);
    upright_chain_on(draft, Hand::Left, &stops, &parts, (x, from_x), limits);
    let mut x = frame.right + TO_CHAIN;
    let mut from_x = frame.right + 6.0;
    for (levels, parts) in edge_chains(cut, frame) {
        upright_chain(draft, &on_sheet(&levels), &parts, x, from_x, limits);
        x += lines_width(&parts, sizes) + TO_CHAIN;
        from_x = x - TO_CHAIN + 6.0;
    }
}

fn level_dimensions(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let shown_in = cut.site.shown_in;
    let x = |across_m: f64| frame.left + (across_m - frame.left_m) * frame.dots_per_metre;
    let limits = (MARGIN, frame.sheet.width - MARGIN);
    let dimension = |from_m: f64, to_m: f64, names: &[&str], place: Place| {
        let size = shown_in.length(metres(to_m - from_m));
        let mut ways: Vec<String> = names.iter().map(|name| format!("{size} {name}")).collect();
        ways.push(size);
        Dimension {
            ways,
            place: Some(place),
        }
    };
    let edge = dimension(frame.inner_m, frame.outer_m, &[], Place::EdgeStands);
    let past = dimension(
        frame.outer_m,
        frame.dig_m,
        &["past the edge brick", "past it"],
        Place::SideExtension,
    );
    let mut y = frame.bottom + 8.0 + chain_height(sizes);
    let from = frame.bottom + 4.0;
    let stops = [x(frame.inner_m), x(frame.outer_m), x(frame.dig_m)];
    level_chain(draft, &stops, &[edge, past], y, from, limits);
    if let Some((_, out_m)) = frame.haunch_m {
        let from = y + 6.0;
        y += chain_height(sizes);
        let haunch = dimension(frame.outer_m, out_m, &["haunch"], Place::Restraint);
        let stops = [x(frame.outer_m), x(out_m)];
        level_chain(draft, &stops, &[haunch], y, from, limits);
    }
}

/// The bar scale at the left, and which edge it is at the right.
fn foot(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let (part, n_parts, end) = match cut.site.shown_in {
        ShownIn::FeetInches => (inches(3.0), 2, "6 in"),
        ShownIn::Metric => (millimetres(50.0), 4, "200 mm"),
    };
    let part_dots = in_metres(part) * frame.dots_per_metre;
    let y = frame.sheet.height - 10.0 - 1.25 * sizes.tick;
    bar_scale(draft, (MARGIN, y), part_dots, n_parts, end);
    let station = cut.site.shown_in.along(cut.section.station);
    let said = format!("right edge at {station}, looking away from the door");
    let lettering = Lettering {
        text: Text::regular(said),
        size: sizes.note,
        ink: Ink::SecondInk,
        anchor: Anchor::Right,
        place: None,
    };
    let at = (
        frame.sheet.width - MARGIN,
        frame.sheet.height - 8.0 - 0.62 * sizes.note,
    );
    draft.label(at, lettering);
}

fn callouts(draft: &Draft, cut: &Cut<'_>, edge: &EdgeSlice, frame: &Frame) -> Vec<Callout> {
    let field = |share: f64| frame.left_m + share * (frame.inner_m - frame.left_m);
    let dots = |x: f64, y: f64| draft.dots(Point { x, y });
    let across = |from: f64, to: f64, level: &dyn Fn(f64) -> f64| {
        vec![
            dots(field(from), level(field(from))),
            dots(field(to), level(field(to))),
        ]
    };
    let middle = |outline: &[Point]| {
        let count = f64::from(u32::try_from(outline.len()).unwrap_or(1).max(1));
        let (x, y) = outline.iter().fold((0.0, 0.0), |(x, y), corner| {
            (x + corner.x / count, y + corner.y / count)
        });
        vec![dots(x, y)]
    };
    let half_brick_m = 0.5 * in_metres(cut.unit_thickness);
    let bed_m = in_metres(cut.unit_thickness + cut.setting_bed * 0.5);
    let half_lift_m = 0.5 * in_metres(cut.lifts.full_compacted);
    let edge_middle_m = f64::midpoint(frame.inner_m, frame.outer_m);
    let restraint = match (&edge.haunch, cut.site.edge.restraint) {
        (Some(haunch), _) => middle(&points(haunch)),
        (None, RestraintInput::Spiked { .. }) => {
            vec![dots(
                frame.outer_m + 0.045,
                cut.base_top_at(frame.outer_m) + 0.002,
            )]
        }
        (None, _) => vec![dots(
            frame.outer_m,
            cut.grade_at(frame.outer_m) - half_brick_m,
        )],
    };
    let form = points(&edge.form);
    let form_top: Vec<(f64, f64)> = form
        .iter()
        .filter(|corner| corner.y > frame.foot_m + 0.01)
        .map(|corner| dots(corner.x, corner.y - 0.006))
        .collect();
    let backfill_m = 0.35 * frame.outer_m + 0.65 * frame.dig_m;
    said_parts(cut, frame)
        .into_iter()
        .map(|said| Callout {
            along: match said.what {
                What::Brick => across(0.06, 0.2, &|x| cut.grade_at(x) - half_brick_m),
                What::SettingBed => across(0.3, 0.45, &|x| cut.grade_at(x) - bed_m),
                What::Lifts => across(0.55, 0.7, &|x| cut.base_top_at(x) - half_lift_m),
                What::Fabric => across(0.78, 0.9, &|x| {
                    cut.dig_bottom_at(x) + 2.5 / frame.dots_per_metre
                }),
                What::EdgeBrick => vec![dots(
                    edge_middle_m,
                    cut.grade_at(edge_middle_m) - 0.55 * in_metres(cut.edge_brick.depth),
                )],
                What::Form => form_top.clone(),
                What::Restraint => restraint.clone(),
                What::Trench => {
                    let corners = points(&edge.trench);
                    let out_m = corners
                        .iter()
                        .map(|corner| corner.x)
                        .fold(f64::NEG_INFINITY, f64::max);
                    let low_m = corners
                        .iter()
                        .map(|corner| corner.y)
                        .fold(f64::INFINITY, f64::min);
                    vec![dots(out_m - 0.006, low_m + 0.012)]
                }
                What::Backfill => vec![dots(
                    backfill_m,
                    0.5 * (cut.grade_at(backfill_m) + cut.base_top_at(backfill_m)),
                )],
                What::Ground => vec![dots(
                    0.4 * frame.dig_m + 0.6 * frame.right_m,
                    0.5 * (cut.grade_at(frame.dig_m) + cut.dig_bottom_at(frame.dig_m)),
                )],
            },
            title: said.title,
            note: said.note,
            ink: said.ink,
            place: Some(said.place),
            rank: said.rank,
            again: true,
        })
        .collect()
}

/// What a callout points at.
#[derive(Clone, Copy, Debug)]
enum What {
    Brick,
    SettingBed,
    Lifts,
    Fabric,
    EdgeBrick,
    Form,
    Restraint,
    Trench,
    Backfill,
    Ground,
}

/// What a callout says.
struct Said {
    what: What,
    title: String,
    note: String,
    place: Place,
    ink: Ink,
    /// 0 is dropped last.
    rank: u8,
}

fn said_parts(cut: &Cut<'_>, frame: &Frame) -> Vec<Said> {
    let written = |length: Length| cut.site.shown_in.length(length);
    let say = |what: What, rank: u8, place: Place, title: &str, note: String| Said {
        what,
        title: title.to_owned(),
        note,
        place,
        ink: Ink::Ink,
        rank,
    };
    let joint = written(cut.site.brick.joint.unwrap_or_else(defaults::joint));
    let thickness = written(cut.unit_thickness);
    let mut all = vec![
        say(
            What::Brick,
            5,
            Place::BrickThickness,
            "brick",
            format!("{thickness} thick, {joint} joints"),
        ),
        say(
            What::SettingBed,
            4,
            Place::SettingBed,
            "setting bed",
            format!("{} compacted", written(cut.setting_bed)),
        ),
    ];
    if !cut.section.lifts.is_empty() {
        let full = cut.lifts.full_compacted;
        let count = wording::counted(cut.section.lifts.len(), "lift");
        all.push(say(
            What::Lifts,
            2,
            Place::LeastBase,
            &format!("{count}, {} at most", written(full)),
            format!(
                "{} loose at most",
                written(full * cut.lifts.loose_to_compacted)
            ),
        ));
    }
    if cut.section.fabric && cut.nearest_pit.is_some() {
        let mut fabric = say(
            What::Fabric,
            6,
            Place::Fabric,
            "fabric",
            "under the base".to_owned(),
        );
        fabric.ink = Ink::Line;
        all.push(fabric);
    }
    all.push(say(
        What::EdgeBrick,
        0,
        Place::EdgeStands,
        wording::edge_name(cut.site.edge.stands),
        format!("{} deep", written(cut.edge_brick.depth)),
    ));
    all.push(say(
        What::Form,
        1,
        Place::Restraint,
        "form board",
        format!("{} from the centreline", written(metres(frame.outer_m))),
    ));
    let (title, note) = said::restraint(cut);
    let mut held = say(What::Restraint, 1, Place::Restraint, title, note);
    if cut.site.edge.restraint == RestraintInput::Nothing {
        held.ink = Ink::NotKnown;
    }
    all.push(held);
    if let Some(deep) = trench_depth(cut, frame) {
        all.push(say(
            What::Trench,
            3,
            Place::Restraint,
            "trench",
            format!("{} below the base top", written(deep)),
        ));
    }
    all.push(say(
        What::Backfill,
        8,
        Place::SideExtension,
        "backfill",
        "beside the edge".to_owned(),
    ));
    all.push(say(
        What::Ground,
        9,
        Place::DigBottom,
        "undisturbed",
        String::new(),
    ));
    all
}

/// How deep the trench of a deep edge brick goes below the base top.
fn trench_depth(cut: &Cut<'_>, frame: &Frame) -> Option<Length> {
    let [_, edge] = &cut.section.edges;
    let deep_m = cut.base_top_at(frame.outer_m) - frame.foot_m;
    (!edge.trench.is_empty() && deep_m > 1e-4).then(|| metres(deep_m))
}

/// Everything that is drawn, one sentence a line.
fn words(cut: &Cut<'_>, frame: &Frame) -> String {
    let written = |length_m: f64| cut.site.shown_in.length(metres(length_m));
    let station = cut.site.shown_in.along(cut.section.station);
    let mut lines = vec![format!(
        "The right edge at {station}, looking away from the door, to scale."
    )];
    lines.push(format!(
        "Edge brick {} across, {} deep, {} past it to the side of the dig.",
        written(frame.outer_m - frame.inner_m),
        written(in_metres(cut.edge_brick.depth)),
        written(frame.dig_m - frame.outer_m),
    ));
    if let Some((top_m, out_m)) = frame.haunch_m {
        lines.push(format!(
            "Its haunch is {} high and {} wide, its upper end {} below the top of the edge brick.",
            written(top_m - frame.foot_m),
            written(out_m - frame.outer_m),
            written(cut.grade_at(frame.outer_m) - top_m),
        ));
    }
    for (_, parts) in std::iter::once(field_parts(cut, frame)).chain(edge_chains(cut, frame)) {
        for part in parts {
            lines.push(format!("{}.", tongue::said_each(part.lines, " ")));
        }
    }
    for said in said_parts(cut, frame) {
        let parts = [said.title, said.note].into_iter();
        let told = tongue::said_each(parts.filter(|part| !part.is_empty()), ": ");
        lines.push(format!("{told}."));
    }
    lines.join("\n")
}

/// The part of an outline right of a line upright through it: each side that crosses it ends there.
///
/// # Source
/// Clipping by one half-plane after Sutherland and Hodgman, Reentrant polygon clipping, 1974.
fn right_of(outline: &[Point], left_m: f64) -> Vec<Point> {
    let mut kept = Vec::new();
    for (from, to) in crate::inside::closed_sides(outline) {
        let crosses = (from.x < left_m) != (to.x < left_m);
        if from.x >= left_m {
            kept.push(from);
        }
        if crosses {
            let share = (left_m - from.x) / (to.x - from.x);
            kept.push(Point {
                x: left_m,
                y: from.y + share * (to.y - from.y),
            });
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clearance::faults;
    use crate::examples::sunk_walk;
    use crate::item::Item;
    use crate::svg;

    /// 1 to 4 on paper of 0.2 mm a dot: 1000 / 4 / 0.2.
    const QUARTER: f64 = 1250.0;

    fn labels(drawing: &Drawing) -> Vec<String> {
        let written = drawing.items.iter().filter_map(|item| match item {
            Item::Label { text, .. } => Some(text.written.clone()),
            Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
        });
        written.collect()
    }

    #[test]
    fn no_label_touches_another_or_a_line() {
        for shown_in in [ShownIn::FeetInches, ShownIn::Metric] {
            for width in [890.0, 919.5, 1200.0] {
                for dots_per_metre in [QUARTER, 1000.0, 625.0, 500.0] {
                    for restraint in [
                        RestraintInput::Haunch {
                            height: None,
                            width: None,
                            top_width: None,
                        },
                        RestraintInput::Spiked { spacing: None },
                        RestraintInput::Nothing,
                    ] {
                        let mut example = sunk_walk(shown_in);
                        example.site.edge.restraint = restraint;
                        if !matches!(restraint, RestraintInput::Haunch { .. }) {
                            for edge in &mut example.section.edges {
                                edge.haunch = None;
                            }
                        }
                        let drawing = draw(&example.cut(), width, dots_per_metre).unwrap();
                        let faults = faults(&drawing);
                        assert!(
                            faults.is_empty(),
                            "{restraint:?} on {width} at {dots_per_metre}:\n{}",
                            faults.join("\n")
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn sizes_are_those_of_the_edge() {
        let drawing = draw(&sunk_walk(ShownIn::FeetInches).cut(), 919.5, QUARTER).unwrap();
        let labels = labels(&drawing);
        // Edge brick 2 1/4 across, 7 5/8 deep: 11 5/16 - 7 5/8 = 3 11/16 are left below it; haunch 4 in high: 3 5/8 over it; base 8 5/16
        // below 3 in of brick and bed; the dig 6 in past the edge; the board's face at 18 9/16; the trench 7 5/8 - 3 = 4 5/8.
        for written in [
            "2 1/4\"",
            "7 5/8\"",
            "3 11/16\"",
            "3 5/8\"",
            "4\"",
            "8 5/16\"",
            "3/4\"",
            "6\" past the edge brick",
            "1'-6 9/16\" from the centreline",
            "4 5/8\" below the base top",
            "4\" haunch",
        ] {
            assert!(
                labels.contains(&written.to_owned()),
                "{written} not in {labels:?}"
            );
        }
    }

    #[test]
    fn the_bar_measures_the_edge_brick() {
        let drawing = draw(&sunk_walk(ShownIn::FeetInches).cut(), 919.5, QUARTER).unwrap();
        let outline = |ink: Ink, place: Option<Place>| {
            drawing
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Area {
                        outline,
                        fill,
                        place: of,
                        ..
                    } if *fill == ink && *of == place => Some(outline.clone()),
                    _ => None,
                })
                .find(|outline| outline.len() == 4)
                .unwrap()
        };
        let wide = |outline: &[Point]| {
            let x: Vec<f64> = outline
                .iter()
                .map(|corner| drawing.sheet_from_drawing(*corner).0)
                .collect();
            x.iter().copied().fold(f64::MIN, f64::max) - x.iter().copied().fold(f64::MAX, f64::min)
        };
        // 3 in of the bar against 2 1/4 in of brick.
        let (bar, brick) = (
            wide(&outline(Ink::Ink, None)),
            wide(&outline(Ink::Clay, Some(Place::EdgeStands))),
        );
        assert!((bar / brick - 3.0 / 2.25).abs() < 1e-9, "{bar} {brick}");
        // 3 in at 1 to 4 are 3/4 in of paper: 19.05 mm, 95.25 dots of 0.2 mm.
        assert!((bar - 95.25).abs() < 1e-9);
    }

    #[test]
    fn every_figure_is_in_the_words() {
        let drawing = draw(&sunk_walk(ShownIn::FeetInches).cut(), 919.5, QUARTER).unwrap();
        for written in labels(&drawing) {
            for part in written.split(|letter: char| letter.is_alphabetic() || letter == ',') {
                let length = part.trim();
                if length.ends_with('"') {
                    assert!(
                        drawing.words.contains(length),
                        "{length} of “{written}” is not in:\n{}",
                        drawing.words
                    );
                }
            }
        }
    }

    #[test]
    fn a_sheet_too_narrow_or_no_bed_gives_none() {
        let example = sunk_walk(ShownIn::Metric);
        for width in [0.0, 300.0, f64::NAN, -1.0] {
            assert!(draw(&example.cut(), width, QUARTER).is_none());
        }
        for dots_per_metre in [0.0, f64::NAN, f64::INFINITY, -4.0] {
            assert!(draw(&example.cut(), 919.5, dots_per_metre).is_none());
        }
        let nothing = edge_detail(
            &example.site,
            &example.catalogue,
            &Results::default(),
            inches(0.0),
            919.5,
            QUARTER,
        );
        assert!(nothing.is_none());
    }

    #[test]
    fn an_outline_is_cut_where_it_crosses() {
        let at = |x: f64, y: f64| Point { x, y };
        // A square of 2 about 0, cut at 0: half of it is left.
        let square = [at(-1.0, 1.0), at(1.0, 1.0), at(1.0, -1.0), at(-1.0, -1.0)];
        let half = right_of(&square, 0.0);
        assert_eq!(
            half,
            [at(0.0, 1.0), at(1.0, 1.0), at(1.0, -1.0), at(0.0, -1.0)]
        );
        assert_eq!(right_of(&square, -2.0), square);
        assert!(right_of(&square, 2.0).is_empty());
    }

    #[test]
    fn it_is_read_by_a_parser() {
        let drawing = draw(&sunk_walk(ShownIn::Metric).cut(), 890.0, 1000.0).unwrap();
        let svg = svg::write(&drawing, crate::palette::Theme::Sun);
        assert!(!svg.contains("NaN"));
        usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
    }
}
