//! Paper: a document in blocks, laid out into pages. A page is one display list, so that the preview on screen and the PDF show the same.

mod as_text;
mod blocks;
mod clipped;
mod layout;
mod pages;
mod pdf;
mod scaled;
mod strip;
mod table;
mod wrap;

use std::sync::Arc;

pub use as_text::as_text;
pub use layout::lay_out;
pub use pages::{Node, Page, Pages, PlacedPicture, Role, Tagged};
pub use pdf::{PdfError, write_pdf};
pub use scaled::{RoundScale, Scaled, cross_section_scaled, long_section_scaled, plan_view_scaled};

use underbrick_calc::site::{Language, Signature};
use underbrick_drawing::Drawing;

/// Millimetres on paper of one dot of a drawing: type of 15 dots is 8.5 points high.
pub const DOT_MM: f64 = 0.2;

/// A sheet of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// US Letter, 8 1/2 x 11 in (ANSI/ASME Y14.1, size A).
    #[default]
    Letter,
    /// A4, 210 x 297 mm (ISO 216).
    A4,
}

impl Paper {
    /// Width and height in millimetres.
    #[must_use]
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::Letter => (215.9, 279.4),
            Self::A4 => (210.0, 297.0),
        }
    }

    /// Width and height in dots of [`DOT_MM`] of what may be printed on.
    #[must_use]
    pub fn text_dots(self) -> (f64, f64) {
        let (width, height) = self.text_mm();
        (width / DOT_MM, height / DOT_MM)
    }

    /// Width and height in millimetres of what may be printed on, between the margins and below the running head. A drawing for this
    /// paper is laid out for at most so many millimetres over [`DOT_MM`].
    #[must_use]
    pub const fn text_mm(self) -> (f64, f64) {
        let (width, height) = self.size_mm();
        (width - 32.0, height - 44.0)
    }
}

/// What is to be printed, in reading order.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// Title, such as "Crew sheet"; with the address it is the title of the PDF.
    pub title: String,
    /// Address and walk, on every page.
    pub address: String,
    /// Who hands it over, on every page; empty where nothing is known.
    pub from: String,
    /// Date, as written, on every page.
    pub date: String,
    /// What it is written in.
    pub language: Language,
    /// What stands in it.
    pub blocks: Vec<Block>,
}

/// A part of a document.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading; it never stands alone at the foot of a page.
    Heading(Level, String),
    /// A paragraph.
    Text(Style, String),
    /// Lines of a list, each with its mark.
    List(Mark, Vec<String>),
    /// A framed caution with a painted triangle.
    Caution(String),
    /// Names with their values, in as many columns as fit.
    Facts(Vec<(String, String)>),
    /// A table; its head is repeated on every page that it reaches.
    Table(Table),
    /// A drawing, at its own size.
    Figure(Figure),
    /// Drawings side by side, at their own size.
    Figures(Vec<Figure>),
    /// A picture.
    Picture(Picture),
    /// A line to sign on, with what was signed.
    Signature(SignatureLine),
    /// Room to write on by hand: what goes there, and how many lines; where the page ends, fewer, but two at the least.
    WriteIn(String, usize),
    /// What is not parted by the end of a page, if it fits one.
    Together(Vec<Self>),
    /// The rest begins a new page.
    NewPage,
}

/// How deep a heading stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// Of the whole document.
    Title,
    /// Of a part.
    Part,
    /// Within a part.
    Point,
}

/// How a paragraph is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// As usual.
    Plain,
    /// The one sentence that matters: larger.
    Lead,
    /// Bold.
    Strong,
    /// Smaller, in the second ink.
    Note,
}

/// What stands before a line of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A dot.
    Dot,
    /// Its number, from 1.
    Number,
    /// An open box to tick by hand.
    Box,
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What it shows, in words, above it; empty for none.
    pub caption: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each with a cell for every column.
    pub rows: Vec<TableRow>,
}

/// A column of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Column {
    /// What stands at its head.
    pub head: String,
    /// How its cells stand.
    pub align: Align,
    /// Least width in millimetres; what is left over is shared by what the cells need.
    pub least_mm: f64,
}

/// How cells stand in their column.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// At the left: words.
    #[default]
    Left,
    /// At the right: figures.
    Right,
    /// In the middle.
    Middle,
}

/// A row of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TableRow {
    /// Its cells; a text is broken into lines where it is too long for its column. A cell of [`BOX`] is an open box to tick.
    pub cells: Vec<String>,
    /// Whether it stands out: a sum.
    pub is_strong: bool,
}

/// The text of a cell that is drawn as an open box.
pub const BOX: &str = "\u{2610}";

/// A drawing for paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it shows; under it.
    pub caption: String,
    /// Laid out for a sheet of [`DOT_MM`].
    pub drawing: Arc<Drawing>,
}

/// A photograph for paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// What it shows; under it.
    pub caption: String,
    /// A whole JPEG or PNG file, already brought to a size for print; or why there is none, in words.
    pub bytes: Result<Arc<Vec<u8>>, String>,
    /// Width in dots of the picture.
    pub width: u32,
    /// Height in dots of the picture.
    pub height: u32,
}

impl Picture {
    /// Of a whole JPEG or PNG file, or why there is none in words; `dots` are its width and height.
    #[must_use]
    pub const fn new(
        caption: String,
        bytes: Result<Arc<Vec<u8>>, String>,
        dots: (u32, u32),
    ) -> Self {
        Self {
            caption,
            bytes,
            width: dots.0,
            height: dots.1,
        }
    }
}

/// A line to sign on.
#[derive(Clone, Debug, PartialEq)]
pub struct SignatureLine {
    /// Who signs here, such as "Homeowner".
    pub role: String,
    /// What was signed; an empty line to sign on by hand without it.
    pub signed: Option<Signature>,
    /// Date of signing, as written; empty where it was not signed.
    pub date: String,
}
