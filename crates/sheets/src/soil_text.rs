//! Soil and frost for people.

use crate::columns::{columns, paragraph};
use crate::soil::{FrostRow, SoilRow};

/// The lines of the part; empty where nothing was tested.
pub(crate) fn soil(row: Option<&SoilRow>) -> String {
    let Some(row) = row else {
        return String::new();
    };
    let mut text = String::new();
    if let (Some(symbol), Some(name)) = (&row.symbol, row.symbol_name) {
        text.push_str(&paragraph("  ", &format!("Symbol {symbol}, {name}.")));
        text.push_str(&paragraph("    ", &row.symbol_reasons.join(" ")));
    }
    if let (Some(texture), Some(reason)) = (row.texture, &row.texture_reason) {
        text.push_str(&paragraph("  ", &format!("Texture {texture}: {reason}.")));
    }
    for group in &row.frost_groups {
        let words = format!(
            "Frost group {} ({}): {} [{}]",
            group.group, group.line, group.reason, row.frost_group_table
        );
        text.push_str(&paragraph("  ", &words));
    }
    if let Some(frost) = &row.frost {
        text.push_str(&depths(frost));
    }
    if text.is_empty() {
        text = paragraph("  ", "Not enough was tested to name it.");
    }
    text
}

fn depths(frost: &FrostRow) -> String {
    let rows = [
        ("Frost depth taken", &frost.depth),
        ("local", &frost.local),
        ("by modified Berggren", &frost.modified_berggren),
        ("by Stefan", &frost.stefan),
    ];
    let rows: Vec<Vec<String>> = rows
        .iter()
        .map(|(name, measure)| vec![format!("  {name}"), measure.shown.clone()])
        .collect();
    let why = format!(
        "Taken is the {} one: {}. {}",
        frost.method,
        frost.reason,
        frost.rests_on.join(" ")
    );
    columns(&rows) + &paragraph("    ", why.trim_end())
}
