//! One line of text as it is set: plain runs, and fractions as small figures over a slanted bar, placed by one function for every back-end.

use crate::font::{self, Weight};
use crate::tongue::said;

/// Size of a fraction's figures as a share of the full size.
const SMALL: f64 = 0.62;
/// Space between a whole number and its fraction, in ems.
const BEFORE_FRACTION: f64 = 0.09;
/// How far the bar leans, in ems of its run.
const BAR_LEAN: f64 = 0.15;
/// Space on either side of the bar's middle, in ems.
const BESIDE_BAR: f64 = 0.075;

/// One line of text in one weight. ASCII `'` and `"` after a figure are set as primes; `n/d` after a figure, a space or at the start is set as a fraction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    /// As written.
    pub written: String,
    /// Weight.
    pub weight: Weight,
}

impl Text {
    /// In regular weight.
    #[must_use]
    pub fn regular(written: impl Into<String>) -> Self {
        Self {
            written: said(written.into()),
            weight: Weight::Regular,
        }
    }

    /// In bold weight.
    #[must_use]
    pub fn bold(written: impl Into<String>) -> Self {
        Self {
            written: said(written.into()),
            weight: Weight::Bold,
        }
    }
}

/// A part of a text, placed. Distances in ems of the full size, to the right from the left end, and up from the baseline.
#[derive(Clone, Debug, PartialEq)]
pub enum Placed {
    /// A run of letters.
    Run {
        /// Left end.
        x: f64,
        /// Baseline above the text's own baseline.
        y: f64,
        /// Size as a share of the full size.
        size: f64,
        /// The letters.
        letters: String,
    },
    /// The bar of a fraction.
    Bar {
        /// Lower end.
        from: (f64, f64),
        /// Upper end.
        to: (f64, f64),
        /// Thickness.
        width: f64,
    },
}

/// A text, placed, with its advance in ems.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidOut {
    /// Parts from left to right.
    pub parts: Vec<Placed>,
    /// Whole advance, in ems.
    pub advance: f64,
}

/// Lays out one line of text.
#[must_use]
pub fn lay_out(text: &Text) -> LaidOut {
    let setter = set(&text.written, text.weight, Some(Vec::new()));
    LaidOut {
        advance: setter.x,
        parts: setter.parts.unwrap_or_default(),
    }
}

/// Whole advance of a line of text, in ems.
#[must_use]
pub fn advance(written: &str, weight: Weight) -> f64 {
    set(written, weight, None).x
}

/// Sets a line; its parts are kept only where they are asked for.
fn set(written: &str, weight: Weight, parts: Option<Vec<Placed>>) -> Setter {
    let mut setter = Setter::new(weight, parts);
    let mut before: Option<char> = None;
    let mut rest = written;
    while let Some(letter) = rest.chars().next() {
        let after = rest.get(letter.len_utf8()..).unwrap_or_default();
        if let Some(fraction) = Fraction::at_start_of(rest, before) {
            setter.fraction(&fraction);
            before = fraction.below.chars().next_back();
            rest = fraction.after;
            continue;
        }
        let after_figure = before.is_some_and(|letter| letter.is_ascii_digit());
        match letter {
            '\'' if after_figure => setter.letter('′'),
            '"' if after_figure => setter.letter('″'),
            ' ' if after_figure && Fraction::at_start_of(after, Some(' ')).is_some() => {
                setter.gap(BEFORE_FRACTION);
            }
            // A space that begins a run is only a gap: SVG would drop it.
            ' ' if setter.run_advance.is_none() => setter.gap(font::advance(" ", weight)),
            _ => setter.letter(letter),
        }
        before = Some(letter);
        rest = after;
    }
    setter.close_run();
    setter
}

/// A fraction at the start of what is left to set.
struct Fraction<'a> {
    above: &'a str,
    below: &'a str,
    after: &'a str,
}

impl<'a> Fraction<'a> {
    fn at_start_of(rest: &'a str, before: Option<char>) -> Option<Self> {
        if !matches!(before, None | Some(' ' | '(' | '-' | '−' | '×' | '\u{a0}')) {
            return None;
        }
        let (above, tail) = figures(rest)?;
        let (below, after) = figures(tail.strip_prefix('/')?)?;
        let goes_on = after
            .starts_with(|letter: char| letter.is_alphanumeric() || letter == '/' || letter == '.');
        (above.len() <= 2 && below.len() <= 3 && !goes_on).then_some(Self {
            above,
            below,
            after,
        })
    }
}

/// The figures that a text starts with, and what comes after them.
fn figures(text: &str) -> Option<(&str, &str)> {
    let end = text
        .find(|letter: char| !letter.is_ascii_digit())
        .unwrap_or(text.len());
    if end == 0 {
        None
    } else {
        text.split_at_checked(end)
    }
}

struct Setter {
    weight: Weight,
    x: f64,
    /// Advance of the run that is being set.
    run_advance: Option<f64>,
    run: String,
    parts: Option<Vec<Placed>>,
}

impl Setter {
    const fn new(weight: Weight, parts: Option<Vec<Placed>>) -> Self {
        Self {
            weight,
            x: 0.0,
            run_advance: None,
            run: String::new(),
            parts,
        }
    }

    fn letter(&mut self, letter: char) {
        let advance = font::advance_of(letter, self.weight);
        self.run_advance = Some(self.run_advance.unwrap_or(0.0) + advance);
        if self.parts.is_some() {
            self.run.push(letter);
        }
    }

    fn part(&mut self, part: impl FnOnce() -> Placed) {
        if let Some(parts) = &mut self.parts {
            parts.push(part());
        }
    }

    fn close_run(&mut self) {
        if let Some(advance) = self.run_advance.take() {
            let (x, mut letters) = (self.x, std::mem::take(&mut self.run));
            // A space that ends a run is only a gap: SVG would drop it.
            letters.truncate(letters.trim_end_matches(' ').len());
            self.part(|| Placed::Run {
                x,
                y: 0.0,
                size: 1.0,
                letters,
            });
            self.x += advance;
        }
    }

    fn gap(&mut self, ems: f64) {
        self.close_run();
        self.x += ems;
    }

    fn fraction(&mut self, fraction: &Fraction<'_>) {
        self.close_run();
        let figure_height = font::figure_height(self.weight);
        let above_width = SMALL * font::advance(fraction.above, self.weight);
        let below_width = SMALL * font::advance(fraction.below, self.weight);
        let x = self.x;
        self.part(|| Placed::Run {
            x,
            y: figure_height * (1.0 - SMALL),
            size: SMALL,
            letters: fraction.above.to_owned(),
        });
        let middle = self.x + above_width + BESIDE_BAR;
        let width = if self.weight == Weight::Bold {
            0.085
        } else {
            0.06
        };
        self.part(|| Placed::Bar {
            from: (middle - BAR_LEAN, -0.02),
            to: (middle + BAR_LEAN, figure_height + 0.02),
            width,
        });
        let below_x = middle + BESIDE_BAR;
        self.part(|| Placed::Run {
            x: below_x,
            y: 0.0,
            size: SMALL,
            letters: fraction.below.to_owned(),
        });
        self.x = below_x + below_width;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Runs in brackets with their size when small, bars as a slash.
    #[track_caller]
    fn check(written: &str, expected: &str) {
        let laid_out = lay_out(&Text::bold(written));
        let shown: String = laid_out
            .parts
            .iter()
            .map(|part| match part {
                Placed::Run { letters, size, .. } if *size < 1.0 => format!("<{letters}>"),
                Placed::Run { letters, .. } => format!("[{letters}]"),
                Placed::Bar { .. } => "/".to_owned(),
            })
            .collect();
        assert_eq!(shown, expected, "{written}");
        assert!(laid_out.advance >= 0.0);
    }

    #[test]
    fn fractions_and_primes() {
        check("", "");
        check("3 1/4\"", "[3]<1>/<4>[″]");
        check("5/8\"", "<5>/<8>[″]");
        check("4'-7 13/16\"", "[4′-7]<13>/<16>[″]");
        check("4 lifts, 2 1/16\" each", "[4 lifts, 2]<1>/<16>[″ each]");
        check("(1/4 in per ft)", "[(]<1>/<4>[in per ft)]");
    }

    #[test]
    fn what_is_not_a_fraction_stays_as_written() {
        check("3/4/26", "[3/4/26]");
        check("and/or", "[and/or]");
        check("a1/2", "[a1/2]");
        check("1/2.5", "[1/2.5]");
        check("1/", "[1/]");
        check("the \"old\" walk's end", "[the \"old\" walk's end]");
    }

    #[test]
    fn parts_follow_each_other() {
        let laid_out = lay_out(&Text::regular("12 15/16\" on 3/4\""));
        let mut left = -1.0;
        for part in &laid_out.parts {
            if let Placed::Run { x, .. } = part {
                assert!(*x > left);
                left = *x;
            }
        }
        assert!(laid_out.advance > left);
        // A painted fraction takes less room than its letters in full size.
        assert!(laid_out.advance < font::advance("12 15/16″ on 3/4″", Weight::Regular));
    }
}
