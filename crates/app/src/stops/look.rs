//! Stop Look: address, why it failed, what is seen, pits with their layers, the brick.

use underbrick_calc::ground::Verdict;
use underbrick_calc::place::Place;
use underbrick_calc::site::{Firmness, Language, Moisture, PictureOf, Pit, PitEnd, ShownIn};

use super::opened::Opened;
use super::{Stop, findings, heading, named, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, set: Option<Place>, opened: &Opened) -> Vec<Row> {
    let site = visit.site();
    let mut rows = vec![
        value(visit, Place::Address, ""),
        value(visit, Place::Walk, ""),
    ];
    super::causes::rows(visit, opened, &mut rows);
    super::seen::rows(visit, set, &mut rows);
    let n_pits = site.pits.len();
    rows.push(heading(
        "Pits",
        if n_pits == 0 {
            "none dug".to_owned()
        } else {
            format!("{n_pits} dug")
        },
    ));
    for (pit_idx, pit) in site.pits.iter().enumerate() {
        let is_open = opened.pit == Some(pit_idx);
        rows.push(Row::Fold {
            name: format!("Pit {}", pit_idx + 1),
            note: pit_in_short(visit, pit_idx, pit),
            is_open,
            thing: Place::Pit(pit_idx),
        });
        let mut inside = Vec::new();
        pit_rows(visit, pit_idx, set, &mut inside);
        if is_open {
            rows.append(&mut inside);
        } else {
            rows.push(Row::Folded(inside));
        }
    }
    rows.push(Row::Acts(vec![("add a pit".to_owned(), Edit::AddPit)]));
    super::pictures::rows(visit, opened, &mut rows);
    rows.push(heading("The brick", "as sampled"));
    for place in super::lay::BRICK {
        rows.push(value(visit, place, &super::lay::brick_note(visit, place)));
    }
    rows.push(Row::Choice {
        label: "Lengths are shown in".to_owned(),
        options: vec![
            (
                "feet, inches".to_owned(),
                Edit::ShownIn(ShownIn::FeetInches),
                site.shown_in == ShownIn::FeetInches,
            ),
            (
                "millimetres".to_owned(),
                Edit::ShownIn(ShownIn::Metric),
                site.shown_in == ShownIn::Metric,
            ),
        ],
    });
    let reads = site.show.crew_reads;
    rows.push(Row::Choice {
        label: "The crew reads".to_owned(),
        options: vec![
            (
                "English".to_owned(),
                Edit::CrewReads(Language::English),
                reads == Language::English,
            ),
            (
                "Español".to_owned(),
                Edit::CrewReads(Language::Spanish),
                reads == Language::Spanish,
            ),
        ],
    });
    rows.extend(super::soil::rows(visit, opened.soil));
    rows.extend(findings(visit, Stop::Look));
    rows
}

/// One line for a folded pit: where it is, how many layers, and which of them must come out.
fn pit_in_short(visit: &Visit, pit_idx: usize, pit: &Pit) -> String {
    let shown_in = visit.site().shown_in;
    let place = pit.station.map_or_else(
        || "station not measured".to_owned(),
        |station| format!("at {}", shown_in.along(station)),
    );
    let n_layers = pit.layers.len();
    let layers = if n_layers == 1 { "layer" } else { "layers" };
    let found = visit
        .results()
        .ground
        .iter()
        .flat_map(|ground| &ground.pits);
    let out: Vec<String> = found
        .filter(|found| found.pit_idx == pit_idx)
        .flat_map(|found| found.layers.iter().zip(&pit.layers))
        .filter(|(found, _)| found.verdict == Verdict::ComesOut)
        .map(|(_, layer)| {
            let name = visit
                .catalogue()
                .find(&layer.material)
                .map_or("", |material| material.name.as_str());
            layer.thickness.map_or_else(
                || name.to_lowercase(),
                |thickness| format!("{} {}", name.to_lowercase(), shown_in.thickness(thickness)),
            )
        })
        .collect();
    if out.is_empty() {
        format!("{place}: {n_layers} {layers}")
    } else {
        format!(
            "{place}: {n_layers} {layers}, {} must come out",
            out.join(" and ")
        )
    }
}

fn pit_rows(visit: &Visit, pit_idx: usize, set: Option<Place>, rows: &mut Vec<Row>) {
    let site = visit.site();
    let Some(pit) = site.pits.get(pit_idx) else {
        return;
    };
    rows.push(value(visit, Place::PitStation(pit_idx), ""));
    rows.push(value(visit, Place::PitOffset(pit_idx), ""));
    let found = visit
        .results()
        .ground
        .as_ref()
        .and_then(|ground| ground.pits.iter().find(|found| found.pit_idx == pit_idx));
    for (layer_idx, layer) in pit.layers.iter().enumerate() {
        let place = Place::LayerThickness(pit_idx, layer_idx);
        let material_place = Place::LayerMaterial(pit_idx, layer_idx);
        let name = visit.catalogue().find(&layer.material).map_or_else(
            || "choose material".to_owned(),
            |material| material.name.clone(),
        );
        let verdict = found
            .and_then(|found| found.layers.get(layer_idx))
            .map_or("", |layer| match layer.verdict {
                Verdict::Lifted => "is lifted and kept",
                Verdict::ComesOut => "must come out",
                Verdict::Stays => "may stay",
                Verdict::NotKnown => "not in the catalogue",
            });
        let is_last = layer_idx + 1 == pit.layers.len();
        let note = match (verdict, is_last && layer.thickness.is_none()) {
            ("", true) => "goes on down".to_owned(),
            (verdict, true) => format!("{verdict}, goes on down"),
            (verdict, false) => verdict.to_owned(),
        };
        rows.push(named(visit, place, Some(material_place), &name, &note));
        if set == Some(place) || set == Some(material_place) {
            rows.push(Row::Choice {
                label: "Firmness, by thumb".to_owned(),
                options: firmness(pit_idx, layer_idx, layer.firmness),
            });
            rows.push(Row::Choice {
                label: "Moisture".to_owned(),
                options: moisture(pit_idx, layer_idx, layer.moisture),
            });
            rows.push(Row::Acts(vec![(
                format!("take layer {} away", layer_idx + 1),
                Edit::RemoveLayer(pit_idx, layer_idx),
            )]));
        }
    }
    rows.push(Row::Acts(vec![(
        "add a layer below".to_owned(),
        Edit::AddLayer(pit_idx),
    )]));
    rows.push(value(visit, Place::PitSeep(pit_idx), ""));
    rows.push(Row::Choice {
        label: "The digging".to_owned(),
        options: vec![
            (
                "was stopped".to_owned(),
                Edit::PitEnded(pit_idx, PitEnd::Stopped),
                pit.ended == PitEnd::Stopped,
            ),
            (
                "was refused".to_owned(),
                Edit::PitEnded(pit_idx, PitEnd::Refused),
                pit.ended == PitEnd::Refused,
            ),
        ],
    });
    let bottom = found.map(|found| {
        let depth = site
            .shown_in
            .thickness(found.top - found.unsuitable_bottom.level);
        if found.unsuitable_bottom.found {
            format!("{depth} must come out here")
        } else {
            format!("bottom not found, at least {depth}")
        }
    });
    if let Some(bottom) = bottom {
        rows.push(super::figure(
            format!("Pit {}", pit_idx + 1),
            bottom,
            "from the old surface down",
        ));
    }
    super::penetrometer::rows(visit, pit_idx, set, rows);
    super::pictures::those_of(visit, PictureOf::Pit(pit_idx), rows);
    rows.push(Row::Acts(vec![(
        format!("take pit {} away", pit_idx + 1),
        Edit::RemovePit(pit_idx),
    )]));
}

fn firmness(pit_idx: usize, layer_idx: usize, now: Option<Firmness>) -> Vec<(String, Edit, bool)> {
    [
        ("very soft", Firmness::VerySoft),
        ("soft", Firmness::Soft),
        ("firm", Firmness::Firm),
        ("hard", Firmness::Hard),
        ("very hard", Firmness::VeryHard),
    ]
    .map(|(word, firmness)| {
        (
            word.to_owned(),
            Edit::Firmness(pit_idx, layer_idx, Some(firmness)),
            now == Some(firmness),
        )
    })
    .into_iter()
    .chain([(
        "not said".to_owned(),
        Edit::Firmness(pit_idx, layer_idx, None),
        now.is_none(),
    )])
    .collect()
}

fn moisture(pit_idx: usize, layer_idx: usize, now: Option<Moisture>) -> Vec<(String, Edit, bool)> {
    [
        ("dry", Moisture::Dry),
        ("moist", Moisture::Moist),
        ("wet", Moisture::Wet),
    ]
    .map(|(word, moisture)| {
        (
            word.to_owned(),
            Edit::Moisture(pit_idx, layer_idx, Some(moisture)),
            now == Some(moisture),
        )
    })
    .to_vec()
}
