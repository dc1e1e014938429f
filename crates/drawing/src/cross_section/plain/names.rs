//! What the parts of a section are called outside the trade, and why each is there.

use super::super::Cut;
use super::column::Named;
use super::{Part, PlainStep, material_in_plain_words, way};
use crate::cross_section::said;
use crate::item::Point;
use crate::palette::Ink;
use crate::wording::{abs, counted};
use underbrick_calc::defaults;
use underbrick_calc::ground::{LayerFound, PitFound, Verdict};
use underbrick_calc::order::Way;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::{EdgeStands, RestraintInput};

/// A part of a section in plain words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlainName {
    /// What it is: a few words, no trade word among them.
    pub title: String,
    /// How thick, how deep, what becomes of it; may be empty.
    pub note: String,
    /// Why it is there, or why it has to go: one or two sentences.
    pub why: String,
    /// Which part of the drawing it is.
    pub place: Place,
}

/// A name with its place and its note.
fn name(place: Place, title: impl Into<String>, note: impl Into<String>, why: &str) -> PlainName {
    PlainName {
        title: title.into(),
        note: note.into(),
        why: why.to_owned(),
        place,
    }
}

/// A place across the field, as a share of its width.
fn across(cut: &Cut<'_>, share: f64) -> f64 {
    let (left, right) = cut.inner_faces();
    left + share * (right - left)
}

/// Everything in the section as found.
pub(super) fn found(cut: &Cut<'_>) -> Vec<Named> {
    let (_, outer_right) = cut.outer_faces();
    let (_, dig_right) = cut.dig_sides();
    let beside = f64::midpoint(outer_right, dig_right.max(outer_right + 0.1));
    let mut all = vec![Named {
        name: name(
            Place::GradeLine,
            "where the new surface will lie",
            "",
            "The new surface is set from your door sill, so that water runs away from the house.",
        ),
        ink: Ink::Line,
        rank: 1,
        at: Point {
            x: beside,
            y: cut.grade_at(beside),
        },
        since: None,
    }];
    all.push(Named {
        name: surface_name(cut),
        ink: Ink::NotKnown,
        rank: 0,
        at: Point {
            x: across(cut, 0.7),
            y: cut.ground_top_at(across(cut, 0.7)),
        },
        since: None,
    });
    all.extend(layers(cut));
    let Some(pit) = cut.nearest_pit else {
        let x = across(cut, 0.85);
        all.push(Named {
            name: name(
                Place::DigBottom,
                "nobody has dug here yet",
                "what lies under the brick is not known",
                "A small hole beside a lifted brick would show what the walk stands on.",
            ),
            ink: Ink::NotKnown,
            rank: 0,
            at: Point {
                x,
                y: cut.ground_top_at(x) - in_metres(cut.unit_thickness) - 0.05,
            },
            since: None,
        });
        return all;
    };
    if !pit.unsuitable_bottom.found {
        let x = across(cut, 0.85);
        all.push(Named {
            name: name(
                Place::DigBottom,
                "what lies deeper is not known",
                "the hole ended here",
                "The hole stopped in weak ground. How far down that goes shows when the walk is dug out.",
            ),
            ink: Ink::NotKnown,
            rank: 1,
            at: Point {
                x,
                y: cut.ground_top_at(x) - in_metres(pit.top - pit.dug_to) - 0.015,
            },
            since: None,
        });
    }
    if let Some(seep) = pit.seep {
        let x = across(cut, 0.5);
        all.push(Named {
            name: name(
                Place::PitSeep(pit.pit_idx),
                "water came in here",
                format!(
                    "{} down, on the day of the visit",
                    cut.site.shown_in.length(pit.top - seep)
                ),
                "Water that stands in the ground softens it, and pushes the brick up when it freezes.",
            ),
            ink: Ink::Line,
            rank: 2,
            at: Point {
                x,
                y: cut.ground_top_at(x) - in_metres(pit.top - seep),
            },
            since: None,
        });
    }
    all
}

fn surface_name(cut: &Cut<'_>) -> PlainName {
    let title = "the walk as it lies today";
    let why = "What you walk on now.";
    let Some(old) = cut.old_at(0.0) else {
        return name(Place::OldSurface, title, "not measured", why);
    };
    let lower = metres(cut.grade_at(0.0) - old);
    let written = cut.site.shown_in.length(abs(lower));
    let note = if written == cut.site.shown_in.length(Length::default()) {
        "as high as it will be".to_owned()
    } else if in_metres(lower) > 0.0 {
        format!("{written} lower than it will be")
    } else {
        format!("{written} higher than it will be")
    };
    let note = if cut.section.old_surface_known {
        note
    } else {
        format!("{note}, not measured at this place")
    };
    name(Place::OldSurface, title, note, why)
}

/// The layers of the nearest pit: all of them as found; those that stay where the old base is kept.
fn layers(cut: &Cut<'_>) -> Vec<Named> {
    let Some(pit) = cut.nearest_pit else {
        return Vec::new();
    };
    let x = across(cut, 0.85);
    let n_layers = pit.layers.len();
    let layers = pit.layers.iter().enumerate();
    layers
        .map(|(layer_idx, layer)| {
            let down = in_metres(pit.top - layer.top);
            let thick = layer
                .bottom
                .map_or(0.1, |bottom| in_metres(layer.top - bottom));
            Named {
                name: layer_name(cut, pit, layer_idx, layer),
                ink: match layer.verdict {
                    Verdict::ComesOut | Verdict::NotKnown => Ink::NotKnown,
                    Verdict::Lifted | Verdict::Stays => Ink::Ink,
                },
                rank: if layer_idx + 1 == n_layers { 2 } else { 1 },
                at: Point {
                    x,
                    y: cut.ground_top_at(x) - down - 0.5 * thick,
                },
                since: None,
            }
        })
        .collect()
}

fn layer_name(cut: &Cut<'_>, pit: &PitFound, layer_idx: usize, layer: &LayerFound) -> PlainName {
    let title = material_in_plain_words(cut.catalogue, &layer.material);
    let thick = layer.bottom.map_or_else(
        || "goes on down".to_owned(),
        |bottom| format!("{} thick", cut.site.shown_in.length(layer.top - bottom)),
    );
    let keeps_old_base = way(cut) == Way::Relay;
    let (becomes, why) = match layer.verdict {
        Verdict::Lifted if way(cut) == Way::NewBrick => {
            ("taken up and taken away", "New brick is laid in its place.")
        }
        Verdict::Lifted => (
            "taken up, cleaned, laid again",
            "The brick itself is mostly good. What failed is what it lies on.",
        ),
        Verdict::ComesOut if keeps_old_base => (
            "weak, yet it stays this way",
            "It gives under load or holds water. The way that was chosen leaves it where it is.",
        ),
        Verdict::ComesOut => (
            "has to come out",
            "It gives under load or holds water, so that nothing built on it stays level.",
        ),
        Verdict::Stays => ("stays", "It is firm and carries what is built on it."),
        Verdict::NotKnown => (
            "not named: counted as weak",
            "Nobody has said what it is, so it is not trusted.",
        ),
    };
    let place = Place::LayerMaterial(pit.pit_idx, layer_idx);
    name(place, title, format!("{thick}: {becomes}"), why)
}

/// Everything in the section as it will be.
pub(super) fn proposed(cut: &Cut<'_>) -> Vec<Named> {
    let mut all = Vec::new();
    let mut push = |name: PlainName, ink: Ink, rank: u8, since: Option<Part>, at: (f64, f64)| {
        all.push(Named {
            name,
            ink,
            rank,
            at: Point { x: at.0, y: at.1 },
            since,
        });
    };
    let written = |length: Length| cut.site.shown_in.length(length);
    let (inner_right, outer_right) = (cut.inner_faces().1, cut.outer_faces().1);
    let (_, dig_right) = cut.dig_sides();
    let x = across(cut, 0.85);
    let thickness = in_metres(cut.unit_thickness);
    push(
        brick_name(cut),
        Ink::Ink,
        0,
        Some(Part::Brick),
        (across(cut, 0.7), cut.grade_at(x) - thickness / 2.0),
    );
    let middle = f64::midpoint(inner_right, outer_right);
    push(
        edge_name(cut),
        Ink::Ink,
        2,
        Some(Part::Edge),
        (
            middle,
            cut.grade_at(middle) - 0.5 * in_metres(cut.edge_brick.depth),
        ),
    );
    push(
        restraint_name(cut),
        if cut.site.edge.restraint == RestraintInput::Nothing {
            Ink::NotKnown
        } else {
            Ink::Ink
        },
        3,
        Some(Part::Edge),
        restraint_at(cut),
    );
    push(
        name(
            Place::SettingBed,
            "a thin bed of sand",
            format!("{}, drawn off flat", written(cut.setting_bed)),
            "It takes up the small differences between one brick and the next. Thicker, it would settle.",
        ),
        Ink::Ink,
        1,
        Some(Part::SettingBed),
        (x, cut.base_top_at(x) + in_metres(cut.setting_bed) / 2.0),
    );
    if way(cut).digs() {
        if !cut.section.lifts.is_empty() {
            let base = metres(cut.base_top_at(0.0) - cut.dig_bottom_at(0.0));
            push(
                stone_name(cut, base),
                Ink::Ink,
                0,
                Some(Part::Lift(1)),
                (x, f64::midpoint(cut.base_top_at(x), cut.dig_bottom_at(x))),
            );
        }
        if cut.section.fabric {
            push(
                name(
                    Place::Fabric,
                    "a strong cloth",
                    "keeps soil and stone apart",
                    "Without it soft soil works its way up into the stone, and the stone sinks.",
                ),
                Ink::Line,
                4,
                Some(Part::Dug),
                (across(cut, 0.6), cut.dig_bottom_at(across(cut, 0.6))),
            );
        }
        let (title, note, ink) = ground_words(cut);
        push(
            name(
                Place::DigBottom,
                title,
                note,
                "Firm ground that nobody has disturbed carries the walk.",
            ),
            ink,
            2,
            None,
            (x, cut.dig_bottom_at(x) - 0.03),
        );
    } else {
        all.extend(layers(cut).into_iter().filter(|named| {
            cut.nearest_pit.is_none_or(|pit| {
                !pit.layers.iter().enumerate().any(|(layer_idx, layer)| {
                    layer.verdict == Verdict::Lifted
                        && named.name.place == Place::LayerMaterial(pit.pit_idx, layer_idx)
                })
            })
        }));
    }
    if let Some(old) = cut.old_at(dig_right) {
        all.push(Named {
            name: name(
                Place::OldSurface,
                "where the walk lies today",
                "",
                "The dotted line shows how far the walk has moved.",
            ),
            ink: Ink::NotKnown,
            rank: 3,
            at: Point {
                x: dig_right,
                y: old,
            },
            since: None,
        });
    }
    all
}

fn brick_name(cut: &Cut<'_>) -> PlainName {
    let title = match way(cut) {
        Way::NewBrick => "new brick",
        Way::Relay | Way::NewBase => "your brick, laid again",
    };
    let written = |length: Length| cut.site.shown_in.length(length);
    let joint = cut.site.brick.joint.unwrap_or_else(defaults::joint);
    name(
        Place::BrickThickness,
        title,
        format!(
            "{} thick, gaps of {} filled with sand",
            written(cut.unit_thickness),
            written(joint)
        ),
        "The sand in the gaps locks each brick to the next, so that they carry together.",
    )
}

fn edge_name(cut: &Cut<'_>) -> PlainName {
    let title = match cut.site.edge.stands {
        EdgeStands::Sailor | EdgeStands::Soldier => "a row of brick on end",
        EdgeStands::Header | EdgeStands::Stretcher => "a row of brick along the edge",
        EdgeStands::Rowlock => "a row of brick on its side",
    };
    name(
        Place::EdgeStands,
        title,
        format!("{} deep", cut.site.shown_in.length(cut.edge_brick.depth)),
        "It frames the walk on both sides and keeps the brick inside from spreading.",
    )
}

fn restraint_name(cut: &Cut<'_>) -> PlainName {
    let (_, sizes) = said::restraint(cut);
    let why =
        "It keeps the edge from moving outwards, which would open the gaps and let the brick rock.";
    match cut.site.edge.restraint {
        RestraintInput::Haunch { .. } => {
            name(Place::Restraint, "concrete behind the edge", sizes, why)
        }
        RestraintInput::Spiked { .. } => name(Place::Restraint, "a strip, spiked down", sizes, why),
        RestraintInput::Nothing => name(
            Place::Restraint,
            "nothing holds the edge",
            "it may move outwards",
            "Without a hold the edge moves outwards over the years, and the gaps open.",
        ),
    }
}

fn restraint_at(cut: &Cut<'_>) -> (f64, f64) {
    let [_, right] = &cut.section.edges;
    let (_, outer_right) = cut.outer_faces();
    match right.haunch.as_deref() {
        Some(haunch) if !haunch.is_empty() => {
            let count = f64::from(u32::try_from(haunch.len()).unwrap_or(1));
            let sum = |of: &dyn Fn(&underbrick_calc::bed::Spot) -> f64| {
                haunch.iter().map(of).sum::<f64>() / count
            };
            (
                sum(&|spot| in_metres(spot.across)),
                sum(&|spot| in_metres(spot.level)),
            )
        }
        _ => {
            let x = outer_right + 0.01;
            (x, cut.grade_at(x) - 0.8 * in_metres(cut.unit_thickness))
        }
    }
}

fn stone_name(cut: &Cut<'_>, base: Length) -> PlainName {
    let stone = material_in_plain_words(cut.catalogue, &cut.site.bed.base_material);
    let layers = match cut.section.lifts.len() {
        1 => "in 1 layer, packed down by machine".to_owned(),
        count => format!("in {count} layers, each packed down by machine"),
    };
    name(
        Place::LeastBase,
        stone,
        format!("{} {layers}", cut.site.shown_in.length(base)),
        "It spreads the load over the ground. Packed in thin layers it is hard all the way down, and stays so when it is wet.",
    )
}

fn ground_words(cut: &Cut<'_>) -> (&'static str, String, Ink) {
    let Some(pit) = cut.nearest_pit else {
        return (
            "how deep is not known yet",
            "no hole was dug: the least is drawn".to_owned(),
            Ink::NotKnown,
        );
    };
    if let Some(bottom) = cut.section.unsuitable_bottom {
        let bottom_m = in_metres(bottom.level);
        if !bottom.found {
            return (
                "it may have to go deeper",
                "the end of the weak ground was not reached".to_owned(),
                Ink::NotKnown,
            );
        }
        if bottom_m < cut.dig_bottom_at(0.0) - 0.001 {
            return (
                "weak ground that stays",
                format!(
                    "down to {} below the new surface",
                    cut.site
                        .shown_in
                        .length(metres(cut.grade_at(0.0) - bottom_m))
                ),
                Ink::NotKnown,
            );
        }
    }
    let carries = pit
        .layers
        .iter()
        .rev()
        .find(|layer| layer.verdict == Verdict::Stays);
    let note = carries.map_or_else(String::new, |layer| {
        material_in_plain_words(cut.catalogue, &layer.material)
    });
    ("the ground that stays", note, Ink::Ink)
}

/// How the section is built, from the ground up.
pub(super) fn steps(cut: &Cut<'_>) -> Vec<PlainStep> {
    let written = |length: Length| cut.site.shown_in.length(length);
    let step = |part: Part, title: String, words: String| PlainStep { title, words, part };
    let mut steps = Vec::new();
    let brick = match way(cut) {
        Way::NewBrick => "The old brick is taken up and taken away.",
        Way::Relay | Way::NewBase => "Your brick is lifted, cleaned and stacked.",
    };
    if way(cut).digs() {
        let depth = written(metres(cut.grade_at(0.0) - cut.dig_bottom_at(0.0)));
        let cloth = if cut.section.fabric {
            " A strong cloth is laid on the bottom."
        } else {
            ""
        };
        let down_to = if cut.nearest_pit.is_some() {
            format!("The ground under it is dug out to {depth} below the new surface.")
        } else {
            format!("The ground under it is dug out to at least {depth} below the new surface.")
        };
        steps.push(step(
            Part::Dug,
            "Dug out".to_owned(),
            format!("{brick} {down_to}{cloth}"),
        ));
        let stone = material_in_plain_words(cut.catalogue, &cut.site.bed.base_material);
        let count = cut.section.lifts.len();
        for (slice, nth) in cut.section.lifts.iter().zip(1..) {
            let lift = cut
                .lifts
                .each
                .iter()
                .find(|lift| lift.number == slice.number);
            let sizes = lift.map_or_else(String::new, |lift| {
                format!(
                    " up to {} thick, and packed down by machine to {}",
                    written(lift.loose),
                    written(lift.compacted)
                )
            });
            let sentence = format!("Here {stone} is spread{sizes}.");
            let title = format!("Stone, layer {nth} of {count}");
            steps.push(step(Part::Lift(slice.number), title, sentence));
        }
    } else {
        steps.push(step(
            Part::Dug,
            "Brick up".to_owned(),
            format!("{brick} The old sand under it is taken off. What lies below stays as it is."),
        ));
    }
    let edge = edge_name(cut).title;
    let held = match cut.site.edge.restraint {
        RestraintInput::Haunch { .. } => {
            ", and concrete is placed behind it so that it cannot move out."
        }
        RestraintInput::Spiked { .. } => ", and a strip is spiked down behind it to hold it.",
        RestraintInput::Nothing => ". Nothing is put behind it.",
    };
    steps.push(step(
        Part::Edge,
        "The edges".to_owned(),
        format!("Along both sides {edge} is set{held}"),
    ));
    steps.push(step(
        Part::SettingBed,
        "A thin bed of sand".to_owned(),
        format!(
            "{} of sand is drawn off flat, at the slope of the new surface.",
            written(cut.setting_bed)
        ),
    ));
    let whose = match way(cut) {
        Way::NewBrick => "New brick",
        Way::Relay | Way::NewBase => "Your brick",
    };
    steps.push(step(
        Part::Brick,
        "The brick".to_owned(),
        format!(
            "{whose} is laid in {} across, sand is swept into the gaps, and a machine settles it all.",
            counted(cut.section.bricks.len(), "row")
        ),
    ));
    steps
}

/// A section in words, one sentence a line.
pub(super) fn words(cut: &Cut<'_>, title: &str, named: &[Named]) -> String {
    let station = cut.site.shown_in.along(cut.section.station);
    let mut lines = vec![format!(
        "{title}: a cut across the walk {station} from the door, looking away from the door, to scale."
    )];
    if let Some(pit) = cut.nearest_pit {
        lines.push(format!(
            "What lies under the brick is what the hole showed that was dug {} from the door.",
            cut.site.shown_in.along(pit.station)
        ));
    }
    lines.extend(named.iter().map(|named| {
        let PlainName { title, note, .. } = &named.name;
        if note.is_empty() {
            format!("{title}.")
        } else {
            format!("{title}: {note}.")
        }
    }));
    lines.join("\n")
}
