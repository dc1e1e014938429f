//! Results to marks: cross-section, long section and plan as one display list, and its SVG. Knows nothing of egui, files or edits.
//!
//! A drawing is laid out for a sheet of a given size, then every mark is stated in ground units: metres to the right and up. The
//! back-ends (SVG here, egui in the app) only translate.

pub mod clearance;
pub mod font;
pub mod item;
pub mod marks;
pub mod palette;
pub mod svg;
pub mod text;

mod as_built;
mod callouts;
#[cfg(test)]
mod checks;
mod cross_section;
mod dimension;
mod draft;
mod edge_detail;
#[cfg(test)]
mod examples;
mod hatch;
mod inside;
mod long_section;
mod material;
mod pick;
mod plan;
mod scale;
mod spotted;
mod spread;
mod tongue;
mod wording;

pub use cross_section::{cross_section, cross_section_to_scale, plain};
pub use edge_detail::edge_detail;
pub use item::{Drawing, Item};
pub use long_section::{
    LongSection, long_section, long_section_on_paper, long_section_to_scale, plain_lengthwise,
};
pub use pick::picked;
pub use plan::{
    Handle, PlanInput, PlanPart, PlanView, handles, measured_on, piece_said, plan, plan_as_laid,
    plan_not_known, plan_part_as_laid,
};
pub use tongue::in_language;
