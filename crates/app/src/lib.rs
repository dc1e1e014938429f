//! Everything shown, on egui alone: no window of its own, no threads. Views read the visit and return edits; `visit` applies them.

mod album;
mod areas;
mod built;
pub mod canvas;
pub mod edit;
mod exchange;
mod ground;
mod kept_rows;
mod light;
mod open_site;
pub mod own_mark;
pub mod picture;
pub mod plan_view;
pub mod platform;
mod settings;
mod shell;
mod site_list;
pub mod stops;
mod taken;
pub mod theme;
mod title_bar;
mod visit;
mod widgets;

pub use album::{Album, Look};
pub use built::Clock;
pub use shell::Shell;
pub use visit::{Visit, Wake};
