//! What every drawing must keep, tried on sections made by hand.

use crate::clearance::faults;
use crate::cross_section;
use crate::examples::{curved_run, empty_site, sunk_walk};
use crate::item::{Dash, Drawing, Item, Point, Sheet};
use crate::long_section;
use crate::palette::{Ink, Theme};
use crate::svg;
use underbrick_calc::Results;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, inches};
use underbrick_calc::site::ShownIn;

/// The sheets that a drawing must stay good on, each with its text size setting.
fn sheets() -> Vec<Sheet> {
    let mut sheets = Vec::new();
    for (width, height) in [
        (360.0, 260.0),
        (480.0, 300.0),
        (620.0, 400.0),
        (776.0, 360.0),
        (900.0, 560.0),
        (1280.0, 500.0),
        (1600.0, 900.0),
    ] {
        for text_scale in [0.85, 1.0, 1.25, 1.6] {
            sheets.push(Sheet {
                width,
                height,
                text_scale,
            });
        }
    }
    sheets
}

#[track_caller]
fn check_clear(drawing: &Drawing, what: &str) {
    let faults = faults(drawing);
    assert!(
        faults.is_empty(),
        "{what} on {:?}:\n{}",
        drawing.sheet,
        faults.join("\n")
    );
}

#[test]
fn no_label_touches_another_or_a_line_on_any_sheet() {
    for shown_in in [ShownIn::FeetInches, ShownIn::Metric] {
        for sheet in sheets() {
            let mut example = sunk_walk(shown_in);
            check_clear(&cross_section::draw(&example.cut(), sheet), "cross-section");
            example.pit = None;
            example.section.unsuitable_bottom = None;
            check_clear(
                &cross_section::draw(&example.cut(), sheet),
                "cross-section without a pit",
            );
            for n_pits in 0..=2 {
                let mut run = curved_run(shown_in, n_pits);
                for marker in [0.0, 37.0, 150.0, 301.5, 456.0] {
                    run.marker = inches(marker);
                    check_clear(
                        &long_section::draw(&run.walk(), sheet).drawing,
                        "long section",
                    );
                    let on_paper = long_section::draw_on_paper(&run.walk(), sheet);
                    check_clear(&on_paper, "long section on paper");
                }
            }
        }
    }
}

#[test]
fn every_drawing_is_read_by_a_parser() {
    for sheet in sheets() {
        for theme in [Theme::Sun, Theme::Dim] {
            let cross = cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet);
            let long = long_section::draw(&curved_run(ShownIn::Metric, 2).walk(), sheet).drawing;
            for drawing in [cross, long] {
                let svg = svg::write(&drawing, theme);
                assert_eq!(svg, svg::write(&drawing, theme));
                let tree = usvg::Tree::from_str(&svg, &usvg::Options::default()).unwrap();
                assert!((f64::from(tree.size().width()) - sheet.width).abs() < 0.01);
                assert!(!svg.contains("NaN") && !svg.contains("inf"));
            }
        }
    }
}

/// Whether there is a round handle of 44 dots: the discs at the ends of leaders are smaller.
fn has_handle(drawing: &Drawing) -> bool {
    drawing.items.iter().any(|item| match item {
        Item::Area {
            outline,
            fill: Ink::Line,
            ..
        } if outline.len() > 8 => {
            let dots = outline
                .iter()
                .map(|corner| corner.x * drawing.dots_per_metre);
            let (least, most) = dots.fold((f64::MAX, f64::MIN), |(least, most), x| {
                (least.min(x), most.max(x))
            });
            (most - least - 44.0).abs() < 1.0
        }
        _ => false,
    })
}

#[test]
fn the_handle_of_a_finger_is_not_on_paper() {
    for sheet in sheets() {
        let run = curved_run(ShownIn::FeetInches, 2);
        let on_screen = long_section::draw(&run.walk(), sheet).drawing;
        let on_paper = long_section::draw_on_paper(&run.walk(), sheet);
        assert!(has_handle(&on_screen) && !has_handle(&on_paper));
        let flag = run.walk().site.shown_in.along(run.walk().marker);
        assert!(labels(&on_paper).contains(&flag), "the station is said");
    }
}

#[test]
fn heights_are_enlarged_twenty_times_at_most() {
    for (height, most) in [(900.0, 20.0), (20_000.0, 20.0)] {
        let sheet = Sheet {
            width: 900.0,
            height,
            text_scale: 1.0,
        };
        let drawing = long_section::draw(&curved_run(ShownIn::FeetInches, 0).walk(), sheet).drawing;
        assert!(drawing.heights_times <= most, "{}", drawing.heights_times);
        assert!(height < 1000.0 || drawing.heights_times == most);
    }
}

/// Ends of every line in a drawing, in dots.
fn strokes(drawing: &Drawing) -> Vec<((f64, f64), (f64, f64))> {
    let lines = drawing.items.iter().filter_map(|item| match item {
        Item::Line { points, .. } => Some(points),
        Item::Area { .. } | Item::Hatch { .. } | Item::Label { .. } => None,
    });
    let pairs = lines.flat_map(|points| points.windows(2));
    pairs
        .map(|pair| {
            (
                drawing.sheet_from_drawing(pair[0]),
                drawing.sheet_from_drawing(pair[1]),
            )
        })
        .collect()
}

fn labels(drawing: &Drawing) -> Vec<String> {
    let written = drawing.items.iter().filter_map(|item| match item {
        Item::Label { text, .. } => Some(text.written.clone()),
        Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
    });
    written.collect()
}

#[test]
fn a_foot_of_the_bar_is_a_foot_of_the_section() {
    // The clear width of 32 5/8 in against a bar of 1 ft in four parts: the bar's black parts are areas of ink.
    let sheet = Sheet {
        width: 776.0,
        height: 380.0,
        text_scale: 1.0,
    };
    let drawing = cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet);
    assert!(labels(&drawing).contains(&"1 ft".to_owned()));
    let parts = drawing.items.iter().filter_map(|item| match item {
        Item::Area {
            outline,
            fill: Ink::Ink,
            pen: Some(_),
            ..
        } if outline.len() == 4 => Some(outline),
        _ => None,
    });
    let part_dots = parts
        .map(|outline| (outline[1].x - outline[0].x) * drawing.dots_per_metre)
        .next()
        .unwrap();
    // In the SVG itself: dots between the inner faces of the edge brick, 2 x 16 5/16 in apart.
    let svg = svg::write(&drawing, Theme::Sun);
    let clear_dots = 4.0 * part_dots * 32.625 / 12.0;
    let chain = strokes(&drawing).into_iter().any(|(from, to)| {
        // The dimension line runs 6 dots past its stops at each end.
        from.1 == to.1 && ((to.0 - from.0).abs() - 12.0 - clear_dots).abs() < 1e-6
    });
    assert!(chain, "no dimension line of {clear_dots} dots");
    assert!(svg.contains("<title>Cross-section at 12'-6"));
}

#[test]
fn dimensions_say_what_the_writer_of_lengths_writes() {
    use underbrick_calc::measure::written::{LengthStyle, Nearest, write_length};
    let sheet = Sheet {
        width: 1280.0,
        height: 700.0,
        text_scale: 1.0,
    };
    for (shown_in, style) in [
        (
            ShownIn::FeetInches,
            LengthStyle::FeetInches(Nearest::Sixteenth),
        ),
        (ShownIn::Metric, LengthStyle::Millimetres),
    ] {
        let drawing = cross_section::draw(&sunk_walk(shown_in).cut(), sheet);
        let labels = labels(&drawing);
        // 3 in of brick and bed, 8 5/16 in of base, 11 5/16 in deep, 6 in past the edge.
        for inches_long in [3.0, 8.3125, 11.3125, 6.0] {
            let written = write_length(inches(inches_long), style);
            assert!(labels.contains(&written), "{written} not in {labels:?}");
        }
        // 2 x 16 5/16 in clear, 2 x 18 9/16 in over the edge brick, 2 x 24 9/16 in of dig.
        for (inches_long, what) in [
            (32.625, "clear, 8 bricks"),
            (37.125, "over the edge brick"),
            (49.125, "wide dig"),
        ] {
            let written = format!("{} {what}", write_length(inches(inches_long), style));
            assert!(labels.contains(&written), "{written} not in {labels:?}");
        }
    }
}

#[test]
fn the_marker_stands_where_the_finger_is() {
    for sheet in sheets() {
        let mut run = curved_run(ShownIn::FeetInches, 2);
        for marker in [0.0, 100.0, 456.0] {
            run.marker = inches(marker);
            let long = long_section::draw(&run.walk(), sheet);
            let (x, _) = long.drawing.sheet_from_drawing(Point {
                x: in_metres(inches(marker)),
                y: 0.0,
            });
            let back = long.station_at(x).unwrap();
            assert!((in_metres(back) - in_metres(inches(marker))).abs() < 1e-9);
            assert!(
                x - 20.0 >= 0.0 && x + 20.0 <= sheet.width,
                "the handle is 40 dots wide"
            );
        }
        let long = long_section::draw(&run.walk(), sheet);
        assert_eq!(long.station_at(-50.0), Some(Length::default()));
        assert!(
            (in_metres(long.station_at(1e6).unwrap()) - in_metres(inches(456.0))).abs() < 1e-12
        );
        assert_eq!(long.station_at(f64::NAN), None);
    }
}

#[test]
fn heights_are_enlarged_by_what_is_said() {
    let sheet = Sheet {
        width: 776.0,
        height: 360.0,
        text_scale: 1.0,
    };
    let drawing = long_section::draw(&curved_run(ShownIn::FeetInches, 2).walk(), sheet).drawing;
    let said = labels(&drawing)
        .into_iter()
        .find(|written| written.starts_with("heights"))
        .unwrap();
    assert!(
        said.starts_with(&format!("heights × {}", drawing.heights_times)),
        "{said}"
    );
    // The grade line falls 9 1/2 in over 38 ft: on paper it is as many times as steep as is said.
    let grade = drawing.items.iter().find_map(|item| match item {
        Item::Line {
            points,
            place: Some(Place::GradeLine),
            pen,
        } if pen.width > 2.0 => Some(points.clone()),
        _ => None,
    });
    let (from, to) = (
        grade.as_ref().unwrap()[0],
        *grade.as_ref().unwrap().last().unwrap(),
    );
    let steepness = (from.y - to.y) / (to.x - from.x);
    assert!((steepness - drawing.heights_times * 9.5 / 456.0).abs() < 1e-9);
}

#[test]
fn what_is_missing_is_said_and_never_drawn_as_zero() {
    let site = empty_site(ShownIn::FeetInches);
    for sheet in sheets() {
        let cross = cross_section::cross_section(
            &site,
            &Catalogue::default(),
            &Results::default(),
            inches(0.0),
            sheet,
        );
        let long = long_section::long_section(
            &site,
            &Catalogue::default(),
            &Results::default(),
            inches(0.0),
            sheet,
        );
        assert_eq!(long.run_length, None);
        assert_eq!(long.station_at(100.0), None);
        for drawing in [&cross, &long.drawing] {
            check_clear(drawing, "missing");
            assert!(
                drawing.words.contains("the clear width is not measured"),
                "{}",
                drawing.words
            );
            let labels = labels(drawing);
            assert!(labels.join(" ").contains("not known yet"), "{labels:?}");
            assert!(
                !labels.iter().any(|written| written.contains('0')),
                "{labels:?}"
            );
        }
    }
    let sheet = Sheet {
        width: 900.0,
        height: 500.0,
        text_scale: 1.0,
    };
    let drawing = long_section::draw(&curved_run(ShownIn::FeetInches, 0).walk(), sheet).drawing;
    assert!(labels(&drawing).contains(&"no pit: depth not known".to_owned()));
    let is_dashed = |item: &Item| matches!(item, Item::Line { pen, place: Some(Place::DigBottom), .. } if pen.dash == Dash::Dashed);
    assert!(drawing.items.iter().any(is_dashed));
}

#[test]
fn no_figure_of_a_dimension_or_a_callout_is_left_out_of_the_words() {
    let sheet = Sheet {
        width: 1600.0,
        height: 900.0,
        text_scale: 1.0,
    };
    let drawing = cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet);
    for written in labels(&drawing) {
        // The lengths in a label: what stands between its words and commas.
        for part in written.split(|letter: char| letter.is_alphabetic() || letter == ',') {
            let length = part.trim();
            if length.ends_with('"') {
                assert!(
                    drawing.words.contains(length),
                    "{length} of “{written}” is not in:\n{}",
                    drawing.words
                );
            }
        }
    }
}

#[test]
fn no_sheet_is_too_strange_to_draw_on() {
    let odd = [0.0, 1.0, -5.0, 60.0, 1e9, f64::NAN, f64::INFINITY];
    for width in odd {
        for height in odd {
            for text_scale in [0.0, 1.6, 1e9, f64::NAN] {
                let sheet = Sheet {
                    width,
                    height,
                    text_scale,
                }
                .usable();
                let cross = cross_section::draw(&sunk_walk(ShownIn::FeetInches).cut(), sheet);
                let long = long_section::draw(&curved_run(ShownIn::Metric, 2).walk(), sheet);
                for drawing in [cross, long.drawing] {
                    assert!(drawing.dots_per_metre.is_finite() && drawing.dots_per_metre > 0.0);
                    assert!(!svg::write(&drawing, Theme::Sun).contains("NaN"));
                }
            }
        }
    }
}
