//! Underbrick without a window: the same numbers as the app, for the office and for scripts.

mod agreement;
mod arguments;
mod check;
mod findings;
mod measured;
mod order;
mod output;
mod packed;
mod plan;
mod results;
mod section;
mod sheets;
mod stakes;
mod station;

use arguments::{Arguments, Command};
use clap::Parser as _;
use output::Status;
use std::process::ExitCode;

fn main() -> ExitCode {
    let done = match Arguments::parse().command {
        Command::Check(asked) => check::check(&asked),
        Command::Section(asked) => section::section(&asked),
        Command::Plan(asked) => plan::plan(&asked),
        Command::Results(asked) => results::results(&asked),
        Command::Order(asked) => order::order(&asked),
        Command::Stakes(asked) => stakes::stakes(&asked),
        Command::Sheets(asked) => sheets::sheets(&asked),
        Command::Agreement(asked) => agreement::agreement(&asked),
        Command::Pack(asked) => packed::packed(&asked),
        Command::Unpack(asked) => packed::unpacked(&asked),
        Command::Causes => output::say(underbrick_records::BUILT_IN_CAUSES).map(|()| Status::Fine),
        Command::Letterhead => {
            output::say(underbrick_records::STARTER_LETTERHEAD).map(|()| Status::Fine)
        }
        Command::Prices => output::say(underbrick_records::BUILT_IN_PRICES).map(|()| Status::Fine),
    };
    let status = done.unwrap_or_else(|error| {
        output::complain(&format!("underbrick: {error:#}"));
        Status::BadInput
    });
    status.into()
}
