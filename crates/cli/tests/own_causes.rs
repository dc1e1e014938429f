//! A person's own rules for causes: a copy of the built-in ones to start from, laid over them, or left out with line and column.
#![expect(
    clippy::unwrap_used,
    reason = "a panic in a test is the failure report"
)]

use std::fs;
use std::path::Path;
use std::process::Command;

use tempfile::TempDir;

struct Ran {
    status: Option<i32>,
    out: String,
    err: String,
}

fn underbrick(arguments: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_underbrick"))
        .args(arguments)
        .output()
        .unwrap();
    Ran {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// A folder of sites with the short straight sample in it, and the path of that.
fn sites() -> (TempDir, String) {
    let sites = tempfile::tempdir().unwrap();
    let site = sites.path().join("alder");
    fs::create_dir(&site).unwrap();
    let sample = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../sample-sites/short-straight-sunk-on-sand/site.ron");
    fs::copy(sample, site.join("site.ron")).unwrap();
    (sites, site.to_str().unwrap().to_owned())
}

const OURS: &str = r#"(
    version: 1,
    silenced: ["too-flat"],
    rules: [
        (
            id: "sand-never-packs",
            seen: Sign(Sunk),
            cause: BaseNeverPacks,
            strength: Sure,
            mark: "ours",
            trade: "Trade words of our own.",
            homeowner: "Words of our own.",
            remedy: "Our remedy.",
            source: "our own thirty walks",
        ),
    ],
)
"#;

#[test]
fn the_printed_table_changes_nothing_beside_the_sites() {
    let (sites, site) = sites();
    let before = underbrick(&["results", &site]);
    let table = underbrick(&["causes"]);
    assert_eq!((table.status, table.err.as_str()), (Some(0), ""));
    assert!(table.out.contains("id: \"sand-never-packs\""));
    fs::write(sites.path().join("causes.ron"), &table.out).unwrap();
    let after = underbrick(&["results", &site]);
    assert_eq!((after.out, after.err), (before.out, before.err));
}

#[test]
fn own_rules_win_and_silence_wherever_the_table_is() {
    let (sites, site) = sites();
    let before = underbrick(&["results", &site, "--json"]).out;
    assert!(before.contains("\"too-flat\"") && !before.contains("Our remedy."));
    let elsewhere = tempfile::tempdir().unwrap();
    let named = elsewhere.path().join("ours.ron");
    fs::write(&named, OURS).unwrap();
    let ran = underbrick(&[
        "results",
        &site,
        "--json",
        "--causes",
        named.to_str().unwrap(),
    ]);
    assert_eq!(ran.status, Some(0), "{}", ran.err);
    assert!(ran.out.contains("Our remedy.") && !ran.out.contains("\"too-flat\""));
    fs::write(sites.path().join("causes.ron"), OURS).unwrap();
    assert_eq!(underbrick(&["results", &site, "--json"]).out, ran.out);
    let by_file = format!("{site}/site.ron");
    assert_eq!(underbrick(&["results", &by_file, "--json"]).out, ran.out);
}

/// The table is refused on stderr in these words, and the built-in rules are used.
#[track_caller]
fn left_out(text: &str, words: &str) {
    let (sites, site) = sites();
    let before = underbrick(&["results", &site]);
    fs::write(sites.path().join("causes.ron"), text).unwrap();
    for command in ["results", "check", "section"] {
        let ran = underbrick(&[command, &site]);
        assert_eq!(ran.status, before.status, "{}", ran.err);
        let first = ran.err.lines().next().unwrap();
        assert!(first.contains(words), "{first}");
        assert!(first.contains("causes.ron"), "{first}");
        if command == "results" {
            assert_eq!(ran.out, before.out);
        }
    }
}

#[test]
fn a_table_that_cannot_be_used_is_told_with_line_and_column() {
    left_out(
        &OURS.replace("Sign(Sunk)", "Sign(Sunken)"),
        "line 7, column ",
    );
    left_out(
        &OURS.replace("too-flat", "two-flat"),
        "line 3, column 16: \"two-flat\"",
    );
    left_out(
        &OURS.replace("our own thirty walks", ""),
        "line 6, column 13: the rule",
    );
    left_out(
        &OURS.replace("version: 1", "version: 9"),
        "newer Underbrick: format 9",
    );
    left_out("", "the file is empty");
}

/// A named table is bad input, with one line that says why, whatever the site has to say.
#[track_caller]
fn bad_input(named: &str, words: &str) {
    let (_sites, site) = sites();
    for command in ["results", "check", "section", "plan"] {
        let ran = underbrick(&[command, &site, "--causes", named]);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{}", ran.err);
        assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
        assert!(ran.err.contains(words), "{}", ran.err);
    }
}

#[test]
fn a_named_table_that_cannot_be_used_is_bad_input() {
    bad_input(
        "no-such-table.ron",
        "no such folder or file: no-such-table.ron",
    );
    let folder = tempfile::tempdir().unwrap();
    let named = folder.path().join("ours.ron");
    for (text, words) in [
        (
            OURS.replace("Sign(Sunk)", "Sign(Sunken)"),
            "line 7, column ",
        ),
        (
            OURS.replace("version: 1", "version: 9"),
            "newer Underbrick: format 9",
        ),
        (String::new(), "the file is empty"),
    ] {
        fs::write(&named, text).unwrap();
        bad_input(named.to_str().unwrap(), words);
    }
    bad_input(folder.path().to_str().unwrap(), "no file");
}
