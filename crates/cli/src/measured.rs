//! A site, read and worked out.

use anyhow::Context as _;
use std::path::PathBuf;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::Findings;
use underbrick_calc::site::Site;
use underbrick_calc::{Results, compute};
use underbrick_records::{OpenSite, OwnCauses};

use crate::arguments::SiteAsked;
use crate::output::{Status, complain};

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
    /// Reads and works out the site in a folder or a file. Own causes beside the site that cannot be used are told, and the built-in
    /// ones used.
    ///
    /// # Errors
    /// A site that cannot be read, and own causes that were named and cannot be used.
    pub fn read(asked: &SiteAsked) -> anyhow::Result<Self> {
        let open = OpenSite::open(&asked.site)?;
        let built_in =
            underbrick_records::catalogue().context("the built-in catalogue of materials")?;
        let catalogue = match &asked.causes {
            Some(path) => OwnCauses::Named(path.clone())
                .over(&built_in)
                .context("the causes named by --causes")?,
            None => open.own_causes().over(&built_in).unwrap_or_else(|error| {
                complain(&format!(
                    "underbrick: own causes left out, the built-in ones are used: {error}"
                ));
                built_in
            }),
        };
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
