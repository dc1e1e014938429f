//! What is read while the walk is built, held against a design worked out by hand, against published limits, and against itself.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a panic in a test is the failure report"
)]

mod lifts;
mod properties;
mod readings;
mod sites;
mod spots;
mod stages;
