//! Which parts of the rows are shown in full, and which are folded to one line.

use std::collections::BTreeSet;

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
        }
    }

    /// Opens a part that is folded, folds one that is open.
    pub fn turn(&mut self, part: Part) {
        match part {
            Part::OtherCauses => self.other_causes = !self.other_causes,
            Part::OtherBonds => self.other_bonds = !self.other_bonds,
            Part::Cuts => self.cuts = !self.cuts,
            Part::LayingOrder => self.laying_order = !self.laying_order,
            Part::ReadingsOf(rule_id) => {
                if !self.readings_of.remove(&rule_id) {
                    self.readings_of.insert(rule_id);
                }
            }
        }
    }
}
