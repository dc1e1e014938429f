//! Volumes against numeric integrals by a registry library, and properties that hold for every site.

use crate::sites::{
    any_site, any_site_in_one_lift, bed_of, breaks_m, computed, curve, pit, plain, shot, straight,
};
use gauss_quad::legendre::GaussLegendre;
use proptest::prelude::*;
use underbrick_calc::bed::{Bed, along, section_at};
use underbrick_calc::ground::Ground;
use underbrick_calc::line::Line;
use underbrick_calc::quantity::unit::square_meter;
use underbrick_calc::quantity::{Length, in_cubic_metres, in_metres, inches, metres};
use underbrick_calc::site::{Brick, EdgeStands, Hand, RestraintInput, Site};

/// Integral from one number to another, over so many panels of five nodes.
fn integral(from: f64, to: f64, n_panels: u32, mut of: impl FnMut(f64) -> f64) -> f64 {
    let rule = GaussLegendre::new(5.try_into().unwrap());
    let panel = (to - from) / f64::from(n_panels);
    (0..n_panels)
        .map(|nth| {
            rule.integrate(
                from + panel * f64::from(nth),
                from + panel * f64::from(nth + 1),
                &mut of,
            )
        })
        .sum()
}

/// The walk and what is known of it.
struct Walk {
    site: Site,
    line: Line,
    ground: Ground,
    bed: Bed,
}

impl Walk {
    fn of(site: Site) -> Self {
        let results = computed(&site);
        Self {
            line: results.line.unwrap(),
            ground: results.ground.unwrap(),
            bed: results.bed.unwrap(),
            site,
        }
    }

    /// Integral over a strip in plan of a height at (station, offset). The strip goes from one offset to another, both worked out
    /// from half the clear width.
    fn over(
        &self,
        strip: impl Fn(f64) -> (f64, f64),
        mut height_m: impl FnMut(f64, f64) -> f64,
    ) -> f64 {
        let breaks_m = breaks_m(&self.site, &self.line);
        let spans = breaks_m
            .iter()
            .zip(breaks_m.iter().skip(1))
            .filter(|(from, to)| *to - *from > 1e-9);
        spans
            .map(|(&from, &to)| {
                let curvature = self.line.run.curvature_per_m_at(metres((from + to) / 2.0));
                integral(from, to, 10, |station| {
                    let (left, right) =
                        strip(in_metres(self.line.run.clear_width_at(metres(station))) / 2.0);
                    integral(left, right, 24, |offset| {
                        height_m(station, offset) * (1.0 - curvature * offset)
                    })
                })
            })
            .sum()
    }

    /// Integral over the whole dig.
    fn over_the_dig(&self, height_m: impl FnMut(f64, f64) -> f64) -> f64 {
        self.over(|half| (-half - BEYOND_M, half + BEYOND_M), height_m)
    }

    /// Integral over field and edge bricks.
    fn over_the_paving(&self, height_m: impl FnMut(f64, f64) -> f64) -> f64 {
        self.over(|half| (-half - EDGE_M, half + EDGE_M), height_m)
    }

    fn base_top_m(&self, station: f64, offset: f64) -> f64 {
        in_metres(
            self.line.grade.level(metres(station), metres(offset)) - self.bed.base_top_below_grade,
        )
    }

    fn surface_m(&self, station: f64, offset: f64) -> f64 {
        in_metres(
            self.line
                .old_surface
                .at(metres(station), metres(offset))
                .unwrap()
                .level,
        )
    }

    fn unsuitable_bottom_m(&self, station: f64) -> f64 {
        in_metres(
            self.ground
                .unsuitable_bottom(metres(station))
                .unwrap()
                .level,
        )
    }
}

/// Header edge and side extension.
const BEYOND_M: f64 = (8.0 + 6.0) * 0.0254;
const EDGE_M: f64 = 8.0 * 0.0254;

fn check(value: f64, expected: f64, tolerance: f64) -> Result<(), TestCaseError> {
    prop_assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not {expected} within {tolerance}"
    );
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// In one lift the base is the greater of the least base and what reaches the bottom of the sand: by its definition, not by the
    /// program's own thickness. Every volume against its own integral.
    #[test]
    fn volumes_are_the_integrals_of_their_heights(site in any_site_in_one_lift()) {
        let walk = Walk::of(site);
        let thickness = |station: f64, offset: f64| (walk.base_top_m(station, offset) - walk.unsuitable_bottom_m(station)).max(4.0 * 0.0254);
        let bottom = |station: f64, offset: f64| walk.base_top_m(station, offset) - thickness(station, offset);
        let earthwork = &walk.bed.earthwork;
        let base = in_cubic_metres(earthwork.base_compacted);
        check(base, walk.over_the_dig(thickness), base * 5e-5)?;
        let area = earthwork.dig_area.get::<square_meter>();
        check(area, walk.over_the_dig(|_, _| 1.0), area * 1e-12)?;

        let dug = earthwork.dig_bank.unwrap();
        let surface = |station: f64, offset: f64| walk.surface_m(station, offset);
        // Old brick of 2 in in every pit.
        let brick = 2.0 * 0.0254;
        let pavement = walk.over_the_paving(|s, d| (surface(s, d) - (surface(s, d) - brick).max(bottom(s, d))).max(0.0));
        check(in_cubic_metres(dug.old_pavement), pavement, base * 5e-5)?;
        let all = walk.over_the_dig(|s, d| (surface(s, d) - bottom(s, d)).max(0.0));
        check(in_cubic_metres(dug.old_pavement + dug.unsuitable + dug.trim), all, base * 5e-5)?;
        let trim = |top: f64, s: f64, d: f64| (top.min(walk.unsuitable_bottom_m(s)) - bottom(s, d)).max(0.0);
        // Beside the walk the ground starts at the surface, under it below the old brick.
        let under = walk.over_the_paving(|s, d| trim(surface(s, d) - brick, s, d));
        let left = walk.over(|half| (-half - BEYOND_M, -half - EDGE_M), |s, d| trim(surface(s, d), s, d));
        let right = walk.over(|half| (half + EDGE_M, half + BEYOND_M), |s, d| trim(surface(s, d), s, d));
        check(in_cubic_metres(dug.trim), left + under + right, base * 5e-5)?;
        let fill = walk.over_the_dig(|s, d| (bottom(s, d) - surface(s, d)).max(0.0));
        check(in_cubic_metres(earthwork.fill_below_dig), fill, base * 5e-5)?;
    }

    /// With several lifts the base has steps where the dig is trimmed: the numeric integral is less exact there.
    #[test]
    fn base_in_lifts_is_the_integral_of_its_thickness(site in any_site()) {
        let walk = Walk::of(site);
        let thickness = |station: f64, offset: f64| in_metres(walk.bed.dig.base_thickness(metres(station), metres(offset)));
        let base = in_cubic_metres(walk.bed.earthwork.base_compacted);
        check(base, walk.over_the_dig(thickness), base * 1e-2)?;
        // Never thinner than asked for, and never above the bottom of what must come out.
        let least = walk.over_the_dig(|s, d| {
            let needed = (walk.base_top_m(s, d) - walk.unsuitable_bottom_m(s)).max(4.0 * 0.0254);
            (needed - thickness(s, d)).max(0.0)
        });
        prop_assert!(least < 1e-9, "{least}");
    }

    #[test]
    fn lifts_add_up_to_the_base_and_keep_the_limits(site in any_site()) {
        let bed = bed_of(&site);
        let sum: f64 = bed.lifts.each.iter().map(|lift| in_cubic_metres(lift.compacted_volume)).sum();
        let base = in_cubic_metres(bed.earthwork.base_compacted);
        check(sum, base, base * 1e-9)?;
        for lift in &bed.lifts.each {
            prop_assert!(in_metres(lift.loose) <= in_metres(bed.lifts.loose_limit) + 1e-8);
            prop_assert!(!lift.runs.is_empty() && in_cubic_metres(lift.compacted_volume) > 0.0);
            for (from, to) in &lift.runs {
                prop_assert!(from < to);
            }
        }
    }

    /// The integral of (A − k M) ds, with section and first moment taken from the cross-sections as drawn.
    #[test]
    fn cross_sections_give_the_same_volume(site in any_site_in_one_lift()) {
        let walk = Walk::of(site);
        let breaks = breaks_m(&walk.site, &walk.line);
        let mut volume = 0.0;
        for (&from, &to) in breaks.iter().zip(breaks.iter().skip(1)).filter(|(from, to)| *to - *from > 1e-9) {
            let curvature = walk.line.run.curvature_per_m_at(metres((from + to) / 2.0));
            volume += integral(from, to, 16, |station| {
                let section = section_at(&walk.site, &walk.line, &walk.ground, &walk.bed, metres(station));
                let outlines = section.lifts.iter().flat_map(|lift| &lift.outlines);
                outlines.map(|outline| {
                    let spots: Vec<(f64, f64)> = outline.iter().map(|spot| (in_metres(spot.across), in_metres(spot.level))).collect();
                    let (area, moment) = area_and_moment(&spots);
                    area - curvature * moment
                }).sum()
            });
        }
        let base = in_cubic_metres(walk.bed.earthwork.base_compacted);
        check(base, volume, base * 5e-5)?;
    }

    /// Between two spots of the long section everything is straight: half way it is what the bed says there.
    #[test]
    fn the_long_section_is_straight_between_its_spots(site in any_site(), offset_m in -1.4..1.4_f64) {
        let walk = Walk::of(site);
        let along = along(&walk.line, &walk.ground, &walk.bed, metres(offset_m));
        let mut area = 0.0;
        for pair in along.spots.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            prop_assert!(from.station <= to.station);
            if in_metres(to.station - from.station) < 1e-7 {
                continue;
            }
            area += in_metres(to.station - from.station)
                * in_metres(from.base_top - from.dig_bottom + to.base_top - to.dig_bottom) / 2.0;
            let middle = (from.station + to.station) / 2.0;
            let thickness = walk.bed.dig.base_thickness(middle, metres(offset_m));
            check(in_metres((from.base_top + to.base_top - from.dig_bottom - to.dig_bottom) / 2.0), in_metres(thickness), 1e-8)?;
            let surface = (from.old_surface.unwrap().level + to.old_surface.unwrap().level) / 2.0;
            check(in_metres(surface), walk.surface_m(in_metres(middle), offset_m), 1e-8)?;
            let bottom = (from.unsuitable_bottom.unwrap().level + to.unsuitable_bottom.unwrap().level) / 2.0;
            check(in_metres(bottom), walk.unsuitable_bottom_m(in_metres(middle)), 1e-8)?;
        }
        let (first, last) = (along.spots.first().unwrap(), along.spots.last().unwrap());
        check(in_metres(first.station), 0.0, 1e-12)?;
        check(in_metres(last.station), in_metres(walk.line.run.length()), 1e-9)?;
        // The lifts fill the base, and their outlines run clockwise.
        let mut lifts = 0.0;
        for outline in along.lifts.iter().flat_map(|lift| &lift.outlines) {
            let spots: Vec<(f64, f64)> = outline.iter().map(|(station, level)| (in_metres(*station), in_metres(*level))).collect();
            let (part, _) = area_and_moment(&spots);
            prop_assert!(part > -1e-9);
            lifts += part;
        }
        check(lifts, area, 1e-7)?;
    }

    /// Row E7: seen from the other end the volumes are the same. A curve to the right is then one to the left.
    #[test]
    fn the_other_way_round_nothing_changes(
        (first, radius, turn) in (1.0..5.0_f64, 2.5..6.0_f64, 0.2..1.5_f64),
        pits in proptest::collection::vec((0.0..1.0_f64, 0.05..0.4_f64), 1..4),
        drops in (0.0..0.1_f64, 0.0..0.1_f64),
    ) {
        let length = first + radius * turn;
        let mut there = plain();
        there.line.legs = vec![straight(metres(first)), curve(radius, turn, Hand::Right)];
        there.line.shots = vec![shot(0.0, 0.0, drops.0), shot(length, 0.0, drops.1)];
        there.pits = pits.iter().map(|&(part, sand)| pit(part * length, inches(2.0), metres(sand))).collect();
        let mut back = there.clone();
        back.line.legs = vec![curve(radius, turn, Hand::Left), straight(metres(first))];
        back.line.shots = vec![shot(0.0, 0.0, drops.1), shot(length, 0.0, drops.0)];
        back.pits = pits.iter().map(|&(part, sand)| pit((1.0 - part) * length, inches(2.0), metres(sand))).collect();
        let (there, back) = (bed_of(&there).earthwork, bed_of(&back).earthwork);
        let (one, other) = (there.dig_bank.unwrap(), back.dig_bank.unwrap());
        let pairs = [
            (there.base_compacted, back.base_compacted),
            (there.fill_below_dig, back.fill_below_dig),
            (one.old_pavement, other.old_pavement),
            (one.unsuitable, other.unsuitable),
            (one.trim, other.trim),
            (one.spoil_loose, other.spoil_loose),
        ];
        for (one, other) in pairs {
            check(in_cubic_metres(one), in_cubic_metres(other), 1e-7)?;
        }
    }

    /// Deeper pits never need less base and never leave less to dig.
    #[test]
    fn deeper_never_needs_less(site in any_site_in_one_lift(), nth in 0_usize..4, deeper_m in 0.0..0.2_f64) {
        let shallow = bed_of(&site).earthwork;
        let mut deep = site;
        let idx = nth % deep.pits.len();
        let sand = deep.pits[idx].layers[1].thickness.unwrap();
        deep.pits[idx].layers[1].thickness = Some(sand + metres(deeper_m));
        let deep = bed_of(&deep).earthwork;
        let volume = in_cubic_metres;
        prop_assert!(volume(deep.base_compacted) >= volume(shallow.base_compacted) - 1e-9);
        let (more, less) = (deep.dig_bank.unwrap(), shallow.dig_bank.unwrap());
        prop_assert!(volume(more.old_pavement + more.unsuitable + more.trim) >= volume(less.old_pavement + less.unsuitable + less.trim) - 1e-9);
    }
}

/// A length as no one would write it, or as someone might.
fn any_length() -> impl Strategy<Value = Option<Length>> {
    let odd = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -3.0,
        1e-300,
        1e300,
        1e-9,
        274.32,
        0.05,
        0.1,
        0.3,
    ];
    proptest::option::of(proptest::sample::select(odd.to_vec()).prop_map(metres))
}

proptest! {
    /// Whatever is written in bed, brick and edge, there is an answer, and every number in it is finite.
    #[test]
    fn nonsense_is_answered(
        site in any_site(),
        bed in proptest::collection::vec(any_length(), 5),
        brick in proptest::collection::vec(any_length(), 4),
        edge in proptest::collection::vec(any_length(), 3),
        stands in 0_usize..5,
        (station, offset) in (any_length(), any_length()),
    ) {
        let mut site = site;
        site.bed.setting_bed = bed[0];
        site.bed.least_base = bed[1];
        site.bed.loose_lift = bed[2];
        site.bed.side_extension = bed[3];
        site.bed.undercut_limit = bed[4];
        site.brick = Brick { length: brick[0], width: brick[1], thickness: brick[2], joint: brick[3] };
        use EdgeStands::{Header, Rowlock, Sailor, Soldier, Stretcher};
        site.edge.stands = [Sailor, Soldier, Header, Stretcher, Rowlock][stands];
        site.edge.restraint = if stands < 3 {
            RestraintInput::Haunch { height: edge[0], width: edge[1], top_width: edge[2] }
        } else {
            RestraintInput::Spiked { spacing: edge[0] }
        };
        let results = computed(&site);
        let (Some(line), Some(ground), Some(bed)) = (results.line, results.ground, results.bed) else {
            prop_assert!(results.findings.stop_the_job());
            return Ok(());
        };
        let at = station.unwrap_or(metres(1.0));
        let section = section_at(&site, &line, &ground, &bed, at);
        // An offset that is not a number, or not finite, is the centreline; one far off stays where it is.
        let along = along(&line, &ground, &bed, offset.unwrap_or(metres(0.0)));
        let words = format!("{:?} {:?} {:?} {section:?} {along:?}", bed.lifts, bed.edge, bed.earthwork);
        prop_assert!(!words.contains("NaN") && !words.contains("inf"), "{words}");
        let sum: f64 = bed.lifts.each.iter().map(|lift| in_cubic_metres(lift.compacted_volume)).sum();
        prop_assert!(in_cubic_metres(bed.earthwork.base_compacted) <= sum + 1e-9);
    }
}

/// Area of an outline that runs clockwise, and its first moment about x = 0.
///
/// # Source
/// Shoelace formula.
fn area_and_moment(outline: &[(f64, f64)]) -> (f64, f64) {
    let mut sums = (0.0, 0.0);
    for (nth, &(x, y)) in outline.iter().enumerate() {
        let (next_x, next_y) = outline[(nth + 1) % outline.len()];
        let cross = next_x * y - x * next_y;
        sums.0 += cross / 2.0;
        sums.1 += cross * (x + next_x) / 6.0;
    }
    sums
}
