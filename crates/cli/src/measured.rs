//! A site, read and worked out.

use anyhow::Context as _;
use std::path::{Path, PathBuf};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::Findings;
use underbrick_calc::site::{Letterhead, Site};
use underbrick_calc::{Results, compute};
use underbrick_records::OpenSite;
use underbrick_records::pictures::picture_findings;

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
    /// Who hands sheets over; `None` where nobody wrote it down.
    pub letterhead: Option<Letterhead>,
}

impl Measured {
    /// Reads and works out the site in a folder or a file. Own tables beside the site that cannot be used are told, and the built-in
    /// ones used.
    ///
    /// # Errors
    /// A site that cannot be read, and own tables that were named and cannot be used.
    pub fn read(asked: &SiteAsked) -> anyhow::Result<Self> {
        let open = OpenSite::open(&asked.site)?;
        let built_in =
            underbrick_records::catalogue().context("the built-in catalogue of materials")?;
        let own = open
            .own_tables()
            .or_named(asked.causes.clone(), asked.prices.clone())
            .or_named_letterhead(asked.letterhead.clone())
            .over(&built_in);
        let tables = [
            ("causes", asked.causes.is_some(), own.causes_fault),
            ("prices", asked.prices.is_some(), own.prices_fault),
        ];
        for (what, is_named, fault) in tables {
            let Some(error) = fault else { continue };
            if is_named {
                return Err(error).with_context(|| format!("the {what} named by --{what}"));
            }
            complain(&format!(
                "underbrick: own {what} left out, the built-in ones are used: {error}"
            ));
        }
        if let Some(error) = own.letterhead_fault {
            if asked.letterhead.is_some() {
                return Err(error).context("the letterhead named by --letterhead");
            }
            complain(&format!(
                "underbrick: own letterhead left out, sheets name nobody: {error}"
            ));
        }
        let catalogue = own.catalogue;
        let (site, mut findings) = open.site().checked(&catalogue);
        findings.append(picture_findings(folder_of(open.file()), open.site()));
        let results = compute(&site, &catalogue);
        findings.append(results.findings.clone());
        Ok(Self {
            file: open.file().to_path_buf(),
            site,
            catalogue,
            results,
            findings,
            letterhead: own.letterhead,
        })
    }

    /// The folder of the site.
    pub fn folder(&self) -> &Path {
        folder_of(&self.file)
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

/// Where a file lies; a bare name lies where the command was given.
fn folder_of(file: &Path) -> &Path {
    file.parent().unwrap_or(Path::new(""))
}
