//! What was decided for the order of a job, as typed. What is as the price list has it is left out of the file.

use serde::{Deserialize, Serialize};
use underbrick_calc::order;
use underbrick_calc::place::Place;

use crate::written::{is_usual, written};

/// What was decided for the order.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Order {
    /// How the walk is rebuilt.
    #[serde(skip_serializing_if = "is_usual")]
    pub way: Way,
    /// How many work on it.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub crew: String,
    /// One hour of one person, in the currency of the price list.
    #[serde(deserialize_with = "written", skip_serializing_if = "String::is_empty")]
    pub crew_rate: String,
    /// Lines that are not as the list has them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lines: Vec<OrderLine>,
    /// Stages whose hours are not as the list has them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub stages: Vec<StageHours>,
}

/// How the walk is rebuilt.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Way {
    /// The old brick on a new setting bed over the base that is there.
    Relay,
    /// A new base under the old brick.
    #[default]
    NewBase,
    /// A new base and new brick.
    NewBrick,
}

/// A line that is not as the list has it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrderLine {
    /// Which: a word such as `base`.
    #[serde(deserialize_with = "written")]
    pub item: String,
    /// Who sells it.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub supplier: String,
    /// For one unit of sale.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub rate: String,
    /// So many units of sale have been ordered.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub locked: String,
}

/// A stage whose hours are not as the list has them.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StageHours {
    /// Which: a word such as `dig`.
    #[serde(deserialize_with = "written")]
    pub stage: String,
    /// Hours of one person for one unit of the list.
    #[serde(
        default,
        deserialize_with = "written",
        skip_serializing_if = "String::is_empty"
    )]
    pub hours: String,
}

/// Where nothing was written down.
static NOTHING: String = String::new();

impl Order {
    /// Whether everything is as the list has it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        is_usual(self)
    }

    /// The text at a place of the order; nothing where nothing was written down. `None` for a place elsewhere.
    pub(crate) fn text_ref(&self, place: Place) -> Option<&String> {
        let line = |item: order::Item, text: fn(&OrderLine) -> &String| {
            let line = self.lines.iter().find(|line| line.is_of(item));
            line.map_or(&NOTHING, text)
        };
        match place {
            Place::CrewSize => Some(&self.crew),
            Place::CrewRate => Some(&self.crew_rate),
            Place::OrderRate(item) => Some(line(item, |line| &line.rate)),
            Place::OrderCount(item) => Some(line(item, |line| &line.locked)),
            Place::StageHours(stage) => {
                let of_stage = self.stages.iter().find(|hours| hours.is_of(stage));
                Some(of_stage.map_or(&NOTHING, |hours| &hours.hours))
            }
            _ => None,
        }
    }

    /// The text at a place of the order, to be written to; [`Order::tidy`] takes away what holds nothing.
    pub(crate) fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        match place {
            Place::CrewSize => Some(&mut self.crew),
            Place::CrewRate => Some(&mut self.crew_rate),
            Place::OrderRate(item) => Some(&mut self.line_mut(item)?.rate),
            Place::OrderCount(item) => Some(&mut self.line_mut(item)?.locked),
            Place::StageHours(stage) => {
                if !self.stages.iter().any(|hours| hours.is_of(stage)) {
                    self.stages.push(StageHours {
                        stage: stage.key().to_owned(),
                        ..StageHours::default()
                    });
                }
                let of_stage = self.stages.iter_mut().find(|hours| hours.is_of(stage))?;
                Some(&mut of_stage.hours)
            }
            _ => None,
        }
    }

    /// The line of an item, made where there is none.
    pub(crate) fn line_mut(&mut self, item: order::Item) -> Option<&mut OrderLine> {
        if !self.lines.iter().any(|line| line.is_of(item)) {
            self.lines.push(OrderLine {
                item: item.key().to_owned(),
                ..OrderLine::default()
            });
        }
        self.lines.iter_mut().find(|line| line.is_of(item))
    }

    /// Takes lines and stages away that hold nothing but their name. One whose name is not known is kept: a person wrote it.
    pub(crate) fn tidy(&mut self) {
        self.lines.retain(|line| {
            let holds =
                !(line.supplier.is_empty() && line.rate.is_empty() && line.locked.is_empty());
            holds || order::Item::of(&line.item).is_none()
        });
        self.stages
            .retain(|hours| !hours.hours.is_empty() || order::Stage::of(&hours.stage).is_none());
    }

    /// Places of the order where something is written, in the order of the file.
    pub(crate) fn places(&self) -> Vec<Place> {
        let mut places = vec![Place::CrewSize, Place::CrewRate];
        for item in self
            .lines
            .iter()
            .filter_map(|line| order::Item::of(&line.item))
        {
            places.extend([Place::OrderRate(item), Place::OrderCount(item)]);
        }
        let stages = self.stages.iter();
        places.extend(
            stages
                .filter_map(|hours| order::Stage::of(&hours.stage))
                .map(Place::StageHours),
        );
        places
    }
}

impl OrderLine {
    fn is_of(&self, item: order::Item) -> bool {
        order::Item::of(&self.item) == Some(item)
    }
}

impl StageHours {
    fn is_of(&self, stage: order::Stage) -> bool {
        order::Stage::of(&self.stage) == Some(stage)
    }
}

impl From<Way> for order::Way {
    fn from(way: Way) -> Self {
        match way {
            Way::Relay => Self::Relay,
            Way::NewBase => Self::NewBase,
            Way::NewBrick => Self::NewBrick,
        }
    }
}

impl From<order::Way> for Way {
    fn from(way: order::Way) -> Self {
        match way {
            order::Way::Relay => Self::Relay,
            order::Way::NewBase => Self::NewBase,
            order::Way::NewBrick => Self::NewBrick,
        }
    }
}
