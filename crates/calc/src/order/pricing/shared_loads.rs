//! Loads that several lines share: what one supplier brings, or one haulier takes, on the same terms goes together.

use super::carried::{self, whole_up};
use super::line::Lined;
use crate::order::item::ItemGroup;
use crate::order::money::Money;
use crate::order::price_list::{Comes, PriceList};
use crate::order::priced::Sold;
use crate::order::sale::Holds;
use crate::quantity::in_cubic_metres;

/// Loads on the same terms so far.
struct Together {
    group: ItemGroup,
    supplier: String,
    per_load: Money,
    most: Holds,
    /// Full and part loads together.
    loads: f64,
    n_loads: u32,
    /// The line that opened the last load.
    opened_by: String,
}

/// Counts loads over all lines of one supplier on the same terms, so that a part load takes what the next line brings: each line has the
/// loads that it adds, and one that adds none says with what it goes. Lines whose weight or volume is not known keep their own.
pub(super) fn share(list: &PriceList, lines: &mut [Lined]) {
    let mut all: Vec<Together> = Vec::new();
    for lined in lines {
        let line = &mut lined.line;
        let (group, name) = (line.item.group(), line.need.name.clone());
        let Some(sold) = &mut line.sold else { continue };
        let Some((per_load, most, loads)) = on_a_truck(sold) else {
            continue;
        };
        let same = |together: &&mut Together| {
            together.group == group
                && together.supplier == sold.supplier
                && together.per_load == per_load
                && together.most == most
        };
        let Some(together) = all.iter_mut().find(same) else {
            all.push(Together {
                group,
                supplier: sold.supplier.clone(),
                per_load,
                most,
                loads,
                n_loads: sold.n_loads,
                opened_by: name,
            });
            continue;
        };
        together.loads += loads;
        let Some(n_all) = whole_up(together.loads) else {
            continue;
        };
        let n_added = n_all.saturating_sub(together.n_loads);
        let Some(delivery) = carried::delivery(list, n_added, per_load) else {
            continue;
        };
        sold.n_loads = n_added;
        sold.delivery = delivery;
        together.n_loads = together.n_loads.saturating_add(n_added);
        if n_added == 0 {
            line.said
                .push(format!("goes on the load with: {}", together.opened_by));
        } else {
            together.opened_by = name;
        }
    }
}

/// Price of a load, what it carries, and how many such loads a line is, in full and part; `None` where that is not known.
fn on_a_truck(sold: &Sold) -> Option<(Money, Holds, f64)> {
    let Comes::Delivered {
        per_load,
        most: Some(most),
    } = sold.comes
    else {
        return None;
    };
    let loads = match most {
        Holds::Mass(one) => (sold.weighs? / one).value,
        Holds::Volume(one) => in_cubic_metres(sold.volume?) / in_cubic_metres(one),
        Holds::Length(_) | Holds::Area(_) | Holds::Pieces(_) => return None,
    };
    (loads > 0.0 && loads.is_finite()).then_some((per_load, most, loads))
}
