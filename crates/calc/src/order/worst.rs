//! The ground if its worst pit held everywhere.

use crate::ground::{Ground, PitFound, Verdict};
use crate::quantity::{Length, in_metres};
use crate::site::Site;

/// A tenth of a millimetre: pits that differ by less are alike.
const ALIKE_M: f64 = 1e-4;

/// The site with the layers of its worst pit in every pit; `None` where that changes nothing, as with a single pit.
///
/// The worst pit is the one in which what must come out reaches deepest below the surface there; of two as deep, the one that did not
/// find its bottom; of two alike, the one nearer the door. A pit in which the bottom was not found does not find it in the layers of
/// another: they end there with what must come out.
pub(crate) fn worst_site(site: &Site, ground: &Ground) -> Option<Site> {
    let worst = ground
        .pits
        .iter()
        .reduce(|one, other| if is_worse(other, one) { other } else { one })?;
    let depth = unsuitable_depth_m(worst);
    let is_shallower = |pit: &PitFound| unsuitable_depth_m(pit) < depth - ALIKE_M;
    if !ground.pits.iter().any(is_shallower) {
        return None;
    }
    let layers = &site.pits.get(worst.pit_idx)?.layers;
    let n_unsuitable = n_unsuitable(worst);
    let mut changed = site.clone();
    for pit in &ground.pits {
        let Some(written) = changed.pits.get_mut(pit.pit_idx) else {
            continue;
        };
        let n_layers = if pit.unsuitable_bottom.found {
            layers.len()
        } else {
            n_unsuitable
        };
        written.layers = layers.iter().take(n_layers).cloned().collect();
    }
    Some(changed)
}

fn is_worse(other: &PitFound, one: &PitFound) -> bool {
    let (other_m, one_m) = (unsuitable_depth_m(other), unsuitable_depth_m(one));
    if (other_m - one_m).abs() > ALIKE_M {
        return other_m > one_m;
    }
    one.unsuitable_bottom.found && !other.unsuitable_bottom.found
}

fn unsuitable_depth_m(pit: &PitFound) -> f64 {
    let depth: Length = pit.top - pit.unsuitable_bottom.level;
    in_metres(depth)
}

/// How many layers there are down to the bottom of what must come out; all of them where the bottom was not found.
fn n_unsuitable(pit: &PitFound) -> usize {
    if !pit.unsuitable_bottom.found {
        return pit.layers.len();
    }
    let lowest = pit
        .layers
        .iter()
        .rposition(|layer| layer.verdict != Verdict::Stays);
    lowest.map_or(0, |layer_idx| layer_idx + 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Catalogue, Drainage, Hatch, Material, UnderAWalk};
    use crate::findings::Findings;
    use crate::line::tests::{site as plain_site, straight};
    use crate::quantity::{feet, inches, kilograms_per_cubic_metre};
    use crate::site::{Layer, MaterialKey, PenetrometerLog, Pit, PitEnd, Shot, ShotBy};

    fn catalogue() -> Catalogue {
        let material = |name: &str, under_a_walk| Material {
            key: MaterialKey(name.to_owned()),
            name: name.to_owned(),
            under_a_walk,
            as_base: None,
            drainage: Drainage::Slow,
            bank_density: kilograms_per_cubic_metre(1800.0),
            loose_density: kilograms_per_cubic_metre(1500.0),
            swell: 0.2,
            hatch: Hatch::Sand,
            source: "made up for this test".to_owned(),
        };
        Catalogue {
            materials: vec![
                material("brick", UnderAWalk::OldPavement),
                material("sand", UnderAWalk::MustComeOut),
                material("loam", UnderAWalk::MustComeOut),
                material("clay", UnderAWalk::Subgrade),
            ],
            ..Catalogue::default()
        }
    }

    /// A pit of these layers, in inches.
    fn pit(station_ft: f64, layers: &[(&str, Option<f64>)]) -> Pit {
        Pit {
            station: Some(feet(station_ft)),
            offset: None,
            layers: layers
                .iter()
                .map(|(material, thickness_in)| Layer {
                    material: MaterialKey((*material).to_owned()),
                    thickness: thickness_in.map(inches),
                    firmness: None,
                    moisture: None,
                })
                .collect(),
            seep: None,
            ended: PitEnd::Stopped,
            penetrometer: PenetrometerLog::default(),
        }
    }

    /// A walk of 20 ft; the old surface falls 6 in along it, so that levels and depths are not the same.
    fn site(pits: &[Pit]) -> Site {
        let mut site = plain_site(vec![straight(feet(20.0))]);
        site.line.string_above_sill = Some(inches(0.0));
        site.line.shots = vec![Shot {
            station: Some(feet(20.0)),
            offset: None,
            by: ShotBy::String,
            reading: Some(inches(9.0)),
        }];
        site.pits = pits.to_vec();
        site
    }

    fn ground_of(site: &Site) -> Ground {
        let mut findings = Findings::default();
        let line = crate::line::line(site, &mut findings).unwrap();
        crate::ground::ground(site, &catalogue(), &line, &mut findings)
    }

    /// Depth of what must come out in each pit of the worst ground, in inches, and whether its bottom was found.
    #[track_caller]
    fn check(pits: &[Pit], expected: Option<&[(f64, bool)]>) {
        let site = site(pits);
        let worst = worst_site(&site, &ground_of(&site));
        let found = worst.map(|worst| {
            let ground = ground_of(&worst);
            let depth = |pit: &PitFound| {
                let depth_in = unsuitable_depth_m(pit) / 0.0254;
                ((depth_in * 1e6).round() / 1e6, pit.unsuitable_bottom.found)
            };
            ground.pits.iter().map(depth).collect::<Vec<_>>()
        });
        assert_eq!(found.as_deref(), expected);
    }

    const BRICK: (&str, Option<f64>) = ("brick", Some(2.25));

    #[test]
    fn the_deepest_unsuitable_ground_holds_everywhere() {
        // 2 1/4 in of brick and 3 in of sand; 2 1/4 in and 4 in of sand and 5 in of loam: 11 1/4 in.
        let shallow = pit(2.0, &[BRICK, ("sand", Some(3.0)), ("clay", None)]);
        let deep = pit(
            15.0,
            &[
                BRICK,
                ("sand", Some(4.0)),
                ("loam", Some(5.0)),
                ("clay", None),
            ],
        );
        let both: &[(f64, bool)] = &[(11.25, true), (11.25, true)];
        check(&[shallow.clone(), deep.clone()], Some(both));
        check(&[deep.clone(), shallow.clone()], Some(both));
        // More dug ground is no worse ground: clay of 30 in may stay.
        let long = pit(8.0, &[BRICK, ("sand", Some(3.0)), ("clay", Some(30.0))]);
        check(&[shallow.clone(), long], None);
        // A pit that stands nowhere is left out.
        let nowhere = Pit {
            station: None,
            ..deep
        };
        check(&[shallow, nowhere], None);
    }

    #[test]
    fn what_was_not_found_is_not_found_by_another_pit() {
        let deep = pit(15.0, &[BRICK, ("sand", Some(9.0)), ("clay", None)]);
        let stopped = pit(2.0, &[BRICK, ("sand", Some(3.0))]);
        check(&[stopped, deep], Some(&[(11.25, false), (11.25, true)]));
        // The deepest did not find it: nowhere is it found.
        let shallow = pit(2.0, &[BRICK, ("sand", Some(3.0)), ("clay", None)]);
        let stopped_deep = pit(15.0, &[BRICK, ("loam", Some(9.0))]);
        check(
            &[shallow, stopped_deep],
            Some(&[(11.25, false), (11.25, false)]),
        );
    }

    #[test]
    fn one_pit_or_none_or_pits_alike_change_nothing() {
        let one = pit(2.0, &[BRICK, ("sand", Some(3.0)), ("clay", None)]);
        check(&[], None);
        check(std::slice::from_ref(&one), None);
        check(
            &[
                one.clone(),
                Pit {
                    station: Some(feet(9.0)),
                    ..one
                },
            ],
            None,
        );
    }
}
