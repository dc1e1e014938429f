//! A site, read and worked out.

use anyhow::Context as _;
use std::path::{Path, PathBuf};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::Findings;
use underbrick_calc::site::Site;
use underbrick_calc::{Results, compute};
use underbrick_records::OpenSite;

use crate::output::Status;

/// A site with all that follows from it.
pub struct Measured {
    /// The file that was read.
    pub file: PathBuf,
    /// The site as it was understood.
    pub site: Site,
    /// The materials.
    pub catalogue: Catalogue,
    /// What follows.
    pub results: Results,
    /// What could not be understood, then what the calculation found.
    pub findings: Findings,
}

impl Measured {
    /// Reads and works out the site in a folder or a file.
    pub fn read(path: &Path) -> anyhow::Result<Self> {
        let open = OpenSite::open(path)?;
        let catalogue =
            underbrick_records::catalogue().context("the built-in catalogue of materials")?;
        let (site, mut findings) = open.site().checked(&catalogue);
        let results = compute(&site, &catalogue);
        findings.append(results.findings.clone());
        Ok(Self {
            file: open.file().to_path_buf(),
            site,
            catalogue,
            results,
            findings,
        })
    }

    /// Whether a finding stops the job.
    pub fn status(&self) -> Status {
        if self.findings.stop_the_job() {
            Status::Stopped
        } else {
            Status::Fine
        }
    }
}
