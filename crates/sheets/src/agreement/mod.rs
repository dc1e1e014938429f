//! The agreement: what was found, what is built, what it costs and what is left out, in sentences that someone outside the trade
//! understands. Made from the design alone: what is not measured is said to be so.

mod changes;
mod dates;
mod found;
mod left_out;
mod plain;
mod price;
mod scope;

pub use changes::{
    Change, ChangeKind, Standing, WordRun, WordRunKind, changes, changes_text, standing,
};
pub(crate) use dates::days_in_words;
pub use found::{cause_in_plain_words, seen_in_plain_words};
pub(crate) use found::{layers_shown, lead, rest_of_the_causes};
pub use plain::{capital, date_in_words, way_in_plain_words};

use crate::wording::on_one_line;
use underbrick_calc::Results;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::order::Priced;
use underbrick_calc::site::{Clause, Letterhead, ShownIn, Site};

/// What can be agreed on now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Terms {
    /// Clause by clause, in the order of [`HEADINGS`].
    pub clauses: Vec<Clause>,
}

/// What the terms are made from.
#[derive(Clone, Copy, Debug)]
pub struct Design<'a> {
    /// As measured and as wished.
    pub site: &'a Site,
    /// Materials, causes, prices.
    pub catalogue: &'a Catalogue,
    /// What follows.
    pub results: &'a Results,
    /// Who does the work; `None` where nobody wrote it down.
    pub letterhead: Option<&'a Letterhead>,
}

/// Keys of the clauses with their headings, in the order in which they stand.
pub const HEADINGS: [(&str, &str); 22] = [
    ("parties", "Who and where"),
    ("found", "What was found"),
    ("way", "What is done about it"),
    ("scope-size", "How large"),
    ("scope-brick-up", "The brick comes up"),
    ("scope-dig", "Digging"),
    ("scope-base", "The stone under the walk"),
    ("scope-edge", "The edges"),
    ("scope-bed", "The bed of sand"),
    ("scope-brick", "Laying the brick"),
    ("scope-fall", "Where the water goes"),
    ("scope-away", "What is taken away"),
    ("not-cured", "What this does not mend"),
    ("price", "Price"),
    ("dates", "When"),
    ("open", "What is not known yet"),
    ("excluded", "What is not part of this"),
    ("cautions", "Please take care"),
    ("code", "Rules and permits"),
    ("changes", "If something changes"),
    ("own-terms", "Terms of the firm"),
    ("copy", "What is kept"),
];

/// What stands over a clause; its own key for one that is none of ours.
#[must_use]
pub fn heading(key: &str) -> &str {
    HEADINGS
        .iter()
        .find(|(of, _)| *of == key)
        .map_or(key, |(_, heading)| heading)
}

/// The clauses of an agreement on the design as it is now. They hold no date of the day: the same design gives the same clauses.
///
/// A text of several lines is a list, one thing a line.
#[must_use]
pub fn terms(design: Design<'_>) -> Terms {
    let text_of = |key: &str| match key {
        "parties" => found::parties(design),
        "found" => found::found(design),
        "way" => scope::way(design),
        "scope-size" => scope::size(design),
        "scope-brick-up" => scope::brick_up(design),
        "scope-dig" => scope::dig(design),
        "scope-base" => scope::base(design),
        "scope-edge" => scope::edge(design),
        "scope-bed" => scope::bed(design),
        "scope-brick" => scope::brick(design),
        "scope-fall" => scope::fall(design),
        "scope-away" => price::taken_away(design),
        "not-cured" => found::not_cured(design),
        "price" => price::price(design),
        "dates" => dates::dates(design),
        "open" => left_out::open(design),
        "excluded" => left_out::excluded(design),
        "cautions" => left_out::cautions(design),
        "code" => left_out::code(),
        "changes" => left_out::changes(),
        "own-terms" => left_out::own_terms(design),
        _ => left_out::copy(),
    };
    let clauses = HEADINGS.iter().filter_map(|(key, _)| {
        let lines: Vec<String> = text_of(key)
            .iter()
            .map(|line| on_one_line(line))
            .filter(|line| !line.is_empty())
            .collect();
        (!lines.is_empty()).then(|| Clause {
            key: (*key).to_owned(),
            text: lines.join("\n"),
        })
    });
    Terms {
        clauses: clauses.collect(),
    }
}

/// Clauses as text for people: each with its heading, lists with a dash a line.
#[must_use]
pub fn clauses_text(clauses: &[Clause]) -> String {
    let mut text = String::new();
    for clause in clauses {
        if !text.is_empty() {
            text.push('\n');
        }
        text += &format!("{}\n", heading(&clause.key).to_uppercase());
        let lines: Vec<&str> = clause.text.lines().collect();
        for line in &lines {
            let first = if lines.len() > 1 { "- " } else { "" };
            text += &crate::columns::paragraph(first, line);
        }
    }
    text
}

impl<'a> Design<'a> {
    fn shown(&self) -> ShownIn {
        self.site.shown_in
    }

    /// The way that is ordered, priced.
    fn chosen(&self) -> Option<&'a Priced> {
        self.results.order.as_ref()?.chosen()
    }

    /// Whether the ground is dug out.
    fn digs(&self) -> bool {
        self.site.order.way.digs()
    }
}

impl Terms {
    /// The text of a clause; empty where there is none.
    #[must_use]
    pub fn text(&self, key: &str) -> &str {
        self.clauses
            .iter()
            .find(|clause| clause.key == key)
            .map_or("", |clause| &clause.text)
    }
}
