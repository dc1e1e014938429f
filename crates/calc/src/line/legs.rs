//! From what was written down of the run to legs that can be built.

use super::RunLeg;
use crate::field::{self, full_name};
use crate::findings::{Findings, Source, Weight};
use crate::lay::BrickSize;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres, unit};
use crate::site::{Hand, Leg, LegShape, Site};

/// The legs of a site, placed one after the other; `None` where one of them is missing or cannot be built.
///
/// All legs are looked at, so that every fault is named at once.
pub(super) fn legs(
    site: &Site,
    edge_across: Length,
    findings: &mut Findings,
) -> Option<Vec<RunLeg>> {
    if site.line.legs.is_empty() {
        stop(
            findings,
            Place::Site,
            "The run has no leg: its length is not known.",
            "Measure the run from the door, leg by leg.",
        );
    }
    let mut width = needed(site, Place::Width, site.line.width, findings);
    let mut start = metres(0.0);
    let mut legs = Vec::with_capacity(site.line.legs.len());
    for (leg_idx, leg) in site.line.legs.iter().enumerate() {
        let width_at_end = width_at_end(site, leg_idx, leg, width, findings);
        let shape = shape(site, leg_idx, leg, findings);
        if let (Some((length, curvature_per_m)), Some(width_at_start), Some(width_at_end)) =
            (shape, width, width_at_end)
        {
            let widest = if width_at_start > width_at_end {
                width_at_start
            } else {
                width_at_end
            };
            if refuse_tight_curve(
                site,
                leg_idx,
                curvature_per_m,
                widest,
                edge_across,
                findings,
            ) {
                legs.push(RunLeg {
                    start,
                    length,
                    curvature_per_m,
                    width_at_start,
                    width_at_end,
                });
                start += length;
            }
        }
        width = width_at_end;
    }
    let all_can_be_built = !legs.is_empty() && legs.len() == site.line.legs.len();
    all_can_be_built.then_some(legs)
}

/// How wide the edge brick is, square to the run.
pub(super) fn edge_across(site: &Site) -> Length {
    BrickSize::edge_brick(site).across
}

/// Clear width at the end of a leg: its own, or the one it starts with.
fn width_at_end(
    site: &Site,
    leg_idx: usize,
    leg: &Leg,
    width_at_start: Option<Length>,
    findings: &mut Findings,
) -> Option<Length> {
    match leg.width_at_end {
        Some(_) => needed(
            site,
            Place::LegWidthAtEnd(leg_idx),
            leg.width_at_end,
            findings,
        ),
        None => width_at_start,
    }
}

/// Length along the centreline and curvature per metre, right positive.
fn shape(site: &Site, leg_idx: usize, leg: &Leg, findings: &mut Findings) -> Option<(Length, f64)> {
    match leg.shape {
        LegShape::Straight { length } => Some((
            needed(site, Place::LegLength(leg_idx), length, findings)?,
            0.0,
        )),
        LegShape::Curve { radius, turn, hand } => {
            let radius = needed(site, Place::LegRadius(leg_idx), radius, findings);
            let place = Place::LegTurn(leg_idx);
            let turn = match turn.map(|turn| field::check_turn(place, turn)) {
                None => {
                    missing(findings, place);
                    None
                }
                Some(Err(error)) => {
                    field::note_out_of_reason(site, error, Weight::Stop, findings);
                    None
                }
                Some(Ok(turn)) => Some(turn),
            };
            let (radius, turn_rad) = (radius?, turn?.get::<unit::radian>());
            let side = match hand {
                Hand::Left => -1.0,
                Hand::Right => 1.0,
            };
            Some((radius * turn_rad, side / in_metres(radius)))
        }
    }
}

/// Whether the inner edge brick still has room; a finding where it has none.
fn refuse_tight_curve(
    site: &Site,
    leg_idx: usize,
    curvature_per_m: f64,
    widest: Length,
    edge_across: Length,
    findings: &mut Findings,
) -> bool {
    let least_radius = widest * 0.5 + edge_across;
    if curvature_per_m.abs() * in_metres(least_radius) < 1.0 {
        return true;
    }
    let place = Place::LegRadius(leg_idx);
    let text = format!(
        "{}: {} is not above half the width plus the edge brick, {}.",
        full_name(place),
        site.shown_in.length(metres(1.0 / curvature_per_m.abs())),
        site.shown_in.length(least_radius)
    );
    stop(
        findings,
        place,
        &text,
        "Take a larger radius or a narrower walk.",
    );
    false
}

/// A length without which there is no run.
fn needed(
    site: &Site,
    place: Place,
    length: Option<Length>,
    findings: &mut Findings,
) -> Option<Length> {
    if length.is_none() {
        missing(findings, place);
    }
    field::take_length(site, place, length, Weight::Stop, findings)
}

fn missing(findings: &mut Findings, place: Place) {
    stop(
        findings,
        place,
        &format!("{} is missing.", full_name(place)),
        field::field(place).how,
    );
}

fn stop(findings: &mut Findings, place: Place, text: &str, remedy: &str) {
    findings.note(place, Weight::Stop, Source::Readings, text, remedy);
}
