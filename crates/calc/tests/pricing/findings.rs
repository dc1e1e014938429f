//! What is noted of the way that is ordered.

use crate::lists::{dec, list, money, offer, price_at, sells, site, stage_hours, work};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::findings::{Finding, Weight};
use underbrick_calc::order::{Item, Needs, PriceList, SaleUnit, Stage, WorkAmount};
use underbrick_calc::place::Place;
use underbrick_calc::site::{LineWish, Site, StageWish};

fn of_the_order(site: &Site, prices: PriceList) -> Vec<Finding> {
    let catalogue = Catalogue {
        prices,
        ..Catalogue::default()
    };
    let findings = compute(site, &catalogue).findings;
    let is_of_the_order = |place: Place| {
        matches!(
            place,
            Place::OrderLine(_)
                | Place::OrderRate(_)
                | Place::OrderCount(_)
                | Place::CrewSize
                | Place::CrewRate
                | Place::StageHours(_)
        )
    };
    let of_it = findings.iter().filter(|it| is_of_the_order(it.place));
    of_it.cloned().collect()
}

#[test]
fn a_site_without_a_price_list_has_nothing_noted() {
    assert_eq!(of_the_order(&site(), PriceList::default()), []);
}

#[test]
fn each_value_that_is_refused_is_noted_once_where_it_stands() {
    let mut site = site();
    site.order.n_crew = Some(0);
    site.order.crew_rate = Some(money("-40"));
    site.order.lines = vec![LineWish {
        item: Item::String,
        supplier: None,
        rate: Some(money("0")),
        locked: Some(dec("12")),
    }];
    let string = sells(Item::String, vec![offer(SaleUnit::Roll, None)]);
    let noted = of_the_order(&site, list(vec![string]));
    for (place, words) in [
        (Place::CrewSize, "0 is below the least that can be true, 1"),
        (
            Place::CrewRate,
            "-40 is below the least that can be true, 0",
        ),
        (Place::OrderRate(Item::String), "0 is not above zero"),
    ] {
        let at: Vec<&Finding> = noted.iter().filter(|it| it.place == place).collect();
        assert_eq!(at.len(), 1, "{place:?} in {noted:?}");
        assert_eq!(at[0].weight, Weight::Warning);
        assert!(at[0].text.contains(words), "{}", at[0].text);
    }
}

/// Hours that cannot be true are refused where they stand, and those of the list are taken; of a stage that is not done nothing is said.
#[test]
fn hours_that_cannot_be_true_are_refused() {
    let mut site = site();
    let wish = |stage: Stage| StageWish {
        stage,
        hours: Some(dec("-1")),
    };
    site.order.stages = vec![wish(Stage::HandOver), wish(Stage::LayFabric)];
    let mut list = list(Vec::new());
    list.hours = vec![stage_hours(Stage::HandOver, "3", None)];
    let all = Needs {
        work: vec![work(Stage::HandOver, WorkAmount::Job)],
        ..Needs::default()
    };
    let found = price_at(&site, &list, all);
    let [remark] = &found.remarks[..] else {
        panic!("{:?}", found.remarks);
    };
    assert_eq!(remark.place, Place::StageHours(Stage::HandOver));
    assert!(
        remark.text.contains("-1 is below the least"),
        "{}",
        remark.text
    );
    assert_eq!(found.labour[0].hours, Some(dec("3")));
    assert!(!found.labour[0].is_own);
}
