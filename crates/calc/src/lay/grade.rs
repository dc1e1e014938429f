//! The class of a sample by each published table.

use super::sample::Side;
use super::tolerance::{
    Standard, en_paving_mean, en_paving_range, en_wall_t2_t1, facing_fbx_fbs, paving_px_ps,
};
use crate::quantity::{Length, in_metres, metres};

/// The class of a sample by one standard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClassFound {
    /// Which standard.
    pub standard: Standard,
    /// Its class.
    pub class: Class,
    /// Where the strictest limit is used up most; `None` where the class has no limit to be met, or none can be told.
    pub nearest: Option<Nearest>,
    /// Whether the size that it is held against was written down; else it is the mean itself.
    pub against_written: bool,
}

/// A class, or why there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// Its name.
    Is(&'static str),
    /// It meets none.
    Outside,
    /// The standard asks how far the mean is off the size, and no size was written down.
    SizeNotKnown,
}

/// How much of a limit is used up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Which side: "length", "width" or "thickness".
    pub side: &'static str,
    /// How far off, or from the smallest to the largest.
    pub off: Length,
    /// How much that may be in the strictest class.
    pub limit: Length,
    /// Whether it is the range from the smallest to the largest.
    pub is_range: bool,
}

/// Classes of a sample whose sides are held against the sizes that were written down, else against their own mean. Empty where no
/// side has two readings.
pub(super) fn classes(sides: [Option<Side>; 3], written: [Option<Length>; 3]) -> Vec<ClassFound> {
    let measured: Vec<Measured> = ["length", "width", "thickness"]
        .into_iter()
        .zip(sides)
        .zip(written)
        .filter_map(|((name, side), written)| Measured::of(name, side?, written))
        .collect();
    if measured.is_empty() {
        return Vec::new();
    }
    Standard::ALL
        .into_iter()
        .map(|standard| class(standard, &measured))
        .collect()
}

/// A side with what it is held against.
struct Measured {
    name: &'static str,
    side: Side,
    size: Length,
    is_written: bool,
    /// Farthest brick from the size.
    farthest: Length,
    range: Length,
}

impl Measured {
    /// `None` for a single reading: it says nothing of a class.
    fn of(name: &'static str, side: Side, written: Option<Length>) -> Option<Self> {
        let spread = side.spread?;
        let size = written.unwrap_or(side.mean);
        Some(Self {
            name,
            side,
            size,
            is_written: written.is_some(),
            farthest: away(spread.most, size).max(away(spread.least, size)),
            range: spread.range(),
        })
    }
}

fn class(standard: Standard, measured: &[Measured]) -> ClassFound {
    let against_written = measured.iter().all(|side| side.is_written);
    let mean_off = |side: &Measured| away(side.side.mean, side.size);
    let (class, nearest) = match standard {
        Standard::AstmPaving => {
            let strict = all(measured, |side| (side.farthest, paving_px_ps(side.size).0));
            let plain = all(measured, |side| (side.farthest, paving_px_ps(side.size).1));
            // PA leaves the limit to whoever specifies it.
            (first_met([("PX", strict), ("PS", plain)], "PA"), strict.1)
        }
        Standard::AstmFacing => {
            let limits = |side: &Measured| {
                facing_fbx_fbs(side.size).unwrap_or_else(|| (metres(0.0), metres(0.0)))
            };
            let strict = all(measured, |side| (side.farthest, limits(side).0));
            let plain = all(measured, |side| (side.farthest, limits(side).1));
            let class = if strict.0 {
                Class::Is("FBX")
            } else if plain.0 {
                Class::Is("FBS")
            } else {
                Class::Outside
            };
            (class, strict.1)
        }
        Standard::EnPaving => {
            let range = all(measured, |side| (side.range, en_paving_range(side.size)));
            let mean = all(measured, |side| (mean_off(side), en_paving_mean(side.size)));
            let class = match (against_written, mean.0, range.0) {
                (true, false, _) => Class::Outside,
                (_, _, true) => Class::Is("R1"),
                (_, _, false) => Class::Is("R0"),
            };
            let range = range.1.map(|nearest| Nearest {
                is_range: true,
                ..nearest
            });
            (class, if mean.0 { range } else { mean.1 })
        }
        Standard::EnWall if !against_written => (Class::SizeNotKnown, None),
        Standard::EnWall => {
            let strict = all(measured, |side| {
                (mean_off(side), en_wall_t2_t1(side.size).0)
            });
            let plain = all(measured, |side| {
                (mean_off(side), en_wall_t2_t1(side.size).1)
            });
            (first_met([("T2", strict), ("T1", plain)], "Tm"), strict.1)
        }
    };
    ClassFound {
        standard,
        class,
        nearest,
        against_written,
    }
}

/// Whether all sides keep their limit, and the one that uses up most of it.
type Met = (bool, Option<Nearest>);

fn all(measured: &[Measured], off_and_limit: impl Fn(&Measured) -> (Length, Length)) -> Met {
    let mut met = true;
    let mut nearest: Option<(f64, Nearest)> = None;
    for side in measured {
        let (off, limit) = off_and_limit(side);
        // A reading typed in sixteenths may be a rounding of metres above a limit in sixteenths.
        met &= in_metres(off) <= in_metres(limit) + 1e-9;
        let share = if in_metres(limit) > 0.0 {
            in_metres(off) / in_metres(limit)
        } else {
            f64::MAX
        };
        if nearest.is_none_or(|(most, _)| share > most) {
            nearest = Some((
                share,
                Nearest {
                    side: side.name,
                    off,
                    limit,
                    is_range: false,
                },
            ));
        }
    }
    (met, nearest.map(|(_, nearest)| nearest))
}

fn first_met(classes: [(&'static str, Met); 2], else_class: &'static str) -> Class {
    classes
        .into_iter()
        .find(|(_, met)| met.0)
        .map_or(Class::Is(else_class), |(name, _)| Class::Is(name))
}

fn away(one: Length, other: Length) -> Length {
    if one > other {
        one - other
    } else {
        other - one
    }
}
