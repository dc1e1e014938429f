//! What contributors run, behind `cargo xtask`.

mod apk;
mod pictures;

use anyhow::bail;

const HELP: &str = "\
cargo xtask pictures [FOLDER]   every screen, both ways up, both themes, as PNG, without a window (default: pictures)
";

fn main() -> anyhow::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.first().map(String::as_str) {
        Some("pictures") => {
            pictures::make(arguments.get(1).map_or("pictures", String::as_str).as_ref())
        }
        Some("apk") => apk::run(arguments.get(1..).unwrap_or_default()),
        Some(other) => bail!("{other} is not understood\n\n{HELP}{}", apk::HELP),
        None => bail!("say what to do\n\n{HELP}{}", apk::HELP),
    }
}
