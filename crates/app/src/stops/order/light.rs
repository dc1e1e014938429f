//! What the drawings light while a line of the order, or a stage of its work, is open.

use underbrick_calc::order::{Item, Stage};
use underbrick_calc::place::Place;

use super::hours;
use crate::light::{Dug, Light, LitPlan};
use crate::stops::opened::{Opened, OrderPart};
use crate::visit::Visit;
use underbrick_sheets::order::words::{count_words, need_words};

/// The light of what is open; `None` where nothing is.
pub(crate) fn light(visit: &Visit, opened: &Opened) -> Option<Light> {
    let priced = visit.results().order.as_ref()?.chosen()?;
    match opened.order? {
        OrderPart::Line(item) => {
            let line = priced.line(item)?;
            let plan = plan_of(item, visit.site().lay.edge_of_second);
            let count = line
                .sold
                .as_ref()
                .and_then(|sold| Some(count_words(sold.count?, sold.unit)));
            Some(Light {
                name: line.need.name.clone(),
                value: count.unwrap_or_else(|| need_words(&line.need, visit.site().shown_in)),
                places: with_edges(drawn(&line.need.from), plan),
                dug: match item {
                    Item::UnsuitableSpoil => Some(Dug::Unsuitable),
                    Item::TrimSpoil => Some(Dug::Trim),
                    _ => None,
                },
                plan,
            })
        }
        OrderPart::Stage(stage) => {
            let labour = priced
                .labour
                .iter()
                .find(|labour| labour.work.stage == stage)?;
            Some(Light {
                name: stage.name().to_owned(),
                value: labour
                    .hours
                    .map_or_else(|| "hours not known".to_owned(), hours),
                places: drawn(&labour.work.from),
                dug: matches!(stage, Stage::Dig | Stage::LoadSpoil).then_some(Dug::All),
                plan: plan_of_stage(stage),
            })
        }
    }
}

/// With the pits whose layers are named: a layer is drawn in the log of its pit.
fn drawn(from: &[Place]) -> Vec<Place> {
    let mut places = from.to_vec();
    let pits = from.iter().filter_map(|place| match place {
        Place::LayerMaterial(pit_idx, _) | Place::LayerThickness(pit_idx, _) => {
            Some(Place::Pit(*pit_idx))
        }
        _ => None,
    });
    places.extend(pits);
    places
}

/// Where brick of the field is counted with that of the edges, the section lights both.
fn with_edges(mut places: Vec<Place>, plan: Option<LitPlan>) -> Vec<Place> {
    if plan == Some(LitPlan::All) && places.contains(&Place::BrickThickness) {
        places.push(Place::EdgeStands);
    }
    places
}

/// What is counted or measured in the plan: brick, cuts and joints.
const fn plan_of(item: Item, edge_of_second: bool) -> Option<LitPlan> {
    match item {
        Item::Brick if edge_of_second => Some(LitPlan::Field),
        Item::Brick | Item::OldBrick => Some(LitPlan::All),
        Item::SecondBrick => Some(LitPlan::Edge),
        Item::Jointing => Some(LitPlan::Joints),
        Item::Saw => Some(LitPlan::Cut),
        Item::Base
        | Item::SettingBed
        | Item::Fabric
        | Item::HaunchConcrete
        | Item::EdgingStrip
        | Item::EdgingSpike
        | Item::FormBoard
        | Item::FormStake
        | Item::FormScrew
        | Item::Spacer
        | Item::String
        | Item::UnsuitableSpoil
        | Item::TrimSpoil
        | Item::OldBedSpoil
        | Item::Plate => None,
    }
}

const fn plan_of_stage(stage: Stage) -> Option<LitPlan> {
    match stage {
        Stage::LiftBrick => Some(LitPlan::All),
        Stage::EdgeBrick => Some(LitPlan::Edge),
        Stage::LayField => Some(LitPlan::Field),
        Stage::Cut => Some(LitPlan::Cut),
        Stage::Jointing => Some(LitPlan::Joints),
        Stage::Dig
        | Stage::LoadSpoil
        | Stage::TrimBottom
        | Stage::LayFabric
        | Stage::Lifts
        | Stage::Forms
        | Stage::Restraint
        | Stage::Screed
        | Stage::HandOver => None,
    }
}
