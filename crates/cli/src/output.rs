//! Where words go: stdout, stderr, a file, and the exit status.

use anyhow::Context as _;
use std::io::{ErrorKind, Write as _};
use std::path::Path;
use std::process::ExitCode;

/// How it ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Nothing stops the job.
    Fine,
    /// A finding stops the job.
    Stopped,
    /// What was given cannot be worked with.
    BadInput,
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> Self {
        Self::from(match status {
            Status::Fine => 0,
            Status::Stopped => 1,
            Status::BadInput => 2,
        })
    }
}

/// Writes to stdout. A reader that has seen enough and closed it is no error.
pub fn say(text: &str) -> anyhow::Result<()> {
    let mut stdout = std::io::stdout().lock();
    match stdout
        .write_all(text.as_bytes())
        .and_then(|()| stdout.flush())
    {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            Err(error).context("cannot write to stdout")
        }
        _ => Ok(()),
    }
}

/// Writes one line to stderr. Where even that is closed there is nobody left to tell.
pub fn complain(line: &str) {
    let _nobody_left = std::io::stderr()
        .lock()
        .write_all(format!("{line}\n").as_bytes());
}

/// Writes a drawing to a file, and never over the site that it was drawn from.
pub fn write_file(path: &Path, site_file: &Path, text: &str) -> anyhow::Result<()> {
    let is_the_site = match (path.canonicalize(), site_file.canonicalize()) {
        (Ok(path), Ok(site_file)) => path == site_file,
        _ => false,
    };
    anyhow::ensure!(
        !is_the_site,
        "the output would take the place of the site itself: {}",
        path.display()
    );
    std::fs::write(path, text).with_context(|| format!("cannot write {}", path.display()))
}
