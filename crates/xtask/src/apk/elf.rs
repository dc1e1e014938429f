//! What the linked library is, as `readelf` tells it.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use anyhow::ensure;

use super::tools::output;

/// What Android calls.
const EXPORTS: [&str; 2] = ["ANativeActivity_onCreate", "android_main"];

/// Libraries that Android lets an app load.
const MAY_NEED: [&str; 5] = [
    "libandroid.so",
    "libc.so",
    "libdl.so",
    "liblog.so",
    "libm.so",
];

/// What of a library counts.
#[derive(Debug, Default, PartialEq)]
struct About {
    machine: String,
    load_alignments: BTreeSet<String>,
    exports: BTreeSet<String>,
    needed: BTreeSet<String>,
}

/// Looks at it.
///
/// # Errors
/// What is not as Android wants it.
pub fn check(library: &Path) -> anyhow::Result<()> {
    let mut readelf = Command::new("readelf");
    let about = read(&output(
        readelf
            .args([
                "--wide",
                "--file-header",
                "--program-headers",
                "--dynamic",
                "--dyn-syms",
            ])
            .arg(library),
    )?);
    ensure!(
        about.machine == "AArch64",
        "the library is for {}",
        about.machine
    );
    ensure!(
        about.load_alignments == BTreeSet::from(["0x4000".to_owned()]),
        "the library is not laid out for pages of 16 KiB: {:?}",
        about.load_alignments
    );
    ensure!(
        about.exports.iter().map(String::as_str).eq(EXPORTS),
        "the library must give {EXPORTS:?} and gives {:?}",
        about.exports
    );
    let unknown: Vec<_> = about
        .needed
        .iter()
        .filter(|name| !MAY_NEED.contains(&name.as_str()))
        .collect();
    ensure!(
        unknown.is_empty(),
        "Android has no such library for an app: {unknown:?}"
    );
    Ok(())
}

fn read(text: &str) -> About {
    let mut about = About::default();
    for line in text.lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        match words.as_slice() {
            ["Machine:", machine, ..] => about.machine = (*machine).to_owned(),
            ["LOAD", .., alignment] => {
                about.load_alignments.insert((*alignment).to_owned());
            }
            [_, "(NEEDED)", .., name] => {
                about
                    .needed
                    .insert(name.trim_matches(['[', ']']).to_owned());
            }
            [_, _, _, _, "GLOBAL" | "WEAK", _, section, name] if *section != "UND" => {
                about.exports.insert((*name).to_owned());
            }
            _ => {}
        }
    }
    about
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_counts_is_read() {
        let text = "\
  Machine:                           AArch64
  LOAD           0x000000 0x0000000000000000 0x0000000000000000 0x1a2b3c 0x1a2b3c R   0x4000
  LOAD           0x1a4000 0x00000000001a8000 0x00000000001a8000 0x3a2b3c 0x3a2b3c R E 0x1000
 0x0000000000000001 (NEEDED)             Shared library: [libandroid.so]
     1: 0000000000000000     0 FUNC    GLOBAL DEFAULT  UND ALooper_wake
     2: 0000000000123456   120 FUNC    GLOBAL DEFAULT   13 android_main
     3: 0000000000123400   120 FUNC    LOCAL  DEFAULT   13 not_for_others
";
        let set = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
        let expected = About {
            machine: "AArch64".to_owned(),
            load_alignments: set(&["0x4000", "0x1000"]),
            exports: set(&["android_main"]),
            needed: set(&["libandroid.so"]),
        };
        assert_eq!(read(text), expected);
    }
}
