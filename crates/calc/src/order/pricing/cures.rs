//! What a way of rebuilding does and does not cure.

use super::super::item::Way;
use super::super::priced::{Cure, Cured};
use crate::findings::rules::{CauseFound, CuredBy};

/// What becomes of each cause, in the order in which they were found.
pub(super) fn cures(way: Way, causes: &[CauseFound]) -> Vec<Cure> {
    causes
        .iter()
        .map(|cause| Cure {
            rule_id: cause.rule_id.clone(),
            cause: cause.cause.words(),
            cured: cured(way, cause.cured_by),
            remedy: cause.remedy.clone(),
        })
        .collect()
}

/// Each way does what those before it do, and more.
fn cured(way: Way, least: Option<CuredBy>) -> Cured {
    let least = match least {
        None => return Cured::NotSaid,
        Some(CuredBy::OtherWork) => return Cured::OtherWork,
        Some(CuredBy::Relay) => Way::Relay,
        Some(CuredBy::NewBase) => Way::NewBase,
        Some(CuredBy::NewBrick) => Way::NewBrick,
    };
    if way >= least { Cured::Yes } else { Cured::No }
}
