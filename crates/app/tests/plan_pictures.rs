//! The plan as the app's rasteriser paints it, at four scales, on a lying and an upright sheet, in both themes. The pictures land in
//! `target/tmp` to be looked at; what is asked here is that brick, joints and paper are where they must be.

#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::Path;

use egui::vec2;
use underbrick_app::picture::{Camera, of_drawing};
use underbrick_app::plan_view::{PlanViewState, plan_ui};
use underbrick_app::theme;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::quantity::{Angle, feet, in_metres, metres, unit};
use underbrick_calc::site::{Hand, Leg, LegShape, Opening, Site};
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
    let laid = results.lay.unwrap();
    let letter = |piece_idx: usize| laid.cuts.line(piece_idx).map(|line| line.letter.clone());
    let input = PlanInput::of(site, &line, &laid, &letter);
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

/// The sample with another run, so that more shapes can be looked at.
fn reshaped(name: &str) -> (Site, Catalogue) {
    let straight = |length_ft: f64| Leg {
        shape: LegShape::Straight {
            length: Some(feet(length_ft)),
        },
        width_at_end: None,
    };
    let curve = |radius_ft: f64, degrees: f64, hand| Leg {
        shape: LegShape::Curve {
            radius: Some(feet(radius_ft)),
            turn: Some(Angle::new::<unit::degree>(degrees)),
            hand,
        },
        width_at_end: None,
    };
    let (mut site, catalogue) = sample("curved");
    site.lay.bearing = Some(Angle::new::<unit::degree>(130.0));
    match name {
        "s-curve" => {
            site.line.legs = vec![
                curve(9.0, 70.0, Hand::Right),
                curve(9.0, 70.0, Hand::Left),
                straight(6.0),
            ];
        }
        "hairpin" => {
            site.line.legs = vec![
                straight(20.0),
                curve(5.0, 180.0, Hand::Right),
                straight(18.0),
            ];
        }
        "flared" => {
            let mut leg = straight(16.0);
            leg.width_at_end = Some(feet(5.0));
            site.line.legs = vec![leg];
            site.lay.openings = vec![Opening {
                station: Some(feet(6.0)),
                offset: Some(feet(0.2)),
                along: Some(feet(1.0)),
                across: Some(feet(1.0)),
            }];
        }
        _ => {
            site.line.legs = (0..12)
                .map(|nth| {
                    if nth % 3 == 2 {
                        straight(30.0)
                    } else {
                        curve(
                            25.0,
                            60.0,
                            if nth % 3 == 0 {
                                Hand::Left
                            } else {
                                Hand::Right
                            },
                        )
                    }
                })
                .collect();
        }
    }
    (site, catalogue)
}

#[test]
fn other_shapes_can_be_looked_at() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    for name in ["s-curve", "hairpin", "flared", "long"] {
        let (site, catalogue) = reshaped(name);
        let sheet = Sheet {
            width: 776.0,
            height: 390.0,
            text_scale: 1.0,
        };
        for scale in SCALES {
            let drawing = drawn(&site, &catalogue, sheet, scale);
            let picture = of_drawing(&drawing, Theme::Sun, 1.0).unwrap();
            let path = folder.join(format!("plan-{name}-{scale}.png"));
            std::fs::write(path, picture.png().unwrap()).unwrap();
        }
    }
}

#[test]
fn the_plan_with_its_keys_can_be_looked_at() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let (site, catalogue) = sample("metric");
    let results = compute(&site, &catalogue);
    let line = results.line.unwrap();
    let laid = results.lay.unwrap();
    let letter = |piece_idx: usize| laid.cuts.line(piece_idx).map(|line| line.letter.clone());
    let input = PlanInput::of(&site, &line, &laid, &letter);
    for (way, size) in [
        ("lying", vec2(776.0, 470.0)),
        ("upright", vec2(800.0, 420.0)),
        ("narrow", vec2(420.0, 420.0)),
        ("large", vec2(776.0, 470.0)),
    ] {
        for (light, theme) in [("sun", Theme::Sun), ("dim", Theme::Dim)] {
            let mut state = PlanViewState::default();
            state.select(Some(10));
            let mut camera = Camera::new(theme);
            if way == "large" {
                theme::set_text_size(camera.context(), 160);
            }
            let picture = camera
                .take(size, 1.0, |ui| {
                    let rect = ui.max_rect();
                    plan_ui(ui, rect, &mut state, &input, 1);
                })
                .unwrap();
            let path = folder.join(format!("plan-screen-{way}-{light}.png"));
            std::fs::write(path, picture.png().unwrap()).unwrap();
        }
    }
}

#[test]
fn four_scales_can_be_looked_at() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    for name in ["curved", "metric"] {
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
                    if theme == Theme::Dim && way != "lying" {
                        continue;
                    }
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
