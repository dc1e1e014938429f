//! What each way cures.

use crate::lists::{list, needs, site};
use underbrick_calc::findings::rules::{Cause, CauseFound, CuredBy, Strength};
use underbrick_calc::order::{Cured, Way, priced};

fn cause(rule_id: &str, cured_by: Option<CuredBy>) -> CauseFound {
    CauseFound {
        rule_id: rule_id.to_owned(),
        cause: Cause::SettingBed,
        strength: Strength::Likely,
        mark: String::new(),
        trade: String::new(),
        homeowner: String::new(),
        remedy: format!("remedy of {rule_id}"),
        cured_by,
        source: String::new(),
        evidence: Vec::new(),
    }
}

/// Each way does what those before it do, and more; what no rebuilding cures stays other work.
#[test]
fn a_way_cures_what_asks_for_no_more() {
    use Cured::{No, NotSaid, OtherWork, Yes};
    let causes = [
        cause("relay", Some(CuredBy::Relay)),
        cause("base", Some(CuredBy::NewBase)),
        cause("brick", Some(CuredBy::NewBrick)),
        cause("downpipe", Some(CuredBy::OtherWork)),
        cause("unsaid", None),
    ];
    for (way, expected) in [
        (Way::Relay, [Yes, No, No, OtherWork, NotSaid]),
        (Way::NewBase, [Yes, Yes, No, OtherWork, NotSaid]),
        (Way::NewBrick, [Yes, Yes, Yes, OtherWork, NotSaid]),
    ] {
        let found = priced(
            &site(),
            &list(Vec::new()),
            way,
            needs(Vec::new()),
            None,
            &causes,
        );
        let cured: Vec<Cured> = found.cures.iter().map(|cure| cure.cured).collect();
        assert_eq!(cured, expected, "{way:?}");
        assert_eq!(found.cures[1].rule_id, "base");
        assert_eq!(found.cures[1].remedy, "remedy of base");
        assert_eq!(found.cures[1].cause, "the setting bed");
    }
}
