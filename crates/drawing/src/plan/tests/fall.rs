//! Arrows down the fall.

use super::*;

/// The heads of arrows in plan: tip and middle of the foot, with what they belong to.
fn heads(drawing: &Drawing, of: Place) -> Vec<(Point, Point)> {
    let heads = drawing.items.iter().filter_map(|item| match item {
        Item::Area { outline, place, .. } if *place == Some(of) => match outline.as_slice() {
            [tip, one, other] => Some((
                *tip,
                Point {
                    x: f64::midpoint(one.x, other.x),
                    y: f64::midpoint(one.y, other.y),
                },
            )),
            _ => None,
        },
        _ => None,
    });
    heads.collect()
}

#[track_caller]
fn check(fall: f64, cross_fall: f64, along: Option<f64>, across: Option<f64>) {
    // A straight walk of 16 ft, drawn with away from the door to the right.
    let walks = walks();
    let walk = walks.iter().find(|walk| walk.name == "tapered").unwrap();
    let sheet = sheet(1400.0, 720.0);
    let view = PlanView {
        turned: true,
        ..walk.whole(sheet)
    };
    let drawing = walk.with_input(|input| {
        let input = PlanInput {
            fall: Fall::from_ratio(fall),
            cross_fall: Fall::from_ratio(cross_fall),
            ..*input
        };
        plan(&input, view, sheet)
    });
    let way = |of: Place, of_head: fn((Point, Point)) -> f64| {
        let heads = heads(&drawing, of);
        assert!(heads.len() <= 1);
        heads.first().map(|head| of_head(*head).signum())
    };
    let said = (
        way(Place::Fall, |(tip, foot)| tip.x - foot.x),
        way(Place::CrossFall, |(tip, foot)| tip.y - foot.y),
    );
    assert_eq!(said, (along, across), "{fall} {cross_fall}");
    assert!(faults(&drawing).is_empty());
}

#[test]
fn arrows_point_down() {
    // Away from the door is to the right of the sheet, so right of the run is down on it.
    check(1.0 / 48.0, 1.0 / 96.0, Some(1.0), Some(-1.0));
    check(-1.0 / 48.0, -1.0 / 96.0, Some(-1.0), Some(1.0));
    check(1.0 / 48.0, 0.0, Some(1.0), None);
    check(0.0, 1.0 / 96.0, None, Some(-1.0));
}

#[test]
fn every_walk_that_is_seen_whole_has_both() {
    let sheet = sheet(1500.0, 1000.0);
    for walk in walks().into_iter().filter(|walk| walk.name != "long") {
        let drawing = walk.plan(walk.whole(sheet), sheet);
        for place in [Place::Fall, Place::CrossFall] {
            assert_eq!(heads(&drawing, place).len(), 1, "{} {place:?}", walk.name);
        }
    }
}

#[test]
fn each_stretch_of_another_fall_has_its_own() {
    let walks = walks();
    let walk = walks.iter().find(|walk| walk.name == "tapered").unwrap();
    let sheet = sheet(1500.0, 1000.0);
    let piece = |from: f64, to: f64, ratio: f64, is_tread: bool| GradePiece {
        from: feet(from),
        to: feet(to),
        level: metres(0.0),
        fall: Fall::from_ratio(ratio).unwrap(),
        is_tread,
    };
    let pieces = [
        piece(0.0, 6.0, 1.0 / 48.0, false),
        piece(6.0, 8.0, 1.0 / 96.0, true),
        piece(8.0, 10.0, 1.0 / 48.0, false),
        piece(10.0, 16.0, -1.0 / 24.0, false),
    ];
    let drawing = walk.with_input(|input| {
        let input = PlanInput {
            grade_pieces: &pieces,
            ..*input
        };
        plan(&input, walk.whole(sheet), sheet)
    });
    assert_eq!(heads(&drawing, Place::Fall).len(), 2);
    assert!(faults(&drawing).is_empty());
}
