//! What is wrong with a table of rules.

use super::{CauseRule, LayerLike, Seen};

/// What is wrong with a rule of a table. The index counts from zero in the order of the table.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RuleFault {
    /// Two rules of one name.
    #[error("the rule {id:?} stands twice")]
    Twice {
        /// The second of them.
        rule_idx: usize,
        /// Their name.
        id: String,
    },
    /// A reference into nothing.
    #[error("the rule {id:?} is silent unless {named:?}, and there is no such rule")]
    NoSuchRule {
        /// The rule.
        rule_idx: usize,
        /// Its name.
        id: String,
        /// What it names.
        named: String,
    },
    /// References that lead back to their start.
    #[error("`unless` leads back to where it started: {way}")]
    Loop {
        /// The first rule of the loop.
        rule_idx: usize,
        /// The rules on the way.
        way: String,
    },
    /// A condition that says nothing.
    #[error("the rule {id:?} can never be told from the rest: {what}")]
    SaysNothing {
        /// The rule.
        rule_idx: usize,
        /// Its name.
        id: String,
        /// What is empty.
        what: &'static str,
    },
}

impl RuleFault {
    /// Which rule.
    #[must_use]
    pub const fn rule_idx(&self) -> usize {
        match self {
            Self::Twice { rule_idx, .. }
            | Self::NoSuchRule { rule_idx, .. }
            | Self::Loop { rule_idx, .. }
            | Self::SaysNothing { rule_idx, .. } => *rule_idx,
        }
    }
}

/// The order in which rules are asked: each after those that may silence it.
pub(super) fn check(rules: &[CauseRule]) -> Result<Vec<usize>, RuleFault> {
    for (rule_idx, rule) in rules.iter().enumerate() {
        let id = rule.id.clone();
        if rules.iter().take(rule_idx).any(|before| before.id == id) {
            return Err(RuleFault::Twice { rule_idx, id });
        }
        if let Some(what) = nothing_in(rule) {
            return Err(RuleFault::SaysNothing { rule_idx, id, what });
        }
        for named in &rule.unless {
            if !rules.iter().any(|other| other.id == *named) {
                let named = named.clone();
                return Err(RuleFault::NoSuchRule {
                    rule_idx,
                    id,
                    named,
                });
            }
        }
    }
    order(rules)
}

/// Takes the rules whose silencers are all taken, again and again; what is left over goes round in a loop.
fn order(rules: &[CauseRule]) -> Result<Vec<usize>, RuleFault> {
    let mut order: Vec<usize> = Vec::with_capacity(rules.len());
    let mut left: Vec<(usize, &CauseRule)> = rules.iter().enumerate().collect();
    while !left.is_empty() {
        let (still, ready): (Vec<_>, Vec<_>) = left.iter().copied().partition(|(_, rule)| {
            left.iter()
                .any(|(_, other)| rule.unless.contains(&other.id))
        });
        if ready.is_empty() {
            return Err(loop_in(&still));
        }
        order.extend(ready.into_iter().map(|(rule_idx, _)| rule_idx));
        left = still;
    }
    Ok(order)
}

/// Follows `unless` from rule to rule until one comes again.
fn loop_in(left: &[(usize, &CauseRule)]) -> RuleFault {
    let mut way: Vec<(usize, &CauseRule)> = left.first().copied().into_iter().collect();
    loop {
        let next = way.last().and_then(|(_, rule)| {
            left.iter()
                .find(|(_, other)| rule.unless.contains(&other.id))
                .copied()
        });
        let start = next.and_then(|(next_idx, _)| way.iter().position(|(idx, _)| *idx == next_idx));
        match (next, start) {
            (Some(next), None) => way.push(next),
            (next, start) => {
                let on_it = way.iter().skip(start.unwrap_or(0)).copied();
                let ids: Vec<&str> = on_it
                    .clone()
                    .chain(next)
                    .map(|(_, rule)| rule.id.as_str())
                    .collect();
                let rule_idx = on_it.map(|(rule_idx, _)| rule_idx).next().unwrap_or(0);
                return RuleFault::Loop {
                    rule_idx,
                    way: ids.join(", "),
                };
            }
        }
    }
}

fn nothing_in(rule: &CauseRule) -> Option<&'static str> {
    [
        (&rule.id, "its id is empty"),
        (&rule.mark, "its mark is empty"),
        (&rule.trade, "its words for the trade are empty"),
        (&rule.homeowner, "its words for the homeowner are empty"),
        (&rule.remedy, "its remedy is empty"),
        (&rule.source, "its source is empty"),
    ]
    .into_iter()
    .find_map(|(text, what)| text.trim().is_empty().then_some(what))
    .or_else(|| nothing_seen(&rule.seen))
}

fn nothing_seen(seen: &Seen) -> Option<&'static str> {
    let layer = |like: &LayerLike| like.takes_any().then_some("a layer without any mark");
    match seen {
        Seen::All(list) | Seen::Any(list) => {
            if list.is_empty() {
                Some("an empty list")
            } else if list.iter().all(|each| matches!(each, Seen::Not(_))) {
                Some("nothing but what is not seen")
            } else {
                list.iter().find_map(nothing_seen)
            }
        }
        Seen::Not(inner) => nothing_seen(inner),
        Seen::Near { one, other, .. } => nothing_seen(one).or_else(|| nothing_seen(other)),
        Seen::Layer(like) | Seen::SettingBed(like) => layer(like),
        Seen::LayerAbove { upper, lower } => layer(upper).or_else(|| layer(lower)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Cause, CauseRules, Strength};
    use super::*;
    use crate::site::SignKind;

    fn rule(id: &str, unless: &[&str]) -> CauseRule {
        CauseRule {
            id: id.to_owned(),
            seen: Seen::Sign(SignKind::Sunk),
            unless: unless.iter().map(|named| (*named).to_owned()).collect(),
            cause: Cause::Roots,
            strength: Strength::Likely,
            mark: "m".to_owned(),
            trade: "t".to_owned(),
            homeowner: "h".to_owned(),
            remedy: "r".to_owned(),
            cured_by: None,
            source: "s".to_owned(),
        }
    }

    #[track_caller]
    fn check_fault(rules: Vec<CauseRule>, rule_idx: usize, words: &str) {
        let fault = CauseRules::new(rules).unwrap_err();
        assert_eq!(fault.rule_idx(), rule_idx, "{fault}");
        assert!(fault.to_string().contains(words), "{fault}");
    }

    #[test]
    fn rules_are_asked_after_those_that_silence_them() {
        let rules =
            CauseRules::new(vec![rule("a", &["c"]), rule("b", &[]), rule("c", &["b"])]).unwrap();
        assert_eq!(rules.order, [1, 2, 0]);
    }

    #[test]
    fn a_table_that_cannot_be_followed_is_refused() {
        check_fault(
            vec![rule("a", &[]), rule("a", &[])],
            1,
            "\"a\" stands twice",
        );
        check_fault(
            vec![rule("a", &["z"])],
            0,
            "\"z\", and there is no such rule",
        );
        check_fault(vec![rule("a", &["a"])], 0, "a, a");
        check_fault(
            vec![rule("x", &["a"]), rule("a", &["b"]), rule("b", &["a"])],
            1,
            "a, b, a",
        );
    }

    #[test]
    fn a_condition_that_says_nothing_is_refused() {
        let with = |seen: Seen| {
            vec![CauseRule {
                seen,
                ..rule("a", &[])
            }]
        };
        check_fault(with(Seen::All(Vec::new())), 0, "an empty list");
        check_fault(
            with(Seen::Not(Box::new(Seen::Any(Vec::new())))),
            0,
            "an empty list",
        );
        check_fault(
            with(Seen::Layer(LayerLike::default())),
            0,
            "a layer without any mark",
        );
        let not = Seen::Not(Box::new(Seen::Seep));
        check_fault(
            with(Seen::All(vec![not])),
            0,
            "nothing but what is not seen",
        );
        check_fault(
            vec![CauseRule {
                homeowner: " ".to_owned(),
                ..rule("a", &[])
            }],
            0,
            "words for the homeowner",
        );
    }
}
