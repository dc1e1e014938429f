//! No crate of the tablet's compiles or links C: that would need the NDK's headers, which a plain machine has not.

use std::collections::BTreeSet;
use std::process::Command;

use anyhow::{Context as _, bail};
use serde_json::Value;

use super::root;
use super::tools::output;

/// Crates that compile C or look for it. The one that may name `cc` uses it for a part that we leave out.
const COMPILERS: [&str; 5] = ["cc", "cmake", "bindgen", "pkg-config", "vcpkg"];
const MAY_NAME_CC: &str = "android-activity";

/// Gives how many crates the tablet's library is built from.
///
/// # Errors
/// Which crate links or compiles C.
pub fn no_c() -> anyhow::Result<usize> {
    let of_tablet = [
        "--package=underbrick-android",
        "--target=aarch64-linux-android",
        "--edges=normal,build",
        "--prefix=depth",
        "--format= {p}",
    ];
    let tree = output(cargo("tree").args(of_tablet))?;
    let metadata = output(cargo("metadata").args([
        "--format-version=1",
        "--filter-platform=aarch64-linux-android",
    ]))?;
    let metadata: Value = serde_json::from_str(&metadata).context("what cargo metadata prints")?;
    let (n_crates, wrong) = look(&tree, &metadata);
    if !wrong.is_empty() {
        bail!("the tablet must do without C:\n  {}", wrong.join("\n  "));
    }
    if n_crates < 50 {
        bail!("cargo tree names no more than {n_crates} crates: the guard sees nothing");
    }
    Ok(n_crates)
}

fn cargo(subcommand: &str) -> Command {
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo.arg(subcommand).current_dir(root());
    cargo
}

/// How many crates stand in the tree, and what is wrong with them.
fn look(tree: &str, metadata: &Value) -> (usize, Vec<String>) {
    let mut names = BTreeSet::new();
    let mut wrong = BTreeSet::new();
    let mut above: Vec<&str> = Vec::new();
    for line in tree.lines() {
        let mut words = line.split_whitespace();
        let (Some(depth), Some(name), Some(version)) = (words.next(), words.next(), words.next())
        else {
            continue;
        };
        let depth: usize = depth.parse().unwrap_or(0);
        above.truncate(depth);
        let parent = above.last().copied().unwrap_or_default();
        above.push(name);
        names.insert((name, version.trim_start_matches('v')));
        if COMPILERS.contains(&name) && !(name == "cc" && parent == MAY_NAME_CC) {
            wrong.insert(format!("{parent} is built with {name}"));
        }
    }
    for package in metadata["packages"].as_array().into_iter().flatten() {
        let text = |field: &str| package[field].as_str().unwrap_or_default();
        if let Some(links) = package["links"].as_str()
            && names.contains(&(text("name"), text("version")))
        {
            wrong.insert(format!("{} links {links}", text("name")));
        }
    }
    (names.len(), wrong.into_iter().collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_crate_with_c_is_named_with_the_one_that_brings_it() {
        let tree = "0 tablet v0.1.0 (/x)\n1 window v0.3.0\n2 android-activity v0.6.1\n3 cc v1.0.0\n1 zipped v1.0.0\n2 zip-sys v2.0.0\n3 cc v1.0.0\n\
                    1 other-sys v1.0.0 (*)\n";
        let metadata = json!({"packages": [
            {"name": "zip-sys", "version": "2.0.0", "links": "zip"},
            {"name": "other-sys", "version": "9.0.0", "links": "not this version"},
            {"name": "elsewhere", "version": "1.0.0", "links": "not the tablet's"},
            {"name": "window", "version": "0.3.0", "links": null},
        ]});
        let (n_crates, wrong) = look(tree, &metadata);
        assert_eq!(n_crates, 7);
        assert_eq!(wrong, ["zip-sys is built with cc", "zip-sys links zip"]);
    }
}
