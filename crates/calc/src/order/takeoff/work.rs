//! The work, stage by stage.

use super::super::item::Item;
use super::super::need::{Need, NeedAmount, Work, WorkAmount};
use super::super::stage::Stage;
use super::Job;
use super::spoil::loose_away;
use crate::bed::Bed;
use crate::lay::Lay;
use crate::place::Place;
use crate::quantity::{Area, Length, Volume, cubic_metres, metres, square_metres};
use crate::site::RestraintInput;

/// The work of every stage that the design asks for.
pub(super) fn work(job: &Job<'_>, needs: &[Need]) -> Vec<Work> {
    Stage::ALL
        .into_iter()
        .filter_map(|stage| of_stage(job, needs, stage))
        .collect()
}

fn of_stage(job: &Job<'_>, needs: &[Need], stage: Stage) -> Option<Work> {
    let bed = job.bed();
    let digs = job.way.digs();
    let area = |area: fn(&Bed) -> Area| bed.map(area).map(WorkAmount::Area);
    let is_asked = match stage {
        Stage::TrimBottom | Stage::Lifts => digs,
        Stage::LayFabric => digs && job.site.bed.fabric,
        Stage::Restraint => job.site.edge.restraint != RestraintInput::Nothing,
        Stage::Cut => job.lay().is_none_or(|lay| n_cut(lay) > 0),
        _ => true,
    };
    if !is_asked {
        return None;
    }
    let amount = match stage {
        Stage::LiftBrick | Stage::Jointing => paved(job).map(WorkAmount::Area),
        Stage::Dig => in_place_dug(needs).map(WorkAmount::Volume),
        Stage::LoadSpoil => loose_away(needs).map(WorkAmount::Volume),
        Stage::TrimBottom | Stage::LayFabric => area(|bed| bed.earthwork.dig_area),
        Stage::Lifts => area(lift_area),
        Stage::Forms => bed.map(|bed| WorkAmount::Length(bed.edge.forms.length)),
        Stage::EdgeBrick => edge_brick(job).map(WorkAmount::Length),
        Stage::Restraint => bed.map(|bed| {
            WorkAmount::Length(bed.edge.left.outer_length + bed.edge.right.outer_length)
        }),
        Stage::Screed | Stage::LayField => clear(job).map(WorkAmount::Area),
        Stage::Cut => job.lay().map(|lay| WorkAmount::Pieces(n_cut(lay))),
        Stage::HandOver => Some(WorkAmount::Job),
    };
    Some(Work {
        stage,
        amount,
        is_least: amount.is_none() || is_least(job, needs, stage),
        from: from(job, needs, stage),
    })
}

/// Field and edges; the old walk is lifted over the same width.
fn paved(job: &Job<'_>) -> Option<Area> {
    let of_lay = || job.found.lay.map(|lay| lay.areas.clear + lay.areas.edges);
    job.bed()
        .map(|bed| bed.earthwork.paved_area)
        .or_else(of_lay)
}

/// Between the edges.
fn clear(job: &Job<'_>) -> Option<Area> {
    let of_lay = || job.found.lay.map(|lay| lay.areas.clear);
    job.bed()
        .map(|bed| bed.earthwork.field_area)
        .or_else(of_lay)
}

fn lift_area(bed: &Bed) -> Area {
    bed.lifts
        .each
        .iter()
        .map(|lift| bed.dig.lift_area(lift.number))
        .fold(square_metres(0.0), |sum, area| sum + area)
}

/// Inner faces of both edges, and the rows across.
fn edge_brick(job: &Job<'_>) -> Option<Length> {
    let (bed, line) = job.bed().zip(job.found.line)?;
    let run = &line.run;
    let row = |is_asked: bool, station: Length| {
        if is_asked {
            run.clear_width_at(station)
        } else {
            metres(0.0)
        }
    };
    Some(
        bed.edge.left.inner_length
            + bed.edge.right.inner_length
            + row(job.site.lay.return_at_door, metres(0.0))
            + row(job.site.lay.return_at_end, run.length()),
    )
}

fn n_cut(lay: &Lay) -> u32 {
    lay.cuts.first.n_cut.saturating_add(lay.cuts.second.n_cut)
}

const DUG: [Item; 3] = [Item::UnsuitableSpoil, Item::TrimSpoil, Item::OldBedSpoil];

/// What is dug, in the ground, of what is known.
fn in_place_dug(needs: &[Need]) -> Option<Volume> {
    let volumes = dug(needs).filter_map(|need| match need.amount {
        Some(NeedAmount::Bulk { in_place, .. }) => Some(in_place),
        _ => None,
    });
    volumes.fold(None, |sum, volume| {
        Some(sum.unwrap_or(cubic_metres(0.0)) + volume)
    })
}

fn dug(needs: &[Need]) -> impl Iterator<Item = &Need> {
    needs.iter().filter(|need| DUG.contains(&need.item))
}

fn is_least(job: &Job<'_>, needs: &[Need], stage: Stage) -> bool {
    match stage {
        Stage::Dig => dug(needs).any(|need| need.is_least),
        Stage::LoadSpoil => dug(needs)
            .chain(needs.iter().filter(|need| need.item == Item::OldBrick))
            .any(|need| need.is_least),
        Stage::Lifts => job.bed().is_some_and(|bed| bed.earthwork.is_least),
        _ => false,
    }
}

fn from(job: &Job<'_>, needs: &[Need], stage: Stage) -> Vec<Place> {
    let of = |items: &[Item]| {
        let mut places: Vec<Place> = Vec::new();
        for need in needs.iter().filter(|need| items.contains(&need.item)) {
            for place in &need.from {
                if !places.contains(place) {
                    places.push(*place);
                }
            }
        }
        places
    };
    match stage {
        Stage::LiftBrick => vec![Place::OldSurface, Place::Width],
        Stage::Dig => of(&DUG),
        Stage::LoadSpoil => of(&[DUG[0], DUG[1], DUG[2], Item::OldBrick]),
        Stage::TrimBottom => vec![Place::DigBottom],
        Stage::LayFabric => of(&[Item::Fabric]),
        Stage::Lifts => of(&[Item::Base]),
        Stage::Forms => of(&[Item::FormBoard]),
        Stage::EdgeBrick => vec![Place::EdgeStands],
        Stage::Restraint => vec![Place::Restraint],
        Stage::Screed => vec![Place::SettingBed, Place::Width],
        Stage::LayField => vec![Place::BrickThickness, Place::Width],
        Stage::Cut => job.lay().map(cut_pieces).unwrap_or_default(),
        Stage::Jointing => vec![Place::Joint],
        Stage::HandOver => Vec::new(),
    }
}

/// Every piece that is sawn.
fn cut_pieces(lay: &Lay) -> Vec<Place> {
    let pieces = lay.pieces.all().iter().enumerate();
    pieces
        .filter(|(_, piece)| piece.kind.is_cut())
        .filter_map(|(piece_idx, _)| u32::try_from(piece_idx).ok())
        .map(Place::Piece)
        .collect()
}
