//! All that a site's tests and its winter say of the ground.

use super::feel::by_feel;
use super::frost_group::{FrostGroupFound, FrostSoil, frost_groups, rough_finer_than_002};
use super::frost_wishes::frost;
use super::texture::{Texture, texture};
use super::uscs::{Family, IndexTests, Uscs, classify};
use super::{SoilError, reports};
use crate::findings::Findings;
use crate::ground::frost_depth::Berggren;
use crate::measure::amount::{Amount, plain};
use crate::quantity::{Length, in_metres, inches, millimetres};
use crate::site::{ShownIn, Site, SoilInput};

/// What is known of the ground. Nothing of it is guessed: what was not tested is `None` or empty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SoilFound {
    /// Symbol by index tests.
    pub uscs: Option<Uscs>,
    /// Texture by shares, else by feel.
    pub texture: Option<TextureFound>,
    /// Every frost group that fits, the worst first.
    pub frost_groups: Vec<FrostGroupFound>,
    /// Frost depth; `None` where neither a local depth nor the ground and winter are known.
    pub frost: Option<FrostFound>,
}

impl SoilFound {
    /// Whether it heaves by the worst group that fits; `None` where no group is known.
    #[must_use]
    pub fn heaves(&self) -> Option<bool> {
        self.frost_groups.first().map(|worst| worst.group.heaves())
    }
}

/// A texture class and how it was found.
#[derive(Clone, Debug, PartialEq)]
pub struct TextureFound {
    /// The class.
    pub class: Texture,
    /// Whether it is by feel; else it is by shares.
    pub is_by_feel: bool,
    /// What leads to it.
    pub why: String,
}

/// Frost depths below the surface, and the one that is taken.
#[derive(Clone, Debug, PartialEq)]
pub struct FrostFound {
    /// As the local office says.
    pub local: Option<Length>,
    /// By Stefan.
    pub stefan: Option<Length>,
    /// By the modified Berggren formula.
    pub berggren: Option<Berggren>,
    /// The one that is taken.
    pub depth: Length,
    /// How that one was found.
    pub method: FrostMethod,
    /// Why that one.
    pub why: String,
    /// What the computed ones rest on; empty where none was computed.
    pub rests_on: Vec<String>,
}

/// How a frost depth was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FrostMethod {
    /// The local office or code.
    Local,
    /// The modified Berggren formula.
    Berggren,
    /// Stefan's formula.
    Stefan,
}

impl FrostMethod {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Local => "local",
            Self::Berggren => "modified Berggren",
            Self::Stefan => "Stefan",
        }
    }
}

/// A frost depth as it is known: a local one as told, a computed one to the inch or the centimetre.
#[must_use]
pub fn frost_depth_said(depth: Length, method: FrostMethod, shown_in: ShownIn) -> String {
    let step = match shown_in {
        ShownIn::FeetInches => inches(1.0),
        ShownIn::Metric => millimetres(10.0),
    };
    let said = match method {
        FrostMethod::Local => depth,
        FrostMethod::Berggren | FrostMethod::Stefan => {
            step * (in_metres(depth) / in_metres(step)).round()
        }
    };
    shown_in.length(said)
}

/// What is known of the ground; `None` where nothing was written down of it. What follows for the bed is said by [`report`].
///
/// [`report`]: super::report
pub fn soil(site: &Site, findings: &mut Findings) -> Option<SoilFound> {
    let uscs = of_tests(site, findings);
    let texture = of_texture(&site.soil, findings);
    let frost_groups = groups(&site.soil, uscs.as_ref(), texture.as_ref());
    let is_coarse = match (&uscs, &texture) {
        (Some(uscs), _) => matches!(
            uscs.family,
            Family::Gravel | Family::Sand | Family::SiltySand
        ),
        (None, Some(found)) => {
            matches!(
                found.class,
                Texture::Sand | Texture::LoamySand | Texture::SandyLoam
            )
        }
        (None, None) => false,
    };
    let frost = frost(site, is_coarse, findings);
    let found = SoilFound {
        uscs,
        texture,
        frost_groups,
        frost,
    };
    if found == SoilFound::default() {
        return None;
    }
    Some(found)
}

/// The symbol, where any of its tests was written down.
fn of_tests(site: &Site, findings: &mut Findings) -> Option<Uscs> {
    let SoilInput {
        liquid_limit,
        plastic_limit,
        fines,
        sieve_sand,
        sieve_gravel,
        d10,
        d30,
        d60,
        ..
    } = site.soil;
    let tests = IndexTests {
        liquid_limit: number(liquid_limit),
        plastic_limit: number(plastic_limit),
        fines: number(fines),
        sand: number(sieve_sand),
        gravel: number(sieve_gravel),
        d10_mm: number(d10),
        d30_mm: number(d30),
        d60_mm: number(d60),
    };
    if tests == IndexTests::default() {
        return None;
    }
    match classify(&tests) {
        Ok(uscs) => Some(uscs),
        Err(error) => {
            reports::not_named(&error, "symbol", findings);
            None
        }
    }
}

/// The texture by shares; by feel where there are none. Two shares make the third.
fn of_texture(soil: &SoilInput, findings: &mut Findings) -> Option<TextureFound> {
    let felt = soil
        .ribbon
        .and_then(|ribbon| by_feel(ribbon, soil.grit))
        .map(|class| TextureFound {
            class,
            is_by_feel: true,
            why: "by ball, ribbon and a wet pinch".to_owned(),
        });
    let given = [soil.sand, soil.silt, soil.clay].map(number);
    let shares = match given {
        [Some(sand), Some(silt), Some(clay)] => [sand, silt, clay],
        [Some(sand), Some(silt), None] => [sand, silt, rest(sand, silt)],
        [Some(sand), None, Some(clay)] => [sand, rest(sand, clay), clay],
        [None, Some(silt), Some(clay)] => [rest(silt, clay), silt, clay],
        _ => return felt,
    };
    let [sand, silt, clay] = shares;
    match texture(sand, silt, clay) {
        Ok((class, scaled_from)) => {
            let mut why = format!(
                "{} % sand, {} % silt, {} % clay",
                plain(sand),
                plain(silt),
                plain(clay)
            );
            if let Some(sum) = scaled_from {
                why.push_str(&format!(", {} % in all, scaled to 100 %", plain(sum)));
            } else if given.contains(&None) {
                why.push_str("; the one not told is what is left to 100 %");
            }
            if let Some(felt) = &felt
                && felt.class != class
            {
                reports::feel_differs(class, felt.class, findings);
            }
            Some(TextureFound {
                class,
                is_by_feel: false,
                why,
            })
        }
        Err(error) => {
            reports::not_named(&error, "texture", findings);
            felt
        }
    }
}

/// What is left to 100 %; where nothing is left, zero, so that a sum above 100 is found out.
fn rest(one: f64, other: f64) -> f64 {
    (100.0 - one - other).max(0.0)
}

/// All frost groups that fit: by the symbol, else by the texture; bands of silt and clay before both.
fn groups(
    soil: &SoilInput,
    uscs: Option<&Uscs>,
    texture: Option<&TextureFound>,
) -> Vec<FrostGroupFound> {
    if soil.varved {
        return frost_groups(FrostSoil::VarvedClay);
    }
    let measured = number(soil.finer_than_002);
    let rough = || number(soil.fines).and_then(rough_finer_than_002);
    let finer = measured.or_else(rough);
    let index = match (number(soil.liquid_limit), number(soil.plastic_limit)) {
        (Some(liquid), Some(plastic)) if liquid >= plastic => Some(liquid - plastic),
        _ => None,
    };
    let clay = FrostSoil::Clay {
        plasticity_index: index,
    };
    let sand = |very_fine_silty| {
        finer.map(|finer| FrostSoil::Sand {
            finer,
            very_fine_silty,
        })
    };
    let (kind, is_by_texture) = match (uscs, texture) {
        (Some(uscs), _) => {
            let kind = match uscs.family {
                Family::Gravel => finer.map(|finer| FrostSoil::Gravel { finer }),
                Family::Sand => sand(Some(false)),
                Family::SiltySand => sand(None),
                Family::Silt => Some(FrostSoil::Silt),
                Family::Clay | Family::SiltyClay => Some(clay),
            };
            (kind, false)
        }
        (None, Some(found)) => {
            let kind = match found.class {
                Texture::Sand | Texture::LoamySand => sand(Some(false)),
                Texture::SandyLoam => sand(None),
                Texture::Loam | Texture::SiltLoam | Texture::Silt => Some(FrostSoil::Silt),
                Texture::SandyClayLoam
                | Texture::ClayLoam
                | Texture::SiltyClayLoam
                | Texture::SandyClay
                | Texture::SiltyClay
                | Texture::Clay => Some(clay),
            };
            (kind, true)
        }
        (None, None) => (None, false),
    };
    let Some(kind) = kind else {
        return Vec::new();
    };
    let uses_finer = matches!(kind, FrostSoil::Gravel { .. } | FrostSoil::Sand { .. });
    let mut found = frost_groups(kind);
    for group in &mut found {
        if uses_finer && measured.is_none() {
            group.why.push_str(
                "; roughly, half of the fines are taken as finer than 0.02 mm: have it tested",
            );
        }
        if is_by_texture {
            group
                .why
                .push_str("; by the texture, as there is no symbol from index tests");
        }
    }
    found
}

fn number(amount: Option<Amount>) -> Option<f64> {
    amount.map(Amount::number)
}

/// Used by what is reported of errors.
pub(super) const fn is_missing(error: &SoilError) -> bool {
    matches!(error, SoilError::Missing { .. })
}
