//! Which parts of the rows are shown in full, and which are folded to one line.

use std::collections::BTreeSet;

use underbrick_calc::build::HoldStage;
use underbrick_calc::order::{Item, Stage};
use underbrick_calc::place::Place;

/// What is shown in full. Everything else is folded.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Opened {
    /// The pit whose layers are shown.
    pub pit: Option<usize>,
    /// Soil and frost.
    pub soil: bool,
    /// The causes after the first three.
    other_causes: bool,
    /// Other bonds beside the one that is laid.
    other_bonds: bool,
    /// All cuts.
    cuts: bool,
    /// The laying order.
    laying_order: bool,
    /// Rules whose readings are all shown.
    readings_of: BTreeSet<String>,
    /// The line of the order that says how it comes about, and that the drawings light.
    pub order: Option<OrderPart>,
    /// Which stage of the building shows what it asks for.
    pub stages: StagesShown,
    /// The stake that is shown alone, in big type.
    pub station: Option<usize>,
    /// The stake table, arcs, screed and gauge rod, day log.
    lists: BTreeSet<BuildList>,
    /// The picture that is shown large.
    pub picture: Option<PictureShown>,
    /// Whether pictures that were taken away are listed.
    pictures_away: bool,
    /// How many times older changes were asked for.
    pub n_older_changes: usize,
    /// What is shown full size.
    pub full_size: Option<FullSize>,
    /// What was copied last, and at which revision of the visit.
    pub copied: Option<(Copies, u64)>,
}

/// A line of the order, or a stage of its work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OrderPart {
    /// What is bought, taken away or hired.
    Line(Item),
    /// Work.
    Stage(Stage),
}

/// Which stage of the building shows what it asks for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum StagesShown {
    /// The first that is not closed.
    #[default]
    First,
    /// This one.
    Only(HoldStage),
    /// None.
    Nothing,
}

/// A list of stop Build that is long, and folded until it is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BuildList {
    /// The stake table.
    Stakes,
    /// Arcs of the edges.
    Curves,
    /// Screed and gauge rod.
    Gauge,
    /// The day log.
    Days,
    /// Who changed what.
    Changes,
}

/// What is shown full size in the place of the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FullSize {
    /// The end of the screed board.
    Screed,
    /// The gauge rod.
    Rod,
    /// A card that is laid on the screen, to measure that.
    Measure,
}

/// What stands large in the place of the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PictureShown {
    /// The picture of that index.
    One(usize),
    /// What could not be taken in.
    Trouble,
}

/// What a key copies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Copies {
    /// What a supplier is asked for.
    Message(String),
    /// The order for a spreadsheet.
    Csv,
}

/// A part that a tap opens or folds.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// The causes after the first three.
    OtherCauses,
    /// Other bonds beside the one that is laid.
    OtherBonds,
    /// The cuts after the most frequent.
    Cuts,
    /// The laying order, course by course.
    LayingOrder,
    /// The readings of one rule after the first four.
    ReadingsOf(String),
    /// What stands behind a line of the order.
    Order(OrderPart),
    /// What a stage asks for.
    Stages(StagesShown),
    /// One stake alone, or the ground again.
    Station(Option<usize>),
    /// A long list of stop Build.
    BuildList(BuildList),
    /// A picture, large, or the ground again.
    Picture(Option<PictureShown>),
    /// Pictures that were taken away.
    PicturesAway,
    /// Older changes.
    OlderChanges,
    /// The next letter for this device.
    NextDevice,
    /// Something full size, or the ground again.
    FullSize(Option<FullSize>),
}

impl OrderPart {
    /// The part at which a value is set.
    #[must_use]
    pub const fn of(place: Place) -> Option<Self> {
        match place {
            Place::OrderLine(item) | Place::OrderRate(item) | Place::OrderCount(item) => {
                Some(Self::Line(item))
            }
            Place::StageHours(stage) => Some(Self::Stage(stage)),
            _ => None,
        }
    }
}

impl Opened {
    /// Whether a part is shown in full.
    #[must_use]
    pub fn shows(&self, part: &Part) -> bool {
        match part {
            Part::OtherCauses => self.other_causes,
            Part::OtherBonds => self.other_bonds,
            Part::Cuts => self.cuts,
            Part::LayingOrder => self.laying_order,
            Part::ReadingsOf(rule_id) => self.readings_of.contains(rule_id),
            Part::Order(part) => self.order == Some(*part),
            Part::Stages(shown) => self.stages == *shown,
            Part::Station(nth) => self.station == *nth,
            Part::BuildList(list) => self.lists.contains(list),
            Part::Picture(shown) => self.picture == *shown,
            Part::PicturesAway => self.pictures_away,
            Part::OlderChanges => self.n_older_changes > 0,
            Part::NextDevice => false,
            Part::FullSize(which) => self.full_size == *which,
        }
    }

    /// Opens a part that is folded, folds one that is open.
    pub fn turn(&mut self, part: Part) {
        match part {
            Part::OtherCauses => self.other_causes = !self.other_causes,
            Part::OtherBonds => self.other_bonds = !self.other_bonds,
            Part::Cuts => self.cuts = !self.cuts,
            Part::LayingOrder => self.laying_order = !self.laying_order,
            Part::Order(part) => self.order = (self.order != Some(part)).then_some(part),
            Part::Stages(shown) => self.stages = shown,
            Part::Station(nth) => {
                self.station = nth;
                self.full_size = None;
            }
            Part::FullSize(which) => {
                self.full_size = which;
                self.station = None;
            }
            Part::Picture(shown) => self.picture = shown,
            Part::PicturesAway => self.pictures_away = !self.pictures_away,
            Part::OlderChanges => self.n_older_changes = self.n_older_changes.saturating_add(1),
            // It is no part of the rows: the settings keep it.
            Part::NextDevice => {}
            Part::BuildList(list) => {
                if !self.lists.remove(&list) {
                    self.lists.insert(list);
                }
            }
            Part::ReadingsOf(rule_id) => {
                if !self.readings_of.remove(&rule_id) {
                    self.readings_of.insert(rule_id);
                }
            }
        }
    }
}
