//! Properties of the take-off over walks of every shape.

use crate::sites::{any_site, pit, shot, straight};
use crate::walk::{computed, measured, needs};
use proptest::prelude::*;
use underbrick_calc::order::{Figure, Item, NeedAmount, Needs, Way, WorkAmount};
use underbrick_calc::quantity::{in_metres, inches, metres, unit};
use underbrick_calc::site::{EdgeStands, RestraintInput};

/// Every amount as one number: loose volume for what is tipped.
fn numbers(needs: &Needs) -> Vec<(Item, f64)> {
    needs
        .items
        .iter()
        .filter_map(|need| Some((need.item, number(need.amount?))))
        .collect()
}

fn number(amount: NeedAmount) -> f64 {
    match amount {
        NeedAmount::Pieces { n, .. } => f64::from(n),
        NeedAmount::Bulk { loose, .. } => loose.value,
        NeedAmount::Mixed(volume) => volume.value,
        NeedAmount::Length(length) => in_metres(length),
        NeedAmount::Area(area) => area.get::<unit::square_meter>(),
        NeedAmount::Days(days) => f64::from(days),
    }
}

/// In the unit of the SI.
fn plain(figure: &Figure) -> Option<f64> {
    match figure {
        Figure::Length(length) => Some(length.value),
        Figure::Area(area) => Some(area.value),
        Figure::Volume(volume) => Some(volume.value),
        Figure::Mass(mass) => Some(mass.value),
        Figure::Density(density) => Some(density.value),
        Figure::Ratio(number) | Figure::Percent(number) | Figure::Hours(number) => Some(*number),
        Figure::Pieces(n) | Figure::Days(n) => Some(f64::from(*n)),
        Figure::Words(_) => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Nothing is negative, nothing shrinks when it is tipped, and items stand in their order, each once.
    #[test]
    fn needs_are_sane(site in any_site()) {
        for way in Way::ALL {
            let needs = needs(&site, way);
            for need in &needs.items {
                if let Some(amount) = need.amount {
                    prop_assert!(number(amount) >= 0.0, "{:?}", need);
                    if let NeedAmount::Bulk { in_place, loose, dry_mass } = amount {
                        prop_assert!(loose >= in_place && dry_mass.value >= 0.0, "{:?}", need);
                    }
                }
                prop_assert!(!need.from.is_empty() && !need.steps.is_empty());
            }
            prop_assert!(needs.items.is_sorted_by(|one, next| one.item < next.item));
            prop_assert!(needs.work.is_sorted_by(|one, next| one.stage < next.stage));
            for work in &needs.work {
                match work.amount {
                    Some(WorkAmount::Area(area)) => prop_assert!(area.value > 0.0),
                    Some(WorkAmount::Volume(volume)) => prop_assert!(volume.value >= 0.0),
                    Some(WorkAmount::Length(length)) => prop_assert!(length.value > 0.0),
                    Some(WorkAmount::Pieces(n)) => prop_assert!(n > 0),
                    Some(WorkAmount::Job) | None => {}
                }
            }
        }
    }

    /// Who goes through the steps of what is tipped comes to its amount: lifts less trench and with fill, areas times thicknesses,
    /// joints times depths, the ground times its swell.
    #[test]
    fn the_steps_lead_to_the_amount(site in any_site(), is_deep in any::<bool>()) {
        let mut site = site;
        if is_deep {
            site.edge.stands = EdgeStands::Sailor;
            site.edge.restraint = RestraintInput::Haunch { height: None, width: None, top_width: None };
        }
        for way in Way::ALL {
            for need in &needs(&site, way).items {
                let Some(NeedAmount::Bulk { in_place, loose, dry_mass }) = need.amount else {
                    continue;
                };
                let (in_place, loose, dry_mass) = (in_place.value, loose.value, dry_mass.value);
                let all = |what: &str| -> Vec<f64> {
                    need.steps.iter().filter(|step| step.what == what).filter_map(|step| plain(&step.figure)).collect()
                };
                let one = |what: &str| all(what).first().copied();
                let is = |value: f64, expected: f64| (value - expected).abs() <= 1e-9 * expected.abs().max(1.0);
                let grown = one("× loose to compacted").or(one("× swell").map(|percent| 1.0 + percent / 100.0)).unwrap();
                prop_assert!(is(in_place * grown, loose), "{:?}", need);
                let weighed = one("compacted dry density").or(one("density in the ground")).or(one("density in the walk"));
                if let Some(density) = weighed {
                    prop_assert!(is(in_place * density, dry_mass), "{:?}", need);
                }
                let built_up = match need.item {
                    Item::Base => {
                        let lifts: f64 = all("in one lift, loose").iter().sum();
                        lifts / grown - one("less the trench of the edge").unwrap_or(0.0)
                            + one("fill where the ground lies below the dig").unwrap_or(0.0)
                    }
                    Item::SettingBed => {
                        let under_edge = one("area under the edge brick")
                            .zip(one("thickness under the edge brick"))
                            .map_or(0.0, |(area, thickness)| area * thickness);
                        one("area between the edges").unwrap() * one("thickness").unwrap() + under_edge
                    }
                    Item::Jointing => {
                        one("joints of the field").unwrap() * one("as deep as the brick").unwrap()
                            + one("joints of the edges").unwrap() * one("as deep as the edge brick").unwrap()
                    }
                    Item::OldBedSpoil => {
                        one("old setting bed").or(one("as thick as the new setting bed")).unwrap() * one("paved in plan").unwrap()
                    }
                    _ => one("in the ground").or(one("in place")).unwrap(),
                };
                prop_assert!((built_up - in_place).abs() < 3e-6, "{}: {:?}", built_up, need);
            }
        }
    }

    /// In which order the pits were written down says nothing.
    #[test]
    fn the_order_of_pits_does_not_matter(site in any_site()) {
        let mut turned = site.clone();
        turned.pits.reverse();
        for way in Way::ALL {
            let (one, other) = (needs(&site, way), needs(&turned, way));
            let (one, other) = (numbers(&one), numbers(&other));
            prop_assert_eq!(one.len(), other.len());
            for ((item, one), (same, other)) in one.iter().zip(&other) {
                prop_assert_eq!(item, same);
                prop_assert!((one - other).abs() <= 1e-9, "{:?}: {} and {}", item, one, other);
            }
        }
    }

    /// Every lift is placed within the dig, each over at least the area of the one below it, the top one over all of it.
    #[test]
    fn lifts_widen_upwards_to_the_whole_dig(site in any_site()) {
        let bed = computed(&site).bed.unwrap();
        let areas: Vec<f64> = bed
            .lifts
            .each
            .iter()
            .map(|lift| bed.dig.lift_area(lift.number).value)
            .collect();
        prop_assert!(areas.windows(2).all(|two| two[0] <= two[1] + 1e-9), "{:?}", areas);
        prop_assert!((areas[areas.len() - 1] - bed.earthwork.dig_area.value).abs() < 1e-9);
        // A lift above the lowest is full wherever the one below it lies: it holds at least that much.
        let full_m = in_metres(bed.lifts.full_compacted);
        for (two, lift) in areas.windows(2).zip(bed.lifts.each.iter().skip(1)) {
            prop_assert!(lift.compacted_volume.value >= two[0] * full_m - 1e-9);
        }
    }

    /// A walk twice as long needs at most twice as much and one piece more; of screws, those of the two splices that join the halves.
    /// It is so many whole bricks long that its joints are the same; where the halves meet there are two more across the walk.
    #[test]
    fn twice_the_run_is_at_most_twice_the_need(n_bricks in 15..45_u32, sand_m in 0.01..0.3_f64) {
        let length_m = f64::from(n_bricks) * in_metres(inches(8.125));
        let long = |length_m: f64| {
            let mut site = measured();
            site.line.legs = vec![straight(metres(length_m))];
            site.line.shots = vec![shot(length_m, 0.0, 0.02)];
            site.pits = vec![pit(length_m / 2.0, metres(0.06), metres(sand_m))];
            site.bed.fabric = true;
            site
        };
        for way in Way::ALL {
            let (single, double) = (needs(&long(length_m), way), needs(&long(2.0 * length_m), way));
            let (single, double) = (numbers(&single), numbers(&double));
            prop_assert_eq!(single.len(), double.len());
            for ((item, one), (same, two)) in single.iter().zip(&double) {
                prop_assert_eq!(item, same);
                let more = match item {
                    Item::FormScrew => 8.0,
                    // 4 ft x 1/8 in x 2 1/4 in, twice, loose.
                    Item::Jointing => 2.0 * 48.0 * 0.125 * 2.25 * 0.0254 * 0.0254 * 0.0254 * 1.11 / 0.95,
                    Item::Brick | Item::FormStake | Item::Spacer => 1.0,
                    _ => 1e-9,
                };
                prop_assert!(*two <= 2.0 * one + more, "{:?}: {} and {}", item, one, two);
                prop_assert!(two >= one, "{:?}: {} and {}", item, one, two);
            }
        }
    }
}
