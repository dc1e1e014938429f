//! Dimension lines: slanted ticks, text above the line or to its right, one chain to a line.

use crate::draft::{Draft, HAIRLINE, Lettering, Sizes, solid, width_of};
use crate::item::Anchor;
use crate::palette::Ink;
use crate::spread::{Wish, spread};
use crate::text::Text;
use underbrick_calc::place::Place;
use underbrick_calc::site::Hand;

/// Half the size of a tick, in dots.
const TICK: f64 = 5.0;
/// How far extension lines run past the dimension line, in dots.
const PAST: f64 = 4.0;

/// One dimension of a chain.
#[derive(Clone, Debug)]
pub(crate) struct Dimension {
    /// From the fullest to the shortest way of writing it; the first that fits is drawn.
    pub ways: Vec<String>,
    pub place: Option<Place>,
}

/// A chain on a level line at `y` between the stops, all in dots; extension lines come down from `from_y`. A text that is wider
/// than its part of the chain stands beside the chain if it is the first or the last and there is room up to `limits`.
pub(crate) fn level_chain(
    draft: &mut Draft,
    stops: &[f64],
    dimensions: &[Dimension],
    y: f64,
    from_y: f64,
    limits: (f64, f64),
) {
    let sizes = Sizes::on(draft.sheet());
    let pen = solid(Ink::Ink, HAIRLINE);
    let (Some(first), Some(last)) = (stops.first().copied(), stops.last().copied()) else {
        return;
    };
    let count = dimensions.len();
    let mut texts = Vec::new();
    let (mut line_from, mut line_to) = (first - 6.0, last + 6.0);
    for (index, (dimension, pair)) in dimensions.iter().zip(stops.windows(2)).enumerate() {
        let &[left, right] = pair else { continue };
        for way in &dimension.ways {
            let text = Text::bold(way.clone());
            let width = width_of(&text, sizes.label);
            let above = y - 0.62 * sizes.label - 1.0;
            let at = if width + 2.0 * TICK + 6.0 <= right - left {
                Some((f64::midpoint(left, right), Anchor::Middle))
            } else if index == 0 && count > 1 && first - 10.0 - width >= limits.0 {
                line_from = first - 10.0 - width;
                Some((first - 9.0, Anchor::Right))
            } else if index + 1 == count && count > 1 && last + 10.0 + width <= limits.1 {
                line_to = last + 10.0 + width;
                Some((last + 9.0, Anchor::Left))
            } else {
                None
            };
            if let Some((x, anchor)) = at {
                texts.push((
                    (x, above),
                    Lettering {
                        text,
                        size: sizes.label,
                        ink: Ink::Ink,
                        anchor,
                        place: dimension.place,
                    },
                ));
                break;
            }
        }
    }
    for stop in stops {
        draft.stroke(
            &[(*stop, from_y), (*stop, y + PAST)],
            solid(Ink::SecondInk, HAIRLINE * 0.75),
            None,
        );
    }
    draft.stroke(
        &[(line_from, y), (line_to, y)],
        pen,
        dimensions.first().and_then(|dimension| dimension.place),
    );
    for stop in stops {
        draft.stroke(
            &[(*stop - TICK, y + TICK), (*stop + TICK, y - TICK)],
            solid(Ink::Ink, 1.6),
            None,
        );
    }
    for (at, lettering) in texts {
        draft.label(at, lettering);
    }
}

/// Width that the texts of an upright chain take to the right of its line, in dots.
pub(crate) fn upright_width(dimensions: &[Vec<String>], sizes: Sizes) -> f64 {
    let lines = dimensions.iter().flatten();
    9.0 + lines
        .map(|line| width_of(&Text::bold(line.clone()), sizes.label))
        .fold(0.0, f64::max)
}

/// One dimension of an upright chain: its lines of text, the first bold.
#[derive(Clone, Debug)]
pub(crate) struct Upright {
    pub lines: Vec<String>,
    pub place: Option<Place>,
}

/// A chain on an upright line at `x` between the stops, from the top down, all in dots; extension lines come from `from_x`. Texts
/// stand right of the line; where the parts are low they make room for each other between `limits`.
pub(crate) fn upright_chain(
    draft: &mut Draft,
    stops: &[f64],
    dimensions: &[Upright],
    x: f64,
    from_x: f64,
    limits: (f64, f64),
) {
    upright_chain_on(draft, Hand::Right, stops, dimensions, (x, from_x), limits);
}

/// The same with its texts on that side of the line, `x` and `from_x` in one.
pub(crate) fn upright_chain_on(
    draft: &mut Draft,
    hand: Hand,
    stops: &[f64],
    dimensions: &[Upright],
    (x, from_x): (f64, f64),
    limits: (f64, f64),
) {
    let outwards = match hand {
        Hand::Left => -1.0,
        Hand::Right => 1.0,
    };
    let sizes = Sizes::on(draft.sheet());
    let (Some(first), Some(last)) = (stops.first().copied(), stops.last().copied()) else {
        return;
    };
    for stop in stops {
        draft.stroke(
            &[(from_x, *stop), (x + outwards * PAST, *stop)],
            solid(Ink::SecondInk, HAIRLINE * 0.75),
            None,
        );
    }
    draft.stroke(
        &[(x, first - 6.0), (x, last + 6.0)],
        solid(Ink::Ink, HAIRLINE),
        dimensions.first().and_then(|each| each.place),
    );
    for stop in stops {
        draft.stroke(
            &[(x - TICK, *stop + TICK), (x + TICK, *stop - TICK)],
            solid(Ink::Ink, 1.6),
            None,
        );
    }
    // Second lines go first where there is no room.
    for most_lines in [2, 1] {
        let height = |each: &Upright| {
            (0..each.lines.len().min(most_lines))
                .map(|nth| 1.2 * line_size(nth, sizes))
                .sum::<f64>()
        };
        let wishes: Vec<Wish> = dimensions
            .iter()
            .zip(stops.windows(2))
            .map(|(each, pair)| Wish {
                middle: pair.iter().sum::<f64>() / 2.0,
                room: height(each),
            })
            .collect();
        let Some(middles) = spread(&wishes, limits.0, limits.1) else {
            continue;
        };
        for (each, middle) in dimensions.iter().zip(middles) {
            upright_text(
                draft,
                each,
                most_lines,
                (x + outwards * 9.0, middle - height(each) / 2.0),
                hand,
            );
        }
        break;
    }
}

fn upright_text(
    draft: &mut Draft,
    each: &Upright,
    most_lines: usize,
    (left, top): (f64, f64),
    hand: Hand,
) {
    let sizes = Sizes::on(draft.sheet());
    let mut y = top;
    for (nth, line) in each.lines.iter().take(most_lines).enumerate() {
        let size = line_size(nth, sizes);
        let (text, ink) = if nth == 0 {
            (Text::bold(line.clone()), Ink::Ink)
        } else {
            (Text::regular(line.clone()), Ink::SecondInk)
        };
        draft.label(
            (left, y + 0.55 * size),
            Lettering {
                text,
                size,
                ink,
                anchor: match hand {
                    Hand::Left => Anchor::Right,
                    Hand::Right => Anchor::Left,
                },
                place: each.place,
            },
        );
        y += 1.2 * size;
    }
}

fn line_size(nth: usize, sizes: Sizes) -> f64 {
    if nth == 0 { sizes.label } else { sizes.note }
}

/// A bar scale with its lower edge at `y`, from `x` to the right, in dots: `parts` alternate between ink and paper.
pub(crate) fn bar_scale(
    draft: &mut Draft,
    (x, y): (f64, f64),
    part_dots: f64,
    parts: usize,
    end: &str,
) {
    let sizes = Sizes::on(draft.sheet());
    let height = 6.0;
    let mut left = x;
    for part in 0..parts {
        let fill = if part % 2 == 0 { Ink::Ink } else { Ink::Paper };
        let outline = [
            (left, y - height),
            (left + part_dots, y - height),
            (left + part_dots, y),
            (left, y),
        ];
        draft.shape(&outline, fill, Some(solid(Ink::Ink, HAIRLINE)), None);
        left += part_dots;
    }
    let below = y + 0.62 * sizes.tick + 3.0;
    let lettering = |text: &str, anchor| Lettering {
        text: Text::regular(text),
        size: sizes.tick,
        ink: Ink::SecondInk,
        anchor,
        place: None,
    };
    draft.label((x, below), lettering("0", Anchor::Left));
    draft.label((left, below), lettering(end, Anchor::Right));
}
