//! Pages as PDF: vector marks, the type embedded and subset, real text, a tagged structure by PDF/UA-1 (ISO 14289-1). No clock: the same
//! pages always give the same bytes.
//!
//! Stands here and not in `drawing`: what a mark is, and what stands beside it, is known to the page alone.

use std::io::Write as _;
use std::num::NonZeroU16;
use std::sync::Arc;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use krilla::color::rgb;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Size, Transform};
use krilla::image::Image;
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ContentTag, Identifier, ListNumbering, SpanTag, TableHeaderScope, Tag, TagGroup,
    TagKind, TagTree,
};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
use underbrick_calc::site::Language;
use underbrick_drawing::Drawing;
use underbrick_drawing::font::{self, Weight};
use underbrick_drawing::item::{Dash, Item, Pen, Point};
use underbrick_drawing::palette::{Ink, Theme, rgb as rgb_of};
use underbrick_drawing::text::{Placed, Text, lay_out};

use super::pages::{Node, Page, Pages, PlacedPicture, Role};
use super::{DOT_MM, Level};

/// Size of the bar of a fraction as a letter, as a share of the full size.
const SMALL: f64 = 0.62;
/// Points of PDF in a dot.
const DOT: f64 = DOT_MM * 72.0 / 25.4;

/// Why pages did not become a PDF.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PdfError {
    /// The type could not be read.
    #[error("the bundled type cannot be read")]
    Type,
    /// A picture could not be taken over.
    #[error("a picture of page {page} cannot be taken over: {why}")]
    Picture {
        /// Number of the page.
        page: usize,
        /// What is wrong with it.
        why: String,
    },
    /// The document breaks a rule of the standard.
    #[error("the document cannot be written: {0}")]
    Document(String),
}

/// How hard streams are deflated, of 9: 6, which is usual, makes a crew sheet a fiftieth smaller and takes half as long again.
const DEFLATED: u32 = 4;

/// The pages as a PDF file.
///
/// # Errors
/// [`PdfError`] when a picture is no whole JPEG or PNG file, or the writer refuses.
pub fn write_pdf(pages: &Pages) -> Result<Vec<u8>, PdfError> {
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| PdfError::Document(format!("{error:?}")))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        enable_tagging: true,
        // Deflated when packed: see there.
        compress_content_streams: false,
        ..SerializeSettings::default()
    });
    let tongue = match pages.language {
        Language::English => "en-US",
        Language::Spanish => "es-US",
    };
    document.set_metadata(
        Metadata::new()
            .title(pages.title.clone())
            .language(tongue.to_owned())
            .creator("Underbrick".to_owned()),
    );
    let types = Types::new().ok_or(PdfError::Type)?;
    let mut leaves: Vec<Vec<Identifier>> = vec![Vec::new(); pages.nodes.len()];
    for (nth, page) in pages.pages.iter().enumerate() {
        draw_page(&mut document, page, &types, nth + 1, &mut leaves)?;
    }
    document.set_outline(outline(pages));
    document.set_tag_tree(tag_tree(&pages.nodes, leaves, tongue));
    let written = document
        .finish()
        .map_err(|error| PdfError::Document(format!("{error:?}")))?;
    packed(&written)
}

/// The same file with its small objects packed and deflated together: the structure of a long table is thousands of them.
///
/// # Source
/// Object streams and cross-reference streams of ISO 32000-1, 7.5.7 and 7.5.8, as the library writes them.
fn packed(written: &[u8]) -> Result<Vec<u8>, PdfError> {
    let failed = |error: lopdf::Error| PdfError::Document(error.to_string());
    let mut file = lopdf::Document::load_mem(written).map_err(failed)?;
    for object in file.objects.values_mut() {
        if let lopdf::Object::Stream(stream) = object {
            deflate(stream);
        }
    }
    // What is not suspect need not say so, and a widespread reader takes the word `false` there for a fault.
    if let Ok(catalog) = file.catalog_mut()
        && let Ok(marks) = catalog
            .get_mut(b"MarkInfo")
            .and_then(lopdf::Object::as_dict_mut)
        && matches!(marks.get(b"Suspects"), Ok(lopdf::Object::Boolean(false)))
    {
        marks.remove(b"Suspects");
    }
    let mut packed = Vec::with_capacity(written.len() / 2);
    let options = lopdf::SaveOptions::builder()
        .use_object_streams(true)
        .use_xref_streams(true)
        .max_objects_per_stream(200)
        .compression_level(9)
        .build();
    file.save_with_options(&mut packed, options)
        .map_err(|error| PdfError::Document(error.to_string()))?;
    Ok(packed)
}

/// Deflates what is not packed yet. What is told of the document stays as it is, for programs that look for it without a PDF reader.
fn deflate(stream: &mut lopdf::Stream) {
    let is_told = stream.dict.has_type(b"Metadata");
    if is_told || stream.dict.has(b"Filter") {
        return;
    }
    let room = Vec::with_capacity(stream.content.len() / 4);
    let mut writer = ZlibEncoder::new(room, Compression::new(DEFLATED));
    let deflated = writer
        .write_all(&stream.content)
        .and_then(|()| writer.finish());
    // Writing into memory does not fail; if it did, the stream would stand as it is.
    if let Ok(deflated) = deflated {
        stream
            .dict
            .set("Filter", lopdf::Object::Name(b"FlateDecode".to_vec()));
        stream.set_content(deflated);
    }
}

/// The headings of title and parts, each with where it stands; the document's title where there are none.
fn outline(pages: &Pages) -> Outline {
    let mut outline = Outline::new();
    let mut is_empty = true;
    for (nth, page) in pages.pages.iter().enumerate() {
        for tagged in &page.tagged {
            let Some(Role::Heading(Level::Title | Level::Part, written)) =
                pages.nodes.get(tagged.node).map(|node| &node.role)
            else {
                continue;
            };
            let Some(Item::Label { at, size, .. }) = page.drawing.items.get(tagged.items.start)
            else {
                continue;
            };
            // A heading of several lines is one entry.
            let starts = page.drawing.items.get(tagged.items.start);
            let is_first = pages
                .pages
                .iter()
                .flat_map(|page| page.tagged.iter().map(move |other| (page, other)))
                .find(|(_, other)| other.node == tagged.node)
                .is_some_and(|(page, other)| page.drawing.items.get(other.items.start) == starts);
            if !is_first {
                continue;
            }
            let (_, down) = page.drawing.sheet_from_drawing(*at);
            let spot = krilla::geom::Point::from_xy(0.0, points(down - 1.5 * size));
            outline.push_child(OutlineNode::new(
                written.clone(),
                XyzDestination::new(nth, spot),
            ));
            is_empty = false;
        }
    }
    if is_empty {
        let spot = krilla::geom::Point::from_xy(0.0, 0.0);
        outline.push_child(OutlineNode::new(
            pages.title.clone(),
            XyzDestination::new(0, spot),
        ));
    }
    outline
}

/// Both weights.
struct Types {
    regular: Font,
    bold: Font,
}

impl Types {
    fn new() -> Option<Self> {
        Some(Self {
            regular: Font::new(font::REGULAR.into(), 0)?,
            bold: Font::new(font::BOLD.into(), 0)?,
        })
    }
}

fn draw_page(
    document: &mut Document,
    page: &Page,
    types: &Types,
    number: usize,
    leaves: &mut [Vec<Identifier>],
) -> Result<(), PdfError> {
    let sheet = page.drawing.sheet;
    let settings = PageSettings::from_wh(points(sheet.width), points(sheet.height))
        .ok_or_else(|| PdfError::Document(format!("page {number} has no size")))?;
    let mut on_page = document.start_page_with(settings);
    let mut surface = on_page.surface();
    let mut pen = Writer {
        surface: &mut surface,
        drawing: &page.drawing,
        types,
    };
    let mut at = 0;
    for tagged in &page.tagged {
        pen.furniture(
            page.drawing
                .items
                .get(at..tagged.items.start)
                .unwrap_or_default(),
        );
        let items = page
            .drawing
            .items
            .get(tagged.items.clone())
            .unwrap_or_default();
        if let Some(leaves) = leaves.get_mut(tagged.node) {
            pen.content(items, leaves);
        }
        at = tagged.items.end;
    }
    pen.furniture(page.drawing.items.get(at..).unwrap_or_default());
    for picture in &page.pictures {
        let drawn = pen
            .picture(picture)
            .map_err(|why| PdfError::Picture { page: number, why })?;
        if let Some(leaves) = leaves.get_mut(picture.node) {
            leaves.push(drawn);
        }
    }
    surface.finish();
    on_page.finish();
    Ok(())
}

struct Writer<'a, 's> {
    surface: &'a mut Surface<'s>,
    drawing: &'a Drawing,
    types: &'a Types,
}

impl Writer<'_, '_> {
    /// Marks that are not read out: rules, the running head.
    fn furniture(&mut self, items: &[Item]) {
        if items.is_empty() {
            return;
        }
        self.surface
            .start_tagged(ContentTag::Artifact(Artifact::default()));
        for item in items {
            self.item(item);
        }
        self.surface.end_tagged();
    }

    /// Marks of one part, in one go; a label that is not set as it is written is a span of its own that says what is.
    fn content(&mut self, items: &[Item], leaves: &mut Vec<Identifier>) {
        let said_apart =
            |item: &Item| matches!(item, Item::Label { text, .. } if needs_words(text));
        let mut rest = items;
        while let Some((first, after)) = rest.split_first() {
            if let Item::Label { text, .. } = first
                && needs_words(text)
            {
                let span = SpanTag::empty().with_actual_text(Some(&text.written));
                leaves.push(self.surface.start_tagged(ContentTag::Span(span)));
                self.item(first);
                self.surface.end_tagged();
                rest = after;
                continue;
            }
            let n = rest.iter().take_while(|item| !said_apart(item)).count();
            let (marks, after) = rest.split_at(n);
            leaves.push(self.surface.start_tagged(ContentTag::Other));
            for item in marks {
                self.item(item);
            }
            self.surface.end_tagged();
            rest = after;
        }
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Area {
                outline,
                fill,
                pen,
                place: _,
            } => {
                let path = self.path([outline.as_slice()], true);
                self.draw(path, Some(*fill), *pen);
            }
            Item::Line {
                points,
                pen,
                place: _,
            } => {
                let path = self.path([points.as_slice()], false);
                self.draw(path, None, Some(*pen));
            }
            Item::Hatch { strokes, pen } => {
                let path = self.path(strokes.iter(), false);
                self.draw(path, None, Some(*pen));
            }
            Item::Label {
                at,
                text,
                size,
                ink,
                anchor,
                place: _,
            } => {
                let laid_out = lay_out(text);
                let (x, y) = self.drawing.sheet_from_drawing(*at);
                let left = x - size * laid_out.advance * anchor.share();
                let baseline = y + size * font::figure_height(text.weight) / 2.0;
                let mut written = text.written.as_str();
                for part in &laid_out.parts {
                    match part {
                        Placed::Run {
                            x,
                            y,
                            size: share,
                            letters,
                        } => {
                            let at = (left + size * x, baseline - size * y);
                            if skipped_space(&mut written, letters) {
                                self.unseen(at, ' ', (text.weight, size * share));
                            }
                            self.run(at, letters, (text.weight, size * share, *ink));
                        }
                        Placed::Bar { from, to, width } => {
                            let spot =
                                |at: &(f64, f64)| (left + size * at.0, baseline - size * at.1);
                            let path = path_of([&[spot(from), spot(to)][..]], false);
                            let pen = Pen {
                                ink: *ink,
                                width: size * width,
                                dash: Dash::Solid,
                            };
                            self.draw(path, None, Some(pen));
                            let middle = left + size * 0.5 * (from.0 + to.0);
                            let wide = SMALL * font::advance_of('/', text.weight);
                            let up = 0.5 * font::figure_height(text.weight) * (1.0 - SMALL);
                            let at = (middle - 0.5 * size * wide, baseline - size * up);
                            self.unseen(at, '/', (text.weight, size * SMALL));
                        }
                    }
                }
            }
        }
    }

    /// A letter that stands in what is written but is not painted as one, for those who read the text out.
    fn unseen(&mut self, (x, baseline): (f64, f64), letter: char, (weight, size): (Weight, f64)) {
        let Some(glyph) = font::glyph(letter, weight) else {
            return;
        };
        let advance = small(font::advance_of(letter, weight));
        let glyph = KrillaGlyph::new(
            GlyphId::new(u32::from(glyph)),
            advance,
            0.0,
            0.0,
            0.0,
            0..letter.len_utf8(),
            None,
        );
        let font = match weight {
            Weight::Regular => &self.types.regular,
            Weight::Bold => &self.types.bold,
        };
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(Fill {
            opacity: NormalizedF32::ZERO,
            ..fill(Ink::Paper)
        }));
        let start = krilla::geom::Point::from_xy(points(x), points(baseline));
        let mut bytes = [0; 4];
        self.surface.draw_glyphs(
            start,
            &[glyph],
            font.clone(),
            letter.encode_utf8(&mut bytes),
            points(size),
            false,
        );
    }

    /// Letters from the left end of their baseline. One that the type lacks is a box.
    fn run(
        &mut self,
        (mut x, baseline): (f64, f64),
        letters: &str,
        (weight, size, ink): (Weight, f64, Ink),
    ) {
        let mut glyphs: Vec<KrillaGlyph> = Vec::with_capacity(letters.len());
        let (mut from, mut known) = (x, String::new());
        for letter in letters.chars() {
            let advance = font::advance_of(letter, weight);
            if let Some(glyph) = font::glyph(letter, weight) {
                let start = known.len();
                known.push(letter);
                glyphs.push(KrillaGlyph::new(
                    GlyphId::new(u32::from(glyph)),
                    small(advance),
                    0.0,
                    0.0,
                    0.0,
                    start..known.len(),
                    None,
                ));
            } else {
                self.glyphs(
                    (from, baseline),
                    &mut glyphs,
                    &mut known,
                    (weight, size, ink),
                );
                if !letter.is_whitespace() {
                    self.no_letter((x, baseline), size * advance, (weight, size, ink));
                }
                from = x + size * advance;
            }
            x += size * advance;
        }
        self.glyphs(
            (from, baseline),
            &mut glyphs,
            &mut known,
            (weight, size, ink),
        );
    }

    /// The box of a letter that the type lacks.
    fn no_letter(
        &mut self,
        (x, baseline): (f64, f64),
        advance: f64,
        (weight, size, ink): (Weight, f64, Ink),
    ) {
        let (left, right) = (x + 0.1 * advance, x + 0.9 * advance);
        let top = baseline - size * font::figure_height(weight);
        let corners = [
            (left, top),
            (right, top),
            (right, baseline),
            (left, baseline),
            (left, top),
        ];
        let pen = Pen {
            ink,
            width: 0.06 * size,
            dash: Dash::Solid,
        };
        self.draw(path_of([&corners[..]], true), None, Some(pen));
    }

    fn glyphs(
        &mut self,
        (x, baseline): (f64, f64),
        glyphs: &mut Vec<KrillaGlyph>,
        known: &mut String,
        (weight, size, ink): (Weight, f64, Ink),
    ) {
        if !glyphs.is_empty() {
            let font = match weight {
                Weight::Regular => &self.types.regular,
                Weight::Bold => &self.types.bold,
            };
            self.surface.set_stroke(None);
            self.surface.set_fill(Some(fill(ink)));
            let start = krilla::geom::Point::from_xy(points(x), points(baseline));
            self.surface
                .draw_glyphs(start, glyphs, font.clone(), known, points(size), false);
        }
        glyphs.clear();
        known.clear();
    }

    fn path<'p>(&self, lines: impl IntoIterator<Item = &'p [Point]>, closed: bool) -> Option<Path> {
        let lines: Vec<Vec<(f64, f64)>> = lines
            .into_iter()
            .map(|line| {
                line.iter()
                    .map(|point| self.drawing.sheet_from_drawing(*point))
                    .collect()
            })
            .collect();
        path_of(lines.iter().map(Vec::as_slice), closed)
    }

    fn draw(&mut self, path: Option<Path>, filled: Option<Ink>, pen: Option<Pen>) {
        let Some(path) = path else { return };
        self.surface.set_fill(filled.map(fill));
        self.surface.set_stroke(pen.map(stroke));
        self.surface.draw_path(&path);
    }

    fn picture(&mut self, picture: &PlacedPicture) -> Result<Identifier, String> {
        let image = image(&picture.bytes)?;
        let size = Size::from_wh(points(picture.size.0), points(picture.size.1))
            .ok_or("it has no size")?;
        let node = self.surface.start_tagged(ContentTag::Other);
        self.surface.push_transform(&Transform::from_translate(
            points(picture.at.0),
            points(picture.at.1),
        ));
        self.surface.draw_image(image, size);
        self.surface.pop();
        self.surface.end_tagged();
        Ok(node)
    }
}

fn is_jpeg(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0xff, 0xd8])
}

fn image(bytes: &Arc<Vec<u8>>) -> Result<Image, String> {
    let data = Arc::clone(bytes);
    if is_jpeg(bytes) {
        Image::from_jpeg(data.into(), true)
    } else {
        Image::from_png(data.into(), true)
    }
}

/// Why a picture cannot be taken over into a PDF; `None` where it can. A JPEG is passed through as it is and must have its end; a PNG is
/// opened whole, which the library does only as it writes.
pub(super) fn cannot_be_taken(bytes: &Arc<Vec<u8>>) -> Option<String> {
    let image = match image(bytes) {
        Ok(image) => image,
        Err(why) => return Some(why),
    };
    if is_jpeg(bytes) {
        let has_end = bytes.windows(2).rev().any(|pair| pair == [0xff, 0xd9]);
        return (!has_end).then(|| "it ends too soon".to_owned());
    }
    let mut document = Document::new();
    let mut page = document.start_page();
    let mut surface = page.surface();
    if let Some(size) = Size::from_wh(1.0, 1.0) {
        surface.draw_image(image, size);
    }
    surface.finish();
    page.finish();
    document.finish().err().map(|error| format!("{error:?}"))
}

/// Whether a reader could not tell from the runs what is written: the box of a letter that the type lacks says nothing.
fn needs_words(text: &Text) -> bool {
    text.written
        .chars()
        .any(|letter| !font::has(letter, text.weight))
}

/// Steps over a run in what is written; whether a space was left out before it.
fn skipped_space(written: &mut &str, run: &str) -> bool {
    let is_same = |written: char, set: char| {
        matches!((written, set), ('\'', '′') | ('"', '″')) || written == set
    };
    let Some(first) = run.chars().next() else {
        return false;
    };
    let Some(start) = written.find(|letter| is_same(letter, first)) else {
        return false;
    };
    let (before, rest) = written.split_at(start);
    let skipped = before.ends_with(' ');
    let n = run.chars().count();
    *written = rest
        .char_indices()
        .nth(n)
        .map_or("", |(end, _)| rest.get(end..).unwrap_or_default());
    skipped
}

fn path_of<'p>(lines: impl IntoIterator<Item = &'p [(f64, f64)]>, closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for line in lines {
        let mut spots = line.iter().filter(|(x, y)| x.is_finite() && y.is_finite());
        let Some(&(x, y)) = spots.next() else {
            continue;
        };
        builder.move_to(coarse(x), coarse(y));
        for &(x, y) in spots {
            builder.line_to(coarse(x), coarse(y));
        }
        if closed {
            builder.close();
        }
    }
    builder.finish()
}

/// The paper of a screen has a tint; that of a printer is white by itself.
fn colour(ink: Ink) -> rgb::Color {
    let [red, green, blue] = if ink == Ink::Paper {
        [u8::MAX; 3]
    } else {
        rgb_of(ink, Theme::Sun)
    };
    rgb::Color::new(red, green, blue)
}

fn fill(ink: Ink) -> Fill {
    Fill {
        paint: colour(ink).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn stroke(pen: Pen) -> Stroke {
    Stroke {
        paint: colour(pen.ink).into(),
        width: points(pen.width),
        miter_limit: 4.0,
        line_cap: LineCap::Butt,
        line_join: LineJoin::Round,
        opacity: NormalizedF32::ONE,
        dash: pen.dashes().map(|(on, off)| StrokeDash {
            array: vec![points(on), points(off)],
            offset: 0.0,
        }),
    }
}

/// Dots as points of PDF, to the tenth: 35 µm, a tenth of the thinnest line.
fn coarse(dots: f64) -> f32 {
    small(libm::round(dots * DOT * 10.0) / 10.0)
}

/// Dots as points of PDF, to the hundredth: 4 µm.
fn points(dots: f64) -> f32 {
    small(libm::round(dots * DOT * 100.0) / 100.0)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "PDF has no finer numbers than f32, and a cast saturates"
)]
const fn small(value: f64) -> f32 {
    value as f32
}

/// The structure, with what was drawn for each of its parts.
fn tag_tree(nodes: &[Node], leaves: Vec<Vec<Identifier>>, tongue: &str) -> TagTree {
    let mut groups: Vec<TagGroup> = nodes
        .iter()
        .zip(leaves)
        .map(|(node, leaves)| {
            let mut group = TagGroup::new(tag(&node.role));
            for leaf in leaves {
                group.push(leaf);
            }
            group
        })
        .collect();
    let mut tree = TagTree::new().with_lang(Some(tongue.to_owned()));
    let mut top = Vec::new();
    // From the end: a node comes after its parent, so its own parts are complete.
    while let Some(mut group) = groups.pop() {
        // Parts were put in from the last to the first.
        let n_leaves = group
            .children
            .iter()
            .take_while(|child| matches!(child, krilla::tagging::Node::Leaf(_)))
            .count();
        group
            .children
            .get_mut(n_leaves..)
            .unwrap_or_default()
            .reverse();
        if group.children.is_empty() {
            continue;
        }
        match nodes.get(groups.len()).and_then(|node| node.parent) {
            Some(parent) => {
                if let Some(parent) = groups.get_mut(parent) {
                    parent.push(group);
                }
            }
            None => top.push(group),
        }
    }
    for group in top.into_iter().rev() {
        tree.push(group);
    }
    tree
}

fn tag(role: &Role) -> TagKind {
    match role {
        Role::Heading(level, written) => {
            let depth = match level {
                Level::Title => NonZeroU16::MIN,
                Level::Part => NonZeroU16::MIN.saturating_add(1),
                Level::Point => NonZeroU16::MIN.saturating_add(2),
            };
            Tag::Hn(depth, Some(written.clone())).into()
        }
        Role::Paragraph => Tag::P.into(),
        Role::List(true) => Tag::L(ListNumbering::Decimal).into(),
        Role::List(false) => Tag::L(ListNumbering::Disc).into(),
        Role::ListItem => Tag::LI.into(),
        Role::ListMark => Tag::Lbl.into(),
        Role::ListText => Tag::LBody.into(),
        Role::Table => Tag::Table.into(),
        Role::Row => Tag::TR.into(),
        Role::HeadCell => Tag::TH(TableHeaderScope::Column).into(),
        Role::Cell => Tag::TD.into(),
        Role::Figure(words) => Tag::Figure(Some(words.clone())).into(),
        Role::Caption => Tag::Caption.into(),
    }
}
