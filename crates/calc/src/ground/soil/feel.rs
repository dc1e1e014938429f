//! The texture class by hand: a ball, a ribbon, a wet pinch.

use super::texture::Texture;
use crate::site::{Grit, Ribbon};

/// The class by feel; `None` where the ribbon holds and how it feels was not said.
///
/// # Source
/// The United States Department of Agriculture's guide to texture by feel, after Thien (1979): ribbons under 1 in, of 1 to 2 in,
/// of 2 in and more. Some copies of the chart name other lengths. Pure silt cannot be told from silt loam by it.
#[must_use]
pub const fn by_feel(ribbon: Ribbon, grit: Option<Grit>) -> Option<Texture> {
    Some(match (ribbon, grit) {
        (Ribbon::NoBall, _) => Texture::Sand,
        (Ribbon::NoRibbon, _) => Texture::LoamySand,
        (_, None) => return None,
        (Ribbon::Short, Some(Grit::Gritty)) => Texture::SandyLoam,
        (Ribbon::Short, Some(Grit::Smooth)) => Texture::SiltLoam,
        (Ribbon::Short, Some(Grit::Neither)) => Texture::Loam,
        (Ribbon::Middling, Some(Grit::Gritty)) => Texture::SandyClayLoam,
        (Ribbon::Middling, Some(Grit::Smooth)) => Texture::SiltyClayLoam,
        (Ribbon::Middling, Some(Grit::Neither)) => Texture::ClayLoam,
        (Ribbon::Long, Some(Grit::Gritty)) => Texture::SandyClay,
        (Ribbon::Long, Some(Grit::Smooth)) => Texture::SiltyClay,
        (Ribbon::Long, Some(Grit::Neither)) => Texture::Clay,
    })
}
