//! What has changed since it was agreed, clause by clause and word by word.

use super::{Terms, heading};
use underbrick_calc::findings::{Finding, Source, Weight};
use underbrick_calc::place::Place;
use underbrick_calc::site::{Agreement, Site};

/// One clause that is not as it was agreed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Key of the clause.
    pub key: String,
    /// What has changed.
    pub kind: ChangeKind,
}

/// What has changed in a clause.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChangeKind {
    /// It was not agreed.
    Added {
        /// What it says.
        now: String,
    },
    /// It was agreed and is no more.
    Gone {
        /// What it said.
        agreed: String,
    },
    /// It says something else.
    Changed {
        /// What it said.
        agreed: String,
        /// What it says.
        now: String,
        /// Both in one, run by run.
        words: Vec<WordRun>,
    },
}

/// Words that follow each other and are alike in what became of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WordRun {
    /// What became of them.
    pub kind: WordRunKind,
    /// The words, a space between.
    pub words: String,
}

/// What became of words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WordRunKind {
    /// They were agreed and still stand.
    Same,
    /// They were agreed and are gone.
    Gone,
    /// They were not agreed.
    Added,
}

/// How the design stands to what was agreed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nothing was agreed.
    NotAgreed,
    /// The design is, word for word, what was agreed.
    AsAgreed {
        /// The agreement that stands, counted from 1.
        number: usize,
    },
    /// The design is no longer what was agreed.
    Differs {
        /// The agreement that stands, counted from 1.
        number: usize,
        /// Clause by clause.
        changes: Vec<Change>,
    },
}

/// More pairs of words than this are not compared: one text has then taken the place of the other.
const MOST_PAIRS: usize = 4_000_000;

/// What is not as it was agreed, in the order of the clauses as they are now, then those that are gone; empty where nothing has
/// changed. Clauses belong together by their key, and the second of a key to the second.
#[must_use]
pub fn changes(agreed: &Agreement, now: &Terms) -> Vec<Change> {
    let mut left: Vec<Option<(&str, &str)>> = agreed
        .clauses
        .iter()
        .map(|clause| Some((clause.key.as_str(), clause.text.as_str())))
        .collect();
    let mut changes = Vec::new();
    for clause in &now.clauses {
        let before = left
            .iter_mut()
            .find(|before| before.is_some_and(|(key, _)| key == clause.key))
            .and_then(Option::take);
        let kind = match before {
            Some((_, text)) if text == clause.text => continue,
            Some((_, text)) => ChangeKind::Changed {
                agreed: text.to_owned(),
                now: clause.text.clone(),
                words: word_runs(text, &clause.text),
            },
            None => ChangeKind::Added {
                now: clause.text.clone(),
            },
        };
        changes.push(Change {
            key: clause.key.clone(),
            kind,
        });
    }
    changes.extend(left.into_iter().flatten().map(|(key, text)| Change {
        key: key.to_owned(),
        kind: ChangeKind::Gone {
            agreed: text.to_owned(),
        },
    }));
    changes
}

/// How the design stands to the agreement that stands, the last one.
#[must_use]
pub fn standing(site: &Site, now: &Terms) -> Standing {
    let number = site.show.agreements.len();
    let Some(agreed) = site.show.agreements.last() else {
        return Standing::NotAgreed;
    };
    let changes = changes(agreed, now);
    if changes.is_empty() {
        Standing::AsAgreed { number }
    } else {
        Standing::Differs { number, changes }
    }
}

impl Standing {
    /// In a sentence or two.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::NotAgreed => "Nothing is agreed yet.".to_owned(),
            Self::AsAgreed { number } => {
                format!(
                    "The design is what was agreed: nothing has changed since agreement {number}."
                )
            }
            Self::Differs { number, changes } => {
                let names: Vec<String> = changes
                    .iter()
                    .map(|change| heading(&change.key).to_lowercase())
                    .collect();
                format!(
                    "The design differs from agreement {number}: {}.",
                    names.join(", ")
                )
            }
        }
    }

    /// What someone should look at; `None` where the design is as agreed or nothing was. It is worked out where it is looked at, as the
    /// terms are not made with every reading.
    #[must_use]
    pub fn finding(&self) -> Option<Finding> {
        let Self::Differs { number, .. } = self else {
            return None;
        };
        Some(Finding {
            place: Place::Agreement(number.saturating_sub(1)),
            weight: Weight::Warning,
            text: self.words(),
            remedy: "Show the change to the owner and agree it, or set the design back.".to_owned(),
            source: Source::Readings,
        })
    }
}

/// How the design stands to what was agreed, as text for people: what has gone in `[-…-]`, what was added in `[+…+]`.
#[must_use]
pub fn changes_text(stands: &Standing) -> String {
    let mut text = crate::columns::paragraph("", &stands.words());
    let Standing::Differs { changes, .. } = stands else {
        return text;
    };
    for change in changes {
        text += &format!("\n{}\n", heading(&change.key).to_uppercase());
        let words = match &change.kind {
            ChangeKind::Added { now } => format!("[+{now}+]"),
            ChangeKind::Gone { agreed } => format!("[-{agreed}-]"),
            ChangeKind::Changed { words, .. } => marked(words),
        };
        text += &crate::columns::paragraph("", &words);
    }
    text
}

fn marked(runs: &[WordRun]) -> String {
    let marked = runs.iter().map(|run| match run.kind {
        WordRunKind::Same => run.words.clone(),
        WordRunKind::Gone => format!("[-{}-]", run.words),
        WordRunKind::Added => format!("[+{}+]", run.words),
    });
    marked.collect::<Vec<_>>().join(" ")
}

/// Two texts in one, word by word, by their longest common run of words in order.
fn word_runs(agreed: &str, now: &str) -> Vec<WordRun> {
    let old: Vec<&str> = agreed.split_whitespace().collect();
    let new: Vec<&str> = now.split_whitespace().collect();
    let mut runs = Vec::new();
    if old.len().saturating_mul(new.len()) > MOST_PAIRS {
        push(&mut runs, WordRunKind::Gone, agreed);
        push(&mut runs, WordRunKind::Added, now);
        return runs;
    }
    // For each pair of ends still to come, how many words they have in common at most.
    let width = new.len() + 1;
    let mut common = vec![0_u32; (old.len() + 1) * width];
    let of = |common: &[u32], old_idx: usize, new_idx: usize| {
        common.get(old_idx * width + new_idx).copied().unwrap_or(0)
    };
    for (old_idx, old_word) in old.iter().enumerate().rev() {
        for (new_idx, new_word) in new.iter().enumerate().rev() {
            let most = if old_word == new_word {
                of(&common, old_idx + 1, new_idx + 1) + 1
            } else {
                of(&common, old_idx + 1, new_idx).max(of(&common, old_idx, new_idx + 1))
            };
            if let Some(cell) = common.get_mut(old_idx * width + new_idx) {
                *cell = most;
            }
        }
    }
    let (mut old_idx, mut new_idx) = (0, 0);
    loop {
        match (old.get(old_idx), new.get(new_idx)) {
            (None, None) => return runs,
            (Some(old_word), Some(new_word)) if old_word == new_word => {
                push(&mut runs, WordRunKind::Same, old_word);
                old_idx += 1;
                new_idx += 1;
            }
            (Some(old_word), new_word)
                if new_word.is_none()
                    || of(&common, old_idx + 1, new_idx) >= of(&common, old_idx, new_idx + 1) =>
            {
                push(&mut runs, WordRunKind::Gone, old_word);
                old_idx += 1;
            }
            (_, Some(new_word)) => {
                push(&mut runs, WordRunKind::Added, new_word);
                new_idx += 1;
            }
            (Some(_), None) => return runs,
        }
    }
}

fn push(runs: &mut Vec<WordRun>, kind: WordRunKind, word: &str) {
    match runs.last_mut() {
        Some(run) if run.kind == kind => {
            run.words.push(' ');
            run.words.push_str(word);
        }
        _ => runs.push(WordRun {
            kind,
            words: word.to_owned(),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::site::Clause;

    fn clauses(list: &[(&str, &str)]) -> Vec<Clause> {
        let clause = |(key, text): &(&str, &str)| Clause {
            key: (*key).to_owned(),
            text: (*text).to_owned(),
        };
        list.iter().map(clause).collect()
    }

    fn between(agreed: &[(&str, &str)], now: &[(&str, &str)]) -> Vec<Change> {
        let agreed = Agreement {
            clauses: clauses(agreed),
            ..Agreement::default()
        };
        let clauses = clauses(now);
        changes(&agreed, &Terms { clauses })
    }

    #[track_caller]
    fn check_words(agreed: &str, now: &str, expected: &str) {
        assert_eq!(marked(&word_runs(agreed, now)), expected);
    }

    #[test]
    fn within_a_clause_the_words_that_differ_are_told() {
        check_words("", "", "");
        check_words("as it was", "as it was", "as it was");
        check_words(
            "dug out to 11 1/2\" below the walk",
            "dug out to 14\" below the walk",
            "dug out to [-11 1/2\"-] [+14\"+] below the walk",
        );
        check_words("a b c", "c a b", "[+c+] a b [-c-]");
        check_words("", "new words", "[+new words+]");
        check_words("old words", "", "[-old words-]");
    }

    #[test]
    fn both_texts_can_be_read_out_of_the_runs() {
        let texts = ["a b c d e", "b x d e f", "", "e d c b a", "x", "a a b a a"];
        for agreed in texts {
            for now in texts {
                let runs = word_runs(agreed, now);
                let without = |left_out: WordRunKind| {
                    let kept = runs.iter().filter(|run| run.kind != left_out);
                    kept.map(|run| run.words.as_str())
                        .collect::<Vec<_>>()
                        .join(" ")
                };
                assert_eq!(without(WordRunKind::Added), agreed);
                assert_eq!(without(WordRunKind::Gone), now);
            }
        }
    }

    #[test]
    fn clauses_are_added_gone_and_changed() {
        let same = [("price", "$10"), ("dates", "May 4")];
        assert_eq!(between(&same, &same), []);
        let told = between(
            &[
                ("parties", "A"),
                ("price", "It is $10 now"),
                ("dates", "May 4"),
            ],
            &[
                ("parties", "A"),
                ("price", "It is $12 now"),
                ("code", "yes"),
            ],
        );
        let keys: Vec<&str> = told.iter().map(|change| change.key.as_str()).collect();
        assert_eq!(keys, ["price", "code", "dates"]);
        let ChangeKind::Changed { words, .. } = &told[0].kind else {
            panic!("{:?}", told[0]);
        };
        assert_eq!(marked(words), "It is [-$10-] [+$12+] now");
        assert_eq!(
            told[1].kind,
            ChangeKind::Added {
                now: "yes".to_owned()
            }
        );
        assert_eq!(
            told[2].kind,
            ChangeKind::Gone {
                agreed: "May 4".to_owned()
            }
        );
    }

    #[test]
    fn a_text_without_end_is_not_compared_word_by_word() {
        let endless = "x ".repeat(3000);
        let other = "y ".repeat(3000);
        assert_eq!(word_runs(&endless, &other).len(), 2);
    }
}
