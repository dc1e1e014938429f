//! The bottom of the dig, everywhere.

use super::lift_rule::{Band, LiftRule};
use super::outline::CutPiece;
use super::patch::{Patch, PlanSpot, Plane, between};
use super::strip::{SAME_M, Stretch};
use crate::ground::Ground;
use crate::line::GradeLine;
use crate::quantity::{Area, Length, in_metres, metres, square_metres};

/// Thickness of the base over the dig in plan, as flat facets.
#[derive(Clone, Debug, PartialEq)]
pub struct Dig {
    rule: LiftRule,
    /// Edge brick and side extension: from the clear width to the side of the dig.
    beyond_m: f64,
    reaches: Vec<Reach>,
    facets: Vec<Facet>,
}

/// The base at one spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BaseSpot {
    /// Its thickness, compacted.
    pub thickness: Length,
    /// Number of the lowest lift that is placed there; all above it are too.
    pub lowest_lift: usize,
}

/// A stretch of the run, and the thickness that the base needs there to reach the bottom of what must come out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reach {
    pub stretch: Stretch,
    /// From the base top down to that bottom; negative where it lies above the base top. `None` without pits.
    pub to_unsuitable_bottom: Option<Plane>,
}

/// A piece of the dig on which the base is of one thickness or slopes evenly, and has as many lifts everywhere.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Facet {
    pub patch: Patch,
    /// Thickness of the base.
    pub thickness: Plane,
    /// How many lifts there are, counted from the top.
    pub n_lifts: usize,
    /// How much of the thickness the dig was trimmed deeper for its lowest lift; zero where it was not.
    pub trimmed: Plane,
    /// Which stretch it belongs to.
    pub reach_idx: usize,
}

/// A piece of a line in plan, from one spot to another, on which the same holds as on a facet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Piece {
    pub from: PlanSpot,
    pub to: PlanSpot,
    pub from_thickness_m: f64,
    pub to_thickness_m: f64,
    pub n_lifts: usize,
}

/// What the dig is asked to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Wish {
    pub base_top_below_grade_m: f64,
    pub least_base_m: f64,
    /// Most that the dig may go below the grade line; infinite without a limit.
    pub undercut_m: f64,
    pub lift_limit_m: f64,
    pub thinnest_partial_m: f64,
    pub beyond_m: f64,
}

impl Piece {
    /// The same, as a piece of a cut that runs along x.
    pub(super) fn cut(&self, from_x_m: f64, to_x_m: f64) -> CutPiece {
        CutPiece {
            from_x_m,
            to_x_m,
            from_thickness_m: self.from_thickness_m,
            to_thickness_m: self.to_thickness_m,
            n_lifts: self.n_lifts,
        }
    }
}

impl Dig {
    /// The dig over these stretches.
    pub(super) fn new(
        stretches: &[Stretch],
        grade: &GradeLine,
        ground: &Ground,
        wish: &Wish,
    ) -> Self {
        let reaches: Vec<Reach> = stretches
            .iter()
            .map(|stretch| Reach {
                stretch: *stretch,
                to_unsuitable_bottom: to_unsuitable_bottom(stretch, grade, ground, wish),
            })
            .collect();
        // A base thinner than a partial lift may be is no base: the floor is the greater of both, unless no lift can be that thick.
        let floor_m = if wish.thinnest_partial_m <= wish.lift_limit_m {
            wish.least_base_m.max(wish.thinnest_partial_m)
        } else {
            wish.least_base_m
        };
        let ceiling_m = (wish.undercut_m - wish.base_top_below_grade_m).max(floor_m);
        let thickest_m = reaches.iter().fold(floor_m, |thickest_m, reach| {
            let deepest = reach
                .to_unsuitable_bottom
                .and_then(|depth| reach.stretch.patch(wish.beyond_m).range(depth));
            deepest.map_or(thickest_m, |(_, deepest_m)| {
                thickest_m.max(deepest_m.min(ceiling_m))
            })
        });
        let rule = LiftRule::new(
            floor_m,
            ceiling_m.min(thickest_m),
            wish.lift_limit_m,
            wish.thinnest_partial_m,
        );
        let facets = reaches
            .iter()
            .enumerate()
            .flat_map(|(reach_idx, reach)| facets(reach, reach_idx, &rule, wish))
            .collect();
        Self {
            rule,
            beyond_m: wish.beyond_m,
            reaches,
            facets,
        }
    }

    /// The base at a spot, of the stretch that starts at that station where two meet. Spots outside the dig take the nearest inside.
    #[must_use]
    pub fn base_at(&self, station: Length, offset: Length) -> BaseSpot {
        let station_m = in_metres(station);
        let n_begun = self
            .reaches
            .partition_point(|reach| reach.stretch.from_m <= station_m + SAME_M);
        self.base_spot(n_begun, station_m, offset)
    }

    /// The base at a spot, of the stretch that ends at that station where two meet: before a riser, looking from the door.
    #[must_use]
    pub fn base_before(&self, station: Length, offset: Length) -> BaseSpot {
        let station_m = in_metres(station);
        let n_begun = self
            .reaches
            .partition_point(|reach| reach.stretch.from_m < station_m - SAME_M);
        self.base_spot(n_begun, station_m, offset)
    }

    /// From the side of the clear width to the side of the dig: edge brick and side extension.
    #[must_use]
    pub fn beyond_clear_width(&self) -> Length {
        metres(self.beyond_m)
    }

    /// Compacted thickness of the base at a spot. Spots outside the dig take the nearest inside.
    #[must_use]
    pub fn base_thickness(&self, station: Length, offset: Length) -> Length {
        let Some(reach) = self.reach_at(in_metres(station)) else {
            return metres(self.rule.floor_m());
        };
        let station_m = in_metres(station).clamp(reach.stretch.from_m, reach.stretch.to_m);
        let spot = PlanSpot {
            station_m,
            offset_m: in_metres(offset),
        };
        metres(self.thickness_m(reach, self.moved_inside(reach, spot)))
    }

    /// Width of the dig at a station, from side to side. Stations beyond the ends take the nearest.
    #[must_use]
    pub fn width_at(&self, station: Length) -> Length {
        let Some(reach) = self.reach_at(in_metres(station)) else {
            return metres(0.0);
        };
        let station_m = in_metres(station).clamp(reach.stretch.from_m, reach.stretch.to_m);
        metres(2.0 * self.half_width_m(reach, station_m).max(0.0))
    }

    /// Over which area in plan the lift of that number, counted from the bottom, is placed; a place where a thin rest was merged into
    /// the lift above it belongs to that lift.
    #[must_use]
    pub fn lift_area(&self, number: usize) -> Area {
        let facets = self.facets.iter();
        square_metres(
            facets
                .filter(|facet| number >= self.rule.lowest_number(facet.n_lifts))
                .map(|facet| facet.patch.area_m2())
                .sum(),
        )
    }

    /// Thickest and thinnest base within the dig.
    pub(super) fn thickness_range_m(&self) -> (f64, f64) {
        let ranges = self
            .facets
            .iter()
            .filter_map(|facet| facet.patch.range(facet.thickness));
        let range = ranges.reduce(|(least, most), (low, high)| (least.min(low), most.max(high)));
        range.map_or(
            (self.rule.floor_m(), self.rule.floor_m()),
            |(least, most)| (most, least),
        )
    }

    pub(super) fn rule(&self) -> &LiftRule {
        &self.rule
    }

    pub(super) fn facets(&self) -> &[Facet] {
        &self.facets
    }

    pub(super) fn reaches(&self) -> &[Reach] {
        &self.reaches
    }

    /// Edge brick and side extension: from the clear width to the side of the dig.
    pub(super) fn beyond_m(&self) -> f64 {
        self.beyond_m
    }

    /// The stretch at a station: the one that starts there, where two meet; the nearest for one beyond the run.
    pub(super) fn reach_at(&self, station_m: f64) -> Option<&Reach> {
        let n_before = self
            .reaches
            .partition_point(|reach| reach.stretch.from_m <= station_m);
        self.reaches.get(n_before.saturating_sub(1))
    }

    /// Half the width of the dig at a station of the stretch.
    pub(super) fn half_width_m(&self, reach: &Reach, station_m: f64) -> f64 {
        reach.stretch.half_clear.at(PlanSpot {
            station_m,
            offset_m: 0.0,
        }) + self.beyond_m
    }

    /// The base along a line in plan that stays within one stretch and within the dig, cut where its thickness bends or steps or
    /// the number of lifts changes.
    pub(super) fn pieces(&self, reach: &Reach, from: PlanSpot, to: PlanSpot) -> Vec<Piece> {
        let depth_m = |spot: PlanSpot| {
            reach
                .to_unsuitable_bottom
                .map_or(f64::NEG_INFINITY, |depth| depth.at(spot))
        };
        let (at_from, at_to) = (depth_m(from), depth_m(to));
        let length_m = libm::hypot(to.station_m - from.station_m, to.offset_m - from.offset_m);
        let piece = |band: &Band, start: f64, end: f64| Piece {
            from: between(from, to, start),
            to: between(from, to, end),
            from_thickness_m: band.thickness_m(at_from + (at_to - at_from) * start),
            to_thickness_m: band.thickness_m(at_from + (at_to - at_from) * end),
            n_lifts: band.n_lifts,
        };
        let is_level = at_from == at_to || (at_to - at_from).abs() <= SAME_M;
        if is_level {
            return self
                .rule
                .band_at(at_from.max(at_to))
                .map(|band| piece(band, 0.0, 1.0))
                .into_iter()
                .collect();
        }
        let part_at = |depth_m: f64| ((depth_m - at_from) / (at_to - at_from)).clamp(0.0, 1.0);
        let in_band = |band: &Band| {
            let (one, other) = (part_at(band.from_m), part_at(band.to_m));
            let (start, end) = (one.min(other), one.max(other));
            ((end - start) * length_m > SAME_M).then(|| piece(band, start, end))
        };
        // In the order in which the line meets the bands.
        let mut pieces: Vec<Piece> = self.rule.bands().iter().filter_map(in_band).collect();
        if at_to < at_from {
            pieces.reverse();
        }
        pieces
    }

    /// The base at a spot of the last of the `n_begun` stretches that begin before it.
    fn base_spot(&self, n_begun: usize, station_m: f64, offset: Length) -> BaseSpot {
        let depth_m = self
            .reaches
            .get(n_begun.saturating_sub(1))
            .and_then(|reach| {
                let spot = PlanSpot {
                    station_m: station_m.clamp(reach.stretch.from_m, reach.stretch.to_m),
                    offset_m: in_metres(offset),
                };
                let depth = reach.to_unsuitable_bottom?;
                Some(depth.at(self.moved_inside(reach, spot)))
            });
        let depth_m = depth_m.unwrap_or(f64::NEG_INFINITY);
        let (thickness_m, n_lifts) = self
            .rule
            .band_at(depth_m)
            .map_or((self.rule.floor_m(), 1), |band| {
                (band.thickness_m(depth_m), band.n_lifts)
            });
        BaseSpot {
            thickness: metres(thickness_m),
            lowest_lift: self.rule.lowest_number(n_lifts),
        }
    }

    fn thickness_m(&self, reach: &Reach, spot: PlanSpot) -> f64 {
        let depth_m = reach
            .to_unsuitable_bottom
            .map_or(f64::NEG_INFINITY, |depth| depth.at(spot));
        self.rule
            .band_at(depth_m)
            .map_or(self.rule.floor_m(), |band| band.thickness_m(depth_m))
    }

    fn moved_inside(&self, reach: &Reach, spot: PlanSpot) -> PlanSpot {
        let half_m = self.half_width_m(reach, spot.station_m).max(0.0);
        PlanSpot {
            station_m: spot.station_m,
            offset_m: spot.offset_m.clamp(-half_m, half_m),
        }
    }
}

/// A square millimetre's millionth.
const NO_AREA_M2: f64 = 1e-12;

fn to_unsuitable_bottom(
    stretch: &Stretch,
    grade: &GradeLine,
    ground: &Ground,
    wish: &Wish,
) -> Option<Plane> {
    ground.unsuitable_bottom(metres(stretch.from_m))?;
    let bottom = stretch.linear(|station_m| {
        ground
            .unsuitable_bottom(metres(station_m))
            .map_or(f64::NAN, |bottom| in_metres(bottom.level))
    });
    Some(grade_plane(grade, stretch) - Plane::flat(wish.base_top_below_grade_m) - bottom)
}

/// The grade line as a plane in plan, over a stretch that no break of the grade line cuts.
pub(super) fn grade_plane(grade: &GradeLine, stretch: &Stretch) -> Plane {
    let middle = metres((stretch.from_m + stretch.to_m) / 2.0);
    let (at_door, fall) = grade
        .piece_at(middle)
        .map_or((grade.start, grade.fall), |piece| {
            (piece.level_at(metres(0.0)), piece.fall)
        });
    Plane {
        level: in_metres(at_door),
        along: -fall.ratio(),
        across: -grade.cross_fall.ratio(),
    }
}

fn facets(reach: &Reach, reach_idx: usize, rule: &LiftRule, wish: &Wish) -> Vec<Facet> {
    let whole = reach.stretch.patch(wish.beyond_m);
    let facet = |patch: Patch, band: &Band, depth: Option<Plane>| {
        let thickness = band.thickness(depth);
        let asked = match (band.trimmed, depth) {
            (false, _) => thickness,
            (true, Some(depth)) if band.from_m.is_finite() => depth,
            (true, _) => Plane::flat(rule.floor_m()),
        };
        Facet {
            patch,
            thickness,
            n_lifts: band.n_lifts,
            trimmed: thickness - asked,
            reach_idx,
        }
    };
    let Some((depth, (least_m, most_m))) = reach
        .to_unsuitable_bottom
        .and_then(|depth| Some((depth, whole.range(depth)?)))
    else {
        return rule
            .band_at(f64::NEG_INFINITY)
            .map(|band| facet(whole, band, None))
            .into_iter()
            .collect();
    };
    if most_m - least_m <= SAME_M {
        // Level: one band holds all of it.
        return rule
            .band_at(most_m)
            .map(|band| facet(whole, band, Some(depth)))
            .into_iter()
            .collect();
    }
    let mut facets = Vec::new();
    for band in rule.bands() {
        if most_m <= band.from_m || least_m >= band.to_m {
            continue;
        }
        let mut patch = whole.clone();
        if band.from_m > least_m {
            patch = patch.clipped(depth - Plane::flat(band.from_m));
        }
        if band.to_m < most_m {
            patch = patch.clipped(Plane::flat(band.to_m) - depth);
        }
        // A patch that only touches the band has no area, and no say in where lifts run.
        if patch.area_m2() > NO_AREA_M2 {
            facets.push(facet(patch, band, Some(depth)));
        }
    }
    facets
}
