use super::*;

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
