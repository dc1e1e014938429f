//! One edit: read the record into checked types, compute, make both display lists.

use std::hint::black_box;
use std::time::Instant;

use anyhow::Context as _;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::lay::Lay;
use underbrick_calc::quantity::metres;
use underbrick_calc::site::Site;
use underbrick_calc::{Results, compute, compute_after};
use underbrick_drawing::item::Sheet;
use underbrick_drawing::{cross_section, long_section};
use underbrick_records::v1::{Leg, LegShape, Shot, ShotBy};
use underbrick_records::{SiteFile, read_site, write_site};

use crate::CURVED;

/// The two canvases of the landscape screen.
const CROSS: Sheet = Sheet {
    width: 768.0,
    height: 400.0,
    text_scale: 1.0,
};
const LONG: Sheet = Sheet {
    width: 768.0,
    height: 342.0,
    text_scale: 1.0,
};

pub fn print() -> anyhow::Result<()> {
    let catalogue = underbrick_records::catalogue()?;
    let curved = read_site(CURVED)?;
    println!("One edit on the curved sample, median of 400:");
    let parts = [
        (
            "record to checked types",
            median_ms(|| drop(black_box(curved.checked(&catalogue)))),
        ),
        ("compute", {
            let (site, _) = curved.checked(&catalogue);
            median_ms(|| drop(black_box(compute(&site, &catalogue))))
        }),
        ("compute, the walk as it lies", {
            let (site, _) = curved.checked(&catalogue);
            let mut laid = compute(&site, &catalogue).lay;
            median_ms(|| {
                let results = compute_after(&site, &catalogue, laid.take());
                laid = black_box(results).lay;
            })
        }),
        ("cross-section", {
            let (site, _) = curved.checked(&catalogue);
            let results = compute(&site, &catalogue);
            median_ms(|| cross(&site, &catalogue, &results))
        }),
        ("long section", {
            let (site, _) = curved.checked(&catalogue);
            let results = compute(&site, &catalogue);
            median_ms(|| long(&site, &catalogue, &results))
        }),
    ];
    for (name, cost_ms) in parts {
        println!("  {name:<28}{cost_ms:8.3} ms");
    }
    let whole_ms = median_ms(|| drop(edit(&curved, &catalogue, None)));
    let mut laid = edit(&curved, &catalogue, None);
    let as_it_lies_ms = median_ms(|| laid = edit(&curved, &catalogue, laid.take()));
    let text = write_site(&curved);
    let peer_ms = median_ms(|| drop(black_box(ron::from_str::<ron::Value>(&text))));
    println!(
        "  {:<28}{whole_ms:8.3} ms  (to reach: under 1 ms)",
        "all of it"
    );
    println!(
        "  {:<28}{as_it_lies_ms:8.3} ms  (what the window does where an edit leaves the bricks alone)",
        "all, the walk as it lies"
    );
    println!(
        "  {:<28}{peer_ms:8.3} ms  (peer: the ron library reading the same site's text once)",
        "beside"
    );
    println!("  ratio edit ÷ peer           {:8.2}", whole_ms / peer_ms);

    println!("\nGrowth with the length of the run, readings every 7 ft:");
    let mut before: Option<(f64, f64)> = None;
    for n_legs in [2_u32, 4, 8, 16, 32] {
        let site = lengthened(n_legs);
        let cost_ms = median_ms(|| drop(edit(&site, &catalogue, None)));
        let run_ft = f64::from(n_legs) * 14.0;
        let growth = before.map_or_else(String::new, |(ft, ms)| {
            format!("  × {:.2} for a run × {:.0}", cost_ms / ms, run_ft / ft)
        });
        println!("  {run_ft:6.0} ft{cost_ms:10.3} ms{growth}");
        before = Some((run_ft, cost_ms));
    }
    Ok(())
}

/// One edit, with the layout from before it; the layout after it.
fn edit(record: &SiteFile, catalogue: &Catalogue, laid: Option<Lay>) -> Option<Lay> {
    let (site, _) = record.checked(catalogue);
    let results = compute_after(&site, catalogue, laid);
    cross(&site, catalogue, &results);
    long(&site, catalogue, &results);
    results.lay
}

fn cross(site: &Site, catalogue: &Catalogue, results: &Results) {
    black_box(cross_section(site, catalogue, results, metres(4.0), CROSS));
}

fn long(site: &Site, catalogue: &Catalogue, results: &Results) {
    black_box(long_section(site, catalogue, results, metres(4.0), LONG));
}

/// A walk of so many legs of 14 ft, straight and curved by turns, with three readings every 7 ft and a pit every 14 ft.
fn lengthened(n_legs: u32) -> SiteFile {
    let mut site = read_site(CURVED).unwrap_or_else(|_| SiteFile::new("", ""));
    let pit = site.pits.first().cloned().unwrap_or_default();
    site.line.legs = (0..n_legs)
        .map(|leg_idx| match leg_idx % 4 {
            1 => Leg {
                shape: LegShape::Curve {
                    radius: "60 ft".to_owned(),
                    turn: "13.37 deg".to_owned(),
                    hand: underbrick_records::v1::Hand::Right,
                },
                width_at_end: String::new(),
            },
            3 => Leg {
                shape: LegShape::Curve {
                    radius: "60 ft".to_owned(),
                    turn: "13.37 deg".to_owned(),
                    hand: underbrick_records::v1::Hand::Left,
                },
                width_at_end: String::new(),
            },
            _ => Leg {
                shape: LegShape::Straight {
                    length: "14 ft".to_owned(),
                },
                width_at_end: String::new(),
            },
        })
        .collect();
    site.line.far_end = underbrick_records::v1::FarEnd::Free;
    site.line.shots = (1..=n_legs * 2)
        .flat_map(|step| {
            ["-15 in", "", "15 in"].map(|offset| Shot {
                station: format!("{} ft", f64::from(step) * 7.0 - 0.5),
                offset: offset.to_owned(),
                by: ShotBy::String,
                reading: format!(
                    "{} in",
                    8.0 + f64::from(step) * 1.75 + f64::from(step % 3) * 0.25
                ),
            })
        })
        .collect();
    site.pits = (0..n_legs)
        .map(|pit_idx| {
            let mut pit = pit.clone();
            pit.station = format!("{} ft", f64::from(pit_idx) * 14.0 + 4.0);
            pit
        })
        .collect();
    site
}

fn median_ms(mut work: impl FnMut()) -> f64 {
    for _ in 0..20 {
        work();
    }
    let mut costs: Vec<f64> = (0..400)
        .map(|_| {
            let started = Instant::now();
            work();
            started.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    costs.sort_by(f64::total_cmp);
    costs
        .get(costs.len() / 2)
        .copied()
        .context("four hundred costs")
        .unwrap_or(f64::NAN)
}
