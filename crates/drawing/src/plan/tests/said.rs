use super::*;

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
