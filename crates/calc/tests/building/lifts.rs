//! The lift record, and base placed against base ordered.

use super::sites::{Job, check_found, curved, plain};
use underbrick_calc::build::{HoldStage, LiftFound, Placed, Verdict, checked};
use underbrick_calc::findings::{Findings, Weight};
use underbrick_calc::order::{
    CURRENCIES, Comes, Decimal, Item, Money, Need, NeedAmount, Needs, Order, OrderLine, Price,
    Priced, Programme, SaleUnit, Sold, Trips, Way,
};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{CUBIC_YARD_M3, cubic_metres, in_cubic_metres, inches};
use underbrick_calc::site::{DayLog, Delivery, LiftPlaced, StageClosed, Stamp};

fn placed(number: usize, loose_in: Option<f64>, n_passes: Option<u32>) -> LiftPlaced {
    LiftPlaced {
        number,
        loose: loose_in.map(inches),
        n_passes,
        ..LiftPlaced::default()
    }
}

fn closed(stage: HoldStage) -> StageClosed {
    StageClosed {
        stage,
        reason: String::new(),
        stamp: Stamp::default(),
    }
}

#[test]
fn a_lift_tipped_too_thick_is_caught() {
    let mut job = Job::of(plain());
    let mut check = |placed: LiftPlaced, verdict: Verdict, advice: &str| {
        job.site.build.lifts = vec![placed];
        let lifts: Vec<LiftFound> = job.checked().0.lifts;
        assert_eq!(lifts.len(), 2);
        assert_eq!(lifts[0].verdict, verdict);
        assert_eq!(lifts[0].advice, advice);
        assert_eq!(lifts[1].verdict, Verdict::NotKnown);
    };
    check(placed(1, Some(3.0), Some(4)), Verdict::Right, "");
    check(placed(1, Some(3.0), None), Verdict::NotKnown, "");
    check(
        placed(1, Some(4.0), Some(4)),
        Verdict::High,
        "1\" too thick: rake it off to 3\" before it is compacted; if it is compacted already, loosen it, take off 1\" and compact again.",
    );
    // Row K7, Maryland SHA: 6 in loose is the most for hand tampers and small plant.
    check(
        placed(1, Some(7.0), Some(4)),
        Verdict::High,
        "4\" too thick, and over the 6\" loose that is the most published for hand tampers and small plant: rake it off to 3\", compact, and place the rest as a lift of its own.",
    );
    // Rows K1 to K5 at up to 100 mm compacted: 5, 3, 4, 6, 6 passes; fewer than 3 no class allows. Row P11: 98 % of standard Proctor.
    check(placed(1, Some(3.0), Some(3)), Verdict::Right, "");
    check(
        placed(1, Some(3.0), Some(2)),
        Verdict::Low,
        "Too few passes: dampen it and pass on. Published passes at this thickness: plate of 1,400 to 1,800 kg/m² 5, heavier plate 3, vibrating tamper from 50 kg 4, vibrating tamper of 25 kg 6, twin roller of 600 to 1,000 kg/m 6 (Scottish reinstatement specification, table A8.1). The plate's own rule goes before it; 98 % of standard Proctor density is what it must come to.",
    );
    // 2 1/2 in compacted was 2.5 × 1.25 = 3 1/8 in as tipped.
    let thick = LiftPlaced {
        compacted: Some(inches(2.5)),
        ..placed(1, None, Some(4))
    };
    check(
        thick,
        Verdict::High,
        "1/8\" too thick: rake it off to 3\" before it is compacted; if it is compacted already, loosen it, take off 1/8\" and compact again.",
    );
}

/// Two lifts of 2 in over 30 ft by 4 ft + 2 (2 1/4 + 6) in = 5.375 ft: 26.875 ft³ compacted each, 33.59375 ft³ as tipped.
#[test]
fn what_was_placed_and_what_is_to_come() {
    let mut job = Job::of(plain());
    let near = |volume, expected_ft3: f64| {
        let got_ft3 = in_cubic_metres(volume) / 0.028_316_846_592;
        assert!((got_ft3 - expected_ft3).abs() < 1e-6, "{got_ft3} ft³");
    };
    let nothing = job.checked().0.placed.unwrap();
    near(nothing.by_design, 0.0);
    near(nothing.to_come, 67.1875);
    assert_eq!(nothing.by_readings, None);
    assert_eq!(nothing.will_do, None);
    job.site.build.closed = vec![closed(HoldStage::Lift(1))];
    job.site.build.lifts = vec![placed(1, Some(3.0), Some(4))];
    let one = job.checked().0.placed.unwrap();
    near(one.by_design, 33.59375);
    near(one.to_come, 33.59375);
    near(one.by_readings.unwrap(), 33.59375 * 3.0 / 2.5); // 3 in read, 2 1/2 in designed, as tipped
}

#[test]
fn the_lifts_of_a_deep_walk_come_to_the_whole_base() {
    let mut job = Job::of(curved());
    let whole: f64 = job
        .bed
        .lifts
        .each
        .iter()
        .map(|lift| in_cubic_metres(lift.loose_volume))
        .sum();
    assert!(job.bed.lifts.each.len() > 2);
    job.site.build.closed = vec![
        closed(HoldStage::Lift(1)),
        closed(HoldStage::Lift(2)),
        closed(HoldStage::Lift(2)),
    ];
    let found = job.checked().0.placed.unwrap();
    let sum = in_cubic_metres(found.by_design) + in_cubic_metres(found.to_come);
    assert!((sum - whole).abs() < 1e-9);
    assert!(found.by_design > Default::default());
}

#[test]
fn a_lift_that_the_design_does_not_have_is_named() {
    let mut job = Job::of(plain());
    job.site.build.lifts = vec![placed(3, Some(3.0), Some(4))];
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::LiftLoose(3),
        Weight::Note,
        "Lift 3 was placed, but the design has lifts 1 to 2.",
    );
}

/// So many cubic yards of base ordered, and nothing else.
fn order_of(n_yd3: u32) -> Order {
    let sold = Sold {
        supplier: "Invented Quarry".to_owned(),
        unit: SaleUnit::CubicYard,
        exact: None,
        count: Some(Decimal::from(n_yd3)),
        is_locked: false,
        asked_now: None,
        rate: Money::default(),
        is_own_rate: false,
        amount: None,
        comes: Comes::PickedUp,
        n_loads: 0,
        delivery: Money::default(),
        weighs: None,
        volume: Some(cubic_metres(f64::from(n_yd3) * CUBIC_YARD_M3)),
        is_taxed: false,
    };
    let line = OrderLine {
        item: Item::Base,
        need: Need {
            item: Item::Base,
            material: None,
            name: "Stone".to_owned(),
            amount: None,
            is_least: false,
            from: Vec::new(),
            steps: Vec::new(),
        },
        waste: Decimal::ZERO,
        sold: Some(sold),
        others: Vec::new(),
        said: Vec::new(),
    };
    Order {
        list: "invented".to_owned(),
        currency: CURRENCIES[0],
        chosen: Way::NewBase,
        ways: vec![Priced {
            crew_rate: None,
            remarks: Vec::new(),
            way: Way::NewBase,
            needs: Needs::default(),
            lines: vec![line],
            labour: Vec::new(),
            own_trips: Trips::default(),
            n_barrow_trips: None,
            programme: Programme::default(),
            price: Price::default(),
            worst: None,
            cures: Vec::new(),
        }],
    }
}

/// The order leaves out the trench of the edge: of 67.1875 ft³ in the lifts it needs 50, and 2 yd³ = 54 ft³ will do for that.
#[test]
fn base_that_the_edge_takes_is_not_waited_for() {
    let job = Job::of(plain());
    let mut order = order_of(2);
    let cubic_feet = |ft3: f64| cubic_metres(ft3 * 0.028_316_846_592);
    for line in order.ways.iter_mut().flat_map(|way| &mut way.lines) {
        line.need.amount = Some(NeedAmount::Bulk {
            in_place: cubic_feet(40.0),
            loose: cubic_feet(50.0),
            dry_mass: Default::default(),
        });
    }
    let mut findings = Findings::default();
    let checked = checked(&job.site, &job.line, &job.bed, Some(&order), &mut findings);
    let placed = checked.placed.unwrap();
    assert!((in_cubic_metres(placed.to_come) / 0.028_316_846_592 - 50.0).abs() < 1e-9);
    assert_eq!(placed.will_do, Some(true));
}

/// Two lifts of 33.59375 ft³ as tipped are 2.488 yd³. Three ordered do, also when the first lift was tipped a fifth thicker: 33.6 × 1.2 +
/// 33.6 = 73.9 ft³ = 2.74 yd³; tipped twice as thick it would be 100.8 ft³ = 3.73 yd³, and they do not.
#[test]
fn whether_the_rest_of_the_order_will_do() {
    let mut job = Job::of(plain());
    let found = |job: &Job, n_yd3: u32| -> Placed {
        let mut findings = Findings::default();
        let order = order_of(n_yd3);
        let checked = checked(&job.site, &job.line, &job.bed, Some(&order), &mut findings);
        checked.placed.unwrap()
    };
    assert_eq!(found(&job, 3).will_do, Some(true));
    assert_eq!(found(&job, 2).will_do, Some(false));
    job.site.build.closed = vec![closed(HoldStage::Lift(1))];
    assert_eq!(found(&job, 3).will_do, Some(true));
    job.site.build.lifts = vec![placed(1, Some(3.0), Some(4))];
    assert_eq!(found(&job, 3).will_do, Some(true));
    job.site.build.lifts = vec![placed(1, Some(5.0), Some(4))];
    assert_eq!(found(&job, 3).will_do, Some(false));

    // 1 1/2 yd³ came on one day and 1 on the next; what came without a count is not guessed at.
    let day = |tenths: Option<i64>| DayLog {
        deliveries: vec![Delivery {
            item: Item::Base,
            count: tenths.map(|tenths| Decimal::new(tenths, 1)),
        }],
        ..DayLog::default()
    };
    job.site.build.days = vec![day(Some(15)), day(Some(10)), day(None)];
    assert_eq!(
        found(&job, 3).delivered,
        [(
            Item::Base,
            Decimal::new(25, 1),
            Some(Decimal::from(3)),
            SaleUnit::CubicYard
        )]
    );
}
