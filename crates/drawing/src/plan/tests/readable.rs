use super::*;

#[test]
fn every_plan_can_be_read_at_every_scale_on_every_sheet() {
    let mut all_faults = Vec::new();
    let mut n_plans = 0;
    for walk in walks() {
        for (width, height) in [
            (776.0, 390.0),
            (800.0, 336.0),
            (420.0, 700.0),
            (360.0, 260.0),
            (1500.0, 900.0),
        ] {
            for text_scale in [0.85, 1.0, 1.6] {
                let sheet = Sheet {
                    width,
                    height,
                    text_scale,
                };
                let whole = walk.whole(sheet);
                for (times, share, offset_m) in [
                    (1.0, None, 0.0),
                    (0.5, Some(0.5), 0.0),
                    (1.7, Some(0.02), 0.3),
                    (3.0, Some(0.4), -0.2),
                    (6.0, Some(0.98), 0.1),
                    (11.0, Some(0.55), 0.45),
                    (25.0, Some(0.3), 0.0),
                    (60.0, Some(0.7), 0.2),
                ] {
                    for (turned, handles) in [(false, true), (true, false)] {
                        let view = PlanView {
                            centre: share.map_or(whole.centre, |share| walk.spot(share, offset_m)),
                            dots_per_metre: times * whole.dots_per_metre,
                            turned,
                            handles,
                        };
                        let drawing = walk.plan(view, sheet);
                        n_plans += 1;
                        let faults = faults(&drawing);
                        all_faults.extend(faults.iter().map(|fault| {
                            format!("{} × {times}, turned {turned}, on {width} × {height} at {text_scale}: {fault}", walk.name)
                        }));
                    }
                }
            }
        }
    }
    assert!(n_plans > 1000);
    assert!(all_faults.is_empty(), "{}", all_faults.join("\n"));
}

#[test]
fn no_label_on_paper_stands_on_a_brick() {
    // What is written on bricks names them; everything else keeps off them.
    for walk in walks() {
        let sheet = sheet(776.0, 390.0);
        let drawing = walk.plan(walk.whole(sheet), sheet);
        for item in &drawing.items {
            let Item::Label {
                at,
                text,
                size,
                anchor,
                place,
                ..
            } = item
            else {
                continue;
            };
            if matches!(place, Some(Place::Piece(_))) {
                continue;
            }
            let corners = label_box(&drawing, *at, text, *size, *anchor).corners();
            for (x, y) in corners {
                let spot = drawing.drawing_from_sheet(x, y);
                let under = drawing.items.iter().rev().find_map(|item| match item {
                    Item::Area { outline, fill, .. } if contains(outline, spot) => Some(*fill),
                    _ => None,
                });
                assert!(
                    matches!(under, None | Some(Ink::Paper)),
                    "{}: “{}” on {under:?}",
                    walk.name,
                    text.written
                );
            }
        }
    }
}

#[test]
fn every_plan_gives_an_svg_that_a_parser_reads() {
    for walk in walks() {
        let sheet = sheet(776.0, 390.0);
        let whole = walk.whole(sheet);
        for times in [1.0, 4.0, 40.0] {
            let view = PlanView {
                dots_per_metre: times * whole.dots_per_metre,
                ..whole
            };
            let written = svg::write(&walk.plan(view, sheet), Theme::Dim);
            assert!(
                usvg::Tree::from_str(&written, &usvg::Options::default()).is_ok(),
                "{}",
                walk.name
            );
            assert!(
                !written.contains("NaN") && !written.contains("inf"),
                "{}",
                walk.name
            );
        }
    }
}
