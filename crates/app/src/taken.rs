//! An offer, taken: written down as a mason would, rounded to the safe side of its rule.

use underbrick_calc::lay::fine;
use underbrick_calc::line::Taking;
use underbrick_calc::measure::slope::{Fall, SlopeStyle, write_fall};
use underbrick_calc::measure::written::{
    LengthStyle, Nearest, read_length_with_unit, write_length,
};
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site;
use underbrick_records::SiteFile;
use underbrick_records::v1::{FarEnd, GradeShape, ShownIn};

use crate::edit::ShapeKind;

/// Which shape it is.
pub(crate) const fn kind_of(shape: &GradeShape) -> ShapeKind {
    match shape {
        GradeShape::Uniform => ShapeKind::Uniform,
        GradeShape::Steps { .. } => ShapeKind::Steps,
        GradeShape::Break { .. } => ShapeKind::Break,
        GradeShape::Ramp => ShapeKind::Ramp,
    }
}

/// A shape of which nothing is measured yet.
pub(crate) const fn new_shape(kind: ShapeKind) -> GradeShape {
    match kind {
        ShapeKind::Uniform => GradeShape::Uniform,
        ShapeKind::Steps => GradeShape::Steps {
            n_risers: 2,
            first_at: String::new(),
            tread: String::new(),
        },
        ShapeKind::Break => GradeShape::Break {
            at: String::new(),
            below_sill: String::new(),
        },
        ShapeKind::Ramp => GradeShape::Ramp,
    }
}

/// Writes an offer into the record.
pub(crate) fn write_down(record: &mut SiteFile, taking: &Taking) {
    let shown_in = record.shown_in;
    match taking {
        Taking::FarEndBelowSill(drop) => {
            // A far end that goes down goes no less, one that goes up no less either.
            let now = match &record.line.far_end {
                FarEnd::Fixed { below_sill } => read_length_with_unit(below_sill).ok(),
                FarEnd::Free => None,
            };
            let rounded = if now.is_some_and(|now| *drop < now) {
                -deeper(-*drop, shown_in)
            } else {
                deeper(*drop, shown_in)
            };
            record.line.far_end = FarEnd::Fixed {
                below_sill: small(rounded, shown_in),
            };
        }
        Taking::CrossFall(fall) => record.line.cross_fall = one_in(*fall),
        Taking::Fall(fall) => record.line.fall = site::ShownIn::from(shown_in).fall(*fall),
        Taking::Shape(shape) => {
            record.line.shape = match shape {
                site::GradeShape::Uniform => GradeShape::Uniform,
                site::GradeShape::Ramp => GradeShape::Ramp,
                site::GradeShape::Steps {
                    n_risers,
                    first_at,
                    tread,
                } => GradeShape::Steps {
                    n_risers: *n_risers,
                    first_at: first_at
                        .map(|at| along(nearer(at, shown_in), shown_in))
                        .unwrap_or_default(),
                    tread: tread
                        .map(|tread| small(tread, shown_in))
                        .unwrap_or_default(),
                },
                site::GradeShape::Break { at, below_sill } => GradeShape::Break {
                    at: at
                        .map(|at| along(nearer(at, shown_in), shown_in))
                        .unwrap_or_default(),
                    below_sill: below_sill
                        .map(|drop| small(deeper(drop, shown_in), shown_in))
                        .unwrap_or_default(),
                },
            };
        }
    }
}

/// Writes down a width that whole courses give, with its joint and its edge brick.
pub(crate) fn write_width(
    record: &mut SiteFile,
    clear: Length,
    joint: Length,
    stands: site::EdgeStands,
) {
    let shown_in = site::ShownIn::from(record.shown_in);
    let text = |length: Length| fine(length, shown_in).replace('"', " in");
    record.line.width = text(clear);
    record.brick.joint = text(joint);
    record.edge.stands = stands.into();
}

/// The next sixteenth or millimetre down: a fall that is taken never ends up flatter than it was offered.
fn deeper(drop: Length, shown_in: ShownIn) -> Length {
    let step_m = match shown_in {
        ShownIn::FeetInches => 0.0254 / 16.0,
        ShownIn::Metric => 0.001,
    };
    metres((in_metres(drop) / step_m - 1e-6).ceil() * step_m)
}

/// The whole inch or centimetre nearer to the door.
fn nearer(station: Length, shown_in: ShownIn) -> Length {
    let step_m = match shown_in {
        ShownIn::FeetInches => 0.0254,
        ShownIn::Metric => 0.01,
    };
    metres((in_metres(station) / step_m + 1e-6).floor() * step_m)
}

fn small(length: Length, shown_in: ShownIn) -> String {
    match shown_in {
        ShownIn::FeetInches => {
            write_length(length, LengthStyle::Inches(Nearest::Sixteenth)).replace('"', " in")
        }
        ShownIn::Metric => write_length(length, LengthStyle::Millimetres),
    }
}

fn along(length: Length, shown_in: ShownIn) -> String {
    match shown_in {
        ShownIn::FeetInches => write_length(length, LengthStyle::FeetInches(Nearest::Sixteenth)),
        ShownIn::Metric => write_length(length, LengthStyle::Metres),
    }
}

/// As 1:n, which says 1/48 exactly where percent does not.
fn one_in(fall: Fall) -> String {
    let size = Fall::from_ratio(fall.ratio().abs()).unwrap_or(fall);
    let sign = if fall.ratio() < 0.0 { "-" } else { "" };
    format!("{sign}{}", write_fall(size, SlopeStyle::OneIn))
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::measure::slope::read_fall;
    use underbrick_calc::quantity::inches;

    #[test]
    fn what_is_written_down_is_no_flatter_than_what_was_offered() {
        for sixteenths in [40.2, 40.0, 0.3, 151.999] {
            let drop = inches(sixteenths / 16.0);
            for shown_in in [ShownIn::FeetInches, ShownIn::Metric] {
                let written =
                    read_length_with_unit(&small(deeper(drop, shown_in), shown_in)).unwrap();
                let more_m = in_metres(written - drop);
                assert!((-1e-8..0.0016).contains(&more_m), "{sixteenths}: {more_m}");
            }
        }
    }

    #[test]
    fn a_far_end_that_is_raised_is_raised_enough() {
        let mut record = SiteFile::new("1 Invented Close", "");
        record.line.far_end = FarEnd::Fixed {
            below_sill: "44 in".to_owned(),
        };
        write_down(&mut record, &Taking::FarEndBelowSill(inches(22.87)));
        // 22.87 in is 22 13.92/16 in: 22 13/16 in is the next sixteenth up.
        assert_eq!(
            record.line.far_end,
            FarEnd::Fixed {
                below_sill: "22 13/16 in".to_owned()
            }
        );
        write_down(&mut record, &Taking::FarEndBelowSill(inches(30.01)));
        assert_eq!(
            record.line.far_end,
            FarEnd::Fixed {
                below_sill: "30 1/16 in".to_owned()
            }
        );
    }

    #[test]
    fn a_cross_fall_is_read_back_exactly() {
        for ratio in [1.0 / 48.0, -1.0 / 48.0] {
            let fall = Fall::from_ratio(ratio).unwrap();
            assert_eq!(read_fall(&one_in(fall)).unwrap(), fall);
        }
    }
}
