//! Manifest, resources and library in one aligned file.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Context as _;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::manifest::{for_level, version_code};
use super::root;
use super::tools::{PackTools, output};

/// A package that is not signed yet.
pub struct Packed {
    pub apk: PathBuf,
    /// What its Android is too old for.
    pub left_out: Vec<&'static str>,
}

/// Packs `library` with what stands in the tablet's crate.
///
/// # Errors
/// What one of the tools says.
pub fn pack(tools: &PackTools, library: &Path, work: &Path) -> anyhow::Result<Packed> {
    let from = root().join("crates/android/manifest");
    let (manifest, left_out) = for_level(&read(&from.join("AndroidManifest.xml"))?, tools.level);
    let own_manifest = work.join("AndroidManifest.xml");
    fs::write(&own_manifest, manifest)?;

    let (resources, base) = (work.join("resources.zip"), work.join("base.apk"));
    output(
        Command::new(&tools.aapt2)
            .arg("compile")
            .arg("--dir")
            .arg(from.join("res"))
            .arg("-o")
            .arg(&resources),
    )?;
    let version = env!("CARGO_PKG_VERSION");
    output(
        Command::new(&tools.aapt2)
            .arg("link")
            .args([
                "--version-name",
                version,
                "--version-code",
                &version_code(version).to_string(),
                "--replace-version",
            ])
            .arg("-o")
            .arg(&base)
            .arg("-I")
            .arg(&tools.framework)
            .arg("--manifest")
            .arg(&own_manifest)
            .arg(&resources),
    )?;
    add(&base, library)?;

    let aligned = work.join("aligned.apk");
    output(
        Command::new(&tools.zipalign)
            .args(["-f", "16384"])
            .args([&base, &aligned]),
    )?;
    output(
        Command::new(&tools.zipalign)
            .args(["-c", "16384"])
            .arg(&aligned),
    )?;
    Ok(Packed {
        apk: aligned,
        left_out,
    })
}

/// Adds the library, not compressed: Android maps it from within the package.
fn add(apk: &Path, library: &Path) -> anyhow::Result<()> {
    let name = library
        .file_name()
        .context("a library has a name")?
        .to_string_lossy();
    let file = fs::File::options().read(true).write(true).open(apk)?;
    let mut archive = ZipWriter::new_append(file)?;
    let stored = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    archive.start_file(format!("lib/arm64-v8a/{name}"), stored)?;
    let mut library = fs::File::open(library)
        .with_context(|| format!("could not be read: {}", library.display()))?;
    std::io::copy(&mut library, &mut archive)?;
    archive.finish()?;
    Ok(())
}

fn read(path: &Path) -> anyhow::Result<String> {
    fs::read_to_string(path).with_context(|| format!("could not be read: {}", path.display()))
}
