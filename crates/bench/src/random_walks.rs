//! Walks at random, laid in following bonds from the record to the last edge brick, as JSON: `.ci/following_areas.py` builds their bands by
//! itself and looks for pieces that overlap, leave the walk or do not add up.

use std::fmt::Write as _;

use anyhow::Context as _;
use underbrick_calc::compute;
use underbrick_calc::lay::{Part, area_m2};
use underbrick_calc::quantity::{Angle, feet, in_metres, inches, unit};
use underbrick_calc::site::{Bond, CourseWay, FarEnd, Hand, Leg, LegShape, Site};
use underbrick_records::read_site;

use super::grid::outline_json;

/// Prints one walk a line, so many of them, the same ones every time.
pub fn print_json(n_walks: u32) -> anyhow::Result<()> {
    let catalogue = underbrick_records::catalogue()?;
    let (plain, _) = read_site(crate::CURVED)?.checked(&catalogue);
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    for _ in 0..n_walks {
        let site = walk(&plain, &mut dice);
        println!("{}", walk_json(&site, &catalogue)?);
    }
    Ok(())
}

/// A multiplicative congruential generator, after P. L'Ecuyer, Mathematics of Computation 68 (1999), table 4, from memory: nothing hangs on
/// its quality, only that every machine throws the same.
struct Dice(u64);

impl Dice {
    /// Evenly between two values.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(0x2545_f491_4f6c_dd1d).wrapping_add(1);
        let share = f64::from(u32::try_from(self.0 >> 32).unwrap_or(0)) / f64::from(u32::MAX);
        low + (high - low) * share
    }

    fn is_less_than(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }
}

/// One to three legs, straight or curved from 7 ft of radius, that turn by less than a right angle from straight ahead; one in three walks
/// tapers.
fn walk(plain: &Site, dice: &mut Dice) -> Site {
    let mut site = plain.clone();
    site.pits.clear();
    site.signs.clear();
    site.line.shots.clear();
    site.line.far_end = FarEnd::Free;
    site.lay.openings.clear();
    site.lay.sample.clear();
    site.lay.bond = if dice.is_less_than(0.75) {
        Bond::Running
    } else {
        Bond::Stack
    };
    site.lay.courses = if dice.is_less_than(0.6) {
        CourseWay::Along
    } else {
        CourseWay::Across
    };
    site.line.width = Some(inches(dice.between(30.0, 60.0)));
    let tapers = dice.is_less_than(0.33);
    let n_legs = if dice.is_less_than(0.5) { 2 } else { 3 };
    let mut heading_rad = 0.0;
    site.line.legs = (0..n_legs)
        .map(|_| {
            let width_at_end = tapers.then(|| inches(dice.between(30.0, 60.0)));
            let shape = if dice.is_less_than(0.4) {
                LegShape::Straight {
                    length: Some(feet(dice.between(3.0, 14.0))),
                }
            } else {
                let turn_rad = dice.between(0.1, 0.9);
                // Away from the side to which the walk has turned.
                let is_right = heading_rad < 0.0;
                heading_rad += if is_right { turn_rad } else { -turn_rad };
                LegShape::Curve {
                    radius: Some(feet(dice.between(7.0, 40.0))),
                    turn: Some(Angle::new::<unit::radian>(turn_rad)),
                    hand: if is_right { Hand::Right } else { Hand::Left },
                }
            };
            Leg {
                shape,
                width_at_end,
            }
        })
        .collect();
    site
}

fn walk_json(
    site: &Site,
    catalogue: &underbrick_calc::catalogue::Catalogue,
) -> anyhow::Result<String> {
    let results = compute(site, catalogue);
    let run = &results.line.as_ref().context("a walk without a run")?.run;
    let lay = results.lay.as_ref().context("a walk without a layout")?;
    let legs: Vec<String> = run
        .legs()
        .iter()
        .map(|leg| {
            format!(
                "[{},{},{},{}]",
                in_metres(leg.length),
                leg.curvature_per_m,
                in_metres(leg.width_at_start),
                in_metres(leg.width_at_end)
            )
        })
        .collect();
    let mut pieces = String::new();
    for piece in lay.pieces.all() {
        let outline = lay.pieces.outline(piece);
        let comma = if pieces.is_empty() { "" } else { "," };
        // Writing to a string cannot fail.
        let _ = write!(
            pieces,
            "{comma}{{\"is_field\":{},\"area_m2\":{},\"outline\":{}}}",
            piece.part == Part::Field,
            area_m2(outline),
            outline_json(outline)
        );
    }
    Ok(format!(
        "{{\"bond\":\"{} {:?}\",\"legs\":[{}],\"edge_across_m\":{},\"pieces\":[{pieces}]}}",
        site.lay.bond.name(),
        site.lay.courses,
        legs.join(","),
        in_metres(underbrick_calc::lay::LayWishes::of(site).edge_brick.across),
    ))
}
