//! The crew sheet: what is built, set out, laid and held, in the crew's language.

mod curves;
mod edge;
mod holds;
mod laid;
mod message;
mod parts;
mod plan;
mod said;
mod sections;
mod stakes;

pub use edge::edge_drawing;
pub use message::crew_message;
pub use said::Said;

use underbrick_calc::Results;
use underbrick_calc::bed::Bed;
use underbrick_calc::build::Build;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::line::Line;
use underbrick_calc::site::{Language, Site};

use crate::cautions::cautions_in;
use crate::paper::{Block, Document, Level, Mark, Paper, Style};
use crate::wording::on_one_line;

/// What a crew sheet is made from.
#[derive(Clone, Copy)]
pub struct CrewSheet<'a> {
    /// The site as measured and wished.
    pub site: &'a Site,
    /// Its materials.
    pub catalogue: &'a Catalogue,
    /// What follows from it.
    pub results: &'a Results,
    /// Paper that it is laid out for.
    pub paper: Paper,
    /// Date of the sheet, as written.
    pub date: &'a str,
    /// Who hands it over, on one line; empty where nothing is known.
    pub from: &'a str,
    /// What it is written in.
    pub language: Language,
}

/// What is known of a walk that can be built.
#[derive(Clone, Copy)]
pub(crate) struct Designed<'a> {
    pub sheet: CrewSheet<'a>,
    pub line: &'a Line,
    pub bed: &'a Bed,
    pub build: &'a Build,
    pub said: Said,
}

/// The crew sheet. Where the readings do not give a bed it says what is missing, and holds what is known.
#[must_use]
pub fn crew_sheet(sheet: CrewSheet<'_>) -> Document {
    let said = Said::of(sheet.language, sheet.site.shown_in);
    let title = said.say("crew-sheet");
    let mut blocks = vec![Block::Heading(Level::Title, title.clone())];
    let results = sheet.results;
    match (&results.line, &results.bed, &results.build) {
        (Some(line), Some(bed), Some(build)) => {
            let designed = Designed {
                sheet,
                line,
                bed,
                build,
                said,
            };
            blocks.extend(parts::what_is_built(&designed));
            blocks.extend(cautions(sheet, said));
            blocks.extend(stakes::setting_out(&designed));
            blocks.extend(curves::curves(&designed));
            blocks.extend(sections::sections(&designed));
            blocks.extend(parts::lifts(&designed));
            blocks.extend(parts::screed_and_gauge(&designed));
            blocks.extend(parts::edge_and_forms(&designed));
            let (laying, parts) = laid::laying(&designed);
            blocks.extend(laying);
            blocks.extend(holds::hold_points(&designed));
            if !parts.is_empty() {
                let mut parts = parts.into_iter();
                let mut first = vec![Block::Heading(Level::Part, said.say("laying-parts"))];
                first.extend(parts.next());
                blocks.push(Block::Together(first));
                blocks.extend(parts);
            }
        }
        _ => {
            blocks.extend(parts::who_and_where(sheet, said));
            blocks.extend(cautions(sheet, said));
            blocks.push(Block::Heading(Level::Part, said.say("not-all-known")));
            blocks.push(Block::Text(Style::Plain, said.say("not-all-known-text")));
        }
    }
    let address = on_one_line(&sheet.site.address);
    let walk = on_one_line(&sheet.site.walk);
    Document {
        title,
        address: if walk.is_empty() {
            address
        } else {
            format!("{address}, {walk}")
        },
        from: sheet.from.to_owned(),
        date: sheet.date.to_owned(),
        language: sheet.language,
        blocks,
    }
}

fn cautions(sheet: CrewSheet<'_>, said: Said) -> Vec<Block> {
    let mut cautions = cautions_in(sheet.site, said.words).into_iter();
    let mut blocks = vec![Block::Heading(Level::Part, said.say("before-you-start"))];
    blocks.extend(cautions.next().map(Block::Caution));
    blocks.push(Block::List(Mark::Dot, cautions.collect()));
    vec![Block::Together(blocks)]
}
