//! Stop Look: address, pits with their layers, the brick.

use underbrick_calc::place::Place;
use underbrick_calc::site::{Firmness, Moisture, PitEnd, ShownIn};

use super::{Stop, findings, heading, named, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::rows::Row;

pub(super) fn rows(
    visit: &Visit,
    set: Option<Place>,
    open_pit: Option<usize>,
    open_soil: bool,
) -> Vec<Row> {
    let site = visit.site();
    let mut rows = vec![
        value(visit, Place::Address, ""),
        value(visit, Place::Walk, ""),
    ];
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
        let where_it_is = pit.station.map_or_else(
            || "station not measured".to_owned(),
            |station| format!("at {}", site.shown_in.along(station)),
        );
        let n_layers = pit.layers.len();
        let note = format!(
            "{where_it_is}, {n_layers} {}",
            if n_layers == 1 { "layer" } else { "layers" }
        );
        let is_open = open_pit == Some(pit_idx);
        rows.push(Row::Fold {
            name: format!("Pit {}", pit_idx + 1),
            note,
            is_open,
            thing: Place::Pit(pit_idx),
        });
        if is_open {
            pit_rows(visit, pit_idx, set, &mut rows);
        }
    }
    rows.push(Row::Acts(vec![("add a pit".to_owned(), Edit::AddPit)]));
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
    rows.extend(super::soil::rows(visit, open_soil));
    super::causes::rows(visit, &mut rows);
    rows.extend(findings(visit, Stop::Look));
    rows
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
                underbrick_calc::ground::Verdict::Lifted => "is lifted and kept",
                underbrick_calc::ground::Verdict::ComesOut => "must come out",
                underbrick_calc::ground::Verdict::Stays => "may stay",
                underbrick_calc::ground::Verdict::NotKnown => "not in the catalogue",
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
