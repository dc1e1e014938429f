//! What the parts of a cross-section are called: the callouts over it.

use super::frame::{Frame, MARGIN};
use super::{Cut, ground, points};
use crate::callouts::{self, Callout};
use crate::draft::{Draft, Sizes, width_of};
use crate::item::{Point, Sheet};
use crate::material;
use crate::palette::Ink;
use crate::text::Text;
use crate::wording;
use underbrick_calc::defaults;
use underbrick_calc::ground::Verdict;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::RestraintInput;

/// Rows of callouts that the cut can fill.
pub(super) fn rows_wanted(cut: &Cut<'_>, sheet: Sheet, sizes: Sizes) -> usize {
    let widths = said(cut).into_iter().map(|said| {
        width_of(&Text::bold(said.title), sizes.label).max(width_of(&Text::regular(said.note), sizes.note)) + 16.0
    });
    if widths.sum::<f64>() <= sheet.width - 2.0 * MARGIN { 1 } else { 2 }
}

/// Width that the names of the pit's layers take at the left of the ground, in dots; 0 where they would take too much.
pub(super) fn layer_names_width(cut: &Cut<'_>, sheet: Sheet, sizes: Sizes) -> f64 {
    let Some(pit) = cut.nearest_pit else { return 0.0 };
    let seep = pit.seep.map(|seep| format!("seep {}", wording::length(pit.top - seep, cut.site.shown_in)));
    let names = pit.layers.iter().map(|layer| ground::layer_name(cut, layer)).chain(seep);
    let widest = names.map(|name| width_of(&Text::regular(name), sizes.note)).fold(0.0, f64::max);
    if widest + 14.0 > 0.24 * sheet.width { 0.0 } else { widest + 14.0 }
}

/// Draws the callouts.
pub(super) fn draw(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let callouts = said(cut).into_iter().map(|said| Callout {
        along: along(said.what, draft, cut, frame),
        title: said.title,
        note: said.note,
        ink: said.ink,
        place: said.place,
        rank: said.rank,
    });
    let callouts = callouts.collect();
    callouts::draw(draft, callouts, frame.callouts);
}

/// What a callout points at.
#[derive(Clone, Copy, Debug)]
enum What {
    GradeLine,
    Pit,
    OldSurface,
    Backfill,
    Form,
    Brick,
    SettingBed,
    Lifts,
    DigBottom,
    Unsuitable,
    Fabric,
    EdgeBrick,
    Restraint,
    Ground,
}

/// What a callout says.
struct Said {
    what: What,
    title: String,
    note: String,
    ink: Ink,
    place: Option<Place>,
    rank: u8,
}

impl Said {
    fn new(what: What, rank: u8, place: Option<Place>, title: impl Into<String>, note: impl Into<String>) -> Self {
        Self { what, title: title.into(), note: note.into(), ink: Ink::Ink, place, rank }
    }

    fn in_ink(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }
}

fn said(cut: &Cut<'_>) -> Vec<Said> {
    let shown_in = cut.site.shown_in;
    let written = |length: Length| wording::length(length, shown_in);
    let mut all = Vec::new();
    let below_sill = wording::below(metres(-cut.grade_at(0.0)), shown_in);
    all.push(Said::new(What::GradeLine, 0, Some(Place::GradeLine), "grade line", format!("{below_sill} the sill here")).in_ink(Ink::Line));
    if let Some(pit) = cut.nearest_pit {
        let ahead = pit.station - cut.section.station;
        let away = wording::station(wording::abs(ahead), shown_in);
        let note = if away == wording::station(Length::default(), shown_in) {
            "here".to_owned()
        } else if in_metres(ahead) < 0.0 {
            format!("{away} nearer the door")
        } else {
            format!("{away} further on")
        };
        all.push(Said::new(What::Pit, 4, Some(Place::Pit(pit.pit_idx)), format!("pit {}", pit.pit_idx + 1), note));
    }
    let joint = written(cut.site.brick.joint.unwrap_or_else(defaults::joint));
    all.push(Said::new(What::Brick, 1, Some(Place::BrickThickness), "brick", format!("{} thick, {joint} joints", written(cut.unit_thickness))));
    all.push(Said::new(What::SettingBed, 3, Some(Place::SettingBed), "setting bed", format!("{} compacted", written(cut.setting_bed))));
    if let Some(top) = cut.section.lifts.last() {
        let full = cut.lifts.full_compacted;
        let title = format!("{}, {} each", wording::counted(cut.section.lifts.len(), "lift"), written(full));
        let note = format!("{} loose each", written(full * cut.lifts.loose_to_compacted));
        all.push(Said::new(What::Lifts, 0, Some(Place::Lift(top.number)), title, note));
    }
    if cut.nearest_pit.is_none() {
        let said = Said::new(What::DigBottom, 2, Some(Place::DigBottom), "no pit: depth not known", "the least base is drawn");
        all.push(said.in_ink(Ink::NotKnown));
    }
    if let Some(bottom) = cut.section.unsuitable_bottom {
        let here = written(metres(cut.grade_at(0.0)) - bottom.level);
        let title = if bottom.found { "must come out to here" } else { "bottom not found" };
        let note = if bottom.found { format!("{here} below the line") } else { format!("at least {here} below the line") };
        all.push(Said::new(What::Unsuitable, 5, Some(Place::DigBottom), title, note).in_ink(Ink::NotKnown));
    }
    if cut.section.fabric && cut.nearest_pit.is_some() {
        all.push(Said::new(What::Fabric, 6, Some(Place::Fabric), "fabric", "under the base").in_ink(Ink::Line));
    }
    let edge = format!("{} deep", written(cut.edge_brick.depth));
    all.push(Said::new(What::EdgeBrick, 2, Some(Place::EdgeStands), wording::edge_name(cut.site.edge.stands), edge));
    all.extend(restraint(cut));
    if let Some(old) = cut.old_at(0.0) {
        let drop = wording::below(metres(cut.grade_at(0.0) - old), shown_in);
        let title = if cut.section.old_surface_known { "as found" } else { "as found, not measured here" };
        all.push(Said::new(What::OldSurface, 4, Some(Place::OldSurface), title, format!("{drop} the line")).in_ink(Ink::NotKnown));
    }
    let carries = cut.nearest_pit.and_then(|pit| pit.layers.iter().rev().find(|layer| layer.verdict == Verdict::Stays));
    let name = carries.map_or("", |layer| material::name_of(cut.catalogue, &layer.material));
    all.push(Said::new(What::Ground, 7, Some(Place::DigBottom), "undisturbed", name));
    all.push(Said::new(What::Backfill, 8, Some(Place::SideExtension), "backfill", "beside the edge"));
    all.push(Said::new(What::Form, 9, Some(Place::Restraint), "form board", "while it is built"));
    all
}

fn restraint(cut: &Cut<'_>) -> Option<Said> {
    let written = |length: Length| wording::length(length, cut.site.shown_in);
    let place = Some(Place::Restraint);
    Some(match cut.site.edge.restraint {
        RestraintInput::Haunch { height, width, .. } => {
            let (height, width) = (height.unwrap_or_else(defaults::haunch_height), width.unwrap_or_else(defaults::haunch_width));
            Said::new(What::Restraint, 5, place, "concrete haunch", format!("{} high, {} wide", written(height), written(width)))
        }
        RestraintInput::Spiked { spacing } => {
            let spacing = written(spacing.unwrap_or_else(defaults::spike_spacing));
            Said::new(What::Restraint, 5, place, "spiked edging", format!("a spike every {spacing}"))
        }
        RestraintInput::Nothing => Said::new(What::Restraint, 5, place, "nothing holds the edge", "").in_ink(Ink::NotKnown),
    })
}

/// Where a callout's leader may end, in dots; nothing where the thing is not in the picture.
fn along(what: What, draft: &Draft, cut: &Cut<'_>, frame: &Frame) -> Vec<(f64, f64)> {
    let dots = |x: f64, y: f64| draft.dots(Point { x, y });
    let (inner_left, inner_right) = cut.inner_faces();
    let (outer_left, outer_right) = cut.outer_faces();
    let (dig_left, dig_right) = cut.dig_sides();
    let edge_left = draft.point((frame.left, 0.0)).x;
    let edge_right = draft.point((frame.right, 0.0)).x;
    let field = |share: f64| inner_left + share * (inner_right - inner_left);
    // Between two offsets, at a height that may change across.
    let between = |from: f64, to: f64, height: &dyn Fn(f64) -> f64| vec![dots(from, height(from)), dots(to, height(to))];
    match what {
        What::GradeLine => {
            let log_right = ground::log_span(frame).1 + 14.0;
            let from = draft.point((if cut.nearest_pit.is_some() { log_right } else { frame.left + 6.0 }, 0.0)).x;
            between(from.min(dig_left), dig_left.max(from), &|x| cut.grade_at(x))
        }
        What::Pit => {
            let Some(pit) = cut.nearest_pit else { return Vec::new() };
            let (left, right) = ground::log_span(frame);
            let hung = ground::hung_by(draft, cut, frame, pit);
            let (_, top) = dots(0.0, in_metres(pit.top) + hung);
            vec![(f64::midpoint(left, right), (top + 5.0).min(frame.bottom))]
        }
        What::OldSurface => between(dig_right + 0.2 * (edge_right - dig_right), edge_right - 0.1 * (edge_right - dig_right), &|x| cut.ground_top_at(x)),
        What::Ground => {
            let level = (cut.ground_top_at(edge_right) + 2.0 * draft.point((0.0, frame.bottom)).y) / 3.0;
            between(dig_right + 0.3 * (edge_right - dig_right), edge_right - 0.25 * (edge_right - dig_right), &|_| level)
        }
        What::Backfill => {
            let middle = 0.35 * dig_left + 0.65 * outer_left;
            vec![dots(middle, 0.6 * cut.grade_at(middle) + 0.4 * cut.base_top_at(middle))]
        }
        What::Form => {
            let [left, _] = &cut.section.edges;
            let form = points(&left.form);
            let count = f64::from(u32::try_from(form.len()).unwrap_or(0));
            if form.is_empty() {
                return Vec::new();
            }
            let x = form.iter().map(|corner| corner.x).sum::<f64>() / count;
            let y = form.iter().map(|corner| corner.y).sum::<f64>() / count;
            vec![dots(x, y)]
        }
        What::Brick => {
            let half = in_metres(cut.unit_thickness) / 2.0;
            between(field(0.05), field(0.25), &|x| cut.grade_at(x) - half)
        }
        What::SettingBed => {
            let down = in_metres(cut.unit_thickness + cut.setting_bed / 2.0);
            between(field(0.28), field(0.42), &|x| cut.grade_at(x) - down)
        }
        What::Lifts => {
            let down = in_metres(cut.lifts.full_compacted) / 2.0;
            between(field(0.46), field(0.64), &|x| cut.base_top_at(x) - down)
        }
        What::DigBottom => between(field(0.68), field(0.9), &|x| cut.dig_bottom_at(x)),
        What::Unsuitable => {
            let Some(bottom) = cut.section.unsuitable_bottom else { return Vec::new() };
            let level = in_metres(bottom.level);
            if dots(0.0, level).1 >= frame.bottom {
                return Vec::new();
            }
            between(field(0.68), field(0.8), &|_| level)
        }
        What::Fabric => between(field(0.84), field(0.95), &|x| cut.dig_bottom_at(x) + 2.5 / frame.dots_per_metre),
        What::EdgeBrick => {
            let middle = f64::midpoint(inner_right, outer_right);
            vec![dots(middle, cut.grade_at(middle) - 0.62 * in_metres(cut.edge_brick.depth))]
        }
        What::Restraint => {
            let [_, right] = &cut.section.edges;
            let bottom = outer_right + 0.004;
            match &right.haunch {
                Some(haunch) => {
                    let haunch = points(haunch);
                    let count = f64::from(u32::try_from(haunch.len()).unwrap_or(1).max(1));
                    let x = haunch.iter().map(|corner| corner.x).sum::<f64>() / count;
                    let y = haunch.iter().map(|corner| corner.y).sum::<f64>() / count;
                    vec![dots(x, y)]
                }
                None => vec![dots(bottom, cut.grade_at(bottom) - 0.9 * in_metres(cut.unit_thickness))],
            }
        }
    }
}
