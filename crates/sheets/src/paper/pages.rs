//! Pages as laid out: display lists in metres on paper, with what each mark is.

use std::ops::Range;
use std::sync::Arc;

use underbrick_calc::site::Language;
use underbrick_drawing::Drawing;

use super::{Level, Paper};

/// A document, laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Pages {
    /// Title of the document with its address.
    pub title: String,
    /// What it is written in.
    pub language: Language,
    /// The sheet of paper.
    pub paper: Paper,
    /// Its pages.
    pub pages: Vec<Page>,
    /// Its structure, in reading order: a node comes after its parent.
    pub nodes: Vec<Node>,
}

/// One page. A metre of its drawing is a metre on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Every mark.
    pub drawing: Drawing,
    /// What the marks are. A mark that is in none of these is furniture of the page: a rule, the running head.
    pub tagged: Vec<Tagged>,
    /// Pictures, in dots from the page's upper left corner.
    pub pictures: Vec<PlacedPicture>,
}

/// A stretch of a page's marks, and what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tagged {
    /// Which items of the drawing.
    pub items: Range<usize>,
    /// Which of [`Pages::nodes`].
    pub node: usize,
}

/// A picture on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedPicture {
    /// Upper left corner, in dots to the right and down.
    pub at: (f64, f64),
    /// Width and height in dots.
    pub size: (f64, f64),
    /// A whole JPEG or PNG file.
    pub bytes: Arc<Vec<u8>>,
    /// Which of [`Pages::nodes`].
    pub node: usize,
}

/// A part of the structure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// What it is.
    pub role: Role,
    /// The node that it stands in.
    pub parent: Option<usize>,
}

/// What a part of a document is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Role {
    /// A heading.
    Heading(Level, String),
    /// A paragraph, a fact, a caution.
    Paragraph,
    /// A list; whether its items are numbered.
    List(bool),
    /// An item of a list.
    ListItem,
    /// Its mark.
    ListMark,
    /// What it says.
    ListText,
    /// A table.
    Table,
    /// A row of a table.
    Row,
    /// A cell at the head of a column.
    HeadCell,
    /// Any other cell.
    Cell,
    /// A drawing or a picture, with what it shows in words.
    Figure(String),
    /// What stands under it.
    Caption,
}

/// Builds the structure.
#[derive(Debug, Default)]
pub(super) struct Tree {
    pub nodes: Vec<Node>,
}

impl Tree {
    /// Adds a node, and gives its number.
    pub fn add(&mut self, role: Role, parent: Option<usize>) -> usize {
        self.nodes.push(Node { role, parent });
        self.nodes.len() - 1
    }
}
