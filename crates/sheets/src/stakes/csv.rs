//! The set-out table for a spreadsheet: comma-separated values by RFC 4180.

use underbrick_calc::build::{Build, Stake, StakeWhy};
use underbrick_calc::line::Line;
use underbrick_calc::quantity::unit::{foot, meter};
use underbrick_calc::quantity::{Length, metres};
use underbrick_calc::site::{ShownIn, Site};

/// Columns, in the order in which they stand.
const HEAD: [&str; 11] = [
    "station", "why", "surface", "offset", "right", "away", "level", "drop", "rod", "dig", "unit",
];

/// One record for each surface of each stake, on the centreline and at both edges; a head first. Numbers are plain, with a point, all in
/// feet or all in metres as `unit` says: offsets positive to the right, `right` and `away` from the middle of the door, levels above the
/// sill's underside, drops from the string down. What is not known is empty.
#[must_use]
pub fn stakes_csv(site: &Site, line: &Line, build: &Build) -> String {
    let stakes = build.stakes.iter();
    written(stakes.flat_map(|stake| records(site, line, stake)))
}

/// The head alone, for a walk of which no stake is known.
#[must_use]
pub fn stakes_csv_head() -> String {
    written(std::iter::empty())
}

fn written(records: impl Iterator<Item = [String; 11]>) -> String {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing into memory does not fail.
    let _ = writer.write_record(HEAD);
    for record in records {
        let _ = writer.write_record(record);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// One spot of a stake.
#[derive(Clone, Debug)]
struct Spot {
    surface: String,
    offset: Length,
    level: Length,
    rod: Option<Length>,
    dig: Option<Length>,
}

fn records(site: &Site, line: &Line, stake: &Stake) -> Vec<[String; 11]> {
    let centre = metres(0.0);
    // The line of sight is as high over every spot.
    let sight = stake
        .rows
        .first()
        .and_then(|row| row.rod.map(|rod| rod + row.level));
    let spot = |surface: String, offset: Length, level: Length| Spot {
        surface,
        offset,
        level,
        rod: sight.map(|sight| sight - level),
        dig: None,
    };
    let on_centreline = stake.rows.iter().map(|row| {
        let surface = row.surface;
        let is_dig = surface == underbrick_calc::build::Surface::DigBottom;
        Spot {
            dig: stake.dig.filter(|_| is_dig),
            ..spot(surface.key(), centre, row.level)
        }
    });
    let old_surface = stake.old_surface.map(|surface| {
        let name = if surface.known {
            "present-surface"
        } else {
            "present-surface-held"
        };
        spot(name.to_owned(), centre, surface.level)
    });
    let edges = stake.edges.iter().flat_map(|edge| {
        let trench = edge
            .trench_bottom
            .map(|level| spot("trench-bottom".to_owned(), edge.form_offset, level));
        [
            Some(spot("form-top".to_owned(), edge.form_offset, edge.form_top)),
            trench,
            Some(spot(
                "dig-bottom".to_owned(),
                edge.dig_offset,
                edge.dig_bottom,
            )),
        ]
        .into_iter()
        .flatten()
    });
    let (written, unit) = match site.shown_in {
        ShownIn::FeetInches => (in_feet as fn(Length) -> String, "ft"),
        ShownIn::Metric => (in_metric as fn(Length) -> String, "m"),
    };
    let if_known = |length: Option<Length>| length.map(written).unwrap_or_default();
    let why: Vec<String> = stake.why.iter().copied().map(StakeWhy::words).collect();
    let why = why.join("; ");
    on_centreline
        .chain(old_surface)
        .chain(edges)
        .map(|spot| {
            let (right, away) = line.run.in_plan(stake.station, spot.offset);
            [
                written(stake.station),
                why.clone(),
                spot.surface,
                written(spot.offset),
                written(right),
                written(away),
                written(spot.level),
                written(stake.string - spot.level),
                if_known(spot.rod),
                if_known(spot.dig),
                unit.to_owned(),
            ]
        })
        .collect()
}

/// To a ten-thousandth of a foot.
fn in_feet(length: Length) -> String {
    format!("{:.4}", rounded(length.get::<foot>(), 10_000.0))
}

/// To a tenth of a millimetre.
fn in_metric(length: Length) -> String {
    format!("{:.4}", rounded(length.get::<meter>(), 10_000.0))
}

/// Half away from zero; zero never carries a sign.
fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts + 0.0
}
