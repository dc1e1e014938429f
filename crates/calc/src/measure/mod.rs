//! Lengths, angles, slopes and levels as people write and take them.

pub mod amount;
pub mod angle;
pub mod count;
pub mod decimal;
mod exact;
pub mod levels;
pub mod levels_book;
mod marks;
mod reader;
mod rounding;
mod shown;
pub mod slope;
pub mod written;
mod written_slope;
