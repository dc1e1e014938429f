//! The crew sheet as a message: what a crew needs on the way to the site, as plain text in its language.

use underbrick_calc::build::{HoldStage, Stake};

use super::{CrewSheet, Designed, Said, parts};
use crate::cautions::cautions_in;
use crate::paper::Block;
use crate::wording::on_one_line;

/// What the crew is sent: what is built, the string and what hangs below it at every stake, lifts, screed board, stages, cautions. Lines are
/// as long as they come: a message breaks them itself.
#[must_use]
pub fn crew_message(sheet: CrewSheet<'_>) -> String {
    let said = Said::of(sheet.language, sheet.site.shown_in);
    let mut text = format!("{}, {}\n", said.say("crew-sheet"), sheet.date);
    let results = sheet.results;
    if let (Some(line), Some(bed), Some(build)) = (&results.line, &results.bed, &results.build) {
        let designed = Designed {
            sheet,
            line,
            bed,
            build,
            said,
        };
        text += &facts(&parts::what_is_built(&designed));
        text += &stakes(&designed);
        text += &facts(&parts::screed_and_gauge(&designed));
        text += &stages(&designed);
    } else {
        text += &facts(&parts::who_and_where(sheet, said));
        text += &format!(
            "\n{}: {}\n",
            said.say("not-all-known"),
            said.say("not-all-known-text")
        );
    }
    text += &format!("\n{}:\n", said.say("before-you-start"));
    for caution in cautions_in(sheet.site, said.words) {
        text += &format!("- {caution}\n");
    }
    text
}

/// Every fact of some blocks on its own line.
fn facts(blocks: &[Block]) -> String {
    let mut text = String::new();
    for block in blocks {
        match block {
            Block::Facts(facts) => {
                for (name, value) in facts {
                    text += &format!("{name}: {value}\n");
                }
            }
            Block::Together(inner) => text += &facts(inner),
            _ => {}
        }
    }
    text
}

/// One line for each stake: from the string down.
fn stakes(designed: &Designed<'_>) -> String {
    let Designed { build, said, .. } = designed;
    let mut text = format!("\n{}:\n", said.say("stakes"));
    for stake in &build.stakes {
        let drops: Vec<String> = stake
            .rows
            .iter()
            .map(|row| {
                let drop = said.shown_in.length(row.drop);
                said.with(
                    "drop-of",
                    &[("surface", &said.surface(row.surface)), ("drop", &drop)],
                )
            })
            .collect();
        text += &format!(
            "- {} ({}): {}\n",
            said.shown_in.along(stake.station),
            why(*said, stake),
            drops.join(", ")
        );
    }
    text + "\n"
}

fn why(said: Said, stake: &Stake) -> String {
    let words: Vec<String> = stake.why.iter().map(|why| said.why(*why)).collect();
    on_one_line(&words.join(", "))
}

/// The stages in their order.
fn stages(designed: &Designed<'_>) -> String {
    let Designed { build, said, .. } = designed;
    let stages: Vec<HoldStage> = build.stages.iter().map(|found| found.stage).collect();
    let mut text = format!("\n{}:\n", said.say("hold-points"));
    for (nth, stage) in stages.into_iter().enumerate() {
        text += &format!("{}. {}\n", nth + 1, said.stage(stage));
    }
    text
}
