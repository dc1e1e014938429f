//! The agreement and the letterhead on the command line.
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

/// A folder of sites with the curved sample in it, and the path of that.
fn sites() -> (TempDir, String) {
    let sites = tempfile::tempdir().unwrap();
    let site = sites.path().join("drive");
    fs::create_dir(&site).unwrap();
    let sample =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-sites/curved-to-a-drive/site.ron");
    fs::copy(sample, site.join("site.ron")).unwrap();
    (sites, site.to_str().unwrap().to_owned())
}

#[test]
fn the_printed_letterhead_beside_the_sites_names_who_does_the_work() {
    let (sites, site) = sites();
    let before = underbrick(&["agreement", &site]);
    assert_eq!(before.status, Some(0));
    assert!(before.out.contains("WHO AND WHERE"));
    assert!(
        before
            .out
            .contains("The contractor who signs below rebuilds")
    );
    let letterhead = underbrick(&["letterhead"]);
    assert_eq!((letterhead.status, letterhead.err.as_str()), (Some(0), ""));
    assert!(letterhead.out.contains("INVENTED"));
    fs::write(sites.path().join("letterhead.ron"), &letterhead.out).unwrap();
    let after = underbrick(&["agreement", &site]);
    assert!(
        after
            .out
            .contains("Fernhollow Paving, 9 Tinker's Yard, Millbrook rebuilds")
    );
    assert!(after.out.contains("TERMS OF THE FIRM"));
    let message = underbrick(&["agreement", &site, "--message"]);
    assert!(message.out.starts_with("Your walk: "), "{}", message.out);
    assert!(message.out.ends_with("Fernhollow Paving\n555 0142\n"));
}

#[test]
fn a_letterhead_that_cannot_be_used_is_told_and_one_that_was_named_stops() {
    let (sites, site) = sites();
    let file = sites.path().join("letterhead.ron");
    fs::write(&file, "(\n    name: \"\",\n)").unwrap();
    let beside = underbrick(&["agreement", &site]);
    assert_eq!(beside.status, Some(0));
    assert!(
        beside.err.contains("own letterhead left out"),
        "{}",
        beside.err
    );
    assert!(
        beside.err.contains("line 2, column 5: the name is empty"),
        "{}",
        beside.err
    );
    let file = file.to_str().unwrap();
    let named = underbrick(&["agreement", &site, "--letterhead", file]);
    assert_eq!((named.status, named.out.as_str()), (Some(2), ""));
    assert!(
        named.err.contains("the letterhead named by --letterhead"),
        "{}",
        named.err
    );
    let none = underbrick(&["agreement", &site, "--letterhead", "no-such-file.ron"]);
    assert_eq!(none.status, Some(2));
}

#[test]
fn what_has_changed_since_it_was_agreed_is_told() {
    let (_sites, site) = sites();
    let nothing = underbrick(&["agreement", &site, "--changes"]);
    assert_eq!(nothing.out, "Nothing is agreed yet.\n");
    let file = Path::new(&site).join("site.ron");
    let text = fs::read_to_string(&file).unwrap();
    let at = text.rfind(')').unwrap();
    let agreed = "    show: (agreements: [(clauses: [(key: \"price\", text: \"The price is $1.\")], digest: \"0\")]),\n";
    fs::write(&file, format!("{}{agreed})\n", &text[..at])).unwrap();
    let told = underbrick(&["agreement", &site, "--changes"]);
    assert!(
        told.err.contains("Agreement 1 is not what was signed"),
        "{}",
        told.err
    );
    assert!(
        told.out
            .starts_with("The design differs from agreement 1: "),
        "{}",
        told.out
    );
    assert!(told.out.contains("[-$1.-]"), "{}", told.out);
}
