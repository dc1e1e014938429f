//! The walk along its centreline: levels at every station where one of its lines bends.

use crate::figure::Measure;
use crate::wording::Wording;
use serde::Serialize;
use underbrick_calc::Results;
use underbrick_calc::bed::along;
use underbrick_calc::ground::{Ground, UnsuitableBottom};
use underbrick_calc::line::{Line, SurfaceLevel};
use underbrick_calc::quantity::{Length, in_metres, metres};

/// Levels at one station on the centreline, above the datum, up positive. At a step two rows share a station.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StationRow {
    /// Along the run from the door.
    pub station: Measure,
    /// Grade line.
    pub grade: Measure,
    /// Base top; `None` where there is no bed.
    pub base_top: Option<Measure>,
    /// Bottom of the dig; `None` where there is no bed.
    pub dig_bottom: Option<Measure>,
    /// Old surface; `None` where it was not read, or readings stand on one side only.
    pub old_surface: Option<Measure>,
    /// Where readings stand on one side only, the level of the last of them: volumes are worked out with it, but it is not known.
    pub old_surface_held: Option<Measure>,
    /// Bottom of what must come out; `None` without pits.
    pub unsuitable_bottom: Option<Measure>,
    /// Whether the pits reached it; if not it is the least depth.
    pub unsuitable_bottom_is_found: bool,
}

/// The rows from the door to the far end; `None` where the run is not known.
pub(crate) fn stations(results: &Results, say: Wording) -> Option<Vec<StationRow>> {
    let line = results.line.as_ref()?;
    let (Some(ground), Some(bed)) = (&results.ground, &results.bed) else {
        return Some(without_bed(line, results.ground.as_ref(), say));
    };
    let along = along(line, ground, bed, metres(0.0));
    let rows = along.spots.iter().map(|spot| StationRow {
        base_top: Some(say.level(spot.base_top)),
        dig_bottom: Some(say.level(spot.dig_bottom)),
        ..row(
            say,
            spot.station,
            spot.grade,
            spot.old_surface,
            spot.unsuitable_bottom,
        )
    });
    Some(rows.collect())
}

/// Grade line and old surface alone, where each of them may bend.
fn without_bed(line: &Line, ground: Option<&Ground>, say: Wording) -> Vec<StationRow> {
    let length_m = in_metres(line.run.length());
    let pits = ground.map(Ground::station_breaks).unwrap_or_default();
    let breaks = line
        .run
        .breaks()
        .into_iter()
        .chain(line.old_surface.station_breaks())
        .chain(pits);
    let mut stations_m: Vec<f64> = breaks
        .map(|station| in_metres(station).clamp(0.0, length_m))
        .collect();
    stations_m.sort_by(f64::total_cmp);
    stations_m.dedup();
    let centre = metres(0.0);
    let spot = |station: Length| {
        let bottom = ground.and_then(|ground| ground.unsuitable_bottom(station));
        row(
            say,
            station,
            line.grade.level(station, centre),
            line.old_surface.at(station, centre),
            bottom,
        )
    };
    stations_m
        .into_iter()
        .map(|station_m| spot(metres(station_m)))
        .collect()
}

fn row(
    say: Wording,
    station: Length,
    grade: Length,
    old_surface: Option<SurfaceLevel>,
    bottom: Option<UnsuitableBottom>,
) -> StationRow {
    let level_if = |known: bool| {
        old_surface
            .filter(|surface| surface.known == known)
            .map(|surface| say.level(surface.level))
    };
    StationRow {
        station: say.station(Some(station)),
        grade: say.level(grade),
        base_top: None,
        dig_bottom: None,
        old_surface: level_if(true),
        old_surface_held: level_if(false),
        unsuitable_bottom: bottom.map(|bottom| say.level(bottom.level)),
        unsuitable_bottom_is_found: bottom.is_some_and(|bottom| bottom.found),
    }
}
