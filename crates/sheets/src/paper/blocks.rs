//! Blocks of a document as strips.

use underbrick_calc::site::Signature;
use underbrick_drawing::font::Weight;
use underbrick_drawing::item::{Anchor, Point};
use underbrick_drawing::palette::Ink;
use underbrick_drawing::text;
use underbrick_words::Words;

use super::clipped::{Within, clipped};
use super::pages::{PlacedPicture, Role, Tree};
use super::pdf::cannot_be_taken;
use super::strip::{HAIRLINE, RULE, Strip, Type, placed};
use super::table::{Columns, lines_within};
use super::wrap::{shortened, wrap};
use super::{Block, Column, Figure, Level, Mark, Paper, Picture, SignatureLine, Style};

/// Type of running text, in dots: 9 points.
pub(super) const BODY: f64 = 16.0;
/// Type of notes: 7.7 points.
pub(super) const NOTE: f64 = 13.5;
/// Between two paragraphs.
const APART: f64 = 9.0;
/// Between two figures side by side.
const GUTTER: f64 = 24.0;
/// Lines to write on that are never left out.
const LEAST_HAND: usize = 2;
/// Height of a line to write on by hand: 7 mm.
const HAND: f64 = 35.0;
/// Least width of a caption: a narrow figure has a wider one.
const LEAST_CAPTION: f64 = 260.0;
/// Width of a line to sign on: 80 mm.
const SIGNED: f64 = 400.0;

/// Makes strips of blocks.
pub(super) struct Setter {
    pub width: f64,
    pub height: f64,
    pub tree: Tree,
    pub strips: Vec<Strip>,
    pub words: &'static Words,
    /// Tables with the same columns, and how wide those are.
    pub alike: Vec<(Vec<Column>, Columns)>,
}

impl Setter {
    pub fn new(paper: Paper, words: &'static Words) -> Self {
        let (width, height) = paper.text_dots();
        Self {
            width,
            height,
            tree: Tree::default(),
            strips: Vec::new(),
            words,
            alike: Vec::new(),
        }
    }

    pub fn set(&mut self, blocks: &[Block]) {
        for block in blocks {
            self.block(block);
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(level, written) => self.heading(*level, written),
            Block::Text(style, written) => self.paragraph(*style, written),
            Block::List(mark, lines) => self.list(*mark, lines),
            Block::Caution(written) => self.caution(written),
            Block::Facts(facts) => self.facts(facts),
            Block::Table(table) => self.table(table),
            Block::Figure(figure) => self.figures(std::slice::from_ref(figure)),
            Block::Figures(figures) => self.figures(figures),
            Block::Picture(picture) => self.picture(picture),
            Block::Signature(line) => self.signature(line),
            Block::WriteIn(written, n_lines) => self.write_in(written, *n_lines),
            Block::Together(blocks) => self.together(blocks),
            Block::NewPage => {
                self.strips.push(Strip {
                    starts_page: true,
                    ..Strip::default()
                });
            }
        }
    }

    /// Lines of one text as strips that keep at least two together at each end.
    fn lines(&mut self, node: usize, written: &str, set: Type, (left, before): (f64, f64)) {
        let lines = wrap(written, set.weight, set.size, self.width - left);
        let n = lines.len();
        for (nth, line) in lines.iter().enumerate() {
            let mut strip = Strip::of_height(set.leading());
            strip.before = if nth == 0 { before } else { 0.0 };
            strip.keeps_next = n > 1 && (nth == 0 || nth + 2 == n);
            strip.tag(node, |strip| {
                strip.text(left, 0.0, line, set, Anchor::Left);
            });
            self.strips.push(strip);
        }
    }

    fn heading(&mut self, level: Level, written: &str) {
        let role = Role::Heading(level, written.to_owned());
        let node = self.tree.add(role, None);
        let (set, before) = match level {
            Level::Title => (Type::bold(34.0), 0.0),
            Level::Part => (Type::bold(22.0), 26.0),
            Level::Point => (Type::bold(BODY + 1.0), 15.0),
        };
        let first = self.strips.len();
        self.lines(node, written, set, (0.0, before));
        for strip in self.strips.iter_mut().skip(first) {
            strip.keeps_next = true;
        }
        // A part is ruled off.
        if let (Level::Part, Some(strip)) = (level, self.strips.get_mut(first)) {
            strip.height += 7.0;
            let moved = std::mem::take(strip);
            let mut ruled = Strip {
                height: moved.height,
                before: moved.before,
                keeps_next: true,
                ..Strip::default()
            };
            ruled.rule(0.0, self.width, 0.0, RULE);
            ruled.take(moved, (0.0, 6.0));
            *strip = ruled;
        }
        self.after(4.0);
    }

    /// Space under the last strip.
    fn after(&mut self, space: f64) {
        if let Some(last) = self.strips.last_mut() {
            last.height += space;
        }
    }

    fn paragraph(&mut self, style: Style, written: &str) {
        let set = match style {
            Style::Plain => Type::regular(BODY),
            Style::Lead => Type::regular(20.0),
            Style::Strong => Type::bold(BODY),
            Style::Note => Type::second(NOTE),
        };
        let node = self.tree.add(Role::Paragraph, None);
        self.lines(node, written, set, (0.0, 0.0));
        self.after(APART);
    }

    fn list(&mut self, mark: Mark, lines: &[String]) {
        let set = Type::regular(BODY);
        let list = self.tree.add(Role::List(mark == Mark::Number), None);
        let last = format!("{}.", lines.len());
        let left = match mark {
            Mark::Dot => 20.0,
            Mark::Number => 32.0_f64.max(width_of(&last, set.weight, set.size) + 8.0),
            Mark::Box => 32.0,
        };
        for (nth, written) in lines.iter().enumerate() {
            let item = self.tree.add(Role::ListItem, Some(list));
            let label = self.tree.add(Role::ListMark, Some(item));
            let text = self.tree.add(Role::ListText, Some(item));
            let first = self.strips.len();
            self.lines(text, written, set, (left, 0.0));
            if let Some(strip) = self.strips.get_mut(first) {
                strip.tag(label, |strip| match mark {
                    Mark::Dot => strip.text(4.0, 0.0, "•", set, Anchor::Left),
                    Mark::Number => {
                        strip.text(
                            left - 8.0,
                            0.0,
                            &format!("{}.", nth + 1),
                            set,
                            Anchor::Right,
                        );
                    }
                    Mark::Box => strip.tick_box(5.0, 0.5 * set.leading(), 15.0),
                });
            }
            self.after(if mark == Mark::Box { 6.0 } else { 3.0 });
        }
        self.after(APART - 3.0);
    }

    fn caution(&mut self, written: &str) {
        let set = Type::regular(BODY);
        let left = 44.0;
        let lines = wrap(written, set.weight, set.size, self.width - left - 10.0);
        let node = self.tree.add(Role::Paragraph, None);
        // One that is higher than a page has several frames.
        for lines in lines.chunks(lines_within(self.height - 40.0, set)) {
            let text_height = set.leading() * count(lines.len());
            let height = text_height.max(26.0) + 14.0;
            let mut strip = Strip::of_height(height);
            strip.frame((0.0, 0.0), (self.width, height), RULE);
            triangle(&mut strip, 0.5 * height);
            let top = 0.5 * (height - text_height);
            strip.tag(node, |strip| {
                for (nth, line) in lines.iter().enumerate() {
                    let top = top + set.leading() * count(nth);
                    strip.text(left, top, line, set, Anchor::Left);
                }
            });
            self.strips.push(strip);
            self.after(APART);
        }
    }

    /// Names over their values, three across where they are short enough, ruled like a title block.
    fn facts(&mut self, facts: &[(String, String)]) {
        let (name, value) = (Type::second(NOTE - 1.0), Type::regular(BODY));
        let wide = |written: &str, of: Type| of.size * text::advance(written, of.weight);
        let widest = facts
            .iter()
            .map(|(called, written)| wide(written, value).max(wide(called, name)))
            .fold(0.0, f64::max);
        // Longer values stand in several lines.
        let n_columns: usize = if widest < self.width / 3.0 - 20.0 {
            3
        } else if widest < 2.0 * self.width {
            2
        } else {
            1
        };
        let column = self.width / count(n_columns);
        let mut is_first = true;
        for row in facts.chunks(n_columns) {
            let cells: Vec<Vec<String>> = row
                .iter()
                .map(|(_, written)| wrap(written, value.weight, value.size, column - 16.0))
                .collect();
            let nodes: Vec<usize> = row
                .iter()
                .map(|_| self.tree.add(Role::Paragraph, None))
                .collect();
            let n_lines = cells.iter().map(Vec::len).max().unwrap_or(1);
            let n_fit = lines_within(self.height - name.leading() - 40.0, value);
            for from in (0..n_lines.max(1)).step_by(n_fit) {
                let n_here = n_fit.min(n_lines.max(1) - from);
                let height = name.leading() + value.leading() * count(n_here) + 8.0;
                let mut strip = Strip::of_height(height);
                strip.rule(0.0, self.width, 0.0, if is_first { RULE } else { HAIRLINE });
                is_first = false;
                for (nth, (((called, _), lines), node)) in
                    row.iter().zip(&cells).zip(&nodes).enumerate()
                {
                    let x = column * count(nth) + if nth > 0 { 10.0 } else { 0.0 };
                    if nth > 0 {
                        strip.line(&[(x - 10.0, 0.0), (x - 10.0, height)], HAIRLINE, Ink::Ink);
                    }
                    strip.tag(*node, |strip| {
                        if from == 0 {
                            strip.text(x, 3.0, called, name, Anchor::Left);
                        }
                        for (nth, line) in lines.iter().skip(from).take(n_here).enumerate() {
                            let top = 3.0 + name.leading() + value.leading() * count(nth);
                            strip.text(x, top, line, value, Anchor::Left);
                        }
                    });
                }
                self.strips.push(strip);
            }
        }
        if let Some(last) = self.strips.last_mut() {
            let at = last.height;
            last.rule(0.0, self.width, at, RULE);
        }
        self.after(2.0 * APART);
    }

    fn figures(&mut self, figures: &[Figure]) {
        let mut row: Vec<Strip> = Vec::new();
        let mut used = 0.0;
        for figure in figures {
            let strip = self.figure(figure);
            let width = figure.drawing.sheet.width.min(self.width);
            if !row.is_empty() && used + GUTTER + width > self.width + 0.5 {
                self.beside_each_other(std::mem::take(&mut row));
                used = 0.0;
            }
            used += width + if row.is_empty() { 0.0 } else { GUTTER };
            // The strip's own spare field carries its width to where it is placed.
            row.push(Strip {
                before: width,
                ..strip
            });
        }
        self.beside_each_other(row);
    }

    fn beside_each_other(&mut self, row: Vec<Strip>) {
        let height = row.iter().map(|strip| strip.height).fold(0.0, f64::max);
        let mut together = Strip::of_height(height);
        let mut x = 0.0;
        for mut strip in row {
            let width = std::mem::take(&mut strip.before);
            together.take(strip, (x, 0.0));
            x += width + GUTTER;
        }
        together.before = 4.0;
        self.strips.push(together);
        self.after(APART + 4.0);
    }

    /// A drawing with what stands under it. One that is larger than the paper is drawn smaller, and says so.
    fn figure(&mut self, figure: &Figure) -> Strip {
        let drawing = &figure.drawing;
        let set = Type::second(NOTE);
        let caption_room = self.caption_height(&figure.caption, drawing.sheet.width, set);
        let share = (self.width / drawing.sheet.width)
            .min((self.height - caption_room) / drawing.sheet.height)
            .min(1.0);
        let (width, height) = (drawing.sheet.width * share, drawing.sheet.height * share);
        let mut strip = Strip::of_height(height);
        let node = self.tree.add(Role::Figure(drawing.words.clone()), None);
        let to = |point: Point| {
            let (right, down) = drawing.sheet_from_drawing(point);
            Point {
                x: share * right,
                y: -share * down,
            }
        };
        strip.tag(node, |strip| {
            let within = Within {
                left: 0.0,
                right: width,
                low: -height,
                high: 0.0,
            };
            let items = drawing.items.iter().cloned();
            let placed = items.map(|item| placed(item, to, share));
            strip
                .items
                .extend(placed.flat_map(|item| clipped(item, within)));
        });
        let caption = if share < 1.0 {
            let percent = format!("{:.0}", share * 100.0);
            let smaller = self
                .words
                .say_with("drawn-smaller", &[("percent", (&percent).into())]);
            format!("{} {smaller}", figure.caption)
        } else {
            figure.caption.clone()
        };
        self.caption(&mut strip, &caption, width.max(LEAST_CAPTION), set);
        strip
    }

    /// Height that a caption takes under its figure, with a line over for what may be added; at most half a page.
    fn caption_height(&self, written: &str, figure_width: f64, set: Type) -> f64 {
        let width = figure_width.min(self.width).max(LEAST_CAPTION);
        let lines = wrap(written, set.weight, set.size, width);
        (set.leading() * count(lines.len() + 1) + 8.0).min(0.5 * self.height)
    }

    /// As many lines as still fit a page under what stands in the strip; the last says when some are left out.
    fn caption(&mut self, strip: &mut Strip, written: &str, width: f64, set: Type) {
        if written.is_empty() {
            return;
        }
        let node = self.tree.add(Role::Caption, None);
        strip.height += 4.0;
        let mut lines = wrap(written, set.weight, set.size, width);
        let n_fit = lines_within(self.height - strip.height - 4.0, set);
        if lines.len() > n_fit {
            lines.truncate(n_fit);
            if let Some(last) = lines.last_mut() {
                *last = shortened(&format!("{last} …"), set.weight, set.size, width);
            }
        }
        strip.tag(node, |strip| {
            for line in &lines {
                let top = strip.height;
                strip.text(0.0, top, line, set, Anchor::Left);
                strip.height += set.leading();
            }
        });
    }

    fn picture(&mut self, picture: &Picture) {
        let node = self.tree.add(Role::Figure(picture.caption.clone()), None);
        let mut strip = Strip::default();
        let taken = picture.bytes.as_ref().map_err(String::clone);
        let taken = taken.and_then(|bytes| match cannot_be_taken(bytes) {
            Some(_) => Err(self.words.say("no-picture")),
            None => Ok(bytes),
        });
        match taken {
            Ok(bytes) if picture.width > 0 && picture.height > 0 => {
                // At most two thirds of the width and a third of the height of the page.
                let (width, height) = (f64::from(picture.width), f64::from(picture.height));
                let share = (0.66 * self.width / width).min(0.36 * self.height / height);
                strip.height = share * height;
                strip.pictures.push(PlacedPicture {
                    at: (0.0, 0.0),
                    size: (share * width, share * height),
                    bytes: bytes.clone(),
                    node,
                });
                strip.frame((0.0, 0.0), (share * width, share * height), HAIRLINE);
            }
            Ok(_) => self.no_picture(&mut strip, node, ""),
            Err(why) => self.no_picture(&mut strip, node, &why),
        }
        let width = self.width;
        self.caption(&mut strip, &picture.caption, width, Type::second(NOTE));
        self.strips.push(strip);
        self.after(APART);
    }

    fn no_picture(&self, strip: &mut Strip, node: usize, why: &str) {
        let set = Type::second(NOTE);
        let why = if why.is_empty() {
            self.words.say("no-picture")
        } else {
            why.to_owned()
        };
        let lines = wrap(&why, set.weight, set.size, 0.66 * self.width - 24.0);
        strip.height = set.leading() * count(lines.len()) + 20.0;
        let height = strip.height;
        strip.frame((0.0, 0.0), (0.66 * self.width, height), HAIRLINE);
        strip.tag(node, |strip| {
            for (nth, line) in lines.iter().enumerate() {
                strip.text(
                    12.0,
                    10.0 + set.leading() * count(nth),
                    line,
                    set,
                    Anchor::Left,
                );
            }
        });
    }

    fn signature(&mut self, line: &SignatureLine) {
        let set = Type::second(NOTE);
        let mut strip = Strip::of_height(122.0);
        let signed_at = 84.0;
        let node = self.tree.add(Role::Paragraph, None);
        if let Some(signed) = &line.signed {
            strokes(&mut strip, signed, signed_at);
        }
        strip.rule(0.0, SIGNED, signed_at, 1.0);
        strip.rule(SIGNED + GUTTER, self.width, signed_at, 1.0);
        let name = line.signed.as_ref().map(|signed| signed.name.as_str());
        let under = match name {
            Some(name) if !name.is_empty() => format!("{}: {name}", line.role),
            _ => line.role.clone(),
        };
        let value = Type::regular(BODY);
        let date = self.words.say("date");
        let mut lines = wrap(&under, set.weight, set.size, SIGNED);
        lines.truncate(lines_within(self.height - 160.0, set));
        strip.height += set.leading() * count(lines.len().saturating_sub(1));
        strip.tag(node, |strip| {
            for (nth, line) in lines.iter().enumerate() {
                let top = signed_at + 3.0 + set.leading() * count(nth);
                strip.text(0.0, top, line, set, Anchor::Left);
            }
            strip.text(
                SIGNED + GUTTER,
                signed_at - value.leading() - 2.0,
                &line.date,
                value,
                Anchor::Left,
            );
            strip.text(SIGNED + GUTTER, signed_at + 3.0, &date, set, Anchor::Left);
        });
        self.strips.push(strip);
    }

    fn write_in(&mut self, written: &str, n_lines: usize) {
        let set = Type::second(NOTE);
        let node = self.tree.add(Role::Paragraph, None);
        self.lines(node, written, set, (0.0, 0.0));
        if let Some(last) = self.strips.last_mut() {
            last.keeps_next = true;
        }
        for nth in 0..n_lines.min(60) {
            let mut strip = Strip::of_height(HAND);
            strip.rule(0.0, self.width, HAND - 1.0, HAIRLINE);
            strip.keeps_next = nth + 1 < n_lines.min(LEAST_HAND);
            strip.is_spare = nth >= LEAST_HAND;
            self.strips.push(strip);
        }
        self.after(APART);
    }

    /// One strip of all, where that fits a page.
    fn together(&mut self, blocks: &[Block]) {
        let first = self.strips.len();
        self.set(blocks);
        let whole: f64 = self
            .strips
            .iter()
            .skip(first)
            .map(|strip| strip.height + strip.before)
            .sum();
        let parts = self.strips.split_off(first);
        let starts_page = parts.iter().any(|strip| strip.starts_page);
        if whole > self.height || starts_page {
            self.strips.extend(parts);
            return;
        }
        let mut together = Strip::default();
        for (nth, mut strip) in parts.into_iter().enumerate() {
            let before = std::mem::take(&mut strip.before);
            if nth == 0 {
                together.before = before;
            } else {
                together.height += before;
            }
            let (at, height) = (together.height, strip.height);
            together.take(strip, (0.0, at));
            together.height += height;
        }
        self.strips.push(together);
    }
}

/// The triangle of a caution, painted: its middle at that height.
fn triangle(strip: &mut Strip, middle: f64) {
    let corners = [
        (11.0, middle + 11.0),
        (37.0, middle + 11.0),
        (24.0, middle - 12.0),
    ];
    strip.filled(&corners, Ink::Ink);
    for (from, to) in [(-4.0, 3.5), (5.5, 8.5)] {
        let mark = [(24.0, middle + from), (24.0, middle + to)];
        strip.line(&mark, 2.6, Ink::Paper);
    }
}

/// The strokes of a finger over the line.
fn strokes(strip: &mut Strip, signed: &Signature, signed_at: f64) {
    let lowest = signed
        .strokes
        .iter()
        .flatten()
        .map(|point| f64::from(point.1))
        .fold(1.0, f64::max);
    // Never higher than the room over the line.
    let share = (SIGNED / 1000.0).min((signed_at - 6.0) / lowest);
    let top = signed_at - 4.0 - share * lowest;
    for stroke in &signed.strokes {
        let mut points: Vec<(f64, f64)> = stroke
            .iter()
            .map(|&(right, down)| (share * f64::from(right), top + share * f64::from(down)))
            .collect();
        if let (1, Some(&(x, y))) = (points.len(), points.first()) {
            points.push((x + 1.0, y));
        }
        strip.line(&points, 2.0, Ink::Ink);
    }
}

/// A count as a number of dots.
pub(super) fn count(n: usize) -> f64 {
    u32::try_from(n).map_or(0.0, f64::from)
}

/// How wide a text is in one line, in dots.
pub(super) fn width_of(written: &str, weight: Weight, size: f64) -> f64 {
    size * text::advance(written, weight)
}
