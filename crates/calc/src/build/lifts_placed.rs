//! Lifts as they were placed: not tipped thicker than the plate reaches, and passed over often enough.

use super::check::{LiftFound, Verdict};
use super::passes::{self, Plant};
use super::readings::ROUNDING_M;
use crate::bed::{Bed, Lift};
use crate::field::{check_length, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::{Length, inches, metres};
use crate::site::{LiftPlaced, Site};

/// What the lift record says of each lift of the design; nothing where no base is built. Of a lift that was written down twice the later entry counts.
///
/// Too thick is judged as tipped; where only the compacted thickness was read, by that times the ratio of loose to compacted. Where
/// the class of the plate was not written down the fewest passes of all published classes are asked for, and all of them are told.
pub(super) fn lifts(site: &Site, bed: &Bed, findings: &mut Findings) -> Vec<LiftFound> {
    if !site.order.way.digs() {
        return Vec::new();
    }
    no_such_lift(site, bed, findings);
    bed.lifts
        .each
        .iter()
        .map(|lift| found(site, bed, lift, findings))
        .collect()
}

fn no_such_lift(site: &Site, bed: &Bed, findings: &mut Findings) {
    let n_lifts = bed.lifts.each.len();
    for placed in &site.build.lifts {
        if (1..=n_lifts).contains(&placed.number) {
            continue;
        }
        findings.note(
            Place::LiftLoose(placed.number),
            Weight::Note,
            Source::Readings,
            format!(
                "Lift {} was placed, but the design has lifts 1 to {n_lifts}.",
                placed.number
            ),
            "It is kept as written; see whether the design was changed on purpose.",
        );
    }
}

/// The last entry of a lift, without thicknesses that cannot be true.
pub(super) fn entry(site: &Site, number: usize) -> Option<LiftPlaced> {
    let placed = last(site, number)?;
    let taken = |place: Place, length: Option<Length>| check_length(place, length?).ok();
    Some(LiftPlaced {
        loose: taken(Place::LiftLoose(number), placed.loose),
        compacted: taken(Place::LiftCompacted(number), placed.compacted),
        ..placed.clone()
    })
}

/// The last entry of a lift as written.
pub(super) fn last(site: &Site, number: usize) -> Option<&LiftPlaced> {
    site.build
        .lifts
        .iter()
        .rev()
        .find(|placed| placed.number == number)
}

/// Whether a lift was tipped too thick.
pub(super) fn thickness_verdict(bed: &Bed, placed: Option<&LiftPlaced>) -> Verdict {
    match placed.and_then(|placed| as_tipped(bed, placed)) {
        None => Verdict::NotKnown,
        Some(loose) if loose > bed.lifts.loose_limit + metres(ROUNDING_M) => Verdict::High,
        Some(_) => Verdict::Right,
    }
}

/// Whether a lift was passed over often enough; where nothing is published for its thickness, one pass is the least.
pub(super) fn passes_verdict(plant: Plant, lift: &Lift, placed: Option<&LiftPlaced>) -> Verdict {
    let asked = passes::fewest(plant, compacted(lift, placed)).unwrap_or(1);
    match placed.and_then(|placed| placed.n_passes) {
        None => Verdict::NotKnown,
        Some(n_passes) if n_passes < asked => Verdict::Low,
        Some(_) => Verdict::Right,
    }
}

/// Compacted thickness at its thickest, as read, else as designed.
fn compacted(lift: &Lift, placed: Option<&LiftPlaced>) -> Length {
    placed
        .and_then(|placed| placed.compacted)
        .unwrap_or(lift.compacted)
}

fn found(site: &Site, bed: &Bed, lift: &Lift, findings: &mut Findings) -> LiftFound {
    if let Some(written) = last(site, lift.number) {
        for (place, length) in [
            (Place::LiftLoose(lift.number), written.loose),
            (Place::LiftCompacted(lift.number), written.compacted),
        ] {
            // For its finding: what cannot be true is left out of the entry.
            let _ = take_length(site, place, length, Weight::Warning, findings);
        }
    }
    let placed = entry(site, lift.number);
    let thickness = thickness_verdict(bed, placed.as_ref());
    let plant = site.bed.plant;
    let passes = passes_verdict(plant, lift, placed.as_ref());
    let asked = passes::fewest(plant, compacted(lift, placed.as_ref()));
    let passes_rule = passes::words(plant, compacted(lift, placed.as_ref()));
    let verdict = match (thickness, passes) {
        (Verdict::High, _) => Verdict::High,
        (_, Verdict::Low) => Verdict::Low,
        (Verdict::Right, Verdict::Right) => Verdict::Right,
        _ => Verdict::NotKnown,
    };
    let advice = match verdict {
        Verdict::High => too_thick(site, bed, placed.as_ref()),
        Verdict::Low => format!("Too few passes: dampen it and pass on. {passes_rule}"),
        Verdict::Right | Verdict::NotKnown => String::new(),
    };
    LiftFound {
        number: lift.number,
        loose_limit: bed.lifts.loose_limit,
        compacted: lift.compacted,
        n_passes_asked: asked,
        passes_rule,
        verdict,
        advice,
    }
}

/// Thickness as tipped, read or reckoned back from the compacted.
pub(super) fn as_tipped(bed: &Bed, placed: &LiftPlaced) -> Option<Length> {
    placed.loose.or_else(|| {
        placed
            .compacted
            .map(|compacted| compacted * bed.lifts.loose_to_compacted)
    })
}

/// # Source
/// Most that is published for hand tampers and small plant, 6 in loose: Maryland State Highway Administration.
fn too_thick(site: &Site, bed: &Bed, placed: Option<&LiftPlaced>) -> String {
    let Some(loose) = placed.and_then(|placed| as_tipped(bed, placed)) else {
        return String::new();
    };
    let shown = site.shown_in;
    let over = shown.thickness(loose - bed.lifts.loose_limit);
    let hand = inches(6.0);
    if loose > hand + metres(ROUNDING_M) {
        return format!(
            "{over} too thick, and over the {} loose that is the most published for hand tampers and small plant: rake it off to {}, compact, and place the rest as a lift of its own.",
            shown.thickness(hand),
            shown.thickness(bed.lifts.loose_limit)
        );
    }
    format!(
        "{over} too thick: rake it off to {} before it is compacted; if it is compacted already, loosen it, take off {over} and compact again.",
        shown.thickness(bed.lifts.loose_limit)
    )
}
