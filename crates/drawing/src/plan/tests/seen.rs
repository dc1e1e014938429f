use super::*;

#[test]
fn only_what_is_seen_is_drawn() {
    let walk = long_walk(1200.0);
    let n_pieces = walk.laid.pieces.all().len();
    assert!(n_pieces > 20_000, "{n_pieces}");
    let sheet = sheet(776.0, 390.0);
    for (dots_per_metre, most) in [(2.0, 2_000), (60.0, 9_000), (400.0, 700), (5_000.0, 120)] {
        let view = PlanView {
            centre: walk.spot(0.503, 0.1),
            dots_per_metre,
            turned: true,
            handles: true,
        };
        let drawing = walk.plan(view, sheet);
        assert!(
            drawing.items.len() < most,
            "{dots_per_metre}: {}",
            drawing.items.len()
        );
        let seen = areas_of_pieces(&drawing);
        for (piece_idx, outline) in &seen {
            let dots: Vec<(f64, f64)> = outline
                .iter()
                .map(|at| drawing.sheet_from_drawing(*at))
                .collect();
            let meets = |of: fn(&(f64, f64)) -> f64, side: f64| {
                dots.iter().map(of).fold(f64::INFINITY, f64::min) <= side + 1.0
                    && dots.iter().map(of).fold(f64::NEG_INFINITY, f64::max) >= -1.0
            };
            assert!(
                meets(|at| at.0, sheet.width) && meets(|at| at.1, sheet.height),
                "{piece_idx}"
            );
        }
        // And nothing that is seen is left out.
        if dots_per_metre > 30.0 {
            let in_middle = walk.laid.pieces.all().iter().filter(|piece| {
                walk.laid.pieces.outline(piece).iter().all(|spot| {
                    let (x, y) = view.on_sheet(sheet, *spot);
                    x > 0.0 && y > 0.0 && x < sheet.width && y < sheet.height
                })
            });
            assert!(seen.len() >= in_middle.count() && !seen.is_empty());
        }
        let started = Instant::now();
        let _again = walk.plan(view, sheet);
        let took_ms = started.elapsed().as_secs_f64() * 1e3;
        // Generous for a machine that builds at the same time; a scan of every corner takes a millisecond or two here.
        assert!(took_ms < 100.0, "{dots_per_metre}: {took_ms} ms");
    }
}

#[test]
fn far_out_of_view_nothing_is_drawn() {
    let walk = &walks()[0];
    let sheet = sheet(776.0, 390.0);
    let view = PlanView {
        centre: PlanPoint {
            right_m: 900.0,
            away_m: -900.0,
        },
        ..walk.whole(sheet)
    };
    let drawing = walk.plan(view, sheet);
    assert!(areas_of_pieces(&drawing).is_empty());
    assert!(drawing.items.len() < 30, "{}", drawing.items.len());
}

#[test]
fn a_finger_finds_the_piece_under_it_and_its_words() {
    let walk = &walks()[1];
    let sheet = sheet(776.0, 390.0);
    let whole = walk.whole(sheet);
    let drawing = walk.plan(
        PlanView {
            centre: walk.spot(0.5, 0.0),
            dots_per_metre: 4.0 * whole.dots_per_metre,
            ..whole
        },
        sheet,
    );
    let mut n_found = 0;
    for (piece_idx, outline) in areas_of_pieces(&drawing) {
        let (from, to) = (outline[0], outline[2]);
        let middle = Point {
            x: f64::midpoint(from.x, to.x),
            y: f64::midpoint(from.y, to.y),
        };
        let (x, y) = drawing.sheet_from_drawing(middle);
        if (20.0..756.0).contains(&x) && (110.0..320.0).contains(&y) {
            let found = picked(&drawing, x, y, 3.0);
            n_found += usize::from(found == Some(Place::Piece(piece_idx)));
        }
    }
    assert!(n_found > 100, "{n_found}");
}
