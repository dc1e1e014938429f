//! The plan as the app's rasteriser paints it, at four scales, on a lying and an upright sheet, in both themes. The pictures land in
//! `target/tmp` to be looked at; what is asked here is that brick, joints and paper are where they must be.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

#[path = "../../drawing/src/plan/example_walk.rs"]
mod example_walk;

use std::path::Path;

use underbrick_app::picture::of_drawing;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_calc::site::Site;
use underbrick_drawing::item::{Drawing, Sheet};
use underbrick_drawing::palette::{Ink, Theme, rgb};
use underbrick_drawing::{PlanInput, PlanView, plan};
use underbrick_records::{OpenSite, Shelf};

const SCALES: [&str; 4] = ["whole", "middle", "near", "joint"];

fn sample(name: &str) -> (Site, Catalogue) {
    let folder = tempfile::tempdir().unwrap();
    let copies = Shelf::at(folder.path()).copy_samples().unwrap();
    let copy = copies
        .iter()
        .find(|copy| copy.to_string_lossy().contains(name))
        .unwrap();
    let catalogue = underbrick_records::catalogue().unwrap();
    let site = OpenSite::open(copy).unwrap().site().checked(&catalogue).0;
    (site, catalogue)
}

fn drawn(site: &Site, catalogue: &Catalogue, sheet: Sheet, scale: &str) -> Drawing {
    let results = compute(site, catalogue);
    let line = results.line.unwrap();
    let laid = example_walk::lay(site, &line.run);
    let letter = |piece_idx| example_walk::letter(&laid.pieces, piece_idx);
    let input = PlanInput {
        site,
        run: &line.run,
        pieces: &laid.pieces,
        letter: &letter,
        fall: Some(line.grade.fall),
        narrowest_joint: Some(laid.narrowest_joint),
        widest_joint: Some(laid.widest_joint),
        least_lap: Some(laid.least_lap),
        notes: &[],
    };
    let whole = PlanView {
        handles: true,
        ..PlanView::whole(site, &line.run, sheet)
    };
    let (right, away) = line.run.in_plan(line.run.length() * 0.2, metres(-0.1));
    let at = underbrick_calc::lay::PlanPoint {
        right_m: in_metres(right),
        away_m: in_metres(away),
    };
    let view = match scale {
        "whole" => whole,
        "middle" => PlanView {
            centre: at,
            ..whole.zoomed(2.2, sheet, (0.0, 0.0))
        },
        "near" => PlanView {
            centre: at,
            dots_per_metre: 420.0,
            ..whole
        },
        _ => whole.one_joint(site, at),
    };
    plan(&input, view, sheet)
}

#[test]
fn four_scales_can_be_looked_at() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    for name in ["curved", "metric", "clay"] {
        let (site, catalogue) = sample(name);
        for (way, width, height) in [
            ("lying", 776.0, 390.0),
            ("upright", 800.0, 340.0),
            ("tall", 420.0, 700.0),
        ] {
            let sheet = Sheet {
                width,
                height,
                text_scale: 1.0,
            };
            for scale in SCALES {
                let drawing = drawn(&site, &catalogue, sheet, scale);
                for (light, theme) in [("sun", Theme::Sun), ("dim", Theme::Dim)] {
                    let picture = of_drawing(&drawing, theme, 1.0).unwrap();
                    std::fs::write(
                        folder.join(format!("plan-{name}-{way}-{scale}-{light}.png")),
                        picture.png().unwrap(),
                    )
                    .unwrap();
                    let of = |ink: Ink| {
                        let [red, green, blue] = rgb(ink, theme);
                        let pixels = picture.rgba.chunks_exact(4);
                        pixels
                            .filter(|pixel| pixel[..3] == [red, green, blue])
                            .count()
                    };
                    assert!(of(Ink::Clay) > 500, "{name} {way} {scale}");
                    assert!(of(Ink::Paper) > 500, "{name} {way} {scale}");
                }
            }
        }
    }
}
