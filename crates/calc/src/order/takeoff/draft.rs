//! A need as it is put together.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use crate::place::Place;
use crate::site::MaterialKey;

/// What is known of a need before its amount is.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    item: Item,
    material: Option<MaterialKey>,
    name: Option<String>,
    is_least: bool,
    from: Vec<Place>,
    steps: Vec<Step>,
}

impl Draft {
    pub(super) fn of(item: Item) -> Self {
        Self {
            item,
            material: None,
            name: None,
            is_least: false,
            from: Vec::new(),
            steps: Vec::new(),
        }
    }

    /// Of that material of the catalogue.
    pub(super) fn material(mut self, key: &MaterialKey, name: &str) -> Self {
        self.material = Some(key.clone());
        self.name = Some(name.to_owned());
        self
    }

    /// Of that material, under the item's own name.
    pub(super) fn of_key(mut self, key: &MaterialKey) -> Self {
        self.material = Some(key.clone());
        self
    }

    /// Under that name.
    pub(super) fn named(mut self, name: impl Into<String>) -> Self {
        self.name = Some(name.into());
        self
    }

    pub(super) fn least(mut self, is_least: bool) -> Self {
        self.is_least |= is_least;
        self
    }

    pub(super) fn from(mut self, places: impl IntoIterator<Item = Place>) -> Self {
        self.from.extend(places);
        self
    }

    pub(super) fn step(self, what: &'static str, figure: Figure) -> Self {
        self.steps([Step::new(what, figure)])
    }

    pub(super) fn steps(mut self, steps: impl IntoIterator<Item = Step>) -> Self {
        self.steps.extend(steps);
        self
    }

    /// So much of it.
    pub(super) fn needs(self, amount: NeedAmount) -> Need {
        self.done(Some(amount))
    }

    /// How much is not known: `what` is missing.
    pub(super) fn misses(self, what: impl Into<String>) -> Need {
        self.least(true)
            .step("missing", Figure::Words(what.into()))
            .done(None)
    }

    fn done(self, amount: Option<NeedAmount>) -> Need {
        let Self {
            item,
            material,
            name,
            is_least,
            from,
            steps,
        } = self;
        Need {
            item,
            material,
            name: name.unwrap_or_else(|| item.name().to_owned()),
            amount,
            is_least,
            from,
            steps,
        }
    }
}
