//! What the bed, its brick and its edge are to be: as written down where it can be true, else the default.

use super::edges::EdgeBrick;
use crate::defaults;
use crate::field::take_length;
use crate::findings::{Findings, Weight};
use crate::lay::BrickSize;
use crate::place::Place;
use crate::quantity::{Length, in_metres};
use crate::site::{RestraintInput, Site};

/// All measures of the bed, each of them known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Wishes {
    pub brick_length: Length,
    pub brick_width: Length,
    pub brick_thickness: Length,
    pub joint: Length,
    pub setting_bed: Length,
    pub least_base: Length,
    pub loose_lift: Length,
    pub side_extension: Length,
    pub undercut_limit: Option<Length>,
    pub edge_brick: EdgeBrick,
    pub restraint: RestraintWish,
}

/// What is to hold the edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum RestraintWish {
    Haunch(HaunchShape),
    Spiked { spacing_m: f64 },
    Nothing,
}

/// The haunch in section, against the outer face of the edge brick: a trapezoid that stands on its bottom, or a triangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct HaunchShape {
    pub height_m: f64,
    pub width_m: f64,
    pub top_width_m: f64,
}

impl Wishes {
    /// From the site, the least base else as worked out. A value that cannot be true is named in the findings and the default is taken.
    pub(super) fn of(site: &Site, worked_out_base: Length, findings: &mut Findings) -> Self {
        let least_base = take_length(
            site,
            Place::LeastBase,
            site.bed.least_base,
            Weight::Warning,
            findings,
        )
        .unwrap_or(worked_out_base);
        let mut take = |place: Place, value: Option<Length>, default: fn() -> Length| {
            take_length(site, place, value, Weight::Warning, findings).unwrap_or_else(default)
        };
        let brick = BrickSize::of_field(site);
        for (place, side) in [
            (Place::BrickLength, site.brick.length),
            (Place::BrickWidth, site.brick.width),
            (Place::BrickThickness, site.brick.thickness),
        ] {
            // Named where it cannot be true; the sample or the default stands for it.
            take(place, side, defaults::brick_length);
        }
        let joint = take(Place::Joint, site.brick.joint, defaults::joint);
        let restraint = match site.edge.restraint {
            RestraintInput::Haunch {
                height,
                width,
                top_width,
            } => RestraintWish::Haunch(HaunchShape {
                height_m: in_metres(take(Place::HaunchHeight, height, defaults::haunch_height)),
                width_m: in_metres(take(Place::HaunchWidth, width, defaults::haunch_width)),
                top_width_m: in_metres(take(
                    Place::HaunchTopWidth,
                    top_width,
                    defaults::haunch_top_width,
                )),
            }),
            RestraintInput::Spiked { spacing } => RestraintWish::Spiked {
                spacing_m: in_metres(take(Place::SpikeSpacing, spacing, defaults::spike_spacing)),
            },
            RestraintInput::Nothing => RestraintWish::Nothing,
        };
        let setting_bed = take(
            Place::SettingBed,
            site.bed.setting_bed,
            defaults::setting_bed,
        );
        let loose_lift = take(Place::LooseLift, site.bed.loose_lift, defaults::loose_lift);
        // Published: the base thickness, and not less than the default.
        let side_extension = take_length(
            site,
            Place::SideExtension,
            site.bed.side_extension,
            Weight::Warning,
            findings,
        )
        .unwrap_or_else(|| defaults::side_extension().max(least_base));
        Self {
            brick_length: brick.length,
            brick_width: brick.width,
            brick_thickness: brick.thickness,
            joint,
            setting_bed,
            least_base,
            loose_lift,
            side_extension,
            undercut_limit: take_length(
                site,
                Place::UndercutLimit,
                site.bed.undercut_limit,
                Weight::Warning,
                findings,
            ),
            edge_brick: BrickSize::edge_brick(site),
            restraint,
        }
    }

    /// Base top below the grade line: brick and setting bed.
    pub(super) fn base_top_below_grade(&self) -> Length {
        self.brick_thickness + self.setting_bed
    }

    /// The haunch, where there is one.
    pub(super) fn haunch(&self) -> Option<HaunchShape> {
        match self.restraint {
            RestraintWish::Haunch(shape) => Some(shape),
            RestraintWish::Spiked { .. } | RestraintWish::Nothing => None,
        }
    }
}

impl HaunchShape {
    /// Widest reach from the face.
    pub(super) fn reach_m(self) -> f64 {
        self.width_m.max(self.top_width_m)
    }

    pub(super) fn area_m2(self) -> f64 {
        self.height_m * (self.width_m + self.top_width_m) / 2.0
    }

    /// How far its centroid lies from the face: (a² + a b + b²) ÷ 3 (a + b) for the parallel sides a and b.
    pub(super) fn centroid_m(self) -> f64 {
        let (a, b) = (self.width_m, self.top_width_m);
        if a + b > 0.0 {
            (a * a + a * b + b * b) / (3.0 * (a + b))
        } else {
            0.0
        }
    }
}
