//! How thick the base is, and in how many lifts, where it has to reach a given depth.

use super::count::{TOLERANCE, rounded_up};
use super::patch::Plane;

/// Depths nearer to each other than this, in metres, differ by rounding of the arithmetic alone.
const ROUNDING_M: f64 = 1e-12;

/// The rule that turns a depth to be reached, from the base top down, into a thickness of base and a number of lifts.
///
/// Lifts are laid parallel to the base top and counted from the bottom of the deepest place. All full lifts are of one thickness,
/// the greatest thickness of the base ÷ the least number of lifts that keeps within the limit. Elsewhere the lowest lift is what is
/// left below the last full one: where that is thinner than a partial lift may be, it is merged into the lift above if both together
/// stay within the limit, else the dig is trimmed deeper until it is thick enough (or a full lift).
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LiftRule {
    floor_m: f64,
    n_lifts: usize,
    full_m: f64,
    /// Thinnest partial lift: 1.5 times the largest stone, but not more than a full lift.
    thinnest_m: f64,
    /// What may be merged into a full lift.
    spare_m: f64,
    bands: Vec<Band>,
}

/// A range of depths over which the base has the same number of lifts and is level or follows the depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    /// From this depth.
    pub from_m: f64,
    /// To this depth.
    pub to_m: f64,
    /// The one thickness of the base over the band; `None` where it is the depth itself.
    pub level_m: Option<f64>,
    /// How many lifts there are, counted from the top.
    pub n_lifts: usize,
    /// Whether the dig is trimmed deeper than it would need to be.
    pub trimmed: bool,
}

impl Band {
    pub(super) fn thickness_m(&self, depth_m: f64) -> f64 {
        self.level_m.unwrap_or(depth_m)
    }

    /// Thickness over a patch whose depth is that plane.
    pub(super) fn thickness(&self, depth: Option<Plane>) -> Plane {
        match (self.level_m, depth) {
            (Some(level_m), _) => Plane::flat(level_m),
            (None, Some(depth)) => depth,
            // A band that follows the depth is met only where there is one.
            (None, None) => Plane::flat(self.from_m),
        }
    }
}

impl LiftRule {
    /// The base is nowhere thinner than `floor_m` nor thicker than `thickest_m`, which is not less.
    pub(super) fn new(floor_m: f64, thickest_m: f64, limit_m: f64, thinnest_m: f64) -> Self {
        let n_lifts = rounded_up(thickest_m / limit_m).max(1);
        let full_m = thickest_m / f64::from(n_lifts);
        let mut rule = Self {
            floor_m,
            n_lifts: usize::try_from(n_lifts).unwrap_or(usize::MAX),
            full_m,
            thinnest_m: thinnest_m.min(full_m),
            spare_m: (limit_m - full_m).max(0.0),
            bands: Vec::new(),
        };
        rule.bands = rule.all_bands(thickest_m);
        rule
    }

    pub(super) fn floor_m(&self) -> f64 {
        self.floor_m
    }

    /// How many lifts there are in the deepest place.
    pub(super) fn n_lifts(&self) -> usize {
        self.n_lifts
    }

    pub(super) fn full_m(&self) -> f64 {
        self.full_m
    }

    /// From the least depth to the greatest, without a gap: the first has no beginning, the last no end.
    pub(super) fn bands(&self) -> &[Band] {
        &self.bands
    }

    /// The band of a depth; at the border of two the lesser.
    pub(super) fn band_at(&self, depth_m: f64) -> Option<&Band> {
        let n_before = self.bands.partition_point(|band| band.to_m < depth_m);
        self.bands.get(n_before)
    }

    /// Top of the lift of that number below the base top.
    pub(super) fn top_below_base_top_m(&self, number: usize) -> f64 {
        count(self.n_lifts.saturating_sub(number)) * self.full_m
    }

    /// The number, from the bottom, of the lowest of `n_lifts` lifts counted from the top.
    pub(super) fn lowest_number(&self, n_lifts: usize) -> usize {
        (self.n_lifts + 1).saturating_sub(n_lifts)
    }

    /// Thickness of all lifts but the lowest, where there are that many.
    pub(super) fn above_lowest_m(&self, n_lifts: usize) -> f64 {
        count(n_lifts.saturating_sub(1)) * self.full_m
    }

    fn all_bands(&self, thickest_m: f64) -> Vec<Band> {
        let mut borders_m = Vec::with_capacity(3 * self.n_lifts + 1);
        for n_full in 0..self.n_lifts {
            let above_m = count(n_full) * self.full_m;
            // The least border of rounding above a full lift belongs to the full lift.
            borders_m.push(above_m + if n_full == 0 { 0.0 } else { self.spare_m } + ROUNDING_M);
            borders_m.push(above_m + self.thinnest_m);
        }
        borders_m.extend([self.floor_m, thickest_m]);
        borders_m.sort_by(f64::total_cmp);
        borders_m.retain(|border_m| *border_m >= self.floor_m && *border_m <= thickest_m);

        let mut bands = vec![Band {
            from_m: f64::NEG_INFINITY,
            to_m: self.floor_m,
            ..self.band_of(self.floor_m, true)
        }];
        let mut from_m = self.floor_m;
        for to_m in borders_m {
            if to_m - from_m > ROUNDING_M {
                bands.push(Band {
                    from_m,
                    to_m,
                    ..self.band_of((from_m + to_m) / 2.0, false)
                });
                from_m = to_m;
            }
        }
        bands.push(Band {
            from_m,
            to_m: f64::INFINITY,
            ..self.band_of(thickest_m, true)
        });
        bands
    }

    /// The band that holds a thickness that is asked for; `level` where it holds that thickness alone.
    fn band_of(&self, asked_m: f64, level: bool) -> Band {
        let n_full = ((asked_m / self.full_m) * (1.0 + TOLERANCE) + TOLERANCE)
            .floor()
            .max(0.0);
        let above_m = n_full * self.full_m;
        let left_m = asked_m - above_m;
        let n_full = usize::try_from(rounded_up(n_full)).unwrap_or(usize::MAX);
        let as_asked = |n_lifts: usize| Band {
            from_m: 0.0,
            to_m: 0.0,
            level_m: level.then_some(asked_m),
            n_lifts,
            trimmed: false,
        };
        if n_full >= 1 && left_m <= self.spare_m + ROUNDING_M {
            as_asked(n_full)
        } else if left_m >= self.thinnest_m - ROUNDING_M {
            as_asked(n_full + 1)
        } else {
            Band {
                level_m: Some(above_m + self.thinnest_m),
                trimmed: true,
                ..as_asked(n_full + 1)
            }
        }
    }
}

/// A small count as a number to reckon with.
fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::INFINITY, f64::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Floor 4, thickest 7, limit 2.4, thinnest 1.125: three lifts of 2 1/3, spare 1/15; in inches, as the numbers may be of any unit
    /// that is much larger than the rounding.
    fn rule() -> LiftRule {
        LiftRule::new(4.0, 7.0, 2.4, 1.125)
    }

    #[track_caller]
    fn check(rule: &LiftRule, depth: f64, thickness: f64, n_lifts: usize) {
        let band = rule.band_at(depth).unwrap();
        assert!(
            (band.thickness_m(depth) - thickness).abs() < 1e-11,
            "{band:?}"
        );
        assert_eq!(band.n_lifts, n_lifts, "{band:?}");
    }

    #[test]
    fn thickness_and_lifts_by_depth() {
        let rule = rule();
        assert_eq!(rule.n_lifts(), 3);
        check(&rule, f64::NEG_INFINITY, 4.0, 2); // the floor: a full lift and 1 2/3
        check(&rule, 3.0, 4.0, 2);
        check(&rule, 4.5, 4.5, 2);
        check(&rule, 14.0 / 3.0, 14.0 / 3.0, 2); // two full lifts
        check(&rule, 14.0 / 3.0 + 1e-14, 14.0 / 3.0, 2); // and rounding
        check(&rule, 14.0 / 3.0 + 0.066, 14.0 / 3.0 + 0.066, 2); // merged: 2 1/3 + 0.066 is within 2.4
        check(&rule, 14.0 / 3.0 + 0.067, 14.0 / 3.0 + 1.125, 3); // trimmed
        check(&rule, 6.0, 6.0, 3);
        check(&rule, 7.0, 7.0, 3);
        check(&rule, 70.0, 7.0, 3); // an undercut limit
    }

    #[test]
    fn bands_leave_no_gap_and_never_rise_above_the_dig_below() {
        let rule = rule();
        for pair in rule.bands().windows(2) {
            assert_eq!(pair[0].to_m, pair[1].from_m);
        }
        for band in rule.bands() {
            assert!(
                band.level_m
                    .is_none_or(|level_m| band.to_m.is_infinite() || level_m >= band.to_m - 1e-11),
                "{band:?}"
            );
        }
    }

    #[test]
    fn stone_too_large_for_its_lift_makes_full_lifts_only() {
        // Limit 2, thickest 5: three lifts of 1 2/3; 1.5 stones of 2 would be 3: partial lifts are trimmed to full ones, or merged.
        let rule = LiftRule::new(1.0, 5.0, 2.0, 3.0);
        check(&rule, 1.0, 5.0 / 3.0, 1);
        check(&rule, 1.9, 1.9, 1); // 1 2/3 + 0.23 merged
        check(&rule, 2.5, 10.0 / 3.0, 2);
        check(&rule, 5.0, 5.0, 3);
    }

    #[test]
    fn no_base_at_all_is_one_lift_of_nothing() {
        let rule = LiftRule::new(0.0, 0.0, 2.4, 0.0);
        check(&rule, f64::NEG_INFINITY, 0.0, 1);
        check(&rule, 0.0, 0.0, 1);
    }
}
