//! A person's own price list: a copy of the built-in one to start from, taken in its place, or left out with line and column.
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

/// The built-in list under another name, in pounds, with another quarry.
fn ours() -> String {
    underbrick_records::BUILT_IN_PRICES
        .replace("Starter list, invented figures", "Our list")
        .replace("\"USD\"", "\"GBP\"")
        .replace("\"Quarry\"", "\"Pit behind the hill\"")
}

#[test]
fn the_printed_list_changes_nothing_beside_the_sites() {
    let (sites, site) = sites();
    let before = underbrick(&["order", &site, "--why"]);
    let list = underbrick(&["prices"]);
    assert_eq!((list.status, list.err.as_str()), (Some(0), ""));
    assert_eq!(list.out, underbrick_records::BUILT_IN_PRICES);
    assert!(list.out.contains("INVENTED"));
    let file = sites.path().join("prices.ron");
    fs::write(&file, &list.out).unwrap();
    let after = underbrick(&["order", &site, "--why"]);
    assert_eq!((after.out, after.err), (before.out, before.err));
    assert_eq!(
        fs::read_to_string(&file).unwrap(),
        list.out,
        "never written"
    );
}

#[test]
fn an_own_list_is_taken_wherever_it_is() {
    let (sites, site) = sites();
    let before = underbrick(&["order", &site]);
    assert!(before.out.contains('$') && before.out.contains("Quarry"));
    let elsewhere = tempfile::tempdir().unwrap();
    let named = elsewhere.path().join("ours.ron");
    fs::write(&named, ours()).unwrap();
    let ran = underbrick(&["order", &site, "--prices", named.to_str().unwrap()]);
    assert_eq!(ran.status, before.status, "{}", ran.err);
    assert!(
        ran.out.contains('£') && !ran.out.contains('$'),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("Pit behind the hill"), "{}", ran.out);
    // The same figures in another currency.
    assert_eq!(
        ran.out.replace('£', "$").matches("$").count(),
        before.out.matches('$').count()
    );
    fs::write(sites.path().join("prices.ron"), ours()).unwrap();
    assert_eq!(underbrick(&["order", &site]).out, ran.out);
    let by_file = format!("{site}/site.ron");
    assert_eq!(underbrick(&["order", &by_file]).out, ran.out);
}

/// The list is refused on stderr in these words, and the built-in one is used.
#[track_caller]
fn left_out(text: &str, words: &str) {
    let (sites, site) = sites();
    let before = underbrick(&["order", &site]);
    fs::write(sites.path().join("prices.ron"), text).unwrap();
    for command in ["order", "check"] {
        let ran = underbrick(&[command, &site]);
        assert_eq!(ran.status, before.status, "{}", ran.err);
        let first = ran.err.lines().next().unwrap();
        assert!(first.contains(words), "{first}");
        assert!(first.contains("own prices left out"), "{first}");
        assert!(first.ends_with("prices.ron"), "{first}");
        if command == "order" {
            assert_eq!(ran.out, before.out);
        }
    }
}

/// Line and column of the first place of these words, as an error tells them.
fn place_of(text: &str, words: &str) -> String {
    let before = &text[..text.find(words).unwrap()];
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    format!(
        "line {}, column {}",
        before.matches('\n').count() + 1,
        before[line_start..].chars().count() + 1
    )
}

#[test]
fn a_list_that_cannot_be_used_is_told_with_line_and_column() {
    let no_unit = ours().replace("24.50 per ton", "24.50");
    let line = place_of(&no_unit, "\"24.50\"");
    left_out(&no_unit, line.split(',').next().unwrap());
    left_out(&no_unit, "\"24.50\": the unit of sale is missing");
    let by_the_yard = ours().replace("0.92 per piece", "0.92 per yd3");
    left_out(
        &by_the_yard,
        &format!(
            "{}: \"brick\" is not sold by the yd³; what fits is ton, tonne, lb, kg, ft2, yd2, m2, piece",
            place_of(&by_the_yard, "price: \"0.92 per yd3\"")
        ),
    );
    left_out(
        &ours().replace("\"GBP\"", "\"DOUBLOON\""),
        "\"DOUBLOON\": the currency is not known: USD, CAD, MXN, GBP, EUR, CHF, AUD, NZD, ZAR",
    );
    left_out(
        &ours().replace("24.50 per ton", "0 per ton"),
        "a price is above zero",
    );
    left_out(
        &ours().replace("version: 1", "version: 9"),
        "newer Underbrick: format 9",
    );
    left_out("", "the file is empty");
}

/// A named list is bad input, with one line that says why, whatever the site has to say.
#[track_caller]
fn bad_input(named: &str, words: &str) {
    let (_sites, site) = sites();
    for command in ["results", "check", "section", "plan", "order"] {
        let ran = underbrick(&[command, &site, "--prices", named]);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{}", ran.err);
        assert_eq!(ran.err.lines().count(), 1, "{}", ran.err);
        assert!(ran.err.contains(words), "{}", ran.err);
    }
}

#[test]
fn a_named_list_that_cannot_be_used_is_bad_input() {
    bad_input(
        "no-such-list.ron",
        "no such folder or file: no-such-list.ron",
    );
    let folder = tempfile::tempdir().unwrap();
    let named = folder.path().join("ours.ron");
    fs::write(
        &named,
        ours().replace("step: \"0.5\", minimum: \"2\"", "step: \"0\""),
    )
    .unwrap();
    bad_input(named.to_str().unwrap(), "\"0\": it is not above zero");
    bad_input(folder.path().to_str().unwrap(), "no file");
}
