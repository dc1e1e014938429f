//! The bed from readings to volumes, through `compute`: against published figures, closed forms and numeric integrals.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

mod edge_bricks;
mod edges;
mod integrals;
mod lifts;
mod sections;
mod set_out;
mod sites;
mod soil;
mod stakes;
mod steps;
mod thickness;
mod volumes;
