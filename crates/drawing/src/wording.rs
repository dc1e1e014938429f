//! Lengths and names as the drawings write them.

use underbrick_calc::measure::slope::{Fall, SlopeStyle, write_fall};
use underbrick_calc::quantity::{Length, in_metres};
use underbrick_calc::site::{EdgeStands, ShownIn};

/// How far something stands below a reference: `3 1/8" below`, `2" above` or `level with`.
pub(crate) fn below(drop: Length, shown_in: ShownIn) -> String {
    let written = shown_in.length(abs(drop));
    if written == shown_in.length(Length::default()) {
        "level with".to_owned()
    } else if in_metres(drop) > 0.0 {
        format!("{written} below")
    } else {
        format!("{written} above")
    }
}

/// The size of a length without its sign.
pub(crate) fn abs(value: Length) -> Length {
    if in_metres(value) < 0.0 {
        -value
    } else {
        value
    }
}

/// What the trade calls an edge brick that stands so.
pub(crate) const fn edge_name(stands: EdgeStands) -> &'static str {
    match stands {
        EdgeStands::Sailor => "sailor edge",
        EdgeStands::Soldier => "soldier edge",
        EdgeStands::Header => "header edge",
        EdgeStands::Stretcher => "stretcher edge",
        EdgeStands::Rowlock => "rowlock edge",
    }
}

/// One thing, or so many of them: "1 lift", "4 lifts".
pub(crate) fn counted(count: usize, one: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {one}s")
    }
}

/// How a line falls along the run: `falls 1/4 in/ft` or `falls 2.08 %`.
pub(crate) fn fall(fall: Fall, shown_in: ShownIn) -> String {
    let style = match shown_in {
        ShownIn::FeetInches => SlopeStyle::InchesPerFoot,
        ShownIn::Metric => SlopeStyle::Percent,
    };
    let verb = if fall.ratio() < 0.0 { "rises" } else { "falls" };
    let size = Fall::from_ratio(fall.ratio().abs()).unwrap_or_default();
    format!("{verb} {}", write_fall(size, style))
}
