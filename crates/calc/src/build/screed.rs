//! The screed board and the gauge rod: what is cut from scrap wood.

use super::surface::Surface;
use crate::quantity::Length;

/// The screed board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screed {
    /// Its length: over both forms, or between the edge bricks where nothing else carries it.
    pub length: Length,
    /// From the form top, or the edge brick's, down to the screeded setting bed: how deep the ends are notched.
    pub notch: Length,
    /// How far the brick stands proud before the plate: what the plate takes down.
    pub proud: Length,
    /// Width of the board that dips between the edges.
    pub between: Length,
}

/// A mark of the gauge rod, from its upper end, which is held to the string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GaugeMark {
    /// Which surface.
    pub surface: Surface,
    /// From the string down. The same at every stake, but for the bottom of the dig.
    pub below_string: Length,
    /// Whether it holds everywhere, or only where the dig is as deep as its least.
    pub is_everywhere: bool,
}
