//! In which units an item may be sold, a load of it told, and a stage timed.

use underbrick_calc::order::{Holds, Item, SaleMeasure, SaleUnit, WorkUnit};

/// What the need of an item is measured by.
pub(super) const fn sold_by(item: Item) -> &'static [SaleMeasure] {
    match item {
        Item::Brick | Item::SecondBrick => {
            &[SaleMeasure::Pieces, SaleMeasure::Area, SaleMeasure::Mass]
        }
        Item::Base
        | Item::SettingBed
        | Item::Jointing
        | Item::UnsuitableSpoil
        | Item::TrimSpoil
        | Item::OldBedSpoil
        | Item::OldBrick => &[SaleMeasure::Volume, SaleMeasure::Mass],
        Item::Fabric => &[SaleMeasure::Area],
        Item::HaunchConcrete => &[SaleMeasure::Volume],
        Item::EdgingStrip | Item::FormBoard | Item::String => &[SaleMeasure::Length],
        Item::EdgingSpike | Item::FormStake | Item::FormScrew | Item::Spacer => {
            &[SaleMeasure::Pieces]
        }
        Item::Plate | Item::Saw => &[SaleMeasure::Days],
    }
}

/// In what a load of an item is told, sold in such a unit: what is known of it once it is counted in that unit.
pub(super) const fn loaded_by(item: Item, unit: SaleUnit) -> &'static [SaleMeasure] {
    match item {
        Item::Brick | Item::SecondBrick => &[SaleMeasure::Pieces, SaleMeasure::Mass],
        // A bag says what it yields, not how much room it takes.
        Item::HaunchConcrete => match unit.measure() {
            SaleMeasure::Volume => &[SaleMeasure::Volume, SaleMeasure::Mass],
            _ => &[SaleMeasure::Mass],
        },
        Item::Plate | Item::Saw => &[],
        _ => sold_by(item),
    }
}

/// What one unit of an offer measures: what a pack holds, else the unit itself.
pub(super) fn measure(unit: SaleUnit, holds: Option<Holds>) -> SaleMeasure {
    holds.map_or(unit.measure(), measure_of)
}

/// What an amount measures.
pub(super) const fn measure_of(holds: Holds) -> SaleMeasure {
    match holds {
        Holds::Volume(_) => SaleMeasure::Volume,
        Holds::Mass(_) => SaleMeasure::Mass,
        Holds::Length(_) => SaleMeasure::Length,
        Holds::Area(_) => SaleMeasure::Area,
        Holds::Pieces(_) => SaleMeasure::Pieces,
    }
}

/// The measure by which the hours of a stage are told; `None` for the job as a whole.
pub(super) const fn timed_by(unit: WorkUnit) -> Option<SaleMeasure> {
    match unit {
        WorkUnit::Area | WorkUnit::LiftArea => Some(SaleMeasure::Area),
        WorkUnit::Volume => Some(SaleMeasure::Volume),
        WorkUnit::Length => Some(SaleMeasure::Length),
        WorkUnit::Pieces => Some(SaleMeasure::Pieces),
        WorkUnit::Job => None,
    }
}

/// The units of these measures, in words.
pub(super) fn units_of(measures: &[SaleMeasure]) -> String {
    let units: Vec<&str> = SaleUnit::ALL
        .into_iter()
        .filter(|unit| measures.contains(&unit.measure()))
        .map(SaleUnit::key)
        .collect();
    units.join(", ")
}
