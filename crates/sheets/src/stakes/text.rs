//! The stake table as text for people.

use super::{CurveLine, PlanLine, StakeLine, StakeSheet, SurfaceLine};
use crate::agreement::capital;
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
    text += &paragraph(
        "  ",
        &format!(
            "The setting bed is told as screeded, {} high: so far the brick stands proud until the plate takes it down.",
            sheet.screed.proud.shown
        ),
    );
    if sheet
        .stakes
        .iter()
        .any(|stake| stake.dig.value.is_some() && !stake.old_surface_is_known)
    {
        text += "  ? The present surface was not read on both sides: it is held level from the last reading.\n";
    }
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
    head.extend(names.iter().map(|(_, name)| capital(name)));
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
            format!("fill {}", unsigned(&stake.dig))
        }
        _ => stake.dig.shown.clone(),
    };
    let is_held = stake.dig.value.is_some() && !stake.old_surface_is_known;
    vec![if is_held { format!("{dig} ?") } else { dig }]
}

/// A head, then a row for each stake: the left edge, then the right. The trench has a column where there is one.
fn edge_rows(sheet: &StakeSheet) -> Vec<Vec<String>> {
    let has_trench = sheet.stakes.iter().any(|stake| {
        stake
            .edges
            .iter()
            .any(|edge| edge.trench_drop.value.is_some())
    });
    let mut head = vec!["Station".to_owned()];
    for side in ["Left: form", "Right: form"] {
        head.extend(cells([side, "top"]));
        head.extend(has_trench.then(|| "trench".to_owned()));
        head.extend(cells(["dig to", "bottom"]));
    }
    let rows = sheet.stakes.iter().map(|stake| {
        let mut row = vec![stake.station.shown.clone()];
        for edge in &stake.edges {
            row.push(size(&edge.form_offset).to_owned());
            row.push(edge.form_drop.shown.clone());
            row.extend(has_trench.then(|| edge.trench_drop.shown.clone()));
            row.push(size(&edge.dig_offset).to_owned());
            row.push(edge.dig_drop.shown.clone());
        }
        row
    });
    std::iter::once(head).chain(rows).collect()
}

/// An offset without its side, which the column says.
fn size(offset: &Measure) -> &str {
    let shown = offset.shown.as_str();
    shown
        .strip_suffix(" left")
        .or_else(|| shown.strip_suffix(" right"))
        .unwrap_or(shown)
}

fn curve_text(curve: &CurveLine) -> String {
    let [from, to] = &curve.stations;
    let mut text = format!(
        "\nCurve of leg {}, outer face of the {} edge, {} to {}\n",
        curve.leg, curve.side, from.shown, to.shown
    );
    let [start, end] = &curve.ends;
    text += &columns(&[
        cells(["From", &in_plan(start)]),
        cells(["To", &in_plan(end)]),
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
                in_plan(&swing.centre)
            ),
        ),
        None => "  The walk tapers here: no one centre.\n".to_owned(),
    };
    text
}

/// `1'-6 9/16" left and 28'-0" out from the middle of the door`.
fn in_plan(spot: &PlanLine) -> String {
    let told = |measure: &Measure, positive: &str, negative: &str| {
        let side = if measure.number().is_some_and(|number| number < 0.0) {
            negative
        } else {
            positive
        };
        format!("{} {side}", unsigned(measure))
    };
    format!(
        "{} and {} from the middle of the door",
        told(&spot.right, "right", "left"),
        told(&spot.away, "out", "back")
    )
}

/// What is written, without its sign.
fn unsigned(measure: &Measure) -> &str {
    measure.shown.trim_start_matches(['-', '−'])
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
                capital(&mark.name),
                note.to_owned(),
            ]
        })
        .collect()
}
