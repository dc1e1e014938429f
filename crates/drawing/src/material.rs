//! How each material is shown: its colour and its hatch.

use crate::draft::Shown;
use crate::palette::Ink;
use underbrick_calc::catalogue::{Catalogue, Hatch};
use underbrick_calc::ground::Verdict;
use underbrick_calc::site::MaterialKey;

/// Fired clay, cut.
pub(crate) const BRICK: Shown = Shown {
    fill: Ink::Clay,
    mark: Ink::ClayMark,
    hatch: Hatch::Brick,
};
/// The setting bed.
pub(crate) const SETTING_BED: Shown = Shown {
    fill: Ink::SettingBed,
    mark: Ink::SettingBedMark,
    hatch: Hatch::Sand,
};
/// A haunch.
pub(crate) const CONCRETE: Shown = Shown {
    fill: Ink::Concrete,
    mark: Ink::ConcreteMark,
    hatch: Hatch::Concrete,
};
/// Undisturbed ground.
pub(crate) const GROUND: Shown = Shown {
    fill: Ink::Ground,
    mark: Ink::GroundMark,
    hatch: Hatch::Earth,
};
/// Ground that is put back.
pub(crate) const BACKFILL: Shown = Shown {
    fill: Ink::Backfill,
    mark: Ink::BackfillMark,
    hatch: Hatch::Sand,
};

/// A lift of the base, counted from 1 at the bottom: neighbours differ in tone.
pub(crate) fn lift(number: usize, hatch: Hatch) -> Shown {
    let fill = if number.is_multiple_of(2) {
        Ink::BaseEven
    } else {
        Ink::BaseOdd
    };
    Shown {
        fill,
        mark: Ink::BaseMark,
        hatch,
    }
}

/// A layer as found, coloured by what becomes of it.
pub(crate) fn layer(verdict: Verdict, hatch: Hatch) -> Shown {
    match verdict {
        Verdict::Lifted => Shown {
            fill: Ink::Clay,
            mark: Ink::ClayMark,
            hatch,
        },
        Verdict::ComesOut => Shown {
            fill: Ink::ComesOut,
            mark: Ink::ComesOutMark,
            hatch,
        },
        Verdict::Stays => Shown {
            fill: Ink::Ground,
            mark: Ink::GroundMark,
            hatch,
        },
        Verdict::NotKnown => Shown {
            fill: Ink::Paper,
            mark: Ink::NotKnown,
            hatch: Hatch::Clay,
        },
    }
}

/// The hatch of a material; that of `unknown` where the catalogue does not have it.
pub(crate) fn hatch_of(catalogue: &Catalogue, key: &MaterialKey, unknown: Hatch) -> Hatch {
    catalogue
        .find(key)
        .map_or(unknown, |material| material.hatch)
}

/// What the trade calls a material; its key where the catalogue does not have it.
pub(crate) fn name_of<'a>(catalogue: &'a Catalogue, key: &'a MaterialKey) -> &'a str {
    catalogue
        .find(key)
        .map_or(key.0.as_str(), |material| material.name.as_str())
}
