//! Units of sale.

use crate::quantity::{
    Area, CUBIC_FOOT_M3, CUBIC_YARD_M3, Length, Mass, POUND_KG, Volume, cubic_metres, metres,
    square_metres, unit,
};

/// A unit in which something is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SaleUnit {
    /// Cubic yard.
    CubicYard,
    /// Cubic foot.
    CubicFoot,
    /// Cubic metre.
    CubicMetre,
    /// Short ton of 2,000 lb.
    Ton,
    /// Tonne of 1,000 kg.
    Tonne,
    /// Pound.
    Pound,
    /// Kilogram.
    Kilogram,
    /// Foot.
    Foot,
    /// Metre.
    Metre,
    /// Square foot.
    SquareFoot,
    /// Square yard.
    SquareYard,
    /// Square metre.
    SquareMetre,
    /// Piece.
    Piece,
    /// Bag that holds so much.
    Bag,
    /// Pallet that holds so much.
    Pallet,
    /// Roll that holds so much.
    Roll,
    /// Box that holds so much.
    Box,
    /// Load of a truck that holds so much.
    Load,
    /// Day of hire.
    Day,
}

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SaleMeasure {
    /// Volume, as tipped; concrete as mixed.
    Volume,
    /// Weight, as delivered.
    Mass,
    /// Length.
    Length,
    /// Area.
    Area,
    /// Pieces.
    Pieces,
    /// A pack: what it holds says what it measures.
    Pack,
    /// Time.
    Days,
}

/// What one bag, pallet, roll, box, load or piece holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holds {
    /// As tipped; concrete as mixed: the yield printed on the bag.
    Volume(Volume),
    /// As delivered.
    Mass(Mass),
    /// A length, such as a board's.
    Length(Length),
    /// An area, such as a roll's.
    Area(Area),
    /// So many pieces.
    Pieces(u32),
}

impl SaleUnit {
    /// All, in the order in which an error names them.
    pub const ALL: [Self; 19] = [
        Self::CubicYard,
        Self::CubicFoot,
        Self::CubicMetre,
        Self::Ton,
        Self::Tonne,
        Self::Pound,
        Self::Kilogram,
        Self::Foot,
        Self::Metre,
        Self::SquareFoot,
        Self::SquareYard,
        Self::SquareMetre,
        Self::Piece,
        Self::Bag,
        Self::Pallet,
        Self::Roll,
        Self::Box,
        Self::Load,
        Self::Day,
    ];

    /// Its word in a price list.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::CubicYard => "yd3",
            Self::CubicFoot => "ft3",
            Self::CubicMetre => "m3",
            Self::Ton => "ton",
            Self::Tonne => "tonne",
            Self::Pound => "lb",
            Self::Kilogram => "kg",
            Self::Foot => "ft",
            Self::Metre => "m",
            Self::SquareFoot => "ft2",
            Self::SquareYard => "yd2",
            Self::SquareMetre => "m2",
            Self::Piece => "piece",
            Self::Bag => "bag",
            Self::Pallet => "pallet",
            Self::Roll => "roll",
            Self::Box => "box",
            Self::Load => "load",
            Self::Day => "day",
        }
    }

    /// As written behind a number.
    #[must_use]
    pub const fn symbol(self, is_one: bool) -> &'static str {
        match (self, is_one) {
            (Self::CubicYard, _) => "yd³",
            (Self::CubicFoot, _) => "ft³",
            (Self::CubicMetre, _) => "m³",
            (Self::Ton, true) => "ton",
            (Self::Ton, false) => "tons",
            (Self::Tonne, true) => "tonne",
            (Self::Tonne, false) => "tonnes",
            (Self::Pound, _) => "lb",
            (Self::Kilogram, _) => "kg",
            (Self::Foot, _) => "ft",
            (Self::Metre, _) => "m",
            (Self::SquareFoot, _) => "ft²",
            (Self::SquareYard, _) => "yd²",
            (Self::SquareMetre, _) => "m²",
            (Self::Piece, true) => "piece",
            (Self::Piece, false) => "pieces",
            (Self::Bag, true) => "bag",
            (Self::Bag, false) => "bags",
            (Self::Pallet, true) => "pallet",
            (Self::Pallet, false) => "pallets",
            (Self::Roll, true) => "roll",
            (Self::Roll, false) => "rolls",
            (Self::Box, true) => "box",
            (Self::Box, false) => "boxes",
            (Self::Load, true) => "load",
            (Self::Load, false) => "loads",
            (Self::Day, true) => "day",
            (Self::Day, false) => "days",
        }
    }

    /// The unit of that word; a plural and the superior figures are understood too.
    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        let word = word.trim();
        Self::ALL.into_iter().find(|unit| {
            unit.key() == word || unit.symbol(true) == word || unit.symbol(false) == word
        })
    }

    /// What it measures.
    #[must_use]
    pub const fn measure(self) -> SaleMeasure {
        match self {
            Self::CubicYard | Self::CubicFoot | Self::CubicMetre => SaleMeasure::Volume,
            Self::Ton | Self::Tonne | Self::Pound | Self::Kilogram => SaleMeasure::Mass,
            Self::Foot | Self::Metre => SaleMeasure::Length,
            Self::SquareFoot | Self::SquareYard | Self::SquareMetre => SaleMeasure::Area,
            Self::Piece => SaleMeasure::Pieces,
            Self::Bag | Self::Pallet | Self::Roll | Self::Box | Self::Load => SaleMeasure::Pack,
            Self::Day => SaleMeasure::Days,
        }
    }

    /// One of it, in the measure's unit of the SI: cubic metres, kilograms, metres, square metres; 1 for pieces, packs and days.
    ///
    /// # Source
    /// NIST SP 811, exact.
    #[must_use]
    pub const fn in_si(self) -> f64 {
        match self {
            Self::CubicYard => CUBIC_YARD_M3,
            Self::CubicFoot => CUBIC_FOOT_M3,
            Self::Ton => 2000.0 * POUND_KG,
            Self::Tonne => 1000.0,
            Self::Pound => POUND_KG,
            Self::Foot => 0.3048,
            Self::SquareFoot => 0.3048 * 0.3048,
            Self::SquareYard => 0.9144 * 0.9144,
            Self::CubicMetre
            | Self::Kilogram
            | Self::Metre
            | Self::SquareMetre
            | Self::Piece
            | Self::Bag
            | Self::Pallet
            | Self::Roll
            | Self::Box
            | Self::Load
            | Self::Day => 1.0,
        }
    }

    /// So many of it as what a pack holds; `None` for packs, days and a number that is no count of pieces.
    #[must_use]
    pub fn holds(self, number: f64) -> Option<Holds> {
        let value = number * self.in_si();
        if !(value.is_finite() && value > 0.0) {
            return None;
        }
        match self.measure() {
            SaleMeasure::Volume => Some(Holds::Volume(cubic_metres(value))),
            SaleMeasure::Mass => Some(Holds::Mass(Mass::new::<unit::kilogram>(value))),
            SaleMeasure::Length => Some(Holds::Length(metres(value))),
            SaleMeasure::Area => Some(Holds::Area(square_metres(value))),
            SaleMeasure::Pieces if value.fract() == 0.0 && value <= 1e6 => {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a whole number from 1 to a million"
                )]
                let n = value as u32;
                Some(Holds::Pieces(n))
            }
            SaleMeasure::Pieces | SaleMeasure::Pack | SaleMeasure::Days => None,
        }
    }
}
