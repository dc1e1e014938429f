//! What is handed over. Knows nothing of files, screens or paper sizes: it turns results into lists, and lists into text.
//!
//! [`results()`] gathers every result of a site as one flat, ordered list of figures with its tables and findings; [`to_json`] writes
//! it for machines and [`to_text`] for people.

pub mod agreement;
pub mod book;
pub mod brick;
pub mod causes;
pub mod crew;
pub mod dates;
pub mod figure;
pub mod handover;
pub mod order;
pub mod order_list;
pub mod owner;
pub mod paper;
pub mod penetrometers;
pub mod pits;
pub mod profile;
pub mod readings;
pub mod results;
pub mod sheet_set;
pub mod soil;
pub mod stakes;
pub mod thickness;

pub mod cautions;
mod columns;
mod figures;
mod json;
mod laying;
mod soil_text;
mod text;
mod wording;

pub use json::to_json;
pub use results::{ResultsSheet, results};
pub use text::to_text;
