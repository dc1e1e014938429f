//! What is sent: a message for each supplier, and the order for a spreadsheet, by way of the clipboard.

use underbrick_calc::order::Order;
use underbrick_sheets::order::{messages, order_csv, order_sheet};

use super::{bit, title};
use crate::stops::opened::{Copies, Opened};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::order::OrderBit;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, order: &Order, opened: &Opened, rows: &mut Vec<Row>) {
    rows.push(title("Send", "by way of the clipboard"));
    let is_done = |copies: &Copies| {
        opened
            .copied
            .as_ref()
            .is_some_and(|(copied, at)| copied == copies && *at == visit.revision())
    };
    for message in messages(visit.site(), order) {
        let copies = Copies::Message(message.supplier.clone());
        let is_done = is_done(&copies);
        rows.push(bit(OrderBit::Copy {
            words: format!("the message to {}", message.supplier),
            copies,
            is_done,
        }));
        if is_done {
            rows.push(Row::Said {
                mark: Mark::Right,
                text: message.text.trim_end().to_owned(),
                under: String::new(),
            });
        }
    }
    rows.push(bit(OrderBit::Copy {
        words: "the order for a spreadsheet".to_owned(),
        is_done: is_done(&Copies::Csv),
        copies: Copies::Csv,
    }));
}

/// The text that a key copies; `None` where there is none any more.
pub(crate) fn text(visit: &Visit, copies: &Copies) -> Option<String> {
    let order = visit.results().order.as_ref()?;
    match copies {
        Copies::Message(supplier) => messages(visit.site(), order)
            .into_iter()
            .find(|message| message.supplier == *supplier)
            .map(|message| message.text),
        Copies::Csv => {
            let list = &visit.catalogue().prices;
            Some(order_csv(&order_sheet(visit.site(), order, list)))
        }
    }
}
