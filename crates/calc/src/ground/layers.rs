//! The layers of one pit: where they lie, and what becomes of each.

use super::{LayerFound, UnsuitableBottom, Verdict};
use crate::catalogue::{Catalogue, UnderAWalk};
use crate::field::{full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::Length;
use crate::site::{MaterialKey, Pit, Site};

/// The layers of a pit, judged.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Judged {
    pub layers: Vec<LayerFound>,
    pub dug_to: Length,
    pub unsuitable_bottom: UnsuitableBottom,
}

/// The layers in levels from `top` down, each judged by itself. It ends with the first layer whose thickness is not known, as
/// nothing below it can be placed; where that is not the last layer, a finding says so.
pub(super) fn layers(
    site: &Site,
    catalogue: &Catalogue,
    pit_idx: usize,
    pit: &Pit,
    top: Length,
    findings: &mut Findings,
) -> Vec<LayerFound> {
    let mut layers = Vec::with_capacity(pit.layers.len());
    let mut top = top;
    for (layer_idx, layer) in pit.layers.iter().enumerate() {
        let place = Place::LayerThickness(pit_idx, layer_idx);
        let thickness = take_length(site, place, layer.thickness, Weight::Warning, findings);
        let bottom = thickness.map(|thickness| top - thickness);
        layers.push(LayerFound {
            top,
            bottom,
            material: layer.material.clone(),
            verdict: verdict(
                catalogue,
                &layer.material,
                Place::LayerMaterial(pit_idx, layer_idx),
                findings,
            ),
        });
        let Some(bottom) = bottom else {
            if layer_idx + 1 < pit.layers.len() {
                let text = format!(
                    "{} is missing: where the layers below it lie is not known.",
                    full_name(place)
                );
                let remedy = "Only the last layer may go on down without a thickness.";
                findings.note(place, Weight::Warning, Source::Readings, text, remedy);
            }
            break;
        };
        top = bottom;
    }
    layers
}

/// What becomes of a material that lies by itself under a walk.
///
/// # Source
/// Which material may stay stands in the catalogue, each with its source.
fn verdict(
    catalogue: &Catalogue,
    key: &MaterialKey,
    place: Place,
    findings: &mut Findings,
) -> Verdict {
    match catalogue.find(key).map(|material| material.under_a_walk) {
        Some(UnderAWalk::OldPavement) => Verdict::Lifted,
        Some(UnderAWalk::MustComeOut) => Verdict::ComesOut,
        Some(UnderAWalk::Base | UnderAWalk::Subgrade) => Verdict::Stays,
        None => {
            let text = format!(
                "{}: the catalogue does not know \"{}\".",
                full_name(place),
                key.0
            );
            let remedy = "It is counted as coming out until it is named.";
            findings.note(place, Weight::Warning, Source::Readings, text, remedy);
            Verdict::NotKnown
        }
    }
}

/// What becomes of the layers together. What may stay by itself still comes out where something below it must. What is not known is
/// not trusted: it counts as coming out.
///
/// The bottom is the lower face of the deepest layer that comes out, or else of the old pavement. It is found only where the pit
/// went on into a layer that may stay; otherwise the lowest level dug to is the least that must come out.
pub(super) fn judge(top: Length, mut layers: Vec<LayerFound>, n_layers_written: usize) -> Judged {
    let dug_to = layers
        .last()
        .map_or(top, |last| last.bottom.unwrap_or(last.top));
    let all_placed = layers.len() == n_layers_written;
    let found = all_placed
        && layers
            .last()
            .is_some_and(|last| last.verdict == Verdict::Stays);
    let deepest_idx = layers
        .iter()
        .rposition(|layer| matches!(layer.verdict, Verdict::ComesOut | Verdict::NotKnown));
    if let Some(deepest_idx) = deepest_idx {
        for layer in layers.iter_mut().take(deepest_idx) {
            if layer.verdict == Verdict::Stays {
                layer.verdict = Verdict::ComesOut;
            }
        }
    }
    let lifted_idx = layers
        .iter()
        .rposition(|layer| layer.verdict == Verdict::Lifted);
    let lowest = deepest_idx
        .max(lifted_idx)
        .and_then(|layer_idx| layers.get(layer_idx));
    let level = match (found, lowest) {
        (true, Some(layer)) => layer.bottom.unwrap_or(layer.top),
        (true, None) => top,
        (false, _) => dug_to,
    };
    Judged {
        layers,
        dug_to,
        unsuitable_bottom: UnsuitableBottom { level, found },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{in_metres, inches, metres};
    use Verdict::{ComesOut, Lifted, NotKnown, Stays};

    /// Layers as (verdict by itself, thickness in inches), from a surface at level 0.
    #[track_caller]
    fn check(
        pit: &[(Verdict, Option<f64>)],
        verdicts: &[Verdict],
        bottom_in: f64,
        found: bool,
        dug_to_in: f64,
    ) {
        let mut top = metres(0.0);
        let mut layers = Vec::new();
        for (verdict, thickness_in) in pit {
            let bottom = thickness_in.map(|thickness_in| top - inches(thickness_in));
            layers.push(LayerFound {
                top,
                bottom,
                material: MaterialKey("any".to_owned()),
                verdict: *verdict,
            });
            top = bottom.unwrap_or(top);
        }
        let judged = judge(metres(0.0), layers, pit.len());
        assert_eq!(
            judged
                .layers
                .iter()
                .map(|layer| layer.verdict)
                .collect::<Vec<_>>(),
            verdicts
        );
        assert!((in_metres(judged.unsuitable_bottom.level) / 0.0254 - bottom_in).abs() < 1e-9);
        assert_eq!(judged.unsuitable_bottom.found, found);
        assert!((in_metres(judged.dug_to) / 0.0254 - dug_to_in).abs() < 1e-9);
    }

    #[test]
    fn sand_on_firm_gravel_comes_out_to_the_gravel() {
        // 2 1/4 in brick, 3 in sand, gravel going on: 5 1/4 in down.
        check(
            &[(Lifted, Some(2.25)), (ComesOut, Some(3.0)), (Stays, None)],
            &[Lifted, ComesOut, Stays],
            -5.25,
            true,
            -5.25,
        );
    }

    #[test]
    fn a_pit_that_ends_in_sand_has_not_found_the_bottom() {
        // Stopped 6 in into the sand: at least 8 1/4 in must come out.
        check(
            &[(Lifted, Some(2.25)), (ComesOut, Some(6.0))],
            &[Lifted, ComesOut],
            -8.25,
            false,
            -8.25,
        );
        // Sand going on with no thickness: dug to its top only.
        check(
            &[(Lifted, Some(2.25)), (ComesOut, None)],
            &[Lifted, ComesOut],
            -2.25,
            false,
            -2.25,
        );
    }

    #[test]
    fn good_ground_above_bad_ground_comes_out_too() {
        let pit = [
            (Lifted, Some(2.25)),
            (Stays, Some(2.0)),
            (ComesOut, Some(4.0)),
            (Stays, Some(1.0)),
        ];
        check(
            &pit,
            &[Lifted, ComesOut, ComesOut, Stays],
            -8.25,
            true,
            -9.25,
        );
    }

    #[test]
    fn with_nothing_bad_the_bottom_is_under_the_old_brick() {
        check(
            &[(Lifted, Some(2.25)), (Stays, Some(6.0))],
            &[Lifted, Stays],
            -2.25,
            true,
            -8.25,
        );
        // No old brick there at all.
        check(&[(Stays, Some(6.0))], &[Stays], 0.0, true, -6.0);
        // Only the brick was lifted: nothing is known below it.
        check(&[(Lifted, Some(2.25))], &[Lifted], -2.25, false, -2.25);
    }

    #[test]
    fn what_is_not_known_is_not_trusted() {
        check(
            &[(NotKnown, Some(5.0)), (Stays, None)],
            &[NotKnown, Stays],
            -5.0,
            true,
            -5.0,
        );
        check(
            &[(Stays, Some(2.0)), (NotKnown, Some(5.0))],
            &[ComesOut, NotKnown],
            -7.0,
            false,
            -7.0,
        );
    }

    #[test]
    fn a_middle_layer_without_thickness_hides_what_is_below() {
        let layer = |top_in: f64, bottom: Option<Length>, verdict| LayerFound {
            top: inches(top_in),
            bottom,
            material: MaterialKey("any".to_owned()),
            verdict,
        };
        // Three layers were written down, the second without a thickness.
        let judged = judge(
            metres(0.0),
            vec![
                layer(0.0, Some(inches(-2.25)), Lifted),
                layer(-2.25, None, Stays),
            ],
            3,
        );
        assert_eq!(
            judged.unsuitable_bottom,
            UnsuitableBottom {
                level: inches(-2.25),
                found: false
            }
        );
    }
}
