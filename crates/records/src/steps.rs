//! The folder `history` beside `site.ron`: one whole state a file, numbered, and `at`, the number of the state in which the site
//! stood last.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::failure::RecordError;
use crate::history::MOST_STATES;
use crate::read::read_site;
use crate::v1::SiteFile;
use crate::whole::text_in;

/// What was found in a history folder.
#[derive(Debug, Default)]
pub struct Found {
    /// The states that can be read, at most the newest [`MOST_STATES`], oldest first.
    pub states: Vec<(u64, SiteFile)>,
    /// Highest number of any file there, readable or not.
    pub highest_number: u64,
    /// Number noted in `at`: a hint, as it is written last.
    pub at: Option<u64>,
}

/// Reads a history folder. What cannot be read is passed over and left there: the site itself does not depend on it.
pub fn read(site_folder: &Path) -> Found {
    let numbers = numbers(site_folder).unwrap_or_default();
    let newest = numbers.iter().rev().take(MOST_STATES);
    let mut states: Vec<(u64, SiteFile)> = newest
        .filter_map(|number| {
            Some((
                *number,
                read_site(&text_in(&state_path(site_folder, *number)).ok()?).ok()?,
            ))
        })
        .collect();
    states.reverse();
    let at = text_in(&at_path(site_folder))
        .ok()
        .and_then(|text| text.trim().parse().ok());
    Found {
        states,
        highest_number: numbers.last().copied().unwrap_or_default(),
        at,
    }
}

/// The numbers of all states in a history folder; none where there is no such folder.
///
/// # Errors
/// Where the folder cannot be listed.
pub fn numbers(site_folder: &Path) -> Result<BTreeSet<u64>, RecordError> {
    let folder = folder(site_folder);
    let failed = |error: io::Error| RecordError::from_system("read", &folder, &error);
    let entries = match fs::read_dir(&folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(BTreeSet::new()),
        entries => entries.map_err(failed)?,
    };
    let mut numbers = BTreeSet::new();
    for entry in entries {
        let name = entry.map_err(failed)?.file_name();
        let number = name
            .to_str()
            .and_then(|name| name.strip_suffix(".ron"))
            .filter(|stem| stem.len() >= 6);
        numbers.extend(number.and_then(|stem| stem.parse::<u64>().ok()));
    }
    Ok(numbers)
}

pub fn folder(site_folder: &Path) -> PathBuf {
    site_folder.join("history")
}

pub fn state_path(site_folder: &Path, number: u64) -> PathBuf {
    folder(site_folder).join(format!("{number:06}.ron"))
}

pub fn at_path(site_folder: &Path) -> PathBuf {
    folder(site_folder).join("at")
}
