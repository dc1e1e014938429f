//! How often a plate passes over a lift, by its class and the lift's thickness.

use crate::quantity::{Length, metres, millimetres};

/// A class of plant, and the passes that granular base takes when it comes to 100, 150 and 200 mm compacted; `None` is not permitted.
struct Class {
    name: &'static str,
    passes: [Option<u32>; 3],
}

/// Compacted thickness up to which each column goes.
const COLUMNS_MM: [f64; 3] = [100.0, 150.0, 200.0];

/// # Source
/// Specification for the reinstatement of openings in roads, Scotland, third edition, table A8.1, granular material. The 25 kg tamper is
/// for restricted areas, up to 100 mm.
const CLASSES: [Class; 5] = [
    Class {
        name: "plate of 1,400 to 1,800 kg/m²",
        passes: [Some(5), None, None],
    },
    Class {
        name: "heavier plate",
        passes: [Some(3), Some(5), Some(7)],
    },
    Class {
        name: "vibrating tamper from 50 kg",
        passes: [Some(4), Some(8), None],
    },
    Class {
        name: "vibrating tamper of 25 kg",
        passes: [Some(6), None, None],
    },
    Class {
        name: "twin roller of 600 to 1,000 kg/m",
        passes: [Some(6), None, None],
    },
];

/// The fewest passes of any class over a lift of that compacted thickness; `None` where no class is permitted.
pub(super) fn fewest(compacted: Length) -> Option<u32> {
    by_class(compacted).map(|(_, passes)| passes).min()
}

/// The passes of every class, in words, with what they are to come to.
///
/// # Source
/// 98 % of standard Proctor density (ASTM D698): Interlocking Concrete Pavement Institute, construction tolerances and recommendations.
pub(super) fn words(compacted: Length) -> String {
    let classes: Vec<String> = by_class(compacted)
        .map(|(name, passes)| format!("{name} {passes}"))
        .collect();
    let table = if classes.is_empty() {
        "No plate or tamper is published for a lift so thick: place it in thinner ones.".to_owned()
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

fn by_class(compacted: Length) -> impl Iterator<Item = (&'static str, u32)> {
    /// A thickness that was typed in inches may come back a hair above itself.
    const ROUNDING_M: f64 = 1e-9;
    let column = COLUMNS_MM
        .iter()
        .position(|most_mm| compacted <= millimetres(*most_mm) + metres(ROUNDING_M));
    CLASSES.iter().filter_map(move |class| {
        let passes = class.passes.get(column?).copied().flatten()?;
        Some((class.name, passes))
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
            let found: Vec<(&str, u32)> = by_class(millimetres(compacted_mm)).collect();
            for (class, passes) in CLASSES.iter().zip(expected) {
                let of_class = found.iter().find(|(name, _)| *name == class.name);
                assert_eq!(
                    of_class.map_or(0, |(_, passes)| *passes),
                    passes,
                    "{compacted_mm} mm, {}",
                    class.name
                );
            }
            let least = expected.into_iter().filter(|passes| *passes > 0).min();
            assert_eq!(fewest(millimetres(compacted_mm)), least);
        }
    }

    #[test]
    fn a_lift_that_no_plate_is_published_for_says_so() {
        assert!(words(millimetres(250.0)).starts_with("No plate or tamper is published"));
    }
}
