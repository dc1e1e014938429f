//! The stake table as text for people.

use super::{CurveLine, StakeLine, StakeSheet, SurfaceLine};
use crate::columns::{columns, paragraph};
use crate::figure::Measure;

/// The surfaces that all lie on the grade line: one column tells them.
const ON_GRADE: [&str; 3] = ["form-top", "edge-top", "brick-top"];

/// The stake table from the door, what the rod reads, both edges, curves, screed board and gauge rod.
#[must_use]
pub fn stakes_text(sheet: &StakeSheet) -> String {
    let mut text = format!("{}\n", sheet.address);
    if !sheet.walk.is_empty() {
        text += &format!("{}\n", sheet.walk);
    }
    text += &paragraph("", &string_words(sheet));
    text += "\nFrom the string down, on the centreline\n";
    text += &columns(&surface_rows(sheet, |surface| &surface.drop, dig_cells));
    if sheet.rod_at_sill.value.is_some() {
        text += &format!(
            "\nRod, where it reads {} on the sill's underside\n",
            sheet.rod_at_sill.shown
        );
        text += &columns(&surface_rows(sheet, |surface| &surface.rod, |_| Vec::new()));
    }
    text += "\nEdges, and from the string, carried across level, down to them\n";
    text += &columns(&edge_rows(sheet));
    for curve in &sheet.curves {
        text += &curve_text(curve);
    }
    text += "\nScreed board\n";
    text += &columns(&[
        cells(["Length", &sheet.screed.length.shown]),
        cells(["Notch at both ends", &sheet.screed.notch.shown]),
        cells(["Between the edges", &sheet.screed.between.shown]),
    ]);
    text += &paragraph(
        "  ",
        &format!(
            "The notch is the brick less {}, by which the brick stands proud until the plate takes it down.",
            sheet.screed.proud.shown
        ),
    );
    text += "\nGauge rod, marks from the end that is held to the string\n";
    text += &columns(&gauge_rows(sheet));
    text += "\nBefore work starts\n";
    for caution in &sheet.cautions {
        text += &paragraph("  - ", caution);
    }
    text
}

fn string_words(sheet: &StakeSheet) -> String {
    match sheet.string_above_grade.number() {
        Some(above) if above > 0.0 => format!(
            "The working string hangs {} above the grade line.",
            sheet.string_above_grade.shown
        ),
        _ => "The working string is stretched on the grade line.".to_owned(),
    }
}

fn cells<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}

/// The table of all surfaces: a head, then a row for each stake.
fn surface_rows(
    sheet: &StakeSheet,
    told: impl Fn(&SurfaceLine) -> &Measure,
    before_why: impl Fn(Option<&StakeLine>) -> Vec<String>,
) -> Vec<Vec<String>> {
    let on_grade = |surface: &SurfaceLine| ON_GRADE.contains(&surface.surface.as_str());
    // The stake with all lifts names the columns.
    let all = sheet
        .stakes
        .iter()
        .max_by_key(|stake| stake.surfaces.len())
        .map_or(&[][..], |stake| &stake.surfaces);
    let names: Vec<(&str, &str)> = all
        .iter()
        .filter(|surface| !on_grade(surface))
        .map(|surface| (surface.surface.as_str(), surface.name.as_str()))
        .collect();
    let mut head = cells(["Station", "Brick, edge, form"]);
    head.extend(names.iter().map(|(_, name)| first_large(name)));
    head.extend(before_why(None));
    head.push("Why".to_owned());
    let rows = sheet.stakes.iter().map(|stake| {
        let of = |key: &str| {
            let found = stake.surfaces.iter().find(|surface| surface.surface == key);
            found.map_or_else(|| "–".to_owned(), |surface| told(surface).shown.clone())
        };
        let mut row = vec![stake.station.shown.clone(), of("brick-top")];
        row.extend(names.iter().map(|(key, _)| of(key)));
        row.extend(before_why(Some(stake)));
        row.push(stake.why.join(", "));
        row
    });
    std::iter::once(head).chain(rows).collect()
}

/// What is dug or filled from the present surface.
fn dig_cells(stake: Option<&StakeLine>) -> Vec<String> {
    let Some(stake) = stake else {
        return vec!["Dig".to_owned()];
    };
    let dig = match stake.dig.number() {
        Some(dig) if dig < 0.0 => {
            format!("fill {}", stake.dig.shown.trim_start_matches(['-', '−']))
        }
        _ => stake.dig.shown.clone(),
    };
    let is_held = stake.dig.value.is_some() && !stake.old_surface_is_known;
    vec![if is_held { format!("{dig} ?") } else { dig }]
}

fn edge_rows(sheet: &StakeSheet) -> Vec<Vec<String>> {
    let head = cells(["Station", "Form at", "Form top", "Dig to", "Bottom of dig"]);
    let rows = sheet.stakes.iter().flat_map(|stake| {
        stake.edges.iter().enumerate().map(|(idx, edge)| {
            let station = if idx == 0 {
                stake.station.shown.clone()
            } else {
                String::new()
            };
            vec![
                station,
                edge.form_offset.shown.clone(),
                edge.form_drop.shown.clone(),
                edge.dig_offset.shown.clone(),
                edge.dig_drop.shown.clone(),
            ]
        })
    });
    std::iter::once(head).chain(rows).collect()
}

fn curve_text(curve: &CurveLine) -> String {
    let [from, to] = &curve.stations;
    let mut text = format!(
        "\nCurve of leg {}, outer face of the {} edge, {} to {}\n",
        curve.leg, curve.side, from.shown, to.shown
    );
    let [start, end] = &curve.ends;
    let in_plan = |right: &Measure, away: &Measure| {
        format!(
            "{} right, {} away from the middle of the door",
            right.shown, away.shown
        )
    };
    text += &columns(&[
        cells(["From", &in_plan(&start.right, &start.away)]),
        cells(["To", &in_plan(&end.right, &end.away)]),
        cells(["Chord", &curve.chord.shown]),
        cells(["Along the face", &curve.arc.shown]),
    ]);
    let mut offsets = vec![cells(["Along the chord", "Offset"])];
    offsets.extend(
        curve
            .offsets
            .iter()
            .map(|offset| cells([&offset.along.shown, &offset.offset.shown])),
    );
    text += &columns(&offsets);
    text += &match &curve.swing {
        Some(swing) => paragraph(
            "  ",
            &format!(
                "Or swing a tape of {} from the centre, {} from the centreline at the leg's start, square to the run ({}).",
                swing.radius.shown,
                swing.from_start.shown,
                in_plan(&swing.centre.right, &swing.centre.away)
            ),
        ),
        None => "  The walk tapers here: no one centre.\n".to_owned(),
    };
    text
}

fn gauge_rows(sheet: &StakeSheet) -> Vec<Vec<String>> {
    let marks = sheet.gauge.iter();
    marks
        .map(|mark| {
            let note = if mark.is_everywhere {
                ""
            } else {
                "at least: see the table"
            };
            vec![
                mark.below_string.shown.clone(),
                first_large(&mark.name),
                note.to_owned(),
            ]
        })
        .collect()
}

fn first_large(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
