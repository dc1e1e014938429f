//! How often a plate passes over a lift, by its class and the lift's thickness, and how thick a lift each class is published for.

use crate::quantity::{Length, metres, millimetres};

/// What compacts the base.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Plant {
    /// It was not written down.
    #[default]
    NotKnown,
    /// Vibrating plate of 1,400 to 1,800 kg for each square metre of its plate.
    Plate,
    /// A heavier one.
    HeavyPlate,
    /// Vibrating tamper from 50 kg.
    Tamper,
    /// Vibrating tamper of 25 kg.
    LightTamper,
    /// Twin roller of 600 to 1,000 kg a metre.
    Roller,
}

/// Compacted thickness up to which each column goes.
const COLUMNS_MM: [f64; 3] = [100.0, 150.0, 200.0];

impl Plant {
    /// All that is published, in the order in which they are told.
    pub const PUBLISHED: [Self; 5] = [
        Self::Plate,
        Self::HeavyPlate,
        Self::Tamper,
        Self::LightTamper,
        Self::Roller,
    ];

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::NotKnown => "plant that is not known",
            Self::Plate => "plate of 1,400 to 1,800 kg/m²",
            Self::HeavyPlate => "heavier plate",
            Self::Tamper => "vibrating tamper from 50 kg",
            Self::LightTamper => "vibrating tamper of 25 kg",
            Self::Roller => "twin roller of 600 to 1,000 kg/m",
        }
    }

    /// Passes that granular base takes when it comes to 100, 150 and 200 mm compacted; `None` is not permitted.
    ///
    /// # Source
    /// Specification for the reinstatement of openings in roads, Scotland, third edition, table A8.1, granular material. The 25 kg tamper
    /// is for restricted areas, up to 100 mm.
    const fn passes(self) -> [Option<u32>; 3] {
        match self {
            Self::NotKnown => [None, None, None],
            Self::Plate => [Some(5), None, None],
            Self::HeavyPlate => [Some(3), Some(5), Some(7)],
            Self::Tamper => [Some(4), Some(8), None],
            Self::LightTamper | Self::Roller => [Some(6), None, None],
        }
    }

    /// The thickest lift, compacted, that is published for it; `None` where it is not known.
    ///
    /// # Source
    /// As the passes.
    #[must_use]
    pub fn most_compacted(self) -> Option<Length> {
        let mut columns = COLUMNS_MM.iter().zip(self.passes()).rev();
        let last = columns.find(|(_, passes)| passes.is_some());
        last.map(|(most_mm, _)| millimetres(*most_mm))
    }
}

/// The passes over a lift of that compacted thickness by that plant; the fewest of any where it is not known. `None` where none is
/// permitted.
pub(super) fn fewest(plant: Plant, compacted: Length) -> Option<u32> {
    by_class(plant, compacted).map(|(_, passes)| passes).min()
}

/// # Source
/// 98 % of standard Proctor density (ASTM D698): Interlocking Concrete Pavement Institute, construction tolerances and recommendations.
pub(super) fn words(plant: Plant, compacted: Length) -> String {
    let classes: Vec<String> = by_class(plant, compacted)
        .map(|(name, passes)| format!("{name} {passes}"))
        .collect();
    let table = if classes.is_empty() {
        match plant {
            Plant::NotKnown => {
                "No plate or tamper is published for a lift so thick: place it in thinner ones."
                    .to_owned()
            }
            plant => format!(
                "A {} is not published for a lift so thick: place it in thinner ones.",
                plant.name()
            ),
        }
    } else {
        format!(
            "Published passes at this thickness: {} (Scottish reinstatement specification, table A8.1).",
            classes.join(", ")
        )
    };
    format!(
        "{table} The plate's own rule goes before it; 98 % of standard Proctor density is what it must come to."
    )
}

fn by_class(plant: Plant, compacted: Length) -> impl Iterator<Item = (&'static str, u32)> {
    /// A thickness that was typed in inches may come back a hair above itself.
    const ROUNDING_M: f64 = 1e-9;
    let column = COLUMNS_MM
        .iter()
        .position(|most_mm| compacted <= millimetres(*most_mm) + metres(ROUNDING_M));
    let is_asked = move |class: &Plant| plant == Plant::NotKnown || plant == *class;
    Plant::PUBLISHED
        .into_iter()
        .filter(is_asked)
        .filter_map(move |class| {
            let passes = class.passes().get(column?).copied().flatten()?;
            Some((class.name(), passes))
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows K1 to K5, transport.gov.scot: passes of each class at 100, 150, 200 mm; 0 is not permitted.
    #[test]
    fn the_published_table() {
        for (compacted_mm, expected) in [
            (50.0, [5, 3, 4, 6, 6]),
            (100.0, [5, 3, 4, 6, 6]),
            (100.1, [0, 5, 8, 0, 0]),
            (150.0, [0, 5, 8, 0, 0]),
            (200.0, [0, 7, 0, 0, 0]),
            (200.1, [0, 0, 0, 0, 0]),
        ] {
            let found: Vec<(&str, u32)> =
                by_class(Plant::NotKnown, millimetres(compacted_mm)).collect();
            for (class, passes) in Plant::PUBLISHED.into_iter().zip(expected) {
                let of_class = found.iter().find(|(name, _)| *name == class.name());
                assert_eq!(
                    of_class.map_or(0, |(_, passes)| *passes),
                    passes,
                    "{compacted_mm} mm, {}",
                    class.name()
                );
            }
            let least = expected.into_iter().filter(|passes| *passes > 0).min();
            assert_eq!(fewest(Plant::NotKnown, millimetres(compacted_mm)), least);
            for (class, passes) in Plant::PUBLISHED.into_iter().zip(expected) {
                let own = fewest(class, millimetres(compacted_mm)).unwrap_or(0);
                assert_eq!(own, passes, "{compacted_mm} mm, {}", class.name());
            }
        }
    }

    #[test]
    fn a_lift_that_no_plate_is_published_for_says_so() {
        let said = |plant| words(plant, millimetres(250.0));
        assert!(said(Plant::NotKnown).starts_with("No plate or tamper is published"));
        let own = said(Plant::Plate);
        assert!(
            own.starts_with("A plate of 1,400 to 1,800 kg/m² is not published"),
            "{own}"
        );
        // One class alone, where it is known.
        let own = words(Plant::HeavyPlate, millimetres(150.0));
        assert!(
            own.contains("heavier plate 5 (") && !own.contains("tamper"),
            "{own}"
        );
    }

    /// Rows K1 to K5: the last column in which there are passes.
    #[test]
    fn the_thickest_lift_of_each_class() {
        for (plant, most_mm) in [
            (Plant::Plate, 100.0),
            (Plant::HeavyPlate, 200.0),
            (Plant::Tamper, 150.0),
            (Plant::LightTamper, 100.0),
            (Plant::Roller, 100.0),
        ] {
            assert_eq!(
                plant.most_compacted(),
                Some(millimetres(most_mm)),
                "{}",
                plant.name()
            );
        }
        assert_eq!(Plant::NotKnown.most_compacted(), None);
    }
}
