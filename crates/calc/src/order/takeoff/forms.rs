//! Form boards and what goes with them, and the string.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::draft::Draft;
use super::{Job, missing};
use crate::bed::Forms;
use crate::line::Run;
use crate::place::Place;
use crate::quantity::feet;

const PRACTICE: &str = "common practice, no source";
const SCREWS_A_STAKE: u32 = 2;
const SCREWS_A_SPLICE: u32 = 4;
/// From string to stake at each of the four ends, with its knot.
const STRING_BEYOND_FT: f64 = 5.0;

/// Boards, stakes, screws, spacers, string.
pub(super) fn forms(job: &Job<'_>) -> Vec<Need> {
    let mut needs = match job.bed() {
        Some(bed) => of_forms(&bed.edge.forms),
        None => {
            let missing = missing::of_bed(job);
            [
                Item::FormBoard,
                Item::FormStake,
                Item::FormScrew,
                Item::Spacer,
            ]
            .map(|item| draft(item).misses(missing.clone()))
            .to_vec()
        }
    };
    needs.push(match job.found.line {
        Some(line) => string(&line.run),
        None => draft(Item::String).misses(missing::of_bed(job)),
    });
    needs
}

fn draft(item: Item) -> Draft {
    Draft::of(item).from(match item {
        Item::Spacer => [Place::Width],
        Item::String => [Place::GradeLine],
        // The form is drawn with the restraint.
        _ => [Place::Restraint],
    })
}

fn of_forms(forms: &Forms) -> Vec<Need> {
    let length = Step::new("outer faces of both edges", Figure::Length(forms.length));
    let stakes = Step::new("stakes", Figure::Pieces(forms.n_stakes))
        .from("every 3 ft, on curves every 18 in: common practice, no source");
    // Boards of one side end to end: a splice fewer than boards on each side.
    let n_splices = forms.n_boards.saturating_sub(2);
    let n_screws = forms
        .n_stakes
        .saturating_mul(SCREWS_A_STAKE)
        .saturating_add(n_splices.saturating_mul(SCREWS_A_SPLICE));
    vec![
        draft(Item::FormBoard)
            .steps([length.clone()])
            .needs(NeedAmount::Length(forms.length)),
        draft(Item::FormStake)
            .steps([length, stakes.clone()])
            .needs(pieces(forms.n_stakes)),
        draft(Item::FormScrew)
            .steps([
                stakes,
                Step::new("screws a stake", Figure::Pieces(SCREWS_A_STAKE)).from(PRACTICE),
                Step::new("splices of 12 ft boards", Figure::Pieces(n_splices)),
                Step::new("screws a splice", Figure::Pieces(SCREWS_A_SPLICE)).from(PRACTICE),
                Step::new("screws", Figure::Pieces(n_screws)),
            ])
            .needs(pieces(n_screws)),
        draft(Item::Spacer)
            .steps([Step::new("spacers", Figure::Pieces(forms.n_spacers))
                .from("one at the door, then every 6 ft: common practice, no source")])
            .needs(pieces(forms.n_spacers)),
    ]
}

/// A line on each side, the length of the run, and what it takes to tie it at each end.
fn string(run: &Run) -> Need {
    let beyond = feet(STRING_BEYOND_FT) * 4.0;
    let length = run.length() * 2.0 + beyond;
    draft(Item::String)
        .steps([
            Step::new("run", Figure::Length(run.length())),
            Step::new("beyond it, four ends together", Figure::Length(beyond)).from(PRACTICE),
            Step::new("string, twice the run and the ends", Figure::Length(length)),
        ])
        .needs(NeedAmount::Length(length))
}

fn pieces(n: u32) -> NeedAmount {
    NeedAmount::Pieces {
        n,
        each_covers: None,
        each_weighs: None,
    }
}
