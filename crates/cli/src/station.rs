//! The station that a person asked for.

use anyhow::{Context as _, ensure};
use underbrick_calc::line::Line;
use underbrick_calc::measure::written::{
    BareUnit, LengthStyle, Nearest, read_length, write_length,
};
use underbrick_calc::quantity::{Length, inches, metres};
use underbrick_calc::site::{ShownIn, Site};

/// The station as written, or the middle of the run. Where the run is not known any station will do: there is nothing to cut.
pub fn station(written: Option<&str>, site: &Site, line: Option<&Line>) -> anyhow::Result<Length> {
    let run_length = line.map(|line| line.run.length());
    let Some(written) = written else {
        return Ok(run_length.unwrap_or_default() / 2.0);
    };
    let bare = match site.shown_in {
        ShownIn::FeetInches => BareUnit::Foot,
        ShownIn::Metric => BareUnit::Metre,
    };
    let station =
        read_length(written, bare).with_context(|| format!("--at {written:?} cannot be read"))?;
    match run_length {
        Some(run_length) => on_run(station, run_length, site.shown_in),
        None => Ok(station),
    }
}

/// The station on the run; the end of it for what lies beyond by no more than an end is rounded when it is written.
fn on_run(station: Length, run_length: Length, shown_in: ShownIn) -> anyhow::Result<Length> {
    let rounding = inches(1.0 / 16.0);
    ensure!(
        station >= -rounding,
        "--at: station {} is before the door, where the run starts at {}",
        shown(station, shown_in),
        shown(metres(0.0), shown_in)
    );
    ensure!(
        station <= run_length + rounding,
        "--at: station {} is beyond the run, which ends at {}",
        shown(station, shown_in),
        shown(run_length, shown_in)
    );
    Ok(station.max(metres(0.0)).min(run_length))
}

fn shown(length: Length, shown_in: ShownIn) -> String {
    write_length(
        length,
        match shown_in {
            ShownIn::FeetInches => LengthStyle::FeetInches(Nearest::Sixteenth),
            ShownIn::Metric => LengthStyle::Metres,
        },
    )
}
