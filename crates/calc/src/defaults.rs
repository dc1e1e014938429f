//! What is taken where nothing was written down. Each may be changed to the local code; each says where it comes from.

use crate::measure::slope::Fall;
use crate::quantity::{Length, feet, inches, metres};
use crate::site::ShownIn;

/// Fall along the run, away from the house: 1/4 in per ft.
///
/// # Source
/// The least that the Brick Industry Association's Technical Note 14A asks of a brick pavement.
#[must_use]
pub const fn fall() -> Fall {
    Fall::inches_per_foot(0.25)
}

/// Fall across the run: none.
///
/// # Source
/// Common practice, no source: where the walk falls along, it is laid level across.
#[must_use]
pub const fn cross_fall() -> Fall {
    Fall::inches_per_foot(0.0)
}

/// Drop from the sill's underside to the top of the first brick: none.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn first_brick_below_sill() -> Length {
    inches(0.0)
}

/// Setting bed, compacted: 3/4 in.
///
/// # Source
/// Least of the range 3/4 to 1 in after compaction in the Brick Industry Association's Technical Note 14A.
#[must_use]
pub fn setting_bed() -> Length {
    inches(0.75)
}

/// Least base, compacted: 4 in.
///
/// # Source
/// Least base for walks and patios in the Interlocking Concrete Pavement Institute's construction tolerances and recommendations.
#[must_use]
pub fn least_base() -> Length {
    inches(4.0)
}

/// Largest loose thickness of one lift: 3 in.
///
/// # Source
/// Common practice, no source: a light plate compactor reaches no deeper.
#[must_use]
pub fn loose_lift() -> Length {
    inches(3.0)
}

/// Dig past the outer face of the edge brick, each side: 6 in.
///
/// # Source
/// Least in the Interlocking Concrete Pavement Institute's construction tolerances and recommendations, which ask for the base
/// thickness where that is more.
#[must_use]
pub fn side_extension() -> Length {
    inches(6.0)
}

/// Longest side of the brick: 8 in.
///
/// # Source
/// Common size of clay paving brick, Brick Industry Association, Technical Note 29, table 1.
#[must_use]
pub fn brick_length() -> Length {
    inches(8.0)
}

/// Middle side of the brick: 4 in.
///
/// # Source
/// As [`brick_length`].
#[must_use]
pub fn brick_width() -> Length {
    inches(4.0)
}

/// Shortest side of the brick: 2 1/4 in.
///
/// # Source
/// As [`brick_length`].
#[must_use]
pub fn brick_thickness() -> Length {
    inches(2.25)
}

/// Joint between bricks: 1/8 in.
///
/// # Source
/// Middle of the range 1/16 to 3/16 in for joints filled with sand, Brick Industry Association, Technical Note 14A.
#[must_use]
pub fn joint() -> Length {
    inches(0.125)
}

/// Narrowest joint: 1/16 in.
///
/// # Source
/// Least of the range 1/16 to 3/16 in for joints filled with sand, Brick Industry Association, Technical Note 14A.
#[must_use]
pub fn least_joint() -> Length {
    inches(1.0 / 16.0)
}

/// Widest joint: 3/16 in.
///
/// # Source
/// Most of the same range.
#[must_use]
pub fn widest_joint() -> Length {
    inches(3.0 / 16.0)
}

/// Width that a masonry saw takes away: 1/8 in.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn kerf() -> Length {
    inches(0.125)
}

/// How far the width over the edges may be off the wish: 1/2 in.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn width_tolerance() -> Length {
    inches(0.5)
}

/// Height of the concrete haunch up the edge brick: 4 in.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn haunch_height() -> Length {
    inches(4.0)
}

/// Width of the haunch at its bottom: 4 in.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn haunch_width() -> Length {
    inches(4.0)
}

/// Width of the haunch at its top: none, so that it is a triangle.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn haunch_top_width() -> Length {
    inches(0.0)
}

/// From spike to spike of an edging strip: 12 in.
///
/// # Source
/// Common practice, no source; the maker's own figure goes before it.
#[must_use]
pub fn spike_spacing() -> Length {
    inches(12.0)
}

/// From stake to stake: 10 ft, or 3 m where lengths are metric.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn stake_spacing(shown_in: ShownIn) -> Length {
    match shown_in {
        ShownIn::FeetInches => feet(10.0),
        ShownIn::Metric => metres(3.0),
    }
}

/// How far the working string hangs above the grade line: it is stretched on it.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn string_above_grade() -> Length {
    inches(0.0)
}

/// How far the brick stands proud on the screeded bed, until the plate takes it down: 1/8 in.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn proud() -> Length {
    inches(0.125)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::in_metres;

    #[test]
    fn brick_on_its_bed_puts_the_base_top_three_inches_down() {
        // Common practice, no source: 2 1/4 in brick + 3/4 in bed = 3 in.
        assert!((in_metres(brick_thickness() + setting_bed()) - 3.0 * 0.0254).abs() < 1e-15);
    }

    #[test]
    fn the_fall_makes_three_inches_over_twelve_feet() {
        // Row B28 (Beall, Masonry and Concrete, 2004, p. 299): 1/4 in per ft -> 3 in over 12 ft.
        let drop_in = fall().ratio() * 12.0 * 12.0;
        assert!((drop_in - 3.0).abs() < 1e-12);
    }

    #[test]
    fn published_defaults_lie_in_their_published_range() {
        // Rows P1, P4, P5, P13 of the published construction figures; B24 for the brick: 8 x 4 in, 2 1/4 in (57 mm) high.
        let check = |value: Length, least_in: f64, most_in: f64| {
            let value_in = in_metres(value) / 0.0254;
            assert!(
                value_in >= least_in - 1e-12 && value_in <= most_in + 1e-12,
                "{value_in} in"
            );
        };
        check(least_base(), 4.0, 4.0);
        check(joint(), 1.0 / 16.0, 3.0 / 16.0);
        check(setting_bed(), 0.75, 1.0);
        check(side_extension(), 6.0, 6.0);
        check(brick_length(), 8.0, 8.0);
        check(brick_width(), 4.0, 4.0);
        check(brick_thickness(), 2.25, 2.25);
    }
}
