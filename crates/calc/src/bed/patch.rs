//! Patches of the dig in plan on which every surface is flat, and exact sums over them.
//!
//! A spot in plan is (station s, offset d): s along the centreline, d square to it, positive to the right. A surface that is flat
//! over a patch is a [`Plane`]: linear in s and d. Curvature k is positive to the right, so that a strip at offset d is
//! (1 − k d) times as long as the centreline beside it: an area or a volume is the integral of height × (1 − k d) over (s, d).
//! Summed across, that is the integral of (A − k M) ds, with A the section and M its first moment about the centreline.

use crate::quantity::{Length, in_metres};
use std::ops::{Add, Neg, Sub};

/// A spot in plan, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PlanSpot {
    pub station_m: f64,
    pub offset_m: f64,
}

impl PlanSpot {
    /// From (station, offset).
    pub(super) fn of((station, offset): (Length, Length)) -> Self {
        Self {
            station_m: in_metres(station),
            offset_m: in_metres(offset),
        }
    }
}

/// A linear function of station and offset: `level + along * s + across * d`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Plane {
    pub level: f64,
    pub along: f64,
    pub across: f64,
}

impl Plane {
    /// The same value everywhere.
    pub(super) const fn flat(level: f64) -> Self {
        Self {
            level,
            along: 0.0,
            across: 0.0,
        }
    }

    /// Constant across, and these values at two stations, which differ.
    pub(super) fn between(from_m: f64, at_from: f64, to_m: f64, at_to: f64) -> Self {
        let along = (at_to - at_from) / (to_m - from_m);
        Self {
            level: at_from - along * from_m,
            along,
            across: 0.0,
        }
    }

    /// Through three spots; level with the first where the three stand in one line.
    pub(super) fn through(spots: [(PlanSpot, f64); 3]) -> Self {
        let [(a, at_a), (b, at_b), (c, at_c)] = spots;
        let twice_area = cross(a, b, c);
        if twice_area == 0.0 {
            return Self::flat(at_a);
        }
        let (b_m, c_m) = (b.station_m - a.station_m, c.station_m - a.station_m);
        let (b_d, c_d) = (b.offset_m - a.offset_m, c.offset_m - a.offset_m);
        let along = ((at_b - at_a) * c_d - (at_c - at_a) * b_d) / twice_area;
        let across = ((at_c - at_a) * b_m - (at_b - at_a) * c_m) / twice_area;
        Self {
            level: at_a - along * a.station_m - across * a.offset_m,
            along,
            across,
        }
    }

    /// Positive to the right of the line through two spots, seen from the first towards the second along rising stations.
    pub(super) fn beside(from: PlanSpot, to: PlanSpot) -> Self {
        let along = from.offset_m - to.offset_m;
        let across = to.station_m - from.station_m;
        Self {
            level: -along * from.station_m - across * from.offset_m,
            along,
            across,
        }
    }

    pub(super) fn at(self, spot: PlanSpot) -> f64 {
        self.level + self.along * spot.station_m + self.across * spot.offset_m
    }
}

impl Add for Plane {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            level: self.level + other.level,
            along: self.along + other.along,
            across: self.across + other.across,
        }
    }
}

impl Neg for Plane {
    type Output = Self;
    fn neg(self) -> Self {
        Self {
            level: -self.level,
            along: -self.along,
            across: -self.across,
        }
    }
}

impl Sub for Plane {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

/// Offset as a plane: the value at a spot is its offset.
pub(super) const OFFSET: Plane = Plane {
    level: 0.0,
    along: 0.0,
    across: 1.0,
};

/// A convex piece of the dig in plan, within one leg.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Patch {
    /// In order around it; fewer than three where nothing is left.
    pub corners: Vec<PlanSpot>,
    /// Of the centreline, per metre, positive to the right.
    pub curvature_per_m: f64,
}

impl Patch {
    /// The part on which `keep` is not negative.
    ///
    /// # Source
    /// Clipping of a polygon by a half-plane after Sutherland and Hodgman, 1974.
    pub(super) fn clipped(&self, keep: Plane) -> Self {
        if self.corners.iter().all(|corner| keep.at(*corner) >= 0.0) {
            return self.clone();
        }
        let mut corners = Vec::with_capacity(self.corners.len() + 1);
        let ends = self.corners.iter().zip(self.corners.iter().cycle().skip(1));
        for (&from, &to) in ends {
            let (at_from, at_to) = (keep.at(from), keep.at(to));
            if at_from >= 0.0 {
                corners.push(from);
            }
            if (at_from > 0.0 && at_to < 0.0) || (at_from < 0.0 && at_to > 0.0) {
                corners.push(between(from, to, at_from / (at_from - at_to)));
            }
        }
        if corners.len() < 3 {
            corners.clear();
        }
        Self {
            corners,
            curvature_per_m: self.curvature_per_m,
        }
    }

    /// Both parts: where `cut` is not negative, and where it is not positive. One may be empty.
    pub(super) fn parted(&self, cut: Plane) -> [Self; 2] {
        [self.clipped(cut), self.clipped(-cut)]
    }

    /// Whether nothing is left of it.
    pub(super) fn is_empty(&self) -> bool {
        self.corners.is_empty()
    }

    /// True area in plan, in square metres.
    pub(super) fn area_m2(&self) -> f64 {
        self.volume_m3(Plane::flat(1.0))
    }

    /// Volume between zero and `height`, in cubic metres; where `height` is negative it counts against the rest.
    ///
    /// Exact: height × (1 − k d) is of the second degree, and over a triangle the mean of such a function is the mean of its
    /// values in the middles of the three sides.
    pub(super) fn volume_m3(&self, height: Plane) -> f64 {
        let Some((&first, rest)) = self.corners.split_first() else {
            return 0.0;
        };
        let weighed =
            |spot: PlanSpot| height.at(spot) * (1.0 - self.curvature_per_m * spot.offset_m);
        let mut sum = 0.0;
        let mut twice_area = 0.0;
        for (&b, &c) in rest.iter().zip(rest.iter().skip(1)) {
            let triangle = cross(first, b, c);
            twice_area += triangle;
            let middles = [
                between(first, b, 0.5),
                between(b, c, 0.5),
                between(c, first, 0.5),
            ];
            sum += triangle / 6.0 * middles.into_iter().map(weighed).sum::<f64>();
        }
        if twice_area < 0.0 { -sum } else { sum }
    }

    /// Volume where `height` is positive, in cubic metres.
    pub(super) fn volume_above_m3(&self, height: Plane) -> f64 {
        self.clipped(height).volume_m3(height)
    }

    /// Least and greatest of a plane over the patch; `None` for an empty one.
    pub(super) fn range(&self, plane: Plane) -> Option<(f64, f64)> {
        let mut values = self.corners.iter().map(|corner| plane.at(*corner));
        let first = values.next()?;
        Some(values.fold((first, first), |(least, most), value| {
            (least.min(value), most.max(value))
        }))
    }

    /// First and last station; `None` for an empty one.
    pub(super) fn stations_m(&self) -> Option<(f64, f64)> {
        self.range(Plane {
            level: 0.0,
            along: 1.0,
            across: 0.0,
        })
    }

    /// The plane through values at the corners of a surface that is flat over the patch.
    pub(super) fn plane_of(&self, value_at: impl Fn(PlanSpot) -> f64) -> Plane {
        let Some((&first, rest)) = self.corners.split_first() else {
            return Plane::flat(0.0);
        };
        let largest = rest
            .iter()
            .zip(rest.iter().skip(1))
            .max_by(|(b, c), (e, f)| {
                cross(first, **b, **c)
                    .abs()
                    .total_cmp(&cross(first, **e, **f).abs())
            });
        let Some((&b, &c)) = largest else {
            return Plane::flat(value_at(first));
        };
        Plane::through([(first, value_at(first)), (b, value_at(b)), (c, value_at(c))])
    }
}

/// The spot at that part of the way from one to the other.
pub(super) fn between(from: PlanSpot, to: PlanSpot, part: f64) -> PlanSpot {
    PlanSpot {
        station_m: from.station_m + (to.station_m - from.station_m) * part,
        offset_m: from.offset_m + (to.offset_m - from.offset_m) * part,
    }
}

/// Twice the area of a triangle in (s, d), positive where its corners turn from station towards offset.
fn cross(a: PlanSpot, b: PlanSpot, c: PlanSpot) -> f64 {
    (b.station_m - a.station_m) * (c.offset_m - a.offset_m)
        - (c.station_m - a.station_m) * (b.offset_m - a.offset_m)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn patch(corners: &[(f64, f64)], curvature_per_m: f64) -> Patch {
        Patch {
            corners: corners
                .iter()
                .map(|&(station_m, offset_m)| PlanSpot {
                    station_m,
                    offset_m,
                })
                .collect(),
            curvature_per_m,
        }
    }

    #[track_caller]
    fn check(value: f64, expected: f64) {
        assert!(
            (value - expected).abs() <= 1e-12 * expected.abs().max(1.0),
            "{value} is not {expected}"
        );
    }

    #[test]
    fn solids_of_the_prismoidal_formula() {
        // Rows E1, E4, E5: the formula is exact for each, so its figures are theirs. Sides in the row's own unit.
        // E1, from 50 to 70 ft² over 100 ft, 10 ft wide, so 5 to 7 ft deep: 6000 ft³.
        let plan = patch(&[(0.0, -5.0), (0.0, 5.0), (100.0, 5.0), (100.0, -5.0)], 0.0);
        check(plan.volume_m3(Plane::between(0.0, 5.0, 100.0, 7.0)), 6000.0);
        // E5, pyramid: base 30, height 9: 90. Apex over a corner of a base of 5 x 6: two flat faces meet over the diagonal.
        let half = patch(&[(0.0, 0.0), (5.0, 0.0), (5.0, 6.0)], 0.0);
        let other = patch(&[(0.0, 0.0), (5.0, 6.0), (0.0, 6.0)], 0.0);
        let falling_along = Plane {
            level: 9.0,
            along: -9.0 / 5.0,
            across: 0.0,
        };
        let falling_across = Plane {
            level: 9.0,
            along: 0.0,
            across: -9.0 / 6.0,
        };
        check(
            half.volume_m3(falling_along) + other.volume_m3(falling_across),
            90.0,
        );
        // E4, frustum of squares 2 x 2 and 4 x 4, height 6: 56. The height over the foot rises 6 in 1 from each side, up to 6.
        let foot = patch(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)], 0.0);
        let [along, across] = [
            Plane {
                level: 0.0,
                along: 6.0,
                across: 0.0,
            },
            Plane {
                level: 0.0,
                along: 0.0,
                across: 6.0,
            },
        ];
        let faces = [
            along,
            Plane::flat(24.0) - along,
            across,
            Plane::flat(24.0) - across,
            Plane::flat(6.0),
        ];
        let mut sum = 0.0;
        for face in faces {
            // The lowest face is the solid's surface.
            let part = faces
                .into_iter()
                .filter(|other| *other != face)
                .fold(foot.clone(), |part, other| part.clipped(other - face));
            sum += part.volume_m3(face);
        }
        check(sum, 56.0);
        // E4, wedge: 3 wide, 8 long, from 0 to 5 deep: 60.
        check(
            patch(&[(0.0, 0.0), (8.0, 0.0), (8.0, 3.0), (0.0, 3.0)], 0.0)
                .volume_m3(Plane::between(0.0, 0.0, 8.0, 5.0)),
            60.0,
        );
    }

    #[test]
    fn textbook_cut_and_fill_with_pyramids_at_the_ends() {
        // Row E2, Fundamentals of Transportation, Earthwork: fill 4087.5, cut 1058.333, net 3029.167 m³. Each span as the solid that
        // its rule is exact for: a section that goes from a to b evenly at one width, or a pyramid (A L / 3).
        let even = |from: f64, to: f64, length: f64| {
            patch(&[(0.0, 0.0), (length, 0.0), (length, 1.0), (0.0, 1.0)], 0.0)
                .volume_m3(Plane::between(0.0, from, length, to))
        };
        // A triangle in plan, as wide and as deep as it is far from its tip: section A at the far end.
        let pyramid = |section: f64, length: f64| {
            let width = 2.0_f64;
            patch(&[(0.0, 0.0), (length, 0.0), (length, width)], 0.0).volume_m3(Plane::between(
                0.0,
                0.0,
                length,
                section / width,
            ))
        };
        let fill = even(60.0, 50.0, 50.0)
            + even(50.0, 25.0, 25.0)
            + even(25.0, 5.0, 25.0)
            + pyramid(5.0, 15.0);
        let cut = pyramid(10.0, 25.0) + even(10.0, 15.0, 15.0) + even(15.0, 30.0, 35.0);
        assert!(
            (fill - 4087.5).abs() < 0.1
                && (cut - 1058.333).abs() < 0.1
                && (fill - cut - 3029.167).abs() < 0.1,
            "{fill} {cut}"
        );
        // Row E3, average end areas everywhere: fill 4100, cut 1100.
        let fill_ends = even(60.0, 50.0, 50.0)
            + even(50.0, 25.0, 25.0)
            + even(25.0, 5.0, 25.0)
            + even(5.0, 0.0, 15.0);
        let cut_ends = even(0.0, 10.0, 25.0) + even(10.0, 15.0, 15.0) + even(15.0, 30.0, 35.0);
        check(fill_ends, 4100.0);
        check(cut_ends, 1100.0);
    }

    #[test]
    fn sphere_as_the_prismoidal_formula_gives_it() {
        // Row E6: r 3, sections 0, 9 π, 0 over 6: 36 π. The middle section as a full turn about its own centre: a centreline of
        // radius 1 to the right (k = 1), offsets from its centre (d = 1) three to the left.
        let disc = patch(
            &[(0.0, -2.0), (0.0, 1.0), (2.0 * PI, 1.0), (2.0 * PI, -2.0)],
            1.0,
        );
        check(disc.area_m2(), 9.0 * PI);
        check(6.0 / 6.0 * (0.0 + 4.0 * disc.area_m2() + 0.0), 36.0 * PI);
    }

    #[test]
    fn constant_section_on_a_curve_is_pappus() {
        // Annular sector: centreline radius 4 m to the left (k = −1/4), turn 1.2 rad, width 1.5, so radii 3.25 to 4.75:
        // area = (4.75² − 3.25²) × 1.2 / 2 = 1.5 × 4 × 1.2 = 7.2.
        let turn = 1.2;
        let plan = patch(
            &[
                (0.0, -0.75),
                (0.0, 0.75),
                (4.0 * turn, 0.75),
                (4.0 * turn, -0.75),
            ],
            -0.25,
        );
        check(plan.area_m2(), (4.75_f64 * 4.75 - 3.25 * 3.25) * turn / 2.0);
        check(plan.volume_m3(Plane::flat(0.1)), 0.72);
    }

    #[test]
    fn wedge_section_on_a_curve_is_pappus() {
        // Triangular section from depth 0 at the left edge to 0.3 at the right, width 1.5: area 0.225, centroid a quarter metre right
        // of the middle (2/3 of 1.5 = 1.0 from the left). On a bend to the right of 4 m the centroid runs at 3.75 m; turn 1.2.
        let turn = 1.2;
        let plan = patch(
            &[
                (0.0, -0.75),
                (0.0, 0.75),
                (4.0 * turn, 0.75),
                (4.0 * turn, -0.75),
            ],
            0.25,
        );
        let wedge = Plane {
            level: 0.15,
            along: 0.0,
            across: 0.2,
        };
        check(plan.volume_m3(wedge), 0.225 * 3.75 * turn);
    }

    #[test]
    fn order_of_stations_and_a_split_change_nothing() {
        // Row E7.
        let corners = [(0.0, -1.0), (0.0, 1.0), (7.0, 1.5), (7.0, -1.5)];
        let mut reversed = corners;
        reversed.reverse();
        let height = Plane {
            level: 0.2,
            along: 0.05,
            across: 0.02,
        };
        let (whole, back) = (patch(&corners, 0.1), patch(&reversed, 0.1));
        check(back.volume_m3(height), whole.volume_m3(height));
        let [near, far] = whole.parted(Plane {
            level: 3.5,
            along: -1.0,
            across: 0.3,
        });
        check(
            near.volume_m3(height) + far.volume_m3(height),
            whole.volume_m3(height),
        );
        assert!(!near.is_empty() && !far.is_empty());
    }

    #[test]
    fn a_clip_beside_the_patch_leaves_all_or_nothing() {
        let whole = patch(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)], 0.0);
        assert_eq!(whole.clipped(Plane::flat(1.0)), whole);
        assert!(whole.clipped(Plane::flat(-1.0)).is_empty());
        assert!(
            whole.clipped(OFFSET - Plane::flat(1.0)).is_empty()
                || whole.clipped(OFFSET - Plane::flat(1.0)).area_m2() == 0.0
        );
    }
}
