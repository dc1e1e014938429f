//! Everything shown, on egui alone: no window of its own, no threads. Views read the visit and return edits; `visit` applies them.

pub mod canvas;
pub mod edit;
mod ground;
pub mod picture;
mod shell;
mod site_list;
pub mod stops;
pub mod theme;
mod visit;
mod widgets;

pub use shell::Shell;
pub use visit::{Visit, Wake};
