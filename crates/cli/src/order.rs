//! `underbrick order`: what is bought, how long it takes, what it costs.

use underbrick_calc::compute;
use underbrick_sheets::order::{messages, order_csv, order_json, order_sheet, order_text};

use crate::arguments::{OrderAsked, WayAsked};
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, say};

/// Writes the order, and tells the findings.
pub fn order(asked: &OrderAsked) -> anyhow::Result<Status> {
    let mut measured = Measured::read(&asked.site)?;
    if let Some(way) = asked.way {
        measured.site.order.way = way.into();
        measured.results = compute(&measured.site, &measured.catalogue);
    }
    tell(&measured.findings);
    let Some(order) = &measured.results.order else {
        anyhow::bail!("nothing could be worked out for an order");
    };
    let list = &measured.catalogue.prices;
    let sheet = order_sheet(&measured.site, order, list);
    let text = if asked.csv {
        order_csv(&sheet)
    } else if asked.json {
        order_json(&sheet)
    } else if asked.message {
        messages(&measured.site, order)
            .into_iter()
            .map(|message| message.text)
            .collect::<Vec<_>>()
            .join("\n")
    } else {
        order_text(&measured.site, order, &sheet, asked.why)
    };
    say(&text)?;
    Ok(measured.status())
}

impl From<WayAsked> for underbrick_calc::order::Way {
    fn from(way: WayAsked) -> Self {
        match way {
            WayAsked::Relay => Self::Relay,
            WayAsked::NewBase => Self::NewBase,
            WayAsked::NewBrick => Self::NewBrick,
        }
    }
}
