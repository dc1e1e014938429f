//! A person's own table of causes over the built-in one: what wins, what is added, what is silent, and what is refused where.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a panic in a test is the failure report"
)]

use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::rules::{Cause, CauseRules, CuredBy};
use underbrick_records::{
    BUILT_IN_CAUSES, OwnFile, ReadError, RecordError, catalogue, read_own_causes,
};

fn read(text: &str) -> Result<CauseRules, ReadError> {
    let Catalogue {
        materials, causes, ..
    } = catalogue().unwrap();
    read_own_causes(text, &materials, &causes)
}

fn ids(rules: &CauseRules) -> Vec<&str> {
    rules.rules().iter().map(|rule| rule.id.as_str()).collect()
}

/// A rule that is seen on a sunk walk.
fn rule(id: &str, more: &str) -> String {
    format!(
        "(id: \"{id}\", seen: Sign(Sunk), {more} cause: Roots, strength: Sure, mark: \"ours\", trade: \"t\", \
         homeowner: \"h\", remedy: \"r\", source: \"common practice, no source\")"
    )
}

#[test]
fn the_built_in_table_over_itself_changes_nothing() {
    assert_eq!(read(BUILT_IN_CAUSES).unwrap(), catalogue().unwrap().causes);
}

#[test]
fn every_built_in_rule_says_what_cures_it_and_a_rule_of_ones_own_need_not() {
    for rule in catalogue().unwrap().causes.rules() {
        assert!(rule.cured_by.is_some(), "{}", rule.id);
    }
    let own = read(&format!(
        "(rules: [{}])",
        rule("ours", "cured_by: NewBase,")
    ))
    .unwrap();
    let by = |id: &str| {
        own.rules()
            .iter()
            .find(|rule| rule.id == id)
            .unwrap()
            .cured_by
    };
    assert_eq!(by("ours"), Some(CuredBy::NewBase));
    let silent = read(&format!("(rules: [{}])", rule("ours", ""))).unwrap();
    assert!(silent.rules().iter().any(|rule| rule.cured_by.is_none()));
}

#[test]
fn an_own_rule_wins_in_its_place_others_come_last_and_silenced_ones_go() {
    let built_in = catalogue().unwrap().causes;
    let first = ids(&built_in)[0].to_owned();
    let text = format!(
        "\u{feff}(version: 1, silenced: [\"falls-to-house\"], rules: [{}, {}])",
        rule("ours", "unless: [\"falls-to-house\", \"too-flat\"],"),
        rule(&first, "")
    );
    let rules = read(&text).unwrap();
    assert_eq!(rules.rules()[0].cause, Cause::Roots, "{first} is ours now");
    assert_eq!(*ids(&rules).last().unwrap(), "ours");
    assert!(!ids(&rules).contains(&"falls-to-house"));
    // One added, one silenced.
    assert_eq!(rules.rules().len(), built_in.rules().len());
    let unless = |id: &str| {
        &rules
            .rules()
            .iter()
            .find(|rule| rule.id == id)
            .unwrap()
            .unless
    };
    assert_eq!(*unless("ours"), ["too-flat"]);
    assert!(
        unless("too-flat").is_empty(),
        "it is silent no more for the sake of a rule that is gone"
    );
    // Silencing alone is a table too.
    let fewer = read("(silenced: [\"too-flat\", \"falls-to-house\"])").unwrap();
    assert_eq!(fewer.rules().len() + 2, built_in.rules().len());
}

#[track_caller]
fn refused(text: &str, line: usize, column: usize, words: &str) {
    match read(text) {
        Err(ReadError::Text {
            line: at_line,
            column: at_column,
            reason,
        }) => {
            assert!(reason.contains(words), "{reason}");
            assert_eq!((at_line, at_column), (line, column), "{reason}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_wrong_is_told_at_its_line_and_column() {
    let one = |rule: &str| format!("(\n  // id: a comment\n  rules: [\n    {rule},\n  ],\n)");
    refused(
        &one(&rule("a", "").replace("Sunk", "Sunken")),
        4,
        26,
        "Sunken",
    );
    refused(&one(&rule("a", "").replace("seen", "sene")), 4, 15, "sene");
    refused(&one(&rule("a", "unless: [\"b\"],")), 4, 6, "no such rule");
    refused(&one(&rule("a", "unless: [\"a\"],")), 4, 6, "a, a");
    // What is missing is told where the rule is closed, behind four spaces.
    let unsourced = rule("a", "").replace("r\", source: \"common practice, no source\"", "r\"");
    refused(
        &one(&unsourced),
        4,
        4 + unsourced.len(),
        "missing field named `source` in `rule`",
    );
    refused(
        &one(&rule("a", "").replace("common practice, no source", " ")),
        4,
        6,
        "its source is empty",
    );
    let twice = format!("{},\n   {}", rule("a", ""), rule("a", ""));
    refused(&one(&twice), 5, 5, "stands twice");
    // `too-flat` is silent where `falls-to-house` is found, and that one now where `too-flat` is.
    refused(
        &one(&rule("falls-to-house", "unless: [\"too-flat\"],")),
        4,
        6,
        "leads back to where it started",
    );
    let looped = one(&format!(
        "{},\n   {}",
        rule("a", ""),
        rule("falls-to-house", "unless: [\"too-flat\"],")
    ));
    refused(&looped, 5, 5, "leads back");
    refused(
        "(\n rules: [],\n silenced: [\"too-flat\",\n  \"to-flat\"])",
        4,
        3,
        "no built-in rule is called so",
    );
    refused("(version: 0, rules: [])", 1, 2, "no format 0");
    refused("(version: 1,", 1, 12, "end of RON");
    let rubbish = rule("a", "").replace("Sign(Sunk)", "Layer(materials: [\"rubish\"])");
    refused(&one(&rubbish), 4, 6, "rubish");
    let deep = format!("(rules: [(id: \"a\", seen: {}", "All([".repeat(20_000));
    assert!(matches!(read(&deep), Err(ReadError::Text { .. })));
}

#[test]
fn a_newer_table_and_an_empty_one_are_called_so() {
    assert_eq!(
        read("(version: 2, rules: [(id: \"a\", seen: Smell)])"),
        Err(ReadError::Newer { found: 2, known: 1 })
    );
    assert_eq!(read(" \n"), Err(ReadError::Empty));
}

#[test]
fn a_file_beside_the_sites_may_be_missing_and_a_named_one_may_not() {
    let built_in = catalogue().unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("causes.ron");
    let beside = OwnFile::Beside(path.clone());
    assert_eq!(beside.causes_over(&built_in).unwrap(), built_in);
    assert_eq!(
        OwnFile::Named(path.clone()).causes_over(&built_in),
        Err(RecordError::Missing { path: path.clone() })
    );
    std::fs::write(&path, "(silenced: [\"too-flat\"])").unwrap();
    let n_rules = beside.causes_over(&built_in).unwrap().causes.rules().len();
    assert_eq!(n_rules + 1, built_in.causes.rules().len());
    std::fs::write(&path, [b'(', 0xff]).unwrap();
    let error = beside.causes_over(&built_in).unwrap_err().to_string();
    assert!(error.starts_with("line 1, column 2: "), "{error}");
    assert!(error.ends_with("causes.ron"), "{error}");
    std::fs::remove_file(&path).unwrap();
    std::fs::create_dir(&path).unwrap();
    assert!(matches!(
        beside.causes_over(&built_in),
        Err(RecordError::NotAFile { .. })
    ));
}
