//! The project's own commands: `cargo xtask build`, `serve`, `ci`, `test`, `bench`, `shots`.
//!
//! One file per command. A command reads its arguments here, does its work there, and answers a failure with one
//! sentence that says what to do. Nothing of the product lives in this crate and nothing depends on it.

use std::process::ExitCode;

mod build;
mod compress;
mod page;
mod serve;
mod wasm_target;
mod workspace;

const HELP: &str = "\
Usage: cargo xtask <command> [options]

  build [--dev]             make dist/, the static files of the page
  serve [--dev] [--port N] [--no-build]
                            build, then serve dist/ on 127.0.0.1 (default port 8017)

  --dev builds faster and without compression; the page is larger and slower.
";

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> anyhow::Result<()> {
    let arguments = Arguments::read()?;
    match arguments.command.as_str() {
        "build" => build::build(arguments.profile),
        "serve" => serve::serve(&arguments),
        "help" => {
            print!("{HELP}");
            Ok(())
        }
        unknown => anyhow::bail!("there is no command “{unknown}”; `cargo xtask help` lists them"),
    }
}

/// What the command line asked for; each command reads the fields it knows.
struct Arguments {
    command: String,
    profile: build::Profile,
    port: u16,
    build_first: bool,
}

impl Arguments {
    fn read() -> anyhow::Result<Self> {
        use lexopt::prelude::*;
        let mut found = Self {
            command: String::new(),
            profile: build::Profile::Web,
            port: serve::USUAL_PORT,
            build_first: true,
        };
        let mut parser = lexopt::Parser::from_env();
        while let Some(argument) = parser.next()? {
            match argument {
                Long("dev") => found.profile = build::Profile::Dev,
                Long("port") => found.port = parser.value()?.parse()?,
                Long("no-build") => found.build_first = false,
                Long("help") | Short('h') => found.command = "help".to_owned(),
                Value(word) if found.command.is_empty() => found.command = word.string()?,
                other => return Err(other.unexpected().into()),
            }
        }
        if found.command.is_empty() {
            found.command = "help".to_owned();
        }
        Ok(found)
    }
}
