//! Stop Bed: from brick to undisturbed ground, and what follows for lifts and quantities.

use underbrick_calc::bed::{Bed, Restraint};
use underbrick_calc::build::Plant;
use underbrick_calc::lay::Lay;
use underbrick_calc::place::Place;
use underbrick_calc::site::{EdgeStands, Hand, RestraintInput, ShownIn};

use super::{Stop, figure, findings, heading, value};
use underbrick_sheets::cautions::cautions_in;
use underbrick_words::Words;

use crate::edit::{Edit, RestraintKind};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit) -> Vec<Row> {
    let site = visit.site();
    let mut rows: Vec<Row> = [
        Place::SettingBed,
        Place::LeastBase,
        Place::BaseMaterial,
        Place::LooseLift,
        Place::SideExtension,
        Place::UndercutLimit,
    ]
    .into_iter()
    .map(|place| value(visit, place, &super::thickness::note(visit, place)))
    .collect();
    let plant = |words: &str, plant: Plant| {
        let is_chosen = site.bed.plant == plant;
        (words.to_owned(), Edit::Plant(plant), is_chosen)
    };
    rows.push(Row::Choice {
        label: "The base is compacted by a".to_owned(),
        options: vec![
            plant("plate", Plant::Plate),
            plant("heavier plate", Plant::HeavyPlate),
            plant("not known", Plant::NotKnown),
        ],
    });
    rows.push(Row::Choice {
        label: "or by a".to_owned(),
        options: vec![
            plant("tamper", Plant::Tamper),
            plant("25 kg tamper", Plant::LightTamper),
            plant("twin roller", Plant::Roller),
        ],
    });
    rows.push(Row::Choice {
        label: "Fabric on the undisturbed ground".to_owned(),
        options: vec![
            ("none".to_owned(), Edit::Fabric(false), !site.bed.fabric),
            ("laid".to_owned(), Edit::Fabric(true), site.bed.fabric),
        ],
    });
    if let Some(bed) = &visit.results().bed {
        super::thickness::rows(visit, bed, &mut rows);
    }
    edge_rows(visit, &mut rows);
    if let Some(bed) = &visit.results().bed {
        lift_rows(bed, site.shown_in, &mut rows);
        quantity_rows(bed, visit.results().lay.as_ref(), site.shown_in, &mut rows);
    }
    rows.extend(findings(visit, Stop::Bed));
    rows.push(heading("Before digging and while building", ""));
    let words = Words::of(site.show.crew_reads);
    rows.extend(cautions_in(site, words).into_iter().map(|text| Row::Said {
        mark: Mark::Note,
        text,
        under: String::new(),
    }));
    rows
}

fn edge_rows(visit: &Visit, rows: &mut Vec<Row>) {
    let site = visit.site();
    let bed = visit.results().bed.as_ref();
    let note = bed.map_or_else(String::new, |bed| {
        format!("{} deep", site.shown_in.thickness(bed.edge.brick.depth))
    });
    rows.push(heading("Edge brick", note));
    rows.push(Row::Choice {
        label: "It stands as a".to_owned(),
        options: [
            ("sailor", EdgeStands::Sailor),
            ("soldier", EdgeStands::Soldier),
            ("header", EdgeStands::Header),
            ("stretcher", EdgeStands::Stretcher),
            ("rowlock", EdgeStands::Rowlock),
        ]
        .map(|(word, stands)| {
            (
                word.to_owned(),
                Edit::EdgeStands(stands),
                site.edge.stands == stands,
            )
        })
        .to_vec(),
    });
    let restraint = site.edge.restraint;
    rows.push(Row::Choice {
        label: "It is held by".to_owned(),
        options: vec![
            (
                "concrete haunch".to_owned(),
                Edit::Restraint(RestraintKind::Haunch),
                matches!(restraint, RestraintInput::Haunch { .. }),
            ),
            (
                "spiked edging".to_owned(),
                Edit::Restraint(RestraintKind::Spiked),
                matches!(restraint, RestraintInput::Spiked { .. }),
            ),
            (
                "nothing".to_owned(),
                Edit::Restraint(RestraintKind::Nothing),
                matches!(restraint, RestraintInput::Nothing),
            ),
        ],
    });
    for place in [
        Place::HaunchHeight,
        Place::HaunchWidth,
        Place::HaunchTopWidth,
        Place::SpikeSpacing,
    ] {
        if visit.record().text(place).is_some() {
            rows.push(value(visit, place, ""));
        }
    }
}

fn lift_rows(bed: &Bed, shown_in: ShownIn, rows: &mut Vec<Row>) {
    let small = |length| shown_in.thickness(length);
    let lifts = &bed.lifts;
    rows.push(heading(
        "Lifts, from the bottom",
        format!("at most {} loose", small(lifts.loose_limit)),
    ));
    for lift in &lifts.each {
        let runs = lift
            .runs
            .iter()
            .map(|(from, to)| format!("{} to {}", shown_in.along(*from), shown_in.along(*to)))
            .collect::<Vec<_>>()
            .join(", ");
        rows.push(figure(
            format!(
                "Lift {}, {} below the string",
                lift.number,
                small(lift.top_below_grade)
            ),
            format!("{} loose", small(lift.loose)),
            format!("{} compacted, {runs}", small(lift.compacted)),
        ));
    }
    rows.push(figure(
        "Base top below the string",
        small(bed.base_top_below_grade),
        format!(
            "{} brick on a {} bed",
            small(bed.unit_thickness),
            small(bed.setting_bed)
        ),
    ));
    let range = if bed.thickest_base == bed.thinnest_base {
        small(bed.thickest_base)
    } else {
        format!(
            "{} to {}",
            small(bed.thinnest_base),
            small(bed.thickest_base)
        )
    };
    rows.push(figure(
        "Base, compacted",
        range,
        format!("asked for: {} at least", small(bed.least_base)),
    ));
}

fn quantity_rows(bed: &Bed, lay: Option<&Lay>, shown_in: ShownIn, rows: &mut Vec<Row>) {
    let earth = &bed.earthwork;
    let note = if earth.is_least {
        "at least: a bottom or a level is not known"
    } else {
        "exact for the readings"
    };
    rows.push(heading("Quantities", note));
    rows.push(figure(
        "Base, to be delivered loose",
        shown_in.volume(earth.base_loose),
        format!(
            "{} compacted, {}",
            shown_in.volume(earth.base_compacted),
            shown_in.mass(earth.base_mass)
        ),
    ));
    rows.push(figure(
        "Setting bed, compacted",
        shown_in.volume(earth.setting_bed_compacted),
        "screeded between the edges",
    ));
    match &earth.dig_bank {
        Some(dug) => {
            rows.push(figure(
                "Old brick lifted",
                shown_in.volume(dug.old_pavement),
                "in place",
            ));
            rows.push(figure(
                "Ground that must come out",
                shown_in.volume(dug.unsuitable),
                "in place",
            ));
            rows.push(figure(
                "Good ground trimmed",
                shown_in.volume(dug.trim),
                "in place",
            ));
            rows.push(figure(
                "Spoil to take away",
                shown_in.volume(dug.spoil_loose),
                format!("loose, {}", shown_in.mass(dug.spoil_mass)),
            ));
        }
        None => rows.push(figure(
            "Digging",
            "not known",
            "no reading of the old surface",
        )),
    }
    let edge = &bed.edge;
    // As laid, where it could be: on a tight curve whole brick gives way to halves.
    let laid = |hand| Some(lay?.n_on_edge(hand)?.to_string());
    let n_left = laid(Hand::Left).unwrap_or_else(|| edge.left.n_bricks.to_string());
    let n_right = laid(Hand::Right).unwrap_or_else(|| edge.right.n_bricks.to_string());
    rows.push(figure(
        "Edge brick",
        format!("{n_left} left, {n_right} right"),
        format!(
            "widest joint {}",
            shown_in.thickness(edge.left.widest_joint.max(edge.right.widest_joint))
        ),
    ));
    match edge.restraint {
        Restraint::Haunch {
            concrete,
            n_bags_80_lb,
        } => {
            rows.push(figure(
                "Haunch concrete",
                shown_in.volume(concrete),
                format!("{n_bags_80_lb} bags of 80 lb, both sides"),
            ));
        }
        Restraint::Spiked { strip, n_spikes } => rows.push(figure(
            "Edging strip",
            shown_in.along(strip),
            format!("{n_spikes} spikes, both sides"),
        )),
        Restraint::Nothing => {}
    }
    let forms = edge.forms;
    rows.push(figure(
        "Form boards",
        shown_in.length(forms.length),
        format!(
            "{} boards of 12 ft, {} stakes, {} spacers",
            forms.n_boards, forms.n_stakes, forms.n_spacers
        ),
    ));
}
