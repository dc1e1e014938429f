//! The results for people, as plain text.

use crate::causes::{CauseRow, SignRow};
use crate::columns::{columns, paragraph};
use crate::figure::{Figure, Group, Measure, NOT_KNOWN};
use crate::laying;
use crate::penetrometers;
use crate::pits::{LayerRow, PitRow};
use crate::profile::StationRow;
use crate::results::{FindingRow, LiftRow, OfferRow, ResultsSheet};
use crate::soil_text;
use crate::thickness;
use crate::wording::on_one_line;

/// The sheet as text: what was found, the new line, section, lifts, edges, quantities, findings, cautions. Paragraphs are a page
/// wide; a table is as wide as it needs.
#[must_use]
pub fn to_text(sheet: &ResultsSheet) -> String {
    let parts = [
        heading(sheet),
        seen(sheet),
        part("WHY IT FAILED", &causes(sheet)),
        sheet.book.as_ref().map_or_else(String::new, |book| {
            part("THE LEVEL BOOK", &crate::book::to_text(book))
        }),
        part("WHAT THE PITS SHOWED", &pits(sheet)),
        soil_part(sheet),
        penetrometers::to_text(sheet),
        part("THE NEW LINE", &figures(sheet, Group::Line)),
        part(
            "ALONG THE CENTRELINE, FROM THE UNDERSIDE OF THE SILL",
            &stations(sheet),
        ),
        part(
            "SECTION",
            &(figures(sheet, Group::Section) + &fabric(sheet)),
        ),
        thickness::to_text(sheet),
        part(
            "LIFTS, FROM THE BOTTOM",
            &(lifts(sheet) + "\n" + &figures(sheet, Group::Lifts)),
        ),
        part("EDGES", &figures(sheet, Group::Edge)),
        laying::to_text(sheet),
        crate::brick::to_text(sheet),
        part("QUANTITIES", &figures(sheet, Group::Quantities)),
        offers(sheet),
        part("FINDINGS", &findings(sheet)),
        part("BEFORE DIGGING AND WHILE BUILDING", &cautions(sheet)),
    ];
    parts.concat()
}

fn heading(sheet: &ResultsSheet) -> String {
    let address = on_one_line(&sheet.site.address);
    let walk = on_one_line(&sheet.site.walk);
    let name = [address, walk]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
    let name = if name.is_empty() {
        "a site without an address".to_owned()
    } else {
        name
    };
    let stops = if sheet.stops {
        "\nSomething stops the job: see the findings.\n"
    } else {
        ""
    };
    format!("Underbrick: results for {name}\n{stops}")
}

fn part(title: &str, body: &str) -> String {
    format!("\n{title}\n{body}")
}

/// Nothing at all where nothing was tested.
fn soil_part(sheet: &ResultsSheet) -> String {
    let body = soil_text::soil(sheet.soil.as_ref());
    if body.is_empty() {
        return body;
    }
    part("SOIL AND FROST", &body)
}

/// Nothing at all where nothing was written down.
fn seen(sheet: &ResultsSheet) -> String {
    if sheet.signs.is_empty() {
        return String::new();
    }
    part(
        "WHAT IS SEEN",
        &columns(&sheet.signs.iter().map(sign).collect::<Vec<_>>()),
    )
}

fn sign(sign: &SignRow) -> Vec<String> {
    let shown = |measure: &Option<Measure>| measure.as_ref().map(|measure| measure.shown.clone());
    let width = shown(&sign.width).map(|width| format!(", {width} wide"));
    let place = shown(&sign.station).map_or_else(
        || "all along the walk".to_owned(),
        |station| format!("at {station}"),
    );
    let offset = shown(&sign.offset).map(|offset| format!(", {offset}"));
    vec![
        format!(
            "{}{}",
            sign.what.unwrap_or(NOT_KNOWN),
            width.unwrap_or_default()
        ),
        sign.severity.to_owned(),
        place + &offset.unwrap_or_default(),
    ]
}

/// Each cause in both wordings, with the readings that it stands on.
fn causes(sheet: &ResultsSheet) -> String {
    if sheet.causes.is_empty() {
        return paragraph("  ", "No reading points to a cause yet.");
    }
    let cause = |(nth, cause): (usize, &CauseRow)| {
        let readings: Vec<&str> = cause
            .evidence
            .iter()
            .map(|evidence| evidence.reading.as_str())
            .collect();
        let words = format!(
            "{} ({}): {} [{}]",
            cause.cause, cause.strength, cause.trade, cause.source
        );
        [
            paragraph(&format!("  {}. ", nth + 1), &words),
            paragraph("     ", &format!("To the homeowner: {}", cause.homeowner)),
            paragraph("     ", &format!("Seen: {}.", readings.join("; "))),
            paragraph("     ", &format!("What to do: {}", cause.remedy)),
        ]
        .concat()
    };
    sheet.causes.iter().enumerate().map(cause).collect()
}

fn pits(sheet: &ResultsSheet) -> String {
    match sheet.pits.as_deref() {
        None | Some([]) => paragraph(
            "  ",
            "No pit could be put into levels: what lies below is not known.",
        ),
        Some(pits) => pits.iter().map(pit).collect(),
    }
}

fn pit(pit: &PitRow) -> String {
    let place = format!(
        "Pit {} at {}, {}; old surface {}",
        pit.number, pit.station.shown, pit.offset.shown, pit.old_surface.shown
    );
    let mut text = paragraph("  ", &place);
    text.push_str(&columns(&pit.layers.iter().map(layer).collect::<Vec<_>>()));
    let depth = &pit.unsuitable_bottom_depth.shown;
    let bottom = if pit.unsuitable_bottom_is_found {
        format!("What must come out ends {depth} below the old surface.")
    } else {
        format!(
            "The bottom of what must come out was not found: it lies at least {depth} below the old surface."
        )
    };
    text.push_str(&paragraph("    ", &bottom));
    if let Some(seep) = &pit.seep_depth {
        text.push_str(&paragraph(
            "    ",
            &format!("Water seeped in {} below the old surface.", seep.shown),
        ));
    }
    text
}

fn layer(layer: &LayerRow) -> Vec<String> {
    let depth = match &layer.to_depth {
        Some(to) => format!("{} to {}", layer.from_depth.shown, to.shown),
        None => format!("{} and on down", layer.from_depth.shown),
    };
    vec![
        format!("  {}", on_one_line(&layer.material.replace('-', " "))),
        depth,
        layer.verdict.to_owned(),
    ]
}

fn stations(sheet: &ResultsSheet) -> String {
    let Some(stations) = sheet.stations.as_deref() else {
        return paragraph("  ", "The run is not known.");
    };
    let head = [
        "Station",
        "Old surface",
        "Grade line",
        "Base top",
        "Bottom of dig",
    ]
    .map(str::to_owned)
    .to_vec();
    let rows: Vec<Vec<String>> = std::iter::once(head)
        .chain(stations.iter().map(station))
        .collect();
    let mut text = columns(&rows);
    if stations.iter().any(|row| row.old_surface_held.is_some()) {
        text.push_str(&paragraph(
            "  ",
            "? Beyond the readings: the old surface is held level from the last one.",
        ));
    }
    if stations
        .iter()
        .any(|row| row.dig_bottom.is_some() && !row.unsuitable_bottom_is_found)
    {
        text.push_str(&paragraph(
            "  ",
            "+ No pit reached the bottom of what must come out: the dig goes at least so deep.",
        ));
    }
    text
}

fn station(row: &StationRow) -> Vec<String> {
    let shown = |measure: &Option<Measure>| measure.as_ref().map(|measure| measure.shown.clone());
    let or_not_known = |shown: Option<String>| shown.unwrap_or_else(|| NOT_KNOWN.to_owned());
    let held = shown(&row.old_surface_held).map(|level| format!("{level} ?"));
    let least = if row.unsuitable_bottom_is_found {
        ""
    } else {
        " +"
    };
    vec![
        row.station.shown.clone(),
        or_not_known(shown(&row.old_surface).or(held)),
        row.grade.shown.clone(),
        or_not_known(shown(&row.base_top)),
        or_not_known(shown(&row.dig_bottom).map(|level| level + least)),
    ]
}

fn figures(sheet: &ResultsSheet, group: Group) -> String {
    let row = |figure: &Figure| vec![figure.name.clone(), figure.measure.shown.clone()];
    columns(
        &sheet
            .figures
            .iter()
            .filter(|figure| figure.group == group)
            .map(row)
            .collect::<Vec<_>>(),
    )
}

fn fabric(sheet: &ResultsSheet) -> String {
    let words = match sheet.fabric {
        Some(true) => "Separation fabric on the undisturbed ground.",
        Some(false) => "No separation fabric.",
        None => return String::new(),
    };
    paragraph("  ", words)
}

fn lifts(sheet: &ResultsSheet) -> String {
    match sheet.lifts.as_deref() {
        None => paragraph("  ", "The lifts are not known."),
        Some([]) => paragraph("  ", "No base, no lift."),
        Some(lifts) => {
            let head = [
                "Lift",
                "Top below string",
                "Compacted",
                "Loose",
                "In place",
                "As delivered",
                "Runs",
            ];
            let rows =
                std::iter::once(head.map(str::to_owned).to_vec()).chain(lifts.iter().map(lift));
            let note = "The string stands on the grade line, so that one mark on the tape serves for a lift everywhere. Thickness is \
                        that of the thickest place. The trench for the edge is not taken off.";
            columns(&rows.collect::<Vec<_>>()) + &paragraph("  ", note)
        }
    }
}

fn lift(lift: &LiftRow) -> Vec<String> {
    let runs = lift
        .runs
        .iter()
        .map(|run| format!("{} to {}", run.from.shown, run.to.shown));
    vec![
        lift.number.to_string(),
        lift.top_below_string.shown.clone(),
        lift.compacted.shown.clone(),
        lift.loose.shown.clone(),
        lift.compacted_volume.shown.clone(),
        lift.loose_volume.shown.clone(),
        runs.collect::<Vec<_>>().join("; "),
    ]
}

/// Nothing at all where the grade line keeps its rules.
fn offers(sheet: &ResultsSheet) -> String {
    if sheet.offers.is_empty() {
        return String::new();
    }
    let offer = |offer: &OfferRow| {
        let breaks = match offer.breaks.as_slice() {
            [] => "Keeps all rules.".to_owned(),
            breaks => format!("Breaks: {}.", breaks.join("; ")),
        };
        paragraph(
            "  - ",
            &on_one_line(&format!("{}: {} {breaks}", offer.title, offer.text)),
        )
    };
    part(
        "WHAT COULD BE DONE INSTEAD, BEST FIRST",
        &sheet.offers.iter().map(offer).collect::<String>(),
    )
}

/// Those that stop the job first, checks that were kept last; each weight in the order in which they were met.
fn findings(sheet: &ResultsSheet) -> String {
    if sheet.findings.is_empty() {
        return paragraph("  ", "None.");
    }
    let weights = ["stop", "warning", "note", "right"];
    let of_weight = |weight: &str| {
        sheet
            .findings
            .iter()
            .filter(move |finding| finding.weight == weight)
            .map(finding)
            .collect::<String>()
    };
    weights.iter().map(|weight| of_weight(weight)).collect()
}

fn finding(finding: &FindingRow) -> String {
    let lead = format!("  {:<9}", finding.weight);
    let words = [finding.text.as_str(), finding.remedy.as_str()]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect::<Vec<_>>()
        .join(" ");
    paragraph(
        &lead,
        &format!("{}: {words} [{}]", finding.place, finding.source),
    )
}

fn cautions(sheet: &ResultsSheet) -> String {
    sheet
        .cautions
        .iter()
        .map(|caution| paragraph("  - ", caution))
        .collect()
}
