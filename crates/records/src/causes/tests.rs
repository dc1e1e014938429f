use underbrick_calc::findings::rules::Cause;

use super::*;
use crate::catalogue::catalogue;

const TABLE: &str = include_str!("../../../../assets/findings/causes.ron");

fn materials() -> Vec<calc::Material> {
    catalogue().unwrap().materials
}

#[test]
fn every_cause_has_a_rule() {
    let rules = catalogue().unwrap().causes;
    assert!(rules.rules().len() >= 25, "{}", rules.rules().len());
    for cause in [
        Cause::BaseNeverPacks,
        Cause::BaseTooThin,
        Cause::SoftGround,
        Cause::WetGround,
        Cause::FallsToHouse,
        Cause::TooFlat,
        Cause::SettingBed,
        Cause::JointsTooWide,
        Cause::NoRestraint,
        Cause::BondCannotClose,
        Cause::Roots,
        Cause::Frost,
        Cause::Downpipe,
        Cause::NotDugEnough,
    ] {
        assert!(
            rules.rules().iter().any(|rule| rule.cause == cause),
            "{cause:?}"
        );
    }
}

/// The table with one text put in place of another is refused at the line of `at`.
#[track_caller]
fn refused(from: &str, to: &str, at: &str, words: &str) {
    let spoilt = TABLE.replacen(from, to, 1);
    assert_ne!(spoilt, TABLE, "{from}");
    let line_of_fault = spoilt[..spoilt.find(at).unwrap()].matches('\n').count() + 1;
    match read_causes(&spoilt, &materials()) {
        Err(ReadError::Text { line, reason, .. }) => {
            assert_eq!(line, line_of_fault, "{reason}");
            assert!(reason.contains(words), "{reason}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_spoilt_table_is_refused_at_its_line() {
    refused("Sign(Sunk)", "Sign(Sunken)", "Sign(Sunken)", "Sunken");
    refused("OldLowSpot(", "OldDip(", "OldDip(", "OldDip");
    refused(
        "OldLowSpot(\"3/8 in\")",
        "OldLowSpot(\"3/8\")",
        "OldLowSpot(\"3/8\")",
        "no unit",
    );
    refused(
        "cause: BaseNeverPacks,",
        "cause: BadLuck,",
        "cause: BadLuck",
        "BadLuck",
    );
    refused(
        "id: \"loam-under-walk\"",
        "id: \"sand-never-packs\"",
        "id: \"sand-never-packs\",\n            seen: All([\n                Any([Sign(Sunk), Sign(Rocking), Sign(Heaved)",
        "stands twice",
    );
    refused(
        "unless: [\"falls-to-house\"]",
        "unless: [\"falls-to-hell\"]",
        "id: \"too-flat\"",
        "no such rule",
    );
    refused(
        "seen: OldSurfaceFallsToHouse,",
        "seen: OldSurfaceFallsToHouse, unless: [\"too-flat\"],",
        "id: \"falls-to-house\"",
        "falls-to-house, too-flat, falls-to-house",
    );
    refused(
        "materials: [\"rubbish\"]",
        "materials: [\"rubish\"]",
        "id: \"rubbish-under-walk\"",
        "rubish",
    );
    refused(
        "seen: Sign(EdgeSpread)",
        "seen: Any([])",
        "id: \"edge-spread\"",
        "an empty list",
    );
}

#[test]
fn a_missing_field_is_named() {
    let spoilt = TABLE.replacen("            mark: \"will not pack\",\n", "", 1);
    let error = read_causes(&spoilt, &materials()).unwrap_err();
    let words = error.to_string();
    assert!(words.contains("mark"), "{words}");
    // The rule that lacks it ends on line 32 of the table.
    let end = spoilt[..spoilt.find("id: \"loam-under-walk\"").unwrap()]
        .matches('\n')
        .count();
    let line: usize = words
        .trim_start_matches("line ")
        .split(',')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    assert!(
        line < end + 1 && line + 14 > end,
        "{words}; the rule ends before line {end}"
    );
}
