//! `underbrick pack` and `underbrick unpack`: a site as one file.

use std::path::Path;

use underbrick_records::{OpenSite, Shelf, pack, pack_into, unpack};

use crate::arguments::{PackAsked, UnpackAsked};
use crate::output::{Status, say};

/// Packs a site and says where the file is.
pub fn packed(asked: &PackAsked) -> anyhow::Result<Status> {
    let site = OpenSite::open(&asked.site)?;
    let folder = site.folder().ok_or_else(|| {
        anyhow::anyhow!(
            "a file that stands alone has nothing to pack; name the site's folder: {}",
            asked.site.display()
        )
    })?;
    let file = match &asked.output {
        Some(file) => {
            pack(folder, file)?;
            file.clone()
        }
        None => pack_into(folder, Path::new("."))?,
    };
    say(&format!("{}\n", file.display()))?;
    Ok(Status::Fine)
}

/// Unpacks a file and says where the site is.
pub fn unpacked(asked: &UnpackAsked) -> anyhow::Result<Status> {
    let folder = unpack(&asked.file, &Shelf::at(&asked.into))?;
    say(&format!("{}\n", folder.display()))?;
    Ok(Status::Fine)
}
