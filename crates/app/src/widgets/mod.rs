//! Our own widgets: painted keys, rows, the gauge rod, the pad. Each is named for the screen reader by what it shows.

pub mod book;
pub mod build;
pub mod cause_row;
pub mod key;
pub mod mark;
pub mod offer_card;
pub mod order;
pub mod pad;
pub mod pictures;
pub mod rod;
pub mod rows;
pub mod show;
mod words;
