use super::*;

#[test]
fn pieces_stand_where_they_are_laid_and_as_large() {
    let walk = &walks()[1];
    let sheet = sheet(1500.0, 900.0);
    for turned in [false, true] {
        let whole = walk.whole(sheet);
        let view = PlanView {
            turned,
            dots_per_metre: 0.5 * whole.dots_per_metre,
            ..whole
        };
        let drawing = walk.plan(view, sheet);
        let areas = areas_of_pieces(&drawing);
        let mut n_whole = 0;
        assert_eq!(areas.len(), walk.laid.pieces.all().len());
        for (piece_idx, outline) in areas {
            let piece = &walk.laid.pieces.all()[usize::try_from(piece_idx).unwrap()];
            let laid = walk.laid.pieces.outline(piece);
            for (at, spot) in outline.iter().zip(laid) {
                // Turned by a quarter, away is to the right and right is down; nothing is mirrored.
                let (x, y) = if turned {
                    (spot.away_m, -spot.right_m)
                } else {
                    (spot.right_m, spot.away_m)
                };
                assert!((at.x - x).abs() < 1e-12 && (at.y - y).abs() < 1e-12);
            }
            // The longest side of a whole brick is its length times the scale.
            if piece.kind != underbrick_calc::lay::Kind::Whole {
                continue;
            }
            n_whole += 1;
            let dots = crate::inside::closed_sides(&outline).map(|(from, to)| {
                let (from, to) = (
                    drawing.sheet_from_drawing(from),
                    drawing.sheet_from_drawing(to),
                );
                libm::hypot(to.0 - from.0, to.1 - from.1)
            });
            let longest = dots.fold(0.0, f64::max);
            let brick = if piece.part == underbrick_calc::lay::Part::Field {
                piece.length
            } else {
                // A sailor stands on its end: from above it is as long as a brick is wide.
                walk.laid
                    .wishes
                    .edge_brick
                    .along
                    .max(walk.laid.wishes.edge_brick.across)
            };
            assert!((longest - in_metres(brick) * view.dots_per_metre).abs() < 1e-6);
        }
        assert!(n_whole > 100);
    }
}

#[test]
fn the_bar_scale_is_as_long_as_it_says() {
    for walk in walks() {
        let mut n_bars = 0;
        for times in [1.0, 2.5, 8.0, 30.0, 90.0] {
            let sheet = sheet(776.0, 390.0);
            let whole = walk.whole(sheet);
            let view = PlanView {
                dots_per_metre: times * whole.dots_per_metre,
                ..whole
            };
            let drawing = walk.plan(view, sheet);
            let end = drawing.items.iter().rev().find_map(|item| match item {
                Item::Label { text, .. } => bar_length(&text.written),
                _ => None,
            });
            let Some(length) = end else { continue };
            n_bars += 1;
            // The parts of the bar lie together at its left and its right end.
            let parts = drawing.items.iter().filter_map(|item| match item {
                Item::Area {
                    outline,
                    fill,
                    pen: Some(_),
                    place: None,
                } if matches!(fill, Ink::Ink | Ink::Paper) && outline.len() == 4 => {
                    let spots: Vec<(f64, f64)> = outline
                        .iter()
                        .map(|at| drawing.sheet_from_drawing(*at))
                        .collect();
                    let tall = spots[2].1 - spots[1].1;
                    ((tall - 6.0).abs() < 1e-6 && (spots[0].1 - spots[1].1).abs() < 1e-6)
                        .then_some((spots[0].0, spots[1].0))
                }
                _ => None,
            });
            let (left, right) = parts.fold((f64::INFINITY, 0.0_f64), |(left, right), part| {
                (left.min(part.0), right.max(part.1))
            });
            let expected = in_metres(length) * view.dots_per_metre;
            assert!(
                (right - left - expected).abs() < 1e-6,
                "{} × {times}: {left} to {right}, {expected}",
                walk.name
            );
        }
        assert!(n_bars >= 4, "{}: {n_bars}", walk.name);
    }
}

/// What the end of a bar scale says: a whole number and a unit, nothing else.
fn bar_length(written: &str) -> Option<Length> {
    let (number, unit) = written.split_once(' ')?;
    let number: f64 = number.parse().ok()?;
    match unit {
        "in" => Some(inches(number)),
        "ft" => Some(feet(number)),
        "mm" => Some(metres(number / 1000.0)),
        // A station of a metric walk has the same form; a bar ends on these only.
        "m" if [1.0, 3.0, 10.0, 20.0, 50.0].contains(&number) => Some(metres(number)),
        _ => None,
    }
}

#[test]
fn a_view_and_a_spot_of_the_sheet_are_turned_into_each_other() {
    let sheet = sheet(776.0, 390.0);
    for turned in [false, true] {
        let view = PlanView {
            centre: PlanPoint {
                right_m: 3.0,
                away_m: 40.0,
            },
            dots_per_metre: 57.0,
            turned,
            handles: false,
        };
        let spot = view.in_plan(sheet, (100.0, 50.0));
        let (x, y) = view.on_sheet(sheet, spot);
        assert!((x - 100.0).abs() < 1e-9 && (y - 50.0).abs() < 1e-9);
        let nearer = view.zoomed(3.0, sheet, (100.0, 50.0));
        let (x, y) = nearer.on_sheet(sheet, spot);
        assert!((x - 100.0).abs() < 1e-9 && (y - 50.0).abs() < 1e-9);
        let (x, y) = view.moved(12.0, -7.0).on_sheet(sheet, spot);
        assert!((x - 112.0).abs() < 1e-9 && (y - 43.0).abs() < 1e-9);
        // Away from the door is to the right or up, to the right of the walk is down or to the right.
        let (from, away) = (
            view.on_sheet(sheet, view.centre),
            PlanPoint {
                away_m: 41.0,
                ..view.centre
            },
        );
        let to = view.on_sheet(sheet, away);
        let expected = if turned { (57.0, 0.0) } else { (0.0, -57.0) };
        assert!(
            (to.0 - from.0 - expected.0).abs() < 1e-9 && (to.1 - from.1 - expected.1).abs() < 1e-9
        );
    }
    let nonsense = PlanView {
        centre: PlanPoint {
            right_m: f64::NAN,
            away_m: f64::INFINITY,
        },
        dots_per_metre: f64::NAN,
        turned: true,
        handles: true,
    };
    let drawing = walks()[0].plan(nonsense, sheet);
    assert!(!svg::write(&drawing, Theme::Sun).contains("NaN"));
}
