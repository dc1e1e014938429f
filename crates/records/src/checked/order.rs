//! The order, checked.

use underbrick_calc::field::check_decimal;
use underbrick_calc::measure::decimal::read_decimal;
use underbrick_calc::order::{Decimal, Item, Money, Stage};
use underbrick_calc::place::Place;
use underbrick_calc::site;

use super::Check;

impl Check<'_> {
    pub(super) fn order(&mut self) -> site::OrderInput {
        let order = &self.file.order;
        let mut lines: Vec<site::LineWish> = Vec::new();
        for line in &order.lines {
            let Some(item) = Item::of(&line.item) else {
                self.warn(
                    Place::OrderWay,
                    format!("Order: {:?} is no line of an order.", line.item),
                    "It is kept as written and not used.",
                );
                continue;
            };
            if lines.iter().any(|before| before.item == item) {
                self.warn(
                    Place::OrderLine(item),
                    format!(
                        "Order: {:?} stands twice; the first one is used.",
                        line.item
                    ),
                    "Take one of them out of the file.",
                );
                continue;
            }
            lines.push(site::LineWish {
                item,
                supplier: Some(line.supplier.trim().to_owned()).filter(|name| !name.is_empty()),
                rate: self.decimal(Place::OrderRate(item)).map(Money),
                locked: self.decimal(Place::OrderCount(item)),
            });
        }
        let mut stages: Vec<site::StageWish> = Vec::new();
        for hours in &order.stages {
            let Some(stage) = Stage::of(&hours.stage) else {
                self.warn(
                    Place::OrderWay,
                    format!("Order: {:?} is no stage of the work.", hours.stage),
                    "It is kept as written and not used.",
                );
                continue;
            };
            if stages.iter().any(|before| before.stage == stage) {
                self.warn(
                    Place::StageHours(stage),
                    format!(
                        "Order: {:?} stands twice; the first one is used.",
                        hours.stage
                    ),
                    "Take one of them out of the file.",
                );
                continue;
            }
            stages.push(site::StageWish {
                stage,
                hours: self.decimal(Place::StageHours(stage)),
            });
        }
        site::OrderInput {
            way: order.way.into(),
            n_crew: self.count(Place::CrewSize),
            crew_rate: self.decimal(Place::CrewRate).map(Money),
            lines,
            stages,
        }
    }

    pub(super) fn decimal(&mut self, place: Place) -> Option<Decimal> {
        self.value(place, read_decimal, check_decimal)
    }
}
