//! Readings as built for a spreadsheet: comma-separated values by RFC 4180, in UTF-8.

use underbrick_calc::build::{Build, Verdict};
use underbrick_calc::quantity::Length;
use underbrick_calc::quantity::unit::{foot, meter};
use underbrick_calc::site::{ShownIn, Site};

/// Columns, in the order in which they stand.
const HEAD: [&str; 11] = [
    "number", "surface", "station", "offset", "level", "design", "off", "verdict", "unit",
    "read_at", "initials",
];

/// One record for each level that was read; a head first. Lengths are all in feet or all in metres as `unit` says: offsets positive to the
/// right, levels above the sill's underside, `off` positive where it is high. `read_at` is seconds since the start of 1970, UTC. What is not
/// known is empty.
#[must_use]
pub fn readings_csv(site: &Site, build: Option<&Build>) -> String {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing into memory does not fail.
    let _ = writer.write_record(HEAD);
    let unit = match site.shown_in {
        ShownIn::FeetInches => "ft",
        ShownIn::Metric => "m",
    };
    let number = |length: Length| match site.shown_in {
        ShownIn::FeetInches => format!("{:.4}", length.get::<foot>()),
        ShownIn::Metric => format!("{:.4}", length.get::<meter>()),
    };
    let known = |length: Option<Length>| length.map_or_else(String::new, number);
    for reading in build.iter().flat_map(|build| &build.readings) {
        let stamp = site
            .build
            .readings
            .get(reading.reading_idx)
            .map(|read| &read.stamp);
        let verdict = match reading.verdict {
            Verdict::Right => "right",
            Verdict::High => "high",
            Verdict::Low => "low",
            Verdict::NotKnown => "",
        };
        let _ = writer.write_record([
            (reading.reading_idx + 1).to_string(),
            reading.surface.key(),
            number(reading.station),
            number(reading.offset),
            known(reading.level),
            known(reading.design),
            known(reading.off),
            verdict.to_owned(),
            unit.to_owned(),
            stamp
                .and_then(|stamp| stamp.at_s)
                .map_or_else(String::new, |at| at.to_string()),
            stamp.map_or_else(String::new, |stamp| stamp.initials.clone()),
        ]);
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}
