//! The brick as sampled: mean and spread of each side, its class by the published tables, whether it is modular.

use super::closes::{BondCloses, Modular, bonds};
use super::grade::{ClassFound, classes};
use crate::defaults;
use crate::field::check_length;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{BrickReading, Site};

/// What the sample says of each size of brick.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SampleFound {
    /// The brick of the field; `None` where none was measured.
    pub first: Option<BrickSample>,
    /// The second size.
    pub second: Option<BrickSample>,
}

/// What a sample of one size says.
#[derive(Clone, Debug, PartialEq)]
pub struct BrickSample {
    /// Bricks of which a side was measured.
    pub n_bricks: usize,
    /// The longest side.
    pub length: Option<Side>,
    /// The middle side.
    pub width: Option<Side>,
    /// The shortest side.
    pub thickness: Option<Side>,
    /// Readings that look like a slip, in the order of the readings. They are kept as typed and left out of mean and spread.
    pub slips: Vec<Slip>,
    /// Classes by the published tables; empty where fewer than two bricks tell a spread.
    pub classes: Vec<ClassFound>,
    /// Whether two widths and a joint make the length; `None` where length or width is not known.
    pub modular: Option<Modular>,
    /// Which bonds close, in the order in which they are offered; empty where length or width is not known.
    pub bonds: Vec<BondCloses>,
    /// Length by thickness; `None` where one is not known.
    pub aspect: Option<Aspect>,
}

/// One side of the bricks of a sample.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// Mean of the readings that are taken.
    pub mean: Length,
    /// Readings that are taken.
    pub n_taken: usize,
    /// How far they scatter; `None` for a single reading, which tells nothing of it.
    pub spread: Option<Spread>,
}

/// How far readings scatter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Standard deviation of a sample: the squares are shared among one less than the readings.
    pub deviation: Length,
    /// The smallest.
    pub least: Length,
    /// The largest.
    pub most: Length,
}

impl Spread {
    /// From the smallest to the largest.
    #[must_use]
    pub fn range(self) -> Length {
        self.most - self.least
    }
}

/// A reading that looks like a slip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// Which reading.
    pub place: Place,
    /// What was typed.
    pub reading: Length,
    /// What it was held against.
    pub against: Length,
    /// How it is off.
    pub kind: SlipKind,
}

/// How a reading is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlipKind {
    /// About ten times what it should be.
    TenTimes,
    /// About a tenth.
    ATenth,
    /// More than a quarter off.
    FarOff,
}

impl SlipKind {
    /// What it looks like, in words that fit between the reading and what it is held against.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::TenTimes => "is about ten times",
            Self::ATenth => "is about a tenth of",
            Self::FarOff => "is more than a quarter off",
        }
    }
}

/// Length by thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aspect {
    /// How many times as long as thick.
    pub ratio: f64,
}

impl Aspect {
    /// Most for feet.
    ///
    /// # Source
    /// Interlocking Concrete Pavement Institute, construction tolerances and recommendations.
    pub const MOST_FOR_FEET: f64 = 4.0;
    /// Most for a street.
    ///
    /// # Source
    /// As [`Aspect::MOST_FOR_FEET`].
    pub const MOST_FOR_A_STREET: f64 = 3.0;

    /// Whether it may be walked on.
    #[must_use]
    pub fn is_for_feet(self) -> bool {
        self.ratio <= Self::MOST_FOR_FEET + 1e-9
    }

    /// Whether it may be driven on.
    #[must_use]
    pub fn is_for_a_street(self) -> bool {
        self.ratio <= Self::MOST_FOR_A_STREET + 1e-9
    }
}

/// Fewer readings than this say little of a whole stack, and are said to be few.
///
/// # Source
/// From memory: ASTM C67 measures ten bricks.
pub const ENOUGH_READINGS: usize = 10;

/// How far off a reading is questioned: a quarter.
///
/// # Source
/// Common practice, no source: bricks of one stack never differ so much, and halves and bats are no whole brick.
const FAR_OFF: f64 = 0.25;

/// What the sample of a site says.
#[must_use]
pub fn sample(site: &Site) -> SampleFound {
    SampleFound {
        first: brick_sample(site, false),
        second: brick_sample(site, true),
    }
}

/// The three sides of a brick, as far as they are known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Sides {
    pub length: Option<Length>,
    pub width: Option<Length>,
    pub thickness: Option<Length>,
}

/// Means of the sample of one size.
pub(super) fn sides(site: &Site, of_second: bool) -> Sides {
    let mean = |which| {
        Readings::of(site, of_second, which)
            .judged(site)
            .0
            .map(|side| side.mean)
    };
    Sides {
        length: mean(Which::Length),
        width: mean(Which::Width),
        thickness: mean(Which::Thickness),
    }
}

fn brick_sample(site: &Site, of_second: bool) -> Option<BrickSample> {
    let n_bricks = site
        .lay
        .sample
        .iter()
        .filter(|brick| brick.of_second == of_second)
        .filter(|brick| {
            [brick.length, brick.width, brick.thickness]
                .iter()
                .any(Option::is_some)
        })
        .count();
    if n_bricks == 0 {
        return None;
    }
    let readings = Which::ALL.map(|which| Readings::of(site, of_second, which));
    let [
        (length, length_slips),
        (width, width_slips),
        (thickness, thickness_slips),
    ] = readings.each_ref().map(|readings| readings.judged(site));
    let mut slips = [length_slips, width_slips, thickness_slips].concat();
    slips.sort_by_key(|slip| match slip.place {
        Place::SampleLength(idx) | Place::SampleWidth(idx) | Place::SampleThickness(idx) => idx,
        _ => usize::MAX,
    });
    let sides = [length, width, thickness];
    let [length_side, width_side, thickness_side] = sides;
    let joint = site
        .brick
        .joint
        .and_then(|joint| check_length(Place::Joint, joint).ok())
        .unwrap_or_else(defaults::joint);
    let limits = super::wishes::joint_limits(site);
    let face = length_side
        .zip(width_side)
        .map(|(length, width)| (length.mean, width.mean));
    let written = written_sides(site, of_second);
    Some(BrickSample {
        n_bricks,
        length: length_side,
        width: width_side,
        thickness: thickness_side,
        slips,
        classes: classes(sides, [written.length, written.width, written.thickness]),
        modular: face.map(|(length, width)| Modular::of(length, width, joint, limits)),
        bonds: face.map_or_else(Vec::new, |(length, width)| {
            bonds(length, width, joint, limits)
        }),
        aspect: length_side
            .zip(thickness_side)
            .map(|(length, thickness)| Aspect {
                ratio: in_metres(length.mean) / in_metres(thickness.mean),
            }),
    })
}

/// Sides of that size as written down, not as measured.
fn written_sides(site: &Site, of_second: bool) -> Sides {
    let brick = if of_second {
        site.lay.second_brick
    } else {
        Some(site.brick)
    };
    let side = |place: Place, length: Option<Length>| {
        length.and_then(|length| check_length(place, length).ok())
    };
    brick.map_or_else(Sides::default, |brick| Sides {
        length: side(Place::BrickLength, brick.length),
        width: side(Place::BrickWidth, brick.width),
        thickness: side(Place::BrickThickness, brick.thickness),
    })
}

/// One of the three sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    Length,
    Width,
    Thickness,
}

impl Which {
    const ALL: [Self; 3] = [Self::Length, Self::Width, Self::Thickness];

    const fn of(self, brick: &BrickReading) -> Option<Length> {
        match self {
            Self::Length => brick.length,
            Self::Width => brick.width,
            Self::Thickness => brick.thickness,
        }
    }

    const fn of_sides(self, sides: &Sides) -> Option<Length> {
        match self {
            Self::Length => sides.length,
            Self::Width => sides.width,
            Self::Thickness => sides.thickness,
        }
    }

    fn usual(self) -> Length {
        match self {
            Self::Length => defaults::brick_length(),
            Self::Width => defaults::brick_width(),
            Self::Thickness => defaults::brick_thickness(),
        }
    }

    const fn place(self, brick_idx: usize) -> Place {
        match self {
            Self::Length => Place::SampleLength(brick_idx),
            Self::Width => Place::SampleWidth(brick_idx),
            Self::Thickness => Place::SampleThickness(brick_idx),
        }
    }
}

/// All readings of one side of one size.
struct Readings {
    which: Which,
    of_second: bool,
    all: Vec<(Place, Length)>,
}

impl Readings {
    fn of(site: &Site, of_second: bool, which: Which) -> Self {
        let all = site
            .lay
            .sample
            .iter()
            .enumerate()
            .filter(|(_, brick)| brick.of_second == of_second)
            .filter_map(|(brick_idx, brick)| {
                let place = which.place(brick_idx);
                Some((place, check_length(place, which.of(brick)?).ok()?))
            })
            .collect();
        Self {
            which,
            of_second,
            all,
        }
    }

    /// What they say without the slips among them, and the slips.
    fn judged(&self, site: &Site) -> (Option<Side>, Vec<Slip>) {
        let Some((against, is_rough)) = self.against(site) else {
            return (None, Vec::new());
        };
        let mut slips = Vec::new();
        let mut taken_m = Vec::with_capacity(self.all.len());
        for &(place, reading) in &self.all {
            match slip(reading, against, is_rough) {
                Some(kind) => slips.push(Slip {
                    place,
                    reading,
                    against,
                    kind,
                }),
                None => taken_m.push(in_metres(reading)),
            }
        }
        (side(&taken_m), slips)
    }

    /// What each reading is held against: the middle of three and more; of fewer the size as written down; else, of two, the one
    /// nearer to the usual brick. A single one with nothing written is held roughly against the usual brick.
    fn against(&self, site: &Site) -> Option<(Length, bool)> {
        let mut sorted_m: Vec<f64> = self
            .all
            .iter()
            .map(|(_, reading)| in_metres(*reading))
            .collect();
        sorted_m.sort_by(f64::total_cmp);
        if sorted_m.len() >= 3 {
            let upper = *sorted_m.get(sorted_m.len() / 2)?;
            let lower = *sorted_m.get((sorted_m.len() - 1) / 2)?;
            return Some((metres((lower + upper) / 2.0), false));
        }
        if let Some(written) = self.which.of_sides(&written_sides(site, self.of_second)) {
            return Some((written, false));
        }
        let usual = self.which.usual();
        let distance = |reading_m: f64| libm::fabs(libm::log(reading_m / in_metres(usual)));
        match sorted_m.as_slice() {
            [] => None,
            [_] => Some((usual, true)),
            [one_m, other_m, ..] => {
                let nearer_m = if distance(*one_m) <= distance(*other_m) {
                    *one_m
                } else {
                    *other_m
                };
                Some((metres(nearer_m), false))
            }
        }
    }
}

fn slip(reading: Length, against: Length, is_rough: bool) -> Option<SlipKind> {
    let ratio = in_metres(reading) / in_metres(against);
    if (7.5..=13.0).contains(&ratio) {
        Some(SlipKind::TenTimes)
    } else if (7.5..=13.0).contains(&(1.0 / ratio)) {
        Some(SlipKind::ATenth)
    } else if !is_rough && (ratio - 1.0).abs() > FAR_OFF {
        Some(SlipKind::FarOff)
    } else {
        None
    }
}

fn side(readings_m: &[f64]) -> Option<Side> {
    let first_m = *readings_m.first()?;
    let count = count(readings_m.len());
    // About the first reading, so that equal readings have themselves as their mean and no deviation at all.
    let mean_m = first_m
        + readings_m
            .iter()
            .map(|reading_m| reading_m - first_m)
            .sum::<f64>()
            / count;
    let spread = (readings_m.len() > 1).then(|| {
        let squares: f64 = readings_m
            .iter()
            .map(|reading_m| (reading_m - mean_m) * (reading_m - mean_m))
            .sum();
        Spread {
            deviation: metres((squares / (count - 1.0)).sqrt()),
            least: metres(readings_m.iter().copied().fold(f64::INFINITY, f64::min)),
            most: metres(readings_m.iter().copied().fold(0.0, f64::max)),
        }
    });
    Some(Side {
        mean: metres(mean_m),
        n_taken: readings_m.len(),
        spread,
    })
}

fn count(number: usize) -> f64 {
    u32::try_from(number).map_or(f64::from(u32::MAX), f64::from)
}

#[cfg(test)]
mod tests;
