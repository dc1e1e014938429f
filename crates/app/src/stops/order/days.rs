//! Day by day, and what it comes to.

use underbrick_calc::order::{Gain, Money, Order, Priced};

use super::{at_least, bit, days_words, hours, plain, title};
use crate::visit::Visit;
use crate::widgets::order::{DayRow, OrderBit, Sum};
use crate::widgets::rows::Row;

pub(super) fn rows(priced: &Priced, rows: &mut Vec<Row>) {
    let days = &priced.programme.days;
    if days.is_empty() {
        return;
    }
    rows.push(title("Day by day", days_words(priced)));
    for (day, number) in days.iter().zip(1..) {
        let stages = day
            .stages
            .iter()
            .map(|(stage, all)| (stage.name().to_owned(), hours(*all)))
            .collect();
        let on_site: Vec<&str> = day.on_site.iter().map(|item| item.name()).collect();
        let on_site =
            (!on_site.is_empty()).then(|| format!("there in the morning: {}", on_site.join(", ")));
        rows.push(bit(OrderBit::Day(DayRow {
            number,
            stages,
            notes: on_site
                .into_iter()
                .chain(day.said.iter().cloned())
                .collect(),
        })));
    }
}

/// Cost by kind, what is put on, and the price.
pub(super) fn sum_rows(visit: &Visit, order: &Order, priced: &Priced, rows: &mut Vec<Row>) {
    let price = &priced.price;
    let list = &visit.catalogue().prices;
    let gain = match list.gain {
        Gain::MarkUp(percent) => format!("Mark-up, {} %", percent.normalize()),
        Gain::Margin(percent) => format!("Margin, {} % of the price", percent.normalize()),
    };
    let line = |name: &str, amount: Money, is_sum: bool| Sum {
        name: name.to_owned(),
        amount: order.currency.written(amount),
        is_sum,
    };
    let parts = [
        line("Material", price.material, false),
        line("Delivery and trips", price.delivery, false),
        line("Taken away", price.taken_away, false),
        line("Hire", price.hire, false),
        line("Labour", price.labour, false),
        line("Cost", price.cost, true),
        line(
            &format!("Contingency, {} %", list.contingency.normalize()),
            price.contingency,
            false,
        ),
        line(&gain, price.gain, false),
        line(
            &format!("Tax, {} % where it is due", list.tax.normalize()),
            price.tax,
            false,
        ),
        line("Rounding", price.rounding, false),
    ];
    let nothing = order.currency.written(Money::default());
    let mut sums: Vec<Sum> = parts
        .into_iter()
        .filter(|sum| sum.is_sum || sum.amount != nothing)
        .collect();
    sums.push(Sum {
        name: "Price".to_owned(),
        amount: at_least(price.is_least, plain(order.currency, price.total)),
        is_sum: true,
    });
    rows.push(title("What it comes to", order.currency.code));
    rows.push(bit(OrderBit::Sums(sums)));
}
