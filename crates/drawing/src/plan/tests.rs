use super::*;
use crate::clearance::{faults, label_box};
use crate::examples::empty_site;
use crate::inside::contains;
use crate::item::Item;
use crate::palette::Theme;
use crate::picked;
use crate::svg;
use std::time::Instant;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::lay::{Lay, Pieces};
use underbrick_calc::quantity::{Angle, Length, feet, inches, metres, unit};
use underbrick_calc::site::{CourseWay, EdgeStands, Hand, Leg, LegShape, ShownIn, StartSide};

/// A site, its run and its pieces.
struct Walk {
    name: &'static str,
    site: Site,
    run: Run,
    laid: Lay,
}

fn straight(length_ft: f64) -> Leg {
    Leg {
        shape: LegShape::Straight {
            length: Some(feet(length_ft)),
        },
        width_at_end: None,
    }
}

fn curve(radius_ft: f64, turn_degrees: f64, hand: Hand) -> Leg {
    Leg {
        shape: LegShape::Curve {
            radius: Some(feet(radius_ft)),
            turn: Some(Angle::new::<unit::degree>(turn_degrees)),
            hand,
        },
        width_at_end: None,
    }
}

fn walk(name: &'static str, legs: Vec<Leg>, change: impl FnOnce(&mut Site)) -> Walk {
    let mut site = empty_site(ShownIn::FeetInches);
    site.line.legs = legs;
    site.line.width = Some(inches(36.0));
    change(&mut site);
    let results = compute(&site, &Catalogue::default());
    let (run, laid) = (results.line.unwrap().run, results.lay.unwrap());
    Walk {
        name,
        site,
        run,
        laid,
    }
}

/// An S-curve and a straight over and over: about so many feet.
fn long_walk(length_ft: f64) -> Walk {
    let mut legs = Vec::new();
    let mut laid_ft = 0.0;
    // 60 degrees of a circle of 20 ft are 20.94 ft.
    while laid_ft < length_ft {
        legs.push(curve(20.0, 60.0, Hand::Left));
        legs.push(curve(20.0, 60.0, Hand::Right));
        legs.push(straight(18.0));
        laid_ft += 18.0 + 2.0 * 20.94;
    }
    walk("long", legs, |_| {})
}

fn walks() -> Vec<Walk> {
    let opening = underbrick_calc::site::Opening {
        station: Some(feet(6.0)),
        offset: Some(inches(-4.0)),
        along: Some(inches(14.0)),
        across: Some(inches(10.0)),
    };
    vec![
        walk("straight", vec![straight(24.0)], |site| {
            site.lay.openings = vec![opening];
        }),
        walk(
            "curved",
            vec![straight(12.0), curve(9.0, 60.0, Hand::Left), straight(5.0)],
            |site| {
                site.lay.bearing = Some(Angle::new::<unit::degree>(212.0));
                site.shown_in = ShownIn::Metric;
            },
        ),
        walk(
            "s-curve",
            vec![
                curve(12.0, 75.0, Hand::Right),
                curve(12.0, 75.0, Hand::Left),
            ],
            |site| {
                site.lay.start_side = StartSide::Right;
                site.edge.stands = EdgeStands::Header;
            },
        ),
        walk(
            "hairpin",
            vec![
                straight(20.0),
                curve(5.0, 180.0, Hand::Right),
                straight(18.0),
            ],
            |site| {
                site.lay.bearing = Some(Angle::new::<unit::degree>(15.0));
            },
        ),
        walk("tapered", vec![straight(16.0)], |site| {
            site.line.width = Some(inches(48.0));
            site.lay.courses = CourseWay::Across;
        }),
        walk("short", vec![straight(4.0)], |_| {}),
        long_walk(300.0),
    ]
}

impl Walk {
    fn plan(&self, view: PlanView, sheet: Sheet) -> Drawing {
        self.with_input(|input| plan(input, view, sheet))
    }

    fn with_input<T>(&self, show: impl FnOnce(&PlanInput<'_>) -> T) -> T {
        let letter = |piece_idx| self.letter(piece_idx);
        show(&PlanInput {
            site: &self.site,
            run: &self.run,
            pieces: &self.laid.pieces,
            letter: &letter,
            fall: Fall::from_ratio(1.0 / 48.0),
            narrowest_joint: self.laid.narrowest_joint,
            widest_joint: self.laid.widest_joint,
            least_lap: self.laid.least_lap,
            notes: &self.laid.notes,
        })
    }

    fn letter(&self, piece_idx: usize) -> Option<String> {
        let line = self.laid.cuts.line(piece_idx)?;
        Some(line.letter.clone())
    }

    fn whole(&self, sheet: Sheet) -> PlanView {
        PlanView::whole(&self.site, &self.run, sheet)
    }

    fn spot(&self, share: f64, offset_m: f64) -> PlanPoint {
        let (right, away) = self
            .run
            .in_plan(self.run.length() * share, metres(offset_m));
        PlanPoint {
            right_m: in_metres(right),
            away_m: in_metres(away),
        }
    }
}

fn sheet(width: f64, height: f64) -> Sheet {
    Sheet {
        width,
        height,
        text_scale: 1.0,
    }
}

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

fn areas_of_pieces(drawing: &Drawing) -> Vec<(u32, Vec<Point>)> {
    let areas = drawing.items.iter().filter_map(|item| match item {
        Item::Area {
            outline,
            fill: Ink::Clay,
            place: Some(Place::Piece(piece_idx)),
            ..
        } => Some((*piece_idx, outline.clone())),
        _ => None,
    });
    areas.collect()
}

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

#[test]
fn a_piece_is_said_as_the_crew_would_ask_for_it() {
    let walk = &walks()[0];
    let mut pieces = Pieces::default();
    let corner = |x: f64, y: f64| PlanPoint {
        right_m: x,
        away_m: y,
    };
    let outline = [corner(0.0, 0.0), corner(0.1, 0.0), corner(0.0, 0.2)];
    let mut add = |part, course, nth, kind, length_in: f64| {
        pieces.add(
            underbrick_calc::lay::Label {
                part,
                course,
                nth,
                kind,
                length: inches(length_in),
                width: inches(3.75),
                station: inches(170.0),
            },
            &outline,
        );
    };
    use underbrick_calc::lay::{Kind, Part};
    add(Part::Field, 3, 12, Kind::Half, 3.9375);
    add(Part::Edge(Hand::Left), 1, 40, Kind::Whole, 8.0);
    add(Part::AtDoor, 1, 2, Kind::Ripped, 8.0);
    add(Part::Field, 7, 1, Kind::Shaped, 6.5);
    walk.with_input(|input| {
        let letter = |piece_idx: usize| (piece_idx == 0).then(|| "C".to_owned());
        let input = PlanInput {
            pieces: &pieces,
            letter: &letter,
            ..*input
        };
        let said: Vec<String> = (0..5).filter_map(|idx| piece_said(&input, idx)).collect();
        assert_eq!(
            said,
            [
                "course 3, brick 12 at 14'-2\": half, 3 15/16\" long, cut letter C",
                "left edge, brick 40 at 14'-2\": whole",
                "row across at the door, brick 2 at 14'-2\": cut to width, 3 3/4\" wide",
                "course 7, brick 1 at 14'-2\": cut to shape, out of 6 1/2\" by 3 3/4\"",
            ]
        );
    });
}

#[test]
fn the_words_name_every_figure_that_is_drawn() {
    let sheet = sheet(1500.0, 900.0);
    for walk in walks().into_iter().filter(|walk| walk.name != "long") {
        let drawing = walk.plan(walk.whole(sheet), sheet);
        let mut n_dimensions = 0;
        for item in &drawing.items {
            let Item::Label { text, place, .. } = item else {
                continue;
            };
            let is_width_or_radius = matches!(place, Some(Place::Width | Place::LegRadius(_)));
            let first = text.written.trim_start_matches("R ");
            let figure = first
                .strip_suffix(" clear")
                .or(first.strip_suffix(" over edges"));
            let radius = text.written.strip_prefix("R ");
            if let Some(figure) = figure.or(radius).filter(|_| is_width_or_radius) {
                n_dimensions += 1;
                assert!(
                    drawing.words.contains(figure),
                    "{}: {figure}\n{}",
                    walk.name,
                    drawing.words
                );
            }
        }
        assert!(n_dimensions > 0, "{}", walk.name);
        let says_lap = drawing.words.contains("The least lap is ");
        assert_eq!(says_lap, walk.laid.least_lap.is_some(), "{}", walk.name);
    }
}

#[test]
fn every_cut_in_view_has_a_hatch_and_with_room_its_letter() {
    let walk = &walks()[0];
    let sheet = sheet(776.0, 390.0);
    let view = PlanView {
        centre: walk.spot(0.03, 0.0),
        dots_per_metre: 300.0,
        ..walk.whole(sheet)
    };
    let drawing = walk.plan(view, sheet);
    let cut = |piece_idx: u32| {
        let piece = &walk.laid.pieces.all()[usize::try_from(piece_idx).unwrap()];
        piece.kind.is_cut()
    };
    let n_cuts = areas_of_pieces(&drawing)
        .iter()
        .filter(|(piece_idx, _)| cut(*piece_idx))
        .count();
    let n_hatches = drawing
        .items
        .iter()
        .filter(|item| matches!(item, Item::Hatch { .. }))
        .count();
    let n_letters = drawing.items.iter().filter(|item| match item {
        Item::Label {
            text,
            place: Some(Place::Piece(piece_idx)),
            ..
        } => walk
            .letter(usize::try_from(*piece_idx).unwrap())
            .is_some_and(|letter| text.written.split(' ').next() == Some(letter.as_str())),
        _ => false,
    });
    assert!(n_cuts > 2 && n_hatches >= n_cuts, "{n_cuts} {n_hatches}");
    assert_eq!(n_letters.count(), n_cuts);
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

#[test]
fn a_handle_comes_with_the_finger() {
    // Handle at a radius of 9 ft dragged to where a walk of 11 ft radius has its own.
    let (near, far) = (
        &walks()[1],
        walk(
            "wider",
            vec![straight(12.0), curve(11.0, 60.0, Hand::Left), straight(5.0)],
            |_| {},
        ),
    );
    let sheet = sheet(776.0, 390.0);
    let view = near.whole(sheet);
    let of = |walk: &Walk, place| {
        let all = walk.with_input(|input| handles(input, view, sheet));
        all.into_iter()
            .find(|handle| handle.place == place)
            .unwrap()
    };
    let (from, to) = (of(near, Place::LegRadius(1)), of(&far, Place::LegRadius(1)));
    // Dragged to where the curve starts it stays as wide as half the walk and its edge brick, 18 + 2 1/4 in, and a centimetre.
    let start = near.run.in_plan(feet(12.0), metres(0.0));
    let tightest = from.value_at(PlanPoint {
        right_m: in_metres(start.0),
        away_m: in_metres(start.1),
    });
    assert!((in_metres(tightest) - in_metres(inches(20.25)) - 0.01).abs() < 1e-9);
    let there = view.in_plan(sheet, to.at);
    assert!((in_metres(from.value_at(there)) - in_metres(feet(11.0))).abs() < 1e-9);
    assert!(
        (in_metres(from.value_at(view.in_plan(sheet, from.at))) - in_metres(feet(9.0))).abs()
            < 1e-9
    );
    // And the width: half an inch out on one side is an inch in all.
    let width = of(near, Place::Width);
    let here = view.in_plan(sheet, width.at);
    assert!((in_metres(width.value_at(here)) - in_metres(inches(36.0))).abs() < 1e-9);
    let out_dots = in_metres(inches(0.5)) * view.dots_per_metre;
    let further = view.in_plan(
        sheet,
        (
            width.at.0 + out_dots * width.way.0,
            width.at.1 + out_dots * width.way.1,
        ),
    );
    assert!((in_metres(width.value_at(further)) - in_metres(inches(37.0))).abs() < 1e-9);
}

#[test]
fn a_tapered_leg_gives_its_width_at_the_door() {
    let mut leg = straight(16.0);
    leg.width_at_end = Some(inches(60.0));
    let walk = walk("flared", vec![leg], |_| {});
    let sheet = sheet(776.0, 390.0);
    let view = walk.whole(sheet);
    let all = walk.with_input(|input| handles(input, view, sheet));
    let width = all
        .iter()
        .find(|handle| handle.place == Place::Width)
        .unwrap();
    let here = width.value_at(view.in_plan(sheet, width.at));
    assert!((in_metres(here) - in_metres(inches(36.0))).abs() < 1e-9);
}

#[test]
fn what_could_not_be_kept_is_said_so() {
    use underbrick_calc::lay::{LayNote, Measured};
    let walk = &walks()[0];
    let sheet = sheet(1500.0, 900.0);
    let lap = Measured {
        length: inches(1.5),
        course: 3,
        station: feet(9.0),
    };
    let joint = Measured {
        length: inches(0.75),
        course: 6,
        station: feet(15.0),
    };
    let notes = [LayNote::LapNotKept(lap), LayNote::JointNotKept(joint)];
    let drawing = walk.with_input(|input| {
        let input = PlanInput {
            notes: &notes,
            least_lap: Some(lap),
            widest_joint: Some(joint),
            ..*input
        };
        plan(&input, walk.whole(sheet), sheet)
    });
    for words in [
        "least lap 1 1/2\", too short",
        "widest joint 3/4\", too wide",
    ] {
        let says = |item: &Item| matches!(item, Item::Label { text, ink: Ink::Wrong, .. } if text.written == words);
        assert!(drawing.items.iter().any(says), "{words}");
    }
    assert!(faults(&drawing).is_empty());
}

#[test]
fn without_bricks_the_band_is_drawn_and_it_is_said() {
    let walk = &walks()[1];
    let sheet = sheet(776.0, 390.0);
    let drawing = walk.with_input(|input| {
        let input = PlanInput {
            pieces: &Pieces::default(),
            ..*input
        };
        plan(&input, walk.whole(sheet), sheet)
    });
    assert!(drawing.words.contains("No brick is laid out."));
    assert!(faults(&drawing).is_empty());
    let says = |item: &Item| matches!(item, Item::Label { text, .. } if text.written.starts_with("no brick laid out"));
    assert!(drawing.items.iter().any(says));
}
