//! What string, tape and rod must read: the stake table, the curves, the screed board and the gauge rod.

mod csv;
mod text;

pub use csv::{stakes_csv, stakes_csv_head};
pub use text::stakes_text;

use serde::Serialize;
use underbrick_calc::build::{
    Build, CurveSetOut, EdgeStake, GaugeMark, Screed, Stake, StakeRow, StakeWhy,
};
use underbrick_calc::quantity::Length;
use underbrick_calc::site::Site;

use crate::cautions::cautions;
use crate::figure::Measure;
use crate::wording::{Wording, on_one_line};

/// The name of the format, as it stands in the JSON.
pub const STAKES_FORMAT: &str = "underbrick-stakes";

/// The number of the format, as it stands in the JSON.
pub const STAKES_VERSION: u32 = 1;

/// What the crew sets out by.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StakeSheet {
    /// Always [`STAKES_FORMAT`].
    pub format: &'static str,
    /// Always [`STAKES_VERSION`].
    pub version: u32,
    /// Street address.
    pub address: String,
    /// Which walk there.
    pub walk: String,
    /// The working string above the grade line.
    pub string_above_grade: Measure,
    /// The rod on the underside of the sill in the last set-up in which it was read; `null` without one.
    pub rod_at_sill: Measure,
    /// The stakes from the door.
    pub stakes: Vec<StakeLine>,
    /// The outer faces of the edges of curves.
    pub curves: Vec<CurveLine>,
    /// The screed board.
    pub screed: ScreedLine,
    /// The marks of the gauge rod, from its upper end, which is held to the string.
    pub gauge: Vec<GaugeLine>,
    /// What a sheet never leaves out.
    pub cautions: Vec<&'static str>,
}

/// One stake.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StakeLine {
    /// Along the run from the door.
    pub station: Measure,
    /// Why it is there.
    pub why: Vec<String>,
    /// Level of the grade line on the centreline.
    pub grade: Measure,
    /// Level of the working string.
    pub string: Measure,
    /// Surfaces on the centreline, from the top down.
    pub surfaces: Vec<SurfaceLine>,
    /// Level of the present surface; `null` where there is no reading.
    pub old_surface: Measure,
    /// Whether readings stand on both sides of it; if not it is held flat.
    pub old_surface_is_known: bool,
    /// From the present surface down to the bottom of the dig; what is filled is negative.
    pub dig: Measure,
    /// Left and right edge.
    pub edges: [EdgeLine; 2],
}

/// One surface at a stake.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SurfaceLine {
    /// `form-top`, `lift-2`.
    pub surface: String,
    /// What the crew calls it.
    pub name: String,
    /// Its level.
    pub level: Measure,
    /// From the string down to it.
    pub drop: Measure,
    /// What the rod reads on it; `null` without a set-up.
    pub rod: Measure,
}

/// An edge at a stake.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EdgeLine {
    /// Outer face of the edge brick, where the form stands.
    pub form_offset: Measure,
    /// Level of the form top there.
    pub form_top: Measure,
    /// From the string, carried across level, down to it.
    pub form_drop: Measure,
    /// Outer end of the dig.
    pub dig_offset: Measure,
    /// Level of the bottom of the dig there.
    pub dig_bottom: Measure,
    /// From the string, carried across level, down to it.
    pub dig_drop: Measure,
    /// Level of the bottom of the edge brick's trench at its outer face; `null` where the brick stands on the base.
    pub trench_bottom: Measure,
    /// From the string, carried across level, down to it.
    pub trench_drop: Measure,
}

/// An arc, or a part of one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CurveLine {
    /// Which leg, from 1.
    pub leg: usize,
    /// `left` or `right`.
    pub side: &'static str,
    /// Stations of its start and end.
    pub stations: [Measure; 2],
    /// The same in plan, from the middle of the door.
    pub ends: [PlanLine; 2],
    /// Straight from one to the other.
    pub chord: Measure,
    /// Along the arc.
    pub arc: Measure,
    /// Offsets from the chord.
    pub offsets: Vec<OffsetLine>,
    /// Swung from the centre; `null` where the walk tapers.
    pub swing: Option<SwingLine>,
}

/// A spot in plan, from the middle of the door.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanLine {
    /// To the right, looking away from the door.
    pub right: Measure,
    /// Away from the door.
    pub away: Measure,
}

/// An offset from a chord.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OffsetLine {
    /// Along the chord from its start.
    pub along: Measure,
    /// Square to it, to the side to which the curve bows.
    pub offset: Measure,
}

/// A tape swung from the centre.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SwingLine {
    /// Length of the tape.
    pub radius: Measure,
    /// The centre, from the centreline at the leg's start square to the run, to the side of the turn.
    pub from_start: Measure,
    /// The same in plan.
    pub centre: PlanLine,
}

/// The screed board.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ScreedLine {
    /// Its length.
    pub length: Measure,
    /// How deep its ends are notched.
    pub notch: Measure,
    /// How far the brick stands proud until the plate takes it down; the notch is that much less than the brick.
    pub proud: Measure,
    /// Width of the part that dips between the edges.
    pub between: Measure,
}

/// A mark of the gauge rod.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GaugeLine {
    /// `form-top`, `lift-2`.
    pub surface: String,
    /// What the crew calls it.
    pub name: String,
    /// From the rod's upper end.
    pub below_string: Measure,
    /// Whether it holds at every stake, or only where the dig is as deep as its least.
    pub is_everywhere: bool,
}

/// The sheet of what is built.
#[must_use]
pub fn stake_sheet(site: &Site, build: &Build) -> StakeSheet {
    let say = Wording(site.shown_in);
    let screed = &build.screed;
    StakeSheet {
        format: STAKES_FORMAT,
        version: STAKES_VERSION,
        address: on_one_line(&site.address),
        walk: on_one_line(&site.walk),
        string_above_grade: say.length(string_above_grade(build)),
        rod_at_sill: say.length(rod_at_sill(build)),
        stakes: build
            .stakes
            .iter()
            .map(|stake| stake_line(stake, say))
            .collect(),
        curves: build
            .curves
            .iter()
            .map(|curve| curve_line(curve, say))
            .collect(),
        screed: screed_line(screed, say),
        gauge: build
            .gauge
            .iter()
            .map(|mark| gauge_line(mark, say))
            .collect(),
        cautions: cautions(site),
    }
}

/// The sheet as JSON: the same bytes for the same site.
#[must_use]
pub fn stakes_json(sheet: &StakeSheet) -> String {
    crate::json::written(sheet)
}

/// How far the string hangs above the grade line: the same at every stake.
fn string_above_grade(build: &Build) -> Option<Length> {
    let stake = build.stakes.first()?;
    Some(stake.string - stake.grade)
}

/// The rod on the datum: on a surface it reads that less the surface's level.
fn rod_at_sill(build: &Build) -> Option<Length> {
    let row = build.stakes.first()?.rows.first()?;
    Some(row.rod? + row.level)
}

fn stake_line(stake: &Stake, say: Wording) -> StakeLine {
    StakeLine {
        station: say.station(Some(stake.station)),
        why: stake.why.iter().copied().map(StakeWhy::words).collect(),
        grade: say.level(stake.grade),
        string: say.level(stake.string),
        surfaces: stake
            .rows
            .iter()
            .map(|row| surface_line(row, say))
            .collect(),
        old_surface: level_if_known(stake.old_surface.map(|surface| surface.level), say),
        old_surface_is_known: stake.old_surface.is_some_and(|surface| surface.known),
        dig: say.length(stake.dig),
        edges: stake
            .edges
            .each_ref()
            .map(|edge| edge_line(edge, stake.string, say)),
    }
}

fn level_if_known(level: Option<Length>, say: Wording) -> Measure {
    level.map_or_else(|| say.length(None), |level| say.level(level))
}

fn surface_line(row: &StakeRow, say: Wording) -> SurfaceLine {
    SurfaceLine {
        surface: row.surface.key(),
        name: row.surface.name(),
        level: say.level(row.level),
        drop: say.length(Some(row.drop)),
        rod: say.length(row.rod),
    }
}

fn edge_line(edge: &EdgeStake, string: Length, say: Wording) -> EdgeLine {
    EdgeLine {
        form_offset: say.offset(edge.form_offset),
        form_top: say.level(edge.form_top),
        form_drop: say.length(Some(string - edge.form_top)),
        dig_offset: say.offset(edge.dig_offset),
        dig_bottom: say.level(edge.dig_bottom),
        dig_drop: say.length(Some(string - edge.dig_bottom)),
        trench_bottom: level_if_known(edge.trench_bottom, say),
        trench_drop: say.length(edge.trench_bottom.map(|bottom| string - bottom)),
    }
}

fn curve_line(curve: &CurveSetOut, say: Wording) -> CurveLine {
    CurveLine {
        leg: curve.leg_idx + 1,
        side: if curve.is_right { "right" } else { "left" },
        stations: curve.stations.map(|station| say.station(Some(station))),
        ends: curve.ends.map(|end| plan_line(end, say)),
        chord: say.station(Some(curve.chord)),
        arc: say.station(Some(curve.arc)),
        offsets: curve
            .offsets
            .iter()
            .map(|(along, offset)| OffsetLine {
                along: say.station(Some(*along)),
                offset: say.length(Some(*offset)),
            })
            .collect(),
        swing: curve.swing.map(|swing| SwingLine {
            radius: say.station(Some(swing.radius)),
            from_start: say.station(Some(swing.from_start)),
            centre: plan_line(swing.centre, say),
        }),
    }
}

fn plan_line((right, away): (Length, Length), say: Wording) -> PlanLine {
    PlanLine {
        right: say.station(Some(right)),
        away: say.station(Some(away)),
    }
}

fn screed_line(screed: &Screed, say: Wording) -> ScreedLine {
    ScreedLine {
        length: say.length(Some(screed.length)),
        notch: say.length(Some(screed.notch)),
        proud: say.length(Some(screed.proud)),
        between: say.length(Some(screed.between)),
    }
}

fn gauge_line(mark: &GaugeMark, say: Wording) -> GaugeLine {
    GaugeLine {
        surface: mark.surface.key(),
        name: mark.surface.name(),
        below_string: say.length(Some(mark.below_string)),
        is_everywhere: mark.is_everywhere,
    }
}
