//! Underbrick on a desk: the window; or, where there is no display, the same job on paper.

mod desk;
mod paper;
mod window;

use std::ffi::OsString;
use std::path::PathBuf;

use anyhow::Context as _;
use underbrick_records::Shelf;

const HELP: &str = "\
Underbrick: from test pit to section, for the one who rebuilds sunken brick walks.

  underbrick-desktop                    the window, with the list of sites
  underbrick-desktop SITE               the window, with one site folder open
  underbrick-desktop --sites FOLDER     keep the sites in FOLDER instead of this machine's data folder
  underbrick-desktop --paper FOLDER [SITE]
                                        no window: both drawings (SVG, PNG) and the results into FOLDER
  underbrick-desktop --causes FILE      your own rules for causes, over the built-in ones, instead of causes.ron beside the sites
  underbrick-desktop --prices FILE      your own price list, in the place of the invented one, instead of prices.ron beside the sites
  underbrick-desktop --measure [SITE]   print when the third frame is begun and the memory then, and close
";

/// What was asked for on the command line.
#[derive(Default)]
struct Asked {
    sites: Option<PathBuf>,
    paper: Option<PathBuf>,
    site: Option<PathBuf>,
    own: paper::OwnFiles,
    measure: bool,
    help: bool,
}

fn main() -> anyhow::Result<()> {
    let started = window::Measure::start();
    let asked = asked(std::env::args_os().skip(1).collect())?;
    let measure = asked.measure.then_some(started);
    if asked.help {
        return say(HELP);
    }
    if let Some(folder) = &asked.paper {
        return on_paper(folder, &asked);
    }
    if !has_display() {
        say("There is no display here, so the job is done on paper instead.\n")?;
        return on_paper(&PathBuf::from("underbrick-on-paper"), &asked);
    }
    let shelf = match asked.sites.clone() {
        Some(folder) => Shelf::at(folder),
        None => {
            Shelf::platform().context("no place to keep sites; name one with --sites FOLDER")?
        }
    };
    match window::show(shelf, asked.site.clone(), asked.own.clone(), measure) {
        Ok(()) => Ok(()),
        Err(error) => {
            say(&format!(
                "No window can be opened here ({error}), so the job is done on paper instead.\n"
            ))?;
            on_paper(&PathBuf::from("underbrick-on-paper"), &asked)
        }
    }
}

fn on_paper(folder: &std::path::Path, asked: &Asked) -> anyhow::Result<()> {
    let place = paper::write(folder, asked.site.as_deref(), asked.own.clone())?;
    say(&format!(
        "Drawings and results are in {}\n",
        place.display()
    ))
}

fn asked(arguments: Vec<OsString>) -> anyhow::Result<Asked> {
    let mut asked = Asked::default();
    let mut arguments = arguments.into_iter();
    while let Some(argument) = arguments.next() {
        match argument.to_str() {
            Some("--help" | "-h") => asked.help = true,
            Some("--measure") => asked.measure = true,
            Some("--sites") => {
                asked.sites = Some(folder_behind("--sites", arguments.next())?);
            }
            Some("--paper") => {
                asked.paper = Some(folder_behind("--paper", arguments.next())?);
            }
            Some("--causes") => {
                let file = arguments.next().map(PathBuf::from);
                asked.own.causes = Some(file.context("--causes needs a file behind it")?);
            }
            Some("--prices") => {
                let file = arguments.next().map(PathBuf::from);
                asked.own.prices = Some(file.context("--prices needs a file behind it")?);
            }
            Some(other) if other.starts_with('-') => {
                anyhow::bail!("{other} is not understood\n\n{HELP}")
            }
            _ if asked.site.is_none() => asked.site = Some(argument.into()),
            _ => anyhow::bail!("only one site can be named\n\n{HELP}"),
        }
    }
    Ok(asked)
}

fn folder_behind(option: &str, argument: Option<OsString>) -> anyhow::Result<PathBuf> {
    argument
        .map(PathBuf::from)
        .with_context(|| format!("{option} needs a folder behind it"))
}

/// On Linux a window needs a display server; elsewhere there is one, or opening the window says that there is none.
fn has_display() -> bool {
    let is_named = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    !cfg!(target_os = "linux") || is_named("DISPLAY") || is_named("WAYLAND_DISPLAY")
}

fn say(words: &str) -> anyhow::Result<()> {
    use std::io::Write as _;
    match std::io::stdout().write_all(words.as_bytes()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}
