//! From nothing to a plan: a new walk, three bricks measured with a tape, a curve of 9 ft radius; then its joints and laps are measured
//! again on the pieces as drawn.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use egui::{Role, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use underbrick_app::stops::Stop;
use underbrick_app::theme::{self, Theme};
use underbrick_app::{Shell, Visit};
use underbrick_calc::lay::{Kind, LayNote, Part, Piece, PlanPoint};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::in_metres;
use underbrick_records::Shelf;

struct App(Harness<'static, Shell>);

impl App {
    #[track_caller]
    fn press(&mut self, label: &str) {
        let key = |harness: &Harness<'static, Shell>| {
            harness
                .query_all_by_role_and_label(Role::Button, label)
                .count()
        };
        assert!(key(&self.0) > 0, "no key {label}");
        self.0
            .get_by_role_and_label(Role::Button, label)
            .scroll_to_me();
        let _settled = self.0.run_ok();
        self.0.get_by_role_and_label(Role::Button, label).click();
        let _settled = self.0.run_ok();
    }

    fn type_at(&mut self, place: Place, typed: &str) {
        self.0.state_mut().set(place);
        let _settled = self.0.run_ok();
        for key in typed.chars() {
            self.press(&key.to_string());
        }
    }

    fn visit(&self) -> &Visit {
        self.0.state().visit().expect("a site is open")
    }
}

fn apart_m(one: PlanPoint, other: PlanPoint) -> f64 {
    let (right_m, away_m) = (one.right_m - other.right_m, one.away_m - other.away_m);
    (right_m * right_m + away_m * away_m).sqrt()
}

/// Start left, start right, end right, end left.
fn corners(visit: &Visit, piece: &Piece) -> [PlanPoint; 4] {
    let lay = visit.results().lay.as_ref().unwrap();
    lay.pieces.outline(piece).try_into().unwrap()
}

#[test]
fn a_new_walk_with_three_bricks_and_a_tight_curve_is_a_plan_to_lay_by() {
    let folder = tempfile::tempdir().unwrap();
    let shell = Shell::new(
        Shelf::at(folder.path()),
        underbrick_records::catalogue().unwrap(),
    );
    let harness = Harness::builder()
        .with_size(vec2(1280.0, 800.0))
        .with_max_steps(16)
        .with_context_setup(|context| theme::install(context, Theme::Sun))
        .build_ui_state(|ui, shell: &mut Shell| shell.ui(ui), shell);
    let mut app = App(harness);
    app.press("new site");
    app.0.state_mut().go_to(Stop::Line);
    let _settled = app.0.run_ok();
    for (key, values) in [
        ("add a straight", vec![(Place::LegLength(0), "14")]),
        (
            "add a curve",
            vec![(Place::LegRadius(1), "9"), (Place::LegTurn(1), "60")],
        ),
    ] {
        if app.visit().record().line.legs.len() <= usize::from(key == "add a curve") {
            app.press(key);
        }
        for (place, typed) in values {
            app.type_at(place, typed);
        }
    }
    app.type_at(Place::Width, "40");
    app.0.state_mut().go_to(Stop::Lay);
    let _settled = app.0.run_ok();
    for brick_idx in 0..3 {
        app.press("measure a brick");
        app.type_at(Place::SampleLength(brick_idx), "8");
        app.type_at(Place::SampleWidth(brick_idx), "4");
        app.type_at(Place::SampleThickness(brick_idx), "2");
    }
    let visit = app.visit();
    let lay = visit.results().lay.as_ref().expect("it is laid");
    assert!((in_metres(lay.wishes.brick_length) - 8.0 * 0.0254).abs() < 1e-9);
    assert!(lay.pieces.all().len() > 300);

    // Joints between neighbours of one course, corner to corner, on pieces with square ends away from the border of the legs.
    let (narrowest_m, widest_m) = (
        in_metres(lay.narrowest_joint.unwrap().length),
        in_metres(lay.widest_joint.unwrap().length),
    );
    let field: Vec<&Piece> = lay
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.part == Part::Field)
        .collect();
    let mut n_joints = 0;
    for pair in field.windows(2) {
        let [one, next] = pair else { continue };
        if one.course != next.course || one.kind != Kind::Whole || next.kind != Kind::Whole {
            continue;
        }
        let (one, next) = (corners(visit, one), corners(visit, next));
        for joint_m in [apart_m(one[3], next[0]), apart_m(one[2], next[1])] {
            assert!((narrowest_m - 1e-9..=widest_m + 1e-9).contains(&joint_m));
            n_joints += 1;
        }
    }
    assert!(n_joints >= 10, "{n_joints}");

    // Laps on the straight: the joints of two courses are no nearer than the least lap that is told.
    let least_m = in_metres(lay.least_lap.unwrap().length);
    let ends: Vec<(u32, f64)> = field
        .iter()
        .filter(|piece| piece.kind == Kind::Whole)
        .map(|piece| {
            let [_, _, right, left] = corners(visit, piece);
            (piece.course, f64::midpoint(right.away_m, left.away_m))
        })
        .collect();
    let mut n_laps = 0;
    for (course, at_m) in &ends {
        for (other, other_m) in &ends {
            if *other == course + 1 {
                // From the middle of a joint to the middle of the other: half a joint on each.
                assert!((at_m - other_m).abs() >= least_m - 1e-9);
                n_laps += 1;
            }
        }
    }
    assert!(n_laps >= 10, "{n_laps}");

    // What could not be kept is said at its place and drawn, and the rest is drawn to scale.
    let findings = visit.findings_at(Place::LegRadius(1)).count();
    let is_tight = lay
        .notes
        .iter()
        .any(|note| matches!(note, LayNote::TaperedOnCurve { .. }));
    assert!(is_tight && findings > 0, "9 ft is tight for an 8 in brick");
    assert!(
        app.0
            .query_all_by_label_contains("radius 9'-0\"")
            .next()
            .is_some(),
        "the plan in words"
    );
}
