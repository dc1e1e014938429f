//! Days on site.

use crate::lists::{
    bulk, cubic_feet, cubic_yards, dec, list, need, needs, offer, pieces, price, sells, sold,
    stage_hours, work,
};
use underbrick_calc::order::{
    Decimal, Item, NeedAmount, Needs, PriceList, Priced, SaleUnit, Stage, WorkAmount,
};
use underbrick_calc::quantity::feet;

/// Hours of one person for each stage, by the job's own amount of work: every stage gets one unit of its work.
fn staged(hours: &[(Stage, &str)], n: u32, hours_a_day: &str) -> Priced {
    let mut list = list(vec![
        sells(Item::Plate, vec![offer(SaleUnit::Day, None)]),
        sells(Item::Saw, vec![offer(SaleUnit::Day, None)]),
    ]);
    list.crew.n = n;
    list.crew.hours_a_day = dec(hours_a_day);
    let mut all = everything();
    for (stage, each) in hours {
        let (amount, per) = one_unit(*stage);
        all.work.push(work(*stage, amount));
        list.hours.push(stage_hours(*stage, each, per));
    }
    price(&list, all)
}

fn one_unit(stage: Stage) -> (WorkAmount, Option<SaleUnit>) {
    use underbrick_calc::order::WorkUnit;
    match stage.unit() {
        WorkUnit::Area | WorkUnit::LiftArea => (
            WorkAmount::Area(feet(1.0) * feet(1.0)),
            Some(SaleUnit::SquareFoot),
        ),
        WorkUnit::Volume => (
            WorkAmount::Volume(cubic_yards(1.0)),
            Some(SaleUnit::CubicYard),
        ),
        WorkUnit::Length => (WorkAmount::Length(feet(1.0)), Some(SaleUnit::Foot)),
        WorkUnit::Pieces => (WorkAmount::Pieces(1), Some(SaleUnit::Piece)),
        WorkUnit::Job => (WorkAmount::Job, None),
    }
}

fn everything() -> Needs {
    let length = NeedAmount::Length(feet(60.0));
    needs(vec![
        need(Item::Brick, pieces(900)),
        need(Item::Base, bulk(cubic_yards(5.0), 100.0)),
        need(Item::SettingBed, bulk(cubic_yards(1.0), 90.0)),
        need(Item::Jointing, bulk(cubic_feet(3.0), 90.0)),
        need(Item::Fabric, NeedAmount::Area(feet(5.0) * feet(30.0))),
        need(Item::HaunchConcrete, NeedAmount::Mixed(cubic_feet(15.0))),
        need(Item::FormBoard, length),
        need(Item::FormStake, pieces(20)),
        need(Item::Spacer, pieces(4)),
        need(Item::String, length),
    ])
}

fn all_stages() -> Vec<(Stage, &'static str)> {
    Stage::ALL.into_iter().map(|stage| (stage, "5")).collect()
}

/// Two people, 8 h a day: 16 h of one person. Dig 20 h, lifts 12 h, jointing 8 h: 10 h of the crew (8 + 2), 6 h, 4 h.
#[test]
fn days_are_filled_by_the_whole_crew() {
    let found = staged(
        &[
            (Stage::Dig, "20"),
            (Stage::Lifts, "12"),
            (Stage::Jointing, "8"),
        ],
        2,
        "8",
    );
    let days: Vec<_> = found
        .programme
        .days
        .iter()
        .map(|day| day.stages.clone())
        .collect();
    assert_eq!(
        days,
        [
            vec![(Stage::Dig, dec("8"))],
            vec![(Stage::Dig, dec("2")), (Stage::Lifts, dec("6"))],
            vec![(Stage::Jointing, dec("4"))],
        ]
    );
    assert_eq!(found.programme.days[1].on_site, [Item::Base, Item::Plate]);
    assert_eq!(found.programme.days[2].on_site, [Item::Jointing]);
}

/// Lifts on day 2, jointing on day 3: the plate is hired for 2 days at 10.00; the saw is not needed.
#[test]
fn hire_follows_from_the_days() {
    let found = staged(
        &[
            (Stage::Dig, "20"),
            (Stage::Lifts, "12"),
            (Stage::Jointing, "8"),
        ],
        2,
        "8",
    );
    let plate = found.line(Item::Plate).unwrap();
    assert_eq!(plate.need.amount, Some(NeedAmount::Days(2)));
    assert_eq!(sold(plate).count, Some(dec("2")));
    assert_eq!(found.price.hire.0, dec("20"));
    assert!(found.line(Item::Saw).is_none());
    let sawn = staged(&[(Stage::LayField, "20"), (Stage::Cut, "4")], 1, "8");
    // 20 h are days 1 to 3; 4 h of cutting end with day 3.
    assert_eq!(
        sawn.line(Item::Saw).unwrap().need.amount,
        Some(NeedAmount::Days(1))
    );
}

fn first_day_of(found: &Priced, stage: Stage) -> usize {
    let days = &found.programme.days;
    let is_worked = |day: &underbrick_calc::order::Day| day.stages.iter().any(|it| it.0 == stage);
    days.iter().position(is_worked).unwrap()
}

fn brought_on(found: &Priced, item: Item) -> usize {
    let days = &found.programme.days;
    days.iter()
        .position(|day| day.on_site.contains(&item))
        .unwrap()
}

#[test]
fn everything_is_there_in_the_morning_of_the_stage_that_needs_it() {
    for n in 1..6 {
        let found = staged(&all_stages(), n, "7.5");
        for (item, stage) in [
            (Item::Plate, Stage::TrimBottom),
            (Item::Fabric, Stage::LayFabric),
            (Item::Base, Stage::Lifts),
            (Item::FormBoard, Stage::Forms),
            (Item::FormStake, Stage::Forms),
            (Item::Spacer, Stage::Forms),
            (Item::Brick, Stage::EdgeBrick),
            (Item::HaunchConcrete, Stage::Restraint),
            (Item::SettingBed, Stage::Screed),
            (Item::Saw, Stage::Cut),
            (Item::Jointing, Stage::Jointing),
        ] {
            assert_eq!(
                brought_on(&found, item),
                first_day_of(&found, stage),
                "{item:?}"
            );
            let brought: usize = found
                .programme
                .days
                .iter()
                .map(|day| day.on_site.iter().filter(|it| **it == item).count())
                .sum();
            assert_eq!(brought, 1, "{item:?} comes once");
        }
        assert!(first_day_of(&found, Stage::Lifts) <= first_day_of(&found, Stage::Forms));
    }
}

/// No hour is lost or worked twice: 14 stages of 5 h are 70 h of one person; the days hold them all, none more than a day.
#[test]
fn hours_on_days_are_the_hours_of_the_stages() {
    for n in [1_u32, 2, 4, 5] {
        let found = staged(&all_stages(), n, "7.5");
        let of_day = |day: &underbrick_calc::order::Day| -> Decimal {
            day.stages.iter().map(|(_, hours)| *hours).sum()
        };
        let all: Decimal = found.programme.days.iter().map(of_day).sum();
        assert_eq!(all * Decimal::from(n), dec("70"), "a crew of {n}");
        let (last, full) = found.programme.days.split_last().unwrap();
        assert!(full.iter().all(|day| of_day(day) == dec("7.5")));
        assert!(of_day(last) > Decimal::ZERO && of_day(last) <= dec("7.5"));
    }
}

#[test]
fn what_must_be_known_is_said_on_its_day() {
    let found = staged(&all_stages(), 2, "8");
    for (stage, words) in [
        (Stage::Dig, "call before you dig"),
        (Stage::Restraint, "must set before the plate"),
        (Stage::Cut, "silica"),
        (Stage::Jointing, "Dry weather"),
    ] {
        let said = found.programme.days[first_day_of(&found, stage)]
            .said
            .concat();
        assert!(said.contains(words), "{stage:?}: {said}");
    }
    let in_one_day = staged(&[(Stage::Restraint, "1"), (Stage::Jointing, "1")], 2, "8");
    let said = in_one_day.programme.days[0].said.concat();
    assert!(said.contains("placed today"), "{said}");
}

#[test]
fn a_stage_without_hours_is_there_and_told() {
    let mut list = list(Vec::new());
    list.hours = vec![stage_hours(Stage::HandOver, "4", None)];
    let all = Needs {
        work: vec![
            work(Stage::Jointing, WorkAmount::Area(feet(1.0) * feet(1.0))),
            work(Stage::HandOver, WorkAmount::Job),
        ],
        ..everything()
    };
    let found = price(&list, all);
    let day = &found.programme.days[0];
    assert_eq!(day.stages[0], (Stage::Jointing, dec("0")));
    assert!(day.said.concat().contains("hours are not known"));
    let plate = found.line(Item::Plate).unwrap();
    assert!(plate.need.is_least, "the plate may be needed for longer");
}

#[test]
fn without_hours_there_are_no_days_and_hire_is_not_known() {
    let all = Needs {
        work: vec![work(Stage::Lifts, WorkAmount::Area(feet(1.0) * feet(1.0)))],
        ..everything()
    };
    let found = price(&PriceList::default(), all);
    assert!(found.programme.days.is_empty());
    assert_eq!(found.line(Item::Plate).unwrap().need.amount, None);
}

#[test]
fn a_job_of_a_thousand_years_is_cut_short() {
    let found = staged(
        &[(Stage::Lifts, "1000"), (Stage::HandOver, "1000000")],
        1,
        "0.5",
    );
    assert_eq!(found.programme.days.len(), 366);
    let said = found.programme.days[365].said.concat();
    assert!(said.contains("2002000 days"), "{said}");
    assert_eq!(
        found.line(Item::Plate).unwrap().need.amount,
        Some(NeedAmount::Days(2000))
    );
}
