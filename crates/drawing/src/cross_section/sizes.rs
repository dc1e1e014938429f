//! The dimensions of a cross-section and its bar scale.

use super::Cut;
use super::frame::{Frame, MARGIN};
use crate::dimension::{self, Dimension, Upright, bar_scale, level_chain, upright_chain};
use crate::draft::{Draft, Lettering, Sizes, width_of};
use crate::item::{Anchor, Point};
use crate::palette::Ink;
use crate::text::Text;
use crate::wording;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{feet, in_metres, inches, metres, millimetres};
use underbrick_calc::site::ShownIn;

/// From the ground to the first chain beside it, and between two upright chains, in dots.
const TO_CHAIN: f64 = 16.0;

/// Height that the level chains and the bar scale take, in dots.
pub(super) fn level_room(sizes: Sizes, chains: usize) -> f64 {
    let chains = f64::from(u8::try_from(chains).unwrap_or(3));
    chains * chain_height(sizes) + if chains > 0.0 { 8.0 } else { 0.0 } + bar_height(sizes) + 12.0
}

fn chain_height(sizes: Sizes) -> f64 {
    1.18 * sizes.label + 9.0
}

pub(super) fn bar_height(sizes: Sizes) -> f64 {
    14.0 + 1.25 * sizes.tick
}

/// Width that the upright chains take at the right of the ground, in dots.
pub(super) fn upright_room(cut: &Cut<'_>, sizes: Sizes, chains: usize) -> f64 {
    let mut room = 0.0;
    if chains >= 1 {
        let lines: Vec<Vec<String>> = parts(cut).into_iter().map(|part| part.lines).collect();
        room += TO_CHAIN + dimension::upright_width(&lines, sizes);
    }
    if chains >= 2 {
        room += TO_CHAIN + dimension::upright_width(&[whole(cut).lines], sizes);
    }
    room
}

/// Brick with bed, and base.
fn parts(cut: &Cut<'_>) -> Vec<Upright> {
    let shown_in = cut.site.shown_in;
    let base_top = metres(cut.grade_at(0.0) - cut.base_top_at(0.0));
    let base = metres(cut.base_top_at(0.0) - cut.dig_bottom_at(0.0));
    let lifts = cut.section.lifts.len();
    let mut parts = vec![Upright {
        lines: vec![shown_in.length(base_top), "brick, bed".to_owned()],
        place: Some(Place::SettingBed),
    }];
    if in_metres(base) > 1e-6 {
        let lines = vec![
            shown_in.length(base),
            format!("in {}", wording::counted(lifts, "lift")),
        ];
        parts.push(Upright {
            lines,
            place: Some(Place::LeastBase),
        });
    }
    parts
}

/// Everything below the grade line.
fn whole(cut: &Cut<'_>) -> Upright {
    let depth = metres(cut.grade_at(0.0) - cut.dig_bottom_at(0.0));
    Upright {
        lines: vec![cut.site.shown_in.length(depth), "deep".to_owned()],
        place: Some(Place::DigBottom),
    }
}

/// Draws them all.
pub(super) fn draw(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    upright(draft, cut, frame);
    level(draft, cut, frame);
    scale_bar(draft, cut, frame);
}

fn upright(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let height = |level: f64, draft: &Draft| draft.dots(Point { x: 0.0, y: level }).1;
    let grade = height(cut.grade_at(0.0), draft);
    let base_top = height(cut.base_top_at(0.0), draft);
    let bottom = height(cut.dig_bottom_at(0.0), draft);
    let parts = parts(cut);
    let mut x = frame.right + TO_CHAIN;
    if frame.detail.upright_chains >= 1 {
        let stops = if parts.len() > 1 {
            vec![grade, base_top, bottom]
        } else {
            vec![grade, base_top]
        };
        // Texts stay clear of the extension lines of the chain beside them.
        let limits = (grade + 3.0, bottom.max(base_top) - 3.0);
        upright_chain(draft, &stops, &parts, x, frame.right + 6.0, limits);
        let lines: Vec<Vec<String>> = parts.into_iter().map(|part| part.lines).collect();
        x += dimension::upright_width(&lines, sizes) + TO_CHAIN;
    }
    if frame.detail.upright_chains >= 2 {
        upright_chain(
            draft,
            &[grade, bottom],
            &[whole(cut)],
            x,
            frame.right + TO_CHAIN + 6.0,
            (grade, bottom),
        );
    }
}

fn level(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let shown_in = cut.site.shown_in;
    let x = |across: f64, draft: &Draft| draft.dots(Point { x: across, y: 0.0 }).0;
    let (inner_left, inner_right) = cut.inner_faces();
    let (outer_left, outer_right) = cut.outer_faces();
    let (dig_left, dig_right) = cut.dig_sides();
    let limits = (MARGIN, draft.sheet().width - MARGIN);
    let mut y = frame.bottom + 8.0;
    let mut from = frame.bottom + 4.0;
    if frame.detail.level_chains >= 1 {
        y += chain_height(sizes);
        let clear = shown_in.length(cut.section.clear_width);
        let courses = cut.section.bricks.len();
        let ways = vec![
            format!("{clear} clear, {}", wording::counted(courses, "brick")),
            format!("{clear} clear"),
            clear,
        ];
        let stops = [x(inner_left, draft), x(inner_right, draft)];
        level_chain(
            draft,
            &stops,
            &[Dimension {
                ways,
                place: Some(Place::Width),
            }],
            y,
            from,
            limits,
        );
    }
    if frame.detail.level_chains >= 2 {
        y += chain_height(sizes);
        let over = shown_in.length(metres(outer_right - outer_left));
        let beside = |length_m: f64| Dimension {
            ways: vec![shown_in.length(metres(length_m))],
            place: Some(Place::SideExtension),
        };
        let ways = vec![
            format!("{over} over the edge brick"),
            format!("{over} over edges"),
            over,
        ];
        let dimensions = [
            beside(outer_left - dig_left),
            Dimension {
                ways,
                place: Some(Place::EdgeStands),
            },
            beside(dig_right - outer_right),
        ];
        let stops = [
            x(dig_left, draft),
            x(outer_left, draft),
            x(outer_right, draft),
            x(dig_right, draft),
        ];
        level_chain(draft, &stops, &dimensions, y, from, limits);
        from = y + 4.0;
    }
    if frame.detail.level_chains >= 3 {
        y += chain_height(sizes);
        let dig = shown_in.length(metres(dig_right - dig_left));
        let ways = vec![format!("{dig} wide dig"), dig];
        let stops = [x(dig_left, draft), x(dig_right, draft)];
        level_chain(
            draft,
            &stops,
            &[Dimension {
                ways,
                place: Some(Place::SideExtension),
            }],
            y,
            from,
            limits,
        );
    }
}

/// The bar scale at the left, and where the section is cut at the right.
pub(super) fn scale_bar(draft: &mut Draft, cut: &Cut<'_>, frame: &Frame) {
    let sizes = Sizes::on(draft.sheet());
    let sheet = draft.sheet();
    let y = sheet.height - 10.0 - 1.25 * sizes.tick;
    let bars = match cut.site.shown_in {
        ShownIn::FeetInches => [
            (inches(3.0), 2, "6 in"),
            (inches(3.0), 4, "1 ft"),
            (inches(6.0), 4, "2 ft"),
            (feet(1.0), 4, "4 ft"),
        ],
        ShownIn::Metric => [
            (millimetres(50.0), 2, "100 mm"),
            (millimetres(50.0), 4, "200 mm"),
            (millimetres(100.0), 5, "500 mm"),
            (millimetres(250.0), 4, "1 m"),
        ],
    };
    let dots = |(part, count, _): &(underbrick_calc::quantity::Length, usize, &str)| {
        in_metres(*part) * frame.dots_per_metre * f64::from(u8::try_from(*count).unwrap_or(1))
    };
    let least = width_of(&Text::regular("0 100 mm"), sizes.tick) + 12.0;
    let most = (0.26 * sheet.width).max(least);
    let readable = || bars.iter().filter(|bar| dots(bar) >= least);
    let bar = readable()
        .rev()
        .find(|bar| dots(bar) <= most)
        .or(readable().next())
        .or(bars.last());
    let Some((part, count, end)) = bar else {
        return;
    };
    bar_scale(
        draft,
        (MARGIN, y),
        in_metres(*part) * frame.dots_per_metre,
        *count,
        end,
    );
    let used = MARGIN + dots(&(*part, *count, end)) + 24.0;
    let station = cut.site.shown_in.along(cut.section.station);
    let ways = [
        format!("section at {station}, looking away from the door"),
        format!("section at {station}"),
        station,
    ];
    for way in ways {
        let text = Text::regular(way);
        if used + width_of(&text, sizes.note) <= sheet.width - MARGIN {
            let lettering = Lettering {
                text,
                size: sizes.note,
                ink: Ink::SecondInk,
                anchor: Anchor::Right,
                place: None,
            };
            draft.label(
                (sheet.width - MARGIN, sheet.height - 8.0 - 0.62 * sizes.note),
                lettering,
            );
            break;
        }
    }
}
