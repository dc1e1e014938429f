//! What each way of rebuilding needs, from readings to amounts, through `compute`: against published figures, closed forms and
//! properties.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

mod brick;
mod bulk;
mod edges;
mod half_measured;
mod properties;
#[path = "../earthwork/sites.rs"]
#[expect(dead_code, reason = "built for other tests as well")]
mod sites;
mod spoil;
mod walk;
