//! Libraries with Android's names and nothing in them, to link against where there is no NDK: what links against them asks Android for nothing
//! that it has not.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Context as _;

use super::link::OLDEST_LEVEL;
use super::tools::output;

/// Names of functions that Android's libraries have, and that our library asks for.
const LIBRARIES: [(&str, &str); 5] = [
    ("c", include_str!("imports/c.txt")),
    ("m", include_str!("imports/m.txt")),
    ("dl", include_str!("imports/dl.txt")),
    ("android", include_str!("imports/android.txt")),
    ("log", include_str!("imports/log.txt")),
];

/// An archive without members: what unwinds the stack stands in libc from the oldest level on.
const EMPTY_ARCHIVE: &str = "!<arch>\n";

/// Makes the libraries and a linker that uses them, and gives that.
///
/// # Errors
/// What clang or lld says.
pub fn linker(clang: &Path, lld: &Path, work: &Path) -> anyhow::Result<PathBuf> {
    let folder = work.join("names");
    std::fs::create_dir_all(&folder)?;
    for (library, names) in LIBRARIES {
        let source = folder.join(format!("{library}.s"));
        let object = folder.join(format!("{library}.o"));
        write(&source, &assembly(names))?;
        output(
            Command::new(clang)
                .args([triple().as_str(), "-c", "-o"])
                .args([&object, &source]),
        )?;
        let name = format!("lib{library}.so");
        let mut shared = Command::new(lld);
        shared.args(["-shared", "-soname", &name, "-o"]);
        output(shared.args([&folder.join(&name), &object]))?;
    }
    write(&folder.join("libunwind.a"), EMPTY_ARCHIVE)?;

    let linker = folder.join("linker");
    let script = format!(
        "#!/bin/sh\nexec '{}' {} -nostdlib '-fuse-ld={}' '-L{}' \"$@\"\n",
        clang.display(),
        triple(),
        lld.display(),
        folder.display()
    );
    write(&linker, &script)?;
    make_executable(&linker)?;
    Ok(linker)
}

fn triple() -> String {
    format!("--target=aarch64-linux-android{OLDEST_LEVEL}")
}

/// A function that returns at once, for each name; what stands behind `#` is said of the name.
fn assembly(names: &str) -> String {
    names
        .lines()
        .filter_map(|line| line.split('#').next())
        .map(str::trim)
        .filter(|name| !name.is_empty())
        .map(|name| format!(".globl {name}\n.type {name},%function\n{name}: ret\n"))
        .collect()
}

fn write(path: &Path, text: &str) -> anyhow::Result<()> {
    std::fs::write(path, text).with_context(|| format!("could not be written: {}", path.display()))
}

#[cfg(unix)]
fn make_executable(path: &Path) -> anyhow::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o755))
        .with_context(|| format!("could not be made a program: {}", path.display()))
}

#[cfg(not(unix))]
fn make_executable(_path: &Path) -> anyhow::Result<()> {
    anyhow::bail!("without the NDK the tablet's library is linked on Linux only")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_name_stands_in_one_library() {
        let mut all: Vec<&str> = LIBRARIES
            .iter()
            .flat_map(|(_, names)| names.lines())
            .filter_map(|line| line.split('#').next())
            .map(str::trim)
            .filter(|name| !name.is_empty())
            .collect();
        let n_names = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), n_names);
        assert!(n_names > 100);
        assert!(assembly("open # a file\n\n# nothing\n").starts_with(".globl open\n"));
    }
}
