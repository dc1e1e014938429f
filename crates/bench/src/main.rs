//! Figures of one run on one machine: the cost of an edit beside a peer, its growth with the run, bricks cut along a curve beside peers, the
//! start of the window beside an empty one, a frame on a tablet's screen.
//!
//! `cargo run --release -p underbrick-bench`. The window's figures need a display and the two programs built by
//! `cargo build --release -p underbrick-desktop -p underbrick-bench`.

#![expect(
    clippy::print_stdout,
    reason = "printing figures is what this program is for"
)]

mod edit;
mod frame;
mod grid;
mod lay;
mod random_walks;
mod sheets;
mod window;

/// The sample that bends.
const CURVED: &str = include_str!("../../../sample-sites/curved-to-a-drive/site.ron");

fn main() -> anyhow::Result<()> {
    if std::env::args().any(|argument| argument == "--grid-json") {
        return grid::print_json();
    }
    if let Some(n_walks) = std::env::args()
        .skip_while(|argument| argument != "--walks")
        .nth(1)
    {
        return random_walks::print_json(n_walks.parse()?);
    }
    if std::env::args().any(|argument| argument == "--sheets") {
        return sheets::print();
    }
    if std::env::args().any(|argument| argument == "--frame") {
        return frame::print();
    }
    edit::print()?;
    if std::env::args().any(|argument| argument == "--edit") {
        return Ok(());
    }
    lay::print()?;
    grid::print()?;
    sheets::print()?;
    frame::print()?;
    window::print()
}
