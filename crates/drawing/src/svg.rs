//! The display list as SVG.

use crate::font;
use crate::item::{Anchor, Drawing, Item, Pen, Point};
use crate::palette::{Ink, Theme, rgb};
use crate::text::{Placed, Text, lay_out};
use std::fmt::Write as _;

/// The drawing as an SVG document of its own, one user unit for a dot. The same drawing always gives the same bytes.
#[must_use]
pub fn write(drawing: &Drawing, theme: Theme) -> String {
    let mut svg = Writer {
        out: String::with_capacity(32 * 1024),
        drawing,
        theme,
    };
    let (width, height) = (number(drawing.sheet.width), number(drawing.sheet.height));
    svg.put(format_args!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" role=\"img\">\n"
    ));
    let title = drawing.words.lines().next().unwrap_or_default();
    svg.put(format_args!(
        "<title>{}</title>\n<desc>{}</desc>\n",
        escaped(title),
        escaped(&drawing.words)
    ));
    svg.put(format_args!(
        "<rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>\n",
        colour(Ink::Paper, theme)
    ));
    svg.put(format_args!(
        "<g font-family=\"B612, Verdana, sans-serif\" stroke-linecap=\"butt\" stroke-linejoin=\"round\">\n"
    ));
    for item in &drawing.items {
        svg.item(item);
    }
    svg.put(format_args!("</g>\n</svg>\n"));
    svg.out
}

struct Writer<'a> {
    out: String,
    drawing: &'a Drawing,
    theme: Theme,
}

impl Writer<'_> {
    fn put(&mut self, what: std::fmt::Arguments<'_>) {
        // Writing to a String cannot fail.
        let _ = self.out.write_fmt(what);
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Area {
                outline,
                fill,
                pen,
                place: _,
            } => {
                self.put(format_args!("<path d=\""));
                self.path(outline);
                self.put(format_args!("Z\" fill=\"{}\"", colour(*fill, self.theme)));
                if let Some(pen) = pen {
                    self.stroke(*pen);
                }
                self.put(format_args!("/>\n"));
            }
            Item::Line {
                points,
                pen,
                place: _,
            } => {
                self.put(format_args!("<path d=\""));
                self.path(points);
                self.put(format_args!("\" fill=\"none\""));
                self.stroke(*pen);
                self.put(format_args!("/>\n"));
            }
            Item::Hatch { strokes, pen } => {
                if strokes.is_empty() {
                    return;
                }
                self.put(format_args!("<path d=\""));
                for stroke in strokes.iter() {
                    self.path(stroke);
                }
                self.put(format_args!("\" fill=\"none\""));
                self.stroke(*pen);
                self.put(format_args!("/>\n"));
            }
            Item::Label {
                at,
                text,
                size,
                ink,
                anchor,
                place: _,
            } => self.label(*at, text, *size, *ink, *anchor),
        }
    }

    fn path(&mut self, points: &[Point]) {
        for (index, point) in points.iter().enumerate() {
            let (x, y) = self.drawing.sheet_from_drawing(*point);
            let letter = if index == 0 { 'M' } else { 'L' };
            self.put(format_args!("{letter}{} {}", number(x), number(y)));
        }
    }

    fn stroke(&mut self, pen: Pen) {
        self.put(format_args!(
            " stroke=\"{}\" stroke-width=\"{}\"",
            colour(pen.ink, self.theme),
            number(pen.width)
        ));
        if let Some((on, off)) = pen.dashes() {
            self.put(format_args!(
                " stroke-dasharray=\"{} {}\"",
                number(on),
                number(off)
            ));
        }
    }

    fn label(&mut self, at: Point, text: &Text, size: f64, ink: Ink, anchor: Anchor) {
        let laid_out = lay_out(text);
        let (x, y) = self.drawing.sheet_from_drawing(at);
        let left = x - size * laid_out.advance * anchor.share();
        let baseline = y + size * font::figure_height(text.weight) / 2.0;
        let weight = match text.weight {
            font::Weight::Regular => "normal",
            font::Weight::Bold => "bold",
        };
        let fill = colour(ink, self.theme);
        self.put(format_args!(
            "<g role=\"img\" aria-label=\"{}\" fill=\"{fill}\" font-weight=\"{weight}\">",
            escaped(&text.written)
        ));
        for part in &laid_out.parts {
            match part {
                Placed::Run {
                    x,
                    y,
                    size: share,
                    letters,
                } => {
                    let run_size = size * share;
                    let length = run_size * font::advance(letters, text.weight);
                    self.put(format_args!(
                        "<text x=\"{}\" y=\"{}\" font-size=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">{}</text>",
                        number(left + size * x),
                        number(baseline - size * y),
                        number(run_size),
                        number(length),
                        escaped(letters)
                    ));
                }
                Placed::Bar { from, to, width } => {
                    self.put(format_args!(
                        "<path d=\"M{} {}L{} {}\" fill=\"none\" stroke=\"{fill}\" stroke-width=\"{}\"/>",
                        number(left + size * from.0),
                        number(baseline - size * from.1),
                        number(left + size * to.0),
                        number(baseline - size * to.1),
                        number(size * width)
                    ));
                }
            }
        }
        self.put(format_args!("</g>\n"));
    }
}

fn colour(ink: Ink, theme: Theme) -> String {
    let [red, green, blue] = rgb(ink, theme);
    format!("#{red:02X}{green:02X}{blue:02X}")
}

/// To the hundredth of a dot, without trailing noughts. Anything that is not finite becomes 0.
const fn number(value: f64) -> Number {
    Number(value)
}

struct Number(f64);

impl std::fmt::Display for Number {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a cast from float to integer stops at the integer's ends"
    )]
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let hundredths = if self.0.is_finite() {
            (self.0 * 100.0).round() as i64
        } else {
            0
        };
        let size = hundredths.unsigned_abs();
        if hundredths < 0 {
            formatter.write_str("-")?;
        }
        let (whole, part) = (size / 100, size % 100);
        match part {
            0 => write!(formatter, "{whole}"),
            part if part % 10 == 0 => write!(formatter, "{whole}.{}", part / 10),
            part => write!(formatter, "{whole}.{part:02}"),
        }
    }
}

/// Text that may stand in an element or in an attribute between double quotes. What XML cannot hold is left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\t' => out.push(letter),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            _ => out.push(letter),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::item::{Dash, Sheet};

    fn drawing_with(items: Vec<Item>, words: &str) -> Drawing {
        Drawing {
            items,
            upper_left: Point { x: 0.0, y: 0.0 },
            sheet: Sheet {
                width: 200.0,
                height: 100.0,
                text_scale: 1.0,
            },
            dots_per_metre: 100.0,
            heights_times: 1.0,
            words: words.to_owned(),
        }
    }

    #[test]
    fn numbers_are_short() {
        let check = |value: f64, expected: &str| assert_eq!(number(value).to_string(), expected);
        check(1.0, "1");
        check(-0.001, "0");
        check(12.345_6, "12.35");
        check(-0.5, "-0.5");
        check(-3.07, "-3.07");
        check(100.0, "100");
        check(f64::NAN, "0");
    }

    #[test]
    fn text_is_escaped_and_read_back_by_a_parser_as_written() {
        let nasty = "a<b>&\"c\" 'd' \u{1} end";
        let label = Item::Label {
            at: Point { x: 1.0, y: -0.5 },
            text: Text::bold(nasty),
            size: 17.0,
            ink: Ink::Ink,
            anchor: Anchor::Middle,
            place: None,
        };
        let svg = write(&drawing_with(vec![label], nasty), Theme::Sun);
        let document = usvg::roxmltree::Document::parse(&svg).unwrap();
        let kept = "a<b>&\"c\" 'd'  end";
        let desc = document
            .descendants()
            .find(|node| node.has_tag_name("desc"))
            .unwrap();
        assert_eq!(desc.text(), Some(kept));
        let text = document
            .descendants()
            .find(|node| node.has_tag_name("text"))
            .unwrap();
        assert_eq!(text.text(), Some(kept));
        assert!(usvg::Tree::from_str(&svg, &usvg::Options::default()).is_ok());
    }

    #[test]
    fn a_metre_to_the_right_is_its_dots() {
        let line = Item::Line {
            points: vec![Point { x: 0.25, y: 0.0 }, Point { x: 1.25, y: -0.5 }],
            pen: Pen {
                ink: Ink::Line,
                width: 2.5,
                dash: Dash::Dashed,
            },
            place: None,
        };
        let svg = write(&drawing_with(vec![line], ""), Theme::Sun);
        // 0.25 m × 100 = 25; 1.25 m × 100 = 125; 0.5 m down × 100 = 50.
        assert!(svg.contains("d=\"M25 0L125 50\""), "{svg}");
        assert!(
            svg.contains("stroke=\"#083F80\" stroke-width=\"2.5\" stroke-dasharray=\"10.5 6\""),
            "{svg}"
        );
    }
}
