//! Grid bonds on whole walks.

use anyhow::Context as _;
use underbrick_calc::compute;
use underbrick_calc::lay::{LayWishes, Pieces, PlanPoint, Within, field_outline, grid};
use underbrick_calc::line::Run;
use underbrick_calc::quantity::{Angle, feet, unit};
use underbrick_calc::site::{Bond, FarEnd, Hand, Leg, LegShape, Site};
use underbrick_records::read_site;

use super::fastest;

const GRIDS: [Bond; 4] = [
    Bond::BasketTwoOnTwo,
    Bond::BasketTwoOnOne,
    Bond::Herringbone90,
    Bond::Herringbone45,
];

/// A walk laid out: its clear width in plan and all pieces of the field.
pub struct Walk {
    pub band: Vec<PlanPoint>,
    pub pieces: Pieces,
}

/// An S of curves 4 ft wide: 24 ft, and fifty times as long.
pub fn print() -> anyhow::Result<()> {
    println!("\nGrid bonds on an S-curved walk, everything from the run to the numbered pieces:");
    for bond in GRIDS {
        let mut before: Option<(f64, f64)> = None;
        for n_curves in [1, 12, 50] {
            let (run, wishes) = s_curve(n_curves, bond)?;
            let (cost_ms, laid) = fastest(10, || grid(&run, &wishes, &[]));
            let n_pieces = laid.pieces.all().len();
            let n = f64::from(u32::try_from(n_pieces)?);
            let growth = before.map_or_else(String::new, |(n_before, ms_before)| {
                format!(
                    "  x {:.2} for pieces x {:.2}",
                    cost_ms / ms_before,
                    n / n_before
                )
            });
            println!(
                "  {:<26}{n_pieces:7} pieces{cost_ms:9.3} ms{growth}",
                bond.name()
            );
            before = Some((n, cost_ms));
        }
    }
    println!("  (to reach: 1,000 pieces under 2 ms, 50,000 under 100 ms with the display list)");
    Ok(())
}

/// Every grid bond on a sample that bends and on an S.
pub fn walks() -> anyhow::Result<Vec<Walk>> {
    let mut walks = Vec::new();
    for bond in GRIDS {
        let mut site = sample()?;
        site.lay.bond = bond;
        for (run, wishes) in [(run(&site)?, LayWishes::of(&site)), s_curve(3, bond)?] {
            walks.push(Walk {
                band: field_outline(&run, Within::default()),
                pieces: grid(&run, &wishes, &[]).pieces,
            });
        }
    }
    Ok(walks)
}

/// Curves of 30 ft radius by turns to the right and to the left, 24 ft each, 4 ft wide.
fn s_curve(n_curves: u32, bond: Bond) -> anyhow::Result<(Run, LayWishes)> {
    let mut site = sample()?;
    site.lay.bond = bond;
    site.line.width = Some(feet(4.0));
    site.line.far_end = FarEnd::Free;
    site.line.shots.clear();
    site.pits.clear();
    site.line.legs = (0..n_curves)
        .map(|nth| Leg {
            shape: LegShape::Curve {
                radius: Some(feet(30.0)),
                turn: Some(Angle::new::<unit::radian>(0.8)),
                // One to the right, then two to the left and two to the right, so that it winds about one line.
                hand: if nth.div_ceil(2).is_multiple_of(2) {
                    Hand::Right
                } else {
                    Hand::Left
                },
            },
            width_at_end: None,
        })
        .collect();
    let run = run(&site)?;
    Ok((run, LayWishes::of(&site)))
}

fn sample() -> anyhow::Result<Site> {
    let record = read_site(crate::CURVED)?;
    let (site, _) = record.checked(&underbrick_records::catalogue()?);
    Ok(site)
}

fn run(site: &Site) -> anyhow::Result<Run> {
    let results = compute(site, &underbrick_records::catalogue()?);
    Ok(results.line.context("a walk without a run")?.run)
}
