//! What is noted of the way that is ordered.

use crate::lists::{dec, list, money, offer, sells, site};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::findings::{Finding, Weight};
use underbrick_calc::order::{Item, PriceList, SaleUnit, Stage};
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

/// A wish for a stage that the way does not ask for has no labour to change.
#[test]
fn hours_of_a_stage_that_is_not_done_are_not_noted() {
    let mut site = site();
    site.order.stages = vec![StageWish {
        stage: Stage::Cut,
        hours: Some(dec("-1")),
    }];
    let noted = of_the_order(&site, list(Vec::new()));
    let of_cuts = noted
        .iter()
        .filter(|it| it.place == Place::StageHours(Stage::Cut));
    assert_eq!(of_cuts.count(), 0);
}
