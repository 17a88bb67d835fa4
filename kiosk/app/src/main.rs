//! The program `evenhand`: the station, and the voter's window.

use std::process::ExitCode;

fn main() -> ExitCode {
    evenhand_app::command_line::run()
}
