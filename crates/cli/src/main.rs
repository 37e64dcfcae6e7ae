//! The command line `layshaft`: the same computation as the page, on the same files, for scripts and terminals.
//!
//! Text for people by default, `--json` for programs. Exit status: 0 done, 1 the layout has errors (each printed with its
//! path), 2 wrong usage. A layout that is valid but cannot move is a result, not an error.

mod commands;
mod failure;
mod find;
mod json;
mod run;
mod sweep;
mod text;

use std::process::ExitCode;

use clap::{Parser, Subcommand};

/// Computes small drivetrains: exact ratios, torque, power and loss along every connection.
#[derive(Parser)]
#[command(name = "layshaft", version, arg_required_else_help = true)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Solve a layout in all its shift positions.
    Solve(commands::Solve),
    /// Vary one or two inputs over their ranges.
    Sweep(sweep::Sweep),
    /// Run a layout in time: along a course, up a rope.
    Run(run::RunCommand),
    /// Find trains of gears for a ratio, from the gears at hand.
    Find(find::Find),
    /// Check layout files and print every error with its path.
    Check(commands::Check),
    /// Print the JSON Schema of the layout file.
    Schema,
    /// Print a link that holds the whole layout.
    Link(commands::Link),
    /// Print the layout that a link holds.
    Unlink(commands::Unlink),
}

fn main() -> ExitCode {
    let done = match Arguments::parse().command {
        Command::Solve(solve) => solve.run(),
        Command::Sweep(sweep) => sweep.run(),
        Command::Run(run) => run.run(),
        Command::Find(find) => find.run(),
        Command::Check(check) => check.run(),
        Command::Schema => commands::schema(),
        Command::Link(link) => link.run(),
        Command::Unlink(unlink) => unlink.run(),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => failure.report(),
    }
}
