//! How thick the base is to be where nobody says: from use, ground and water, each part with where it comes from.

use super::theory::{Theory, theory};
use super::{Under, soil_factors};
use crate::catalogue::{Catalogue, Drainage};
use crate::defaults;
use crate::field::full_name;
use crate::findings::{Findings, Source};
use crate::ground::soil::uscs::Uscs;
use crate::ground::{Category, Cbr, Ground, Penetrometer, PitFound, Verdict};
use crate::place::Place;
use crate::quantity::{Length, inches};
use crate::site::{Firmness, Layer, Moisture, Site};

/// One part of a thickness that was worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Factor {
    /// What asks for it.
    pub name: String,
    /// The reading that shows it.
    pub because: String,
    /// Thickness that it adds; the last may take some off.
    pub amount: Length,
    /// Where the rule comes from.
    pub source: Source,
    /// How far that can be trusted.
    pub grade: Grade,
    /// The reading behind it.
    pub place: Place,
}

/// How far a figure can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Stands in the source that is named.
    Published,
    /// Others say that it stands there.
    SecondHand,
    /// Nobody printed it.
    CommonPractice,
}

impl Grade {
    /// In words, for a screen or a sheet.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::SecondHand => "second-hand",
            Self::CommonPractice => "common practice",
        }
    }
}

/// The thickness that use and ground ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkedOut {
    /// All factors together, compacted.
    pub thickness: Length,
    /// What it is made of, the use first.
    pub factors: Vec<Factor>,
    /// The theory of wheels beside it, for information; `None` where no strength was measured.
    pub theory: Option<Theory>,
}

/// Source of the base under a walk.
const WALK: Source = Source::Published(
    "Interlocking Concrete Pavement Institute, Construction Tolerances and Recommendations",
);
/// Source of what weak or wet ground adds.
pub(super) const ADDED: Source =
    Source::Published("paving trade press, quoting the Interlocking Concrete Pavement Institute");
/// Source of the rule for a fabric.
const FABRIC: Source = Source::Published("FHWA-NHI-05-037, table 7-15");

/// All that weak and wet ground adds together goes no further than this.
///
/// # Source
/// "2 to 4 in" for frost or weak soil, second-hand.
fn most_added() -> Length {
    inches(4.0)
}

/// What ground of a class adds: 2 in in class C, 4 in in class D.
///
/// # Source
/// Walks of 4 in are made 6 in for frost or weak soil, and "2 to 4 in" more: both second-hand. That class C takes the lower and
/// class D the upper end is common practice, no source.
pub(super) fn added_for(category: Category) -> Length {
    match category {
        Category::A | Category::B => inches(0.0),
        Category::C => inches(2.0),
        Category::D => inches(4.0),
    }
}

/// What water in the ground adds, which frost turns to heave: 2 in.
///
/// # Source
/// As [`added_for`].
pub(super) fn added_for_water() -> Length {
    inches(2.0)
}

/// The base that the walk's use and ground ask for.
///
/// Strength goes by what was driven, else by the symbol from index tests, else by the material of the pits, else by the texture; heave by
/// the frost group of the tests, else by the material and the water in it.
pub(super) fn worked_out(site: &Site, catalogue: &Catalogue, under: Under<'_>) -> WorkedOut {
    let Under {
        ground,
        penetrometers,
        soil,
    } = under;
    let bearing: Vec<Bearing> = ground
        .pits
        .iter()
        .filter_map(|pit| Bearing::of(site, catalogue, pit))
        .collect();
    let measured = weakest(penetrometers);
    let mut factors = vec![Factor {
        name: "A walk, on foot".to_owned(),
        because: "the least that any walk takes".to_owned(),
        amount: defaults::least_base(),
        source: WALK,
        grade: Grade::Published,
        place: Place::LeastBase,
    }];
    let symbol = soil.and_then(|soil| soil.uscs.as_ref());
    let texture = soil.and_then(|soil| soil.texture.as_ref());
    let strength = match (measured, symbol) {
        (Some((pit_idx, cbr)), _) => for_strength(pit_idx, cbr, symbol),
        (None, Some(uscs)) => soil_factors::for_symbol(uscs, &bearing),
        (None, None) => for_soil(&bearing).or_else(|| texture.and_then(soil_factors::for_texture)),
    };
    let is_soil_counted =
        measured.is_none() && strength.as_ref().is_some_and(|it| it.amount > inches(0.0));
    factors.extend(strength);
    let is_measured = measured.is_some();
    factors.extend(match soil.and_then(soil_factors::said_of_frost) {
        Some(worst) => Some(soil_factors::for_frost(
            worst,
            water(site, ground, &bearing),
            is_soil_counted,
        )),
        None => for_water(site, ground, &bearing, is_measured),
    });
    factors.extend(held_to_the_most(&factors));
    let thickness = factors
        .iter()
        .map(|factor| factor.amount)
        .reduce(|sum, amount| sum + amount)
        .unwrap_or_else(defaults::least_base);
    WorkedOut {
        thickness,
        factors,
        theory: measured.map(|(_, cbr)| theory(cbr)),
    }
}

/// The weakest ground that a penetrometer met near the bottom of a pit, with its pit.
pub(super) fn weakest(penetrometers: &[Penetrometer]) -> Option<(usize, Cbr)> {
    let each = penetrometers
        .iter()
        .filter_map(|log| Some((log.pit_idx, log.weakest()?.strength.cbr)));
    each.min_by(|(_, one), (_, other)| one.percent().total_cmp(&other.percent()))
}

/// Says where a base that was asked for is not the one worked out, and where a fabric is missing under weak ground.
pub(super) fn check(
    site: &Site,
    asked: Length,
    worked_out: &WorkedOut,
    penetrometers: &[Penetrometer],
    findings: &mut Findings,
) {
    let words = |length| site.shown_in.length(length);
    let off = asked - worked_out.thickness;
    // Less than is published for any walk has a finding of its own.
    let is_said = asked < defaults::least_base() && worked_out.factors.len() == 1;
    if !is_said && (off > inches(0.01) || off < inches(-0.01)) {
        let text = format!(
            "Least base of {} is your own and is kept: use and ground work out to {}.",
            words(asked),
            words(worked_out.thickness)
        );
        let (source, remedy) = if off < inches(0.0) {
            (
                ADDED,
                "See \"Why so thick\"; leave the value empty to take what is worked out.",
            )
        } else {
            (
                Source::CommonPractice,
                "More does no harm but digging and stone.",
            )
        };
        findings.note(
            Place::LeastBase,
            crate::findings::Weight::Note,
            source,
            text,
            remedy,
        );
    }
    let Some((pit_idx, cbr)) = weakest(penetrometers) else {
        return;
    };
    if cbr.percent() < FABRIC_BELOW_CBR && !site.bed.fabric {
        let text = format!(
            "{}: CBR {cbr} is below {FABRIC_BELOW_CBR:.0}: stone would be pressed into this ground.",
            full_name(Place::Pit(pit_idx))
        );
        findings.note(
            Place::Fabric,
            crate::findings::Weight::Warning,
            FABRIC,
            text,
            "Lay a separation fabric on the undisturbed ground.",
        );
    }
}

/// Below this CBR a fabric is asked for under the base.
///
/// # Source
/// FHWA-NHI-05-037, table 7-15, seen as transcribed by others.
const FABRIC_BELOW_CBR: f64 = 3.0;

/// The ground that carries the base at a pit.
pub(super) struct Bearing {
    pit_idx: usize,
    layer_idx: usize,
    name: String,
    is_fine: bool,
    is_wet: bool,
    firmness: Option<Firmness>,
}

impl Bearing {
    /// The first layer that stays, else the lowest that was found. `None` where the catalogue knows neither.
    fn of(site: &Site, catalogue: &Catalogue, pit: &PitFound) -> Option<Self> {
        let stays = pit
            .layers
            .iter()
            .position(|layer| layer.verdict == Verdict::Stays);
        let layer_idx = stays.or_else(|| pit.layers.len().checked_sub(1))?;
        let material = catalogue.find(&pit.layers.get(layer_idx)?.material)?;
        let written: &Layer = site.pits.get(pit.pit_idx)?.layers.get(layer_idx)?;
        Some(Self {
            pit_idx: pit.pit_idx,
            layer_idx,
            name: material.name.clone(),
            is_fine: material.drainage == Drainage::Poor,
            is_wet: written.moisture == Some(Moisture::Wet),
            firmness: written.firmness,
        })
    }

    pub(super) fn place(&self) -> Place {
        Place::LayerMaterial(self.pit_idx, self.layer_idx)
    }

    pub(super) fn pit_words(&self) -> String {
        pit_words(self.pit_idx)
    }

    pub(super) fn is_soft(&self) -> bool {
        matches!(self.firmness, Some(Firmness::VerySoft | Firmness::Soft))
    }
}

/// What was driven goes before a symbol, and says so.
fn for_strength(pit_idx: usize, cbr: Cbr, symbol: Option<&Uscs>) -> Option<Factor> {
    let category = cbr.category();
    let amount = added_for(category);
    let is_weak = amount > inches(0.0);
    let before = symbol.map_or_else(String::new, soil_factors::goes_before);
    (is_weak || symbol.is_some()).then(|| Factor {
        name: if is_weak {
            format!("Weak ground, class {category:?}")
        } else {
            format!("Ground of class {category:?}")
        },
        because: format!("CBR {cbr} by penetrometer, {}{before}", pit_words(pit_idx)),
        amount,
        source: ADDED,
        grade: Grade::SecondHand,
        place: Place::PenetrometerStart(pit_idx),
    })
}

/// Without a strength: fine soil counts as class C, and as class D where a thumb goes in.
///
/// # Source
/// CBR 5 to 15 for silt and lean clay, FHWA-NHI-05-037, table 5-28: its lower end is class C. That soft ground is class D is common
/// practice, no source.
fn for_soil(bearing: &[Bearing]) -> Option<Factor> {
    let fine = bearing.iter().filter(|bearing| bearing.is_fine);
    let worst = fine.reduce(|one, other| if one.is_soft() { one } else { other })?;
    let (category, name, how) = if worst.is_soft() {
        (
            Category::D,
            "Soft fine soil, as class D",
            "soft under the thumb",
        )
    } else {
        (Category::C, "Fine soil, as class C", "not driven")
    };
    Some(Factor {
        name: name.to_owned(),
        because: format!("{}, {how}, {}", worst.name, pit_words(worst.pit_idx)),
        amount: added_for(category),
        source: ADDED,
        grade: Grade::SecondHand,
        place: worst.place(),
    })
}

/// Water that seeped in or stands in the ground.
fn water(site: &Site, ground: &Ground, bearing: &[Bearing]) -> Option<(String, Place)> {
    let seep = ground.pits.iter().find_map(|pit| {
        pit.seep.map(|level| {
            (
                format!(
                    "water {} down, {}",
                    site.shown_in.length(pit.top - level),
                    pit_words(pit.pit_idx)
                ),
                Place::PitSeep(pit.pit_idx),
            )
        })
    });
    let wet = bearing.iter().find(|at| at.is_wet).map(|at| {
        let what = format!("{}, wet, {}", at.name, pit_words(at.pit_idx));
        (what, at.place())
    });
    seep.or(wet)
}

/// Water in the ground; fine soil as such only where its strength was measured, so that one soil is not counted twice for the same
/// reading.
fn for_water(
    site: &Site,
    ground: &Ground,
    bearing: &[Bearing],
    is_measured: bool,
) -> Option<Factor> {
    let holds_water = bearing
        .iter()
        .find(|at| is_measured && at.is_fine)
        .map(|at| {
            let what = format!("{}, {}", at.name, pit_words(at.pit_idx));
            (what, at.place())
        });
    let (because, place) = water(site, ground, bearing).or(holds_water)?;
    Some(Factor {
        name: "Holds water, frost heaves it".to_owned(),
        because,
        amount: added_for_water(),
        source: ADDED,
        grade: Grade::SecondHand,
        place,
    })
}

fn pit_words(pit_idx: usize) -> String {
    full_name(Place::Pit(pit_idx)).to_lowercase()
}

fn held_to_the_most(factors: &[Factor]) -> Option<Factor> {
    let added = factors
        .iter()
        .skip(1)
        .map(|factor| factor.amount)
        .reduce(|sum, amount| sum + amount)?;
    (added > most_added()).then(|| Factor {
        name: "No more than 4 in added".to_owned(),
        because: "weak and wet ground together".to_owned(),
        amount: most_added() - added,
        source: ADDED,
        grade: Grade::SecondHand,
        place: Place::LeastBase,
    })
}
