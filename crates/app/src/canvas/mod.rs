//! The display list on screen: marks to shapes, made once for each change and kept until the next.

pub mod lettering;
mod translate;

pub use translate::shapes;
