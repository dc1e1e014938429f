//! A level book: sights from one set-up after the other, reduced by height of collimation and by rise and fall, checked three ways,
//! closed on a known point, and its misclosure spread where that is wished.

mod allowed;
mod fault;
mod page;
mod reduce;
mod sums;
#[cfg(test)]
mod tests;

pub use allowed::{allowed_by_distance, allowed_by_set_ups, allowed_third_order, default_limit};
pub use fault::BookFault;
pub use page::{BookRow, LevelBook, Sight, Stands};
pub use reduce::{Closing, ReducedBook, ReducedRow, reduce};
pub use sums::Sums;
