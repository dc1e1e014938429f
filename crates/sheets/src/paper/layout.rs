//! Strips to pages, with what stands on every page.

use std::collections::BTreeSet;

use underbrick_drawing::Drawing;
use underbrick_drawing::font::{self, Weight};
use underbrick_drawing::item::{Anchor, Item, Point, Sheet};
use underbrick_words::Words;

use super::blocks::{NOTE, Setter, count, width_of};
use super::pages::{Page, Pages};
use super::strip::{HAIRLINE, RULE, Strip, Type, placed};
use super::wrap::{shortened, wrap};
use super::{DOT_MM, Document, Paper};

/// From the upper edge of the paper to what is printed, in dots; the running head stands above.
const TOP: f64 = 22.0 / DOT_MM;
/// From the side.
const SIDE: f64 = 16.0 / DOT_MM;

/// Lays a document out on paper. The same document always gives the same pages.
#[must_use]
pub fn lay_out(document: &Document, paper: Paper) -> Pages {
    let words = Words::of(document.language);
    let mut setter = Setter::new(paper, words);
    setter.align_alike(&document.blocks);
    setter.set(&document.blocks);
    let Setter {
        height,
        tree,
        strips,
        ..
    } = setter;
    let mut bodies = paginated(strips, height);
    if bodies.is_empty() {
        bodies.push(Strip::default());
    }
    let n_pages = bodies.len();
    let pages = bodies
        .into_iter()
        .enumerate()
        .map(|(nth, body)| page(document, paper, words, body, (nth + 1, n_pages)))
        .collect();
    Pages {
        title: titled(document),
        language: document.language,
        paper,
        pages,
        nodes: tree.nodes,
    }
}

/// Title and address; the title alone where there is no address. Letters that steer a terminal have no place in metadata.
fn titled(document: &Document) -> String {
    let address: String = one_line(&document.address)
        .chars()
        .filter(|letter| {
            !letter.is_control() && !matches!(letter, '\u{feff}' | '\u{fffe}' | '\u{ffff}')
        })
        .collect();
    if address.is_empty() {
        document.title.clone()
    } else {
        format!("{}, {address}", document.title)
    }
}

/// Each page's strips as one.
fn paginated(strips: Vec<Strip>, height: f64) -> Vec<Strip> {
    let mut pages: Vec<Strip> = Vec::new();
    let mut page = Strip::default();
    let mut rest = strips.into_iter().peekable();
    while let Some(first) = rest.next() {
        if first.starts_page && first.items.is_empty() {
            if page.height > 0.0 {
                pages.push(std::mem::take(&mut page));
            }
            continue;
        }
        if first.is_spare && page.height + first.before + first.height > height + 0.01 {
            continue;
        }
        // What must stand together.
        let mut group = vec![first];
        while group.last().is_some_and(|last| last.keeps_next)
            && let Some(next) = rest.next_if(|next| !next.starts_page)
        {
            group.push(next);
        }
        let needed: f64 = group.iter().map(|strip| strip.before + strip.height).sum();
        if page.height > 0.0 && page.height + needed > height + 0.01 {
            pages.push(std::mem::take(&mut page));
        }
        for strip in group {
            // A group that is higher than a page is parted all the same.
            if page.height > 0.0 && page.height + strip.before + strip.height > height + 0.01 {
                pages.push(std::mem::take(&mut page));
            }
            add(&mut page, strip);
        }
    }
    if page.height > 0.0 {
        pages.push(page);
    }
    pages
}

fn add(page: &mut Strip, mut strip: Strip) {
    if page.height == 0.0 {
        if let Some(head) = strip.head.take() {
            let height = head.height;
            page.take((*head).clone(), (0.0, 0.0));
            page.height += height;
        }
    } else {
        page.height += strip.before;
    }
    let (at, height) = (page.height, strip.height);
    page.take(strip, (0.0, at));
    page.height += height;
}

/// A page with its running head and foot.
fn page(
    document: &Document,
    paper: Paper,
    words: &Words,
    body: Strip,
    (nth, n_pages): (usize, usize),
) -> Page {
    let (width_mm, height_mm) = paper.size_mm();
    let (width, height) = (width_mm / DOT_MM, height_mm / DOT_MM);
    let mut whole = Strip::default();
    whole.take(body, (SIDE, TOP));
    let missing = missing_letters(&whole.items, document);
    let furniture = furniture(document, words, (width, height), (nth, n_pages), &missing);
    whole.take(furniture, (0.0, 0.0));
    let metres = DOT_MM / 1000.0;
    let on_paper = |point: Point| Point {
        x: point.x * metres,
        y: point.y * metres,
    };
    let place = words.say_with(
        "page-of",
        &[("page", nth.into()), ("pages", n_pages.into())],
    );
    Page {
        drawing: Drawing {
            items: whole
                .items
                .into_iter()
                .map(|item| placed(item, on_paper, 1.0))
                .collect(),
            upper_left: Point { x: 0.0, y: 0.0 },
            sheet: Sheet {
                width,
                height,
                text_scale: 1.0,
            },
            dots_per_metre: 1000.0 / DOT_MM,
            heights_times: 1.0,
            words: format!("{}, {place}", titled(document)),
        },
        tagged: whole.tagged,
        pictures: whole.pictures,
    }
}

/// What stands on every page: title, address and date above; from whom, and the page's number below.
fn furniture(
    document: &Document,
    words: &Words,
    (width, height): (f64, f64),
    (nth, n_pages): (usize, usize),
    missing: &BTreeSet<char>,
) -> Strip {
    let (right, note) = (width - SIDE, Type::second(NOTE));
    let title = Type::bold(NOTE);
    let mut strip = Strip::default();
    let head = TOP - 44.0;
    let date_width = width_of(&document.date, note.weight, note.size);
    strip.text(right, head, &document.date, note, Anchor::Right);
    let title_width = width_of(&document.title, title.weight, title.size);
    strip.text(SIDE, head, &document.title, title, Anchor::Left);
    let left = SIDE + title_width + 18.0;
    let address = shortened(
        &one_line(&document.address),
        note.weight,
        note.size,
        right - date_width - 18.0 - left,
    );
    strip.text(left, head, &address, note, Anchor::Left);
    strip.rule(SIDE, right, TOP - 20.0, RULE);
    let foot = height - TOP + 26.0;
    strip.rule(SIDE, right, foot - 6.0, HAIRLINE);
    let place = words.say_with(
        "page-of",
        &[("page", nth.into()), ("pages", n_pages.into())],
    );
    strip.text(right, foot, &place, note, Anchor::Right);
    let place_width = width_of(&place, note.weight, note.size);
    let from = shortened(
        &one_line(&document.from),
        note.weight,
        note.size,
        right - place_width - 18.0 - SIDE,
    );
    strip.text(SIDE, foot, &from, note, Anchor::Left);
    if !missing.is_empty() {
        let letters: Vec<String> = missing
            .iter()
            .map(|letter| format!("U+{:04X}", u32::from(*letter)))
            .collect();
        let said = words.say_with(
            "letters-missing",
            &[("letters", (&letters.join(", ")).into())],
        );
        // Two lines have room over the edge of the paper; of more letters the rest is cut off visibly.
        let mut lines = wrap(&said, note.weight, note.size, right - SIDE).into_iter();
        let first = lines.next().unwrap_or_default();
        let rest = lines.collect::<Vec<_>>().join(" ");
        let second = shortened(&rest, note.weight, note.size, right - SIDE);
        for (nth, line) in [first, second].iter().enumerate() {
            let top = foot + note.leading() * count(nth + 1);
            strip.text(SIDE, top, line, note, Anchor::Left);
        }
    }
    strip
}

fn one_line(written: &str) -> String {
    written.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Letters of the page for which the type has no shape.
fn missing_letters(items: &[Item], document: &Document) -> BTreeSet<char> {
    let running = [
        &document.title,
        &document.address,
        &document.from,
        &document.date,
    ];
    let labels = items.iter().filter_map(|item| match item {
        Item::Label { text, .. } => Some(&text.written),
        Item::Area { .. } | Item::Line { .. } | Item::Hatch { .. } => None,
    });
    labels
        .chain(running)
        .flat_map(|written| written.chars())
        .filter(|letter| !letter.is_whitespace() && !font::has(*letter, Weight::Regular))
        .collect()
}
