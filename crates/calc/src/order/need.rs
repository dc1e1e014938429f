//! What the design needs, before anyone asks in which units it is sold.

use super::item::Item;
use super::stage::Stage;
use crate::place::Place;
use crate::quantity::{Area, Length, Mass, MassDensity, Volume};
use crate::site::MaterialKey;

/// What is needed of one item.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// Of what.
    pub item: Item,
    /// Which material of the catalogue, for base, setting bed and spoil.
    pub material: Option<MaterialKey>,
    /// What it is called: "Crushed stone, dense graded".
    pub name: String,
    /// How much; `None` where readings are missing, and then the last of [`Need::steps`] says which.
    pub amount: Option<NeedAmount>,
    /// Whether it is the least: the bottom of what must come out was not found everywhere, or a part of it is not known yet.
    pub is_least: bool,
    /// Where the number comes from: what the drawings light, the most telling first.
    pub from: Vec<Place>,
    /// How it comes about, step by step, for whoever has to defend it.
    pub steps: Vec<Step>,
}

/// How much is needed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NeedAmount {
    /// So many, each of them so large and so heavy.
    Pieces {
        /// How many.
        n: u32,
        /// What one covers with its joint, for what is also sold by area.
        each_covers: Option<Area>,
        /// What one weighs.
        each_weighs: Option<Mass>,
    },
    /// What is tipped: sold loose, by volume or by weight.
    Bulk {
        /// In place: compacted, or in the ground for what is dug.
        in_place: Volume,
        /// As tipped.
        loose: Volume,
        /// Dry; what is delivered weighs more by its moisture.
        dry_mass: Mass,
    },
    /// Concrete, mixed.
    Mixed(Volume),
    /// So long.
    Length(Length),
    /// So large.
    Area(Area),
    /// So many days of hire; from the programme.
    Days(u32),
}

/// One step of how a number comes about.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What it is: "dig in plan", "× loose to compacted".
    pub what: &'static str,
    /// How much.
    pub figure: Figure,
    /// Where that figure comes from, where it is not plain; such as a source or "your list".
    pub source: Option<String>,
}

/// A figure of a step, without words: sheets and screens write it as the site shows lengths.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// A length.
    Length(Length),
    /// An area.
    Area(Area),
    /// A volume.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
    /// A density.
    Density(MassDensity),
    /// So many.
    Pieces(u32),
    /// A share, in percent.
    Percent(f64),
    /// A ratio.
    Ratio(f64),
    /// Days.
    Days(u32),
    /// Hours of one person.
    Hours(f64),
    /// A few words: what is missing, a material.
    Words(String),
}

/// The work of one stage that the design asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// Which.
    pub stage: Stage,
    /// How much of [`Stage::unit`]; `None` where readings are missing.
    pub amount: Option<WorkAmount>,
    /// Whether it is the least.
    pub is_least: bool,
    /// Where the number comes from.
    pub from: Vec<Place>,
}

/// How much work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WorkAmount {
    /// Area, or area once for each lift.
    Area(Area),
    /// Volume.
    Volume(Volume),
    /// Length.
    Length(Length),
    /// Pieces.
    Pieces(u32),
    /// The job.
    Job,
}

/// All that the design needs, one way of rebuilding.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Needs {
    /// Items in the order of [`Item::ALL`], each at most once. Hire is not among them: it follows from the programme.
    pub items: Vec<Need>,
    /// Stages in the order in which they are done; those that the design does not ask for are left out.
    pub work: Vec<Work>,
    /// Old brick laid again; `None` where neither a count nor a loss is known.
    pub n_reused: Option<u32>,
    /// Whole brick left over.
    pub n_over: u32,
    /// Stone, sand and spoil in and out by the barrow, as tipped.
    pub barrowed: Volume,
}

impl Step {
    /// A step without a source of its own.
    #[must_use]
    pub const fn new(what: &'static str, figure: Figure) -> Self {
        Self {
            what,
            figure,
            source: None,
        }
    }

    /// With where its figure comes from.
    #[must_use]
    pub fn from(mut self, source: impl Into<String>) -> Self {
        self.source = Some(source.into());
        self
    }
}

impl Needs {
    /// What is needed of an item.
    #[must_use]
    pub fn of(&self, item: Item) -> Option<&Need> {
        self.items.iter().find(|need| need.item == item)
    }
}
