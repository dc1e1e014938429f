//! Lettering on screen: places the parts that `drawing` laid out, fractions over their slanted bar among them.

use egui::epaint::TextShape;
use egui::{Color32, Painter, Pos2, Shape, Stroke, pos2, vec2};
use underbrick_drawing::font::Weight;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::{LaidOut, Placed, Text, lay_out};

use crate::theme;

/// Height of a figure above the baseline, in ems: figures are centred on the anchor's height by it.
const FIGURE_EMS: f32 = 0.72;

/// Width of a text in points.
#[must_use]
pub fn width(text: &Text, size: f32) -> f32 {
    narrowed(lay_out(text).advance) * size
}

/// Shapes of one line of text whose figures are centred on `at`.
#[must_use]
pub fn shapes(
    painter: &Painter,
    at: Pos2,
    anchor: Anchor,
    text: &Text,
    size: f32,
    color: Color32,
) -> Vec<Shape> {
    let laid_out = lay_out(text);
    let advance = narrowed(laid_out.advance) * size;
    let left = match anchor {
        Anchor::Left => at.x,
        Anchor::Middle => at.x - advance / 2.0,
        Anchor::Right => at.x - advance,
    };
    let baseline = pos2(left, at.y + FIGURE_EMS * size / 2.0);
    parts(painter, baseline, &laid_out, text.weight, size, color)
}

/// Paints one line of text at once.
pub fn paint(painter: &Painter, at: Pos2, anchor: Anchor, text: &Text, size: f32, color: Color32) {
    painter.extend(shapes(painter, at, anchor, text, size, color));
}

fn parts(
    painter: &Painter,
    baseline: Pos2,
    laid_out: &LaidOut,
    weight: Weight,
    size: f32,
    color: Color32,
) -> Vec<Shape> {
    let on_screen = |x: f64, y: f64| baseline + vec2(narrowed(x) * size, -narrowed(y) * size);
    laid_out
        .parts
        .iter()
        .map(|part| match part {
            Placed::Run {
                x,
                y,
                size: share,
                letters,
            } => {
                let points = narrowed(*share) * size;
                let font = match weight {
                    Weight::Regular => theme::regular(points),
                    Weight::Bold => theme::bold(points),
                };
                let galley = painter.layout_no_wrap(letters.clone(), font, color);
                let rise = galley
                    .rows
                    .first()
                    .and_then(|row| row.row.glyphs.first().map(|glyph| row.pos.y + glyph.pos.y))
                    .unwrap_or(points);
                Shape::Text(TextShape::new(
                    on_screen(*x, *y) - vec2(0.0, rise),
                    galley,
                    color,
                ))
            }
            Placed::Bar { from, to, width } => Shape::line_segment(
                [on_screen(from.0, from.1), on_screen(to.0, to.1)],
                Stroke::new((narrowed(*width) * size).max(1.0), color),
            ),
        })
        .collect()
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "screen positions: single precision is what the painter takes"
)]
pub(crate) fn narrowed(value: f64) -> f32 {
    value as f32
}

/// A sentence for the toolkit's own line breaking: fractions and foot and inch marks as the type has them, `1 11/16"` as `1 ¹¹/₁₆″`.
#[must_use]
pub fn in_line(words: &str) -> String {
    let letters: Vec<char> = words.chars().collect();
    let mut set = String::with_capacity(words.len() + 8);
    let mut idx = 0;
    while let Some(letter) = letters.get(idx).copied() {
        let before = idx.checked_sub(1).and_then(|at| letters.get(at)).copied();
        if letter.is_ascii_digit()
            && before.is_none_or(|before| !before.is_alphanumeric() && !".,:/-".contains(before))
            && let Some((over, under, n_letters)) =
                fraction_at(letters.get(idx..).unwrap_or_default())
        {
            let glyphs = fraction_glyphs(&over, &under);
            let is_one_glyph = glyphs.chars().count() == 1;
            if is_one_glyph
                && set
                    .strip_suffix(' ')
                    .is_some_and(|set| set.ends_with(|last: char| last.is_ascii_digit()))
            {
                set.pop();
            }
            set.push_str(&glyphs);
            idx += n_letters;
            continue;
        }
        let after_figure = set.ends_with(|last: char| last.is_numeric() || last == '′');
        set.push(match letter {
            '\'' if after_figure => '′',
            '"' if after_figure => '″',
            other => other,
        });
        idx += 1;
    }
    set
}

/// Numerator, denominator and how many letters they take, where `letters` start with a fraction that is no date and no ratio.
fn fraction_at(letters: &[char]) -> Option<(String, String, usize)> {
    let digits = |letters: &[char]| {
        letters
            .iter()
            .take_while(|letter| letter.is_ascii_digit())
            .collect::<String>()
    };
    let over = digits(letters);
    let rest = letters.get(over.len()..)?;
    let under = digits(rest.strip_prefix(&['/'])?);
    let next = rest.get(1 + under.len());
    let fits = (1..=2).contains(&over.len()) && (1..=2).contains(&under.len());
    (fits && next.is_none_or(|next| !next.is_alphanumeric() && *next != '/')).then(|| {
        let n_letters = over.len() + 1 + under.len();
        (over, under, n_letters)
    })
}

fn fraction_glyphs(over: &str, under: &str) -> String {
    let whole = match (over, under) {
        ("1", "2") => "½",
        ("1", "4") => "¼",
        ("3", "4") => "¾",
        ("1", "8") => "⅛",
        ("3", "8") => "⅜",
        ("5", "8") => "⅝",
        ("7", "8") => "⅞",
        _ => "",
    };
    if !whole.is_empty() {
        return whole.to_owned();
    }
    let figures = |digits: &str, glyphs: [char; 10]| -> String {
        digits
            .chars()
            .filter_map(|digit| digit.to_digit(10))
            .filter_map(|digit| glyphs.get(usize::try_from(digit).ok()?).copied())
            .collect()
    };
    let superior = figures(over, ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹']);
    let inferior = figures(under, ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉']);
    format!("{superior}/{inferior}")
}

#[cfg(test)]
mod tests {
    use super::in_line;
    use underbrick_drawing::font::{self, Weight};

    #[test]
    fn fractions_and_marks_are_set_as_the_type_has_them() {
        for (words, set) in [
            ("4'-0 11/16\" to 6'-1 15/16\"", "4′-0 ¹¹/₁₆″ to 6′-1 ¹⁵/₁₆″"),
            ("thinner than 1 1/8\": 2.4 ft³", "thinner than 1⅛″: 2.4 ft³"),
            ("1/4 in/ft (2.08 %)", "¼ in/ft (2.08 %)"),
            ("no steeper than 1:48", "no steeper than 1:48"),
            ("on 11/25/2026", "on 11/25/2026"),
            ("the crew's own \"word\"", "the crew's own \"word\""),
            ("and/or 100/200", "and/or 100/200"),
            ("5'' 3", "5′′ 3"),
        ] {
            assert_eq!(in_line(words), set);
        }
    }

    #[test]
    fn the_type_has_every_figure_of_a_fraction() {
        for weight in [Weight::Regular, Weight::Bold] {
            for letter in in_line("1/2 1/4 3/4 1/8 3/8 5/8 7/8 23/64 97/80 5/16 6' 7\"").chars() {
                assert!(font::has(letter, weight), "{letter}");
            }
        }
    }
}
