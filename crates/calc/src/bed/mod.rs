//! From brick to undisturbed ground: section, lifts, edges, earthwork.

mod along;
mod checks;
mod count;
mod dig;
mod earthwork;
mod edges;
mod lift_rule;
mod lifts;
mod outline;
mod patch;
mod section;
mod soil_factors;
mod spoil;
mod strip;
mod theory;
mod thickness;
mod wishes;

pub use along::{Along, AlongSpot, LiftBand};
pub use dig::{BaseSpot, Dig};
pub use earthwork::{Dug, Earthwork};
pub use edges::{Edge, EdgeBrick, EdgeSide, Forms, Restraint};
pub use lifts::{Lift, Lifts};
pub use section::{EdgeSlice, LiftSlice, Section, Spot};
pub use spoil::Spoil;
pub use theory::Theory;
pub use thickness::{Factor, Grade, WorkedOut};

use crate::catalogue::{BaseFigures, Catalogue};
use crate::field::check_length;
use crate::findings::{Findings, Source, Weight};
use crate::ground::soil::SoilFound;
use crate::ground::{Ground, Penetrometer};
use crate::line::Line;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;
use dig::Wish;
use lifts::LiftLimits;
use wishes::Wishes;

/// The bed that is to be built.
#[derive(Clone, Debug, PartialEq)]
pub struct Bed {
    /// Thickness of the brick as laid.
    pub unit_thickness: Length,
    /// Compacted setting bed.
    pub setting_bed: Length,
    /// Base top below the grade line: brick and setting bed.
    pub base_top_below_grade: Length,
    /// Least thickness of the base that was asked for.
    pub least_base: Length,
    /// The least base that use and ground ask for, part by part; taken where none was asked for.
    pub worked_out: WorkedOut,
    /// Thickest and thinnest base within the dig, compacted.
    pub thickest_base: Length,
    /// Thinnest base within the dig, compacted.
    pub thinnest_base: Length,
    /// Whether a separation fabric lies on the undisturbed ground.
    pub fabric: bool,
    /// The lifts, from the bottom.
    pub lifts: Lifts,
    /// Edge brick, trench, restraint, forms.
    pub edge: Edge,
    /// Bottom of the dig everywhere.
    pub dig: Dig,
    /// Volumes, areas, masses.
    pub earthwork: Earthwork,
}

/// What lies under the bed.
#[derive(Clone, Copy, Debug)]
pub struct Under<'a> {
    /// The pits in levels.
    pub ground: &'a Ground,
    /// What was driven into them.
    pub penetrometers: &'a [Penetrometer],
    /// What tests and feel say of the soil; `None` where nothing was written down of it.
    pub soil: Option<&'a SoilFound>,
}

/// The largest loose thickness of a lift: as written down, else as thick as is published for what compacts it, else the default.
fn loose_limit(site: &Site, wishes: &Wishes, base: &BaseFigures) -> Length {
    let own = site.bed.loose_lift;
    let is_own = own.is_some_and(|own| check_length(Place::LooseLift, own).is_ok());
    match site.bed.plant.most_compacted() {
        Some(most) if !is_own => most * base.loose_to_compacted,
        _ => wishes.loose_lift,
    }
}

/// Designs the bed. `None` where it cannot be: a finding says why.
pub fn bed(
    site: &Site,
    catalogue: &Catalogue,
    line: &Line,
    under: Under<'_>,
    findings: &mut Findings,
) -> Option<Bed> {
    let base = base_figures(site, catalogue, findings)?;
    let Under {
        ground,
        penetrometers,
        ..
    } = under;
    let worked_out = thickness::worked_out(site, catalogue, under);
    let wishes = Wishes::of(site, worked_out.thickness, findings);
    let limits = LiftLimits::new(loose_limit(site, &wishes, &base), &base);
    let base_top_below_grade = wishes.base_top_below_grade();

    // A pit, and the middle of pits so near each other that they count as one.
    let pits = ground
        .pits
        .iter()
        .map(|pit| pit.station)
        .chain(ground.station_breaks());
    let breaks_m: Vec<f64> = line
        .old_surface
        .station_breaks()
        .into_iter()
        .chain(pits)
        .chain(line.grade.breaks())
        .map(in_metres)
        .collect();
    let stretches = strip::stretches(&line.run, &breaks_m);
    let wish = Wish {
        base_top_below_grade_m: in_metres(base_top_below_grade),
        least_base_m: in_metres(wishes.least_base),
        undercut_m: wishes.undercut_limit.map_or(f64::INFINITY, in_metres),
        lift_limit_m: in_metres(limits.compacted),
        thinnest_partial_m: in_metres(limits.thinnest_partial),
        beyond_m: in_metres(wishes.edge_brick.across + wishes.side_extension),
    };
    let dig = Dig::new(&stretches, &line.grade, ground, &wish);
    let (thickest_m, thinnest_m) = dig.thickness_range_m();
    let lifts = lifts::lifts(&dig, &limits, base_top_below_grade);
    let edge = edges::edge(&line.run, &wishes);
    let earthwork = earthwork::earthwork(catalogue, line, ground, &dig, &edge, &wishes, &base);
    let bed = Bed {
        unit_thickness: wishes.brick_thickness,
        setting_bed: wishes.setting_bed,
        base_top_below_grade,
        least_base: wishes.least_base,
        worked_out,
        thickest_base: metres(thickest_m),
        thinnest_base: metres(thinnest_m),
        fabric: site.bed.fabric,
        lifts,
        edge,
        dig,
        earthwork,
    };
    checks::check(site, &bed, &wishes, findings);
    thickness::check(
        site,
        wishes.least_base,
        &bed.worked_out,
        penetrometers,
        findings,
    );
    Some(bed)
}

/// The cross-section at a station, looking away from the door. Stations beyond the ends are moved to the nearest end.
#[must_use]
pub fn section_at(
    site: &Site,
    line: &Line,
    ground: &Ground,
    bed: &Bed,
    station: Length,
) -> Section {
    section::section(site, line, ground, bed, station)
}

/// Everything along the run at one offset, from the door to the far end. An offset outside the dig takes the dig's bottom at its
/// side, all else where it is.
#[must_use]
pub fn along(line: &Line, ground: &Ground, bed: &Bed, offset: Length) -> Along {
    along::long_section(line, ground, bed, offset)
}

fn base_figures(
    site: &Site,
    catalogue: &Catalogue,
    findings: &mut Findings,
) -> Option<BaseFigures> {
    let key = &site.bed.base_material;
    let Some(base) = catalogue.find(key).and_then(|material| material.as_base) else {
        let text = format!(
            "\"{}\" is not a base material of the catalogue: base and lifts are not known.",
            key.0
        );
        findings.note(
            Place::BaseMaterial,
            Weight::Stop,
            Source::Readings,
            text,
            "Choose the base material from the list.",
        );
        return None;
    };
    if !(1.0..=2.0).contains(&base.loose_to_compacted) {
        let text = format!(
            "\"{}\" has a loose to compacted ratio of {}: not from 1 to 2.",
            key.0, base.loose_to_compacted
        );
        findings.note(
            Place::BaseMaterial,
            Weight::Stop,
            Source::Readings,
            text,
            "Set the catalogue right.",
        );
        return None;
    }
    Some(base)
}
