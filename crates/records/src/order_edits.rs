//! The way that is ordered, suppliers, locks.

use underbrick_calc::order::{Decimal, Item, Way};

use crate::v1::SiteFile;

impl SiteFile {
    /// Which way of rebuilding is ordered.
    pub fn set_way(&mut self, way: Way) {
        self.order.way = way.into();
    }

    /// Who sells an item; `None` for the first of the price list.
    pub fn set_supplier(&mut self, item: Item, supplier: Option<&str>) {
        if let Some(line) = self.order.line_mut(item) {
            line.supplier = supplier.unwrap_or_default().to_owned();
        }
        self.order.tidy();
    }

    /// Locks a line at so many units of sale, or gives it free.
    pub fn lock(&mut self, item: Item, count: Option<Decimal>) {
        if let Some(line) = self.order.line_mut(item) {
            line.locked = count.map_or_else(String::new, |count| count.normalize().to_string());
        }
        self.order.tidy();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::order::Stage;
    use underbrick_calc::place::Place;

    #[test]
    fn a_line_is_there_while_it_holds_something() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        let rate = Place::OrderRate(Item::Base);
        assert_eq!(site.text(rate), Some(""));
        assert!(site.set_text(rate, "27.50"));
        site.set_supplier(Item::Base, Some("Quarry"));
        site.lock(Item::Base, Some(Decimal::new(45, 1)));
        assert_eq!(site.text(Place::OrderCount(Item::Base)), Some("4.5"));
        assert_eq!(site.order.lines.len(), 1);
        assert!(site.set_text(rate, ""));
        site.set_supplier(Item::Base, None);
        site.lock(Item::Base, None);
        assert!(site.order.is_empty());
        assert!(site.set_text(Place::StageHours(Stage::Dig), "1.2"));
        assert!(!site.order.is_empty());
        assert!(site.set_text(Place::StageHours(Stage::Dig), ""));
        assert!(site.order.is_empty());
    }

    #[test]
    fn a_line_that_nobody_knows_is_kept_as_written() {
        let mut site = SiteFile::new("3 Sample Lane", "");
        site.order.lines.push(crate::v1::OrderLine {
            item: "gravel-dust".to_owned(),
            ..Default::default()
        });
        site.lock(Item::Base, None);
        assert_eq!(site.order.lines.len(), 1);
    }
}
