//! Needs as they are bought and priced, checked against published figures and exact arithmetic.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

mod cures;
mod findings;
mod lines;
mod lists;
mod loads;
mod programme;
mod properties;
mod totals;
mod units_of_sale;
