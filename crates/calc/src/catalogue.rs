//! What a material is good for and what it weighs. The figures themselves are data in `assets/catalogue`, each with its source.

use crate::findings::rules::CauseRules;
use crate::order::PriceList;
use crate::quantity::MassDensity;
use crate::site::MaterialKey;

/// All materials known, and the rules that find causes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Catalogue {
    /// In the order in which they are offered.
    pub materials: Vec<Material>,
    /// What points to which cause.
    pub causes: CauseRules,
    /// What suppliers ask, and how long the work takes.
    pub prices: PriceList,
    /// The sand that is bought for setting bed and joints.
    pub bedding: Option<Bedding>,
    /// What brick is made of.
    pub fired_clay: Option<FiredClay>,
    /// Moisture of what is sold by weight, each material at most once.
    pub moistures: Vec<DeliveredMoisture>,
}

/// Water in a material as it is delivered.
#[derive(Clone, Debug, PartialEq)]
pub struct DeliveredMoisture {
    /// Which material.
    pub key: MaterialKey,
    /// By dry weight, in percent.
    pub percent: f64,
    /// Where that comes from, in words.
    pub source: String,
}

/// The sand that is bought for setting bed and joints.
#[derive(Clone, Debug, PartialEq)]
pub struct Bedding {
    /// Which material.
    pub key: MaterialKey,
    /// Loose ÷ compacted volume.
    pub loose_to_compacted: f64,
    /// Where that comes from, in words.
    pub source: String,
}

/// What brick is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct FiredClay {
    /// Without joints.
    pub density: MassDensity,
    /// Where that comes from, in words.
    pub source: String,
}

impl Catalogue {
    /// The material of that key.
    #[must_use]
    pub fn find(&self, key: &MaterialKey) -> Option<&Material> {
        self.materials.iter().find(|material| material.key == *key)
    }

    /// Moisture of a material as it is delivered.
    #[must_use]
    pub fn moisture(&self, key: &MaterialKey) -> Option<&DeliveredMoisture> {
        self.moistures.iter().find(|moisture| moisture.key == *key)
    }
}

/// One material, found in a pit or brought to the site.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// What records call it.
    pub key: MaterialKey,
    /// What the trade calls it.
    pub name: String,
    /// Whether it may stay under a walk.
    pub under_a_walk: UnderAWalk,
    /// Whether it can be bought as base.
    pub as_base: Option<BaseFigures>,
    /// How water leaves it.
    pub drainage: Drainage,
    /// In the ground.
    pub bank_density: MassDensity,
    /// Tipped or delivered.
    pub loose_density: MassDensity,
    /// Loose volume ÷ bank volume − 1.
    pub swell: f64,
    /// How the drawing hatches it.
    pub hatch: Hatch,
    /// Where the figures come from, in words.
    pub source: String,
}

impl Material {
    /// Where one figure comes from, such as "loose density": its part of [`Material::source`], which is written "figure: where from" with
    /// a semicolon between; the whole of it where that part is not found.
    #[must_use]
    pub fn source_of(&self, figure: &str) -> &str {
        let mut parts = self.source.split("; ");
        let from = parts.find_map(|part| match part.split_once(": ") {
            Some((of, from)) if of == figure => Some(from),
            _ => None,
        });
        from.unwrap_or(&self.source)
    }
}

/// Figures of a material that is bought as base.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BaseFigures {
    /// Loose ÷ compacted thickness.
    pub loose_to_compacted: f64,
    /// Largest stone.
    pub largest_stone: crate::quantity::Length,
    /// Compacted in place.
    pub compacted_density: MassDensity,
}

/// Whether a material may stay under a walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnderAWalk {
    /// May stay as part of the base.
    Base,
    /// Undisturbed, it carries the base.
    Subgrade,
    /// Must come out.
    MustComeOut,
    /// The old pavement itself: it is lifted, and kept.
    OldPavement,
}

/// How water leaves a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drainage {
    /// Water runs away through it.
    Free,
    /// Water leaves slowly.
    Slow,
    /// Water stands.
    Poor,
}

/// Hatch by drafting convention.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hatch {
    /// Slanted strokes, as for brick in section.
    Brick,
    /// Dots.
    Sand,
    /// Outlines of stones.
    Stone,
    /// Small triangles and dots.
    Concrete,
    /// Slanted strokes in groups.
    Earth,
    /// Short level strokes.
    Clay,
    /// Tufts: topsoil, roots, rubbish.
    Loose,
}
