//! Moisture of what is delivered: the supplier's figure, else the catalogue's.

use super::item::Item;
use super::price_list::PriceList;
use crate::catalogue::Catalogue;
use crate::site::MaterialKey;

/// The price list, where an offer of setting bed, or of base of that material, says no moisture with that of the catalogue. What fills joints
/// comes dry, in bags; the catalogue's densities of ground are as it is dug.
pub(super) fn with_moisture(catalogue: &Catalogue, base: &MaterialKey) -> PriceList {
    let mut list = catalogue.prices.clone();
    for price in &mut list.items {
        let usual = match price.item {
            Item::Base => Some(base),
            Item::SettingBed => catalogue.bedding.as_ref().map(|bedding| &bedding.key),
            _ => continue,
        };
        let key = price.material.as_ref().or(usual);
        if let Some(moisture) = key.and_then(|key| catalogue.moisture(key)) {
            for offer in &mut price.offers {
                offer.moisture.get_or_insert(moisture.percent);
            }
        }
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::DeliveredMoisture;
    use crate::order::{Comes, Decimal, ItemPrice, Money, Offer, SaleUnit};

    fn key(name: &str) -> MaterialKey {
        MaterialKey(name.to_owned())
    }

    fn price(item: Item, material: Option<&str>, moisture: Option<f64>) -> ItemPrice {
        ItemPrice {
            item,
            material: material.map(key),
            waste: Decimal::ZERO,
            is_taxed: false,
            offers: vec![Offer {
                supplier: "Pit".to_owned(),
                rate: Money(Decimal::ONE),
                unit: SaleUnit::Ton,
                holds: None,
                step: Decimal::ONE,
                minimum: Decimal::ZERO,
                loose_density: None,
                loose_to_compacted: None,
                moisture,
                comes: Comes::PickedUp,
            }],
        }
    }

    #[track_caller]
    fn check(price: ItemPrice, expected: Option<f64>) {
        let moisture = |name: &str, percent| DeliveredMoisture {
            key: key(name),
            percent,
            source: "s".to_owned(),
        };
        let catalogue = Catalogue {
            prices: PriceList {
                items: vec![price],
                ..PriceList::default()
            },
            moistures: vec![moisture("stone", 5.0), moisture("washed", 2.0)],
            ..Catalogue::default()
        };
        let list = with_moisture(&catalogue, &key("stone"));
        assert_eq!(list.items[0].offers[0].moisture, expected);
    }

    #[test]
    fn the_supplier_goes_before_the_catalogue() {
        check(price(Item::Base, Some("washed"), Some(3.0)), Some(3.0));
        check(price(Item::Base, Some("washed"), Some(0.0)), Some(0.0));
        check(price(Item::Base, Some("washed"), None), Some(2.0));
        check(price(Item::Base, None, None), Some(5.0));
        check(price(Item::Base, Some("slag"), None), None);
        check(price(Item::TrimSpoil, Some("stone"), None), None);
        check(price(Item::SettingBed, None, None), None);
    }
}
