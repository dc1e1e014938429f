//! What stop Build is made of: stages, checks, stakes; and what is read from afar: the live check and one station.

mod change;
mod check;
pub(crate) mod full_size;
pub(crate) mod live;
mod stage;
mod stake_line;
pub(crate) mod station;

pub use change::ChangeRow;
pub use check::{CheckRow, CheckTap};
pub use full_size::{FullSizeView, RodMark, ScreedEnd};
pub use live::Live;
pub use stage::StageRow;
pub use stake_line::StakeLine;
pub use station::StationView;

use egui::Ui;
use underbrick_calc::place::Place;

use super::rows::RowsAnswer;
use crate::stops::opened::{Part, StagesShown};

/// One part of the building on screen.
#[derive(Clone, Debug)]
pub enum BuildBit {
    /// A stage: a tap opens or folds what it asks for.
    Stage(StageRow),
    /// A check of a stage: a tap sets it.
    Check(CheckRow),
    /// A stake of the table: a tap shows it alone, in big type.
    Stake(StakeLine),
    /// What was changed by whom.
    Change(ChangeRow),
}

/// Shows a part of the building. `set` is what is set or looked at; it is scrolled to when `scroll` says so.
pub(super) fn build_ui(
    ui: &mut Ui,
    nth: usize,
    bit: &BuildBit,
    (set, scroll): (Option<Place>, bool),
    answer: &mut RowsAnswer,
) {
    match bit {
        BuildBit::Stage(row) => {
            if stage::stage_ui(ui, row, (set, scroll)) {
                let shown = if row.is_open {
                    StagesShown::Nothing
                } else {
                    StagesShown::Only(row.stage)
                };
                answer.opened = Some(Part::Stages(shown));
            }
        }
        BuildBit::Check(row) => {
            if check::check_ui(ui, nth, row, (set, scroll)) {
                match &row.tap {
                    CheckTap::Set(place) => answer.tapped = Some(*place),
                    CheckTap::Do(edit) => answer.edits.push(edit.clone()),
                    CheckTap::Open(part) => answer.opened = Some(part.clone()),
                }
            }
        }
        BuildBit::Change(row) => change::change_ui(ui, row),
        BuildBit::Stake(line) => {
            if stake_line::stake_line_ui(ui, line) {
                answer.opened = Some(Part::Station(Some(line.nth)));
            }
        }
    }
}
