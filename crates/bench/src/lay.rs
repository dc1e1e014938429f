//! Every brick: layout and plan of a walk of a thousand pieces, growth up to fifty thousand, and a frame of the plan while it is panned.

use std::hint::black_box;
use std::time::Instant;

use anyhow::Context as _;
use underbrick_calc::compute;
use underbrick_calc::findings::Findings;
use underbrick_calc::lay::{Lay, PlanPoint, lay};
use underbrick_calc::line::Line;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::Site;
use underbrick_drawing::item::Sheet;
use underbrick_drawing::{PlanView, plan_as_laid};
use underbrick_records::v1::{Hand, Leg, LegShape};
use underbrick_records::{SiteFile, read_site, write_site};

const SHEET: Sheet = Sheet {
    width: 768.0,
    height: 500.0,
    text_scale: 1.0,
};
const CURVED: &str = include_str!("../../../sample-sites/curved-to-a-drive/site.ron");

pub fn print() -> anyhow::Result<()> {
    println!("\nEvery brick of an S-curved path, 29 courses and both edges, median of 9:");
    println!("  length     pieces    layout   whole plan   near plan   a brick");
    let catalogue = underbrick_records::catalogue()?;
    for length_ft in [20, 80, 300, 1200] {
        let file = s_curve(length_ft)?;
        let (site, _) = file.checked(&catalogue);
        let results = compute(&site, &catalogue);
        let line = results.line.as_ref().context("the path has no line")?;
        let run = &line.run;
        let laid = lay(&site, run, None, &mut Findings::default());
        let layout_ms =
            median_ms(|| drop(black_box(lay(&site, run, None, &mut Findings::default()))));
        let whole = PlanView::whole(&site, run, SHEET);
        let (right, away) = run.in_plan(run.length() / 2.0, metres(0.0));
        let near = PlanView {
            centre: PlanPoint {
                right_m: in_metres(right),
                away_m: in_metres(away),
            },
            dots_per_metre: 300.0,
            ..whole
        };
        let plan_ms = |view| median_ms(|| draw(&site, line, &laid, view));
        let (whole_ms, near_ms) = (plan_ms(whole), plan_ms(near));
        let n_pieces = u32::try_from(laid.pieces.all().len())?;
        println!(
            "  {length_ft:>5} ft {n_pieces:>9} {layout_ms:7.2} ms {whole_ms:9.2} ms {near_ms:8.2} ms {:7.2} µs",
            1e3 * layout_ms / f64::from(n_pieces)
        );
    }
    let text = write_site(&read_site(CURVED)?);
    let peer_ms = median_ms(|| drop(black_box(ron::from_str::<ron::Value>(&text))));
    println!("  beside: {peer_ms:.3} ms for the ron library to read the curved sample's text once");
    println!(
        "  to reach: 1,000 pieces with their plan under 2 ms, 50,000 under 100 ms, a frame of the near plan under 16 ms"
    );
    Ok(())
}

fn draw(site: &Site, line: &Line, laid: &Lay, view: PlanView) {
    drop(black_box(plan_as_laid(site, line, laid, view, SHEET)));
}

/// A path 10 ft wide: curves of 20 ft, to the right and to the left by turns.
fn s_curve(length_ft: u32) -> anyhow::Result<SiteFile> {
    let mut file = read_site(CURVED)?;
    file.pits.clear();
    file.signs.clear();
    file.line.shots.clear();
    file.line.width = "119 3/4 in".to_owned();
    file.line.legs = (0..length_ft / 20)
        .map(|nth| Leg {
            shape: LegShape::Curve {
                radius: "57.296 ft".to_owned(),
                turn: "20 deg".to_owned(),
                hand: if nth % 2 == 0 {
                    Hand::Right
                } else {
                    Hand::Left
                },
            },
            width_at_end: String::new(),
        })
        .collect();
    Ok(file)
}

fn median_ms(work: impl Fn()) -> f64 {
    let mut costs_ms: Vec<f64> = (0..9)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    costs_ms.sort_by(f64::total_cmp);
    costs_ms.get(4).copied().unwrap_or(f64::NAN)
}
