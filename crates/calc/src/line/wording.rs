//! Levels and falls in sentences.

use crate::measure::slope::{Fall, SlopeStyle, write_fall};
use crate::quantity::{Length, in_metres, metres};
use crate::site::ShownIn;

/// A level as seen from the sill: "3" below the sill", "2" above the sill", "level with the sill".
pub(super) fn from_sill(level: Length, shown_in: ShownIn) -> String {
    if is_level_with_sill(level) {
        "level with the sill".to_owned()
    } else if level < metres(0.0) {
        format!("{} below the sill", shown_in.length(metres(0.0) - level))
    } else {
        format!("{} above the sill", shown_in.length(level))
    }
}

/// Whether no tape tells a level from the sill's: a hundredth of a millimetre.
pub(super) fn is_level_with_sill(level: Length) -> bool {
    in_metres(level).abs() < 1e-5
}

/// A fall as the site shows it, and the other way too: "1/4 in/ft (2.08 %)".
pub(super) fn both_ways(fall: Fall, shown_in: ShownIn) -> String {
    match shown_in {
        ShownIn::FeetInches => format!(
            "{} ({})",
            shown_in.fall(fall),
            write_fall(fall, SlopeStyle::Percent)
        ),
        ShownIn::Metric => shown_in.fall(fall),
    }
}

/// A running slope as ramps are spoken of, up or down, with its percent, which tells it from a limit that is only just passed.
pub(super) fn one_in(fall: Fall) -> String {
    let size = size(fall);
    format!(
        "{} ({})",
        write_fall(size, SlopeStyle::OneIn),
        write_fall(size, SlopeStyle::Percent)
    )
}

/// A fall without its direction.
pub(super) fn size(fall: Fall) -> Fall {
    Fall::from_ratio(fall.ratio().abs()).unwrap_or(fall)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::inches;

    #[test]
    fn levels_and_falls_read_as_spoken() {
        assert_eq!(
            from_sill(inches(-7.5), ShownIn::FeetInches),
            "7 1/2\" below the sill"
        );
        assert_eq!(
            from_sill(inches(2.0), ShownIn::Metric),
            "51 mm above the sill"
        );
        assert_eq!(
            from_sill(metres(-0.0), ShownIn::FeetInches),
            "level with the sill"
        );
        assert_eq!(
            both_ways(Fall::inches_per_foot(0.25), ShownIn::FeetInches),
            "1/4 in/ft (2.08 %)"
        );
        assert_eq!(both_ways(Fall::percent(2.0), ShownIn::Metric), "2 %");
        assert_eq!(one_in(Fall::percent(-5.01)), "1:20 (5.01 %)");
    }
}
